//! Proving dead: which tests a place needs, which count, and when they prove anything.
//!
//! Prove the indicator, test, prove it again with nothing between (GS38, as trade guides tell it). The proving unit and
//! a known live source both prove it: an indicator that shows mains voltage works.

use std::collections::BTreeSet;

use super::{ProofGap, Safety, Work, settings::here};
use crate::{circuit, exercise::LocationId, work::Point};

/// Below this a two-pole indicator shows nothing, volts (the extra-low indication of common instruments starts near 12;
/// from memory).
const INDICATOR_VOLTS: f64 = 10.0;

/// One dead test that showed nothing: the settings of the switches there, and the points.
pub(super) type Tested = (Vec<u8>, Point, Probe);

/// What the second probe was on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Probe {
    /// Anything earthed.
    Earth,
    /// Another conductor.
    Conductor(Point),
}

impl Safety {
    /// Every dead test that a location needs: each conductor to earth and, where there is a switch, to every other;
    /// elsewhere to the others of its own cable. A point where several conductors are joined counts once.
    pub fn tests_needed(work: &Work, location: LocationId) -> Vec<(Point, Probe)> {
        let exercise = work.exercise();
        let everything = exercise.switches_at(location).next().is_some();
        let live: Vec<_> = work
            .ends_at(location)
            .filter(|it| !work.end_facts(*it).colour.is_protective() && !work.is_scrap(it.conductor()))
            .collect();
        let mut needed = BTreeSet::new();
        for (index, a) in live.iter().enumerate() {
            needed.insert((work.point_of(*a), Probe::Earth));
            for b in &live[index + 1..] {
                let same_cable = match (work.cable_of(a.conductor()), work.cable_of(b.conductor())) {
                    (Some(one), Some(other)) => one.id == other.id,
                    _ => false,
                };
                let pair = [work.point_of(*a), work.point_of(*b)];
                if (everything || same_cable) && pair[0] != pair[1] {
                    needed.insert((pair[0].min(pair[1]), Probe::Conductor(pair[0].max(pair[1]))));
                }
            }
        }
        needed.into_iter().collect()
    }

    /// The settings in which those tests are needed: the present one alone, since each conductor in a switch's
    /// terminals is touched itself. Each is a full list of positions.
    pub fn settings_needed(work: &Work) -> Vec<Vec<u8>> {
        vec![work.positions().to_vec()]
    }

    /// Whether the indicator was proved and a round of dead tests is open, so that a test now will count.
    pub fn is_testing(&self) -> bool {
        self.batch.is_some() || self.is_round_open()
    }

    /// Dead tests still to do at a location in the current round of tests, as settings and probes.
    pub fn tests_left(&self, work: &Work, location: LocationId) -> Vec<(Vec<u8>, Point, Probe)> {
        let done = self.batch.as_ref();
        let mut left = Vec::new();
        for setting in Self::settings_needed(work) {
            for (a, b) in Self::tests_needed(work, location) {
                let tested = (here(work, location, &setting), a, b);
                if !done.is_some_and(|it| it.contains(&tested)) {
                    left.push((setting.clone(), a, b));
                }
            }
        }
        left
    }

    /// Whether all that comes before a dead test was done for a location.
    pub(super) fn is_prepared(&self, work: &Work, location: LocationId) -> bool {
        self.unprepared(work, location).is_none()
    }

    /// The first thing before a dead test that was not done for a location.
    pub(super) fn unprepared(&self, work: &Work, location: LocationId) -> Option<ProofGap> {
        let lacks = |is_done: bool, gap: ProofGap| (!is_done).then_some(gap);
        if work.is_bench() {
            return lacks(work.is_unplugged(), ProofGap::Unlocked);
        }
        let agreed = || lacks(self.agreed, ProofGap::Unagreed);
        // With everything off and locked there is nothing in the board to be told apart.
        if work.is_board_to_open(location) {
            let is_off = !work.is_incomer_on(work.incomer()) && work.is_incomer_locked(work.incomer());
            return agreed().or_else(|| lacks(is_off, ProofGap::Unlocked));
        }
        // Nor are circuits told apart: the long lead shows which device feeds what, once the place is proved dead.
        let is_told_apart = self.is_identified(location) || work.is_all_locked_off();
        let is_off = || self.is_locked_off(work, location) && self.is_neutral_isolated(work, location);
        lacks(is_told_apart, ProofGap::Unidentified).or_else(agreed).or_else(|| lacks(is_off(), ProofGap::Unlocked))
    }

    pub(super) fn note_proved(&mut self, location: LocationId) {
        self.proved.put(location, true);
        self.ever_proved.put(location, true);
        self.tested_since_trip = true;
    }

    /// The indicator works: the tests made since it last did count, and a new round of tests begins.
    pub(super) fn close_batch(&mut self, work: &Work) {
        if self.batch.is_some() {
            for location in self.proved.ids() {
                let needed = !Self::tests_needed(work, location).is_empty();
                if needed && self.is_prepared(work, location) && self.tests_left(work, location).is_empty() {
                    self.note_proved(location);
                }
            }
        }
        self.batch = Some(BTreeSet::new());
    }

    pub(super) fn note_test(&mut self, work: &Work, a: &str, b: &str) {
        let (Ok(a), Ok(b)) = (work.point(a), work.point(b)) else { return };
        let location = work.point_location(a);
        let setting = here(work, location, work.positions());
        if !self.indicator.is_sound() {
            return;
        }
        if circuit::volts_between(work, a, b).abs() >= INDICATOR_VOLTS {
            self.close_batch(work);
            return;
        }
        let Some(batch) = &mut self.batch else { return };
        // A test that shows nothing between a point and something unearthed proves nothing about earth.
        for (one, other) in [(a, b), (b, a)] {
            if work.is_earthed(other) {
                batch.insert((setting.clone(), one, Probe::Earth));
            }
        }
        batch.insert((setting, a.min(b), Probe::Conductor(a.max(b))));
    }
}
