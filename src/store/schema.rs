//! The register's tables, and how an older register becomes one of today.

use std::path::Path;

use rusqlite::{Connection, OptionalExtension, Transaction};

use super::error::StoreError;

/// Each step makes a register of the version before it one of its own: the first is version 1. A step that was released is never
/// changed.
const STEPS: [&str; 3] = [
    "CREATE TABLE marked (
         attempt TEXT NOT NULL,
         assignment TEXT NOT NULL,
         marking INTEGER NOT NULL,
         program TEXT NOT NULL,
         receipt TEXT,
         hand_in TEXT NOT NULL,
         PRIMARY KEY (attempt, assignment, marking, program)
     );",
    "CREATE TABLE decision (
         number BIGINT NOT NULL PRIMARY KEY,
         attempt TEXT NOT NULL,
         layer TEXT NOT NULL,
         decided_by TEXT NOT NULL,
         decided_at TEXT NOT NULL,
         marks INTEGER,
         outcome TEXT,
         finding TEXT,
         why TEXT NOT NULL
     );
     CREATE TABLE released (
         number BIGINT NOT NULL PRIMARY KEY,
         attempt TEXT NOT NULL,
         released_by TEXT NOT NULL,
         released_at TEXT NOT NULL,
         marking INTEGER NOT NULL,
         machine_marks INTEGER NOT NULL,
         machine_outcome TEXT NOT NULL,
         marks INTEGER NOT NULL,
         outcome TEXT NOT NULL,
         why TEXT NOT NULL
     );",
    "CREATE TABLE step_comment (
         number BIGINT NOT NULL PRIMARY KEY,
         attempt TEXT NOT NULL,
         layer TEXT NOT NULL,
         commented_by TEXT NOT NULL,
         commented_at TEXT NOT NULL,
         step INTEGER NOT NULL,
         why TEXT NOT NULL
     );",
];

/// Takes every step that is missing, all of them or none.
pub fn bring_up_to_date(path: &Path, connection: &mut Connection) -> Result<(), StoreError> {
    let failed = |cause| StoreError::of(path, &cause);
    // At once the only writer: two programs that make the same register do not both take the first step.
    let transaction = Transaction::new(connection, rusqlite::TransactionBehavior::Immediate).map_err(failed)?;
    let known = i64::try_from(STEPS.len()).unwrap_or(i64::MAX);
    let found = match version(&transaction).map_err(failed)? {
        Some(it) if it > known => return Err(StoreError::Later { path: path.to_owned(), found: it }),
        Some(it) => it,
        None if is_empty(&transaction).map_err(failed)? => {
            let table = "CREATE TABLE switchdrop_register (version INTEGER NOT NULL);
                         INSERT INTO switchdrop_register (version) VALUES (0);";
            transaction.execute_batch(table).map_err(failed)?;
            0
        }
        None => return Err(StoreError::NotOurs(path.to_owned())),
    };
    if found == known {
        return Ok(());
    }
    for step in STEPS.iter().skip(usize::try_from(found).unwrap_or(0)) {
        transaction.execute_batch(step).map_err(failed)?;
    }
    transaction.execute("UPDATE switchdrop_register SET version = ?1", [known]).map_err(failed)?;
    transaction.commit().map_err(failed)
}

/// The version of a register; `None`: this is not a register. The table of tables is the one thing here that each database calls otherwise.
fn version(in_it: &Transaction<'_>) -> rusqlite::Result<Option<i64>> {
    if !has_table(in_it, "switchdrop_register")? {
        return Ok(None);
    }
    in_it.query_row("SELECT version FROM switchdrop_register", [], |it| it.get(0)).optional()
}

fn has_table(in_it: &Transaction<'_>, name: &str) -> rusqlite::Result<bool> {
    let found = in_it.query_row("SELECT 1 FROM sqlite_master WHERE type = 'table' AND name = ?1", [name], |_| Ok(()));
    found.optional().map(|it| it.is_some())
}

fn is_empty(it: &Transaction<'_>) -> rusqlite::Result<bool> {
    it.query_row("SELECT count(*) FROM sqlite_master", [], |it| it.get::<_, i64>(0)).map(|it| it == 0)
}
