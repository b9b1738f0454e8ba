//! `control-wrong`, and `lampholder-live` for a light that never goes out: every toggle of a control's switches changes its lamp between lit and off, and nothing else does.
//!
//! For n switches that is the parity of their positions, the theorem of n-way lighting (Shannon, A Symbolic Analysis of
//! Relay and Switching Circuits, 1938).

use crate::{
    circuit::{Glow, Witness},
    exercise::Control,
    marking::{
        code::{Code, Weight},
        context::Context,
        finding::{Draft, Seen},
        repair::neighbours,
    },
    work::Subject,
};

pub(super) fn check(ctx: &Context<'_>, found: &mut Vec<Draft>) {
    for control in &ctx.exercise().controls {
        if let Some(positions) = first_wrong(ctx, control) {
            let at = Subject::Lamp(control.lamp);
            let witness = Witness { positions, ..Witness::default() };
            let seen = Seen::InCase(witness);
            // A light that its one switch never puts out is live with the switch off.
            let lit = ctx.survey.rows.iter().all(|it| it.lamps[control.lamp.index()].glow == Glow::Lit);
            if lit && control.switches.len() == 1 {
                let draft = Draft::new(Code::LampholderLive, at, Weight::Critical);
                found.push(draft.seen(seen.clone()).mended_by_moves());
            }
            found.push(Draft::new(Code::ControlWrong, at, Weight::Major).seen(seen).mended_by_moves());
        }
    }
}

/// The first combination in which the lamp is neither lit nor off, or from which one toggle does the wrong thing.
fn first_wrong(ctx: &Context<'_>, control: &Control) -> Option<Vec<u8>> {
    let rows = &ctx.survey.rows;
    let glow = |row: usize| rows[row].lamps[control.lamp.index()].glow;
    let wrong = |here: &usize| {
        let setting = &ctx.settings[*here];
        glow(*here) == Glow::Dim
            || (0..ctx.exercise().switches.len()).any(|switch| {
                let must_change = control.switches.iter().any(|it| it.index() == switch);
                neighbours(ctx.exercise(), &ctx.settings, setting, switch)
                    .any(|there| (glow(*here) != glow(there)) != must_change)
            })
    };
    (0..rows.len()).find(wrong).map(|it| ctx.settings[it].clone())
}
