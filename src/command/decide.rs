//! `decide`: what a tutor, a second marker or both decide about a hand-in, written down beside the machine's mark; without a decision, what
//! stands and how it came about.

use std::{io, path::PathBuf};

use clap::builder::{PossibleValue, PossibleValuesParser};
use switchdrop::{
    marking::Outcome,
    register::{Decision, MarkLayer, layers_told},
    wording::Wording,
};

use super::output::Output;
use crate::{
    desk::{NotPut, decide, now},
    journal::JournalError,
    store::Store,
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
    #[arg(long, requires = "layer", value_parser = outcomes())]
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

/// The same; `not yet`, as sheets have it, is as good.
fn outcomes() -> PossibleValuesParser {
    PossibleValuesParser::new(OUTCOMES.map(|(typed, it)| PossibleValue::new(typed).alias(it.word())))
}

pub fn run(args: &Args, talk: &mut Output) -> io::Result<()> {
    if let Err(cause) = args.register.metadata() {
        talk.trouble(&JournalError::Unreadable(args.register.clone(), cause));
        return Ok(());
    }
    match decided(args, &talk.wording) {
        Ok(lines) => talk.answer(&lines.join("\n")),
        Err(trouble) => {
            let sentence = trouble.say(&talk.wording, &args.receipt);
            talk.wrong(&sentence);
            Ok(())
        }
    }
}

fn decided(args: &Args, wording: &Wording) -> Result<Vec<String>, NotPut> {
    let mut store = Store::open(&args.register).map_err(NotPut::Register)?;
    let (earned, people) = decide(&mut store, &args.receipt, decision(args))?;
    Ok(layers_told(wording, &earned, &people))
}

/// The decision that was asked for, if one was.
fn decision(args: &Args) -> Option<Decision> {
    let layer = MarkLayer::ALL.iter().copied().find(|it| Some(it.word()) == args.layer.as_deref())?;
    let outcome =
        OUTCOMES.iter().find(|it| args.outcome.as_ref().is_some_and(|typed| *typed == it.0 || *typed == it.1.word()));
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
