//! Our palette: a colour for every role of [`Paint`].
//!
//! Light, calm and printable. Text keeps at least 4.5:1 against what it stands on (WCAG 2.2, 1.4.3), outlines 3:1
//! (1.4.11); the tests hold both. The cores look like the insulation they stand for.

use super::paint::Paint;
use crate::trade::colour::Colour;

impl Paint {
    /// Red, green and blue (sRGB).
    pub const fn rgb(self) -> [u8; 3] {
        match self {
            Self::Paper => [252, 251, 247],
            Self::Ink => [31, 39, 48],
            Self::QuietInk => [78, 88, 99],
            Self::Warning => [154, 44, 12],
            Self::MetalBox => [231, 236, 240],
            Self::PlasticBox => [244, 239, 228],
            Self::MetalPlate => [214, 221, 227],
            Self::Plate => [255, 255, 255],
            Self::Recess => [188, 197, 206],
            Self::Brass => [231, 196, 108],
            Self::BrassEdge => [118, 88, 18],
            Self::BrassLight => [250, 228, 164],
            Self::BrassShade => [200, 160, 72],
            Self::SteelShade => [150, 160, 170],
            Self::Light => [255, 255, 253],
            Self::Shade => [24, 28, 36],
            Self::Plywood => [238, 220, 188],
            Self::PlywoodGrain => [214, 188, 146],
            Self::Timber => [206, 168, 118],
            Self::TimberEdge => [122, 88, 50],
            Self::Wall => [247, 244, 236],
            Self::WallAtDusk => [178, 188, 204],
            Self::Section => [112, 110, 108],
            Self::Sky => [222, 236, 247],
            Self::SkyAtDusk => [140, 154, 184],
            Self::LampLight => [255, 243, 206],
            Self::Ground => [150, 132, 104],
            Self::Sheath => [206, 211, 215],
            Self::SheathEdge => [104, 113, 122],
            Self::Stripe => [247, 212, 42],
            Self::Glow => [255, 213, 79],
            Self::Glass => [243, 246, 248],
            Self::Conductor(it) => insulation(it),
            Self::ConductorEdge(it) => edge(it),
        }
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

/// WCAG 2.2 contrast ratio of two colours.
#[cfg(test)]
pub(super) fn contrast(one: Paint, other: Paint) -> f64 {
    let luminance = |paint: Paint| {
        let [r, g, b] = paint.rgb().map(|it| {
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

    /// WCAG 2.2: black on white is 21:1 and a colour on itself 1:1; here with the nearest that the palette has.
    #[test]
    fn text_stands_out_from_every_surface_that_carries_it() {
        let by_day = [
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
        for text in [Paint::Ink, Paint::QuietInk, Paint::Warning] {
            for surface in by_day {
                assert!(contrast(text, surface) >= 4.5, "{text:?} on {surface:?}: {}", contrast(text, surface));
            }
        }
        // On walls at dusk there is strong text alone.
        for surface in [Paint::WallAtDusk, Paint::SkyAtDusk] {
            assert!(contrast(Paint::Ink, surface) >= 4.5, "{surface:?}: {}", contrast(Paint::Ink, surface));
        }
    }

    #[test]
    fn outlines_of_cores_terminals_and_sheaths_stand_out() {
        for surface in [Paint::Paper, Paint::Plate, Paint::MetalPlate, Paint::MetalBox, Paint::PlasticBox] {
            for colour in Colour::ALL {
                assert!(contrast(Paint::ConductorEdge(colour), surface) >= 3.0, "{colour:?} on {surface:?}");
            }
            assert!(contrast(Paint::BrassEdge, surface) >= 3.0 && contrast(Paint::SheathEdge, surface) >= 3.0);
        }
    }
}
