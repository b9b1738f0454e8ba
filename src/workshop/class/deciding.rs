//! What is decided about a hand-in, beside the table: what stands and how it came about, and the form of a new decision.

use bevy_egui::egui::{Label, ScrollArea, TextEdit, Ui};
use switchdrop::{
    exercise::Limits,
    marking::Outcome,
    register::{Decision, MarkLayer, NotDecided, layers_told},
    wording::Wording,
};

use super::{BesideTable, ClassAct, ClassState, way_back};
use crate::{
    desk::{NotPut, decide, now},
    store::Store,
    workshop::{
        field::{choices, faces, field, named},
        panel::{Intent, PanelContext},
        theme,
    },
};

/// Characters of a reason.
const WHY: usize = 600;
/// How wide names and fields are here, points at the normal text size.
const WIDE: f32 = 170.0;

/// What is filled in.
#[derive(Debug)]
pub struct Form {
    layer: MarkLayer,
    marks: String,
    outcome: Option<Outcome>,
    /// The finding that is commented on, by its place among the faults.
    finding: Option<usize>,
    why: String,
}

impl Form {
    /// Nothing, of the tutor.
    pub const fn new() -> Self {
        Self { layer: MarkLayer::Tutor, marks: String::new(), outcome: None, finding: None, why: String::new() }
    }
}

impl ClassState {
    /// Puts down what is filled in; what is to be said then.
    pub(super) fn decide(&self, wording: &Wording) -> Result<String, String> {
        let BesideTable::Decision(row) = self.beside else { return Err(String::new()) };
        let register = self.class().register.as_deref().ok_or_else(|| wording.say("class-no-register", &[]))?;
        let counting = self.review().rows.get(row).and_then(|it| it.counting());
        let (file, earned) = counting.ok_or_else(|| wording.say("class-nothing-counts", &[]))?;
        let receipt = file.receipt.clone().unwrap_or_default();
        let typed = self.decision.marks.trim();
        let marks = if typed.is_empty() { None } else { Some(typed.parse().unwrap_or(u32::MAX)) };
        let finding = self.decision.finding.and_then(|it| earned.faults.get(it));
        let decision = Decision {
            layer: self.decision.layer,
            by: self.by().to_owned(),
            at: now(),
            marks,
            outcome: self.decision.outcome.map(Outcome::word),
            finding: finding.map(|it| format!("{}@{}", it.code, it.at)),
            why: self.decision.why.trim().to_owned(),
        };
        let put = Store::open(register).map_err(NotPut::Register);
        let put = put.and_then(|mut store| decide(&mut store, &receipt, Some(decision)));
        put.map(|_| wording.say("class-decided", &[])).map_err(|why| not_put(&why, &receipt, wording))
    }
}

/// Why a decision is not put down, in the words of the screen.
fn not_put(why: &NotPut, receipt: &str, wording: &Wording) -> String {
    match why {
        NotPut::NotDecided(NotDecided::NoName) => wording.say("class-no-name", &[]),
        NotPut::NotDecided(NotDecided::Nothing) => wording.say("class-decides-nothing", &[]),
        NotPut::NotDecided(NotDecided::NoReason) => wording.say("class-no-reason", &[]),
        NotPut::NotDecided(NotDecided::ReferNeedsTwo) => wording.say("class-refer-needs-two", &[]),
        other => other.say(wording, receipt),
    }
}

/// Draws it.
pub fn show(ui: &mut Ui, panel: &mut PanelContext<'_>, state: &mut ClassState, place: usize) {
    ScrollArea::vertical().id_salt("class-decision").auto_shrink(false).show(ui, |ui| {
        way_back(ui, panel);
        ui.add_space(6.0);
        let reviewed = std::sync::Arc::clone(&state.reviewed);
        let row = reviewed.2.rows.get(place);
        let Some((row, (file, earned))) = row.and_then(|it| Some((it, it.counting()?))) else {
            ui.add(Label::new(panel.say("class-nothing-counts", &[])).wrap());
            return;
        };
        let whose = [("learner", row.learner.to_string()), ("exercise", row.exercise.clone())];
        let whose = whose.each_ref().map(|it| (it.0, it.1.as_str()));
        ui.add(Label::new(theme::bold(panel.say("class-of", &whose))).wrap());
        for it in layers_told(panel.wording, earned, &file.people) {
            ui.add(Label::new(format!("· {it}")).wrap());
        }
        if let Some(path) = state.file(place).map(std::path::Path::to_owned) {
            let text = panel.say("class-read-sheet", &[]);
            if panel.button(ui, "decide:read", &text) {
                panel.intents.push(Intent::Class(ClassAct::Read(path)));
            }
        }
        ui.add_space(8.0);
        if state.class().register.is_none() {
            ui.add(Label::new(panel.say("class-no-register", &[])).wrap());
            return;
        }
        panel.heading(ui, "class-decide");
        field(ui, panel, ("decide:by", "class-by"), &mut state.by, (Limits::NAME_CHARS, WIDE));
        fields(ui, panel, &mut state.decision, &earned.faults.iter().map(|it| it.what.clone()).collect::<Vec<_>>());
        let text = panel.say("class-write-down", &[]);
        if panel.main_button(ui, "decide:write", &text) {
            panel.intents.push(Intent::Class(ClassAct::Decide));
        }
        ui.add_space(8.0);
        let text = panel.say("class-release-this", &[]);
        if panel.button(ui, "decide:release", &text) {
            panel.intents.push(Intent::Class(ClassAct::Beside(BesideTable::Release(Some(place)))));
        }
    });
}

fn fields(ui: &mut Ui, panel: &mut PanelContext<'_>, form: &mut Form, faults: &[String]) {
    let layers = faces(panel, "class-as", MarkLayer::ALL, MarkLayer::word);
    choices(ui, panel, ("decide:as", "class-as"), &mut form.layer, layers);
    let text = panel.say("class-marks", &[]);
    named(ui, &text, |ui, _| panel.figure(ui, &mut form.marks, "decide:marks", &text));
    let outcomes =
        [(Outcome::Pass, "review-pass"), (Outcome::NotYet, "review-not-yet"), (Outcome::Refer, "review-refer")];
    let outcomes = outcomes.map(|(it, key)| (Some(it), it.word(), panel.say(key, &[])));
    let as_it_is = (None, "same", panel.say("class-outcome-same", &[]));
    let outcomes: Vec<_> = std::iter::once(as_it_is).chain(outcomes).collect();
    choices(ui, panel, ("decide:outcome", "class-outcome"), &mut form.outcome, outcomes);
    if !faults.is_empty() {
        ui.label(panel.say("class-about", &[]));
        for (place, what) in faults.iter().enumerate() {
            let is_on = form.finding == Some(place);
            if panel.line(ui, &format!("decide:about:{place}"), if is_on { "⏵" } else { "·" }, what) {
                form.finding = (!is_on).then_some(place);
            }
            panel.is_on(is_on);
        }
    }
    let text = panel.say("class-why", &[]);
    let label = ui.label(&text);
    let edit = TextEdit::multiline(&mut form.why).char_limit(WHY).desired_rows(2).desired_width(f32::INFINITY);
    let response = ui.add(edit).labelled_by(label.id);
    form.why.retain(|it| !it.is_control());
    panel.touchable(ui, &response, "decide:why", &text);
    panel.holds(&form.why);
}
