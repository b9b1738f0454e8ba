//! How a doubt about a scenario is put in words.

use super::Wording;
use crate::{
    advice::{Doubt, DoubtKind},
    exercise::Exercise,
};

/// One sentence about a doubt. Its figures have as many digits as anyone compares.
pub fn doubt(wording: &Wording, exercise: &Exercise, doubt: &Doubt) -> String {
    let decimals = match doubt.kind {
        DoubtKind::VoltDrop | DoubtKind::NoDisconnection => 2,
        DoubtKind::Overloaded => 1,
        _ => 0,
    };
    let figure = |it: f64| format!("{it:.decimals$}");
    let (found, limit) = (figure(doubt.found), figure(doubt.limit));
    let place = doubt.place.and_then(|it| exercise.locations.get(it)).map_or("", |it| it.name.as_str());
    let args = [("found", found.as_str()), ("limit", &limit), ("place", place)];
    wording.say(&format!("doubt-{}", doubt.kind.word()), &args)
}
