//! ngspice itself on random wirings, when `SWITCHDROP_NGSPICE=1` asks for it: a process a wiring, every combination of
//! positions and of devices on and off, the voltage across each branch and its current, every lamp and every trip.

use std::{
    env, fs,
    process::{Command, Stdio},
    sync::atomic::{AtomicU64, Ordering},
    thread,
    time::Instant,
};

use switchdrop::{
    circuit::{Conditions, Glow, Network, Part, deck, settle, shown_at},
    exercise::{DeviceId, LampId},
    work::Work,
};

use super::{
    ngspice::{Answers, answers, differences},
    wirings::{Wirings, every_case},
};
use crate::bench::Bench;

const WIRINGS: u64 = 2000;

#[test]
fn the_simulator_agrees_on_two_thousand_random_wirings() {
    if env::var_os("SWITCHDROP_NGSPICE").is_none_or(|it| it != "1") {
        println!("SWITCHDROP_NGSPICE is not 1: ngspice is not asked");
        return;
    }
    let started = Instant::now();
    let (next, trips) = (AtomicU64::new(0), AtomicU64::new(0));
    let wirings = Wirings::new();
    let workers = thread::available_parallelism().map_or(2, usize::from);
    let wrong: Vec<String> = thread::scope(|scope| {
        let work = || {
            let bench = Bench::new();
            let mut wrong = Vec::new();
            loop {
                let number = next.fetch_add(1, Ordering::Relaxed);
                if number >= WIRINGS || wrong.len() > 20 {
                    return wrong;
                }
                match asked(&bench, &wirings.number(number)) {
                    Ok(tripped) => _ = trips.fetch_add(tripped, Ordering::Relaxed),
                    Err(it) => wrong.push(format!("wiring {number}: {it}")),
                }
            }
        };
        let threads: Vec<_> = (0..workers).map(|_| scope.spawn(work)).collect();
        threads.into_iter().flat_map(|it| it.join().expect("a worker ends")).collect()
    });
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    let trips = trips.into_inner();
    // Were there none, nothing would have been said of trips.
    assert!(trips > WIRINGS / 10, "only {trips} rows in which a device opens");
    println!("{WIRINGS} wirings, {trips} rows in which a device opens, {:.0} s", started.elapsed().as_secs_f64());
}

/// Asks about one wiring; how many of its rows open a device, or the first that differs.
fn asked(bench: &Bench, work: &Work) -> Result<u64, String> {
    let exercise = work.exercise();
    let every = every_case(exercise);
    let cases: Vec<Conditions> = every
        .iter()
        .map(|(positions, on)| Conditions { on: on.clone(), ..Conditions::complete(exercise, positions.clone()) })
        .collect();
    let deck = deck(work, &cases);
    let path = bench.file("wiring.cir", &deck.text);
    let ngspice = Command::new("ngspice").arg("-b").arg(&path).stdin(Stdio::null()).output();
    let printed = ngspice.map_err(|it| format!("ngspice does not start: {it}"))?;
    let theirs = answers(&String::from_utf8_lossy(&printed.stdout));
    if theirs.len() != cases.len() {
        let _ = fs::copy(&path, bench.path("kept.cir"));
        return Err(format!("{} cases of {}: {}", theirs.len(), cases.len(), String::from_utf8_lossy(&printed.stderr)));
    }
    for (number, conditions) in cases.iter().enumerate() {
        let network = Network::new(work, conditions);
        let wrong = differences(&deck, &deck.cases[number], &network.branches, &network.solve(), &theirs[number]);
        if !wrong.is_empty() {
            return Err(format!("case {number} {:?}: {}", every[number], wrong.join("; ")));
        }
    }
    // What stands in the deck for a part in a case, if it does.
    let amps = |case: usize, part: Part| -> Option<f64> {
        let place = deck.cases[case].iter().find(|it| deck.elements[**it].part == part)?;
        theirs[case].get(&format!("@r{}[i]", place + 1)).copied()
    };
    let mut tripped = 0;
    for (positions, on) in &every {
        if !on.iter().all(|it| *it) {
            continue;
        }
        let (opened, settled) = settled_by(
            |on, part| {
                let case = every.iter().position(|it| it.0 == *positions && it.1 == on)?;
                amps(case, part)
            },
            on.clone(),
        );
        let ours = settle(work, Conditions::complete(exercise, positions.clone()));
        let ours: Vec<DeviceId> = ours.opened.iter().map(|it| it.device).collect();
        if ours != opened {
            return Err(format!("{positions:?}: {ours:?} open, and by ngspice {opened:?}"));
        }
        tripped += u64::from(!opened.is_empty());
        let case = every.iter().position(|it| it.0 == *positions && it.1 == settled).ok_or("no such case")?;
        let glows: Vec<Glow> = (0..exercise.lamps.len())
            .map(|it| glow(&deck, &deck.cases[case], &theirs[case], LampId(it as u16)))
            .collect();
        let ours: Vec<Glow> = shown_at(work, positions.clone()).lamps.iter().map(|it| it.glow).collect();
        if ours != glows {
            return Err(format!("{positions:?}: {ours:?}, and by ngspice {glows:?}"));
        }
    }
    Ok(tripped)
}

/// architecture.md: lit from 85 % of 230 V, off below 5 %.
fn glow(deck: &switchdrop::circuit::Deck, places: &[usize], theirs: &Answers, lamp: LampId) -> Glow {
    let place = places.iter().find(|it| deck.elements[**it].part == Part::Lamp(lamp)).expect("a lamp");
    match theirs[&deck.elements[*place].volts()].abs() {
        it if it >= 195.5 => Glow::Lit,
        it if it >= 11.5 => Glow::Dim,
        _ => Glow::Off,
    }
}

/// What opens, in order, and which devices are on at the end, from currents that another has worked out. Everything in the
/// scenarios is a 6 A type B with 30 mA residual. BS EN 60898: 5 times the rating at once, 1.45 times within the hour;
/// BS EN 61009-1: 30, 60 and 150 mA within 300, 150 and 40 ms.
fn settled_by(amps: impl Fn(&[bool], Part) -> Option<f64>, mut on: Vec<bool>) -> (Vec<DeviceId>, Vec<bool>) {
    let bands = [(30.0, 0.1), (8.7, 3600.0)];
    let residual_bands = [(0.150, 0.04), (0.060, 0.15), (0.030, 0.3)];
    let mut opened = Vec::new();
    loop {
        let mut times = Vec::new();
        for (index, _) in on.iter().enumerate().filter(|it| *it.1) {
            let device = DeviceId(index as u16);
            let Some(line) = amps(&on, Part::LinePole(device)) else { continue };
            let neutral = amps(&on, Part::NeutralPole(device)).unwrap_or(0.0);
            let first = |bands: &[(f64, f64)], amps: f64| bands.iter().find(|it| amps >= it.0).map(|it| it.1);
            let by = [first(&bands, line.abs()), first(&residual_bands, (line - neutral).abs())];
            if let Some(seconds) = by.into_iter().flatten().min_by(f64::total_cmp) {
                times.push((seconds, device));
            }
        }
        let Some(least) = times.iter().map(|it| it.0).min_by(f64::total_cmp) else { return (opened, on) };
        for (_, device) in times.into_iter().filter(|it| it.0 <= least) {
            on[device.index()] = false;
            opened.push(device);
        }
    }
}
