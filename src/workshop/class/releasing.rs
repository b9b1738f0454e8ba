//! What is released, beside the table: what that would do, the form, and what came of it. Nothing is shown to any learner before it.

use std::path::{Path, PathBuf};

use bevy_egui::egui::{Label, ScrollArea, Ui};
use switchdrop::{
    exercise::{Limits, names_are_clean},
    register::{ReleasePlan, ReviewRow},
    wording::Wording,
};

use super::{BesideTable, ClassAct, ClassState, way_back};
use crate::{
    desk::{ReleaseTo, Released, release},
    journal::make_folder,
    store::Store,
    workshop::{
        field::{PATH, field},
        panel::{Intent, PanelContext},
        start::harmless,
        theme,
    },
};

/// How wide the fields are here, points at the normal text size.
const WIDE: f32 = 170.0;
/// Characters of a reason.
const WHY: usize = 600;

/// What is filled in, and what came of it.
#[derive(Debug)]
pub struct Form {
    /// The folder of the pages.
    pages: String,
    /// Why what was released is released again.
    again: String,
    /// A sentence for each piece of work.
    pub came: Vec<String>,
}

impl Form {
    /// The pages go beside the assignment.
    pub fn new(assignment: &Path) -> Self {
        let pages = assignment.with_file_name("pages").display().to_string();
        Self { pages, again: String::new(), came: Vec::new() }
    }
}

impl ClassState {
    /// The rows that a release is about.
    fn to_release(&self, row: Option<usize>) -> impl Iterator<Item = &ReviewRow> {
        let rows = &self.review().rows;
        rows.iter().enumerate().filter(move |it| row.is_none_or(|row| row == it.0)).map(|it| it.1)
    }

    /// Releases; what is to be said then.
    pub(super) fn release_now(&mut self, wording: &Wording) -> Result<String, String> {
        let BesideTable::Release(row) = self.beside else { return Err(String::new()) };
        let register = self.class().register.clone().ok_or_else(|| wording.say("class-no-register", &[]))?;
        if !names_are_clean(self.by(), Limits::NAME_CHARS) {
            return Err(wording.say("class-no-name", &[]));
        }
        let pages = PathBuf::from(self.release.pages.trim());
        if pages.as_os_str().is_empty() {
            return Err(wording.say("class-no-pages", &[]));
        }
        make_folder(&pages).map_err(|it| it.say(wording))?;
        let mut store = Store::open(&register).map_err(|it| it.say(wording))?;
        let to = ReleaseTo { by: self.by(), pages: &pages, again: &self.release.again };
        let mut came = Vec::new();
        let mut written = 0;
        for it in self.to_release(row) {
            let mut it = it.clone();
            let whose = [("learner", it.learner.to_string()), ("exercise", it.exercise.clone())];
            let whose = whose.each_ref().map(|it| (it.0, it.1.as_str()));
            match release(self.assignment(), &mut it, &mut store, to, wording) {
                Ok(Released::Nothing) => {}
                Ok(Released::ToAgree) => came.push(wording.say("release-to-agree", &whose)),
                Ok(Released::Page(_)) => written += 1,
                Err(why) => came.push(why.say(wording)),
            }
        }
        self.release.came = came;
        self.release.again.clear();
        let folder = pages.display().to_string();
        Ok(wording.say("class-released", &[("count", &written.to_string()), ("folder", &folder)]))
    }
}

/// Draws it.
pub fn show(ui: &mut Ui, panel: &mut PanelContext<'_>, state: &mut ClassState, row: Option<usize>) {
    ScrollArea::vertical().id_salt("class-release").auto_shrink(false).show(ui, |ui| {
        way_back(ui, panel);
        ui.add_space(6.0);
        let of = row.and_then(|it| state.review().rows.get(it));
        let heading = match of {
            Some(it) => {
                let args = [("learner", it.learner.to_string()), ("exercise", it.exercise.clone())];
                panel.say("class-release-of", &args.each_ref().map(|it| (it.0, it.1.as_str())))
            }
            None => panel.say("class-release-all", &[]),
        };
        ui.add(Label::new(theme::bold(heading)).wrap());
        let plan = ReleasePlan::of(state.to_release(row));
        for (count, key) in [
            (plan.first, "class-plan-first"),
            (plan.stands, "class-plan-stands"),
            (plan.differs, "class-plan-differs"),
            (plan.to_agree, "class-plan-to-agree"),
            (plan.nothing, "class-plan-nothing"),
        ] {
            if count > 0 {
                ui.add(Label::new(format!("· {}", panel.say(key, &[("count", &count.to_string())]))).wrap());
            }
        }
        ui.add_space(8.0);
        if state.class().register.is_none() {
            ui.add(Label::new(panel.say("class-no-register", &[])).wrap());
            return;
        }
        ui.add(Label::new(panel.say("class-release-means", &[])).wrap());
        ui.add_space(6.0);
        field(ui, panel, ("release:by", "class-by"), &mut state.by, (Limits::NAME_CHARS, WIDE));
        field(ui, panel, ("release:pages", "class-pages"), &mut state.release.pages, (PATH, WIDE));
        if plan.differs > 0 {
            field(ui, panel, ("release:again", "class-release-again"), &mut state.release.again, (WHY, WIDE));
            theme::quiet(ui, &panel.say("class-release-again-means", &[]));
        }
        ui.add_space(6.0);
        let text = panel.say("class-release-now", &[]);
        if plan.first + plan.stands + plan.differs == 0 {
            panel.button_if(ui, false, "release:go", &text);
        } else if panel.main_button(ui, "release:go", &text) {
            panel.intents.push(Intent::Class(ClassAct::Release));
        }
        for it in &state.release.came {
            ui.add(Label::new(harmless(it)).wrap());
        }
    });
}
