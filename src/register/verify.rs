//! A bundle verified: each attempt marked again, and what came of it laid beside what the bundle has.

use serde_json::Value;

use super::{
    bundle::{Bundle, BundlePart, BundledWork, Layers, exercise_text, sheet_text},
    decision::MarkGiven,
    hand_in::Earned,
};
use crate::{attempt::sha256, report::Marked, wording::Wording};

/// How a piece of work in a bundle differs from what comes of its attempt.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Differs {
    /// A part is not there.
    Missing(BundlePart),
    /// A part is not the one that the list names.
    Changed(BundlePart),
    /// A part can't be read: why, in words.
    Unreadable(BundlePart, String),
    /// The attempt is not the one that the list tells of: another learner, exercise, try or receipt.
    OtherWork,
    /// The exercise beside the attempt is not the attempt's.
    OtherExercise,
    /// Marking again gives another sheet: in these of its fields, or the same written otherwise.
    OtherSheet(Vec<String>),
    /// What stands does not follow from the decisions and the machine's mark.
    OtherLayers,
    /// A release of this marking names another mark of the machine's than it gives.
    OtherRelease,
}

/// What a sheet says of the work. All else says which file was marked, by whom, and by which program.
const MARK: [&str; 7] = ["outcome", "unmet", "marks", "out_of", "hints", "criteria", "findings"];

/// A piece of work verified.
#[derive(Debug)]
pub struct Verified {
    /// What the machine gives today; `None`: the attempt can't be marked.
    pub machine: Option<MarkGiven>,
    /// How it differs; nothing: all of it is reproduced, byte for byte.
    pub differs: Vec<Differs>,
}

impl Verified {
    /// Whether the mark is the same, whatever else is not.
    pub fn same_mark(&self) -> bool {
        let is_mark = |it: &Differs| match it {
            Differs::OtherSheet(fields) => fields.iter().any(|it| MARK.contains(&it.as_str())),
            Differs::Missing(part) | Differs::Changed(part) | Differs::Unreadable(part, _) => {
                *part != BundlePart::Layers
            }
            Differs::OtherWork | Differs::OtherExercise => true,
            Differs::OtherLayers | Differs::OtherRelease => false,
        };
        self.machine.is_some() && !self.differs.iter().any(is_mark)
    }

    /// One sentence for each difference.
    pub fn told(&self, wording: &Wording) -> Vec<String> {
        self.differs.iter().map(|it| it.say(wording)).collect()
    }
}

impl Differs {
    fn say(&self, wording: &Wording) -> String {
        let part = |of: BundlePart| wording.say(&format!("bundle-{}", of.word()), &[]);
        match self {
            Self::Missing(of) => wording.say("verify-missing", &[("part", &part(*of))]),
            Self::Changed(of) => wording.say("verify-changed", &[("part", &part(*of))]),
            Self::Unreadable(of, why) => wording.say("verify-unreadable", &[("part", &part(*of)), ("why", why)]),
            Self::OtherWork => wording.say("verify-other-work", &[]),
            Self::OtherExercise => wording.say("verify-other-exercise", &[]),
            Self::OtherSheet(fields) if fields.is_empty() => wording.say("verify-other-letters", &[]),
            Self::OtherSheet(fields) => wording.say("verify-other-sheet", &[("fields", &fields.join(", "))]),
            Self::OtherLayers => wording.say("verify-other-layers", &[]),
            Self::OtherRelease => wording.say("verify-other-release", &[]),
        }
    }
}

impl BundledWork {
    /// Lays the parts of this work, which stands at that place of the list, beside what comes of its attempt. `part`: the bytes of a part, or why
    /// they can't be had. `mark`: marks an attempt by the templates of the assignment, with no clock at hand; or why it can't be marked.
    pub fn verify(
        &self,
        place: usize,
        of: &Bundle,
        part: impl Fn(BundlePart) -> Result<Vec<u8>, Differs>,
        mark: impl FnOnce(Vec<u8>) -> Result<Marked, String>,
        wording: &Wording,
    ) -> Verified {
        let mut differs = Vec::new();
        let mut had = |which: BundlePart| match part(which) {
            Ok(bytes) => {
                if sha256(&bytes) != self.sha256.of(which) {
                    differs.push(Differs::Changed(which));
                }
                Some(bytes)
            }
            Err(trouble) => {
                differs.push(trouble);
                None
            }
        };
        let [attempt, exercise, sheet, layers] =
            [BundlePart::Attempt, BundlePart::Exercise, BundlePart::Sheet, BundlePart::Layers].map(&mut had);
        let marked = match attempt.map(mark) {
            Some(Ok(it)) => it,
            Some(Err(why)) => {
                differs.push(Differs::Unreadable(BundlePart::Attempt, why));
                return Verified { machine: None, differs };
            }
            None => return Verified { machine: None, differs },
        };
        if !self.is_of(of, &marked) {
            differs.push(Differs::OtherWork);
        }
        if exercise.is_some_and(|it| it != exercise_text(&marked).into_bytes()) {
            differs.push(Differs::OtherExercise);
        }
        if let (Some(sheet), Ok(now)) = (&sheet, sheet_text(&marked, place)) {
            differs.extend(sheet_differs(sheet, &now));
        }
        let earned = Earned::of(&marked, wording);
        let machine = MarkGiven::of(&earned);
        if let Some(bytes) = layers {
            differs.extend(layers_differ(&bytes, &earned, of.marking));
        }
        Verified { machine: Some(machine), differs }
    }

    /// Whether this is what the list tells of the attempt.
    fn is_of(&self, bundle: &Bundle, marked: &Marked) -> bool {
        let header = &marked.opened.header;
        let assigned = header
            .assigned
            .as_ref()
            .is_some_and(|it| (it.learner, it.nth, &it.assignment) == (self.learner, self.nth, &bundle.assignment));
        assigned && header.scenario == self.exercise && marked.receipt.as_deref().unwrap_or_default() == self.receipt
    }
}

/// The fields of ours in which two sheets differ; none: the same is written otherwise.
fn sheet_differs(then: &[u8], now: &str) -> Option<Differs> {
    if then == now.as_bytes() {
        return None;
    }
    let Ok(Value::Object(then)) = serde_json::from_slice(then) else {
        return Some(Differs::OtherSheet(MARK.map(str::to_owned).to_vec()));
    };
    let now: Value = serde_json::from_str(now).unwrap_or_default();
    let now = now.as_object().cloned().unwrap_or_default();
    // Fields that no sheet has are not repeated: they may be anything.
    Some(Differs::OtherSheet(now.into_iter().filter(|(key, it)| then.get(key) != Some(it)).map(|it| it.0).collect()))
}

fn layers_differ(then: &[u8], earned: &Earned, marking: u32) -> Vec<Differs> {
    let Ok(read) = serde_json::from_slice::<Layers>(then) else { return vec![Differs::OtherLayers] };
    let follows = read.again(earned).text().is_ok_and(|it| it.as_bytes() == then);
    let machine = MarkGiven::of(earned);
    let released = read.releases.iter().all(|it| it.marking != marking || it.machine == machine);
    let layers = (!follows).then_some(Differs::OtherLayers);
    layers.into_iter().chain((!released).then_some(Differs::OtherRelease)).collect()
}
