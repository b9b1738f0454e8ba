//! The runs: where the learner chooses the cable, and which cables are on offer.

use std::collections::BTreeSet;

use super::Checker;
use crate::exercise::{
    file::{RunFile, ScenarioFile},
    limits::Limits,
    problem::ProblemCode,
    run::{Offer, Run},
};

impl Checker<'_> {
    /// `ids` are those of the cables.
    pub(super) fn runs(&mut self, file: &ScenarioFile<'_>, ids: &mut BTreeSet<String>) {
        for it in &file.runs {
            self.id(&it.id);
            self.name(&it.name, Limits::NAME_CHARS);
            if !ids.insert(it.id.value.clone()) {
                self.problem(ProblemCode::Duplicate, &it.id, it.id.value.clone(), "");
            }
            let between = self.between(&it.metres, &it.from, &it.to);
            // Both are looked at before either is missed, so that every problem is told.
            let offers = self.offers(it);
            let Some(between) = between else { continue };
            self.exercise.tables.runs.push(Run {
                id: it.id.value.clone(),
                name: it.name.value.clone(),
                metres: it.metres.value,
                between,
                laid: it.laid,
                offers,
                cable: None,
            });
        }
    }

    fn offers(&mut self, run: &RunFile<'_>) -> Vec<Offer> {
        if run.choose.len() > Limits::OFFERS {
            self.too_many(&run.id, &run.choose.len().to_string(), Limits::OFFERS);
        }
        if run.choose.len() < 2 {
            self.problem(ProblemCode::BadOffer, &run.id, run.id.value.clone(), "");
        }
        let mut offers: Vec<Offer> = Vec::new();
        for it in &run.choose {
            let kind = it.kind.value;
            let Some((live, cpc)) = self.size(kind, &it.mm2) else { continue };
            let offer = Offer { kind, live, cpc };
            if !kind.is_fixed_wiring() || offers.contains(&offer) {
                self.problem(ProblemCode::BadOffer, &it.kind, format!("{kind:?} {}", live.mm2()), "");
            }
            offers.push(offer);
        }
        offers
    }
}
