//! The first screen: who works, how it counts, which exercise, and what to know before.

use bevy_egui::egui::{CentralPanel, Frame, Margin, RichText, ScrollArea, TextEdit, Ui};
use switchdrop::{
    exercise::{Limits, names_are_clean},
    wording::cautions,
};

use super::{
    Options, bench,
    desk::{Desk, Intent},
    theme,
    view::{Said, Tone},
};
use crate::journal::Shelf;

/// What the learner fills in.
#[derive(Debug)]
pub struct Form {
    /// The learner's name.
    pub name: String,
    /// What stands for it where none is given.
    pub nobody: String,
    /// Practice; else set work.
    pub practice: bool,
}

impl Default for Form {
    fn default() -> Self {
        Self { name: String::new(), nobody: String::new(), practice: true }
    }
}

/// Draws it.
pub fn show(ui: &mut Ui, desk: &mut Desk<'_>, shelf: &Shelf, form: &mut Form, options: &Options, said: &Said) {
    let frame = Frame::new().fill(theme::PAPER).inner_margin(Margin::symmetric(40, 28));
    CentralPanel::default().frame(frame).show(ui, |ui| {
        ScrollArea::vertical().auto_shrink(false).show(ui, |ui| {
            ui.set_max_width(860.0);
            ui.heading(RichText::new(desk.say("window-title", &[])).size(30.0).strong());
            ui.label(desk.say("window-purpose", &[]));
            ui.add_space(12.0);
            if said.tone != Tone::Plain {
                bench::banner(ui, said);
            }
            fill_in(ui, desk, form);
            ui.add_space(14.0);
            exercises(ui, desk, shelf);
            ui.add_space(14.0);
            desk.heading(ui, "cautions-heading");
            for (index, it) in cautions(desk.wording).iter().enumerate() {
                ui.label(RichText::new(format!("{}.  {it}", index + 1)).color(theme::QUIET));
            }
            ui.add_space(10.0);
            let path = options.attempts.display().to_string();
            desk.quiet(ui, &desk.say("window-kept-in", &[("path", &path)]));
            let text = desk.say("window-scale", &[]);
            if desk.button(ui, "scale", &text) {
                desk.intents.push(Intent::Scale);
            }
        });
    });
}

fn fill_in(ui: &mut Ui, desk: &mut Desk<'_>, form: &mut Form) {
    if form.nobody.is_empty() {
        form.nobody = desk.say("window-nobody", &[]);
    }
    ui.horizontal(|ui| {
        let text = desk.say("window-name", &[]);
        let label = ui.label(&text);
        let edit = TextEdit::singleline(&mut form.name).char_limit(Limits::NAME_CHARS).desired_width(260.0);
        let response = ui.add(edit).labelled_by(label.id);
        desk.touchable(ui, &response, "name", &text);
    });
    // What a name may not hold would only be refused later.
    form.name.retain(|it| it == ' ' || names_are_clean(it.encode_utf8(&mut [0; 4]), 1));
    ui.horizontal(|ui| {
        ui.label(desk.say("window-counts", &[]));
        let (practice, set) = (desk.say("window-practice", &[]), desk.say("window-set", &[]));
        if desk.choice(ui, form.practice, "practice", &practice) {
            form.practice = true;
        }
        if desk.choice(ui, !form.practice, "set", &set) {
            form.practice = false;
        }
    });
    desk.quiet(
        ui,
        &if form.practice { desk.say("window-practice-means", &[]) } else { desk.say("window-set-means", &[]) },
    );
}

fn exercises(ui: &mut Ui, desk: &mut Desk<'_>, shelf: &Shelf) {
    desk.heading(ui, "window-choose");
    for (place, it) in shelf.exercises.iter().enumerate() {
        let scenario = &it.scenario;
        Frame::group(ui.style()).fill(theme::PANEL).inner_margin(12).show(ui, |ui| {
            ui.set_width(820.0);
            ui.label(RichText::new(&scenario.title).strong().size(18.0));
            desk.quiet(ui, &scenario.place);
            ui.label(&scenario.brief);
            let text = desk.say("window-begin", &[("title", &scenario.title)]);
            if desk.main_button(ui, &format!("begin:{}", scenario.id), &text) {
                desk.intents.push(Intent::Begin(place));
            }
        });
    }
    for it in &shelf.left_out {
        ui.label(RichText::new(it.say(desk.wording)).color(theme::WARNING));
    }
}
