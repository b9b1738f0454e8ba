//! The charter of marking (`src/marking/charter.md`) line by line: each by its first words, with what would fail if it were not so.
//!
//! What of a line is not built yet stands apart, in `NOT_YET`. Whoever builds it moves it: the tests to `SHOWN`, the words away.

use std::{collections::BTreeSet, fs, path::Path};

use crate::bench::sources;

const CHARTER: &str = include_str!("../src/marking/charter.md");

/// A line by its first words, and what shows it: a test by its module and name, a fault file by its exercise and code
/// (`fault`), or the case of a code and its near miss in `tests/rules.rs` (`rules`).
const SHOWN: &[(&str, &[&str])] = &[
    // Outcome.
    (
        "`pass`: every required control works",
        &[
            "made_off::the_hand_earns_everything_in_every_variant",
            "exercises::every_wiring_that_does_the_job_safely_earns_full_marks",
            "exercises::a_blank_hand_in_is_not_yet_and_below_the_pass_mark",
            "exercises::an_attempt_that_breaks_off_anywhere_before_power_on_is_not_yet",
            "by_hand::a_making_off_that_breaks_off_anywhere_is_not_yet",
            "pair::a_test_left_out_of_either_circuit_is_missing",
            "rules::a_critical_act_refers_set_work_only",
            "cases::judge::half_of_every_criterion_with_chances_enough_is_needed",
            "cases::judge::a_bar_stands_in_the_way_of_a_pass_at_any_total",
            "cases::judge::the_whole_rule_is_printed",
            "cases::judge::a_blank_hand_in_is_one_line",
            "cases::judge::a_half_wired_hand_in_is_one_line_and_what_stands_all_the_same",
            "tested::slips::insulation_under_a_megohm_that_is_energised_is_a_bar",
            "fault one-way-rose mark-false",
            "fault one-way-rose connection-slack",
            "fault one-way-tested bare-copper-showing",
            "fault one-way-rose cores-exchanged",
        ],
    ),
    (
        "A sheet never says that work was done safely",
        &[
            "cases::judge::nothing_is_called_safe_after_a_stopped_act",
            "cases::judge::nothing_is_praised_under_a_heading_in_which_marks_were_lost",
        ],
    ),
    (
        "Marks are lost once, at the root cause",
        &[
            "slips::every_single_slip_is_judged_right_and_costs_once",
            "exercises::faults_do_what_was_worked_out_and_have_the_one_cause",
            "cases::marking::line_and_cpc_exchanged_are_charged_under_earthing",
            "pairs::a_share_of_the_pairs_is_judged_right_and_mended",
        ],
    ),
    (
        "Carrying out every repair that a sheet advises",
        &[
            "weights::a_control_that_no_two_moves_mend_is_lost_whole",
            "pairs::the_repair_of_every_single_slip_mends_it",
            "pairs::a_share_of_the_pairs_is_judged_right_and_mended",
        ],
    ),
    ("Every sheet says: practice record", &["weights::every_sheet_says_that_it_is_a_practice_record"]),
    // Weight.
    (
        "**Critical:** a lamp, fan or any load",
        &[
            "weights::what_is_critical_is_critical",
            "cases::marking::a_lamp_that_returns_through_the_earth_is_referred_at_any_wattage",
            "cases::marking::neutral_and_earth_exchanged_are_told_where_they_are",
            "cases::marking::neutral_and_earth_joined_beyond_the_supply_are_referred",
            "by_hand::follows::a_slack_joint_gets_hot_at_the_load_of_its_circuit_and_is_critical",
            "rules fuse-in-neutral",
            "fault one-way-rose lampholder-live",
            "fault one-way-rose cores-exchanged",
            "fault two-way-passage circuits-joined",
            "fault one-way-rose cpc-misused",
            "fault one-way-rose cpc-open",
            "fault one-way-rose worked-live",
        ],
    ),
    (
        "**Major:** breaks a rule of the edition",
        &["by_hand::follows::a_box_shallower_than_its_accessory_asks_is_said_and_costs_nothing"],
    ),
    ("Whether a conductor is *energised*", &["cases::marking::a_sound_neutral_is_never_energised"]),
    (
        "A load that is dim with its control off",
        &["cases::electrical::a_lamp_fed_through_a_motor_and_a_fan_left_live_are_critical"],
    ),
    (
        "Metal that nothing makes live today",
        &[
            "weights::a_first_fault_is_cleared_in_the_time_of_its_system",
            "rules::a_fault_that_a_second_device_goes_on_feeding_is_not_cleared_in_time",
            "weights::no_touch_is_called_safe",
            "consequences::metal_with_no_earth_waits_for_a_hand",
            "survey::by_hand::a_plate_with_no_earth_stays_live_only_where_it_is_metal",
        ],
    ),
    (
        "A fault that shows in one position only",
        &[
            "fault one-way-rose short-line-neutral",
            "installations::boards::a_line_fed_from_two_circuits_stays_live_with_one_of_them_off",
            "installations::boards::a_neutral_open_upstream_is_live_through_the_lamp",
        ],
    ),
    // Never an accusation.
    (
        "Any wiring that does the job safely",
        &[
            "legitimate::rows",
            "installations::a_bathroom_with_linked_poles_everywhere_is_right",
            "installations::a_light_from_three_places_is_right_and_follows_their_parity",
            "installations::a_terminal_takes_only_what_it_is_made_for",
        ],
    ),
    (
        "Any core of a three-core for any job",
        &[
            "exercises::every_wiring_that_does_the_job_safely_earns_full_marks",
            "installations::strappers_crossed_at_an_intermediate_are_no_accusation",
            "legitimate::rows",
        ],
    ),
    (
        "A core already of the right colour",
        &["legitimate::only_an_unmarked_blue_on_line_loses_marks_and_under_identification", "legitimate::rows"],
    ),
    ("A mark is a sleeve, tape or letter", &["legitimate::rows"]),
    (
        "Old colours are judged by their own date",
        &[
            "rules::old_colours_are_judged_by_their_own_date",
            "rules::an_unusual_and_safe_passage_has_no_finding",
            "before::old_work_that_is_sound_is_no_finding",
        ],
    ),
    ("Neutral in a three-core", &["legitimate::rows"]),
    (
        "A spare core insulated",
        &["legitimate::rows", "rules::an_unusual_and_safe_passage_has_no_finding", "rules cores-parallel"],
    ),
    (
        "Linked double-pole switching",
        &["installations::linked_poles_excuse_a_neutral_only_where_the_line_goes_with_it", "rules rocker-inverted"],
    ),
    (
        "Bayonet lampholder",
        &["legitimate::a_bayonet_flex_exchanged_is_identification_only", "rules outer-contact-line"],
    ),
    ("cpc to box then tail to plate", &["legitimate::rows", "legitimate::continuity_is_kept_through_a_plastic_box"]),
    (
        "Fold-back only where",
        &[
            "by_hand::slips::rows",
            "by_hand::follows::a_terminal_that_asks_for_a_fold_has_one",
            "fault one-way-tested crushed",
        ],
    ),
    ("Connectors (screw, lever, push-in)", &["installations::a_terminal_takes_only_what_it_is_made_for"]),
    (
        "What was wrong before the learner came",
        &[
            "before::what_was_wrong_and_is_reported_costs_nothing_and_is_praised",
            "before::energising_past_what_is_dangerous_and_unreported_is_critical",
            "before::an_old_fault_that_harms_nobody_costs_nothing_reported_or_not",
            "before::the_learners_own_fault_of_the_same_kind_costs",
        ],
    ),
    (
        "Readings: within",
        &[
            "tested::slips::rounding_costs_nothing",
            "tested::slips::the_other_methods_cost_nothing",
            "fault one-way-tested figure-wrong",
            "fault one-way-tested figure-copied",
            "fault one-way-tested judgement-wrong",
        ],
    ),
    (
        "More caution than asked",
        &[
            "cases::judge::naming_a_circuit_too_many_costs_nothing",
            "cases::judge::naming_too_much_in_a_prediction_is_judged",
            "cases::judge::a_sign_left_off_at_the_top_of_the_range_is_advice_once",
        ],
    ),
    (
        "A cpc connected at one end of its run only",
        &[
            "cases::judge::a_cpc_not_terminated_where_another_circuits_keeps_the_metal_is_a_bar",
            "fault two-way-passage cpc-open",
        ],
    ),
    // Must be caught.
    ("Every cause, also behind another", &["cases::marking::no_cause_hides_another"]),
    (
        "Missing mark: major.",
        &[
            "fault one-way-rose mark-missing",
            "fault one-way-rose mark-false",
            "weights::what_is_critical_is_critical",
            "cases::judge::another_colour_on_a_protective_conductor_is_referred",
        ],
    ),
    ("A metal plate whose earth terminal is left empty", &["fault two-way-passage tail-missing", "rules tail-advised"]),
    (
        "Neutral in the bar of another residual",
        &[
            "installations::boards::a_borrowed_neutral_is_seen_for_what_it_is_behind_every_board",
            "fault two-way-to-choose cable-thin",
            "advice::a_light_with_no_device_of_30_milliamps_before_it_is_doubted",
        ],
    ),
    (
        "cpc cut off, unterminated, unsleeved",
        &[
            "fault one-way-rose cpc-open",
            "fault one-way-rose cpc-unsleeved",
            "fault one-way-rose connection-slack",
            "weights::a_neutral_that_touches_earth_beyond_hides_no_open_cpc",
        ],
    ),
    (
        "Switch return in the neutral block",
        &[
            "fault one-way-rose short-line-neutral",
            "fault one-way-rose cores-exchanged",
            "fault two-way-passage circuits-joined",
            "installations::boards::a_borrowed_neutral_is_seen_for_what_it_is_behind_every_board",
            "installations::boards::a_neutral_open_upstream_is_live_through_the_lamp",
        ],
    ),
    (
        "The bare cpc used as a third core",
        &[
            "fault two-way-passage cpc-misused",
            "fault two-way-passage loose-end-live",
            "fault one-way-rose cores-exchanged",
        ],
    ),
    (
        "A critical act put right afterwards",
        &[
            "rules::undo_takes_back_the_work_and_not_the_act",
            "before::put_right_after_the_power_was_on_it_was_energised_past_all_the_same",
            "rules energised-onto-fault",
        ],
    ),
    // Safe working.
    (
        "Before any end is touched",
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
        "**Dead tests, what is asked",
        &[
            "safe_working::every_dead_test_of_a_switch_box_is_needed_and_no_other",
            "safe_working::a_rose_is_tested_between_line_neutral_and_earth",
            "safe_working::zero_volts_to_an_unearthed_cpc_prove_nothing",
            "parked::what_ends_a_round_and_what_does_not",
            "parked::every_touch_is_needed_and_no_other",
        ],
    ),
    (
        "An earth is *shown* to be one",
        &[
            "parked::an_earth_is_shown_after_lock_off_and_nothing_else_is_read_before_the_proof",
            "parked::an_earth_that_does_not_read_through_is_none",
            "parked::a_socket_of_another_circuit_shows_an_earth_by_its_line_or_its_earth",
            "parked::a_reference_stays_on",
        ],
    ),
    (
        "One probe stays parked on it",
        &["parked::every_touch_is_needed_and_no_other", "parked::a_parked_probe_stays_where_it_was_put"],
    ),
    (
        "Line to neutral once",
        &[
            "parked::every_touch_is_needed_and_no_other",
            "parked::each_to_earth_alone_leaves_the_bare_cpc_and_the_lines",
        ],
    ),
    (
        "Again for every combination",
        &[
            "parked::a_switch_elsewhere_that_decides_what_is_live_is_worked",
            "parked::the_two_way_exercise_takes_about_fifteen_touches",
            "parked::a_place_is_proved_by_the_second_proof_and_the_learners_word",
            "tested::stands::tens_of_volts_on_a_core_that_hangs_free_are_told_for_what_they_are",
        ],
    ),
    (
        "Zero volts to an earth not shown",
        &[
            "safe_working::zero_volts_to_an_unearthed_cpc_prove_nothing",
            "parked::zero_volts_to_an_earth_never_shown_is_said_to_prove_nothing",
        ],
    ),
    (
        "**In set work these are critical acts",
        &[
            "rules::a_critical_act_refers_set_work_only",
            "tested::slips::a_figure_other_than_the_one_read_is_wrong_and_a_copied_limit_was_never_read",
            "tested::slips::a_stick_after_the_full_proof_is_nothing",
            "cases::safe::a_critical_act_refers_and_each_time_is_counted",
            "tested::slips::a_stick_or_a_multimeter_before_the_indicator_is_advice",
            "tested::slips::a_stick_or_a_multimeter_alone_and_then_a_touch_is_critical",
            "fault one-way-rose wrongly-identified",
            "fault one-way-rose opened-unlocked",
            "fault one-way-rose touched-unproved",
        ],
    ),
    (
        "**Identified** means",
        &[
            "identified::a_circuit_is_identified_by_a_load_that_goes_out_and_comes_back",
            "identified::a_dark_light_shows_nothing_and_one_that_stays_out_not_yet",
            "identified::a_device_is_switched_on_again_only_until_the_work_has_begun",
            "board::where_no_load_works_the_long_lead_shows_which_device_it_is",
        ],
    ),
    (
        "**Levels of board work.**",
        &[
            "starting::the_supervisors_lock_comes_off_when_all_is_done_and_ones_own_is_off",
            "outside::the_card_has_ze_or_zdb",
            "board::a_board_is_opened_locked_and_proved",
            "board::an_isolator_is_what_is_locked_where_there_is_one",
            "board::a_shroud_stays_on_live_tails",
            "board::a_link_is_never_fitted_through_a_closed_cover",
            "board::with_the_board_opened_the_same_job_is_right",
        ],
    ),
    (
        "No probe goes through a sheath",
        &[
            "starting::no_probe_goes_through_a_sheath",
            "made_off::live_tests_are_taken_at_the_board_and_in_the_lampholder",
            "outside::ze_from_the_card_by_its_name_and_with_its_source_passes",
            "outside::another_source_or_the_other_name_is_said",
            "outside::what_feeds_the_board_is_in_the_loop",
            "outside::a_loop_between_two_places_is_no_zs",
            "outside::with_a_card_a_zs_that_cannot_be_read_is_not_the_stage",
            "outside::ze_is_read_with_the_earthing_conductor_off_and_everything_locked",
            "outside::nothing_comes_on_without_the_earthing_conductor",
            "outside::with_the_earthing_conductor_on_it_is_not_ze",
            "tested::slips::zdb_is_not_called_ze",
        ],
    ),
    (
        "**Starting states**",
        &[
            "starting::shipped_exercises_begin_as_real_jobs_do",
            "starting::a_new_cable_is_connected_at_the_board_when_the_work_was_looked_over",
            "made_off::an_uncut_cable_is_seen_unconnected_and_each_conductor_proved_at_the_cut",
        ],
    ),
    (
        "A **training board**",
        &[
            "on_bench::a_training_board_is_wired_with_the_plug_in_hand_and_passes",
            "on_bench::the_supply_is_brought_when_the_covers_are_on_and_all_is_said",
            "on_bench::its_loop_is_read_at_its_board",
            "on_bench::after_the_supply_no_cover_comes_off_before_it_is_proved_dead",
            "on_bench::to_open_it_unproved_is_critical",
            "on_bench::what_a_training_board_does_not_have",
        ],
    ),
    (
        "The own lock or label left on",
        &["fault one-way-tested link-left-in", "cases::safe::what_is_left_behind_is_told_in_its_own_words"],
    ),
    (
        "A box that holds two circuits",
        &[
            "pair::a_box_with_two_circuits_has_both_off_locked_and_proved",
            "tested::in_a_tt_system_the_neutral_is_isolated_too",
        ],
    ),
    (
        "In a stated share of variants",
        &[
            "tested::slips::a_stick_or_a_multimeter_before_the_indicator_is_advice",
            "tested::slips::a_stick_or_a_multimeter_alone_and_then_a_touch_is_critical",
            "tested::slips::an_indicator_that_fails_its_proof_proves_nothing",
            "tested::slips::a_wrong_chart_is_reported",
            "tested::what_is_handed_out_varies_as_stated",
            "safe_working::an_indicator_that_failed_is_reported_whether_changed_or_not",
        ],
    ),
    (
        "Order: inspect; continuity",
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
        "Energising checks: dead tests done",
        &[
            "tested::slips::a_dead_test_left_out_keeps_the_power_locked",
            "fault one-way-rose power-on-open",
            "safe_working::power_on_waits_for_every_check_and_for_ones_own_lock",
        ],
    ),
    (
        "Live testing in its own stage only",
        &[
            "tested::slips::tests_at_the_wrong_time_are_live_working",
            "safe_working::no_handwork_is_done_live",
            "tested::sequence::rows",
        ],
    ),
    (
        "After a trip no reset",
        &[
            "safe_working::each_reset_onto_a_fault_is_counted",
            "rules reset-untested",
            "safe_working::a_box_opened_again_is_isolated_and_proved_again",
        ],
    ),
    (
        "Before power-on the learner says",
        &["safe_working::an_answer_is_locked", "fault one-way-rose prediction-wrong", "rules prediction-missing"],
    ),
    (
        "What comes without a mark",
        &[
            "naming::a_plate_is_told_by_what_is_joined_in_each_position",
            "naming::a_link_at_the_far_end_tells_a_cable",
            "naming::a_name_is_settled_as_the_first_end_is_joined",
            "fault which-cable name-wrong",
            "fault which-cable name-guessed",
            "fault which-terminal name-wrong",
            "fault which-terminal name-missing",
        ],
    ),
    (
        "Looking over somebody else's work",
        &[
            "observed::each_defect_is_said_of_its_end_or_its_terminal_and_half_said_of_its_place",
            "observed::what_is_missed_and_what_is_made_up_each_cost_a_share",
            "observed::danger_that_a_list_passes_over_refers",
            "observed::where_nothing_is_wrong_nothing_is_said",
            "observed::a_core_in_another_terminal_is_wrong_where_it_stands",
            "answers::a_danger_that_is_missed_refers_in_any_company",
            "answers::two_slips_of_an_answer_cost_no_less_than_the_dearer",
            "answers::more_than_was_asked_costs_nothing",
            "fault loose-crushed-nicked observation-missed",
            "fault loose-crushed-nicked observation-misplaced",
            "fault sleeve-or-not observation-invented",
        ],
    ),
    (
        "Finding a hidden fault",
        &[
            "found::three_readings_that_halve_leave_one_of_eight",
            "found::a_right_guess_earns_half_and_a_wrong_one_or_no_answer_nothing",
            "found::faults_that_no_reading_tells_apart_are_one",
            "found::what_was_hidden_is_not_the_learners",
            "fault dead-lamp diagnosis-wrong",
            "found::what_can_be_seen_with_a_cover_off_counts_as_read",
            "fault too-high-a-reading diagnosis-unproved",
            "fault dead-lamp diagnosis-missing",
        ],
    ),
    ("The program shows no light", &["picture::a_place_is_drawn_the_same_live_and_dead"]),
];

/// What of a line is not built yet, by the line's first words.
const NOT_YET: &[(&str, &str)] = &[
    // Outcome.
    // Weight.
    ("A load that is dim with its control off", "glow by capacitance or by an electronic switch"),
    ("Metal that nothing makes live today", "a cpc joined to Class II metal; parts too small to grip"),
    // Never an accusation.
    ("Any core of a three-core for any job", "two cables by two holes into a ferrous box"),
    ("More caution than asked", "in find and inspect"),
    // Must be caught.
    ("Neutral in the bar of another residual", "work added to what is inadequate"),
    ("All earthed metal at a voltage", "all of it"),
    // Safe working.
    ("**In set work these are critical acts", "a tutor's lifting"),
];

fn named() -> impl Iterator<Item = &'static str> {
    SHOWN.iter().flat_map(|it| it.1.iter().copied())
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

/// The lines of the charter that are rules: each point of a list, without its sign.
fn lines() -> Vec<&'static str> {
    let point = |it: &'static str| {
        let it = it.trim_start();
        it.strip_prefix("- ").or_else(|| it.split_once(". ").filter(|it| it.0.parse::<u8>().is_ok()).map(|it| it.1))
    };
    CHARTER.lines().filter_map(point).collect()
}

#[test]
fn every_line_of_the_charter_has_something_that_shows_it_or_is_said_to_be_missing() {
    let lines = lines();
    assert!(lines.len() > 50, "only {} lines found", lines.len());
    let keys: Vec<_> = SHOWN.iter().map(|it| it.0).chain(NOT_YET.iter().map(|it| it.0)).collect();
    for key in &keys {
        assert_eq!(lines.iter().filter(|it| it.starts_with(key)).count(), 1, "{key}");
    }
    let unmapped: Vec<_> = lines.iter().filter(|line| !keys.iter().any(|it| line.starts_with(it))).collect();
    assert!(unmapped.is_empty(), "{unmapped:#?}");
    assert!(SHOWN.iter().all(|it| !it.1.is_empty()) && NOT_YET.iter().all(|it| !it.1.is_empty()));
}
