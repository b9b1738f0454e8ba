//! The bars above and beneath: the job, the places to look at, undo, text size, what was said last.

use bevy_egui::egui::{Frame, Label, Margin, RichText, Stroke, Ui, vec2};
use switchdrop::{exercise::LocationId, marking::may_hint, work::Action};

use super::{
    desk::{Desk, Intent, Scaling},
    session::{ReadOnly, Session},
    start::harmless,
    theme,
    view::{Said, Sight, Tone, View},
};

/// The job, whole.
pub fn job(ui: &mut Ui, desk: &Desk<'_>, session: &Session) {
    let exercise = session.attempt.work().exercise();
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing = vec2(6.0, 0.0);
        let path = desk.say("window-file", &[("path", &harmless(&session.path.display().to_string()))]);
        ui.label(theme::bold(&exercise.title)).on_hover_text(path);
        ui.label(RichText::new(&exercise.brief).small());
        let text = desk.say("window-learner", &[("learner", &session.learner)]);
        ui.label(RichText::new(text).small().color(theme::QUIET));
    });
}

/// The places to look at.
pub fn places(ui: &mut Ui, desk: &mut Desk<'_>, session: &Session, view: &View, marked: bool) {
    let exercise = session.attempt.work().exercise();
    ui.horizontal_wrapped(|ui| {
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
        if exercise.has_test_sheet() {
            let text = desk.say("window-tests", &[]);
            if desk.choice(ui, view.at == Sight::Tests, "go:tests", &text) {
                desk.intents.push(Intent::Go(Sight::Tests));
            }
        }
        if marked {
            let text = desk.say("window-to-sheet", &[]);
            if desk.main_button(ui, "sheet", &text) {
                desk.intents.push(Intent::Sheet);
            }
        }
    });
}

/// Undo, text size, help, the way out; and what was said last.
pub fn foot(ui: &mut Ui, desk: &mut Desk<'_>, session: &Session, view: &View) {
    ui.horizontal(|ui| {
        if !session.is_over() {
            let (undo, redo) = (desk.say("window-undo", &[]), desk.say("window-redo", &[]));
            if desk.button_if(ui, session.attempt.can_undo(), "undo", &undo) {
                desk.act(Action::Undo);
            }
            if desk.button_if(ui, session.attempt.can_redo(), "redo", &redo) {
                desk.act(Action::Redo);
            }
            let text = desk.say("window-hint", &[]);
            if may_hint(session.attempt.work().exercise(), session.mode) && desk.button(ui, "hint", &text) {
                desk.act(Action::Hint);
            }
        }
        common(ui, desk);
        let text = desk.say("window-leave", &[]);
        if desk.button(ui, "leave", &text) {
            desk.intents.push(Intent::Leave);
        }
        banner(ui, &view.said);
    });
}

/// What every screen has: text size and help.
pub fn common(ui: &mut Ui, desk: &mut Desk<'_>) {
    let text = desk.say("window-scale", &[]);
    if desk.button(ui, "scale", &text) {
        desk.intents.push(Intent::Scale(Scaling::Round));
    }
    let text = desk.say("window-help", &[]);
    if desk.button(ui, "help", &text) {
        desk.intents.push(Intent::Help);
    }
}

/// Why an attempt can only be read.
pub const fn read_only_key(why: ReadOnly) -> &'static str {
    match why {
        ReadOnly::InUse => "window-in-use",
        ReadOnly::NotOurs => "window-not-ours",
    }
}

/// What was said last, in its tone: a word before it says how it is meant, so that colour is not the only sign.
pub fn banner(ui: &mut Ui, said: &Said) {
    if said.text.is_empty() {
        return;
    }
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
