//! `work-redone` and `reset-onto-fault`: work done over again after a failed test or a trip, and power put back onto what had
//! opened a device before. Asked only where the scenario gives rework marks.

use crate::{
    attempt::Why,
    marking::{
        code::{Code, Weight},
        context::Context,
        finding::{Draft, Seen},
    },
    work::Subject,
};

pub(super) fn check(ctx: &Context<'_>, found: &mut Vec<Draft>) {
    let exercise = ctx.exercise();
    if exercise.weights.rework == 0 {
        return;
    }
    for it in &ctx.tally.redone {
        let about = match it.why {
            Why::Tripped => "tripped",
            Why::TestFailed => "test-failed",
        };
        let draft = Draft::new(Code::WorkRedone, it.at, Weight::Major).about(about);
        found.push(draft.seen(Seen::InAction(it.action)));
    }
    let onto_fault = ctx.tally.energised.iter().filter(|it| !it.tripped.is_empty()).skip(1);
    for (it, device) in onto_fault.filter_map(|it| it.tripped.first().map(|device| (it, device))) {
        let at = Subject::Device(*device);
        found.push(Draft::new(Code::ResetOntoFault, at, Weight::Major).seen(Seen::InAction(it.action)));
    }
}
