//! Every public function that something from elsewhere can be handed to, called with it. What it answers is no matter here; that it
//! answers is all that is asked.

use std::{
    cell::RefCell,
    collections::BTreeSet,
    hint::black_box,
    panic::{AssertUnwindSafe, catch_unwind},
    sync::Arc,
};

use switchdrop::{
    advice,
    attempt::{
        self, Attempt, Chain, Format, Header, Mode, Naming, Opened, ReadBefore, Safety, Tally, Testing, ToRead, Written,
    },
    circuit::{
        self, Branch, Conditions, Contacts, CoresNeeded, CurrentLoop, Flow, Groups, Joined, Layered, Meter, Network,
        Part, Prepared, Sets, Settled, Solution, Supplied, Toggles, Witness,
        instrument::{self, Function, LeadLength, Setting},
    },
    exercise::{
        self, AtHand, DeviceId, EndId, Exercise, FaultKind, HiddenFault, LampId, LocationId, Named, Problem,
        ProblemCode, Reference, Seed, Stage, Stream, Switch, SwitchId, Table, Template, TerminalId, TerminalUse,
        UnmarkedId, UnmarkedThing, WordSort,
    },
    marking::{self, Answers, Code, Sheet},
    picture::{self, Covers, DiagramNet, FontWeight, Scene, Thing, View},
    reason::{self, LampGrid, Passage, Question, WayClass},
    register::{
        self, Adjustment, Assignment, Bundle, BundlePart, BundledWork, CriterionMap, GradebookColumns, HandIn, Iri,
        MarkLayer, PassedOver, PathMapping, PathSays, People, PhraseBank, Review, SetExercise, StatementIds,
        StepComment, WallTime, WhyChosen,
    },
    report::{self, About, FilledIn, Isolated, Marked, PositionTable, Story},
    wording::{self, Wording},
    work::{self, Action, Called, Edit, Fault, Point, Subject, Test, Wire, Work},
};

thread_local! {
    /// Where something panicked, and what it said.
    pub static PANICKED: RefCell<BTreeSet<String>> = const { RefCell::new(BTreeSet::new()) };
}

/// Works one answer out; what panics is noted, so that one run names them all.
fn answered<T>(at: u32, what: &str, answer: impl FnOnce() -> T) {
    if let Err(panic) = catch_unwind(AssertUnwindSafe(|| drop(black_box(answer())))) {
        let said = panic.downcast_ref::<String>().cloned();
        let said = said.or_else(|| panic.downcast_ref::<&str>().map(|it| (*it).to_owned())).unwrap_or_default();
        PANICKED.with_borrow_mut(|it| it.insert(format!("line {at}, {what}: {said}")));
    }
}

/// Has each of these worked out.
macro_rules! answers {
    ($($answer:expr),+ $(,)?) => {$( answered(line!(), stringify!($answer), || $answer); )+};
}

/// Texts that are no address, no sentence's key, no line and no file; and some that nearly are.
pub const TEXTS: [&str; 14] = [
    "",
    ".",
    "@",
    "/",
    "a/b@c",
    "west.L1",
    "made-",
    "made-0/a@rose",
    "made-99999999999999999999/b@rose",
    "made-1/c@",
    "rose.",
    "\u{202e}é€",
    "Did(ms: 0, action: HandIn)",
    "-1",
];

/// Numbers of nothing.
const NUMBERS: [usize; 5] = [0, 1, 999, 40_000, usize::MAX];

fn texts(of: &[&str]) -> Vec<String> {
    of.iter().map(|it| (*it).to_owned()).collect()
}

/// The first, the last and some in between.
fn few<T: Clone>(all: impl IntoIterator<Item = T>) -> Vec<T> {
    let all: Vec<T> = all.into_iter().collect();
    let stride = (all.len() / 6).max(1);
    all.iter().step_by(stride).chain(all.last()).cloned().collect()
}

/// What another exercise has: ids of everything, and what is named by them.
pub struct Elsewhere {
    pub locations: Vec<LocationId>,
    pub terminals: Vec<TerminalId>,
    pub switches: Vec<SwitchId>,
    pub devices: Vec<DeviceId>,
    pub lamps: Vec<LampId>,
    pub ends: Vec<EndId>,
    pub points: Vec<Point>,
    pub subjects: Vec<Subject>,
    pub settings: Vec<Vec<u8>>,
    pub edits: Vec<Edit>,
}

impl Elsewhere {
    pub fn of(attempt: &Attempt) -> Self {
        let (work, exercise) = (attempt.work(), attempt.work().exercise());
        let locations = few(exercise.locations.ids());
        let terminals = few(exercise.terminals.ids());
        let switches = few(exercise.switches.ids());
        let devices = few(exercise.devices.ids());
        let lamps = few(exercise.lamps.ids());
        let ends = few(work.ends());
        let points: Vec<Point> =
            terminals.iter().copied().map(Point::Terminal).chain(ends.iter().copied().map(Point::End)).collect();
        let wires: Vec<Wire> = few((0..work.conductor_count()).map(|it| Work::wire(work, it)))
            .into_iter()
            .chain(NUMBERS.map(Wire::Core))
            .chain(NUMBERS.map(|number| Wire::Made { number, location: locations[locations.len() - 1] }))
            .chain(NUMBERS.map(|run| Wire::OfRun { run, kind: exercise.cables[0].kind, core: run }))
            .collect();
        let mut subjects = vec![Subject::Whole, Subject::Stage(Stage::Polarity)];
        subjects.extend(locations.iter().copied().map(Subject::Location));
        subjects.extend(terminals.iter().copied().map(Subject::Terminal));
        subjects.extend(
            wires.iter().flat_map(|it| [Subject::End(*it, true), Subject::End(*it, false), Subject::Conductor(*it)]),
        );
        subjects.extend(
            NUMBERS
                .into_iter()
                .flat_map(|it| [Subject::Cable(it), Subject::Run(it), Subject::Prediction(it), Subject::Hint(it)]),
        );
        subjects.extend(switches.iter().copied().map(Subject::Switch));
        subjects.extend(lamps.iter().copied().map(Subject::Lamp));
        subjects.extend(exercise.fans.ids().map(Subject::Fan));
        subjects.extend(devices.iter().flat_map(|it| [Subject::Device(*it), Subject::Test(Test::Zs, *it)]));
        let (first, last) = (exercise.switches.len(), locations[locations.len() - 1]);
        let settings = vec![Vec::new(), vec![0; first], vec![1; first], vec![u8::MAX; first], vec![1; 2 * first + 3]];
        let end = ends[ends.len() - 1];
        let terminal = terminals[terminals.len() - 1];
        let edits = vec![
            Edit::Move(end, Some(terminal)),
            Edit::Move(end, None),
            Edit::Mark(end, None),
            Edit::Tighten(terminal),
            Edit::Slacken(terminal),
            Edit::Prepare(end, switchdrop::work::Prep::default()),
            Edit::Sheath(usize::MAX, last, 5),
            Edit::Sheath(0, last, 5),
            Edit::Grommet(last, true),
            Edit::Tail(terminal, terminals[0]),
            Edit::TakeLinks,
            Edit::Refit(usize::MAX, exercise.cables[0].live),
        ];
        Self { locations, terminals, switches, devices, lamps, ends, points, subjects, settings, edits }
    }
}

pub fn exercises(own: &Exercise, theirs: &Exercise, from: &Elsewhere) {
    for text in TEXTS {
        answers!(
            exercise::draw_each_value(text, Seed(3)),
            exercise::nearest(text, TEXTS),
            WordSort::form(WordSort::Has, text),
            WordSort::form(WordSort::Vary, text),
            exercise::names_are_clean(text, 3)
        );
        answers!(
            exercise::read(text, Seed(0)),
            exercise::read_for_states(text, Seed(0)),
            exercise::draw(text, Seed(0))
        );
        answers!(own.location(text), own.terminal(text), own.conductor(text), own.end(text));
        answers!(own.switch(text), own.device(text), own.lamp(text));
        answers!(Exercise::run(own, text), Exercise::unchosen(own, text));
        let problem = Problem::new(ProblemCode::UnknownEnd, 3..900, text, text);
        answers!(Problem::position(&problem, text));
        if let Err(error) = ron::from_str::<u8>(text) {
            answers!(Problem::from_ron(text, &error));
        }
        let mut stream = Stream::new(1, text, Seed(1), text);
        answers!(Stream::below(&mut stream, 0));
        Stream::shuffle::<u8>(&mut stream, &mut []);
    }
    for it in &from.locations {
        answers!(Exercise::opens(own, *it), Exercise::devices_reaching(own, *it), Exercise::is_board(own, *it));
        answers!(Exercise::is_outlet(own, *it), Exercise::lamp_at(own, *it), Exercise::terminals_at(own, *it).count());
        answers!(Exercise::switches_at(own, *it).count(), Exercise::terminal_used(own, *it, TerminalUse::Block(0)));
        answers!(Table::get(&own.locations, *it), &own.locations[*it]);
        answers!(Exercise::span_of(own, Named::Location(*it)), Exercise::room_of(own, *it));
    }
    for it in &from.terminals {
        answers!(Exercise::is_earth_bar(own, *it), Exercise::is_for_earth(own, *it), &own.terminals[*it]);
        answers!(own.reference.map(|reference| Reference::has(&reference, *it)));
    }
    for it in &from.ends {
        answers!(Exercise::is_learners(own, *it), Exercise::end_facts(own, *it), Exercise::end_address(own, *it));
    }
    for it in &from.devices {
        answers!(Exercise::charted(own, *it), Exercise::span_of(own, Named::Device(*it)), &own.devices[*it]);
    }
    answers!(theirs.devices.iter().filter(|it| Exercise::front_of(own, it).is_some()).count());
    for number in NUMBERS {
        for named in [Named::Cable(number), Named::Stage(number), Named::Control(number)] {
            answers!(Exercise::span_of(own, named));
        }
        answers!(Exercise::span_of(own, Named::SwitchOf { control: number, switch: number }));
        answers!(Table::id(&own.lamps, number));
        for id in &from.switches {
            answers!(Switch::closed(&own.switches[*id], number).count());
        }
        let mut sets = Sets::new(3);
        Sets::join(&mut sets, 1, number);
        answers!(Sets::root(&mut sets, number), Sets::same(&mut sets, number, 2));
    }
    let templates: Vec<_> = Template::of(theirs).into_iter().collect();
    answers!(AtHand::of(own, &templates), templates.iter().any(|it| Template::draws(it, own)));
    for it in &own.controls {
        answers!(Exercise::is_wired_by_learner(own, it));
    }
    for it in &theirs.controls {
        answers!(Exercise::is_wired_by_learner(own, it));
    }
    answers!(Exercise::asks(own, Stage::Polarity), Exercise::as_drawn(std::sync::Arc::new(own.clone())).id.len());
    answers!(exercise::pretty(own));
}

pub fn works(own: &Work, from: &Elsewhere) {
    answers!(Work::new(own.exercise().clone()).has_tied_back(), Work::joined(own, |_| true).count());
    answers!(marking::to_observe(own.exercise()));
    answers!(work::slips_refused(own.exercise()), TEXTS.map(|it| work::slip_problems(it, Seed(0)).is_ok()));
    for text in TEXTS {
        answers!(
            Work::location(own, text),
            Work::terminal(own, text),
            Work::switch(own, text),
            Work::device(own, text)
        );
        answers!(Work::lamp(own, text), Work::end(own, text), Work::point(own, text));
        for action in actions(text) {
            answers!(Work::apply(&mut own.clone(), &action));
        }
    }
    for it in &from.edits {
        let mut work = own.clone();
        Work::edit(&mut work, it);
        answers!(circuit::rows(&work).len(), work.conductor_count());
    }
    for it in NUMBERS {
        answers!(Work::held_in(own, it), Work::ends_of(own, it), Work::is_scrap(own, it), Work::cable_of(own, it));
        answers!(Work::conductor_address(own, it), Work::wire(own, it));
        for place in &from.locations {
            answers!(Work::sheath_off(own, it, *place), Work::is_sheath_inside(own, it, *place));
            answers!(Work::cores_at(own, it, *place).count());
        }
    }
    for it in &from.terminals {
        answers!(Work::ends_in(own, *it).count(), Work::room_in(own, *it), Work::is_tight(own, *it));
        answers!(Work::reach_mm(own, *it));
    }
    for it in &from.locations {
        answers!(Work::ends_at(own, *it).count(), Work::is_covered(own, *it), Work::is_board_to_open(own, *it));
        answers!(Work::is_board(own, *it), Work::has_cover(own, *it), Work::has_grommet(own, *it));
        answers!(Work::is_dressed(own, *it), Work::wants_grommet(own, *it), Work::is_crowded(own, *it));
    }
    for it in &from.ends {
        answers!(Work::end_facts(own, *it), Work::end_location(own, *it), Work::end_address(own, *it));
        answers!(Work::point_of(own, *it), Work::terminal_of(own, *it), Work::mark_of(own, *it));
        answers!(Work::is_landed(own, *it), Work::is_undisturbed(own, *it), Work::prep_of(own, *it));
        answers!(Work::fit_of(own, *it), Work::well_made(own, *it), Work::trapped_against(own, *it));
        answers!(Work::subject_of(own, *it));
        for at in few(from.terminals.iter().copied()) {
            answers!(Work::can_go_in(own, *it, at));
        }
    }
    for it in &from.points {
        answers!(Work::point_address(own, *it), Work::point_location(own, *it), Work::subject_at(own, *it));
        answers!(Work::node(own, *it), Work::is_earthed(own, *it), Work::is_earth_bar(own, *it));
    }
    for it in &from.devices {
        answers!(Work::device_state(own, *it), Work::is_on(own, *it));
    }
    for it in &from.lamps {
        answers!(Work::is_lamp_in(own, *it));
    }
    for it in &from.subjects {
        answers!(Subject::address(*it, own.exercise()), Subject::location(*it, own.exercise()));
        answers!(Subject::end(*it, own), Subject::conductor(*it, own), Subject::point(*it, own));
    }
}

/// One action of each kind that names something, the names being `text`.
fn actions(text: &str) -> Vec<Action> {
    let it = format!("{text:?}");
    let lines = [
        format!("Mark(end: {it}, mark: Sleeve(Blue))"),
        format!("Unmark(end: {it})"),
        format!("Connect(end: {it}, terminal: {it})"),
        format!("Disconnect(end: {it})"),
        format!("Tighten(terminal: {it})"),
        format!("Sheath(cable: {it}, location: {it}, mm: 65535)"),
        format!("Cut(end: {it}, mm: 65535)"),
        format!("Strip(end: {it}, mm: 65535, jaw: 65535)"),
        format!("Fold(end: {it})"),
        format!("Unfold(end: {it})"),
        format!("Tug(end: {it})"),
        format!("Grommet(location: {it})"),
        format!("Dress(location: {it})"),
        format!("Choose(cable: {it}, kind: TwinEarth, mm2: 1.0, reason: Usual)"),
        format!("MakeUp(location: {it}, colour: Blue)"),
        format!("FitCover(location: {it})"),
        format!("RemoveCover(location: {it})"),
        format!("FitLamp(lamp: {it})"),
        format!("RemoveLamp(lamp: {it})"),
        format!("Identify(location: {it}, devices: [{it}, {it}])"),
        format!("PowerOff(device: {it})"),
        format!("LockOff(device: {it})"),
        format!("Unlock(device: {it})"),
        format!("TestDead(a: {it}, b: {it})"),
        format!("Park(at: {it})"),
        format!("Continuity(a: {it}, b: {it})"),
        format!("Inspect(location: {it})"),
        format!("Name(at: {it}, called: {it})"),
        format!("FitLink(a: {it}, b: {it})"),
        format!("TakeLink(a: {it}, b: {it})"),
        format!("Measure(function: Continuity, a: {it}, b: {it})"),
        format!("Record(test: R2, at: {it}, reading: {it}, accepted: true)"),
        format!("Report(at: {it}, what: Wiring)"),
        format!("Predict(positions: [9, 9], lit: [{it}], live: [{it}])"),
        format!("PowerOn(device: {it})"),
        format!("Reset(device: {it})"),
        format!("Operate(switch: {it}, position: 255)"),
    ];
    lines.iter().map(|it| attempt::parse_action(it).unwrap_or_else(|why| panic!("{it}: {why:?}"))).collect()
}

/// What flows, and how it is told.
fn flows([own, theirs]: [&Work; 2], from: &Elsewhere, conditions: &Conditions) {
    let flow = circuit::flow(own, conditions.clone());
    for point in &from.points {
        answers!(Flow::is_live(&flow, own, *point), Flow::is_live(&flow, theirs, *point));
    }
    for lamp in &from.lamps {
        answers!(Flow::lamp(&flow, *lamp));
    }
    answers!(NUMBERS.map(|it| Flow::amps(&flow, it)));
    for it in &from.terminals {
        answers!(Flow::taken_at(&flow, own, *it), Flow::taken_at(&flow, theirs, *it));
    }
    let wording = Wording::british();
    answers!(wording::way_in_short(&wording, theirs, &flow), wording::way_in_short(&wording, own, &flow));
    for it in few(from.points.iter().copied()) {
        let met = circuit::touch(own, conditions.clone(), it);
        answers!(wording::hand(&wording, theirs, it, met.as_ref()), wording::hand(&wording, own, it, met.as_ref()));
    }
    for it in flow.loops.iter().flat_map(|it| [CurrentLoop::legs(it, own), CurrentLoop::legs(it, theirs)]).flatten() {
        answers!(wording::loop_leg(&Wording::british(), theirs, &it), wording::loop_leg(&Wording::british(), own, &it));
    }
    answers!(wording::ways(&Wording::british(), theirs, &flow), wording::ways(&Wording::british(), own, &flow));
}

pub fn circuits(own: &Work, theirs: &Work, from: &Elsewhere) {
    let exercise = own.exercise();
    let functions = [
        Function::Continuity,
        Function::Voltage,
        Function::Indicator,
        Function::Insulation(switchdrop::trade::instrument::insulation::TestVolts::V500),
        Function::Loop(switchdrop::trade::instrument::loop_impedance::Range::NoTrip),
        Function::Rcd(switchdrop::trade::instrument::rcd::Test::Rated),
    ];
    let near = Point::Terminal(exercise.terminals.id(0).unwrap());
    for it in few(from.points.iter().copied()) {
        answers!(circuit::is_energised(own, it), circuit::volts_between(own, it, near));
        answers!(circuit::ohms_between(own, near, it));
        for function in functions {
            let meter = Meter { function, lead: LeadLength::Short, nulled: false };
            answers!(circuit::reading(own, meter, it, near), circuit::at_origin(own, meter));
            let setting = Setting::linked(Setting::of(function), it, near);
            answers!(instrument::reading(own, &setting, it, near), instrument::supply_volts(exercise));
        }
        answers!(Groups::of(&Groups::new(own), own, it));
    }
    let settled = circuit::settle(own, Conditions::present(own));
    let other_network = Network::new(theirs, &Conditions::present(theirs));
    for positions in &from.settings {
        let complete = Conditions::complete(exercise, positions.clone());
        let mut odd = complete.clone();
        (odd.on, odd.lamps_in) = (vec![true], Vec::new());
        odd.fault = Some((from.points[0], from.points[from.points.len() - 1]));
        for conditions in [complete.clone(), odd] {
            let network = Network::new(own, &conditions);
            let solution = Network::solve(&network);
            for point in &from.points {
                answers!(Network::find(&network, own, *point), Settled::is_energised(&settled, own, *point));
                answers!(circuit::touch(own, conditions.clone(), *point));
            }
            for node in NUMBERS {
                answers!(Solution::volts(&solution, node), Solution::across(&solution, node, 1));
                answers!(Solution::ohms_behind(&solution, node), Network::ohms_between(&network, own, node, 0));
            }
            for it in few(other_network.branches.iter().copied()) {
                answers!(Branch::amps(&it, &solution), Branch::volts(&it, &solution), Network::part(&network, it.part));
            }
            for it in &from.lamps {
                answers!(Network::part(&network, Part::Lamp(*it)));
            }
            for device in &from.devices {
                answers!(circuit::way(own, &conditions, *device));
            }
            for terminal in &from.terminals {
                answers!(circuit::live_points_near(own, &conditions, *terminal));
            }
            flows([own, theirs], from, &conditions);
            answers!(circuit::settle(own, conditions.clone()));
            answers!(circuit::deck(own, std::slice::from_ref(&conditions)).text.len());
        }
        answers!(circuit::deck_cases(own, Some(positions)).map(|it| it.len()));
        answers!(circuit::row_at(own, positions), circuit::shown_at(own, positions.clone()));
        let mut joined = Joined::new(own, positions);
        let mut some = Joined::with(own, positions, |_| true);
        let mut more = Joined::and_closed(&joined, theirs, positions);
        for it in &from.terminals {
            answers!(Joined::root(&mut joined, *it), Joined::root(&mut some, *it));
        }
        for it in &from.points {
            answers!(Joined::same(&mut joined, own, *it, near), Joined::same(&mut more, theirs, *it, near));
        }
        answers!(Joined::ever_reach(&joined, theirs), Joined::reach(&mut joined, theirs));
    }
    answers!(circuit::hot_joints(own, &from.settings), circuit::lost_on_the_way(own, &from.settings));
    answers!(circuit::opening(own), circuit::courses(own), circuit::lamps_now(own), circuit::settings_to_try(own));
    let prepared = Prepared::new(own);
    answers!(prepared.ready().rows().len(), circuit::rows(own).len(), circuit::survey(own).hazards.len());
    answers!(circuit::states(own).is_ok());
    for run in NUMBERS {
        let needed = circuit::cores_needed(exercise, run);
        for count in NUMBERS {
            answers!(CoresNeeded::lost_with(&needed, count).count(), CoresNeeded::is_enough(&needed, count));
        }
    }
    nets(own, theirs, from);
}

/// The joined view by numbers of nets.
fn nets(own: &Work, theirs: &Work, from: &Elsewhere) {
    let mut contacts = Contacts::of(own);
    let with = Contacts::with(own, Sets::new(2));
    for number in NUMBERS {
        Contacts::join(&mut contacts, number, 1);
        answers!(Contacts::positions(&with, number), Contacts::pairs(&with, number, number));
        answers!(circuit::ever_joined(&contacts, number));
        answers!(Contacts::new(number.min(1000)).nets());
        let only = Contacts::only(&contacts, &[number]);
        let supplied = Supplied { devices: vec![[number, 0]], earth: vec![number], lamp: [number, 1] };
        answers!(Supplied::lit(&supplied, &[]), Supplied::prove(&supplied, &only, &[number]));
        let toggles = Toggles { watched: &[number, 0], lit: &|_| Some(true), switches: &[number] };
        answers!(Toggles::prove(&toggles, &only), Toggles::shortest(&toggles, &only));
        if let Ok(layered) = Layered::new(&only, &[number, 0], &[number]) {
            for positions in &from.settings {
                answers!(Layered::at(&layered, positions), Layered::are_joined(&layered, positions, number, 0));
            }
        }
        answers!(
            circuit::solve(3, [0, number], 230.0, [(number, 1, 0.5), (0, 1, f64::NAN), (0, number, 1.0)]).volts(1),
        );
    }
    Contacts::switch(&mut contacts, vec![vec![(0, usize::MAX)], Vec::new()]);
    for positions in &from.settings {
        answers!(Contacts::at(&contacts, positions).count());
    }
    answers!(Contacts::of(theirs).nets());
}

pub fn attempts(own: &Attempt, theirs: &Attempt, from: &Elsewhere) {
    let (safety, tally, testing) = (own.safety(), own.tally(), own.safety().testing());
    let (work, exercise) = (own.work(), own.work().exercise());
    for it in &from.locations {
        answers!(attempt::dead_steps_left(own, *it), attempt::dead_tests_left(own, *it));
        answers!(Safety::devices_reaching(safety, *it), Safety::is_identified(safety, *it));
        answers!(Safety::is_identified_there(safety, *it), Safety::is_fed_as_shown(safety, *it));
        answers!(Safety::is_proved(safety, *it), Safety::tests_needed(work, *it));
        for work in [work, theirs.work()] {
            answers!(Safety::is_locked_off(safety, work, *it), Safety::is_neutral_isolated(safety, work, *it));
            answers!(Safety::is_all_proved(safety, work, *it), Safety::proof_gap(safety, work, *it));
            answers!(Safety::tests_left(safety, work, *it), Safety::board_checks_left(safety, work));
        }
        answers!(Tally::is_reported(tally, Fault::Wiring, *it));
    }
    for it in &from.subjects {
        answers!(
            Safety::circuits_of(safety, exercise, *it),
            Safety::circuits_of(safety, theirs.work().exercise(), *it)
        );
    }
    for it in &from.devices {
        answers!(Safety::is_shown_by_load(safety, *it));
    }
    for it in &from.points {
        answers!(Safety::is_shown(safety, *it));
    }
    for it in NUMBERS {
        answers!(Testing::circuit_of(testing, it));
    }
    answers!(Safety::settings_needed(work), attempt::settings_to_predict(exercise));
    for exercise in [exercise, theirs.work().exercise()] {
        answers!(Safety::predictions_left(safety, exercise), Safety::before_power_on(safety, exercise));
        answers!(Safety::readings_left(safety, exercise), Safety::settings_left(safety, exercise));
        answers!(Testing::early(testing, exercise).count(), Testing::inspections_left(testing, exercise));
        answers!(Testing::settings_left(testing, exercise));
        for device in &from.devices {
            let of = (Test::ZsSum, *device);
            answers!(Testing::shown_for(testing, exercise, of, switchdrop::work::Source::Card));
        }
        for stage in Stage::ALL {
            answers!(Safety::is_done(safety, exercise, *stage));
            answers!(Testing::is_read(testing, exercise, *stage), Testing::is_done(testing, exercise, *stage));
        }
    }
    for stage in Stage::ALL {
        for it in few(attempt::readings_to_take(theirs, *stage)) {
            let action = ToRead::action(&it, work);
            answers!(Attempt::act(&mut own.clone(), action));
        }
    }
    for text in TEXTS {
        for action in actions(text) {
            answers!(Attempt::act(&mut own.clone(), action));
        }
        answers!(
            attempt::parse_action(text),
            attempt::action_form(text),
            attempt::stranger(text.as_bytes()),
            attempt::learner_of(text),
            Written::read(text),
            attempt::sha256(text.as_bytes())
        );
    }
    for action in few(theirs.log().iter().cloned()) {
        answers!(Attempt::act(&mut own.clone(), action));
    }
    let with_theirs = Attempt::replay(own.work().exercise().clone(), theirs.log().iter().cloned());
    answers!(with_theirs.is_ok());
    for it in &from.edits {
        answers!(Attempt::supposing(own, std::slice::from_ref(it)).log().len());
    }
    for it in &from.ends {
        answers!(Exercise::found_in(exercise, *it));
    }
    answers!(reason::FaultSearch::of(own).left, Work::supposing(own.work(), theirs.work().exercise()).point_count());
    for it in NUMBERS {
        let supposed = Arc::new(Exercise::supposing_fault(exercise, it));
        answers!(Attempt::new(supposed).can_undo());
        answers!(reason::settings_to_read_in(exercise).len());
        answers!(reason::suspects_alike(exercise).len());
        answers!(HiddenFault::breaks(&HiddenFault::Open(it), NUMBERS[1]));
    }
    answers!(
        Attempt::new(exercise.clone()).can_undo(),
        Attempt::in_format(exercise.clone(), Format::NEWEST).can_redo()
    );
}

/// Whole files: cut off, from another scenario, with lines of another attempt, and of nothing.
pub fn files(own: &Attempt, theirs: &Attempt) -> Vec<String> {
    let header = Header::new(marking::VERSION, own.work().exercise(), "a".to_owned(), "b".to_owned(), Mode::Set);
    let mut chain = Chain::new(header.format);
    let [first, second] = attempt::first_lines(&header, own.work().exercise()).unwrap();
    let [_, other] = attempt::first_lines(&header, theirs.work().exercise()).unwrap();
    let lines = |of: &Attempt| -> Vec<String> {
        of.log()
            .iter()
            .map(|it| attempt::action_line(0, it).unwrap())
            .chain(attempt::opened_line("c".to_owned()).ok())
            .collect()
    };
    let mut whole = |head: [&String; 2], lines: Vec<String>| -> String {
        chain = Chain::new(header.format);
        head.into_iter().chain(&lines).map(|it| Chain::seal(&mut chain, it) + "\n").collect()
    };
    let mut files = vec![
        whole([&first, &second], lines(own)),
        whole([&first, &second], lines(theirs)),
        whole([&first, &other], lines(own)),
        whole([&second, &first], Vec::new()),
    ];
    let cut: Vec<String> =
        [1, 7, 40].into_iter().map(|it| files[0].chars().take(files[0].chars().count() * it / 41).collect()).collect();
    files.extend(cut);
    files.extend(TEXTS.map(str::to_owned));
    files
}

/// An attempt of no assignment in a bundle of another's, and what is read back of that.
fn bundles(marked: &Marked, text: &str, wording: &Wording) {
    let strange = crate::assignment::made();
    let review = Review::of(&strange, Vec::new(), Vec::new(), jiff::Timestamp::MIN);
    answers!(Review::sample(&review, &strange, usize::MAX, Seed(0)).len(), Assignment::pass_mark_of(&strange, text));
    let bundle = Bundle::new(&strange, text.to_owned(), None, wording);
    let Some(row) = review.rows.first() else { return };
    for place in NUMBERS {
        answers!(BundlePart::name(BundlePart::Layers, place));
        let chosen = (row, WhyChosen::Drawn);
        let made = BundledWork::of(place, chosen, (text.into(), marked), People::default(), wording);
        let Ok((work, parts)) = made else { continue };
        for bytes in parts.into_iter().map(|it| it.1).chain([text.into(), Vec::new()]) {
            let mark = |_| Marked::of(text, &[]).map_err(|it| it.to_string());
            answers!(BundledWork::verify(&work, place, &bundle, |_| Ok(bytes.clone()), mark, wording).differs);
        }
    }
}

pub fn reports(own: &Attempt, theirs: &Attempt, sheets: &[&Sheet], from: &Elsewhere) {
    let wording = Wording::british();
    let (work, exercise) = (own.work(), own.work().exercise());
    let templates: Vec<_> = Template::of(theirs.work().exercise()).into_iter().collect();
    for text in files(own, theirs) {
        let mut known = ReadBefore::default();
        answers!(attempt::open(&text).is_ok(), attempt::open_for_states(&text).is_ok());
        if let Ok(it) = attempt::open_again(&text, &mut known, &templates) {
            let at_hand = AtHand::of(&it.exercise, &templates);
            answers!(marking::notices(&it, at_hand, &Answers::Shown));
            if let Ok(replayed) = Opened::replay(&it) {
                let told = Marked::told(it, replayed, (at_hand, &Answers::Shown), text.clone(), None);
                answers!(Marked::page(&told, &wording).len());
                let strange = crate::assignment::made();
                answers!(HandIn::at(HandIn::of(&strange, &told, usize::MAX, &wording), &strange, None, &text).flags);
            }
        }
        if let Ok(it) = Marked::of(&text, &templates) {
            answers!(
                Marked::json(&it, &text).is_ok(),
                Marked::page(&it, &wording).len(),
                Marked::lines(&it, &wording).len()
            );
            let filled = FilledIn { layers: vec![text.clone()], ..FilledIn::default() };
            answers!(Marked::form(&it, &wording, &filled).len());
            answers!(report::forms_page(&text, &[Marked::form_part(&it, &wording, &filled)]).len());
            bundles(&it, &text, &wording);
        }
    }
    answers!(
        Isolated::of(own, &[u64::MAX]),
        Isolated::of(theirs, &[]),
        marking::answers(own, Mode::Set, None, None, true),
        marking::may_hint(exercise, Mode::Set),
        marking::hint(own)
    );
    answers!(marking::was_safe(own), marking::to_remake(work), marking::mark(own, Mode::Practice).marks);
    answers!(LampGrid::of(work));
    if let Some(house) = Passage::new() {
        for end in &from.ends {
            for it in &from.terminals {
                answers!(Passage::join(&mut house.clone(), &[(*end, *it)]).is_ok());
            }
        }
        for positions in &from.settings {
            answers!(Passage::set(&mut house.clone(), positions));
        }
        for it in &from.switches {
            answers!(Passage::press(&mut house.clone(), *it), Passage::blades(&house, *it));
        }
        answers!(NUMBERS.map(|it| Passage::is_between(&house, it)));
        answers!(Passage::of_way(&Question::of_cores(2), &[vec![u8::MAX; 9], Vec::new()]).is_some());
    }
    for number in [0, 1, 3, usize::MAX] {
        let question = Question { positions: number, connectors: vec![number], ..Question::of_cores(number) };
        answers!(Question::of_cores(number), reason::count(&question, |_| ()), reason::why(&question, |_| ()).is_ok());
        answers!(wording::way_class(&wording, WayClass::DependsOn(7), number));
    }
    for code in Code::ALL {
        answers!(marking::times(own.tally(), *code));
    }
    for sheet in sheets {
        answers!(marking::done_well(own, sheet), Sheet::needed(sheet, exercise));
        answers!(report::moments(own, sheet), report::praise(&wording, own, sheet));
        answers!(wording::headline(&wording, work, sheet), wording::verdict(&wording, own, sheet));
        let story = Story::moments(own, sheet, Vec::new());
        let whole = Story::of(own, sheet, vec![3]);
        let about = About { learner: "a", receipt: None, notices: &[] };
        answers!(report::report(&wording, &about, own, sheet, &whole));
        for number in NUMBERS.into_iter().chain([2, 3]) {
            answers!(Story::arose(&story, &wording, number), Story::would_have(&whole, &wording, own, number));
            if let Some(it) = report::consequence(own, sheet, number) {
                answers!(report::would_have(&wording, work, &it), report::would_have(&wording, theirs.work(), &it));
            }
        }
        for (index, finding) in sheet.findings.iter().enumerate() {
            answers!(
                Story::figures(&wording, own, finding),
                marking::reference(exercise, finding),
                Story::counted(&story, &wording, own, finding)
            );
            let said = wording::finding(&wording, work, finding);
            answers!(wording::title(&wording, index, finding, &said), wording::remarks(&wording, finding));
            answers!(wording::follows(&wording, finding));
            answers!(wording::hint(&wording, work, &marking::Hint::Wrong(finding.clone())));
        }
    }
    answers!(report::of_format(&wording, own));
    said(own, theirs, from, &wording);
}

/// Readings, and the faults that they leave.
fn searches(own: &Attempt, theirs: &Attempt, wording: &Wording) {
    let work = own.work();
    for action in few(theirs.log().iter().cloned()) {
        answers!(Attempt::would_stop(own, &action), Attempt::can(own, &action));
    }
    let sheet = marking::mark(theirs, Mode::Set);
    answers!(reason::best_reading(own, &NUMBERS, &mut reason::SolveBudget::default()));
    answers!(report::told_readings(own, &sheet).len());
    let story = Story::of(own, &sheet, Vec::new());
    answers!(report::searched(wording, theirs, &sheet, &story).len());
    for it in [f64::NAN, f64::INFINITY, -1.0, 1e300] {
        answers!(circuit::ohms_shown(it));
    }
    for it in &theirs.tally().readings {
        answers!(wording::taken(wording, NUMBERS[4], it));
    }
    for kind in [FaultKind::Open, FaultKind::Exchanged, FaultKind::Nothing] {
        let suspect = exercise::Suspect { kind, at: texts(&TEXTS), fault: HiddenFault::Nothing };
        answers!(wording::suspect(wording, work, &suspect), exercise::Suspect::is(&suspect, kind, &texts(&TEXTS[2..])));
    }
}

fn said_of_texts(work: &Work, wording: &Wording) {
    for text in TEXTS {
        answers!(Wording::say(wording, text, &[(text, text)]), Wording::try_say(wording, text, &[]).is_ok());
        answers!(Wording::has(wording, text), wording::clean(text), wording::place(wording, work, text));
        for action in actions(text) {
            answers!(wording::did(wording, work, &action));
        }
        let refused = work.end(text).expect_err("no end");
        answers!(wording::refused(wording, work, &refused));
        let problem = Problem::new(ProblemCode::UnknownEnd, 3..900, text, text);
        answers!(wording::problem(wording, &problem), wording::problem_without_help(wording, &problem));
        answers!(wording::help(wording, &problem));
        answers!(wording::list(wording, &[text.to_owned()]), wording::apart(wording, &[text.to_owned()]));
    }
}

fn said(own: &Attempt, theirs: &Attempt, from: &Elsewhere, wording: &Wording) {
    let (work, exercise) = (own.work(), own.work().exercise());
    said_of_texts(work, wording);
    for action in few(theirs.log().iter().cloned()) {
        answers!(wording::did(wording, work, &action));
    }
    for positions in &from.settings {
        let case = Witness { positions: positions.clone(), off: from.devices.clone(), out: from.lamps.clone() };
        answers!(wording::witness(wording, exercise, &case));
    }
    for row in few(circuit::rows(theirs.work())) {
        answers!(wording::row(wording, work, &row));
    }
    for it in advice::doubts(theirs.work().exercise()) {
        answers!(wording::doubt(wording, exercise, &it));
    }
    answers!(advice::wiring(exercise), advice::wiring_left(work), advice::next_join(own), advice::guidance(own));
    answers!(advice::solve(exercise));
    for (lamp, device) in from.lamps.iter().zip(&from.devices) {
        let lacks = [
            advice::Lacks::Cable(lamp.index()),
            advice::Lacks::Wiring(NUMBERS[2]),
            advice::Lacks::Earth(from.locations[0]),
            advice::Lacks::NotShown(*device),
            advice::Lacks::Opens(Box::new(Action::Agree), vec![*device]),
        ];
        for lacks in lacks {
            answers!(wording::lacks(wording, &advice::Unsolved { attempt: Box::new(own.clone()), lacks }));
        }
    }
    for (end, terminal) in from.ends.iter().zip(&from.terminals) {
        let next = advice::NextJoin { end: *end, terminal: *terminal, carries: None, sleeve: None };
        let told = advice::Guidance { hint: marking::Hint::SoFarRight, names: false, next: Some(next) };
        answers!(wording::guidance(wording, work, &told), wording::next_join(wording, work, &next));
    }
    searches(own, theirs, wording);
    let happened = [
        attempt::Happened::NoEarth(from.points[from.points.len() - 1]),
        attempt::Happened::Concluded { dead: true, proved: from.locations.clone(), lacked: None },
        attempt::Happened::Lamps { lit: true, lamps: from.lamps.clone() },
        attempt::Happened::Tripped(from.devices.clone()),
        attempt::Happened::Read(circuit::Reading {
            shown: instrument::Shown::Lights(None),
            opens: from.devices.clone(),
        }),
    ];
    for it in &happened {
        answers!(wording::happened(wording, own, it));
        if let attempt::Happened::Read(it) = it {
            answers!(wording::reading(wording, work, it));
        }
    }
    for id in [UnmarkedId { group: 0, place: 0 }, UnmarkedId { group: NUMBERS[3], place: NUMBERS[4] }] {
        answers!(wording::called(wording, exercise, Called::ByPlace(id)), Work::called(work, id));
        answers!(Exercise::unmarked_thing(exercise, id), Exercise::unmarked_ends(exercise, id));
        answers!(Exercise::unmarked_address(exercise, id), Exercise::unmarked_name(exercise, id));
        answers!(Work::named_as(work, id), Work::is_joined_unmarked(work, id));
        answers!(wording::subject(wording, work, Subject::Unmarked(id)), Thing::Unmarked(id).address(work));
        answers!(own.safety().naming().is_told(id), own.safety().naming().said_in(id));
    }
    for (at, cable) in from.locations.iter().zip(NUMBERS) {
        answers!(wording::cable_at(wording, work, cable, *at), Exercise::unmarked_cable(exercise, cable, *at));
    }
    for (end, terminal) in from.ends.iter().zip(&from.terminals) {
        answers!(Exercise::unmarked_end(exercise, *end), Exercise::unmarked_terminal(exercise, *terminal));
        let called = Called::By(UnmarkedThing::Terminal(*terminal));
        answers!(wording::called(wording, exercise, called));
    }
    for points in from.points.windows(2) {
        answers!(Naming::could_tell(own.safety().naming(), work, [points[0], points[1]]));
    }
    for text in TEXTS {
        answers!(Work::naming(work, text, text).is_err());
    }
    for it in &from.subjects {
        answers!(wording::subject(wording, work, *it));
    }
    for it in &from.terminals {
        answers!(wording::terminal(wording, work, *it));
    }
    for it in &from.ends {
        answers!(wording::end(wording, work, *it));
    }
    for it in NUMBERS {
        answers!(wording::conductor(wording, work, it));
    }
    for it in &from.switches {
        answers!(wording::switch(wording, exercise, *it), wording::position(wording, exercise, *it, 255));
    }
    for it in &from.devices {
        answers!(wording::device(wording, exercise, *it), wording::device_in_full(wording, exercise, *it));
    }
    for it in &from.lamps {
        answers!(wording::lamp(exercise, *it));
    }
    answers!(wording::card_figure(wording, exercise));
}

/// Files, codes and times that nobody wrote; learners on no roster.
pub fn registers(theirs: &Exercise) {
    let strange = crate::assignment::made();
    for text in TEXTS {
        let one = || HandIn::unusable(&strange, Some(text), true, Some(usize::MAX), text.to_owned());
        answers!(HandIn::unusable(&strange, None, false, None, String::new()).at(&strange, None, text).counts());
        let mapping = PathMapping::read("Paths(part: \"a{learner}*\")").expect("a mapping");
        answers!(PathMapping::read(text).is_ok(), PathMapping::learner(&mapping, text));
        answers!(PhraseBank::read(text).is_ok(), CriterionMap::read(text).is_ok());
        let map = CriterionMap::read("Outcomes(unit: \"a\", criteria: [])").expect("a map");
        let wording = Wording::british();
        answers!(
            CriterionMap::outcome(&map, text),
            CriterionMap::of_finding(&map, text),
            CriterionMap::tag(&map, &wording, text)
        );
        let bank = PhraseBank::read(register::PHRASES).expect("a bank");
        answers!(PhraseBank::get(&bank, text));
        for place in NUMBERS {
            let (by, why) = (text.to_owned(), text.to_owned());
            let comment = StepComment { layer: MarkLayer::Tutor, by, at: String::new(), step: u32::MAX, why };
            answers!(StepComment::check(&comment, place).is_ok());
            let people = People { comments: vec![comment], ..People::default() };
            answers!(People::has_second_mark_of(&people, text), People::for_second_marker(&people).is_empty());
        }
        answers!(PathSays::of(&strange, Some(&mapping), text));
        let passed_over = vec![PassedOver::of(&strange, None, text)];
        let review = Review::of(&strange, vec![one(), one()], passed_over, jiff::Timestamp::MAX);
        let columns = "Gradebook(learner: \"a\", mark: \"b\", separator: ';')";
        let columns = GradebookColumns::read(columns).expect("columns");
        answers!(GradebookColumns::read(text).is_ok());
        answers!(GradebookColumns::fill(&columns, text, &strange, &review, &wording).is_ok());
        answers!(GradebookColumns::fill(&columns, &format!("a;b\n{text}"), &strange, &review, &wording).is_ok());
        let ids = Iri::of("https://a").expect("an address");
        let ids = StatementIds { accounts: ids.clone(), activities: ids };
        answers!(Iri::of(text), register::statements(&wording, &strange, &review, &ids).len());
        answers!(register::wide_table(&strange, &review, text), register::long_table(&strange, &review, text));
    }
    answers!(SetExercise::of(theirs.clone()).sha256);
    for text in TEXTS {
        answers!(attempt::assigned_of(text), report::receipt_code(text));
        answers!(
            Assignment::read(text).is_ok(),
            WallTime::of(text),
            wording::when(&Wording::british(), text),
            register::check_characters(text)
        );
        for learner in NUMBERS.map(|it| it as u64) {
            answers!(register::seed_of(text, learner, text, u32::MAX), Adjustment::of(text, text, learner));
            answers!(Adjustment::code(Adjustment::default(), text, learner));
            let (assignment, sha256, code) = (text.to_owned(), text.to_owned(), text.to_owned());
            let answers = attempt::AnswersFrom::Time(text.to_owned());
            answers!(answers.time());
            let assigned = attempt::Assigned { assignment, sha256, learner, nth: 0, code, answers };
            answers!(register::hand_in_name(&assigned, text));
            let (never, mode) = (Attempt::new(Arc::new(theirs.clone())), Mode::Set);
            answers!(marking::answers(&never, mode, Some(&assigned), None, false));
            answers!(register::Learner::of(&strange, learner, Some(text)).map(|it| it.assigned(0)).is_ok());
        }
    }
}

pub fn pictures(own: &Work, theirs: &Work, from: &Elsewhere) {
    let wording = Wording::british();
    answers!(PositionTable::of(&wording, own).lines.len(), PositionTable::of(&wording, theirs).lines.len());
    answers!(circuit::hand_points(own, NUMBERS[0]).len(), circuit::hand_points(theirs, 3).len());
    let words = wording::glossary(&wording);
    answers!(TEXTS.map(|it| wording::words_in(&words, it).len()));
    for lit in [None, Some(&[circuit::Glow::Lit][..]), Some(&[][..])] {
        let view = View { covers: Covers::Lifted, lit, evening: false };
        for it in &from.locations {
            answers!(picture::of_location(own, *it, &wording, &view).shapes.len());
        }
        drop(picture::of_circuit(own, &wording, lit));
        for it in picture::circuit_diagram(own, &wording, lit).nets {
            answers!(DiagramNet::flows(&it, |_| 1.0).len());
        }
        let scene = picture::of_everything(own, &wording, &view);
        answers!(picture::of_place(own, &wording, &view).shapes.len());
        answers!(picture::of_place_with_cores(own, &wording, &view, &NUMBERS).shapes.len());
        answers!(picture::of_place_with_open_cores(own, &wording, &view, &NUMBERS).shapes.len());
        for text in TEXTS {
            answers!(picture::svg(&scene, text, text).len(), picture::text_width(text, 12.0, FontWeight::Bold));
        }
        let theirs = picture::of_everything(theirs, &wording, &view);
        let all = [&from.locations[..]].concat().into_iter().map(Thing::Location);
        let all = all.chain(from.terminals.iter().copied().map(Thing::Terminal));
        let all = all
            .chain(from.ends.iter().copied().map(Thing::End))
            .chain(from.switches.iter().copied().map(Thing::Switch));
        let all = all
            .chain(from.lamps.iter().copied().map(Thing::Lamp))
            .chain(from.devices.iter().copied().map(Thing::Device))
            .chain(NUMBERS.map(Thing::Conductor));
        for it in all {
            answers!(Scene::spot(&scene, it), Scene::spot(&theirs, it), Thing::address(it, own));
        }
    }
}
