//! The place in a setting that is asked about: lamps are pressed and conductors painted, and what really happens is laid over that.
//!
//! What is said is seen by a sign, a word and dashes along the core, never as light: the drawing itself tells nothing.

use bevy_egui::egui::{
    Align2, Color32, FontId, Painter, Pos2, Rect, Response, Sense, Shape, Stroke, StrokeKind, Ui, Vec2, pos2, vec2,
};
use switchdrop::{
    exercise::SwitchId,
    picture::{FontWeight, Layer, Outline, Paint, Scene, Thing},
    wording::{position, switch},
};

use super::{
    drawing::{Fit, fitted, paint},
    panel::PanelContext,
    prediction::{answer, step},
    question::{Asked, Question, State},
    session::Session,
    theme, touch,
    view::{Sweep, View},
};

/// How near to a core a click counts as on it, points.
const NEAR: f32 = 8.0;
/// Type on the drawing, points at the normal text size; and where there is room, in the drawing's units.
const LETTERS: f32 = 12.5;
const LETTERS_DRAWN: f32 = 15.0;

/// Draws it.
pub fn draw(
    ui: &mut Ui,
    panel: &mut PanelContext<'_>,
    session: &Session,
    view: &mut View,
    (question, scene): (&Question, &Scene),
) {
    fitted(ui, "foreseen", scene, |ui, fit| {
        let said: Vec<bool> = match answer(session, view, question) {
            Some(it) => it.clone(),
            None => question.asked.iter().map(|it| it.said == Some(true)).collect(),
        };
        let size = (LETTERS * theme::scale_of(ui).max(1.0)).max(LETTERS_DRAWN * fit.scale);
        let cores: Vec<Vec<Pos2>> = question.asked.iter().map(|it| along(scene, fit, it.thing)).collect();
        // Beneath what can be touched, so that a click beside a tag may still be on its core.
        let ground = ui.interact(ui.min_rect(), ui.id().with("cores"), Sense::CLICK);
        let at = ground.hover_pos().filter(|_| answer(session, view, question).is_some());
        let near = at.and_then(|at| nearest(&cores, at));
        paint(ui.painter(), scene, fit, false);
        for (index, (it, points)) in question.asked.iter().zip(&cores).enumerate() {
            // Over a core that is as was said nothing is laid but that.
            let is_wrong = it.is_right() == Some(false);
            if it.is == Some(State::Live(true)) {
                lives(ui.painter(), points, fit.scale, (index, is_wrong));
            }
            if said[index] && (it.is.is_none() || is_wrong) {
                painted(ui.painter(), points, fit.scale);
            }
            if near == Some(index) {
                ui.painter().add(Shape::line(points.clone(), Stroke::new(2.0, theme::ACCENT)));
            }
        }
        paint(ui.painter(), scene, fit, true);
        if let Some(index) = near.filter(|_| ground.clicked()) {
            says(session, view, question, index, &ground);
        }
        for spot in &scene.spots {
            if let Thing::Switch(it) = spot.thing {
                rocker(ui, panel, view, question, it, fit.rect(spot.rect));
            }
        }
        let targets: Vec<Rect> =
            question.asked.iter().filter_map(|it| scene.spot(it.thing)).map(|it| fit.rect(it.rect)).collect();
        for (index, it) in question.asked.iter().enumerate() {
            let Some(rect) = scene.spot(it.thing).map(|it| fit.rect(it.rect)) else { continue };
            if answer(session, view, question).is_some() {
                let response = target(ui, panel, question, (index, it), said[index], rect);
                if response.clicked() {
                    says(session, view, question, index, &response);
                }
            }
            marks(ui, panel, (index, it), said[index], (rect, size));
        }
        sweeps(ui, session, view, question, |at| {
            let tag = |it: &Asked| scene.spot(it.thing).is_some_and(|it| fit.rect(it.rect).contains(at));
            question.asked.iter().position(tag).or_else(|| nearest(&cores, at))
        });
        let words = scene.shapes.iter().filter_map(|it| match &it.outline {
            Outline::Text(it) => Some(fit.rect(it.bounds())),
            _ => None,
        });
        let words: Vec<Rect> = words.collect();
        // Last, over everything.
        for it in question.asked.iter().filter(|it| it.is_right() == Some(false)) {
            if let Some(rect) = scene.spot(it.thing).map(|it| fit.rect(it.rect)) {
                flag(ui, panel, it, (rect, size), [&targets, &words]);
            }
        }
    });
}

/// A click on something that is asked about: it is said, or taken back. The second half of a double click takes nothing back.
fn says(session: &Session, view: &mut View, question: &Question, index: usize, response: &Response) {
    let again = view.said_on == Some(index) && (response.double_clicked() || response.triple_clicked());
    view.said_on = Some(index);
    if let Some(value) = answer(session, view, question).and_then(|it| it.get_mut(index)).filter(|_| !again) {
        *value = !*value;
        response.ctx.request_repaint();
    }
}

/// The button held and moved: everything that the pointer passes is said, as what it began on is; over something that was said already,
/// all of it is taken back. A press that stays on one thing is a click and no sweep.
fn sweeps(ui: &Ui, session: &Session, view: &mut View, question: &Question, under: impl Fn(Pos2) -> Option<usize>) {
    let (is_down, origin, to) =
        ui.input(|it| (it.pointer.primary_down(), it.pointer.press_origin(), it.pointer.latest_pos()));
    let before = view.sweep.take();
    let (Some(origin), Some(to), true) = (origin.filter(|it| ui.clip_rect().contains(*it)), to, is_down) else {
        return;
    };
    let Some(answer) = answer(session, view, question) else { return };
    let begun = || under(origin).map(|from| Sweep { says: !answer[from], from, to: origin });
    let Some(sweep) = before.or_else(begun) else { return };
    // In slow frames the pointer leaps: what lies on its way is passed too.
    let length = (to - sweep.to).length();
    let mut gone = 0.0;
    while gone < length {
        gone = (gone + NEAR / 2.0).min(length);
        let passed = under(sweep.to.lerp(to, gone / length));
        if let Some(passed) = passed.filter(|it| *it != sweep.from) {
            (answer[sweep.from], answer[passed]) = (sweep.says, sweep.says);
            ui.ctx().request_repaint();
        }
    }
    view.sweep = Some(Sweep { to, ..sweep });
}

/// The way of a core on the screen.
pub fn along(scene: &Scene, fit: &Fit, thing: Thing) -> Vec<Pos2> {
    // A core is drawn several times over, in its outline and its colour: once is enough here.
    let is_core = |it: &&switchdrop::picture::Shape| {
        let in_colour = it.stroke.is_some_and(|it| matches!(it.paint, Paint::Conductor(_)));
        it.layer == Layer::Conductors && it.about == Some(thing) && in_colour
    };
    match scene.shapes.iter().find(is_core).map(|it| &it.outline) {
        Some(Outline::Path(path)) => path.flattened().into_iter().map(|it| fit.point(it)).collect(),
        _ => Vec::new(),
    }
}

/// The core that a place is on, if it is on one.
pub fn nearest(cores: &[Vec<Pos2>], at: Pos2) -> Option<usize> {
    let apart = |points: &Vec<Pos2>| {
        let pieces = points.windows(2).map(|it| {
            let (way, to) = (it[1] - it[0], at - it[0]);
            let part = (to.dot(way) / way.length_sq().max(f32::EPSILON)).clamp(0.0, 1.0);
            (to - way * part).length()
        });
        pieces.fold(f32::INFINITY, f32::min)
    };
    let all = cores.iter().map(apart).enumerate();
    all.min_by(|a, b| a.1.total_cmp(&b.1)).filter(|it| it.1 <= NEAR).map(|it| it.0)
}

/// A rocker leads to the setting in which it is the other way.
fn rocker(ui: &Ui, panel: &mut PanelContext<'_>, view: &mut View, question: &Question, of: SwitchId, rect: Rect) {
    let Some(to) = question.with_moved(of.index()) else { return };
    let exercise = question.work.exercise();
    let at = question.positions.get(of.index()).copied().unwrap_or(0);
    let (name, stands) = (switch(panel.wording, exercise, of), position(panel.wording, exercise, of, at));
    let name = panel.say("window-switch", &[("switch", &name), ("rocker", &stands)]);
    let response = panel.spot(ui, &touch::key(Thing::Switch(of), &exercise.switches[of].address), &name, rect);
    outlined(ui, &response, 0.0);
    if response.clicked() {
        step(view, to);
    }
    response.on_hover_text(name);
}

/// Something that can be pressed, with its name and what is said of it so far.
fn target(
    ui: &Ui,
    panel: &mut PanelContext<'_>,
    question: &Question,
    (index, asked): (usize, &Asked),
    said: bool,
    rect: Rect,
) -> Response {
    let word = panel.say(State::said(asked.thing, true).key(), &[]);
    let key = if said { "window-foreseen-said" } else { "window-foreseen-press" };
    let name = format!("{}  {}", index + 1, panel.say(key, &[("thing", &asked.name), ("said", &word)]));
    let response = panel.spot(ui, &format!("say:{}:{}", question.number, asked.address), &name, rect);
    panel.is_on(said);
    outlined(ui, &response, 1.5);
    response.on_hover_text(name)
}

fn outlined(ui: &Ui, response: &Response, at_rest: f32) {
    let width = if response.has_focus() || response.hovered() { 3.0 } else { at_rest };
    if width > 0.0 {
        ui.painter().rect_stroke(response.rect, 6, Stroke::new(width, theme::ACCENT), StrokeKind::Outside);
    }
}

/// Its number, what is said of it, and once it may be told whether that is right.
fn marks(ui: &Ui, panel: &PanelContext<'_>, (index, asked): (usize, &Asked), said: bool, (rect, size): (Rect, f32)) {
    let painter = ui.painter();
    let radius = size * 0.78;
    let bold = FontId::new(size, theme::family(FontWeight::Bold));
    let disc = |at: Pos2, text: &str, ink: theme::Role, ground: theme::Role| {
        painter.circle(at, radius, ground, Stroke::new(1.5, ink));
        painter.text(at, Align2::CENTER_CENTER, text, bold.clone(), ink.worn());
    };
    if asked.is_right() == Some(false) {
        painter.rect_stroke(rect, 6, Stroke::new(3.0, theme::WARNING), StrokeKind::Outside);
    }
    disc(rect.left_top() + vec2(0.0, 1.0), &(index + 1).to_string(), theme::ACCENT, theme::PAPER);
    match asked.is_right() {
        Some(true) => disc(rect.right_top() + vec2(0.0, 1.0), "✔", theme::GOOD, theme::PAPER),
        Some(false) => disc(rect.right_top() + vec2(0.0, 1.0), "×", theme::WARNING, theme::WARNING_GROUND),
        None => {}
    }
    // Within a tag beneath its letters, beneath a lamp where it would be called lit.
    let is_lamp = matches!(asked.thing, Thing::Lamp(_));
    let at = rect.center_bottom() + vec2(0.0, size * if is_lamp { 0.4 } else { -0.75 });
    match asked.is {
        // The picture says it of a lamp.
        Some(_) if is_lamp => {}
        Some(it) => plate(painter, at, &panel.say(it.key(), &[]), bold, (theme::INK.worn(), theme::of(Paint::Plate))),
        None if said => {
            let word = panel.say(State::said(asked.thing, true).key(), &[]);
            plate(painter, at, &format!("✔ {word}"), bold, (theme::PAPER.worn(), theme::ACCENT.worn()));
        }
        None => {
            painter.circle(at, size * 0.4, theme::PAPER, Stroke::new(1.5, theme::QUIET));
        }
    }
}

/// A word on a small plate.
fn plate(painter: &Painter, at: Pos2, text: &str, font: FontId, (ink, ground): (Color32, Color32)) {
    let galley = painter.layout_no_wrap(text.to_owned(), font, ink);
    let area = Rect::from_center_size(at, galley.size() + vec2(6.0, 0.0));
    painter.rect_filled(area, 4, ground);
    painter.galley(area.min + vec2(3.0, 0.0), galley, ink);
}

/// What was said and what is so, beside the thing, clear of the other targets if there is room.
fn flag(ui: &Ui, panel: &PanelContext<'_>, asked: &Asked, (rect, size): (Rect, f32), [targets, words]: [&[Rect]; 2]) {
    let (Some(said), Some(is)) = (asked.said, asked.is) else { return };
    let said = panel.say(State::said(asked.thing, said).key(), &[]);
    let is = panel.say(is.key(), &[]);
    let text = panel.say("window-foreseen-flag", &[("said", &said), ("is", &is)]);
    let painter = ui.painter();
    let font = FontId::new(size, theme::family(FontWeight::Bold));
    let galley = painter.layout(text, font, theme::WARNING.worn(), size * 7.5);
    let high = galley.size() + vec2(10.0, 6.0);
    let room = ui.clip_rect().shrink(4.0);
    let beside = |(x, y): (f32, f32), away: f32| {
        let centre = rect.center() + vec2(x, y) * (rect.size() / 2.0 + high / 2.0 + Vec2::splat(away));
        let least = Rect::from_center_size(centre, high).min;
        let (x, y) = (least.x.min(room.right() - high.x), least.y.min(room.bottom() - high.y));
        Rect::from_min_size(pos2(x.max(room.left()), y.max(room.top())), high)
    };
    let ways = [(0.0, 1.0), (0.0, -1.0), (1.0, 0.0), (-1.0, 0.0), (1.0, 1.0), (-1.0, 1.0), (1.0, -1.0), (-1.0, -1.0)];
    let spots = [8.0, 26.0, 60.0, 100.0].into_iter().flat_map(|away| ways.map(|it| beside(it, away)));
    // Over a target never if it can be helped, over words rather not.
    let covers = |it: &Rect, all: &[Rect]| all.iter().filter(|other| other.expand(3.0).intersects(*it)).count();
    let Some(area) = spots.min_by_key(|it| 10 * covers(it, targets) + covers(it, words)) else { return };
    painter.line_segment([rect.clamp(area.center()), area.clamp(rect.center())], Stroke::new(2.0, theme::WARNING));
    painter.rect(area, 5, theme::WARNING_GROUND, Stroke::new(2.0, theme::WARNING), StrokeKind::Outside);
    painter.galley(area.min + vec2(5.0, 3.0), galley, theme::WARNING.worn());
}

/// A core that is said to be live: broad dashes, each with a light edge so that it is seen on every colour.
fn painted(painter: &Painter, points: &[Pos2], scale: f32) {
    for (width, ink) in [(8.0, theme::PAPER), (5.5, theme::ACCENT)] {
        painter.extend(Shape::dashed_line(points, Stroke::new((width * scale).max(3.0), ink), 12.0, 7.0));
    }
}

/// A core that is live: short ticks across it, not at one height with those of the core beside it; a glow too where that was not said.
fn lives(painter: &Painter, points: &[Pos2], scale: f32, (index, glows): (usize, bool)) {
    if glows {
        let [r, g, b, _] = theme::WARNING.worn().to_array();
        painter.add(Shape::line(points.to_vec(), Stroke::new(12.0 * scale, theme::veiled([r, g, b], 110))));
    }
    let mut at = 8.0 + 9.0 * (index % 2) as f32;
    for it in points.windows(2) {
        let (way, length) = (it[1] - it[0], (it[1] - it[0]).length());
        let aside = vec2(-way.y, way.x) / length.max(f32::EPSILON) * 5.0 * scale;
        while at < length {
            let middle = it[0] + way * (at / length);
            for (width, ink) in [(3.0, theme::PAPER), (1.5, theme::WARNING)] {
                painter.line_segment([middle - aside, middle + aside], Stroke::new(width, ink));
            }
            at += 18.0;
        }
        at -= length;
    }
}
