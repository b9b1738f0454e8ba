//! A figure as the learner writes it, and whether it is the one that was shown.

use crate::trade::instrument::{Shown, Unit};

/// Most characters in a figure.
const MOST_CHARS: usize = 12;
/// A figure may stray from what was shown by this and [`SHARE`] of it, ohms (the charter of marking: 0.03 ohm plus 5 %).
const OHMS: f64 = 0.03;
/// The share that is added to [`OHMS`].
const SHARE: f64 = 0.05;
/// `>200` is true of anything above 200: the sign may stand before a value from this share of what was shown.
const OFF_SCALE: f64 = 0.5;

/// A figure as written.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Written {
    /// What stands before it.
    pub sign: Sign,
    /// The number, in the unit of its test.
    pub value: f64,
}

/// What stands before a figure.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Sign {
    /// Nothing.
    None,
    /// `>`: more than the scale has.
    Over,
    /// `<`: less than the scale has.
    Under,
}

impl Written {
    /// Reads `0.43`, `>299` or `< 0.01`: digits with at most one point among them. `None` for anything else.
    pub fn read(text: &str) -> Option<Self> {
        let text = text.trim();
        if text.len() > MOST_CHARS {
            return None;
        }
        let (sign, digits) = match text.as_bytes().first()? {
            b'>' => (Sign::Over, text[1..].trim_start()),
            b'<' => (Sign::Under, text[1..].trim_start()),
            _ => (Sign::None, text),
        };
        let plain = digits.bytes().all(|it| it.is_ascii_digit() || it == b'.');
        if !plain || !digits.bytes().any(|it| it.is_ascii_digit()) {
            return None;
        }
        digits.parse().ok().map(|value| Self { sign, value })
    }

    /// Whether it is what an instrument showed, with sensible rounding and the sign for off the scale.
    pub fn is(self, shown: &Shown) -> bool {
        match (shown, self.sign) {
            (Shown::Figure(it), Sign::None) => {
                let fixed = match it.unit {
                    Unit::Ohm => OHMS,
                    // Elsewhere the last place shown; a whole number is sensible rounding of a time.
                    Unit::Millisecond => 1.0,
                    Unit::Megohm | Unit::Volt => it.resolution(),
                };
                // A little more, so that a figure at the very edge counts as inside in spite of binary rounding.
                (self.value - it.value()).abs() <= fixed + SHARE * it.value() + 1e-9
            }
            (Shown::Figure(it), Sign::Over) => {
                it.unit == Unit::Megohm && self.value < it.value() && self.value >= OFF_SCALE * it.value()
            }
            (Shown::Over(it), Sign::Over) => {
                (OFF_SCALE * it.value()..=(1.0 + SHARE) * it.value()).contains(&self.value)
            }
            (Shown::Under(it), Sign::Under) => self.value >= it.value() && self.value <= 10.0 * it.value(),
            (Shown::Under(it), Sign::None) => self.value <= it.value(),
            _ => false,
        }
    }

    /// Whether it is the end of the range that was shown, without the sign that says there is more.
    pub fn lacks_sign(self, shown: &Shown) -> bool {
        let with_sign = Self { sign: Sign::Over, ..self };
        self.sign == Sign::None
            && with_sign.is(shown)
            && matches!(shown, Shown::Over(it) if self.value >= (1.0 - SHARE) * it.value())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::trade::instrument::Figure;

    fn ohm(counts: i64) -> Shown {
        Shown::Figure(Figure { counts, decimals: 2, unit: Unit::Ohm })
    }

    fn written(text: &str) -> Written {
        Written::read(text).unwrap()
    }

    #[test]
    fn a_figure_is_read_as_people_write_it_and_nothing_else_is() {
        assert_eq!(written(" 0.43 "), Written { sign: Sign::None, value: 0.43 });
        assert_eq!(written(">299"), Written { sign: Sign::Over, value: 299.0 });
        assert_eq!(written("< .01"), Written { sign: Sign::Under, value: 0.01 });
        for it in ["", ".", ">", "1e3", "-1", "0,4", "NaN", "inf", "0x1", "1.2.3", "0.4 ohm", "1234567890123", "≥1"] {
            assert_eq!(Written::read(it), None, "{it}");
        }
    }

    /// charter.md: within 0.03 ohm plus 5 % of what this instrument would show. Of 0.40 that is 0.05.
    #[test]
    fn ohms_may_stray_by_the_charters_tolerance_and_no_further() {
        for (text, fits) in
            [("0.40", true), ("0.4", true), ("0.35", true), ("0.45", true), ("0.34", false), ("0.46", false)]
        {
            assert_eq!(written(text).is(&ohm(40)), fits, "{text}");
        }
        assert!(!written(">0.40").is(&ohm(40)));
    }

    #[test]
    fn off_the_scale_is_written_with_its_sign() {
        let over = Shown::Over(Figure { counts: 299, decimals: 0, unit: Unit::Megohm });
        for (text, fits) in
            [(">299", true), (">300", true), (">200", true), ("299", false), (">1", false), (">999", false)]
        {
            assert_eq!(written(text).is(&over), fits, "{text}");
        }
        for (text, lacks) in [("299", true), ("300", true), (">299", false), ("200", false), ("999", false)] {
            assert_eq!(written(text).lacks_sign(&over), lacks, "{text}");
        }
        let under = Shown::Under(Figure { counts: 1, decimals: 2, unit: Unit::Megohm });
        for (text, fits) in [("<0.01", true), ("0", true), ("0.00", true), ("<1", false), ("0.5", false)] {
            assert_eq!(written(text).is(&under), fits, "{text}");
        }
    }
}
