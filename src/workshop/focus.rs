//! Where the keyboard is: from pane to pane with one key, and never lost when what it was on disappears.
//!
//! It moves egui's focus about and knows nothing of what has it.

use std::collections::BTreeMap;

use bevy_egui::egui::{Id, Key, Memory, Modifiers, Ui};

use super::panel::{Pane, Target, Targets};

/// The way of a jump.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Jump {
    /// To the next pane.
    On,
    /// To the one before.
    Back,
    /// To what comes next, and from there to the drawing.
    Across,
}

/// Where the keyboard is and was.
#[derive(Debug, Default)]
pub struct Focus {
    at: Option<(Pane, String)>,
    /// What could be used in the last frame, in the order of Tab.
    order: Vec<(Pane, String)>,
    /// Where in each pane the keyboard was last.
    last: BTreeMap<Pane, String>,
    given: Option<Id>,
}

/// The jump that was asked for, its key taken.
pub fn asked(ui: &Ui) -> Option<Jump> {
    let in_text = ui.ctx().text_edit_focused();
    ui.input_mut(|it| {
        if it.consume_key(Modifiers::SHIFT, Key::F6) {
            Some(Jump::Back)
        } else if it.consume_key(Modifiers::NONE, Key::F6) {
            Some(Jump::On)
        } else if !in_text && it.consume_key(Modifiers::NONE, Key::N) {
            Some(Jump::Across)
        } else {
            None
        }
    })
}

impl Focus {
    /// What was given the keyboard after the last frame was drawn.
    pub fn given(&self) -> Option<Id> {
        self.given
    }

    /// After the panels are drawn: jumps, or finds the keyboard a new place when what it was on is gone. Whether it moved.
    pub fn keep(&mut self, ui: &Ui, targets: &Targets, jump: Option<Jump>) -> bool {
        let focused = ui.memory(Memory::focused);
        let here = focused.and_then(|id| targets.0.iter().find(|it| it.id == id));
        let to = if let Some(jump) = jump {
            self.jumped(targets, here, jump)
        } else if here.is_some_and(|it| it.enabled) {
            None
        } else {
            let gone = self.at.take();
            gone.filter(|(_, key)| targets.usable(key).is_none()).and_then(|it| self.successor(targets, &it))
        };
        let moved = to.is_some();
        self.given = to.map(|it| it.id);
        let at = to.or(here.filter(|it| it.enabled));
        if let Some(it) = at {
            if moved {
                give(ui, it.id);
            }
            self.last.insert(it.pane, it.key.clone());
        }
        self.at = at.map(|it| (it.pane, it.key.clone()));
        self.order = targets.0.iter().filter(|it| it.enabled).map(|it| (it.pane, it.key.clone())).collect();
        moved
    }

    /// Where a jump leads.
    fn jumped<'t>(&self, targets: &'t Targets, here: Option<&Target>, jump: Jump) -> Option<&'t Target> {
        let from = here.map(|it| it.pane);
        let mut panes: Vec<Pane> = targets.0.iter().filter(|it| it.enabled).map(|it| it.pane).collect();
        panes.sort_unstable();
        panes.dedup();
        let count = panes.len();
        let from = from.or(self.at.as_ref().map(|it| it.0)).and_then(|it| panes.iter().position(|pane| *pane == it));
        let to = match (from, jump) {
            (_, Jump::Across) => {
                let next = targets.0.iter().find(|it| it.main && it.enabled);
                return next
                    .filter(|next| here.is_none_or(|it| it.id != next.id))
                    .or(self.in_pane(targets, Pane::Middle));
            }
            (None, _) => 0,
            (Some(it), Jump::On) => (it + 1) % count,
            (Some(it), Jump::Back) => (it + count - 1) % count,
        };
        self.in_pane(targets, *panes.get(to)?)
    }

    /// Where the keyboard was last in a pane, else what comes next there, else its first.
    fn in_pane<'t>(&self, targets: &'t Targets, pane: Pane) -> Option<&'t Target> {
        let known = self.last.get(&pane).and_then(|it| targets.usable(it)).filter(|it| it.pane == pane);
        known.or_else(|| first(targets, Some(pane)))
    }

    /// Where what is gone leads: to what comes next, if that is in its pane, so that one more Enter does nothing unforeseen; else to
    /// what stands nearest, in its pane after it, then before it; else to what comes next on the screen.
    fn successor<'t>(&self, targets: &'t Targets, gone: &(Pane, String)) -> Option<&'t Target> {
        let place = self.order.iter().position(|it| it == gone).unwrap_or(0);
        let (before, after) = self.order.split_at(place);
        let near = after.iter().chain(before.iter().rev()).filter(|it| it.0 == gone.0);
        let near = near.filter_map(|it| targets.usable(&it.1)).find(|it| it.pane == gone.0);
        let main = targets.0.iter().find(|it| it.main && it.enabled && it.pane == gone.0);
        main.or(near).or_else(|| first(targets, Some(gone.0))).or_else(|| first(targets, None))
    }
}

/// What comes next in a pane or on the whole screen, else the first there.
fn first(targets: &Targets, pane: Option<Pane>) -> Option<&Target> {
    let there = || targets.0.iter().filter(|it| it.enabled && pane.is_none_or(|pane| it.pane == pane));
    there().find(|it| it.main).or_else(|| there().next())
}

fn give(ui: &Ui, id: Id) {
    ui.memory_mut(|it| it.request_focus(id));
}
