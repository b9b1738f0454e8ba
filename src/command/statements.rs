//! `statements`: what was released, as xAPI statements, one a line.

use std::io;

use switchdrop::register::{Iri, StatementIds, statements};

use super::{
    output::Output,
    review::{Handed, reviewed},
};

#[derive(Debug, clap::Args)]
pub struct Args {
    #[command(flatten)]
    handed: Handed,
    /// The address of the system whose account numbers the learners' numbers are, such as `https://accounts.example`
    #[arg(long, value_name = "ADDRESS", value_parser = iri)]
    accounts: Iri,
    /// The address that ids of activities begin with, one of your college's own, such as `https://learning.example/lights`
    #[arg(long, value_name = "ADDRESS", value_parser = iri)]
    activities: Iri,
}

fn iri(text: &str) -> Result<Iri, &'static str> {
    Iri::of(text).ok_or("expected an absolute address, such as https://college.example")
}

pub fn run(args: &Args, talk: &mut Output) -> io::Result<()> {
    if !args.handed.names_register("statements-need-register", talk) {
        return Ok(());
    }
    let Some((assignment, review)) = reviewed(&args.handed.class(), &[], talk) else { return Ok(()) };
    let ids = StatementIds { accounts: args.accounts.clone(), activities: args.activities.clone() };
    let all = statements(&talk.wording, &assignment, &review, &ids);
    if all.is_empty() {
        let sentence = talk.wording.say("statements-none", &[]);
        talk.notice(&sentence);
    }
    all.iter().try_for_each(|it| talk.answer(it))
}
