//! The screen of the work: the drawing in the middle, what to do beside it, what was said last beneath it.

use bevy_egui::egui::{
    CentralPanel, Frame, Key, Label, Margin, Panel, Rect, RichText, ScrollArea, Sense, Stroke, StrokeKind, Ui, pos2,
    vec2,
};
use switchdrop::{
    exercise::{LocationId, SwitchId},
    picture::{Scene, Spot, Thing},
    wording::place,
    work::{Action, Work},
};

use super::{
    desk::{Desk, Intent},
    drawing::{Fit, paint},
    prediction, probes,
    session::Session,
    theme, todo, tools,
    view::{Hand, Said, Sight, Tone, View},
};

/// The drawing is never shown smaller than this, so that its text stays legible; it scrolls instead.
const LEAST: f32 = 0.66;
const MOST: f32 = 1.5;
/// Width of what stands beside the drawing, at the normal text size.
const BESIDE: f32 = 372.0;
/// Height that the brief may take before it scrolls.
const BRIEF: f32 = 176.0;

/// Draws it.
pub fn show(ui: &mut Ui, desk: &mut Desk<'_>, session: &Session, view: &mut View, scene: Option<&Scene>, marked: bool) {
    let edge = Frame::new().fill(theme::PANEL).inner_margin(Margin::symmetric(12, 8));
    Panel::top("where").frame(edge).show(ui, |ui| where_bar(ui, desk, session, view, marked));
    Panel::bottom("said").frame(edge).show(ui, |ui| said_bar(ui, desk, session, view));
    Panel::right("beside").frame(edge).resizable(false).exact_size(BESIDE * theme::scale_of(ui).min(1.25)).show(
        ui,
        |ui| {
            // The job, the stage and what comes next stay in view; what is between them scrolls.
            Panel::bottom("job").frame(Frame::new().inner_margin(Margin { top: 6, ..Margin::ZERO })).show(ui, |ui| {
                let exercise = session.attempt.work().exercise();
                desk.heading(ui, "window-brief");
                ScrollArea::vertical().id_salt("job").max_height(BRIEF).show(ui, |ui| {
                    ui.label(RichText::new(&exercise.brief).small());
                    let path = session.path.display().to_string();
                    desk.quiet(ui, &desk.say("window-learner", &[("learner", &session.learner), ("path", &path)]));
                });
            });
            let lines = todo::lines(desk, &session.attempt);
            Panel::top("next").frame(Frame::new().inner_margin(Margin { bottom: 6, ..Margin::ZERO })).show(ui, |ui| {
                todo::next(ui, desk, &lines);
            });
            ScrollArea::vertical().auto_shrink(false).show(ui, |ui| {
                ui.add_space(4.0);
                tools::show(ui, desk, session, view);
                ui.separator();
                todo::rest(ui, desk, &lines);
            });
        },
    );
    CentralPanel::default().frame(Frame::new().fill(theme::PAPER)).show(ui, |ui| {
        if view.at == Sight::Prediction {
            prediction::show(ui, desk, session, view);
        } else if let Some(scene) = scene {
            draw(ui, desk, session, view, scene);
        }
    });
    if ui.input(|it| it.key_pressed(Key::Escape)) {
        view.selected = None;
    }
}

fn where_bar(ui: &mut Ui, desk: &mut Desk<'_>, session: &Session, view: &View, marked: bool) {
    let exercise = session.attempt.work().exercise();
    ui.horizontal_wrapped(|ui| {
        ui.label(RichText::new(&exercise.title).strong());
        ui.separator();
        let text = desk.say("window-place", &[]);
        if desk.choice(ui, view.at == Sight::Place, "go:place", &text) {
            desk.intents.push(Intent::Go(Sight::Place));
        }
        for (index, it) in exercise.locations.iter().enumerate() {
            let sight = Sight::Location(LocationId(index as u16));
            if desk.choice(ui, view.at == sight, &format!("go:{}", it.id), &it.name) {
                desk.intents.push(Intent::Go(sight));
            }
        }
        let text = desk.say("window-prediction", &[]);
        if desk.choice(ui, view.at == Sight::Prediction, "go:prediction", &text) {
            desk.intents.push(Intent::Go(Sight::Prediction));
        }
        if marked {
            let text = desk.say("window-to-sheet", &[]);
            if desk.main_button(ui, "sheet", &text) {
                desk.intents.push(Intent::Sheet);
            }
        }
    });
}

fn said_bar(ui: &mut Ui, desk: &mut Desk<'_>, session: &Session, view: &View) {
    ui.horizontal(|ui| {
        let (undo, redo) = (desk.say("window-undo", &[]), desk.say("window-redo", &[]));
        if desk.button_if(ui, session.attempt.can_undo(), "undo", &undo) {
            desk.act(Action::Undo);
        }
        if desk.button_if(ui, session.attempt.can_redo(), "redo", &redo) {
            desk.act(Action::Redo);
        }
        let text = desk.say("window-scale", &[]);
        if desk.button(ui, "scale", &text) {
            desk.intents.push(Intent::Scale);
        }
        let text = desk.say("window-leave", &[]);
        if desk.button(ui, "leave", &text) {
            desk.intents.push(Intent::Leave);
        }
        banner(ui, &view.said);
    });
}

/// What was said last, in its tone: a word before it says how it is meant, so that colour is not the only sign.
pub fn banner(ui: &mut Ui, said: &Said) {
    let (ink, ground, sign) = match said.tone {
        Tone::Plain => (theme::INK, theme::PAPER, ""),
        Tone::No => (theme::WARNING, theme::PAPER, "×  "),
        Tone::Stopped => (theme::WARNING, theme::WARNING_GROUND, "⚠  "),
    };
    let stroke = if said.tone == Tone::Stopped { Stroke::new(2.0, theme::WARNING) } else { Stroke::NONE };
    Frame::new().fill(ground).stroke(stroke).corner_radius(4).inner_margin(Margin::symmetric(8, 4)).show(ui, |ui| {
        ui.set_width(ui.available_width());
        ui.add(Label::new(RichText::new(format!("{sign}{}", said.text)).color(ink)).wrap());
    });
}

fn draw(ui: &mut Ui, desk: &mut Desk<'_>, session: &Session, view: &mut View, scene: &Scene) {
    let room = ui.available_size();
    let fit = (room.x / scene.width.max(1.0)).min(room.y / scene.height.max(1.0)).clamp(LEAST, MOST);
    let size = vec2(scene.width, scene.height) * fit;
    ScrollArea::both().auto_shrink(false).show(ui, |ui| {
        let (whole, _) = ui.allocate_exact_size(size.max(room - vec2(14.0, 14.0)), Sense::hover());
        let fit = Fit { origin: whole.min + (whole.size() - size) / 2.0, scale: fit };
        paint(ui.painter(), scene, &fit);
        for spot in &scene.spots {
            let rect = fit.rect(spot.rect);
            touch(ui, desk, session, view, spot, rect);
        }
        probes_on(ui, session, view, scene, &fit);
        if view.hand == Hand::Tools {
            pick_up(ui, view, scene, &fit);
        }
        drag(ui, desk, session, view, scene, &fit);
    });
}

/// Takes up the end where the button was pressed. It goes by the place of the press: when frames are slow, egui sees
/// press and movement at once and takes what the pointer has reached by then for what was pressed.
fn pick_up(ui: &Ui, view: &mut View, scene: &Scene, fit: &Fit) {
    let (origin, dragging) = ui.input(|it| (it.pointer.press_origin(), it.pointer.is_decidedly_dragging()));
    let Some(at) = origin.filter(|it| dragging && ui.clip_rect().contains(*it)) else { return };
    if view.dragged.is_some() {
        return;
    }
    let under = scene.spots.iter().find(|it| fit.rect(it.rect).contains(at));
    if let Some(Spot { thing: Thing::End(end), .. }) = under {
        view.selected = Some(Thing::End(*end));
        view.dragged = Some(*end);
    }
}

/// A spot's key: its address, and before it what kind of thing it is where addresses of several kinds are alike.
pub fn key(thing: Thing, address: &str) -> String {
    match thing {
        Thing::Location(_) => format!("location:{address}"),
        Thing::Switch(_) => format!("switch:{address}"),
        Thing::Lamp(_) => format!("lamp:{address}"),
        Thing::Terminal(_) | Thing::End(_) | Thing::Device(_) => address.to_owned(),
    }
}

fn touch(ui: &Ui, desk: &mut Desk<'_>, session: &Session, view: &mut View, spot: &Spot, rect: Rect) {
    let work = session.attempt.work();
    let name = tools::name(desk.wording, work, spot.thing);
    let response = desk.spot(ui, &key(spot.thing, &spot.address), &name, rect);
    let probed = view.probes.iter().flatten().any(|it| *it == spot.address);
    desk.is_on(view.selected == Some(spot.thing) || probed);
    let painter = ui.painter();
    if view.selected == Some(spot.thing) {
        painter.rect_stroke(rect.expand(2.0), 4, Stroke::new(3.0, theme::ACCENT), StrokeKind::Outside);
    } else if response.has_focus() {
        painter.rect_stroke(rect.expand(1.0), 4, Stroke::new(2.5, theme::ACCENT), StrokeKind::Outside);
    } else if response.hovered() {
        painter.rect_stroke(rect, 4, Stroke::new(1.5, theme::ACCENT), StrokeKind::Outside);
    }
    if response.clicked() {
        clicked(desk, work, view, spot.thing);
    }
    response.on_hover_text(name);
}

/// What a click on a thing does.
fn clicked(desk: &mut Desk<'_>, work: &Work, view: &mut View, thing: Thing) {
    match thing {
        Thing::Location(it) if view.at != Sight::Location(it) => desk.intents.push(Intent::Go(Sight::Location(it))),
        Thing::Switch(it) => {
            view.selected = Some(thing);
            desk.act(flip(work, it));
        }
        Thing::Terminal(_) | Thing::End(_) if view.hand != Hand::Tools => {
            view.selected = Some(thing);
            view.place_probe(probes::address(work, thing));
        }
        Thing::Terminal(to) => match view.held(work) {
            Some(end) => {
                desk.act(connect(work, end, to));
                view.selected = Some(thing);
            }
            None => view.selected = Some(thing),
        },
        _ => view.selected = Some(thing),
    }
}

/// The next position of a switch.
pub fn flip(work: &Work, switch: SwitchId) -> Action {
    let exercise = work.exercise();
    let it = &exercise.switches[switch.index()];
    let position = (usize::from(work.positions()[switch.index()]) + 1) % it.way.positions();
    Action::Operate { switch: it.address.clone(), position: position as u8 }
}

fn connect(work: &Work, end: switchdrop::exercise::EndId, to: switchdrop::exercise::TerminalId) -> Action {
    let terminal = work.exercise().terminals[to.index()].address.clone();
    Action::Connect { end: work.end_address(end), terminal }
}

/// An end on its way, and where it was let go.
fn drag(ui: &Ui, desk: &mut Desk<'_>, session: &Session, view: &mut View, scene: &Scene, fit: &Fit) {
    let Some(end) = view.dragged else { return };
    let work = session.attempt.work();
    let from = scene.spot(Thing::End(end)).map(|it| fit.rect(it.rect).center());
    if let (Some(from), Some(to)) = (from, ui.input(|it| it.pointer.latest_pos())) {
        let colour = theme::of(switchdrop::picture::Paint::Conductor(work.end_facts(end).colour));
        ui.painter().line_segment([from, to], Stroke::new(8.0, theme::PAPER));
        ui.painter().line_segment([from, to], Stroke::new(5.0, colour));
        ui.painter().circle_filled(to, 5.0, theme::ACCENT);
    }
    if ui.input(|it| it.pointer.primary_down()) {
        return;
    }
    view.dragged = None;
    let Some(at) = ui.input(|it| it.pointer.latest_pos()) else { return };
    let under = scene.spots.iter().find(|it| fit.rect(it.rect).contains(at)).map(|it| it.thing);
    if let Some(Thing::Terminal(to)) = under {
        let mut actions = Vec::new();
        if work.terminal_of(end).is_some_and(|it| it != to) {
            actions.push(Action::Disconnect { end: work.end_address(end) });
        }
        if work.terminal_of(end) != Some(to) {
            actions.push(connect(work, end, to));
        }
        desk.intents.push(Intent::Act(actions));
    }
}

/// The two probes where they are.
fn probes_on(ui: &Ui, session: &Session, view: &View, scene: &Scene, fit: &Fit) {
    if view.hand == Hand::Tools {
        return;
    }
    let work = session.attempt.work();
    for (index, address) in view.probes.iter().enumerate() {
        let Some(address) = address else { continue };
        let found = scene.spots.iter().find(|it| {
            matches!(it.thing, Thing::Terminal(_) | Thing::End(_)) && probes::address(work, it.thing) == *address
        });
        let Some(spot) = found else { continue };
        let rect = fit.rect(spot.rect);
        let colour = if index == 0 { theme::PROBE_ONE } else { theme::PROBE_TWO };
        let tip = rect.center() + vec2(if index == 0 { -3.0 } else { 3.0 }, 0.0);
        let back = tip + vec2(if index == 0 { -26.0 } else { 26.0 }, -44.0);
        ui.painter().line_segment([tip, back], Stroke::new(9.0, theme::PAPER));
        ui.painter().line_segment([tip, back], Stroke::new(6.0, colour));
        ui.painter().circle(back, 11.0, colour, Stroke::new(1.5, theme::PAPER));
        ui.painter().text(
            pos2(back.x, back.y),
            bevy_egui::egui::Align2::CENTER_CENTER,
            if index == 0 { "1" } else { "2" },
            bevy_egui::egui::FontId::proportional(15.0),
            theme::PAPER,
        );
    }
}

/// A place in words, with nothing where there is none.
pub fn words(desk: &Desk<'_>, work: &Work, address: Option<&String>) -> String {
    address.map_or_else(|| desk.say("window-nowhere", &[]), |it| place(desk.wording, work, it))
}
