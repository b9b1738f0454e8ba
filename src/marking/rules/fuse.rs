//! `fuse-in-neutral`: a fuse belongs in the line (BS 7671 132.14.2; number from memory). Critical: when it blows, what it feeds is off
//! and still live.

use crate::{
    marking::{
        code::{Code, Weight},
        context::Context,
        finding::Draft,
        repair::exchange_contents,
    },
    work::{Point, Subject},
};

pub(super) fn check(ctx: &Context<'_>, found: &mut Vec<Draft>) {
    for (at, [fused, plain]) in ctx.exercise().fuses() {
        let reach = ctx.reach(Point::Terminal(fused[1]));
        // Where line comes there as well, it is a short, which is found as such.
        if reach.neutral && !reach.line {
            let sides = fused.into_iter().zip(plain);
            let edits = sides.flat_map(|(fused, plain)| exchange_contents(&ctx.work, fused, plain)).collect();
            let draft = Draft::new(Code::FuseInNeutral, Subject::Location(at), Weight::Critical);
            found.push(draft.mended_by_all(edits));
        }
    }
}
