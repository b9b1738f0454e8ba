//! The see-through house: a finished passage to play with. Its switches are pressed, and its cores taken off and put back.
//!
//! It is an exercise like any other with every end connected, and whatever happens in it is said by the solver.

use std::sync::Arc;

use super::grid::LampGrid;
use crate::{
    circuit::{Glow, is_energised, lamps_now, shown_at},
    exercise::{EndId, Seed, SwitchId, read},
    work::{Action, Feel, Work},
};

const SCENARIO: &str = include_str!("../../assets/curious.scenario.ron");
/// The place where cores are taken off.
const OPENED: &str = "far";
/// What the passage hangs on.
const DEVICE: &str = "board.1";

/// One of the two switches.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum PassageEnd {
    /// That which the feed and the lamp's wire come to.
    Near,
    /// That which only the cores between lead to.
    Far,
}

impl PassageEnd {
    /// Both, in the order of the exercise.
    pub const BOTH: [Self; 2] = [Self::Near, Self::Far];

    /// Its switch and its location, by address.
    pub const fn address(self) -> &'static str {
        match self {
            Self::Near => "near",
            Self::Far => OPENED,
        }
    }
}

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

    /// The address of its end at a switch.
    pub fn end(self, at: PassageEnd) -> String {
        format!("link/{}@{}", self.word(), at.address())
    }

    /// By which addresses know it.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Brown => "brown",
            Self::Black => "black",
            Self::Grey => "grey",
        }
    }

    /// The terminal that it is in when the passage is finished, the same at both switches.
    pub const fn terminal(self) -> &'static str {
        match self {
            Self::Brown => "COM",
            Self::Black => "L1",
            Self::Grey => "L2",
        }
    }
}

/// The house, as it stands now.
#[derive(Debug, Clone)]
pub struct Passage {
    work: Work,
}

impl Passage {
    /// Finished and switched on, both rockers down; `None` if the scenario that comes with the program is no good, which a test rules out.
    pub fn new() -> Option<Self> {
        let exercise = read(SCENARIO, Seed(0)).ok()?;
        Some(Self { work: Work::new(Arc::new(exercise)) })
    }

    /// The work.
    pub const fn work(&self) -> &Work {
        &self.work
    }

    /// How the switches stand, the near one first: 0 with the rocker down.
    pub fn positions(&self) -> [u8; 2] {
        PassageEnd::BOTH
            .map(|it| self.switch(it).and_then(|it| self.work.positions().get(it.index()).copied()).unwrap_or(0))
    }

    /// Puts the switches so.
    pub fn set(&mut self, positions: [u8; 2]) {
        for (at, position) in PassageEnd::BOTH.into_iter().zip(positions) {
            self.does(&Action::Operate { switch: at.address().to_owned(), position });
        }
    }

    /// Puts one switch over.
    pub fn press(&mut self, at: PassageEnd) {
        let [near, far] = self.positions();
        self.set(match at {
            PassageEnd::Near => [1 - near, far],
            PassageEnd::Far => [near, 1 - far],
        });
    }

    /// The terminals that a switch joins now: COM is always one of them.
    pub fn joined(&self, at: PassageEnd) -> Vec<[String; 2]> {
        let exercise = self.work.exercise();
        let Some(switch) = self.switch(at) else { return Vec::new() };
        let position = self.work.positions().get(switch.index()).copied().unwrap_or(0);
        let name = |it| exercise.terminals[it].address.rsplit('.').next().unwrap_or_default().to_owned();
        exercise.switches[switch].closed(usize::from(position)).map(|pair| pair.map(name)).collect()
    }

    /// Whether a cover is off. The supply is off then.
    pub fn is_open(&self) -> bool {
        self.work.location(OPENED).is_ok_and(|it| !self.work.is_covered(it))
    }

    /// Takes a core off its screw at the far switch, or puts it back: the supply goes off and the cover stays off, until [`Self::close`].
    pub fn turn(&mut self, core: PassageCore) {
        let (end, terminal) = (core.end(PassageEnd::Far), format!("{OPENED}.{}", core.terminal()));
        self.does(&Action::PowerOff { device: DEVICE.to_owned() });
        self.does(&Action::RemoveCover { location: OPENED.to_owned() });
        if self.is_on(core) {
            self.does(&Action::Disconnect { end });
        } else {
            self.does(&Action::Connect { end, terminal: terminal.clone() });
            self.does(&Action::Tighten { terminal, feel: Feel::Right });
        }
    }

    /// Puts the cover back and switches on.
    pub fn close(&mut self) {
        self.does(&Action::FitCover { location: OPENED.to_owned() });
        self.does(&Action::PowerOn { device: DEVICE.to_owned() });
    }

    /// Whether a core is in its terminal at the far switch.
    pub fn is_on(&self, core: PassageCore) -> bool {
        self.end(core, PassageEnd::Far).is_some_and(|it| self.work.terminal_of(it).is_some())
    }

    /// Whether a core is live now.
    pub fn is_live(&self, core: PassageCore) -> bool {
        self.end(core, PassageEnd::Near).is_some_and(|it| is_energised(&self.work, self.work.point_of(it)))
    }

    /// Whether a terminal of a switch (`L1`, say) is live now.
    pub fn is_terminal_live(&self, at: PassageEnd, terminal: &str) -> bool {
        self.work.point(&format!("{}.{terminal}", at.address())).is_ok_and(|it| is_energised(&self.work, it))
    }

    /// Whether the lamp is lit now.
    pub fn is_lit(&self) -> bool {
        lamps_now(&self.work).iter().any(|it| it.glow == Glow::Lit)
    }

    /// When the lamp is lit, with the supply on.
    pub fn grid(&self) -> Option<LampGrid> {
        LampGrid::of(&self.work)
    }

    /// The first setting, in counting order, in which a core is dead with the supply on.
    pub fn dead_at(&self, core: PassageCore) -> Option<[u8; 2]> {
        let conductor = self.end(core, PassageEnd::Near)?.conductor();
        let settings = [[0, 0], [0, 1], [1, 0], [1, 1]];
        settings.into_iter().find(|it| shown_at(&self.work, it.to_vec()).live.get(conductor) == Some(&false))
    }

    fn switch(&self, at: PassageEnd) -> Option<SwitchId> {
        self.work.switch(at.address()).ok()
    }

    fn end(&self, core: PassageCore, at: PassageEnd) -> Option<EndId> {
        self.work.end(&core.end(at)).ok()
    }

    /// What is refused stands so already: the house has nothing else in the way.
    fn does(&mut self, action: &Action) {
        let _ = self.work.apply(action);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: the near switch joins COM to L1 (rocker down) or L2 (up), and so does the far one. The feed is at L1, the lamp at L2,
    /// and each of the three cores joins its two namesakes: the lamp is lit where the two switches stand differently.
    #[test]
    fn the_finished_passage_obeys_both_switches() {
        let mut house = Passage::new().unwrap();
        let [no, yes] = [false, true];
        assert_eq!(house.grid().unwrap().of_two(), Some([[no, yes], [yes, no]]));
        assert!(!house.is_lit());
        house.press(PassageEnd::Far);
        assert_eq!((house.positions(), house.is_lit()), ([0, 1], true));
        assert_eq!(house.joined(PassageEnd::Far), [["COM".to_owned(), "L2".to_owned()]]);
    }

    /// By hand, with one core off: without brown nothing joins the two COM, and each is joined to one terminal alone. Without black the
    /// feed is at the near L1 alone, and reaches the far COM from there and the lamp by grey: near down and far up. Without grey the lamp's
    /// wire is at the near L2 alone: near up and far down, over black.
    #[test]
    fn a_core_that_is_off_leaves_what_a_table_by_hand_has() {
        let [no, yes] = [false, true];
        for (core, wanted) in [
            (PassageCore::Brown, [[no, no], [no, no]]),
            (PassageCore::Black, [[no, yes], [no, no]]),
            (PassageCore::Grey, [[no, no], [yes, no]]),
        ] {
            let mut house = Passage::new().unwrap();
            house.set([0, 1]);
            house.turn(core);
            assert!(house.is_open() && !house.is_lit() && !house.is_on(core));
            assert!(PassageCore::ALL.into_iter().all(|it| !house.is_live(it)), "the supply is off");
            house.close();
            assert_eq!(house.grid().unwrap().of_two(), Some(wanted), "{core:?}");
            house.turn(core);
            house.close();
            assert_eq!(house.grid(), Passage::new().unwrap().grid(), "{core:?} is back");
            assert!(house.is_lit());
        }
    }

    /// By hand: black is on the feed, so that nothing but the supply makes it dead; brown and grey are dead where the lamp is out and
    /// no switch leads the feed to them: brown with the near rocker up and the far one up, grey with both down.
    #[test]
    fn a_core_is_dead_where_no_switch_leads_the_feed_to_it() {
        let house = Passage::new().unwrap();
        let dead = PassageCore::ALL.map(|it| house.dead_at(it));
        assert_eq!(dead, [None, Some([1, 1]), Some([0, 0])]);
        assert!(house.is_live(PassageCore::Black) && !house.is_live(PassageCore::Grey));
        assert!(house.is_terminal_live(PassageEnd::Near, "L1") && !house.is_terminal_live(PassageEnd::Far, "L2"));
    }
}
