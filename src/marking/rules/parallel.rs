//! `cores-parallel`: two cores of one cable joined at both ends do one job between them. Common practice, no source:
//! advice.

use crate::{
    exercise::EndId,
    marking::{
        code::{Code, Weight},
        context::Context,
        finding::Draft,
    },
    work::Subject,
};

pub(super) fn check(ctx: &Context<'_>, found: &mut Vec<Draft>) {
    let work = &ctx.work;
    for cable in &ctx.exercise().cables {
        let cores: Vec<usize> = (cable.first_conductor..cable.first_conductor + cable.kind.cores().len())
            .filter(|it| !ctx.exercise().conductors[*it].colour.is_protective())
            .collect();
        for (place, a) in cores.iter().enumerate() {
            for b in &cores[place + 1..] {
                let together = EndId::of(*a)
                    .into_iter()
                    .zip(EndId::of(*b))
                    .all(|(a, b)| work.terminal_of(a).is_some() && work.terminal_of(a) == work.terminal_of(b));
                if together {
                    let at = Subject::Conductor(work.wire(*b));
                    found.push(Draft::new(Code::CoresParallel, at, Weight::Advice));
                }
            }
        }
    }
}
