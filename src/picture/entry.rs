//! Where cables come into an open location: at the side that faces where they go on the plan.
//!
//! Order, columns and labels; [`super::layout`] turns them into coordinates.

use super::{
    canvas::Type,
    conductor::PITCH,
    paint::Paint,
    shape::whole,
    text::wrapped,
    words::{Label, Words},
};
use crate::{
    exercise::{EndId, LocationId, UnmarkedId, UnmarkedThing},
    trade::cable::CableKind,
    work::{Called, Work},
};

/// The name of a cable.
pub(super) const NAME: Type = Type::bold(15.0, Paint::Paper);
/// Where it goes.
pub(super) const GOES_TO: Type = Type::quiet(15.0, Paint::Paper);
const WIDEST: f32 = 178.0;

/// The side a cable comes in at. A cable from below runs up beside the box and turns in from the left or the right, so
/// that it does not pass behind the terminals.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum EntrySide {
    Top,
    Left,
    BelowLeft,
    Right,
    BelowRight,
}

/// A cable that comes in.
#[derive(Debug, Clone)]
pub(super) struct CableEntry {
    pub side: EntrySide,
    pub kind: CableKind,
    /// Its ends here, in the order of its cores.
    pub ends: Vec<EndId>,
    pub name: Vec<String>,
    pub goes_to: Vec<String>,
    /// What it is among what has no mark.
    pub unmarked: Option<UnmarkedId>,
    /// Columns that it takes in the row of rests.
    pub columns: usize,
}

impl CableEntry {
    pub fn label_width(&self) -> f32 {
        let widths = self.name.iter().map(|it| NAME.width(it)).chain(self.goes_to.iter().map(|it| GOES_TO.width(it)));
        widths.fold(0.0, f32::max)
    }

    pub fn label_height(&self) -> f32 {
        NAME.height(self.name.len()) + GOES_TO.height(self.goes_to.len()) + 2.0
    }

    /// Its middle in its own columns, in units from the first rest.
    pub fn middle(&self) -> f32 {
        (self.ends.len().saturating_sub(1)) as f32 * PITCH / 2.0
    }
}

/// More than any place has things without a mark.
const MOST: usize = 1000;

/// What a cable is called at a place, and what is said of where it goes.
fn called(work: &Work, id: Option<UnmarkedId>, (name, there): (&str, &str), words: &dyn Words) -> (String, String) {
    let to = || words.say(Label::To(there));
    match id.map(|it| (it, work.called(it))) {
        Some((it, Called::ByPlace(_))) => (words.say(Label::UnmarkedCable(it.place)), words.say(Label::GoesSomewhere)),
        Some((_, Called::By(UnmarkedThing::Cable(it)))) if !work.is_told() => {
            let name = work.exercise().cables.get(it).map_or("", |it| &it.name);
            (name.to_owned(), words.say(Label::NamedByLearner))
        }
        _ => (name.to_owned(), to()),
    }
}

/// The cables of a location: those at the top from left to right, then for each side from top to bottom.
pub(super) fn entries(work: &Work, location: LocationId, words: &dyn Words) -> Vec<CableEntry> {
    let exercise = work.exercise();
    let here = exercise.locations[location].at;
    let mut found: Vec<(EntrySide, (i32, i32), CableEntry)> = Vec::new();
    for (index, cable) in exercise.cables.iter().enumerate() {
        let Some(which) = cable.between.iter().position(|it| *it == location) else { continue };
        let there = &exercise.locations[cable.between[1 - which]];
        let (dx, dy) = (i32::from(there.at.0) - i32::from(here.0), i32::from(there.at.1) - i32::from(here.1));
        let unmarked = exercise.unmarked_cable(index, location);
        let (side, order) = if let Some(it) = unmarked {
            // They come in side by side, so that no place tells which is which.
            (EntrySide::Top, (i32::from(i16::MIN), i32::try_from(it.group * MOST + it.place).unwrap_or(i32::MAX)))
        } else if dx.abs() > dy.abs() {
            (if dx < 0 { EntrySide::Left } else { EntrySide::Right }, (dy, 0))
        } else if dy <= 0 {
            (EntrySide::Top, (dx, dy))
        } else {
            (if dx < 0 { EntrySide::BelowLeft } else { EntrySide::BelowRight }, (dx.abs(), 0))
        };
        let (name, goes_to) = called(work, unmarked, (&cable.name, &there.name), words);
        let cores = cable.kind.cores().len();
        let ends = (0..cores).map(|it| EndId::of(cable.first_conductor + it)[which]).collect();
        let mut entry = CableEntry {
            side,
            kind: cable.kind,
            ends,
            name: wrapped(&name, NAME.size, NAME.weight, WIDEST, 2),
            goes_to: wrapped(&goes_to, GOES_TO.size, GOES_TO.weight, WIDEST, 2),
            unmarked,
            columns: cores + 1,
        };
        if side == EntrySide::Top {
            let label = entry.middle() + 28.0 + entry.label_width() + 18.0;
            entry.columns = entry.columns.max(whole(label / PITCH));
        }
        found.push((side, order, entry));
    }
    found.sort_by_key(|(side, order, _)| (*side as u8, *order));
    found.into_iter().map(|it| it.2).collect()
}
