//! How far causes and repairs are sought. Counts, never time: the same file gives the same answer on every machine.

/// Bounds of a search.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Effort {
    /// How much the rules are asked of repairs on trial in all: one combination of one point counts as one. Once it is spent a
    /// repair counts as clearing nothing.
    pub asked: usize,
    /// Single slips that are tried.
    pub slips: usize,
    /// Pairs of slips that are tried.
    pub pairs: usize,
    /// How much is spent on counting what each first slip of a pair leaves wrong: one combination of one slip counts as one.
    pub counted: usize,
}

impl Effort {
    /// For a sheet: hundreds of askings of an exercise of a few places, a dozen or two of the largest that there is. More would
    /// hold the marker up for over a second.
    pub const SHEET: Self = Self { asked: 1 << 19, slips: 65_536, pairs: 16_384, counted: 1 << 22 };
    /// For a hint, which the window gives between two frames: as a sheet in an exercise of a few places, one asking of the largest.
    pub const HINT: Self = Self { asked: 1 << 16, slips: 1_024, pairs: 1_024, counted: 1 << 13 };
}
