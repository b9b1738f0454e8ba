//! `fuse-in-neutral`: a fuse belongs in the line (BS 7671 132.14.2; number from memory). Critical: when it blows, what it feeds is off
//! and still live.

use crate::{
    exercise::TerminalId,
    marking::{
        code::{Code, Weight},
        context::Context,
        finding::Draft,
    },
    work::{Edit, Point, Subject},
};

pub(super) fn check(ctx: &Context<'_>, found: &mut Vec<Draft>) {
    let work = &ctx.work;
    for (at, [fused, plain]) in ctx.exercise().fuses() {
        let reach = ctx.reach(Point::Terminal(fused[1]));
        // Where line comes there as well, it is a short, which is found as such.
        if reach.neutral && !reach.line {
            let over = |from: TerminalId, to: TerminalId| work.ends_in(from).map(move |it| Edit::Move(it, Some(to)));
            let edits = fused.into_iter().zip(plain).flat_map(|(a, b)| over(a, b).chain(over(b, a))).collect();
            let draft = Draft::new(Code::FuseInNeutral, Subject::Location(at), Weight::Critical);
            found.push(draft.mended_by_all(edits));
        }
    }
}
