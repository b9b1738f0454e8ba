//! What the readings taken come to for a line of the sheet, and whether a test without a figure came out as it should.

use super::{PAIRS, Side, Source, Test, TestPart, Testing, Written, size, stage_of};
use crate::{
    attempt::safety::settings_of,
    exercise::{DeviceId, Exercise, Stage},
    trade::instrument::{Figure, Shown, Unit},
};

/// Least voltage of a supply with line and neutral where they belong, volts: 230 V less 6 % (the public supply's band, from
/// memory), a little less for what an indicator's lamps can say.
const FULL_VOLTS: f64 = 207.0;
/// Most voltage between neutral and earth, volts (common practice, no source).
const TOUCH_VOLTS: f64 = 50.0;

impl Testing {
    /// What the readings for a line of the sheet come to: of insulation the lowest; of a sum, what is outside (read or from the card) and the
    /// highest R1+R2, to a hundredth of an ohm; of polarity, that it was tried, with no figure; of anything else the highest. Nothing: it was
    /// not read.
    pub fn shown_for(&self, exercise: &Exercise, (test, at): (Test, DeviceId), source: Source) -> Option<Shown> {
        let mut shown = self.readings.iter().filter(|(it, _)| it.0 == test && it.1 == at).map(|(_, it)| it.shown);
        match stage_of(test) {
            Stage::Insulation => shown.min_by(|a, b| size(a).total_cmp(&size(b))),
            Stage::Polarity => self.circuits.iter().find(|it| it.device == at).and_then(|circuit| {
                let read = |it: &usize| self.joined.keys().any(|(control, _)| control == it);
                circuit.controls.iter().any(read).then_some(Shown::Lights(None))
            }),
            _ if test.has_outside() => {
                let card = || {
                    exercise.card().filter(|(of, _)| Test::sum_with(*of) == test).map(|(_, ohms)| Shown::Figure(ohms))
                };
                let outside = match source {
                    // There is one at most: Ze is read for the whole board, and a later reading takes the place of the earlier.
                    Source::Read => shown.next_back()?,
                    Source::Card => card()?,
                };
                match (outside, self.shown_for(exercise, (Test::R1R2, at), Source::Read)?) {
                    (Shown::Figure(ze), Shown::Figure(both)) => {
                        let counts = (100.0 * (ze.value() + both.value())).round() as i64;
                        Some(Shown::Figure(Figure { counts, decimals: 2, unit: Unit::Ohm }))
                    }
                    _ => None,
                }
            }
            _ => shown.max_by(|a, b| size(a).total_cmp(&size(b))),
        }
    }

    /// Whether a figure, which is not what its line says, is the same sum from another source or with the other name.
    pub(super) fn is_of_another_source(&self, exercise: &Exercise, of: (Test, DeviceId), written: Written) -> bool {
        let others = [(Test::ZsSum, Source::Read), (Test::ZsSum, Source::Card)].into_iter();
        let others = others.chain([(Test::ZdbSum, Source::Read), (Test::ZdbSum, Source::Card)]);
        let same = |(test, source)| self.shown_for(exercise, (test, of.1), source).is_some_and(|it| written.is(&it));
        of.0.has_outside() && others.into_iter().any(same)
    }

    /// Whether what was read for a test without a figure is as it should be: every toggle changes the path to the lamp; full
    /// voltage from line to neutral and to earth, next to none between neutral and earth.
    pub(super) fn is_sound(&self, exercise: &Exercise, test: Test, at: DeviceId) -> bool {
        let Some(circuit) = self.circuits.iter().find(|it| it.device == at) else { return false };
        match test {
            Test::Polarity => circuit.controls.iter().all(|control| {
                let settings = settings_of(exercise, *control);
                let joined = |it: &Vec<u8>| self.joined.get(&(*control, it.clone())).copied();
                settings.iter().enumerate().all(|(index, one)| {
                    settings[..index].iter().all(|other| {
                        let toggles = one.iter().zip(other).filter(|(a, b)| a != b).count();
                        let differ = matches!((joined(one), joined(other)), (Some(a), Some(b)) if a != b);
                        toggles != 1 || differ
                    })
                })
            }),
            Test::SupplyPolarity => PAIRS.iter().all(|(a, b)| {
                let kept = self.readings.get(&(test, at, TestPart::Between(*a, *b)));
                kept.is_some_and(|it| {
                    let volts = size(&it.shown);
                    if *a == Side::Line { volts >= FULL_VOLTS } else { volts < TOUCH_VOLTS }
                })
            }),
            _ => false,
        }
    }
}
