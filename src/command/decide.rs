//! `decide`: what a tutor, a second marker or both decide about a hand-in, written down beside the machine's mark; without a decision, what
//! stands and how it came about.

use std::{io, path::PathBuf};

use clap::builder::{PossibleValue, PossibleValuesParser};
use switchdrop::{
    marking::Outcome,
    register::{Decision, MarkLayer, PHRASES, PhraseBank, StepComment, layers_told, second_told},
    wording::Wording,
};

use super::output::Output;
use crate::{
    desk::{NotPut, comment, decide, now},
    journal::{JournalError, read_tutors},
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
    /// The step that is commented on, as sheets count them
    #[arg(long, value_name = "N", requires = "layer", conflicts_with_all = ["marks", "outcome", "finding"])]
    step: Option<u32>,
    /// Why; a changed mark needs it
    #[arg(long, value_name = "TEXT", requires = "layer")]
    why: Option<String>,
    /// A phrase of the bank, by its key, before what `--why` says; may be given several times
    #[arg(long = "phrase", value_name = "KEY", requires = "layer")]
    said: Vec<String>,
    /// The bank of phrases, a file of your own; without it, the one that comes with the program
    #[arg(long, value_name = "FILE", requires = "said")]
    phrases: Option<PathBuf>,
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
    let Some(why) = reason(args, talk) else { return Ok(()) };
    match decided(args, why, &talk.wording) {
        Ok(lines) => talk.answer(&lines.join("\n")),
        Err(trouble) => {
            let sentence = trouble.say(&talk.wording, &args.receipt);
            talk.wrong(&sentence);
            Ok(())
        }
    }
}

/// Why, in the words of the phrases and in those that were typed; `None`: it has been said what is wrong with the phrases.
fn reason(args: &Args, talk: &mut Output) -> Option<String> {
    let typed = args.why.clone().unwrap_or_default();
    if args.said.is_empty() {
        return Some(typed);
    }
    let (named, bank) = match &args.phrases {
        Some(path) => (path.display().to_string(), read_tutors(path, PhraseBank::read)),
        None => (
            talk.wording.say("decide-own-phrases", &[]),
            PhraseBank::read(PHRASES).map_err(|problems| JournalError::Wrong {
                path: "phrases.ron".into(),
                text: PHRASES.to_owned(),
                problems,
            }),
        ),
    };
    let bank = bank.map_err(|it| talk.trouble(&it)).ok()?;
    let mut words = Vec::new();
    for key in &args.said {
        let Some(it) = bank.get(key) else {
            let keys = bank.keys().collect::<Vec<_>>().join(", ");
            let sentence = talk.wording.say("decide-no-phrase", &[("key", key), ("bank", &named), ("keys", &keys)]);
            talk.wrong(&sentence);
            return None;
        };
        words.push(it);
    }
    words.push(typed.trim());
    words.retain(|it| !it.is_empty());
    Some(words.join(" "))
}

fn decided(args: &Args, why: String, wording: &Wording) -> Result<Vec<String>, NotPut> {
    let mut store = Store::open(&args.register).map_err(NotPut::Register)?;
    let (earned, people) = match (args.step, layer(args)) {
        (Some(step), Some(layer)) => {
            let by = args.by.clone().unwrap_or_default();
            comment(&mut store, &args.receipt, StepComment { layer, by, at: now(), step, why })?
        }
        _ => decide(&mut store, &args.receipt, decision(args, why))?,
    };
    // A second marker decides blind.
    let by = args.by.as_deref().unwrap_or_default();
    if layer(args) == Some(MarkLayer::Second) && !people.has_second_mark_of(by) {
        let told = second_told(wording, &earned, &people);
        return Ok(told.into_iter().chain([wording.say("layer-second-first", &[])]).collect());
    }
    Ok(layers_told(wording, &earned, &people))
}

fn layer(args: &Args) -> Option<MarkLayer> {
    MarkLayer::ALL.iter().copied().find(|it| Some(it.word()) == args.layer.as_deref())
}

/// The decision that was asked for, if one was.
fn decision(args: &Args, why: String) -> Option<Decision> {
    let layer = layer(args)?;
    let outcome =
        OUTCOMES.iter().find(|it| args.outcome.as_ref().is_some_and(|typed| *typed == it.0 || *typed == it.1.word()));
    Some(Decision {
        layer,
        by: args.by.clone().unwrap_or_default(),
        at: now(),
        marks: args.marks,
        outcome: outcome.map(|it| it.1.word()),
        finding: args.finding.clone(),
        why,
    })
}
