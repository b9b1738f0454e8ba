//! Outside witnesses: programs and books that know nothing of this one are asked the same questions.

// Random wirings, the same every time.
pub mod wirings;
// What ngspice answers, read and compared.
mod ngspice;
// Decks written by hand, with their results.
mod decks;
// ngspice itself, when `SWITCHDROP_NGSPICE` asks for it.
mod live;
// Small networks of plain branches.
pub mod plain;
// Published tables and worked examples.
mod published;
// Independent sparse linear algebra.
pub mod algebra;
// The deck as the program writes it.
mod command;
