//! What a review marked before, in the tutor's register, so that the next one marks only what is new.

#[cfg(feature = "register")]
use std::{
    collections::HashMap,
    sync::{Mutex, MutexGuard, PoisonError},
};

#[cfg(feature = "register")]
use jiff::Timestamp;
#[cfg(feature = "register")]
use switchdrop::marking::VERSION;
use switchdrop::register::HandIn;

#[cfg(feature = "register")]
use crate::store::{Key, Row, Store, StoreError};

/// The version that what is kept goes by: the program's, and that of the form of what is kept, where it has more in it than before.
#[cfg(feature = "register")]
const PROGRAM: &str = concat!(env!("CARGO_PKG_VERSION"), "+2");

/// The register of one assignment. What was kept of it is read at once, before the files are; every core takes its part out of that.
#[cfg(feature = "register")]
pub struct Register {
    store: Mutex<Store>,
    kept: Mutex<HashMap<String, String>>,
    assignment: String,
}

/// A program that was built without a register has no value of this type.
#[cfg(not(feature = "register"))]
pub enum Register {}

/// The time now, to the second, as it is written beside what people did.
#[cfg(feature = "register")]
pub fn now() -> String {
    let now = Timestamp::now();
    Timestamp::from_second(now.as_second()).unwrap_or(now).to_string()
}

/// A hand-in as it is kept.
#[cfg(feature = "register")]
pub struct Kept {
    attempt: String,
    receipt: Option<String>,
    text: String,
}

/// Where nothing is kept, this type has no value.
#[cfg(not(feature = "register"))]
pub enum Kept {}

/// One that was marked just now, to be kept. What follows from where its file lies is no part of it.
#[cfg(feature = "register")]
pub fn to_keep(it: &HandIn) -> Option<Kept> {
    let (attempt, receipt) = (it.sha256.clone()?, it.receipt.clone());
    Some(Kept { attempt, receipt, text: serde_json::to_string(it).ok()? })
}

#[cfg(feature = "register")]
impl Register {
    /// The part of a register that is of the assignment with that digest.
    ///
    /// # Errors
    /// That the register can't be read.
    pub fn of(store: Store, assignment: &str) -> Result<Self, StoreError> {
        let kept = store.all_marked(&key("", assignment))?;
        Ok(Self { store: Mutex::new(store), kept: Mutex::new(kept), assignment: assignment.to_owned() })
    }

    /// What was kept of a file with that digest. One that can't be read is marked anew.
    pub fn found(&self, attempt: &str) -> Option<HandIn> {
        let taken = self.kept.lock().unwrap_or_else(PoisonError::into_inner).remove(attempt);
        let text = match taken {
            Some(it) => it,
            // It may lie there twice, and was taken for the first.
            None => self.lock().marked(&self.key(attempt)).ok()??,
        };
        serde_json::from_str(&text).ok()
    }

    fn lock(&self) -> MutexGuard<'_, Store> {
        self.store.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// Keeps these, all or none.
    pub fn keep(&self, these: &[Kept]) -> Result<(), StoreError> {
        self.lock().keep(these.iter().map(|it| {
            let row = Row { receipt: it.receipt.as_deref(), hand_in: &it.text };
            (self.key(&it.attempt), row)
        }))
    }

    /// Puts beside each hand-in what people did with it.
    pub fn with_people(&self, all: &mut [HandIn]) -> Result<(), StoreError> {
        let people = self.lock().all_people()?;
        for it in all {
            it.people = it.sha256.as_ref().and_then(|it| people.get(it)).cloned().unwrap_or_default();
        }
        Ok(())
    }

    fn key<'a>(&'a self, attempt: &'a str) -> Key<'a> {
        key(attempt, &self.assignment)
    }
}

#[cfg(feature = "register")]
fn key<'a>(attempt: &'a str, assignment: &'a str) -> Key<'a> {
    Key { attempt, assignment, marking: VERSION, program: PROGRAM }
}

#[cfg(not(feature = "register"))]
pub fn to_keep(_: &HandIn) -> Option<Kept> {
    None
}

#[cfg(not(feature = "register"))]
impl Register {
    pub fn found(&self, _: &str) -> Option<HandIn> {
        match *self {}
    }
}
