//! `bundle`: pieces of work with all that their marks follow from, for a moderator, in one file.

use std::{
    io,
    path::{Path, PathBuf},
};

use switchdrop::{
    exercise::{Limits, Seed},
    register::{Assignment, Bundle, BundledWork, Deciders, HandIn, Review, ReviewRow, WhyChosen},
    report::receipt_code,
};

use super::{
    output::Output,
    review::{Handed, reviewed},
};
use crate::{
    desk::{Bench, now},
    journal::{JournalError, text, write_bundle},
};

#[derive(Debug, clap::Args)]
pub struct Args {
    #[command(flatten)]
    handed: Handed,
    /// The file to write
    #[arg(short, long, value_name = "FILE")]
    out: PathBuf,
    /// What counts of the learner of this number, released or not; may be given several times
    #[arg(long, value_name = "NUMBER", conflicts_with = "sample")]
    learner: Vec<u64>,
    /// Work at this exercise alone; may be given several times
    #[arg(long, value_name = "ID")]
    exercise: Vec<String>,
    /// A sample, released or not: every refer, the borderline, and this number of the others at random
    #[arg(long, value_name = "N", requires = "seed")]
    sample: Option<usize>,
    /// The number from which the sample is drawn
    #[arg(long, value_name = "N", requires = "sample")]
    seed: Option<u64>,
    /// For a second marker: nothing of what the tutor gave or released is in it, nor does the choice follow from it
    #[arg(long)]
    blind: bool,
    /// Name those who decided; without it they are numbered
    #[arg(long)]
    names: bool,
}

pub fn run(args: &Args, talk: &mut Output) -> io::Result<()> {
    if !args.handed.names_register("bundle-needs-register", talk) {
        return Ok(());
    }
    let Some((assignment, review)) = reviewed(&args.handed.class(), &[&args.out], talk) else { return Ok(()) };
    let review = if args.blind { review.for_second_marker() } else { review };
    match assignment_text(args, &assignment).and_then(|text| write(args, &assignment, &review, text, talk)) {
        Ok(lines) => talk.answer(&lines.join("\n")),
        Err(Trouble::File(it)) => {
            talk.trouble(&it);
            Ok(())
        }
        Err(Trouble::Said(key, count)) => {
            let sentence = talk.wording.say(key, &[("count", &count.to_string())]);
            talk.wrong(&sentence);
            Ok(())
        }
    }
}

/// What keeps a bundle from being written.
enum Trouble {
    File(JournalError),
    /// The key of a sentence, and a number in it.
    Said(&'static str, usize),
}

/// The assignment file as it is handed out.
fn assignment_text(args: &Args, assignment: &Assignment) -> Result<String, Trouble> {
    let path = &args.handed.assignment;
    let text = text(path, Limits::ASSIGNMENT_BYTES).map_err(Trouble::File)?;
    let same = Assignment::read(&text).is_ok_and(|it| it.sha256 == assignment.sha256);
    if same { Ok(text) } else { Err(Trouble::File(JournalError::Gone(path.clone()))) }
}

/// What is chosen, and why.
fn chosen<'r>(args: &Args, assignment: &Assignment, review: &'r Review) -> Vec<(&'r ReviewRow, WhyChosen)> {
    let seed = Seed(args.seed.unwrap_or_default());
    let all = if let Some(drawn) = args.sample {
        review.sample(assignment, drawn, seed)
    } else {
        let counting = review.rows.iter().filter_map(|it| Some((it, it.counting()?.0)));
        let why = |(row, file): (&'r ReviewRow, &HandIn)| match &args.learner[..] {
            [] => file.people.released().map(|_| (row, WhyChosen::Released)),
            asked => asked.contains(&row.learner).then_some((row, WhyChosen::Asked)),
        };
        counting.filter_map(why).collect()
    };
    let wanted = |id: &String| args.exercise.is_empty() || args.exercise.contains(id);
    all.into_iter().filter(|it| wanted(&it.0.exercise)).collect()
}

/// Writes the bundle; what is to be said of it.
fn write(
    args: &Args,
    assignment: &Assignment,
    review: &Review,
    text: String,
    talk: &mut Output,
) -> Result<Vec<String>, Trouble> {
    let chosen = chosen(args, assignment, review);
    if chosen.is_empty() {
        return Err(Trouble::Said("bundle-nothing", 0));
    }
    if chosen.len() > Bundle::MOST {
        return Err(Trouble::Said("bundle-too-many", Bundle::MOST));
    }
    let mut bundle = Bundle::new(assignment, now(), args.seed, &talk.wording);
    let failed = |cause| Trouble::File(JournalError::Unwritable(args.out.clone(), io::Error::other(cause)));
    let (files, templates) = (args.handed.class().again(), assignment.templates());
    let (mut bench, mut deciders) = (Bench::new(), Deciders::default());
    let mut parts = Vec::new();
    for (row, why) in chosen {
        let Some((hand_in, _)) = row.counting() else { continue };
        let bytes = files.bytes(hand_in).map_err(Trouble::File)?;
        let marked = bench.mark_for_good(Path::new(&hand_in.file), bytes.clone(), &templates).map_err(Trouble::File)?;
        if !args.names && BundledWork::names_somebody(&marked) {
            let args = [("learner", row.learner.to_string()), ("exercise", row.exercise.clone())];
            let sentence = talk.wording.say("bundle-named", &args.each_ref().map(|it| (it.0, it.1.as_str())));
            talk.wrong(&sentence);
            continue;
        }
        let people =
            if args.names { hand_in.people.clone() } else { deciders.numbered(&talk.wording, &hand_in.people) };
        let (work, its) =
            BundledWork::of(bundle.works.len(), (row, why), (bytes, &marked), people, &talk.wording).map_err(failed)?;
        bundle.works.push(work);
        parts.extend(its);
    }
    if bundle.works.is_empty() {
        return Err(Trouble::Said("bundle-nothing", 0));
    }
    let list = bundle.text().map_err(failed)?;
    let first = [(Bundle::LIST, list), (Bundle::ASSIGNMENT, text)];
    let files: Vec<_> =
        first.map(|(name, text)| (name.to_owned(), text.into_bytes())).into_iter().chain(parts).collect();
    let digest = write_bundle(&args.out, &files).map_err(Trouble::File)?;
    Ok(told(args, &bundle, &digest, talk))
}

fn told(args: &Args, bundle: &Bundle, digest: &str, talk: &Output) -> Vec<String> {
    let count = |why| bundle.works.iter().filter(|it| it.why == why).count();
    let why = WhyChosen::ALL.iter().copied().filter(|why| count(*why) > 0).map(|why| {
        let key = format!("bundle-why-{}", why.word());
        talk.wording.say(&key, &[("count", &count(why).to_string())])
    });
    let path = args.out.display().to_string();
    let about = [("path", path.as_str()), ("count", &bundle.works.len().to_string())];
    let written = talk.wording.say("bundle-written", &about);
    let code = talk.wording.say("bundle-code", &[("code", &receipt_code(digest)), ("path", &path)]);
    let people = talk.wording.say(if args.names { "bundle-with-names" } else { "bundle-without-names" }, &[]);
    let blind = args.blind.then(|| talk.wording.say("bundle-blind", &[]));
    std::iter::once(written).chain(why).chain(blind).chain([people, code]).collect()
}
