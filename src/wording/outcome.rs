//! What came of an action, in words.

use super::{
    Wording,
    keys::{act_key, stage_key},
    place,
    reading::reading,
};
use crate::{
    attempt::{Act, ActKind, Attempt, Happened, ProofGap},
    trade::supply::NOMINAL_VOLTS,
    work::Subject,
};

/// Above this a low-resistance meter shows its off-scale sign, ohms (common instruments end at 1,999 or 2,000; from
/// memory).
const LAST_ON_SCALE_OHMS: f64 = 1999.5;

/// What came of an action.
pub fn happened(wording: &Wording, attempt: &Attempt, happened: &Happened) -> String {
    let work = attempt.work();
    match happened {
        Happened::Done => wording.say("happened-done", &[]),
        Happened::Volts(it) => wording.say("happened-volts", &[("volts", &volts(*it))]),
        Happened::NoEarth(at) => {
            let at = place::subject(wording, work, work.subject_at(*at));
            wording.say("happened-no-earth", &[("place", &at)])
        }
        Happened::Concluded { dead: false, .. } => wording.say("happened-not-dead", &[]),
        Happened::Concluded { proved, lacked: Some((at, gap)), .. } if proved.is_empty() => {
            let place = place::subject(wording, work, Subject::Location(*at));
            wording.say("happened-nothing-proved", &[("place", &place), ("why", &lacking(wording, *gap))])
        }
        Happened::Concluded { proved, .. } if proved.is_empty() => wording.say("happened-nothing-to-prove", &[]),
        Happened::Concluded { proved, .. } => {
            let places: Vec<_> =
                proved.iter().map(|it| place::subject(wording, work, Subject::Location(*it))).collect();
            wording.say("happened-proved-dead", &[("places", &list(wording, &places))])
        }
        Happened::Lamps { lit, lamps } => {
            let names: Vec<_> = lamps.iter().map(|it| place::subject(wording, work, Subject::Lamp(*it))).collect();
            let key = if *lit { "happened-lamps-on" } else { "happened-lamps-out" };
            wording.say(key, &[("lamps", &list(wording, &names))])
        }
        Happened::Ohms(it) => match ohms(*it) {
            Some(it) => wording.say("happened-ohms", &[("ohms", &it)]),
            None => wording.say("happened-off-scale", &[]),
        },
        Happened::Held => wording.say("happened-held", &[]),
        Happened::CameOut => wording.say("happened-came-out", &[]),
        Happened::Ghost(it) => wording.say("happened-ghost", &[("reading", &reading(wording, work, it))]),
        Happened::Read(it) => wording.say("happened-read", &[("reading", &reading(wording, work, it))]),
        Happened::Stopped(act) => {
            let mut why = is_on(wording, attempt, act).unwrap_or_else(|| wording.say(act_key(act.kind), &[]));
            if let Some(gap) = act.lacked {
                why = wording.say("act-lacked", &[("act", &why), ("why", &lacking(wording, gap))]);
            }
            let stopped = wording.say("happened-stopped", &[("why", &why)]);
            let stage = attempt.safety().before_power_on(work.exercise());
            match stage.filter(|_| act.kind == ActKind::PowerOnUnchecked) {
                Some(it) => {
                    let stage = wording.say(stage_key(it), &[]);
                    wording.say("happened-stopped-for", &[("stopped", &stopped), ("stage", &stage)])
                }
                None => stopped,
            }
        }
        Happened::Tripped(devices) => {
            let devices: Vec<_> = devices.iter().map(|it| place::device(wording, work.exercise(), *it)).collect();
            wording.say("happened-tripped", &[("devices", &list(wording, &devices))])
        }
    }
}

/// Which devices are on where a hand was about to go, and at how many volts; `None` where it was not they that stopped it. At a board there is
/// the main switch besides.
fn is_on(wording: &Wording, attempt: &Attempt, act: &Act) -> Option<String> {
    let (work, exercise) = (attempt.work(), attempt.work().exercise());
    let is_board = act.at.location(exercise).is_some_and(|place| work.is_board(place));
    let mut on = attempt.safety().circuits_of(exercise, act.at);
    on.retain(|device| work.is_on(*device));
    (act.kind == ActKind::WorkedLive && !is_board && !on.is_empty()).then(|| {
        let on: Vec<_> = on.into_iter().map(|device| place::device(wording, exercise, device)).collect();
        let volts = volts(NOMINAL_VOLTS);
        wording.say("act-worked-live-on", &[("devices", &list(wording, &on)), ("volts", &volts)])
    })
}

/// What a place lacks of being proved dead.
fn lacking(wording: &Wording, gap: ProofGap) -> String {
    wording.say(&format!("gap-{}", gap.word()), &[])
}

/// Volts to the whole number an indicator shows.
pub fn volts(volts: f64) -> String {
    // Adding nothing turns minus zero into zero.
    format!("{:.0}", volts.round() + 0.0)
}

/// Ohms as a low-resistance meter shows them, a digit fewer in each range; `None` when off its scale.
pub fn ohms(ohms: f64) -> Option<String> {
    match ohms {
        it if it < 9.995 => Some(format!("{:.2}", it.max(0.0))),
        it if it < 99.95 => Some(format!("{it:.1}")),
        it if it < LAST_ON_SCALE_OHMS => Some(format!("{it:.0}")),
        _ => None,
    }
}

/// Things in a row that have commas in them: `a; b; c`.
pub fn apart(wording: &Wording, items: &[String]) -> String {
    let Some((first, rest)) = items.split_first() else { return wording.say("list-none", &[]) };
    rest.iter().fold(first.clone(), |so_far, next| wording.say("list-apart", &[("before", &so_far), ("next", next)]))
}

/// Things in a row: `a`, `a and b`, `a, b and c`.
pub fn list(wording: &Wording, items: &[String]) -> String {
    let Some((last, before)) = items.split_last() else { return wording.say("list-none", &[]) };
    let Some((first, rest)) = before.split_first() else { return last.clone() };
    let before = rest
        .iter()
        .fold(first.clone(), |so_far, next| wording.say("list-comma", &[("before", &so_far), ("next", next)]));
    wording.say("list-and", &[("before", &before), ("last", last)])
}

#[cfg(test)]
mod tests {
    use std::sync::Arc;

    use super::*;
    use crate::{
        exercise::{DeviceId, Seed, read},
        work::Action,
    };

    #[test]
    fn a_meter_shows_fewer_digits_in_each_range_and_stops_at_its_scale() {
        let shown: Vec<_> =
            [0.353, 9.994, 9.996, 99.94, 99.96, 1999.0, 2000.0, f64::INFINITY, f64::NAN].map(ohms).into();
        let expected = ["0.35", "9.99", "10.0", "99.9", "100", "1999"].map(|it| Some(it.to_owned()));
        assert_eq!(shown[..6], expected);
        assert_eq!(shown[6..], [None, None, None]);
    }

    #[test]
    fn volts_are_whole_and_never_minus_nothing() {
        assert_eq!([229.6, -0.2, 0.4].map(volts), ["230", "0", "0"]);
    }

    #[test]
    fn lists_are_read_aloud() {
        let wording = Wording::british();
        let say = |words: &[&str]| list(&wording, &words.iter().map(|it| (*it).to_owned()).collect::<Vec<_>>());
        assert_eq!(
            [say(&[]), say(&["a"]), say(&["a", "b"]), say(&["a", "b", "c"])],
            ["none", "a", "a and b", "a, b and c"]
        );
    }

    #[test]
    fn what_happened_is_one_short_answer() {
        let text = include_str!("../../exercises/two-way-passage/scenario.ron");
        let attempt = Attempt::new(Arc::new(read(text, Seed(0)).unwrap()));
        let wording = Wording::british();
        let say = |it: Happened| happened(&wording, &attempt, &it);
        assert_eq!(say(Happened::Done), "done");
        assert_eq!(say(Happened::Volts(230.2)), "read 230 V");
        assert_eq!(say(Happened::Ohms(0.35)), "read 0.35 Ω");
        assert_eq!(say(Happened::Ohms(1e9)), "read off the scale: nothing joins the two points");
        assert_eq!(say(Happened::Tripped(vec![DeviceId(0), DeviceId(1)])), "tripped: circuit 1 and circuit 2");
        let stopped = |kind| Happened::Stopped(Act { kind, at: Subject::Whole, action: 0, lacked: None });
        assert_eq!(say(stopped(ActKind::PowerOnOpen)), "stopped: a plate, cover or lid is still off");
        // With a place it says which of its circuits are on, and nothing of those that are off.
        let mut at_work = Attempt::new(Arc::new(read(text, Seed(0)).unwrap()));
        let mut lift = |off: Option<&str>| {
            if let Some(device) = off {
                at_work.act(Action::PowerOff { device: device.to_owned() }).unwrap();
            }
            let stop = at_work.act(Action::RemoveCover { location: "kiln".to_owned() }).unwrap();
            happened(&wording, &at_work, &stop)
        };
        let both = lift(None);
        assert!(both.starts_with("stopped: up to 230 V here, from circuit 1 and circuit 2."), "{both}");
        let one = lift(Some("board.1"));
        assert!(one.starts_with("stopped: up to 230 V here, from circuit 2."), "{one}");
        // At the board there is the main switch besides, which is told whatever else is on.
        let at = Subject::Location(attempt.work().exercise().location("board").unwrap());
        let board = say(Happened::Stopped(Act { kind: ActKind::WorkedLive, at, action: 0, lacked: None }));
        assert!(board.contains("the main switch counts"), "{board}");
        let unchecked = say(stopped(ActKind::PowerOnUnchecked));
        assert!(unchecked.ends_with(" First of all: continuity"), "{unchecked}");
    }
}
