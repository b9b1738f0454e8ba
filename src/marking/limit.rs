//! The published limits that a line of the test sheet is held against.

use crate::{
    attempt::reading_size,
    exercise::{DeviceId, Exercise},
    trade::{
        device::{DeviceKind, RESIDUAL_TOUCH_VOLTS},
        instrument::{Shown, rcd},
        supply::Earthing,
    },
    work::Test,
};

/// Least insulation resistance of a circuit up to 500 V, megohms (BS 7671 Table 64: 1.0 in a textbook; the table's number
/// from memory).
const INSULATION_MEGOHMS: f64 = 1.0;
/// A reading on cold conductors is compared with this share of the limit, which is for hot ones (guidance, as trade
/// articles and a textbook use it).
const COLD: f64 = 0.8;
/// The other usual basis divides by this (one guide's tables work out so).
const COLD_DIVISOR: f64 = 1.24;
/// How far a figure may be out because of the instrument: so near the limit, either answer is right.
const TOLERANCE: (f64, f64) = (0.03, 0.05);

/// The hot limit of a circuit's earth fault loop, ohms: by its overcurrent release in a TN system, by its residual current
/// in a TT one.
fn loop_limit(exercise: &Exercise, device: DeviceId) -> Option<f64> {
    let its = &exercise.devices[device];
    let behind = its.behind.map(|it| exercise.devices[it].kind);
    match exercise.earthing {
        Earthing::TnS | Earthing::TnCS => its.kind.max_loop_ohms(),
        Earthing::Tt => {
            let amps = its.kind.residual_amps().or_else(|| behind.and_then(DeviceKind::residual_amps));
            amps.map(|it| RESIDUAL_TOUCH_VOLTS / it)
        }
    }
}

/// The published figures for a test: what somebody might copy who had taken no reading.
pub(super) fn published(exercise: &Exercise, device: DeviceId, test: Test) -> Vec<f64> {
    match test {
        Test::InsulationLineNeutral | Test::InsulationLineEarth | Test::InsulationNeutralEarth => {
            vec![INSULATION_MEGOHMS]
        }
        Test::R1R2 | Test::R2 | Test::Zs | Test::ZsSum | Test::ZdbSum => {
            let hot = loop_limit(exercise, device);
            hot.map_or_else(Vec::new, |it| vec![it, COLD * it, it / COLD_DIVISOR])
        }
        Test::ResidualDevice => vec![f64::from(rcd::Test::Rated.longest_ms())],
        Test::Polarity | Test::SupplyPolarity => Vec::new(),
    }
}

/// Whether a result is acceptable; `None` where it is so near the limit that either answer is right.
pub(super) fn is_acceptable(exercise: &Exercise, device: DeviceId, test: Test, shown: &Shown) -> Option<bool> {
    let read = reading_size(shown);
    match test {
        Test::InsulationLineNeutral | Test::InsulationLineEarth | Test::InsulationNeutralEarth => {
            Some(read >= INSULATION_MEGOHMS)
        }
        Test::ResidualDevice => {
            Some(matches!(shown, Shown::Figure(_)) && read <= f64::from(rcd::Test::Rated.longest_ms()))
        }
        Test::Polarity | Test::SupplyPolarity => None,
        Test::R1R2 | Test::R2 | Test::Zs | Test::ZsSum | Test::ZdbSum => {
            let supply = exercise.outside_ohms();
            // R1+R2 must leave room for Ze, and R2 for R1 as well; R1 is not read, so R2 leaves the same room.
            let outside = if matches!(test, Test::R1R2 | Test::R2) { supply.line + supply.earth } else { 0.0 };
            let hot = loop_limit(exercise, device)?;
            let (least, most) = (COLD * hot - outside, hot / COLD_DIVISOR - outside);
            let stray = TOLERANCE.0 + TOLERANCE.1 * read;
            if read + stray <= least {
                Some(true)
            } else if read - stray > most {
                Some(false)
            } else {
                None
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use std::sync::Arc;

    use super::*;
    use crate::{
        exercise::{Seed, read, shipped},
        trade::instrument::{Figure, Unit},
    };

    fn exercise() -> Arc<Exercise> {
        Arc::new(read(shipped("two-way-passage").unwrap(), Seed(0)).unwrap())
    }

    /// BS 7671 Table 41.3 for a 6 A type B device: 7.28 ohm, 5.82 cold by 0.8, 5.87 by 1.24 (trade/facts.md 5.6).
    #[test]
    fn a_cold_reading_is_compared_with_the_published_figures() {
        let exercise = exercise();
        let ohm = |counts| Shown::Figure(Figure { counts, decimals: 2, unit: Unit::Ohm });
        let zs = |counts| is_acceptable(&exercise, DeviceId(0), Test::Zs, &ohm(counts));
        assert_eq!(
            [zs(120), zs(540), zs(582), zs(587), zs(640), zs(728)],
            [Some(true), Some(true), None, None, Some(false), Some(false)]
        );
        // R1+R2 leaves room for Ze, 0.35 ohm where nothing better is known of TN-C-S (trade/facts.md): 5.47 cold by 0.8, 5.52 by 1.24.
        let r1r2 = |counts| is_acceptable(&exercise, DeviceId(0), Test::R1R2, &ohm(counts));
        assert_eq!([r1r2(500), r1r2(540), r1r2(600)], [Some(true), None, Some(false)]);
        let books = published(&exercise, DeviceId(0), Test::Zs);
        for it in [7.28, 5.82, 5.87] {
            assert!(books.iter().any(|book: &f64| (book - it).abs() < 0.01), "{it} is not in {books:?}");
        }
    }

    /// BS 7671 Table 64: 1.0 megohm; BS EN 61009-1: 300 ms at the rated residual current.
    #[test]
    fn insulation_and_residual_devices_have_their_published_limits() {
        let exercise = exercise();
        let ok = |test, shown| is_acceptable(&exercise, DeviceId(0), test, &shown);
        let megohm = |counts| Shown::Figure(Figure { counts, decimals: 2, unit: Unit::Megohm });
        assert_eq!(ok(Test::InsulationLineEarth, megohm(100)), Some(true));
        assert_eq!(ok(Test::InsulationLineEarth, megohm(99)), Some(false));
        let ms = |counts| Figure { counts, decimals: 0, unit: Unit::Millisecond };
        assert_eq!(ok(Test::ResidualDevice, Shown::Figure(ms(300))), Some(true));
        assert_eq!(ok(Test::ResidualDevice, Shown::Figure(ms(301))), Some(false));
        assert_eq!(ok(Test::ResidualDevice, Shown::Over(ms(300))), Some(false));
    }
}
