//! Finding a fault: which of the faults that an exercise states still fit what was read, and what a reading was worth.
//!
//! Every fault that is stated is tried in the work as it was when a reading was taken; faults under which the instrument would show what
//! cannot be told from what it showed still fit. *Told apart* is by the instrument's own spread: two figures that lie closer than both their
//! spreads are one, and so are all of a row of figures each of which is that close to the next. Before a reading every fault that still
//! fits is taken to be as likely as every other, so that a reading is worth the entropy, in bits, of the classes into which it parts them
//! (Shannon, A Mathematical Theory of Communication, 1948, section 6): what it can be expected to tell, not what it happened to tell.
//!
//! The best reading is looked for among the points that a probe reaches, one setting of the instrument after the other, with covers and
//! switches as they are, in at most [`MOST_SOLVES`] solutions of the network.

use std::{collections::BTreeMap, sync::Arc};

use crate::{
    attempt::Attempt,
    circuit::{Meter, reading},
    exercise::{EndId, Exercise, LocationId, combinations},
    trade::instrument::{Function, LeadLength, Shown, Spread, insulation::TestVolts, per_unit},
    work::{Action, Point, Work},
};

/// Most solutions of the network in a search for the best reading.
const MOST_SOLVES: usize = 20_000;
/// Most switches that are worked in it, each in every position.
const MOST_SWITCHES: usize = 5;

/// An amount of information, in hundredths of a bit.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub struct Bits(pub u32);

/// How the faults that fit became fewer, reading by reading.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FaultSearch {
    /// Each reading, in order.
    pub steps: Vec<SearchStep>,
    /// The faults that fit all of them, and what was seen in the places that were opened; by their places among those that the exercise
    /// states.
    pub left: Vec<usize>,
    /// The fault that is there, and those of the ones left that no reading tells from it: to name any of them is right.
    pub alike: Vec<usize>,
}

/// One reading of a search.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SearchStep {
    /// Which action of the log.
    pub action: usize,
    /// The faults that fitted before it.
    pub before: Vec<usize>,
    /// Those that fit after it.
    pub after: Vec<usize>,
    /// What it could be expected to tell.
    pub worth: Bits,
}

/// A reading that could be taken.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TrialReading {
    /// The action that takes it.
    pub action: Action,
    /// What it can be expected to tell.
    pub worth: Bits,
}

impl FaultSearch {
    /// The search that an attempt made.
    pub fn of(attempt: &Attempt) -> Self {
        let tried = tried(attempt.work().exercise());
        let real = attempt.work().exercise().fault;
        let mut left: Vec<usize> = (0..tried.len()).collect();
        let mut steps = Vec::new();
        for taken in &attempt.tally().readings {
            // Once one is left there is nothing to tell apart.
            let works = if left.len() > 1 { supposed(&tried, &left, &taken.work) } else { Vec::new() };
            let classes =
                if works.is_empty() { vec![0; left.len()] } else { classes(&works, taken.meter, taken.points) };
            let of_real = left.iter().position(|it| *it == real).map(|it| classes[it]);
            let fits = left.iter().zip(&classes).filter(|it| Some(*it.1) == of_real).map(|it| *it.0);
            let after: Vec<usize> = fits.collect();
            let before = std::mem::replace(&mut left, after.clone());
            steps.push(SearchStep { action: taken.action, before, after, worth: entropy(&classes) });
        }
        let exercise = attempt.work().exercise();
        let seen = seen(attempt);
        let as_it_looks = |it: &usize| seen.iter().all(|end| tried[*it].found_in(*end) == exercise.found_in(*end));
        left.retain(|it| *it == real || as_it_looks(it));
        // What is beyond the bound counts as right: nobody is charged for what was not looked into.
        let mut budget = SolveBudget::default();
        let is_alike = |it: &usize| *it == real || !told_apart_within(exercise, real, *it, &mut budget);
        let alike = left.iter().copied().filter(is_alike).collect();
        Self { steps, left, alike }
    }
}

/// The ends that were laid open: which terminal each stands in was there to be seen.
fn seen(attempt: &Attempt) -> Vec<EndId> {
    let work = attempt.work();
    let opened = |id: LocationId| {
        let place = &work.exercise().locations[id].id;
        attempt.log().iter().any(|it| matches!(it, Action::RemoveCover { location } if location == place))
    };
    work.ends().filter(|it| opened(work.end_location(*it))).collect()
}

/// The exercise with each of its faults.
fn tried(exercise: &Exercise) -> Vec<Arc<Exercise>> {
    (0..exercise.suspects.len()).map(|it| Arc::new(exercise.supposing_fault(it))).collect()
}

/// A work with each of some faults in it.
fn supposed(tried: &[Arc<Exercise>], left: &[usize], work: &Work) -> Vec<Work> {
    left.iter().filter_map(|fault| tried.get(*fault)).map(|exercise| work.supposing(exercise)).collect()
}

/// For each of some works the number of the class that it falls into by a reading.
fn classes(works: &[Work], meter: Meter, [a, b]: [Point; 2]) -> Vec<usize> {
    let shown: Vec<Shown> = works.iter().map(|it| reading(it, meter, a, b).shown).collect();
    classes_of(&shown, meter.function.spread())
}

/// The class of each of some readings: those that cannot be told from each other.
fn classes_of(shown: &[Shown], spread: Spread) -> Vec<usize> {
    let mut found = vec![0; shown.len()];
    let mut figures: Vec<(f64, f64, usize)> = Vec::new();
    let mut others: Vec<&Shown> = Vec::new();
    for (place, it) in shown.iter().enumerate() {
        if let Shown::Figure(figure) = it {
            let value = figure.value();
            // Half of the last digit is lost in rounding.
            let own = spread.share * value.abs() + spread.fixed + 0.5 / per_unit(figure.decimals);
            figures.push((value, own, place));
        } else {
            found[place] = others.iter().position(|other| *other == it).unwrap_or_else(|| {
                others.push(it);
                others.len() - 1
            });
        }
    }
    figures.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut class = others.len();
    for (index, (value, own, place)) in figures.iter().enumerate() {
        if let Some((before, its, _)) = index.checked_sub(1).map(|it| figures[it])
            && value - before > own + its
        {
            class += 1;
        }
        found[*place] = class;
    }
    found
}

/// The entropy of a choice among equals that are parted into these classes.
fn entropy(classes: &[usize]) -> Bits {
    let mut sizes: BTreeMap<usize, u32> = BTreeMap::new();
    for it in classes {
        *sizes.entry(*it).or_default() += 1;
    }
    let all = classes.len() as f64;
    let bits: f64 = sizes.values().map(|it| f64::from(*it) / all).map(|share| -share * share.log2()).sum();
    #[expect(clippy::cast_sign_loss, clippy::cast_possible_truncation, reason = "at most five bits")]
    // Logarithms differ in their last digit from one processor to another. Of up to 32 equals no entropy lies so near to the middle between two
    // hundredths that it matters: those that lie on it are of halves alone, whose logarithms are whole (all partitions were tried).
    let hundredths = (bits * 100.0).round().max(0.0) as u32;
    Bits(hundredths)
}

/// How many solutions of the network are left, 20,000 at first; a reading that cannot be taken counts as one that was.
#[derive(Debug)]
pub struct SolveBudget(usize);

impl Default for SolveBudget {
    fn default() -> Self {
        Self(MOST_SOLVES)
    }
}

impl SolveBudget {
    /// Takes some, if there are as many.
    const fn takes(&mut self, count: usize) -> bool {
        let has = self.0 >= count;
        self.0 = if has { self.0 - count } else { 0 };
        has
    }
}

/// The reading that can be expected to tell most of which of some faults it is, as the attempt stands; `None` if none would tell anything. Of
/// several that tell as much it is the first. It takes what it needs of a budget, so that several searches can be bounded together.
pub fn best_reading(attempt: &Attempt, left: &[usize], budget: &mut SolveBudget) -> Option<TrialReading> {
    let works = supposed(&tried(attempt.work().exercise()), left, attempt.work());
    if works.len() < 2 {
        return None;
    }
    let mut best: Option<TrialReading> = None;
    for action in readings_to_try(attempt) {
        if !budget.takes(works.len()) {
            break;
        }
        let Some((meter, points)) = attempt.read_by(&action).filter(|_| attempt.can(&action)) else { continue };
        let worth = entropy(&classes(&works, meter, points));
        if worth > best.as_ref().map_or(Bits(0), |it| it.worth) {
            best = Some(TrialReading { action, worth });
        }
    }
    best
}

/// Every reading between two points of the work, by the instruments that its exercise hands out for finding faults.
fn readings_to_try(attempt: &Attempt) -> impl Iterator<Item = Action> {
    let work = attempt.work();
    let points: Vec<String> = points(work).into_iter().map(|it| work.point_address(it)).collect();
    functions(work.exercise()).into_iter().flat_map(move |(function, lead)| {
        let points = points.clone();
        let count = points.len();
        let pairs = (0..count).flat_map(move |a| (a + 1..count).map(move |b| (a, b)));
        pairs.map(move |(a, b)| {
            let [a, b] = [points[a].clone(), points[b].clone()];
            match function {
                Some(function) => Action::Measure { function, lead, a, b },
                None => Action::Continuity { a, b },
            }
        })
    })
}

/// Terminals with something in them and free ends: one of a place of the same copper is enough.
fn points(work: &Work) -> Vec<Point> {
    let terminals = work.exercise().terminals.ids().filter(|it| work.ends_in(*it).next().is_some());
    let free = work.ends().filter(|it| work.terminal_of(*it).is_none()).map(Point::End);
    terminals.map(Point::Terminal).chain(free).collect()
}

/// How the instruments can be set that an exercise hands out for finding faults; `None`: the low-resistance meter by itself.
fn functions(exercise: &Exercise) -> Vec<(Option<Function>, LeadLength)> {
    if !exercise.has_tester() {
        return vec![(None, LeadLength::Long)];
    }
    vec![
        (Some(Function::Continuity), LeadLength::Long),
        (Some(Function::Insulation(TestVolts::V500)), LeadLength::Short),
    ]
}

/// Pairs of the faults that an exercise states which no reading tells apart, as far as one budget goes.
pub fn suspects_alike(exercise: &Arc<Exercise>) -> Vec<[usize; 2]> {
    let mut budget = SolveBudget::default();
    let count = exercise.suspects.len();
    let pairs = (0..count).flat_map(|one| (one + 1..count).map(move |other| [one, other]));
    // What is beyond the budget was not looked into.
    let mut alike = |[one, other]: &[usize; 2]| !told_apart_within(exercise, *one, *other, &mut budget) && budget.0 > 0;
    pairs.filter(|it| alike(it)).collect()
}

/// Whether some reading that the learner can take tells two faults of an exercise apart: with every cover off that comes off, in the
/// settings of the first five switches.
fn told_apart_within(exercise: &Arc<Exercise>, one: usize, other: usize, budget: &mut SolveBudget) -> bool {
    let mut attempt = Attempt::new(Arc::clone(exercise));
    for (id, place) in exercise.locations.with_ids() {
        let opens = if exercise.lamp_at(id).is_some() {
            Action::RemoveLamp { lamp: place.id.clone() }
        } else {
            Action::RemoveCover { location: place.id.clone() }
        };
        // What does not come off stays on.
        if attempt.can(&opens) && attempt.act(opens).is_err() {
            return false;
        }
    }
    for setting in settings_to_read_in(exercise) {
        for ((id, switch), position) in exercise.switches.with_ids().zip(&setting) {
            let turn = Action::Operate { switch: switch.address.clone(), position: *position };
            if attempt.work().positions().get(id.index()) != Some(position) && attempt.act(turn).is_err() {
                return false;
            }
        }
        if best_reading(&attempt, &[one, other], budget).is_some() {
            return true;
        }
    }
    false
}

/// The settings of the switches in which readings are tried.
pub fn settings_to_read_in(exercise: &Exercise) -> Vec<Vec<u8>> {
    let few: Vec<_> = exercise.switches.ids().take(MOST_SWITCHES).collect();
    combinations(exercise, &few, exercise.switches.each(0_u8).rows())
}
