//! Where a current goes, in a few words for each leg of its loop.

use super::{Wording, apart, colour, end, place::place_of, subject, switch};
use crate::{
    circuit::{CurrentLoop, Flow, LiveStop, LoopLeg},
    exercise::{EndId, TerminalUse},
    work::{Point, Subject, Work},
};

/// Where the current goes: a sentence for each load that takes one, and one for where what is live stops.
pub fn ways(wording: &Wording, work: &Work, flow: &Flow) -> Vec<String> {
    let mut said: Vec<String> = flow.loops.iter().map(|it| one_loop(wording, work, it)).collect();
    let stops: Vec<String> = flow.stops.iter().map(|it| stop(wording, work, it)).collect();
    if !stops.is_empty() {
        said.push(wording.say("way-stops", &[("places", &apart(wording, &stops))]));
    }
    said
}

fn one_loop(wording: &Wording, work: &Work, it: &CurrentLoop) -> String {
    let legs: Vec<String> = it.legs(work).iter().map(|it| loop_leg(wording, work, it)).collect();
    let (load, amps) = (subject(wording, work, it.load), format!("{:.2}", it.amps));
    wording.say("way-loop", &[("load", &load), ("amps", &amps), ("way", &apart(wording, &legs))])
}

fn stop(wording: &Wording, work: &Work, it: &LiveStop) -> String {
    match it {
        LiveStop::Switch { switch: of, live, dead } => {
            let name = switch(wording, work.exercise(), *of);
            let [live, dead] = [live, dead].map(|it| mark(work, Some(Point::Terminal(*it))));
            wording.say("way-stops-switch", &[("switch", &name), ("live", &live), ("dead", &dead)])
        }
        LiveStop::Load { load, .. } => subject(wording, work, *load),
        LiveStop::Loose(it) => end(wording, work, *it),
    }
}

/// One leg of a loop.
pub fn loop_leg(wording: &Wording, work: &Work, leg: &LoopLeg) -> String {
    match leg {
        LoopLeg::Device(it) => subject(wording, work, Subject::Device(*it)),
        LoopLeg::Wires { conductors, to } => {
            let first = conductors.first().and_then(|it| work.ends_of(*it));
            let of = first.map_or(String::new(), |it: [EndId; 2]| colour(wording, work.end_facts(it[0]).colour));
            let to = to.map_or(String::new(), |it| place_of(work, work.subject_at(it)));
            wording.say("loop-wires", &[("colour", &of), ("place", &to)])
        }
        LoopLeg::Switch { switch: of, from, to } => {
            let name = switch(wording, work.exercise(), *of);
            let [from, to] = [from, to].map(|it| mark(work, *it));
            wording.say("loop-switch", &[("switch", &name), ("from", &from), ("to", &to)])
        }
        LoopLeg::Load(it) => subject(wording, work, *it),
    }
}

/// What stands at a terminal of a switch.
fn mark(work: &Work, point: Option<Point>) -> String {
    let Some(Point::Terminal(it)) = point else { return String::new() };
    match work.exercise().terminals[it].used_by {
        TerminalUse::Contact(of, contact) => work.exercise().switches[of].way.name_of(usize::from(contact)).to_owned(),
        _ => String::new(),
    }
}
