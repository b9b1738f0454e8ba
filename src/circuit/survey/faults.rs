//! First faults: a line against each exposed metal part, with everything on and in.

use super::{
    Hazard, HazardKind, Onset, Row, Witness,
    cases::{QUIET_VOLTS, Trial},
    exposed_metal,
};
use crate::{
    circuit::{
        every_setting::{Scratch, Solved, SwitchedOn, Walk},
        joined::Layered,
        settle::{Opening, verdict},
    },
    exercise::{DeviceId, TerminalId},
    work::{Point, Subject},
};

/// A metal part, and the points of its place at which a line could come against it.
type Metal = (TerminalId, Vec<Point>);

/// From each device that has a line at the metal's place in these positions. No device opening in time, or metal that
/// stays energised, is a hazard: one for each metal part, with the number of its row.
pub(super) fn first_faults(trial: &Trial<'_>, rows: &[Row], scratch: &mut Scratch) -> Vec<(usize, Hazard)> {
    let (work, exercise) = (trial.work, trial.work.exercise());
    let place = |it: TerminalId| exercise.terminals[it].location;
    let here = |terminal: TerminalId| work.ends_at(place(terminal)).map(|it| work.point_of(it)).collect();
    let metal: Vec<Metal> = exposed_metal(exercise).into_iter().map(|it| (it, here(it))).collect();
    if trial.by_class {
        // What is joined alike for lamps and bars may differ beside the metal.
        let each = metal.iter().map(|it| {
            let settings = classes_beside(trial, it).unwrap_or_else(|| positions_of(rows));
            faults_at(trial, &settings, true, std::slice::from_ref(it), scratch)
        });
        return each.flatten().collect();
    }
    faults_at(trial, &positions_of(rows), trial.tried.is_some(), &metal, scratch)
}

fn positions_of(rows: &[Row]) -> Vec<Vec<u8>> {
    rows.iter().map(|it| it.positions.clone()).collect()
}

/// The first combination of each class of those in which bars, metal and what is beside it are joined alike.
fn classes_beside(trial: &Trial<'_>, (exposed, here): &Metal) -> Option<Vec<Vec<u8>>> {
    let exercise = trial.work.exercise();
    let group: Vec<usize> = trial.group.switches.iter().map(|it| it.index()).collect();
    let bars = exercise.outgoing().map(TerminalId::index);
    let beside = here.iter().map(|it| trial.work.node(*it));
    let watched: Vec<usize> = bars.chain([exposed.index()]).chain(beside).collect();
    let classes = Layered::new(&trial.contacts().only(&group), &watched, &[]).ok()?.classes().ok()?;
    Some(classes.into_iter().map(|it| it.first).collect())
}

/// First faults to some metal in some combinations: all of the group's, or those that are listed.
fn faults_at(
    trial: &Trial<'_>,
    settings: &[Vec<u8>],
    listed: bool,
    metal: &[Metal],
    scratch: &mut Scratch,
) -> Vec<(usize, Hazard)> {
    let (work, exercise) = (trial.work, trial.work.exercise());
    let tried = listed.then_some(settings);
    let mut found = Vec::new();
    for ((exposed, _), from) in metal.iter().zip(lines_beside(trial, settings, metal)) {
        let metal = Point::Terminal(*exposed);
        let mut points: Vec<Point> = from.iter().map(|it| it.2).collect();
        points.sort_unstable();
        points.dedup();
        let with_fault = |point: Point| {
            let walk = trial.walk(Some((point, metal)));
            let doubtful = doubtful_rows(trial, &walk, tried, metal, scratch);
            (point, walk, doubtful)
        };
        let faulted: Vec<(Point, Walk<'_>, Vec<bool>)> = points.into_iter().map(with_fault).collect();
        let doubtful = |row: usize, point: Point| {
            let (_, walk, rows) = faulted.iter().find(|it| it.0 == point)?;
            rows.get(row).is_none_or(|it| *it).then_some(walk)
        };
        let wrong = from.into_iter().find(|(row, _, point)| {
            let Some(walk) = doubtful(*row, *point) else { return false };
            let (on, lamps_in) = trial.everything();
            let limit = exercise.earthing.disconnection_seconds();
            // What opens later does not count: until then the metal may stay energised by another device.
            let settled = walk.settle(on, &lamps_in, &settings[*row], limit);
            settled.opened.is_empty() || settled.is_energised(work, metal)
        });
        if let Some((row, ..)) = wrong {
            let witness = Witness { positions: settings[row].clone(), ..Witness::default() };
            let (kind, at) = (HazardKind::NoDisconnection, Subject::Terminal(*exposed));
            found.push((row, Hazard { kind, at, stage: Onset::FirstFault, witness }));
        }
    }
    found
}

/// For each metal part: by combination and device the point where its line is, if it is there and not on the metal itself.
fn lines_beside(trial: &Trial<'_>, settings: &[Vec<u8>], metal: &[Metal]) -> Vec<Vec<(usize, DeviceId, Point)>> {
    let (work, exercise) = (trial.work, trial.work.exercise());
    let mut from = vec![Vec::new(); metal.len()];
    for (number, positions) in settings.iter().enumerate() {
        let mut joined = trial.contacts().at(positions);
        let devices = trial.group.devices.iter();
        let lines: Vec<(DeviceId, usize)> =
            devices.map(|it| (*it, joined.root(exercise.devices[*it].line.index()))).collect();
        for ((exposed, here), from) in metal.iter().zip(&mut from) {
            let body = joined.root(exposed.index());
            let points: Vec<(usize, Point)> = here.iter().map(|it| (joined.root(work.node(*it)), *it)).collect();
            for (id, line) in lines.iter().filter(|it| it.1 != body) {
                let there = points.iter().find(|it| it.0 == *line);
                from.extend(there.map(|it| (number, *id, it.1)));
            }
        }
    }
    from
}

/// For each row whether more must be asked than this: one device alone opens, in time, and with it off no other must and
/// the metal has no voltage worth the name. The device looked for is the one that opens in the first row where one does.
fn doubtful_rows(
    trial: &Trial<'_>,
    walk: &Walk<'_>,
    tried: Option<&[Vec<u8>]>,
    metal: Point,
    scratch: &mut Scratch,
) -> Vec<bool> {
    let exercise = trial.work.exercise();
    let devices: Vec<DeviceId> = trial.busy().collect();
    let mut on = vec![true; exercise.devices.len()];
    let lamps_in = vec![true; exercise.lamps.len()];
    let limit = exercise.earthing.disconnection_seconds();
    let opening = |solved: &Solved<'_>, it: DeviceId| {
        let (line, neutral) = solved.device(exercise, it)?;
        verdict(exercise, it, line, neutral).0
    };
    let mut opened: Vec<Option<DeviceId>> = Vec::new();
    walk.every(tried, SwitchedOn { on: &on, lamps_in: &lamps_in }, scratch, &mut |_, solved| {
        let mut first: Option<Opening> = None;
        let mut alone = true;
        for it in devices.iter().filter_map(|it| opening(solved, *it)) {
            match &first {
                Some(had) if had.within < it.within => {}
                Some(had) if had.within <= it.within => alone = false,
                _ => (first, alone) = (Some(it), true),
            }
        }
        opened.push(first.filter(|it| alone && it.within <= limit).map(|it| it.device));
    });
    let Some(first) = opened.iter().copied().flatten().next() else { return vec![true; opened.len()] };
    on[first.index()] = false;
    let node = walk.network.find(trial.work, metal);
    let mut doubtful = Vec::with_capacity(opened.len());
    walk.every(tried, SwitchedOn { on: &on, lamps_in: &lamps_in }, scratch, &mut |_, solved| {
        let another = devices.iter().any(|it| *it != first && opening(solved, *it).is_some());
        let energised = node.is_some_and(|it| solved.volts_to_earth(it).abs() >= QUIET_VOLTS);
        doubtful.push(opened.get(doubtful.len()) != Some(&Some(first)) || another || energised);
    });
    doubtful
}
