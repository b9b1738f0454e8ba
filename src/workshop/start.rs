//! The first screen: who works, how it counts, which exercise; and the attempts that are there already.

use std::{collections::BTreeMap, path::PathBuf, sync::Arc};

use bevy_egui::egui::{
    Align, CentralPanel, Frame, Label, Layout, Margin, Panel, RichText, ScrollArea, Stroke, TextEdit, TextStyle,
    TextWrapMode, Ui, WidgetText, vec2,
};
use switchdrop::{
    exercise::{Limits, names_are_clean},
    picture::Scene,
    register::Assignment,
    wording::{outcome_key, problem},
};

use super::{
    Options, bars,
    curious::CuriousAct,
    exercise_cards,
    panel::{Intent, Pane, PanelContext},
    set_work::{self, SetForm},
    sheet,
    start_state::Came,
    theme,
    tutor::TutorAct,
    view::Said,
};
use crate::journal::{AttemptFolder, AttemptList, JournalError, KeptAttempt, ScenarioLibrary};

/// What there is to choose from.
pub struct Stock<'a> {
    /// The exercises.
    pub library: &'a ScenarioLibrary,
    /// The place of each exercise.
    pub places: &'a [Option<Scene>],
    /// The folder of attempts.
    pub folder: &'a AttemptFolder,
    /// The learner's own attempts in it.
    pub kept: &'a AttemptList,
    /// What those of them that are handed in came to.
    pub came: &'a BTreeMap<PathBuf, Came>,
    /// What the window was opened with.
    pub options: &'a Options,
    /// What was said last.
    pub said: &'a Said,
}

/// What the learner fills in.
#[derive(Debug)]
pub struct Form {
    /// The learner's name.
    pub name: String,
    /// Practice; else set work.
    pub practice: bool,
    /// Whether the keyboard goes to the name: it is asked for first.
    pub asks: bool,
    /// Set work, in place of all that.
    pub set: Option<SetForm>,
}

impl Form {
    /// For the learner who was here last; by name, it may be of any origin.
    pub fn of(name: &str, assignment: Option<Arc<Assignment>>) -> Self {
        let mut name: String = name.chars().take(Limits::NAME_CHARS).collect();
        retain_clean(&mut name);
        let asks = name.trim().is_empty();
        Self { name, practice: true, asks, set: assignment.map(SetForm::of) }
    }

    /// Who it is: the name without the spaces around it, or the number; empty where nobody has given one.
    pub fn learner(&self) -> &str {
        self.set.as_ref().map_or_else(|| self.name.trim(), SetForm::who)
    }
}

/// Draws it.
pub fn show(ui: &mut Ui, panel: &mut PanelContext<'_>, stock: &Stock<'_>, form: &mut Form) {
    let foot = Frame::new().fill(theme::PANEL.worn()).inner_margin(Margin::symmetric(24, 6));
    Panel::bottom("foot").frame(foot).show(ui, |ui| {
        panel.begin(ui, Pane::Foot, "window-pane-foot");
        bars::start_foot(ui, panel, stock.said);
    });
    let wide = (ui.available_width() * 0.36).clamp(360.0, 560.0);
    let edge = Frame::new().fill(theme::PANEL.worn()).inner_margin(Margin::symmetric(20, 24));
    Panel::right("kept").frame(edge).resizable(false).exact_size(wide).show(ui, |ui| {
        panel.begin(ui, Pane::Beside, "window-kept");
        ScrollArea::vertical().id_salt("kept").auto_shrink(false).show(ui, |ui| {
            kept(ui, panel, stock, form);
            if form.set.is_none() {
                tutors_door(ui, panel);
            }
        });
    });
    let edge = Frame::new().fill(theme::PAPER.worn()).inner_margin(Margin::symmetric(24, 20));
    // Last: egui gives the central panel what the others leave.
    CentralPanel::default().frame(edge).show(ui, |ui| {
        panel.begin(ui, Pane::Middle, "window-choose");
        ScrollArea::vertical().id_salt("start").auto_shrink(false).show(ui, |ui| {
            theme::page(ui, 900.0, |ui| {
                if let Some(set) = &mut form.set {
                    return set_work::show(ui, panel, set);
                }
                ui.horizontal(|ui| {
                    ui.heading(theme::bold(panel.say("window-title", &[])).size(28.0 * theme::scale_of(ui)));
                    ui.with_layout(Layout::right_to_left(Align::Center), |ui| door(ui, panel));
                });
                ui.label(panel.say("window-purpose", &[]));
                ui.add_space(8.0);
                fill_in(ui, panel, form);
                ui.add_space(10.0);
                exercise_cards::show(ui, panel, stock);
            });
        });
    });
}

/// The way to the see-through house, for the curious: nothing there is marked.
fn door(ui: &mut Ui, panel: &mut PanelContext<'_>) {
    let still = &mut ui.visuals_mut().widgets.inactive;
    (still.bg_stroke, still.weak_bg_fill) = (Stroke::new(2.0, theme::ACCENT), theme::ACCENT_GROUND.worn());
    let text = panel.say("curious-door", &[]);
    if panel.button(ui, "curious", &text) {
        panel.intents.push(Intent::Curious(CuriousAct::Enter));
    }
}

/// The way to the tutor's side. It stands with the attempts, out of the way of those who learn.
fn tutors_door(ui: &mut Ui, panel: &mut PanelContext<'_>) {
    ui.add_space(10.0);
    ui.separator();
    ui.add_space(4.0);
    let text = panel.say("tutor-door", &[]);
    if panel.button(ui, "tutor", &text) {
        panel.intents.push(Intent::Tutor(TutorAct::Enter));
    }
    theme::quiet(ui, &panel.say("tutor-door-means", &[]));
}

/// The learner's own attempts in the folder, newest first. Until there is a name, the question for it.
fn kept(ui: &mut Ui, panel: &mut PanelContext<'_>, stock: &Stock<'_>, form: &Form) {
    let is_nobody = form.learner().is_empty();
    let heading = if is_nobody { "window-who" } else { "window-kept" };
    ui.heading(theme::bold(panel.say(heading, &[])));
    if let Some(trouble) = &stock.folder.trouble {
        ui.label(RichText::new(broken(panel, trouble)).small().color(theme::WARNING));
    } else if is_nobody {
        ui.label(panel.say(if form.set.is_some() { "window-set-who-first" } else { "window-who-first" }, &[]));
    } else if stock.kept.is_empty() && form.set.is_some() {
        ui.label(panel.say("window-set-kept-none", &[]));
    } else if stock.kept.is_empty() {
        ui.label(panel.say("window-kept-none", &[]));
    }
    for (number, it) in stock.kept.attempts.iter().enumerate() {
        let came = stock.came.get(&it.path).copied().unwrap_or(Came::Unknown);
        one(ui, panel, number + 1, it, came);
    }
    if stock.kept.more > 0 {
        theme::quiet(ui, &panel.say("window-kept-more", &[("count", &stock.kept.more.to_string())]));
    }
    if !stock.kept.broken.is_empty() {
        ui.add_space(6.0);
        panel.heading(ui, "window-kept-broken");
        for it in &stock.kept.broken {
            ui.label(RichText::new(broken(panel, it)).small().color(theme::WARNING));
        }
    }
    ui.add_space(6.0);
    let path = stock.options.attempts.display().to_string();
    theme::quiet(ui, &panel.say("window-kept-in", &[("path", &harmless(&path))]));
}

fn one(ui: &mut Ui, panel: &mut PanelContext<'_>, number: usize, it: &KeptAttempt, came: Came) {
    Frame::group(ui.style()).fill(theme::PAPER.worn()).inner_margin(Margin::symmetric(10, 7)).show(ui, |ui| {
        ui.set_width(ui.available_width());
        ui.spacing_mut().item_spacing.y = 2.0;
        // Of the wall time, date and minutes: `2026-01-31T10:20`.
        let started: String = it.started.chars().take(16).collect::<String>().replacen('T', " ", 1);
        let count = it.actions.to_string();
        let (state, open) = match (it.handed_in, came) {
            (true, Came::Withheld) => (panel.say("window-kept-withheld", &[]), "window-see-receipt"),
            (true, _) => (panel.say("window-kept-handed-in", &[]), "window-read-sheet"),
            (false, _) => (panel.say("window-kept-unfinished", &[("count", &count)]), "window-go-on"),
        };
        // The name says which of several; the face of the button need not.
        let name = panel.say("window-open-named", &[("title", &it.title), ("started", &started)]);
        let by = panel.say("window-kept-by", &[("learner", &it.learner), ("started", &started)]);
        let text = panel.say(open, &[]);
        ui.add(Label::new(theme::bold(&it.title)).wrap());
        let opens = ui.horizontal_top(|ui| {
            leaving_room(ui, &text, |ui| {
                theme::quiet(ui, &by);
                match came {
                    Came::Earned(outcome, marks, out_of) => {
                        let (ink, sign) = sheet::sign_of(outcome);
                        let outcome = panel.say(outcome_key(outcome), &[]);
                        let (marks, out_of) = (marks.to_string(), out_of.to_string());
                        let args = [("outcome", outcome.as_str()), ("marks", &marks), ("out-of", &out_of)];
                        let text = format!("{sign} {}", panel.say("report-outcome", &args));
                        ui.label(RichText::new(text).small().color(ink));
                    }
                    Came::Unknown | Came::Withheld => theme::quiet(ui, &state),
                }
            });
            panel.button_called(ui, &format!("open:{number}"), &text, &name)
        });
        if opens.inner {
            panel.intents.push(Intent::Open(it.path.clone()));
        }
    });
}

/// Draws something in a row and leaves room after it for a button of that face.
pub fn leaving_room(ui: &mut Ui, face: &str, add: impl FnOnce(&mut Ui)) {
    let galley = WidgetText::from(theme::bold(face)).into_galley(
        ui,
        Some(TextWrapMode::Extend),
        f32::INFINITY,
        TextStyle::Button,
    );
    let taken = galley.size().x + 2.0 * ui.spacing().button_padding.x + ui.spacing().item_spacing.x + 2.0;
    let wide = (ui.available_width() - taken).max(0.0);
    ui.allocate_ui_with_layout(vec2(wide, 0.0), Layout::top_down(Align::Min), |ui| {
        ui.set_width(wide);
        add(ui);
    });
}

/// A file that can't be used: its name and what is wrong with it.
fn broken(panel: &PanelContext<'_>, trouble: &JournalError) -> String {
    let said = match trouble {
        JournalError::Wrong { problems, path, .. } => {
            let name = path.file_name().map(|it| it.to_string_lossy().into_owned()).unwrap_or_default();
            let first = problems.first().map(|it| problem(panel.wording, it)).unwrap_or_default();
            format!("{name}: {first}")
        }
        other => other.say(panel.wording),
    };
    harmless(&said)
}

/// A text of any origin as it may stand on the screen: one short line, nothing that turns writing round.
pub fn harmless(text: &str) -> String {
    const LONGEST: usize = 240;
    let mut kept: String = text.chars().filter(|it| !turns_or_controls(*it)).take(LONGEST).collect();
    if text.chars().count() > LONGEST {
        kept.push('…');
    }
    kept
}

/// Control characters, and those that change the direction of writing.
fn turns_or_controls(it: char) -> bool {
    it.is_control()
        || matches!(it, '\u{61c}' | '\u{200e}'..='\u{200f}' | '\u{2028}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
}

/// What a name may not hold would only be refused later.
fn retain_clean(name: &mut String) {
    name.retain(|it| it == ' ' || names_are_clean(it.encode_utf8(&mut [0; 4]), 1));
}

fn fill_in(ui: &mut Ui, panel: &mut PanelContext<'_>, form: &mut Form) {
    ui.horizontal_wrapped(|ui| {
        let text = panel.say("window-name", &[]);
        let label = ui.label(&text);
        let edit = TextEdit::singleline(&mut form.name).char_limit(Limits::NAME_CHARS).desired_width(260.0);
        let response = ui.add(edit).labelled_by(label.id);
        retain_clean(&mut form.name);
        panel.touchable(ui, &response, "name", &text);
        panel.holds(&form.name);
        if std::mem::take(&mut form.asks) {
            response.request_focus();
            response.scroll_to_me(None);
        }
        if response.changed() || response.lost_focus() {
            panel.intents.push(Intent::Named { is_whole: !response.has_focus() });
        }
        ui.add_space(16.0);
        ui.label(panel.say("window-counts", &[]));
        let (practice, set) = (panel.say("window-practice", &[]), panel.say("window-set", &[]));
        if panel.choice(ui, form.practice, "practice", &practice) {
            form.practice = true;
        }
        if panel.choice(ui, !form.practice, "set", &set) {
            form.practice = false;
        }
    });
    theme::quiet(
        ui,
        &if form.practice { panel.say("window-practice-means", &[]) } else { panel.say("window-set-means", &[]) },
    );
}
