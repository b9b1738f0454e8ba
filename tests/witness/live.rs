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
    wirings::{Kind, Wirings, every_case},
};
use crate::bench::Bench;

const WIRINGS: u64 = 1200;
/// Of each kind besides, with positions and devices enough for as many cases again.
const OF_A_KIND: u64 = 90;

#[test]
fn the_simulator_agrees_on_random_wirings() {
    let wirings = Wirings::new();
    agrees("wirings", WIRINGS, |number| wirings.number(number));
}

/// Screwed metal plates, boxes that two circuits share, linked poles, a fan, each on TT, TN-S and TN-C-S with its bond.
#[test]
fn the_simulator_agrees_on_each_kind_of_installation() {
    for kind in Kind::ALL {
        agrees(&format!("{kind:?}"), OF_A_KIND, |number| kind.number(number));
    }
}

/// Asks about this number of wirings, if ngspice is to be asked at all.
fn agrees(what: &str, count: u64, wiring: impl Fn(u64) -> Work + Sync) {
    if env::var_os("SWITCHDROP_NGSPICE").is_none_or(|it| it != "1") {
        println!("SWITCHDROP_NGSPICE is not 1: ngspice is not asked");
        return;
    }
    let started = Instant::now();
    let (next, trips) = (AtomicU64::new(0), AtomicU64::new(0));
    let workers = thread::available_parallelism().map_or(2, usize::from);
    let wrong: Vec<String> = thread::scope(|scope| {
        let work = || {
            let bench = Bench::new();
            let mut wrong = Vec::new();
            loop {
                let number = next.fetch_add(1, Ordering::Relaxed);
                if number >= count || wrong.len() > 20 {
                    return wrong;
                }
                match asked(&bench, &wiring(number)) {
                    Ok(tripped) => _ = trips.fetch_add(tripped, Ordering::Relaxed),
                    Err(it) => wrong.push(format!("{what} {number}: {it}")),
                }
            }
        };
        let threads: Vec<_> = (0..workers).map(|_| scope.spawn(work)).collect();
        threads.into_iter().flat_map(|it| it.join().expect("a worker ends")).collect()
    });
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    let trips = trips.into_inner();
    // Were there none, nothing would have been said of trips.
    assert!(trips > count / 10, "{what}: only {trips} rows in which a device opens");
    println!("{count} {what}, {trips} rows in which a device opens, {:.0} s", started.elapsed().as_secs_f64());
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
        let kinds: Vec<&str> = exercise.devices.iter().map(|it| it.kind.word()).collect();
        let (opened, settled) = settled_by(
            &kinds,
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
        let glows: Vec<Glow> =
            exercise.lamps.ids().map(|it| glow(&deck, &deck.cases[case], &theirs[case], it)).collect();
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

/// What opens, in order, and which devices are on at the end, from currents that another has worked out. Circuit-breakers are of
/// 6 A. BS EN 60898: 5 times the rating at once for type B and 10 times for type C, which takes at most 15 s from 5 times on;
/// 2.55 times within a minute, 1.45 within the hour; BS EN 61009-1: 30, 60 and 150 mA within 300, 150 and 40 ms.
fn settled_by(
    kinds: &[&str],
    amps: impl Fn(&[bool], Part) -> Option<f64>,
    mut on: Vec<bool>,
) -> (Vec<DeviceId>, Vec<bool>) {
    let type_b = [(30.0, 0.1), (18.0, 45.0), (15.3, 60.0), (8.7, 3600.0)];
    let type_c = [(60.0, 0.1), (30.0, 15.0), (15.3, 60.0), (8.7, 3600.0)];
    let residual_bands = [(0.150, 0.04), (0.060, 0.15), (0.030, 0.3)];
    // What each kind has: the bands of its line, and whether it minds a difference.
    let of_kind = |it: usize| match kinds[it] {
        "Rcbo6B30" => (&type_b[..], true),
        "Mcb6B" => (&type_b[..], false),
        "Mcb6C" => (&type_c[..], false),
        "Rcd30" => (&[][..], true),
        it => panic!("no bands for {it}"),
    };
    let mut opened = Vec::new();
    loop {
        let mut times = Vec::new();
        for (index, _) in on.iter().enumerate().filter(|it| *it.1) {
            let device = crate::ids::device(index);
            let Some(line) = amps(&on, Part::LinePole(device)) else { continue };
            let neutral = amps(&on, Part::NeutralPole(device)).unwrap_or(0.0);
            let first = |bands: &[(f64, f64)], amps: f64| bands.iter().find(|it| amps >= it.0).map(|it| it.1);
            let (bands, minds) = of_kind(index);
            let residual = first(&residual_bands, (line - neutral).abs()).filter(|_| minds);
            let by = [first(bands, line.abs()), residual];
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
