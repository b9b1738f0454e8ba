//! What people decide about a hand-in, put into the register beside the machine's mark.

use switchdrop::{
    register::{Decision, Earned, HandIn, NotDecided, People, StepComment},
    wording::Wording,
};

use crate::store::{Store, StoreError};

/// What keeps a decision from being put down.
#[derive(Debug)]
pub enum NotPut {
    /// The register knows no hand-in with that receipt.
    Unknown,
    /// The hand-in counts for nothing.
    DoesNotCount,
    /// It is no decision.
    NotDecided(NotDecided),
    /// The register can't be read or written.
    Register(StoreError),
}

impl NotPut {
    /// One sentence. `receipt`: the code that was asked for.
    pub fn say(&self, wording: &Wording, receipt: &str) -> String {
        match self {
            Self::Unknown => wording.say("decide-unknown", &[("receipt", receipt)]),
            Self::DoesNotCount => wording.say("decide-does-not-count", &[("receipt", receipt)]),
            Self::NotDecided(it) => why_not(wording, it),
            Self::Register(it) => it.say(wording),
        }
    }
}

/// Puts a decision down, if there is one: what the hand-in earned, and all that people did with it by now.
///
/// # Errors
/// Why it is not put down.
pub fn decide(store: &mut Store, receipt: &str, it: Option<Decision>) -> Result<(Earned, People), NotPut> {
    let (attempt, _, earned, mut people) = found(store, receipt)?;
    if let Some(it) = it {
        it.check(&earned, &people.decisions).map_err(NotPut::NotDecided)?;
        store.decide(&attempt, &it).map_err(NotPut::Register)?;
        people.decisions.push(it);
    }
    Ok((earned, people))
}

/// Puts a comment on a step down: what the hand-in earned, and all that people did with it by now.
///
/// # Errors
/// Why it is not put down.
pub fn comment(store: &mut Store, receipt: &str, it: StepComment) -> Result<(Earned, People), NotPut> {
    let (attempt, steps, earned, mut people) = found(store, receipt)?;
    it.check(steps).map_err(NotPut::NotDecided)?;
    store.comment(&attempt, &it).map_err(NotPut::Register)?;
    people.comments.push(it);
    Ok((earned, people))
}

/// The digest of a hand-in, how many steps it has, what it earned and what people did with it.
fn found(store: &Store, receipt: &str) -> Result<(String, usize, Earned, People), NotPut> {
    let found = store.of_receipt(receipt.trim()).map_err(NotPut::Register)?;
    let (attempt, text) = found.ok_or(NotPut::Unknown)?;
    let hand_in: HandIn = serde_json::from_str(&text).map_err(|_| NotPut::Unknown)?;
    let earned = hand_in.earned.ok_or(NotPut::DoesNotCount)?;
    let people = store.people(&attempt).map_err(NotPut::Register)?;
    Ok((attempt, hand_in.steps, earned, people))
}

/// Why something is no decision, in words.
fn why_not(wording: &Wording, why: &NotDecided) -> String {
    match why {
        NotDecided::NoName => wording.say("decide-no-name", &[]),
        NotDecided::Nothing => wording.say("decide-nothing", &[]),
        NotDecided::TooManyMarks(most) => wording.say("decide-too-many-marks", &[("most", &most.to_string())]),
        NotDecided::NoSuchFinding(all) => wording.say("decide-no-such-finding", &[("findings", &all.join(", "))]),
        NotDecided::NoSuchStep(steps) => wording.say("decide-no-such-step", &[("steps", &steps.to_string())]),
        NotDecided::NoReason => wording.say("decide-no-reason", &[]),
        NotDecided::ReferNeedsTwo => wording.say("decide-refer-needs-two", &[]),
        NotDecided::NobodyToAgreeWith => wording.say("decide-nobody-to-agree-with", &[]),
    }
}
