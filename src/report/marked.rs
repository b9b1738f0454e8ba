//! An attempt file marked, with all that is told of it.

use jiff::Timestamp;
use serde_json::Error as JsonError;

use super::{
    html::{self, FilledIn, FormPart},
    json::SheetJson,
    story::Story,
    text::{About, report},
};
use crate::{
    attempt::{Attempt, Header, Opened, open, sha256},
    exercise::{AtHand, Problems, Template},
    marking::{Answers, Notice, Root, Sheet, answers, mark, notices},
    wording::{Wording, finding, outcome_key},
};

/// An attempt file, replayed and marked.
#[derive(Debug)]
pub struct Marked {
    /// The file as it was read.
    pub opened: Opened,
    /// SHA-256 of the file as it is, 64 hexadecimal digits.
    pub sha256: String,
    /// The same of the file up to the end of the line that handed it in, which the learner was shown; `None`: not handed in.
    pub receipt: Option<String>,
    /// The attempt, its actions carried out.
    pub attempt: Attempt,
    /// What it earned.
    pub sheet: Sheet,
    /// Its exercise beside the scenarios at hand.
    pub at_hand: AtHand,
    /// What is to be told of the file, from which no mark follows.
    pub notices: Vec<Notice>,
}

impl Marked {
    /// Marks the text of an attempt file. `templates`: the scenarios at hand, for saying whether the exercise is one of them.
    ///
    /// Set work whose answers are not for its learner yet is marked too, and says so among its notices, a time that is to come being taken as
    /// not come: whether they may be shown, [`answers`] decides.
    ///
    /// # Errors
    /// What is wrong with the file, each thing with its place in the text.
    pub fn of(text: &str, templates: &[Template<'_>]) -> Result<Self, Problems> {
        let opened = open(text)?;
        let attempt = opened.replay()?;
        let at_hand = AtHand::of(&opened.exercise, templates);
        let receipt = opened.handed_in_by().map(|end| sha256(&text.as_bytes()[..end]));
        let Header { mode, assigned, .. } = &opened.header;
        let shown = answers(&attempt, *mode, assigned.as_ref(), None, true);
        Ok(Self::told(opened, attempt, (at_hand, &shown), sha256(text.as_bytes()), receipt))
    }

    /// The same for a file that was read and replayed already, whose answers are shown in this way.
    pub fn told(
        opened: Opened,
        attempt: Attempt,
        (at_hand, shown): (AtHand, &Answers),
        sha256: String,
        receipt: Option<String>,
    ) -> Self {
        let sheet = mark(&attempt, opened.header.mode);
        let notices = notices(&opened, at_hand, shown);
        Self { opened, sha256, receipt, attempt: attempt.with_names_told(), sheet, at_hand, notices }
    }

    /// The sheet as one line of JSON, whose form [`super::schema`] gives. `name`: what the file is called.
    ///
    /// # Errors
    /// None that is known: the form holds nothing that JSON can't express.
    pub fn json(&self, name: &str) -> Result<String, JsonError> {
        serde_json::to_string(&SheetJson::of(name, self, &self.moments()))
    }

    /// The sheet as one HTML page, all in itself.
    pub fn page(&self, wording: &Wording) -> String {
        html::page(wording, self, &self.story())
    }

    /// The sheet as an HTML form of one page, to be signed on paper, with what is known beside it filled in.
    pub fn form(&self, wording: &Wording, filled: &FilledIn) -> String {
        html::form(wording, self, filled)
    }

    /// The same as a part of a page of many: see [`super::forms_page`].
    pub fn form_part(&self, wording: &Wording, filled: &FilledIn) -> FormPart {
        html::part(wording, self, filled)
    }

    /// The sheet in lines, not yet broken to a width.
    pub fn lines(&self, wording: &Wording) -> Vec<String> {
        let about =
            About { learner: &self.opened.header.learner, receipt: self.receipt.as_deref(), notices: &self.notices };
        report(wording, &about, &self.attempt, &self.sheet, &self.story())
    }

    /// The sheet in a line, for a list of many: who did it, which exercise, the outcome, the marks, the first cause that counts.
    pub fn brief(&self, wording: &Wording) -> [String; 5] {
        let Self { sheet, attempt, .. } = self;
        let cause = sheet.findings.iter().find(|it| it.root == Root::Itself && !it.before);
        [
            self.opened.header.learner.clone(),
            attempt.work().exercise().id.clone(),
            wording.say(outcome_key(sheet.outcome), &[]),
            format!("{}/{}", sheet.marks, sheet.out_of),
            cause.map_or_else(String::new, |it| finding(wording, attempt.work(), it).what),
        ]
    }

    /// Whether its answers are withheld at that time; `asked`: they are asked for all the same. See [`answers`].
    pub fn answers(&self, now: Timestamp, asked: bool) -> Answers {
        let Header { mode, assigned, .. } = &self.opened.header;
        answers(&self.attempt, *mode, assigned.as_ref(), Some(now), asked)
    }

    fn moments(&self) -> Story {
        Story::moments(&self.attempt, &self.sheet, self.opened.times())
    }

    fn story(&self) -> Story {
        Story::of(&self.attempt, &self.sheet, self.opened.times())
    }
}
