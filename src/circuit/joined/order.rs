//! In which order the switches are taken, so that few nets are open at a time.
//!
//! A net is open from the first switch that touches it to the last. The next switch is always the one, among those that
//! touch an open net, that leaves fewest open: for a chain that is the next in the chain.

use super::contacts::Contacts;

/// One switch in its turn, over the nets open before it and then those it opens.
#[derive(Debug, Clone)]
pub(super) struct Turn {
    /// Which switch.
    pub switch: usize,
    /// Nets open before it.
    pub open: usize,
    /// Nets that it opens.
    pub fresh: Vec<usize>,
    /// For each position the pairs it joins, as places among the open and then the fresh.
    pub pairs: Vec<Vec<(u8, u8)>>,
    /// The places that stay open after it.
    pub keep: Vec<u8>,
}

/// The turns, or the number of nets open at once where that is over 255.
pub(super) fn turns(contacts: &Contacts, watched: &[usize]) -> Result<Vec<Turn>, usize> {
    let merged = contacts.merged();
    let count = contacts.switches();
    let mut touches: Vec<Vec<u32>> = vec![Vec::new(); contacts.nets()];
    let mut nets: Vec<Vec<usize>> = Vec::with_capacity(count);
    for switch in 0..count {
        let mut here: Vec<usize> = Vec::with_capacity(8);
        for position in 0..contacts.positions(switch) {
            for (a, b) in contacts.pairs(switch, position) {
                if merged[*a] != merged[*b] {
                    here.extend([merged[*a], merged[*b]]);
                }
            }
        }
        here.sort_unstable();
        here.dedup();
        for it in &here {
            touches[*it].push(switch as u32);
        }
        nets.push(here);
    }
    let mut left: Vec<usize> = touches.iter().map(Vec::len).collect();
    let mut open: Vec<usize> = watched.to_vec();
    let mut is_open = vec![false; contacts.nets()];
    for it in watched {
        // A net watched is never closed.
        left[*it] = usize::MAX;
        is_open[*it] = true;
    }
    let mut done = vec![false; count];
    let mut waiting: Vec<usize> = watched.iter().flat_map(|net| touches[*net].iter().map(|it| *it as usize)).collect();
    waiting.sort_unstable();
    waiting.dedup();
    let mut is_waiting = vec![false; count];
    for it in &waiting {
        is_waiting[*it] = true;
    }
    let mut lowest = 0;
    let mut turns = Vec::with_capacity(count);
    for _ in 0..count {
        let cost = |switch: usize| {
            nets[switch].iter().fold(0_i32, |n, it| n + i32::from(!is_open[*it]) - i32::from(left[*it] == 1))
        };
        let best = (0..waiting.len()).min_by_key(|it| (cost(waiting[*it]), waiting[*it]));
        let switch = if let Some(it) = best {
            waiting.swap_remove(it)
        } else {
            while done[lowest] {
                lowest += 1;
            }
            lowest
        };
        done[switch] = true;
        is_waiting[switch] = true;
        let before = open.len();
        let fresh: Vec<usize> = nets[switch].iter().copied().filter(|it| !is_open[*it]).collect();
        for it in &fresh {
            is_open[*it] = true;
            for next in &touches[*it] {
                let next = *next as usize;
                if !is_waiting[next] {
                    is_waiting[next] = true;
                    waiting.push(next);
                }
            }
        }
        open.extend(&fresh);
        if open.len() > usize::from(u8::MAX) {
            return Err(open.len());
        }
        let place = |net: usize| open.iter().position(|it| *it == net).unwrap_or(0) as u8;
        let pairs = (0..contacts.positions(switch))
            .map(|position| {
                let pairs = contacts.pairs(switch, position).iter().map(|(a, b)| (merged[*a], merged[*b]));
                pairs.filter(|(a, b)| a != b).map(|(a, b)| (place(a), place(b))).collect()
            })
            .collect();
        for it in &nets[switch] {
            left[*it] -= usize::from(left[*it] != usize::MAX);
        }
        let keep: Vec<u8> = (0..open.len()).filter(|it| left[open[*it]] > 0).map(|it| it as u8).collect();
        open = keep.iter().map(|it| open[usize::from(*it)]).collect();
        turns.push(Turn { switch, open: before, fresh, pairs, keep });
    }
    Ok(turns)
}
