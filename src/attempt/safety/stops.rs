//! What a safe worker does not do: an action that is stopped, and where.

use super::{ActKind, Safety, Work};
use crate::{
    circuit,
    exercise::{DeviceId, LocationId, Stage, Tails},
    work::{Action, Check, Hand, Incomer, Point, Power, Subject},
};

impl Safety {
    /// Whether an action is one that a safe worker would not do, and where.
    pub(in crate::attempt) fn stops(&self, work: &Work, action: &Action) -> Option<(ActKind, Subject)> {
        // A probe on a bare cpc or an earth terminal, to show what it is, is not handwork.
        if self.shows(work, action).is_some_and(|it| !self.is_fed(work, work.point_location(it))) {
            return None;
        }
        match action {
            Action::RemoveCover { location } => {
                let location = work.location(location).ok()?;
                let at = Subject::Location(location);
                if work.is_bench() {
                    return self.stops_on_bench(work).map(|it| (it, at));
                }
                if work.is_board_to_open(location) {
                    return self.stops_opening(work).map(|it| (it, at));
                }
                if self.is_fed(work, location) {
                    Some((ActKind::WorkedLive, at))
                } else {
                    (!self.is_locked_off(work, location)).then_some((ActKind::OpenedUnlocked, at))
                }
            }
            Action::Continuity { a: at, .. } => self.stops_hand_at(work, Hand::Point(at)),
            Action::Measure { function, a, b, .. } if function.is_live() => self.stops_live(work, *function, [a, b]),
            Action::Measure { a, b, .. } | Action::FitLink { a, b } | Action::TakeLink { a, b } => {
                [a, b].into_iter().find_map(|it| self.stops_dead(work, it))
            }
            Action::BringSupply => {
                let unchecked = self.before_power_on(work.exercise()).is_some();
                open_place(work).or(unchecked.then_some((ActKind::PowerOnUnchecked, board_subject(work))))
            }
            // On a board that has no supply, a lever brings no power.
            Action::PowerOn { .. } | Action::Reset { .. } if work.is_unplugged() => None,
            // A live reading: with every cover on.
            Action::ReadOrigin { .. } => open_place(work).map(|it| (ActKind::WorkedLive, it.1)),
            Action::Earthing { .. } => unearths(work, action).then(|| (ActKind::Unearthed, board_subject(work))),
            Action::UnlockIncomer { .. } | Action::MainSwitch { on: true } | Action::Isolator { on: true }
                if unearths(work, action) =>
            {
                Some((ActKind::Unearthed, board_subject(work)))
            }
            Action::LiftShroud if !work.are_tails_dead() => Some((ActKind::WorkedLive, board_subject(work))),
            // The lock comes off only once the board is closed.
            Action::UnlockIncomer { .. } => {
                let open = open_board(work)?;
                Some((ActKind::PowerOnOpen, Subject::Location(open)))
            }
            Action::MainSwitch { on: true } | Action::Isolator { on: true } => {
                if let Some(open) = open_board(work) {
                    return Some((ActKind::PowerOnOpen, Subject::Location(open)));
                }
                let other = if matches!(action, Action::Isolator { .. }) { Incomer::Main } else { Incomer::Isolator };
                work.is_incomer_on(other).then_some(())?;
                let concerned = |it: &DeviceId| work.device_state(*it).power == Power::On;
                self.reaching.iter().flatten().any(concerned).then_some(())?;
                // Until the work's devices were once switched off, these switches have nothing to do with it.
                let off_before = self.ever_proved.iter().any(|it| *it);
                let unchecked = off_before && self.before_power_on(work.exercise()).is_some();
                open_place(work).or(unchecked.then_some((ActKind::PowerOnUnchecked, board_subject(work))))
            }
            Action::PowerOn { device } | Action::Reset { device } => {
                let id = work.device(device).ok()?;
                let untested = matches!(action, Action::Reset { .. }) && !self.tested_since_trip;
                let concerns_work = self.reaching.iter().any(|it| it.contains(&id));
                // Before the work has begun a device is operated to see what it feeds.
                let unchecked =
                    concerns_work && self.has_begun(work) && self.before_power_on(work.exercise()).is_some();
                open_place(work)
                    .or(untested.then_some((ActKind::ResetUntested, Subject::Device(id))))
                    .or(unchecked.then_some((ActKind::PowerOnUnchecked, Subject::Device(id))))
            }
            Action::Sheath { cable, location, .. } => {
                self.stops_hand_at(work, Hand::Place(location)).or_else(|| self.stops_cut(work, cable, location))
            }
            _ => self.stops_hand_at(work, action.hand()?),
        }
    }

    /// Why a cover on a training board must stay on: the supply is in, or was, and the board is not proved dead.
    fn stops_on_bench(&self, work: &Work) -> Option<ActKind> {
        let proved = work.exercise().locations.ids().any(|it| work.is_board(it) && self.is_proved(it));
        if work.is_unplugged() {
            (work.had_supply() && !proved).then_some(ActKind::BenchUnproved)
        } else {
            Some(ActKind::WorkedLive)
        }
    }

    /// Why the board's cover must stay on.
    fn stops_opening(&self, work: &Work) -> Option<ActKind> {
        let incomer = work.incomer();
        if work.is_incomer_on(incomer) {
            Some(ActKind::WorkedLive)
        } else if !work.is_incomer_locked(incomer) {
            Some(ActKind::OpenedUnlocked)
        } else {
            self.board_checks_left(work).next().map(|_| ActKind::BoardUnready)
        }
    }

    /// The checks still to make before the board is opened.
    pub fn board_checks_left(&self, work: &Work) -> impl Iterator<Item = Check> {
        let beside_tails = work.exercise().tails == Tails::Shrouded;
        let asked = [Some(Check::SecondSources), beside_tails.then_some(Check::SupervisorPresent)];
        asked.into_iter().flatten().filter(|it| !self.is_confirmed(*it))
    }

    /// Why a hand may not go where an action would put it.
    fn stops_hand_at(&self, work: &Work, hand: Hand<'_>) -> Option<(ActKind, Subject)> {
        match hand {
            Hand::Point(at) => {
                let point = work.point(at).ok()?;
                if circuit::is_energised(work, point) {
                    return Some((ActKind::WorkedLive, work.subject(at)?));
                }
                // An end not yet proved dead at its cut is in no terminal, so only free ends are asked about.
                if matches!(point, Point::End(it) if self.is_cut_unproved(it)) {
                    return Some((ActKind::TouchedUnproved, work.subject(at)?));
                }
                self.stops_hand(work, work.point_location(point), work.subject(at)?)
            }
            Hand::Place(at) => {
                let location = work.location(at).ok()?;
                self.stops_hand(work, location, Subject::Location(location))
            }
        }
    }

    /// Why a hand may not go among the conductors of a location.
    fn stops_hand(&self, work: &Work, location: LocationId, at: Subject) -> Option<(ActKind, Subject)> {
        if self.is_fed(work, location) {
            return Some((ActKind::WorkedLive, at));
        }
        let needs_proof = work.exercise().asks(Stage::Isolation) && !self.reaching[location].is_empty();
        let is_fitting = work.exercise().lamp_at(location).is_some();
        (needs_proof && !is_fitting && !self.is_proved(location)).then_some((ActKind::TouchedUnproved, at))
    }

    /// Whether any device that reaches a place where the learner works is on; where the wiring is given, any place.
    pub(in crate::attempt) fn is_fed_anywhere(&self, work: &Work) -> bool {
        let exercise = work.exercise();
        let places = if exercise.is_given() { exercise.locations.ids().collect() } else { exercise.learners_places() };
        places.into_iter().any(|it| self.is_fed(work, it))
    }

    /// Whether any device that reaches a location is on.
    pub(super) fn is_fed(&self, work: &Work, location: LocationId) -> bool {
        self.reaching[location].iter().any(|it| work.is_on(*it))
    }
}

/// Whether an action leaves something not off and locked while the earthing conductor is off, loose or not read through.
fn unearths(work: &Work, action: &Action) -> bool {
    let mut after = work.clone();
    after.apply(action).is_ok() && !after.is_earthing_sound() && !after.is_all_locked_off()
}

/// The board, if it is open.
fn open_board(work: &Work) -> Option<LocationId> {
    work.exercise().locations.ids().find(|it| work.is_board(*it) && !work.is_covered(*it))
}

/// The first board, or the work as a whole.
fn board_subject(work: &Work) -> Subject {
    work.exercise().locations.ids().find(|it| work.is_board(*it)).map_or(Subject::Whole, Subject::Location)
}

/// The first place that is open, where power is not to be switched on.
fn open_place(work: &Work) -> Option<(ActKind, Subject)> {
    let open = work.exercise().locations.ids().find(|it| !work.is_covered(*it))?;
    Some((ActKind::PowerOnOpen, Subject::Location(open)))
}
