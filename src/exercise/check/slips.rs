//! What a hand has done before the learner comes: that every place it names is there. Whether a hand can do it, the work says.

use super::Checker;
use crate::exercise::{
    address::nearest,
    file::ScenarioFile,
    limits::Limits,
    placed::Placed,
    problem::ProblemCode,
    slip::{HandAct, SlipPlace},
};

impl Checker<'_> {
    pub(super) fn slips(&mut self, file: &ScenarioFile<'_>) {
        if let Some(over) = file.slips.get(Limits::SLIPS) {
            self.too_many(over, &file.slips.len().to_string(), Limits::SLIPS);
            return;
        }
        for it in &file.slips {
            self.slip(file, it);
            self.follow(it);
            self.exercise.tables.slips.push(it.value.clone());
        }
    }

    /// That what an act names is there.
    pub(super) fn slip(&mut self, file: &ScenarioFile<'_>, act: &Placed<'_, HandAct>) {
        for place in act.places() {
            let exercise = &self.exercise;
            let (code, name, found) = match place {
                // A tail that was made up has ends of its own, which the work knows.
                SlipPlace::End(it) if it.starts_with(super::MADE) => continue,
                SlipPlace::End(it) => (ProblemCode::UnknownEnd, it, exercise.end(it).map(drop)),
                SlipPlace::Terminal(it) => (ProblemCode::UnknownTerminal, it, exercise.terminal(it).map(drop)),
                SlipPlace::Location(it) => (ProblemCode::UnknownLocation, it, exercise.location(it).map(drop)),
                SlipPlace::Lamp(it) => (ProblemCode::UnknownLamp, it, exercise.lamp(it).map(drop)),
                SlipPlace::Cable(it) => {
                    let ids = || file.cables.iter().map(|cable| cable.id.value.as_str());
                    let found = if ids().any(|id| id == it) { Ok(()) } else { Err(nearest(it, ids())) };
                    (ProblemCode::UnknownCable, it, found)
                }
            };
            if let Err(near) = found {
                self.problem(code, act, name.clone(), "");
                if let Some(it) = self.problems.last_mut() {
                    it.nearest = near;
                }
            }
        }
    }

    /// Where an act leaves an end.
    fn follow(&mut self, act: &HandAct) {
        let (end, to) = match act {
            HandAct::Connect { end, terminal } => (end, self.exercise.terminal(terminal).ok()),
            HandAct::Disconnect { end } => (end, None),
            _ => return,
        };
        if let Ok(end) = self.exercise.end(end) {
            self.exercise.tables.slipped.insert(end, to);
        }
    }
}
