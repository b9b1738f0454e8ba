//! Where a current goes, in a few words for each leg of its loop.

use super::{
    Wording, apart, colour, end, list,
    outcome::volts,
    place::{conductor, contact, device, place_of},
    subject, switch,
};
use crate::{
    circuit::{CurrentLoop, Flow, LiveStop, LoopLeg, Touch},
    exercise::EndId,
    work::{Point, Subject, Work},
};

/// Where the current goes: a sentence for each load that takes one, and one for where what is live stops.
pub fn ways(wording: &Wording, work: &Work, flow: &Flow) -> Vec<String> {
    let mut said: Vec<String> = flow.loops.iter().map(|it| one_loop(wording, work, it)).collect();
    said.extend(stopped(wording, work, flow));
    said
}

/// Where what is live stops; beyond a load that takes a current it only goes back.
fn stopped(wording: &Wording, work: &Work, flow: &Flow) -> Option<String> {
    let goes_on =
        |it: &&LiveStop| matches!(it, LiveStop::Load { load, .. } if flow.loops.iter().any(|it| it.load == *load));
    let stops = flow.stops.iter().filter(|it| !goes_on(it)).map(|it| stop(wording, work, it));
    let stops: Vec<String> = stops.collect();
    (!stops.is_empty()).then(|| wording.say("way-stops", &[("places", &apart(wording, &stops))]))
}

/// The same in a sentence or two for a table: what takes a current and through which switches, where what is live stops on its way, what
/// opens by itself.
pub fn way_in_short(wording: &Wording, work: &Work, flow: &Flow) -> String {
    let mut said: Vec<String> = Vec::new();
    if !flow.opened().is_empty() {
        let opened = flow.opened().iter().map(|it| device(wording, work.exercise(), it.device));
        said.push(wording.say("way-short-opened", &[("devices", &list(wording, &opened.collect::<Vec<_>>()))]));
    }
    for it in &flow.loops {
        let legs = it.legs(work);
        let switches = legs.iter().filter(|it| matches!(it, LoopLeg::Switch { .. }));
        let switches: Vec<String> = switches.map(|it| loop_leg(wording, work, it)).collect();
        let (load, amps) = (subject(wording, work, it.load), format!("{:.2}", it.amps));
        let args = [("load", load.as_str()), ("amps", &amps), ("switches", &apart(wording, &switches))];
        said.push(wording.say(if switches.is_empty() { "way-short-straight" } else { "way-short-loop" }, &args));
    }
    said.extend(stopped(wording, work, flow));
    if said.is_empty() {
        said.push(wording.say("way-nothing", &[]));
    }
    said.join(" ")
}

/// What a hand on a point would feel, sentence by sentence: a picture of what would happen, never to be tried.
pub fn hand(wording: &Wording, work: &Work, point: Point, met: Option<&Touch>) -> Vec<String> {
    let place = subject(wording, work, work.subject_at(point));
    let Some(it) = met else { return vec![wording.say("hand-nothing", &[("place", &place)])] };
    let args = [("place", place.as_str()), ("volts", &volts(it.volts)), ("milliamps", &milliamps(it.amps))];
    let mut said = vec![wording.say("hand-felt", &args)];
    let way: Vec<String> = it.conductors.iter().map(|it| conductor(wording, work, *it)).collect();
    if !way.is_empty() {
        said.push(wording.say("hand-way", &[("way", &apart(wording, &way))]));
    }
    said.push(match it.opened {
        Some(it) => {
            let name = device(wording, work.exercise(), it.device);
            wording.say("hand-opens", &[("device", &name), ("seconds", &it.within.to_string())])
        }
        None => wording.say("hand-stays", &[]),
    });
    said
}

/// The same in a few words.
pub fn hand_in_short(wording: &Wording, met: Option<&Touch>) -> String {
    let Some(it) = met else { return wording.say("hand-short-nothing", &[]) };
    let args = [("volts", volts(it.volts)), ("milliamps", milliamps(it.amps))];
    wording.say("hand-short-felt", &args.each_ref().map(|it| (it.0, it.1.as_str())))
}

/// Milliamps through a body, to the nearest five: bodies differ.
pub fn milliamps(amps: f64) -> String {
    format!("{:.0}", (200.0 * amps).round() * 5.0)
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
            let [live, dead] = [live, dead].map(|it| mark(wording, work, Some(Point::Terminal(*it))));
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
            let [from, to] = [from, to].map(|it| mark(wording, work, *it));
            wording.say("loop-switch", &[("switch", &name), ("from", &from), ("to", &to)])
        }
        LoopLeg::Load(it) => subject(wording, work, *it),
    }
}

/// What stands at a terminal of a switch.
fn mark(wording: &Wording, work: &Work, point: Option<Point>) -> String {
    let Some(Point::Terminal(it)) = point else { return String::new() };
    contact(wording, work, it)
}
