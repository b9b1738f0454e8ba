//! What is said of the two-way exercise in every position: where the current goes, long and short, and what a hand would feel. It is
//! kept as it was read by a person, so that a change of one sentence has them all read again.
//!
//! `UPDATE_EXPECT=1 cargo test sentences` writes it afresh.

use std::{fs, path::Path};

use switchdrop::{
    attempt::open,
    circuit::{Conditions, flow, hand_points, touch},
    report::PositionTable,
    wording::{Wording, hand, ways},
};

#[test]
fn the_sentences_of_the_two_way_exercise_are_those_that_were_read() {
    let attempt = open(include_str!("../exercises/two-way-passage/model.attempt.ron")).unwrap().replay().unwrap();
    let (wording, work) = (Wording::british(), attempt.work());
    let mut lines = Vec::new();
    for it in PositionTable::of(&wording, work).lines {
        let conditions = Conditions::complete(work.exercise(), it.positions.clone());
        lines.extend([format!("# {}", it.stands), it.told]);
        lines.extend(ways(&wording, work, &flow(work, conditions.clone())));
        for point in hand_points(work, usize::MAX) {
            let met = touch(work, conditions.clone(), point);
            lines.push(format!("- {}", hand(&wording, work, point, met.as_ref()).join(" ")));
        }
        lines.push(String::new());
    }
    let text = lines.join("\n");
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/sentences/two-way-passage.txt");
    if std::env::var_os("UPDATE_EXPECT").is_some() {
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(&path, &text).unwrap();
    }
    let kept = fs::read_to_string(&path).unwrap_or_else(|it| panic!("{}: {it}", path.display()));
    assert_eq!(kept.replace("\r\n", "\n"), text, "read them, then UPDATE_EXPECT=1 cargo test sentences");
}
