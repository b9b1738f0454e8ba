//! What people decide about a hand-in that the machine has marked: the tutor, a second marker, and what both agree on. Each says who,
//! when and why. Nothing is overwritten: what was decided before stays, and what stands follows from all of it.

use serde::{Deserialize, Deserializer, Serialize};

use super::hand_in::{Earned, KnownWord, outcome};
use crate::{
    exercise::{Limits, names_are_clean},
    marking::Outcome,
};

/// Whose decision it is.
#[derive(
    Debug,
    Clone,
    Copy,
    PartialEq,
    Eq,
    PartialOrd,
    Ord,
    Serialize,
    Deserialize,
    strum::IntoStaticStr,
    strum::VariantArray,
)]
#[serde(rename_all = "kebab-case")]
#[strum(serialize_all = "kebab-case")]
pub enum MarkLayer {
    /// The tutor's.
    Tutor,
    /// A second marker's. It never stands by itself: where it differs, both are to agree.
    Second,
    /// What they agreed on.
    Agreed,
}

words!(MarkLayer);

/// Marks and outcome.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct MarkGiven {
    /// Marks.
    pub marks: u32,
    /// `pass`, `not yet` or `refer`.
    #[serde(deserialize_with = "outcome")]
    pub outcome: KnownWord,
}

/// One decision, or a comment on a finding.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Decision {
    /// Whose.
    pub layer: MarkLayer,
    /// Their name.
    pub by: String,
    /// When, in UTC.
    pub at: String,
    /// Marks, if they are decided.
    pub marks: Option<u32>,
    /// The outcome, if it is decided: `pass`, `not yet` or `refer`.
    #[serde(deserialize_with = "some_outcome")]
    pub outcome: Option<KnownWord>,
    /// The finding that it is about: its code, `@` and its address.
    pub finding: Option<String>,
    /// Why.
    pub why: String,
}

/// A comment pinned to a step of the work.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct StepComment {
    /// Whose.
    pub layer: MarkLayer,
    /// Their name.
    pub by: String,
    /// When, in UTC.
    pub at: String,
    /// The step, from 1, as sheets count them.
    pub step: u32,
    /// What is said of it.
    pub why: String,
}

/// Why something is no decision.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum NotDecided {
    /// Nobody's name.
    NoName,
    /// Neither marks nor an outcome nor a finding.
    Nothing,
    /// More marks than there are.
    TooManyMarks(u32),
    /// The hand-in has no such finding; those it has.
    NoSuchFinding(Vec<String>),
    /// The work has no such step; how many it has.
    NoSuchStep(usize),
    /// A mark is changed, or something is commented on, and it is not said why.
    NoReason,
    /// A refer is lifted by one person.
    ReferNeedsTwo,
    /// An agreement with nobody: no second marker of another name has decided.
    NobodyToAgreeWith,
}

/// What stands of a hand-in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Decided {
    /// Marks and outcome.
    pub given: MarkGiven,
    /// By whom; `None`: by the machine.
    pub by: Option<MarkLayer>,
    /// Whether the second marker differs and nothing has been agreed on since.
    pub to_agree: bool,
}

/// What a learner was told.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Release {
    /// Who released it.
    pub by: String,
    /// When, in UTC.
    pub at: String,
    /// The version of the marking.
    pub marking: u32,
    /// What the machine gave then.
    pub machine: MarkGiven,
    /// What was released.
    pub given: MarkGiven,
    /// Why it was released again; empty for the first time.
    pub why: String,
}

/// What people did with a hand-in, the first thing first.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize)]
pub struct People {
    /// Decisions, and comments on findings.
    pub decisions: Vec<Decision>,
    /// Comments on steps.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub comments: Vec<StepComment>,
    /// Releases: the last is what the learner was told.
    pub releases: Vec<Release>,
}

fn some_outcome<'de, D: Deserializer<'de>>(from: D) -> Result<Option<KnownWord>, D::Error> {
    #[derive(Deserialize)]
    struct Word(#[serde(deserialize_with = "outcome")] KnownWord);
    Ok(Option::<Word>::deserialize(from)?.map(|it| it.0))
}

impl MarkGiven {
    /// The machine's.
    pub const fn of(earned: &Earned) -> Self {
        Self { marks: earned.marks, outcome: earned.outcome }
    }
}

impl Decision {
    /// Whether marks or outcome are decided.
    pub const fn decides(&self) -> bool {
        self.marks.is_some() || self.outcome.is_some()
    }

    /// What was given before, with what is decided now.
    fn over(&self, before: MarkGiven) -> MarkGiven {
        MarkGiven { marks: self.marks.unwrap_or(before.marks), outcome: self.outcome.unwrap_or(before.outcome) }
    }

    /// Whether it may be decided about work that earned this, after what was decided before.
    ///
    /// # Errors
    /// Why it may not.
    pub fn check(&self, earned: &Earned, before: &[Self]) -> Result<(), NotDecided> {
        if !names_are_clean(&self.by, Limits::NAME_CHARS) {
            return Err(NotDecided::NoName);
        }
        if !self.decides() && self.finding.is_none() {
            return Err(NotDecided::Nothing);
        }
        if self.marks.is_some_and(|it| it > earned.out_of) {
            return Err(NotDecided::TooManyMarks(earned.out_of));
        }
        let findings = || earned.faults.iter().map(|it| format!("{}@{}", it.code, it.at));
        if self.finding.as_ref().is_some_and(|finding| !findings().any(|it| it == *finding)) {
            return Err(NotDecided::NoSuchFinding(findings().collect()));
        }
        let other = |it: &&Self| it.layer == MarkLayer::Second && it.decides() && it.by.trim() != self.by.trim();
        if self.layer == MarkLayer::Agreed && !before.iter().any(|it| other(&it)) {
            return Err(NotDecided::NobodyToAgreeWith);
        }
        // A second marker decides blind, beside the machine's mark alone.
        let machine = MarkGiven::of(earned);
        let stood = if self.layer == MarkLayer::Second { machine } else { Decided::of(earned, before).given };
        let stands = self.over(stood);
        let lifts = machine.outcome == Outcome::Refer.word() && stands.outcome != machine.outcome;
        if lifts && self.layer == MarkLayer::Tutor {
            return Err(NotDecided::ReferNeedsTwo);
        }
        if (stands != stood || self.finding.is_some()) && self.why.trim().is_empty() {
            return Err(NotDecided::NoReason);
        }
        Ok(())
    }
}

impl StepComment {
    /// Checks it beside work of this many steps.
    ///
    /// # Errors
    /// Why it may not.
    pub fn check(&self, steps: usize) -> Result<(), NotDecided> {
        if !names_are_clean(&self.by, Limits::NAME_CHARS) {
            return Err(NotDecided::NoName);
        }
        if !usize::try_from(self.step).is_ok_and(|it| (1..=steps).contains(&it)) {
            return Err(NotDecided::NoSuchStep(steps));
        }
        if self.why.trim().is_empty() { Err(NotDecided::NoReason) } else { Ok(()) }
    }
}

impl Decided {
    /// What stands of work that earned this: what was agreed on, else what the tutor said, else what the machine gave.
    pub fn of(earned: &Earned, all: &[Decision]) -> Self {
        let machine = MarkGiven::of(earned);
        let (mut tutor, mut second, mut agreed, mut since) = (None, None, None, false);
        for it in all.iter().filter(|it| it.decides()) {
            since = it.layer != MarkLayer::Agreed;
            match it.layer {
                MarkLayer::Tutor => tutor = Some(it.over(tutor.unwrap_or(machine))),
                MarkLayer::Second => second = Some(it.over(second.unwrap_or(machine))),
                MarkLayer::Agreed => agreed = Some(it.over(agreed.or(tutor).unwrap_or(machine))),
            }
        }
        let (given, by) = match (agreed, tutor) {
            (Some(it), _) => (it, Some(MarkLayer::Agreed)),
            (None, Some(it)) => (it, Some(MarkLayer::Tutor)),
            (None, None) => (machine, None),
        };
        Self { given, by, to_agree: since && second.is_some_and(|it| it != tutor.unwrap_or(machine)) }
    }
}

impl People {
    /// Whether nobody did anything.
    pub fn is_empty(&self) -> bool {
        self.decisions.is_empty() && self.comments.is_empty() && self.releases.is_empty()
    }

    /// What a second marker may see who has not decided yet: what second markers said, and nothing of the tutor's.
    #[must_use]
    pub fn for_second_marker(&self) -> Self {
        let decisions = self.decisions.iter().filter(|it| it.layer == MarkLayer::Second).cloned().collect();
        let comments = self.comments.iter().filter(|it| it.layer == MarkLayer::Second).cloned().collect();
        Self { decisions, comments, releases: Vec::new() }
    }

    /// Whether a second marker of that name has given marks or an outcome.
    pub fn has_second_mark_of(&self, name: &str) -> bool {
        let theirs = |it: &&Decision| it.layer == MarkLayer::Second && it.by.trim() == name.trim();
        self.decisions.iter().filter(theirs).any(Decision::decides)
    }

    /// What the learner was told last.
    pub fn released(&self) -> Option<&Release> {
        self.releases.last()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::register::FaultFound;

    fn earned(outcome: KnownWord) -> Earned {
        let fault = FaultFound {
            code: "mark-missing",
            at: "drop/blue@switch".to_owned(),
            weight: "major",
            lost: 5,
            what: String::new(),
        };
        Earned {
            outcome,
            marks: 95,
            out_of: 100,
            criteria: Vec::new(),
            faults: vec![fault],
            unfinished: false,
            hints: 0,
        }
    }

    fn decision(layer: MarkLayer, by: &str, marks: u32, outcome: KnownWord) -> Decision {
        let (marks, outcome) = (Some(marks), Some(outcome));
        Decision { layer, by: by.to_owned(), at: String::new(), marks, outcome, finding: None, why: "seen".to_owned() }
    }

    fn stands(all: &[Decision]) -> (u32, KnownWord, Option<MarkLayer>, bool) {
        let it = Decided::of(&earned("not yet"), all);
        (it.given.marks, it.given.outcome, it.by, it.to_agree)
    }

    /// A table by hand: what was decided in turn, and what stands then.
    #[test]
    fn what_was_agreed_stands_else_what_the_tutor_said_else_the_machine() {
        use MarkLayer::{Agreed, Second, Tutor};
        let tutor = decision(Tutor, "A", 90, "pass");
        let second = decision(Second, "B", 80, "not yet");
        let same = decision(Second, "B", 90, "pass");
        let agreed = decision(Agreed, "A", 85, "pass");
        let comment = Decision { marks: None, outcome: None, ..decision(Tutor, "A", 0, "pass") };
        let all = |of: &[&Decision]| of.iter().map(|it| (*it).clone()).collect::<Vec<_>>();
        for (decided, then) in [
            (vec![], (95, "not yet", None, false)),
            (all(&[&comment]), (95, "not yet", None, false)),
            (all(&[&tutor]), (90, "pass", Some(Tutor), false)),
            (all(&[&tutor, &same]), (90, "pass", Some(Tutor), false)),
            (all(&[&tutor, &second]), (90, "pass", Some(Tutor), true)),
            (all(&[&second]), (95, "not yet", None, true)),
            (all(&[&tutor, &second, &agreed]), (85, "pass", Some(Agreed), false)),
            (all(&[&tutor, &second, &agreed, &comment]), (85, "pass", Some(Agreed), false)),
            // Said again after the agreement: that stands until there is another.
            (all(&[&tutor, &second, &agreed, &tutor]), (85, "pass", Some(Agreed), true)),
        ] {
            assert_eq!(stands(&decided), then, "{decided:?}");
        }
    }

    #[test]
    fn a_changed_mark_needs_a_reason_and_a_lifted_refer_two_people() {
        use MarkLayer::{Agreed, Second, Tutor};
        let without = |it: Decision| Decision { why: " ".to_owned(), ..it };
        let about = |it: &str| Decision {
            finding: Some(it.to_owned()),
            ..Decision { marks: None, outcome: None, ..decision(Tutor, "A", 0, "pass") }
        };
        let second = decision(Second, "B", 95, "pass");
        for (machine, it, before, is) in [
            ("not yet", decision(Tutor, "A", 90, "pass"), vec![], Ok(())),
            ("not yet", without(decision(Tutor, "A", 90, "pass")), vec![], Err(NotDecided::NoReason)),
            // To confirm what stands needs none.
            ("not yet", without(decision(Tutor, "A", 95, "not yet")), vec![], Ok(())),
            ("not yet", decision(Tutor, " ", 90, "pass"), vec![], Err(NotDecided::NoName)),
            ("not yet", decision(Tutor, "A", 101, "pass"), vec![], Err(NotDecided::TooManyMarks(100))),
            ("not yet", about("mark-missing@drop/blue@switch"), vec![], Ok(())),
            ("not yet", without(about("mark-missing@drop/blue@switch")), vec![], Err(NotDecided::NoReason)),
            (
                "not yet",
                about("mark-missing@rose"),
                vec![],
                Err(NotDecided::NoSuchFinding(vec!["mark-missing@drop/blue@switch".to_owned()])),
            ),
            ("not yet", decision(Agreed, "A", 90, "pass"), vec![], Err(NotDecided::NobodyToAgreeWith)),
            ("not yet", decision(Agreed, "B", 90, "pass"), vec![second.clone()], Err(NotDecided::NobodyToAgreeWith)),
            ("refer", decision(Tutor, "A", 95, "pass"), vec![], Err(NotDecided::ReferNeedsTwo)),
            ("refer", decision(Tutor, "A", 90, "refer"), vec![], Ok(())),
            ("refer", decision(Agreed, "A", 95, "pass"), vec![second], Ok(())),
        ] {
            assert_eq!(it.check(&earned(machine), &before), is, "{it:?}");
        }
        let comment = |by: &str, step, why: &str| {
            let (by, why) = (by.to_owned(), why.to_owned());
            StepComment { layer: Tutor, by, at: String::new(), step, why }.check(12)
        };
        for (it, is) in [
            (comment("A", 1, "seen"), Ok(())),
            (comment("A", 12, "seen"), Ok(())),
            (comment("A", 0, "seen"), Err(NotDecided::NoSuchStep(12))),
            (comment("A", 13, "seen"), Err(NotDecided::NoSuchStep(12))),
            (comment("A", 1, " "), Err(NotDecided::NoReason)),
            (comment("a/b", 1, "seen"), Err(NotDecided::NoName)),
        ] {
            assert_eq!(it, is);
        }
        let nothing = Decision { marks: None, outcome: None, ..decision(Tutor, "A", 0, "pass") };
        assert_eq!(nothing.check(&earned("pass"), &[]), Err(NotDecided::Nothing));
    }
}
