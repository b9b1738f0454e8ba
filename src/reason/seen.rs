//! What a wiring comes to by the solver, in the classes of the search.

use super::{
    class::{Facts, WayClass},
    grid::LampGrid,
    knot::WayOutcome,
};
use crate::{
    circuit::{Conditions, Contacts, Glow, Hazard, HazardKind, Joined, Proof, Row, Survey, Toggles, survey, touch},
    exercise::{EndId, SwitchId, TerminalId},
    work::{Point, Work},
};

/// The class of a work with one lamp and one device by the solver in every position, each hazard of the survey, and a hand on the bare
/// copper; `None` where the joined view does not agree.
pub(super) fn seen(work: &Work) -> Option<WayClass> {
    class_of(work, &survey(work))
}

/// The same, of a work that has been surveyed.
pub(super) fn class_of(work: &Work, survey: &Survey) -> Option<WayClass> {
    let reached: Vec<(bool, WayOutcome)> = survey.rows.iter().map(|it| outcome(work, it)).collect();
    let matters = LampGrid::of_rows(&survey.rows).matters();
    let unearthed = survey.hazards.iter().any(|it| it.kind == HazardKind::NoDisconnection);
    let class = Facts { reached: &reached, matters: &matters, unearthed }.class();
    (joined_view_says(work)? == class.works()).then_some(class)
}

/// The bare ends that are in a terminal which is not for earth: their copper does the work of a core.
pub(super) fn bare_cores(work: &Work) -> impl Iterator<Item = EndId> + '_ {
    work.ends().filter(|it| {
        let is_for_earth = |at| work.exercise().is_for_earth(at);
        work.end_facts(*it).colour.is_protective() && work.terminal_of(*it).is_some_and(|at| !is_for_earth(at))
    })
}

/// Whether a hand on such copper would feel it, with the switches set so and everything on, in and fitted.
pub(super) fn is_bare_live(work: &Work, positions: &[u8]) -> bool {
    let conditions = || Conditions::complete(work.exercise(), positions.to_vec());
    bare_cores(work).any(|it| touch(work, conditions(), work.point_of(it)).is_some())
}

fn outcome(work: &Work, row: &Row) -> (bool, WayOutcome) {
    let exercise = work.exercise();
    let odd = row.positions.iter().fold(0, |sum, it| sum ^ it) & 1 == 1;
    let is_shock = |it: &Hazard| {
        matches!(it.kind, HazardKind::LampholderLive | HazardKind::MetalEnergised | HazardKind::LooseEndLive)
    };
    let shocks = row.hazards.iter().any(is_shock) || is_bare_live(work, &row.positions);
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
fn joined_view_says(work: &Work) -> Option<bool> {
    let exercise = work.exercise();
    let (device, lamp) = (exercise.devices.iter().next()?, exercise.lamps.iter().next()?);
    let watched = [device.line, device.neutral, lamp.contacts[0], lamp.contacts[1]].map(TerminalId::index);
    let lit = |joined: &[u8]| match *joined {
        [line, neutral, a, b] if line != neutral => Some([a, b] == [line, neutral] || [b, a] == [line, neutral]),
        _ => None,
    };
    let switches: Vec<usize> = exercise.switches.ids().map(SwitchId::index).collect();
    let toggles = Toggles { watched: &watched, lit: &lit, switches: &switches };
    toggles.prove(&Contacts::of(work)).ok().map(|it| it == Proof::Holds)
}
