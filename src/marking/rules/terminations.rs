//! How each end sits in its terminal: one table, with a line for each thing that can be the matter with it. All are major.

use crate::{
    exercise::EndId,
    marking::{
        code::{Code, Weight},
        context::Context,
        finding::Draft,
    },
    work::{Edit, Fit, Fold, Prep, Work},
};

/// Whether something is the matter.
type IsWrong<Of> = fn(&Of) -> bool;

/// What is the matter with how an end fits its terminal. It is put right by making the end ready anew.
const OF_FIT: [(Code, IsWrong<Fit>); 5] = [
    // No bare copper outside a terminal (makers' wiring instructions).
    (Code::BareCopperShowing, |it| it.outside_mm > 0.0),
    // The terminal bites on copper, not on insulation (BS 7671 526.1).
    (Code::InsulationUnderScrew, |it| it.short_mm > 0.0),
    // A bare end is folded back where the terminal's own data ask for it, and never under a cage, a lever or a spring. Elsewhere the
    // learner may choose.
    (Code::FoldMissing, |it| it.fold == Fold::Missing),
    (Code::FoldWrong, |it| it.fold == Fold::Wrong),
    // Two conductors under one screw, one far thicker, so that the screw does not reach the other (BS 7671 526.2, from memory). A fold
    // doubles the thinner.
    (Code::UnlikeSizes, |it| it.unlike),
];

/// A code, whether something is the matter, and the end without it.
type OfHand = (Code, IsWrong<Prep>, fn(Prep) -> Prep);

/// What was done to an end in a terminal, and the end without it.
const OF_HAND: [OfHand; 3] = [
    // The strippers cut into the copper, which breaks there later (common practice, no source).
    (Code::Nicked, |prep| prep.nicked, |prep| Prep { nicked: false, ..prep }),
    // A screw driven so hard that the conductor is damaged (BS 7671 526.1). A torque without a maker's figure is not a fault.
    (Code::Crushed, |prep| prep.crushed, |prep| Prep { crushed: false, ..prep }),
    // A plate has caught a conductor against the box (BS 7671 522.8). The insulation test finds it, in a metal box.
    (Code::ConductorTrapped, |prep| prep.trapped, |prep| Prep { trapped: false, ..prep }),
];

pub(super) fn check(ctx: &Context<'_>, found: &mut Vec<Draft>) {
    let work = &ctx.work;
    let mut add = |work: &Work, end: EndId, code: Code, made: Prep| {
        let draft = Draft::new(code, work.subject_of(end), Weight::Major);
        found.push(draft.mended_by(Edit::Prepare(end, made)));
    };
    for end in work.ends() {
        let (fit, made) = (work.fit_of(end), work.well_made(end));
        for (code, is_wrong) in OF_FIT {
            if let (Some(made), true) = (made, fit.as_ref().is_some_and(is_wrong)) {
                add(work, end, code, made);
            }
        }
        let prep = work.prep_of(end).filter(|_| work.terminal_of(end).is_some());
        for (code, is_wrong, without) in OF_HAND {
            if let Some(prep) = prep.filter(is_wrong) {
                add(work, end, code, without(prep));
            }
        }
    }
}
