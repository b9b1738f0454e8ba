//! `glossary`: what a word of the trade means, at one of three depths; or all of them.

use std::io;

use serde::Serialize;
use switchdrop::wording::{GlossaryEntry, glossary};

use super::{
    mark::answer_json,
    output::{Output, wrapped},
};

#[derive(Debug, clap::Args)]
pub struct Args {
    /// A word, or several that belong together; without one, all of them
    #[arg(value_name = "WORD")]
    word: Vec<String>,
    /// For whom it is told
    #[arg(long, value_enum, default_value_t = Depth::Householder)]
    depth: Depth,
    /// One JSON object a word, one a line, with every depth
    #[arg(long, conflicts_with = "depth")]
    json: bool,
}

/// In the order of [`switchdrop::wording::DEPTHS`].
#[derive(Debug, Clone, Copy, clap::ValueEnum)]
enum Depth {
    /// In plain words
    Householder,
    /// As one learns the trade
    Learner,
    /// With where it is from
    Tutor,
}

/// A word as JSON has it.
#[derive(Serialize)]
struct WordJson<'a> {
    id: &'a str,
    word: &'a str,
    forms: &'a [String],
    householder: &'a str,
    learner: &'a str,
    tutor: &'a str,
    see: &'a [String],
}

pub fn run(args: &Args, talk: &mut Output) -> io::Result<()> {
    let all = glossary(&talk.wording);
    let asked = args.word.join(" ");
    let shown: Vec<&GlossaryEntry> = all.iter().filter(|it| asked.is_empty() || is_called(it, &asked)).collect();
    if shown.is_empty() {
        let sentence = talk.wording.say("glossary-lacks", &[("word", &asked)]);
        talk.wrong(&sentence);
    }
    for (place, it) in shown.into_iter().enumerate() {
        if args.json {
            let [householder, learner, tutor] = it.means.each_ref().map(String::as_str);
            let GlossaryEntry { id, word, forms, see, .. } = it;
            answer_json(&WordJson { id, word, forms, householder, learner, tutor, see }, talk)?;
            continue;
        }
        if place > 0 {
            talk.answer("")?;
        }
        let words: Vec<&str> =
            it.see.iter().filter_map(|id| Some(all.iter().find(|it| it.id == *id)?.word.as_str())).collect();
        let see = talk.wording.say("glossary-see", &[("words", &words.join("; "))]);
        let means = wrapped(&it.means[args.depth as usize], "  ", "  ");
        talk.answer(&format!("{}\n{means}\n{}", it.word, wrapped(&see, "  ", "    ")))?;
    }
    Ok(())
}

/// Whether an entry is asked for: by its heading, its id or any of its forms, in capitals or not.
fn is_called(entry: &GlossaryEntry, asked: &str) -> bool {
    let mut names = [entry.id.as_str(), &entry.word].into_iter().chain(entry.found_by());
    names.any(|it| it.to_lowercase() == asked.to_lowercase())
}

#[cfg(test)]
mod tests {
    use clap::ValueEnum;
    use switchdrop::wording::DEPTHS;

    use super::*;

    #[test]
    fn each_depth_is_at_its_place() {
        let names: Vec<String> =
            Depth::value_variants().iter().map(|it| it.to_possible_value().unwrap().get_name().to_owned()).collect();
        assert_eq!(names, DEPTHS);
    }
}
