//! `socket-reversed`: line comes to a socket-outlet's L and neutral to its N (BS 7671 643.6; number from memory). Critical: what is
//! plugged in stays live with its own switch off.

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
    for (at, [line, neutral]) in ctx.exercise().outlets() {
        let [l, n] = [line, neutral].map(|it| ctx.reach(Point::Terminal(it)));
        // Where both reach both, it is a short, which is found as such.
        if n.line && !l.line || l.neutral && !n.neutral {
            let draft = Draft::new(Code::SocketReversed, Subject::Location(at), Weight::Critical);
            found.push(draft.mended_by_all(exchange_contents(&ctx.work, line, neutral)));
        }
    }
}
