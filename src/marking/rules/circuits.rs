//! `circuits-joined` and `borrowed-neutral`: each final circuit is electrically separate, its neutral too
//! (BS 7671 314.4; number from memory).

use crate::{
    circuit::{Joined, Witness},
    exercise::{DeviceId, LampId, TerminalId},
    marking::{
        code::{Code, Weight},
        context::Context,
        finding::{Draft, Seen},
    },
    work::{Point, Subject},
};

pub(super) fn check(ctx: &Context<'_>, found: &mut Vec<Draft>) {
    let (work, exercise) = (&ctx.work, ctx.exercise());
    let mut add = |code, at: Subject, positions: &[u8]| {
        let draft = Draft::new(code, at, Weight::Critical);
        if !found.iter().any(|it| it.key() == draft.key()) {
            let witness = Witness { positions: positions.to_vec(), ..Witness::default() };
            found.push(draft.seen(Seen::InCase(witness)).mended_by_moves());
        }
    };
    let lasting = Joined::new(work, &[]);
    for positions in &ctx.survey.distinct {
        let mut joined = lasting.and_closed(work, positions);
        let mut same = |a: TerminalId, b: TerminalId| joined.same(work, Point::Terminal(a), Point::Terminal(b));
        for (index, one) in exercise.devices.iter().enumerate() {
            for (id, other) in (0..).map(DeviceId).zip(&exercise.devices).skip(index + 1) {
                if same(one.line, other.line) || same(one.neutral, other.neutral) {
                    add(Code::CircuitsJoined, Subject::Device(id), positions);
                }
            }
        }
        for (id, lamp) in (0..).map(LampId).zip(&exercise.lamps) {
            let [a, b] = lamp.contacts;
            for one in &exercise.devices {
                for other in exercise.devices.iter().filter(|it| it.address != one.address) {
                    let borrowed = [(a, b), (b, a)]
                        .into_iter()
                        .any(|(line, neutral)| same(line, one.line) && same(neutral, other.neutral));
                    // A neutral that is the one circuit's as well is no loan but a join, found above.
                    if borrowed && !same(one.neutral, other.neutral) {
                        add(Code::BorrowedNeutral, Subject::Lamp(id), positions);
                    }
                }
            }
        }
    }
}
