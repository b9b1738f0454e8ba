//! What people decided and released, in the register: written once, in the order in which it was done, and never changed.

use std::collections::BTreeMap;

use rusqlite::{Connection, OptionalExtension, Row, Transaction, TransactionBehavior, params, types::Type};
use switchdrop::{
    marking::Outcome,
    register::{Decision, MarkGiven, MarkLayer, People, Release, StepComment},
};

use super::{Store, StoreError};

impl Store {
    /// The digest of the file that was handed in with that receipt, and what was kept of it, by the newest marking.
    ///
    /// # Errors
    /// That the register can't be read.
    pub fn of_receipt(&self, receipt: &str) -> Result<Option<(String, String)>, StoreError> {
        let found = self.connection.query_row(
            "SELECT attempt, hand_in FROM marked WHERE receipt = ?1 ORDER BY marking DESC, program DESC LIMIT 1",
            [receipt],
            |row| Ok((row.get(0)?, row.get(1)?)),
        );
        found.optional().map_err(|cause| StoreError::of(&self.path, &cause))
    }

    /// What people did with a file of that digest.
    ///
    /// # Errors
    /// That the register can't be read.
    pub fn people(&self, attempt: &str) -> Result<People, StoreError> {
        let found = gathered(&self.connection).map_err(|cause| StoreError::of(&self.path, &cause));
        found.map(|mut it| it.remove(attempt).unwrap_or_default())
    }

    /// What people did with any file, by its digest.
    ///
    /// # Errors
    /// That the register can't be read.
    pub fn all_people(&self) -> Result<BTreeMap<String, People>, StoreError> {
        gathered(&self.connection).map_err(|cause| StoreError::of(&self.path, &cause))
    }

    /// Writes a decision down, after all that were written before.
    ///
    /// # Errors
    /// That the register can't be written.
    pub fn decide(&mut self, attempt: &str, it: &Decision) -> Result<(), StoreError> {
        let put = |to: &Transaction<'_>| {
            let Decision { layer, by, at, marks, outcome, finding, why } = it;
            to.execute(
                "INSERT INTO decision (number, attempt, layer, decided_by, decided_at, marks, outcome, finding, why) \
                 VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9)",
                params![next(to, "decision")?, attempt, layer.word(), by, at, marks, outcome, finding, why],
            )
        };
        self.writes(put)
    }

    /// Writes a comment on a step down, after all that were written before.
    ///
    /// # Errors
    /// That the register can't be written.
    pub fn comment(&mut self, attempt: &str, it: &StepComment) -> Result<(), StoreError> {
        let put = |to: &Transaction<'_>| {
            let StepComment { layer, by, at, step, why } = it;
            to.execute(
                "INSERT INTO step_comment (number, attempt, layer, commented_by, commented_at, step, why) \
                 VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7)",
                params![next(to, "step_comment")?, attempt, layer.word(), by, at, step, why],
            )
        };
        self.writes(put)
    }

    /// Writes a release down, after all that were written before.
    ///
    /// # Errors
    /// That the register can't be written.
    pub fn release(&mut self, attempt: &str, it: &Release) -> Result<(), StoreError> {
        let put = |to: &Transaction<'_>| {
            let Release { by, at, marking, machine, given, why } = it;
            to.execute(
                "INSERT INTO released (number, attempt, released_by, released_at, marking, machine_marks, machine_outcome, marks, \
                 outcome, why) VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10)",
                params![
                    next(to, "released")?,
                    attempt,
                    by,
                    at,
                    marking,
                    machine.marks,
                    machine.outcome,
                    given.marks,
                    given.outcome,
                    why
                ],
            )
        };
        self.writes(put)
    }

    fn writes(&mut self, put: impl Fn(&Transaction<'_>) -> rusqlite::Result<usize>) -> Result<(), StoreError> {
        let Self { path, connection } = self;
        // At once the only writer, so that no two have one number.
        let transaction = Transaction::new(connection, TransactionBehavior::Immediate);
        let done = transaction.and_then(|it| {
            put(&it)?;
            it.commit()
        });
        done.map_err(|cause| StoreError::of(path, &cause))
    }
}

/// The number after the last of a table.
fn next(of: &Transaction<'_>, table: &str) -> rusqlite::Result<i64> {
    of.query_row(&format!("SELECT coalesce(max(number), 0) + 1 FROM {table}"), [], |it| it.get(0))
}

fn gathered(from: &Connection) -> rusqlite::Result<BTreeMap<String, People>> {
    let mut all: BTreeMap<String, People> = BTreeMap::new();
    let mut decisions = from.prepare(
        "SELECT attempt, layer, decided_by, decided_at, marks, outcome, finding, why FROM decision ORDER BY number",
    )?;
    let mut rows = decisions.query([])?;
    while let Some(row) = rows.next()? {
        let outcome = row.get::<_, Option<String>>(5)?.map(|it| outcome(5, &it)).transpose()?;
        let decision = Decision {
            layer: layer(1, &row.get::<_, String>(1)?)?,
            by: row.get(2)?,
            at: row.get(3)?,
            marks: row.get(4)?,
            outcome,
            finding: row.get(6)?,
            why: row.get(7)?,
        };
        all.entry(row.get(0)?).or_default().decisions.push(decision);
    }
    let mut comments =
        from.prepare("SELECT attempt, layer, commented_by, commented_at, step, why FROM step_comment ORDER BY number")?;
    let mut rows = comments.query([])?;
    while let Some(row) = rows.next()? {
        let comment = StepComment {
            layer: layer(1, &row.get::<_, String>(1)?)?,
            by: row.get(2)?,
            at: row.get(3)?,
            step: row.get(4)?,
            why: row.get(5)?,
        };
        all.entry(row.get(0)?).or_default().comments.push(comment);
    }
    let mut releases = from.prepare(
        "SELECT attempt, released_by, released_at, marking, machine_marks, machine_outcome, marks, outcome, why FROM released \
         ORDER BY number",
    )?;
    let mut rows = releases.query([])?;
    while let Some(row) = rows.next()? {
        let release = Release {
            by: row.get(1)?,
            at: row.get(2)?,
            marking: row.get(3)?,
            machine: given(row, 4)?,
            given: given(row, 6)?,
            why: row.get(8)?,
        };
        all.entry(row.get(0)?).or_default().releases.push(release);
    }
    Ok(all)
}

/// Marks and the outcome in the column after them.
fn given(row: &Row<'_>, at: usize) -> rusqlite::Result<MarkGiven> {
    Ok(MarkGiven { marks: row.get(at)?, outcome: outcome(at + 1, &row.get::<_, String>(at + 1)?)? })
}

fn layer(column: usize, word: &str) -> rusqlite::Result<MarkLayer> {
    MarkLayer::ALL.iter().copied().find(|it| it.word() == word).ok_or_else(|| unknown(column, word))
}

fn outcome(column: usize, word: &str) -> rusqlite::Result<&'static str> {
    let all = Outcome::ALL.map(Outcome::word);
    all.into_iter().find(|it| *it == word).ok_or_else(|| unknown(column, word))
}

/// Only something else than this program writes such a word.
fn unknown(column: usize, word: &str) -> rusqlite::Error {
    rusqlite::Error::FromSqlConversionFailure(column, Type::Text, format!("unknown word `{word}`").into())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_people_did_comes_back_in_its_order_and_an_older_register_takes_it() {
        let path = std::env::temp_dir().join(format!("switchdrop-store-{}-people.db", std::process::id()));
        let _ = std::fs::remove_file(&path);
        // A register of version 1 had no such tables.
        drop(Store::open(&path).unwrap());
        let older = "DROP TABLE decision; DROP TABLE released; DROP TABLE step_comment; UPDATE switchdrop_register SET version = 1";
        Connection::open(&path).unwrap().execute_batch(older).unwrap();
        let mut store = Store::open(&path).unwrap();
        let decision = |by: &str, marks, outcome| Decision {
            layer: MarkLayer::Second,
            by: by.to_owned(),
            at: "2026-11-30T12:00:00Z".to_owned(),
            marks,
            outcome,
            finding: None,
            why: "é'\";--".to_owned(),
        };
        let given = MarkGiven { marks: 90, outcome: Outcome::NotYet.word() };
        let release = Release {
            by: "A".to_owned(),
            at: "2026-11-30T13:00:00Z".to_owned(),
            marking: 4,
            machine: MarkGiven { marks: 85, ..given },
            given,
            why: String::new(),
        };
        let decisions = [decision("A", Some(90), None), decision("B", None, Some(Outcome::Refer.word()))];
        for it in &decisions {
            store.decide("one", it).unwrap();
        }
        let comment = StepComment {
            layer: MarkLayer::Tutor,
            by: "A".to_owned(),
            at: "2026-11-30T12:30:00Z".to_owned(),
            step: 12,
            why: "look; 'again'".to_owned(),
        };
        store.comment("one", &comment).unwrap();
        store.release("one", &release).unwrap();
        store.decide("two", &decisions[0]).unwrap();
        drop(store);
        let store = Store::open(&path).unwrap();
        let one = People { decisions: decisions.to_vec(), comments: vec![comment], releases: vec![release] };
        let two = People { decisions: vec![decisions[0].clone()], ..People::default() };
        assert_eq!((store.people("one").unwrap(), store.people("two").unwrap()), (one, two));
        assert!(store.people("three").unwrap().is_empty());
        std::fs::remove_file(path).unwrap();
    }
}
