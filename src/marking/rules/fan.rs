//! `fan-wrong`: a fan with a timer has its permanent line, starts with its light, and is dead with its isolator off.
//!
//! Permanent line, switched line and neutral, all opened by the isolator or at least both lines (makers' sheets).

use crate::{
    circuit::{Glow, Joined, Witness},
    marking::{
        code::{Code, Weight},
        context::Context,
        finding::{Draft, Seen},
        repair::fan_is_right,
    },
    work::Subject,
};

pub(super) fn check(ctx: &Context<'_>, found: &mut Vec<Draft>) {
    for (index, fan) in ctx.exercise().fans.iter().enumerate() {
        let wrong = ctx.survey.rows.iter().find(|row| {
            let lit = row.lamps[fan.with.index()].glow == Glow::Lit;
            let mut joined = Joined::new(&ctx.work, &row.positions);
            !fan_is_right(&ctx.work, &mut joined, fan, &row.positions, lit)
        });
        if let Some(row) = wrong {
            let witness = Witness { positions: row.positions.clone(), ..Witness::default() };
            let draft = Draft::new(Code::FanWrong, Subject::Fan(index), Weight::Major);
            found.push(draft.seen(Seen::InCase(witness)).mended_by_moves());
        }
    }
}
