//! How an end was made ready, and how it fits the terminal it is in: lengths in millimetres, nothing of resistance or marks.

use super::{Point, Work};
use crate::{
    exercise::{EndId, LocationId, LocationKind, Preparation, TerminalId, TerminalUse},
    trade::{
        accessory::Material,
        colour::Colour,
        workmanship::{
            CORE_PER_DEPTH, Clamp, HANGING_MM, Hold, REACH_BOARD_MM, REACH_FITTING_MM, REACH_GANG_MM, REACH_IN_BOX_MM,
            REACH_PLATE_MM, SHEATH_INSIDE_MM, SPARE_MM, UNLIKE, UNSEEN_MM,
        },
    },
};

/// An end of a new cable as the learner has made it ready.
#[expect(clippy::struct_excessive_bools, reason = "four things that may each have happened to the copper")]
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Prep {
    /// Core from the sheath to its tip, mm; 0 while it is in the sheath.
    pub core_mm: u16,
    /// Bare at the tip, mm; nothing for a core that is bare all along.
    pub strip_mm: u16,
    /// Whether the bare end is folded back on itself.
    pub folded: bool,
    /// Whether the strippers cut into the copper.
    pub nicked: bool,
    /// Whether a screw was driven through it.
    pub crushed: bool,
    /// Whether a plate has caught it.
    pub trapped: bool,
}

/// What is to be said about a fold.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Fold {
    /// As it should be, or as the hand likes.
    Right,
    /// The terminal's data ask for one, and there is none.
    Missing,
    /// What holds the end must not have one.
    Wrong,
}

/// How an end fits the terminal it is in.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fit {
    /// Bare copper that can be seen outside, mm.
    pub outside_mm: f64,
    /// Bare length wanting inside, mm: so much insulation is where the terminal bites.
    pub short_mm: f64,
    /// Whether a pull brings it out.
    pub comes_out: bool,
    /// Whether the screw rests on a thicker neighbour.
    pub unlike: bool,
    /// The fold.
    pub fold: Fold,
}

impl Work {
    /// How an end was made ready; `None` where it came ready, or was found so.
    pub fn prep_of(&self, end: EndId) -> Option<Prep> {
        self.ends[end].prep
    }

    /// Sheath taken off a cable at a location, mm; `None` where that is not the learner's.
    pub fn sheath_off(&self, cable: usize, location: LocationId) -> Option<u16> {
        let end = self.cores_at(cable, location).next()?;
        self.prep_of(end)?;
        self.sheaths.get(cable).map(|it| it[end.index() % 2])
    }

    /// Whether the sheath of a cable comes far enough into the enclosure; true where that is not the learner's.
    pub fn is_sheath_inside(&self, cable: usize, location: LocationId) -> bool {
        self.sheath_off(cable, location).is_none_or(|it| it + SHEATH_INSIDE_MM <= HANGING_MM)
    }

    /// The ends of a cable's cores at a location.
    pub fn cores_at(&self, cable: usize, location: LocationId) -> impl Iterator<Item = EndId> + '_ {
        let cable = self.exercise.cables.get(cable);
        let cores = cable.map_or(0..0, |it| it.first_conductor..it.first_conductor + it.kind.cores().len());
        cores.flat_map(EndId::of).filter(move |it| self.end_location(*it) == location)
    }

    /// Whether a grommet is in the knock-outs of a box.
    pub fn has_grommet(&self, location: LocationId) -> bool {
        self.grommets[location]
    }

    /// Whether the conductors of a box are laid clear of its lugs.
    pub fn is_dressed(&self, location: LocationId) -> bool {
        self.dressed[location]
    }

    /// Whether a box is of metal and a cable that the learner makes ready comes into it.
    pub fn wants_grommet(&self, location: LocationId) -> bool {
        matches!(&self.exercise.locations[location].kind, LocationKind::Box(it) if it.body == Material::Metal)
            && self.ends_at(location).any(|it| self.prep_of(it).is_some())
    }

    /// Whether so much core lies behind a plate that it does not fold away by itself.
    pub fn is_crowded(&self, location: LocationId) -> bool {
        let LocationKind::Box(it) = &self.exercise.locations[location].kind else { return false };
        let core: u32 = self.ends_at(location).filter_map(|it| self.prep_of(it)).map(|it| u32::from(it.core_mm)).sum();
        f64::from(core) > CORE_PER_DEPTH * it.depth_mm
    }

    /// Core that an end needs from its sheath to a terminal of its location, mm.
    pub fn reach_mm(&self, terminal: TerminalId) -> u16 {
        let it = &self.exercise.terminals[terminal];
        match (&self.exercise.locations[it.location].kind, it.used_by) {
            (LocationKind::Board, _) => REACH_BOARD_MM,
            (LocationKind::Box(_), TerminalUse::BoxEarth | TerminalUse::Connector(_)) => REACH_IN_BOX_MM,
            (LocationKind::Box(it), _) => {
                REACH_PLATE_MM + REACH_GANG_MM * (it.plate.ways.len() as u16).saturating_sub(1)
            }
            _ => REACH_FITTING_MM,
        }
    }

    /// How an end that the learner made ready fits the terminal it is in; `None` for any other, and for one in nothing.
    pub fn fit_of(&self, end: EndId) -> Option<Fit> {
        let (prep, terminal) = (self.prep_of(end)?, self.terminal_of(end)?);
        let hold = self.exercise.terminals[terminal].capacity.hold;
        let facts = self.end_facts(end);
        let size = facts.size.mm2();
        let alone = self.ends_in(terminal).count() == 1;
        let fold = match (hold.clamp, prep.folded) {
            (Clamp::Pillar, false) if alone && size <= hold.fold_mm2 => Fold::Missing,
            (Clamp::Pillar, _) | (_, false) => Fold::Right,
            (_, true) => Fold::Wrong,
        };
        let thick = |end: EndId| {
            let folded = self.prep_of(end).is_some_and(|it| it.folded);
            self.end_facts(end).size.mm2() * if folded { 2.0 } else { 1.0 }
        };
        let unlike =
            hold.clamp == Clamp::Pillar && self.ends_in(terminal).any(|it| thick(it) > UNLIKE * thick(end) + 1e-9);
        // A bare core has no insulation to take off, and its sleeve has a rule of its own.
        let bare = if facts.colour == Colour::Bare { hold.depth_mm } else { bare_mm(prep) };
        Some(Fit {
            outside_mm: if bare > hold.depth_mm + UNSEEN_MM { bare - hold.depth_mm } else { 0.0 },
            short_mm: (hold.least_mm() - bare).max(0.0),
            comes_out: !self.is_tight(terminal) || bare < hold.grip_mm(),
            unlike,
            fold,
        })
    }

    /// An end as it would be made ready well for the terminal it is in: the repair of whatever is wrong with it.
    pub fn well_made(&self, end: EndId) -> Option<Prep> {
        let (prep, terminal) = (self.prep_of(end)?, self.terminal_of(end)?);
        let hold = self.exercise.terminals[terminal].capacity.hold;
        let fit = self.fit_of(end)?;
        let folded = match fit.fold {
            Fold::Missing => true,
            Fold::Wrong => false,
            Fold::Right => prep.folded || fit.unlike,
        };
        #[expect(clippy::cast_sign_loss, reason = "held at nothing or above on the same line")]
        let bare = hold.depth_mm.max(0.0).round() as u16;
        let strip_mm = if self.end_facts(end).colour == Colour::Bare { 0 } else { bare * if folded { 2 } else { 1 } };
        Some(Prep { core_mm: prep.core_mm.max(self.reach_mm(terminal)), strip_mm, folded, ..Prep::default() })
    }

    /// Whether a learner's end has been caught behind a plate, and against what: the earth of a metal box.
    pub fn trapped_against(&self, end: EndId) -> Option<Point> {
        self.prep_of(end).filter(|it| it.trapped)?;
        let location = self.end_location(end);
        let LocationKind::Box(it) = &self.exercise.locations[location].kind else { return None };
        let earth = self.exercise.terminal_used(location, TerminalUse::BoxEarth)?;
        (it.body == Material::Metal).then_some(Point::Terminal(earth))
    }

    /// Makes every end that stands in a terminal off as it should be, its cable's sheath and its box with it.
    pub(super) fn make_off(&mut self) {
        let ends: Vec<EndId> = self.ends().filter(|it| self.terminal_of(*it).is_some()).collect();
        for end in &ends {
            self.ends.change(*end, |it| it.prep = Some(Prep::default()));
        }
        // Whether one is to be folded depends on its neighbours' folds, which are settled the first time round.
        for end in ends.iter().chain(&ends) {
            let made = self.well_made(*end);
            self.ends.change(*end, |it| it.prep = made);
        }
        for end in ends {
            let reach = self.prep_of(end).unwrap_or_default().core_mm;
            let core = (reach + SPARE_MM).min(HANGING_MM - SHEATH_INSIDE_MM);
            self.ends.change(end, |it| it.prep = it.prep.map(|prep| Prep { core_mm: core, ..prep }));
            let cable = self.exercise.conductors.get(end.conductor()).map(|it| it.cable);
            if let Some(it) = cable.and_then(|it| self.sheaths.get_mut(it)) {
                it[end.index() % 2] = it[end.index() % 2].max(core);
            }
        }
        for location in self.exercise.locations.ids() {
            self.dressed.put(location, true);
            let grommet = self.wants_grommet(location);
            self.grommets.put(location, grommet);
        }
    }

    /// Ends that come to the learner in their sheath: those of cables of which nothing at that place was connected before.
    pub(super) fn start_preps(exercise: &crate::exercise::Exercise) -> Vec<Option<Prep>> {
        let all = exercise.start.ids();
        let by_hand = |end: EndId| {
            exercise.preparation == Preparation::ByHand
                && all.clone().all(|other| {
                    let same = |end: EndId| exercise.conductors.get(end.conductor()).map(|it| it.cable);
                    same(other) != same(end) || other.index() % 2 != end.index() % 2 || exercise.start[other].is_none()
                })
        };
        all.clone().map(|it| by_hand(it).then(Prep::default)).collect()
    }
}

/// Bare length as the terminal sees it, mm.
fn bare_mm(prep: Prep) -> f64 {
    f64::from(prep.strip_mm) * if prep.folded { 0.5 } else { 1.0 }
}

impl Hold {
    /// Whether a screw bears on the conductor itself or on what draws a cage shut: something that can be driven too hard.
    pub(super) const fn has_screw(&self) -> bool {
        matches!(self.clamp, Clamp::Pillar | Clamp::Cage)
    }
}
