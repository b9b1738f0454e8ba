//! The tray along the foot of the drawing: sleeves and tape to put on an end.
//!
//! A sleeve is dragged onto an end, or clicked and then the end; with an unmarked end selected one click puts it on.

use bevy_egui::egui::{Align2, FontId, Painter, Pos2, Rect, Response, Sense, Stroke, StrokeKind, Ui, pos2, vec2};
use switchdrop::{
    exercise::EndId,
    picture::{FontWeight, Paint, Scene, Thing},
    trade::colour::{Colour, Mark},
    wording,
    work::{Action, Work},
};

use super::{
    drawing::Fit,
    panel::{Intent, PanelContext},
    session::Session,
    theme,
    view::{Carried, Hand, Sight, View},
};

/// How large a piece is to the finger, points at the normal text size.
const PIECE: (f32, f32) = (82.0, 40.0);
/// Its letters, points.
const LETTERS: f32 = 14.5;

/// Whether there is a tray: tools in hand at a place that is open and has ends of the learner's.
pub fn is_out(session: &Session, view: &View) -> bool {
    let Sight::Location(at) = view.at else { return false };
    let work = session.attempt.work();
    let open = !work.has_cover(at) || !work.is_covered(at);
    let has_own = work.exercise().learners_places().contains(&at);
    view.hand == Hand::Tools && open && has_own && !session.is_over() && session.read_only().is_none()
}

/// Draws it.
pub fn show(ui: &mut Ui, panel: &mut PanelContext<'_>, session: &Session, view: &mut View) {
    let work = session.attempt.work();
    ui.horizontal(|ui| {
        ui.label(panel.say("window-tray", &[]));
        for colour in Colour::ALL.into_iter().filter(|it| *it != Colour::Bare) {
            let mark = if view.tape { Mark::Tape(colour) } else { Mark::Sleeve(colour) };
            let scale = theme::scale_of(ui).min(1.3);
            let (rect, _) = ui.allocate_exact_size(vec2(PIECE.0, PIECE.1) * scale, Sense::hover());
            let name = wording::mark(panel.wording, mark);
            let response = panel.spot(ui, &format!("tray:{}", colour.word()), &name, rect);
            let in_hand = view.carried.is_some_and(|it| it.mark == mark);
            panel.is_on(in_hand);
            outlined(ui, &response, in_hand);
            tube(ui.painter(), rect.center(), mark, scale.max(0.95));
            if response.clicked() {
                taken(panel, work, view, mark);
            }
            let (origin, dragging) = ui.input(|it| (it.pointer.press_origin(), it.pointer.is_decidedly_dragging()));
            if dragging && view.dragged.is_none() && origin.is_some_and(|it| rect.contains(it)) {
                view.carried = Some(Carried { mark, is_dragged: true });
            }
            response.on_hover_text(name);
        }
    });
}

fn outlined(ui: &Ui, response: &Response, chosen: bool) {
    let width = if chosen || response.has_focus() { 2.5 } else { 1.0 };
    let colour = if chosen || response.has_focus() || response.hovered() { theme::ACCENT } else { theme::HAIR };
    let ground = if chosen { theme::ACCENT_GROUND } else { theme::PAPER };
    ui.painter().rect(response.rect, 6, ground, Stroke::new(width, colour), StrokeKind::Inside);
}

/// One click on a piece: on the end that is selected, or into the hand.
fn taken(panel: &mut PanelContext<'_>, work: &Work, view: &mut View, mark: Mark) {
    match view.selected {
        Some(Thing::End(end)) if work.mark_of(end).is_none() => {
            panel.intents.push(Intent::Act(marks(work, end, mark)));
        }
        _ if view.carried.is_some_and(|it| it.mark == mark) => view.carried = None,
        _ => view.carried = Some(Carried { mark, is_dragged: false }),
    }
}

/// The actions that put a mark on an end: one that it has comes off first.
pub fn marks(work: &Work, end: EndId, mark: Mark) -> Vec<Action> {
    let end_address = work.end_address(end);
    let off = work.mark_of(end).map(|_| Action::Unmark { end: end_address.clone() });
    off.into_iter().chain([Action::Mark { end: end_address, mark }]).collect()
}

/// What was taken from the tray, at the pointer; where it is let go over an end it goes on.
pub fn carried(ui: &Ui, panel: &mut PanelContext<'_>, session: &Session, view: &mut View, scene: &Scene, fit: &Fit) {
    let Some(Carried { mark, is_dragged }) = view.carried else { return };
    let (at, down) = ui.input(|it| (it.pointer.latest_pos(), it.pointer.primary_down()));
    let Some(at) = at else { return };
    let work = session.attempt.work();
    let under = scene.spots.iter().find_map(|it| match it.thing {
        Thing::End(end) if fit.rect(it.rect).contains(at) => Some((end, fit.rect(it.rect))),
        _ => None,
    });
    if let Some((_, rect)) = under {
        ui.painter().rect_stroke(rect.expand(3.0), 5, Stroke::new(3.0, theme::ACCENT), StrokeKind::Outside);
    }
    if ui.clip_rect().expand2(vec2(0.0, 80.0)).contains(at) {
        tube(ui.painter(), at + vec2(0.0, -4.0), mark, 1.0);
    }
    if is_dragged && !down {
        view.carried = None;
        if let Some((end, _)) = under {
            view.selected = Some(Thing::End(end));
            panel.intents.push(Intent::Act(marks(work, end, mark)));
        }
    }
}

/// A piece of sleeving or two turns of tape, with the letters of its colour.
fn tube(painter: &Painter, at: Pos2, mark: Mark, scale: f32) {
    let (colour, halves) = match mark {
        Mark::Sleeve(it) => (it, [(-33.0, 33.0)].as_slice()),
        Mark::Tape(it) => (it, [(-33.0, -14.0), (14.0, 33.0)].as_slice()),
        Mark::Letter(_) => return,
    };
    for (from, to) in halves {
        let area = Rect::from_min_max(at + vec2(*from, -7.0) * scale, at + vec2(*to, 7.0) * scale);
        painter.rect(
            area,
            3,
            theme::of(Paint::Conductor(colour)),
            Stroke::new(1.5, theme::of(Paint::ConductorEdge(colour))),
            StrokeKind::Middle,
        );
        if colour == Colour::GreenYellow {
            let step = 10.0 * scale;
            let mut x = area.left() + step * 0.5;
            while x + step / 2.0 <= area.right() {
                let band = Rect::from_min_max(pos2(x, area.top() + 1.0), pos2(x + step / 2.0, area.bottom() - 1.0));
                painter.rect_filled(band, 0, theme::of(Paint::Stripe));
                x += step;
            }
        }
    }
    let wide = if colour.code().len() > 2 { 46.0 } else { 32.0 };
    let tag = Rect::from_center_size(at, vec2(wide, 18.0) * scale);
    painter.rect(
        tag,
        4,
        theme::of(Paint::Plate),
        Stroke::new(1.0, theme::of(Paint::ConductorEdge(colour))),
        StrokeKind::Middle,
    );
    let font = FontId::new(LETTERS * scale, theme::family(FontWeight::Bold));
    painter.text(at, Align2::CENTER_CENTER, colour.code(), font, theme::INK);
}
