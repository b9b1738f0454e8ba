//! `verify`: a moderator's bundle, each attempt of it marked again with nothing but this program.

use std::{
    collections::BTreeSet,
    io,
    path::{Path, PathBuf},
};

use switchdrop::{
    exercise::Template,
    marking::VERSION,
    register::{Assignment, Bundle, BundlePart, BundledWork, Differs, Verified},
    report::receipt_code,
    wording::{Wording, when},
};

use super::output::Output;
use crate::{
    desk::{Bench, in_turn},
    journal::{BundleFile, JournalError},
};

#[derive(Debug, clap::Args)]
pub struct Args {
    /// The bundle
    bundle: PathBuf,
    /// The code of the whole file, as the person who made it told you
    #[arg(long, value_name = "CODE")]
    code: Option<String>,
}

pub fn run(args: &Args, talk: &mut Output) -> io::Result<()> {
    let file = match BundleFile::open(&args.bundle) {
        Ok(it) => it,
        Err(trouble) => {
            talk.trouble(&trouble);
            return Ok(());
        }
    };
    let path = args.bundle.display().to_string();
    let Some(bundle) = read(&file, Bundle::LIST, talk).and_then(|it| Bundle::read(&it)) else {
        wrong("verify-no-list", &[("path", &path)], talk);
        return Ok(());
    };
    let text = read(&file, Bundle::ASSIGNMENT, talk).and_then(|it| String::from_utf8(it).ok());
    let Some(assignment) = text.and_then(|it| Assignment::read(&it).ok()) else {
        wrong("verify-no-assignment", &[("path", &path)], talk);
        return Ok(());
    };
    introduce(args, &file, &bundle, talk)?;
    if (&assignment.id, &assignment.sha256) != (&bundle.assignment, &bundle.assignment_sha256) {
        wrong("verify-other-assignment", &[("path", &path)], talk);
    }
    says_what_does_not_belong(&file, &bundle, talk);
    let templates = assignment.templates();
    let places: Vec<(usize, &BundledWork)> = bundle.works.iter().enumerate().collect();
    let job = |(bench, wording): &mut (Bench, Wording), (place, work): &(usize, &BundledWork)| {
        verified(bench, wording, &file, &bundle, (*place, work), &templates)
    };
    let mut reproduced = 0;
    in_turn(
        &places,
        || (Bench::new(), Wording::british()),
        job,
        |(place, work), it| {
            reproduced += usize::from(it.differs.is_empty());
            let line = told(*place, work, &it, &talk.wording);
            if it.differs.is_empty() {
                return talk.answer(&line);
            }
            talk.wrong(&line);
            Ok(())
        },
    )?;
    let (count, all) = (reproduced.to_string(), places.len().to_string());
    let summary = talk.wording.say("verify-summary", &[("count", &count), ("of", &all)]);
    talk.answer(&summary)
}

/// A file of the bundle; `None`: it is not there, or it has been said why it can't be read.
fn read(file: &BundleFile, name: &str, talk: &mut Output) -> Option<Vec<u8>> {
    file.part(name).unwrap_or_else(|trouble| {
        talk.trouble(&trouble);
        None
    })
}

fn wrong(key: &str, args: &[(&str, &str)], talk: &mut Output) {
    let sentence = talk.wording.say(key, args);
    talk.wrong(&sentence);
}

/// Says what it is, its code, and whether another program made it.
fn introduce(args: &Args, file: &BundleFile, bundle: &Bundle, talk: &mut Output) -> io::Result<()> {
    let code = receipt_code(&file.sha256);
    let (marking, time) = (bundle.marking.to_string(), when(&talk.wording, &bundle.made_at));
    let about = [
        ("assignment", bundle.assignment.as_str()),
        ("time", &time),
        ("program", &bundle.program),
        ("marking", &marking),
        ("code", &code),
    ];
    let sentence = talk.wording.say("verify-heading", &about);
    talk.answer(&sentence)?;
    if args.code.as_ref().is_some_and(|it| !it.trim().eq_ignore_ascii_case(&code)) {
        wrong("verify-other-code", &[("code", &code)], talk);
    }
    if !bundle.is_of_this_program() {
        let here = [("program", env!("CARGO_PKG_VERSION")), ("marking", &VERSION.to_string())];
        let sentence = talk.wording.say("verify-other-program", &here);
        talk.notice(&sentence);
    }
    Ok(())
}

/// Says what stands in the bundle beside the files that its list names.
fn says_what_does_not_belong(file: &BundleFile, bundle: &Bundle, talk: &mut Output) {
    let named = (0..bundle.works.len()).flat_map(|place| BundlePart::ALL.iter().map(move |it| it.name(place)));
    let named: BTreeSet<String> = named.chain([Bundle::LIST, Bundle::ASSIGNMENT].map(str::to_owned)).collect();
    let strange = file.names().filter(|it| !named.contains(*it)).map(str::to_owned);
    let links = file.passed_over.iter().map(|it| it.display().to_string());
    let strange: Vec<String> = strange.chain(links).collect();
    for it in &file.troubles {
        talk.trouble(it);
    }
    if let Some(first) = strange.first() {
        wrong("verify-strange", &[("count", &strange.len().to_string()), ("name", first)], talk);
    }
}

fn verified(
    bench: &mut Bench,
    wording: &Wording,
    file: &BundleFile,
    bundle: &Bundle,
    (place, work): (usize, &BundledWork),
    templates: &[Template<'_>],
) -> Verified {
    let part = |it: BundlePart| match file.part(&it.name(place)) {
        Ok(Some(bytes)) => Ok(bytes),
        Ok(None) => Err(Differs::Missing(it)),
        Err(trouble) => Err(Differs::Unreadable(it, trouble.say(wording))),
    };
    let name = BundlePart::Attempt.name(place);
    let mark =
        |bytes| bench.mark_for_good(Path::new(&name), bytes, templates).map_err(|it: JournalError| it.say(wording));
    work.verify(place, bundle, part, mark, wording)
}

fn told(place: usize, work: &BundledWork, it: &Verified, wording: &Wording) -> String {
    let (number, learner, nth) = ((place + 1).to_string(), work.learner.to_string(), work.nth.to_string());
    let mut args =
        vec![("number", number.as_str()), ("learner", &learner), ("exercise", &work.exercise), ("try", &nth)];
    let given = it.machine.map(|it| {
        let outcome = wording.say(&format!("review-{}", it.outcome.replace(' ', "-")), &[]);
        wording.say("layer-given", &[("marks", &it.marks.to_string()), ("outcome", &outcome)])
    });
    let what = it.told(wording).join("; ");
    args.push(("given", given.as_deref().unwrap_or_default()));
    args.push(("what", &what));
    let key = match (it.differs.is_empty(), &given, it.same_mark()) {
        (true, ..) => "verify-reproduced",
        (false, None, _) => "verify-not-marked",
        (false, _, true) => "verify-mark-reproduced",
        (false, _, false) => "verify-differs",
    };
    wording.say(key, &args)
}
