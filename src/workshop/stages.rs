//! The row of stages: which are done, where the learner is.
//!
//! A stage is done when every line of it is; nothing is decided here.

use bevy_egui::egui::{Button, Sense, Stroke, TextWrapMode, Ui, WidgetInfo, WidgetType};
use switchdrop::{attempt::Attempt, exercise::Stage};

use super::{
    panel::PanelContext,
    theme,
    todo::{Line, Step},
};

/// What stands on the stages.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Stages {
    /// The name of each.
    Named,
    /// The name of the one where the learner is; of the others a number or a tick, and the name for who points there.
    Numbered,
}

/// Draws it, in a row that goes on beneath itself.
pub fn row(ui: &mut Ui, panel: &PanelContext<'_>, attempt: &Attempt, lines: &[Line], stages: Stages) {
    let exercise = attempt.work().exercise();
    let handed_in = attempt.tally().handed_in;
    let asked = |step: Step| match step {
        Step::Choose => !exercise.runs.is_empty(),
        Step::Isolate => exercise.asks(Stage::Isolation),
        Step::Name => exercise.asks(Stage::Naming),
        Step::Find => exercise.asks(Stage::Diagnosis),
        Step::PowerOn => exercise.asks_for_power(),
        Step::Predict => exercise.asks(Stage::Prediction) || exercise.is_inspected(),
        Step::Live => Stage::LIVE_TESTS.into_iter().any(|it| exercise.asks(it)),
        Step::Work => exercise.asks(Stage::FunctionalTest),
        // Of wiring that is given a cover may be lifted all the same: then there is a line for it, as for any.
        Step::Wire | Step::Inspect => !exercise.is_given(),
        Step::HandIn => true,
    };
    let is_done = |step: Step| handed_in || lines.iter().filter(|it| it.step == step).all(|it| it.done);
    let steps: Vec<Step> = Step::ALL.into_iter().filter(|it| asked(*it)).collect();
    let here = steps.iter().copied().find(|it| !is_done(*it));
    ui.spacing_mut().item_spacing.x = 4.0;
    for (number, step) in steps.into_iter().enumerate() {
        let name = panel.say(step.key(exercise), &[]);
        let number = (number + 1).to_string();
        let (state, sign) = match (here == Some(step), is_done(step)) {
            (true, _) => ("window-stage-here", number.as_str()),
            (_, true) => ("window-stage-done", "✔"),
            _ => ("window-stage-ahead", number.as_str()),
        };
        let is_named = stages == Stages::Named || here == Some(step);
        let sign = if is_named { format!("{sign}  {name}") } else { sign.to_owned() };
        let said = panel.say(state, &[("number", &number), ("stage", &name)]);
        let (ink, ground, edge) = match state {
            "window-stage-here" => (theme::ACCENT, theme::ACCENT_GROUND, Stroke::new(2.0, theme::ACCENT)),
            "window-stage-done" => (theme::GOOD, theme::PANEL, Stroke::new(1.0, theme::HAIR)),
            _ => (theme::QUIET, theme::PANEL, Stroke::new(1.0, theme::HAIR)),
        };
        let text = if here == Some(step) { theme::bold(sign) } else { sign.into() };
        // One widget: a frame with a label in it would not go on to the next row, but be squeezed into what is left of this one.
        let chip = Button::new(text.color(ink)).fill(ground).stroke(edge).corner_radius(11).sense(Sense::hover());
        let mut response = ui.add(chip.wrap_mode(TextWrapMode::Extend));
        if !is_named {
            response = response.on_hover_text(&said);
        }
        response.widget_info(|| WidgetInfo::labeled(WidgetType::Label, true, &said));
    }
}
