//! Where everything in an open location goes.
//!
//! From top to bottom: the mouths of the cables; a row of rests, one for every core, where a free end stays; lanes in
//! which conductors cross to the terminal they are in; the terminals. Rests stand on whole columns and the places in a
//! terminal between them, so no two upright runs ever lie on one another, and lanes are given out so that no two level
//! ones do. Coordinates only: nothing is drawn here.

use std::collections::BTreeMap;

use super::{
    conductor::{LEAD, PITCH},
    entry::{CableEntry, EntrySide, entries},
    groups::{Block, Panel, TerminalGroup, groups},
    lanes::{Crossing, lanes},
    shape::{Rect, Xy, whole},
    words::Words,
};
use crate::{
    exercise::{EndId, LocationId, TerminalId, TerminalUse},
    work::Work,
};

/// Height of a terminal.
pub(super) const BLOCK: f32 = 40.0;
/// Height of a terminal with its letters and the word for a slack one.
pub(super) const TERMINAL: f32 = 100.0;
/// Height of a link that is in no terminal yet.
pub(super) const TRAY_ROW: f32 = 46.0;
/// Length of such a link.
pub(super) const TRAY_LINK: f32 = 2.0 * LEAD + 50.0;
const SIDE: f32 = 42.0;
const MOUTH: f32 = 28.0;

/// A cable with its place.
#[derive(Debug)]
pub(super) struct CableIn {
    pub entry: CableEntry,
    pub mouth: Xy,
    /// For a cable from below: where it runs up.
    pub upright: f32,
}

/// A terminal with its place.
#[derive(Debug)]
pub(super) struct BlockIn {
    pub block: Block,
    pub rect: Rect,
}

/// A group of terminals with its place.
#[derive(Debug)]
pub(super) struct GroupIn {
    pub panel: Panel,
    pub blocks: Vec<BlockIn>,
    pub left: f32,
    pub right: f32,
}

/// Everything with its place.
#[derive(Debug)]
pub(super) struct Layout {
    pub frame_left: f32,
    pub frame_right: f32,
    pub frame_top: f32,
    pub cables: Vec<CableIn>,
    pub groups: Vec<GroupIn>,
    /// Where each end waits while it is free.
    pub rests: BTreeMap<EndId, f32>,
    /// Where each end enters its terminal.
    pub slots: BTreeMap<EndId, f32>,
    /// Top of the rests.
    pub rest_y: f32,
    /// Conductors on their way, each with the height of its lane.
    pub runs: Vec<(Crossing, f32)>,
    /// Top of the last straight piece before a terminal.
    pub lead_y: f32,
    /// Top of the terminals.
    pub block_y: f32,
    /// Links with both ends free.
    pub tray: Vec<usize>,
    pub right_margin: f32,
}

/// Ends of links made up here that wait at a rest, and links with both ends free.
fn made_here(work: &Work, location: LocationId) -> (Vec<EndId>, Vec<usize>) {
    let first = work.exercise().conductors.len();
    let (mut waiting, mut tray) = (Vec::new(), Vec::new());
    for (index, _) in work.made().iter().enumerate().filter(|(_, it)| it.location == location) {
        let ends = EndId::of(first + index);
        match ends.map(|it| work.terminal_of(it).is_some()) {
            [false, false] => tray.push(first + index),
            [true, false] => waiting.push(ends[1]),
            [false, true] => waiting.push(ends[0]),
            [true, true] => {}
        }
    }
    (waiting, tray)
}

impl Layout {
    pub fn of(work: &Work, location: LocationId, words: &dyn Words) -> Self {
        let entries = entries(work, location, words);
        let groups = groups(work, location, words);
        let (waiting, tray) = made_here(work, location);
        let (rest_columns, n_rest_columns) = rest_columns(&entries, &waiting);
        let (block_columns, n_block_columns) = block_columns(work, &groups);
        let n_columns = n_rest_columns.max(n_block_columns).max(7);
        let (rest_shift, block_shift) = ((n_columns - n_rest_columns) / 2, (n_columns - n_block_columns) / 2);

        let [left_margin, right_margin] = margins(&entries);
        let frame_left = left_margin;
        let frame_right = frame_left + 2.0 * SIDE + n_columns as f32 * PITCH;
        let x = |column: usize| frame_left + SIDE + column as f32 * PITCH;

        let rests: BTreeMap<EndId, f32> =
            rest_columns.iter().map(|(end, column)| (*end, x(column + rest_shift))).collect();
        let slots = slots(work, &groups, &block_columns, &rest_columns, |it| x(it + block_shift));

        let top_labels =
            entries.iter().filter(|it| it.side == EntrySide::Top).map(CableEntry::label_height).fold(0.0, f32::max);
        let frame_top = if top_labels > 0.0 { top_labels + 26.0 } else { 26.0 };
        let heights = side_heights(&entries, frame_top);
        let lowest = heights.iter().flatten().fold(frame_top + MOUTH + 34.0, |acc, it| acc.max(*it));
        let rest_y = lowest + 62.0;

        let (runs, n_lanes) = lanes(work, location, &rests, &slots);
        let zone = rest_y + LEAD + 10.0;
        let n_cores = entries.iter().map(|it| it.ends.len()).sum::<usize>();
        // Where many cores come together their lanes lie closer, so that the terminals stay in sight.
        let pitch = if n_cores > 8 { 13.0 } else { 17.0 };
        let lane_y = |it: usize| zone + 14.0 + it as f32 * pitch;
        let runs = runs.into_iter().map(|(run, lane)| (run, lane_y(lane))).collect();
        // Room for every core from the start, so that the terminals stay put while ends are connected one by one.
        let lead_y = lane_y(n_lanes.max(n_cores).max(2) - 1) + 24.0;
        let block_y = lead_y + LEAD - 6.0;

        let cables = place_cables(entries, &heights, &rests, [frame_left, frame_right], frame_top);
        let groups = groups
            .into_iter()
            .zip(&block_columns)
            .map(|(group, columns)| {
                let blocks: Vec<BlockIn> = group
                    .blocks
                    .into_iter()
                    .zip(columns)
                    .map(|(block, (first, count))| {
                        let left = x(first + block_shift) + 4.0;
                        BlockIn { block, rect: Rect::new(left, block_y, *count as f32 * PITCH - 8.0, BLOCK) }
                    })
                    .collect();
                let left = blocks.first().map_or(frame_left, |it| it.rect.left);
                let right = blocks.last().map_or(frame_left, |it| it.rect.right());
                GroupIn { panel: group.panel, blocks, left, right }
            })
            .collect();
        Self {
            frame_left,
            frame_right,
            frame_top,
            cables,
            groups,
            rests,
            slots,
            rest_y,
            runs,
            lead_y,
            block_y,
            tray,
            right_margin,
        }
    }

    /// Links that fit side by side in the tray.
    pub fn tray_across(&self) -> usize {
        whole((self.frame_right - self.frame_left - 24.0) / (TRAY_LINK + 16.0) - 1.0).max(1)
    }
}

/// A column for every end that may wait, and how many there are: cables from the left, the lowest first; from the top;
/// links; from the right, the lowest last.
fn rest_columns(entries: &[CableEntry], waiting: &[EndId]) -> (BTreeMap<EndId, usize>, usize) {
    let mut columns = BTreeMap::new();
    let mut next = 0;
    let mut give = |ends: &[EndId], taken: usize| {
        columns.extend(ends.iter().enumerate().map(|(place, end)| (*end, next + place)));
        next += taken;
    };
    let of = |sides: [EntrySide; 2]| entries.iter().filter(move |it| sides.contains(&it.side));
    let left: Vec<_> = of([EntrySide::Left, EntrySide::BelowLeft]).collect();
    left.into_iter().rev().for_each(|it| give(&it.ends, it.columns));
    of([EntrySide::Top; 2]).for_each(|it| give(&it.ends, it.columns));
    give(waiting, waiting.len());
    of([EntrySide::Right, EntrySide::BelowRight]).for_each(|it| give(&it.ends, it.columns));
    (columns, next)
}

/// For every terminal of every group its first column and how many it takes, and how many there are in all.
fn block_columns(work: &Work, groups: &[TerminalGroup]) -> (Vec<Vec<(usize, usize)>>, usize) {
    let mut next = 0;
    let mut all = Vec::new();
    for group in groups {
        let mut last = None;
        let mut columns = Vec::new();
        for block in &group.blocks {
            // A new gang, and the plate's earth, stand apart.
            if last.is_some_and(|it| it != block.switch) {
                next += 1;
            }
            last = Some(block.switch);
            let widest = block.label.iter().map(|it| block.letters().width(it)).fold(0.0, f32::max);
            let label = (widest + 12.0 + if block.earth { 26.0 } else { 0.0 }) / PITCH;
            let inside = work.ends_in(block.terminal).count().max(cpcs_meant_for(work, block.terminal));
            let count = inside.max(2).max(whole(label));
            columns.push((next, count));
            next += count;
        }
        next += 1;
        all.push(columns);
    }
    (all, next.saturating_sub(1))
}

/// How many cpcs come to the box whose earth terminal this is: it is as wide from the start as with all of them in it, so that
/// it stays put while they are connected.
fn cpcs_meant_for(work: &Work, terminal: TerminalId) -> usize {
    let it = &work.exercise().terminals[terminal];
    if it.used_by != TerminalUse::BoxEarth {
        return 0;
    }
    let of_cable = |end: &EndId| work.cable_of(end.conductor()).is_some();
    work.ends_at(it.location).filter(|end| of_cable(end) && work.end_facts(*end).colour.is_protective()).count()
}

/// Where each end goes into its terminal: in the order of the rests, so that fewer cross.
fn slots(
    work: &Work,
    groups: &[TerminalGroup],
    columns: &[Vec<(usize, usize)>],
    rests: &BTreeMap<EndId, usize>,
    x: impl Fn(usize) -> f32,
) -> BTreeMap<EndId, f32> {
    let mut slots = BTreeMap::new();
    let column_of = |end: EndId| {
        let other = work.terminal_of(end.other());
        let places = groups.iter().zip(columns).flat_map(|(group, columns)| group.blocks.iter().zip(columns));
        let far = places.filter(|(it, _)| Some(it.terminal) == other).map(|(_, it)| it.0).next();
        rests.get(&end).copied().or(rests.get(&end.other()).copied()).or(far).unwrap_or(0)
    };
    for (group, columns) in groups.iter().zip(columns) {
        for (block, (first, count)) in group.blocks.iter().zip(columns) {
            let mut ends: Vec<_> = work.ends_in(block.terminal).collect();
            ends.sort_by_key(|it| (column_of(*it), *it));
            let skipped = (count - ends.len().min(*count)) / 2;
            slots.extend(ends.iter().enumerate().map(|(place, end)| (*end, x(first + skipped + place) + PITCH / 2.0)));
        }
    }
    slots
}

/// Room to the left and to the right of the frame.
fn margins(entries: &[CableEntry]) -> [f32; 2] {
    [[EntrySide::Left, EntrySide::BelowLeft], [EntrySide::Right, EntrySide::BelowRight]].map(|[beside, below]| {
        let of = |side: EntrySide| entries.iter().filter(move |it| it.side == side);
        let beside = of(beside).map(|it| it.label_width() + 26.0).fold(36.0, f32::max);
        let uprights: f32 = of(below).map(|_| upright_step(entries)).sum();
        beside.max(uprights + 16.0)
    })
}

/// From one cable from below to the next, its label between.
fn upright_step(entries: &[CableEntry]) -> f32 {
    let below = entries.iter().filter(|it| matches!(it.side, EntrySide::BelowLeft | EntrySide::BelowRight));
    below.map(CableEntry::label_width).fold(0.0, f32::max) + 66.0
}

/// How high each cable of the two sides comes in; the label of one from beside stands above it.
fn side_heights(entries: &[CableEntry], frame_top: f32) -> [Vec<f32>; 2] {
    [[EntrySide::Left, EntrySide::BelowLeft], [EntrySide::Right, EntrySide::BelowRight]].map(|sides| {
        let mut next = 10.0_f32;
        let mut heights = Vec::new();
        for it in entries.iter().filter(|it| sides.contains(&it.side)) {
            let label = if it.side == sides[0] { it.label_height() + 28.0 } else { 0.0 };
            let y = (next + label).max(frame_top + 46.0);
            heights.push(y);
            next = y + 46.0;
        }
        heights
    })
}

fn place_cables(
    entries: Vec<CableEntry>,
    heights: &[Vec<f32>; 2],
    rests: &BTreeMap<EndId, f32>,
    [left, right]: [f32; 2],
    frame_top: f32,
) -> Vec<CableIn> {
    let step = upright_step(&entries);
    let mut below = [0, 1].map(|it| {
        let side = [EntrySide::BelowLeft, EntrySide::BelowRight][it];
        entries.iter().filter(|it| it.side == side).count()
    });
    let mut next = [0, 0];
    let mut placed = Vec::new();
    for entry in entries {
        let first = entry.ends.first().and_then(|it| rests.get(it)).copied().unwrap_or(left);
        let side = usize::from(matches!(entry.side, EntrySide::Right | EntrySide::BelowRight));
        let mut mouth = Xy::new(first + entry.middle(), frame_top + MOUTH);
        let mut upright = mouth.x;
        if entry.side != EntrySide::Top {
            let y = heights[side].get(next[side]).copied().unwrap_or(mouth.y);
            next[side] += 1;
            mouth = Xy::new([left + MOUTH, right - MOUTH][side], y);
            if matches!(entry.side, EntrySide::BelowLeft | EntrySide::BelowRight) {
                below[side] = below[side].saturating_sub(1);
                let away = 40.0 + below[side] as f32 * step;
                upright = [left - away, right + away][side];
            }
        }
        placed.push(CableIn { entry, mouth, upright });
    }
    placed
}
