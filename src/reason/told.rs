//! The answer: how many ways there are, what they do, and one of each kind carried out.

use super::{
    class::WayClass,
    example::Example,
    fold::PlaceFold,
    place::NO_ROOM,
    question::{Question, Unaskable},
    seen::seen,
};

/// How many ways there are of each class.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Counted {
    /// Every class that has any, in the order of the classes.
    pub classes: Vec<ClassCount>,
}

/// The ways of one class.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ClassCount {
    /// The class.
    pub class: WayClass,
    /// How many.
    pub ways: u128,
    /// How many that differ in more than which core is which.
    pub grouped: u128,
    /// Whether one of them has no more ends in any terminal than it takes: only then can it be carried out.
    pub fits: bool,
    /// One of them: for each place the terminal of each end, by number. The ends are what arrives, the conductors from the place
    /// before, and those to the next; the terminals those of the switch, in the catalogue's order, then the connectors.
    pub shown: Vec<Vec<u8>>,
}

/// A count of ways, and how many of those differ in more than which core is which.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct WayCount {
    /// All of them.
    pub ways: u128,
    /// Those that differ in more than which core is which.
    pub grouped: u128,
}

impl Counted {
    /// Every way.
    pub fn tried(&self) -> WayCount {
        self.of(|_| true)
    }

    /// Those in which every toggle of every switch changes the lamp.
    pub fn works(&self) -> WayCount {
        self.of(WayClass::works)
    }

    /// Of those, the ones with no danger that this model knows.
    pub fn safe(&self) -> WayCount {
        self.of(|it| it == WayClass::Safe)
    }

    fn of(&self, is: impl Fn(WayClass) -> bool) -> WayCount {
        let mut sum = WayCount::default();
        for it in self.classes.iter().filter(|it| is(it.class)) {
            (sum.ways, sum.grouped) = (sum.ways + it.ways, sum.grouped + it.grouped);
        }
        sum
    }
}

/// The answer with its witnesses.
#[derive(Debug, Clone)]
pub struct CoreProof {
    /// The count.
    pub counted: Counted,
    /// For each class of the count, in the same order, one way of it carried out; `None` where each has too many ends in some terminal.
    pub examples: Vec<Option<Example>>,
}

/// Why there is no answer.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum Unproved {
    /// The question can't be asked.
    #[error(transparent)]
    Unaskable(#[from] Unaskable),
    /// The example of a class could not be made: a fault of ours.
    #[error("no example of {}", .0.word())]
    NoExample(WayClass),
    /// The solver does not see the example of a class as one of it, or the joined view does not agree with the solver: a fault of ours, and
    /// no answer is better than a wrong one.
    #[error("counted as {}, seen as something else", .0.word())]
    Differs(WayClass),
}

/// Counts every way of joining. `progress` hears how many places are still to come, after each.
///
/// # Errors
/// The question can't be asked, or there is too much to tell apart.
pub fn count(question: &Question, mut progress: impl FnMut(usize)) -> Result<Counted, Unaskable> {
    question.check()?;
    let mut fold = PlaceFold::new(question);
    loop {
        let left = fold.step()?;
        progress(left);
        if left == 0 {
            break;
        }
    }
    let counts = fold.classes().into_iter();
    let count = |it: super::fold::Folded| ClassCount {
        class: it.class,
        ways: it.ways,
        grouped: it.grouped,
        fits: it.crowd < NO_ROOM,
        shown: it.shown,
    };
    Ok(Counted { classes: counts.map(count).collect() })
}

/// Counts every way of joining, carries out one of each class, and has the solver say the same of it.
///
/// # Errors
/// As [`count`]; or the solver does not say the same.
pub fn why(question: &Question, progress: impl FnMut(usize)) -> Result<CoreProof, Unproved> {
    let counted = count(question, progress)?;
    let example = |it: &ClassCount| {
        if !it.fits {
            return Ok(None);
        }
        let example = Example::new(question, &it.shown).ok_or(Unproved::NoExample(it.class))?;
        if seen(example.work()) == Some(it.class) { Ok(Some(example)) } else { Err(Unproved::Differs(it.class)) }
    };
    let examples = counted.classes.iter().map(example).collect::<Result<_, _>>()?;
    Ok(CoreProof { counted, examples })
}
