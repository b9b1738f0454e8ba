//! Dead tests against an earth that was shown to be one: what was shown, where a probe is parked, what was touched between two
//! proofs of the indicator. What a place asks for is in [`super::asked`].

use std::collections::BTreeSet;

use super::{Safety, Work};
use crate::{
    attempt::testing::JOINED_OHMS,
    circuit,
    exercise::{LocationId, Reference, Stage},
    trade::instrument::{Function, LeadLength},
    work::{Action, Point},
};

/// Two probes on two points, and nothing shown.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct DeadTouch {
    /// The place whose test it is.
    pub place: LocationId,
    /// How the switches stood.
    pub positions: Vec<u8>,
    /// Where the probes were, the lesser first.
    pub points: [Point; 2],
    /// Whether each had been shown to be an earth by then.
    pub earths: [bool; 2],
}

/// Where the rounds of dead tests stand.
#[derive(Debug, Clone, Default)]
pub(super) struct Rounds {
    parked: Option<Point>,
    shown: BTreeSet<Point>,
    /// Points read from the reference and found not to be joined to it.
    apart: BTreeSet<Point>,
    /// Touches since the indicator was last proved; `None` outside a round.
    open: Option<BTreeSet<DeadTouch>>,
    /// Touches between two proofs of the indicator.
    closed: BTreeSet<DeadTouch>,
    /// Whether the indicator was proved before a round and after it since a cover last came off.
    is_proved_twice: bool,
}

impl Rounds {
    /// Something came between the tests.
    pub fn interrupt(&mut self) {
        self.open = None;
        self.parked = None;
    }

    /// What was touched since the last proof, and what before it.
    pub fn touches(&self) -> impl Iterator<Item = &DeadTouch> {
        self.open.iter().flatten().chain(&self.closed)
    }

    /// Whether the indicator was proved before a round and after it.
    pub const fn is_proved_twice(&self) -> bool {
        self.is_proved_twice
    }

    /// What was touched between two proofs.
    pub fn proved(&self) -> impl Iterator<Item = &DeadTouch> {
        self.closed.iter()
    }
}

impl Safety {
    /// The reference that earths are shown from; `None` where dead tests go by pairs and not against a parked earth.
    pub const fn reference(&self) -> Option<Reference> {
        self.reference
    }

    /// Where a probe of the indicator is parked.
    pub const fn parked(&self) -> Option<Point> {
        self.rounds.parked
    }

    /// Whether a point was shown to be an earth since the locks went on, or is the reference's own.
    pub fn is_shown(&self, point: Point) -> bool {
        self.reference.is_some_and(|it| Point::Terminal(it.earth) == point) || self.rounds.shown.contains(&point)
    }

    /// Whether it was read from the reference and is not joined to it.
    pub(in crate::attempt) fn is_apart(&self, point: Point) -> bool {
        self.rounds.apart.contains(&point)
    }

    /// The earth that an action is to show: read by the long lead from the reference's, at a place not yet proved dead.
    /// To touch a bare cpc or an earth terminal with a probe is not handwork.
    pub(in crate::attempt) fn shows(&self, work: &Work, action: &Action) -> Option<Point> {
        let (Action::Continuity { a, b }
        | Action::Measure { function: Function::Continuity, lead: LeadLength::Long, a, b }) = action
        else {
            return None;
        };
        let reference = Point::Terminal(self.reference?.earth);
        let points = [work.point(a).ok()?, work.point(b).ok()?];
        let earth = points.into_iter().find(|it| *it != reference).filter(|_| points.contains(&reference))?;
        let place = work.point_location(earth);
        // Once the place is proved dead, or where none is to be proved, the same reading is an ordinary test of the work.
        let is_asked = work.exercise().asks(Stage::Isolation) && !self.reaching[place].is_empty();
        (is_asked && !self.is_all_proved(work, place) && is_for_earth(work, earth)).then_some(earth)
    }

    /// Whether an action is to show an earth at a point that is live: the meter reads nothing then, and says why.
    pub(in crate::attempt) fn is_shown_live(&self, work: &Work, action: &Action) -> bool {
        self.shows(work, action).is_some_and(|it| circuit::is_energised(work, it))
    }

    /// Of two points between which nothing shows, the one that is taken for an earth and was never shown to be one, unless the
    /// other was.
    pub(in crate::attempt) fn unshown(&self, work: &Work, points: [Point; 2]) -> Option<Point> {
        if points.iter().any(|it| self.is_shown(*it)) {
            return None;
        }
        points.into_iter().find(|it| is_for_earth(work, *it))
    }

    /// Takes note of what an action means for the rounds, whatever else it does. Parking, showing an earth, taking the cover
    /// off another place and working a switch do not end one.
    pub(super) fn follow_round(&mut self, work: &Work, action: &Action) {
        let earth = self.shows(work, action);
        let goes_on = matches!(
            action,
            Action::TestDead { .. }
                | Action::Operate { .. }
                | Action::ProveIndicator
                | Action::Park { .. }
                | Action::Unpark
                | Action::RemoveCover { .. }
                | Action::Conclude { .. }
        );
        if !goes_on && earth.is_none() {
            self.rounds.interrupt();
        }
        if let Some(earth) = earth {
            self.note_shown(work, earth);
        }
        let rounds = &mut self.rounds;
        match action {
            Action::Park { at } => rounds.parked = work.point(at).ok(),
            // Proving the indicator takes both probes.
            Action::Unpark | Action::ProveIndicator => rounds.parked = None,
            Action::RemoveCover { location } | Action::FitCover { location } => {
                rounds.is_proved_twice = false;
                let place = work.location(location).ok();
                rounds.closed.retain(|it| Some(it.place) != place);
            }
            Action::Unlock { .. }
            | Action::UnlockIncomer { .. }
            | Action::PowerOn { .. }
            | Action::Reset { .. }
            | Action::MainSwitch { on: true }
            | Action::Isolator { on: true } => {
                *rounds = Rounds::default();
            }
            // What was joined to earth may no longer be.
            it if it.is_handwork() => {
                rounds.shown.clear();
                rounds.apart.clear();
            }
            _ => {}
        }
    }

    fn note_shown(&mut self, work: &Work, earth: Point) {
        let Some(reference) = self.reference else { return };
        let locked = self.is_locked_off(work, work.point_location(earth));
        if !locked || circuit::is_energised(work, earth) {
            return;
        }
        let ohms = circuit::ohms_between(work, Point::Terminal(reference.earth), earth);
        let to = if ohms < JOINED_OHMS { &mut self.rounds.shown } else { &mut self.rounds.apart };
        to.insert(earth);
    }

    /// Whether a round of dead tests against an earth is open.
    pub(super) const fn is_round_open(&self) -> bool {
        self.rounds.open.is_some()
    }

    /// The indicator works: what was touched since it last did counts where everything that comes first was done, and a new
    /// round begins.
    pub(super) fn close_round(&mut self, work: &Work) {
        let touched = self.rounds.open.replace(BTreeSet::new());
        self.rounds.is_proved_twice |= touched.is_some();
        let touched = touched.unwrap_or_default();
        let counts: Vec<DeadTouch> = touched.into_iter().filter(|it| self.is_prepared(work, it.place)).collect();
        self.rounds.closed.extend(counts);
    }

    /// The indicator is on two points. Lit, it works, and shows an earth if one of them is the reference's line.
    pub(in crate::attempt) fn note_touch(&mut self, work: &Work, points: [Point; 2], lit: bool) {
        if !self.indicator.is_sound() {
            return;
        }
        let line = self.reference.and_then(|it| it.line).map(Point::Terminal);
        let other = points.into_iter().find(|it| Some(*it) != line);
        if lit {
            if let Some(earth) =
                other.filter(|it| line.is_some_and(|line| points.contains(&line)) && is_for_earth(work, *it))
                && self.is_locked_off(work, work.point_location(earth))
            {
                self.rounds.shown.insert(earth);
            }
            self.close_round(work);
            return;
        }
        let reference = self.reference;
        let own = |it: &Point| matches!(it, Point::Terminal(it) if reference.is_some_and(|of| of.has(*it)));
        let Some(at) = points.iter().find(|it| !own(it)).copied() else { return };
        let (place, positions) = (work.point_location(at), work.positions().to_vec());
        let points = [points[0].min(points[1]), points[0].max(points[1])];
        let earths = points.map(|it| self.is_shown(it));
        if let Some(open) = &mut self.rounds.open {
            open.insert(DeadTouch { place, positions, points, earths });
        }
    }

    /// Takes the learner's word after a round, and gives the places that it proves dead: none for "not dead".
    pub(in crate::attempt) fn conclude(&mut self, work: &Work, dead: bool) -> Vec<LocationId> {
        let mut proved = Vec::new();
        if !dead {
            return proved;
        }
        let mine = work.exercise().learners_places();
        for place in self.proved.ids() {
            let is_open = if work.has_cover(place) { !work.is_covered(place) } else { mine.contains(&place) };
            if is_open
                && !self.is_all_proved(work, place)
                && self.is_prepared(work, place)
                && self.is_all_touched(work, place)
            {
                self.note_proved(place);
                self.note_cuts_proved(work, place);
                proved.push(place);
            }
        }
        proved
    }
}

/// Whether a point is there for protective conductors, or holds nothing else.
pub(super) fn is_for_earth(work: &Work, point: Point) -> bool {
    match point {
        Point::Terminal(it) => {
            let mut ends = work.ends_in(it).peekable();
            let protective = |it| work.end_facts(it).colour.is_protective();
            work.exercise().is_for_earth(it) || ends.peek().is_some() && ends.all(protective)
        }
        Point::End(it) => work.end_facts(it).colour.is_protective(),
    }
}
