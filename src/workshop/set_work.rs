//! Set work on the first screen: what an assignment asks, who does it, and the tries of that learner at each exercise.

use std::{path::Path, sync::Arc};

use bevy_egui::egui::{Frame, Label, Margin, RichText, Stroke, TextEdit, Ui, vec2};
use switchdrop::{
    exercise::Exercise,
    marking::VERSION,
    picture::Scene,
    register::{Adjustment, Assignment, Learner, NoLearner, terms},
    wording::{Wording, when},
};

use super::{
    exercise_cards::{PICTURE, brief, picture},
    panel::{Intent, PanelContext},
    session::Session,
    start::leaving_room,
    start_state::place,
    theme,
};
use crate::journal::{NotBegun, Tries};

/// How wide the fields are at the normal text size, points.
const FIELD: f32 = 120.0;
/// Most characters of a number or a code, blanks and hyphens among them.
const TYPED: usize = 16;

/// What the learner fills in, and what follows from it.
#[derive(Debug)]
pub struct SetForm {
    assignment: Arc<Assignment>,
    number: String,
    code: String,
    /// Whether the keyboard goes to the number: it is asked for first.
    asks: bool,
    /// What was filled in when the rest was found.
    looked_at: Option<(String, String)>,
    /// Why this is no learner of the assignment.
    wrong: Option<NoLearner>,
    /// The exercises as they are drawn for the learner, with the tries at each; empty where there is no such learner.
    own: Vec<(Exercise, Tries)>,
    /// What is odd about beginning now: a key, and the time that was set.
    odd: Vec<(String, String)>,
    /// The place of each exercise, for its picture.
    places: Vec<Option<Scene>>,
}

impl SetForm {
    /// For nobody yet.
    pub fn of(assignment: Arc<Assignment>) -> Self {
        let (number, code) = (String::new(), String::new());
        let (own, odd, places) = (Vec::new(), Vec::new(), Vec::new());
        Self { assignment, number, code, asks: true, looked_at: None, wrong: None, own, odd, places }
    }

    /// Who it is, as attempts name them; empty while that is no number of the roster.
    pub fn who(&self) -> &str {
        if self.wrong == Some(NoLearner::Number) { "" } else { &self.number }
    }

    /// Whether something else is filled in than was looked at.
    pub fn is_changed(&self) -> bool {
        self.looked_at.as_ref().is_none_or(|it| (&it.0, &it.1) != (&self.number, &self.code))
    }

    /// The learner who is filled in.
    fn learner(&self) -> Result<Learner<'_>, NoLearner> {
        let code = Some(self.code.trim()).filter(|it| !it.is_empty());
        Learner::of(&self.assignment, self.number.parse().map_err(|_| NoLearner::Number)?, code)
    }

    /// Checks what is filled in, and looks for that learner's tries in a folder.
    pub fn look(&mut self, folder: &Path) {
        let now = jiff::Timestamp::now();
        let found = self.learner().map(|learner| {
            // A draw with something wrong in it is not offered; `check` says of the scenario what it is.
            let drawn = learner.work().map_or_else(|_| Vec::new(), |it| it.exercises);
            let tries = |it: &Exercise| Tries::look(&learner, &it.id, folder);
            (drawn.into_iter().map(|it| (tries(&it), it)).map(|(tries, it)| (it, tries)).collect(), learner.adjustment)
        });
        self.wrong = found.as_ref().err().copied();
        let (own, adjustment) = found.unwrap_or_else(|_| (Vec::new(), Adjustment::default()));
        self.own = own;
        let odd = self.assignment.odd_times(Some(now), Some(now), adjustment);
        self.odd = odd.into_iter().map(|(odd, time)| (format!("window-set-{}", odd.word()), time)).collect();
        self.looked_at = Some((self.number.clone(), self.code.clone()));
    }

    /// Begins the next try at the exercise of that place; `None`: there is no such exercise, or nobody to do it.
    pub fn begin(&self, place: usize, folder: &Path) -> Option<Result<Session, NotBegun>> {
        let exercise = self.own.get(place)?.0.clone();
        Some(Session::next_try(&self.learner().ok()?, exercise, folder))
    }
}

/// Why a try did not begin.
pub fn why_not(wording: &Wording, why: &NotBegun) -> String {
    match why {
        NotBegun::NoneLeft => wording.say("window-set-none-left", &[]),
        NotBegun::Open(_) => wording.say("window-set-open", &[]),
        NotBegun::File(trouble) => trouble.say(wording),
    }
}

/// Draws it.
pub fn show(ui: &mut Ui, panel: &mut PanelContext<'_>, form: &mut SetForm) {
    let assignment = Arc::clone(&form.assignment);
    ui.label(
        theme::bold(panel.say("window-set-title", &[("title", &assignment.title)])).size(22.0 * theme::scale_of(ui)),
    );
    theme::quiet(ui, &assignment.group);
    for it in terms(panel.wording, &assignment) {
        ui.label(it);
    }
    ui.add_space(8.0);
    fill_in(ui, panel, form);
    for (key, time) in &form.odd {
        warned(ui, &panel.say(key, &[("time", &when(panel.wording, time))]));
    }
    if assignment.marking != VERSION {
        warned(ui, &panel.say("window-set-other-version", &[("version", &assignment.marking.to_string())]));
    }
    ui.add_space(8.0);
    if form.places.len() != assignment.exercises.len() {
        form.places = assignment.exercises.iter().map(|it| place(it.scenario.text(), panel.wording)).collect();
    }
    for at in 0..assignment.exercises.len() {
        exercise(ui, panel, form, at);
    }
}

fn fill_in(ui: &mut Ui, panel: &mut PanelContext<'_>, form: &mut SetForm) {
    let wrong = form.wrong.filter(|_| !form.is_changed());
    ui.horizontal_wrapped(|ui| {
        let asks = std::mem::take(&mut form.asks);
        field(ui, panel, ("set-number", "window-set-number"), &mut form.number, asks);
        form.number.retain(|it| it.is_ascii_digit());
        let zeros = form.number.len() - form.number.trim_start_matches('0').len();
        form.number.drain(..zeros);
        if wrong == Some(NoLearner::Number) && !form.number.is_empty() {
            warned(ui, &panel.say("window-set-no-such-number", &[("number", &form.number)]));
        }
    });
    ui.horizontal_wrapped(|ui| {
        field(ui, panel, ("set-code", "window-set-code"), &mut form.code, false);
        form.code.retain(|it| it.is_ascii_alphanumeric() || " -".contains(it));
        if wrong == Some(NoLearner::Code) {
            warned(ui, &panel.say("window-set-bad-code", &[("number", &form.number)]));
        }
    });
}

fn field(ui: &mut Ui, panel: &mut PanelContext<'_>, (key, label): (&str, &str), typed: &mut String, asks: bool) {
    let text = panel.say(label, &[]);
    let label = ui.label(&text);
    let edit = TextEdit::singleline(typed).char_limit(TYPED).desired_width(FIELD * theme::scale_of(ui));
    let response = ui.add(edit).labelled_by(label.id);
    panel.touchable(ui, &response, key, &text);
    panel.holds(typed);
    if asks {
        response.request_focus();
    }
}

fn warned(ui: &mut Ui, text: &str) {
    ui.label(RichText::new(format!("⚠ {text}")).color(theme::WARNING));
}

/// One exercise: its place as a picture, what it is, the tries, and the way in.
fn exercise(ui: &mut Ui, panel: &mut PanelContext<'_>, form: &SetForm, at: usize) {
    let Some(scenario) = form.assignment.exercises.get(at).map(|it| &it.scenario) else { return };
    let own = form.own.get(at);
    let frame = Frame::group(ui.style()).fill(theme::PANEL.worn()).stroke(Stroke::new(2.0, theme::ACCENT));
    frame.inner_margin(Margin::symmetric(12, 8)).show(ui, |ui| {
        ui.set_width(ui.available_width());
        ui.horizontal_top(|ui| {
            if let Some(scene) = form.places.get(at).and_then(Option::as_ref) {
                picture(ui, scene, vec2(PICTURE.0, PICTURE.1) * theme::scale_of(ui).min(1.2));
                ui.add_space(6.0);
            }
            ui.vertical(|ui| {
                ui.spacing_mut().item_spacing.y = 3.0;
                let open = own.and_then(|it| it.1.open.as_ref());
                let text = panel.say(if open.is_some() { "window-go-on" } else { "window-begin" }, &[]);
                ui.horizontal_top(|ui| {
                    leaving_room(ui, &text, |ui| {
                        ui.add(Label::new(theme::bold(&scenario.title).size(18.0 * theme::scale_of(ui))).wrap());
                        theme::quiet(ui, &scenario.place);
                    });
                    way_in(ui, panel, (at, scenario), own.map(|it| &it.1), &text);
                });
                if let Some((_, tries)) = own {
                    let left = form.assignment.tries.saturating_sub(tries.begun).to_string();
                    let args = [("left", left.as_str()), ("count", &form.assignment.tries.to_string())];
                    ui.label(theme::bold(panel.say("window-set-tries", &args)));
                }
                brief(ui, &scenario.brief, 4);
            });
        });
    });
}

/// The button that begins a try, or goes on with one.
fn way_in(ui: &mut Ui, panel: &mut PanelContext<'_>, (at, of): (usize, &Exercise), tries: Option<&Tries>, text: &str) {
    let key = format!("set:{}", of.id);
    let open = tries.and_then(|it| it.open.clone());
    let name =
        panel.say(if open.is_some() { "window-go-on-named" } else { "window-begin-named" }, &[("title", &of.title)]);
    if !tries.is_some_and(|it| it.open.is_some() || it.has_next()) {
        panel.button_if_called(ui, false, &key, text, &name);
    } else if panel.main_button_called(ui, &key, text, &name) {
        panel.intents.push(open.map_or(Intent::BeginSet(at), Intent::Open));
    }
}
