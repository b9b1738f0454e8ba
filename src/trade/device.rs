//! Protective devices: when they must open, when they may, and how fast.

use serde::{Deserialize, Serialize};

/// A protective device at the board.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum DeviceKind {
    /// RCBO, 6 A, type B, 30 mA: one switched pole in the line, the neutral straight through (BS EN 61009-1).
    Rcbo6B30,
}

/// What a current does to a device.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Verdict {
    /// It stays closed.
    Holds,
    /// Inside the band of the standard: it may open.
    MayOpen,
    /// Above the band: it opens within so many seconds.
    Opens {
        /// The longest time the standard allows, seconds.
        within: f64,
    },
}

/// Longest time to open on the instantaneous release, seconds (BS EN 60898-1: less than 0.1 s).
const INSTANTANEOUS_SECONDS: f64 = 0.1;
/// Conventional time for currents in the thermal band, seconds (BS EN 60898-1: one hour up to 63 A; from memory).
const CONVENTIONAL_SECONDS: f64 = 3600.0;

impl DeviceKind {
    /// Rated current, amps.
    pub const fn rated_amps(self) -> f64 {
        match self {
            Self::Rcbo6B30 => 6.0,
        }
    }

    /// Rated residual operating current, amps.
    pub const fn residual_amps(self) -> f64 {
        match self {
            Self::Rcbo6B30 => 0.030,
        }
    }

    /// The instantaneous band as multiples of rated current: may open above the first, must at or above the second
    /// (BS EN 60898-1, type B: over 3 up to 5).
    pub const fn instantaneous_band(self) -> (f64, f64) {
        match self {
            Self::Rcbo6B30 => (3.0, 5.0),
        }
    }

    /// Largest earth fault loop impedance for instantaneous opening, ohms: 230 V x 0.95 / Ia (BS 7671 Table 41.3).
    pub fn max_loop_ohms(self) -> f64 {
        230.0 * 0.95 / (self.instantaneous_band().1 * self.rated_amps())
    }

    /// What a line current of `amps` does.
    ///
    /// Thermal band 1.13 to 1.45 of rated current (BS EN 60898-1; from memory).
    pub fn overcurrent(self, amps: f64) -> Verdict {
        let rated = self.rated_amps();
        let (lower, upper) = self.instantaneous_band();
        if amps >= upper * rated {
            Verdict::Opens { within: INSTANTANEOUS_SECONDS }
        } else if amps >= 1.45 * rated {
            Verdict::Opens { within: CONVENTIONAL_SECONDS }
        } else if amps > lower * rated || amps > 1.13 * rated {
            Verdict::MayOpen
        } else {
            Verdict::Holds
        }
    }

    /// What a difference of `amps` between line and neutral does: opens at or above the rating, within 0.3 s, 0.15 s at
    /// twice and 0.04 s at five times it; may open above half (BS EN 61009-1, general type).
    pub fn residual(self, amps: f64) -> Verdict {
        let times = amps / self.residual_amps();
        if times >= 5.0 {
            Verdict::Opens { within: 0.04 }
        } else if times >= 2.0 {
            Verdict::Opens { within: 0.15 }
        } else if times >= 1.0 {
            Verdict::Opens { within: 0.3 }
        } else if times > 0.5 {
            Verdict::MayOpen
        } else {
            Verdict::Holds
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Maximum Zs in the On-Site Guide, as quoted in trade discussion: 7.28 ohm for a 6 A type B.
    #[test]
    fn largest_loop_impedance_is_the_published_one() {
        assert!((DeviceKind::Rcbo6B30.max_loop_ohms() - 7.28).abs() < 0.005);
    }

    /// BS EN 60898 type B, published as "over 3 up to 5 times rated current".
    #[test]
    fn the_instantaneous_band_of_type_b() {
        let device = DeviceKind::Rcbo6B30;
        assert_eq!(device.overcurrent(30.0), Verdict::Opens { within: 0.1 });
        assert_eq!(device.overcurrent(29.9), Verdict::Opens { within: 3600.0 });
        assert_eq!(device.overcurrent(8.0), Verdict::MayOpen);
        assert_eq!(device.overcurrent(6.0), Verdict::Holds);
    }

    /// Product limits of a general residual current device: 300, 150 and 40 ms; at half, no trip.
    #[test]
    fn residual_times_are_the_product_limits() {
        let device = DeviceKind::Rcbo6B30;
        assert_eq!(device.residual(0.015), Verdict::Holds);
        assert_eq!(device.residual(0.020), Verdict::MayOpen);
        assert_eq!(device.residual(0.030), Verdict::Opens { within: 0.3 });
        assert_eq!(device.residual(0.060), Verdict::Opens { within: 0.15 });
        assert_eq!(device.residual(0.150), Verdict::Opens { within: 0.04 });
    }
}
