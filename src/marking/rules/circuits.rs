//! `circuits-joined` and `borrowed-neutral`: each final circuit is electrically separate, its neutral too
//! (BS 7671 314.4; number from memory).

use crate::{
    circuit::{Joined, Witness},
    marking::{
        code::{Code, Weight},
        context::Context,
        finding::{Draft, Seen},
    },
    work::Subject,
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
        let devices: Vec<[usize; 2]> =
            exercise.devices.iter().map(|device| [device.line, device.neutral].map(|it| joined.root(it))).collect();
        for (index, one) in devices.iter().enumerate() {
            for (id, other) in exercise.devices.ids().zip(&devices).skip(index + 1) {
                if one[0] == other[0] || one[1] == other[1] {
                    add(Code::CircuitsJoined, Subject::Device(id), positions);
                }
            }
        }
        for (id, lamp) in exercise.lamps.with_ids() {
            let [a, b] = lamp.contacts.map(|it| joined.root(it));
            for (line, neutral) in [(a, b), (b, a)] {
                for (one, of_one) in devices.iter().enumerate().filter(|it| it.1[0] == line) {
                    let mut others = devices.iter().enumerate().filter(|it| it.0 != one && it.1[1] == neutral);
                    // A neutral that is also this circuit's own is not borrowed but joined, and was found above.
                    if others.any(|it| it.1[1] != of_one[1]) {
                        add(Code::BorrowedNeutral, Subject::Lamp(id), positions);
                    }
                }
            }
        }
    }
}
