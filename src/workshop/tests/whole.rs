//! A whole exercise from the first screen to the mark sheet: once with the pointer, once by the keyboard alone.

use bevy_egui::egui::{Key, Modifiers};
use switchdrop::work::{Action, Check};

use super::{
    super::{desk::Pane, shop::Screen},
    bench::{Bench, model},
};

/// One thing that a learner does on the screen.
#[derive(Debug)]
enum Step {
    /// Presses what has this key, unless it is there already.
    Press(String),
    /// Brings an end to a terminal.
    Bring(String, String),
}

/// Where a point is.
fn location_of(address: &str) -> &str {
    address.split_once('@').map_or_else(|| address.split('.').next().unwrap_or(""), |it| it.1)
}

/// The steps of the model's actions: which places to go to, what to take in hand, what to press.
fn steps() -> Vec<Step> {
    let mut steps = Vec::new();
    let (mut at, mut hand) = (String::new(), "tools");
    let actions = model();
    for (index, action) in actions.iter().enumerate() {
        let mut press = |key: String| steps.push(Step::Press(key));
        let mut go = |to: &str, with: &'static str, press: &mut dyn FnMut(String)| {
            if at != to {
                press(format!("go:{to}"));
                to.clone_into(&mut at);
            }
            if hand != with && !["place", "prediction"].contains(&to) {
                press(format!("hand:{with}"));
                hand = with;
            }
        };
        match action {
            Action::Identify { location, devices } => {
                go(location, "tools", &mut press);
                devices.iter().for_each(|it| press(format!("feeds:{it}")));
                press("identify".to_owned());
            }
            Action::Agree => press("todo:agree".to_owned()),
            Action::PowerOff { device } | Action::LockOff { device } | Action::Unlock { device } => {
                go("board", "tools", &mut press);
                press(device.clone());
                let key = match action {
                    Action::PowerOff { .. } => "off",
                    Action::LockOff { .. } => "lock",
                    _ => "unlock",
                };
                press(key.to_owned());
            }
            Action::PowerOn { device } | Action::Reset { device } => {
                go("board", "tools", &mut press);
                press(device.clone());
                press("on".to_owned());
            }
            Action::RemoveCover { location } | Action::FitCover { location } => {
                go(location, "tools", &mut press);
                press("cover".to_owned());
            }
            Action::ProveIndicator => {
                let next = actions[index..].iter().find_map(|it| match it {
                    Action::TestDead { a, .. } => Some(a.as_str()),
                    _ => None,
                });
                let opens = !matches!(actions[index - 1], Action::TestDead { .. });
                if let Some(next) = next.filter(|_| opens) {
                    go(location_of(next), "indicator", &mut press);
                }
                press("prove".to_owned());
            }
            Action::TestDead { .. } => {
                press("next-pair".to_owned());
                press("read".to_owned());
            }
            // Where the next test or reading wants another setting, a button sets it.
            Action::Operate { switch, .. } => match actions.get(index + 1) {
                Some(Action::TestDead { .. }) => press("set-switches".to_owned()),
                _ => {
                    go("place", "tools", &mut press);
                    press(format!("switch:{switch}"));
                }
            },
            Action::Continuity { a, b } => {
                go(location_of(a), "meter", &mut press);
                [a, b].into_iter().for_each(|it| press(it.clone()));
                press("read".to_owned());
            }
            Action::MakeUp { location, colour } => {
                go(location, "tools", &mut press);
                press(format!("make-up:{}", colour.word()));
            }
            Action::Mark { end, mark } => {
                let switchdrop::trade::colour::Mark::Sleeve(colour) = mark else { panic!("{mark:?}") };
                go(location_of(end), "tools", &mut press);
                press(end.clone());
                press(format!("mark:{}", colour.word()));
            }
            Action::Connect { end, terminal } => {
                go(location_of(end), "tools", &mut press);
                steps.push(Step::Bring(end.clone(), terminal.clone()));
            }
            Action::Tighten { terminal } => {
                go(location_of(terminal), "tools", &mut press);
                press(terminal.clone());
                press("tighten".to_owned());
            }
            Action::RemoveLamp { lamp } | Action::FitLamp { lamp } => {
                go(lamp, "tools", &mut press);
                press(format!("lamp:{lamp}"));
                press("lamp".to_owned());
            }
            Action::Predict { lit, live, positions } => {
                go("prediction", "tools", &mut press);
                let number = 2 * positions[0] + positions[2];
                lit.iter().chain(live).for_each(|it| press(format!("predict:{number}:{it}")));
                press(format!("lock-answer:{number}"));
            }
            Action::Confirm { check: Check::NobodyAtWork } => press("todo:nobody".to_owned()),
            Action::Confirm { check: Check::PeopleTold } => press("todo:told".to_owned()),
            Action::HandIn => press("todo:hand-in".to_owned()),
            Action::Unmark { .. } | Action::Disconnect { .. } | Action::Undo | Action::Redo => panic!("{action:?}"),
        }
    }
    steps
}

fn earns_every_mark(bench: &Bench) {
    assert_eq!(bench.shop.screen(), Screen::Sheet);
    for (number, (did, wanted)) in bench.log().iter().zip(model()).enumerate() {
        // The probe is on the end's terminal, which is the same point.
        if !matches!((did, &wanted), (Action::Continuity { .. }, Action::Continuity { .. })) {
            assert_eq!(*did, wanted, "action {number}");
        }
    }
    assert_eq!(bench.log().len(), model().len());
    assert_eq!(bench.shop.marked().unwrap().sheet.marks, 100);
}

#[test]
fn the_whole_exercise_with_the_pointer() {
    let mut bench = Bench::new("pointer");
    bench.click("begin:two-way-stairs");
    for step in steps() {
        match step {
            Step::Press(key) => bench.click(&key),
            Step::Bring(end, terminal) => bench.drag(&end, &terminal),
        }
    }
    earns_every_mark(&bench);
}

/// A few presses for each of the model's 117 actions, not dozens.
#[test]
fn the_whole_exercise_by_the_keyboard_alone_in_some_hundred_presses() {
    let mut bench = Bench::new("keyboard");
    let mut presses = bench.reach("begin:two-way-stairs") + 1;
    bench.key(Key::Enter);
    for step in steps() {
        let keys = match step {
            Step::Press(key) => vec![key],
            Step::Bring(end, terminal) => vec![end, terminal],
        };
        for key in keys {
            presses += bench.reach(&key) + 1;
            bench.key(Key::Enter);
        }
    }
    earns_every_mark(&bench);
    println!("presses by the keyboard alone: {presses}");
    assert!(presses < 1200, "{presses}");
}

impl Bench {
    /// Brings the keyboard to what has this key, by F6 to its pane and Tab within it. How many presses it took.
    fn reach(&mut self, key: &str) -> usize {
        let mut presses = 0;
        let pane = |it: &Self, key: &str| it.shop.targets().usable(key).map(|it| it.pane);
        let to = pane(self, key).unwrap_or_else(|| panic!("nothing called {key} can be used: {:?}", self.keys()));
        while self.focused().and_then(|it| pane(self, &it)) != Some(to) {
            let here = self.focused().and_then(|it| pane(self, &it)).unwrap_or(Pane::Foot);
            let ahead = (to as usize + 4 - here as usize) % 4;
            self.key_with(if ahead == 3 { Modifiers::SHIFT } else { Modifiers::NONE }, Key::F6);
            presses += 1;
            assert!(presses < 8, "F6 does not reach {key}");
        }
        let usable: Vec<_> = self.shop.targets().0.iter().filter(|it| it.enabled).map(|it| it.key.clone()).collect();
        let place = |of: &str| usable.iter().position(|it| it == of).unwrap();
        let (from, to) = (place(&self.focused().unwrap()), place(key));
        let modifiers = if to < from { Modifiers::SHIFT } else { Modifiers::NONE };
        for _ in 0..to.abs_diff(from) {
            self.key_with(modifiers, Key::Tab);
            presses += 1;
        }
        assert_eq!(self.focused().as_deref(), Some(key));
        presses
    }
}
