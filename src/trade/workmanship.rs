//! Figures of handwork: how a conductor is prepared for its terminal, and what room a box has.
//!
//! The sources are few: strip lengths of 8 to 10 mm for plates are common practice (one maker's sheet says 10 mm), and the
//! rest is what each line says.

use serde::Deserialize;

/// How a terminal holds a conductor.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Deserialize)]
pub enum Clamp {
    /// A hole and a screw that presses on the conductor.
    Pillar,
    /// A screw that draws a cage shut round it.
    Cage,
    /// A spring that a lever opens.
    Lever,
    /// A spring that the bare conductor pushes aside.
    PushIn,
}

/// What a terminal asks of the end that goes in.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Hold {
    /// How far in a conductor goes, mm.
    pub depth_mm: f64,
    /// How it is held.
    pub clamp: Clamp,
    /// A single conductor up to this size is folded back on itself, mm²; 0: the terminal's data ask for no fold.
    pub fold_mm2: f64,
}

impl Hold {
    /// Of a hole with a screw, so deep, that asks for no fold.
    pub const fn pillar(depth_mm: f64) -> Self {
        Self { depth_mm, clamp: Clamp::Pillar, fold_mm2: 0.0 }
    }

    /// The least bare length that must be inside, mm: all but the last 2 mm of the depth, so that the screw or the spring
    /// is on copper (an assumption of ours; it admits the 8 mm of common practice in every plate).
    pub fn least_mm(&self) -> f64 {
        self.depth_mm - 2.0
    }

    /// Less than this inside, and a pull brings it out, mm: half the depth, where the screw stands (an assumption of ours).
    pub fn grip_mm(&self) -> f64 {
        self.depth_mm / 2.0
    }
}

/// Bare copper outside that cannot be told from the mouth of the terminal, mm (an assumption of ours).
pub const UNSEEN_MM: f64 = 1.0;
/// What hangs out of the wall or the ceiling at a new cable's end, mm: 150 to 200 is common practice, no source.
pub const HANGING_MM: u16 = 200;
/// Sheath that must be left inside the enclosure, mm (about 10, common practice, no source).
pub const SHEATH_INSIDE_MM: u16 = 10;
/// Core from the sheath to the earth terminal or a connector in a box, mm (an assumption of ours).
pub const REACH_IN_BOX_MM: u16 = 60;
/// Core from the sheath to a plate of one gang held clear of its box, mm (100 to 120 is common practice, no source).
pub const REACH_PLATE_MM: u16 = 100;
/// The same, for each further gang, mm (an assumption of ours).
pub const REACH_GANG_MM: u16 = 10;
/// Core from the sheath to a terminal of a rose, a fan, a junction box or a lampholder, mm (an assumption of ours).
pub const REACH_FITTING_MM: u16 = 40;
/// Core from the sheath to a device's terminal, mm (an assumption of ours).
pub const REACH_BOARD_MM: u16 = 150;
/// Core that a good hand leaves beyond what reaches, so that the end can be made off once more, mm (an assumption of ours, within the 100 to 120
/// of a plate).
pub const SPARE_MM: u16 = 20;
/// Depth of a back box of which nothing is said, mm: a usual one for a plate in this trade.
pub const USUAL_BOX_MM: f64 = 35.0;
/// Millimetres of core that go behind a plate without being laid, for each millimetre of the box's depth (an assumption of
/// ours: five cores of 120 mm fold behind a plate in a 35 mm box by themselves, seven don't).
pub const CORE_PER_DEPTH: f64 = 20.0;
/// Two conductors under one screw, one more than this multiple of the other: the screw rests on the thicker (an assumption
/// of ours; 0.75 mm² flex beside 1.5 mm² in a rose, which is everyday work, is just within).
pub const UNLIKE: f64 = 2.0;
/// Cutting away so much core takes with it what the plate has damaged, mm (an assumption of ours).
pub const DAMAGED_MM: u16 = 30;
/// Watts in one terminal above which it gets hot: an assumption of ours (a sound joint of 1 milliohm makes 0.04 W at 6 A).
pub const HOT_WATTS: f64 = 1.0;
/// Resistance added where insulation is under the screw, for all of the length that should be bare, ohms (an assumption of ours).
pub const COVERED_OHMS: f64 = 2.0;
/// Resistance added where the screw rests on a thicker neighbour, ohms (an assumption of ours).
pub const UNLIKE_OHMS: f64 = 0.2;
/// Resistance added by a crushed conductor, ohms (an assumption of ours; a real one breaks later).
pub const CRUSHED_OHMS: f64 = 0.05;
/// Resistance added by a nick, ohms (an assumption of ours).
pub const NICKED_OHMS: f64 = 0.001;
/// Resistance from a conductor caught behind a plate to the metal box, ohms. A fault that waits rather than a dead short: its
/// insulation is cut into, not through, so that the insulation test finds it (limit 1 megohm) and no device opens (an
/// assumption of ours).
pub const TRAPPED_OHMS: f64 = 100_000.0;
