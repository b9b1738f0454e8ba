//! What is said in the see-through house: one sentence or two.

use switchdrop::{
    reason::WhatIf,
    wording::{Wording, end, grid_sentence, milliamps, try_sentence, volts},
};

use super::{
    CuriousState,
    counts::Count,
    houses::House,
    steps::{CuriousStep, Pick},
};

/// What is said now.
pub fn sentences(wording: &Wording, state: &CuriousState) -> String {
    let say = |key: &str| wording.say(key, &[]);
    let Some(house) = &state.houses.now else { return say("curious-house-lacks") };
    match state.step {
        CuriousStep::Play if house.has_seen_all() => say("curious-play-all"),
        CuriousStep::Play if !state.houses.is_changed() => say("curious-play-first"),
        CuriousStep::Play if house.passage.is_lit() => say("curious-play-lit"),
        CuriousStep::Play => say("curious-play-dark"),
        CuriousStep::Guess if state.guess.is_some() => say("curious-guess-said"),
        CuriousStep::Guess => say("curious-guess-asks"),
        CuriousStep::Pull if house.passage.is_open() => say("curious-pull-open"),
        CuriousStep::Pull if house.is_whole() => say("curious-pull-first"),
        CuriousStep::Pull => {
            let told = house.passage.grid().and_then(|it| grid_sentence(wording, &it)).unwrap_or_default();
            if house.is_shown { format!("{told} {}", say("curious-pull-shown")) } else { told }
        }
        CuriousStep::Beat => beaten(wording, house),
        CuriousStep::Try if state.opened.is_some() => told_of(wording, house),
        CuriousStep::Try => counted(wording, &state.counts),
        CuriousStep::Two => say("curious-two-first"),
        CuriousStep::Three => match state.pick {
            None => say("curious-three-first"),
            Some(Pick::True) => say("curious-pick-right"),
            Some(Pick::Spare) => say("curious-pick-spare-shown"),
            Some(Pick::Phases) => say("curious-pick-phases-shown"),
        },
        CuriousStep::WhatIf => what_if(wording, house),
    }
}

/// Of the wires that are joined any way.
fn beaten(wording: &Wording, house: &House) -> String {
    if let Some(it) = house.held {
        let end = end(wording, house.passage.work(), it);
        return wording.say("curious-beat-held", &[("end", &end)]);
    }
    let key = match (&house.refused, house.passage.is_open(), &house.tried) {
        (Some(_), ..) => "curious-beat-full",
        (None, true, _) => "curious-beat-open",
        (None, false, Some(_)) => return told_of(wording, house),
        (None, false, None) => "curious-beat-first",
    };
    wording.say(key, &[])
}

/// What came of the wires as they are joined.
fn told_of(wording: &Wording, house: &House) -> String {
    house.tried.as_ref().map_or_else(|| wording.say("curious-try-lacks", &[]), |it| try_sentence(wording, it))
}

/// What the counts say: those that have come, the last first.
fn counted(wording: &Wording, counts: &[Count; 2]) -> String {
    let said = |it: &Count, key: &str| match it.proof() {
        Some(Ok(proof)) => {
            let [tried, works] = [proof.counted.tried(), proof.counted.works()].map(|it| it.ways);
            if it.is_running() {
                let done = number(it.so_far(tried));
                return wording.say("curious-try-runs", &[("done", &done), ("tried", &number(tried))]);
            }
            wording.say(key, &[("tried", &number(tried)), ("works", &number(works))])
        }
        None if it.is_waiting() => wording.say("curious-try-waits", &[]),
        Some(Err(_)) | None => wording.say("curious-try-lacks", &[]),
    };
    let [two, three] = counts;
    match (two.is_asked(), three.is_asked()) {
        (false, _) => wording.say("curious-try-first", &[]),
        (true, false) => said(two, "curious-try-none"),
        (true, true) => format!("{} {}", said(two, "curious-try-none"), said(three, "curious-try-some")),
    }
}

/// Of another house: what it does, or what a hand meets in it.
fn what_if(wording: &Wording, house: &House) -> String {
    let say = |key: &str| wording.say(key, &[]);
    let Some(variant) = house.variant else { return say("curious-what-if-first") };
    if house.has_hand {
        return met(wording, house);
    }
    match variant {
        WhatIf::BareEarth => say("curious-bare-earth-is"),
        WhatIf::Exchanged => say("curious-exchanged-is"),
        WhatIf::BothPoles => say("curious-both-poles-is"),
        WhatIf::OppositeEnds => say("curious-opposite-is"),
        WhatIf::NeighboursNeutral => match house.passage.flow().opened().iter().map(|it| it.within).reduce(f64::max) {
            Some(within) => wording.say("curious-neighbour-opens", &[("seconds", &within.to_string())]),
            None => say("curious-neighbour-is"),
        },
        WhatIf::ThirdSwitch => say("curious-third-is"),
        WhatIf::WhereItGoes if house.passage.is_lit() => say("curious-where-lit"),
        WhatIf::WhereItGoes => say("curious-where-dark"),
    }
}

/// What the hand meets.
fn met(wording: &Wording, house: &House) -> String {
    let Some(met) = house.met() else { return wording.say("curious-hand-not-live", &[]) };
    let args = [("volts", volts(met.volts)), ("milliamps", milliamps(met.amps))];
    let felt = wording.say("curious-hand-met", &args.each_ref().map(|it| (it.0, it.1.as_str())));
    let then = match met.opened {
        Some(it) => wording.say("curious-hand-opens", &[("seconds", &it.within.to_string())]),
        None => wording.say("curious-hand-stays", &[]),
    };
    format!("{felt} {then}")
}

/// A number with its thousands apart.
pub fn number(it: u128) -> String {
    let digits = it.to_string();
    let mut told = String::new();
    for (place, digit) in digits.chars().enumerate() {
        if place > 0 && (digits.len() - place).is_multiple_of(3) {
            told.push(',');
        }
        told.push(digit);
    }
    told
}
