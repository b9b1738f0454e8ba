//! A row for every learner at every exercise.

use bevy_egui::egui::{Align, Label, Layout, RichText, ScrollArea, Ui, vec2};
use switchdrop::{marking::Outcome, register::REVIEW_COLUMNS};

use super::{BesideTable, ClassAct, ClassState, Order};
use crate::workshop::{
    panel::{Intent, PanelContext},
    sheet::sign_of,
    theme,
};

/// What the columns can be sorted by; the others can't.
const ORDERS: [Option<Order>; 7] =
    [Some(Order::Learner), None, Some(Order::Need), None, Some(Order::Marks), Some(Order::Minutes), None];
/// How wide the columns are at the normal text size, points; the last has what is left.
const WIDTHS: [f32; 6] = [76.0, 132.0, 100.0, 128.0, 96.0, 88.0];
/// The least that is left for it.
const REMARKS: f32 = 180.0;

/// Draws it.
pub fn show(ui: &mut Ui, panel: &mut PanelContext<'_>, state: &ClassState) {
    if !state.only.is_empty() {
        let learners: Vec<_> = state.only.iter().map(u64::to_string).collect();
        ui.horizontal_wrapped(|ui| {
            ui.label(panel.say("class-only", &[("learners", &learners.join(", "))]));
            let text = panel.say("class-everyone", &[]);
            if panel.button(ui, "class:everyone", &text) {
                panel.intents.push(Intent::Class(ClassAct::Only(Vec::new())));
            }
        });
        ui.add_space(4.0);
    }
    let scale = theme::scale_of(ui);
    let fixed = WIDTHS.map(|it| it * scale);
    // Between the columns, and for the bar that scrolls.
    let spaces = 10.0 * ui.spacing().item_spacing.x;
    let remarks = (ui.available_width() - fixed.iter().sum::<f32>() - spaces).max(REMARKS * scale);
    let widths: Vec<f32> = fixed.into_iter().chain([remarks]).collect();
    ScrollArea::both().id_salt("class").auto_shrink(false).show(ui, |ui| {
        ui.horizontal_top(|ui| {
            for ((key, order), wide) in REVIEW_COLUMNS.iter().zip(ORDERS).zip(&widths) {
                let text = panel.say(key, &[]);
                cell(ui, *wide, |ui| match order {
                    Some(order) => {
                        let name = panel.say("class-sort", &[("column", &text)]);
                        if panel.choice_called(ui, state.order == order, (&format!("sort:{key}"), &text), &name) {
                            panel.intents.push(Intent::Class(ClassAct::Sort(order)));
                        }
                    }
                    None => {
                        ui.label(theme::bold(text));
                    }
                });
            }
        });
        for place in state.rows() {
            ui.separator();
            ui.horizontal_top(|ui| row(ui, panel, state, place, &widths));
        }
    });
}

fn cell(ui: &mut Ui, wide: f32, add: impl FnOnce(&mut Ui)) {
    ui.allocate_ui_with_layout(vec2(wide, 0.0), Layout::top_down(Align::Min), |ui| {
        ui.set_width(wide);
        add(ui);
    });
}

/// Of a whole class a line each, so that many are in sight, whole where it is pointed at; of those that were chosen all of it.
fn fitted(text: RichText, state: &ClassState) -> Label {
    if state.only.is_empty() { Label::new(text).truncate() } else { Label::new(text).wrap() }
}

fn row(ui: &mut Ui, panel: &mut PanelContext<'_>, state: &ClassState, place: usize, widths: &[f32]) {
    let (Some(row), Some(cells)) = (state.review().rows.get(place), state.words.rows.get(place)) else { return };
    let earned = row.counting().map(|(_, earned)| earned.outcome);
    let outcome = Outcome::ALL.into_iter().find(|it| Some(it.word()) == earned);
    for (column, (text, wide)) in cells.iter().zip(widths).enumerate() {
        cell(ui, *wide, |ui| match (column, state.file(place)) {
            (0, Some(file)) => {
                let name = panel.say("class-read", &[("learner", text), ("exercise", &row.exercise)]);
                if panel.button_called(ui, &format!("read:{text}:{}", row.exercise), text, &name) {
                    panel.intents.push(Intent::Class(ClassAct::Read(file.to_owned())));
                }
            }
            (3, _) if outcome.is_some() => {
                // With a sign, so that the outcome does not hang on colour alone.
                let (ink, sign) = outcome.map_or((theme::INK, ""), sign_of);
                ui.add(fitted(RichText::new(format!("{sign} {text}")).color(ink), state));
            }
            (4, _) if outcome.is_some() => {
                let learner = row.learner.to_string();
                let name = panel.say("class-decide-named", &[("learner", &learner), ("exercise", &row.exercise)]);
                let is_on = state.beside == BesideTable::Decision(place);
                let key = format!("decide:{learner}:{}", row.exercise);
                if panel.choice_called(ui, is_on, (&key, text), &name) {
                    panel.intents.push(Intent::Class(ClassAct::Beside(BesideTable::Decision(place))));
                }
            }
            _ => {
                ui.add(fitted(RichText::new(text), state));
            }
        });
    }
}
