//! The see-through house: a finished passage to play with. Its switches are pressed, its cores taken off and put back, or joined any way.
//!
//! It is an exercise like any other with every end connected, and whatever happens in it is said by the solver.

use std::sync::Arc;

use super::{
    class::WayClass,
    grid::LampGrid,
    question::Question,
    seen::{bare_cores, class_of, is_bare_live},
    what_if::{Changes, PassageHand},
};
use crate::{
    circuit::{Conditions, Flow, Glow, HazardKind, Row, Touch, flow, lamps_now, rows, shown_at, survey, touch},
    exercise::{EndId, LocationId, Seed, SwitchId, TerminalId, TerminalUse, read},
    trade::colour::Colour,
    work::{Action, Feel, Point, Refused, Work},
};

const SCENARIO: &str = include_str!("../../assets/curious.scenario.ron");

/// One of the three cores between the switches.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum PassageCore {
    /// Between the two COM.
    Brown,
    /// Between the two L1, where the feed is.
    Black,
    /// Between the two L2, where the lamp's wire is.
    Grey,
}

impl PassageCore {
    /// Every one, in the order in which a plate has their terminals from the top.
    pub const ALL: [Self; 3] = [Self::Black, Self::Brown, Self::Grey];

    /// By which addresses know it.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Brown => "brown",
            Self::Black => "black",
            Self::Grey => "grey",
        }
    }

    const fn colour(self) -> Colour {
        match self {
            Self::Brown => Colour::Brown,
            Self::Black => Colour::Black,
            Self::Grey => Colour::Grey,
        }
    }
}

/// What came of one way of joining the ends.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PassageTry {
    /// Each end that can be moved, and the terminal that it was in.
    pub joined: Vec<(EndId, TerminalId)>,
    /// When the lamp was lit.
    pub grid: LampGrid,
    /// What it comes to.
    pub class: WayClass,
    /// The positions in which a trip switch opens, by their numbers in counting order.
    pub opens: Vec<usize>,
    /// Whether bare copper is live in some position.
    pub bare_live: bool,
    /// Whether some metal would stay live if the live touched it.
    pub unearthed: bool,
}

/// The house, as it stands now.
#[derive(Debug, Clone)]
pub struct Passage {
    work: Work,
}

impl Passage {
    /// Finished and switched on, all rockers down; `None` if the scenario that comes with the program can't be read, which a test rules out.
    pub fn new() -> Option<Self> {
        Self::of(SCENARIO)
    }

    /// The same with the grey core put away at both its ends: two wires are left.
    pub fn with_two_wires() -> Option<Self> {
        let mut house = Self::new()?;
        house.change(&Changes::shipped()?.two_wires)?;
        Some(house)
    }

    /// The way that the search shows of a class ([`super::ClassCount::shown`]) of two or three wires, carried out here; `None` where this
    /// house has no room for it.
    pub fn of_way(question: &Question, shown: &[Vec<u8>]) -> Option<Self> {
        let mut house = match (question, question.cores) {
            (it, 2) if *it == Question::of_cores(2) => Self::with_two_wires()?,
            (it, 3) if *it == Question::of_cores(3) => Self::new()?,
            _ => return None,
        };
        let exercise = Arc::clone(house.work.exercise());
        let mut joined = Vec::new();
        for (switch, into) in exercise.switches.iter().zip(shown) {
            let is_core = |it: &EndId| !house.work.end_facts(*it).colour.is_protective();
            let here = house.free_ends().into_iter().filter(|it| house.work.end_location(*it) == switch.location);
            for (end, terminal) in here.filter(is_core).zip(into) {
                joined.push((end, *switch.terminals.get(usize::from(*terminal))?));
            }
        }
        house.join(&joined).ok()?;
        house.close();
        Some(house)
    }

    pub(super) fn of(scenario: &str) -> Option<Self> {
        let exercise = read(scenario, Seed(0)).ok()?;
        Some(Self { work: Work::new(Arc::new(exercise)) })
    }

    /// Moves ends by address, and switches on.
    pub(super) fn change(&mut self, changes: &[(String, String)]) -> Option<()> {
        let found = |(end, to): &(String, String)| Some((self.work.end(end).ok()?, self.work.terminal(to).ok()?));
        let joined: Vec<_> = changes.iter().map(found).collect::<Option<_>>()?;
        self.join(&joined).ok()?;
        self.close();
        Some(())
    }

    /// The work.
    pub const fn work(&self) -> &Work {
        &self.work
    }

    /// The switches, from the near one to the far one.
    pub fn switches(&self) -> impl DoubleEndedIterator<Item = SwitchId> + ExactSizeIterator + use<> {
        self.work.exercise().switches.ids()
    }

    /// How the switches stand, the near one first.
    pub fn positions(&self) -> &[u8] {
        self.work.positions()
    }

    /// Puts the switches so, the near one first.
    pub fn set(&mut self, positions: &[u8]) {
        for (switch, position) in self.switches().zip(positions) {
            let address = self.work.exercise().switches[switch].address.clone();
            self.does(&Action::Operate { switch: address, position: *position });
        }
    }

    /// Puts one switch over.
    pub fn press(&mut self, switch: SwitchId) {
        let mut positions = self.positions().to_vec();
        if let Some(it) = positions.get_mut(switch.index()) {
            *it = 1 - *it;
        }
        self.set(&positions);
    }

    /// The terminals that a switch joins now.
    pub fn blades(&self, switch: SwitchId) -> Vec<[TerminalId; 2]> {
        let position = self.positions().get(switch.index()).copied().unwrap_or(0);
        self.work.exercise().switches[switch].closed(usize::from(position)).collect()
    }

    /// Whether a cover is off. The supply is off then.
    pub fn is_open(&self) -> bool {
        self.work.exercise().switches.iter().any(|it| !self.work.is_covered(it.location))
    }

    /// Takes a core off its screw at the far switch, or puts it back: the supply goes off and the cover stays off, until [`Self::close`].
    pub fn turn(&mut self, core: PassageCore) {
        let Some(end) = self.far_end(core) else { return };
        if self.is_on(core) {
            self.open(self.work.end_location(end));
            self.does(&Action::Disconnect { end: self.work.end_address(end) });
        } else if let Some(start) = self.work.exercise().start[end] {
            // Where it was there is room for it.
            let _ = self.join(&[(end, start.terminal)]);
        }
    }

    /// Puts ends into terminals of their places, each out of the one that it is in: the supply goes off and the covers stay off, until
    /// [`Self::close`].
    ///
    /// # Errors
    /// Why one of them can't go there; everything is then joined as before.
    pub fn join(&mut self, joined: &[(EndId, TerminalId)]) -> Result<(), Refused> {
        let mut tried = self.clone();
        for (end, _) in joined {
            tried.open(tried.work.end_location(*end));
            tried.does(&Action::Disconnect { end: tried.work.end_address(*end) });
        }
        for (end, terminal) in joined {
            let (end, terminal) = (tried.work.end_address(*end), tried.address(*terminal));
            tried.work.apply(&Action::Connect { end, terminal })?;
        }
        for (_, terminal) in joined {
            tried.does(&Action::Tighten { terminal: tried.address(*terminal), feel: Feel::Right });
        }
        *self = tried;
        Ok(())
    }

    fn open(&mut self, location: LocationId) {
        self.switched(false);
        let location = self.work.exercise().locations[location].id.clone();
        self.does(&Action::RemoveCover { location });
    }

    /// Puts the covers back and switches on.
    pub fn close(&mut self) {
        let exercise = Arc::clone(self.work.exercise());
        for it in &exercise.switches {
            self.does(&Action::FitCover { location: exercise.locations[it.location].id.clone() });
        }
        self.switched(true);
    }

    fn switched(&mut self, on: bool) {
        let exercise = Arc::clone(self.work.exercise());
        for it in &exercise.devices {
            let device = it.address.clone();
            self.does(&if on { Action::PowerOn { device } } else { Action::PowerOff { device } });
        }
    }

    /// The ends at the switches that can be joined any way: what arrives, then the cores between and the bare earth wire, place by place.
    /// None is put away, and each is in some terminal.
    pub fn free_ends(&self) -> Vec<EndId> {
        let exercise = self.work.exercise();
        let used_by = |it: Option<TerminalId>| it.map(|it| exercise.terminals[it].used_by);
        let is_free = |it: &EndId| {
            let started = used_by(exercise.start[*it].map(|it| it.terminal));
            let is_away = matches!(used_by(self.work.terminal_of(*it)), Some(TerminalUse::Connector(_)));
            (matches!(started, Some(TerminalUse::Contact(..))) || self.is_between(it.conductor())) && !is_away
        };
        exercise.switches.iter().flat_map(|it| self.work.ends_at(it.location).filter(is_free)).collect()
    }

    /// What comes of the ends as they are joined, in every position with the supply on; `None` where one is in no terminal, or the joined
    /// view does not agree with the solver.
    pub fn tried(&self) -> Option<PassageTry> {
        let placed = |it: EndId| Some((it, self.work.terminal_of(it)?));
        let joined = self.free_ends().into_iter().map(placed).collect::<Option<_>>()?;
        let survey = survey(&self.work);
        Some(PassageTry {
            joined,
            grid: LampGrid::of_rows(&survey.rows),
            class: class_of(&self.work, &survey)?,
            opens: opening(&survey.rows),
            bare_live: survey.rows.iter().any(|it| is_bare_live(&self.work, &it.positions)),
            unearthed: survey.hazards.iter().any(|it| it.kind == HazardKind::NoDisconnection),
        })
    }

    /// Whether a conductor leads from one switch to another.
    pub fn is_between(&self, conductor: usize) -> bool {
        let is_at_switch = |it: LocationId| self.work.exercise().switches_at(it).next().is_some();
        self.work.cable_of(conductor).is_some_and(|it| it.between.into_iter().all(is_at_switch))
    }

    /// Whether a core is in its terminal at the far switch.
    pub fn is_on(&self, core: PassageCore) -> bool {
        self.far_end(core).is_some_and(|it| self.work.terminal_of(it).is_some())
    }

    /// Where the current goes now.
    pub fn flow(&self) -> Flow {
        flow(&self.work, Conditions::present(&self.work))
    }

    /// Its work as it looks now: the lever of what opens stands tripped. The house itself stays switched on, for the next press.
    pub fn as_it_looks(&self) -> Work {
        let mut work = self.work.clone();
        self.flow().opened().iter().for_each(|it| work.trip(it.device));
        work
    }

    /// Whether the lamp is lit now.
    pub fn is_lit(&self) -> bool {
        lamps_now(&self.work).iter().any(|it| it.glow == Glow::Lit)
    }

    /// When the lamp is lit, with the supply on.
    pub fn grid(&self) -> Option<LampGrid> {
        LampGrid::of(&self.work)
    }

    /// Takes every lamp out of its holder.
    pub fn take_lamps_out(&mut self) {
        let exercise = Arc::clone(self.work.exercise());
        for it in &exercise.lamps {
            self.does(&Action::RemoveLamp { lamp: it.address.clone() });
        }
    }

    /// The positions in which a trip switch opens, by their numbers in counting order.
    pub fn opens(&self) -> Vec<usize> {
        opening(&rows(&self.work))
    }

    /// What a hand meets now, earth in the other: of the places where it may be the worst; `None` where nothing would be felt.
    pub fn hand(&self, hand: PassageHand) -> Option<Touch> {
        let mut conditions = Conditions::present(&self.work);
        let points: Vec<Point> = match hand {
            PassageHand::BareWire => bare_cores(&self.work).map(|it| self.work.point_of(it)).collect(),
            PassageHand::Lampholder => {
                conditions.lamps_in.fill(false);
                self.work.exercise().lamps.iter().flat_map(|it| it.contacts).map(Point::Terminal).collect()
            }
        };
        let met = points.into_iter().filter_map(|it| touch(&self.work, conditions.clone(), it));
        met.max_by(|a, b| a.amps.total_cmp(&b.amps))
    }

    /// The first setting, in counting order, in which a core is dead with the supply on.
    pub fn dead_at(&self, core: PassageCore) -> Option<[u8; 2]> {
        let conductor = self.far_end(core)?.conductor();
        let settings = [[0, 0], [0, 1], [1, 0], [1, 1]];
        settings.into_iter().find(|it| shown_at(&self.work, it.to_vec()).live.get(conductor) == Some(&false))
    }

    /// The end of a core at the far switch.
    fn far_end(&self, core: PassageCore) -> Option<EndId> {
        let far = self.work.exercise().switches.iter().next_back()?.location;
        let mut between = self.work.ends_at(far).filter(|it| self.is_between(it.conductor()));
        between.find(|it| self.work.end_facts(*it).colour == core.colour())
    }

    fn address(&self, terminal: TerminalId) -> String {
        self.work.exercise().terminals[terminal].address.clone()
    }

    /// What is refused stands so already: the house has nothing else in the way.
    fn does(&mut self, action: &Action) {
        let _ = self.work.apply(action);
    }
}

/// The rows in which something opens, by their numbers.
fn opening(rows: &[Row]) -> Vec<usize> {
    rows.iter().enumerate().filter(|it| it.1.tripped().next().is_some()).map(|it| it.0).collect()
}
