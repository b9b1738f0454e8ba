//! What every rule looks at: the work, its survey, its joins, and the tally.

use super::pre_existing::Before;
use crate::{
    attempt::{Safety, Tally},
    circuit::{Joined, Reach, Survey, survey},
    exercise::{Exercise, TerminalId},
    trade::colour::Colour,
    work::{Edit, Point, Work},
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
    /// Number of ends in each terminal.
    filled: Vec<usize>,
}

impl<'a> Context<'a> {
    pub fn new(work: &Work, tally: &'a Tally, safety: &'a Safety, edits: &[Edit], before: &'a Before) -> Self {
        let mut work = work.clone();
        for it in edits {
            work.edit(it);
        }
        let survey = survey(&work);
        let settings: Vec<Vec<u8>> = survey.rows.iter().map(|it| it.positions.clone()).collect();
        let (reach, reach_live) = (ever(&work, &settings, |_| true), ever(&work, &settings, |it| !it.is_protective()));
        let filled = filled(&work);
        Self { tally, safety, before, edits: edits.to_vec(), survey, settings, reach, reach_live, filled, work }
    }

    pub fn exercise(&self) -> &Exercise {
        self.work.exercise()
    }

    /// Whether a terminal has no end in it.
    pub fn is_empty(&self, terminal: TerminalId) -> bool {
        self.filled[terminal.index()] == 0
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

fn filled(work: &Work) -> Vec<usize> {
    let mut filled = vec![0; work.exercise().terminals.len()];
    for it in work.ends().filter_map(|it| work.terminal_of(it)) {
        filled[it.index()] += 1;
    }
    filled
}

/// Up to this many combinations are joined one by one; beyond it the layered graph says what comes to be joined.
const ONE_BY_ONE: usize = 512;

/// What every point comes to be joined to, by those conductors whose colour is picked; plate screws are with the protective ones.
pub(super) fn ever(work: &Work, settings: &[Vec<u8>], only: impl Fn(Colour) -> bool) -> Vec<Reach> {
    let lasting = if only(Colour::GreenYellow) { Joined::new(work, &[]) } else { Joined::with(work, &[], only) };
    if settings.len() > ONE_BY_ONE
        && let Some(it) = lasting.ever_reach(work)
    {
        return it;
    }
    let mut all = vec![Reach::default(); work.point_count()];
    for it in settings {
        let reach = lasting.and_closed(work, it).reach(work);
        all.iter_mut().zip(reach).for_each(|(all, it)| *all = all.or(it));
    }
    all
}
