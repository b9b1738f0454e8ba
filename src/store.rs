//! The tutor's register on disk: what was marked before, so that a second review marks only what is new.
//!
//! One SQLite file, which belongs on the tutor's own disk and never on a share: its locks do not hold there. Whatever is written goes in
//! whole or not at all, so that it may be killed at any moment. The SQL is that which `PostgreSQL` takes too: no types, functions or
//! upserts that only one of them has. It marks nothing and judges nothing: it keeps what the library said, by the digests of all
//! that it follows from.

mod erased;
mod error;
mod people;
mod schema;

use std::{
    collections::HashMap,
    path::{Path, PathBuf},
    time::Duration,
};

use rusqlite::{Connection, OptionalExtension, params};

pub use erased::RowCount;
pub use error::StoreError;

/// How long is waited for another program that writes into the same register.
const PATIENCE: Duration = Duration::from_secs(10);

/// What a kept hand-in follows from.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Key<'a> {
    /// SHA-256 of the attempt's file.
    pub attempt: &'a str,
    /// SHA-256 of the assignment's file, which has its exercises in it.
    pub assignment: &'a str,
    /// The version of the marking.
    pub marking: u32,
    /// The version of the program, whose words stand in what is kept.
    pub program: &'a str,
}

/// What is kept of it.
#[derive(Debug, Clone, Copy)]
pub struct Row<'a> {
    /// The short code of its receipt, if it was handed in.
    pub receipt: Option<&'a str>,
    /// The hand-in, as text.
    pub hand_in: &'a str,
}

/// A register, open.
#[derive(Debug)]
pub struct Store {
    path: PathBuf,
    connection: Connection,
}

impl Store {
    /// Opens a register, or makes one.
    ///
    /// # Errors
    /// That it is no register, one of a later program, or can't be opened.
    pub fn open(path: &Path) -> Result<Self, StoreError> {
        let failed = |cause| StoreError::of(path, &cause);
        let mut connection = Connection::open(path).map_err(failed)?;
        connection.busy_timeout(PATIENCE).map_err(failed)?;
        schema::bring_up_to_date(path, &mut connection)?;
        Ok(Self { path: path.to_owned(), connection })
    }

    /// What was kept of a hand-in.
    ///
    /// # Errors
    /// That the register can't be read.
    pub fn marked(&self, key: &Key<'_>) -> Result<Option<String>, StoreError> {
        let found = self.connection.prepare_cached(
            "SELECT hand_in FROM marked WHERE attempt = ?1 AND assignment = ?2 AND marking = ?3 AND program = ?4",
        );
        let found = found.and_then(|mut it| {
            let Key { attempt, assignment, marking, program } = key;
            it.query_row(params![attempt, assignment, marking, program], |row| row.get(0)).optional()
        });
        found.map_err(|cause| StoreError::of(&self.path, &cause))
    }

    /// All that was kept of an assignment under one marking and program, by the digests of the files; the key's attempt is not looked at. One
    /// question for all: asked file by file, each answer would take and let go of the file's lock.
    ///
    /// # Errors
    /// That the register can't be read.
    pub fn all_marked(&self, key: &Key<'_>) -> Result<HashMap<String, String>, StoreError> {
        let Key { assignment, marking, program, .. } = key;
        let found = self
            .connection
            .prepare("SELECT attempt, hand_in FROM marked WHERE assignment = ?1 AND marking = ?2 AND program = ?3")
            .and_then(|mut it| {
                it.query_map(params![assignment, marking, program], |row| Ok((row.get(0)?, row.get(1)?)))?.collect()
            });
        found.map_err(|cause| StoreError::of(&self.path, &cause))
    }

    /// Keeps some hand-ins, all of them or none. What is there already stays.
    ///
    /// # Errors
    /// That the register can't be written.
    pub fn keep<'a>(&mut self, rows: impl Iterator<Item = (Key<'a>, Row<'a>)>) -> Result<(), StoreError> {
        let path = &self.path;
        let failed = |cause| StoreError::of(path, &cause);
        let transaction = self.connection.transaction().map_err(failed)?;
        {
            let mut put = transaction
                .prepare_cached(
                    "INSERT INTO marked (attempt, assignment, marking, program, receipt, hand_in) \
                     VALUES (?1, ?2, ?3, ?4, ?5, ?6) \
                     ON CONFLICT DO NOTHING",
                )
                .map_err(failed)?;
            for (Key { attempt, assignment, marking, program }, Row { receipt, hand_in }) in rows {
                put.execute(params![attempt, assignment, marking, program, receipt, hand_in]).map_err(failed)?;
            }
        }
        transaction.commit().map_err(failed)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn file(name: &str) -> PathBuf {
        let path = std::env::temp_dir().join(format!("switchdrop-store-{}-{name}.db", std::process::id()));
        let _ = std::fs::remove_file(&path);
        path
    }

    fn row(hand_in: &str) -> Row<'_> {
        Row { receipt: None, hand_in }
    }

    fn key(attempt: &str, marking: u32) -> Key<'_> {
        Key { attempt, assignment: "set", marking, program: "1" }
    }

    #[test]
    fn what_is_kept_is_found_by_all_that_it_follows_from_and_by_no_less() {
        let path = file("kept");
        let mut store = Store::open(&path).unwrap();
        store.keep([(key("a", 4), row("one")), (key("b", 4), row("two"))].into_iter()).unwrap();
        // What is there stays: a key has one answer.
        store.keep([(key("a", 4), row("another"))].into_iter()).unwrap();
        drop(store);
        let store = Store::open(&path).unwrap();
        assert_eq!(store.marked(&key("a", 4)).unwrap().as_deref(), Some("one"));
        assert_eq!(store.marked(&key("b", 4)).unwrap().as_deref(), Some("two"));
        let both = [("a", "one"), ("b", "two")].map(|it| (it.0.to_owned(), it.1.to_owned()));
        assert_eq!(store.all_marked(&key("", 4)).unwrap(), both.into_iter().collect());
        for other in
            [key("c", 4), key("a", 5), Key { assignment: "other", ..key("a", 4) }, Key { program: "2", ..key("a", 4) }]
        {
            assert_eq!(store.marked(&other).unwrap(), None, "{other:?}");
            assert_eq!(store.all_marked(&other).unwrap().is_empty(), other.attempt == "a", "{other:?}");
        }
        std::fs::remove_file(path).unwrap();
    }

    #[test]
    fn what_is_no_register_is_left_as_it_is() {
        let path = file("text");
        std::fs::write(
            &path,
            "a tutor's own notes, and long enough to be looked at as a whole page of a file ".repeat(20),
        )
        .unwrap();
        let before = std::fs::read(&path).unwrap();
        assert!(matches!(Store::open(&path), Err(StoreError::NotOurs(_))));
        assert_eq!(std::fs::read(&path).unwrap(), before);
        // Another program's database.
        std::fs::remove_file(&path).unwrap();
        Connection::open(&path).unwrap().execute_batch("CREATE TABLE theirs (it TEXT)").unwrap();
        assert!(matches!(Store::open(&path), Err(StoreError::NotOurs(_))));
        let tables: i64 = Connection::open(&path)
            .unwrap()
            .query_row("SELECT count(*) FROM sqlite_master WHERE type = 'table'", [], |it| it.get(0))
            .unwrap();
        assert_eq!(tables, 1);
        // One that a later program made.
        std::fs::remove_file(&path).unwrap();
        drop(Store::open(&path).unwrap());
        Connection::open(&path).unwrap().execute_batch("UPDATE switchdrop_register SET version = 99").unwrap();
        assert!(matches!(Store::open(&path), Err(StoreError::Later { found: 99, .. })));
        std::fs::remove_file(path).unwrap();
    }
}
