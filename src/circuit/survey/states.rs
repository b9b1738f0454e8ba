//! What the lamps do in every combination, however many there are: a row for each, or past [`ROWS`] each distinct result
//! with its count and its first combination.
//!
//! A group with few combinations of its own is solved in each of them. One with more goes by the joined view: where the
//! bars, the contacts of lamps and fans, metal and loose ends are joined alike the same happens, and one of them is solved. (What a
//! loose screw or a long cable takes off the volts can then differ within a class; its volts are those of the first.)

use std::collections::BTreeMap;

use super::{
    Glow, Hazard, HazardKind, LampRow, Onset, Prepared, Row, Witness,
    cases::{Trial, rows_apart, rows_of_group},
    tried::number_of,
};
use crate::{
    circuit::{
        groups::{Group, Groups},
        joined::{Layered, TooMany},
    },
    exercise::{DeviceId, Exercise, Limits},
    work::{Subject, Work},
};

/// Most rows; past that, classes.
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
type Happening = (Vec<Glow>, Vec<DeviceId>, Vec<DeviceId>, Vec<(HazardKind, Subject, Onset)>);

/// What happens in every combination, with everything on, in and fitted.
///
/// # Errors
/// [`TooMany`], when even the distinct results are too many or can't be told from each other.
pub fn states(work: &Work) -> Result<States, TooMany> {
    let exercise = work.exercise();
    let prepared = Prepared::new(work);
    let too_many = |number: usize| {
        let own = combinations(exercise, &prepared.groups.all()[number]);
        prepared.groups.is_touching(number, exercise) && own.is_none_or(|it| it > Limits::COMBINATIONS)
    };
    if (0..prepared.groups.all().len()).any(too_many) {
        return Err(TooMany::Touching { most: Limits::COMBINATIONS });
    }
    let every = exercise.switches.iter().try_fold(1_usize, |n, it| n.checked_mul(it.way.positions()));
    if every.is_some_and(|it| it <= ROWS) {
        return Ok(States::Rows(prepared.ready().rows()));
    }
    let (groups, classes) = if let Some(it) = apart(work) {
        it
    } else {
        let numbers = 0..prepared.groups.all().len();
        let classes = numbers.map(|it| classes_of(&prepared, it)).collect::<Result<_, _>>()?;
        (prepared.groups, classes)
    };
    product(exercise, &groups, &classes).map(States::Classes)
}

/// The classes of each group with those apart that have no more than a residual current device in common, if none of them
/// is ever felt by it; they are few and small then, where together they would be past counting.
fn apart(work: &Work) -> Option<(Groups, Vec<Vec<StateClass>>)> {
    let prepared = Prepared::of(work, Groups::apart(work)?);
    let few = |group: &Group| combinations(work.exercise(), group).is_some_and(|it| it <= ROWS);
    if !prepared.groups.all().iter().all(few) {
        return None;
    }
    let classes = (0..prepared.groups.all().len()).map(|it| {
        let rows = rows_apart(&prepared, it)?.into_iter();
        alike(rows.map(|first| StateClass { count: 1, first })).ok()
    });
    let classes = classes.collect::<Option<_>>()?;
    Some((prepared.groups, classes))
}

/// The classes of one group.
fn classes_of(prepared: &Prepared<'_>, number: usize) -> Result<Vec<StateClass>, TooMany> {
    let own = combinations(prepared.work.exercise(), &prepared.groups.all()[number]);
    if own.is_some_and(|it| it <= ROWS) {
        let rows = rows_of_group(prepared, number).into_iter();
        alike(rows.map(|first| StateClass { count: 1, first }))
    } else {
        by_joins(prepared, number)
    }
}

/// Every class of one group with every class of each other.
fn product(exercise: &Exercise, groups: &Groups, classes: &[Vec<StateClass>]) -> Result<Vec<StateClass>, TooMany> {
    let count = classes.iter().fold(1_usize, |n, it| n.saturating_mul(it.len()));
    if count > ROWS {
        return Err(TooMany::Results { most: ROWS });
    }
    let mut all = Vec::with_capacity(count);
    // The last group's class fastest: in the order of the first combinations where each group's switches follow those
    // of the last.
    let mut picked = vec![0; classes.len()];
    for _ in 0..count {
        let mut class = StateClass { count: 1, first: nothing(exercise) };
        for ((group, classes), it) in groups.all().iter().zip(classes).zip(&picked) {
            class.count = class.count.checked_mul(classes[*it].count).ok_or(TooMany::Combinations)?;
            put(&mut class.first, &classes[*it].first, group);
        }
        all.push(class);
        for (it, classes) in picked.iter_mut().zip(classes).rev() {
            *it += 1;
            if *it < classes.len() {
                break;
            }
            *it = 0;
        }
    }
    // What differs in one group differs in the whole, except for a hazard that several groups share.
    if classes.iter().flatten().any(|it| !it.first.hazards.is_empty()) {
        all = alike(all.into_iter())?;
    }
    // Mostly it is in order already, which this finds out at once.
    all.sort_by(|a, b| a.first.positions.cmp(&b.first.positions));
    Ok(all)
}

/// What happens in one combination; positions that are missing count as 0.
pub fn row_at(work: &Work, positions: &[u8]) -> Row {
    let exercise = work.exercise();
    let prepared = Prepared::new(work);
    let mut row = nothing(exercise);
    row.positions.iter_mut().zip(positions).for_each(|(it, at)| *it = *at);
    for (number, group) in prepared.groups.all().iter().enumerate() {
        // The others stand with their switches in position 0, as in the rows.
        let mut own = vec![0; row.positions.len()];
        group.switches.iter().for_each(|it| own[it.index()] = row.positions[it.index()]);
        let trial = Trial::new(&prepared, number);
        let own = trial.row(&trial.walk(None), own);
        put(&mut row, &own, group);
    }
    row
}

fn nothing(exercise: &Exercise) -> Row {
    let dark = LampRow { glow: Glow::Off, volts: 0.0 };
    let (positions, lamps) = (vec![0; exercise.switches.len()], vec![dark; exercise.lamps.len()]);
    Row { positions, lamps, opened: Vec::new(), may_trip: Vec::new(), hazards: Vec::new() }
}

/// Puts what happens in a group to what happens in those before it.
fn put(row: &mut Row, own: &Row, group: &Group) {
    for it in &group.switches {
        row.positions[it.index()] = own.positions[it.index()];
    }
    for it in &group.lamps {
        row.lamps[it.index()] = own.lamps[it.index()];
    }
    row.opened.extend(&own.opened);
    row.may_trip.extend(&own.may_trip);
    for it in &own.hazards {
        if !row.hazards.iter().any(|had| had.kind == it.kind && had.at == it.at) {
            row.hazards.push(it.clone());
        }
    }
    if !row.hazards.is_empty() {
        let witness = Witness { positions: row.positions.clone(), ..Witness::default() };
        row.hazards.iter_mut().for_each(|it: &mut Hazard| it.witness = witness.clone());
    }
}

/// Number of combinations of a group's own switches.
fn combinations(exercise: &Exercise, group: &Group) -> Option<usize> {
    number_of(exercise, &group.switches)
}

/// Makes one of those in which the same happens, in the order of their first combinations.
fn alike(classes: impl Iterator<Item = StateClass>) -> Result<Vec<StateClass>, TooMany> {
    let mut all: BTreeMap<Happening, StateClass> = BTreeMap::new();
    for it in classes {
        let row = &it.first;
        let hazards = row.hazards.iter().map(|it| (it.kind, it.at, it.stage)).collect();
        let glows = row.lamps.iter().map(|it| it.glow).collect();
        let key = (glows, row.tripped().collect(), row.may_trip.clone(), hazards);
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
    let mut all: Vec<StateClass> = all.into_values().collect();
    all.sort_by(|a, b| a.first.positions.cmp(&b.first.positions));
    Ok(all)
}

/// A group with more combinations than anyone solves: by how what matters is joined.
fn by_joins(prepared: &Prepared<'_>, number: usize) -> Result<Vec<StateClass>, TooMany> {
    let group = &prepared.groups.all()[number];
    let trial = Trial::new(prepared, number);
    let contacts = trial.contacts().only(&group.switches.iter().map(|it| it.index()).collect::<Vec<_>>());
    let watched = trial.watched();
    let graph = Layered::new(&contacts, &watched, &[])?;
    let classes = graph.classes()?;
    if classes.len() > ROWS {
        return Err(TooMany::Results { most: ROWS });
    }
    let walk = trial.walk(None);
    alike(classes.into_iter().map(|it| StateClass { count: it.count, first: trial.row(&walk, it.first) }))
}
