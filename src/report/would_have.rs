//! What would have happened, in words: the way of the current, what opens and how fast, and what a hand would meet.

use super::consequence::Consequence;
use crate::{
    circuit::Opening,
    wording::{Wording, device, list, subject, volts, witness},
    work::{Subject, Work},
};

/// A consequence as a paragraph. No touch is ever called safe, by any of the sentences.
pub fn would_have(wording: &Wording, work: &Work, of: &Consequence) -> String {
    let exercise = work.exercise();
    let ways = |it: &[Subject]| ways(wording, work, it);
    match of {
        Consequence::Opens { case, way, amps, opened } => {
            let (case, way, amps) = (witness(wording, exercise, case), ways(way), rounded(*amps));
            let opened: Vec<_> = opened.iter().map(|it| opening(wording, work, it)).collect();
            let args = [("case", case.as_str()), ("way", &way), ("amps", &amps), ("opened", &list(wording, &opened))];
            wording.say("would-open", &args)
        }
        Consequence::Touch { case, first_fault, way, volts: across, amps, opened } => {
            let key = if *first_fault { "would-touch-first-fault" } else { "would-touch" };
            let (case, way) = (witness(wording, exercise, case), ways(way));
            let (across, amps) = (volts(*across), rounded(1000.0 * amps));
            let args = [("case", case.as_str()), ("way", &way), ("volts", &across), ("milliamps", &amps)];
            let after = match opened {
                Some(it) => wording.say("would-touch-opens", &[("opened", &opening(wording, work, it))]),
                None => wording.say("would-touch-stays", &[]),
            };
            format!("{} {after}", wording.say(key, &args))
        }
        Consequence::Heat { case, watts, volts: lost, .. } => {
            let case = witness(wording, exercise, case);
            // A joint loses a volt or two: whole volts would not show it.
            let args = [("case", case.as_str()), ("watts", &rounded(*watts)), ("volts", &rounded(*lost))];
            wording.say("would-heat", &args)
        }
    }
}

/// The way of a current, place by place.
fn ways(wording: &Wording, work: &Work, way: &[Subject]) -> String {
    let mut steps = way.iter().map(|it| subject(wording, work, *it));
    let first = steps.next().unwrap_or_default();
    steps.fold(first, |so_far, it| wording.say("would-way", &[("before", &so_far), ("next", &it)]))
}

/// A device and the band of its time.
fn opening(wording: &Wording, work: &Work, of: &Opening) -> String {
    let name = device(wording, work.exercise(), of.device);
    let (after, within) = (of.after.to_string(), of.within.to_string());
    let key = if of.after > 0.0 { "would-open-between" } else { "would-open-within" };
    wording.say(key, &[("device", &name), ("after", &after), ("within", &within)])
}

/// Two digits say enough of what would have been.
fn rounded(figure: f64) -> String {
    let figure = figure.abs();
    if figure < 1e-3 || !figure.is_finite() {
        return "0".to_owned();
    }
    let digits = 1 - figure.log10().floor() as i32;
    let unit = 10_f64.powi(digits);
    format!("{:.*}", usize::try_from(digits).unwrap_or(0), (figure * unit).round() / unit)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn two_digits_are_said() {
        let said = [0.0, 0.012, 0.5, 2.34, 9.96, 14.7, 114.9, 1234.0, f64::INFINITY].map(rounded);
        assert_eq!(said, ["0", "0.012", "0.50", "2.3", "10.0", "15", "110", "1200", "0"]);
    }
}
