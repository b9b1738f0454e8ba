//! One setting of the switches that is asked about: the place as it would be, what was said of it and, once it may be told, what is so.
//!
//! It asks the library; it draws nothing.

use switchdrop::{
    attempt::settings_to_predict,
    circuit::{Glow, shown_at},
    exercise::{Exercise, SwitchId},
    picture::{Covers, Scene, Thing, View as Look, of_place_with_cores},
    wording::{Wording, apart, conductor, lamp, position, switch},
    work::{Action, Work},
};

use super::session::Session;

/// Something that is asked about.
#[derive(Debug)]
pub struct Asked {
    /// A lamp or a conductor.
    pub thing: Thing,
    /// Its address.
    pub address: String,
    /// What it is called.
    pub name: String,
    /// What was said, once that is locked: that it will be lit or live, or that it won't.
    pub said: Option<bool>,
    /// What it is, once that may be told.
    pub is: Option<State>,
}

/// How something that is asked about is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum State {
    /// What a lamp does.
    Lamp(Glow),
    /// Whether a conductor is energised.
    Live(bool),
}

impl State {
    /// What saying yes or no to it means.
    pub const fn said(thing: Thing, yes: bool) -> Self {
        match (thing, yes) {
            (Thing::Lamp(_), true) => Self::Lamp(Glow::Lit),
            (Thing::Lamp(_), false) => Self::Lamp(Glow::Off),
            (_, yes) => Self::Live(yes),
        }
    }

    /// Whether that is a yes: a lamp that is dim is not lit.
    const fn is_yes(self) -> bool {
        matches!(self, Self::Lamp(Glow::Lit) | Self::Live(true))
    }

    /// The key of its word.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Lamp(Glow::Lit) => "window-foreseen-lit",
            Self::Lamp(Glow::Dim) => "window-foreseen-dim",
            Self::Lamp(Glow::Off) => "window-foreseen-dark",
            Self::Live(true) => "window-foreseen-live",
            Self::Live(false) => "window-foreseen-dead",
        }
    }
}

impl Asked {
    /// Whether it is as was said, once both are known.
    pub fn is_right(&self) -> Option<bool> {
        Some(self.said? == self.is?.is_yes())
    }
}

/// One setting of the switches, with what is asked about in it.
#[derive(Debug)]
pub struct Question {
    /// Its number, from 0.
    pub number: usize,
    /// The positions of all switches.
    pub positions: Vec<u8>,
    /// How many settings there are.
    pub count: usize,
    /// The setting in words.
    pub case: String,
    /// The longest of all of them.
    pub longest: String,
    /// Lamps, then conductors.
    pub asked: Vec<Asked>,
    /// The work as it would be: the switches set so, every lamp in.
    pub work: Work,
    /// What every lamp does, once it may be told.
    lit: Option<Vec<Glow>>,
    /// Whether it is answered.
    pub is_locked: bool,
}

impl Question {
    /// That setting of the exercise's, if it asks for so many.
    pub fn of(session: &Session, wording: &Wording, number: usize) -> Option<Self> {
        let tally = session.attempt.tally();
        let settings = settings_to_predict(session.attempt.work().exercise());
        let positions = settings.get(number)?.clone();
        let given = tally.predictions.iter().find(|it| it.positions == positions);
        // What really happens is not told before power has been on.
        let told = given.filter(|_| !tally.energised.is_empty());
        let happens = told.map(|it| shown_at(&it.work, positions.clone()));
        let work = set(session.attempt.work(), &positions);
        let exercise = work.exercise();
        let lamps = exercise.learners_lamps().into_iter().map(|it| Asked {
            thing: Thing::Lamp(it),
            address: exercise.lamps[it].address.clone(),
            name: lamp(exercise, it),
            said: given.map(|given| given.lit.contains(&it)),
            is: happens.as_ref().and_then(|shown| shown.lamps.get(it.index())).map(|it| State::Lamp(it.glow)),
        });
        // A cable that was chosen anew since has cores of other numbers.
        let then = given.map_or(exercise, |it| it.work.exercise());
        let conductors = exercise.predict.iter().zip(&then.predict).map(|(it, then)| Asked {
            thing: Thing::Conductor(*it),
            address: work.conductor_address(*it),
            name: conductor(wording, &work, *it),
            said: given.map(|given| given.live.contains(then)),
            is: happens.as_ref().and_then(|shown| shown.live.get(*then)).map(|it| State::Live(*it)),
        });
        let cases: Vec<String> = settings.iter().map(|it| case(wording, exercise, &settings, it)).collect();
        Some(Self {
            number,
            count: settings.len(),
            case: cases[number].clone(),
            longest: cases.into_iter().max_by_key(|it| it.chars().count()).unwrap_or_default(),
            asked: lamps.chain(conductors).collect(),
            lit: happens.as_ref().map(|it| it.lamps.iter().map(|it| it.glow).collect()),
            is_locked: given.is_some(),
            positions,
            work,
        })
    }

    /// Whether what really happens is shown.
    pub fn is_told(&self) -> bool {
        self.lit.is_some()
    }

    /// The place in that setting. By day and with every lamp dark, as long as nothing may be told.
    pub fn scene(&self, wording: &Wording, evening: bool) -> Scene {
        let look = Look { covers: Covers::AsTheyStand, lit: self.lit.as_deref(), evening: evening && self.is_told() };
        of_place_with_cores(&self.work, wording, &look, &self.work.exercise().predict)
    }

    /// The setting with one switch moved on, if that is asked about.
    pub fn with_moved(&self, switch: usize) -> Option<usize> {
        let exercise = self.work.exercise();
        let ways = exercise.switches.iter().nth(switch)?.way.positions();
        let mut to = self.positions.clone();
        let at = to.get_mut(switch)?;
        *at = ((usize::from(*at) + 1) % ways.max(1)) as u8;
        settings_to_predict(exercise).iter().position(|it| *it == to)
    }
}

/// A setting in words: the switches that are not alike in all of them.
fn case(wording: &Wording, exercise: &Exercise, settings: &[Vec<u8>], positions: &[u8]) -> String {
    let varies = |it: &(SwitchId, &u8)| settings.iter().any(|other| other.get(it.0.index()) != Some(it.1));
    let of = exercise.switches.ids().zip(positions).filter(varies).map(|(id, at)| {
        let (switch, rocker) = (switch(wording, exercise, id), position(wording, exercise, id, *at));
        wording.say("case-switch", &[("switch", &switch), ("rocker", &rocker)])
    });
    apart(wording, &of.collect::<Vec<_>>())
}

/// The work with the switches set so and every lamp in. Levers and locks stand as they do: one supposes that the power is on.
fn set(work: &Work, positions: &[u8]) -> Work {
    let exercise = work.exercise();
    let lamps = exercise.lamps.iter().map(|it| Action::FitLamp { lamp: it.address.clone() });
    let switches = exercise.switches.iter().zip(positions);
    let switches = switches.map(|(it, at)| Action::Operate { switch: it.address.clone(), position: *at });
    let mut then = work.clone();
    for it in lamps.chain(switches) {
        // What is so already is refused, and stays as it is.
        let _ = then.apply(&it);
    }
    then
}
