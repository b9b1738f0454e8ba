//! Everything joined: a wiring looked for, spare cores parked, protective conductors to their terminals, tails made up; one place after
//! another and one terminal after another, as a person works.

use super::{Lacks, Solver};
use crate::{
    advice::{
        Carries,
        next_join::sleeve,
        wiring::{Wiring, wiring_left},
    },
    exercise::{EndId, LocationId, LocationKind, Stage, TerminalId, TerminalUse},
    trade::{
        accessory::Material,
        colour::{Colour, Job, Mark},
        workmanship::{HANGING_MM, SHEATH_INSIDE_MM},
    },
    work::{Action, Edit, Feel, Prep, Work},
};

/// Core that is left over when a sheath is taken back, to be cut off at the tip, mm.
const TO_CUT_MM: u16 = 40;

/// What is to be joined.
#[derive(Debug, Default)]
struct HandworkPlan {
    ends: Vec<Joining>,
    /// Conductors made up by hand between two terminals of one place.
    made: Vec<([TerminalId; 2], Job)>,
}

/// An end, the terminal that it goes into, and what it is to be marked as; a spare core as nothing.
#[derive(Debug, Clone, Copy)]
struct Joining {
    end: EndId,
    terminal: TerminalId,
    job: Option<Job>,
}

impl Solver {
    pub(super) fn joins_everything(&mut self) -> Result<(), Lacks> {
        let plan = self.plan()?;
        for place in self.exercise().locations.ids() {
            self.joins_at(place, &plan)?;
        }
        Ok(())
    }

    fn plan(&self) -> Result<HandworkPlan, Lacks> {
        let work = self.attempt.work();
        let found = match wiring_left(work) {
            Wiring::Found(found) => found,
            Wiring::Nothing(control) => return Err(Lacks::Wiring(control)),
            Wiring::Unknown => return Err(Lacks::WiringUnknown),
        };
        let live = found.ends.iter().zip(&found.carries);
        let ends = live.map(|((end, terminal), it)| Joining { end: *end, terminal: *terminal, job: Some(it.job()) });
        let made = found.links.iter().map(|(both, carries): &(_, Carries)| (*both, carries.job()));
        let mut plan = HandworkPlan { ends: ends.collect(), made: made.collect() };
        plan.spares(work);
        plan.earths(work)?;
        // What stands where it belongs stays.
        plan.ends.retain(|it| work.terminal_of(it.end) != Some(it.terminal));
        Ok(plan)
    }

    fn joins_at(&mut self, place: LocationId, plan: &HandworkPlan) -> Result<(), Lacks> {
        let exercise = self.exercise();
        let is_here = |it: TerminalId| exercise.terminals[it].location == place;
        let made: Vec<_> = plan.made.iter().filter(|it| is_here(it.0[0])).collect();
        let mut joins: Vec<Joining> = plan.ends.iter().copied().filter(|it| is_here(it.terminal)).collect();
        if joins.is_empty() && made.is_empty() {
            return Ok(());
        }
        let location = || exercise.locations[place].id.clone();
        self.opens(place)?;
        let preps = well_made(self.attempt.work(), &joins);
        if self.attempt.work().wants_grommet(place) {
            self.does(Action::Grommet { location: location() })?;
        }
        self.takes_sheaths_back(place, &preps)?;
        for (both, job) in made {
            let colour = match job {
                Job::Line => Colour::Brown,
                Job::Neutral => Colour::Blue,
                Job::Protective => Colour::GreenYellow,
            };
            let ends = EndId::of(self.attempt.work().conductor_count());
            self.does(Action::MakeUp { location: location(), colour })?;
            joins.extend(ends.into_iter().zip(both).map(|(end, it)| Joining { end, terminal: *it, job: Some(*job) }));
        }
        for it in &joins {
            if self.attempt.work().terminal_of(it.end).is_some() {
                self.does(Action::Disconnect { end: self.attempt.work().end_address(it.end) })?;
            }
        }
        let mut terminals: Vec<TerminalId> = Vec::new();
        for it in &joins {
            if !terminals.contains(&it.terminal) {
                terminals.push(it.terminal);
            }
        }
        for terminal in terminals {
            let into: Vec<Joining> = joins.iter().copied().filter(|it| it.terminal == terminal).collect();
            self.joins_in(terminal, &into, &preps)?;
        }
        let by_hand = self.attempt.work().ends_at(place).any(|it| self.attempt.work().prep_of(it).is_some());
        if by_hand && matches!(exercise.locations[place].kind, LocationKind::Box(_)) {
            self.does(Action::Dress { location: location() })?;
        }
        Ok(())
    }

    /// Ends into a terminal, its screw, and a pull at those that were made ready by hand.
    fn joins_in(&mut self, terminal: TerminalId, into: &[Joining], preps: &[(EndId, Prep)]) -> Result<(), Lacks> {
        let exercise = self.exercise();
        let address = || exercise.terminals[terminal].address.clone();
        for it in into {
            let end = || self.attempt.work().end_address(it.end);
            let (name, job) = (end(), it.job);
            if let Some((_, prep)) = preps.iter().find(|made| made.0 == it.end) {
                self.makes_ready(it.end, *prep)?;
            }
            if let Some(colour) = job.and_then(|job| sleeve(self.attempt.work(), it.end, job)) {
                self.does(Action::Mark { end: name.clone(), mark: Mark::Sleeve(colour) })?;
            }
            self.does(Action::Connect { end: name, terminal: address() })?;
        }
        self.does(Action::Tighten { terminal: address(), feel: Feel::Right })?;
        for it in into.iter().filter(|it| preps.iter().any(|made| made.0 == it.end)) {
            self.does(Action::Tug { end: self.attempt.work().end_address(it.end) })?;
        }
        Ok(())
    }

    /// The sheaths of a place's cables back, far enough for every core; where the exercise asks for it, each core proved dead at the cut.
    fn takes_sheaths_back(&mut self, place: LocationId, preps: &[(EndId, Prep)]) -> Result<(), Lacks> {
        let exercise = self.exercise();
        for (index, cable) in exercise.cables.iter().enumerate() {
            let work = self.attempt.work();
            if work.sheath_off(index, place) != Some(0) {
                continue;
            }
            let of_it = |it: &EndId| work.cores_at(index, place).any(|core| core == *it);
            let longest = preps.iter().filter(|(end, _)| of_it(end)).map(|(_, prep)| prep.core_mm).max();
            if let Some(longest) = longest {
                let mm = longest.saturating_add(TO_CUT_MM).min(HANGING_MM - SHEATH_INSIDE_MM);
                self.does(Action::Sheath {
                    cable: cable.id.clone(),
                    location: exercise.locations[place].id.clone(),
                    mm,
                })?;
            }
        }
        if exercise.asks(Stage::Isolation) { self.proves_dead(&[place]) } else { Ok(()) }
    }

    /// Cut, strip and fold.
    fn makes_ready(&mut self, end: EndId, wanted: Prep) -> Result<(), Lacks> {
        let work = self.attempt.work();
        let (name, size) = (work.end_address(end), work.end_facts(end).size.mm2());
        if work.prep_of(end).is_some_and(|it| it.core_mm > wanted.core_mm) {
            self.does(Action::Cut { end: name.clone(), mm: wanted.core_mm })?;
        }
        if wanted.strip_mm > 0 {
            #[expect(clippy::cast_sign_loss, reason = "a size is above nothing")]
            let jaw = (100.0 * size).round() as u16;
            self.does(Action::Strip { end: name.clone(), mm: wanted.strip_mm, jaw })?;
        }
        if wanted.folded {
            self.does(Action::Fold { end: name })?;
        }
        Ok(())
    }
}

/// How each end that is the learner's to make ready is to be made for where it goes, with all of them there.
fn well_made(work: &Work, joins: &[Joining]) -> Vec<(EndId, Prep)> {
    let mut supposed = work.clone();
    for it in joins {
        supposed.edit(&Edit::Move(it.end, Some(it.terminal)));
    }
    joins.iter().filter_map(|it| Some((it.end, supposed.well_made(it.end)?))).collect()
}

impl HandworkPlan {
    /// How many more conductors a terminal takes when all that is planned so far is done.
    fn room(&self, work: &Work, terminal: TerminalId) -> usize {
        let leaves = self.ends.iter().filter(|it| work.terminal_of(it.end) == Some(terminal)).count();
        let comes = self.ends.iter().filter(|it| it.terminal == terminal).count();
        let made = self.made.iter().flat_map(|(both, _)| both).filter(|end| **end == terminal).count();
        (work.room_in(terminal) + leaves).saturating_sub(comes + made)
    }

    /// Whether nothing is in a terminal, and nothing is to go there.
    fn is_empty(&self, work: &Work, terminal: TerminalId) -> bool {
        let stays = |it: &EndId| !self.ends.iter().any(|join| join.end == *it);
        let comes = self.ends.iter().any(|it| it.terminal == terminal)
            || self.made.iter().any(|(both, _)| both.contains(&terminal));
        !comes && !work.ends_in(terminal).any(|it| stays(&it))
    }

    /// Live cores that nothing needs, each into an empty connector; without an empty connector a core stays as it is.
    fn spares(&mut self, work: &Work) {
        let exercise = work.exercise();
        let altered = exercise.ends_to_alter();
        for end in exercise.start.ids() {
            let is_mine = !work.is_landed(end) && exercise.is_learners(end) || altered.contains(&end);
            let is_live = !work.end_facts(end).colour.is_protective();
            let is_planned = self.ends.iter().any(|it| it.end == end);
            let place = work.end_location(end);
            if !is_mine || !is_live || is_planned || !exercise.opens(place) {
                continue;
            }
            let is_connector = |it: &TerminalId| matches!(exercise.terminals[*it].used_by, TerminalUse::Connector(_));
            let here = exercise.terminals_at(place).filter(is_connector);
            let into = here.into_iter().find(|it| self.is_empty(work, *it));
            self.ends.extend(into.map(|terminal| Joining { end, terminal, job: None }));
        }
    }

    /// Free protective conductors to the earth terminals of their places, and tails to metal that none of them comes to.
    fn earths(&mut self, work: &Work) -> Result<(), Lacks> {
        let exercise = work.exercise();
        let protective = |it: &EndId| work.end_facts(*it).colour.is_protective();
        for place in exercise.locations.ids().filter(|it| exercise.opens(*it)) {
            let free: Vec<EndId> = work.ends_at(place).filter(|it| protective(it) && !work.is_landed(*it)).collect();
            if free.is_empty() {
                continue;
            }
            let has_one = |it: &TerminalId| work.ends_in(*it).any(|end| work.is_landed(end) && protective(&end));
            let mut earths: Vec<TerminalId> =
                exercise.terminals_at(place).filter(|it| exercise.is_for_earth(*it)).collect();
            // Where one is already, else the box's, from which a tail goes to the plate.
            earths.sort_by_key(|it| (!has_one(it), exercise.terminals[*it].used_by != TerminalUse::BoxEarth));
            let connectors: Vec<TerminalId> = exercise
                .terminals_at(place)
                .filter(|it| matches!(exercise.terminals[*it].used_by, TerminalUse::Connector(_)))
                .filter(|it| earths.is_empty() && self.is_empty(work, *it))
                .collect();
            let mut used = Vec::new();
            for end in free {
                let into = earths.iter().chain(&connectors).copied().find(|it| self.room(work, *it) > 0);
                let terminal = into.ok_or(Lacks::Earth(place))?;
                used.push(terminal);
                self.ends.push(Joining { end, terminal, job: Some(Job::Protective) });
            }
            let Some(main) = used.first().copied() else { continue };
            let metal = metal_at(work, place).into_iter().filter(|it| !used.contains(it) && !has_one(it));
            self.made.extend(metal.map(|it| ([main, it], Job::Protective)));
        }
        Ok(())
    }
}

/// The earth terminals of a place's metal.
fn metal_at(work: &Work, place: LocationId) -> Vec<TerminalId> {
    let exercise = work.exercise();
    let LocationKind::Box(it) = &exercise.locations[place].kind else { return Vec::new() };
    let metal = [(it.body == Material::Metal, TerminalUse::BoxEarth), (it.earths_metal(), TerminalUse::PlateEarth)];
    let used = metal.into_iter().filter_map(|(is_metal, used_by)| is_metal.then_some(used_by));
    used.filter_map(|used_by| exercise.terminal_used(place, used_by)).collect()
}
