//! Which pieces of work a second marker or a moderator looks at: every refer, what lies near the pass mark, and a number of the others at
//! random.

use serde::{Deserialize, Serialize};

use super::{
    assignment::Assignment,
    decision::Decided,
    review::{Review, ReviewRow},
};
use crate::{
    exercise::{Seed, Stream},
    marking::Outcome,
};

/// Version of the draw: another one draws others from the same seed.
const DRAW: u32 = 1;
/// Of a hundred marks, how far from the pass mark is still borderline: our own figure, for want of a published one.
const BORDERLINE: u32 = 5;

/// Why a piece of work was chosen.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, strum::IntoStaticStr, strum::VariantArray)]
#[serde(rename_all = "kebab-case")]
#[strum(serialize_all = "kebab-case")]
pub enum WhyChosen {
    /// It was released.
    Released,
    /// Its learner was asked for by number.
    Asked,
    /// The machine, or those who decided, gave a refer.
    Refer,
    /// What stands lies near the pass mark, or people gave something else than the machine.
    Borderline,
    /// It was drawn.
    Drawn,
}

words!(WhyChosen);

impl WhyChosen {
    /// What has to be looked at however the draw goes; `None`: the draw decides.
    fn of(assignment: &Assignment, row: &ReviewRow) -> Option<Self> {
        let (file, earned) = row.counting()?;
        let decided = Decided::of(earned, &file.people.decisions);
        let refer = Outcome::Refer.word();
        if earned.outcome == refer || decided.given.outcome == refer {
            return Some(Self::Refer);
        }
        let pass_mark = assignment.pass_mark_of(&row.exercise)?;
        let near = (decided.given.marks * 100).abs_diff(pass_mark * earned.out_of) <= BORDERLINE * earned.out_of;
        (near || decided.by.is_some() || decided.to_agree).then_some(Self::Borderline)
    }
}

impl Review {
    /// What is sampled of the work that counts, in the order of the roster: every refer, what is borderline, and `drawn` of the others. One
    /// seed draws the same of the same work.
    pub fn sample(&self, assignment: &Assignment, drawn: usize, seed: Seed) -> Vec<(&ReviewRow, WhyChosen)> {
        let counting = || self.rows.iter().enumerate().filter(|it| it.1.counting().is_some());
        let mut others: Vec<usize> =
            counting().filter(|it| WhyChosen::of(assignment, it.1).is_none()).map(|it| it.0).collect();
        Stream::new(DRAW, &assignment.id, seed, "sample").shuffle(&mut others);
        others.truncate(drawn);
        let why = |(at, row)| {
            let drawn = others.contains(&at).then_some(WhyChosen::Drawn);
            Some((row, WhyChosen::of(assignment, row).or(drawn)?))
        };
        counting().filter_map(why).collect()
    }
}
