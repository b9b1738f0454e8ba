//! Test instruments: what they put on a circuit, what their scales show, and when they decline to measure.
//!
//! Figures of the standards (BS EN 61557-2, -3, -4 and -6 for installation testers, BS EN 61243-3 for two-pole
//! indicators) are from memory unless a source stands beside them: check. What a standard leaves to the maker (internal
//! resistances, the ends of scales, the spread of readings) is an assumption of ours inside the standard's limits.

mod function;
mod shown;

pub use function::{Function, LeadLength};
pub(crate) use shown::per_unit;
pub use shown::{Figure, Refusal, Shown};

use super::{cable::CableKind, supply::NOMINAL_HERTZ};

/// What a figure counts.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Unit {
    /// Ohms.
    Ohm,
    /// Megohms.
    Megohm,
    /// Volts.
    Volt,
    /// Milliseconds.
    Millisecond,
}

/// One range of a scale.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Range {
    /// Shows figures below this, in the scale's unit.
    pub below: f64,
    /// Places after the point.
    pub decimals: u8,
}

/// What a display does with a figure too small for its last place.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Least {
    /// Shows nought.
    Nought,
    /// Shows "less than" its last place.
    LessThan,
}

/// What a display can show.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Scale {
    /// What its figures count.
    pub unit: Unit,
    /// Its ranges, finest first; the instrument picks one by itself.
    pub ranges: &'static [Range],
    /// What it does at the lower end.
    pub least: Least,
}

/// How far readings of one kind stray from the truth: by at most `share` of it and `fixed` of the unit together.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spread {
    /// As a share of the reading.
    pub share: f64,
    /// In the scale's unit.
    pub fixed: f64,
}

const fn range(below: f64, decimals: u8) -> Range {
    Range { below, decimals }
}

/// The ranges of a low-resistance meter and of a loop tester: 0.01 to 1,999 (common instruments; from memory).
const TWO_THOUSAND: &[Range] = &[range(10.0, 2), range(100.0, 1), range(2000.0, 0)];

/// Continuity (BS EN 61557-4).
pub mod continuity {
    use super::{Least, Scale, Spread, TWO_THOUSAND, Unit};

    /// No-load voltage, volts d.c.: BS EN 61557-4 asks for 4 to 24 (from memory).
    pub const NO_LOAD_VOLTS: f64 = 5.0;
    /// Current into a short, amps: at least 0.2 (makers' manuals give it as the standard's figure).
    pub const SHORT_AMPS: f64 = 0.21;
    /// Its scale.
    pub const SCALE: Scale = Scale { unit: Unit::Ohm, ranges: TWO_THOUSAND, least: Least::Nought };
    /// Its spread (an assumption of ours; the standard allows 30 % in service, makers promise 2 to 3 %).
    pub const SPREAD: Spread = Spread { share: 0.01, fixed: 0.005 };
    /// Resistance of the pair of leads, ohms: about 0.1, from two thirds to four thirds of it by the pair (common
    /// practice, no source).
    pub const LEADS_OHMS: f64 = 0.1;
    /// Resistance of the long lead with the short one, ohms: 25 m of 1.5 mm² flex more (an assumption of ours).
    pub const LONG_LEAD_OHMS: f64 = LEADS_OHMS + 25.0 * 0.0133;
    /// A test link between two terminals, ohms (an assumption of ours: a hand's breadth of 1.5 mm² and two clips).
    pub const LINK_OHMS: f64 = 0.004;
}

/// Insulation resistance (BS EN 61557-2).
pub mod insulation {
    use super::{Least, Range, Scale, Spread, Unit, range};

    /// The test voltages, volts d.c.: what the wiring standard asks for up to 500 V circuits, and for extra-low voltage or
    /// once equipment is connected (trade articles on insulation testing).
    #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, serde::Serialize, serde::Deserialize)]
    pub enum TestVolts {
        /// 250 V.
        V250,
        /// 500 V.
        V500,
    }

    /// Current at which the test voltage is still reached, amps: 1 mA (a 16th edition guide; BS EN 61557-2).
    pub const NOMINAL_AMPS: f64 = 0.001;
    /// No-load voltage as a multiple of the test voltage: at most 1.25 (from memory). With the current above it fixes the
    /// internal resistance, and the current into a short (6 mA) stays under the standard's 15 mA.
    pub const NO_LOAD_TIMES: f64 = 1.2;
    /// Its spread (an assumption of ours).
    pub const SPREAD: Spread = Spread { share: 0.03, fixed: 0.0 };

    const UP_TO_199: &[Range] = &[range(10.0, 2), range(100.0, 1), range(200.0, 0)];
    const UP_TO_299: &[Range] = &[range(10.0, 2), range(100.0, 1), range(300.0, 0)];

    impl TestVolts {
        /// In volts.
        pub const fn volts(self) -> f64 {
            match self {
                Self::V250 => 250.0,
                Self::V500 => 500.0,
            }
        }

        /// No-load voltage, volts.
        pub const fn no_load_volts(self) -> f64 {
            NO_LOAD_TIMES * self.volts()
        }

        /// Resistance inside the instrument, ohms.
        pub const fn internal_ohms(self) -> f64 {
            (self.no_load_volts() - self.volts()) / NOMINAL_AMPS
        }

        /// The scale: the higher voltage sees further (tops as on common instruments; from memory).
        pub const fn scale(self) -> Scale {
            let ranges = match self {
                Self::V250 => UP_TO_199,
                Self::V500 => UP_TO_299,
            };
            Scale { unit: Unit::Megohm, ranges, least: Least::LessThan }
        }
    }
}

/// Voltage: a high-impedance meter, and a two-pole indicator.
pub mod voltage {
    use super::{Least, Range, Scale, Spread, Unit, range};

    /// Resistance of a digital meter's voltage input, ohms (about 10 Mohm: common practice, and articles on ghost volts).
    pub const METER_OHMS: f64 = 10.0e6;
    /// Its scale.
    pub const SCALE: Scale = Scale { unit: Unit::Volt, ranges: METER, least: Least::Nought };
    /// Its spread (an assumption of ours).
    pub const SPREAD: Spread = Spread { share: 0.003, fixed: 0.05 };
    /// Resistance of a two-pole indicator, ohms: it draws about 6 mA at 230 V, as a lamp indicator does. Below 0.5 Mohm
    /// ghost volts fall away (an answer on stray voltage in a trade forum); this figure is an assumption of ours.
    pub const INDICATOR_OHMS: f64 = 40.0e3;
    /// The voltages at which its lamps come on, one after the other, volts (common indicators; from memory).
    pub const INDICATOR_STEPS: &[u16] = &[12, 24, 50, 120, 230];
    /// A lamp comes on at this share of what is printed beside it (an assumption of ours; 225 V lights 230).
    pub const INDICATOR_SHARE: f64 = 0.85;
    /// What a proving unit gives, volts, and the resistance behind it, ohms (an assumption of ours: all lamps come on).
    pub const PROVING_VOLTS: f64 = 240.0;
    /// Resistance of the proving unit, ohms.
    pub const PROVING_OHMS: f64 = 2.0e3;

    const METER: &[Range] = &[range(600.0, 1)];
}

/// Loop impedance (BS EN 61557-3).
pub mod loop_impedance {
    use super::{Least, Scale, Spread, TWO_THOUSAND, Unit};
    use crate::trade::supply::NOMINAL_VOLTS;

    /// How much current the test draws.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, serde::Serialize, serde::Deserialize)]
    pub enum Range {
        /// Some amps for a cycle or so: exact, and opens a 30 mA device.
        High,
        /// Under half of 30 mA: leaves a sound 30 mA device closed.
        NoTrip,
    }

    /// Below this it declines, volts: 85 % of nominal (the standard's operating range; from memory).
    pub const LEAST_VOLTS: f64 = 0.85 * NOMINAL_VOLTS;
    /// The scale of both ranges.
    pub const SCALE: Scale = Scale { unit: Unit::Ohm, ranges: TWO_THOUSAND, least: Least::Nought };

    impl Range {
        /// The resistance it puts across the circuit, ohms: about 10 A, too short for an overcurrent device to mind, and
        /// 12 mA (usual: up to 15 mA; from memory).
        pub const fn load_ohms(self) -> f64 {
            match self {
                Self::High => 23.0,
                Self::NoTrip => NOMINAL_VOLTS / 0.012,
            }
        }

        /// The spread (an assumption of ours: a small current among the mains' own noise reads less surely).
        pub const fn spread(self) -> Spread {
            match self {
                Self::High => Spread { share: 0.02, fixed: 0.01 },
                Self::NoTrip => Spread { share: 0.03, fixed: 0.02 },
            }
        }
    }
}

/// Residual current devices (BS EN 61557-6).
pub mod rcd {
    use super::{Least, Range, Scale, Spread, Unit, range};

    /// Which multiple of the rated current.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, serde::Serialize, serde::Deserialize)]
    pub enum Test {
        /// Half: it must stay closed.
        Half,
        /// Once.
        Rated,
        /// Five times.
        FiveTimes,
    }

    /// A test that would raise what is earthed by more than this is stopped, volts (BS EN 61557-6; an instrument dealer's
    /// notes).
    pub const TOUCH_VOLTS: f64 = 50.0;
    /// The rated residual current that the test is set to, amps: the only one in house lighting.
    pub const SET_TO_AMPS: f64 = 0.030;
    /// The scale.
    pub const SCALE: Scale = Scale { unit: Unit::Millisecond, ranges: TIMES, least: Least::Nought };
    /// The spread (an assumption of ours: where in the wave the test began).
    pub const SPREAD: Spread = Spread { share: 0.05, fixed: 0.5 };

    /// At which share of its rated current a device really opens: the least and the most (BS EN 61008-1 allows 0.5 to 1;
    /// that new ones lie here is an assumption of ours).
    pub const OPENS_AT: (f64, f64) = (0.6, 0.93);
    /// How long it takes when the current is only just enough, milliseconds: the least and the most. At rated current new
    /// ones open in 15 to 60 (an assumption of ours; the limit is 300).
    pub const JUST_ENOUGH_MS: (f64, f64) = (22.0, 60.0);
    /// No mechanism is faster than this, milliseconds (an assumption of ours).
    pub const FASTEST_MS: f64 = 8.0;

    const TIMES: &[Range] = &[range(100.0, 1), range(2000.0, 0)];

    impl Test {
        /// Times the rated current.
        pub const fn times(self) -> f64 {
            match self {
                Self::Half => 0.5,
                Self::Rated => 1.0,
                Self::FiveTimes => 5.0,
            }
        }

        /// How long the current is held at most, milliseconds: 300 and 40 are the limits of a general device (BS EN 61008-1,
        /// 61009-1), and half is held for two seconds less a digit (common instruments; from memory).
        pub const fn longest_ms(self) -> u32 {
            match self {
                Self::Half => 1999,
                Self::Rated => 300,
                Self::FiveTimes => 40,
            }
        }
    }

    /// How long a device takes that needs `just_enough` milliseconds for its own operating current, at `times` that
    /// current: quicker by the root of it (an assumption of ours, inside the limits of the standard: 300, 150 and 40 ms;
    /// a root, which every processor finds alike).
    pub fn milliseconds(just_enough: f64, times: f64) -> f64 {
        (just_enough / times.max(1.0).sqrt()).max(FASTEST_MS)
    }
}

/// Continuity and insulation tests are locked out above this voltage from outside, volts (makers' manuals give 10 to 30).
pub const LOCK_OUT_VOLTS: f64 = 25.0;
/// Resistance of a multifunction tester's own voltmeter, ohms (an assumption of ours, from makers' 0.3 to 1 Mohm).
pub const TESTER_OHMS: f64 = 0.5e6;
/// A filament cold as a share of its hot resistance: about a twelfth (common practice, no source).
pub const FILAMENT_COLD: f64 = 1.0 / 12.0;
/// An LED lamp's driver under 250 or 500 V d.c., ohms: below its rectifier's threshold (continuity) it is open; at these
/// voltages it conducts and pulls the reading well under a megohm (an assumption of ours; guides say only that electronics
/// read low and may be harmed, so take them out).
pub const LED_UNDER_TEST_OHMS: f64 = 0.2e6;

/// How two cores of one cable lie to each other in the sheath.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Neighbours {
    /// Side by side, both insulated.
    Insulated,
    /// Side by side, one of them the bare cpc.
    WithBare,
    /// One other core between them.
    OneBetween,
}

impl Neighbours {
    /// How two cores of a kind lie, by their places in [`CableKind::cores`]; `None` where nothing of note joins them. In a
    /// flat cable the cpc lies between the first and second core of two, the second and third of three (BS 6004; from
    /// memory).
    pub fn of(kind: CableKind, a: usize, b: usize) -> Option<Self> {
        let count = kind.cores().len();
        let cpc = kind.cores().iter().position(|it| it.colour.is_protective());
        let insulated = count - usize::from(cpc.is_some());
        let middle = insulated.div_ceil(2);
        let place = |core: usize| match cpc {
            Some(cpc) if core == cpc => middle,
            Some(_) if core >= middle => core + 1,
            _ => core,
        };
        let bare = cpc.is_some_and(|it| it == a || it == b);
        match place(a).abs_diff(place(b)) {
            1 if bare => Some(Self::WithBare),
            1 => Some(Self::Insulated),
            2 => Some(Self::OneBetween),
            _ => None,
        }
    }

    /// Capacitance of a metre, farads. Two round wires of 1.5 mm² side by side in PVC (about 4 times vacuum's) give 80 and
    /// 110 pF by the textbook formula, and the core between screens the rest. Measured: 69 pF between the cores of a North
    /// American twin cable with its bare conductor left floating (a hobby magazine's article on capacitance), which is
    /// [`Self::OneBetween`] beside two of [`Self::WithBare`] in series: 20 and 100 pF.
    pub const fn farads_per_metre(self) -> f64 {
        match self {
            Self::Insulated => 80.0e-12,
            Self::WithBare => 100.0e-12,
            Self::OneBetween => 20.0e-12,
        }
    }

    /// Reactance of a metre at mains frequency, ohms: 32 Mohm for 100 pF.
    pub fn reactance_ohm_metres(self) -> f64 {
        1.0 / (2.0 * std::f64::consts::PI * NOMINAL_HERTZ * self.farads_per_metre())
    }

    /// Insulation of a metre, ohms: 5 Gohm for one layer of new PVC, so that a circuit of 20 m reads hundreds of megohms as
    /// new wiring does (a trade article on insulation testing; the figure is an assumption of ours). `None`: only by way of
    /// the core between.
    pub const fn insulation_ohm_metres(self) -> Option<f64> {
        match self {
            Self::Insulated => Some(10.0e9),
            Self::WithBare => Some(5.0e9),
            Self::OneBetween => None,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 21 pF a foot between the cores of a twin cable whose bare conductor floats, measured on a 250 ft roll (5.26 nF) in a
    /// hobby magazine: 69 pF a metre.
    #[test]
    fn a_twin_cable_has_the_measured_capacitance() {
        let direct = Neighbours::of(CableKind::TwinEarth, 0, 1).unwrap().farads_per_metre();
        let through_cpc = Neighbours::of(CableKind::TwinEarth, 0, 2).unwrap().farads_per_metre() / 2.0;
        let measured = 5.26e-9 / (250.0 * 0.3048);
        assert!(((direct + through_cpc) / measured - 1.0).abs() < 0.05);
    }

    /// BS EN 61557-4: 4 to 24 V, at least 0.2 A; BS EN 61557-2: at most 15 mA into a short (from memory).
    #[test]
    fn sources_keep_inside_their_standards() {
        const { assert!(continuity::NO_LOAD_VOLTS >= 4.0 && continuity::NO_LOAD_VOLTS <= 24.0) }
        const { assert!(continuity::SHORT_AMPS >= 0.2) }
        for it in [insulation::TestVolts::V250, insulation::TestVolts::V500] {
            assert!(it.no_load_volts() / it.internal_ohms() <= 0.015);
            // At 1 mA, which is 0.25 and 0.5 Mohm, the nominal voltage stands across the circuit.
            let ohms = it.volts() / 0.001;
            assert!((it.no_load_volts() * ohms / (ohms + it.internal_ohms()) - it.volts()).abs() < 1e-9);
        }
    }

    /// 40 ms at five times and 300 at once (product limits of a general device), for the slowest and least willing.
    #[test]
    fn the_slowest_device_is_inside_the_product_limits() {
        let (_, slowest) = rcd::JUST_ENOUGH_MS;
        for share in [rcd::OPENS_AT.0, rcd::OPENS_AT.1] {
            assert!(rcd::milliseconds(slowest, 1.0 / share) < 300.0);
            assert!(rcd::milliseconds(slowest, 2.0 / share) < 150.0);
            assert!(rcd::milliseconds(slowest, 5.0 / share) < 40.0);
        }
    }

    /// Flat three-core: brown, black, cpc, grey in that order across the sheath.
    #[test]
    fn the_cpc_lies_between_black_and_grey() {
        let of = |a, b| Neighbours::of(CableKind::ThreeCoreEarth, a, b);
        assert_eq!(of(0, 1), Some(Neighbours::Insulated));
        assert_eq!([of(1, 3), of(3, 2)], [Some(Neighbours::WithBare); 2]);
        assert_eq!([of(1, 2), of(0, 3)], [Some(Neighbours::OneBetween); 2]);
        assert_eq!(of(0, 2), None);
        assert_eq!(Neighbours::of(CableKind::PendantFlex, 0, 1), Some(Neighbours::Insulated));
    }
}
