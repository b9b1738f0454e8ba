//! First faults: a line against each exposed metal part, with everything on and in.

use super::{
    Hazard, HazardKind, Row, Stage, Witness,
    cases::{QUIET_VOLTS, Trial},
    exposed_metal,
};
use crate::{
    circuit::{
        network::Conditions,
        settle::{Opening, settle_within, verdict},
        walk::{Load, Nodes, Scratch, Solved},
    },
    exercise::DeviceId,
    work::{Point, Subject},
};

/// From each device that has a line at the metal's place in these positions. No device opening in time, or metal that
/// stays energised, is a hazard: one for each metal part, with the number of its row.
pub(super) fn first_faults(trial: &Trial<'_>, rows: &[Row], scratch: &mut Scratch) -> Vec<(usize, Hazard)> {
    let (work, exercise) = (trial.work, trial.work.exercise());
    let mut found = Vec::new();
    for exposed in exposed_metal(exercise) {
        let terminal = &exercise.terminals[exposed.index()];
        let here: Vec<_> = work.ends_at(terminal.location).map(|it| work.point_of(it)).collect();
        // For each row and device the point where its line is, if it is there.
        let mut from: Vec<(usize, DeviceId, Point)> = Vec::new();
        for (number, row) in rows.iter().enumerate() {
            let mut joined = trial.contacts().at(&row.positions);
            for id in &trial.group.devices {
                let line = exercise.devices[id.index()].line.index();
                if !joined.same(line, exposed.index()) {
                    let there = here.iter().find(|it| joined.same(line, work.node(**it)));
                    from.extend(there.map(|it| (number, *id, *it)));
                }
            }
        }
        let metal = Point::Terminal(exposed);
        let mut points: Vec<Point> = from.iter().map(|it| it.2).collect();
        points.sort_unstable();
        points.dedup();
        let doubtful: Vec<(Point, Vec<bool>)> =
            points.into_iter().map(|it| (it, doubtful_rows(trial, it, metal, scratch))).collect();
        let is_doubtful =
            |row: usize, point| doubtful.iter().any(|(it, rows)| *it == point && rows.get(row).is_none_or(|it| *it));
        let wrong = from.into_iter().filter(|it| is_doubtful(it.0, it.2)).find(|(row, _, point)| {
            let conditions = trial.conditions(rows[*row].positions.clone());
            let limit = exercise.earthing.disconnection_seconds();
            // What opens later does not count: until then the metal may stay energised by another device.
            let settled = settle_within(work, Conditions { fault: Some((*point, metal)), ..conditions }, limit);
            settled.opened.is_empty() || settled.is_energised(work, metal)
        });
        if let Some((row, ..)) = wrong {
            let witness = Witness { positions: rows[row].positions.clone(), ..Witness::default() };
            let (kind, at) = (HazardKind::NoDisconnection, Subject::Terminal(exposed));
            found.push((row, Hazard { kind, at, stage: Stage::FirstFault, witness }));
        }
    }
    found
}

/// For each row whether more must be asked than this: one device alone opens, in time, and with it off no other must and
/// the metal has no voltage worth the name. The device looked for is the one that opens in the first row where one does.
fn doubtful_rows(trial: &Trial<'_>, here: Point, metal: Point, scratch: &mut Scratch) -> Vec<bool> {
    let exercise = trial.work.exercise();
    let devices = &trial.group.devices;
    let walk = trial.walk(Some((here, metal)));
    let mut on = vec![true; exercise.devices.len()];
    let lamps_in = vec![true; exercise.lamps.len()];
    let limit = exercise.earthing.disconnection_seconds();
    let opening = |solved: &Solved<'_>, it: DeviceId| {
        let (line, neutral) = solved.device(exercise, it)?;
        verdict(exercise, it, line, neutral).0
    };
    let mut opened: Vec<Option<DeviceId>> = Vec::new();
    walk.every(Load { on: &on, lamps_in: &lamps_in }, Nodes::Needed, scratch, &mut |_, solved| {
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
    walk.every(Load { on: &on, lamps_in: &lamps_in }, Nodes::All, scratch, &mut |_, solved| {
        let another = devices.iter().any(|it| *it != first && opening(solved, *it).is_some());
        let energised = node.is_some_and(|it| solved.volts(it).abs() >= QUIET_VOLTS);
        doubtful.push(opened.get(doubtful.len()) != Some(&Some(first)) || another || energised);
    });
    doubtful
}
