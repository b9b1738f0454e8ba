//! What a review marked before, in the tutor's register, so that the next one marks only what is new.

#[cfg(feature = "register")]
use std::sync::{Mutex, PoisonError};

#[cfg(feature = "register")]
use switchdrop::marking::VERSION;
use switchdrop::register::HandIn;

#[cfg(feature = "register")]
use crate::store::{Key, Row, Store, StoreError};

/// The register of one assignment. Every core asks it, one at a time: an answer takes microseconds.
#[cfg(feature = "register")]
pub struct Register {
    store: Mutex<Store>,
    assignment: String,
}

/// In a program that was built without one there is none.
#[cfg(not(feature = "register"))]
pub enum Register {}

/// A hand-in as it is kept.
pub struct Kept {
    attempt: String,
    receipt: Option<String>,
    text: String,
}

/// One that was marked just now, to be kept. What follows from where its file lies is no part of it.
pub fn to_keep(it: &HandIn) -> Option<Kept> {
    let (attempt, receipt) = (it.sha256.clone()?, it.receipt.clone());
    Some(Kept { attempt, receipt, text: serde_json::to_string(it).ok()? })
}

#[cfg(feature = "register")]
impl Register {
    /// The part of a register that is of the assignment with that digest.
    pub fn of(store: Store, assignment: &str) -> Self {
        Self { store: Mutex::new(store), assignment: assignment.to_owned() }
    }

    /// What was kept of a file with that digest. One that can't be read is marked anew.
    pub fn found(&self, attempt: &str) -> Option<HandIn> {
        let store = self.store.lock().unwrap_or_else(PoisonError::into_inner);
        let text = store.marked(&self.key(attempt)).ok()??;
        drop(store);
        serde_json::from_str(&text).ok()
    }

    /// Keeps these, all or none.
    pub fn keep(&self, these: &[Kept]) -> Result<(), StoreError> {
        let mut store = self.store.lock().unwrap_or_else(PoisonError::into_inner);
        store.keep(these.iter().map(|it| {
            let row = Row { receipt: it.receipt.as_deref(), hand_in: &it.text };
            (self.key(&it.attempt), row)
        }))
    }

    fn key<'a>(&'a self, attempt: &'a str) -> Key<'a> {
        Key { attempt, assignment: &self.assignment, marking: VERSION, program: env!("CARGO_PKG_VERSION") }
    }
}

#[cfg(not(feature = "register"))]
impl Register {
    pub fn found(&self, _: &str) -> Option<HandIn> {
        match *self {}
    }
}
