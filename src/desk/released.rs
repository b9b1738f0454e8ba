//! Work released to its learner: a page, and a row in the register before it. What was released once stays as it was told, whatever marks it
//! would have today, until it is released again with a reason.

use std::path::{Path, PathBuf};

use switchdrop::{
    marking::VERSION,
    register::{Assignment, Decided, MarkGiven, RELEASE_TITLE, Release, ReviewRow, release_page},
    wording::Wording,
};

use super::{class::ClassTrouble, kept::now};
use crate::{journal::write_own, store::Store};

/// Who releases, where the pages go, and why it is released again if it is.
#[derive(Debug, Clone, Copy)]
pub struct ReleaseTo<'a> {
    /// The name of who releases it.
    pub by: &'a str,
    /// The folder of the pages.
    pub pages: &'a Path,
    /// Why what was released before is released again; empty: it is not.
    pub again: &'a str,
}

/// What came of it.
#[derive(Debug)]
pub enum Released {
    /// Nothing counts, so nothing is shown.
    Nothing,
    /// A second marker gave something else: it is to be agreed on first.
    ToAgree,
    /// The page is there.
    Page(PathBuf),
}

/// Releases the work of a learner at an exercise, if some of it counts. The register comes first: a page without a release is never there, and
/// where it was not written in the end, the next release writes it.
///
/// # Errors
/// Why it can't be written.
pub fn release(
    assignment: &Assignment,
    row: &mut ReviewRow,
    store: &mut Store,
    to: ReleaseTo<'_>,
    wording: &Wording,
) -> Result<Released, ClassTrouble> {
    let Some((file, earned)) = row.counting() else { return Ok(Released::Nothing) };
    let decided = Decided::of(earned, &file.people.decisions);
    if decided.to_agree {
        return Ok(Released::ToAgree);
    }
    let before = file.people.released();
    let differs = before.is_some_and(|it| it.given != decided.given);
    let again = to.again.trim();
    if before.is_none() || (differs && !again.is_empty()) {
        let release = Release {
            by: to.by.to_owned(),
            at: now(),
            marking: VERSION,
            machine: MarkGiven::of(earned),
            given: decided.given,
            why: again.to_owned(),
        };
        store.release(file.sha256.as_deref().unwrap_or_default(), &release)?;
        if let Some(it) = row.counts.and_then(|it| row.files.get_mut(it)) {
            it.people.releases.push(release);
        }
    }
    let page = to.pages.join(page_name(assignment, row.learner, &row.exercise));
    let Some(text) = release_page(wording, assignment, row) else { return Ok(Released::Nothing) };
    write_own(&page, RELEASE_TITLE, &text)?;
    Ok(Released::Page(page))
}

/// What the page of a learner at an exercise is called.
pub(super) fn page_name(of: &Assignment, learner: u64, exercise: &str) -> String {
    format!("{}_{learner}_{exercise}.html", of.id)
}
