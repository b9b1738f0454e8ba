//! The charter of marking line by line, each with what would fail if it were not so: a test by its module and name, or a fault file by
//! its exercise and code. The charter itself is the page `marking.md` of the design.
//!
//! A line says what it asks for in few words of ours. Two walks below prove that everything named is there.

use std::{collections::BTreeSet, fs, path::Path};

use crate::bench::sources;

/// A line, and what shows it. `rules` as a module with a code stands for that code's case and near miss in `tests/rules.rs`.
type Line = (&'static str, &'static [&'static str]);

const OUTCOME: &[Line] = &[
    (
        "pass: everything works, every stage done, the pass mark, nothing critical",
        &[
            "made_off::the_hand_earns_everything_in_every_variant",
            "exercises::every_wiring_that_does_the_job_safely_earns_full_marks",
        ],
    ),
    (
        "not yet: anything short; blank or half-wired",
        &[
            "exercises::a_blank_hand_in_is_not_yet_and_below_the_pass_mark",
            "exercises::an_attempt_that_breaks_off_anywhere_before_power_on_is_not_yet",
            "by_hand::a_making_off_that_breaks_off_anywhere_is_not_yet",
            "pair::a_test_left_out_of_either_circuit_is_missing",
        ],
    ),
    (
        "refer: a critical fault stands, or a critical act in set work; in free practice it warns",
        &["rules::a_critical_act_refers_set_work_only", "fault one-way-rose metal-energised"],
    ),
    (
        "marks once, at the root cause; the smallest set of repairs",
        &[
            "slips::every_single_slip_is_judged_right_and_costs_once",
            "exercises::faults_do_what_was_worked_out_and_have_the_one_cause",
        ],
    ),
    (
        "a control that two moves do not put right is lost whole",
        &["weights::a_control_that_no_two_moves_mend_is_lost_whole"],
    ),
    (
        "every sheet: practice record, not evidence of competence",
        &["weights::every_sheet_says_that_it_is_a_practice_record"],
    ),
];

const WEIGHT: &[Line] = &[
    (
        "critical: what kills or burns, each kind",
        &[
            "weights::what_is_critical_is_critical",
            "by_hand::follows::a_slack_joint_gets_hot_at_the_load_of_its_circuit_and_is_critical",
            "fault one-way-rose lampholder-live",
            "fault one-way-rose neutral-switched",
            "fault two-way-passage circuits-joined",
            "fault one-way-rose cpc-misused",
            "fault one-way-rose cpc-open",
            "fault one-way-rose worked-live",
        ],
    ),
    (
        "major and advice: advice costs nothing",
        &["by_hand::follows::a_box_shallower_than_its_accessory_asks_is_said_and_costs_nothing"],
    ),
    (
        "metal that nothing makes live today: a first fault at each part, 0.4 s in TN, 0.2 s in TT",
        &[
            "weights::a_first_fault_is_cleared_in_the_time_of_its_system",
            "rules::a_fault_that_a_second_device_goes_on_feeding_is_not_cleared_in_time",
        ],
    ),
    (
        "a touch current is never called safe",
        &["weights::no_touch_is_called_safe", "consequences::metal_with_no_earth_waits_for_a_hand"],
    ),
    (
        "in one position only, with one device off, with a lamp out: still a fault",
        &[
            "fault one-way-rose short-line-neutral",
            "installations::boards::a_line_fed_from_two_circuits_stays_live_with_one_of_them_off",
            "installations::boards::a_neutral_open_upstream_is_live_through_the_lamp",
        ],
    ),
];

const NEVER: &[Line] = &[
    (
        "rose, junction box, loop at the switch, spare terminals, joints in a connector: what is joined, never a terminal's name",
        &[
            "legitimate::rows",
            "installations::a_bathroom_with_linked_poles_everywhere_is_right",
            "installations::a_light_from_three_places_is_right_and_follows_their_parity",
        ],
    ),
    (
        "several conductors in one terminal up to its capacity",
        &["installations::a_terminal_takes_only_what_it_is_made_for"],
    ),
    (
        "any core of a three-core; strappers crossed; L1 and L2; three-wire or strappers; supply and lamp at either plate; two twins",
        &[
            "exercises::every_wiring_that_does_the_job_safely_earns_full_marks",
            "installations::strappers_crossed_at_an_intermediate_are_no_accusation",
            "legitimate::rows",
        ],
    ),
    (
        "right colours need no mark; feed and return exchanged: only an unmarked blue, under identification",
        &["legitimate::only_an_unmarked_blue_on_line_loses_marks_and_under_identification", "legitimate::rows"],
    ),
    ("a sleeve, tape or letter at each termination", &["legitimate::rows"]),
    (
        "old colours by their own date; old work left alone needs no marking; mixed colours are no finding",
        &[
            "rules::old_colours_are_judged_by_their_own_date",
            "rules::an_unusual_and_safe_passage_has_no_finding",
            "before::old_work_that_is_sound_is_no_finding",
        ],
    ),
    ("a neutral in a three-core, grey or black, marked blue or N", &["legitimate::rows"]),
    (
        "a spare core ended at both ends; two cores in parallel are advice",
        &["legitimate::rows", "rules::an_unusual_and_safe_passage_has_no_finding", "rules cores-parallel"],
    ),
    (
        "linked double-pole switching; a two-way plate on COM and L2 is advice",
        &["installations::linked_poles_excuse_a_neutral_only_where_the_line_goes_with_it", "rules rocker-inverted"],
    ),
    (
        "bayonet flex exchanged: identification only; screw shell: the outer contact to neutral",
        &["legitimate::a_bayonet_flex_exchanged_is_identification_only", "rules outer-contact-line"],
    ),
    (
        "cpc to the box or to the plate first; plastic boxes: terminal or connector, kept onward, loose fails",
        &["legitimate::rows", "legitimate::continuity_is_kept_through_a_plastic_box"],
    ),
    (
        "fold-back by the terminal's own data; loose and crushed are faults",
        &[
            "by_hand::slips::rows",
            "by_hand::follows::a_terminal_that_asks_for_a_fold_has_one",
            "fault one-way-tested crushed",
        ],
    ),
    ("connectors: right if rated, enclosed, accessible", &["installations::a_terminal_takes_only_what_it_is_made_for"]),
    (
        "what was wrong before: nothing for being there, reporting earns, energising past it untold is critical",
        &[
            "before::what_was_wrong_and_is_reported_costs_nothing_and_is_praised",
            "before::energising_past_what_is_dangerous_and_unreported_is_critical",
            "before::an_old_fault_that_harms_nobody_costs_nothing_reported_or_not",
            "before::the_learners_own_fault_of_the_same_kind_costs",
        ],
    ),
    (
        "readings: tolerance, off-scale signs, rounding; R2 or R1+R2; Zs or its sum; 0.8 of the limit; copied or never read",
        &[
            "tested::slips::rounding_costs_nothing",
            "tested::slips::the_other_methods_cost_nothing",
            "fault one-way-tested figure-wrong",
            "fault one-way-tested figure-copied",
            "fault one-way-tested judgement-wrong",
        ],
    ),
];

const CAUGHT: &[Line] = &[
    (
        "a mark missing, a false one; green-and-yellow on live",
        &["fault one-way-rose mark-missing", "fault one-way-rose mark-false", "weights::what_is_critical_is_critical"],
    ),
    (
        "cpc cut off, loose, unsleeved, not carried past a box, or hidden by neutral and earth beyond",
        &[
            "fault one-way-rose cpc-open",
            "fault one-way-rose cpc-unsleeved",
            "fault one-way-rose connection-slack",
            "weights::a_neutral_that_touches_earth_beyond_hides_no_open_cpc",
        ],
    ),
    (
        "return in the neutral; neutral switched; two circuits; borrowed neutral; neutral open upstream",
        &[
            "fault one-way-rose short-line-neutral",
            "fault one-way-rose neutral-switched",
            "fault two-way-passage circuits-joined",
            "installations::boards::a_borrowed_neutral_is_seen_for_what_it_is_behind_every_board",
            "installations::boards::a_neutral_open_upstream_is_live_through_the_lamp",
        ],
    ),
    (
        "the bare cpc as a core; a bare loose end that can become live; live metal in reach",
        &[
            "fault two-way-passage cpc-misused",
            "fault two-way-passage loose-end-live",
            "fault one-way-rose metal-energised",
        ],
    ),
    (
        "a critical act put right afterwards",
        &[
            "rules::undo_takes_back_the_work_and_not_the_act",
            "before::put_right_after_the_power_was_on_it_was_energised_past_all_the_same",
            "rules energised-onto-fault",
        ],
    ),
];

const SAFE: &[Line] = &[
    (
        "identify, agree, isolate, lock off, open as if live, prove, test, prove; lock before the test; unit or live source",
        &[
            "safe_working::a_dead_test_proves_nothing_before_every_step_that_comes_first",
            "safe_working::nothing_comes_between_the_two_proofs_of_the_indicator",
            "safe_working::a_known_live_source_proves_the_indicator_as_well_as_the_unit",
            "fault one-way-rose wrongly-identified",
            "fault one-way-rose opened-unlocked",
            "fault one-way-rose touched-unproved",
        ],
    ),
    (
        "at a switch every conductor to earth and every other in every position; at a rose L-N, L-E, N-E; unearthed cpcs prove nothing",
        &[
            "safe_working::every_dead_test_of_a_switch_box_is_needed_and_no_other",
            "safe_working::a_rose_is_tested_between_line_neutral_and_earth",
            "safe_working::zero_volts_to_an_unearthed_cpc_prove_nothing",
        ],
    ),
    (
        "two circuits in a box: both off, locked, proved; TT: all live conductors",
        &[
            "pair::a_box_with_two_circuits_has_both_off_locked_and_proved",
            "tested::in_a_tt_system_the_neutral_is_isolated_too",
        ],
    ),
    (
        "stick or multimeter as proof; flat indicator, broken lead, wrong chart in a stated share",
        &[
            "tested::slips::a_stick_or_a_multimeter_proves_nothing_and_costs",
            "tested::slips::an_indicator_that_fails_its_proof_proves_nothing",
            "tested::slips::a_wrong_chart_is_reported",
            "tested::what_is_handed_out_varies_as_stated",
            "safe_working::an_indicator_that_failed_is_reported_whether_changed_or_not",
        ],
    ),
    (
        "the order of the tests, every switch last; a failure put right and repeated; a link left in trips",
        &[
            "safe_working::inspection_comes_before_every_test",
            "tested::slips::insulation_before_continuity_is_out_of_order",
            "safe_working::live_tests_have_their_order",
            "tested::slips::switches_are_worked_last",
            "safe_working::a_failure_put_right_asks_for_every_earlier_test_again",
            "fault one-way-tested test-not-repeated",
            "fault one-way-tested link-left-in",
        ],
    ),
    (
        "energising checks: dead tests, every cover, nobody at work, people told, own lock off",
        &[
            "tested::slips::a_dead_test_left_out_keeps_the_power_locked",
            "fault one-way-rose power-on-open",
            "safe_working::power_on_waits_for_every_check_and_for_ones_own_lock",
        ],
    ),
    (
        "live tests in their own stage; never live: any handwork, a plate off, continuity or insulation",
        &[
            "tested::slips::tests_at_the_wrong_time_are_live_working",
            "safe_working::no_handwork_is_done_live",
            "tested::sequence::rows",
        ],
    ),
    (
        "no reset before a dead test, each reset counted; a box opened again is isolated and proved again",
        &[
            "safe_working::each_reset_onto_a_fault_is_counted",
            "rules reset-untested",
            "safe_working::a_box_opened_again_is_isolated_and_proved_again",
        ],
    ),
    (
        "answers before power-on, locked, then compared",
        &["safe_working::an_answer_is_locked", "fault one-way-rose prediction-wrong", "rules prediction-missing"],
    ),
];

const CHARTER: [&[Line]; 5] = [OUTCOME, WEIGHT, NEVER, CAUGHT, SAFE];

fn named() -> impl Iterator<Item = &'static str> {
    CHARTER.into_iter().flatten().flat_map(|it| it.1.iter().copied())
}

/// Functions that are tests or that a test walks, as `module::name`.
fn functions() -> BTreeSet<String> {
    let mut found = BTreeSet::new();
    for (path, text) in sources("tests") {
        let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests");
        let module = path.strip_prefix(root).unwrap_or(&path).with_extension("");
        let module: Vec<_> = module.iter().filter_map(|it| it.to_str()).collect();
        let lines: Vec<&str> = text.lines().map(str::trim).collect();
        for (index, line) in lines.iter().enumerate() {
            let is_test = lines[..index].iter().rev().take(2).any(|it| *it == "#[test]");
            let is_walked = line.starts_with("pub fn rows()");
            let name = line.trim_start_matches("pub ").strip_prefix("fn ").and_then(|it| it.split('(').next());
            if let Some(name) = name.filter(|_| is_test || is_walked) {
                found.insert(format!("{}::{name}", module.join("::")));
            }
        }
    }
    found
}

#[test]
fn every_test_that_shows_a_line_is_there() {
    let functions = functions();
    let missing: Vec<_> = named().filter(|it| it.contains("::") && !functions.contains(*it)).collect();
    assert!(missing.is_empty(), "{missing:#?} of {} functions", functions.len());
}

#[test]
fn every_fault_file_and_case_that_shows_a_line_is_there() {
    let rules = fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/rules.rs")).unwrap();
    for it in named().filter(|it| !it.contains("::")) {
        let words: Vec<&str> = it.split(' ').collect();
        match words[..] {
            ["rules", code] => assert!(rules.contains(&format!("\"{code}\",")), "{it}"),
            ["fault", exercise, code] => {
                let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("exercises").join(exercise).join("faults");
                let mut files = fs::read_dir(folder).unwrap().map(|it| it.unwrap().file_name());
                assert!(files.any(|it| it.to_str().unwrap().starts_with(&format!("{code}__"))), "{it}");
            }
            _ => panic!("{it}"),
        }
    }
}

#[test]
fn every_line_has_something_that_shows_it() {
    assert!(CHARTER.into_iter().flatten().all(|it| !it.0.is_empty() && !it.1.is_empty()));
}
