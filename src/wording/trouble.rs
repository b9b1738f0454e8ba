//! What is said when a file is wrong, and when an action is impossible.

use super::{Wording, place::place};
use crate::{
    exercise::{Problem, ProblemCode},
    work::{Refused, Work},
};

/// One sentence about a problem: what was found, what was expected, and the nearest valid name. Addresses stand in it as
/// they stand in the file, since that is where they are to be put right.
pub fn problem(wording: &Wording, problem: &Problem) -> String {
    let sentence = problem_without_help(wording, problem);
    help(wording, problem).map_or(sentence.clone(), |help| format!("{sentence}; {help}"))
}

/// The same without the nearest name, for a drawing that shows it below.
pub fn problem_without_help(wording: &Wording, problem: &Problem) -> String {
    let or = |text: &str, key: &str| if text.is_empty() { wording.say(key, &[]) } else { text.to_owned() };
    let found = or(&problem.found, "problem-nothing");
    let expected = or(&problem.expected, "problem-something-valid");
    let reason = match problem.code {
        ProblemCode::Refused => {
            wording.say(&format!("refused-{}", problem.expected), &[("place", &format!("`{found}`"))])
        }
        ProblemCode::Syntax if problem.expected.is_empty() => wording.say("syntax-other", &[]),
        ProblemCode::Syntax => wording.say(&problem.expected, &[]),
        ProblemCode::OtherFile => wording.say(&problem.found, &[]),
        ProblemCode::UnknownWord => wording.say(&format!("word-sort-{}", problem.inside), &[]),
        _ => String::new(),
    };
    let expected = if problem.code == ProblemCode::OtherFile { wording.say(&expected, &[]) } else { expected };
    let is_core = matches!(problem.code, ProblemCode::UnknownEnd | ProblemCode::UnknownConductor);
    let cores = if is_core && !problem.expected.is_empty() {
        wording.say("problem-cores", &[("expected", &expected)])
    } else {
        String::new()
    };
    let inside = if problem.inside.is_empty() { "(…)" } else { &problem.inside };
    let args = [
        ("found", found.as_str()),
        ("expected", &expected),
        ("reason", &reason),
        ("inside", inside),
        ("cores", &cores),
    ];
    wording.say(&format!("problem-{}", problem.code.word()), &args)
}

/// What might have been meant, if a valid name is near.
pub fn help(wording: &Wording, problem: &Problem) -> Option<String> {
    problem.nearest.as_ref().map(|it| wording.say("did-you-mean", &[("nearest", it)]))
}

/// One sentence about an action that is impossible, its place in words.
pub fn refused(wording: &Wording, work: &Work, refused: &Refused) -> String {
    let place = refused.address().map(|it| place(wording, work, it)).unwrap_or_default();
    let is_supervisors = match refused {
        Refused::CoverOn { location } => {
            work.location(location).is_ok_and(|it| work.is_board(it) && !work.is_board_to_open(it))
        }
        _ => false,
    };
    // A supervisor's board is drawn as they see it; to the learner it is closed.
    let key =
        if is_supervisors { "refused-board-supervisors".to_owned() } else { format!("refused-{}", refused.word()) };
    let sentence = wording.say(&key, &[("place", &place)]);
    match refused {
        // Whoever typed an address is shown one.
        Refused::Unknown { nearest: Some(it), .. } => {
            format!("{sentence}; {}", wording.say("did-you-mean", &[("nearest", it)]))
        }
        _ => sentence,
    }
}

#[cfg(test)]
mod tests {
    use std::sync::Arc;

    use super::*;
    use crate::exercise::{Seed, WordSort, read};

    fn work() -> Work {
        Work::new(Arc::new(read(include_str!("../../exercises/two-way-passage/scenario.ron"), Seed(0)).unwrap()))
    }

    #[test]
    fn every_code_has_its_sentence_and_it_is_formed_whole() {
        let wording = Wording::british();
        for code in ProblemCode::ALL {
            let args = [("found", "f"), ("expected", "e"), ("reason", "r"), ("inside", "i"), ("cores", "c")];
            wording.try_say(&format!("problem-{}", code.word()), &args).unwrap();
        }
        for sort in WordSort::ALL {
            wording.try_say(&format!("word-sort-{}", sort.word()), &[]).unwrap();
        }
        for word in Refused::WORDS {
            wording.try_say(&format!("refused-{word}"), &[("place", "p")]).unwrap();
        }
    }

    #[test]
    fn a_sentence_offers_the_nearest_name() {
        let found = Problem::new(ProblemCode::UnknownLocation, 0..4, "klin", "");
        let found = Problem { nearest: Some("kiln".to_owned()), ..found };
        assert_eq!(problem(&Wording::british(), &found), "there is no location `klin`; did you mean `kiln`?");
    }

    #[test]
    fn an_impossible_line_in_a_file_says_why() {
        let found = Problem::new(ProblemCode::Refused, 0..4, "kiln.1.L1", "full");
        let sentence =
            "the work, as it then stood, does not allow this action: `kiln.1.L1`: the terminal takes no more";
        assert_eq!(problem(&Wording::british(), &found), sentence);
    }

    #[test]
    fn what_is_refused_is_said_in_words() {
        let wording = Wording::british();
        let full = Refused::Full { terminal: "clay.L1".to_owned() };
        let sentence = "box at the clay store door, L1: the terminal takes no more";
        assert_eq!(refused(&wording, &work(), &full), sentence);
        let unknown = Refused::Unknown { address: "klin".to_owned(), nearest: Some("kiln".to_owned()) };
        assert_eq!(refused(&wording, &work(), &unknown), "there is no “klin” here; did you mean `kiln`?");
    }
}
