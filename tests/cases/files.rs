//! Edited, forged and stalling files.
