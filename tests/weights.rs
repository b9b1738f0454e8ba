//! marking.md, "Outcome", "Weight" and "Must be caught", where no fault file shows a line of it: what is critical, what is lost whole,
//! what every sheet says.

use switchdrop::{
    attempt::Mode,
    marking::{Bar, Code, Outcome, Root, Sheet, Unmet, Weight, mark},
    report::{About, Story, report},
    trade::colour::{Colour, Mark},
    wording::{Wording, remarks},
    work::{Edit, Subject},
};

use crate::{
    hand::{Hand, one_way_model, two_way_model},
    installations::{PASSAGE, PASSAGE_WIRED, wired},
};

fn supposing(hand: &Hand, moves: &[(&str, Option<&str>)]) -> Sheet {
    let work = hand.attempt.work();
    let edit =
        |(end, to): &(&str, Option<&str>)| Edit::Move(work.end(end).unwrap(), to.map(|it| work.terminal(it).unwrap()));
    mark(&hand.attempt.supposing(&moves.iter().map(edit).collect::<Vec<_>>()), Mode::Set)
}

fn weight_of(sheet: &Sheet, code: Code) -> Option<Weight> {
    sheet.findings.iter().find(|it| it.code == code).map(|it| it.weight)
}

/// Four ends out of the three-core: two cores are gone, and no two moves bring both back. The control costs its whole share (a
/// half of 25, two controls, rounded up), and the sheet says to join it anew rather than which end to move.
#[test]
fn a_control_that_no_two_moves_mend_is_lost_whole() {
    let parked = [
        ("link/black@kiln", Some("kiln.connector.2")),
        ("link/grey@kiln", Some("kiln.connector.3")),
        ("link/black@clay", Some("clay.connector.1")),
        ("link/grey@clay", Some("clay.connector.2")),
    ];
    let sheet = supposing(&two_way_model(), &parked);
    let found = sheet.findings.iter().find(|it| it.code == Code::ControlWrong).expect("a control");
    assert_eq!(
        (found.at, found.root, found.lost),
        (Subject::Lamp(crate::ids::lamp(0)), Root::Itself, 13),
        "{:#?}",
        sheet.findings
    );
    assert_eq!(found.repair, None);
    let said = report(
        &Wording::british(),
        &About { learner: "L", receipt: None, notices: &[] },
        &two_way_model().attempt.supposing(&[]),
        &sheet,
        &Story::default(),
    );
    assert!(said.iter().any(|it| it.contains("join the ends anew")), "{said:#?}");
    // More than two slips are sought by nobody, and of the pairs not all.
    assert!(said.iter().any(|it| it.contains("reached its limit")), "{said:#?}");
    // One end out is one move, and that is what it says.
    let one = supposing(&two_way_model(), &parked[..1]);
    let found = one.findings.iter().find(|it| it.code == Code::ControlWrong).expect("a control");
    assert_eq!(found.repair.as_ref().map(Vec::len), Some(1));
    assert!(sheet.sought_no_further && !one.sought_no_further);
}

#[test]
fn every_sheet_says_that_it_is_a_practice_record() {
    let model = one_way_model();
    let blank = supposing(&model, &[("feed/brown@rose", None), ("drop/brown@rose", None)]);
    for sheet in [mark(&model.attempt, Mode::Set), blank] {
        let said = report(
            &Wording::british(),
            &About { learner: "L", receipt: None, notices: &[] },
            &model.attempt,
            &sheet,
            &Story::default(),
        );
        assert!(said.iter().any(|it| it == "This is a record of practice, not evidence of competence."));
    }
}

/// Each with the code it must have, critical, and a referral. A joint that gets hot and live working have tests of their own.
#[test]
fn what_is_critical_is_critical() {
    for (moves, code) in [
        (&[("drop/cpc@switch", None)][..], Code::CpcOpen),
        (&[("drop/cpc@switch", None)], Code::NoDisconnection),
        (&[("drop/cpc@rose", Some("rose.switched"))], Code::CpcMisused),
        (&[("drop/blue@rose", Some("rose.neutral"))], Code::ShortLineNeutral),
        (&[("drop/blue@rose", Some("rose.earth"))], Code::ShortLineEarth),
        (&[("flex/brown@rose", Some("rose.loop"))], Code::LampholderLive),
    ] {
        let sheet = supposing(&one_way_model(), moves);
        assert_eq!(weight_of(&sheet, code), Some(Weight::Critical), "{code:?}: {:#?}", sheet.findings);
        assert_eq!(sheet.outcome, Outcome::Refer, "{code:?}");
    }
    let onto = supposing(&two_way_model(), &[("link/brown@kiln", Some("kiln.2.COM"))]);
    assert_eq!(weight_of(&onto, Code::CircuitsJoined), Some(Weight::Critical));
    let loose = supposing(&two_way_model(), &[("link/brown@clay", None)]);
    assert_eq!(weight_of(&loose, Code::LooseEndLive), Some(Weight::Critical));
    assert_eq!(loose.outcome, Outcome::Refer);
    let hand = one_way_model();
    let work = hand.attempt.work();
    let edited = |edit: Edit| mark(&hand.attempt.supposing(&[edit]), Mode::Set);
    let slack = edited(Edit::Slacken(work.terminal("switch.box.earth").unwrap()));
    assert_eq!(weight_of(&slack, Code::ConnectionSlack), Some(Weight::Critical));
    let elsewhere = edited(Edit::Slacken(work.terminal("switch.COM").unwrap()));
    assert_eq!(weight_of(&elsewhere, Code::ConnectionSlack), Some(Weight::Major));
    let sleeve = |colour| edited(Edit::Mark(work.end("drop/blue@switch").unwrap(), Some(Mark::Sleeve(colour))));
    let (earth, neutral) = (sleeve(Colour::GreenYellow), sleeve(Colour::Blue));
    assert_eq!((weight_of(&earth, Code::MarkFalse), earth.outcome), (Some(Weight::Critical), Outcome::Refer));
    // Blue on line says nothing that is right, and kills nobody who tests.
    assert!(neutral.findings.iter().all(|it| it.weight == Weight::Major) && !neutral.findings.is_empty());
    let unmarked = edited(Edit::Mark(work.end("drop/blue@switch").unwrap(), None));
    assert_eq!(weight_of(&unmarked, Code::MarkMissing), Some(Weight::Major));
}

/// The hand that moves a core to where it belongs tightens the screw there: that it was loose is a slip of its own all the same, and costs.
#[test]
fn a_loose_screw_does_not_follow_from_crossed_cores() {
    let hand = two_way_model();
    let work = hand.attempt.work();
    let [com, way] = ["clay.COM", "clay.L1"].map(|it| work.terminal(it).unwrap());
    let end_in = |it| work.ends_in(it).next().expect("an end");
    let crossed = vec![Edit::Move(end_in(com), Some(way)), Edit::Move(end_in(way), Some(com))];
    let and_loose = [crossed.clone(), vec![Edit::Slacken(com)]].concat();
    let [crossed, and_loose] = [crossed, and_loose].map(|it| mark(&hand.attempt.supposing(&it), Mode::Set));
    let loose = and_loose.findings.iter().position(|it| it.code == Code::ConnectionSlack).expect("a loose screw");
    assert_eq!(and_loose.findings[loose].root, Root::Itself);
    assert!(and_loose.unmet.contains(&Unmet::Bar(Bar::Loose, loose)), "{:?}", and_loose.unmet);
    assert!(and_loose.marks < crossed.marks, "{} and {}", and_loose.marks, crossed.marks);
}

/// On paper: a fault to the metal in a TT system runs through 121 ohm of earth, 1.9 A, which no overcurrent release of 6 A ever feels;
/// a residual current device of 30 mA opens on it in 40 ms. In a TN-C-S system it runs through an ohm or so, over 200 A.
#[test]
fn a_first_fault_is_cleared_in_the_time_of_its_system() {
    for (earthing, device, cleared) in
        [("Tt", "Rcbo6B30", true), ("Tt", "Mcb6B", false), ("TnCS", "Mcb6B", true), ("TnS", "Mcb6B", true)]
    {
        let text = PASSAGE.replace("earthing: Tt", &format!("earthing: {earthing}")).replace("Rcbo6B30", device);
        // The tail from box to plate is left out: both are earthed by a cpc of their own.
        let sheet = mark(&wired(&text, PASSAGE_WIRED), Mode::Set);
        let weight = weight_of(&sheet, Code::NoDisconnection);
        assert_eq!(weight, (!cleared).then_some(Weight::Critical), "{earthing} {device}: {:#?}", sheet.findings);
    }
}

/// What is said of every touch ends so, and of none that it is safe.
#[test]
fn no_touch_is_called_safe() {
    let text = include_str!("../assets/wording/en-GB/report.ftl");
    let touches: Vec<&str> = text.lines().filter(|it| it.starts_with("would-touch")).collect();
    assert_eq!(touches.len(), 4, "{touches:#?}");
    for it in &touches[..2] {
        assert!(it.ends_with("To touch it is never safe."), "{it}");
    }
    assert!(touches[2..].iter().all(|it| !it.contains("safe")), "{touches:#?}");
}

/// The larder's cpc is cut off at the rose, and beyond it neutral and earth touch: a meter finds continuity, and the cpc is open all
/// the same.
#[test]
fn a_neutral_that_touches_earth_beyond_hides_no_open_cpc() {
    let hand = one_way_model();
    let work = hand.attempt.work();
    let at = |it: &str| work.terminal(it).unwrap();
    let touch = Edit::Tail(at("larder-rose.neutral"), at("larder-rose.earth"));
    let cut = Edit::Move(work.end("onward/cpc@rose").unwrap(), None);
    let found = |edits: &[Edit]| mark(&hand.attempt.supposing(edits), Mode::Set);
    assert!(weight_of(&found(&[touch.clone(), cut]), Code::CpcOpen).is_some());
    assert!(weight_of(&found(&[touch]), Code::CpcOpen).is_none());
}

/// A quarter of a heading for each missing mark, rounded up: of 10, 3 and 3 and 3, and for the fourth the 1 that is left. The sheet says so
/// of the fourth and of no other.
#[test]
fn what_a_heading_has_no_more_marks_for_is_said() {
    let model = two_way_model();
    let work = model.attempt.work();
    let marked = |it: &switchdrop::exercise::EndId| {
        !work.is_undisturbed(*it) && work.mark_of(*it).is_some() && !work.end_facts(*it).colour.is_protective()
    };
    let edits: Vec<Edit> = work.ends().filter(marked).map(|it| Edit::Mark(it, None)).collect();
    let sheet = mark(&model.attempt.supposing(&edits), Mode::Set);
    let missing: Vec<_> = sheet.findings.iter().filter(|it| it.code == Code::MarkMissing).collect();
    let heading = sheet.criteria.iter().find(|it| it.criterion == Code::MarkMissing.criterion()).unwrap();
    assert_eq!((heading.marks, heading.out_of), (0, 10));
    let wording = Wording::british();
    let said: Vec<(u32, bool)> =
        missing.iter().map(|it| (it.lost, remarks(&wording, it).any(|it| it.contains("no more marks")))).collect();
    assert_eq!(said, [(3, false), (3, false), (3, false), (1, true)]);
}
