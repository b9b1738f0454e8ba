//! `reason-wrong`: the reason given for a cable is what decides between those on offer. Each reason says what a lesser cable
//! would fail in, and that is tried: by the cores that its lights need, or with the thinner size in its place. Where the cable
//! itself is wrong that is the fault, and its reason is not asked.

use crate::{
    circuit::{HazardKind, cores_needed, survey},
    exercise::Offer,
    marking::{
        code::{Code, Weight},
        context::Context,
        finding::Draft,
    },
    trade::{cable::CrossSection, carrying::LIGHTING_DROP_VOLTS},
    work::{Chosen, Edit, Reason, Subject},
};

use super::cable::{carries, fed_at, lost};

pub(super) fn check(ctx: &Context<'_>, found: &mut Vec<Draft>) {
    for (run, chosen) in ctx.work.chosen().iter().enumerate() {
        let Some(chosen) = chosen else { continue };
        let judged = ReasonCheck { ctx, run, chosen: *chosen };
        if judged.stands() && judged.is_right() == Some(false) {
            found.push(Draft::new(Code::ReasonWrong, Subject::Run(run), Weight::Major).about(chosen.reason.word()));
        }
    }
}

struct ReasonCheck<'a> {
    ctx: &'a Context<'a>,
    run: usize,
    chosen: Chosen,
}

impl ReasonCheck<'_> {
    /// Whether the cable chosen will do.
    fn stands(&self) -> bool {
        let size = self.chosen.offer.live;
        !self.lacks_cores(self.chosen.offer) && self.is_thin(size) != Some(true) && self.loses(size) != Some(true)
    }

    /// Whether the reason holds; `None` where the work as it stands does not tell.
    fn is_right(&self) -> Option<bool> {
        let insulated = self.chosen.offer.kind.insulated();
        match self.chosen.reason {
            Reason::Usual => Some(false),
            Reason::Cores => {
                let needed = cores_needed(self.ctx.exercise(), self.run);
                let fewer = |it: &&Offer| it.kind.insulated() < insulated;
                Some(self.offers().iter().filter(fewer).any(|it| !needed.is_enough(it.kind.insulated())))
            }
            Reason::Current => self.any_thinner(|it| self.is_thin(it)),
            Reason::VoltDrop => self.any_thinner(|it| self.loses(it)),
            Reason::Disconnection => self.any_thinner(|it| Some(self.stays_on(it))),
            Reason::Any => {
                if self.offers().iter().any(|it| self.lacks_cores(*it)) {
                    return Some(false);
                }
                let fails = [
                    self.any_thinner(|it| self.is_thin(it))?,
                    self.any_thinner(|it| self.loses(it))?,
                    self.any_thinner(|it| Some(self.stays_on(it)))?,
                ];
                Some(!fails.contains(&true))
            }
        }
    }

    fn offers(&self) -> &[Offer] {
        &self.ctx.exercise().runs[self.run].offers
    }

    /// Whether something holds for any thinner size on offer; `None` if it holds for none and for one cannot be told.
    fn any_thinner(&self, so: impl Fn(CrossSection) -> Option<bool>) -> Option<bool> {
        let mut sizes: Vec<CrossSection> =
            self.offers().iter().map(|it| it.live).filter(|it| *it < self.chosen.offer.live).collect();
        sizes.sort_unstable();
        sizes.dedup();
        let said: Vec<Option<bool>> = sizes.into_iter().map(so).collect();
        if said.contains(&Some(true)) {
            return Some(true);
        }
        (!said.contains(&None)).then_some(false)
    }

    fn lacks_cores(&self, offer: Offer) -> bool {
        cores_needed(self.ctx.exercise(), self.run).lost_with(offer.kind.insulated()).next().is_some()
    }

    fn is_thin(&self, size: CrossSection) -> Option<bool> {
        fed_at(self.ctx, self.run).map(|amps| !carries(&self.ctx.work, self.run, size, amps))
    }

    fn loses(&self, size: CrossSection) -> Option<bool> {
        lost(self.ctx, Some((self.run, size))).map(|it| it.volts > LIGHTING_DROP_VOLTS)
    }

    /// Whether some first fault is not cut off in time with this size, though it is with the one chosen.
    fn stays_on(&self, size: CrossSection) -> bool {
        let count = |hazards: &[crate::circuit::Hazard]| {
            hazards.iter().filter(|it| it.kind == HazardKind::NoDisconnection).count()
        };
        let mut work = self.ctx.work.clone();
        work.edit(&Edit::Refit(self.run, size));
        count(&survey(&work).hazards) > count(&self.ctx.survey.hazards)
    }
}
