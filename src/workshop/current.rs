//! Where the current goes, once one's own power has come on: worked out for the position at hand, and what a hand would feel.
//!
//! What flows is the library's to say ([`flow`]); here it is kept as long as it holds, drawn ([`drawn`]) and told ([`beside`]).

pub mod beside;
pub mod drawn;

use bevy_egui::egui::Ui;
use switchdrop::{
    circuit::{Conditions, Flow, Touch, flow, hand_points, touch},
    picture::Thing,
    report::PositionTable,
    wording::{Wording, ways},
    work::{Action, Point, Work},
};

use super::{
    session::Session,
    trip::Way,
    view::{Pointed, Sight, View},
    walk::Walk,
};

/// No more points than this are listed for a hand.
const MOST_HANDS: usize = 24;

/// Whether it may be told what one has joined and what flows in it: not before one's own power has come on, since to find that out is the
/// work, and not while the answers of set work are withheld.
pub fn may_follow(session: &Session) -> bool {
    !session.is_withheld() && (session.is_over() || !session.attempt.tally().energised.is_empty())
}

/// A hand on something.
pub struct HandMet {
    /// On what.
    pub point: Point,
    /// What it would meet; `None`: nothing.
    pub met: Option<Touch>,
}

/// What flows as the work stands.
pub struct Current {
    /// After how many actions; and how many of them were more than working a switch.
    of: (usize, usize),
    /// What flows.
    pub flow: Flow,
    /// In sentences.
    pub said: Vec<String>,
    /// Every position, once it was asked for.
    pub table: Option<PositionTable>,
    /// Where a hand could come to, once it was asked for.
    pub hands: Vec<HandMet>,
    /// The hand on what is selected, and the way of the current to it.
    pub hand: Option<(Thing, HandMet, Way)>,
    walk: Walk,
}

impl Current {
    /// What flows now: what was known of it before, as far as that still holds.
    pub fn of(before: Option<Self>, session: &Session, wording: &Wording, view: &View) -> Option<Self> {
        if !may_follow(session) {
            return None;
        }
        let (log, work) = (session.attempt.log(), session.attempt.work());
        let wiring = log.iter().filter(|it| !matches!(it, Action::Operate { .. })).count();
        let of = (log.len(), wiring);
        let (kept, table) = match before {
            Some(it) if it.of == of => (Some(it), None),
            Some(it) if it.of.1 == wiring => (None, it.table),
            _ => (None, None),
        };
        let mut current = kept.unwrap_or_else(|| {
            let flow = flow(work, Conditions::present(work));
            let said = ways(wording, work, &flow);
            Self { of, flow, said, table, hands: Vec::new(), hand: None, walk: Walk::default() }
        });
        if view.at == Sight::Circuit && current.table.is_none() {
            current.table = Some(PositionTable::of(wording, work));
        }
        current.touch(work, view);
        Some(current)
    }

    /// What hands would feel, if that is asked.
    fn touch(&mut self, work: &Work, view: &View) {
        if !view.touches {
            (self.hands, self.hand) = (Vec::new(), None);
            return;
        }
        // A picture of the finished work: everything switched on, with the switches as they stand.
        let met = |point| {
            let conditions = Conditions::complete(work.exercise(), work.positions().to_vec());
            HandMet { point, met: touch(work, conditions, point) }
        };
        if self.hands.is_empty() {
            self.hands = hand_points(work, MOST_HANDS).into_iter().map(met).collect();
        }
        let selected = view.selected.and_then(|it| Some((it, point_of(work, it)?)));
        if self.hand.as_ref().map(|it| it.0) != selected.map(|it| it.0) {
            self.hand = selected.map(|(thing, point)| {
                let hand = met(point);
                let way = hand.met.as_ref().map_or_else(Way::default, |it| Way::of_touch(work, point, it));
                (thing, hand, way)
            });
        }
    }

    /// How far its arrows have walked, points: they walk for a while after an event and while something is pointed at that carries a
    /// current, and then stand.
    pub fn walked(&mut self, ui: &Ui, pointed: Option<&Pointed>) -> f32 {
        let carries = |conductor: &usize| self.flow.amps(*conductor) != 0.0;
        let is_pointed_at = pointed.is_some_and(|it| it.conductors.iter().any(carries));
        self.walk.on(ui, !self.flow.loops.is_empty(), is_pointed_at)
    }

    /// The conductors that carry a current.
    pub fn carrying(&self, work: &Work) -> Vec<usize> {
        (0..work.conductor_count()).filter(|it| self.flow.amps(*it) != 0.0).collect()
    }
}

/// The point of a thing that a hand can be put on.
pub fn point_of(work: &Work, thing: Thing) -> Option<Point> {
    match thing {
        Thing::Terminal(it) => Some(Point::Terminal(it)),
        Thing::End(it) => Some(work.point_of(it)),
        Thing::Conductor(it) => work.ends_of(it).map(|it| work.point_of(it[0])),
        Thing::Location(_)
        | Thing::Switch(_)
        | Thing::Lamp(_)
        | Thing::Device(_)
        | Thing::Lock(_)
        | Thing::Unmarked(_) => None,
    }
}
