//! Our palettes: a colour for every role of [`Paint`].
//!
//! Calm and printable by day; dark in the evening; as far apart as can be for a projector. Text keeps at least 4.5:1 against what it stands
//! on (WCAG 2.2, 1.4.3), 7:1 on a projector (1.4.6), outlines 3:1 (1.4.11); the tests hold all of it. The cores look like the insulation they
//! stand for, and so do brass, copper and yellow stripes, in every palette: only the outline of a core follows the ground that it lies on.

use serde::{Deserialize, Serialize};

use super::paint::Paint;
use crate::trade::colour::Colour;

/// Which colours a drawing has. It has nothing to do with the dusk of a house, which every palette has.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default, Serialize, Deserialize)]
pub enum Palette {
    /// Light, as on paper.
    #[default]
    Day,
    /// Dark.
    Evening,
    /// Black on white, for a screen far away or washed out.
    Projector,
}

impl Palette {
    /// All of them.
    pub const ALL: [Self; 3] = [Self::Day, Self::Evening, Self::Projector];

    /// Red, green and blue (sRGB) of a role.
    pub const fn rgb(self, paint: Paint) -> [u8; 3] {
        match self {
            Self::Day => by_day(paint),
            Self::Evening => in_the_evening(paint),
            Self::Projector => on_a_projector(paint),
        }
    }
}

impl Paint {
    /// Red, green and blue (sRGB) by day, as pages have it.
    pub const fn rgb(self) -> [u8; 3] {
        Palette::Day.rgb(self)
    }
}

const fn by_day(paint: Paint) -> [u8; 3] {
    match paint {
        Paint::Paper => [252, 251, 247],
        Paint::Ink => [31, 39, 48],
        Paint::QuietInk => [78, 88, 99],
        Paint::Warning => [154, 44, 12],
        Paint::MetalBox => [231, 236, 240],
        Paint::PlasticBox => [244, 239, 228],
        Paint::MetalPlate => [214, 221, 227],
        Paint::Plate => [255, 255, 255],
        Paint::Recess => [188, 197, 206],
        Paint::Brass => [231, 196, 108],
        Paint::BrassEdge => [118, 88, 18],
        Paint::BrassLight => [250, 228, 164],
        Paint::BrassShade => [200, 160, 72],
        Paint::SteelShade => [150, 160, 170],
        Paint::Light => [255, 255, 253],
        Paint::Shade => [24, 28, 36],
        Paint::Plywood => [238, 220, 188],
        Paint::PlywoodGrain => [214, 188, 146],
        Paint::Timber => [206, 168, 118],
        Paint::TimberEdge => [122, 88, 50],
        Paint::Wall => [247, 244, 236],
        Paint::WallAtDusk => [178, 188, 204],
        Paint::Section => [112, 110, 108],
        Paint::Sky => [222, 236, 247],
        Paint::SkyAtDusk => [140, 154, 184],
        Paint::LampLight => [255, 243, 206],
        Paint::Ground => [150, 132, 104],
        Paint::Sheath => [206, 211, 215],
        Paint::SheathEdge => [104, 113, 122],
        Paint::Stripe => [247, 212, 42],
        Paint::Glow => [255, 213, 79],
        Paint::Glass => [243, 246, 248],
        Paint::Conductor(it) => insulation(it),
        Paint::ConductorEdge(it) => edge(it),
    }
}

const fn in_the_evening(paint: Paint) -> [u8; 3] {
    match paint {
        Paint::Paper => [30, 34, 40],
        Paint::Ink => [236, 239, 243],
        Paint::QuietInk => [186, 195, 205],
        Paint::Warning => [255, 168, 132],
        Paint::MetalBox => [52, 58, 66],
        Paint::PlasticBox => [58, 56, 52],
        Paint::MetalPlate => [66, 73, 82],
        Paint::Plate => [58, 65, 74],
        Paint::Recess => [36, 41, 48],
        Paint::SteelShade => [108, 117, 127],
        Paint::Light => [172, 180, 190],
        Paint::Shade => [8, 10, 14],
        Paint::Plywood => [84, 68, 48],
        Paint::PlywoodGrain => [70, 55, 37],
        Paint::Timber => [118, 92, 60],
        Paint::TimberEdge => [56, 42, 26],
        Paint::Wall => [60, 62, 68],
        Paint::WallAtDusk => [44, 52, 70],
        Paint::Section => [134, 136, 140],
        Paint::Sky => [40, 52, 70],
        Paint::SkyAtDusk => [30, 38, 62],
        Paint::LampLight => [88, 70, 30],
        Paint::Ground => [72, 62, 48],
        Paint::Sheath => [150, 156, 162],
        Paint::SheathEdge => [202, 208, 214],
        Paint::Glass => [68, 74, 82],
        Paint::ConductorEdge(it) => edge_on_dark(it),
        Paint::Brass
        | Paint::BrassEdge
        | Paint::BrassLight
        | Paint::BrassShade
        | Paint::Stripe
        | Paint::Glow
        | Paint::Conductor(_) => by_day(paint),
    }
}

const fn on_a_projector(paint: Paint) -> [u8; 3] {
    match paint {
        Paint::Paper => [255, 255, 255],
        Paint::Ink => [0, 0, 0],
        Paint::QuietInk => [44, 50, 56],
        Paint::Warning => [128, 18, 0],
        Paint::MetalBox => [232, 238, 243],
        Paint::PlasticBox => [250, 245, 233],
        Paint::Recess => [160, 172, 184],
        Paint::BrassEdge => [80, 56, 0],
        Paint::SteelShade => [120, 130, 140],
        Paint::Plywood => [244, 229, 200],
        Paint::TimberEdge => [82, 56, 28],
        Paint::Wall => [255, 254, 248],
        Paint::WallAtDusk => [164, 178, 200],
        Paint::Section => [60, 60, 60],
        Paint::SkyAtDusk => [150, 166, 196],
        Paint::SheathEdge => [60, 68, 76],
        _ => by_day(paint),
    }
}

const fn insulation(colour: Colour) -> [u8; 3] {
    match colour {
        Colour::Brown => [128, 72, 34],
        Colour::Blue => [34, 104, 190],
        Colour::Black => [34, 37, 42],
        Colour::Grey => [138, 146, 155],
        Colour::Red => [200, 44, 40],
        Colour::Yellow => [242, 203, 42],
        Colour::GreenYellow => [38, 138, 66],
        Colour::Bare => [209, 133, 78],
    }
}

const fn edge(colour: Colour) -> [u8; 3] {
    match colour {
        Colour::Brown => [78, 41, 16],
        Colour::Blue => [16, 60, 118],
        Colour::Black => [12, 14, 17],
        Colour::Grey => [74, 81, 89],
        Colour::Red => [128, 20, 18],
        Colour::Yellow => [120, 94, 8],
        Colour::GreenYellow => [18, 84, 38],
        Colour::Bare => [122, 66, 26],
    }
}

/// A dark core on a dark ground is seen by its light outline, which is nearly grey: brown must not come out like copper.
const fn edge_on_dark(colour: Colour) -> [u8; 3] {
    match colour {
        Colour::Brown => [188, 170, 158],
        Colour::Blue => [160, 184, 216],
        Colour::Black => [190, 196, 204],
        Colour::Grey => [214, 220, 226],
        Colour::Red => [226, 164, 158],
        Colour::Yellow => [250, 226, 120],
        Colour::GreenYellow => [152, 200, 166],
        Colour::Bare => [240, 192, 154],
    }
}

/// WCAG 2.2 contrast ratio of two colours, red, green and blue (sRGB): from 1, the same, to 21, black on white.
pub fn contrast(one: [u8; 3], other: [u8; 3]) -> f64 {
    let luminance = |rgb: [u8; 3]| {
        let [r, g, b] = rgb.map(|it| {
            let it = f64::from(it) / 255.0;
            if it <= 0.04045 { it / 12.92 } else { ((it + 0.055) / 1.055).powf(2.4) }
        });
        0.2126 * r + 0.7152 * g + 0.0722 * b
    };
    let (a, b) = (luminance(one), luminance(other));
    (a.max(b) + 0.05) / (a.min(b) + 0.05)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// What may carry text of any weight.
    const SURFACES: [Paint; 10] = [
        Paint::Paper,
        Paint::Plate,
        Paint::MetalPlate,
        Paint::MetalBox,
        Paint::PlasticBox,
        Paint::Glass,
        Paint::Plywood,
        Paint::Wall,
        Paint::Sky,
        Paint::LampLight,
    ];

    /// WCAG 2.2's own ends, and a pair from its understanding document: grey `#777777` on white fails 4.5:1 by a hair, at 4.48.
    #[test]
    fn contrast_is_that_of_wcag() {
        assert!((contrast([0; 3], [255; 3]) - 21.0).abs() < 1e-9);
        assert!((contrast([9, 90, 200], [9, 90, 200]) - 1.0).abs() < 1e-9);
        assert!((contrast([0x77; 3], [255; 3]) - 4.48).abs() < 0.005);
    }

    #[test]
    fn text_stands_out_from_every_surface_that_carries_it() {
        for palette in Palette::ALL {
            let least = if palette == Palette::Projector { 7.0 } else { 4.5 };
            let holds = |text: Paint, surface: Paint| {
                let found = contrast(palette.rgb(text), palette.rgb(surface));
                assert!(found >= least, "{palette:?}: {text:?} on {surface:?}: {found}");
            };
            for text in [Paint::Ink, Paint::QuietInk, Paint::Warning] {
                for surface in SURFACES {
                    holds(text, surface);
                }
            }
            // On walls at dusk there is strong text alone.
            for surface in [Paint::WallAtDusk, Paint::SkyAtDusk] {
                holds(Paint::Ink, surface);
            }
        }
    }

    /// By their outline or, where that is dark on dark, by their body.
    #[test]
    fn cores_terminals_and_sheaths_stand_out() {
        for palette in Palette::ALL {
            for surface in [Paint::Paper, Paint::Plate, Paint::MetalPlate, Paint::MetalBox, Paint::PlasticBox] {
                let stands_out = |parts: [Paint; 2]| {
                    let found = parts.map(|it| contrast(palette.rgb(it), palette.rgb(surface)));
                    assert!(found.iter().any(|it| *it >= 3.0), "{palette:?}: {parts:?} on {surface:?}: {found:?}");
                };
                for colour in Colour::ALL {
                    stands_out([Paint::ConductorEdge(colour), Paint::ConductorEdge(colour)]);
                }
                stands_out([Paint::BrassEdge, Paint::Brass]);
                stands_out([Paint::SheathEdge, Paint::SheathEdge]);
            }
        }
    }

    /// A colour of insulation means a conductor, and is the same whatever is about it.
    #[test]
    fn conductors_have_their_own_colours_in_every_palette() {
        for palette in Palette::ALL {
            for colour in Colour::ALL {
                assert_eq!(palette.rgb(Paint::Conductor(colour)), Paint::Conductor(colour).rgb());
            }
            assert_eq!(palette.rgb(Paint::Stripe), Paint::Stripe.rgb());
        }
    }

    /// Dusk, daylight and lamplight are told apart on a dark screen too.
    #[test]
    fn a_house_has_its_dusk_in_every_palette() {
        for palette in Palette::ALL {
            let [wall, dusk, lit] = [Paint::Wall, Paint::WallAtDusk, Paint::LampLight].map(|it| palette.rgb(it));
            assert!(wall != dusk && dusk != lit && contrast(dusk, lit) > 1.2, "{palette:?}");
        }
    }
}
