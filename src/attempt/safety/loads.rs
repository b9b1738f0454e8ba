//! What feeds a place, shown by a load: it goes out as its device is switched off, and comes back as it is switched on again
//! (the charter, "**Identified** means"). Where no load works, it is shown at the open board: by the long lead to the outgoing
//! terminal, or because nothing is connected there. A light that goes out is identification, never proof of dead.

use std::collections::{BTreeMap, BTreeSet};

use super::{Safety, Work};
use crate::{
    attempt::testing::JOINED_OHMS,
    circuit::{self, Glow},
    exercise::{DeviceId, Keeper, LampId, Sets, Stage},
    work::{Action, Point, Power},
};

/// What was seen of the loads.
#[derive(Debug, Clone, Default)]
pub(super) struct Loads {
    /// By device: the lamps that it can feed in the wiring as found, with the switches in any position.
    of: Vec<Vec<LampId>>,
    /// The lamps that went out when a device was last switched off.
    out: BTreeMap<DeviceId, BTreeSet<LampId>>,
    /// Devices with which a lamp went out and came back, or that were shown at the open board.
    seen: BTreeSet<DeviceId>,
    /// Whether devices can be shown at the open board.
    at_board: bool,
}

impl Loads {
    /// The loads of the work as it is found. On a supervised board the card says what is off.
    pub fn of(work: &Work) -> Self {
        let exercise = work.exercise();
        if exercise.board == Keeper::Supervisor {
            return Self::default();
        }
        let mut ever = work.joined_ever();
        let devices = exercise.devices.ids();
        let of = devices.map(|it| fed_by(work, &mut ever, it)).collect();
        Self { of, at_board: work.opens_board(), ..Self::default() }
    }

    fn is_shown(&self, device: DeviceId) -> bool {
        let has_none = self.of.get(device.index()).is_none_or(Vec::is_empty);
        has_none && !self.at_board || self.seen.contains(&device)
    }
}

/// The lamps between a device's line and its neutral, with every switch in any of its positions.
fn fed_by(work: &Work, ever: &mut Sets, device: DeviceId) -> Vec<LampId> {
    let exercise = work.exercise();
    let it = &exercise.devices[device];
    let common = it.behind.map(|of| exercise.devices[of].neutral);
    let lamps = exercise.lamps.ids();
    lamps
        .filter(|lamp| {
            let contacts = exercise.lamps[*lamp].contacts.map(crate::exercise::TerminalId::index);
            let line = contacts.map(|at| ever.same(at, it.line.index()));
            let neutral = contacts.map(|at| {
                ever.same(at, it.neutral.index()) || common.is_some_and(|common| ever.same(at, common.index()))
            });
            line[0] && neutral[1] || line[1] && neutral[0]
        })
        .collect()
}

impl Safety {
    /// Whether a device was shown to be the one: a load of its circuit went out and came back with it, or it was shown
    /// at the open board. Naming it is enough if no load works on a board not the learner's, or dead tests go by pairs.
    pub fn is_shown_by_load(&self, device: DeviceId) -> bool {
        self.reference.is_none() || self.loads.is_shown(device)
    }

    /// The board is open: a device with nothing in its outgoing terminals feeds nothing.
    pub(super) fn note_board_seen(&mut self, work: &Work) {
        for (id, it) in work.exercise().devices.with_ids() {
            if [it.line, it.neutral].into_iter().all(|it| work.ends_in(it).next().is_none()) {
                self.loads.seen.insert(id);
            }
        }
    }

    /// A reading of continuity by the long lead: low, from a device's outgoing terminal to somewhere else with everything locked
    /// off, it shows what that device feeds.
    pub(super) fn note_long_lead(&mut self, work: &Work, [a, b]: [Point; 2]) {
        if !work.is_all_locked_off() || circuit::ohms_between(work, a, b) >= JOINED_OHMS {
            return;
        }
        for (id, it) in work.exercise().devices.with_ids() {
            let outgoing = [it.line, it.neutral].map(Point::Terminal);
            let to_place = |from: Point, to: Point| outgoing.contains(&from) && !work.is_board(work.point_location(to));
            if to_place(a, b) || to_place(b, a) {
                self.loads.seen.insert(id);
            }
        }
    }

    /// Whether handwork may have begun: until then a device is switched on and off to see what it feeds.
    pub(in crate::attempt) fn has_begun(&self, work: &Work) -> bool {
        self.reference.is_none() || self.ever_proved.iter().any(|it| *it) || !work.exercise().asks(Stage::Isolation)
    }

    /// The device that an action works before the work has begun: the lamps that go out or come on with it are watched.
    pub(in crate::attempt) fn watches(&self, work: &Work, action: &Action) -> Option<DeviceId> {
        let (Action::PowerOff { device } | Action::PowerOn { device }) = action else { return None };
        work.device(device).ok().filter(|_| !self.has_begun(work))
    }

    /// Notes which lamps were lit before and after a device was worked, and gives those that went out or came on.
    pub(in crate::attempt) fn note_loads(
        &mut self,
        work: &Work,
        device: DeviceId,
        before: &BTreeSet<LampId>,
        after: &BTreeSet<LampId>,
    ) -> Vec<LampId> {
        let changed: BTreeSet<LampId> = before.symmetric_difference(after).copied().collect();
        if work.device_state(device).power == Power::On {
            let went = self.loads.out.remove(&device).unwrap_or_default();
            if changed.intersection(&went).next().is_some() {
                self.loads.seen.insert(device);
            }
        } else {
            self.loads.out.insert(device, changed.clone());
        }
        changed.into_iter().collect()
    }
}

/// The lamps that can be seen to be lit.
pub(in crate::attempt) fn lit(work: &Work) -> BTreeSet<LampId> {
    let lamps = work.exercise().lamps.ids().zip(circuit::lamps_now(work));
    lamps.filter(|(lamp, it)| work.is_lamp_in(*lamp) && it.glow == Glow::Lit).map(|it| it.0).collect()
}
