//! What the bench holds: the attempt that is open, how it is looked at, what is drawn of it, and what was said of the last act.

use std::time::Duration;

use bevy_egui::egui::{Context, Ui};
use switchdrop::{
    advice::{Guidance, NextJoin, guidance, next_join},
    attempt::{Happened, Mode},
    circuit::{Glow, lamps_now},
    exercise::SHIPPED,
    marking::{Hint, is_critical},
    picture::{
        CircuitDiagram, Covers, Scene, Thing, View as Look, circuit_diagram, of_location, of_place,
        of_place_with_open_cores,
    },
    report::would_have,
    wording::{Wording, did, guidance as told, happened, place, refused},
    work::Action,
};

use super::{
    bars, bench,
    beside::Beside,
    current::Current,
    guide::may_guide,
    hand_in_waits::HandInWaits,
    marked::Marked,
    panel::PanelContext,
    prediction,
    question::Question,
    session::{NotDone, Session},
    sheet::{self, whereabouts},
    start::harmless,
    tray::display::Displayed,
    trip::{Played, Trip, Way},
    view::{Brief, Guide, Hand, Sight, Tone, View},
};
use crate::journal::JournalError;

/// A scene, and what it was drawn for.
#[derive(Debug)]
struct Drawn {
    of: (usize, Sight, usize, Vec<usize>),
    scene: Scene,
    /// The circuit diagram, where that is looked at.
    diagram: Option<CircuitDiagram>,
    /// What is asked, where that is a prediction.
    question: Option<Question>,
}

/// A hint that comes within this is said in the frame in which it was asked for: a large house may take a hundred frames.
const A_FRAME: Duration = Duration::from_millis(12);

/// The bench.
pub struct BenchState {
    /// The attempt, and the file that it is written to.
    pub session: Session,
    /// What is only seen.
    pub view: View,
    drawn: Option<Drawn>,
    trip: Option<Trip>,
    played: Option<Played>,
    /// Where the current goes, once that may be told.
    current: Option<Current>,
    /// A hint that was asked for and is still to come.
    hint: Option<Beside<Guidance>>,
    /// What to join next, and after how many actions.
    guide: Option<(usize, Option<NextJoin>)>,
    /// Whether it was said, as the learner was about to leave, that the attempt is not in its file.
    told_unkept: bool,
    /// The hand-in, if it could not be written and is tried again.
    waits: Option<HandInWaits>,
}

impl BenchState {
    /// With an attempt just begun or opened again.
    pub fn new(session: Session) -> Self {
        let trip = Trip::of(&session.attempt);
        let brief = if session.attempt.log().is_empty() { Brief::AtFirst } else { Brief::Folded };
        // The first exercise of all names one conductor at a time, until the learner goes without.
        let is_first = SHIPPED.first().is_some_and(|it| it.0 == session.attempt.work().exercise().id);
        let guide = if is_first { Guide::On } else { Guide::Off };
        let view = View { brief, guide, ..View::default() };
        Self {
            session,
            view,
            drawn: None,
            trip,
            played: None,
            current: None,
            hint: None,
            guide: None,
            told_unkept: false,
            waits: None,
        }
    }

    /// Draws it; `marked` once it is handed in.
    pub fn show(&mut self, ui: &mut Ui, panel: &mut PanelContext<'_>, marked: Option<&Marked>) {
        self.hint_if_come(panel.wording, Duration::ZERO);
        if self.waits.as_mut().is_some_and(|it| it.is_due(ui)) {
            panel.act(Action::HandIn);
        }
        self.current = Current::of(self.current.take(), &self.session, panel.wording, &self.view);
        self.draw_scene(panel.wording, marked.is_some());
        let walked = self.current.as_mut().map_or(0.0, |it| it.walked(ui, self.view.pointed.as_ref()));
        self.find_guide();
        let shown = bench::Shown {
            session: &self.session,
            scene: self.drawn.as_ref().map(|it| &it.scene),
            question: self.drawn.as_ref().and_then(|it| it.question.as_ref()),
            trip: self.trip.as_ref(),
            played: self.played.as_ref(),
            sheet: marked.map(|it| &it.sheet),
            guide: self.guide.as_ref().and_then(|it| it.1.as_ref()),
            diagram: self.drawn.as_ref().and_then(|it| it.diagram.as_ref()),
            // What would have happened is another case than what is so now.
            current: self.current.as_ref().filter(|_| self.played.is_none()).map(|it| (it, walked)),
        };
        bench::show(ui, panel, &shown, &mut self.view);
    }

    /// What to join next, unless it is known already.
    fn find_guide(&mut self) {
        let is_asked = self.view.guide == Guide::On && !self.session.is_over() && may_guide(&self.session);
        let actions = self.session.attempt.log().len();
        if !is_asked {
            self.guide = None;
        } else if self.guide.is_none_or(|it| it.0 != actions) {
            self.guide = Some((actions, next_join(&self.session.attempt)));
        }
    }

    /// The scene for what is looked at, unless it is there already.
    fn draw_scene(&mut self, wording: &Wording, is_marked: bool) {
        let setting = if self.view.at == Sight::Prediction { prediction::number(&self.session, &self.view) } else { 0 };
        let of = (self.session.attempt.log().len(), self.view.at, setting, self.open_cores());
        if self.drawn.as_ref().is_some_and(|it| it.of == of) {
            return;
        }
        let work = self.session.attempt.work();
        // Daylight while one works, dusk once one's own power has come on: it follows what was done, and tells nothing of the supply.
        let closed = work.exercise().locations.ids().all(|it| work.is_covered(it));
        let evening = closed && !self.session.attempt.tally().energised.is_empty();
        let mut diagram = None;
        let question =
            (self.view.at == Sight::Prediction).then(|| Question::of(&self.session, wording, setting)).flatten();
        let scene = match (&question, self.view.at) {
            (Some(it), _) => it.scene(wording, evening),
            (None, at) => {
                let lit: Vec<Glow> = lamps_now(work).iter().map(|it| it.glow).collect();
                // What was handed in is looked into: a fault behind a plate could not be shown in place otherwise.
                let covers = if is_marked { Covers::Lifted } else { Covers::AsTheyStand };
                let look = Look { covers, lit: Some(&lit), evening };
                match at {
                    Sight::Location(it) => of_location(work, it, wording, &look),
                    Sight::Circuit => {
                        let drawn = circuit_diagram(work, wording, Some(&lit));
                        let cores: Vec<usize> =
                            drawn.nets.iter().flat_map(|it| it.conductors.iter().copied()).collect();
                        diagram = Some(drawn);
                        of_place_with_open_cores(work, wording, &look, &cores)
                    }
                    Sight::Place => of_place_with_open_cores(work, wording, &look, &of.3),
                    Sight::Prediction | Sight::Tests | Sight::Diagnosis => of_place(work, wording, &look),
                }
            }
        };
        self.drawn = Some(Drawn { of, scene, diagram, question });
    }

    /// The cores that are drawn along their cables at the whole place: those that carry a current, and the way that is outlined.
    fn open_cores(&self) -> Vec<usize> {
        if self.view.at != Sight::Place {
            return Vec::new();
        }
        let work = self.session.attempt.work();
        let now = self.current.as_ref().filter(|_| self.played.is_none());
        let mut cores = now.map(|it| it.carrying(work)).unwrap_or_default();
        let hand = self.current.as_ref().and_then(|it| it.hand.as_ref()).map(|it| &it.2);
        let ways = [self.played.as_ref().map(|it| &it.way), self.trip.as_ref().map(|it| &it.way), hand];
        cores.extend(ways.into_iter().flatten().flat_map(|it| it.conductors(work)));
        cores.sort_unstable();
        cores.dedup();
        cores
    }

    /// Looks somewhere, at something.
    pub fn look(&mut self, at: Sight, thing: Option<Thing>) {
        self.view.go(at);
        self.view.selected = thing;
    }

    /// Says no more about a finding on the drawing.
    pub fn stop_playing(&mut self) {
        self.played = None;
    }

    /// Shows on the drawing what a finding would have led to. Whether there is anything to show.
    pub fn play(&mut self, wording: &Wording, marked: &Marked, finding: usize) -> bool {
        let (Some(it), Some(told)) = (marked.sheet.findings.get(finding), marked.told()) else { return false };
        let Some(Some(consequence)) = told.would_have.get(finding) else { return false };
        let work = self.session.attempt.work();
        let told = vec![would_have(wording, work, consequence)];
        let way = Way::of_consequence(work, consequence);
        let at = sheet::whereabouts(work, it.at);
        self.look_at(Played { heading: "page-would-have", told, way }, at);
        true
    }

    /// Shows a finding where it is. Whether there is such a finding.
    pub fn show_in_place(&mut self, wording: &Wording, marked: &Marked, finding: usize) -> bool {
        let Some(it) = marked.sheet.findings.get(finding) else { return false };
        let work = self.session.attempt.work();
        let told = sheet::in_short(wording, work, finding, it);
        let at = sheet::whereabouts(work, it.at);
        self.look_at(Played { heading: "window-in-place-heading", told, way: Way::default() }, at);
        true
    }

    /// Goes to the drawing with a finding in mind.
    fn look_at(&mut self, played: Played, at: Option<(Sight, Thing)>) {
        let (sight, thing) = at.map_or((Sight::Place, None), |it| (it.0, Some(it.1)));
        self.played = Some(played);
        self.look(sight, thing);
    }

    /// Says how an attempt stands that was opened again.
    pub fn say_how_it_stands(&mut self, wording: &Wording) {
        match self.session.read_only() {
            _ if self.session.attempt.tally().handed_in => {}
            Some(why) => self.view.say(Tone::No, wording.say(bars::read_only_key(why), &[])),
            None => self.view.say(Tone::Plain, wording.say("window-opened-again", &[])),
        }
    }

    /// Whether the attempt can be left: what was done stands in its file, or the learner was told that it does not, and leaves all the same.
    pub fn may_leave(&mut self, wording: &Wording) -> bool {
        if self.waits.is_some() && self.session.act(Action::HandIn).is_ok() {
            return true;
        }
        let Err(trouble) = self.session.keep() else { return true };
        let was_told = std::mem::replace(&mut self.told_unkept, true);
        if !was_told {
            let why = harmless(&trouble.say(wording));
            self.view.say(Tone::No, wording.say("window-leave-unkept", &[("why", &why)]));
        }
        was_told
    }

    /// Does one action and says what came of it. Whether it was done. `ctx` is woken when a hint is there.
    pub fn act(&mut self, wording: &Wording, action: &Action, ctx: Option<&Context>) -> bool {
        self.hint = None;
        let result = self.session.act(action.clone());
        // What is done after it puts off a hand-in that waits.
        let waits = self.waits.take();
        let work = self.session.attempt.work();
        let why_not = match result {
            Ok(_) if *action == Action::Hint => {
                let attempt = self.session.attempt.clone();
                self.hint = Some(Beside::new("hint", ctx.cloned(), move || guidance(&attempt)));
                self.view.say(Tone::Plain, wording.say("window-hint-to-come", &[]));
                self.hint_if_come(wording, A_FRAME);
                return true;
            }
            Ok(it) => return self.done(wording, action, &it),
            Err(NotDone::Refused(it)) => refused(wording, work, &it),
            Err(NotDone::Unwritten(it)) if *action == Action::HandIn && !matches!(it, JournalError::LongLine(_)) => {
                self.waits = Some(HandInWaits::default());
                wording.say("window-hand-in-waits", &[("why", &harmless(&it.say(wording)))])
            }
            // What has no room in the file has none in any other.
            Err(NotDone::Unwritten(it @ (JournalError::Full(_) | JournalError::LongLine(_)))) => it.say(wording),
            Err(NotDone::Unwritten(it)) => wording.say("window-unwritten", &[("why", &harmless(&it.say(wording)))]),
            Err(NotDone::ReadOnly(why)) => wording.say(bars::read_only_key(why), &[]),
        };
        // What could not be done puts nothing off.
        self.waits = self.waits.take().or(waits);
        self.view.say(Tone::No, why_not);
        false
    }

    /// Says the hint that was asked for, if it has come or comes before so long.
    fn hint_if_come(&mut self, wording: &Wording, at_most: Duration) {
        let Some(asked) = &mut self.hint else { return };
        asked.look(at_most);
        if let Some(it) = asked.come() {
            let work = self.session.attempt.work();
            let text = told(wording, work, it);
            let place = match (&it.hint, it.next) {
                (Hint::Look(it) | Hint::Wrong(it), _) => whereabouts(work, it.at),
                (_, Some(it)) => Some((Sight::Location(work.end_location(it.end)), Thing::End(it.end))),
                _ => None,
            };
            // It points at what it tells of.
            if let Some((sight, thing)) = place {
                self.view.go(sight);
                self.view.selected = Some(thing);
            }
            self.view.say(Tone::Plain, text);
        }
        if !asked.is_waiting() {
            self.hint = None;
        }
    }

    /// Says what came of an action that was possible. Whether it was not stopped.
    fn done(&mut self, wording: &Wording, action: &Action, came: &Happened) -> bool {
        self.trip = Trip::of(&self.session.attempt);
        let text = self.said_of(wording, action, came);
        if let Some(it) = Displayed::of(action, came, self.session.attempt.log().len()) {
            self.view.displayed = Some(it);
        }
        // On the proving unit or at the origin the probes are nowhere else.
        if matches!(action, Action::ProveIndicator | Action::ReadOrigin { .. }) {
            (self.view.probes, self.view.next_probe) = ([None, None], 0);
        }
        // What an act needs is in the hand.
        if matches!(action, Action::ReadOrigin { .. }) {
            self.view.take(Hand::Meter, self.view.detector);
        }
        if matches!(action, Action::TestDead { .. } | Action::Continuity { .. } | Action::Measure { .. }) {
            self.view.readings.said.insert(0, text.clone());
            self.view.readings.said.truncate(6);
        }
        let tone = match came {
            Happened::Stopped(_) | Happened::Tripped(_) => Tone::Stopped,
            Happened::NoEarth(_) => Tone::No,
            _ => Tone::Plain,
        };
        self.view.say(tone, text);
        self.view.hands_in = false;
        // The ends have other numbers then; and behind a cover nothing can be worked.
        if matches!(action, Action::Undo | Action::Redo | Action::Choose { .. } | Action::FitCover { .. }) {
            self.view.selected = None;
        }
        came.stopped().is_none()
    }

    fn said_of(&self, wording: &Wording, action: &Action, came: &Happened) -> String {
        let (attempt, work) = (&self.session.attempt, self.session.attempt.work());
        if *came == Happened::Done {
            return did(wording, work, action);
        }
        let text = happened(wording, attempt, came);
        match (action, came.stopped()) {
            (_, Some(act)) if self.session.mode == Mode::Set && is_critical(act) => {
                format!("{text}. {}", wording.say("window-refers", &[]))
            }
            (Action::TestDead { a, b, .. } | Action::Continuity { a, b } | Action::Measure { a, b, .. }, None) => {
                let (a, b) = (place(wording, work, a), place(wording, work, b));
                wording.say("window-reading-of", &[("a", &a), ("b", &b), ("reading", &text)])
            }
            _ => text,
        }
    }
}

#[cfg(test)]
impl BenchState {
    pub(super) fn throw_away_what_is_drawn(&mut self) {
        self.drawn = None;
    }

    pub(super) fn scene(&self) -> Option<&Scene> {
        self.drawn.as_ref().map(|it| &it.scene)
    }
}
