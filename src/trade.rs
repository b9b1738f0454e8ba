//! What exists in the trade: colours, cables, accessories, boxes, devices, instruments, supplies, and the published numbers.
//!
//! Data and small lookups only. This room knows nothing of exercises, learners or marks. Every figure carries its
//! source; "common practice, no source" and "from memory" are said where they are true.

pub mod accessory;
pub mod cable;
pub mod carrying;
pub mod catalogue;
pub mod colour;
pub mod device;
pub mod instrument;
pub mod supply;
mod word;
pub mod workmanship;
