//! What a terminal adds to the conductor in it, and which of them get hot.

use super::{
    network::{Conditions, Part},
    settle::settle,
};
use crate::{
    exercise::EndId,
    trade::{
        accessory::{LOOSE_CONTACT_OHMS, SOUND_CONTACT_OHMS},
        workmanship::{COVERED_OHMS, CRUSHED_OHMS, HOT_WATTS, NICKED_OHMS, UNLIKE_OHMS},
    },
    work::Work,
};

/// Resistance between a conductor and the terminal it is in, with what its own preparation adds, ohms; 0 in nothing.
pub(super) fn contact_ohms(work: &Work, end: EndId) -> f64 {
    let Some(terminal) = work.terminal_of(end) else { return 0.0 };
    let mut ohms = if work.is_tight(terminal) { SOUND_CONTACT_OHMS } else { LOOSE_CONTACT_OHMS };
    if let (Some(prep), Some(fit)) = (work.prep_of(end), work.fit_of(end)) {
        let least = work.exercise().terminals[terminal].capacity.hold.least_mm();
        if fit.short_mm > 0.0 && least > 0.0 {
            ohms += COVERED_OHMS * fit.short_mm / least;
        }
        for (there, more) in [(fit.unlike, UNLIKE_OHMS), (prep.crushed, CRUSHED_OHMS), (prep.nicked, NICKED_OHMS)] {
            if there {
                ohms += more;
            }
        }
    }
    ohms
}

/// A terminal that gets hot with everything on.
#[derive(Debug, Clone, PartialEq)]
pub struct HotJoint {
    /// The end in it.
    pub end: EndId,
    /// Heat made there, watts.
    pub watts: f64,
    /// Volts lost there.
    pub volts: f64,
    /// The positions in which it is most.
    pub positions: Vec<u8>,
}

/// The joints that get hot at the load of their circuit in any of these combinations of positions. Where a device opens
/// there is no load.
pub fn hot_joints(work: &Work, settings: &[Vec<u8>]) -> Vec<HotJoint> {
    let poor: Vec<EndId> = work.ends().filter(|it| contact_ohms(work, *it) > 2.0 * SOUND_CONTACT_OHMS).collect();
    let mut hot: Vec<HotJoint> = Vec::new();
    if poor.is_empty() {
        return hot;
    }
    for positions in settings {
        let settled = settle(work, Conditions::complete(work.exercise(), positions.clone()));
        for end in &poor {
            let Some(branch) = settled.network.part(Part::Conductor(end.conductor())) else { continue };
            let (amps, ohms) = (branch.amps(&settled.solution).abs(), contact_ohms(work, *end));
            let (watts, volts) = (amps * amps * ohms, amps * ohms);
            if !settled.opened.is_empty() || watts < HOT_WATTS {
                continue;
            }
            match hot.iter_mut().find(|it| it.end == *end) {
                Some(it) if it.watts >= watts => {}
                Some(it) => *it = HotJoint { end: *end, watts, volts, positions: positions.clone() },
                None => hot.push(HotJoint { end: *end, watts, volts, positions: positions.clone() }),
            }
        }
    }
    hot
}
