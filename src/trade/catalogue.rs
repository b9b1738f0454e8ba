//! The catalogue of accessories: which terminals each has, what they take, and which are joined in which position.
//!
//! All of it is data, in `assets/accessories.ron`. A new accessory is a new entry there and no new code.

mod read;

use std::{
    fmt,
    hash::{Hash, Hasher},
    ops::Deref,
    sync::LazyLock,
};

use serde::{Deserialize, Deserializer, Serialize, Serializer};

use super::{accessory::Capacity, word};

pub use super::workmanship::Clamp;

pub use read::CatalogueError;

/// The catalogue that ships with the program.
const SHIPPED: &str = include_str!("../../assets/accessories.ron");

/// Everything in the shipped catalogue. A test holds that it is valid; were it not, it would be empty.
static ENTRIES: LazyLock<Vec<Accessory>> = LazyLock::new(|| read::read(SHIPPED).unwrap_or_default());

/// The words by which files know the entries, in the order of the catalogue.
static WORDS: LazyLock<Vec<&'static str>> = LazyLock::new(|| ENTRIES.iter().map(|it| it.id.as_str()).collect());

/// One kind of accessory: an entry of the catalogue.
#[derive(Debug, Clone, PartialEq)]
pub struct Accessory {
    /// The word by which files know it.
    pub id: String,
    /// What it is and where it may stand.
    pub sort: Sort,
    /// What a hand works it by.
    pub worked_by: WorkedBy,
    /// The terminals, in the order they are addressed.
    pub terminals: Vec<TerminalKind>,
    /// For each position, which terminals are joined, by their places in `terminals`. Several pairs in a position are
    /// the poles of one switch: they move together, which is what is meant by linked.
    positions: Vec<Vec<(usize, usize)>>,
    /// The position in which the rocker is pressed at the bottom (the habit here for on), the cord has been pulled or
    /// the knob pushed in.
    pub down: Option<usize>,
    /// The pole with a fuse in it and the pole without, each by the places of its two terminals in `terminals`.
    pub fused: Option<[(usize, usize); 2]>,
    /// Depth of back box that it asks for, mm; 0: it asks for none.
    pub box_mm: f64,
    /// Where the figures are from.
    pub source: String,
}

/// What an accessory is and where it may stand.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub enum Sort {
    /// On the front of a back box.
    Plate {
        /// Most of its kind that one plate takes side by side.
        gangs: u8,
        /// Whether it has an earth terminal whatever the front is made of.
        earth: bool,
    },
    /// An enclosure with a row of terminals and a lid, a place of its own.
    JunctionBox {
        /// Whether it may be where nobody can come to it again (BS 5733, marked MF).
        maintenance_free: bool,
    },
    /// A connector that lies in a box.
    Connector {
        /// Whether it has an enclosure of its own, so that it may be outside a box.
        enclosed: bool,
        /// As for a junction box.
        maintenance_free: bool,
    },
    /// A fan that runs on after its switch is off: a permanent line, a switched line and a neutral, in this order.
    TimerFan,
}

/// What a hand works an accessory by.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Deserialize)]
pub enum WorkedBy {
    /// Nothing: it has one position.
    Nothing,
    /// A rocker.
    Rocker,
    /// A cord.
    Cord,
    /// A knob that is turned from off.
    Knob,
    /// A knob whose push changes over, and that stays in or comes out by it.
    Push,
}

/// One terminal of an accessory.
#[derive(Debug, Clone, PartialEq)]
pub struct TerminalKind {
    /// Its name, in addresses and on the drawing.
    pub name: String,
    /// How one maker or another marks it; the first is the commonest.
    pub marks: Vec<String>,
    /// What it takes at once.
    pub capacity: Capacity,
    /// How far in the conductor goes, mm.
    pub depth_mm: f64,
    /// How it holds it.
    pub clamp: Clamp,
    /// Whether it is there for protective conductors.
    pub earth: bool,
}

impl Accessory {
    /// Number of positions, at least one; they are numbered from 0.
    pub fn positions(&self) -> usize {
        self.positions.len()
    }

    /// Which terminals are joined in a position, by their places in [`Self::terminals`]; none in a position that there
    /// is not.
    pub fn joins(&self, position: usize) -> &[(usize, usize)] {
        self.positions.get(position).map_or(&[], Vec::as_slice)
    }

    /// Whether it is a switch: whether there is anything to work.
    pub fn is_switch(&self) -> bool {
        self.positions.len() > 1
    }

    /// Whether the rocker is pressed at the bottom in a position (or the cord pulled, the knob pushed).
    pub fn is_down(&self, position: usize) -> bool {
        self.down == Some(position)
    }

    /// Whether it opens more than one pole at once.
    pub fn is_linked(&self) -> bool {
        self.positions.iter().any(Vec::is_empty) && self.positions.iter().any(|it| it.len() > 1)
    }

    /// Whether it is a socket-outlet: nothing works it, nothing is joined in it, and what takes a current is plugged in between its
    /// line, which is listed first, and its neutral.
    pub fn is_outlet(&self) -> bool {
        let (is_plate, is_worked) = (matches!(self.sort, Sort::Plate { .. }), self.worked_by != WorkedBy::Nothing);
        is_plate && !is_worked && self.terminals.len() == 2 && self.positions.iter().all(Vec::is_empty)
    }

    /// The name of a terminal by its place; nothing for a place that there is not.
    pub fn name_of(&self, place: usize) -> &str {
        self.terminals.get(place).map_or("", |it| &it.name)
    }
}

/// An entry of the shipped catalogue. In a file it is its word: `OneWay`.
#[derive(Clone, Copy)]
pub struct Listed(usize);

impl Listed {
    /// The first of the catalogue.
    pub(crate) const FIRST: Self = Self(0);

    /// The entry that files know by a word.
    pub fn find(id: &str) -> Option<Self> {
        ENTRIES.iter().position(|it| it.id == id).map(Self)
    }

    /// Every entry, in the order of the catalogue.
    pub fn all() -> impl Iterator<Item = Self> {
        (0..ENTRIES.len()).map(Self)
    }
}

impl Deref for Listed {
    type Target = Accessory;

    fn deref(&self) -> &Accessory {
        // Made only from a place in this very table.
        &ENTRIES[self.0]
    }
}

impl fmt::Debug for Listed {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.id)
    }
}

impl PartialEq for Listed {
    fn eq(&self, other: &Self) -> bool {
        self.0 == other.0
    }
}

impl Eq for Listed {}

impl Hash for Listed {
    fn hash<H: Hasher>(&self, state: &mut H) {
        self.0.hash(state);
    }
}

/// What a word for an accessory is called in a message.
const SORT: &str = "Accessory";

impl<'de> Deserialize<'de> for Listed {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        word::read(deserializer, SORT, &WORDS, Self::find)
    }
}

impl Serialize for Listed {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        word::write(serializer, SORT, self.0, WORDS[self.0])
    }
}

#[cfg(test)]
mod tests;
