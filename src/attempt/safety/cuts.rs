//! Cables cut in the course of the work (the charter, "**Starting states**"): an uncut cable is shown unconnected at its other end,
//! then cut with one insulated tool, then each conductor is proved at the cut.

use super::{ActKind, Safety, Work};
use crate::{
    exercise::{EndId, LocationId, Stage, Stands},
    work::Subject,
};

impl Safety {
    /// Whether a location is proved dead, with each conductor of what was cut there.
    pub fn is_all_proved(&self, work: &Work, location: LocationId) -> bool {
        self.is_proved(location) && self.cuts_at(work, location).next().is_none()
    }

    /// The ends that were cut at a location and are not yet proved dead.
    pub(super) fn cuts_at<'a>(&'a self, work: &'a Work, location: LocationId) -> impl Iterator<Item = EndId> + 'a {
        let unproved = self.cuts.iter().filter(|(_, is_proved)| !**is_proved).map(|(end, _)| *end);
        let is_out = |end: EndId| work.prep_of(end).is_some_and(|prep| prep.core_mm > 0);
        unproved.filter(move |end| work.end_location(*end) == location && is_out(*end))
    }

    /// Whether an end was cut and is not yet proved dead.
    pub(super) fn is_cut_unproved(&self, end: EndId) -> bool {
        self.cuts.get(&end) == Some(&false)
    }

    /// Why a cable must not be cut at a location: it may be connected where its other end is.
    pub(super) fn stops_cut(&self, work: &Work, cable: &str, location: &str) -> Option<(ActKind, Subject)> {
        let place = work.location(location).ok()?;
        let may_be_connected = |it: &EndId| !self.is_cut_already(*it) && !is_seen_unconnected(work, it.other());
        let unseen = self.new_ends(work, cable, place).any(|it| may_be_connected(&it));
        unseen.then_some((ActKind::TouchedUnproved, Subject::Location(place)))
    }

    /// A cable was cut, or more of its sheath taken back.
    pub(super) fn note_cut(&mut self, work: &Work, cable: &str, location: LocationId) {
        let ends: Vec<EndId> = self.new_ends(work, cable, location).filter(|it| !self.is_cut_already(*it)).collect();
        for end in ends {
            self.cuts.insert(end, false);
        }
    }

    /// A location was proved dead, with what was cut there.
    pub(super) fn note_cuts_proved(&mut self, work: &Work, location: LocationId) {
        let ends: Vec<EndId> = self.cuts_at(work, location).collect();
        for end in ends {
            self.cuts.insert(end, true);
        }
    }

    /// Whether a conductor was cut before, at either end.
    fn is_cut_already(&self, end: EndId) -> bool {
        [end, end.other()].iter().any(|it| self.cuts.contains_key(it))
    }

    /// The ends of a cable at a location where it comes uncut; those of one that hangs from a lampholder need no proof. Where dead
    /// tests go by pairs the format had no actions for any of this.
    fn new_ends(&self, work: &Work, cable: &str, location: LocationId) -> impl Iterator<Item = EndId> {
        let is_judged = self.reference.is_some() && work.exercise().asks(Stage::Isolation);
        let is_its = |end: &EndId| work.cable_of(end.conductor()).is_some_and(|it| it.id == cable);
        let hangs = |it: EndId| work.exercise().lamp_at(work.end_location(it.other())).is_some();
        let ends = work.ends_at(location).filter(move |it| is_judged && is_its(it) && !hangs(*it));
        ends.collect::<Vec<_>>().into_iter()
    }
}

/// Whether an end can be seen to be connected to nothing: its place is open, or the card says that it is tied back.
fn is_seen_unconnected(work: &Work, end: EndId) -> bool {
    let start = work.exercise().start.get(end).copied().flatten();
    let is_tied_back = start.is_some_and(|it| it.stands == Stands::Later);
    let place = work.end_location(end);
    let is_open = !work.has_cover(place) || !work.is_covered(place);
    work.terminal_of(end).is_none() && (is_tied_back || is_open)
}
