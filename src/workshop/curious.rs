//! The see-through house: "why three wires?", played in a few minutes. Nothing is marked, locked or kept.
//!
//! What happens in it is said by the library ([`Passage`]) and counted by its search; here is only where one is and what was chosen.

mod beside;
mod page;
mod plates;
mod settings;

use std::time::Duration;

use bevy_egui::egui::{Context, Ui};
use switchdrop::{
    circuit::Glow,
    picture::{Covers, Scene, View as Look, of_place},
    reason::{CoreProof, Passage, PassageCore, PassageEnd, Question, Unproved, why},
    wording::{Wording, grid_sentence},
    work::Action,
};

use super::{
    beside::Beside,
    panel::{Intent, PanelContext},
    view::{Said, Tone},
};

/// What one does there, one after the other.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum CuriousStep {
    /// Press the switches of a passage that works.
    Play,
    /// Say whether two wires would do.
    Guess,
    /// Take a core off.
    Pull,
    /// Have every way counted.
    Try,
    /// The reason why two do not do.
    Two,
    /// The reason why three do, and what is true of it.
    Three,
}

impl CuriousStep {
    const ALL: [Self; 6] = [Self::Play, Self::Guess, Self::Pull, Self::Try, Self::Two, Self::Three];

    const fn name(self) -> &'static str {
        match self {
            Self::Play => "curious-play",
            Self::Guess => "curious-guess",
            Self::Pull => "curious-pull",
            Self::Try => "curious-try",
            Self::Two => "curious-two",
            Self::Three => "curious-three",
        }
    }

    /// The step so many further on, if there is one.
    fn on(self, by: isize) -> Option<Self> {
        let here = Self::ALL.iter().position(|it| *it == self)?;
        Self::ALL.get(here.checked_add_signed(by)?).copied()
    }
}

/// What somebody thinks before trying.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Guess {
    /// Two would do.
    Yes,
    /// Two would not.
    No,
    /// Nobody knows yet.
    Unsure,
}

/// A sentence about the third wire, to pick.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Pick {
    /// The reason.
    True,
    /// That it is a spare.
    Spare,
    /// That L1 and L2 are both live.
    Phases,
}

/// What can be done.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CuriousAct {
    /// Come in.
    Enter,
    /// Go to a step.
    Go(CuriousStep),
    /// Press a switch.
    Press(PassageEnd),
    /// Say what one thinks.
    Guess(Guess),
    /// Take a core off, or put it back.
    Turn(PassageCore),
    /// Put the cover back, which brings the supply on.
    Close,
    /// Go to the setting that tells most.
    ShowMe,
    /// Have every way with two wires tried; else with three.
    Count(usize),
    /// Pick a sentence.
    Pick(Pick),
    /// Take the last thing back that was done to the house.
    Undo,
}

impl CuriousAct {
    /// Whether something else stands under the pointer afterwards. A rocker may be pressed again at once.
    pub const fn turns(self) -> bool {
        matches!(self, Self::Enter | Self::Go(_) | Self::Turn(_) | Self::Close | Self::Count(_))
    }
}

/// A house, and what one has seen of it.
#[derive(Debug, Clone)]
struct House {
    passage: Passage,
    /// What the lamp did in each setting that was seen, by the near switch and then the far one.
    seen: [[Option<bool>; 2]; 2],
    /// Whether one was led to the setting that tells most.
    is_shown: bool,
}

impl House {
    fn look(&mut self) {
        let [near, far] = self.passage.positions().map(usize::from);
        if !self.passage.is_open() {
            self.seen[near][far] = Some(self.passage.is_lit());
        }
    }

    /// Every setting at once.
    fn look_at_all(&mut self) {
        if let Some(lit) = self.passage.grid().and_then(|it| it.of_two()) {
            self.seen = lit.map(|it| it.map(Some));
        }
    }

    fn is_whole(&self) -> bool {
        PassageCore::ALL.into_iter().all(|it| self.passage.is_on(it))
    }

    fn has_seen_all(&self) -> bool {
        self.seen.as_flattened().iter().all(Option::is_some)
    }
}

/// How many houses can be gone back to.
const PAST: usize = 64;

type Counting = Beside<Result<CoreProof, Unproved>>;

/// The screen.
pub struct CuriousState {
    step: CuriousStep,
    /// `None` only if the scenario that comes with the program were no good.
    house: Option<House>,
    past: Vec<House>,
    guess: Option<Guess>,
    pick: Option<Pick>,
    /// With two wires, with three.
    counts: [Option<Counting>; 2],
    scene: Option<Scene>,
    said: Said,
}

impl CuriousState {
    /// The house as one comes in.
    pub fn new(wording: &Wording) -> Self {
        let mut state = Self {
            step: CuriousStep::Play,
            house: None,
            past: Vec::new(),
            guess: None,
            pick: None,
            counts: [None, None],
            scene: None,
            said: Said::default(),
        };
        state.build();
        state.tell(wording);
        state
    }

    /// A finished house, its supply on.
    fn build(&mut self) {
        self.house = Passage::new().map(|passage| House { passage, seen: [[None; 2]; 2], is_shown: false });
        self.past.clear();
        self.scene = None;
    }

    /// Draws it.
    pub fn show(&mut self, ui: &mut Ui, panel: &mut PanelContext<'_>) {
        for it in self.counts.iter_mut().flatten() {
            it.look(Duration::ZERO);
        }
        if let (None, Some(House { passage, .. })) = (&self.scene, &self.house) {
            let lit = [if passage.is_lit() { Glow::Lit } else { Glow::Off }];
            // It is dusk in the house: what is dark is seen to be dark, and so it stays while the supply is off.
            let look = Look { covers: Covers::AsTheyStand, lit: Some(&lit), evening: true };
            self.scene = Some(of_place(passage.work(), panel.wording, &look));
        }
        self.tell(panel.wording);
        page::show(ui, panel, self);
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
        match act {
            CuriousAct::Enter => {}
            CuriousAct::Go(step) => self.go(step),
            CuriousAct::Guess(it) => self.guess = Some(it),
            CuriousAct::Count(cores) => {
                let ctx = ctx.cloned();
                let counting = Beside::new("count", ctx, move || why(&Question::of_cores(cores), |_| ()));
                if let Some(it) = cores.checked_sub(2).and_then(|it| self.counts.get_mut(it)) {
                    *it = Some(counting);
                }
            }
            CuriousAct::Pick(it) => {
                self.pick = Some(it);
                self.play(it);
            }
            CuriousAct::Undo => {
                if let Some(it) = self.past.pop() {
                    self.house = Some(it);
                }
            }
            CuriousAct::Press(_) | CuriousAct::Turn(_) | CuriousAct::Close | CuriousAct::ShowMe => self.work(act),
        }
        self.scene = None;
    }

    /// Each step has a finished house of its own, the lamp lit; the guess goes on with that which was played with, and the reason why two
    /// do not do has one with two wires.
    fn go(&mut self, step: CuriousStep) {
        self.step = step;
        self.pick = None;
        if step == CuriousStep::Guess {
            return;
        }
        self.build();
        let Some(house) = &mut self.house else { return };
        match step {
            CuriousStep::Play | CuriousStep::Guess => return,
            CuriousStep::Two => {
                house.passage.turn(PassageCore::Grey);
                house.passage.close();
                house.passage.set([1, 0]);
            }
            CuriousStep::Pull | CuriousStep::Try | CuriousStep::Three => house.passage.set([0, 1]),
        }
        // What was found in the first step is known in the others.
        house.look_at_all();
    }

    /// Does something to the house.
    fn work(&mut self, act: CuriousAct) {
        let Some(house) = &mut self.house else { return };
        if self.past.len() == PAST {
            self.past.remove(0);
        }
        self.past.push(house.clone());
        house.is_shown = false;
        match act {
            CuriousAct::Press(at) => {
                house.passage.press(at);
                house.look();
            }
            CuriousAct::Turn(core) => {
                house.passage.turn(core);
                house.seen = [[None; 2]; 2];
            }
            CuriousAct::Close => {
                house.passage.close();
                house.look_at_all();
            }
            _ => {
                let telling = house.passage.grid().and_then(|it| it.tells_most());
                if let Some([near, far]) = telling.as_deref() {
                    house.passage.set([*near, *far]);
                    house.is_shown = true;
                }
            }
        }
    }

    /// Plays what speaks against a sentence.
    fn play(&mut self, pick: Pick) {
        self.build();
        let Some(house) = &mut self.house else { return };
        match pick {
            Pick::True => {}
            Pick::Spare => {
                house.passage.turn(PassageCore::Grey);
                house.passage.close();
                if let Some([near, far]) = house.passage.grid().and_then(|it| it.tells_most()).as_deref() {
                    house.passage.set([*near, *far]);
                }
            }
            Pick::Phases => {
                if let Some(it) = house.passage.dead_at(PassageCore::Grey) {
                    house.passage.set(it);
                }
            }
        }
        house.look_at_all();
    }

    fn tell(&mut self, wording: &Wording) {
        self.said = Said { text: self.sentences(wording), tone: Tone::Plain };
    }

    /// One sentence or two.
    fn sentences(&self, wording: &Wording) -> String {
        let say = |key: &str| wording.say(key, &[]);
        let Some(house) = &self.house else { return say("curious-house-lacks") };
        match self.step {
            CuriousStep::Play if house.has_seen_all() => say("curious-play-all"),
            CuriousStep::Play if self.past.is_empty() => say("curious-play-first"),
            CuriousStep::Play if house.passage.is_lit() => say("curious-play-lit"),
            CuriousStep::Play => say("curious-play-dark"),
            CuriousStep::Guess if self.guess.is_some() => say("curious-guess-said"),
            CuriousStep::Guess => say("curious-guess-asks"),
            CuriousStep::Pull if house.passage.is_open() => say("curious-pull-open"),
            CuriousStep::Pull if house.is_whole() => say("curious-pull-first"),
            CuriousStep::Pull => {
                let told = house.passage.grid().and_then(|it| grid_sentence(wording, &it)).unwrap_or_default();
                if house.is_shown { format!("{told} {}", say("curious-pull-shown")) } else { told }
            }
            CuriousStep::Try => self.counted(wording),
            CuriousStep::Two => say("curious-two-first"),
            CuriousStep::Three => match self.pick {
                None => say("curious-three-first"),
                Some(Pick::True) => say("curious-pick-right"),
                Some(Pick::Spare) => say("curious-pick-spare-shown"),
                Some(Pick::Phases) => say("curious-pick-phases-shown"),
            },
        }
    }

    /// What the counts say: those that have come, the last first.
    fn counted(&self, wording: &Wording) -> String {
        let said = |it: &Counting, key: &str| match it.come() {
            Some(Ok(proof)) => {
                let [tried, works] = [proof.counted.tried(), proof.counted.works()].map(|it| beside::number(it.ways));
                wording.say(key, &[("tried", &tried), ("works", &works)])
            }
            None if it.is_waiting() => wording.say("curious-try-waits", &[]),
            Some(Err(_)) | None => wording.say("curious-try-lacks", &[]),
        };
        match &self.counts {
            [None, _] => wording.say("curious-try-first", &[]),
            [Some(two), None] => said(two, "curious-try-none"),
            [Some(two), Some(three)] => {
                format!("{} {}", said(two, "curious-try-none"), said(three, "curious-try-some"))
            }
        }
    }
}

#[cfg(test)]
impl CuriousState {
    /// What is known of each setting.
    pub fn seen(&self) -> [[Option<bool>; 2]; 2] {
        self.house.as_ref().unwrap().seen
    }

    /// Waits for what is being counted.
    pub fn wait(&mut self) {
        for it in self.counts.iter_mut().flatten() {
            it.look(Duration::from_mins(1));
        }
    }
}
