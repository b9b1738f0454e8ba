//! Settings of an exercise's switches.

use super::table::SwitchId;
use super::tables::Exercise;

/// Every combination of some switches in counting order, last fastest, the others as in `positions`. The check holds
/// their number down to [`super::Limits::COMBINATIONS`].
pub(crate) fn combinations(exercise: &Exercise, switches: &[SwitchId], positions: &[u8]) -> Vec<Vec<u8>> {
    let mut all = vec![positions.to_vec()];
    for switch in switches {
        let ways = exercise.switches[*switch].way.positions();
        all = all
            .into_iter()
            .flat_map(|setting| {
                (0..ways).map(move |position| {
                    let mut next = setting.clone();
                    next[switch.index()] = position as u8;
                    next
                })
            })
            .collect();
    }
    all
}
