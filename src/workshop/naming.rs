//! What has no mark, named on the thing itself: each thing of a place with the names to choose from.

use bevy_egui::egui::Ui;
use switchdrop::{
    exercise::{LocationId, UnmarkedId},
    picture::Thing,
    wording::called,
    work::{Action, Called, Work},
};

use super::{panel::PanelContext, theme, view::View};

/// The thing without a mark that is selected, or to which what is selected belongs.
fn selected(work: &Work, view: &View) -> Option<UnmarkedId> {
    of_thing(work, view.selected?)
}

fn of_thing(work: &Work, thing: Thing) -> Option<UnmarkedId> {
    match thing {
        Thing::Unmarked(it) => Some(it),
        Thing::End(it) => work.exercise().unmarked_end(it),
        Thing::Terminal(it) => work.exercise().unmarked_terminal(it),
        _ => None,
    }
}

/// Everything without a mark at an open place, in the order in which it is seen; what is selected stands out.
pub fn at_place(ui: &mut Ui, panel: &mut PanelContext<'_>, work: &Work, view: &View, at: LocationId) {
    let exercise = work.exercise();
    let here = exercise.unmarked_ids().filter(|it| exercise.unmarked.get(it.group).is_some_and(|it| it.location == at));
    let here: Vec<_> = here.collect();
    if here.is_empty() || work.is_covered(at) {
        return;
    }
    panel.heading(ui, "window-which");
    if work.names_left().next().is_some() {
        theme::quiet(ui, &panel.say("window-name-means", &[]));
    }
    for it in here {
        row(ui, panel, work, (it, selected(work, view) == Some(it)));
    }
}

/// One thing with the names to choose from.
fn row(ui: &mut Ui, panel: &mut PanelContext<'_>, work: &Work, (id, is_selected): (UnmarkedId, bool)) {
    let exercise = work.exercise();
    let at = exercise.unmarked_address(id);
    let its_place = called(panel.wording, exercise, Called::ByPlace(id));
    ui.horizontal_wrapped(|ui| {
        let text = panel.say("window-name-this", &[("thing", &its_place)]);
        if is_selected {
            ui.label(theme::bold(text).color(theme::ACCENT));
        } else {
            ui.label(text);
        }
        let mut names: Vec<UnmarkedId> = exercise.unmarked_ids().filter(|it| it.group == id.group).collect();
        // In an order that says nothing of the order in which they are seen.
        names.sort_by_key(|it| exercise.unmarked_name(*it).to_owned());
        for name in names {
            let Some(thing) = exercise.unmarked_thing(name) else { continue };
            let text = called(panel.wording, exercise, Called::By(thing));
            let whole = panel.say("window-name-it", &[("thing", &its_place), ("name", &text)]);
            let key = format!("name:{at}:{}", exercise.unmarked_name(name));
            let is_chosen = work.named_as(id) == Some(name);
            if panel.choice_called(ui, is_chosen, (&key, &text), &whole) && !is_chosen {
                let called = exercise.unmarked_name(name).to_owned();
                panel.act(Action::Name { at: at.clone(), called });
            }
        }
    });
}
