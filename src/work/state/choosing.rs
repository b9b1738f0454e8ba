//! Choosing the cable of a run: from then on the work's own exercise has it.

use std::sync::Arc;

use super::{Point, Work};
use crate::{
    exercise::{EndId, Offer},
    trade::cable::{CableKind, CrossSection},
    work::{Reason, Refused},
};

/// A cable chosen, and the reason given for it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Chosen {
    /// The cable.
    pub offer: Offer,
    /// Why.
    pub reason: Reason,
}

impl Work {
    /// What was chosen for each run of the exercise.
    pub fn chosen(&self) -> &[Option<Chosen>] {
        &self.chosen
    }

    /// Lays the cable chosen in a run. One that is there already is pulled out for it, if no end of it is in a terminal.
    pub(super) fn choose(
        &mut self,
        cable: &str,
        (kind, live): (CableKind, CrossSection),
        reason: Reason,
    ) -> Result<(), Refused> {
        let found = self.exercise.run(cable);
        let index = found.map_err(|nearest| Refused::Unknown { address: cable.to_owned(), nearest })?;
        let run = &self.exercise.runs[index];
        let Some(offer) = run.offers.iter().copied().find(|it| it.kind == kind && it.live == live) else {
            return Err(Refused::NotOffered { cable: cable.to_owned() });
        };
        let now = Some(Chosen { offer, reason });
        if self.chosen[index] == now {
            return Err(Refused::SoAlready { at: cable.to_owned() });
        }
        if let Some(end) = self.held_in(index) {
            return Err(Refused::AlreadyConnected { end: self.end_address(end) });
        }
        self.chosen[index] = now;
        self.lay(index);
        Ok(())
    }

    /// Has another size of the same kind in a run, its ends as they are: how a repair is tried.
    pub(super) fn refit(&mut self, index: usize, size: CrossSection) {
        let Some(Some(chosen)) = self.chosen.get_mut(index) else { return };
        if let Some((live, cpc)) = chosen.offer.kind.sizes().iter().find(|it| it.0 == size) {
            (chosen.offer.live, chosen.offer.cpc) = (*live, *cpc);
            self.exercise = self.exercise.fitted(&self.offers());
        }
    }

    fn offers(&self) -> Vec<Option<Offer>> {
        self.chosen.iter().map(|chosen| chosen.map(|it| it.offer)).collect()
    }

    /// An end of the cable in a run (by index) that is in a terminal: while there is one, the cable can't be pulled out.
    pub fn held_in(&self, run: usize) -> Option<EndId> {
        let cable = self.exercise.runs.get(run)?.cable?;
        let is_of = |end: EndId| self.exercise.conductors.get(end.conductor()).is_some_and(|it| it.cable == cable);
        self.ends().find(|it| is_of(*it) && self.terminal_of(*it).is_some())
    }

    /// Takes the exercise with what is chosen now. Ends are found again by their address, made-up ones by their number; those
    /// of the run are new.
    fn lay(&mut self, run: usize) {
        let before = Arc::clone(&self.exercise);
        let next = before.fitted(&self.offers());
        let (old, new) = (before.conductors.len(), next.conductors.len());
        let pulled = before.runs[run].cable;
        let moved = |end: EndId| -> Option<EndId> {
            let conductor = end.conductor();
            let there = match before.conductors.get(conductor) {
                Some(it) if Some(it.cable) == pulled => return None,
                Some(it) => next.conductor(&it.address).ok()?,
                None => conductor - old + new,
            };
            Some(EndId::of(there)[end.index() % 2])
        };
        let mut ends = Self::start_ends(&next);
        ends.extend(self.ends.iter().skip(2 * old).copied());
        for (end, state) in self.ends.with_ids() {
            if let Some(it) = moved(end) {
                ends.put(it, *state);
            }
        }
        let sheath = |id: &str| before.cables.iter().position(|it| it.id == id).filter(|it| Some(*it) != pulled);
        let sheaths = next.cables.iter().map(|cable| sheath(&cable.id).map_or([0; 2], |it| self.sheaths[it]));
        self.sheaths = sheaths.collect::<Vec<_>>().into();
        let point = |it: Point| match it {
            Point::End(end) => moved(end).map(Point::End),
            Point::Terminal(_) => Some(it),
        };
        self.links = self.links.iter().filter_map(|[a, b]| Some([point(*a)?, point(*b)?])).collect();
        for location in next.runs[run].between {
            self.dressed.put(location, false);
        }
        self.ends = ends.into();
        self.exercise = next;
    }
}
