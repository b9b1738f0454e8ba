//! `joint-hot`: a terminal that gets hot at the load of its circuit (BS 7671 526.1). Critical. What makes it hot is another
//! finding, from which this follows.

use crate::{
    circuit::{Witness, hot_joints},
    marking::{
        code::{Code, Weight},
        context::Context,
        finding::{Draft, Seen},
    },
    work::Edit,
};

pub(super) fn check(ctx: &Context<'_>, found: &mut Vec<Draft>) {
    let work = &ctx.work;
    for joint in hot_joints(work, &ctx.survey.distinct) {
        let witness = Witness { positions: joint.positions, ..Witness::default() };
        let draft =
            Draft::new(Code::JointHot, work.subject_of(joint.end), Weight::Critical).seen(Seen::InCase(witness));
        found.push(match (work.terminal_of(joint.end), work.well_made(joint.end)) {
            (Some(terminal), _) if !work.is_tight(terminal) => draft.mended_by(Edit::Tighten(terminal)),
            (_, Some(prep)) => draft.mended_by(Edit::Prepare(joint.end, prep)),
            _ => draft,
        });
    }
}
