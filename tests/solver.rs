//! The solver of exercises: its model earns everything in every shipped exercise, and where none can, it says what is missing.

use std::sync::Arc;

use switchdrop::{
    advice::{Lacks, Model, Unsolved, solve},
    attempt::{Attempt, Mode},
    exercise::{Exercise, Seed, draw, read},
    marking::{Finding, Outcome, mark},
    wording::{Wording, lacks},
};

use crate::hand::{SHIPPED, exercise, scenario};

fn said(it: &Unsolved) -> String {
    lacks(&Wording::british(), it).join("\n")
}

/// Replayed and marked anew, from its actions alone: what the solver says of its own sheet counts for nothing here.
#[track_caller]
fn earns_everything(exercise: &Arc<Exercise>, what: &str) {
    let Model { attempt, .. } =
        solve(exercise).unwrap_or_else(|it| panic!("{what}: {}\n{:#?}", said(&it), it.attempt.log()));
    let again = Attempt::replay(Arc::clone(exercise), attempt.log().to_vec()).unwrap();
    let sheet = mark(&again, Mode::Set);
    // In work that is looked over, what is wrong with it stands on the sheet as somebody else's.
    let is_own = |it: &&Finding| !(it.before && exercise.is_inspected());
    assert_eq!(sheet.findings.iter().find(is_own), None, "{what}");
    assert_eq!((sheet.outcome, sheet.marks, sheet.out_of), (Outcome::Pass, 100, 100), "{what}");
}

#[test]
fn its_model_of_every_shipped_exercise_earns_everything() {
    for (id, _) in SHIPPED {
        for seed in 0..8 {
            earns_everything(&exercise(id, seed), &format!("{id} {seed}"));
        }
    }
}

/// The exercise as a text has it, and what keeps the solver from full marks in it.
#[track_caller]
fn unsolved(text: &str) -> Unsolved {
    solve(&Arc::new(read(text, Seed(0)).unwrap_or_else(|it| panic!("{it:#?}")))).expect_err("it has no model")
}

/// The scenario with something else in its text.
#[track_caller]
fn with(id: &str, from: &str, to: &str) -> String {
    assert!(scenario(id).contains(from), "{from}");
    scenario(id).replace(from, to)
}

/// Two cores cannot carry what a two-way pair needs (`two_cores_between_two_way_switches_never_do_and_three_do`): no cable on offer will do,
/// and with a twin cable in place of the three-core no wiring.
#[test]
fn what_cannot_be_done_is_said() {
    let three =
        "            Offer(kind: ThreeCoreEarth, mm2: 1.0),\n            Offer(kind: ThreeCoreEarth, mm2: 1.5),\n";
    let it = unsolved(&with("two-way-to-choose", three, ""));
    assert!(matches!(it.lacks, Lacks::Cable(0)), "{:?}", it.lacks);
    assert_eq!(
        said(&it),
        "no cable on offer here has enough insulated conductors for the lights that depend on it: loft link"
    );
    let link = "kind: ThreeCoreEarth, mm2: 1.0, metres: 15.0";
    let text = with("two-way-passage", link, "kind: TwinEarth, mm2: 1.0, metres: 15.0");
    let text = text.replace(r#"["link/brown", "link/black", "link/grey", "light/brown"]"#, r#"["link/brown"]"#);
    let it = unsolved(&text);
    assert!(matches!(it.lacks, Lacks::Wiring(0)), "{:?}", it.lacks);
    assert_eq!(
        said(&it),
        "no wiring of the cables and terminals that are there works this lamp by its switches: passage light"
    );
}

/// The third core of a three-core drop has nowhere to end, since neither the switch's box nor the rose has a connector: what the marking
/// finds is told, sheet and all.
#[test]
fn a_sheet_short_of_full_marks_is_told_with_what_it_found() {
    let text = with(
        "wire-a-switch",
        r#"name: "switch drop", kind: TwinEarth"#,
        r#"name: "switch drop", kind: ThreeCoreEarth"#,
    );
    let it = unsolved(&text.replace("drop/blue", "drop/black").replace("connectors: 1,", ""));
    assert!(matches!(it.lacks, Lacks::Marks(_)), "{:?}", it.lacks);
    let said = said(&it);
    assert!(said.starts_with("all was done, and the sheet is short of full marks: "), "{said}");
    assert!(said.contains("grey core"), "{said}");
}

/// The bench of the aims: `cargo test --release --no-default-features --features program --test main solver -- --ignored --nocapture`.
#[test]
#[ignore = "200 seeds of every exercise"]
fn its_model_of_200_seeds_of_every_shipped_exercise_earns_everything() {
    for (id, text) in SHIPPED {
        let begun = std::time::Instant::now();
        for seed in 0..200 {
            earns_everything(&Arc::new(draw(text, Seed(seed)).unwrap()), &format!("{id} {seed}"));
        }
        println!("{id}: {:.1} s", begun.elapsed().as_secs_f64());
    }
}
