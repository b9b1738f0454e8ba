//! What hands and probes can reach: through what is open, to what is bare, and as far as the leads go.

use super::Attempt;
use crate::{
    exercise::{LocationId, TerminalUse},
    trade::instrument::LeadLength,
    work::{Action, Detector, Point, Refused},
};

impl Attempt {
    /// Whether an instrument's two probes reach their points.
    pub(super) fn probes_reach(&self, action: &Action) -> Result<(), Refused> {
        let (a, b, with, far) = match action {
            Action::Measure { function, a, b, .. } if function.is_live() => {
                return [a, b].into_iter().try_for_each(|it| self.is_read_live(self.work.point(it)?));
            }
            Action::TestDead { a, b, with } => (a, b, Some(*with), false),
            // The continuity meter has a long lead; the indicator has only the one to earth.
            Action::Continuity { a, b } => (a, b, None, true),
            Action::Measure { lead, a, b, .. } => (a, b, None, *lead == LeadLength::Long),
            _ => return Ok(()),
        };
        let points = [self.work.point(a)?, self.work.point(b)?];
        if let Some(parked) = self.safety.parked()
            && with == Some(Detector::Indicator)
            && !points.contains(&parked)
        {
            return Err(Refused::ProbeParked { at: self.work.point_address(parked) });
        }
        let tester = matches!(action, Action::Measure { .. });
        // A stick is held to what is insulated; no probe goes through a sheath.
        if with != Some(Detector::Stick) {
            points.into_iter().try_for_each(|it| self.is_bare(it))?;
        }
        points.into_iter().try_for_each(|it| self.in_probes_reach(it, tester))?;
        let near = points.into_iter().filter(|it| !self.is_reached_from_afar(*it));
        let places: Vec<LocationId> = near.map(|it| self.work.point_location(it)).collect();
        let at_board = |it: &LocationId| tester && self.work.is_board(*it);
        let bar_by_short =
            tester && points.iter().any(|it| self.work.is_earth_bar(*it)) && !places.iter().all(at_board);
        if far || places.windows(2).all(|it| it[0] == it[1]) && !bar_by_short {
            Ok(())
        } else {
            Err(Refused::OutOfReach { a: a.clone(), b: b.clone() })
        }
    }

    /// Whether a live reading is taken at a point, with every cover on: at the test points of a board, and by an adaptor in a
    /// lampholder or a socket-outlet (the charter: "No probe goes through a sheath"). Format 1 let probes through the screw holes
    /// of plates. Where the cover is off, a probe reaches what is there; that this is live work is no matter of reach.
    fn is_read_live(&self, point: Point) -> Result<(), Refused> {
        let location = self.work.point_location(point);
        let is_outlet = self.work.exercise().is_outlet(location);
        let by_adaptor = match point {
            Point::Terminal(it) => {
                matches!(self.work.exercise().terminals[it].used_by, TerminalUse::Block(_) | TerminalUse::BlockEarth(_))
            }
            Point::End(_) => false,
        };
        if !self.format.has_closed_plates() || self.work.is_board(location) || is_outlet && by_adaptor {
            return Ok(());
        }
        self.is_open(location)
    }

    /// Whether a hand reaches a point: its cover is off, its lamp is out, or it is in the board.
    pub(super) fn in_reach(&self, point: Point) -> Result<(), Refused> {
        let location = self.work.point_location(point);
        if self.work.is_board(location) && !self.work.is_board_to_open(location) {
            return Ok(());
        }
        self.is_open(location)
    }

    /// Whether there is copper to touch, where dead tests go against an earth: the end of an uncut cable has none.
    pub(super) fn is_bare(&self, point: Point) -> Result<(), Refused> {
        let Point::End(end) = point else { return Ok(()) };
        let in_sheath = self.work.prep_of(end).is_some_and(|it| it.core_mm == 0);
        if in_sheath && self.safety.reference().is_some() {
            return Err(Refused::InSheath { end: self.work.end_address(end) });
        }
        Ok(())
    }

    /// Whether a probe reaches a point. The probes of a tester reach what is in the board.
    pub(super) fn in_probes_reach(&self, point: Point, tester: bool) -> Result<(), Refused> {
        let (work, location) = (&self.work, self.work.point_location(point));
        let in_board = (tester || work.is_bench()) && work.is_board(location) && !work.is_board_to_open(location);
        if in_board || self.is_reached_from_afar(point) { Ok(()) } else { self.is_open(location) }
    }

    /// Whether a wander or plug-in lead reaches it: the earthing terminal beside the board, and the reference. The
    /// earth bar is reached from anywhere: something must be earthed before the first cpc (common practice, no source).
    fn is_reached_from_afar(&self, point: Point) -> bool {
        let given = |it| self.safety.reference().is_some_and(|of| of.has(it));
        self.work.is_earth_bar(point) || matches!(point, Point::Terminal(it) if given(it))
    }

    /// Whether a place is open: its cover is off, or the lamp is out of its holder.
    fn is_open(&self, location: LocationId) -> Result<(), Refused> {
        let (work, exercise) = (&self.work, self.work.exercise());
        let id = || exercise.locations[location].id.clone();
        match exercise.lamp_at(location) {
            Some(lamp) if work.is_lamp_in(lamp) => Err(Refused::LampIn { location: id() }),
            None if work.is_covered(location) => Err(Refused::CoverOn { location: id() }),
            _ => Ok(()),
        }
    }
}
