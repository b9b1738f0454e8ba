//! What is still to do, in the order that it is asked for.
//!
//! Each line asks [`switchdrop::attempt::Safety`] or the work whether it is done; nothing is decided here.

use switchdrop::{
    advice::NextJoin,
    attempt::{Attempt, Energised, readings_to_take},
    exercise::{DeviceId, EndId, Exercise, Keeper, LocationId, Stage, TerminalId},
    picture::Thing,
    wording::{device, list, next_join, stage_key},
    work::{Action, Check, Power, Work},
};

use super::{
    panel::PanelContext,
    tester,
    view::{Hand, Sight},
};

/// The stages that a learner goes through.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Step {
    /// Every cable chosen.
    Choose,
    /// Isolated and proved dead.
    Isolate,
    /// Found out which is which of what has no mark.
    Name,
    /// Connected, marked, tight.
    Wire,
    /// Looked at, tested dead, covered.
    Inspect,
    /// What is wrong, found and said.
    Find,
    /// What will happen, said beforehand.
    Predict,
    /// Checked and switched on.
    PowerOn,
    /// Tested live.
    Live,
    /// Every switch worked.
    Work,
    /// Handed in.
    HandIn,
}

impl Step {
    /// All of them, in order.
    pub const ALL: [Self; 11] = [
        Self::Choose,
        Self::Isolate,
        Self::Name,
        Self::Wire,
        Self::Inspect,
        Self::Find,
        Self::Predict,
        Self::PowerOn,
        Self::Live,
        Self::Work,
        Self::HandIn,
    ];

    /// The key of its name. Where nothing is inspected and nothing tested, the covers are all there is before the power.
    pub fn key(self, exercise: &Exercise) -> &'static str {
        let tests = exercise.has_test_sheet() || exercise.asks(Stage::Inspection) || exercise.asks(Stage::Continuity);
        match self {
            Self::Inspect if !tests => "window-stage-close-up",
            Self::Choose => "window-stage-choose",
            Self::Isolate => "window-stage-isolate",
            Self::Name => "window-stage-name",
            Self::Wire => "window-stage-wire",
            Self::Inspect => "window-stage-inspect",
            Self::Find => "window-stage-find",
            Self::Predict if exercise.is_inspected() && !exercise.asks(Stage::Prediction) => "window-stage-observe",
            Self::Predict => "window-stage-predict",
            Self::PowerOn => "window-stage-power-on",
            Self::Live => "window-stage-live",
            Self::Work => "window-stage-work",
            // The last step is one press, and is named like its button.
            Self::HandIn => "window-hand-in",
        }
    }
}

/// What a line's button does.
pub enum Leads {
    /// Nothing: it is only said.
    Nowhere,
    /// To where it is done.
    To(Sight),
    /// To where it is done, with the instrument for it.
    With(Hand, LocationId),
    /// It does it.
    Does(Action),
    /// Goes there and does it, so that it is seen.
    DoesAt(Sight, Action),
    /// To the hand-in; first to a question, where something is still to do.
    HandsIn {
        /// Whether it is asked first.
        asks: bool,
    },
}

/// One line.
pub struct Line {
    /// The key of its button.
    pub key: String,
    /// What it says.
    pub text: String,
    /// Whether it is done.
    pub done: bool,
    /// The stage that it belongs to.
    pub step: Step,
    /// What its button does.
    pub leads: Leads,
}

/// Where on the drawing the first line that is not done is to be worked at: the place that it leads to, or once one is there the end or
/// the screw.
pub fn points_at(lines: &[Line], work: &Work, at: Sight, guide: Option<&NextJoin>) -> Option<Thing> {
    let line = lines.iter().find(|it| !it.done)?;
    let (Leads::To(Sight::Location(to)) | Leads::DoesAt(Sight::Location(to), _) | Leads::With(_, to)) = line.leads
    else {
        return None;
    };
    if at == Sight::Place {
        return Some(Thing::Location(to));
    }
    if at != Sight::Location(to) || line.step != Step::Wire {
        return None;
    }
    if work.has_cover(to) && work.is_covered(to) {
        return Some(Thing::Location(to));
    }
    let guided = guide.map(|it| it.end).filter(|it| work.end_location(*it) == to);
    let end = guided.or_else(|| unjoined(work).find(|it| work.end_location(*it) == to)).map(Thing::End);
    let screw = || loose_screws(work).find(|it| work.exercise().terminals[*it].location == to);
    end.or_else(|| screw().map(Thing::Terminal))
}

/// Ends that were handled and are in no terminal, what was cut off apart.
fn unjoined(work: &Work) -> impl Iterator<Item = EndId> + '_ {
    let handled = work.ends().filter(|it| !work.is_undisturbed(*it));
    handled.filter(|it| work.terminal_of(*it).is_none() && !work.is_scrap(it.conductor()))
}

fn loose_screws(work: &Work) -> impl Iterator<Item = TerminalId> + '_ {
    work.exercise().terminals.ids().filter(|it| !work.is_tight(*it))
}

/// Every line. None once it is handed in. `guide`: the conductor that is to be named, instead of how many are left.
pub fn lines(panel: &PanelContext<'_>, attempt: &Attempt, guide: Option<&NextJoin>) -> Vec<Line> {
    let (work, safety) = (attempt.work(), attempt.safety());
    let exercise = work.exercise();
    let mut lines = Vec::new();
    if attempt.tally().handed_in {
        return lines;
    }
    let mut add = |step: Step, key: &str, text: String, done: bool, leads: Leads| {
        lines.push(Line { key: format!("todo:{key}"), text, done, step, leads });
    };
    opened(panel, attempt, &mut add);
    for run in &exercise.runs {
        let done = run.cable.is_some();
        let args = [("run", run.name.as_str())];
        let text = if done { panel.say("window-done-choose", &args) } else { panel.say("window-todo-choose", &args) };
        let leads = Leads::To(Sight::Location(run.between[0]));
        add(Step::Choose, &format!("choose:{}", run.id), text, done, leads);
    }
    if exercise.asks(Stage::Isolation) {
        let done = safety.is_done(exercise, Stage::Isolation);
        if done {
            add(Step::Isolate, "isolated", panel.say("window-todo-isolated", &[]), true, Leads::Nowhere);
        } else {
            isolation(panel, attempt, &mut add);
        }
    }
    naming(panel, attempt, &mut add);
    wiring(panel, attempt, guide, &mut add);
    if exercise.asks(Stage::Inspection) {
        let left = safety.testing().inspections_left(exercise);
        let text = counted(panel, left.len(), "window-todo-inspection", "window-done-inspection");
        let sight = left.first().map_or(Sight::Place, |it| Sight::Location(*it));
        add(Step::Inspect, "inspection", text, left.is_empty(), Leads::To(sight));
    }
    if exercise.has_test_sheet() {
        if work.opens_board() {
            open_board(panel, attempt, &mut add);
        }
        for stage in [Stage::Continuity, Stage::Insulation, Stage::Polarity] {
            test(panel, attempt, Step::Inspect, stage, &mut add);
        }
    } else if exercise.asks(Stage::Continuity) {
        let count = safety.readings_left(exercise).len();
        let text = counted(panel, count, "window-todo-continuity", "window-done-continuity");
        let sight = exercise.learners_places().first().map_or(Sight::Place, |it| Sight::Location(*it));
        let leads = if let Sight::Location(at) = sight { Leads::With(Hand::Meter, at) } else { Leads::To(sight) };
        add(Step::Inspect, "continuity", text, count == 0, leads);
    }
    // Where the wiring is given it is looked at with the covers off.
    if exercise.is_given() {
        looks(panel, attempt, &mut add);
        prediction(panel, attempt, &mut add);
        diagnosis(panel, attempt, &mut add);
        observations(panel, attempt, &mut add);
    }
    covers(panel, attempt, &mut add);
    let out = exercise.lamps.ids().filter(|it| !work.is_lamp_in(*it)).collect::<Vec<_>>();
    if let Some(first) = out.first() {
        let lamp = &exercise.lamps[*first];
        let text = panel.say("window-todo-lamps", &[("count", &out.len().to_string())]);
        let leads = Leads::DoesAt(Sight::Location(lamp.location), Action::FitLamp { lamp: lamp.address.clone() });
        add(Step::Inspect, "lamps", text, false, leads);
    }
    if !exercise.is_given() {
        prediction(panel, attempt, &mut add);
    }
    if exercise.asks_for_power() {
        power(panel, attempt, &mut add);
    }
    for stage in Stage::LIVE_TESTS {
        test(panel, attempt, Step::Live, stage, &mut add);
    }
    if exercise.asks(Stage::FunctionalTest) {
        let count = safety.settings_left(exercise).len();
        let text = counted(panel, count, "window-todo-work", "window-done-work");
        add(Step::Work, "work", text, count == 0, Leads::To(Sight::Place));
    }
    let asks = lines.iter().any(|it| !it.done);
    let (key, text) = ("todo:hand-in".to_owned(), panel.say("window-hand-in", &[]));
    lines.push(Line { key, text, done: false, step: Step::HandIn, leads: Leads::HandsIn { asks } });
    lines
}

/// How many are left of something, or that it is done.
fn counted(panel: &PanelContext<'_>, count: usize, to_do: &str, done: &str) -> String {
    match count {
        0 => panel.say(done, &[]),
        _ => panel.say(to_do, &[("count", &count.to_string())]),
    }
}

/// Places never opened yet, as long as something is to be said of what is in them.
fn looks(panel: &PanelContext<'_>, attempt: &Attempt, add: &mut impl FnMut(Step, &str, String, bool, Leads)) {
    let (work, exercise) = (attempt.work(), attempt.work().exercise());
    let (safety, asks) = (attempt.safety(), |it: Stage| exercise.asks(it));
    let step = if asks(Stage::Diagnosis) && !safety.is_done(exercise, Stage::Diagnosis) {
        Step::Find
    } else if asks(Stage::Prediction) && !safety.is_done(exercise, Stage::Prediction) || exercise.is_inspected() {
        Step::Predict
    } else {
        return;
    };
    for (at, place) in exercise.locations.with_ids().filter(|it| work.has_cover(it.0)) {
        let off = Action::RemoveCover { location: place.id.clone() };
        if !attempt.log().contains(&off) {
            let text = panel.say("window-todo-look", &[("location", &place.name)]);
            add(step, &format!("look:{}", place.id), text, false, Leads::DoesAt(Sight::Location(at), off));
        }
    }
}

fn prediction(panel: &PanelContext<'_>, attempt: &Attempt, add: &mut impl FnMut(Step, &str, String, bool, Leads)) {
    let exercise = attempt.work().exercise();
    if exercise.asks(Stage::Prediction) {
        let count = attempt.safety().predictions_left(exercise).len();
        let text = counted(panel, count, "window-todo-prediction", "window-done-prediction");
        add(Step::Predict, "prediction", text, count == 0, Leads::To(Sight::Prediction));
    }
}

/// The readings and what is said of them: it leads to the meter first, and then to where it is said.
fn diagnosis(panel: &PanelContext<'_>, attempt: &Attempt, add: &mut impl FnMut(Step, &str, String, bool, Leads)) {
    let exercise = attempt.work().exercise();
    if !exercise.asks(Stage::Diagnosis) {
        return;
    }
    let done = attempt.safety().is_done(exercise, Stage::Diagnosis);
    let first = exercise.locations.ids().find(|it| attempt.work().has_cover(*it));
    let (key, leads) = match first {
        _ if done => ("window-done-diagnosis", Leads::To(Sight::Diagnosis)),
        Some(at) if attempt.tally().readings.is_empty() => ("window-todo-read", Leads::With(Hand::Meter, at)),
        _ => ("window-todo-diagnosis", Leads::To(Sight::Diagnosis)),
    };
    add(Step::Find, "diagnosis", panel.say(key, &[]), done, leads);
}

/// How much was said to be wrong. Nobody says how much is.
fn observations(panel: &PanelContext<'_>, attempt: &Attempt, add: &mut impl FnMut(Step, &str, String, bool, Leads)) {
    if attempt.work().exercise().is_inspected() {
        let count = attempt.tally().observed.len();
        let text = panel.say("window-todo-observe", &[("count", &count.to_string())]);
        add(Step::Predict, "observe", text, count > 0, Leads::To(Sight::Place));
    }
}

fn covers(panel: &PanelContext<'_>, attempt: &Attempt, add: &mut impl FnMut(Step, &str, String, bool, Leads)) {
    let (work, exercise) = (attempt.work(), attempt.work().exercise());
    let open: Vec<_> = exercise.locations.ids().filter(|it| !work.is_covered(*it)).collect();
    let text = counted(panel, open.len(), "window-todo-covers", "window-done-covers");
    let leads = open.first().map_or(Leads::Nowhere, |it| {
        Leads::DoesAt(Sight::Location(*it), Action::FitCover { location: exercise.locations[*it].id.clone() })
    });
    add(Step::Inspect, "covers", text, open.is_empty(), leads);
}

/// The checks before the power, what is to be reset, and the power itself.
fn power(panel: &PanelContext<'_>, attempt: &Attempt, add: &mut impl FnMut(Step, &str, String, bool, Leads)) {
    let (work, safety) = (attempt.work(), attempt.safety());
    let exercise = work.exercise();
    if exercise.asks(Stage::EnergisingChecks) {
        let checks = [
            (Check::NobodyAtWork, "nobody", panel.say("check-nobody-at-work", &[])),
            (Check::PeopleTold, "told", panel.say("check-people-told", &[])),
        ];
        for (check, key, name) in checks {
            let text = panel.say("window-todo-check", &[("check", &name)]);
            add(Step::PowerOn, key, text, safety.is_confirmed(check), Leads::Does(Action::Confirm { check }));
        }
    }
    let tripped: Vec<DeviceId> =
        exercise.devices.ids().filter(|it| work.device_state(*it).power == Power::Tripped).collect();
    if !tripped.is_empty() {
        let names: Vec<_> = tripped.iter().map(|it| device(panel.wording, exercise, *it)).collect();
        let text = panel.say("window-todo-reset", &[("devices", &list(panel.wording, &names))]);
        add(Step::PowerOn, "reset", text, false, Leads::To(board(exercise)));
    }
    let on = exercise.devices.ids().all(|it| work.is_on(it));
    let done = on && !attempt.tally().energised.is_empty() && !work.is_unplugged();
    if work.is_bench() {
        let text = panel.say("window-todo-supply", &[]);
        // Where it is seen what lights.
        add(Step::PowerOn, "supply", text, done, Leads::DoesAt(Sight::Place, Action::BringSupply));
    } else {
        add(Step::PowerOn, "power", panel.say("window-todo-power", &[]), done, Leads::To(board(exercise)));
    }
}

/// The board opened, locked and proved dead, for what is read and linked in it.
fn open_board(panel: &PanelContext<'_>, attempt: &Attempt, add: &mut impl FnMut(Step, &str, String, bool, Leads)) {
    let (work, safety) = (attempt.work(), attempt.safety());
    let exercise = work.exercise();
    let Sight::Location(at) = board(exercise) else { return };
    let dead = [Stage::Continuity, Stage::Insulation, Stage::Polarity];
    let read = dead.into_iter().all(|it| !exercise.asks(it) || safety.testing().is_read(exercise, it));
    let done = read || !work.is_covered(at) && safety.is_proved(at);
    add(Step::Inspect, "board", panel.say("window-todo-board", &[]), done, Leads::To(Sight::Location(at)));
}

/// A test stage: readings and lines of the test sheet that are left. It leads to where the next reading is taken, and to the
/// sheet when only that is left.
fn test(
    panel: &PanelContext<'_>,
    attempt: &Attempt,
    step: Step,
    stage: Stage,
    add: &mut impl FnMut(Step, &str, String, bool, Leads),
) {
    let (work, safety) = (attempt.work(), attempt.safety());
    let (exercise, testing) = (work.exercise(), safety.testing());
    if !exercise.asks(stage) {
        return;
    }
    let mut readings = match stage {
        Stage::Polarity => testing.settings_left(exercise).len(),
        _ => testing.readings_left(stage).len(),
    };
    let mut next = readings_to_take(attempt, stage);
    // Where polarity has no stage of its own, the readings in each position are part of this one.
    if stage == Stage::Continuity && !exercise.asks(Stage::Polarity) {
        readings += safety.readings_left(exercise).len();
        next.extend(readings_to_take(attempt, Stage::Polarity));
    }
    let lines = testing.lines_left(stage).len();
    let args =
        [("stage", panel.say(stage_key(stage), &[])), ("readings", readings.to_string()), ("lines", lines.to_string())];
    let args = args.each_ref().map(|(key, it)| (*key, it.as_str()));
    let done = safety.is_done(exercise, stage);
    let text = if done { panel.say("window-done-test", &args) } else { panel.say("window-todo-test", &args) };
    let sight = match next.first() {
        Some(it) if readings > 0 => tester::place_of(work, it).map_or(Sight::Place, Sight::Location),
        None if readings > 0 => board(exercise),
        _ => Sight::Tests,
    };
    add(step, &format!("test:{stage:?}").to_lowercase(), text, done, Leads::To(sight));
}

/// A device that opened by itself: lock off, prove dead, find the fault and mend it, before it is reset.
fn opened(panel: &PanelContext<'_>, attempt: &Attempt, add: &mut impl FnMut(Step, &str, String, bool, Leads)) {
    let (work, safety) = (attempt.work(), attempt.safety());
    let exercise = work.exercise();
    let last = attempt.tally().energised.last().filter(|it| !it.tripped.is_empty());
    let Some(Energised { action, tripped, .. }) = last else { return };
    let tested = safety.is_tested_since_trip();
    // What was joined, taken out, taken back or reported since may be the mending; who has done nothing has mended nothing.
    let may_mend = |it: &Action| {
        it.is_handwork() || matches!(it, Action::TakeLink { .. } | Action::Undo | Action::Redo | Action::Report { .. })
    };
    if tested && attempt.log().iter().skip(action + 1).any(may_mend) {
        return;
    }
    let places = exercise.learners_places();
    if !tested {
        let names: Vec<_> = tripped.iter().map(|it| device(panel.wording, exercise, *it)).collect();
        let text = panel.say("window-todo-opened", &[("devices", &list(panel.wording, &names))]);
        let locked = places.iter().all(|it| safety.is_locked_off(work, *it));
        add(Step::Isolate, "opened", text, locked, Leads::To(board(exercise)));
    }
    let sight = places.first().map_or(Sight::Place, |it| Sight::Location(*it));
    let key = if tested { "window-todo-mend" } else { "window-todo-find" };
    add(Step::Isolate, "find", panel.say(key, &[]), false, Leads::To(sight));
}

/// What has no mark, where the first that has no name is; the cover comes off first.
fn naming(panel: &PanelContext<'_>, attempt: &Attempt, add: &mut impl FnMut(Step, &str, String, bool, Leads)) {
    let work = attempt.work();
    let exercise = work.exercise();
    if !exercise.asks(Stage::Naming) {
        return;
    }
    let left: Vec<_> = work.names_left().collect();
    let place = left.first().and_then(|it| exercise.unmarked.get(it.group)).map(|it| it.location);
    if let Some(at) = place {
        opens_first(panel, attempt, Step::Name, at, add);
    }
    let text = counted(panel, left.len(), "window-todo-name", "window-done-name");
    let leads = place.map_or(Leads::Nowhere, |it| Leads::With(Hand::Meter, it));
    add(Step::Name, "name", text, left.is_empty(), leads);
}

/// The cover of a place off, where one is on and does not come off as it is isolated.
fn opens_first(
    panel: &PanelContext<'_>,
    attempt: &Attempt,
    step: Step,
    at: LocationId,
    add: &mut impl FnMut(Step, &str, String, bool, Leads),
) {
    let (work, exercise) = (attempt.work(), attempt.work().exercise());
    if work.has_cover(at) && work.is_covered(at) && !exercise.asks(Stage::Isolation) {
        let it = &exercise.locations[at];
        let text = panel.say("window-todo-open", &[("location", &it.name)]);
        let off = Action::RemoveCover { location: it.id.clone() };
        add(step, "open", text, false, Leads::DoesAt(Sight::Location(at), off));
    }
}

fn wiring(
    panel: &PanelContext<'_>,
    attempt: &Attempt,
    guide: Option<&NextJoin>,
    add: &mut impl FnMut(Step, &str, String, bool, Leads),
) {
    let work = attempt.work();
    let exercise = work.exercise();
    let loose: Vec<_> = unjoined(work).collect();
    let slack: Vec<_> = loose_screws(work).collect();
    let wired = loose.is_empty() && slack.is_empty() && guide.is_none();
    // Which end is out and which screw is loose is what an inspector is there to find.
    if wired && exercise.is_given() || exercise.is_inspected() {
        return;
    }
    let count = |it: usize| it.to_string();
    let text = match (guide, loose.len(), slack.len()) {
        (Some(it), ..) => panel.say("window-guide-join", &[("joins", &next_join(panel.wording, work, it)[0])]),
        (None, 0, 0) => panel.say("window-done-wire", &[]),
        (None, 0, slack) => panel.say("window-todo-tighten", &[("count", &count(slack))]),
        (None, loose, _) => panel.say("window-todo-join", &[("count", &count(loose))]),
    };
    let place = guide.map(|it| &it.end).or(loose.first()).map(|it| work.end_location(*it));
    let place = place.or_else(|| slack.first().map(|it| exercise.terminals[*it].location));
    // Where isolation is asked for, covers come off in it.
    if let Some(at) = place.filter(|_| work.names_left().next().is_none()) {
        opens_first(panel, attempt, Step::Wire, at, add);
    }
    add(Step::Wire, "wire", text, wired, place.map_or(Leads::Nowhere, |it| Leads::To(Sight::Location(it))));
}

/// Where the first device is.
fn board(exercise: &Exercise) -> Sight {
    exercise.devices.iter().next().map_or(Sight::Place, |it| Sight::Location(it.location))
}

fn isolation(panel: &PanelContext<'_>, attempt: &Attempt, add: &mut impl FnMut(Step, &str, String, bool, Leads)) {
    let (work, safety) = (attempt.work(), attempt.safety());
    let exercise = work.exercise();
    let places = exercise.learners_places();
    let name = |it: LocationId| exercise.locations[it].name.as_str();
    let id = |it: LocationId| exercise.locations[it].id.as_str();
    // What is shown by a load, and which, is for the learner to find.
    let has_loads = safety.reference().is_some() && exercise.board == Keeper::Learner;
    if has_loads {
        let shown = places.iter().all(|it| safety.is_fed_as_shown(*it));
        add(Step::Isolate, "loads", panel.say("window-todo-loads", &[]), shown, Leads::To(board(exercise)));
    }
    for it in &places {
        let text = panel.say("window-todo-identify", &[("location", name(*it))]);
        add(
            Step::Isolate,
            &format!("identify:{}", id(*it)),
            text,
            safety.is_identified_there(*it),
            Leads::To(Sight::Location(*it)),
        );
    }
    add(Step::Isolate, "agree", panel.say("window-todo-agree", &[]), safety.is_agreed(), Leads::Does(Action::Agree));
    let locked = places.iter().all(|it| safety.is_locked_off(work, *it));
    add(Step::Isolate, "lock", panel.say("window-todo-lock", &[]), locked, Leads::To(board(exercise)));
    for it in &places {
        let text = panel.say("window-todo-prove", &[("location", name(*it))]);
        add(
            Step::Isolate,
            &format!("prove:{}", id(*it)),
            text,
            safety.is_all_proved(work, *it),
            Leads::With(Hand::Indicator, *it),
        );
    }
}
