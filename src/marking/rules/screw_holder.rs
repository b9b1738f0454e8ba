//! `outer-contact-line`: the outer contact of a screw lampholder goes to the neutral (BS 7671 643.6, 559.5.1.206). Only
//! advice for the kind whose shell makes contact at the last turn (BS EN 60238), the one kind that we have.

use crate::{
    marking::{
        code::{Code, Weight},
        context::Context,
        finding::Draft,
    },
    trade::accessory::Holder,
    work::{Point, Subject},
};

pub(super) fn check(ctx: &Context<'_>, found: &mut Vec<Draft>) {
    let lamps = ctx.exercise().lamps.with_ids();
    for (id, lamp) in lamps.filter(|it| it.1.holder == Holder::Screw) {
        let [centre, outer] = lamp.contacts.map(|it| ctx.reach(Point::Terminal(it)));
        if outer.line && !centre.line {
            found.push(Draft::new(Code::OuterContactLine, Subject::Lamp(id), Weight::Advice));
        }
    }
}
