//! `neutral-earth-exchanged`, `load-through-earth`, `neutral-earth-joined`: what a load takes comes back by its neutral, and neutral
//! and earth meet at the supply alone (BS 7671 411.3.1.1, 543.4.1; the second from memory). All critical, whatever the load takes
//! and whatever device stands in front of it: what a protective conductor carries every day stands on every metal that it earths,
//! and opens beside somebody's hand.

use crate::{
    circuit::{Joined, Witness},
    exercise::{EndId, LocationId, TerminalId},
    marking::{
        code::{Code, Weight},
        context::Context,
        finding::{Draft, Seen},
    },
    work::{Edit, Load, Point, Subject, Work},
};

pub(super) fn check(ctx: &Context<'_>, found: &mut Vec<Draft>) {
    let work = &ctx.work;
    let mut add = |draft: Draft, positions: &[u8]| {
        if !found.iter().any(|it| it.key() == draft.key()) {
            let witness = Witness { positions: positions.to_vec(), ..Witness::default() };
            found.push(draft.seen(Seen::InCase(witness)));
        }
    };
    let lasting = Joined::new(work, &[]);
    for positions in &ctx.survey.distinct {
        let mut joined = lasting.and_closed(work, positions);
        if let Some(end) = joins_neutral_to_earth(work, positions, &mut joined) {
            let draft = Draft::new(Code::NeutralEarthJoined, work.subject_of(end), Weight::Critical);
            add(draft.mended_by_moves(), positions);
        }
        for load in work.loads() {
            if !returns_by_earth(work, &mut joined, load) {
                continue;
            }
            let draft = match exchanged(work, positions, load) {
                Some((at, edits)) => Draft::new(Code::NeutralEarthExchanged, Subject::Location(at), Weight::Critical)
                    .mended_by_all(edits),
                None => Draft::new(Code::LoadThroughEarth, load.at, Weight::Critical).mended_by_moves(),
            };
            add(draft, positions);
        }
    }
}

/// Whether a load has a line on the one side, and on the other earth and no neutral.
fn returns_by_earth(work: &Work, joined: &mut Joined, load: Load) -> bool {
    let [a, b] = load.between;
    [(a, b), (b, a)].into_iter().any(|(line, back)| {
        let is_fed = is_on(work, joined, line, work.exercise().devices.iter().map(|it| it.line));
        is_fed && is_earthed(work, joined, back) && !is_neutral(work, joined, back)
    })
}

/// An insulated core that stands in an earth terminal and whose removal parts the neutral from the earth.
fn joins_neutral_to_earth(work: &Work, positions: &[u8], joined: &mut Joined) -> Option<EndId> {
    if !is_joined(work, joined) {
        return None;
    }
    let exercise = work.exercise();
    let stands = |end: &EndId| {
        let earth = |it: TerminalId| exercise.is_for_earth(it);
        !work.end_facts(*end).colour.is_protective() && work.terminal_of(*end).is_some_and(earth)
    };
    work.ends().filter(stands).find(|it| {
        let mut without = work.clone();
        without.edit(&Edit::Move(*it, None));
        !is_joined(&without, &mut Joined::new(&without, positions))
    })
}

/// The place where neutral and earth are in each other's terminals, and their exchange, if that brings the load its neutral.
fn exchanged(work: &Work, positions: &[u8], load: Load) -> Option<(LocationId, Vec<Edit>)> {
    let exercise = work.exercise();
    let is_protective = |it: &EndId| work.end_facts(*it).colour.is_protective();
    let earths = exercise
        .terminals
        .ids()
        .filter(|earth| exercise.is_for_earth(*earth) && work.ends_in(*earth).any(|it| !is_protective(&it)));
    earths.into_iter().find_map(|earth| {
        let at = exercise.terminals[earth].location;
        let others = exercise.terminals_at(at).filter(|it| !exercise.is_for_earth(*it));
        others.into_iter().filter(|terminal| work.ends_in(*terminal).any(|it| is_protective(&it))).find_map(|other| {
            let out = work.ends_in(earth).filter(|it| !is_protective(it)).map(|it| Edit::Move(it, Some(other)));
            let back = work.ends_in(other).filter(is_protective).map(|it| Edit::Move(it, Some(earth)));
            let edits: Vec<Edit> = out.chain(back).collect();
            let mut mended = work.clone();
            for it in &edits {
                mended.edit(it);
            }
            let mut joined = Joined::new(&mended, positions);
            (!returns_by_earth(&mended, &mut joined, load) && !is_joined(&mended, &mut joined)).then_some((at, edits))
        })
    })
}

fn is_joined(work: &Work, joined: &mut Joined) -> bool {
    work.exercise().devices.iter().any(|it| is_earthed(work, joined, it.neutral))
}

fn is_neutral(work: &Work, joined: &mut Joined, at: TerminalId) -> bool {
    is_on(work, joined, at, work.exercise().devices.iter().map(|it| it.neutral))
}

fn is_earthed(work: &Work, joined: &mut Joined, at: TerminalId) -> bool {
    is_on(work, joined, at, work.exercise().earth_bars())
}

fn is_on(work: &Work, joined: &mut Joined, at: TerminalId, mut bars: impl Iterator<Item = TerminalId>) -> bool {
    bars.any(|it| joined.same(work, Point::Terminal(at), Point::Terminal(it)))
}
