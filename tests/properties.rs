//! What holds of every attempt, over random ones: valid actions and nonsense, on both shipped exercises.
//!

use std::sync::Arc;

use proptest::{collection::vec, prelude::*, sample::Index};
use switchdrop::{
    attempt::{Attempt, Happened, Mode, settings_to_predict},
    circuit::{Conditions, Glow, Network, survey},
    exercise::{EndId, Exercise, TerminalId},
    marking::mark,
    trade::{
        colour::{Colour, Letter, Mark},
        instrument::{Function, LeadLength, insulation::TestVolts, loop_impedance::Range, rcd},
    },
    work::{Action, Check, Detector, Edit, Feel, Incomer, Source, Test, Work},
};

use crate::{
    hand::{exercise, one_way_model, two_way_model},
    random::{cases, text},
};

/// What addresses are made of.
const ADDRESS: &str = "abcdefghijklmnopqrstuvwxyz./@0123456789-";

/// A step of a random log, before it is known what there is to name.
#[derive(Debug, Clone)]
enum Step {
    /// The next action of the model, or one a little further on: how a log gets anywhere.
    Model(u8),
    /// Something else a hand can do: which kind, and what it is done to.
    Other(u8, [Index; 3]),
    /// A text that is no address.
    Nonsense(u8, String),
}

fn step() -> impl Strategy<Value = Step> {
    prop_oneof![
        6 => (0_u8..2).prop_map(Step::Model),
        6 => (0_u8..32, any::<[Index; 3]>()).prop_map(|(kind, at)| Step::Other(kind, at)),
        1 => (0_u8..5, text(ADDRESS, 13)).prop_map(|(kind, text)| Step::Nonsense(kind, text)),
    ]
}

/// What there is to name.
struct Names<'a> {
    work: &'a Work,
    exercise: &'a Exercise,
}

impl Names<'_> {
    fn end(&self, at: Index) -> String {
        let ends: Vec<EndId> = self.work.ends().collect();
        self.work.end_address(*at.get(&ends))
    }

    fn terminal(&self, at: Index) -> String {
        at.get(self.exercise.terminals.rows()).address.clone()
    }

    /// A terminal where the end is, so that it often fits.
    fn terminal_near(&self, end: &str, at: Index) -> String {
        let location = self.work.end_location(self.work.end(end).unwrap());
        let near: Vec<TerminalId> = self.exercise.terminals_at(location).collect();
        self.exercise.terminals[*at.get(&near)].address.clone()
    }

    fn location(&self, at: Index) -> String {
        at.get(self.exercise.locations.rows()).id.clone()
    }

    fn device(&self, at: Index) -> String {
        at.get(self.exercise.devices.rows()).address.clone()
    }

    fn lamp(&self, at: Index) -> String {
        at.get(self.exercise.lamps.rows()).address.clone()
    }

    fn point(&self, at: Index) -> String {
        if at.index(2) == 0 { self.end(at) } else { self.terminal(at) }
    }
}

const CHECKS: [Check; 4] = [Check::NobodyAtWork, Check::PeopleTold, Check::SecondSources, Check::SupervisorPresent];

/// What is done in front of all the devices.
const fn in_front(which: usize, on: bool) -> Action {
    match which {
        0 => Action::LockIncomer { which: Incomer::Main },
        1 => Action::UnlockIncomer { which: Incomer::Main },
        2 => Action::LiftShroud,
        _ => Action::MainSwitch { on },
    }
}

fn other(names: &Names<'_>, kind: u8, [a, b, c]: [Index; 3]) -> Action {
    let colour = *b.get(&Colour::ALL);
    let mark =
        *c.get(&[Mark::Sleeve(colour), Mark::Tape(colour), Mark::Letter(*b.get(&[Letter::L, Letter::N, Letter::PE]))]);
    match kind {
        0 => Action::Mark { end: names.end(a), mark },
        1 => Action::Unmark { end: names.end(a) },
        2 | 3 => {
            let end = names.end(a);
            Action::Connect { terminal: names.terminal_near(&end, b), end }
        }
        4 => Action::Connect { end: names.end(a), terminal: names.terminal(b) },
        5 => Action::Disconnect { end: names.end(a) },
        6 => Action::Tighten { terminal: names.terminal(a), feel: Feel::Right },
        7 => Action::MakeUp { location: names.location(a), colour },
        8 => Action::FitCover { location: names.location(a) },
        9 => Action::RemoveCover { location: names.location(a) },
        10 => Action::FitLamp { lamp: names.lamp(a) },
        11 => Action::RemoveLamp { lamp: names.lamp(a) },
        12 => Action::Identify { location: names.location(a), devices: vec![names.device(b), names.device(c)] },
        13 => Action::PowerOff { device: names.device(a) },
        14 => Action::LockOff { device: names.device(a) },
        15 => Action::Unlock { device: names.device(a) },
        16 => Action::TestDead { a: names.point(a), b: names.point(b), with: Detector::Indicator },
        17 => Action::Continuity { a: names.point(a), b: names.point(b) },
        18 => Action::Confirm { check: *a.get(&CHECKS) },
        19 => Action::PowerOn { device: names.device(a) },
        20 => Action::Reset { device: names.device(a) },
        21 => Action::Operate {
            switch: a.get(names.exercise.switches.rows()).address.clone(),
            position: b.index(3) as u8,
        },
        22 => Action::FitLink { a: names.point(a), b: names.point(b) },
        23 => Action::TakeLink { a: names.point(a), b: names.point(b) },
        24 => in_front(a.index(6), b.index(2) == 0),
        25 => {
            let lead = *b.get(&[LeadLength::Short, LeadLength::Long]);
            let voltages = [Function::Continuity, Function::Insulation(TestVolts::V500), Function::Voltage];
            let currents =
                [Function::Loop(Range::NoTrip), Function::Loop(Range::High), Function::Rcd(rcd::Test::Rated)];
            let function = *c.get(&[voltages, currents].concat());
            Action::Measure { function, lead, a: names.point(a), b: names.point(b) }
        }
        26 => Action::Record {
            test: *a.get(Test::ALL),
            at: names.device(b),
            reading: (*c.get(&["", "0.4", ">299", "twelve"])).to_owned(),
            accepted: true,
            source: *b.get(&[Source::Read, Source::Card]),
        },
        27 => Action::Inspect { location: names.location(a) },
        28 => Action::Park { at: names.point(a) },
        29 => a.get(&[Action::Unpark, Action::Conclude { dead: true }, Action::Conclude { dead: false }]).clone(),
        _ => a.get(&[Action::Undo, Action::Undo, Action::Redo, Action::Agree, Action::ProveIndicator]).clone(),
    }
}

fn nonsense(exercise: &Exercise, kind: u8, text: String) -> Action {
    match kind {
        0 => Action::Connect { end: text.clone(), terminal: text },
        1 => Action::Continuity { a: "board.earth".to_owned(), b: text },
        2 => Action::Predict { positions: vec![9; text.len()], lit: vec![text], live: Vec::new() },
        3 => {
            let positions = settings_to_predict(exercise).swap_remove(0);
            Action::Predict { positions, lit: Vec::new(), live: vec![text] }
        }
        _ => Action::Identify { location: text.clone(), devices: vec![text] },
    }
}

fn model(id: &str) -> Vec<Action> {
    let hand = if id == "one-way-rose" { one_way_model() } else { two_way_model() };
    // Without handing in: nothing would happen after that.
    hand.attempt.log()[..hand.attempt.log().len() - 1].to_vec()
}

/// Everything in a work that can be seen: two that print alike are alike.
fn seen(attempt: &Attempt) -> String {
    format!("{:?}\n{:?}\n{:?}", attempt.work(), attempt.tally(), attempt.safety())
}

fn work_of(attempt: &Attempt) -> String {
    format!("{:?}", attempt.work())
}

/// Does the steps, and hands each action to `watch` with the attempt before it and after, and what came of it.
fn runs(id: &str, steps: &[Step], mut watch: impl FnMut(&Attempt, &Attempt, &Action, bool)) -> Attempt {
    let exercise = exercise(id, 4);
    let model = model(id);
    let mut next = 0;
    let mut attempt = Attempt::new(Arc::clone(&exercise));
    for step in steps {
        let action = match step {
            Step::Model(skipped) => {
                next += 1 + usize::from(*skipped == 1 && next % 7 == 0);
                model[(next - 1) % model.len()].clone()
            }
            Step::Other(kind, at) => other(&Names { work: attempt.work(), exercise: &exercise }, *kind, *at),
            Step::Nonsense(kind, text) => nonsense(&exercise, *kind, text.clone()),
        };
        let before = attempt.clone();
        let result = attempt.act(action.clone());
        if let Ok(Happened::Volts(it)) = result {
            assert!(it.is_finite(), "{action:?}: {it}");
        }
        if let Ok(Happened::Ohms(it)) = result {
            assert!(it >= 0.0, "{action:?}: {it}");
        }
        watch(&before, &attempt, &action, result.is_ok());
    }
    attempt
}

fn id() -> impl Strategy<Value = &'static str> {
    prop_oneof![Just("one-way-rose"), Just("two-way-passage")]
}

proptest! {
    #![proptest_config(cases(96))]

    #[test]
    fn a_refused_action_changes_nothing_and_one_that_is_done_is_logged(id in id(), steps in vec(step(), 1..90)) {
        runs(id, &steps, |before, after, action, done| {
            if done {
                assert_eq!(after.log().len(), before.log().len() + 1);
                assert_eq!(after.log().last(), Some(action));
            } else {
                assert_eq!(after.log(), before.log());
                assert_eq!(seen(after), seen(before), "{action:?}");
            }
        });
    }

    #[test]
    fn a_log_replayed_gives_the_same_again(id in id(), steps in vec(step(), 1..90)) {
        let attempt = runs(id, &steps, |_, _, _, _| ());
        let log = attempt.log().to_vec();
        let again = Attempt::replay(Arc::clone(attempt.work().exercise()), log);
        let again = again.map_err(|it| TestCaseError::fail(format!("{it:?}")))?;
        prop_assert_eq!(seen(&attempt), seen(&again));
        let sheet = mark(&attempt, Mode::Set);
        prop_assert_eq!(&sheet, &mark(&again, Mode::Set));
        prop_assert!(sheet.marks <= sheet.out_of);
    }

    #[test]
    fn undo_and_then_redo_is_as_if_nothing_was(id in id(), steps in vec(step(), 1..90)) {
        runs(id, &steps, |_, after, _, _| {
            let mut tried = after.clone();
            let mut back = 0;
            while tried.can_undo() && back < 5 {
                tried.act(Action::Undo).unwrap();
                back += 1;
            }
            for _ in 0..back {
                tried.act(Action::Redo).unwrap();
            }
            assert_eq!(work_of(&tried), work_of(after));
        });
    }
}

/// The model's work, some ends moved anywhere near: wirings that no hand would make, shorts among them.
fn wiring(id: &str, moves: &[(Index, Option<Index>)]) -> Attempt {
    let hand = if id == "one-way-rose" { one_way_model() } else { two_way_model() };
    let work = hand.attempt.work();
    let ends: Vec<EndId> = work.ends().filter(|it| work.exercise().is_learners(*it)).collect();
    let edits: Vec<Edit> = moves
        .iter()
        .map(|(end, to)| {
            let end = *end.get(&ends);
            let near: Vec<TerminalId> = work.exercise().terminals_at(work.end_location(end)).collect();
            Edit::Move(end, to.map(|it| *it.get(&near)))
        })
        .collect();
    hand.attempt.supposing(&edits)
}

/// What each lamp does in each combination.
fn glows(work: &Work) -> Vec<Vec<Glow>> {
    survey(work).rows.iter().map(|row| row.lamps.iter().map(|it| it.glow).collect()).collect()
}

fn moves() -> impl Strategy<Value = Vec<(Index, Option<Index>)>> {
    vec((any::<Index>(), prop::option::weighted(0.8, any::<Index>())), 0..5)
}

proptest! {
    #![proptest_config(cases(64))]

    /// Copper has no colour: two cores of one cable and size do each other's work.
    #[test]
    fn two_cores_exchanged_at_both_ends_light_the_same_lamps(id in id(), moves in moves(), at in any::<[Index; 2]>()) {
        let attempt = wiring(id, &moves);
        let work = attempt.work();
        let cores = &work.exercise().conductors;
        let one = at[0].index(cores.len());
        let like: Vec<usize> = (0..cores.len())
            .filter(|it| *it != one && cores[*it].cable == cores[one].cable && cores[*it].size == cores[one].size)
            .collect();
        prop_assume!(!like.is_empty());
        let two = *at[1].get(&like);
        let exchanged: Vec<Edit> = work.ends_of(one).unwrap()
            .into_iter()
            .zip(work.ends_of(two).unwrap())
            .flat_map(|(a, b)| [Edit::Move(a, work.terminal_of(b)), Edit::Move(b, work.terminal_of(a))])
            .collect();
        prop_assert_eq!(glows(work), glows(attempt.supposing(&exchanged).work()));
    }

    /// Kirchhoff's first law, in every combination: what flows to a node flows away from it.
    #[test]
    fn no_current_is_lost_at_any_node(id in id(), moves in moves()) {
        let attempt = wiring(id, &moves);
        let work = attempt.work();
        for row in survey(work).rows {
            for it in &row.lamps {
                prop_assert!(it.volts.is_finite());
            }
            let network = Network::new(work, &Conditions::complete(work.exercise(), row.positions));
            let solution = network.solve();
            let mut sum = vec![0.0; network.node_count()];
            let mut largest = vec![0.0_f64; network.node_count()];
            for branch in network.branches.iter().filter(|it| it.a != it.b) {
                let amps = branch.amps(&solution);
                prop_assert!(amps.is_finite(), "{:?}: {}", branch, amps);
                sum[branch.a] -= amps;
                sum[branch.b] += amps;
                for node in [branch.a, branch.b] {
                    largest[node] = largest[node].max(amps.abs());
                }
            }
            // Nodes 0 and 1 are the source's own. Where nothing but leakage flows, what rounding leaves of the largest
            // current of all is seen beside it.
            let rounding = 1e-13 * largest.iter().copied().fold(0.0, f64::max);
            for node in 2..network.node_count() {
                prop_assert!(solution.volts(node).is_finite());
                prop_assert!(sum[node].abs() <= (1e-9 * largest[node]).max(rounding), "{}: {:e} of {:e}", node, sum[node], largest[node]);
            }
        }
    }
}
