//! What every rule looks at: the work, its survey, its joins, and the tally.

use super::before::Before;
use crate::{
    circuit::{Joined, Reach, Survey, survey},
    exercise::{Exercise, SwitchId},
    trade::colour::Colour,
    work::{Edit, Point, Safety, Tally, Work, combinations},
};

/// The case before the marker, perhaps with a repair tried on it.
pub(super) struct Context<'a> {
    pub work: Work,
    pub tally: &'a Tally,
    pub safety: &'a Safety,
    pub before: &'a Before,
    /// The repair on trial, to be tried on earlier states of the work as well.
    pub edits: Vec<Edit>,
    pub survey: Survey,
    /// Every combination of positions that is tried, as in the survey.
    pub settings: Vec<Vec<u8>>,
    /// What each terminal and then each end is joined to in some combination.
    pub reach: Vec<Reach>,
    /// The same without the protective conductors.
    pub reach_live: Vec<Reach>,
}

impl<'a> Context<'a> {
    pub fn new(work: &Work, tally: &'a Tally, safety: &'a Safety, edits: &[Edit], before: &'a Before) -> Self {
        let mut work = work.clone();
        for it in edits {
            work.edit(it);
        }
        let survey = survey(&work);
        let settings: Vec<Vec<u8>> = survey.rows.iter().map(|it| it.positions.clone()).collect();
        let live = Joined::with(&work, &[], |colour: Colour| !colour.is_protective());
        let (reach, reach_live) = (ever(&work, &Joined::new(&work, &[]), &settings), ever(&work, &live, &settings));
        Self { tally, safety, before, edits: edits.to_vec(), survey, settings, reach, reach_live, work }
    }

    pub fn exercise(&self) -> &Exercise {
        self.work.exercise()
    }

    /// What a point is joined to in some combination.
    pub fn reach(&self, point: Point) -> Reach {
        self.reach[self.work.node(point)]
    }

    /// The same, protective conductors left out.
    pub fn reach_live(&self, point: Point) -> Reach {
        self.reach_live[self.work.node(point)]
    }
}

/// Every combination of the switches of an exercise, tried or not.
pub(super) fn settings(exercise: &Exercise) -> Vec<Vec<u8>> {
    let switches: Vec<SwitchId> = (0..exercise.switches.len() as u16).map(SwitchId).collect();
    combinations(exercise, &switches, &vec![0; switches.len()])
}

/// What every point comes to be joined to, from what is joined whatever the switches.
fn ever(work: &Work, lasting: &Joined, settings: &[Vec<u8>]) -> Vec<Reach> {
    let mut all = vec![Reach::default(); work.point_count()];
    for it in settings {
        let reach = lasting.and_closed(work, it).reach(work);
        all.iter_mut().zip(reach).for_each(|(all, it)| *all = all.or(it));
    }
    all
}
