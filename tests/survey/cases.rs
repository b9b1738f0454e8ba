//! Every hazard of every case against plain brute force: each case of each combination is a network of its own, solved by
//! independent linear algebra, with a body put to every point that could be touched. Nothing is shared, nothing is left
//! out as quiet, and no answer is taken from another case.
//!
//! What the two have in common: the network of one case (`Network::new`, which ngspice is asked about), the bands of the
//! devices, and which devices, lamps and switches are one group.

use std::collections::BTreeSet;

use switchdrop::{
    circuit::{Conditions, Group, Groups, HazardKind, Joined, Network, Part, survey},
    exercise::{DeviceId, EndId, Fan, LampId, LocationKind, SwitchId, TerminalId, TerminalUse},
    trade::{accessory::Material, device::Verdict, supply::Earthing},
    work::{Edit, Point, Work},
};

use super::scrambled;
use crate::{
    installations::{MCBS, ONE_RCD, PASSAGE_WIRED, RCBOS, TWO_RCDS, passage, with},
    wirings::Dice,
    witness::{algebra::volts, wirings::Wirings},
};

type Found = BTreeSet<(HazardKind, String)>;

/// The architecture page: 0.5 mA through 2,000 ohm.
const BODY: f64 = 2000.0;
const TOUCH: f64 = 0.0005;
/// What a dry hand does not feel, volts: `marking/changes.md` has it that what is at 25 V and less is not energised.
const FELT: f64 = 25.0;
/// What a device without an overcurrent release may carry before it is called a short: no load takes a cut-out's rating.
const CUT_OUT: f64 = 100.0;

/// A case after what must open has opened.
struct After {
    network: Network,
    volts: Vec<f64>,
    opened: Vec<DeviceId>,
    /// Those that carry a short and know nothing of it.
    unbroken: Vec<DeviceId>,
    residual: BTreeSet<DeviceId>,
}

fn branches(network: &Network) -> Vec<(usize, usize, f64)> {
    network.branches.iter().map(|it| (it.a, it.b, 1.0 / it.ohms)).collect()
}

/// Opens what opens first, ties together, until nothing does or its time is over.
fn after(work: &Work, mut conditions: Conditions, seconds: f64) -> After {
    let (mut opened, mut residual, mut left) = (Vec::new(), BTreeSet::new(), seconds);
    loop {
        let network = Network::new(work, &conditions);
        let volts = volts(network.node_count(), [0, 1], 230.0, &branches(&network));
        let amps = |part| network.part(part).map_or(0.0, |it| (volts[it.a] - volts[it.b]) / it.ohms);
        let (mut next, mut unbroken): (Vec<(DeviceId, f64, bool)>, _) = (Vec::new(), Vec::new());
        for (id, device) in work.exercise().devices.with_ids().filter(|it| conditions.on[it.0.index()]) {
            let (line, neutral) = (amps(Part::LinePole(id)), amps(Part::NeutralPole(id)));
            let time = |it| if let Verdict::Opens { within, .. } = it { within } else { f64::INFINITY };
            let (over, by_difference) =
                (time(device.kind.overcurrent(line.abs())), time(device.kind.residual((line - neutral).abs())));
            if over.min(by_difference).is_finite() {
                next.push((id, over.min(by_difference), by_difference < over));
            }
            if device.kind.is_common() && line.abs() >= CUT_OUT {
                unbroken.push(id);
            }
        }
        let first = next.iter().map(|it| it.1).fold(f64::INFINITY, f64::min);
        left -= if next.is_empty() { 0.0 } else { first };
        if next.is_empty() || left < 0.0 {
            return After { network, volts, opened, unbroken, residual };
        }
        for (id, _, by_difference) in next.into_iter().filter(|it| it.1 <= first) {
            conditions.on[id.index()] = false;
            opened.push(id);
            residual.extend(by_difference.then_some(id));
        }
    }
}

impl After {
    /// A body between a point and earth, solved with all the rest. Earth is the star point, or where the supply ties neutral and
    /// earth the metal of the house, which its own load lifts.
    fn is_energised(&self, work: &Work, at: Point) -> bool {
        let Some(node) = self.network.find(work, at) else { return false };
        let exercise = work.exercise();
        let bar = exercise.terminals.with_ids().find(|it| it.1.used_by == TerminalUse::EarthBar);
        let bar = bar.filter(|_| exercise.earthing == Earthing::TnCS);
        let earth = bar.and_then(|it| self.network.find(work, point(it.0))).unwrap_or(0);
        if (self.volts[node] - self.volts[earth]).abs() <= FELT {
            return false;
        }
        let mut all = branches(&self.network);
        all.push((node, earth, 1.0 / BODY));
        let volts = volts(self.network.node_count(), [0, 1], 230.0, &all);
        (volts[node] - volts[earth]).abs() / BODY > TOUCH
    }

    fn lamp_volts(&self, lamp: LampId) -> f64 {
        self.network.part(Part::Lamp(lamp)).map_or(0.0, |it| (self.volts[it.a] - self.volts[it.b]).abs())
    }
}

fn point(terminal: TerminalId) -> Point {
    Point::Terminal(terminal)
}

/// The devices whose line or neutral comes to any of these terminals.
fn feeding(work: &Work, joined: &mut Joined, terminals: &[TerminalId]) -> BTreeSet<DeviceId> {
    let devices = work.exercise().devices.with_ids().filter(|(_, it)| {
        let bars = [it.line, it.neutral];
        bars.iter().any(|bar| terminals.iter().any(|at| joined.same(work, point(*bar), point(*at))))
    });
    devices.flat_map(|(id, it)| [Some(id), it.behind]).flatten().collect()
}

/// What met what behind a device: line and neutral, line and earth, or both; and whether a neutral of it touches earth.
fn kinds(work: &Work, joined: &mut Joined, device: DeviceId, residual: bool) -> (Vec<HazardKind>, bool) {
    let exercise = work.exercise();
    let ours =
        exercise.devices.iter().enumerate().filter(|(index, it)| *index == device.index() || it.behind == Some(device));
    let (lines, neutrals): (Vec<TerminalId>, Vec<TerminalId>) = ours.map(|it| (it.1.line, it.1.neutral)).unzip();
    let mut meet = |from: &[TerminalId], wanted: &dyn Fn(TerminalUse) -> bool| {
        exercise
            .terminals
            .with_ids()
            .filter(|it| wanted(it.1.used_by))
            .any(|(id, _)| from.iter().any(|it| joined.same(work, point(*it), point(id))))
    };
    let mut kinds = Vec::new();
    if meet(&lines, &|it| matches!(it, TerminalUse::DeviceNeutral(_))) {
        kinds.push(HazardKind::ShortLineNeutral);
    }
    if meet(&lines, &|it| it == TerminalUse::EarthBar) {
        kinds.push(HazardKind::ShortLineEarth);
    }
    if kinds.is_empty() {
        kinds.push(if residual { HazardKind::ResidualCurrent } else { HazardKind::Overload });
    }
    let earthed = meet(&neutrals, &|it| it == TerminalUse::EarthBar);
    (kinds, earthed)
}

/// Metal that can be touched, by the terminals bonded to it. The marking charter exempts the earth terminal of an insulating plate
/// without a socket-outlet: no metal that can be touched is joined to it.
fn metal(work: &Work) -> Vec<TerminalId> {
    let exercise = work.exercise();
    let mut found = Vec::new();
    for (location, place) in exercise.locations.with_ids() {
        let LocationKind::Box(it) = &place.kind else { continue };
        let is_exempt = it.plate.front != Material::Metal && !it.plate.ways.iter().any(|way| way.is_outlet());
        let body = exercise.terminal_used(location, TerminalUse::BoxEarth).filter(|_| it.body == Material::Metal);
        let plate = exercise.terminal_used(location, TerminalUse::PlateEarth).filter(|_| !is_exempt);
        found.extend([body, plate].into_iter().flatten());
    }
    found
}

/// Every way of switching things on: all, each off alone, each on alone with what stands in front of it.
fn choices(count: usize, front: &dyn Fn(usize) -> Option<usize>) -> BTreeSet<Vec<bool>> {
    let all = std::iter::once(vec![true; count]);
    let each_off = (0..count).map(|odd| (0..count).map(|it| it != odd).collect());
    let each_on = (0..count).map(|odd| (0..count).map(|it| it == odd || front(odd) == Some(it)).collect());
    all.chain(each_off).chain(each_on).collect()
}

/// Whether a device holds with no circuit but its own.
fn holds_alone(work: &Work, conditions: &Conditions, device: DeviceId) -> bool {
    let devices = &work.exercise().devices;
    let mut alone = conditions.clone();
    for id in devices.ids() {
        let its = id == device || devices[device].behind == Some(id) || devices[id].behind == Some(device);
        alone.on[id.index()] &= its;
    }
    !after(work, alone, f64::INFINITY).opened.contains(&device)
}

/// Fans of a group with a line energised while their isolators are off.
fn live_fans(work: &Work, group: &Group, positions: &[u8], settled: &After) -> Vec<(HazardKind, String)> {
    let exercise = work.exercise();
    let is_live = |fan: &&Fan| {
        fan.isolator.is_some_and(|isolator| {
            let way = exercise.switches[isolator].way;
            way.joins(usize::from(positions[isolator.index()])).is_empty()
                && fan.terminals[..2].iter().any(|it| settled.is_energised(work, point(*it)))
        })
    };
    let fans = group.fans.iter().map(|it| &exercise.fans[*it]);
    fans.filter(is_live).map(|it| (HazardKind::FanLive, it.address.clone())).collect()
}

/// Everything wrong with one group, the others dead.
fn brute(work: &Work, group: &Group, found: &mut Found) {
    let exercise = work.exercise();
    let own = |places: &[usize], chosen: &[bool], count: usize| -> Vec<bool> {
        (0..count).map(|it| places.iter().zip(chosen).any(|(at, is)| *at == it && *is)).collect()
    };
    let devices: Vec<usize> = group.devices.iter().map(|it| it.index()).collect();
    let lamps: Vec<usize> = group.lamps.iter().map(|it| it.index()).collect();
    let front = |it: usize| {
        let front = exercise.devices.rows()[devices[it]].behind?;
        devices.iter().position(|it| *it == front.index())
    };
    let mut out = choices(lamps.len(), &|_| None);
    // Lamps: all in, each out alone, all out; not each in alone.
    out.retain(|it| it.iter().filter(|it| !**it).count() <= 1);
    out.insert(vec![false; lamps.len()]);
    let ways: usize = group.switches.iter().map(|it| exercise.switches[*it].way.positions()).product();
    for number in 0..ways {
        let (mut positions, mut rest) = (vec![0; exercise.switches.len()], number);
        for it in &group.switches {
            let here = exercise.switches[*it].way.positions();
            positions[it.index()] = (rest % here) as u8;
            rest /= here;
        }
        let mut joined = Joined::new(work, &positions);
        let case = |on: &[bool], lamps_in: &[bool]| Conditions {
            on: own(&devices, on, exercise.devices.len()),
            lamps_in: own(&lamps, lamps_in, exercise.lamps.len()),
            ..Conditions::complete(exercise, positions.clone())
        };
        let (all_on, none_out) = (vec![true; devices.len()], vec![true; lamps.len()]);
        let complete = after(work, case(&all_on, &none_out), f64::INFINITY);
        for lamp in &group.lamps {
            let glows = |volts: f64| (volts >= 0.85 * 230.0, volts >= 0.05 * 230.0);
            let switches = exercise.controls.iter().filter(|it| it.lamp == *lamp).flat_map(|it| &it.switches);
            let lights = |switch: &SwitchId, to: u8| {
                let mut toggled = positions.clone();
                toggled[switch.index()] = to;
                let case = Conditions { positions: toggled, ..case(&all_on, &none_out) };
                glows(after(work, case, f64::INFINITY).lamp_volts(*lamp)).0
            };
            if glows(complete.lamp_volts(*lamp)) == (false, true)
                && switches.into_iter().any(|it| (0..2).any(|to| positions[it.index()] != to && lights(it, to)))
            {
                found.insert((HazardKind::DimWhenOff, exercise.lamps[*lamp].address.clone()));
            }
        }
        // Out by its switches: off with everything on, and nothing that feeds it has opened.
        let dark: Vec<&LampId> = group
            .lamps
            .iter()
            .filter(|it| complete.lamp_volts(**it) < 0.05 * 230.0)
            .filter(|it| {
                let feeding = feeding(work, &mut joined, &exercise.lamps[**it].contacts);
                !complete.opened.iter().any(|it| feeding.contains(it))
            })
            .collect();
        for on in choices(devices.len(), &front) {
            for lamps_in in &out {
                let conditions = case(&on, lamps_in);
                let settled = after(work, conditions.clone(), f64::INFINITY);
                for it in settled.opened.iter().chain(&settled.unbroken) {
                    let (kinds, earthed) = kinds(work, &mut joined, *it, settled.residual.contains(it));
                    for kind in kinds {
                        let others =
                            kind == HazardKind::ResidualCurrent && earthed && holds_alone(work, &conditions, *it);
                        let kind = if others { HazardKind::Sympathy } else { kind };
                        found.insert((kind, exercise.devices[*it].address.clone()));
                    }
                }
                found.extend(live_fans(work, group, &positions, &settled));
                let energised = metal(work).into_iter().filter(|it| settled.is_energised(work, point(*it)));
                found.extend(energised.map(|it| (HazardKind::MetalEnergised, work.point_address(point(it)))));
                let loose = work.ends().filter(|it| work.terminal_of(*it).is_none()).map(Point::End);
                let energised = loose.filter(|it| settled.is_energised(work, *it));
                found.extend(energised.map(|it| (HazardKind::LooseEndLive, work.point_address(it))));
                for lamp in &dark {
                    let it = &exercise.lamps[**lamp];
                    let feeding = feeding(work, &mut joined, &it.contacts);
                    let live = it.contacts.iter().any(|it| settled.is_energised(work, point(*it)));
                    if live && !settled.opened.iter().any(|it| feeding.contains(it)) {
                        found.insert((HazardKind::LampholderLive, it.address.clone()));
                    }
                }
            }
        }
        for metal in metal(work) {
            for device in &group.devices {
                let line = point(exercise.devices[*device].line);
                let here = work.ends_at(exercise.terminals[metal].location).map(|it| work.point_of(it));
                let there = here.into_iter().find(|it| joined.same(work, line, *it));
                let Some(there) = there.filter(|_| !joined.same(work, line, point(metal))) else { continue };
                let fault = Conditions { fault: Some((there, point(metal))), ..case(&all_on, &none_out) };
                let settled = after(work, fault, exercise.earthing.disconnection_seconds());
                if settled.opened.is_empty() || settled.is_energised(work, point(metal)) {
                    found.insert((HazardKind::NoDisconnection, work.point_address(point(metal))));
                }
            }
        }
    }
}

/// The kinds that came up, so that no test passes by finding nothing.
pub(super) fn compare(works: impl Iterator<Item = (String, Work)>) -> BTreeSet<HazardKind> {
    let mut kinds = BTreeSet::new();
    for (name, work) in works {
        let mut expected = Found::new();
        Groups::new(&work).all().iter().for_each(|it| brute(&work, it, &mut expected));
        let found: Found =
            survey(&work).hazards.into_iter().map(|it| (it.kind, it.at.address(work.exercise()))).collect();
        assert_eq!(found, expected, "{name}");
        kinds.extend(found.into_iter().map(|it| it.0));
    }
    kinds
}

#[test]
fn every_hazard_of_every_case_is_found_by_brute_force_too() {
    let wirings = Wirings::new();
    let kinds = compare((0..150).map(|it| (it.to_string(), wirings.number(it))));
    assert!(kinds.len() >= 7, "{kinds:?}");
}

/// Several circuits behind one residual current device, fans, three places, linked poles.
#[test]
fn the_same_of_installations_scrambled() {
    let kinds = compare(scrambled("cases", 4));
    assert!(kinds.len() >= 6, "{kinds:?}");
}

/// Two circuits in one box behind each sort of board, any of its ends anywhere in it: shorts of one circuit beside holders,
/// borrowed neutrals and lines of the other. The first is that of `a_holder_left_live_is_seen_beside_another_circuits_trip`.
#[test]
fn the_same_of_two_circuits_in_one_box() {
    let switched = "one/brown@box box.connector.1\nflex/brown@box box.connector.1\none/blue@box box.COM\nflex/blue@box box.L1\ntwo/black@box box.connector.2";
    let known = with(&passage(ONE_RCD), PASSAGE_WIRED, switched).work().clone();
    let kinds = compare(std::iter::once(("known".to_owned(), known)));
    assert!(kinds.contains(&HazardKind::LampholderLive) && kinds.contains(&HazardKind::ShortLineNeutral), "{kinds:?}");
    let mut dice = Dice(0x2c);
    let boards = [RCBOS, MCBS, ONE_RCD, TWO_RCDS].map(|it| with(&passage(it), PASSAGE_WIRED, "").work().clone());
    let random = (0..200).map(|number: usize| {
        let mut work = boards[number % boards.len()].clone();
        let place = work.location("box").expect("the box");
        let terminals: Vec<TerminalId> = work.exercise().terminals_at(place).collect();
        let ends: Vec<EndId> = work.ends_at(place).collect();
        for end in ends {
            if dice.below(3) == 0 {
                let to = (dice.below(8) > 0).then(|| terminals[dice.below(terminals.len())]);
                work.edit(&Edit::Move(end, to));
            }
        }
        (number.to_string(), work)
    });
    let kinds = compare(random);
    assert!(kinds.len() >= 7, "{kinds:?}");
}
