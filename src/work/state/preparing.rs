//! Making ends ready by hand: sheath, length, strip, fold; the pull that tries a joint; grommet and dressing of a box.

use super::{Prep, Work};
use crate::{
    exercise::{EndId, LocationId, LocationKind, TerminalId},
    trade::{
        cable::CrossSection,
        colour::Colour,
        workmanship::{DAMAGED_MM, HANGING_MM, SHEATH_INSIDE_MM},
    },
    work::{Feel, Refused},
};

impl Work {
    /// An end that the learner makes ready, out of its sheath.
    fn core(&self, end: EndId) -> Result<Prep, Refused> {
        self.uncovered(self.end_location(end))?;
        match self.prep_of(end) {
            None => Err(Refused::ComesPrepared { end: self.end_address(end) }),
            Some(it) if it.core_mm == 0 => Err(Refused::InSheath { end: self.end_address(end) }),
            Some(it) => Ok(it),
        }
    }

    /// The same, and in no terminal.
    fn free_core(&self, end: EndId) -> Result<Prep, Refused> {
        let prep = self.core(end)?;
        if self.terminal_of(end).is_some() {
            return Err(Refused::AlreadyConnected { end: self.end_address(end) });
        }
        Ok(prep)
    }

    pub(super) fn sheath(&mut self, cable: &str, location: LocationId, mm: u16) -> Result<(), Refused> {
        self.uncovered(location)?;
        let at = || self.exercise.locations[location].id.clone();
        let index = self.exercise.cables.iter().position(|it| it.id == cable && it.between.contains(&location));
        let Some(index) = index else {
            return Err(self.no_such(cable, None));
        };
        let Some(before) = self.sheath_off(index, location) else {
            return Err(Refused::SheathOff { at: at() });
        };
        if mm > HANGING_MM {
            return Err(Refused::NotSoMuch { at: at() });
        }
        if mm <= before {
            return Err(Refused::NotBack { at: at() });
        }
        let cores: Vec<EndId> = self.cores_at(index, location).collect();
        for end in cores {
            self.sheaths[index][end.index() % 2] = mm;
            if let Some(it) = self.ends.get_mut(end).and_then(|it| it.prep.as_mut()) {
                // The tip stays where it is; more of the core is out.
                it.core_mm += mm - before;
            }
        }
        self.dressed.put(location, false);
        Ok(())
    }

    pub(super) fn cut(&mut self, end: EndId, mm: u16) -> Result<(), Refused> {
        let mut prep = self.free_core(end)?;
        if mm >= prep.core_mm || mm == 0 {
            return Err(Refused::NotBack { at: self.end_address(end) });
        }
        let off = prep.core_mm - mm;
        if off >= prep.strip_mm {
            (prep.folded, prep.nicked, prep.crushed) = (false, false, false);
        }
        prep.core_mm = mm;
        prep.strip_mm = prep.strip_mm.saturating_sub(off);
        prep.trapped &= off < DAMAGED_MM;
        self.ends.change(end, |it| it.prep = Some(prep));
        let location = self.end_location(end);
        self.dressed.put(location, false);
        Ok(())
    }

    /// `jaw` is in hundredths of a square millimetre.
    pub(super) fn strip(&mut self, end: EndId, mm: u16, jaw: u16) -> Result<(), Refused> {
        let mut prep = self.free_core(end)?;
        let facts = self.end_facts(end);
        let Some(jaw) = CrossSection::from_mm2(f64::from(jaw) / 100.0) else { return Err(Refused::NoSuchMaterial) };
        if facts.colour == Colour::Bare {
            return Err(Refused::NoSuchMaterial);
        }
        if mm <= prep.strip_mm || prep.folded {
            return Err(Refused::NotBack { at: self.end_address(end) });
        }
        if mm > prep.core_mm {
            return Err(Refused::NotSoMuch { at: self.end_address(end) });
        }
        // The insulation is thick: a jaw of up to twice the size still cuts it (an assumption of ours).
        if jaw.mm2() > 2.0 * facts.size.mm2() + 1e-9 {
            return Err(Refused::JawTooWide { end: self.end_address(end) });
        }
        prep.strip_mm = mm;
        prep.nicked |= jaw < facts.size;
        self.ends.change(end, |it| it.prep = Some(prep));
        Ok(())
    }

    pub(super) fn fold(&mut self, end: EndId, folded: bool) -> Result<(), Refused> {
        let mut prep = self.free_core(end)?;
        if self.end_facts(end).colour != Colour::Bare && prep.strip_mm == 0 {
            return Err(Refused::NothingBare { end: self.end_address(end) });
        }
        if prep.folded == folded {
            return Err(Refused::SoAlready { at: self.end_address(end) });
        }
        prep.folded = folded;
        self.ends.change(end, |it| it.prep = Some(prep));
        Ok(())
    }

    /// Whether an end that the learner makes ready can go in a terminal as it is made: out of its sheath, bare at the tip, long enough.
    ///
    /// # Errors
    ///
    /// What is still to be done to it.
    pub fn can_go_in(&self, end: EndId, terminal: TerminalId) -> Result<(), Refused> {
        let Some(prep) = self.prep_of(end) else { return Ok(()) };
        self.is_out(end)?;
        if self.end_facts(end).colour != Colour::Bare && prep.strip_mm == 0 {
            return Err(Refused::NothingBare { end: self.end_address(end) });
        }
        let short_mm = self.reach_mm(terminal).saturating_sub(prep.core_mm);
        match (short_mm, short_mm <= self.sheath_left(end)) {
            (0, _) => Ok(()),
            (_, true) => Err(Refused::WontReach { end: self.end_address(end) }),
            (_, false) => Err(Refused::CutTooShort { end: self.end_address(end) }),
        }
    }

    /// Sheath that can still be taken back where an end comes out, mm, with as much left inside as there must be.
    fn sheath_left(&self, end: EndId) -> u16 {
        let cable = self.exercise.conductors.get(end.conductor()).map(|it| it.cable);
        let off = cable.and_then(|it| self.sheath_off(it, self.end_location(end))).unwrap_or(HANGING_MM);
        HANGING_MM.saturating_sub(SHEATH_INSIDE_MM).saturating_sub(off)
    }

    /// Out of its sheath, if the learner is to make it ready.
    pub(super) fn is_out(&self, end: EndId) -> Result<(), Refused> {
        if self.prep_of(end).is_some_and(|it| it.core_mm == 0) {
            return Err(Refused::InSheath { end: self.end_address(end) });
        }
        Ok(())
    }

    /// A screw driven too hard damages what is under it. A lever and a spring can't be.
    pub(super) fn crush(&mut self, terminal: TerminalId, feel: Feel) {
        if feel != Feel::Crushed || !self.exercise.terminals[terminal].capacity.hold.has_screw() {
            return;
        }
        let inside: Vec<EndId> = self.ends_in(terminal).collect();
        for end in inside {
            if let Some(it) = self.ends.get_mut(end).and_then(|it| it.prep.as_mut()) {
                it.crushed = true;
            }
        }
    }

    /// Pulls an end: what is not held comes out.
    pub(super) fn tug(&mut self, end: EndId) -> Result<(), Refused> {
        self.uncovered(self.end_location(end))?;
        let Some(terminal) = self.terminal_of(end) else {
            return Err(Refused::NotConnected { end: self.end_address(end) });
        };
        let comes_out = self.fit_of(end).map_or(!self.is_tight(terminal), |it| it.comes_out);
        if comes_out { self.disconnect(end) } else { Ok(()) }
    }

    pub(super) fn grommet(&mut self, location: LocationId) -> Result<(), Refused> {
        let id = || self.exercise.locations[location].id.clone();
        if !self.wants_grommet(location) {
            return Err(Refused::NotHere { location: id() });
        }
        self.uncovered(location)?;
        if self.grommets[location] {
            return Err(Refused::SoAlready { at: id() });
        }
        self.grommets.put(location, true);
        Ok(())
    }

    pub(super) fn dress(&mut self, location: LocationId) -> Result<(), Refused> {
        let place = &self.exercise.locations[location];
        if !matches!(place.kind, LocationKind::Box(_)) || self.ends_at(location).all(|it| self.prep_of(it).is_none()) {
            return Err(Refused::NotHere { location: place.id.clone() });
        }
        self.uncovered(location)?;
        if self.dressed[location] {
            return Err(Refused::SoAlready { at: place.id.clone() });
        }
        self.dressed.put(location, true);
        Ok(())
    }

    /// A plate pushed home over conductors that neither lie clear nor fold away by themselves catches the longest of
    /// those with insulation to cut.
    pub(super) fn trap(&mut self, location: LocationId) {
        if self.dressed[location] || !self.is_crowded(location) {
            return;
        }
        let longest = self
            .ends_at(location)
            .filter(|it| self.end_facts(*it).colour != Colour::Bare)
            .filter_map(|it| self.prep_of(it).map(|prep| (prep.core_mm, std::cmp::Reverse(it))))
            .max();
        if let Some((_, std::cmp::Reverse(end))) = longest
            && let Some(it) = self.ends.get_mut(end).and_then(|it| it.prep.as_mut())
        {
            it.trapped = true;
        }
    }
}
