//! A whole exercise from the first screen to the mark sheet: once with the pointer, once by the keyboard alone.

use bevy_egui::egui::{Key, Modifiers};
use switchdrop::{
    trade::colour::Mark,
    work::{Action, Check},
};

use super::{
    super::{panel::Pane, window_state::Screen},
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

/// Where the next dead test is.
fn touched_next(actions: &[Action]) -> &str {
    let next =
        actions.iter().find_map(|it| if let Action::TestDead { a, .. } = it { Some(location_of(a)) } else { None });
    next.unwrap_or_default()
}

/// The steps so far, where the learner is and what is in hand.
#[derive(Default)]
struct Plan {
    steps: Vec<Step>,
    at: String,
    hand: &'static str,
    /// Where a probe is parked.
    parked: Option<String>,
    /// Where the two probes are.
    probed: Option<[String; 2]>,
}

impl Plan {
    fn press(&mut self, key: impl Into<String>) {
        self.steps.push(Step::Press(key.into()));
    }

    /// Goes somewhere and takes something in hand, where that is not so already.
    fn go(&mut self, to: &str, hand: &'static str) {
        if self.at != to {
            self.press(format!("go:{to}"));
            to.clone_into(&mut self.at);
            self.probed = None;
        }
        if self.hand != hand && !["place", "prediction"].contains(&to) {
            self.press(format!("hand:{hand}"));
            self.hand = hand;
        }
    }

    /// The lever of a device, or its lock.
    fn at_board(&mut self, key: String) {
        self.go("board", "tools");
        self.press(key);
    }

    fn safety(&mut self, actions: &[Action], index: usize) {
        match &actions[index] {
            Action::Identify { location, devices } => {
                self.go(location, "tools");
                for it in devices {
                    self.press(format!("feeds:{it}"));
                }
                self.press("identify");
            }
            Action::Agree => self.press("todo:agree"),
            Action::PowerOff { device } | Action::PowerOn { device } => self.at_board(device.clone()),
            Action::LockOff { device } | Action::Unlock { device } => self.at_board(format!("lock:{device}")),
            Action::ProveIndicator => {
                // Before a round of tests one goes there; after it one is there.
                if matches!(actions.get(index + 1), Some(Action::TestDead { .. } | Action::Park { .. })) {
                    self.go(touched_next(&actions[index..]), "indicator");
                }
                self.press("prove");
                self.parked = None;
            }
            Action::Park { at } => {
                self.go(touched_next(&actions[index..]), "indicator");
                // On the thing itself, where it can be seen.
                if location_of(at) == self.at {
                    self.press(at);
                    self.press(at);
                } else {
                    self.press("park");
                }
                self.parked = Some(at.clone());
            }
            Action::Unpark => {
                let at = self.parked.take().unwrap();
                self.press(at);
            }
            Action::Conclude { dead: true } => self.press("dead"),
            // Before the first round: an earth is shown.
            Action::Continuity { b, .. } if actions[index..].contains(&Action::ProveIndicator) => {
                self.go(location_of(b), "meter");
                self.press("show-earth");
            }
            Action::TestDead { a, b, .. } if self.parked.as_ref() == Some(b) => self.press(a),
            Action::TestDead { .. } => {
                self.press("next-pair");
            }
            Action::Continuity { a, b } => {
                self.go(location_of(a), "meter");
                // Read as the second probe touches; the same pair once more by the button.
                let pair = Some([a.clone(), b.clone()]);
                if self.probed == pair {
                    self.press("read");
                } else {
                    self.press(a);
                    self.press(b);
                    self.probed = pair;
                }
            }
            Action::Confirm { check: Check::NobodyAtWork } => self.press("todo:nobody"),
            Action::Confirm { check: Check::PeopleTold } => self.press("todo:told"),
            other => panic!("{other:?}"),
        }
    }

    fn handwork(&mut self, actions: &[Action], index: usize) {
        match &actions[index] {
            Action::RemoveCover { location } | Action::FitCover { location } => {
                self.go(location, "tools");
                self.press("cover");
            }
            // Where the next test needs another setting, a button sets it.
            Action::Operate { .. } if matches!(actions.get(index + 1), Some(Action::TestDead { .. })) => {
                self.press("set-switches");
            }
            Action::Operate { switch, .. } => {
                self.go("place", "tools");
                self.press(format!("switch:{switch}"));
            }
            Action::MakeUp { location, colour } => {
                self.go(location, "tools");
                self.press(format!("make-up:{}", colour.word()));
            }
            Action::Mark { end, mark: Mark::Sleeve(colour) } => {
                self.go(location_of(end), "tools");
                self.press(end);
                self.press(format!("mark:{}", colour.word()));
            }
            Action::Connect { end, terminal } => {
                self.go(location_of(end), "tools");
                self.steps.push(Step::Bring(end.clone(), terminal.clone()));
            }
            Action::Disconnect { end } => {
                self.go(location_of(end), "tools");
                self.press(end);
                self.press("disconnect");
            }
            Action::Tighten { terminal, .. } => {
                self.go(location_of(terminal), "tools");
                // The first press says which, unless a core was just brought there; on the next the screwdriver is.
                self.press(terminal);
                self.press(terminal);
            }
            Action::RemoveLamp { lamp } | Action::FitLamp { lamp } => {
                self.go(lamp, "tools");
                self.press(format!("lamp:{lamp}"));
            }
            Action::Predict { lit, live, positions } => {
                self.go("prediction", "tools");
                let number = 2 * positions[0] + positions[2];
                for it in lit.iter().chain(live) {
                    self.press(format!("predict:{number}:{it}"));
                }
                self.press(format!("lock-answer:{number}"));
            }
            Action::HandIn => self.press("todo:hand-in"),
            _ => self.safety(actions, index),
        }
    }
}

/// The steps of the model's actions: which places to go to, what to take in hand, what to press.
fn steps() -> Vec<Step> {
    let actions = model();
    let mut plan = Plan { hand: "tools", ..Plan::default() };
    for index in 0..actions.len() {
        plan.handwork(&actions, index);
    }
    plan.steps
}

fn earns_every_mark(bench: &Bench) {
    assert_eq!(bench.window.screen(), Screen::Sheet);
    for (number, (did, wanted)) in bench.log().iter().zip(model()).enumerate() {
        // The probe is on the end's terminal, which is the same point.
        if !matches!((did, &wanted), (Action::Continuity { .. }, Action::Continuity { .. })) {
            assert_eq!(*did, wanted, "action {number}");
        }
    }
    assert_eq!(bench.log().len(), model().len());
    assert_eq!(bench.window.marked().unwrap().sheet.marks, 100);
}

#[test]
fn the_whole_exercise_with_the_pointer() {
    let mut bench = Bench::new("pointer");
    bench.click("begin:two-way-passage");
    let mut last = String::new();
    for step in steps() {
        match step {
            Step::Press(key) => {
                // A second press at one spot is a press of its own only after a while.
                if key == last {
                    (0..8).for_each(|_| bench.frames(Vec::new()));
                }
                bench.click(&key);
                last = key;
            }
            Step::Bring(end, terminal) => bench.drag(&end, &terminal),
        }
    }
    earns_every_mark(&bench);
}

/// A few presses for each of the model's 112 actions, not dozens.
#[test]
fn the_whole_exercise_by_the_keyboard_alone_in_some_hundred_presses() {
    let mut bench = Bench::new("keyboard");
    let mut presses = bench.reach("begin:two-way-passage") + 1;
    bench.key(Key::Enter);
    for step in steps() {
        let keys = match step {
            Step::Press(key) => vec![key],
            Step::Bring(end, terminal) => vec![end, terminal],
        };
        for key in keys {
            presses += bench.reach_or_go(&key);
        }
    }
    earns_every_mark(&bench);
    println!("presses by the keyboard alone: {presses}");
    assert!(presses < 1000, "{presses}");
}

impl Bench {
    /// Presses what has this key with the keyboard.
    pub fn press_by_keyboard(&mut self, key: &str) {
        self.reach(key);
        self.key(Key::Enter);
    }

    /// Presses what has this key; a place by Alt and its digit. How many presses it took.
    fn reach_or_go(&mut self, key: &str) -> usize {
        let digits = [Key::Num1, Key::Num2, Key::Num3, Key::Num4, Key::Num5, Key::Num6, Key::Num7, Key::Num8];
        let row = self.keys().into_iter().filter(|it| it.starts_with("go:") && it != "go:prediction");
        if let Some(digit) = row.zip(digits).find(|it| it.0 == key).map(|it| it.1) {
            self.key_with(Modifiers::ALT, digit);
            return 1;
        }
        let presses = self.reach(key) + 1;
        self.key(Key::Enter);
        presses
    }

    /// Brings the keyboard to what has this key, by F6 to its pane and Tab within it. How many presses it took.
    pub fn reach(&mut self, key: &str) -> usize {
        let mut presses = 0;
        let pane = |it: &Self, key: &str| it.window.targets().usable(key).map(|it| it.pane);
        let to = pane(self, key).unwrap_or_else(|| panic!("nothing called {key} can be used: {:?}", self.keys()));
        while self.focused().and_then(|it| pane(self, &it)) != Some(to) {
            let here = self.focused().and_then(|it| pane(self, &it)).unwrap_or(Pane::Foot);
            let ahead = (to as usize + 4 - here as usize) % 4;
            self.key_with(if ahead == 3 { Modifiers::SHIFT } else { Modifiers::NONE }, Key::F6);
            presses += 1;
            assert!(presses < 8, "F6 does not reach {key}");
        }
        let usable: Vec<_> = self.window.targets().0.iter().filter(|it| it.enabled).map(|it| it.key.clone()).collect();
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
