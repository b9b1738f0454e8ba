//! What a way comes to, seen from the light.

use super::knot::WayOutcome;

/// What a way of joining does. Every way is of exactly one class: of those that fit, the first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum WayClass {
    /// Every toggle of every switch changes the lamp, and nothing in it is a danger that the model knows.
    Safe,
    /// Every toggle changes the lamp, and something in it is a danger.
    Unsafe,
    /// In some position something that can be touched is energised: bare copper, or the holder of a lamp that is out.
    ShockHazard,
    /// In some position line and neutral meet, and the device opens.
    Trips,
    /// The lamp is lit in every position.
    AlwaysOn,
    /// It is out in every position.
    AlwaysOff,
    /// Of two switches the first works it, the second does nothing.
    OnlyFirst,
    /// The second works it, the first does nothing.
    OnlySecond,
    /// With two switches it is lit in one position of the four.
    LitInOne,
    /// It is out in one position of the four.
    DarkInOne,
    /// Of more switches it minds this number, and there are others that do nothing.
    DependsOn(u8),
    /// Every switch matters to it, but not at every toggle.
    Other,
}

impl WayClass {
    /// Whether every toggle of every switch changes the lamp.
    pub const fn works(self) -> bool {
        matches!(self, Self::Safe | Self::Unsafe)
    }

    /// Its name in files.
    pub fn word(self) -> String {
        let word = match self {
            Self::Safe => "works-safe",
            Self::Unsafe => "works-unsafe",
            Self::ShockHazard => "shock-hazard",
            Self::Trips => "trips",
            Self::AlwaysOn => "always-on",
            Self::AlwaysOff => "always-off",
            Self::OnlyFirst => "only-first",
            Self::OnlySecond => "only-second",
            Self::LitInOne => "lit-in-one",
            Self::DarkInOne => "dark-in-one",
            Self::DependsOn(count) => return format!("depends-on-{count}"),
            Self::Other => "other",
        };
        word.to_owned()
    }
}

/// What is known of a way when all its positions have been gone through.
pub(super) struct Facts<'a> {
    /// Every outcome that some position has, with whether that position is odd: an odd number of switches in their second position.
    pub reached: &'a [(bool, WayOutcome)],
    /// For each switch whether some toggle of it changes the lamp.
    pub matters: &'a [bool],
    /// Whether a place has no earth: its earth wire does the work of a core.
    pub unearthed: bool,
}

impl Facts<'_> {
    /// The class.
    pub fn class(&self) -> WayClass {
        let reached = self.reached;
        let any = |is: &dyn Fn(&(bool, WayOutcome)) -> bool| reached.iter().any(is);
        let trips = any(&|it| it.1.trips);
        let shocks = any(&|it| it.1.shocks);
        // Lit by the parity of the positions, or by the opposite.
        let follows = |odd: bool| reached.iter().all(|it| it.1.lit == (it.0 == odd));
        if !trips && (follows(true) || follows(false)) {
            // A single-pole switch must not part the lamp from its neutral.
            let switched = any(&|it| it.1.on_neutral != reached[0].1.on_neutral);
            return if shocks || switched || self.unearthed { WayClass::Unsafe } else { WayClass::Safe };
        }
        if shocks {
            return WayClass::ShockHazard;
        }
        if trips {
            return WayClass::Trips;
        }
        match self.matters {
            [false, false] | [false] => {}
            [true, false] => return WayClass::OnlyFirst,
            [false, true] => return WayClass::OnlySecond,
            // Both matter and it does not follow the parity: one position differs from the three others. Those three have both parities, the
            // one has one.
            [true, true] => {
                let lit_in = [false, true].map(|odd| any(&|it| it.0 == odd && it.1.lit));
                return if lit_in == [true, true] { WayClass::DarkInOne } else { WayClass::LitInOne };
            }
            more => {
                let count = more.iter().filter(|it| **it).count();
                if count == more.len() {
                    return WayClass::Other;
                } else if count > 0 {
                    return WayClass::DependsOn(count as u8);
                }
            }
        }
        if reached.iter().all(|it| it.1.lit) { WayClass::AlwaysOn } else { WayClass::AlwaysOff }
    }
}
