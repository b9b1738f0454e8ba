//! The see-through house: "why three wires?", played in a few minutes. Nothing is marked, locked or kept.
//!
//! What happens in it is said by the library ([`Passage`]) and counted by its search; here is only where one is and what was chosen.

mod beat;
mod beside;
mod counts;
mod houses;
mod lanes;
mod other_houses;
mod page;
mod plates;
mod sentences;
mod settings;
mod steps;
mod wall;
mod wires;

use bevy_egui::egui::{Context, Ui};
use switchdrop::{
    circuit::{Flow, Glow},
    exercise::EndId,
    picture::{Covers, Scene, View as Look, of_place_with_open_cores},
    reason::{Passage, PassageCore, PassageTry, WhatIf},
    wording::Wording,
    work::Action,
};

pub use self::steps::CuriousAct;
use self::{
    counts::Count,
    houses::{House, Houses},
    steps::{CuriousStep, Guess, Pick, Wires},
};
use super::{
    panel::{Intent, PanelContext},
    view::{Said, Tone},
    walk::Walk,
};

/// How many tries are kept.
const TRIES: usize = 6;

/// The house as it is drawn now.
struct DrawnHouse {
    scene: Scene,
    flow: Flow,
}

/// The screen.
pub struct CuriousState {
    step: CuriousStep,
    houses: Houses,
    guess: Option<Guess>,
    pick: Option<Pick>,
    /// With how many wires one tries to beat it.
    wires: Wires,
    /// With two wires, with three: the last first, none twice.
    tries: [Vec<PassageTry>; 2],
    /// With two wires, with three.
    counts: [Count; 2],
    /// The way that was opened among those counted.
    opened: Option<(Wires, usize)>,
    /// The end that is dragged.
    dragged: Option<EndId>,
    drawn: Option<DrawnHouse>,
    /// The arrows, and whether what they are on was pointed at in the last frame.
    walk: Walk,
    is_pointed_at: bool,
    said: Said,
}

impl CuriousState {
    /// The house as one comes in.
    pub fn new(wording: &Wording) -> Self {
        let mut state = Self {
            step: CuriousStep::Play,
            houses: Houses::default(),
            guess: None,
            pick: None,
            wires: Wires::Two,
            tries: [Vec::new(), Vec::new()],
            counts: Wires::BOTH.map(Count::new),
            opened: None,
            dragged: None,
            drawn: None,
            walk: Walk::default(),
            is_pointed_at: false,
            said: Said::default(),
        };
        state.houses.build(Passage::new().map(House::new));
        state.tell(wording);
        state
    }

    /// Draws it.
    pub fn show(&mut self, ui: &mut Ui, panel: &mut PanelContext<'_>) {
        for it in &mut self.counts {
            it.look(ui);
        }
        if let (None, Some(house)) = (&self.drawn, &self.houses.now) {
            self.drawn = Some(DrawnHouse::of(house, panel.wording));
        }
        self.tell(panel.wording);
        let has_arrows = self.drawn.as_ref().is_some_and(|it| !it.flow.loops.is_empty());
        self.walk.on(ui, has_arrows, self.is_pointed_at);
        let mut dragged = self.dragged;
        let is_pointed_at = page::show(ui, panel, self, &mut dragged);
        if is_pointed_at != self.is_pointed_at {
            ui.ctx().request_repaint();
        }
        (self.dragged, self.is_pointed_at) = (dragged, is_pointed_at);
    }

    /// What is said now.
    pub const fn said(&self) -> &Said {
        &self.said
    }

    /// Does what was asked for.
    pub fn apply(&mut self, wording: &Wording, intent: &Intent, ctx: Option<&Context>) {
        match intent {
            Intent::Curious(act) => self.act(*act, ctx),
            Intent::Act(actions) if actions[..] == [Action::Undo] => self.act(CuriousAct::Undo, ctx),
            _ => {}
        }
        self.tell(wording);
    }

    fn act(&mut self, act: CuriousAct, ctx: Option<&Context>) {
        let houses = &mut self.houses;
        match act {
            CuriousAct::Enter | CuriousAct::Exercise => {}
            CuriousAct::Go(step) => self.go(step),
            CuriousAct::Guess(it) => self.guess = Some(it),
            CuriousAct::Count(wires) => self.counts[wires as usize].ask(ctx),
            CuriousAct::Finish => self.counts.iter_mut().for_each(Count::finish),
            CuriousAct::Open(wires, class) => self.open(wires, class),
            CuriousAct::Wall => self.opened = None,
            CuriousAct::Pick(it) => {
                self.pick = Some(it);
                self.play(it);
            }
            CuriousAct::Undo => houses.undo(),
            CuriousAct::Press(switch) => houses.change(|it| it.press(switch)),
            CuriousAct::Turn(core) => houses.change(|it| it.turn(core)),
            CuriousAct::Hold(end) => {
                if let Some(it) = &mut houses.now {
                    it.held = if it.held == Some(end) { None } else { Some(end) };
                    it.refused = None;
                }
            }
            CuriousAct::Put(end, terminal) => houses.change(|it| it.put(end, terminal)),
            CuriousAct::Close => {
                houses.change(House::close);
                self.keep_try();
            }
            CuriousAct::ShowMe => houses.change(House::show),
            CuriousAct::Join(wires) => self.begin_with(wires),
            CuriousAct::Again(number) => {
                if let Some(it) = self.tries[self.wires as usize].get(number).map(|it| it.joined.clone()) {
                    houses.change(|house| {
                        // Where it was once there is room for it again.
                        let _ = house.passage.join(&it);
                        house.close();
                    });
                }
            }
            CuriousAct::WhatIf(it) => self.go_to(it),
            CuriousAct::Hand => houses.change(|it| it.has_hand = !it.has_hand),
        }
        self.drawn = None;
        self.walk.again();
    }

    /// Each step has a finished house of its own, the lamp lit; the guess goes on with that which was played with, and the reason why two
    /// do not do has one with two wires.
    fn go(&mut self, step: CuriousStep) {
        self.step = step;
        (self.pick, self.opened) = (None, None);
        match step {
            CuriousStep::Guess => {}
            CuriousStep::Play => self.houses.build(Passage::new().map(House::new)),
            CuriousStep::Beat => self.begin_with(self.wires),
            CuriousStep::Two => self.build(Passage::with_two_wires(), &[1, 0]),
            CuriousStep::Pull | CuriousStep::Try | CuriousStep::Three | CuriousStep::WhatIf => {
                self.build(Passage::new(), &[0, 1]);
            }
        }
    }

    /// Another house, its switches set so. What was found in the first step is known in the others.
    fn build(&mut self, passage: Option<Passage>, positions: &[u8]) {
        self.houses.build(passage.map(|mut it| {
            it.set(positions);
            let mut house = House::new(it);
            house.look_at_all();
            house
        }));
    }

    fn begin_with(&mut self, wires: Wires) {
        self.wires = wires;
        let passage = match wires {
            Wires::Two => Passage::with_two_wires(),
            Wires::Three => Passage::new(),
        };
        self.build(passage, &[0, 0]);
    }

    /// Keeps what came of the last try, if one was made: the last first, each way of joining once.
    fn keep_try(&mut self) {
        let Some(it) = self.houses.now.as_ref().and_then(|it| it.tried.clone()) else { return };
        let tries = &mut self.tries[self.wires as usize];
        if self.step == CuriousStep::Beat {
            tries.retain(|other| other.joined != it.joined);
            tries.insert(0, it);
            tries.truncate(TRIES);
        }
    }

    /// Opens one of the ways that were counted.
    fn open(&mut self, wires: Wires, class: usize) {
        let count = &self.counts[wires as usize];
        let Some(Ok(proof)) = count.proof() else { return };
        let Some(it) = proof.counted.classes.get(class) else { return };
        let passage = Passage::of_way(&count.question(), &it.shown);
        if passage.is_some() {
            self.build(passage, &[0, 0]);
            self.opened = Some((wires, class));
            if let Some(house) = &mut self.houses.now {
                house.close();
            }
        }
    }

    /// Another house, the lamp lit or, where live and neutral are exchanged or both switched, out.
    fn go_to(&mut self, variant: WhatIf) {
        let positions: &[u8] = match variant {
            WhatIf::BareEarth | WhatIf::WhereItGoes => &[0, 1],
            _ => &[0, 0, 0],
        };
        self.build(variant.house(), positions);
        if let Some(it) = &mut self.houses.now {
            it.variant = Some(variant);
        }
    }

    /// Plays what speaks against a sentence.
    fn play(&mut self, pick: Pick) {
        let passage = match pick {
            Pick::Spare => Passage::with_two_wires(),
            Pick::True | Pick::Phases => Passage::new(),
        };
        let telling = passage.as_ref().and_then(|it| match pick {
            Pick::True => None,
            Pick::Spare => it.grid().and_then(|it| it.tells_most()),
            Pick::Phases => it.dead_at(PassageCore::Grey).map(Vec::from),
        });
        self.build(passage, telling.as_deref().unwrap_or(&[0, 0]));
    }

    fn tell(&mut self, wording: &Wording) {
        self.said = Said { text: sentences::sentences(wording, self), tone: Tone::Plain };
    }
}

impl DrawnHouse {
    /// It is dusk in the house: what is dark is seen to be dark, and so it stays while the supply is off. The cores that carry a current are
    /// in sight along their cables.
    fn of(house: &House, wording: &Wording) -> Self {
        let shown = house.as_shown();
        let (work, flow) = (shown.as_it_looks(), shown.flow());
        let lit: Vec<Glow> = work.exercise().lamps.ids().map(|it| flow.lamp(it).glow).collect();
        let look = Look { covers: Covers::AsTheyStand, lit: Some(&lit), evening: true };
        let carries: Vec<usize> = (0..work.conductor_count()).filter(|it| flow.amps(*it) != 0.0).collect();
        Self { scene: of_place_with_open_cores(&work, wording, &look, &carries), flow }
    }
}

#[cfg(test)]
impl CuriousState {
    /// What is known of each setting, in counting order.
    pub fn seen(&self) -> &[Option<bool>] {
        &self.houses.now.as_ref().unwrap().seen
    }

    /// The tries so far, the last first.
    pub fn tries(&self) -> &[PassageTry] {
        &self.tries[self.wires as usize]
    }

    /// Waits for what is being counted.
    pub fn wait(&mut self) {
        self.counts.iter_mut().for_each(Count::wait);
    }
}
