//! The outcome and why, acts and how often, hand-ins of next to nothing, what is praised.

use switchdrop::{
    circuit::survey,
    marking::{Bar, Criterion, Outcome, Seen, Unmet, Weight, Well, done_well},
    report::{Consequence, consequence, criterion_line, praise},
    wording::{Wording, finding, headline, verdict},
};

use super::{attempt, sheet};
use crate::hand::Marked;

/// Marks earned under a criterion, of those to be had.
fn under(sheet: &Marked, of: Criterion) -> (u32, u32) {
    let line = sheet.criteria.iter().find(|it| it.criterion == of).unwrap();
    (line.marks, line.out_of)
}

/// The headline of a case, and the lines of the rule that it did not meet.
fn said(name: &str) -> (String, Vec<Unmet>) {
    let (attempt, sheet) = (attempt(name), sheet(name));
    (headline(&Wording::british(), attempt.work(), &sheet), sheet.unmet.clone())
}

/// No brown sleeve on any of the five switched ends: 90 of 100, and nothing of ten under identification.
#[test]
fn half_of_every_criterion_with_chances_enough_is_needed() {
    let sheet = sheet("assessor-04-no-brown-sleeves-at-all");
    assert_eq!((sheet.marks, under(&sheet, Criterion::Identification)), (90, (0, 10)));
    assert_eq!(sheet.outcome, Outcome::NotYet);
    assert_eq!(
        said("assessor-04-no-brown-sleeves-at-all"),
        (
            "Not yet: 90 of 100 marks, and identification has less than half: 0 of 10".to_owned(),
            vec![Unmet::Half(Criterion::Identification)]
        )
    );
}

/// What no assessor passes, whatever the total: a strapper under a blue sleeve, a strapper that a tug pulls out, six loose screws
/// with the cpcs of the rose among them.
#[test]
fn a_bar_stands_in_the_way_of_a_pass_at_any_total() {
    for (name, marks, bar, headline) in [
        (
            "assessor-05-grey-sleeved-blue-head",
            97,
            Bar::FalseMark,
            "Not yet: 97 of 100 marks, and a mark at the box at the head is false",
        ),
        (
            "assessor-71-slack-one-strapper",
            97,
            Bar::Loose,
            "Not yet: 97 of 100 marks, and a line at the box at the head is loose",
        ),
        (
            "assessor-26-all-slack-but-box-earth",
            90,
            Bar::Loose,
            "Not yet: 90 of 100 marks, and a cpc at the scullery rose is loose",
        ),
    ] {
        let sheet = sheet(name);
        assert_eq!((sheet.outcome, sheet.marks), (Outcome::NotYet, marks), "{name}");
        let (words, unmet) = said(name);
        assert_eq!(words, headline, "{name}");
        assert!(matches!(unmet[0], Unmet::Bar(it, _) if it == bar), "{name}: {unmet:?}");
    }
}

/// The rule is printed whole, pass or not: the marks, each criterion of which half is needed, every bar.
#[test]
fn the_whole_rule_is_printed() {
    let name = "assessor-05-grey-sleeved-blue-head";
    let rule = verdict(&Wording::british(), &attempt(name), &sheet(name)).rule;
    for part in [
        "80 of 100 marks",
        // Three cpc ends are the learner's: earthing offers too few chances.
        "half of each of these (polarity, identification, terminations, safe working and prediction)",
        "every control",
        "every stage",
        "loose",
        "a cpc missing or misplaced",
        "a false mark",
        "copper showing",
        "a cover left off",
        "a reading not taken",
        "critical",
    ] {
        assert!(rule.contains(part), "{part}: {rule}");
    }
}

/// Circuit 1 does not come to this job. Whoever names it beside circuit 2 is more careful than asked, and what is off holds every
/// circuit that is here.
#[test]
fn naming_a_circuit_too_many_costs_nothing() {
    let attempt = attempt("assessor-18-over-identified");
    assert!(attempt.tally().acts.is_empty(), "{:?}", attempt.tally().acts);
    let sheet = sheet("assessor-18-over-identified");
    assert_eq!((sheet.outcome, sheet.marks, sheet.findings.len()), (Outcome::Pass, 100, 0), "{:#?}", sheet.findings);
}

/// Safe working is 0 of 20 and 15 of 20: nobody is told that the places were proved dead first, nor that it was done safely.
#[test]
fn nothing_is_called_safe_after_a_stopped_act() {
    for name in ["assessor-53-four-unsafe-acts", "assessor-93-touched-unproved-12-times"] {
        let (attempt, sheet) = (attempt(name), sheet(name));
        let safe: Vec<Well> =
            done_well(&attempt, &sheet).into_iter().filter(|it| it.criterion() == Criterion::SafeWorking).collect();
        assert!(safe.is_empty(), "{name}: {safe:?}");
        let wording = Wording::british();
        let said = verdict(&wording, &attempt, &sheet).more.into_iter().chain(praise(&wording, &attempt, &sheet));
        for it in said {
            assert!(!it.contains("safely") && !it.contains("no unsafe act"), "{name}: {it}");
        }
    }
}

/// A heading under which marks were lost has no praise, whatever was right in part.
#[test]
fn nothing_is_praised_under_a_heading_in_which_marks_were_lost() {
    for name in [
        "assessor-04-no-brown-sleeves-at-all",
        "assessor-10-landing-left-off-locked",
        "assessor-26-all-slack-but-box-earth",
        "assessor-53-four-unsafe-acts",
        "assessor-75-switch-return-in-neutral",
    ] {
        let (attempt, sheet) = (attempt(name), sheet(name));
        let well = done_well(&attempt, &sheet);
        assert!(!well.is_empty(), "{name}");
        for it in well {
            let (marks, out_of) = under(&sheet, it.criterion());
            assert_eq!(marks, out_of, "{name}: {it:?}");
        }
    }
}

/// Circuit 1's cores are not touched by the switches of circuit 2. Whoever names them live beside what is, names too much.
#[test]
fn naming_too_much_in_a_prediction_is_judged() {
    use switchdrop::work::Action;
    let name = "assessor-18-over-identified";
    let right = attempt(name);
    let mut replayed = right.begun_again();
    for action in right.log() {
        let action = match action {
            Action::Predict { positions, lit, live } => {
                let every = right.work().exercise().predict.iter().map(|it| right.work().conductor_address(*it));
                let live = if positions.iter().all(|it| *it == 0) { every.collect() } else { live.clone() };
                Action::Predict { positions: positions.clone(), lit: lit.clone(), live }
            }
            it => it.clone(),
        };
        let _ = replayed.act(action);
    }
    assert_eq!(crate::hand::marked(&replayed).causes(), [("prediction-wrong", "prediction 1")]);
}

/// Right: advice, once. All three insulation readings were beyond the range of 299 megohm, and `299` was written each time.
#[test]
fn a_sign_left_off_at_the_top_of_the_range_is_advice_once() {
    let sheet = sheet("assessor-44-IR-299-not-gt");
    assert_eq!(sheet.causes(), []);
    let codes: Vec<&str> = sheet.findings.iter().map(|it| it.code.word()).collect();
    assert_eq!((codes, sheet.outcome, sheet.marks), (vec!["figure-sign"], Outcome::Pass, 100));
}

/// Right: not yet: not terminated here, the metal keeps its earth by the other circuit's cpc, and without that circuit it has none.
#[test]
fn a_cpc_not_terminated_where_another_circuits_keeps_the_metal_is_a_bar() {
    let name = "assessor-06-link-cpc-loose-head";
    let (attempt, sheet) = (attempt(name), sheet(name));
    assert_eq!(sheet.causes(), [("cpc-open", "link/cpc@east")]);
    assert_eq!((sheet.outcome, sheet.findings[0].weight, sheet.findings[0].lost), (Outcome::NotYet, Weight::Major, 4));
    assert!(matches!(sheet.unmet[..], [Unmet::Bar(Bar::Cpc, 0)]), "{:?}", sheet.unmet);
    assert_eq!(
        finding(&Wording::british(), attempt.work(), &sheet.findings[0]).what,
        "The cpc of the three-core, at the box at the head is not terminated here; the box relies on another circuit's cpc."
    );
}

/// Right: refer. A brown sleeve on the bare cpc of the drop.
#[test]
fn another_colour_on_a_protective_conductor_is_referred() {
    let sheet = sheet("assessor-79-brown-sleeve-on-drop-cpc");
    assert_eq!(sheet.causes(), [("mark-false", "drop/cpc@switch")]);
    assert_eq!((sheet.outcome, sheet.findings[0].weight), (Outcome::Refer, Weight::Critical));
    assert_eq!(under(&sheet, Criterion::Identification), (0, 10));
}

/// Right: the sleeve that the rose lacks arose at the rose, where the core was connected, and not at the switch.
#[test]
fn a_missing_mark_arose_at_its_own_end() {
    use switchdrop::{report::moments, work::Action};
    let name = "assessor-16-sleeve-only-at-switch";
    let (attempt, sheet) = (attempt(name), sheet(name));
    assert_eq!(sheet.causes(), [("mark-missing", "drop/blue@rose")]);
    let arose = moments(&attempt, &sheet)[0].unwrap();
    let at = &attempt.log()[arose];
    assert!(matches!(at, Action::Connect { end, .. } if end == "drop/blue@rose"), "{at:?}");
}

/// Right: shown by a position in which a press changes nothing. The grey strapper hangs free: with both rockers on its side the light
/// is dark, and pressing either leaves it so.
#[test]
fn a_wrong_control_is_shown_where_a_press_changes_nothing() {
    let (attempt, sheet) = (attempt("house-twocore"), sheet("house-twocore"));
    let Seen::InCase(case) = &sheet.findings[0].seen else { panic!("{:?}", sheet.findings[0]) };
    let rows = survey(attempt.work()).rows;
    let lamp = attempt.work().lamp("lamp").unwrap();
    let control = attempt.work().exercise().controls.iter().find(|it| it.lamp == lamp).unwrap();
    let glow = |positions: &[u8]| rows.iter().find(|it| it.positions == positions).unwrap().lamps[lamp.index()].glow;
    for switch in &control.switches {
        let mut pressed = case.positions.clone();
        pressed[switch.index()] = 1 - pressed[switch.index()];
        assert_eq!(glow(&case.positions), glow(&pressed), "{case:?}");
    }
}

/// Right: not yet, one line, and nothing for safe working.
#[test]
fn a_blank_hand_in_is_one_line() {
    let sheet = sheet("assessor-30-blank");
    assert_eq!(sheet.findings.len(), 1, "{:#?}", sheet.findings);
    assert_eq!(sheet.causes(), [("work-unfinished", "")]);
    assert_eq!((sheet.outcome, sheet.marks, under(&sheet, Criterion::SafeWorking)), (Outcome::NotYet, 0, (0, 20)));
    let (words, unmet) = said("assessor-30-blank");
    assert_eq!(words, "Not yet: 0 of 100 marks, and the work is not finished");
    assert_eq!(unmet, [Unmet::Unfinished(0)]);
}

/// Half the ends in, nothing wrong among them: one line, credited for what was done. With the switch return among the neutrals,
/// a short that no free end mends: that, named and referred, and the one line behind it.
#[test]
fn a_half_wired_hand_in_is_one_line_and_what_stands_all_the_same() {
    use crate::hand::{Hand, exercise, marked};
    use switchdrop::work::Action;
    let begun = |lines: &str| {
        let mut hand = Hand::new(exercise("one-way-rose", 4));
        hand.isolates();
        hand.wires(lines);
        hand
    };
    // Not handed in, it is still to be done, and it says nothing of it that a search came to its bound.
    let sheet = switchdrop::marking::mark(&begun("").attempt, switchdrop::attempt::Mode::Practice);
    assert!(!sheet.handed_in && !sheet.sought_no_further);
    let half = |lines: &str| {
        let mut hand = begun(lines);
        hand.does(Action::HandIn);
        marked(&hand.attempt)
    };
    let feed = "feed/brown@rose rose.loop\nfeed/blue@rose rose.neutral\nfeed/cpc@rose Sleeve(GreenYellow) rose.earth";
    let sound = half(feed);
    assert_eq!(sound.causes(), [("work-unfinished", "")], "{:#?}", sound.findings);
    assert_eq!((sound.outcome, sound.findings.len()), (Outcome::NotYet, 1));
    // The same before it is handed in: nothing is critical about ends that are still to be landed.
    let going_on = marked(&begun(feed).attempt);
    assert_eq!((going_on.outcome, &going_on.unmet[..]), (Outcome::NotYet, &[Unmet::NotHandedIn][..]));
    // One of the four stages that count under it is done.
    assert_eq!(under(&sound, Criterion::SafeWorking), (5, 20));
    let short = half(&format!(
        "{feed}\ndrop/brown@rose rose.loop\ndrop/brown@switch switch.COM\ndrop/blue@rose rose.neutral\ndrop/blue@switch switch.COM"
    ));
    assert_eq!(short.outcome, Outcome::Refer, "{:#?}", short.findings);
    let codes: Vec<&str> = short.causes().into_iter().map(|it| it.0).collect();
    assert_eq!(codes[..2], ["short-line-neutral", "work-unfinished"], "{codes:?}");
}

/// Right: function is not awarded, and the line says so; the cause is charged once, under polarity.
#[test]
fn a_light_that_another_fault_kept_dark_earns_nothing() {
    let name = "assessor-75-switch-return-in-neutral";
    let sheet = sheet(name);
    assert_eq!(sheet.causes(), [("short-line-neutral", "board.2")]);
    let function = sheet.criteria.iter().find(|it| it.criterion == Criterion::Function).unwrap();
    assert_eq!((function.marks, function.out_of, function.not_awarded), (0, 25, 25));
    assert_eq!(under(&sheet, Criterion::Polarity), (0, 15));
    assert_eq!(criterion_line(&Wording::british(), function), "function: 0 of 25; 25 not awarded separately");
}

/// Right: what really flowed. The landing light, 5 W, takes its line from the one device and gives it back to the other.
#[test]
fn what_flowed_between_two_circuits_is_said() {
    let name = "assessor-70-link-brown-in-landing-COM";
    let (attempt, sheet) = (attempt(name), sheet(name));
    let told = (0..sheet.findings.len()).find_map(|it| consequence(&attempt, &sheet, it)).unwrap();
    let Consequence::Opens { amps, .. } = told else { panic!("{told:?}") };
    let watts: Vec<f64> = attempt.work().exercise().lamps.iter().map(|it| it.watts).collect();
    assert!(watts.iter().any(|it| (amps - it / 230.0).abs() < 0.05 * amps), "{amps} A of {watts:?} W");
}

/// BS 7671 643, as the issue has it: each test by a number of its own, whatever is the matter with its line.
#[test]
fn a_line_of_the_test_sheet_has_the_number_of_its_test() {
    use switchdrop::{
        marking::{Citation, Code, Finding, reference},
        work::{Subject, Test},
    };
    let any = sheet("assessor-30-blank");
    let attempt = super::attempt("assessor-30-blank");
    let number = |test| {
        let at = Subject::Test(test, crate::ids::device(0));
        let finding = Finding { code: Code::TestIncomplete, at, ..any.findings[0].clone() };
        reference(attempt.work().exercise(), &finding)
    };
    for (test, expected) in [
        (Test::R1R2, "643.2"),
        (Test::InsulationLineEarth, "643.3"),
        (Test::Polarity, "643.6"),
        (Test::ZsSum, "643.7.3"),
        (Test::ResidualDevice, "643.8"),
    ] {
        assert_eq!(number(test), Citation::Regulation(expected), "{test:?}");
    }
}

/// A lamp on one switch that never lights: shown with the switch down, where it should be lit, and not up, where a dark lamp is normal.
#[test]
fn a_dark_lamp_is_shown_with_its_switch_down() {
    use crate::hand::{marked, one_way_model};
    use switchdrop::{
        marking::{Code, Seen},
        work::Edit,
    };
    let model = one_way_model();
    let work = model.attempt.work();
    let off = Edit::Move(work.end("flex/brown@rose").unwrap(), None);
    let sheet = marked(&model.attempt.supposing(&[off]));
    let dark = sheet.findings.iter().find(|it| it.code == Code::ControlWrong).expect("a dark lamp");
    let Seen::InCase(witness) = &dark.seen else { panic!("{:?}", dark.seen) };
    assert_eq!(witness.positions[work.switch("switch").unwrap().index()], 1, "{witness:?}");
}
