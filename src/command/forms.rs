//! `forms`: a form for signing for each learner's work that counts, all on one page, with what the register knows filled in.

use std::{
    io,
    path::{Path, PathBuf},
};

use switchdrop::{
    register::{Assignment, Review, filled_in},
    report::{FormPart, TITLE, forms_page},
};

use super::{
    output::Output,
    review::{Handed, reviewed},
};
use crate::{
    desk::{Bench, ClassFiles},
    journal::{JournalError, write_own},
};

#[derive(Debug, clap::Args)]
pub struct Args {
    #[command(flatten)]
    handed: Handed,
    /// The HTML page to write
    #[arg(short, long, value_name = "FILE")]
    out: PathBuf,
    /// The learner of this number alone; may be given several times
    #[arg(long, value_name = "NUMBER")]
    learner: Vec<u64>,
    /// Which outcome of a unit each criterion speaks to
    #[arg(long, value_name = "FILE")]
    outcomes: Option<PathBuf>,
}

pub fn run(args: &Args, talk: &mut Output) -> io::Result<()> {
    let class = ClassFiles { outcomes: args.outcomes.clone(), ..args.handed.class() };
    let Some((assignment, review)) = reviewed(&class, &[&args.out], talk) else { return Ok(()) };
    let parts = match parts(args, &class, &assignment, &review, talk) {
        Ok(it) if it.is_empty() => {
            let sentence = talk.wording.say("forms-nothing", &[]);
            talk.wrong(&sentence);
            return Ok(());
        }
        Ok(it) => it,
        Err(trouble) => {
            talk.trouble(&trouble);
            return Ok(());
        }
    };
    let named = [("title", assignment.title.as_str()), ("group", &assignment.group)];
    let page = forms_page(&talk.wording.say("forms-title", &named), &parts);
    match write_own(&args.out, TITLE, &page) {
        Ok(()) => {
            let about = [("path", args.out.display().to_string()), ("count", parts.len().to_string())];
            let sentence = talk.wording.say("forms-written", &about.each_ref().map(|it| (it.0, it.1.as_str())));
            talk.answer(&sentence)
        }
        Err(trouble) => {
            talk.trouble(&trouble);
            Ok(())
        }
    }
}

/// The form of each piece of work that counts, in the order of the roster.
fn parts(
    args: &Args,
    class: &ClassFiles,
    assignment: &Assignment,
    review: &Review,
    talk: &Output,
) -> Result<Vec<FormPart>, JournalError> {
    let (files, templates, mut bench) = (class.again(), assignment.templates(), Bench::new());
    let mut parts = Vec::new();
    for row in review.rows.iter().filter(|it| args.learner.is_empty() || args.learner.contains(&it.learner)) {
        let Some((file, earned)) = row.counting() else { continue };
        let marked = bench.mark_for_good(Path::new(&file.file), files.bytes(file)?, &templates)?;
        let filled = filled_in(&talk.wording, assignment, (file, earned), review.unit_map.as_ref());
        parts.push(marked.form_part(&talk.wording, &filled));
    }
    Ok(parts)
}
