//! The tester's probes and the test link at the wrong time or place: dead tests on what is on, live tests outside their stage.

use super::{ActKind, Safety, Work};
use crate::{circuit, exercise::Stage, trade::instrument::Function, work::Subject};

impl Safety {
    /// A dead test or a test link on something energised; or at a place not yet proved dead. In the board the main switch
    /// is off first: nothing else makes its bars dead.
    pub(super) fn stops_dead(&self, work: &Work, at: &str) -> Option<(ActKind, Subject)> {
        let (point, at) = (work.point(at).ok()?, work.subject(at)?);
        let (exercise, location) = (work.exercise(), work.point_location(point));
        let from_afar = work.is_earth_bar(point) && work.is_covered(location);
        if from_afar && !circuit::is_energised(work, point) {
            return None;
        }
        if work.is_board(location) && !work.is_board_to_open(location) {
            return work.is_supplied().then_some((ActKind::WorkedLive, at));
        }
        if work.is_board(location) && work.is_supplied() {
            return Some((ActKind::WorkedLive, at));
        }
        if self.is_fed(work, location) || circuit::is_energised(work, point) {
            return Some((ActKind::WorkedLive, at));
        }
        let needs_proof = exercise.asks(Stage::Isolation) && !self.reaching[location].is_empty();
        let is_fitting = exercise.lamp_at(location).is_some();
        (needs_proof && !is_fitting && !self.is_proved(location)).then_some((ActKind::TouchedUnproved, at))
    }

    /// A live test outside its stage, or with a cover off.
    pub(super) fn stops_live(
        &self,
        work: &Work,
        function: Function,
        points: [&String; 2],
    ) -> Option<(ActKind, Subject)> {
        let exercise = work.exercise();
        let live = points.into_iter().find(|address| {
            work.point(address)
                .is_ok_and(|it| self.is_fed(work, work.point_location(it)) || circuit::is_energised(work, it))
        })?;
        let stage = match function {
            Function::Loop(_) => Stage::LoopImpedance,
            Function::Rcd(_) => Stage::ResidualDevice,
            _ => Stage::SupplyPolarity,
        };
        let mut places = exercise.locations.ids();
        let in_stage =
            exercise.asks(stage) && self.before_power_on(exercise).is_none() && places.all(|it| work.is_covered(it));
        (!in_stage).then_some((ActKind::WorkedLive, work.subject(live)?))
    }
}
