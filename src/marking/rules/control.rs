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
        if let Some(positions) = worst(ctx, control) {
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

/// Of the combinations in which the lamp is neither lit nor off, or from which one toggle does the wrong thing, the one that shows it
/// best: the one from which most presses of its own switches change nothing. Of equals, the one in which a light with
/// one switch is not as it should be, then the first.
fn worst(ctx: &Context<'_>, control: &Control) -> Option<Vec<u8>> {
    let rows = &ctx.survey.rows;
    let glow = |row: usize| rows[row].lamps[control.lamp.index()].glow;
    let neighbours = |row: usize, switch: usize| neighbours(ctx.exercise(), &ctx.settings, row, switch);
    let is_own = |switch: usize| control.switches.iter().any(|it| it.index() == switch);
    let is_wrong = |row: &usize| {
        glow(*row) == Glow::Dim
            || (0..ctx.exercise().switches.len())
                .any(|switch| neighbours(*row, switch).any(|there| (glow(*row) != glow(there)) != is_own(switch)))
    };
    let changes_nothing = |row: usize| {
        let own =
            control.switches.iter().filter(|it| neighbours(row, it.index()).any(|there| glow(row) == glow(there)));
        own.count()
    };
    let is_odd = |row: usize| match control.switches[..] {
        [only] => {
            (glow(row) == Glow::Lit)
                != ctx.exercise().switches[only].way.is_down(usize::from(ctx.settings[row][only.index()]))
        }
        _ => false,
    };
    let best = (0..rows.len()).filter(is_wrong).rev().max_by_key(|it| (changes_nothing(*it), is_odd(*it)));
    best.map(|it| ctx.settings[it].clone())
}
