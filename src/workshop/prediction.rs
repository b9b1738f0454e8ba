//! The prediction: for each setting of the switches the place stands there as it would be, and the learner says of each lamp whether it will
//! be lit and of each conductor whether it will be live. Locked once given; what really happens is laid over it when power has been on.

use bevy_egui::egui::{Frame, Margin, Panel, RichText, TextStyle, Ui, WidgetText};
use switchdrop::{
    attempt::settings_to_predict,
    picture::{Scene, Thing},
    work::Action,
};

use super::{
    foreseen,
    panel::{PanelContext, group},
    question::{Asked, Question, State},
    session::Session,
    theme,
    view::{Tone, View},
};

/// Which setting is shown: the one that was stepped to, else the first that is not answered.
pub fn number(session: &Session, view: &View) -> usize {
    let exercise = session.attempt.work().exercise();
    let left = || session.attempt.safety().predictions_left(exercise);
    let first = || settings_to_predict(exercise).iter().position(|it| left().first() == Some(it));
    view.setting.or_else(first).unwrap_or(0)
}

/// What is being said in the setting that is shown; nothing once it is locked or nothing can be done any more.
pub fn answer<'v>(session: &Session, view: &'v mut View, question: &Question) -> Option<&'v mut Vec<bool>> {
    if question.is_locked || session.is_over() {
        return None;
    }
    let answer = view.answers.entry(question.number).or_default();
    answer.resize(question.asked.len(), false);
    Some(answer)
}

/// Draws the setting in words with the steps between settings, and the place in that setting.
pub fn show(
    ui: &mut Ui,
    panel: &mut PanelContext<'_>,
    session: &Session,
    view: &mut View,
    (question, scene): (&Question, &Scene),
) {
    let edge = Frame::new().inner_margin(Margin::symmetric(12, 6));
    Panel::top("setting").frame(edge).show(ui, |ui| steps(ui, panel, session, view, question));
    foreseen::draw(ui, panel, session, view, (question, scene));
}

fn steps(ui: &mut Ui, panel: &mut PanelContext<'_>, session: &Session, view: &mut View, question: &Question) {
    let count = question.count;
    group(ui, &question.case);
    ui.horizontal_top(|ui| {
        for (key, text, by) in
            [("setting:back", "window-setting-back", count - 1), ("setting:on", "window-setting-on", 1)]
        {
            let text = panel.say(text, &[]);
            if panel.button_if(ui, count > 1, key, &text) {
                step(view, (question.number + by) % count);
            }
        }
        let said = |case: &str| {
            let (number, count) = ((question.number + 1).to_string(), count.to_string());
            theme::bold(panel.say("window-setting", &[("number", &number), ("count", &count), ("case", case)]))
        };
        // As high in every setting, so that the drawing stays where it is.
        let measured = WidgetText::from(said(&question.longest));
        let high = measured.into_galley(ui, None, ui.available_width(), TextStyle::Body).size().y;
        ui.vertical(|ui| {
            ui.add_space(4.0);
            ui.set_min_height(high + 4.0);
            ui.label(said(&question.case));
        });
    });
    let key = match (question.is_locked, question.is_told()) {
        (_, true) => "window-prediction-told",
        (true, false) => "window-prediction-locked",
        (false, _) if session.is_over() => "window-not-predicted",
        (false, _) => "window-prediction-means",
    };
    theme::quiet(ui, &panel.say(key, &[]));
}

/// Shows another setting.
pub fn step(view: &mut View, number: usize) {
    view.setting = Some(number);
    view.nothing_meant = None;
}

/// Draws beside it what is said, in the order of the numbers on the drawing: to be ticked, or locked.
pub fn beside(ui: &mut Ui, panel: &mut PanelContext<'_>, session: &Session, view: &mut View, question: &Question) {
    panel.heading(ui, if question.is_told() { "window-foreseen-told" } else { "window-foreseen-heading" });
    ui.push_id(("setting", question.number), |ui| match answer(session, view, question) {
        Some(_) => ask(ui, panel, session, view, question),
        None if !question.is_locked => theme::quiet(ui, &panel.say("window-not-predicted", &[])),
        None => {
            for (number, it) in (1..).zip(&question.asked) {
                given(ui, panel, number, it);
            }
        }
    });
    ui.add_space(4.0);
}

fn ask(ui: &mut Ui, panel: &mut PanelContext<'_>, session: &Session, view: &mut View, question: &Question) {
    let Some(answer) = answer(session, view, question) else { return };
    ui.scope(|ui| {
        ui.spacing_mut().item_spacing.y = 2.0;
        ui.spacing_mut().interact_size.y = 24.0;
        if answer.len() > 2 {
            let mut all = !answer.contains(&false);
            let text = panel.say("window-predict-all", &[]);
            if panel.check(ui, &mut all, &format!("predict:{}:all", question.number), &text) {
                answer.fill(all);
            }
        }
        for (number, (it, value)) in (1..).zip(question.asked.iter().zip(answer.iter_mut())) {
            let (key, thing) = match it.thing {
                Thing::Lamp(_) => ("window-will-light", "lamp"),
                _ => ("window-will-be-live", "conductor"),
            };
            let text = format!("{number}  {}", panel.say(key, &[(thing, &it.name)]));
            panel.check(ui, value, &format!("predict:{}:{}", question.number, it.address), &text);
        }
    });
    let answer = answer.clone();
    let is_blank = !answer.contains(&true);
    // It is for good: whoever ticked nothing is told what that says.
    let text = panel.say(if is_blank { "window-lock-nothing" } else { "window-lock-answer" }, &[]);
    let name = panel.say("window-lock-answer-named", &[("case", &question.case)]);
    if !panel.main_button_called(ui, &format!("lock-answer:{}", question.number), &text, &name) {
        return;
    }
    // A press too many, meant for the setting before, locks nothing.
    if is_blank && view.nothing_meant != Some(question.number) {
        view.nothing_meant = Some(question.number);
        view.say(Tone::Plain, panel.say("window-lock-nothing-means", &[]));
        return;
    }
    panel.act(says(question, &answer));
    // On to the next that is to be answered; after the last, it stays.
    let left = session.attempt.safety().predictions_left(session.attempt.work().exercise()).len();
    view.setting = (left <= 1).then_some(question.number);
    view.nothing_meant = None;
}

/// The action that locks an answer.
fn says(question: &Question, answer: &[bool]) -> Action {
    let yes = question.asked.iter().zip(answer).filter(|it| *it.1).map(|it| it.0);
    let (lit, live): (Vec<&Asked>, Vec<&Asked>) = yes.partition(|it| matches!(it.thing, Thing::Lamp(_)));
    let addresses = |of: Vec<&Asked>| of.into_iter().map(|it| it.address.clone()).collect();
    Action::Predict { positions: question.positions.clone(), lit: addresses(lit), live: addresses(live) }
}

/// One line of an answer that is locked: what was said, and once it may be told what is so.
fn given(ui: &mut Ui, panel: &PanelContext<'_>, number: usize, asked: &Asked) {
    let Some(said) = asked.said else { return };
    let said = panel.say(State::said(asked.thing, said).key(), &[]);
    let is = asked.is.map(|it| panel.say(it.key(), &[])).unwrap_or_default();
    let (key, sign, ink) = match asked.is_right() {
        None => ("window-foreseen-said", "", theme::INK),
        Some(true) => ("window-foreseen-right", "✔ ", theme::GOOD),
        Some(false) => ("window-foreseen-wrong", "× ", theme::WARNING),
    };
    let text = panel.say(key, &[("thing", &asked.name), ("said", &said), ("is", &is)]);
    ui.label(RichText::new(format!("{sign}{number}  {text}")).color(ink));
}
