//! Every rule, in the order it is asked. One file a rule or a family that shares one walk over the work.
//!
//! A rule reads the context and adds what it finds; it never looks at another rule's findings.

mod acts;
mod circuits;
mod control;
mod cpc_misused;
mod cpc_open;
mod cpc_unsleeved;
mod fan;
mod faults;
mod figures;
mod finished;
mod hazards;
mod judgement;
mod links;
mod loose_end;
mod marks;
mod neutral_switched;
mod parallel;
mod prediction;
mod rocker;
mod screw_holder;
mod slack;
mod tail;
mod tests;

use super::{context::Context, finding::Draft};

pub(super) type Rule = fn(&Context<'_>, &mut Vec<Draft>);

/// Every rule.
pub(super) const RULES: &[Rule] = &[
    control::check,
    fan::check,
    rocker::check,
    parallel::check,
    hazards::check,
    circuits::check,
    neutral_switched::check,
    screw_holder::check,
    cpc_misused::check,
    cpc_open::check,
    tail::check,
    marks::check,
    cpc_unsleeved::check,
    slack::check,
    loose_end::check,
    finished::check,
    acts::check,
    prediction::check,
    links::check,
    faults::check,
    tests::check,
    figures::check,
    judgement::check,
];
