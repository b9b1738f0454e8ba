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
    desk::{Desk, group},
    session::Session,
    theme,
    view::{Answer, View},
};

/// Draws it.
pub fn show(ui: &mut Ui, desk: &mut Desk<'_>, session: &Session, view: &mut View) {
    let exercise = session.attempt.work().exercise();
    let (settings, lamps) = (settings_to_predict(exercise), exercise.learners_lamps());
    let blank = Answer { lit: vec![false; lamps.len()], live: vec![false; exercise.predict.len()] };
    view.answers.resize(settings.len(), blank);
    ScrollArea::vertical().auto_shrink(false).show(ui, |ui| {
        Frame::new().inner_margin(Margin::same(20)).show(ui, |ui| {
            ui.heading(theme::bold(desk.say("window-prediction", &[])));
            ui.label(desk.say("window-prediction-means", &[]));
            let tally = session.attempt.tally();
            for (number, setting) in settings.iter().enumerate() {
                Frame::group(ui.style()).fill(theme::PANEL).inner_margin(10).show(ui, |ui| {
                    ui.set_width(ui.available_width());
                    ui.spacing_mut().item_spacing.y = 2.0;
                    ui.spacing_mut().interact_size.y = 24.0;
                    let case = Witness { positions: setting.clone(), ..Witness::default() };
                    let case = witness(desk.wording, exercise, &case);
                    group(ui, &case);
                    ui.label(theme::bold(&case));
                    match tally.predictions.iter().find(|it| it.positions == *setting) {
                        Some(it) => given(ui, desk, session, it, &lamps),
                        None if session.is_over() => theme::quiet(ui, &desk.say("window-not-predicted", &[])),
                        None => ask(ui, desk, session, view, number, (setting, &case), &lamps),
                    }
                });
            }
        });
    });
}

fn ask(
    ui: &mut Ui,
    desk: &mut Desk<'_>,
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
                let text = desk.say("window-will-light", &[("lamp", &lamp(exercise, *lamp_id))]);
                let key = format!("predict:{number}:{}", exercise.lamps[lamp_id.index()].address);
                desk.check(ui, value, &key, &text);
            }
            for (index, value) in exercise.predict.iter().zip(&mut answer.live) {
                let text = desk.say("window-will-be-live", &[("conductor", &conductor(desk.wording, work, *index))]);
                let key = format!("predict:{number}:{}", work.conductor_address(*index));
                desk.check(ui, value, &key, &text);
            }
            let text = desk.say("window-lock-answer", &[]);
            let name = desk.say("window-lock-answer-named", &[("case", case)]);
            desk.main_button_called(ui, &format!("lock-answer:{number}"), &text, &name)
        })
        .inner;
    if !locks {
        return;
    }
    let lit = lamps.iter().zip(&answer.lit).filter(|(_, it)| **it);
    let live = exercise.predict.iter().zip(&answer.live).filter(|(_, it)| **it);
    desk.act(Action::Predict {
        positions: setting.to_vec(),
        lit: lit.map(|(it, _)| exercise.lamps[it.index()].address.clone()).collect(),
        live: live.map(|(it, _)| work.conductor_address(*it)).collect(),
    });
}

fn given(ui: &mut Ui, desk: &Desk<'_>, session: &Session, said: &Prediction, lamps: &[LampId]) {
    let work = session.attempt.work();
    let exercise = work.exercise();
    // What really happens is not told before power has been on.
    let happens = (!session.attempt.tally().energised.is_empty()).then(|| shown_at(&said.work, said.positions.clone()));
    let line = |ui: &mut Ui, name: &str, said: bool, is: Option<bool>| {
        let answer = if said { desk.say("window-said-yes", &[]) } else { desk.say("window-said-no", &[]) };
        let (verdict, ink) = match is {
            None => (String::new(), theme::INK),
            Some(it) if it == said => (desk.say("window-as-said", &[]), theme::GOOD),
            Some(_) => (desk.say("window-not-as-said", &[]), theme::WARNING),
        };
        ui.label(RichText::new(format!("{name}: {answer}{verdict}")).color(ink));
    };
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing.x = 18.0;
        for it in lamps {
            let text = desk.say("window-will-light", &[("lamp", &lamp(exercise, *it))]);
            let is = happens.as_ref().map(|shown| shown.lamps.get(it.index()).is_some_and(|it| it.glow == Glow::Lit));
            line(ui, &text, said.lit.contains(it), is);
        }
        for it in &exercise.predict {
            let text = desk.say("window-will-be-live", &[("conductor", &conductor(desk.wording, work, *it))]);
            let is = happens.as_ref().map(|shown| shown.live.get(*it).copied().unwrap_or(false));
            line(ui, &text, said.live.contains(it), is);
        }
    });
}
