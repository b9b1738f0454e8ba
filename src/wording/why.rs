//! What the search behind "why three cores?" says to a householder.

use super::{Wording, list};
use crate::reason::{Arrival, CoreProof, Counted, LampGrid, PassageTry, Question, WayClass, WayCount};

/// The answer in words.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WhyWords {
    /// What was asked, in sentences.
    pub asked: String,
    /// What was tried, what works, and of that what is safe.
    pub found: Vec<WhyLine>,
    /// What the others do.
    pub rest: Vec<WhyLine>,
    /// The reason that follows.
    pub reason: String,
}

/// A line of the table.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WhyLine {
    /// What was counted.
    pub what: String,
    /// How many.
    pub count: WayCount,
}

const SWITCHES: [&str; 5] = ["why-switches-2", "why-switches-3", "why-switches-4", "why-switches-5", "why-switches-6"];
const CORES: [&str; 4] = ["why-cores-1", "why-cores-2", "why-cores-3", "why-cores-4"];

/// The whole answer in words.
pub fn why_words(wording: &Wording, question: &Question, proof: &CoreProof) -> WhyWords {
    let counted = &proof.counted;
    let found = [("why-tried", counted.tried()), ("why-works", counted.works()), ("why-safe", counted.safe())];
    let found = found.map(|(key, count)| WhyLine { what: wording.say(key, &[]), count });
    let others = counted.classes.iter().filter(|it| !it.class.works());
    let rest = others.map(|it| {
        let count = WayCount { ways: it.ways, grouped: it.grouped };
        WhyLine { what: way_class(wording, it.class, question.positions), count }
    });
    let others = wording.say(if question.positions == 2 { "why-others-one" } else { "why-others-several" }, &[]);
    WhyWords {
        asked: asked(wording, question),
        found: found.into(),
        rest: rest.collect(),
        reason: wording.say(reason_of(question, counted), &[("others", &others)]),
    }
}

/// What the wirings of a class do, where there are that many switches.
pub fn way_class(wording: &Wording, class: WayClass, switches: usize) -> String {
    let key = match class {
        WayClass::Safe => "why-class-safe",
        WayClass::Unsafe => "why-class-unsafe",
        WayClass::ShockHazard => "why-class-shock-hazard",
        WayClass::Trips => "why-class-trips",
        WayClass::AlwaysOn => "why-class-always-on",
        WayClass::AlwaysOff => "why-class-always-off",
        WayClass::OnlyFirst => "why-class-only-first",
        WayClass::OnlySecond => "why-class-only-second",
        WayClass::LitInOne => "why-class-lit-in-one",
        WayClass::DarkInOne => "why-class-dark-in-one",
        WayClass::DependsOn(1) => "why-class-depends-on-one",
        WayClass::DependsOn(count) => {
            let (count, of) = (count.to_string(), switches.to_string());
            return wording.say("why-class-depends-on", &[("count", &count), ("of", &of)]);
        }
        WayClass::Other => "why-class-other",
    };
    wording.say(key, &[("of", &switches.to_string())])
}

fn asked(wording: &Wording, question: &Question) -> String {
    let say = |key: &str| wording.say(key, &[]);
    let of = |keys: &[&str], first: usize, number: usize| {
        number.checked_sub(first).and_then(|it| keys.get(it)).map_or(number.to_string(), |it| say(it))
    };
    let switches = of(&SWITCHES, *Question::POSITIONS.start(), question.positions);
    let cores = of(&CORES, *Question::CORES.start(), question.cores);
    let mut sentences = vec![wording.say("why-asked", &[("switches", &switches), ("cores", &cores)])];
    sentences.push(say(match question.arrival {
        Arrival::FirstPlace => "why-arrives-first",
        Arrival::OppositeEnds => "why-arrives-opposite",
        Arrival::NeutralAtBoth => "why-arrives-both",
    }));
    if question.cpc_as_core {
        sentences.push(say("why-cpc-as-core"));
    }
    if !question.connectors.is_empty() {
        let places: Vec<String> = question.connectors.iter().map(|it| place(wording, question, *it)).collect();
        sentences.push(wording.say("why-connectors", &[("places", &list(wording, &places))]));
    }
    sentences.join(" ")
}

/// A place by its number from 1.
fn place(wording: &Wording, question: &Question, number: usize) -> String {
    match number {
        1 => wording.say("why-place-near", &[]),
        _ if number == question.positions => wording.say("why-place-far", &[]),
        _ => wording.say("why-place-number", &[("number", &number.to_string())]),
    }
}

/// The reason that follows from what was found, and no more than that.
fn reason_of(question: &Question, counted: &Counted) -> &'static str {
    let (works, safe) = (counted.works().ways > 0, counted.safe().ways > 0);
    let conductors = question.cores + usize::from(question.cpc_as_core);
    match (question.arrival, works) {
        (_, true) if question.cpc_as_core && !safe => "why-reason-cpc",
        (Arrival::FirstPlace, true) => "why-reason-three",
        (Arrival::FirstPlace, false) if conductors == 1 => "why-reason-one",
        (Arrival::FirstPlace, false) if conductors == 2 => "why-reason-two",
        (Arrival::OppositeEnds, true) => "why-reason-opposite",
        (Arrival::OppositeEnds, false) if conductors == 1 => "why-reason-opposite-one",
        (Arrival::NeutralAtBoth, true) if !safe => "why-reason-both",
        (_, true) => "why-reason-some",
        (Arrival::FirstPlace, false) if question.positions > 2 => "why-reason-past",
        (_, false) => "why-reason-none",
    }
}

/// What two switches do to their lamp now, in a sentence; `None` where there are not two. Position 0 of a switch is that with its rocker down.
pub fn grid_sentence(wording: &Wording, grid: &LampGrid) -> Option<String> {
    let lit = grid.of_two()?;
    let [[a, b], [c, d]] = lit;
    let near_matters = [a, b] != [c, d];
    let far_matters = a != b || c != d;
    let say = |key: &str| Some(wording.say(key, &[]));
    match (near_matters, far_matters) {
        (false, false) => return say(if a { "why-now-always-on" } else { "why-now-always-off" }),
        (true, false) => return say("why-now-only-near"),
        (false, true) => return say("why-now-only-far"),
        (true, true) if a != b && c != d => return say("why-now-obeys"),
        (true, true) => {}
    }
    // One position differs from the others: at one setting of the near switch the far one works the lamp, at the other it does not.
    let works_at = usize::from(a == b);
    let [works, idle] = [works_at, 1 - works_at].map(|it| wording.say(ROCKER[it], &[]));
    let glow = wording.say(if lit[1 - works_at][0] { "why-stays-on" } else { "why-stays-off" }, &[]);
    Some(wording.say("why-now-far-while", &[("works", &works), ("idle", &idle), ("glow", &glow)]))
}

/// What came of joining the wires of the see-through house, in a sentence or two: what is dangerous first, else what the lamp does.
pub fn try_sentence(wording: &Wording, it: &PassageTry) -> String {
    let lamp = || grid_sentence(wording, &it.grid).unwrap_or_default();
    let say = |key: &str| wording.say(key, &[]);
    match (!it.opens.is_empty(), it.bare_live) {
        (true, true) => format!("{} {}", say("why-now-trips"), say("why-now-bare-live")),
        (true, false) => say("why-now-trips"),
        (false, true) => format!("{} {}", lamp(), say("why-now-bare-live")),
        (false, false) if it.unearthed => format!("{} {}", lamp(), say("why-now-unearthed")),
        (false, false) => lamp(),
    }
}

/// How a rocker stands in each position.
const ROCKER: [&str; 2] = ["why-rocker-down", "why-rocker-up"];
