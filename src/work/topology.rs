//! What is joined to what in a work as it stands: the one place where it is asked.
//!
//! [`Work::joins`] lists everything that joins two points; every other view picks from it. The joined view, the groups, the
//! network, what the work says of its own ends and what a reading is of all come from here, so that they can't disagree.

use crate::{
    exercise::{EndId, HiddenFault, Join, Sets, TerminalId},
    trade::colour::Colour,
    work::{Point, Subject, Work},
};

/// Something that takes a current, or lets one be taken.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Load {
    /// A lamp, a fan, or the place of a socket-outlet.
    pub at: Subject,
    /// The two terminals between which it takes it.
    pub between: [TerminalId; 2],
}

impl Work {
    /// Lamps, the motor and the timer of fans, and socket-outlets.
    pub fn loads(&self) -> impl Iterator<Item = Load> + '_ {
        let exercise = self.exercise();
        let fixed = exercise.joins().filter_map(|(join, between)| {
            let at = match join {
                Join::Lamp(it) => Subject::Lamp(it),
                Join::Motor(it) | Join::Timer(it) => Subject::Fan(it),
                _ => return None,
            };
            Some(Load { at, between })
        });
        fixed.chain(exercise.outlets().map(|(at, between)| Load { at: Subject::Location(at), between }))
    }

    /// Number of points: terminals and then ends.
    pub fn point_count(&self) -> usize {
        self.exercise().terminals.len() + self.ends().len()
    }

    /// A point's place among terminals and then ends; that of a point of another exercise is past them all.
    pub fn node(&self, point: Point) -> usize {
        let terminals = self.exercise().terminals.len();
        match point {
            Point::Terminal(it) if it.index() >= terminals => self.point_count(),
            Point::Terminal(it) => it.index(),
            Point::End(it) => terminals + it.index(),
        }
    }

    /// Everything that joins two points, and which: conductors, then what the exercise has ([`crate::exercise::Exercise::joins`]). A fault
    /// that the exercise hides is in it: a broken core joins nothing, and two that touch are one.
    pub fn joins(&self) -> impl Iterator<Item = (Join, [usize; 2])> + '_ {
        let fault = self.exercise().hidden_fault();
        let whole = (0..self.conductor_count()).filter(move |it| !fault.is_some_and(|fault| fault.breaks(*it)));
        let conductors = whole.map(|it| (Join::Conductor(it), EndId::of(it).map(|end| self.node(self.point_of(end)))));
        let touching = fault
            .and_then(HiddenFault::touching)
            .map(|cores| (Join::Touching, cores.map(|core| self.node(self.point_of(EndId::of(core)[0])))));
        conductors
            .chain(touching)
            .chain(self.exercise().joins().map(|(join, ends)| (join, ends.map(TerminalId::index))))
    }

    /// What the joins that are picked make one.
    pub fn joined(&self, only: impl Fn(Join) -> bool) -> Sets {
        let mut sets = Sets::new(self.point_count());
        for (_, [a, b]) in self.joins().filter(|it| only(it.0)) {
            sets.join(a, b);
        }
        sets
    }

    /// Points joined by conductors, picked by their colour, and by what accessories join for good: no switch, no lamp. Plate
    /// screws are left out, since no one relies on them.
    pub(crate) fn joined_by(&self, only: impl Fn(Colour) -> bool) -> Sets {
        self.joined(|it| self.is_by(it, &only))
    }

    /// Points joined by conductors other than protective ones, and by switches set so (no lamp).
    pub(crate) fn joined_as_set(&self, positions: &[u8]) -> Sets {
        let is_closed = |it: Join| match it {
            Join::Contact { switch, position, .. } => positions.get(switch.index()) == Some(&position),
            _ => false,
        };
        self.joined(|join| self.is_by(join, &|it: Colour| !it.is_protective()) || is_closed(join))
    }

    /// The same with every switch in any of its positions: what may come to be joined.
    pub(crate) fn joined_ever(&self) -> Sets {
        self.joined(|join| self.is_by(join, &|it: Colour| !it.is_protective()) || matches!(join, Join::Contact { .. }))
    }

    fn is_by(&self, join: Join, only: &impl Fn(Colour) -> bool) -> bool {
        match join {
            Join::Conductor(it) => only(self.end_facts(EndId::of(it)[0]).colour),
            Join::Fixed(_) => true,
            _ => false,
        }
    }

    /// Whether a point is joined to the board's earth bar by protective conductors alone.
    pub fn is_earthed(&self, point: Point) -> bool {
        let mut sets = self.joined_by(Colour::is_protective);
        let node = self.node(point);
        self.exercise().earth_bars().any(|it| sets.same(node, it.index()))
    }

    /// Whether a point is on a board's earth bar.
    pub fn is_earth_bar(&self, point: Point) -> bool {
        matches!(point, Point::Terminal(it) if self.exercise().is_earth_bar(it))
    }
}
