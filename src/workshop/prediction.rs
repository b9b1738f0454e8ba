//! The prediction: for each setting which lamps will light and which conductors will be live. Locked once given;
//! compared when power has been on.

use bevy_egui::egui::{Frame, Margin, RichText, ScrollArea, Ui};
use switchdrop::{
    attempt::{Prediction, settings_to_predict},
    circuit::{Glow, Witness, shown_at},
    exercise::LampId,
    wording::{conductor, lamp, witness},
    work::Action,
};

use super::{
    panel::{PanelContext, group},
    session::Session,
    theme,
    view::{Answer, View},
};

/// Draws it.
pub fn show(ui: &mut Ui, panel: &mut PanelContext<'_>, session: &Session, view: &mut View) {
    let exercise = session.attempt.work().exercise();
    let (settings, lamps) = (settings_to_predict(exercise), exercise.learners_lamps());
    let blank = Answer { lit: vec![false; lamps.len()], live: vec![false; exercise.predict.len()] };
    view.answers.resize(settings.len(), blank);
    ScrollArea::vertical().id_salt("prediction").auto_shrink(false).show(ui, |ui| {
        Frame::new().inner_margin(Margin::same(20)).show(ui, |ui| {
            ui.heading(theme::bold(panel.say("window-prediction", &[])));
            ui.label(panel.say("window-prediction-means", &[]));
            let tally = session.attempt.tally();
            for (number, setting) in settings.iter().enumerate() {
                Frame::group(ui.style()).fill(theme::PANEL).inner_margin(10).show(ui, |ui| {
                    ui.set_width(ui.available_width());
                    ui.spacing_mut().item_spacing.y = 2.0;
                    ui.spacing_mut().interact_size.y = 24.0;
                    let case = Witness { positions: setting.clone(), ..Witness::default() };
                    let case = witness(panel.wording, exercise, &case);
                    group(ui, &case);
                    ui.label(theme::bold(&case));
                    match tally.predictions.iter().find(|it| it.positions == *setting) {
                        Some(it) => given(ui, panel, session, it, &lamps),
                        None if session.is_over() => theme::quiet(ui, &panel.say("window-not-predicted", &[])),
                        None => ask(ui, panel, session, view, number, (setting, &case), &lamps),
                    }
                });
            }
        });
    });
}

fn ask(
    ui: &mut Ui,
    panel: &mut PanelContext<'_>,
    session: &Session,
    view: &mut View,
    number: usize,
    (setting, case): (&[u8], &str),
    lamps: &[LampId],
) {
    let work = session.attempt.work();
    let exercise = work.exercise();
    let Some(answer) = view.answers.get_mut(number) else { return };
    let locks = ui
        .horizontal_wrapped(|ui| {
            for (lamp_id, value) in lamps.iter().zip(&mut answer.lit) {
                let text = panel.say("window-will-light", &[("lamp", &lamp(exercise, *lamp_id))]);
                let key = format!("predict:{number}:{}", exercise.lamps[*lamp_id].address);
                panel.check(ui, value, &key, &text);
            }
            for (index, value) in exercise.predict.iter().zip(&mut answer.live) {
                let text = panel.say("window-will-be-live", &[("conductor", &conductor(panel.wording, work, *index))]);
                let key = format!("predict:{number}:{}", work.conductor_address(*index));
                panel.check(ui, value, &key, &text);
            }
            // It is for good: whoever ticked nothing is told what that says.
            let is_ticked = answer.lit.iter().chain(&answer.live).any(|it| *it);
            let text = panel.say(if is_ticked { "window-lock-answer" } else { "window-lock-nothing" }, &[]);
            let name = panel.say("window-lock-answer-named", &[("case", case)]);
            panel.main_button_called(ui, &format!("lock-answer:{number}"), &text, &name)
        })
        .inner;
    if !locks {
        return;
    }
    let lit = lamps.iter().zip(&answer.lit).filter(|(_, it)| **it);
    let live = exercise.predict.iter().zip(&answer.live).filter(|(_, it)| **it);
    panel.act(Action::Predict {
        positions: setting.to_vec(),
        lit: lit.map(|(it, _)| exercise.lamps[*it].address.clone()).collect(),
        live: live.map(|(it, _)| work.conductor_address(*it)).collect(),
    });
}

fn given(ui: &mut Ui, panel: &PanelContext<'_>, session: &Session, said: &Prediction, lamps: &[LampId]) {
    let work = session.attempt.work();
    let exercise = work.exercise();
    // What really happens is not told before power has been on.
    let happens = (!session.attempt.tally().energised.is_empty()).then(|| shown_at(&said.work, said.positions.clone()));
    let line = |ui: &mut Ui, name: &str, said: bool, is: Option<bool>| {
        let answer = if said { panel.say("window-said-yes", &[]) } else { panel.say("window-said-no", &[]) };
        let (verdict, ink) = match is {
            None => (String::new(), theme::INK),
            Some(it) if it == said => (panel.say("window-as-said", &[]), theme::GOOD),
            Some(_) => (panel.say("window-not-as-said", &[]), theme::WARNING),
        };
        ui.label(RichText::new(format!("{name}: {answer}{verdict}")).color(ink));
    };
    ui.vertical(|ui| {
        for it in lamps {
            let text = panel.say("window-will-light", &[("lamp", &lamp(exercise, *it))]);
            let is = happens.as_ref().map(|shown| shown.lamps.get(it.index()).is_some_and(|it| it.glow == Glow::Lit));
            line(ui, &text, said.lit.contains(it), is);
        }
        for it in &exercise.predict {
            let text = panel.say("window-will-be-live", &[("conductor", &conductor(panel.wording, work, *it))]);
            let is = happens.as_ref().map(|shown| shown.live.get(*it).copied().unwrap_or(false));
            line(ui, &text, said.live.contains(it), is);
        }
    });
}
