//! `connection-slack`: every screw is tight on what it holds (BS 7671 526.1, 134.1.4). Critical where it holds a cpc and
//! there is metal to touch.

use crate::{
    circuit::{Reach, exposed_metal},
    marking::{
        code::{Code, Weight},
        context::Context,
        finding::Draft,
    },
    work::{Edit, Point, Subject},
};

pub(super) fn check(ctx: &Context<'_>, found: &mut Vec<Draft>) {
    let (work, exercise) = (&ctx.work, ctx.exercise());
    let metal = exposed_metal(exercise);
    for (terminal, it) in exercise.terminals.with_ids() {
        let mut ends = work.ends_in(terminal).peekable();
        if ends.peek().is_none() || work.is_tight(terminal) {
            continue;
        }
        let near_metal = metal.iter().any(|metal| exercise.terminals[*metal].location == it.location);
        let holds_cpc = ends.any(|end| work.end_facts(end).colour.is_protective());
        let reach = ctx.reach(Point::Terminal(terminal));
        let about = match (holds_cpc, reach) {
            (false, Reach { line: true, .. }) => "line",
            (false, Reach { neutral: true, .. }) => "neutral",
            (true, _) | (_, Reach { earth: true, .. }) => "protective",
            _ => "",
        };
        let weight = if holds_cpc && near_metal { Weight::Critical } else { Weight::Major };
        let draft = Draft::new(Code::ConnectionSlack, Subject::Terminal(terminal), weight).about(about);
        found.push(draft.mended_by(Edit::Tighten(terminal)));
    }
}
