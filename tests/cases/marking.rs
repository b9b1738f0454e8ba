//! Weights, roots, repairs, what is never accused.

use switchdrop::{
    attempt::Mode,
    marking::{Code, Criterion, Outcome, Root, Seen, Weight, Well, done_well, mark},
    trade::colour::{Colour, Mark},
    work::{Edit, Subject},
};

use super::{attempt, sheet};
use crate::{hand::marked, pairs::with_what_goes_with_it};

/// Whether a case is referred for one critical cause alone, of that code and there.
fn is_referred_for(case: &str, code: &str, at: &str) {
    let sheet = sheet(case);
    assert_eq!(sheet.causes(), [(code, at)], "{case}");
    assert_eq!(sheet.outcome, Outcome::Refer, "{case}");
    assert_eq!(sheet.findings[0].weight, Weight::Critical, "{case}");
}

/// The pendant's neutral in the rose's earth terminal, behind a 5 W lamp: the light works, the current comes back by the cpc. Sleeved
/// green-and-yellow it is no better, and nobody is told to sleeve it.
#[test]
fn a_lamp_that_returns_through_the_earth_is_referred_at_any_wattage() {
    is_referred_for("r1-fe", "load-through-earth", "lamp");
    // The sleeve says of a neutral that it is an earth: that stays false when the core is where it belongs.
    let both = [("load-through-earth", "lamp"), ("mark-false", "flex/blue@rose")];
    assert_eq!(sheet("r1-feg").causes(), both);
    for case in ["r1-fe", "r1-feg"] {
        assert_eq!(sheet(case).outcome, Outcome::Refer, "{case}");
        let sleeves = |it: &Edit| matches!(it, Edit::Mark(_, Some(Mark::Sleeve(Colour::GreenYellow))));
        let advised = sheet(case);
        let mut causes = advised.findings.iter().filter(|it| it.root == Root::Itself);
        assert!(!causes.any(|it| it.repair.iter().flatten().any(sleeves)), "{case}");
        let sheet = sheet(case);
        let earthing = sheet.criteria.iter().find(|it| it.criterion == Code::LoadThroughEarth.criterion()).unwrap();
        assert_eq!(earthing.marks, 0, "{case}");
    }
}

/// Neutral and cpc exchanged at one place: that is the one cause, there, and no sound cpc beyond is accused.
#[test]
fn neutral_and_earth_exchanged_are_told_where_they_are() {
    for (case, at) in [("c53b", "rose"), ("c53", "west"), ("jb53", "jb")] {
        is_referred_for(case, "neutral-earth-exchanged", at);
    }
}

/// A link from the neutrals' connector to the box's earth terminal: joined, not exchanged.
#[test]
fn neutral_and_earth_joined_beyond_the_supply_are_referred() {
    is_referred_for("c53d", "neutral-earth-joined", "made-1/b@west");
}

/// Line and neutral exchanged at the second socket of a ring; and, in another, neutral and earth there.
#[test]
fn a_socket_is_judged_by_what_comes_to_its_terminals() {
    is_referred_for("g77", "socket-reversed", "s2");
    is_referred_for("g79", "neutral-earth-exchanged", "s2");
}

/// Line and neutral exchanged at the rose: one cause, and nobody is told to sleeve what stands wrong.
#[test]
fn line_and_neutral_exchanged_are_one_cause() {
    for case in ["house-swap", "f38"] {
        let sheet = sheet(case);
        assert_eq!(sheet.outcome, Outcome::Refer, "{case}");
        let of_wiring: Vec<_> = sheet.causes().into_iter().filter(|it| it.0 != "stage-missing").collect();
        assert_eq!(of_wiring, [("cores-exchanged", "rose")], "{case}");
        let sleeved = sheet.findings.iter().any(|it| it.root == Root::Itself && it.code.word().starts_with("mark-"));
        assert!(!sleeved, "{case}");
    }
}

/// Line and cpc of the feed exchanged: the exchange is the cause, and it is charged as the earthing fault that it is.
#[test]
fn line_and_cpc_exchanged_are_charged_under_earthing() {
    is_referred_for("r1-52", "cores-exchanged", "rose");
    let sheet = sheet("r1-52");
    assert_eq!((sheet.findings[0].charged, sheet.findings[0].lost), (Criterion::Earthing, 15));
}

/// Two live ends left loose, in two boxes: both, and not the control that they leave wrong.
#[test]
fn two_loose_live_ends_are_two_causes_under_polarity() {
    let sheet = sheet("R-st-bkloose-gyloose");
    assert_eq!(sheet.causes(), [("loose-end-live", "link/black@east"), ("loose-end-live", "link/grey@west")]);
    assert!(sheet.findings[..2].iter().all(|it| it.charged == Criterion::Polarity && it.weight == Weight::Critical));
    assert_eq!(sheet.outcome, Outcome::Refer);
}

/// The return in the neutral block and the onward neutral loose: two causes, each with its own repair, and after both nothing.
#[test]
fn a_short_and_a_loose_neutral_are_mended_each_by_its_own_end() {
    let sheet = sheet("R-rose-retN-onNloose");
    assert_eq!(sheet.causes(), [("short-line-neutral", "board.2"), ("loose-end-live", "onward/blue@rose")]);
    after_every_repair_nothing_is_found("R-rose-retN-onNloose");
}

/// The cpc in a strapper's terminal and the strapper loose: the cpc goes into its earth terminal.
#[test]
fn a_cpc_in_a_strappers_place_goes_back_to_its_earth_terminal() {
    let sheet = sheet("R-st-gyloose-cpcL2");
    assert_eq!(sheet.causes(), [("loose-end-live", "link/grey@west"), ("cpc-misused", "link/cpc@west")]);
    after_every_repair_nothing_is_found("R-st-gyloose-cpcL2");
}

/// A metal plate without a tail where nothing would open in time: critical under earthing, and the tail is its repair.
#[test]
fn a_missing_tail_weighs_as_much_as_the_metal_it_leaves() {
    is_referred_for("gm50", "tail-missing", "box.plate.earth");
    assert_eq!(sheet("gm50").findings[0].charged, Criterion::Earthing);
}

/// Two lines joined: that is the cause, and the neutral that seems borrowed follows.
#[test]
fn two_lines_joined_come_before_a_neutral_that_seems_borrowed() {
    is_referred_for("w42", "circuits-joined", "board.2");
}

/// Carries out every repair of every cause, with the screw that goes with it, and marks the work as it then stands.
fn after_every_repair_nothing_is_found(case: &str) {
    let attempt = attempt(case);
    let causes = marked(&attempt);
    let repairs = causes.findings.iter().filter(|it| it.root == Root::Itself).filter_map(|it| it.repair.clone());
    let edits: Vec<Edit> = repairs.flatten().flat_map(|it| with_what_goes_with_it(attempt.work(), it)).collect();
    let left = marked(&attempt.supposing(&edits));
    let stands = left.placed(|it| !matches!(it.seen, Seen::InAction(_)) && it.weight > Weight::Advice);
    let stands: Vec<_> = stands.map(|(it, at)| (it.code.word(), at)).filter(|it| it.0 != "stage-missing").collect();
    assert_eq!(stands, [], "{case}");
}

/// Two causes, of which the first hides the second: both are named, and after both repairs nothing is found.
#[test]
fn no_cause_hides_another() {
    let cpc = |at| ("cpc-misused", at);
    for (case, causes) in [
        ("D-rose-cpcSL-nomark", [cpc("drop/cpc@switch"), ("mark-missing", "drop/blue@switch")]),
        ("D-st-cpcL2-nomark", [cpc("link/cpc@west"), ("mark-missing", "link/grey@west")]),
        ("R-rose-cpcSL-gyL", [cpc("drop/cpc@switch"), ("mark-false", "feed/brown@rose")]),
        ("R-rose-flexloop-cpcSL", [cpc("drop/cpc@switch"), ("lampholder-live", "lamp")]),
    ] {
        assert_eq!(sheet(case).causes(), causes, "{case}");
        after_every_repair_nothing_is_found(case);
    }
    let sheet = sheet("R-rose-cpcSL-gyL");
    assert_eq!((sheet.findings[1].weight, sheet.findings[1].hidden), (Weight::Critical, true));
}

/// Four jobs of a stranger, who is an assessor. Line and neutral reversed: one cause, and the repair exchanges two cores and dresses none up,
/// whatever was predicted of the wrong wiring. A metal box whose cpcs fill a connector: the tail that is advised has room at both ends.
#[test]
fn what_is_reversed_is_exchanged_and_a_tail_has_room() {
    for (case, cause) in [
        ("stranger-rose-flex", ("mark-missing", "flex/blue@rose")),
        ("stranger-choose-reversed", ("mark-missing", "flex/blue@rose")),
        ("stranger-passage-reversed", ("mark-missing", "light/blue@kiln")),
        ("stranger-choose-tail", ("tail-missing", "tack.box.earth")),
    ] {
        let (attempt, sheet) = (attempt(case), sheet(case));
        assert_eq!(sheet.causes(), [cause], "{case}");
        let repair = sheet.findings[0].repair.clone().expect("a repair");
        assert!(repair.iter().all(|it| !matches!(it, Edit::Mark(..))), "{case}: {repair:?}");
        let mended = attempt.supposing(&repair);
        let (work, exercise) = (mended.work(), attempt.work().exercise());
        for (id, it) in exercise.terminals.with_ids() {
            assert!(work.ends_in(id).count() <= it.capacity.conductors, "{case}: {}", it.address);
        }
        after_every_repair_nothing_is_found(case);
    }
}

/// The bare cpc as third core, with the core that it stands for loose beside it: one critical cause under earthing, whose repair puts
/// both where they belong, and which nobody is told to sleeve. A brown sleeve on it makes it no better.
#[test]
fn a_bare_cpc_used_as_a_third_core_goes_back_with_the_core_that_it_stands_for() {
    for case in ["house-earth3", "house-earth3brown"] {
        is_referred_for(case, "cpc-misused", "link/cpc@east");
        let found = sheet(case);
        assert!(found.findings.iter().all(|it| it.code != Code::CpcUnsleeved), "{case}");
        after_every_repair_nothing_is_found(case);
    }
}

/// While a cpc stands in for a core, line and neutral are not where they belong; nor is it identified by a mark that says that it is one.
/// Both are lost under earthing, and not awarded there.
#[test]
fn a_bare_cpc_used_as_a_third_core_earns_no_polarity_and_a_brown_sleeve_on_it_no_identification() {
    for (case, identification) in [("house-earth3", 10), ("house-earth3brown", 0)] {
        let sheet = sheet(case);
        let earned =
            |of| sheet.criteria.iter().find(|it| it.criterion == of).map(|it| (it.marks, it.not_awarded)).unwrap();
        assert_eq!(earned(Criterion::Earthing), (0, 0), "{case}");
        assert_eq!(earned(Criterion::Polarity), (0, 15), "{case}");
        assert_eq!(earned(Criterion::Identification), (identification, 10 - identification), "{case}");
    }
}

/// Where a core does another's work, nobody is told that line and neutral are where they belong, or that every core can be told.
#[test]
fn a_core_that_does_anothers_work_is_praised_under_no_heading() {
    for case in ["r1-fe", "r1-feg", "house-earth3", "house-earth3brown"] {
        let attempt = attempt(case);
        let praised = done_well(&attempt, &mark(&attempt, Mode::Set));
        for it in [Criterion::Polarity, Criterion::Earthing, Criterion::Identification] {
            assert!(!praised.contains(&Well::Criterion(it)), "{case}: {praised:?}");
        }
    }
}

/// 500 W at the end of 42 m lifts its sound neutral by a volt or two: nobody would feel it, and what was predicted is right.
#[test]
fn a_sound_neutral_is_never_energised() {
    let sheet = sheet("neut");
    assert_eq!((sheet.outcome, sheet.marks, sheet.findings.len()), (Outcome::Pass, sheet.out_of, 0));
}

/// The outer contact of a screw lampholder on the line is advice, and predictions that were right cost nothing. What brought the line
/// there is the cable's cores in each other's terminals, so that the fitted flex has its blue core on the line: one cause, under
/// identification, whose repair is to exchange the cores that the learner landed.
#[test]
fn an_outer_contact_on_the_line_is_advice_and_costs_no_prediction() {
    let sheet = sheet("f39");
    assert_eq!((sheet.outcome, sheet.marks), (Outcome::Pass, sheet.out_of - 3));
    assert_eq!(sheet.causes(), [("mark-missing", "flex/blue@rose")]);
    let outer = sheet.findings.iter().find(|it| it.code == Code::OuterContactLine).map(|it| it.weight);
    assert_eq!(outer, Some(Weight::Advice));
    assert!(sheet.findings.iter().all(|it| it.code != Code::PredictionWrong), "{:#?}", sheet.findings);
    let (attempt, found) = (attempt("f39"), &sheet.findings[0]);
    let end = |it| attempt.work().end(it).unwrap();
    let terminal = |it| Some(attempt.work().terminal(it).unwrap());
    let back = vec![
        Edit::Move(end("along/blue@rose"), terminal("rose.neutral")),
        Edit::Move(end("along/brown@rose"), terminal("rose.switched")),
    ];
    assert_eq!(found.repair.as_ref(), Some(&back));
    after_every_repair_nothing_is_found("f39");
}

/// Predictions that do not come true because of a fault cost nothing, and are not praised for coming true.
#[test]
fn what_did_not_come_true_is_not_praised_as_foreseen() {
    let (attempt, sheet) = (attempt("house-earth3"), sheet("house-earth3"));
    let untrue = sheet.findings.iter().filter(|it| it.code == Code::PredictionWrong);
    assert!(untrue.into_iter().all(|it| it.lost == 0 && it.root != Root::Itself), "{:#?}", sheet.findings);
    assert!(sheet.findings.iter().any(|it| it.code == Code::PredictionWrong));
    assert!(!done_well(&attempt, &sheet).contains(&Well::Foreseen));
}

/// A socket-outlet to which no line comes is dead, and not reversed.
#[test]
fn a_socket_without_its_line_is_not_reversed() {
    let attempt = attempt("g77");
    let work = attempt.work();
    let reversed = Subject::Location(work.location("s2").unwrap());
    let sockets: Vec<_> = work.exercise().outlets().collect();
    let right = sockets.iter().find(|it| Subject::Location(it.0) != reversed).expect("another socket");
    let lines: Vec<Edit> = work.ends_in(right.1[0]).map(|it| Edit::Move(it, None)).collect();
    assert!(!lines.is_empty());
    let sheet = marked(&attempt.supposing(&lines));
    let found: Vec<_> = sheet.findings.iter().filter(|it| it.code == Code::SocketReversed).map(|it| it.at).collect();
    assert!(!found.contains(&Subject::Location(right.0)), "{found:?}");
}
