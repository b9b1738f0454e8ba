//! `record`: does actions from standard input and keeps them in an attempt file.
//!
//! Each line in is an action (RON; blank lines and `//` comments are passed over), each line out its answer. A line `help` is
//! answered with how to go about it; nothing of that is kept.

use std::{
    io::{self, BufRead, Read},
    path::{Path, PathBuf},
    sync::Arc,
};

use switchdrop::{
    advice::guidance,
    attempt::{Attempt, Header, Mode, action_form, parse_action},
    exercise::{Limits, LocationKind, Seed, names_are_clean},
    marking::may_hint,
    report::receipt_code,
    wording::{guidance as told, happened, refused},
    work::{Action, Work},
};

use super::{
    output::Output,
    picture::{no_such_place, places},
    set_work::{self, read_assignment},
    variant::drawn,
};
use crate::journal::{Access, Journal, reopen};

#[derive(Debug, clap::Args)]
pub struct Args {
    /// The attempt file: a new one with `--exercise`, else one to go on with; with `--assignment` the folder for a new one
    file: PathBuf,
    /// Start on this exercise
    #[arg(long, value_name = "ID", requires_all = ["from", "learner"])]
    exercise: Option<String>,
    /// The number the exercise is drawn from
    #[arg(long, value_name = "N", requires = "exercise", group = "from")]
    seed: Option<u64>,
    /// Start on set work, as this assignment file has it
    #[arg(long, value_name = "FILE", requires = "learner", group = "from")]
    assignment: Option<PathBuf>,
    /// Who does it; with `--assignment` the learner's number
    #[arg(long, value_name = "NAME", requires = "from", value_parser = learner)]
    learner: Option<String>,
    /// The code that the learner was handed for extra time or another draw
    #[arg(long, value_name = "CODE", requires = "assignment")]
    code: Option<String>,
    /// Free practice, not set work
    #[arg(long, requires = "seed")]
    practice: bool,
}

fn learner(name: &str) -> Result<String, String> {
    if names_are_clean(name, Limits::NAME_CHARS) {
        Ok(name.to_owned())
    } else {
        Err(format!("1 to {} characters, none of them a slash or one that does not show", Limits::NAME_CHARS))
    }
}

/// Records to the file that the arguments name.
pub fn run(args: &Args, folders: &[PathBuf], marking: u32, talk: &mut Output) -> io::Result<()> {
    let Some((mut attempt, mut journal, mode)) = begin(args, folders, marking, talk) else { return Ok(()) };
    let mut input = io::stdin().lock();
    let mut number = 0;
    while let Some(line) = next_line(&mut input, talk)? {
        number += 1;
        if let Some(about) = help_asked(&line) {
            help(about, attempt.work(), talk)?;
            continue;
        }
        let Some(action) = action(&line, number, talk) else { continue };
        let (answer, goes_on) = act(&mut attempt, &mut journal, mode, action, talk);
        if let Some(answer) = answer {
            talk.answer(&answer)?;
        }
        if !goes_on {
            break;
        }
    }
    if let Err(trouble) = journal.flush() {
        talk.trouble(&trouble);
    }
    Ok(())
}

/// The attempt and its file; `None`: it has been said why.
fn begin(args: &Args, folders: &[PathBuf], marking: u32, talk: &mut Output) -> Option<(Attempt, Journal, Mode)> {
    let path = args.file.display().to_string();
    if let Some(assignment) = &args.assignment {
        return begin_set_work(args, assignment, marking, talk);
    }
    let (Some(id), Some(seed), Some(learner)) = (&args.exercise, args.seed, &args.learner) else {
        if !args.file.exists() {
            let sentence = talk.wording.say("record-needs-exercise", &[("path", &path)]);
            talk.wrong(&sentence);
            return None;
        }
        return go_on(args, talk);
    };
    let exercise = drawn(id, Seed(seed), folders, talk)?;
    let mode = if args.practice { Mode::Practice } else { Mode::Set };
    let header = Header::new(marking, &exercise, learner.clone(), now(), mode);
    match Journal::create(&args.file, &header, &exercise) {
        Ok(journal) => Some((Attempt::new(Arc::new(exercise)), journal, mode)),
        Err(trouble) => {
            talk.trouble(&trouble);
            None
        }
    }
}

/// The next try of a learner at set work, in the folder that was named.
fn begin_set_work(args: &Args, assignment: &Path, marking: u32, talk: &mut Output) -> Option<(Attempt, Journal, Mode)> {
    let assignment = read_assignment(assignment, talk)?;
    let named = args.learner.as_deref().unwrap_or_default();
    let Ok(number) = named.parse() else {
        let sentence = talk.wording.say("set-no-such-learner", &[("id", assignment.id.as_str()), ("learner", named)]);
        talk.wrong(&sentence);
        return None;
    };
    let learner = set_work::learner(&assignment, number, args.code.as_deref(), talk)?;
    let (begun, exercise) = set_work::begin(&learner, args.exercise.as_deref(), &args.file, (marking, now()), talk)?;
    let nth = begun.header.assigned.map_or(0, |it| it.nth).to_string();
    let path = begun.journal.path().display().to_string();
    let sentence = talk.wording.say("set-begun", &[("path", &path), ("try", &nth)]);
    talk.notice(&sentence);
    Some((Attempt::new(Arc::new(exercise)), begun.journal, Mode::Set))
}

fn go_on(args: &Args, talk: &mut Output) -> Option<(Attempt, Journal, Mode)> {
    let path = args.file.display().to_string();
    let opened = match reopen(&args.file, now()) {
        Ok(opened) => opened,
        Err(trouble) => {
            talk.trouble(&trouble);
            return None;
        }
    };
    let only = match opened.access {
        Access::Write(journal) => {
            if opened.cut_off > 0 {
                let args = [("path", path.as_str()), ("count", &opened.cut_off.to_string())];
                let sentence = talk.wording.say("record-cut-off", &args);
                talk.notice(&sentence);
            }
            return Some((opened.attempt, journal, opened.header.mode));
        }
        Access::InUse => "record-in-use",
        Access::ReadOnly => "record-read-only",
    };
    let sentence = talk.wording.say(only, &[("path", &path)]);
    talk.wrong(&sentence);
    None
}

/// Does one action. What is done is in the file before it is answered. False: the file takes no more.
fn act(
    attempt: &mut Attempt,
    journal: &mut Journal,
    mode: Mode,
    action: Action,
    talk: &mut Output,
) -> (Option<String>, bool) {
    let entry = match journal.entry(&action) {
        Ok(entry) => entry,
        Err(trouble) => {
            talk.trouble(&trouble);
            return (None, true);
        }
    };
    let hands_in = action == Action::HandIn;
    let asks = action == Action::Hint;
    if asks && !may_hint(attempt.work().exercise(), mode) {
        let why = talk.wording.say("record-no-hints", &[]);
        return (Some(talk.wording.say("happened-refused", &[("why", &why)])), true);
    }
    let result = match attempt.act(action) {
        Ok(result) => result,
        Err(why) => {
            let why = refused(&talk.wording, attempt.work(), &why);
            return (Some(talk.wording.say("happened-refused", &[("why", &why)])), true);
        }
    };
    let handed_in = |journal: &Journal| journal.flush().and_then(|()| journal.receipt()).map(Some);
    let written = journal.append(&entry).and_then(|()| if hands_in { handed_in(journal) } else { Ok(None) });
    let receipt = match written {
        Ok(receipt) => receipt,
        Err(trouble) => {
            talk.trouble(&trouble);
            return (None, false);
        }
    };
    let answer = if asks {
        told(&talk.wording, attempt.work(), &guidance(attempt))
    } else {
        happened(&talk.wording, attempt, &result)
    };
    let answer = match receipt {
        None => answer,
        Some(receipt) => {
            let path = journal.path().display().to_string();
            let code = receipt_code(&receipt);
            let args = [("answer", answer.as_str()), ("path", &path), ("receipt", &receipt), ("code", &code)];
            talk.wording.say("record-handed-in", &args)
        }
    };
    (Some(answer), true)
}

/// What a line asks help about: a place, or nothing in particular; `None`: it asks for none.
fn help_asked(line: &[u8]) -> Option<&str> {
    let text = std::str::from_utf8(line).ok()?.trim();
    let (word, about) = text.split_once(char::is_whitespace).unwrap_or((text, ""));
    (word == "?" || word.eq_ignore_ascii_case("help")).then(|| about.trim().trim_matches(['"', '`']))
}

/// How actions are written and which places there are, or what there is at one place.
fn help(about: &str, work: &Work, talk: &mut Output) -> io::Result<()> {
    let exercise = work.exercise();
    if about.is_empty() {
        let place = exercise.locations.iter().find(|it| it.kind != LocationKind::Board).map_or("", |it| &it.id);
        let all = places(&talk.wording, exercise);
        let args = [("id", exercise.id.as_str()), ("place", place), ("places", &all)];
        let lines = ["record-help", "record-help-places", "record-help-place"].map(|it| talk.wording.say(it, &args));
        return talk.answer(&lines.join("\n"));
    }
    let Ok(place) = exercise.location(about) else {
        let sentence = no_such_place(&talk.wording, exercise, about);
        return talk.answer(&sentence);
    };
    let terminals = exercise.terminals_at(place).map(|it| exercise.terminals[it].address.clone()).collect::<Vec<_>>();
    let ends = work.ends_at(place).map(|it| work.end_address(it)).collect::<Vec<_>>();
    let lines = [("record-terminals", terminals), ("record-ends", ends)].map(|(key, names)| {
        let names: Vec<_> = names.iter().map(|it| format!("`{it}`")).collect();
        talk.wording.say(key, &[("place", about), ("names", &names.join(", "))])
    });
    talk.answer(&lines.join("\n"))
}

/// The action on a line, if there is one and it is one.
fn action(line: &[u8], number: usize, talk: &mut Output) -> Option<Action> {
    let name = talk.wording.say("input-name", &[]);
    let Ok(text) = std::str::from_utf8(line) else {
        let args = [("path", name.as_str()), ("line", &number.to_string())];
        let sentence = talk.wording.say("input-not-text", &args);
        talk.wrong(&sentence);
        return None;
    };
    let text = text.trim_end_matches(['\n', '\r']);
    if text.trim().is_empty() || text.trim_start().starts_with("//") {
        return None;
    }
    match parse_action(text) {
        Ok(action) => Some(action),
        Err(problems) => {
            talk.problems(&name, text, number - 1, &problems);
            let sentence = match action_form(text) {
                Some(form) => talk.wording.say("record-say-form", &[("form", &form)]),
                None => talk.wording.say("record-say-help", &[]),
            };
            talk.notice(&sentence);
            None
        }
    }
}

/// The next line, however long, of which no more is kept than is needed to see that it is too long. None at the end.
fn next_line(input: &mut impl BufRead, talk: &mut Output) -> io::Result<Option<Vec<u8>>> {
    let mut line = Vec::new();
    let most = Limits::ACTION_BYTES as u64 + 2;
    let read = input.by_ref().take(most).read_until(b'\n', &mut line);
    if let Err(cause) = read {
        let sentence = talk.wording.say("input-unreadable", &[("cause", &cause.to_string())]);
        talk.wrong(&sentence);
        return Ok(None);
    }
    while line.len() as u64 >= most && !line.ends_with(b"\n") {
        let mut rest = Vec::new();
        if input.by_ref().take(most).read_until(b'\n', &mut rest)? == 0 || rest.ends_with(b"\n") {
            break;
        }
    }
    Ok(if line.is_empty() { None } else { Some(line) })
}

/// The wall time. The name of the zone is left out: it has a slash in it.
fn now() -> String {
    jiff::ZonedDateTime::now().strftime("%Y-%m-%dT%H:%M:%S%:z").to_string()
}
