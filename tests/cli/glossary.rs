//! `glossary`: one word or all, for three kinds of readers.

use crate::bench::Bench;

#[test]
fn a_word_is_told_to_whoever_asks() {
    let bench = Bench::new();
    bench.run(&["glossary", "Line", "conductor"]).says(
        "line\n\
         \x20 The line is the wire that brings the electricity to the lamp: brown today, red in older houses.\n\
         \x20 People often call it \"the live\".\n\
         \x20 Read next: Live includes the neutral; neutral; permanent line; switched line.\n",
    );
    bench.run(&["glossary", "line", "--depth", "learner"]).says(
        "line\n\
         \x20 The line conductor is the one at 230 V to earth. In a lighting circuit the switch stands in the\n\
         \x20 line, never in the neutral.\n\
         \x20 Read next: Live includes the neutral; neutral; permanent line; switched line.\n",
    );
    let tutor = bench.run(&["glossary", "word-line", "--depth", "tutor"]);
    assert!(tutor.out.contains("BS 7671 132.14") && !tutor.out.contains("the live"), "{}", tutor.out);
    bench
        .run(&["glossary", "lnie"])
        .complains("error: `lnie` is not in the glossary; `switchdrop glossary` lists every word\n");
}

#[test]
fn all_of_it_is_listed_the_muddles_first_and_as_json() {
    let bench = Bench::new();
    let all = bench.run(&["glossary"]).out;
    assert!(all.starts_with("L1 and L2 are not phases\n") && all.contains("\n\nthree-core\n"), "{all}");
    let json = bench.run(&["glossary", "--json"]).out;
    let words: Vec<serde_json::Value> = json.lines().map(|it| serde_json::from_str(it).unwrap()).collect();
    let headings = all.lines().filter(|it| !it.is_empty() && !it.starts_with(' ')).count();
    assert!(words.len() > 30 && words.len() == headings, "{} {headings}", words.len());
    let line = words.iter().find(|it| it["id"] == "word-line").unwrap();
    assert_eq!(line["forms"], serde_json::json!(["line conductor", "line voltage"]));
    for depth in ["householder", "learner", "tutor"] {
        assert!(line[depth].as_str().is_some_and(|it| it.len() > 30), "{line}");
    }
}
