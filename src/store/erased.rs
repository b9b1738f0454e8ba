//! What is kept of somebody, counted and erased. It is the one thing that takes rows out of a register.

use rusqlite::{Transaction, TransactionBehavior};

use super::{Store, StoreError};

/// The tables that say something of an attempt.
const TABLES: [&str; 4] = ["marked", "decision", "step_comment", "released"];

/// Rows of a register.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct RowCount {
    /// Hand-ins as they were marked.
    pub marked: usize,
    /// Decisions and comments.
    pub decisions: usize,
    /// Releases.
    pub releases: usize,
}

impl Store {
    /// What was kept of every hand-in of an assignment: the digest of its file, and the hand-in.
    ///
    /// # Errors
    /// That the register can't be read.
    pub fn of_assignment(&self, assignment: &str) -> Result<Vec<(String, String)>, StoreError> {
        let failed = |cause| StoreError::of(&self.path, &cause);
        let wanted = "SELECT attempt, hand_in FROM marked WHERE assignment = ?1 ORDER BY attempt";
        let mut wanted = self.connection.prepare(wanted).map_err(failed)?;
        let rows = wanted.query_map([assignment], |row| Ok((row.get(0)?, row.get(1)?))).map_err(failed)?;
        rows.collect::<Result<_, _>>().map_err(failed)
    }

    /// Rows about these attempts.
    ///
    /// # Errors
    /// That the register can't be read.
    pub fn count(&self, attempts: &[String]) -> Result<RowCount, StoreError> {
        let failed = |cause| StoreError::of(&self.path, &cause);
        let mut counts = [0; TABLES.len()];
        for (table, count) in TABLES.iter().zip(&mut counts) {
            let asked = format!("SELECT count(*) FROM {table} WHERE attempt = ?1");
            let mut asked = self.connection.prepare(&asked).map_err(failed)?;
            for it in attempts {
                let found: i64 = asked.query_row([it], |row| row.get(0)).map_err(failed)?;
                *count += usize::try_from(found).unwrap_or_default();
            }
        }
        let [marked, decisions, comments, releases] = counts;
        Ok(RowCount { marked, decisions: decisions + comments, releases })
    }

    /// Erases every row about these attempts, all or none, and what stood in them from the file.
    ///
    /// # Errors
    /// That the register can't be written.
    pub fn erase(&mut self, attempts: &[String]) -> Result<(), StoreError> {
        let Self { path, connection } = self;
        // SQLite alone: what was erased is written over, and the file is packed. Another database has its own way.
        let overwrites = connection.execute_batch("PRAGMA secure_delete = ON");
        let done = overwrites.and_then(|()| {
            let transaction = Transaction::new(connection, TransactionBehavior::Immediate)?;
            for table in TABLES {
                let mut gone = transaction.prepare(&format!("DELETE FROM {table} WHERE attempt = ?1"))?;
                for it in attempts {
                    gone.execute([it])?;
                }
            }
            transaction.commit()?;
            connection.execute_batch("VACUUM")
        });
        done.map_err(|cause| StoreError::of(path, &cause))
    }
}
