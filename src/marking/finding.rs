//! A finding: what is wrong, where, what shows it, and what would put it right.

use super::code::{Code, Criterion, Weight};
use crate::{
    circuit,
    work::{Edit, Subject},
};

/// Something found, as it stands on the sheet.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Finding {
    /// What is wrong.
    pub code: Code,
    /// What it is about: a place, a stage, a line of the test sheet.
    pub at: Subject,
    /// How much it matters: a cause as much as the heaviest of what follows from it.
    pub weight: Weight,
    /// The criterion under which it is charged: that of the heaviest of what follows from it, if that is heavier than itself.
    pub charged: Criterion,
    /// Marks lost by it.
    pub lost: u32,
    /// Whether it would have cost more, had its criterion had more marks left.
    pub capped: bool,
    /// Whether it is a cause or follows from one.
    pub root: Root,
    /// Whether it was so before the learner came, or follows from what was: it costs nothing.
    pub before: bool,
    /// Whether it shows only once what stands before it on the sheet is put right: behind a short, say.
    pub hidden: bool,
    /// What shows it.
    pub seen: Seen,
    /// Edits of the work that would clear it, if any are known.
    pub repair: Option<Vec<Edit>>,
    /// What it is about besides the place: the job a conductor really has, for instance, as a word of the catalogue.
    pub about: &'static str,
}

/// A cause, or what follows from one.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Root {
    /// A cause: marks are lost here.
    Itself,
    /// Follows from the finding at this place in the list: costs nothing.
    Of(usize),
}

/// What shows a finding.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Seen {
    /// It can be seen by looking.
    ByEye,
    /// It shows in this case.
    InCase(circuit::Witness),
    /// It was done by this action of the log, from 0.
    InAction(usize),
}

/// A finding before marks and roots.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Draft {
    pub code: Code,
    pub at: Subject,
    pub weight: Weight,
    pub seen: Seen,
    pub repair: Repair,
    pub about: &'static str,
}

/// How a rule says what would put its finding right.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Repair {
    /// It knows no edit that would.
    None,
    /// These edits.
    Edits(Vec<Edit>),
    /// The fewest moved ends after which every control is right and sound; failing that, these.
    FewestMoves(Vec<Edit>),
}

impl Draft {
    pub fn new(code: Code, at: Subject, weight: Weight) -> Self {
        Self { code, at, weight, seen: Seen::ByEye, repair: Repair::None, about: "" }
    }

    pub fn seen(self, seen: Seen) -> Self {
        Self { seen, ..self }
    }

    pub fn mended_by(self, edit: Edit) -> Self {
        Self { repair: Repair::Edits(vec![edit]), ..self }
    }

    pub fn mended_by_all(self, edits: Vec<Edit>) -> Self {
        Self { repair: Repair::Edits(edits), ..self }
    }

    pub fn mended_by_moves(self) -> Self {
        Self { repair: Repair::FewestMoves(Vec::new()), ..self }
    }

    pub fn about(self, about: &'static str) -> Self {
        Self { about, ..self }
    }

    /// What tells one finding from another.
    pub fn key(&self) -> (Code, Subject) {
        (self.code, self.at)
    }
}
