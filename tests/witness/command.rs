//! `states --spice`: the deck on disk, whole or not at all, over nothing but the program's own.

use std::fs;

use switchdrop::{
    attempt::Format,
    circuit::{Conditions, Part, deck, deck_cases},
    work::Action,
};

use crate::{
    bench::{Bench, attempt_in, attempt_text},
    hand::{exercise, one_way_model, two_way_model},
};

fn bench_with_model() -> Bench {
    let bench = Bench::new();
    let model = two_way_model();
    bench.file("two", attempt_text(model.attempt.work().exercise(), model.attempt.log()));
    bench
}

/// Eight combinations of three switches and nothing that opens: eight cases.
#[test]
fn the_deck_of_every_combination_is_written_and_written_over() {
    let bench = bench_with_model();
    let said = "out/decks/wiring.cir: a deck for `ngspice -b`, cases: 8\n";
    bench.run(&["states", "two", "--spice", "out/decks"]).says(said);
    let first = bench.read("out/decks/wiring.cir");
    let model = two_way_model();
    let work = model.attempt.work();
    assert_eq!(first, deck(work, &deck_cases(work, None).unwrap()).text);
    assert!(first.starts_with("* switchdrop deck, format 1\n") && first.ends_with(".end\n"));
    assert_eq!(first.matches("\nop\n").count(), 8);
    bench
        .run(&["states", "two", "--spice", "out/decks", "--at", "0,1,1"])
        .says("out/decks/wiring.cir: a deck for `ngspice -b`, cases: 1\n");
    assert_eq!(bench.read("out/decks/wiring.cir").matches("\nop\n").count(), 1);
    let names: Vec<_> = fs::read_dir(bench.path("out/decks")).unwrap().map(|it| it.unwrap().file_name()).collect();
    assert_eq!(names, ["wiring.cir"], "no half of a file beside it");
}

#[test]
fn a_file_in_the_way_stays_as_it_is() {
    let bench = bench_with_model();
    bench.file("out/wiring.cir", "* somebody's own\n");
    bench
        .run(&["states", "two", "--spice", "out"])
        .complains("error: out/wiring.cir is there already, was not written by this program, and stays as it is\n");
    assert_eq!(bench.read("out/wiring.cir"), "* somebody's own\n");
    bench.file("plain", "x");
    bench.run(&["states", "two", "--spice", "plain"]).complains("error: plain is not a folder\n");
    assert_eq!(bench.read("plain"), "x");
    fs::create_dir_all(bench.path("odd/wiring.cir")).unwrap();
    assert_eq!(bench.run(&["states", "two", "--spice", "odd"]).code, Some(1));
}

#[test]
fn what_is_no_attempt_makes_no_folder() {
    let bench = Bench::new();
    bench.file("broken", "Attempt(");
    assert_eq!(bench.run(&["states", "broken", "--spice", "out"]).code, Some(1));
    assert_eq!(bench.names(), ["broken"]);
}

/// What a learner says is nowhere in a deck; what a forged exercise says is a comment at most, on one line of its own.
#[test]
fn nothing_from_a_learner_is_in_a_deck() {
    let bench = Bench::new();
    let text = attempt_in(Format::One, &exercise("one-way-rose", 4), &[Action::Agree]);
    assert!(text.contains("Robin Hale"));
    bench.file("a", text.replace("Robin Hale", "* .include x;$(y)"));
    assert_eq!(bench.run(&["states", "a", "--unfinished", "--spice", "out"]).code, Some(0));
    let deck = bench.read("out/wiring.cir");
    assert!(!deck.contains("include") && deck.is_ascii());
    let commands =
        ["*", "v1 ", "r", ".control", "set ", "alter ", "op", "echo case ", "print ", "quit", ".endc", ".end"];
    for line in deck.lines() {
        assert!(commands.iter().any(|it| line.starts_with(it)), "{line}");
    }
}

/// A switch return in the neutral: as the switch closes, and once more with the device open. Each case prints each of
/// its network's branches, and what the second lacks is open in it.
#[test]
fn where_a_device_opens_the_deck_has_the_settled_state_too() {
    let model = one_way_model();
    let mut work = model.attempt.work().clone();
    let end = work.end("drop/blue@rose").unwrap();
    work.edit(&switchdrop::work::Edit::Move(end, Some(work.terminal("rose.neutral").unwrap())));
    let cases = deck_cases(&work, Some(&[1, 0])).unwrap();
    assert_eq!(cases.iter().map(|it| it.on.clone()).collect::<Vec<_>>(), [vec![true, true], vec![true, false]]);
    let both = deck(&work, &cases);
    let opened = both.elements.iter().position(|it| matches!(it.part, Part::LinePole(it) if it.index() == 1)).unwrap();
    assert!(both.cases[0].contains(&opened) && !both.cases[1].contains(&opened));
    assert!(both.text.contains(&format!("alter r{} = 1e21\n", opened + 1)));
    assert_eq!(both.text.matches("print ").count(), both.cases.iter().map(Vec::len).sum::<usize>());
}

/// One case more changes nothing but what is altered: a deck begins with its elements in its first case.
#[test]
fn positions_that_come_to_the_same_alter_nothing() {
    let model = one_way_model();
    let work = model.attempt.work();
    let conditions = Conditions::complete(work.exercise(), vec![1, 0]);
    assert!(!deck(work, &[conditions.clone(), conditions]).text.contains("alter"));
}
