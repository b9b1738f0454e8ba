//! What is on an instrument at this moment: the last reading, until something is done after it or a probe is moved.
//!
//! It is what the attempt answered to the act, and never worked out again here.

use switchdrop::{
    attempt::Happened,
    circuit::{indicator_lights, proving},
    exercise::Indicator,
    trade::instrument::{Shown, continuity},
    wording::{Wording, ohms, shown, volts},
    work::Action,
};

use super::super::{session::Session, view::View};

/// The last reading, and when and where it was taken.
#[derive(Debug, Clone, PartialEq)]
pub struct Displayed {
    /// After how many actions.
    after: usize,
    /// Between which points; none: on the proving unit, or at the origin.
    pair: Option<[String; 2]>,
    came: Happened,
}

impl Displayed {
    /// What an act with an instrument showed, if it was one. `after`: actions in the log then.
    pub fn of(action: &Action, came: &Happened, after: usize) -> Option<Self> {
        let pair = match action {
            Action::TestDead { a, b, .. } | Action::Continuity { a, b } | Action::Measure { a, b, .. } => {
                Some([a.clone(), b.clone()])
            }
            Action::ProveIndicator | Action::ReadOrigin { .. } => None,
            _ => return None,
        };
        came.stopped().is_none().then(|| Self { after, pair, came: came.clone() })
    }

    /// The highest voltage up to which an indicator's lights are lit; `None` if none is lit or no indicator was read.
    pub fn lights(&self) -> Option<u16> {
        match &self.came {
            Happened::Volts(it) => indicator_lights(*it),
            Happened::Done => lights_of(&on_the_unit()),
            Happened::Read(it) => lights_of(&it.shown),
            _ => None,
        }
    }

    /// Ohms between the points, where a continuity meter was read.
    pub const fn ohms(&self) -> Option<f64> {
        match self.came {
            Happened::Ohms(it) => Some(it),
            _ => None,
        }
    }

    /// What stands on the display.
    pub fn text(&self, wording: &Wording) -> Option<String> {
        Some(match &self.came {
            Happened::Volts(it) => wording.say("reading-volt", &[("figure", &volts(*it))]),
            Happened::Ohms(it) => ohms_shown(wording, *it),
            Happened::Read(it) | Happened::Ghost(it) => shown(wording, &it.shown),
            // Nothing showed.
            Happened::NoEarth(_) => shown(wording, &Shown::Lights(None)),
            Happened::Done => shown(wording, &on_the_unit()),
            _ => return None,
        })
    }
}

/// A sound indicator lights up on the proving unit, and nothing more is said of it.
fn on_the_unit() -> Shown {
    proving(Indicator::Sound)
}

const fn lights_of(shown: &Shown) -> Option<u16> {
    match shown {
        Shown::Lights(it) => *it,
        _ => None,
    }
}

/// A resistance, or that it is off the scale.
fn ohms_shown(wording: &Wording, read: f64) -> String {
    let figure = |it: &str| wording.say("reading-ohm", &[("figure", it)]);
    ohms(read).map_or_else(
        || {
            let top = continuity::SCALE.ranges.last().map_or(0.0, |it| it.below - 1.0);
            wording.say("reading-over", &[("reading", &figure(&format!("{top:.0}")))])
        },
        |it| figure(&it),
    )
}

/// What is on the instrument in the hand now.
pub fn now<'a>(session: &Session, view: &'a View) -> Option<&'a Displayed> {
    let it = view.displayed.as_ref()?;
    let on = |point: &String| view.probes.iter().flatten().any(|probe| probe == point);
    let still_there = match &it.pair {
        Some(pair) => pair.iter().all(on),
        None => view.probes.iter().all(Option::is_none),
    };
    (it.after == session.attempt.log().len() && still_there).then_some(it)
}
