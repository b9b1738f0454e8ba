//! A pair of hands: does an exercise as a careful learner would, in actions.

use std::{ops::Deref, sync::Arc};

use switchdrop::{
    attempt::{Attempt, DeadStep, Happened, Mode, Probe, Safety, dead_steps_left, settings_to_predict},
    exercise::{Exercise, LocationId, Seed, draw},
    marking::{Finding, Root, Sheet, Weight, mark},
    trade::{
        colour::Colour,
        instrument::{Function, LeadLength},
    },
    work::{Action, Check, Detector, Feel, Incomer},
};

pub use switchdrop::exercise::SHIPPED;

pub fn scenario(id: &str) -> &'static str {
    SHIPPED.iter().find(|it| it.0 == id).expect("a shipped scenario").1
}

pub fn exercise(id: &str, seed: u64) -> Arc<Exercise> {
    Arc::new(draw(scenario(id), Seed(seed)).expect("a sound scenario"))
}

/// A sheet with the place of each finding as files have it.
pub struct Marked {
    sheet: Sheet,
    places: Vec<String>,
}

/// Marks an attempt as set work.
pub fn marked(attempt: &Attempt) -> Marked {
    let sheet = mark(attempt, Mode::Set);
    let places = sheet.findings.iter().map(|it| it.at.address(attempt.work().exercise())).collect();
    Marked { sheet, places }
}

impl Deref for Marked {
    type Target = Sheet;

    fn deref(&self) -> &Sheet {
        &self.sheet
    }
}

impl Marked {
    /// The findings of a kind, each with its place.
    pub fn placed(&self, of: impl Fn(&Finding) -> bool) -> impl Iterator<Item = (&Finding, &str)> {
        self.sheet.findings.iter().zip(self.places.iter().map(String::as_str)).filter(move |it| of(it.0))
    }

    /// Code and place of the causes that are more than advice.
    pub fn causes(&self) -> Vec<(&'static str, &str)> {
        let causes = self.placed(|it| it.root == Root::Itself && it.weight > Weight::Advice);
        causes.map(|(it, at)| (it.code.word(), at)).collect()
    }
}

pub struct Hand {
    pub attempt: Attempt,
}

impl Hand {
    pub fn new(exercise: Arc<Exercise>) -> Self {
        Self { attempt: Attempt::new(exercise) }
    }

    /// Does an action that is possible and not stopped.
    #[expect(clippy::needless_pass_by_value, reason = "every caller makes the action on the spot")]
    pub fn does(&mut self, action: Action) {
        let happened = self.attempt.act(action.clone()).unwrap_or_else(|it| panic!("{action:?}: {it}"));
        assert!(!matches!(happened, Happened::Stopped(_)), "{action:?}: {happened:?}");
    }

    pub fn exercise(&self) -> Arc<Exercise> {
        Arc::clone(self.attempt.work().exercise())
    }

    /// Locations where the learner has ends to connect.
    pub fn places(&self) -> Vec<LocationId> {
        self.exercise().learners_places()
    }

    /// Switches each device that feeds the work off and on again, a light of its circuit lit: what goes out with it, it feeds.
    pub fn sees_what_goes_out(&mut self) {
        let exercise = self.exercise();
        let first = self.places()[0];
        for of in self.attempt.safety().devices_reaching(first).to_vec() {
            let device = || exercise.devices[of].address.clone();
            let goes_out = |it: &[u8]| {
                let mut tried = Self { attempt: self.attempt.clone() };
                tried.sets(it);
                matches!(tried.attempt.act(Action::PowerOff { device: device() }), Ok(Happened::Lamps { .. }))
            };
            if self.attempt.safety().is_shown_by_load(of) {
                continue;
            }
            let lit =
                self.every_setting().into_iter().find(|it| goes_out(it)).expect("a setting in which a light is lit");
            self.sets(&lit);
            self.does(Action::PowerOff { device: device() });
            self.does(Action::PowerOn { device: device() });
            assert!(self.attempt.safety().is_shown_by_load(of));
        }
        self.sets(&vec![0; self.attempt.work().positions().len()]);
    }

    /// Every combination of the switches, the one that all start in first.
    fn every_setting(&self) -> Vec<Vec<u8>> {
        let mut settings = vec![Vec::new()];
        for it in &self.exercise().switches {
            let longer = |before: &Vec<u8>, at: usize| [before.clone(), vec![at as u8]].concat();
            let ways = 0..it.way.positions();
            settings = settings.iter().flat_map(|before| ways.clone().map(move |at| longer(before, at))).collect();
        }
        settings
    }

    /// Identify, agree, isolate, lock off, open, prove dead: at every place of the job.
    pub fn isolates(&mut self) {
        let exercise = self.exercise();
        self.locks_off();
        if exercise.reference.is_some() {
            self.proves_places_dead(&self.places());
            return;
        }
        for place in self.places() {
            self.proves_dead(place);
        }
    }

    /// Names every place's devices, agrees, locks off and takes the covers off.
    pub fn locks_off(&mut self) {
        let exercise = self.exercise();
        self.sees_what_goes_out();
        for place in self.places() {
            let devices = self.attempt.safety().devices_reaching(place).to_vec();
            let devices = devices.iter().map(|it| exercise.devices[*it].address.clone()).collect();
            self.does(Action::Identify { location: exercise.locations[place].id.clone(), devices });
        }
        self.does(Action::Agree);
        let first = self.places()[0];
        for device in self.attempt.safety().devices_reaching(first).to_vec() {
            // Where the supervisor has switched off, one's own lock goes on beside theirs.
            let kept_off = self.attempt.work().device_state(device).kept_off;
            let device = exercise.devices[device].address.clone();
            if !kept_off {
                self.does(Action::PowerOff { device: device.clone() });
            }
            self.does(Action::LockOff { device });
        }
        for place in self.places() {
            self.does(Action::RemoveCover { location: exercise.locations[place].id.clone() });
        }
    }

    /// One round for all these places: the indicator proved once before it and once after it.
    pub fn proves_places_dead(&mut self, places: &[LocationId]) {
        for place in places {
            while let Some(step) = dead_steps_left(&self.attempt, *place).into_iter().next() {
                match step {
                    DeadStep::Prove if self.attempt.safety().is_testing() => break,
                    DeadStep::Conclude => break,
                    it => self.steps(it),
                }
            }
        }
        self.does(Action::ProveIndicator);
        self.does(Action::Conclude { dead: true });
        for place in places {
            assert!(self.attempt.safety().is_proved(*place), "{:?}", dead_steps_left(&self.attempt, *place));
        }
        self.sets(&vec![0; self.attempt.work().positions().len()]);
    }

    /// One step on the way to a place that is proved dead.
    fn steps(&mut self, step: DeadStep) {
        let name = |point| self.attempt.work().point_address(point);
        let action = match step {
            DeadStep::Show { from, earth } => {
                let (a, b) = (name(from), name(earth));
                if self.exercise().has_test_sheet() {
                    Action::Measure { function: Function::Continuity, lead: LeadLength::Long, a, b }
                } else {
                    Action::Continuity { a, b }
                }
            }
            DeadStep::Prove => Action::ProveIndicator,
            DeadStep::Park(at) => Action::Park { at: name(at) },
            DeadStep::Unpark => Action::Unpark,
            DeadStep::Touch(it) => {
                let action = Action::TestDead { a: name(it.a), b: name(it.b), with: Detector::Indicator };
                self.sets(&it.positions);
                action
            }
            DeadStep::Conclude => Action::Conclude { dead: true },
        };
        self.does(action);
    }

    pub fn proves_dead(&mut self, place: LocationId) {
        if self.exercise().reference.is_some() {
            self.proves_places_dead(&[place]);
            return;
        }
        self.does(Action::ProveIndicator);
        for (setting, a, probe) in self.attempt.safety().tests_left(self.attempt.work(), place) {
            self.sets(&setting);
            let work = self.attempt.work();
            let b = match probe {
                Probe::Conductor(it) => work.point_address(it),
                Probe::Earth => {
                    let earthed = work.ends_at(place).map(|it| work.point_of(it)).find(|it| work.is_earthed(*it));
                    earthed.map_or_else(|| "board.earth".to_owned(), |it| work.point_address(it))
                }
            };
            let a = work.point_address(a);
            self.does(Action::TestDead { a, b, with: Detector::Indicator });
        }
        self.does(Action::ProveIndicator);
        assert!(self.attempt.safety().is_proved(place) || Safety::tests_needed(self.attempt.work(), place).is_empty());
        self.sets(&vec![0; self.attempt.work().positions().len()]);
    }

    /// Where the board is: the first one.
    pub fn board(&self) -> LocationId {
        let places = self.exercise().locations.ids();
        places.into_iter().find(|it| self.attempt.work().is_board(*it)).expect("a board")
    }

    /// Everything off and locked in front of the devices, second sources looked for, the board's cover off, proved dead.
    pub fn opens_board(&mut self) {
        let (board, incomer) = (self.board(), self.attempt.work().incomer());
        for check in self.attempt.safety().board_checks_left(self.attempt.work()).collect::<Vec<_>>() {
            self.does(Action::Confirm { check });
        }
        self.does(match incomer {
            Incomer::Main => Action::MainSwitch { on: false },
            Incomer::Isolator => Action::Isolator { on: false },
        });
        self.does(Action::LockIncomer { which: incomer });
        let location = self.exercise().locations[board].id.clone();
        self.does(Action::RemoveCover { location });
        self.proves_dead(board);
    }

    /// The board closed, the lock off, the power back as far as the devices.
    pub fn closes_board(&mut self) {
        let (board, incomer) = (self.board(), self.attempt.work().incomer());
        if !self.attempt.work().is_covered(board) {
            let location = self.exercise().locations[board].id.clone();
            self.does(Action::FitCover { location });
        }
        self.does(Action::UnlockIncomer { which: incomer });
        self.does(match incomer {
            Incomer::Main => Action::MainSwitch { on: true },
            Incomer::Isolator => Action::Isolator { on: true },
        });
    }

    /// Puts the switches so.
    pub fn sets(&mut self, positions: &[u8]) {
        let exercise = self.exercise();
        for (index, position) in positions.iter().enumerate() {
            if self.attempt.work().positions()[index] != *position {
                let switch = exercise.switches.rows()[index].address.clone();
                self.does(Action::Operate { switch, position: *position });
            }
        }
    }

    /// Marks and connects: a line each of end, terminal and, in between, a mark if it needs one; then tightens.
    pub fn wires(&mut self, lines: &str) {
        let mut terminals = Vec::new();
        for line in lines.lines().map(str::trim).filter(|it| !it.is_empty()) {
            let words: Vec<&str> = line.split_whitespace().collect();
            let (end, terminal) = (words[0].to_owned(), words[words.len() - 1].to_owned());
            // Out of the connector that it was found in.
            let work = self.attempt.work();
            if work.end(&end).is_ok_and(|it| work.terminal_of(it).is_some()) {
                self.does(Action::Disconnect { end: end.clone() });
            }
            if words.len() == 3 {
                let mark = ron::from_str(words[1]).expect("a mark");
                self.does(Action::Mark { end: end.clone(), mark });
            }
            self.does(Action::Connect { end, terminal: terminal.clone() });
            if !terminals.contains(&terminal) {
                terminals.push(terminal);
            }
        }
        for terminal in terminals {
            self.does(Action::Tighten { terminal, feel: Feel::Right });
        }
    }

    /// Reads continuity between two points in every setting of the learner's switches, lamps out.
    pub fn reads(&mut self, lamp: &str, a: &str, b: &str) {
        self.does(Action::RemoveLamp { lamp: lamp.to_owned() });
        for setting in settings_to_predict(&self.exercise()) {
            self.sets(&setting);
            self.does(Action::Continuity { a: a.to_owned(), b: b.to_owned() });
        }
        self.does(Action::FitLamp { lamp: lamp.to_owned() });
        self.sets(&vec![0; self.attempt.work().positions().len()]);
    }

    /// Says for each setting asked which lamps light and which conductors are live: `lit` and `live` give the words.
    pub fn predicts(&mut self, says: impl Fn(&[u8]) -> (Vec<&'static str>, Vec<&'static str>)) {
        for positions in settings_to_predict(&self.exercise()) {
            let (lit, live) = says(&positions);
            let words = |it: Vec<&str>| it.into_iter().map(str::to_owned).collect();
            self.does(Action::Predict { positions, lit: words(lit), live: words(live) });
        }
    }

    /// Closes up, makes the energising checks, switches on, works every switch, hands in.
    pub fn finishes(&mut self) {
        self.closes_up();
        self.powers_on();
        self.works_switches();
        self.does(Action::HandIn);
    }

    pub fn closes_up(&mut self) {
        let exercise = self.exercise();
        for (id, place) in exercise.locations.with_ids() {
            if !self.attempt.work().is_covered(id) {
                self.does(Action::FitCover { location: place.id.clone() });
            }
        }
        self.does(Action::Confirm { check: Check::NobodyAtWork });
        self.does(Action::Confirm { check: Check::PeopleTold });
    }

    pub fn powers_on(&mut self) {
        let exercise = self.exercise();
        let locked: Vec<String> = exercise
            .devices
            .iter()
            .filter(|it| self.attempt.work().device_state(exercise.device(&it.address).unwrap()).locked)
            .map(|it| it.address.clone())
            .collect();
        for device in &locked {
            self.does(Action::Unlock { device: device.clone() });
        }
        for device in locked {
            self.does(Action::PowerOn { device });
        }
    }

    pub fn works_switches(&mut self) {
        for setting in settings_to_predict(&self.exercise()) {
            self.sets(&setting);
        }
    }
}

/// What is joined in exercise 1, seed 4.
pub const ONE_WAY: &str = "feed/brown@rose rose.loop
     onward/brown@rose rose.loop
     drop/brown@rose rose.loop
     feed/blue@rose rose.neutral
     onward/blue@rose rose.neutral
     flex/blue@rose rose.neutral
     drop/blue@rose Sleeve(Brown) rose.switched
     flex/brown@rose rose.switched
     feed/cpc@rose Sleeve(GreenYellow) rose.earth
     onward/cpc@rose Sleeve(GreenYellow) rose.earth
     drop/cpc@rose Sleeve(GreenYellow) rose.earth
     drop/brown@switch switch.COM
     drop/blue@switch Sleeve(Brown) switch.L1
     drop/cpc@switch Sleeve(GreenYellow) switch.box.earth";

/// Exercise 1, seed 4 (metal box, plastic plate): every conductor where it belongs.
pub fn one_way_model() -> Hand {
    let mut hand = Hand::new(exercise("one-way-rose", 4));
    hand.isolates();
    hand.wires(ONE_WAY);
    hand.reads("lamp", "feed/brown@rose", "flex/brown@rose");
    hand.predicts(|at| {
        if at[0] == 1 {
            (vec!["lamp"], vec!["drop/brown", "drop/blue", "flex/brown"])
        } else {
            (vec![], vec!["drop/brown"])
        }
    });
    hand.finishes();
    hand
}

/// The first exercise of the curriculum that is wired, seed 4: two cores and a cpc at one switch of a training board.
pub fn first_model() -> Hand {
    let mut hand = Hand::new(exercise("wire-a-switch", 4));
    hand.does(Action::RemoveCover { location: "switch".to_owned() });
    hand.wires(
        "drop/brown@switch switch.COM
         drop/blue@switch Sleeve(Brown) switch.L1
         drop/cpc@switch Sleeve(GreenYellow) switch.box.earth",
    );
    hand.closes_up();
    hand.does(Action::BringSupply);
    hand.works_switches();
    hand.does(Action::HandIn);
    hand
}

/// Exercise 1 with the return of the drop in the neutrals, all that is asked for done, and the power on: a short waits behind the
/// switch, and the cpcs hang loose. Worked, the switch opens `board.2`.
pub fn onto_a_short(exercise: Arc<Exercise>) -> Hand {
    let mut hand = Hand::new(exercise);
    hand.isolates();
    hand.wires(
        "feed/brown@rose rose.loop
         onward/brown@rose rose.loop
         drop/brown@rose rose.loop
         feed/blue@rose rose.neutral
         onward/blue@rose rose.neutral
         flex/blue@rose rose.neutral
         drop/blue@rose Sleeve(Brown) rose.neutral
         flex/brown@rose rose.switched
         drop/brown@switch switch.COM
         drop/blue@switch Sleeve(Brown) switch.L1",
    );
    hand.reads("lamp", "feed/brown@rose", "flex/brown@rose");
    hand.predicts(|_| (vec![], vec![]));
    hand.closes_up();
    hand.powers_on();
    hand
}

/// Exercise 2, seed 4 (metal boxes, a metal plate at the clay store door): one end moved from where it was found, the three-core joined
/// like to like, a tail to the plate.
pub fn two_way_model() -> Hand {
    two_way(Form::Three, &LIKE_TO_LIKE)
}

/// Which core of the three-core does which job, and whether the strappers change places at the clay store door.
pub struct Cores {
    pub com: &'static str,
    pub one: &'static str,
    pub two: &'static str,
    pub crossed: bool,
}

pub const LIKE_TO_LIKE: Cores = Cores { com: "brown", one: "black", two: "grey", crossed: false };

#[derive(Clone, Copy, PartialEq, Eq)]
pub enum Form {
    /// The feed moved to L2 at the kiln door, the light's line left on L1, COM to COM.
    Three,
    /// The feed left on COM at the kiln door, two strappers, the light's line by a connector from COM at the clay store door.
    Strappers,
}

/// Exercise 2 in any of the forms that work.
pub fn two_way(form: Form, cores: &Cores) -> Hand {
    let mut hand = Hand::new(exercise("two-way-passage", 4));
    hand.isolates();
    alters(&mut hand, form, cores);
    hand.reads("lamp", "feed/brown@kiln", "light/brown@kiln");
    hand.predicts(|at| foresees(form, cores, [at[0], at[2]]));
    hand.finishes();
    hand
}

/// The handwork of exercise 2: one end out of the switch as it was found, then everything in.
pub fn alters(hand: &mut Hand, form: Form, cores: &Cores) {
    let Cores { com, one, two, crossed } = cores;
    let marked = |core: &str| if core == "brown" { "" } else { "Sleeve(Brown)" };
    let (com_m, one_m, two_m) = (marked(com), marked(one), marked(two));
    let (clay_one, clay_two) = if *crossed { ("L2", "L1") } else { ("L1", "L2") };
    let moved = if form == Form::Three { "feed/brown@kiln" } else { "light/brown@kiln" };
    hand.does(Action::MakeUp { location: "clay".to_owned(), colour: Colour::GreenYellow });
    hand.does(Action::Disconnect { end: moved.to_owned() });
    let kiln = match form {
        Form::Three => format!(
            "feed/brown@kiln kiln.1.L2
             link/{com}@kiln {com_m} kiln.1.COM"
        ),
        Form::Strappers => format!(
            "light/brown@kiln kiln.connector.2
             link/{com}@kiln {com_m} kiln.connector.2"
        ),
    };
    hand.wires(&format!(
        "{kiln}
         link/{one}@kiln {one_m} kiln.1.L1
         link/{two}@kiln {two_m} kiln.1.L2
         link/cpc@kiln Sleeve(GreenYellow) kiln.box.earth
         link/{com}@clay {com_m} clay.COM
         link/{one}@clay {one_m} clay.{clay_one}
         link/{two}@clay {two_m} clay.{clay_two}
         link/cpc@clay Sleeve(GreenYellow) clay.box.earth
         made-1/a@clay clay.box.earth
         made-1/b@clay clay.plate.earth",
    ));
}

/// What lights and what is live with the switches at the two doors so. Position 0 joins COM to L1, position 1 COM to L2.
pub fn foresees(form: Form, cores: &Cores, [kiln, clay]: [u8; 2]) -> (Vec<&'static str>, Vec<&'static str>) {
    let Cores { com, one, two, crossed } = cores;
    let clay = if *crossed { 1 - clay } else { clay };
    let names = |cores: &[&'static str]| -> Vec<&'static str> {
        let of = |it: &str| match it {
            "brown" => "link/brown",
            "black" => "link/black",
            _ => "link/grey",
        };
        cores.iter().map(|it| of(it)).collect()
    };
    match (form, kiln, clay) {
        (Form::Three, 0, 0) => (vec![], names(&[two])),
        (Form::Three, 1, 1) => (vec![], names(&[com, two])),
        (Form::Three, ..) => (vec!["lamp"], [names(&[com, one, two]), vec!["light/brown"]].concat()),
        // The strapper that is fed, and with it the way back if the other plate is on the same one.
        (Form::Strappers, ..) => {
            let fed = if kiln == 0 { one } else { two };
            if kiln == clay {
                (vec!["lamp"], [names(&[fed, com]), vec!["light/brown"]].concat())
            } else {
                (vec![], names(&[fed]))
            }
        }
    }
}

/// Every wiring of exercise 2 that the tests start from, named.
pub fn accepted() -> Vec<(String, Hand)> {
    let orders = [("brown", "black", "grey"), ("grey", "brown", "black"), ("black", "grey", "brown")];
    let mut all = vec![("one-way".to_owned(), one_way_model())];
    for (name, form) in [("three-core", Form::Three), ("strappers", Form::Strappers)] {
        for (com, one, two) in orders {
            for crossed in [false, true] {
                let crossing = if crossed { ", L1 and L2 exchanged" } else { "" };
                all.push((format!("{name}, {com} on COM{crossing}"), two_way(form, &Cores { com, one, two, crossed })));
            }
        }
    }
    all
}
