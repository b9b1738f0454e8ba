//! `cpc-unsleeved`: a bare cpc of up to 6 mm² wears green-and-yellow sleeving from sheath to terminal (BS 7671
//! 543.3.201).

use crate::{
    marking::{
        code::{Code, Weight},
        context::Context,
        finding::Draft,
    },
    trade::colour::{Colour, Mark},
    work::Edit,
};

pub(super) fn check(ctx: &Context<'_>, found: &mut Vec<Draft>) {
    let work = &ctx.work;
    let sleeve = Mark::Sleeve(Colour::GreenYellow);
    for end in work.ends().filter(|it| work.end_facts(*it).colour == Colour::Bare) {
        // A false mark is found as such; a loose end as loose. A live one is moved, and never sleeved.
        let at = ctx.reach_live(work.point_of(end));
        if at.line || at.neutral || work.is_undisturbed(end) || work.terminal_of(end).is_none() {
            continue;
        }
        let covered = work.mark_of(end).is_some_and(|it| it == sleeve || is_false(it));
        if !covered {
            let draft = Draft::new(Code::CpcUnsleeved, work.subject_of(end), Weight::Major);
            found.push(draft.mended_by(Edit::Mark(end, Some(sleeve))));
        }
    }
}

/// A sleeve of another colour: it insulates, but it is a false mark, which another rule finds.
fn is_false(mark: Mark) -> bool {
    matches!(mark, Mark::Sleeve(it) if it != Colour::GreenYellow)
}
