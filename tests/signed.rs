//! What a tutor would not sign: advice that makes things worse, praise that a fault makes untrue, a spare end called an open earth.

use switchdrop::{
    attempt::{Attempt, Mode},
    marking::{Code, Criterion, Finding, Weight, Well, done_well, mark},
    report::Story,
    wording::{Wording, finding},
    work::Action,
};

use crate::hand::{Hand, exercise, two_way_model};

/// With several ends loose no connector is named: line and neutral would meet in it.
#[test]
fn a_loose_end_is_not_sent_to_a_connector() {
    let attempt = Attempt::new(exercise("two-way-passage", 4));
    let sheet = mark(&attempt, Mode::Set);
    let loose = |it: &&Finding| matches!(it.code, Code::LooseEnd | Code::LooseEndLive);
    let wording = Wording::british();
    let said: Vec<_> = sheet.findings.iter().filter(loose).map(|it| finding(&wording, attempt.work(), it)).collect();
    assert!(said.len() > 3, "{:#?}", sheet.findings);
    for it in said {
        let repair = it.repair.expect("advice");
        assert!(repair.starts_with("End it in its terminal"), "{repair}");
    }
}

/// An earth terminal left slack is charged under terminations; nobody is told that everything is earthed.
#[test]
fn earthing_is_not_praised_beside_what_it_relies_on() {
    let praised = |attempt: &Attempt| {
        done_well(attempt, &mark(attempt, Mode::Set)).contains(&Well::Criterion(Criterion::Earthing))
    };
    let model = two_way_model().attempt;
    assert!(praised(&model));
    let slack = |it: &&Action| !matches!(it, Action::Tighten { terminal, .. } if terminal == "kiln.box.earth");
    let log: Vec<_> = model.log().iter().filter(slack).cloned().collect();
    let slack = Attempt::replay(std::sync::Arc::clone(model.work().exercise()), log);
    assert!(!praised(&slack.expect("the rest can be done")));
}

/// A tail that nothing relies on, one end of it loose: an end to be tidied up, no earth missing. Where the plate is of metal, it is.
#[test]
fn a_spare_end_of_a_tail_is_no_open_earth() {
    let with_tail = |metal: bool| {
        let seed = (0..50).find(|it| has_metal_plate(&exercise("two-way-passage", *it)) == metal).expect("a variant");
        let mut hand = Hand::new(exercise("two-way-passage", seed));
        hand.isolates();
        hand.wires(
            "link/cpc@kiln Sleeve(GreenYellow) kiln.box.earth\nlink/cpc@clay Sleeve(GreenYellow) clay.box.earth",
        );
        hand.does(Action::MakeUp {
            location: "clay".to_owned(),
            colour: switchdrop::trade::colour::Colour::GreenYellow,
        });
        hand.wires("made-1/a@clay clay.box.earth");
        let there = hand.attempt.work().end("made-1/b@clay").expect("the link");
        let at = hand.attempt.work().subject_of(there);
        mark(&hand.attempt, Mode::Set).findings.into_iter().find(|it| it.at == at)
    };
    let spare = with_tail(false).expect("it is loose all the same");
    assert_eq!((spare.code, spare.weight), (Code::LooseEnd, Weight::Major));
    let needed = with_tail(true).expect("it is open");
    assert_eq!((needed.code, needed.weight), (Code::CpcOpen, Weight::Critical));
}

fn has_metal_plate(exercise: &switchdrop::exercise::Exercise) -> bool {
    use switchdrop::{exercise::LocationKind, trade::accessory::Material};
    let place = exercise.location("clay").expect("the box at the clay store door");
    matches!(&exercise.locations[place].kind, LocationKind::Box(it) if it.plate.front == Material::Metal)
}

/// Each finding is told with what was done when it arose; what was stopped was not done, and only its step is named.
#[test]
fn a_story_tells_no_stopped_act_as_done() {
    let mut hand = Hand::new(exercise("one-way-rose", 4));
    hand.attempt.act(Action::RemoveCover { location: "rose".to_owned() }).expect("it is stopped");
    hand.isolates();
    hand.wires(
        "feed/brown@rose rose.loop\ndrop/blue@rose rose.loop\ndrop/brown@rose rose.switched\nflex/brown@rose rose.switched\n\
         drop/blue@switch switch.COM\ndrop/brown@switch switch.L1",
    );
    let sheet = mark(&hand.attempt, Mode::Set);
    let story = Story::of(&hand.attempt, &sheet, Vec::new());
    let arose = |code: Code| {
        let index =
            sheet.findings.iter().position(|it| it.code == code).unwrap_or_else(|| panic!("{:#?}", sheet.findings));
        story.arose(&Wording::british(), index).expect("a moment")
    };
    assert_eq!(arose(Code::WorkedLive), "at step 1 of the work");
    assert!(arose(Code::MarkMissing).contains(": now in scullery"), "{}", arose(Code::MarkMissing));
}
