//! What surfaces and lines are painted with: roles instead of colours, thin paints, gradients.

use super::shape::Xy;
use crate::trade::colour::Colour;

/// What a surface or a line stands for. [`Paint::rgb`] gives its colour in our palette.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Paint {
    /// The ground of every scene.
    Paper,
    /// Text and strong outlines.
    Ink,
    /// Text of less weight, and thin outlines.
    QuietInk,
    /// What asks for attention: a slack terminal, a tripped device. Never the only sign of it.
    Warning,
    /// The inside of a metal back box.
    MetalBox,
    /// The inside of a plastic back box, a rose or a board.
    PlasticBox,
    /// A metal plate.
    MetalPlate,
    /// A plastic plate, a device, a tag.
    Plate,
    /// The half of a rocker that is pressed in, and other recesses.
    Recess,
    /// Brass: a terminal.
    Brass,
    /// The outline of brass.
    BrassEdge,
    /// The outer sheath of a cable.
    Sheath,
    /// The outline of a sheath.
    SheathEdge,
    /// The insulation of a core, a sleeve or tape; bare copper for [`Colour::Bare`]. Green-and-yellow is its green.
    Conductor(Colour),
    /// The outline of a core of that colour.
    ConductorEdge(Colour),
    /// The yellow of green-and-yellow.
    Stripe,
    /// Brass where light falls on it.
    BrassLight,
    /// Brass turned away from the light.
    BrassShade,
    /// Steel turned away from the light.
    SteelShade,
    /// Light on a body, laid over it thinly.
    Light,
    /// Shadow, laid over what it falls on thinly.
    Shade,
    /// A sheet of plywood.
    Plywood,
    /// Its grain and its edge.
    PlywoodGrain,
    /// Sawn timber: joists, trestles, doors.
    Timber,
    /// Its edge.
    TimberEdge,
    /// A plastered wall by day.
    Wall,
    /// A plastered wall at dusk, in a room without light.
    WallAtDusk,
    /// A wall or a floor where the section cuts through it.
    Section,
    /// The sky by day.
    Sky,
    /// The sky at dusk.
    SkyAtDusk,
    /// The ground that a house stands on.
    Ground,
    /// A wall in the light of a lamp.
    LampLight,
    /// A lamp that is lit.
    Glow,
    /// A lamp that is not.
    Glass,
}

/// A paint, and how much it hides of what lies beneath.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Tint {
    /// Which paint.
    pub paint: Paint,
    /// From 0, nothing, to 255, everything.
    pub cover: u8,
}

/// What an area is filled with. Beyond its ends a gradient goes on as it is there.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Fill {
    /// The same everywhere.
    Flat(Tint),
    /// Evenly from one point to another.
    Linear {
        /// Where it starts, and with what.
        from: (Xy, Tint),
        /// Where it stops, and with what.
        to: (Xy, Tint),
    },
    /// Evenly from a centre outwards.
    Radial {
        /// The centre, and what is there.
        centre: (Xy, Tint),
        /// As far as this from the centre.
        radius: f32,
        /// What is there and beyond.
        rim: Tint,
    },
}

impl From<Paint> for Tint {
    /// It hides everything.
    fn from(paint: Paint) -> Self {
        Self { paint, cover: u8::MAX }
    }
}

impl From<Paint> for Fill {
    /// The same everywhere, and it hides everything.
    fn from(paint: Paint) -> Self {
        Self::Flat(paint.into())
    }
}

impl Fill {
    /// What is at a point: how far it lies, from 0 to 1, on the way from one tint to another.
    pub fn at(self, point: Xy) -> (Tint, Tint, f32) {
        match self {
            Self::Flat(it) => (it, it, 0.0),
            Self::Linear { from, to } => {
                let (dx, dy) = (to.0.x - from.0.x, to.0.y - from.0.y);
                let along = (point.x - from.0.x) * dx + (point.y - from.0.y) * dy;
                (from.1, to.1, (along / (dx * dx + dy * dy).max(f32::MIN_POSITIVE)).clamp(0.0, 1.0))
            }
            Self::Radial { centre, radius, rim } => {
                let (dx, dy) = (point.x - centre.0.x, point.y - centre.0.y);
                (centre.1, rim, ((dx * dx + dy * dy).sqrt() / radius.max(f32::MIN_POSITIVE)).clamp(0.0, 1.0))
            }
        }
    }

    pub(super) fn moved(self, dx: f32, dy: f32) -> Self {
        let to = |(at, tint): (Xy, Tint)| (Xy::new(at.x + dx, at.y + dy), tint);
        match self {
            Self::Flat(_) => self,
            Self::Linear { from, to: end } => Self::Linear { from: to(from), to: to(end) },
            Self::Radial { centre, radius, rim } => Self::Radial { centre: to(centre), radius, rim },
        }
    }
}

#[cfg(test)]
mod tests {
    use super::{super::shape::whole, *};

    #[test]
    fn a_gradient_is_half_way_in_the_middle_and_goes_on_beyond_its_ends() {
        let (ink, paper) = (Tint::from(Paint::Ink), Tint::from(Paint::Paper));
        let linear = Fill::Linear { from: (Xy::new(0.0, 10.0), ink), to: (Xy::new(0.0, 30.0), paper) };
        let radial = Fill::Radial { centre: (Xy::new(5.0, 5.0), ink), radius: 10.0, rim: paper };
        let part = |fill: Fill, x: f32, y: f32| fill.at(Xy::new(x, y)).2;
        assert_eq!([0.0, 20.0, 90.0].map(|y| whole(2.0 * part(linear, 7.0, y))), [0, 1, 2]);
        assert_eq!([5.0, 10.0, 90.0].map(|x| whole(2.0 * part(radial, x, 5.0))), [0, 1, 2]);
        let none = Fill::Radial { centre: (Xy::new(5.0, 5.0), ink), radius: 0.0, rim: paper };
        assert_eq!(whole(part(none, 6.0, 5.0)), 1);
    }
}
