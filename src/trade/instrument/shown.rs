//! What is on an instrument's display.

use super::Unit;

/// What a display shows, in counts of its last place. Compares and prints exactly.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Figure {
    /// Counts of the last place.
    pub counts: i64,
    /// Places after the point.
    pub decimals: u8,
    /// What it counts.
    pub unit: Unit,
}

impl Figure {
    /// The figure as a number, in its unit.
    pub fn value(self) -> f64 {
        self.counts as f64 / per_unit(self.decimals)
    }

    /// One count of the last place, in its unit.
    pub fn resolution(self) -> f64 {
        1.0 / per_unit(self.decimals)
    }
}

/// Counts in one of the unit.
pub(crate) fn per_unit(decimals: u8) -> f64 {
    (0..decimals).fold(1.0, |so_far, _| 10.0 * so_far)
}

/// What an instrument shows.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Shown {
    /// A figure.
    Figure(Figure),
    /// Over range: more than the last figure of the scale. Of a residual current test: nothing opened in that time.
    Over(Figure),
    /// Under range: less than the least figure.
    Under(Figure),
    /// An indicator's lamps up to this voltage, or none.
    Lights(Option<u16>),
    /// No figure.
    Refused(Refusal),
}

/// Why there is no figure.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Refusal {
    /// A dead test on something energised: locked out.
    Energised,
    /// A live test where there is no supply between the points, or none to speak of.
    NoSupply,
    /// The test would raise what is earthed above the touch voltage, or can't drive its current at all.
    TouchVoltage,
    /// The supply went away in the middle: a device opened.
    Tripped,
    /// Its battery is flat.
    FlatBattery,
}
