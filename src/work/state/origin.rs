//! What is in front of the devices: the isolator between meter and board, the main switch, their locks; and whether the board
//! is a place to be opened.
//!
//! Events, which undo leaves alone. The board's own cover is a cover like others and stands with those.

use super::{Refused, Work};
use crate::{
    exercise::{Keeper, LocationId, Supply, Tails},
    work::action::{EarthingStep, Incomer},
};

/// A switch that cuts the whole board off.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Cut {
    on: bool,
    /// Whether the learner's lock and label are on it.
    locked: bool,
}

/// The plug of a training board.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Plug {
    /// Out, and no supply was ever brought.
    NotYet,
    In,
    /// Out again.
    Out,
}

/// How the earthing conductor is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum EarthingConductor {
    /// On, as it was found or read through since.
    Sound,
    Off,
    /// Back, its screw loose.
    Loose,
    /// Back and tight, not read through yet.
    Tight,
}

/// What is in front of the devices, as it stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Origin {
    main: Cut,
    isolator: Cut,
    earthing: EarthingConductor,
    plug: Plug,
    /// Whether the board has a cover that the learner takes off.
    opens: bool,
}

impl Default for Origin {
    fn default() -> Self {
        let on = Cut { on: true, locked: false };
        Self { main: on, isolator: on, earthing: EarthingConductor::Sound, plug: Plug::NotYet, opens: false }
    }
}

impl Origin {
    const fn cut(self, which: Incomer) -> Cut {
        match which {
            Incomer::Main => self.main,
            Incomer::Isolator => self.isolator,
        }
    }

    const fn cut_mut(&mut self, which: Incomer) -> &mut Cut {
        match which {
            Incomer::Main => &mut self.main,
            Incomer::Isolator => &mut self.isolator,
        }
    }
}

impl Work {
    /// Makes the board a place to be opened, where it is the learner's: an attempt's format says whether there are words for it.
    pub(crate) fn let_board_open(&mut self) {
        self.origin.opens = self.exercise.board == Keeper::Learner && !self.is_bench();
    }

    /// Whether the work is on a training board.
    pub fn is_bench(&self) -> bool {
        self.exercise.supply == Supply::Bench
    }

    /// Whether the work is on a training board and its plug is out and in the learner's hand.
    pub fn is_unplugged(&self) -> bool {
        self.is_bench() && self.origin.plug != Plug::In
    }

    /// Whether a training board has ever had its supply.
    pub fn had_supply(&self) -> bool {
        self.origin.plug != Plug::NotYet
    }

    pub(super) fn plug(&mut self, to: bool) -> Result<(), Refused> {
        if !self.is_bench() {
            return Err(Refused::NoPlug);
        }
        if (self.origin.plug == Plug::In) == to {
            return Err(if to { Refused::PlugIn } else { Refused::PlugOut });
        }
        self.origin.plug = if to { Plug::In } else { Plug::Out };
        Ok(())
    }

    /// Whether the board is the learner's to open.
    pub const fn opens_board(&self) -> bool {
        self.origin.opens
    }

    /// Whether a location is a board that the learner opens, locks and proves before anything in it is touched.
    pub fn is_board_to_open(&self, location: LocationId) -> bool {
        self.origin.opens && self.is_board(location)
    }

    /// Whether a location is a board.
    pub fn is_board(&self, location: LocationId) -> bool {
        self.exercise.is_board(location)
    }

    /// Whether a location has a cover that comes off.
    pub fn has_cover(&self, location: LocationId) -> bool {
        self.exercise.locations[location].kind.has_cover() || self.is_board_to_open(location)
    }

    /// Whether the board's main switch is on.
    pub fn is_main_on(&self) -> bool {
        self.origin.main.on
    }

    /// Whether power comes as far as the devices.
    pub fn is_supplied(&self) -> bool {
        self.origin.main.on && self.origin.isolator.on && !self.is_unplugged()
    }

    /// Whether a switch in front of the devices is on.
    pub const fn is_incomer_on(&self, which: Incomer) -> bool {
        self.origin.cut(which).on
    }

    /// Whether the learner's lock is on a switch in front of the devices.
    pub const fn is_incomer_locked(&self, which: Incomer) -> bool {
        self.origin.cut(which).locked
    }

    /// The switch that is off and locked before the board is opened: the isolator between meter and board, if there is one, so
    /// that nothing in the board is live; else the main switch, and the tails stay behind their shrouds.
    pub fn incomer(&self) -> Incomer {
        match self.exercise.tails {
            Tails::Isolator => Incomer::Isolator,
            Tails::Shrouded => Incomer::Main,
        }
    }

    /// Whether a switch in front of all the devices is off and locked.
    pub fn is_all_locked_off(&self) -> bool {
        [Incomer::Main, Incomer::Isolator].into_iter().any(|it| !self.is_incomer_on(it) && self.is_incomer_locked(it))
    }

    /// Whether nothing in the board can be live, tails included.
    pub fn are_tails_dead(&self) -> bool {
        !self.is_incomer_on(Incomer::Isolator) && self.is_incomer_locked(Incomer::Isolator)
    }

    pub(super) fn throw(&mut self, which: Incomer, on: bool) -> Result<(), Refused> {
        self.is_there(which)?;
        let cut = self.origin.cut_mut(which);
        if on && cut.locked {
            return Err(Refused::IncomerLocked);
        }
        if cut.on == on {
            return Err(if on { Refused::IncomerOnAlready } else { Refused::IncomerOffAlready });
        }
        cut.on = on;
        Ok(())
    }

    pub(super) fn lock_incomer(&mut self, which: Incomer, fit: bool) -> Result<(), Refused> {
        self.is_there(which)?;
        if !self.origin.opens {
            return Err(Refused::NoBoardWork);
        }
        let cut = self.origin.cut_mut(which);
        if fit && cut.on {
            return Err(Refused::IncomerOn);
        }
        if cut.locked == fit {
            return Err(if fit { Refused::IncomerLockedAlready } else { Refused::IncomerNotLocked });
        }
        cut.locked = fit;
        Ok(())
    }

    /// Whether the earthing conductor is on, tight and read through.
    pub fn is_earthing_sound(&self) -> bool {
        self.origin.earthing == EarthingConductor::Sound
    }

    /// Whether a reading at the origin is Ze: everything off and locked, the earthing conductor off, the supply there.
    pub fn is_ready_for_ze(&self) -> bool {
        let is_supply_there = self.is_incomer_on(Incomer::Isolator);
        self.is_all_locked_off() && self.origin.earthing == EarthingConductor::Off && is_supply_there
    }

    pub(super) fn earthing(&mut self, step: EarthingStep) -> Result<(), Refused> {
        self.is_board_work()?;
        self.origin.earthing = self.earthing_after(step).ok_or(Refused::EarthingAlready)?;
        Ok(())
    }

    /// Whether a step is one that can be done with the earthing conductor as it is.
    pub fn is_earthing_step(&self, step: EarthingStep) -> bool {
        self.origin.opens && self.earthing_after(step).is_some()
    }

    const fn earthing_after(&self, step: EarthingStep) -> Option<EarthingConductor> {
        Some(match (step, self.origin.earthing) {
            (
                EarthingStep::Disconnect,
                EarthingConductor::Sound | EarthingConductor::Loose | EarthingConductor::Tight,
            ) => EarthingConductor::Off,
            (EarthingStep::Connect, EarthingConductor::Off) => EarthingConductor::Loose,
            (EarthingStep::Tighten, EarthingConductor::Loose) => EarthingConductor::Tight,
            (EarthingStep::ReadThrough, EarthingConductor::Tight) => EarthingConductor::Sound,
            _ => return None,
        })
    }

    /// Whether the board is the learner's, and there are words for work at it.
    pub(super) const fn is_board_work(&self) -> Result<(), Refused> {
        if self.origin.opens { Ok(()) } else { Err(Refused::NoBoardWork) }
    }

    fn is_there(&self, which: Incomer) -> Result<(), Refused> {
        let is_there = which == Incomer::Main || self.exercise.tails == Tails::Isolator;
        if is_there { Ok(()) } else { Err(Refused::NoIsolator) }
    }
}
