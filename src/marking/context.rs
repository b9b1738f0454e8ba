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
    /// Every combination of positions, as in the survey.
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
        let settings = settings(work.exercise());
        let survey = survey(&work);
        let all = || settings.iter().map(|it| Joined::new(&work, it));
        let live = || settings.iter().map(|it| Joined::with(&work, it, |colour: Colour| !colour.is_protective()));
        let (reach, reach_live) = (ever(&work, all()), ever(&work, live()));
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

/// Every combination of the switches of an exercise.
pub(super) fn settings(exercise: &Exercise) -> Vec<Vec<u8>> {
    let switches: Vec<SwitchId> = (0..exercise.switches.len() as u16).map(SwitchId).collect();
    combinations(exercise, &switches, &vec![0; switches.len()])
}

fn ever(work: &Work, joined: impl Iterator<Item = Joined>) -> Vec<Reach> {
    let mut all: Vec<Reach> = Vec::new();
    for mut it in joined {
        let reach = it.reach(work);
        all = if all.is_empty() { reach } else { all.into_iter().zip(reach).map(|(a, b)| a.or(b)).collect() };
    }
    all
}
