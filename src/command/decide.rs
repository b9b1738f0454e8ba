//! `decide`: what a tutor, a second marker or both decide about a hand-in, written down beside the machine's mark; without a decision, what
//! stands and how it came about.

use std::{io, path::PathBuf};

use clap::builder::PossibleValuesParser;
use switchdrop::{
    marking::Outcome,
    register::{Decision, HandIn, MarkLayer, NotDecided, layers_told},
    wording::Wording,
};

use super::{kept::now, output::Output};
use crate::{
    journal::JournalError,
    store::{Store, StoreError},
};

#[derive(Debug, clap::Args)]
pub struct Args {
    /// The register in which `review --register` kept the hand-in
    register: PathBuf,
    /// The short code of its receipt, as the review says it
    receipt: String,
    /// Whose decision it is: the tutor's, a second marker's, or what both agreed on
    #[arg(long = "as", value_name = "LAYER", requires = "by", value_parser = PossibleValuesParser::new(MarkLayer::ALL.iter().map(|it| it.word())))]
    layer: Option<String>,
    /// The name of who decides
    #[arg(long, value_name = "NAME", requires = "layer")]
    by: Option<String>,
    /// The marks that are given
    #[arg(long, value_name = "N", requires = "layer")]
    marks: Option<u32>,
    /// The outcome that is given
    #[arg(long, requires = "layer", value_parser = PossibleValuesParser::new(OUTCOMES.map(|it| it.0)))]
    outcome: Option<String>,
    /// The finding that is commented on: its code, `@` and its address
    #[arg(long, value_name = "CODE@PLACE", requires = "layer")]
    finding: Option<String>,
    /// Why; a changed mark needs it
    #[arg(long, value_name = "TEXT", requires = "layer")]
    why: Option<String>,
}

/// Outcomes as they are typed.
const OUTCOMES: [(&str, Outcome); 3] =
    [("pass", Outcome::Pass), ("not-yet", Outcome::NotYet), ("refer", Outcome::Refer)];

/// What keeps a decision from being written.
enum Trouble {
    Store(StoreError),
    Said(String),
}

pub fn run(args: &Args, talk: &mut Output) -> io::Result<()> {
    if let Err(cause) = args.register.metadata() {
        talk.trouble(&JournalError::Unreadable(args.register.clone(), cause));
        return Ok(());
    }
    match decided(args, &talk.wording) {
        Ok(lines) => talk.answer(&lines.join("\n")),
        Err(trouble) => {
            let sentence = match trouble {
                Trouble::Store(it) => it.say(&talk.wording),
                Trouble::Said(it) => it,
            };
            talk.wrong(&sentence);
            Ok(())
        }
    }
}

fn decided(args: &Args, wording: &Wording) -> Result<Vec<String>, Trouble> {
    let said = |key: &str| Trouble::Said(wording.say(key, &[("receipt", &args.receipt)]));
    let mut store = Store::open(&args.register).map_err(Trouble::Store)?;
    let found = store.of_receipt(args.receipt.trim()).map_err(Trouble::Store)?;
    let (attempt, text) = found.ok_or_else(|| said("decide-unknown"))?;
    let hand_in: HandIn = serde_json::from_str(&text).map_err(|_| said("decide-unknown"))?;
    let earned = hand_in.earned.ok_or_else(|| said("decide-does-not-count"))?;
    let mut people = store.people(&attempt).map_err(Trouble::Store)?;
    if let Some(it) = decision(args) {
        it.check(&earned, &people.decisions).map_err(|it| Trouble::Said(why_not(wording, &it)))?;
        store.decide(&attempt, &it).map_err(Trouble::Store)?;
        people.decisions.push(it);
    }
    Ok(layers_told(wording, &earned, &people))
}

/// The decision that was asked for, if one was.
fn decision(args: &Args) -> Option<Decision> {
    let layer = MarkLayer::ALL.iter().copied().find(|it| Some(it.word()) == args.layer.as_deref())?;
    let outcome = OUTCOMES.iter().find(|it| Some(it.0) == args.outcome.as_deref());
    Some(Decision {
        layer,
        by: args.by.clone().unwrap_or_default(),
        at: now(),
        marks: args.marks,
        outcome: outcome.map(|it| it.1.word()),
        finding: args.finding.clone(),
        why: args.why.clone().unwrap_or_default(),
    })
}

fn why_not(wording: &Wording, why: &NotDecided) -> String {
    match why {
        NotDecided::NoName => wording.say("decide-no-name", &[]),
        NotDecided::Nothing => wording.say("decide-nothing", &[]),
        NotDecided::TooManyMarks(most) => wording.say("decide-too-many-marks", &[("most", &most.to_string())]),
        NotDecided::NoSuchFinding(all) => wording.say("decide-no-such-finding", &[("findings", &all.join(", "))]),
        NotDecided::NoReason => wording.say("decide-no-reason", &[]),
        NotDecided::ReferNeedsTwo => wording.say("decide-refer-needs-two", &[]),
        NotDecided::NobodyToAgreeWith => wording.say("decide-nobody-to-agree-with", &[]),
    }
}
