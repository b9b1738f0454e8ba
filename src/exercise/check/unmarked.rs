//! What has no mark: cables of one look with free ends at a place, or the terminals of one switch, that readings can tell apart.

use std::collections::BTreeSet;

use super::Checker;
use crate::exercise::{
    file::{ScenarioFile, Stage, UnmarkedFile},
    limits::Limits,
    placed::Placed,
    problem::ProblemCode,
    rows::TerminalUse,
    table::{LocationId, TerminalId},
    unmarked::{Unmarked, UnmarkedThing, is_told_by_contacts},
};

impl Checker<'_> {
    pub(super) fn unmarked(&mut self, file: &ScenarioFile<'_>) {
        let mut ways: usize = 1;
        for it in &file.unmarked {
            let found = self.find(ProblemCode::UnknownLocation, &it.at, self.exercise.location(&it.at));
            let Some(location) = found else { continue };
            let count = it.cables.len() + it.terminals.len();
            if count < 2 || !it.cables.is_empty() && !it.terminals.is_empty() {
                self.problem(ProblemCode::BadUnmarked, &it.at, it.at.value.clone(), "");
                continue;
            }
            ways = (1..=count).fold(ways, usize::saturating_mul);
            if ways > Limits::NAMINGS {
                let most = Limits::NAMINGS.to_string();
                self.problem(ProblemCode::TooManyNamings, &it.at, ways.to_string(), most);
                return;
            }
            let mut things = self.cables_without_mark(it, location);
            things.extend(self.terminals_without_letter(it, location));
            if things.len() == count {
                self.exercise.tables.unmarked.push(Unmarked { location, things });
            }
        }
        let asks = file.stages.iter().any(|it| it.value == Stage::Naming);
        if asks == file.unmarked.is_empty() {
            let at = file.stages.iter().find(|it| it.value == Stage::Naming);
            let at = at.map_or(file.format.span(self.text), |it| it.span(self.text));
            self.problems.push(crate::exercise::Problem::new(ProblemCode::NamingOfNothing, at, "", ""));
        }
    }

    /// Cables that nothing tells apart there: of one kind and size, every end free, each once.
    fn cables_without_mark(&mut self, of: &UnmarkedFile<'_>, location: LocationId) -> Vec<UnmarkedThing> {
        let mut things = Vec::new();
        let mut look = None;
        for name in &of.cables {
            let found = self.exercise.cables.iter().position(|it| it.id == name.value);
            let nearest = super::nearest(name, self.exercise.cables.iter().map(|it| it.id.as_str()));
            let Some(index) = self.find(ProblemCode::UnknownCable, name, found.ok_or(nearest)) else { continue };
            let cable = &self.exercise.cables[index];
            let its = (cable.kind, cable.live);
            let is_alike = *look.get_or_insert(its) == its;
            let comes_here = cable.between.contains(&location);
            let side = usize::from(cable.between[0] != location);
            let cores = cable.first_conductor..cable.first_conductor + cable.kind.cores().len();
            let mut ends = cores.map(|it| crate::exercise::EndId::of(it)[side]);
            let is_free = ends.all(|it| self.exercise.start[it].is_none());
            self.thing(&mut things, name, UnmarkedThing::Cable(index), comes_here && is_alike && is_free, location);
        }
        things
    }

    /// The terminals of one switch, all of them, with nothing in them, that readings can tell apart.
    fn terminals_without_letter(&mut self, of: &UnmarkedFile<'_>, location: LocationId) -> Vec<UnmarkedThing> {
        let mut things = Vec::new();
        let mut terminals: BTreeSet<TerminalId> = BTreeSet::new();
        for name in &of.terminals {
            let found = self.exercise.terminal(name);
            let Some(terminal) = self.find(ProblemCode::UnknownTerminal, name, found) else { continue };
            let is_here = self.exercise.terminals[terminal].location == location;
            let is_empty = !self.exercise.start.iter().flatten().any(|it| it.terminal == terminal);
            terminals.insert(terminal);
            self.thing(&mut things, name, UnmarkedThing::Terminal(terminal), is_here && is_empty, location);
        }
        let Some(first) = terminals.first().copied() else { return things };
        let is_told = match self.exercise.terminals[first].used_by {
            TerminalUse::Contact(switch, _) => {
                let switch = &self.exercise.switches[switch];
                switch.terminals.iter().copied().collect::<BTreeSet<_>>() == terminals && is_told_by_contacts(switch)
            }
            _ => false,
        };
        if !is_told && things.len() == of.terminals.len() {
            self.problem(ProblemCode::BadUnmarked, &of.at, of.at.value.clone(), "");
        }
        things
    }

    fn thing(
        &mut self,
        things: &mut Vec<UnmarkedThing>,
        name: &Placed<'_, String>,
        thing: UnmarkedThing,
        fits: bool,
        location: LocationId,
    ) {
        let groups = self.exercise.unmarked.iter().filter(|group| group.location == location);
        let mut there = groups.flat_map(|group| &group.things);
        if !fits || things.contains(&thing) || there.any(|it| *it == thing) {
            self.problem(ProblemCode::BadUnmarked, name, name.value.clone(), "");
        }
        things.push(thing);
    }
}
