//! What one learner gets: a seed that follows from the assignment's id and the learner's number, and the exercises drawn from it.

use sha2::{Digest, Sha256};

use super::{adjustment::Adjustment, assignment::Assignment};
use crate::{
    attempt::Assigned,
    exercise::{Exercise, Problems, Seed},
};

/// Version of the derivation: another one gives everybody another exercise.
const DERIVATION: u32 = 1;
/// Bytes of the digest that make a seed. Six: what reads JSON as floating point keeps such a number whole, and so does a spreadsheet.
const SEED_BYTES: usize = 6;

/// The seed of a learner in an exercise of an assignment. `draw` is 0 unless an [`Adjustment`] says otherwise.
pub fn seed_of(assignment: &str, learner: u64, exercise: &str, draw: u32) -> Seed {
    let digest = digest_of("seed", assignment, learner, exercise, draw);
    let mut bytes = [0; 8];
    bytes[..SEED_BYTES].copy_from_slice(&digest[..SEED_BYTES]);
    Seed(u64::from_le_bytes(bytes))
}

/// SHA-256 of what a derived number follows from. As with the named streams each text is preceded by its length, so that no
/// two lists of parts run together alike.
pub(super) fn digest_of(what: &str, assignment: &str, learner: u64, exercise: &str, draw: u32) -> [u8; 32] {
    let mut digest = Sha256::new();
    let mut text = |it: &str| {
        digest.update((it.len() as u64).to_le_bytes());
        digest.update(it.as_bytes());
    };
    text(what);
    text(assignment);
    text(exercise);
    digest.update(learner.to_le_bytes());
    digest.update(draw.to_le_bytes());
    digest.update(DERIVATION.to_le_bytes());
    digest.finalize().into()
}

/// What the file of a try is called. Ids have no low line in them, so that no two tries have one name.
pub fn hand_in_name(of: &Assigned, exercise: &str) -> String {
    format!("{}_{}_{exercise}_{}.attempt.ron", of.assignment, of.learner, of.nth)
}

/// Why somebody is no learner of an assignment.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NoLearner {
    /// Their number is not on the roster.
    Number,
    /// Their code is not one of theirs.
    Code,
}

/// One learner of an assignment.
#[derive(Debug, Clone)]
pub struct Learner<'a> {
    /// The assignment.
    pub assignment: &'a Assignment,
    /// Their number.
    pub number: u64,
    /// What their code says; none says nothing.
    pub adjustment: Adjustment,
    /// The code as it is written, empty without one.
    pub code: String,
}

impl<'a> Learner<'a> {
    /// The learner of that number and code.
    ///
    /// # Errors
    /// Which of the two is wrong.
    pub fn of(assignment: &'a Assignment, number: u64, code: Option<&str>) -> Result<Self, NoLearner> {
        if !assignment.has_learner(number) {
            return Err(NoLearner::Number);
        }
        let given = code.map(|it| Adjustment::of(it, &assignment.id, number).ok_or(NoLearner::Code)).transpose()?;
        let code = given.map_or_else(String::new, |it| it.code(&assignment.id, number));
        Ok(Self { assignment, number, adjustment: given.unwrap_or_default(), code })
    }

    /// What they get.
    ///
    /// # Errors
    /// As [`LearnersWork::of`].
    pub fn work(&self) -> Result<LearnersWork, Problems> {
        LearnersWork::of(self.assignment, self.number, self.adjustment)
    }

    /// Which piece of set work a try of theirs is.
    pub fn assigned(&self, nth: u32) -> Assigned {
        Assigned {
            assignment: self.assignment.id.clone(),
            sha256: self.assignment.sha256.clone(),
            learner: self.number,
            nth,
            code: self.code.clone(),
            answers: self.assignment.answers_from(self.adjustment),
        }
    }
}

/// What a learner gets.
#[derive(Debug)]
pub struct LearnersWork {
    /// Each exercise of the assignment as it is drawn for them.
    pub exercises: Vec<Exercise>,
}

impl LearnersWork {
    /// The exercises of an assignment as they are drawn for a learner, who need not be on the roster.
    ///
    /// # Errors
    /// That this draw of an exercise has something wrong with it, which `check` says of its scenario.
    pub fn of(assignment: &Assignment, learner: u64, adjustment: Adjustment) -> Result<Self, Problems> {
        let drawn = assignment.templates();
        let drawn = drawn.iter().map(|it| it.draw(seed_of(&assignment.id, learner, it.id(), adjustment.draw())));
        Ok(Self { exercises: drawn.collect::<Result<_, _>>()? })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Worked out with Python's hashlib, which shares nothing with us:
    /// `t = lambda s: struct.pack('<Q', len(s)) + s`;
    /// `sha256(t(b'seed') + t(b'autumn') + t(b'one-way-rose') + struct.pack('<QII', 7, 0, 1)).digest()[:6]`, read from its
    /// little end; the second with draw 1, the third for learner 8.
    #[test]
    fn a_seed_is_what_python_says() {
        assert_eq!(seed_of("autumn", 7, "one-way-rose", 0), Seed(261_009_390_441_272));
        assert_eq!(seed_of("autumn", 7, "one-way-rose", 1), Seed(81_629_782_014_138));
        assert_eq!(seed_of("autumn", 8, "one-way-rose", 0), Seed(51_230_233_501_495));
    }

    /// What differs in one part alone has another seed, even where the parts put together read alike.
    #[test]
    fn parts_do_not_run_together() {
        let seeds = [
            seed_of("a", 1, "bc", 0),
            seed_of("ab", 1, "c", 0),
            seed_of("a", 2, "bc", 0),
            seed_of("a", 1, "bc", 1),
            seed_of("a", 1, "bd", 0),
        ];
        for (index, seed) in seeds.iter().enumerate() {
            assert!(seed.0 < 1 << 48 && !seeds[..index].contains(seed), "{seeds:?}");
        }
    }
}
