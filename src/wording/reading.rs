//! What an instrument shows, as people read it out.

use super::{Wording, outcome::list, place};
use crate::{
    attempt::{SheetLine, Sign},
    circuit::instrument::{Figure, Reading, Refusal, Shown},
    exercise::{Exercise, Outside},
    trade::instrument::Unit,
    work::{Source, Test, Work},
};

/// A reading, and what it opened.
pub fn reading(wording: &Wording, work: &Work, reading: &Reading) -> String {
    let shown = shown(wording, &reading.shown);
    if reading.opens.is_empty() {
        return shown;
    }
    let devices: Vec<_> = reading.opens.iter().map(|it| place::device(wording, work.exercise(), *it)).collect();
    wording.say("reading-and-opened", &[("reading", &shown), ("devices", &list(wording, &devices))])
}

/// What is on the display.
pub fn shown(wording: &Wording, shown: &Shown) -> String {
    match shown {
        Shown::Figure(it) => figure(wording, *it),
        Shown::Over(it) => wording.say("reading-over", &[("reading", &figure(wording, *it))]),
        Shown::Under(it) => wording.say("reading-under", &[("reading", &figure(wording, *it))]),
        Shown::Lights(None) => wording.say("reading-dark", &[]),
        Shown::Lights(Some(it)) => wording.say("reading-lights", &[("volts", &it.to_string())]),
        Shown::Refused(it) => wording.say(refusal(*it), &[]),
    }
}

/// The unit of a test's figure.
pub fn unit(wording: &Wording, test: Test) -> String {
    let key = match test {
        Test::InsulationLineNeutral | Test::InsulationLineEarth | Test::InsulationNeutralEarth => "unit-megohm",
        Test::ResidualDevice => "unit-millisecond",
        _ => "unit-ohm",
    };
    wording.say(key, &[])
}

/// A line of the test sheet as it stands there: the figure if the test has one, and how it was judged.
pub fn written(wording: &Wording, test: Test, entry: &SheetLine) -> String {
    let said = wording.say(if entry.accepted { "acceptable" } else { "not-acceptable" }, &[]);
    figure_written(wording, test, entry).map_or(said.clone(), |figure| format!("{figure}: {said}"))
}

/// The figure in a line of the test sheet, if the test has one, with its unit and what it is a sum with.
pub fn figure_written(wording: &Wording, test: Test, entry: &SheetLine) -> Option<String> {
    let it = entry.written?;
    let sign = match it.sign {
        Sign::None => "",
        Sign::Over => ">",
        Sign::Under => "<",
    };
    let figure = format!("{sign}{} {}", it.value, unit(wording, test));
    Some(match entry.claim.source {
        Source::Read => figure,
        Source::Card => wording.say("figure-from-card", &[("figure", &figure), ("outside", outside(test))]),
    })
}

/// What a sum adds to R1+R2, by the name that the trade gives it.
pub const fn outside(test: Test) -> &'static str {
    match test {
        Test::ZdbSum => "Zdb",
        _ => "Ze",
    }
}

/// What the supervisor measured at the board, as it stands on their card.
pub fn card_figure(wording: &Wording, exercise: &Exercise) -> Option<String> {
    let (outside, shown) = exercise.card()?;
    let figure = figure(wording, shown);
    Some(match outside {
        Outside::Ze => wording.say("card-ze", &[("figure", &figure)]),
        Outside::Zdb => wording.say("card-zdb", &[("figure", &figure)]),
    })
}

/// A figure with its unit, every place of it shown.
pub fn figure(wording: &Wording, figure: Figure) -> String {
    let number = format!("{:.*}", usize::from(figure.decimals), figure.value());
    let key = match figure.unit {
        Unit::Ohm => "reading-ohm",
        Unit::Megohm => "reading-megohm",
        Unit::Volt => "reading-volt",
        Unit::Millisecond => "reading-millisecond",
    };
    wording.say(key, &[("figure", &number)])
}

const fn refusal(refusal: Refusal) -> &'static str {
    match refusal {
        Refusal::Energised => "reading-refused-energised",
        Refusal::NoSupply => "reading-refused-no-supply",
        Refusal::TouchVoltage => "reading-refused-touch-voltage",
        Refusal::Tripped => "reading-refused-tripped",
        Refusal::FlatBattery => "reading-refused-flat-battery",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn readings_are_read_out_with_their_unit_and_every_place() {
        let wording = Wording::british();
        let figure = |counts, decimals, unit| Figure { counts, decimals, unit };
        let say = |it| shown(&wording, &it);
        assert_eq!(say(Shown::Figure(figure(42, 2, Unit::Ohm))), "0.42 Ω");
        assert_eq!(say(Shown::Figure(figure(2300, 1, Unit::Volt))), "230.0 V");
        assert_eq!(say(Shown::Over(figure(299, 0, Unit::Megohm))), "> 299 MΩ");
        assert_eq!(say(Shown::Under(figure(1, 2, Unit::Megohm))), "< 0.01 MΩ");
        assert_eq!(say(Shown::Figure(figure(243, 1, Unit::Millisecond))), "24.3 ms");
        assert_eq!(say(Shown::Lights(Some(230))), "lamps lit up to 230 V");
        assert_eq!(say(Shown::Lights(None)), "no lamp lit");
    }
}
