//! `figure-wrong`, `figure-unread`, `figure-copied` and `figure-sign`: a line of the test sheet has what this instrument showed, within
//! 0.03 ohm plus 5 %, off-scale signs and sensible rounding accepted (the charter of marking). A figure that was never read is made up,
//! which is critical. The limit copied out was not read either. A value at the top of the range without its `>` is
//! advice, once and not line by line. `figure-source`: Ze or Zdb from the card is written as such, by its own name.

use crate::{
    attempt::Sign,
    marking::{
        code::{Code, Weight},
        context::Context,
        finding::{Draft, Seen},
        limit::published,
    },
    work::Subject,
};

/// A figure that is a limit to within this share is the limit, rounded.
const ROUNDED: f64 = 0.002;

pub(super) fn check(ctx: &Context<'_>, found: &mut Vec<Draft>) {
    let exercise = ctx.exercise();
    for (test, device, entry) in ctx.safety.testing().sheet() {
        let code = match (&entry.shown, entry.written) {
            // The stage is found to be not read as the test asks; nobody made this figure up.
            (None, _) if entry.tried => continue,
            (None, _) if entry.claim.elsewhere => Code::FigureSource,
            (None, _) => Code::FigureUnread,
            (Some(shown), Some(written)) if written.lacks_sign(shown) => {
                if found.iter().any(|it| it.code == Code::FigureSign) {
                    continue;
                }
                Code::FigureSign
            }
            (Some(shown), Some(written)) if !written.is(shown) => {
                let is_limit = |it: &f64| written.sign == Sign::None && (written.value - it).abs() <= ROUNDED * it;
                let copied = published(exercise, device, test).iter().any(is_limit);
                if copied { Code::FigureCopied } else { Code::FigureWrong }
            }
            _ => continue,
        };
        let weight = match code {
            Code::FigureUnread => Weight::Critical,
            Code::FigureSign => Weight::Advice,
            _ => Weight::Major,
        };
        found.push(Draft::new(code, Subject::Test(test, device), weight).seen(Seen::InAction(entry.action)));
    }
}
