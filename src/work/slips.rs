//! Slips that stand in the work before the learner comes: ordinary acts of the hand, carried out as a hand would.
//!
//! A cover is no matter of theirs: it comes off for an act that needs it off and is on again after it. A slip that is about a cover
//! (one left off, a core caught behind one) says so itself.

use std::sync::Arc;

use super::{
    action::{Action, Hand},
    refused::Refused,
    state::Work,
};
use crate::exercise::{Exercise, HandAct, Problem, ProblemCode, Problems, Seed, draw_each_value, read, span_of_slip};

impl From<&HandAct> for Action {
    fn from(act: &HandAct) -> Self {
        match act.clone() {
            HandAct::Mark { end, mark } => Self::Mark { end, mark },
            HandAct::Unmark { end } => Self::Unmark { end },
            HandAct::Connect { end, terminal } => Self::Connect { end, terminal },
            HandAct::Disconnect { end } => Self::Disconnect { end },
            HandAct::Tighten { terminal, feel } => Self::Tighten { terminal, feel },
            HandAct::Sheath { cable, location, mm } => Self::Sheath { cable, location, mm },
            HandAct::Cut { end, mm } => Self::Cut { end, mm },
            HandAct::Strip { end, mm, jaw } => Self::Strip { end, mm, jaw },
            HandAct::Fold { end } => Self::Fold { end },
            HandAct::Unfold { end } => Self::Unfold { end },
            HandAct::Grommet { location } => Self::Grommet { location },
            HandAct::Dress { location } => Self::Dress { location },
            HandAct::MakeUp { location, colour } => Self::MakeUp { location, colour },
            HandAct::FitCover { location } => Self::FitCover { location },
            HandAct::RemoveCover { location } => Self::RemoveCover { location },
            HandAct::RemoveLamp { lamp } => Self::RemoveLamp { lamp },
        }
    }
}

impl Work {
    /// With the exercise's slips made in it, and those that a hand can't make, by their numbers: the work is then as if they were not there.
    pub(super) fn with_slips(mut self) -> (Self, Vec<(usize, Refused)>) {
        let exercise = Arc::clone(self.exercise());
        let mut refused = Vec::new();
        for (number, act) in exercise.slips.iter().enumerate() {
            if let Err(why) = self.slip(&Action::from(act)) {
                refused.push((number, why));
            }
        }
        if !exercise.slips.is_empty() || exercise.is_inspected() {
            self.found_so();
        }
        (self, refused)
    }

    fn slip(&mut self, action: &Action) -> Result<(), Refused> {
        let place = match action.hand() {
            Some(Hand::Point(at)) => Some(self.point_location(self.point(at)?)),
            Some(Hand::Place(at)) => Some(self.location(at)?),
            None => None,
        };
        let Some(place) = place else { return self.apply(action) };
        let was = self.is_covered(place);
        self.set_covered(place, false);
        let done = self.apply(action);
        self.set_covered(place, was);
        done
    }
}

/// The slips of an exercise that a hand can't make, by their numbers from 0, and why.
pub fn slips_refused(exercise: &Arc<Exercise>) -> Vec<(usize, Refused)> {
    Work::before_slips(Arc::clone(exercise)).with_slips().1
}

/// The slips of a scenario that a hand can't make, in any choice of those that may vary: each where it stands in the text.
///
/// # Errors
/// Those, or whatever else is wrong with the scenario.
pub fn slip_problems(text: &str, seed: Seed) -> Result<(), Problems> {
    // To draw every value takes a while, and few scenarios have a slip.
    if !text.contains("slips") && !text.contains("Slips") {
        return Ok(());
    }
    let mut problems: Vec<Problem> = Vec::new();
    for exercise in std::iter::once(read(text, seed)?).chain(draw_each_value(text, seed)?).map(Arc::new) {
        for (number, why) in slips_refused(&exercise) {
            let span = exercise.slips.get(number).map_or(0..0, |it| span_of_slip(text, &exercise, it));
            let problem = Problem::new(ProblemCode::Refused, span, why.address().unwrap_or_default(), why.word());
            if !problems.contains(&problem) {
                problems.push(problem);
            }
        }
    }
    problems.sort_by_key(|it| it.span.start);
    Problems::or(problems, ())
}
