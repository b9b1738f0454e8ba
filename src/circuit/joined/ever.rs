//! Which nets are ever joined to a given one, over every combination.
//!
//! Going back through the layered graph: for each state, which of its sets some way on from there joins to the source.
//! Every edge is looked at once, so all nets together cost little more than the graph itself.

use super::{
    contacts::Contacts,
    layered::{LayerStep, Layered, TooMany},
};

/// For each net whether some combination joins it to the source. Through closed contacts and conductors only: what is
/// energised through a lamp alone is not in the joined view.
///
/// # Errors
/// [`TooMany`].
pub fn ever_joined(contacts: &Contacts, source: usize) -> Result<Vec<bool>, TooMany> {
    let merged = contacts.merged();
    let Some(root) = merged.get(source).copied() else { return Ok(vec![false; contacts.nets()]) };
    let graph = Layered::new(contacts, &[source], &[])?;
    let mut found = vec![false; contacts.nets()];
    found[root] = true;
    // At the end the source's own set, the first and only one, is all that is left.
    let mut after: Vec<Vec<bool>> = vec![vec![true]; graph.ends()];
    let mut step = LayerStep::default();
    for layer in graph.layers().iter().rev() {
        let turn = &layer.turn;
        let ways = turn.pairs.len();
        let mut before = Vec::with_capacity(layer.states.len());
        for number in 0..layer.states.len() {
            let state = layer.states.get(number);
            let mut sets = vec![false; turn.open];
            for (position, pairs) in turn.pairs.iter().enumerate() {
                let next = &after[layer.next[number * ways + position] as usize];
                step.take(turn, state, pairs, false);
                let reaches = |place: usize| {
                    step.labels.get(place).and_then(|it| step.after(*it)).is_some_and(|it| next[usize::from(it)])
                };
                for place in 0..turn.open {
                    sets[usize::from(state[place + 1])] |= reaches(place);
                }
                for (index, net) in turn.fresh.iter().enumerate() {
                    found[*net] |= reaches(turn.open + index);
                }
            }
            before.push(sets);
        }
        after = before;
    }
    Ok(merged.iter().map(|it| found[*it]).collect())
}
