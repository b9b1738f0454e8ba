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

/// Worked out by hand: the passage light (100 W) is lit where the two switches stand differently and takes 100 W / 230 V = 0.43 A, the shed's
/// (8 W) with its own rocker down, 8 W / 230 V = 0.03 A. A hand on the first contact of a holder that is fed has 230 V across 2,000 Ω
/// (IEC 60990, from memory): 115 mA; of one that is not, nothing.
#[test]
fn the_figures_in_them_are_those_worked_out_by_hand() {
    let attempt = open(include_str!("../exercises/two-way-passage/model.attempt.ron")).unwrap().replay().unwrap();
    let (wording, work) = (Wording::british(), attempt.work());
    let lines = PositionTable::of(&wording, work).lines;
    assert_eq!(lines.len(), 8);
    for it in lines {
        let [kiln, shed, clay] = it.positions[..] else { panic!("three switches: {:?}", it.positions) };
        let conditions = Conditions::complete(work.exercise(), it.positions.clone());
        let lamps = [("passage light", "0.43 A", kiln != clay), ("kiln shed light", "0.03 A", shed == 0)];
        for (lamp, amps, is_lit) in lamps {
            assert_eq!(it.told.contains(&format!("{lamp} takes {amps}")), is_lit, "{:?}: {}", it.positions, it.told);
            let contact = format!("{lamp}, first contact");
            let felt = hand_points(work, usize::MAX).into_iter().map(|point| {
                let met = touch(work, conditions.clone(), point);
                hand(&wording, work, point, met.as_ref()).join(" ")
            });
            let felt = felt.into_iter().find(|it| it.starts_with(&contact)).expect("a contact of the holder");
            let shock = felt.contains("230 V across the body, and about 115 mA");
            assert_eq!(
                (shock, felt.contains("nothing would be felt")),
                (is_lit, !is_lit),
                "{:?}: {felt}",
                it.positions
            );
        }
    }
}
