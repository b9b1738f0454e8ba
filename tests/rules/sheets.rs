//! Sheets that have a finding, or narrowly have not: how each is come by.

use std::sync::Arc;

use switchdrop::{
    attempt::{Attempt, Happened, Mode},
    exercise::{Exercise, Seed, read},
    marking::{Sheet, mark},
    trade::colour::Colour,
    work::{Action, Detector, Edit, Feel, Test},
};

use crate::{
    hand::{Hand, exercise, one_way_model, onto_a_short},
    tested::{WIRING, changed, record, tests_dead},
};

pub fn passage() -> Arc<Exercise> {
    Arc::new(read(include_str!("../scenarios/passage.ron"), Seed(0)).expect("a sound scenario"))
}

/// Lamps of 500 W on one device rated 6 A, all wired, under no switch of the learner's.
pub fn lamps_of_500_watts(count: usize) -> Sheet {
    let (mut places, mut cables, mut joined, mut controls) =
        (String::new(), String::new(), String::new(), String::new());
    for lamp in 0..count {
        // A terminal takes four conductors.
        let at = if lamp < 2 { "box" } else { "more" };
        places += &format!(
            "Location(id: \"l{lamp}\", name: \"light {lamp}\", at: (40, {}), has: Luminaire(holder: Bayonet, lamp: Filament, watts: 500.0)),",
            30 * lamp
        );
        cables += &format!(
            "Cable(id: \"f{lamp}\", name: \"flex {lamp}\", kind: PendantFlex, mm2: 0.75, metres: 1.0, from: \"{at}\", to: \"l{lamp}\"),"
        );
        for (core, contact, terminal) in [("brown", 1, "T1"), ("blue", 2, "T2")] {
            joined += &format!("Connected(end: \"f{lamp}/{core}@l{lamp}\", at: \"l{lamp}.{contact}\"),");
            joined += &format!("Connected(end: \"f{lamp}/{core}@{at}\", at: \"{at}.{terminal}\"),");
        }
        controls += &format!("Control(lamp: \"l{lamp}\", switches: [\"switch\"]),");
    }
    for (core, device, terminal) in [("brown", "line", "T1"), ("blue", "neutral", "T2")] {
        joined += &format!("Connected(end: \"feed/{core}@board\", at: \"board.1.{device}\"),");
        for end in ["feed/{}@box", "on/{}@box", "on/{}@more"] {
            let at = end.split('@').nth(1).unwrap();
            joined += &format!("Connected(end: \"{}\", at: \"{at}.{terminal}\"),", end.replace("{}", core));
        }
    }
    let text = format!(
        "Scenario(format: 1, id: \"heavy\", title: \"A barn\", place: \"Nowhere in particular\", brief: \"Too much light.\", \
         edition: A2of2022, earthing: TnCS, locations: [
         Location(id: \"board\", name: \"board\", at: (0, 0), has: Board(devices: [Device(id: \"1\", kind: Mcb6B, circuit: \"barn\")])),
         Location(id: \"box\", name: \"first box\", at: (20, 0), has: JunctionBox(kind: JunctionBoxFour)),
         Location(id: \"more\", name: \"second box\", at: (60, 0), has: JunctionBox(kind: JunctionBoxFour)),
         Location(id: \"switch\", name: \"switch\", at: (20, 90), has: Box(body: Plastic, plate: Plastic, ways: [OneWay])),
         {places}], cables: [
         Cable(id: \"feed\", name: \"feed\", kind: TwinEarth, mm2: 1.5, metres: 9.0, from: \"board\", to: \"box\"),
         Cable(id: \"on\", name: \"onward feed\", kind: TwinEarth, mm2: 1.5, metres: 9.0, from: \"box\", to: \"more\"),
         {cables}], connected: [{joined}], controls: [{controls}], stages: [])"
    );
    let exercise = Arc::new(read(&text, Seed(0)).unwrap_or_else(|it| panic!("{it:?}\n{text}")));
    sheet(&Attempt::replay(exercise, vec![Action::HandIn]).unwrap())
}

/// The passage with a residual current device and nothing else before each of its circuits, line and neutral of one of
/// them in one terminal.
pub fn short_behind_a_residual_current_device(kind: &str) -> Sheet {
    let text =
        include_str!("../scenarios/passage.ron").replace("Rcbo6B30", kind).replace("earthing: Tt", "earthing: TnCS");
    let mut hand = Hand::new(Arc::new(read(&text, Seed(0)).unwrap()));
    for device in ["board.1", "board.2"] {
        hand.does(Action::PowerOff { device: device.to_owned() });
        hand.does(Action::LockOff { device: device.to_owned() });
    }
    hand.does(Action::RemoveCover { location: "box".to_owned() });
    hand.wires("one/brown@box box.COM\none/blue@box box.COM");
    hand.does(Action::HandIn);
    sheet(&hand.attempt)
}

/// The passage wired by lines of end, mark and terminal, with a cpc to the plate and a tail to the box, and handed in.
pub fn wired(lines: &str) -> Attempt {
    wired_in(passage(), lines)
}

pub fn wired_in(passage: Arc<Exercise>, lines: &str) -> Attempt {
    let mut hand = Hand::new(passage);
    for device in ["board.1", "board.2"] {
        hand.does(Action::PowerOff { device: device.to_owned() });
        hand.does(Action::LockOff { device: device.to_owned() });
    }
    hand.does(Action::RemoveCover { location: "box".to_owned() });
    hand.does(Action::MakeUp { location: "box".to_owned(), colour: Colour::GreenYellow });
    hand.wires(
        "one/cpc@box Sleeve(GreenYellow) box.plate.earth
         two/cpc@box Sleeve(GreenYellow) box.plate.earth
         made-1/a@box box.plate.earth
         made-1/b@box box.box.earth",
    );
    hand.wires(lines);
    hand.does(Action::FitCover { location: "box".to_owned() });
    hand.does(Action::HandIn);
    hand.attempt
}

/// A light behind a fused connection unit, line and neutral each in the other's terminals on both of its sides or not: the lamp
/// has its line and its neutral either way, and its switch opens the line.
pub fn fused(exchanged: bool) -> Sheet {
    mark(&fused_work(exchanged), Mode::Set)
}

pub fn fused_work(exchanged: bool) -> Attempt {
    let attempt = crate::cases::attempt("spur");
    let work = attempt.work();
    let moves = [
        ("main/brown@fcu", "fcu.N-in"),
        ("main/blue@fcu", "fcu.L-in"),
        ("feed/brown@fcu", "fcu.N-out"),
        ("feed/blue@fcu", "fcu.L-out"),
    ];
    let edit = |(end, to): &(&str, &str)| {
        Edit::Move(work.end(end).expect("an end"), Some(work.terminal(to).expect("a terminal")))
    };
    let edits: Vec<Edit> = if exchanged { moves.iter().map(edit).collect() } else { Vec::new() };
    attempt.supposing(&edits)
}

/// The second feed made safe, then the light from the first.
pub fn passage_with(lines: &str) -> Attempt {
    wired(&format!(
        "two/red@box box.connector.2
         two/black@box box.connector.3
         one/brown@box box.COM
         one/blue@box box.connector.1
         {lines}"
    ))
}

pub fn right_passage() -> Attempt {
    passage_with("flex/brown@box box.L1\nflex/blue@box box.connector.1")
}

pub fn sheet(attempt: &Attempt) -> Sheet {
    mark(attempt, Mode::Set)
}

pub fn supposing(hand: &Hand, moves: &[(&str, Option<&str>)]) -> Sheet {
    let work = hand.attempt.work();
    let edits: Vec<Edit> = moves
        .iter()
        .map(|(end, to)| Edit::Move(work.end(end).unwrap(), to.map(|it| work.terminal(it).unwrap())))
        .collect();
    sheet(&hand.attempt.supposing(&edits))
}

/// The model of exercise 1 up to and without its first action of a kind, then handed in.
pub fn without(skip: impl Fn(&Action) -> bool) -> Sheet {
    let model = one_way_model();
    let mut attempt = Attempt::new(Arc::clone(model.attempt.work().exercise()));
    for action in model.attempt.log().iter().filter(|it| !skip(it)) {
        // What is stopped because something was left out is what is to be shown.
        let _ = attempt.act(action.clone());
    }
    sheet(&attempt)
}

/// Energised onto a short, then reset at once; or after a dead test and a repair.
pub fn after_a_trip(tested: bool) -> Sheet {
    tripped(&exercise("one-way-rose", 4), tested, true)
}

/// The same in an exercise that asks for right the first time; or put back after a dead test with nothing repaired.
pub fn right_first_time(mended: bool) -> Sheet {
    let text = exercise("one-way-rose", 4).text().replace("prediction:5)", "prediction:5,rework:4)");
    tripped(&Arc::new(read(&text, Seed(4)).unwrap()), true, mended)
}

/// The model with one hint, in an exercise that gives marks for doing without.
pub fn with_hint(weight: u32) -> Sheet {
    let text = exercise("one-way-rose", 4).text().replace("prediction:5)", &format!("prediction:5,hints:{weight})"));
    let log = std::iter::once(Action::Hint).chain(one_way_model().attempt.log().to_vec());
    sheet(&Attempt::replay(Arc::new(read(&text, Seed(4)).unwrap()), log).unwrap())
}

pub fn tripped(exercise: &Arc<Exercise>, tested: bool, mended: bool) -> Sheet {
    let mut hand = onto_a_short(Arc::clone(exercise));
    let operate = Action::Operate { switch: "switch".to_owned(), position: 1 };
    let tripped = hand.attempt.act(operate.clone()).unwrap();
    assert!(matches!(tripped, Happened::Tripped(_)), "{tripped:?}");
    let device = "board.2".to_owned();
    if tested {
        hand.does(Action::LockOff { device: device.clone() });
        hand.does(Action::RemoveCover { location: "rose".to_owned() });
        let rose = hand.attempt.work().location("rose").unwrap();
        hand.proves_dead(rose);
        if mended {
            hand.does(Action::Disconnect { end: "drop/blue@rose".to_owned() });
            hand.wires("drop/blue@rose rose.switched");
            hand.does(Action::Tighten { terminal: "rose.neutral".to_owned(), feel: Feel::Right });
        }
        hand.closes_up();
        hand.does(Action::Unlock { device: device.clone() });
    }
    let reset = hand.attempt.act(Action::Reset { device }).unwrap();
    assert_eq!(matches!(reset, Happened::Stopped(_)), !tested, "{reset:?}");
    if tested && !mended {
        let again = hand.attempt.act(operate).unwrap();
        assert!(matches!(again, Happened::Tripped(_)), "{again:?}");
    }
    hand.does(Action::HandIn);
    sheet(&hand.attempt)
}

/// The model of the tested light, its actions changed.
pub fn tested(change: impl Fn(&Action) -> Vec<Action>) -> Sheet {
    sheet(&changed(change))
}

pub fn whole() -> Sheet {
    tested(|it| vec![it.clone()])
}

pub fn on_tested(exercise: &Arc<Exercise>, actions: &[Action]) -> Sheet {
    sheet(&Attempt::replay(Arc::clone(exercise), actions.to_vec()).unwrap())
}

pub fn stick() -> Action {
    Action::TestDead { a: "board.earth".to_owned(), b: "board.earth".to_owned(), with: Detector::Stick }
}

pub fn is_line(it: &Action, which: Test) -> bool {
    matches!(it, Action::Record { test, .. } if *test == which)
}

pub fn leaving_out(which: Test) -> Sheet {
    tested(|it| if is_line(it, which) { Vec::new() } else { vec![it.clone()] })
}

pub fn writing(which: Test, reading: &str, accepted: bool) -> Sheet {
    tested(|it| vec![if is_line(it, which) { record(which, reading, accepted) } else { it.clone() }])
}

/// A core taken out and put back after the dead tests; then the tests made again, or not.
pub fn reworked(again: bool) -> Sheet {
    let mut hand = Hand::new(crate::tested::sound());
    hand.isolates();
    hand.wires(WIRING);
    tests_dead(&mut hand);
    hand.does(Action::Disconnect { end: "drop/blue@switch".to_owned() });
    hand.wires("drop/blue@switch switch.L1");
    if again {
        hand.closes_board();
        tests_dead(&mut hand);
    }
    hand.does(Action::HandIn);
    sheet(&hand.attempt)
}

/// The exercise with cables to choose, where some are left unchosen and nothing is joined.
pub fn left_unchosen(left: &[&str]) -> Sheet {
    let mut hand = Hand::new(exercise("two-way-to-choose", 4));
    let chosen = crate::chosen::chosen_model();
    let choices = chosen.attempt.log().iter().filter(|it| matches!(it, Action::Choose { .. }));
    for it in choices.filter(|it| !matches!(it, Action::Choose { cable, .. } if left.contains(&cable.as_str()))) {
        hand.does(it.clone());
    }
    // A blank hand-in says all of it in one line.
    sheet(&hand.attempt)
}
