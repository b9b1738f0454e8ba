//! Every rule, in the order it is asked. One file a rule or a family that shares one walk over the work.
//!
//! A rule reads the context and adds what it finds; it never looks at another rule's findings.

mod acts;
mod box_too_shallow;
mod cable;
mod circuits;
mod control;
mod cpc_misused;
mod cpc_open;
mod cpc_unsleeved;
mod diagnosis;
mod earth_return;
mod fan;
mod faults;
mod figures;
mod finished;
mod fuse;
mod grommet_missing;
mod hazards;
mod hints;
mod joint_hot;
mod judgement;
mod left;
mod links;
mod loose_end;
mod marks;
mod naming;
mod neutral_switched;
mod parallel;
mod prediction;
mod reason;
mod rework;
mod rocker;
mod screw_holder;
mod sheath_outside;
mod slack;
mod socket;
mod tail;
mod terminations;
mod tests;

pub use acts::{is_critical, times};
pub(super) use cable::lost_by;
pub(super) use cpc_misused::earth_terminal;
pub(super) use marks::brought_to;
pub(super) use tests::is_test;

use super::{context::Context, finding::Draft};

pub(super) type Rule = fn(&Context<'_>, &mut Vec<Draft>);

/// The rules that look at the wiring as it is.
const WIRING: &[Rule] = &[
    control::check,
    fan::check,
    rocker::check,
    parallel::check,
    cable::check,
    hazards::check,
    circuits::check,
    neutral_switched::check,
    earth_return::check,
    socket::check,
    fuse::check,
    screw_holder::check,
    cpc_misused::check,
    cpc_open::check,
    tail::check,
    marks::check,
    cpc_unsleeved::check,
    slack::check,
    loose_end::check,
    terminations::check,
    joint_hot::check,
    sheath_outside::check,
    grommet_missing::check,
    box_too_shallow::check,
];

/// The rules that look at how it was done.
const DOING: &[Rule] = &[
    finished::check,
    acts::check,
    prediction::check,
    diagnosis::check,
    naming::check,
    links::check,
    left::check,
    faults::check,
    tests::check,
    figures::check,
    judgement::check,
    reason::check,
    rework::check,
    hints::check,
];

/// What every rule finds.
pub(super) fn ask(ctx: &Context<'_>) -> Vec<Draft> {
    let mut drafts = ask_wiring(ctx);
    for rule in DOING {
        rule(ctx, &mut drafts);
    }
    drafts
}

/// What is found by the rules that look at the wiring as it is.
pub(super) fn ask_wiring(ctx: &Context<'_>) -> Vec<Draft> {
    let mut drafts = Vec::new();
    for rule in WIRING {
        rule(ctx, &mut drafts);
    }
    drafts
}
