//! What keeps the solver of exercises from full marks, in words.

use super::{
    Wording, did, finding, headline,
    keys::{act_key, stage_key},
    outcome::list,
    place, trouble,
};
use crate::{
    advice::{Lacks, Unsolved},
    work::{Action, Subject},
};

/// Says why an exercise was not solved; where the sheet of all that could be done is short of full marks, with what it found.
pub fn lacks(wording: &Wording, unsolved: &Unsolved) -> Vec<String> {
    let work = unsolved.attempt.work();
    let exercise = work.exercise();
    let one = |key: &str, args: &[(&str, &str)]| vec![wording.say(key, args)];
    let at = |key: &str, it: Subject| one(key, &[("place", &place::subject(wording, work, it))]);
    let next = |key: &str, action: &Action, why: &str| one(key, &[("did", &did(wording, work, action)), ("why", why)]);
    match &unsolved.lacks {
        Lacks::Cable(run) => at("solve-cable", Subject::Run(*run)),
        Lacks::Wiring(control) => {
            let lamp = exercise.controls.get(*control).map_or(Subject::Whole, |it| Subject::Lamp(it.lamp));
            at("solve-wiring", lamp)
        }
        Lacks::WiringUnknown => one("solve-wiring-unknown", &[]),
        Lacks::Earth(it) => at("solve-earth", Subject::Location(*it)),
        Lacks::NotShown(it) => at("solve-not-shown", Subject::Device(*it)),
        Lacks::OwnBoard => one("solve-own-board", &[]),
        Lacks::Impossible(action, why) => next("solve-impossible", action, &trouble::refused(wording, work, why)),
        Lacks::Unsafe(action, kind) => next("solve-unsafe", action, &wording.say(act_key(*kind), &[])),
        Lacks::Opens(action, devices) => {
            let devices: Vec<_> = devices.iter().map(|it| place::device(wording, exercise, *it)).collect();
            next("solve-opens", action, &list(wording, &devices))
        }
        Lacks::Stage(it) => one("solve-stage", &[("stage", &wording.say(stage_key(*it), &[]))]),
        Lacks::TooLong => one("solve-too-long", &[("count", &unsolved.attempt.log().len().to_string())]),
        Lacks::Marks(sheet) => {
            let mut said = one("solve-marks", &[("sheet", &headline(wording, work, sheet))]);
            said.extend(sheet.findings.iter().map(|it| finding(wording, work, it).what));
            said
        }
    }
}
