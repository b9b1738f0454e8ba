//! Runs: the ways of the cables that the learner chooses. Before the choice no cable lies there. Once chosen, it is a cable of
//! the exercise like any other, and everything that follows from cables follows from it.

use std::sync::Arc;

use super::{
    address::nearest,
    rows::{Cable, Conductor},
    table::{EndId, LocationId},
    tables::Exercise,
};
use crate::trade::{
    cable::{CableKind, CrossSection},
    carrying::Laid,
};

/// The way of a cable that the learner chooses.
#[derive(Debug, Clone, PartialEq)]
pub struct Run {
    /// Its address, and that of the cable once there is one.
    pub id: String,
    /// What people call it.
    pub name: String,
    /// Length, metres.
    pub metres: f64,
    /// Its two locations.
    pub between: [LocationId; 2],
    /// How it is laid.
    pub laid: Laid,
    /// The cables to choose from.
    pub offers: Vec<Offer>,
    /// The cable chosen, by its place in [`super::Tables::cables`].
    pub cable: Option<usize>,
}

/// A cable to choose.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Offer {
    /// Its kind.
    pub kind: CableKind,
    /// Size of its live cores.
    pub live: CrossSection,
    /// Size of its cpc.
    pub cpc: CrossSection,
}

impl Exercise {
    /// The run of that address, by its place in [`super::Tables::runs`].
    ///
    /// # Errors
    /// The valid address nearest to the one given, if one is near.
    pub fn run(&self, address: &str) -> Result<usize, Option<String>> {
        let found = self.runs.iter().position(|it| it.id == address);
        found.ok_or_else(|| nearest(address, self.runs.iter().map(|it| it.id.as_str())))
    }

    /// The run, still without a cable, to which a core or an end of that address would belong.
    pub fn unchosen(&self, address: &str) -> Option<&Run> {
        let cable = address.split(['/', '@']).next()?;
        self.runs.iter().find(|it| it.cable.is_none() && it.id == cable)
    }

    /// The exercise as drawn, with no cable chosen.
    #[must_use]
    pub fn as_drawn(self: Arc<Self>) -> Arc<Self> {
        match &self.drawn {
            Some(it) => Arc::clone(it),
            None => self,
        }
    }

    /// The exercise as drawn, with what has been chosen laid in its runs: an offer for each, if any. The cables that it had
    /// before keep their places, and so do the ends of these.
    pub(crate) fn fitted(self: &Arc<Self>, chosen: &[Option<Offer>]) -> Arc<Self> {
        let drawn = Arc::clone(self).as_drawn();
        let mut exercise = (*drawn).clone();
        exercise.lay_all(chosen);
        exercise.drawn = Some(drawn);
        Arc::new(exercise)
    }

    /// The exercise with most cores and most copper of what is on offer in every run, perhaps more than any one cable there has:
    /// what fails with it fails whatever is chosen.
    #[must_use]
    pub(crate) fn with_most(&self) -> Self {
        let most = |run: &Run| {
            let kind = run.offers.iter().map(|it| it.kind).max_by_key(|it| it.insulated())?;
            let live = run.offers.iter().map(|it| it.live).max()?;
            let cpc = run.offers.iter().map(|it| it.cpc).max()?;
            Some(Offer { kind, live, cpc })
        };
        let mut exercise = self.clone();
        exercise.lay_all(&self.runs.iter().map(most).collect::<Vec<_>>());
        exercise
    }

    fn lay_all(&mut self, chosen: &[Option<Offer>]) {
        for index in 0..self.runs.len() {
            let Some(Offer { kind, live, cpc }) = chosen.get(index).copied().flatten() else { continue };
            self.tables.runs[index].cable = Some(self.cables.len());
            let run = &self.runs[index];
            let (id, name) = (run.id.clone(), run.name.clone());
            let (metres, between) = (run.metres, run.between);
            self.lay(Cable { id, name, kind, live, cpc, metres, between, first_conductor: 0 });
        }
    }

    /// Adds a cable, with nothing of it connected, and its cores.
    pub(super) fn lay(&mut self, cable: Cable) {
        let (index, first_conductor) = (self.cables.len(), self.conductors.len());
        for core in cable.kind.cores() {
            let address = format!("{}/{}", cable.id, core.name);
            let conductor = self.conductors.len();
            let size = if core.colour.is_protective() { cable.cpc } else { cable.live };
            self.names.conductors.insert(address.clone(), conductor);
            for (end, location) in EndId::of(conductor).into_iter().zip(cable.between) {
                let at = &self.locations[location].id;
                self.names.ends.insert(format!("{address}@{at}"), end);
                self.tables.start.push(None);
            }
            self.tables.conductors.push(Conductor { address, cable: index, colour: core.colour, size });
        }
        self.tables.cables.push(Cable { first_conductor, ..cable });
    }
}
