//! What the lamps do in every combination, however many there are: a row for each, or past [`ROWS`] each distinct result
//! with its count and its first combination.
//!
//! A group with few combinations of its own is solved in each of them. One with more goes by the joined view: where the
//! bars, the contacts of lamps and fans, metal and loose ends are joined alike the same happens, and one of them is solved. (What a
//! loose screw or a long cable takes off the volts can then differ within a class; its volts are those of the first.)

use std::collections::BTreeMap;

use super::{
    Glow, Hazard, HazardKind, LampRow, Row, Stage, Witness, all_rows,
    cases::{Trial, rows_of_group},
};
use crate::{
    circuit::{
        groups::{Group, Groups},
        joined::{Layered, TooMany},
    },
    exercise::{DeviceId, Exercise, TerminalId, TerminalUse},
    work::Work,
};

/// So many rows at the most; past that, classes.
pub const ROWS: usize = 65_536;

/// Every combination.
#[derive(Debug, Clone)]
pub enum States {
    /// A row for each, in counting order, last switch fastest.
    Rows(Vec<Row>),
    /// Each distinct result, in the order of their first combinations.
    Classes(Vec<StateClass>),
}

/// Combinations in which the same happens.
#[derive(Debug, Clone)]
pub struct StateClass {
    /// How many.
    pub count: u128,
    /// The first of them in counting order, with its volts.
    pub first: Row,
}

/// What happens, volts left out: lamps, devices that open, devices that may, hazards.
type Happening = (Vec<Glow>, Vec<DeviceId>, Vec<DeviceId>, Vec<(HazardKind, String, Stage)>);

/// What happens in every combination, with everything on, in and fitted.
///
/// # Errors
/// [`TooMany`], when even the distinct results are too many or can't be told from each other.
pub fn states(work: &Work) -> Result<States, TooMany> {
    let exercise = work.exercise();
    let groups = Groups::new(work);
    let every = exercise.switches.iter().try_fold(1_usize, |n, it| n.checked_mul(it.way.positions()));
    if every.is_some_and(|it| it <= ROWS) {
        let parts = (0..groups.all().len()).map(|it| rows_of_group(work, &groups, it)).collect();
        return Ok(States::Rows(all_rows(exercise, groups.all(), parts)));
    }
    let mut all = vec![StateClass { count: 1, first: nothing(exercise) }];
    for number in 0..groups.all().len() {
        let group = &groups.all()[number];
        let own = combinations(exercise, group);
        let classes = if own.is_some_and(|it| it <= ROWS) {
            let rows = rows_of_group(work, &groups, number).into_iter();
            alike(rows.map(|first| StateClass { count: 1, first }))?
        } else {
            by_joins(work, &groups, number)?
        };
        if all.len().saturating_mul(classes.len()) > ROWS {
            return Err(TooMany::Results { most: ROWS });
        }
        let mut next = Vec::with_capacity(all.len() * classes.len());
        for one in &all {
            for other in &classes {
                let count = one.count.checked_mul(other.count).ok_or(TooMany::Combinations)?;
                next.push(StateClass { count, first: both(&one.first, &other.first, group) });
            }
        }
        all = next;
    }
    let mut all = alike(all.into_iter())?;
    all.sort_by(|a, b| a.first.positions.cmp(&b.first.positions));
    Ok(States::Classes(all))
}

/// What happens in one combination; positions that are missing count as 0.
pub fn row_at(work: &Work, positions: &[u8]) -> Row {
    let exercise = work.exercise();
    let groups = Groups::new(work);
    let mut row = nothing(exercise);
    row.positions.iter_mut().zip(positions).for_each(|(it, at)| *it = *at);
    for (number, group) in groups.all().iter().enumerate() {
        let own = Trial::new(work, &groups, number).row(row.positions.clone());
        row = both(&row, &own, group);
    }
    row
}

fn nothing(exercise: &Exercise) -> Row {
    let dark = LampRow { glow: Glow::Off, volts: 0.0 };
    let (positions, lamps) = (vec![0; exercise.switches.len()], vec![dark; exercise.lamps.len()]);
    Row { positions, lamps, tripped: Vec::new(), may_trip: Vec::new(), hazards: Vec::new() }
}

/// What happens in a group as well as in those before it.
fn both(before: &Row, own: &Row, group: &Group) -> Row {
    let mut row = before.clone();
    for it in &group.switches {
        row.positions[it.index()] = own.positions[it.index()];
    }
    for it in &group.lamps {
        row.lamps[it.index()] = own.lamps[it.index()];
    }
    row.tripped.extend(&own.tripped);
    row.may_trip.extend(&own.may_trip);
    for it in &own.hazards {
        if !row.hazards.iter().any(|had| had.kind == it.kind && had.at == it.at) {
            row.hazards.push(it.clone());
        }
    }
    let witness = Witness { positions: row.positions.clone(), ..Witness::default() };
    row.hazards.iter_mut().for_each(|it: &mut Hazard| it.witness = witness.clone());
    row
}

/// Number of combinations of a group's own switches.
fn combinations(exercise: &Exercise, group: &Group) -> Option<usize> {
    group.switches.iter().try_fold(1_usize, |n, it| n.checked_mul(exercise.switches[it.index()].way.positions()))
}

/// Makes one of those in which the same happens.
fn alike(classes: impl Iterator<Item = StateClass>) -> Result<Vec<StateClass>, TooMany> {
    let mut all: BTreeMap<Happening, StateClass> = BTreeMap::new();
    for it in classes {
        let row = &it.first;
        let hazards = row.hazards.iter().map(|it| (it.kind, it.at.clone(), it.stage)).collect();
        let glows = row.lamps.iter().map(|it| it.glow).collect();
        let key = (glows, row.tripped.clone(), row.may_trip.clone(), hazards);
        match all.entry(key) {
            std::collections::btree_map::Entry::Vacant(place) => drop(place.insert(it)),
            std::collections::btree_map::Entry::Occupied(mut had) => {
                let had = had.get_mut();
                had.count = had.count.checked_add(it.count).ok_or(TooMany::Combinations)?;
                if it.first.positions < had.first.positions {
                    had.first = it.first;
                }
            }
        }
    }
    Ok(all.into_values().collect())
}

/// A group with more combinations than anyone solves: by how what matters is joined.
fn by_joins(work: &Work, groups: &Groups, number: usize) -> Result<Vec<StateClass>, TooMany> {
    let exercise = work.exercise();
    let group = &groups.all()[number];
    let trial = Trial::new(work, groups, number);
    let contacts = trial.contacts.only(&group.switches.iter().map(|it| it.index()).collect::<Vec<_>>());
    let bars = exercise.terminals.iter().enumerate().filter(|(_, it)| {
        matches!(it.used_by, TerminalUse::DeviceLine(_) | TerminalUse::DeviceNeutral(_) | TerminalUse::EarthBar)
    });
    let lamps = group.lamps.iter().flat_map(|it| exercise.lamps[it.index()].contacts).map(TerminalId::index);
    let fans = exercise.fans.iter().flat_map(|it| it.terminals).map(TerminalId::index);
    let standing = trial.standing().map(|it| work.node(it));
    let watched: Vec<usize> = bars.map(|it| it.0).chain(lamps).chain(fans).chain(standing).collect();
    let graph = Layered::new(&contacts, &watched, &[])?;
    let classes = graph.classes()?;
    if classes.len() > ROWS {
        return Err(TooMany::Results { most: ROWS });
    }
    alike(classes.into_iter().map(|it| StateClass { count: it.count, first: trial.row(it.first) }))
}
