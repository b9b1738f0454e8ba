//! Where a current goes, in a few words for each leg of its loop.

use super::{Wording, colour, place::place_of, subject, switch};
use crate::{
    circuit::LoopLeg,
    exercise::{EndId, TerminalUse},
    work::{Point, Subject, Work},
};

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
