//! The house that one plays with, what one has seen of it, and those that one can go back to.

use switchdrop::{
    circuit::Touch,
    exercise::{EndId, SwitchId, TerminalId},
    reason::{Passage, PassageCore, PassageHand, PassageTry, WhatIf},
    work::Refused,
};

/// How many houses can be gone back to.
const PAST: usize = 64;

/// A house, and what one has seen of it.
#[derive(Debug, Clone)]
pub struct House {
    /// The house.
    pub passage: Passage,
    /// Which variant it is, if it is one.
    pub variant: Option<WhatIf>,
    /// What the lamp did in each setting that was seen, in counting order, the last switch fastest.
    pub seen: Vec<Option<bool>>,
    /// The settings in which a trip switch is known to open, by their numbers in counting order.
    pub opens: Vec<usize>,
    /// Whether one was led to the setting that tells most.
    pub is_shown: bool,
    /// The end that is held.
    pub held: Option<EndId>,
    /// Why the last end could not go where it was put.
    pub refused: Option<Refused>,
    /// What came of the ends when the covers were closed on them.
    pub tried: Option<PassageTry>,
    /// Whether a hand is where it may be live.
    pub has_hand: bool,
}

impl House {
    /// A house that nothing is known of yet.
    pub fn new(passage: Passage) -> Self {
        let seen = vec![None; 1 << passage.switches().len().min(8)];
        Self {
            passage,
            variant: None,
            seen,
            opens: Vec::new(),
            is_shown: false,
            held: None,
            refused: None,
            tried: None,
            has_hand: false,
        }
    }

    /// The setting that it is in, by its number in counting order.
    pub fn setting(&self) -> usize {
        self.passage.positions().iter().fold(0, |so_far, it| 2 * so_far + usize::from(*it))
    }

    /// Sees what the lamp does now.
    fn look(&mut self) {
        let (at, lit) = (self.setting(), self.passage.is_lit());
        if let Some(it) = self.seen.get_mut(at).filter(|_| !self.passage.is_open()) {
            *it = Some(lit);
        }
    }

    /// Sees every setting at once.
    pub fn look_at_all(&mut self) {
        if let Some(grid) = self.passage.grid() {
            self.seen = grid.lit().iter().copied().map(Some).collect();
            self.opens = self.passage.opens();
        }
    }

    /// Whether every core is on its screw.
    pub fn is_whole(&self) -> bool {
        PassageCore::ALL.into_iter().all(|it| self.passage.is_on(it))
    }

    /// Whether every setting was seen.
    pub fn has_seen_all(&self) -> bool {
        self.seen.iter().all(Option::is_some)
    }

    /// As it is drawn: the lamp is out while a hand is in its holder.
    pub fn as_shown(&self) -> Passage {
        let mut shown = self.passage.clone();
        if self.has_hand && self.variant.and_then(WhatIf::hand) == Some(PassageHand::Lampholder) {
            shown.take_lamps_out();
        }
        shown
    }

    /// What the hand meets.
    pub fn met(&self) -> Option<Touch> {
        let hand = self.variant.and_then(WhatIf::hand).filter(|_| self.has_hand)?;
        self.passage.hand(hand)
    }

    fn forget(&mut self) {
        self.seen.fill(None);
        self.opens.clear();
        (self.tried, self.refused, self.is_shown) = (None, None, false);
    }

    /// Presses a switch.
    pub fn press(&mut self, switch: SwitchId) {
        self.is_shown = false;
        self.passage.press(switch);
        self.look();
    }

    /// Takes a core off, or puts it back.
    pub fn turn(&mut self, core: PassageCore) {
        self.forget();
        self.passage.turn(core);
    }

    /// Puts an end on a screw.
    pub fn put(&mut self, end: EndId, terminal: TerminalId) {
        self.held = None;
        if self.passage.work().terminal_of(end) == Some(terminal) {
            return;
        }
        match self.passage.join(&[(end, terminal)]) {
            Ok(()) => self.forget(),
            Err(it) => self.refused = Some(it),
        }
    }

    /// Closes the covers and sees every setting.
    pub fn close(&mut self) {
        (self.held, self.refused, self.is_shown) = (None, None, false);
        self.passage.close();
        self.look_at_all();
        self.tried = self.passage.tried();
    }

    /// Goes to the setting that tells most.
    pub fn show(&mut self) {
        if let Some(it) = self.passage.grid().and_then(|it| it.tells_most()) {
            self.passage.set(&it);
            self.is_shown = true;
        }
    }
}

/// The house, and those before it.
#[derive(Debug, Default)]
pub struct Houses {
    /// `None` only if the scenario that comes with the program can't be read.
    pub now: Option<House>,
    past: Vec<House>,
}

impl Houses {
    /// Another house: none of those before is gone back to.
    pub fn build(&mut self, house: Option<House>) {
        self.now = house;
        self.past.clear();
    }

    /// Does something to the house that can be taken back.
    pub fn change(&mut self, what: impl FnOnce(&mut House)) {
        let Some(house) = &mut self.now else { return };
        if self.past.len() == PAST {
            self.past.remove(0);
        }
        self.past.push(house.clone());
        what(house);
    }

    /// Takes the last thing back.
    pub fn undo(&mut self) {
        if let Some(it) = self.past.pop() {
            self.now = Some(it);
        }
    }

    /// Whether something was done.
    pub fn is_changed(&self) -> bool {
        !self.past.is_empty()
    }
}
