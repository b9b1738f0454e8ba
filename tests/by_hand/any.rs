//! Whatever a hand tries at an end.

use std::sync::Arc;

use proptest::prelude::*;
use switchdrop::{
    attempt::{Attempt, Mode, action_line},
    marking::mark,
    trade::colour::Colour,
    work::{Action, Feel},
};

use super::{DOUBLE, opened};

/// An action at the box, with any figures.
fn any_action() -> impl Strategy<Value = Action> {
    let ends =
        ["feed/brown@box", "feed/blue@box", "feed/cpc@box", "flex/brown@box", "made-1/a@box", "feed/brown@board"];
    let terminals = ["box.L-in", "box.N-out", "box.box.earth", "box.connector.1", "lamp.1"];
    let feels = [Feel::Slack, Feel::Right, Feel::Crushed];
    (0..14_u8, 0..6_usize, 0..5_usize, prop_oneof![0..260_u16, Just(u16::MAX)], 0..3_usize).prop_map(
        move |(kind, end, terminal, mm, feel)| {
            let (end, terminal) = (ends[end].to_owned(), terminals[terminal].to_owned());
            let location = ["box", "lamp", "board"][feel].to_owned();
            match kind {
                0 | 1 => Action::Sheath { cable: ["feed", "flex"][usize::from(kind)].to_owned(), location, mm },
                2 => Action::Cut { end, mm },
                3 => Action::Strip { end, mm, jaw: [75, 100, 150][feel] },
                4 => Action::Strip { end, mm: mm % 30, jaw: mm },
                5 => Action::Fold { end },
                6 => Action::Unfold { end },
                7 => Action::Tug { end },
                8 => Action::Grommet { location },
                9 => Action::Dress { location },
                10 => Action::Tighten { terminal, feel: feels[feel] },
                11 => Action::MakeUp { location, colour: Colour::GreenYellow },
                12 => Action::Undo,
                _ => Action::Connect { end, terminal },
            }
        },
    )
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 64, failure_persistence: None, ..ProptestConfig::default() })]

    /// Whatever a hand tries: an answer, never a panic; what was refused changed nothing; the log does it again.
    #[test]
    fn any_hand_gets_an_answer(actions in proptest::collection::vec(any_action(), 1..60)) {
        let mut attempt = opened(DOUBLE).attempt;
        let state = |it: &Attempt| {
            let work = it.work();
            work.ends().map(|it| (work.prep_of(it), work.terminal_of(it))).collect::<Vec<_>>()
        };
        for action in actions {
            let before = state(&attempt);
            let line = action_line(1, &action).expect("a line");
            prop_assert!(line.len() <= 512);
            if attempt.act(action).is_err() {
                prop_assert_eq!(before, state(&attempt));
            }
        }
        let sheet = mark(&attempt, Mode::Set);
        prop_assert!(sheet.marks <= sheet.out_of);
        let exercise = Arc::clone(attempt.work().exercise());
        let again = Attempt::replay(exercise, attempt.log().iter().cloned()).expect("the same again");
        prop_assert_eq!(state(&attempt), state(&again));
    }
}
