//! What is saved is what is loaded: actions and whole attempts, over random ones.

use proptest::{collection::vec, prelude::*};
use switchdrop::{
    attempt::{Format, Line, action_line, open, opened_line, parse_action},
    exercise::Limits,
    trade::{
        cable::{CableKind, CrossSection},
        colour::{Colour, Letter, Mark},
        instrument::{Function, LeadLength, insulation::TestVolts, loop_impedance, rcd},
    },
    work::{Action, Check, Detector, Fault, Feel, Incomer, KitPart, Reason, Source, Test},
};

use crate::{
    bench::{attempt_in, attempt_lines, sealed},
    hand::exercise,
    random::{self, any_text, cases},
};

fn format() -> impl Strategy<Value = Format> {
    proptest::sample::select(Format::ALL.to_vec())
}

/// Whether its line has room, with any time and a sum.
fn fits(action: &Action) -> bool {
    action_line(u64::MAX, action).is_ok_and(|it| it.len() + 23 <= Limits::ACTION_BYTES)
}

const FUNCTIONS: [Function; 10] = [
    Function::Continuity,
    Function::Insulation(TestVolts::V250),
    Function::Insulation(TestVolts::V500),
    Function::Voltage,
    Function::Indicator,
    Function::Loop(loop_impedance::Range::High),
    Function::Loop(loop_impedance::Range::NoTrip),
    Function::Rcd(rcd::Test::Half),
    Function::Rcd(rcd::Test::Rated),
    Function::Rcd(rcd::Test::FiveTimes),
];

const SIZES: [f64; 4] = [0.75, 1.0, 1.5, 2.5];

const fn lead(long: bool) -> LeadLength {
    if long { LeadLength::Long } else { LeadLength::Short }
}

fn colour() -> impl Strategy<Value = Colour> {
    proptest::sample::select(Colour::ALL.to_vec())
}

fn mark() -> impl Strategy<Value = Mark> {
    let letter = proptest::sample::select(vec![Letter::L, Letter::N, Letter::PE]);
    prop_oneof![colour().prop_map(Mark::Sleeve), colour().prop_map(Mark::Tape), letter.prop_map(Mark::Letter),]
}

/// Any text at all: what is no address is still written and read.
fn text() -> impl Strategy<Value = String> {
    prop_oneof![
        random::text("abcdefghijklmnopqrstuvwxyz/@.0123456789", 21),
        any_text(7),
        Just("a\nb\r\"\\\u{0}".to_owned())
    ]
}

fn texts() -> impl Strategy<Value = Vec<String>> {
    vec(text(), 0..4)
}

fn preparing() -> impl Strategy<Value = Action> {
    prop_oneof![
        text().prop_map(|end| Action::Fold { end }),
        text().prop_map(|end| Action::Unfold { end }),
        text().prop_map(|end| Action::Tug { end }),
        text().prop_map(|location| Action::Grommet { location }),
        text().prop_map(|location| Action::Dress { location }),
        (text(), 0..CableKind::ALL.len(), 0..SIZES.len(), 0..Reason::ALL.len()).prop_map(|(cable, kind, mm2, why)| {
            let mm2 = CrossSection::from_mm2(SIZES[mm2]).unwrap();
            Action::Choose { cable, kind: CableKind::ALL[kind], mm2, reason: Reason::ALL[why] }
        }),
    ]
}

fn action() -> impl Strategy<Value = Action> {
    let check = proptest::sample::select(vec![
        Check::NobodyAtWork,
        Check::PeopleTold,
        Check::SecondSources,
        Check::SupervisorPresent,
    ]);
    let simple = proptest::sample::select(vec![
        Action::Agree,
        Action::ProveIndicator,
        Action::Unpark,
        Action::Conclude { dead: true },
        Action::Conclude { dead: false },
        Action::Undo,
        Action::Redo,
        Action::Hint,
        Action::HandIn,
    ]);
    prop_oneof![
        simple,
        (text(), mark()).prop_map(|(end, mark)| Action::Mark { end, mark }),
        text().prop_map(|end| Action::Unmark { end }),
        (text(), text()).prop_map(|(end, terminal)| Action::Connect { end, terminal }),
        text().prop_map(|end| Action::Disconnect { end }),
        (text(), 0..3_usize).prop_map(|(terminal, feel)| Action::Tighten {
            terminal,
            feel: [Feel::Slack, Feel::Right, Feel::Crushed][feel]
        }),
        (text(), text(), any::<u16>()).prop_map(|(cable, location, mm)| Action::Sheath { cable, location, mm }),
        (text(), any::<u16>()).prop_map(|(end, mm)| Action::Cut { end, mm }),
        (text(), any::<u16>(), any::<u16>()).prop_map(|(end, mm, jaw)| Action::Strip { end, mm, jaw }),
        preparing(),
        (text(), colour()).prop_map(|(location, colour)| Action::MakeUp { location, colour }),
        text().prop_map(|location| Action::FitCover { location }),
        text().prop_map(|location| Action::RemoveCover { location }),
        text().prop_map(|lamp| Action::FitLamp { lamp }),
        text().prop_map(|lamp| Action::RemoveLamp { lamp }),
        (text(), texts()).prop_map(|(location, devices)| Action::Identify { location, devices }),
        text().prop_map(|device| Action::PowerOff { device }),
        text().prop_map(|device| Action::LockOff { device }),
        text().prop_map(|device| Action::Unlock { device }),
        (text(), text()).prop_map(|(a, b)| Action::TestDead { a, b, with: Detector::Indicator }),
        text().prop_map(|at| Action::Park { at }),
        (text(), text()).prop_map(|(a, b)| Action::Continuity { a, b }),
        check.prop_map(|check| Action::Confirm { check }),
        (vec(any::<u8>(), 0..6), texts(), texts()).prop_map(|(positions, lit, live)| Action::Predict {
            positions,
            lit,
            live
        }),
        (text(), text()).prop_map(|(a, b)| Action::TestDead { a, b, with: Detector::Stick }),
        text().prop_map(|location| Action::Inspect { location }),
        any::<bool>().prop_map(|it| Action::Null { lead: lead(it) }),
        (text(), text()).prop_map(|(a, b)| Action::FitLink { a, b }),
        (text(), text()).prop_map(|(a, b)| Action::TakeLink { a, b }),
        any::<bool>().prop_map(|on| Action::MainSwitch { on }),
        any::<bool>().prop_map(|on| Action::Isolator { on }),
        any::<bool>().prop_map(|on| if on {
            Action::LockIncomer { which: Incomer::Main }
        } else {
            Action::UnlockIncomer { which: Incomer::Isolator }
        }),
        Just(Action::LiftShroud),
        (0..FUNCTIONS.len(), any::<bool>(), text(), text()).prop_map(|(it, long, a, b)| Action::Measure {
            function: FUNCTIONS[it],
            lead: lead(long),
            a,
            b
        }),
        (0..Test::ALL.len(), text(), text(), any::<bool>()).prop_map(|(it, at, reading, accepted)| Action::Record {
            test: Test::ALL[it],
            at,
            reading,
            accepted,
            source: if it % 2 == 0 { Source::Card } else { Source::Read },
        }),
        text().prop_map(|at| Action::Report { at, what: Fault::Wiring }),
        Just(Action::Change { kit: KitPart::Indicator }),
        text().prop_map(|device| Action::PowerOn { device }),
        text().prop_map(|device| Action::Reset { device }),
        (text(), any::<u8>()).prop_map(|(switch, position)| Action::Operate { switch, position }),
    ]
}

proptest! {
    #![proptest_config(cases(256))]

    #[test]
    fn an_action_is_read_as_it_was_written(action in action()) {
        let line = ron::to_string(&action).expect("RON");
        prop_assert!(!line.contains('\n'), "one line: {:?}", line);
        prop_assert_eq!(parse_action(&line).expect("an action"), action);
    }

    #[test]
    fn an_attempt_is_read_as_it_was_written(format in format(), actions in vec(action(), 0..20), ends in prop::sample::select(vec!["", "\r"])) {
        let exercise = exercise("two-way-passage", 7);
        let actions: Vec<_> = actions.into_iter().filter(fits).collect();
        let mut lines = attempt_lines(format, &exercise, &actions);
        lines.push(opened_line("later".to_owned()).expect("a line"));
        let text = sealed(format, &lines).replace('\n', &format!("{ends}\n"));
        let opened = open(&text).expect("an attempt");
        prop_assert_eq!(opened.exercise.text(), exercise.text());
        prop_assert_eq!(&opened.header.learner, "Robin Hale");
        prop_assert_eq!((opened.whole, opened.cut_off), (text.len(), 0));
        let mut lines: Vec<_> = opened.lines.into_iter().map(|it| it.1).collect();
        prop_assert_eq!(lines.pop(), Some(Line::Opened { at: "later".to_owned() }));
        let read: Vec<_> = lines.into_iter().map(|it| match it {
            Line::Did { action, .. } => action,
            other @ Line::Opened { .. } => panic!("{other:?}"),
        }).collect();
        prop_assert_eq!(read, actions);
    }

    /// One letter of a whole file of format 2 changed, or one line taken out or put twice, and the line is named where the chain
    /// no longer holds; only the last lines can go unseen, which is what the receipt is for.
    #[test]
    fn an_edited_line_is_named(
        actions in vec(action(), 2..6),
        at in any::<prop::sample::Index>(),
        edit in 0..3_u8,
        letter in any::<prop::sample::Index>(),
    ) {
        let actions: Vec<_> = actions.into_iter().filter(fits).collect();
        let text = attempt_in(Format::Two, &exercise("one-way-rose", 3), &actions);
        let mut lines: Vec<String> = text.lines().map(str::to_owned).collect();
        let at = at.index(lines.len());
        let named = match edit {
            0 => {
                let line = &mut lines[at];
                let byte = (0..=letter.index(line.len())).rev().find(|it| line.is_char_boundary(*it)).unwrap_or(0);
                let was = line[byte..].chars().next().expect("a letter");
                line.replace_range(byte..byte + was.len_utf8(), if was == 'x' { "y" } else { "x" });
                at
            }
            1 => {
                lines.remove(at);
                prop_assume!(at < lines.len());
                at
            }
            _ => {
                lines.insert(at, lines[at].clone());
                at + 1
            }
        };
        let text = lines.join("\n") + "\n";
        let problems = open(&text).expect_err("it was edited");
        prop_assert_eq!(problems[0].position(&text).0, named + 1, "{:?}", problems);
    }

    /// Whatever is cut off the end, what is left opens with the whole lines that are left, or says that it is cut short.
    #[test]
    fn an_attempt_cut_anywhere_keeps_its_whole_lines(
        format in format(),
        actions in vec(action(), 1..6),
        cut in any::<prop::sample::Index>(),
    ) {
        let exercise = exercise("one-way-rose", 3);
        let actions: Vec<_> = actions.into_iter().filter(fits).collect();
        let text = attempt_in(format, &exercise, &actions);
        let cut = (0..=cut.index(text.len() + 1)).rev().find(|it| text.is_char_boundary(*it)).unwrap_or(0);
        let kept = &text[..cut];
        let whole = kept.matches('\n').count();
        match open(kept) {
            Ok(opened) => {
                prop_assert!(whole >= 2);
                prop_assert_eq!(opened.lines.len(), whole - 2);
                prop_assert_eq!(opened.whole + opened.cut_off, cut);
            }
            Err(problems) => {
                prop_assert!(whole < 2, "{:?}", problems);
                prop_assert_eq!(problems[0].code.word(), "cut-short");
            }
        }
    }
}
