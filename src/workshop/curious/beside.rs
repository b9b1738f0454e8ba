//! Beside the see-through house: what is said, the table of settings, what to try, on and back.

use bevy_egui::egui::{Button, RichText, Ui, vec2};
use switchdrop::reason::{PassageCore, WhatIf};

use super::{CuriousAct, CuriousState, CuriousStep, Guess, House, Pick, beat, other_houses, settings, steps::Wires};
use crate::workshop::{
    panel::{Intent, PanelContext},
    theme, words,
};

/// The wires, and what each is called.
const WIRES: [(PassageCore, &str); 3] = [
    (PassageCore::Black, "curious-wire-black"),
    (PassageCore::Brown, "curious-wire-brown"),
    (PassageCore::Grey, "curious-wire-grey"),
];

/// A word of the householder's, the trade's behind it, and where the glossary tells more.
const WORDS: [(&str, &str, &str); 5] = [
    ("curious-word-trip", "curious-word-trip-means", "word-device"),
    ("curious-word-live", "curious-word-live-means", "word-live"),
    ("curious-word-neutral", "curious-word-neutral-means", "word-neutral"),
    ("curious-word-earth", "curious-word-earth-means", "word-earth"),
    ("curious-word-ways", "curious-word-ways-means", "muddle-l1-l2"),
];

/// Draws it.
pub fn show(ui: &mut Ui, panel: &mut PanelContext<'_>, state: &CuriousState) {
    ui.label(RichText::new(&state.said.text).size(18.0 * theme::scale_of(ui)));
    ui.add_space(6.0);
    if let Some(house) = &state.houses.now {
        match state.step {
            CuriousStep::Play | CuriousStep::Two => {}
            CuriousStep::Guess => guess(ui, panel, state),
            CuriousStep::Pull => pull(ui, panel, house),
            CuriousStep::Beat => beat::beside(ui, panel, state, house),
            CuriousStep::Try => every_way(ui, panel, state),
            CuriousStep::Three => pick(ui, panel, state),
            CuriousStep::WhatIf => other_houses::beside(ui, panel, house, state.drawn.as_ref()),
        }
        let is_list = house.variant.is_none_or(|it| it == WhatIf::WhereItGoes) && state.step == CuriousStep::WhatIf;
        let is_wall = state.step == CuriousStep::Try && state.opened.is_none();
        if !is_list && !is_wall && state.step != CuriousStep::Beat {
            ui.add_space(6.0);
            settings::show(ui, panel, house);
        }
    }
}

/// The householder's words, each of which leads to the trade's.
pub fn words(ui: &mut Ui, panel: &mut PanelContext<'_>) {
    for (word, means, entry) in WORDS {
        let (text, means) = (panel.say(word, &[]), panel.say(means, &[]));
        words::leads(ui, panel, entry, &text, &means);
    }
}

/// On and back, in view whatever stands above.
pub fn ways(ui: &mut Ui, panel: &mut PanelContext<'_>, state: &CuriousState) {
    ui.horizontal_wrapped(|ui| {
        // There from the first step on, so that what leads on stays where it is.
        let (text, back) = (panel.say("curious-back", &[]), state.step.on(-1));
        if panel.button_if(ui, back.is_some(), "curious:back", &text) {
            panel.intents.extend(back.map(|it| Intent::Curious(CuriousAct::Go(it))));
        }
        if let Some(it) = state.step.on(1) {
            let text = panel.say("curious-next", &[]);
            if panel.main_button(ui, "curious:next", &text) {
                panel.intents.push(Intent::Curious(CuriousAct::Go(it)));
            }
        } else {
            let text = panel.say("curious-exercise", &[]);
            if panel.main_button(ui, "curious:exercise", &text) {
                panel.intents.push(Intent::Curious(CuriousAct::Exercise));
            }
        }
    });
}

fn act_if(panel: &mut PanelContext<'_>, ui: &mut Ui, key: &str, text: &str, act: CuriousAct) {
    if panel.button(ui, key, text) {
        panel.intents.push(Intent::Curious(act));
    }
}

fn guess(ui: &mut Ui, panel: &mut PanelContext<'_>, state: &CuriousState) {
    ui.horizontal_wrapped(|ui| {
        for (guess, key, text) in [
            (Guess::Yes, "curious:yes", "curious-guess-yes"),
            (Guess::No, "curious:no", "curious-guess-no"),
            (Guess::Unsure, "curious:unsure", "curious-guess-unsure"),
        ] {
            let text = panel.say(text, &[]);
            if panel.choice(ui, state.guess == Some(guess), key, &text) {
                panel.intents.push(Intent::Curious(CuriousAct::Guess(guess)));
            }
        }
    });
}

fn pull(ui: &mut Ui, panel: &mut PanelContext<'_>, house: &House) {
    ui.horizontal_wrapped(|ui| {
        for (core, key) in WIRES {
            let wire = panel.say(key, &[]);
            let is_on = house.passage.is_on(core);
            let text = panel.say(if is_on { "curious-pull-off" } else { "curious-pull-on" }, &[("wire", &wire)]);
            act_if(panel, ui, &format!("core:{}", core.word()), &text, CuriousAct::Turn(core));
        }
    });
    if house.passage.is_open() {
        let text = panel.say("curious-pull-close", &[]);
        act_if(panel, ui, "curious:close", &text, CuriousAct::Close);
    } else if !house.is_whole() {
        let text = panel.say("curious-pull-show", &[]);
        act_if(panel, ui, "curious:show", &text, CuriousAct::ShowMe);
    }
}

/// What has been guessed, and what to have counted next.
fn every_way(ui: &mut Ui, panel: &mut PanelContext<'_>, state: &CuriousState) {
    match state.guess {
        Some(Guess::Yes) => theme::quiet(ui, &panel.say("curious-try-you-yes", &[])),
        Some(Guess::No) => theme::quiet(ui, &panel.say("curious-try-you-no", &[])),
        Some(Guess::Unsure) | None => {}
    }
    let [two, three] = &state.counts;
    if state.opened.is_some() {
        let text = panel.say("curious-wall", &[]);
        act_if(panel, ui, "curious:wall", &text, CuriousAct::Wall);
    } else if two.is_running() || three.is_running() {
        let text = panel.say("curious-finish", &[]);
        act_if(panel, ui, "curious:finish", &text, CuriousAct::Finish);
    } else if !two.is_asked() {
        let text = panel.say("curious-try-two", &[]);
        act_if(panel, ui, "curious:count-2", &text, CuriousAct::Count(Wires::Two));
    } else if !three.is_asked() {
        let text = panel.say("curious-try-three", &[]);
        act_if(panel, ui, "curious:count-3", &text, CuriousAct::Count(Wires::Three));
    }
    if two.is_asked() && state.opened.is_none() {
        theme::quiet(ui, &panel.say("curious-wall-means", &[]));
    }
}

fn pick(ui: &mut Ui, panel: &mut PanelContext<'_>, state: &CuriousState) {
    panel.heading(ui, "curious-pick");
    for (pick, key, text) in [
        (Pick::Spare, "curious:spare", "curious-pick-spare"),
        (Pick::True, "curious:true", "curious-pick-true"),
        (Pick::Phases, "curious:phases", "curious-pick-phases"),
    ] {
        let text = panel.say(text, &[]);
        let chosen = state.pick == Some(pick);
        let response = ui.add(Button::new(&text).selected(chosen).wrap().min_size(vec2(ui.available_width(), 28.0)));
        panel.touchable(ui, &response, key, &text);
        panel.is_on(chosen);
        if response.clicked() {
            panel.intents.push(Intent::Curious(CuriousAct::Pick(pick)));
        }
    }
}
