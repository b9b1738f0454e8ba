//! Accessories that are not in the [catalogue](super::catalogue): back boxes, the loop-in rose, lampholders, the
//! board's terminals; and the resistances of contacts.

use serde::{Deserialize, Serialize};

use super::workmanship::{Clamp, Hold};

/// What a plate, a box or a fitting is made of, as far as a finger and an earth fault care.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Material {
    /// Insulating.
    Plastic,
    /// An exposed-conductive-part (BS 7671 411.4.2 for a flush metal box, by a trade article on earthing back boxes).
    Metal,
}

/// How the plate's fixing screws hold to a metal box.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Lugs {
    /// One lug is fixed and bonded to the box, so the screw joins plate and box.
    OneFixed,
    /// Both lugs slide: the screw path is not to be relied on and a tail is required.
    BothAdjustable,
}

/// The lampholder at a luminaire.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Holder {
    /// B22 bayonet: two alike contacts.
    Bayonet,
    /// E27 of the kind whose shell makes contact only at the last turn (BS EN 60238): centre and outer.
    Screw,
}

/// The lamp in it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum LampKind {
    /// Tungsten filament.
    Filament,
    /// Light-emitting diode with its driver.
    Led,
}

/// What a terminal takes at once.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Capacity {
    /// Conductors.
    pub conductors: usize,
    /// Their cross-sections together, mm².
    pub mm2: f64,
    /// The smallest and the largest that it is made for, mm² (in the constants below an assumption of ours).
    pub each_mm2: (f64, f64),
    /// How it holds them.
    pub hold: Hold,
}

impl Capacity {
    /// Nothing at all.
    pub const NONE: Self = Self { conductors: 0, mm2: 0.0, each_mm2: (0.0, 0.0), hold: Hold::pillar(0.0) };

    /// Whether it is made for a conductor of this size, mm².
    pub fn is_made_for(&self, mm2: f64) -> bool {
        (self.each_mm2.0 - 1e-9..=self.each_mm2.1 + 1e-9).contains(&mm2)
    }
}

// Depths of the holds below: 8 to 9 mm for a hole with a screw common practice, no source; 12 to 14 mm for a device's cage from
// makers' sheets, from memory.

/// A rose block: up to 4 x 1.5 mm² (BS 67, from memory).
pub const ROSE_BLOCK: Capacity = Capacity { conductors: 4, mm2: 6.0, each_mm2: (0.5, 2.5), hold: Hold::pillar(8.0) };
/// A lampholder contact: one flexible conductor (common practice, no source).
pub const LAMPHOLDER_CONTACT: Capacity =
    Capacity { conductors: 1, mm2: 1.5, each_mm2: (0.5, 1.5), hold: Hold::pillar(8.0) };
/// An earth terminal in a box or on a plate: as a plate terminal, one more conductor for the tail (common practice,
/// no source).
pub const EARTH_TERMINAL: Capacity =
    Capacity { conductors: 5, mm2: 7.5, each_mm2: (0.5, 4.0), hold: Hold::pillar(9.0) };
/// The outgoing terminal of a protective device: one conductor of up to 16 mm² (makers' sheets, from memory).
pub const DEVICE_TERMINAL: Capacity = Capacity {
    conductors: 1,
    mm2: 16.0,
    each_mm2: (0.5, 16.0),
    hold: Hold { depth_mm: 13.0, clamp: Clamp::Cage, fold_mm2: 0.0 },
};
/// The earth bar of a board: a row of terminals treated as one (common practice, no source).
pub const EARTH_BAR: Capacity =
    Capacity { conductors: 24, mm2: 200.0, each_mm2: (0.5, 16.0), hold: Hold::pillar(13.0) };

/// Resistance of a terminal screwed up properly, ohms: the least that the model uses (an assumption of ours).
pub const SOUND_CONTACT_OHMS: f64 = 0.001;
/// Resistance of a terminal whose screw was never tightened, ohms (an assumption of ours; a real one wanders).
pub const LOOSE_CONTACT_OHMS: f64 = 1.0;
/// Resistance of a closed switch contact, ohms (an assumption of ours).
pub const SWITCH_CONTACT_OHMS: f64 = 0.005;
/// Resistance of the path from a metal plate through its screw to a box with a fixed lug, ohms (an assumption of ours).
pub const PLATE_SCREW_OHMS: f64 = 0.05;

impl Holder {
    /// The largest lamp that is made for it, watts: above that the heat chars cap and flex. 150 W for B22, 200 W for E27 (from memory).
    pub const fn most_watts(self) -> f64 {
        match self {
            Self::Bayonet => 150.0,
            Self::Screw => 200.0,
        }
    }

    /// The contacts, in the order they are addressed.
    pub const fn terminals(self) -> [&'static str; 2] {
        match self {
            Self::Bayonet => ["1", "2"],
            Self::Screw => ["centre", "outer"],
        }
    }
}

/// The terminals of a loop-in ceiling rose (BS 67): the line that stays live, neutral, the line after the switch, earth.
pub const ROSE_TERMINALS: [&str; 4] = ["loop", "neutral", "switched", "earth"];
