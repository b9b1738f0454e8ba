//! `fan-wrong`: a fan with a timer has its permanent line, starts with its light, and is dead with its isolator off.
//!
//! Permanent line, switched line and neutral, all opened by the isolator or at least both lines (makers' sheets). A line that the
//! isolator leaves energised is critical: whoever cleans or changes the fan relies on it.

use crate::{
    circuit::{Glow, HazardKind, Joined, Witness},
    marking::{
        code::{Code, Weight},
        context::Context,
        finding::{Draft, Seen},
        repair::fan_is_right,
    },
    work::{Point, Subject},
};

pub(super) fn check(ctx: &Context<'_>, found: &mut Vec<Draft>) {
    for (id, fan) in ctx.exercise().fans.with_ids() {
        let wrong = ctx.survey.rows.iter().find(|row| {
            let lit = row.lamps[fan.with.index()].glow == Glow::Lit;
            let mut joined = Joined::new(&ctx.work, &row.positions);
            let mut same = |a, b| joined.same(&ctx.work, Point::Terminal(a), Point::Terminal(b));
            !fan_is_right(ctx.exercise(), &mut same, fan, &row.positions, lit)
        });
        let mut hazards = ctx.survey.hazards.iter();
        let live = hazards.find(|it| it.kind == HazardKind::FanLive && it.at == Subject::Fan(id));
        let (witness, weight) = match (live, wrong) {
            (Some(live), _) => (live.witness.clone(), Weight::Critical),
            (None, Some(row)) => (Witness { positions: row.positions.clone(), ..Witness::default() }, Weight::Major),
            (None, None) => continue,
        };
        let draft = Draft::new(Code::FanWrong, Subject::Fan(id), weight);
        found.push(draft.seen(Seen::InCase(witness)).mended_by_moves());
    }
}
