//! What was released, as xAPI statements (version 1.0.3, part two, "Statements"): who did what with which result, for a college's record store.
//!
//! A learner is an account number of the college's and never an e-mail address. A refer has no score: a number alone would be taken for
//! a result. Nothing that was not released is told.

use serde_json::{Value, json};

use super::{
    assignment::Assignment,
    review::{Review, ReviewRow},
};
use crate::{attempt::sha256, marking::Outcome, wording::Wording};

/// The version of the specification.
const VERSION: &str = "1.0.3";
/// Verbs of the vocabulary that came with the specification (ADL, <https://adlnet.gov/expapi/verbs/>), and the keys of their words.
const PASSED: (&str, &str) = ("http://adlnet.gov/expapi/verbs/passed", "statement-passed");
const COMPLETED: (&str, &str) = ("http://adlnet.gov/expapi/verbs/completed", "statement-completed");

/// An address that statements name things by: absolute, with a scheme and a host.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Iri(String);

/// The college's own addresses.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StatementIds {
    /// The system whose account numbers the learners' numbers are.
    pub accounts: Iri,
    /// What the ids of activities begin with.
    pub activities: Iri,
}

impl Iri {
    /// `None`: it is no such address.
    pub fn of(text: &str) -> Option<Self> {
        let (scheme, rest) = text.split_once("://")?;
        let is_scheme = scheme.starts_with(|it: char| it.is_ascii_alphabetic())
            && scheme.chars().all(|it| it.is_ascii_alphanumeric() || "+-.".contains(it));
        let is_clean = !rest.chars().any(|it| it.is_control() || it.is_whitespace() || "<>\"{}|\\^`".contains(it));
        let has_host = !rest.is_empty() && !rest.starts_with(['/', '?', '#']);
        (is_scheme && is_clean && has_host).then(|| Self(text.to_owned()))
    }

    /// The address of something under this one.
    fn under(&self, path: &str) -> String {
        format!("{}/{path}", self.0.trim_end_matches('/'))
    }
}

/// A statement a line, as JSON, in the order of the roster. The same release has the same statement each time, its id too, so that a store takes it
/// once.
pub fn statements(wording: &Wording, assignment: &Assignment, review: &Review, ids: &StatementIds) -> Vec<String> {
    let all = review.rows.iter().filter_map(|it| statement(wording, assignment, it, ids));
    all.map(|it| it.to_string()).collect()
}

fn statement(wording: &Wording, assignment: &Assignment, row: &ReviewRow, ids: &StatementIds) -> Option<Value> {
    let (file, earned) = row.counting()?;
    let released = file.people.released()?;
    let set = assignment.exercises.iter().find(|it| it.scenario.id == row.exercise)?;
    let given = released.given;
    let passed = given.outcome == Outcome::Pass.word();
    let (verb, word) = if passed { PASSED } else { COMPLETED };
    let outcome = wording.say(&format!("review-{}", given.outcome.replace(' ', "-")), &[]);
    // To a hundredth of a second, which is as fine as a store has to keep it.
    let duration = format!("PT{}.{:02}S", file.active_ms / 1000, file.active_ms % 1000 / 10);
    let mut result = json!({
        "success": passed,
        "completion": true,
        "duration": duration,
        "extensions": { ids.activities.under("outcome"): outcome },
    });
    if given.outcome != Outcome::Refer.word() && earned.out_of > 0 {
        result["score"] = json!({
            "scaled": f64::from(given.marks) / f64::from(earned.out_of),
            "raw": given.marks,
            "min": 0,
            "max": earned.out_of,
        });
    }
    Some(json!({
        "id": id_of(&format!("{} {} {}", file.sha256.as_deref()?, assignment.sha256, released.at)),
        "version": VERSION,
        "actor": {
            "objectType": "Agent",
            "account": { "homePage": ids.accounts.0, "name": row.learner.to_string() },
        },
        "verb": { "id": verb, "display": { "en-GB": wording.say(word, &[]) } },
        "object": {
            "objectType": "Activity",
            "id": ids.activities.under(&format!("{}/{}", assignment.id, row.exercise)),
            "definition": { "name": { "en-GB": set.scenario.title } },
        },
        "result": result,
        "context": {
            "platform": concat!("Switchdrop ", env!("CARGO_PKG_VERSION")),
            "language": "en-GB",
            "extensions": { ids.activities.under("record"): wording.say("report-practice-record", &[]) },
        },
        "timestamp": file.handed_in_at,
    }))
}

/// A UUID that follows from a text: version 8, whose bits are the maker's own (RFC 9562, 5.8), here the first of a SHA-256.
fn id_of(text: &str) -> String {
    let digest = sha256(text.as_bytes());
    let digit = |at: usize| digest[at..].chars().next().and_then(|it| it.to_digit(16)).unwrap_or_default();
    // The variant is in the first two bits of the ninth byte: 10.
    let variant = char::from_digit(8 | digit(16) & 3, 16).unwrap_or('8');
    format!("{}-{}-8{}-{variant}{}-{}", &digest[..8], &digest[8..12], &digest[13..16], &digest[17..20], &digest[20..32])
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_address_is_absolute_and_holds_nothing_odd() {
        for it in ["https://college.example/accounts", "http://localhost:8080", "urn-x://a"] {
            assert!(Iri::of(it).is_some(), "{it}");
        }
        for it in [
            "",
            "college.example",
            "/a",
            "://a",
            "https://",
            "https:///a",
            "https://a b",
            "1a://b",
            "https://a\"b",
            "mailto:a@b",
        ] {
            assert!(Iri::of(it).is_none(), "{it}");
        }
        assert_eq!(Iri::of("https://a/b/").map(|it| it.under("c")).as_deref(), Some("https://a/b/c"));
    }

    /// The SHA-256 of "abc" is ba7816bf 8f01cfea 414140de 5dae2223 ... (FIPS 180-2, appendix B.1); the version and the variant are put in by hand.
    #[test]
    fn an_id_is_a_uuid_of_version_8() {
        assert_eq!(id_of("abc"), "ba7816bf-8f01-8fea-8141-40de5dae2223");
    }
}
