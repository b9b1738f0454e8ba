//! Tables whose rows are known by an id of their own sort, so that a terminal's id finds no lamp.
//!
//! Ids are given out here and nowhere else: outside the library there is no way to make one. One that comes from another exercise
//! may stand for no row of this one; it finds [`TableRow::NOTHING`] then, which is nowhere and joined to nothing, and no panic.

use std::{fmt, marker::PhantomData, ops::Index};

/// An id: the place of a row in its table.
pub trait Id: sealed::Made {
    /// The place in its table.
    fn index(self) -> usize;
}

pub(super) mod sealed {
    /// What an id is made from; out of reach outside the library.
    pub trait Made: Copy {
        fn made(number: u16) -> Self;
    }
}

/// The number of no row: tables end before it.
const NO_ROW: u16 = u16::MAX;

macro_rules! ids {
    ($($(#[doc = $doc:literal])+ $name:ident,)+) => {$(
        $(#[doc = $doc])+
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub struct $name(pub(crate) u16);

        impl $name {
            /// The place in its table.
            pub const fn index(self) -> usize {
                self.0 as usize
            }
        }

        impl sealed::Made for $name {
            fn made(number: u16) -> Self {
                Self(number)
            }
        }

        impl Id for $name {
            fn index(self) -> usize {
                self.index()
            }
        }
    )+};
}

ids! {
    /// A location.
    LocationId,
    /// A terminal.
    TerminalId,
    /// A switch.
    SwitchId,
    /// A protective device.
    DeviceId,
    /// A lamp.
    LampId,
    /// A fan.
    FanId,
    /// A conductor end: conductor `n` has ends `2n` and `2n + 1`. Conductors made up in the attempt follow those of the
    /// exercise.
    EndId,
}

impl LocationId {
    /// Nowhere.
    pub(crate) const NONE: Self = Self(NO_ROW);
}

impl TerminalId {
    /// In no terminal.
    pub(super) const NONE: Self = Self(NO_ROW);
}

impl LampId {
    /// No lamp.
    pub(super) const NONE: Self = Self(NO_ROW);
}

impl EndId {
    /// The conductor whose end this is.
    pub const fn conductor(self) -> usize {
        self.index() / 2
    }

    /// The other end of the same conductor.
    #[must_use]
    pub const fn other(self) -> Self {
        Self(self.0 ^ 1)
    }

    /// The two ends of a conductor.
    pub(crate) const fn of(conductor: usize) -> [Self; 2] {
        // What is beyond any table has the last two numbers.
        let first = if conductor < u16::MAX as usize / 2 { 2 * conductor as u16 } else { u16::MAX - 1 };
        [Self(first), Self(first + 1)]
    }
}

/// What a table is made of.
pub trait TableRow: Sized + 'static {
    /// What an id of another exercise finds.
    const NOTHING: &'static Self;
}

impl TableRow for bool {
    const NOTHING: &'static Self = &false;
}

impl<T: 'static> TableRow for Vec<T> {
    const NOTHING: &'static Self = &Self::new();
}

impl TableRow for u8 {
    const NOTHING: &'static Self = &0;
}

impl<T: 'static> TableRow for Option<T> {
    const NOTHING: &'static Self = &None;
}

/// Rows by their ids.
#[derive(Clone)]
pub struct Table<I, T> {
    rows: Vec<T>,
    by: PhantomData<I>,
}

impl<I, T> Default for Table<I, T> {
    fn default() -> Self {
        Self { rows: Vec::new(), by: PhantomData }
    }
}

impl<I, T: fmt::Debug> fmt::Debug for Table<I, T> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.rows.fmt(f)
    }
}

impl<I: Id, T> Table<I, T> {
    /// The ids of its rows, in order.
    pub fn ids(&self) -> impl DoubleEndedIterator<Item = I> + ExactSizeIterator + Clone + use<I, T> {
        (0..self.rows.len() as u16).map(I::made)
    }

    /// Its rows with their ids, in order.
    pub fn with_ids(&self) -> impl DoubleEndedIterator<Item = (I, &T)> + Clone {
        self.ids().zip(&self.rows)
    }

    /// A table beside this one: the same row for each of its ids.
    pub(crate) fn each<U: Clone>(&self, row: U) -> Table<I, U> {
        self.rows.iter().map(|_| row.clone()).collect()
    }

    /// The id of the row at a place, from 0.
    pub fn id(&self, place: usize) -> Option<I> {
        self.ids().nth(place)
    }

    /// The row of an id; `None` for an id of another exercise that this one has no row for.
    pub fn get(&self, id: I) -> Option<&T> {
        self.rows.get(id.index())
    }

    /// The rows alone, in order.
    pub fn iter(&self) -> std::slice::Iter<'_, T> {
        self.rows.iter()
    }

    /// The rows alone, as a slice.
    pub fn rows(&self) -> &[T] {
        &self.rows
    }

    /// How many rows it has.
    pub fn len(&self) -> usize {
        self.rows.len()
    }

    /// Whether it has none.
    pub fn is_empty(&self) -> bool {
        self.rows.is_empty()
    }

    /// The id that the next row will have.
    pub(crate) fn next_id(&self) -> I {
        I::made(self.rows.len() as u16)
    }

    /// The row of an id, to change it.
    pub(crate) fn get_mut(&mut self, id: I) -> Option<&mut T> {
        self.rows.get_mut(id.index())
    }

    /// Changes the row of an id, if it has one.
    pub(crate) fn change(&mut self, id: I, change: impl FnOnce(&mut T)) {
        if let Some(row) = self.get_mut(id) {
            change(row);
        }
    }

    /// Puts another row in the place of an id's, if it has one.
    pub(crate) fn put(&mut self, id: I, row: T) {
        self.change(id, |it| *it = row);
    }

    /// Every row, to change it.
    pub(crate) fn rows_mut(&mut self) -> std::slice::IterMut<'_, T> {
        self.rows.iter_mut()
    }

    /// Adds a row and gives its id.
    pub(crate) fn push(&mut self, row: T) -> I {
        let id = self.next_id();
        self.rows.push(row);
        id
    }
}

impl<I: Id, T: TableRow> Index<I> for Table<I, T> {
    type Output = T;

    fn index(&self, id: I) -> &T {
        self.rows.get(id.index()).unwrap_or(T::NOTHING)
    }
}

impl<'a, I: Id, T> IntoIterator for &'a Table<I, T> {
    type Item = &'a T;
    type IntoIter = std::slice::Iter<'a, T>;

    fn into_iter(self) -> Self::IntoIter {
        self.rows.iter()
    }
}

impl<I: Id, T> Extend<T> for Table<I, T> {
    fn extend<R: IntoIterator<Item = T>>(&mut self, rows: R) {
        self.rows.extend(rows);
    }
}

impl<I: Id, T> FromIterator<T> for Table<I, T> {
    fn from_iter<R: IntoIterator<Item = T>>(rows: R) -> Self {
        Self { rows: rows.into_iter().collect(), by: PhantomData }
    }
}
