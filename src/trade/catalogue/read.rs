//! Reading a catalogue, and what can be wrong with one.

use std::collections::BTreeSet;

use serde::Deserialize;

use super::{Accessory, Clamp, Sort, TerminalKind, WorkedBy};
use crate::trade::{accessory::Capacity, workmanship::Hold};

/// What is wrong with a catalogue. The first argument is the entry's id.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum CatalogueError {
    /// Not RON of the shape expected.
    #[error("{0}")]
    Syntax(String),
    /// An id that is not a word of ASCII letters and digits beginning with a capital.
    #[error("{0:?} is no word for an accessory")]
    Id(String),
    /// Two entries of one id.
    #[error("{0} stands there twice")]
    Twice(String),
    /// A terminal's name that can't stand in an address, or stands there twice.
    #[error("{0}: terminal {1:?}")]
    Name(String, String),
    /// A figure that no terminal, plate or rocker has.
    #[error("{0}: {1}")]
    Figure(String, &'static str),
    /// A join of terminals that there are not, or of one with itself, or the same twice.
    #[error("{0}: join of {1:?} and {2:?}")]
    Join(String, String, String),
    /// Nothing said about where the figures are from.
    #[error("{0}: no source")]
    Source(String),
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "Accessory")]
struct AccessoryEntry {
    id: String,
    sort: Sort,
    worked_by: WorkedBy,
    terminals: Vec<TerminalEntry>,
    /// One list for each position, by names.
    joins: Vec<Vec<(String, String)>>,
    #[serde(default)]
    down: Option<usize>,
    /// By names.
    #[serde(default)]
    fused: Option<(String, String)>,
    #[serde(default)]
    box_mm: f64,
    source: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "Terminal")]
struct TerminalEntry {
    name: String,
    marks: Vec<String>,
    conductors: usize,
    mm2: f64,
    each_mm2: (f64, f64),
    depth_mm: f64,
    clamp: Clamp,
    #[serde(default)]
    fold_mm2: f64,
    #[serde(default)]
    earth: bool,
}

/// Most terminals of an accessory, positions of a switch, and bytes of a name.
const MOST_TERMINALS: usize = 16;
const MOST_POSITIONS: usize = 8;
const MOST_BYTES: usize = 16;
/// Gangs of the widest plate.
const MOST_GANGS: u8 = 4;

/// The accessories of a catalogue.
///
/// # Errors
/// The first thing wrong with it.
pub(super) fn read(text: &str) -> Result<Vec<Accessory>, CatalogueError> {
    let entries: Vec<AccessoryEntry> = ron::from_str(text).map_err(|err| CatalogueError::Syntax(err.to_string()))?;
    let mut ids = BTreeSet::new();
    let mut all = Vec::with_capacity(entries.len());
    for it in entries {
        if !ids.insert(it.id.clone()) {
            return Err(CatalogueError::Twice(it.id));
        }
        all.push(entry(it)?);
    }
    Ok(all)
}

fn entry(it: AccessoryEntry) -> Result<Accessory, CatalogueError> {
    let is_word = (1..=32).contains(&it.id.len())
        && it.id.bytes().all(|it| it.is_ascii_alphanumeric())
        && it.id.starts_with(|it: char| it.is_ascii_uppercase());
    if !is_word {
        return Err(CatalogueError::Id(it.id));
    }
    if it.source.trim().is_empty() {
        return Err(CatalogueError::Source(it.id));
    }
    figures(&it).map_err(|what| CatalogueError::Figure(it.id.clone(), what))?;
    let mut names: Vec<&str> = Vec::new();
    for terminal in &it.terminals {
        let name = terminal.name.as_str();
        // Begins with a letter, so that it is never taken for the number of a gang.
        let fits = (1..=MOST_BYTES).contains(&name.len())
            && name.bytes().all(|it| it.is_ascii_alphanumeric() || it == b'-')
            && name.starts_with(|it: char| it.is_ascii_alphabetic());
        if !fits || names.contains(&name) {
            return Err(CatalogueError::Name(it.id, terminal.name.clone()));
        }
        names.push(name);
    }
    let place = |name: &String| names.iter().position(|it| it == name);
    let mut positions = Vec::with_capacity(it.joins.len());
    for joins in &it.joins {
        let mut pairs: Vec<(usize, usize)> = Vec::with_capacity(joins.len());
        for (a, b) in joins {
            match (place(a), place(b)) {
                (Some(a), Some(b)) if a != b && !pairs.contains(&(a, b)) && !pairs.contains(&(b, a)) => {
                    pairs.push((a, b));
                }
                _ => return Err(CatalogueError::Join(it.id, a.clone(), b.clone())),
            }
        }
        positions.push(pairs);
    }
    let fused = match &it.fused {
        None => None,
        Some((a, b)) => {
            let poles = place(a).zip(place(b)).and_then(|it| fused(&positions, it));
            Some(poles.ok_or_else(|| CatalogueError::Join(it.id.clone(), a.clone(), b.clone()))?)
        }
    };
    let terminals = it.terminals.into_iter().map(terminal).collect();
    let AccessoryEntry { id, sort, worked_by, down, box_mm, source, .. } = it;
    Ok(Accessory { id, sort, worked_by, terminals, positions, down, fused, box_mm, source })
}

/// The pole that has a fuse, and the one other that is closed together with it.
fn fused(positions: &[Vec<(usize, usize)>], pole: (usize, usize)) -> Option<[(usize, usize); 2]> {
    positions.iter().find_map(|pairs| match pairs[..] {
        [one, other] if one == pole => Some([one, other]),
        [one, other] if other == pole => Some([other, one]),
        _ => None,
    })
}

/// Whether every figure of an entry is one that such a thing can have; else which is not.
fn figures(it: &AccessoryEntry) -> Result<(), &'static str> {
    let must = |fits: bool, what| if fits { Ok(()) } else { Err(what) };
    must((1..=MOST_TERMINALS).contains(&it.terminals.len()), "number of terminals")?;
    must((1..=MOST_POSITIONS).contains(&it.joins.len()), "number of positions")?;
    must((it.joins.len() == 1) == (it.worked_by == WorkedBy::Nothing), "what it is worked by")?;
    must(it.down.is_none_or(|down| it.joins.len() > 1 && down < it.joins.len()), "position that is down")?;
    match it.sort {
        Sort::Plate { gangs, .. } => must((1..=MOST_GANGS).contains(&gangs), "number of gangs")?,
        Sort::TimerFan => must(it.terminals.len() >= 3, "number of terminals")?,
        Sort::Connector { .. } => must(it.terminals.len() == 1, "number of terminals")?,
        Sort::JunctionBox { .. } => {}
    }
    // Only a plate can be worked.
    must(it.joins.len() == 1 || matches!(it.sort, Sort::Plate { .. }), "number of positions")?;
    must((0.0..=60.0).contains(&it.box_mm), "depth of the box")?;
    for terminal in &it.terminals {
        // Only a hole with a screw has room for a conductor folded back.
        let folds = terminal.fold_mm2 > 0.0;
        must((0.0..=10.0).contains(&terminal.fold_mm2) && (!folds || terminal.clamp == Clamp::Pillar), "fold")?;
        let (smallest, largest) = terminal.each_mm2;
        must((1..=24).contains(&terminal.conductors), "number of conductors")?;
        // The smallest and the largest size that the tables of cables know or could.
        must(smallest > 0.0 && smallest <= largest && largest <= 25.0, "size of a conductor")?;
        must((largest..=200.0).contains(&terminal.mm2), "sizes of conductors together")?;
        must((1.0..=40.0).contains(&terminal.depth_mm), "depth")?;
        must(!terminal.marks.is_empty() && terminal.marks.iter().all(|it| !it.trim().is_empty()), "markings")?;
    }
    Ok(())
}

fn terminal(it: TerminalEntry) -> TerminalKind {
    let hold = Hold { depth_mm: it.depth_mm, clamp: it.clamp, fold_mm2: it.fold_mm2 };
    let capacity = Capacity { conductors: it.conductors, mm2: it.mm2, each_mm2: it.each_mm2, hold };
    let TerminalEntry { name, marks, depth_mm, clamp, earth, .. } = it;
    TerminalKind { name, marks, capacity, depth_mm, clamp, earth }
}
