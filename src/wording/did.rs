//! What was done, in a sentence: a bare "done" tells nobody which of two clicks it answers.

use super::{
    Wording, apart, cable, called, check_key, colour, fault_key, flaw_key, glow_key, lamp, list, mark, place, position,
    suspect, test_key, witness,
};
use crate::{
    circuit::{Witness, lamps_now},
    exercise::{FaultKind, Keeper, UnmarkedThing},
    work::{Action, Called, EarthingStep, Feel, Flaw, Incomer, KitPart, Work},
};

/// The sentence of an action that was done. `work` is as it stands after it.
pub fn did(wording: &Wording, work: &Work, action: &Action) -> String {
    let exercise = work.exercise();
    let say = |key: &str, args: &[(&str, &str)]| wording.say(key, args);
    let at = |key: &str, address: &str| say(key, &[("place", &place(wording, work, address))]);
    match action {
        Action::Mark { end, mark: with } => {
            say("did-mark", &[("place", &place(wording, work, end)), ("mark", &mark(wording, *with))])
        }
        Action::Unmark { end } => at("did-unmark", end),
        Action::Connect { end, terminal } => {
            say("did-connect", &[("place", &place(wording, work, end)), ("to", &place(wording, work, terminal))])
        }
        Action::Disconnect { end } => at("did-disconnect", end),
        Action::Tighten { terminal, feel } => match feel {
            Feel::Slack => at("did-tighten-slack", terminal),
            Feel::Right | Feel::Crushed => at("did-tighten", terminal),
        },
        Action::Sheath { location, .. } => at("did-sheath", location),
        Action::Cut { end, .. } => at("did-cut", end),
        Action::Strip { end, .. } => at("did-strip", end),
        Action::Fold { end } => at("did-fold", end),
        Action::Unfold { end } => at("did-unfold", end),
        Action::Grommet { location } => at("did-grommet", location),
        Action::Dress { location } => at("did-dress", location),
        Action::Choose { cable: run, kind, mm2, .. } => {
            let args = [("place", &*place(wording, work, run)), ("cable", &cable(wording, *kind, *mm2))];
            say("did-choose", &args)
        }
        Action::MakeUp { location, colour: of } => {
            say("did-make-up", &[("place", &place(wording, work, location)), ("colour", &colour(wording, *of))])
        }
        Action::FitCover { location } => at("did-fit-cover", location),
        Action::RemoveCover { location } => at("did-remove-cover", location),
        Action::FitLamp { lamp } => at("did-fit-lamp", lamp),
        Action::RemoveLamp { lamp } => at("did-remove-lamp", lamp),
        Action::Identify { location, devices } => {
            let names: Vec<_> = devices.iter().map(|it| place(wording, work, it)).collect();
            let devices = list(wording, &names);
            say("did-identify", &[("place", &place(wording, work, location)), ("devices", &devices)])
        }
        Action::Agree => say("did-agree", &[]),
        Action::PowerOff { device } => at("did-power-off", device),
        Action::LockOff { device } => at("did-lock-off", device),
        Action::Unlock { device } => at("did-unlock", device),
        Action::ProveIndicator => say("did-prove-indicator", &[]),
        Action::Park { at: on } => at("did-park", on),
        Action::Unpark => say("did-unpark", &[]),
        // What came of these is told in a sentence of its own.
        Action::Tug { .. }
        | Action::TestDead { .. }
        | Action::Continuity { .. }
        | Action::Measure { .. }
        | Action::ReadOrigin { .. }
        | Action::Conclude { .. }
        | Action::Hint => String::new(),
        Action::Inspect { location } => at("did-inspect", location),
        Action::Null { .. } => say("did-null", &[]),
        Action::FitLink { a, b } => linked(wording, work, true, (a, b)),
        Action::TakeLink { a, b } => linked(wording, work, false, (a, b)),
        Action::MainSwitch { .. }
        | Action::Isolator { .. }
        | Action::LockIncomer { .. }
        | Action::UnlockIncomer { .. }
        | Action::Earthing { .. }
        | Action::BringSupply
        | Action::Unplug
        | Action::LiftShroud => to_the_incomer(wording, action),
        Action::Record { test, at: circuit, .. } => {
            say("did-record", &[("test", &say(test_key(*test), &[])), ("place", &place(wording, work, circuit))])
        }
        Action::Report { at: there, what } => {
            say("did-report", &[("fault", &say(fault_key(*what), &[])), ("place", &place(wording, work, there))])
        }
        Action::Change { kit: KitPart::Indicator } => say("did-change-indicator", &[]),
        Action::Confirm { check } => say("did-confirm", &[("check", &say(check_key(*check), &[]))]),
        Action::Predict { positions, .. } => {
            let case = Witness { positions: positions.clone(), ..Witness::default() };
            say("did-predict", &[("case", &witness(wording, exercise, &case))])
        }
        Action::Diagnose { what, at } => said_to_be_wrong(wording, work, *what, at),
        Action::Name { at: thing, called: name } => named(wording, work, thing, name),
        Action::Observe { at: there, what } => observed(wording, work, "did-observe", (there, *what)),
        Action::Withdraw { at: there, what } => observed(wording, work, "did-withdraw", (there, *what)),
        Action::PowerOn { device } | Action::Reset { device } => {
            let lamps = lamps(wording, work);
            say("did-power-on", &[("place", &place(wording, work, device)), ("lamps", &lamps)])
        }
        Action::Operate { switch, position: to } => {
            let rocker = exercise.switch(switch).map(|it| position(wording, exercise, it, *to)).unwrap_or_default();
            let args = [("place", place(wording, work, switch)), ("rocker", rocker), ("lamps", lamps(wording, work))];
            say("did-operate", &args.each_ref().map(|(key, it)| (*key, it.as_str())))
        }
        Action::Undo => say("did-undo", &[]),
        Action::Redo => say("did-redo", &[]),
        Action::HandIn => say("did-hand-in", &[]),
    }
}

/// A test link fitted or taken out, by one's own hand or the supervisor's.
fn linked(wording: &Wording, work: &Work, fits: bool, (a, b): (&str, &str)) -> String {
    let key = match (fits, is_supervisors(work, a)) {
        (true, false) => "did-fit-link",
        (true, true) => "did-have-linked",
        (false, false) => "did-take-link",
        (false, true) => "did-have-unlinked",
    };
    wording.say(key, &[("place", &place(wording, work, a)), ("to", &place(wording, work, b))])
}

/// What was said of somebody else's work, or taken back.
fn observed(wording: &Wording, work: &Work, key: &str, (there, what): (&str, Flaw)) -> String {
    wording.say(key, &[("flaw", &wording.say(flaw_key(what), &[])), ("place", &place(wording, work, there))])
}

/// What something without a mark is called from now on.
fn named(wording: &Wording, work: &Work, thing: &str, name: &str) -> String {
    let exercise = work.exercise();
    let of = work.naming(thing, name).ok().and_then(|[_, it]| exercise.unmarked_thing(it));
    let name = of.map_or(String::new(), |it| called(wording, exercise, Called::By(it)));
    let key = match of {
        Some(UnmarkedThing::Terminal(_)) => "did-name-terminal",
        _ => "did-name-cable",
    };
    wording.say(key, &[("name", &name)])
}

/// What was said to be wrong.
fn said_to_be_wrong(wording: &Wording, work: &Work, what: FaultKind, at: &[String]) -> String {
    let named = work.exercise().suspects.iter().find(|it| it.is(what, at));
    let fault = named.map(|it| suspect(wording, work, it)).unwrap_or_default();
    wording.say("did-diagnose", &[("fault", &fault)])
}

/// Whether a point is in a board that is the supervisor's: who fits a link there, when the learner asks for it.
fn is_supervisors(work: &Work, address: &str) -> bool {
    let is_board = work.point(address).is_ok_and(|it| work.is_board(work.point_location(it)));
    is_board && work.exercise().board == Keeper::Supervisor
}

/// What every lamp does now.
fn lamps(wording: &Wording, work: &Work) -> String {
    let ids = work.exercise().lamps.ids();
    let said: Vec<_> = ids
        .zip(lamps_now(work))
        .map(|(of, it)| {
            let glow = wording.say(glow_key(it.glow), &[]);
            wording.say("states-lamp", &[("lamp", &lamp(work.exercise(), of)), ("glow", &glow)])
        })
        .collect();
    apart(wording, &said)
}

/// What was done on the supply side of the devices: main switch, isolator, earthing conductor, supply, plug, shroud. Empty for any other
/// action.
fn to_the_incomer(wording: &Wording, action: &Action) -> String {
    let say = |key: &str| wording.say(key, &[]);
    match action {
        Action::MainSwitch { on: true } => say("did-main-on"),
        Action::MainSwitch { on: false } => say("did-main-off"),
        Action::Isolator { on: true } => say("did-isolator-on"),
        Action::Isolator { on: false } => say("did-isolator-off"),
        Action::LockIncomer { which: Incomer::Main } => say("did-lock-main"),
        Action::LockIncomer { which: Incomer::Isolator } => say("did-lock-isolator"),
        Action::UnlockIncomer { which: Incomer::Main } => say("did-unlock-main"),
        Action::UnlockIncomer { which: Incomer::Isolator } => say("did-unlock-isolator"),
        Action::Earthing { step: EarthingStep::Disconnect } => say("did-earthing-off"),
        Action::Earthing { step: EarthingStep::Connect } => say("did-earthing-back"),
        Action::Earthing { step: EarthingStep::Tighten } => say("did-earthing-tight"),
        Action::Earthing { step: EarthingStep::ReadThrough } => say("did-earthing-read"),
        Action::BringSupply => say("did-bring-supply"),
        Action::Unplug => say("did-unplug"),
        Action::LiftShroud => say("did-lift-shroud"),
        _ => String::new(),
    }
}
