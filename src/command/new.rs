//! `new`: a scenario to change, made from another, with a comment at each part.

use std::{io, path::PathBuf};

use switchdrop::exercise::{Named, Seed, read};

use super::{
    output::{Output, wrapped},
    variant::found,
};
use crate::journal::{JournalError, ScenarioLibrary, make_folder, write_new};

/// The fields of a scenario that have a comment, as a shipped scenario begins their lines, and the key of the comment.
const COMMENTS: [(&str, &str); 14] = [
    ("title", "new-title"),
    ("course", "new-course"),
    ("earthing", "new-earthing"),
    ("locations", "new-locations"),
    ("rooms", "new-rooms"),
    ("cables", "new-cables"),
    ("runs", "new-runs"),
    ("connected", "new-connected"),
    ("controls", "new-controls"),
    ("stages", "new-stages"),
    ("predict", "new-predict"),
    ("unmarked", "new-unmarked"),
    ("weights", "new-weights"),
    ("vary", "new-vary"),
];

#[derive(Debug, clap::Args)]
pub struct Args {
    /// The id of the new exercise, and the folder that it is written into: lower-case letters, digits and hyphens
    name: String,
    /// The exercise that it is made from, as `list` has it
    #[arg(long, value_name = "EXERCISE")]
    from: String,
}

pub fn run(args: &Args, folders: &[PathBuf], talk: &mut Output) -> io::Result<()> {
    let library = ScenarioLibrary::gather(folders);
    let Some(source) = found(&library, &args.from, talk) else { return Ok(()) };
    let path = PathBuf::from(&args.name).join("scenario.ron");
    let shown = path.display().to_string();
    let said = [("from", args.from.as_str()), ("path", shown.as_str())];
    let id = source.scenario.span_of(Named::Scenario);
    let text = format!("{}{:?}{}", &source.text[..id.start], args.name, &source.text[id.end..]);
    let text = commented(&text, talk, &said);
    // The name may be no id: it is checked as part of the whole, before anything is written.
    let written = read(&text, Seed::default())
        .map_err(|problems| JournalError::Wrong { path: path.clone(), text: text.clone(), problems })
        .and_then(|_| make_folder(path.parent().unwrap_or(&path)))
        .and_then(|()| write_new(&path, text.as_bytes()));
    match written {
        Ok(()) => {
            let sentence = talk.wording.say("new-written", &said);
            talk.answer(&sentence)
        }
        Err(trouble) => {
            talk.trouble(&trouble);
            Ok(())
        }
    }
}

/// The text with a comment before each field that has one, in place of the comment at its top.
fn commented(text: &str, talk: &Output, said: &[(&str, &str)]) -> String {
    let comment = |key: &str, indent: &str| {
        let lead = format!("{indent}// ");
        format!("{}\n", wrapped(&talk.wording.say(key, said), &lead, &lead))
    };
    let lines = text.lines().skip_while(|it| it.starts_with("//"));
    let mut commented = comment("new-heading", "");
    for line in lines {
        let field = line.strip_prefix("    ").and_then(|rest| Some(rest.split_once(':')?.0));
        if let Some((_, key)) = COMMENTS.iter().find(|it| Some(it.0) == field) {
            commented.push_str(&comment(key, "    "));
        }
        commented.push_str(line);
        commented.push('\n');
    }
    commented
}
