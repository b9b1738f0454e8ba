//! Figures as a display shows them: whole counts of the last place.

use crate::trade::instrument::{
    Figure, Least, Scale, Shown, per_unit,
    voltage::{INDICATOR_SHARE, INDICATOR_STEPS},
};

/// Puts a quantity on a scale: the finest range that holds it once rounded. What is not a number is over range.
pub(super) fn show(scale: &Scale, quantity: f64) -> Shown {
    // `max` would make nothing of what is not a number: a sound reading of a broken thing.
    let quantity = if quantity.is_nan() { f64::INFINITY } else { quantity.max(0.0) };
    let mut top = Figure { counts: 0, decimals: 0, unit: scale.unit };
    for range in scale.ranges {
        let counts_per_unit = per_unit(range.decimals);
        let figure = |counts: f64| Figure { counts: counts as i64, decimals: range.decimals, unit: scale.unit };
        let (counts, end) = ((quantity * counts_per_unit).round(), (range.below * counts_per_unit).round());
        if counts < end {
            return match scale.least {
                Least::LessThan if counts < 1.0 => Shown::Under(figure(1.0)),
                _ => Shown::Figure(figure(counts)),
            };
        }
        top = figure(end - 1.0);
    }
    Shown::Over(top)
}

/// The highest step, volts, up to which an indicator's lamps are lit at a voltage between its probes.
pub fn lights(volts: f64) -> Option<u16> {
    INDICATOR_STEPS.iter().copied().filter(|it| volts.abs() >= INDICATOR_SHARE * f64::from(*it)).max()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::trade::instrument::{Unit, continuity, insulation::TestVolts};

    fn ohm(counts: i64, decimals: u8) -> Figure {
        Figure { counts, decimals, unit: Unit::Ohm }
    }

    /// Ranges of common low-resistance meters: 9.99, 99.9, 1,999 (from memory), as `wording::ohms` has them.
    #[test]
    fn a_meter_shows_fewer_places_in_each_range_and_stops_at_its_scale() {
        let shown = |it| show(&continuity::SCALE, it);
        assert_eq!(shown(0.353), Shown::Figure(ohm(35, 2)));
        assert_eq!(shown(9.994), Shown::Figure(ohm(999, 2)));
        assert_eq!(shown(9.996), Shown::Figure(ohm(100, 1)));
        assert_eq!(shown(99.96), Shown::Figure(ohm(100, 0)));
        assert_eq!(shown(1999.4), Shown::Figure(ohm(1999, 0)));
        for it in [1999.6, f64::INFINITY, 1e300, f64::NAN] {
            assert_eq!(shown(it), Shown::Over(ohm(1999, 0)), "{it}");
        }
        assert_eq!(shown(-0.01), Shown::Figure(ohm(0, 2)));
    }

    #[test]
    fn an_insulation_tester_has_an_off_scale_sign_at_both_ends() {
        let scale = TestVolts::V500.scale();
        let megohm = |counts, decimals| Figure { counts, decimals, unit: Unit::Megohm };
        assert_eq!(show(&scale, 73.0e-6), Shown::Under(megohm(1, 2)));
        assert_eq!(show(&scale, 250.2), Shown::Figure(megohm(250, 0)));
        assert_eq!(show(&scale, 4000.0), Shown::Over(megohm(299, 0)));
    }

    /// The lowest supply that a learner meets still lights the lamp marked 230.
    #[test]
    fn an_indicator_lights_up_to_the_voltage_that_is_there() {
        assert_eq!([225.0, -250.0, 130.0, 11.0, 9.0].map(lights), [Some(230), Some(230), Some(120), Some(12), None]);
    }

    #[test]
    fn a_figure_knows_its_value() {
        assert!((ohm(42, 2).value() - 0.42).abs() < 1e-12);
    }
}
