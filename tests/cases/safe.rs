//! Isolation, proving, acts.
