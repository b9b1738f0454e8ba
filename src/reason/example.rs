//! One way of joining carried out: an exercise of our own, and the actions that put every end where the way has it.

mod house;

use std::sync::Arc;

use self::house::PracticeHouse;
use super::{
    class::{Facts, WayClass},
    grid::LampGrid,
    knot::WayOutcome,
    question::Question,
};
use crate::{
    attempt::Attempt,
    circuit::{Conditions, Contacts, Glow, Hazard, HazardKind, Joined, Proof, Row, Toggles, survey, touch},
    exercise::{EndId, Exercise, Seed, SwitchId, TerminalId, read},
    work::{Action, Feel, Point, Work},
};

/// One way of joining, carried out.
#[derive(Debug, Clone)]
pub struct Example {
    attempt: Attempt,
    ends: Vec<(String, String)>,
}

impl Example {
    /// Carries a way out (as [`super::ClassCount::shown`] has it); `None` where it can't be: an end that is not there, or a terminal with no
    /// room.
    pub(super) fn new(question: &Question, shown: &[Vec<u8>]) -> Option<Self> {
        let house = PracticeHouse::new(question);
        let mut attempt = Attempt::new(Arc::new(read(&house.scenario(), Seed(0)).ok()?));
        let mut ends = Vec::new();
        for (place, into) in shown.iter().enumerate() {
            let location = house.id(place);
            attempt.act(Action::RemoveCover { location: location.clone() }).ok()?;
            let terminals = house.terminals(place);
            let free = house.free_ends(place);
            if free.len() != into.len() {
                return None;
            }
            for (end, into) in free.into_iter().zip(into) {
                let (terminal, end_address) = (terminals.get(usize::from(*into))?, end.address);
                if let Some(mark) = end.mark {
                    attempt.act(Action::Mark { end: end_address.clone(), mark }).ok()?;
                }
                attempt.act(Action::Connect { end: end_address.clone(), terminal: terminal.clone() }).ok()?;
                ends.push((end_address, terminal.clone()));
            }
            for terminal in terminals.into_iter().filter(|it| ends.iter().any(|end| end.1 == *it)) {
                attempt.act(Action::Tighten { terminal, feel: Feel::Right }).ok()?;
            }
            attempt.act(Action::FitCover { location }).ok()?;
        }
        let example = Self { attempt, ends };
        // What is stopped as unsafe is no refusal.
        let work = example.work();
        let stands = |(end, terminal): &(String, String)| {
            let there = work.end(end).ok().and_then(|it| work.terminal_of(it));
            there.is_some() && there == work.terminal(terminal).ok()
        };
        example.ends.iter().all(stands).then_some(example)
    }

    /// The attempt: an exercise, and the actions that connect every end. Nothing is proved, powered or handed in.
    pub const fn attempt(&self) -> &Attempt {
        &self.attempt
    }

    /// The work with every end connected.
    pub fn work(&self) -> &Work {
        self.attempt.work()
    }

    /// The ends that the way is about and the terminals that they are in, by address.
    pub fn ends(&self) -> &[(String, String)] {
        &self.ends
    }

    fn exercise(&self) -> &Exercise {
        self.work().exercise()
    }

    /// The class of it by the solver in every position, each hazard of the survey, and a hand on the bare copper; `None` where the joined view
    /// does not agree.
    pub(super) fn seen(&self) -> Option<WayClass> {
        let survey = survey(self.work());
        let reached: Vec<(bool, WayOutcome)> = survey.rows.iter().map(|it| self.outcome(it)).collect();
        let matters = LampGrid::of_rows(&survey.rows).matters();
        let unearthed = survey.hazards.iter().any(|it| it.kind == HazardKind::NoDisconnection);
        let class = Facts { reached: &reached, matters: &matters, unearthed }.class();
        (self.joined_view_says()? == class.works()).then_some(class)
    }

    fn outcome(&self, row: &Row) -> (bool, WayOutcome) {
        let (work, exercise) = (self.work(), self.exercise());
        let odd = row.positions.iter().fold(0, |sum, it| sum ^ it) & 1 == 1;
        let is_bare = |it: &EndId| {
            work.end_facts(*it).colour.is_protective()
                && work.terminal_of(*it).is_some_and(|at| !exercise.is_for_earth(at))
        };
        let conditions = || Conditions::complete(exercise, row.positions.clone());
        let mut bare = work.ends().filter(is_bare).map(|it| work.point_of(it));
        let is_shock = |it: &Hazard| {
            matches!(it.kind, HazardKind::LampholderLive | HazardKind::MetalEnergised | HazardKind::LooseEndLive)
        };
        let shocks = row.hazards.iter().any(is_shock) || bare.any(|it| touch(work, conditions(), it).is_some());
        let mut joined = Joined::new(work, &row.positions);
        let neutral = exercise.devices.iter().map(|it| it.neutral).next();
        let contacts = exercise.lamps.iter().map(|it| it.contacts).next();
        let on_neutral = neutral.zip(contacts).map_or([false; 2], |(neutral, contacts)| {
            contacts.map(|it| joined.same(work, Point::Terminal(it), Point::Terminal(neutral)))
        });
        let lit = row.lamps.iter().any(|it| it.glow == Glow::Lit);
        (odd, WayOutcome { trips: row.tripped().next().is_some(), lit, shocks, on_neutral })
    }

    /// Whether every toggle changes the lamp and nothing trips, by the joined view.
    fn joined_view_says(&self) -> Option<bool> {
        let exercise = self.exercise();
        let (device, lamp) = (exercise.devices.iter().next()?, exercise.lamps.iter().next()?);
        let watched = [device.line, device.neutral, lamp.contacts[0], lamp.contacts[1]].map(TerminalId::index);
        let lit = |joined: &[u8]| match *joined {
            [line, neutral, a, b] if line != neutral => Some([a, b] == [line, neutral] || [b, a] == [line, neutral]),
            _ => None,
        };
        let switches: Vec<usize> = exercise.switches.ids().map(SwitchId::index).collect();
        let toggles = Toggles { watched: &watched, lit: &lit, switches: &switches };
        toggles.prove(&Contacts::of(self.work())).ok().map(|it| it == Proof::Holds)
    }
}
