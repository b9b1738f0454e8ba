//! `box-too-shallow`: a back box at least as deep as its accessory asks (makers' sheets). Advice: the box was there before
//! the learner came, and what was wrong then costs nothing by itself.

use crate::{
    exercise::LocationKind,
    marking::{
        code::{Code, Weight},
        context::Context,
        finding::Draft,
    },
    work::Subject,
};

pub(super) fn check(ctx: &Context<'_>, found: &mut Vec<Draft>) {
    for (location, place) in ctx.exercise().locations.with_ids() {
        let LocationKind::Box(it) = &place.kind else { continue };
        if it.plate.ways.iter().any(|way| way.box_mm > it.depth_mm) {
            found.push(Draft::new(Code::BoxTooShallow, Subject::Location(location), Weight::Advice));
        }
    }
}
