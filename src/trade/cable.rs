//! Cables: their cores, the cross-sections they are made in, and the resistance of a core.

use serde::{Deserialize, Deserializer, Serialize, Serializer, de::Error as _};

use super::colour::{Colour, Era};

/// A kind of cable. Cores are listed by [`CableKind::cores`].
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum CableKind {
    /// Flat twin and earth (BS 6004): brown, blue, bare cpc.
    TwinEarth,
    /// Flat twin and earth made for switch drops: two browns, bare cpc.
    TwinBrownEarth,
    /// Flat three-core and earth: brown, black, grey, bare cpc.
    ThreeCoreEarth,
    /// Twin and earth of before 2004: red, black, bare cpc.
    OldTwinEarth,
    /// Switch-drop cable of before 2004: two reds, bare cpc.
    OldTwinRedEarth,
    /// Three-core and earth of before 2004: red, yellow, blue, bare cpc.
    OldThreeCoreEarth,
    /// Two-core flexible cord of a pendant with no exposed metal: brown, blue.
    PendantFlex,
}

/// A conductor's cross-section in hundredths of a square millimetre, so that sizes compare exactly.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct CrossSection(u16);

/// One core of a cable kind.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Core {
    /// Its name in addresses: the colour, `cpc` for the bare one, a number where a colour comes twice.
    pub name: &'static str,
    /// Its colour.
    pub colour: Colour,
}

const fn core(name: &'static str, colour: Colour) -> Core {
    Core { name, colour }
}

const CPC: Core = core("cpc", Colour::Bare);
const BROWN: Core = core("brown", Colour::Brown);
const BLUE: Core = core("blue", Colour::Blue);
const RED: Core = core("red", Colour::Red);
const BLACK: Core = core("black", Colour::Black);
const TWIN_BROWN: [Core; 3] = [core("brown1", Colour::Brown), core("brown2", Colour::Brown), CPC];
const THREE_CORE: [Core; 4] = [BROWN, BLACK, core("grey", Colour::Grey), CPC];
const TWIN_RED: [Core; 3] = [core("red1", Colour::Red), core("red2", Colour::Red), CPC];
const OLD_THREE_CORE: [Core; 4] = [RED, core("yellow", Colour::Yellow), BLUE, CPC];

/// Conductor resistance at 20 °C, milliohms a metre: the maximum of BS EN 60228 class 1 and 2 for each size; a real
/// reel reads slightly lower. 0.75 mm² is the class 5 (flexible) figure, from memory.
const MILLIOHMS_PER_METRE: [(CrossSection, f64); 8] = [
    (CrossSection(75), 26.0),
    (CrossSection(100), 18.10),
    (CrossSection(150), 12.10),
    (CrossSection(250), 7.41),
    (CrossSection(400), 4.61),
    (CrossSection(600), 3.08),
    (CrossSection(1000), 1.83),
    (CrossSection(1600), 1.15),
];

impl CrossSection {
    /// A size of the tables, in hundredths of a square millimetre.
    pub(super) const fn hundredths(of: u16) -> Self {
        Self(of)
    }

    /// The size nearest to `mm2`, if the tables have it.
    pub fn from_mm2(mm2: f64) -> Option<Self> {
        MILLIOHMS_PER_METRE.iter().map(|(it, _)| *it).find(|it| (it.mm2() - mm2).abs() < 1e-6)
    }

    /// Every size of the tables, the thinnest first.
    pub fn all() -> impl Iterator<Item = Self> {
        MILLIOHMS_PER_METRE.iter().map(|it| it.0)
    }

    /// The size in square millimetres.
    pub fn mm2(self) -> f64 {
        f64::from(self.0) / 100.0
    }

    /// Resistance of one metre at 20 °C, ohms (BS EN 60228).
    pub fn ohms_per_metre(self) -> f64 {
        MILLIOHMS_PER_METRE
            .iter()
            .find(|(it, _)| *it == self)
            .map_or(f64::INFINITY, |(_, milliohms)| milliohms / 1000.0)
    }
}

/// In a file it is its number of square millimetres.
impl Serialize for CrossSection {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_f64(self.mm2())
    }
}

impl<'de> Deserialize<'de> for CrossSection {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let mm2 = f64::deserialize(deserializer)?;
        Self::from_mm2(mm2).ok_or_else(|| D::Error::custom(format!("no cable is made in {mm2} mm²")))
    }
}

/// The usual size of lighting cable: 1.5 mm².
pub const LIGHTING: CrossSection = CrossSection(150);

/// Resistance of copper at `celsius` relative to 20 °C: 1 + 0.004 (T - 20), the factor behind the multipliers of the
/// wiring guides (1.20 at 70 °C).
pub fn temperature_factor(celsius: f64) -> f64 {
    1.0 + 0.004 * (celsius - 20.0)
}

impl CableKind {
    /// Every kind, in the order of the declaration.
    pub const ALL: [Self; 7] = [
        Self::TwinEarth,
        Self::TwinBrownEarth,
        Self::ThreeCoreEarth,
        Self::OldTwinEarth,
        Self::OldTwinRedEarth,
        Self::OldThreeCoreEarth,
        Self::PendantFlex,
    ];

    /// The cores, in the order they lie in the sheath; the cpc last.
    pub const fn cores(self) -> &'static [Core] {
        match self {
            Self::TwinEarth => &[BROWN, BLUE, CPC],
            Self::TwinBrownEarth => &TWIN_BROWN,
            Self::ThreeCoreEarth => &THREE_CORE,
            Self::OldTwinEarth => &[RED, BLACK, CPC],
            Self::OldTwinRedEarth => &TWIN_RED,
            Self::OldThreeCoreEarth => &OLD_THREE_CORE,
            Self::PendantFlex => &[BROWN, BLUE],
        }
    }

    /// How many of its cores are insulated, and so may carry line or neutral.
    pub fn insulated(self) -> usize {
        self.cores().iter().filter(|it| it.colour != Colour::Bare).count()
    }

    /// Whether it is what is bought for fixed wiring today: flat, with a cpc, in the colours of now.
    pub fn is_fixed_wiring(self) -> bool {
        self.era() == Era::Harmonised && self.cores().iter().any(|it| it.colour.is_protective())
    }

    /// Which set of colours it was made to.
    pub const fn era(self) -> Era {
        match self {
            Self::OldTwinEarth | Self::OldTwinRedEarth | Self::OldThreeCoreEarth => Era::Before2004,
            _ => Era::Harmonised,
        }
    }

    /// The sizes it is made in: live cores, and the cpc that goes with each (BS 6004; 1.0/1.0 from memory). A flex has
    /// no cpc and repeats its live size.
    pub const fn sizes(self) -> &'static [(CrossSection, CrossSection)] {
        const SMALL: (CrossSection, CrossSection) = (CrossSection(100), CrossSection(100));
        const USUAL: (CrossSection, CrossSection) = (LIGHTING, CrossSection(100));
        match self {
            Self::PendantFlex => &[(CrossSection(75), CrossSection(75)), SMALL],
            Self::TwinEarth | Self::OldTwinEarth => &[SMALL, USUAL, (CrossSection(250), CrossSection(150))],
            _ => &[SMALL, USUAL],
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn r1_plus_r2(line: f64, cpc: f64) -> f64 {
        [line, cpc].iter().filter_map(|it| CrossSection::from_mm2(*it)).map(CrossSection::ohms_per_metre).sum()
    }

    /// Locke, Guide to the Wiring Regulations (Wiley 2008), Appendix 4: R1+R2 in milliohms a metre at 20 °C.
    #[test]
    fn resistance_of_line_and_cpc_is_the_published_sum() {
        for (line, cpc, milliohms) in [
            (1.5, 1.0, 30.20),
            (1.5, 1.5, 24.20),
            (2.5, 1.5, 19.51),
            (4.0, 1.5, 16.71),
            (6.0, 2.5, 10.49),
            (10.0, 4.0, 6.44),
        ] {
            assert!((r1_plus_r2(line, cpc) * 1000.0 - milliohms).abs() < 0.005, "{line}/{cpc}");
        }
    }

    /// The same book works 50 m of 1.5/1.0 to 1.51 ohm.
    #[test]
    fn fifty_metres_of_1_5_with_1_0_is_the_worked_example() {
        assert!((50.0 * r1_plus_r2(1.5, 1.0) - 1.51).abs() < 0.005);
    }

    /// The multiplier for 70 °C thermoplastic in the wiring guides is 1.20.
    #[test]
    fn hot_copper_is_a_fifth_more() {
        assert!((temperature_factor(70.0) - 1.20).abs() < 1e-12);
        assert!((temperature_factor(20.0) - 1.0).abs() < 1e-12);
    }

    #[test]
    fn every_size_of_every_kind_has_a_resistance() {
        for kind in CableKind::ALL {
            assert!(!kind.sizes().is_empty());
            for (live, cpc) in kind.sizes() {
                assert!(live.ohms_per_metre().is_finite() && cpc.ohms_per_metre().is_finite());
            }
        }
    }
}
