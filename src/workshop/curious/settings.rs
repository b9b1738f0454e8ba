//! The four ways in which two switches can stand, and what the lamp does in each.

use bevy_egui::egui::{Frame, Grid, Margin, RichText, Stroke, Ui, vec2};

use super::House;
use crate::workshop::{panel::PanelContext, theme};

/// Draws it: a row for each position of the near switch, the raised one first as on the wall.
pub fn show(ui: &mut Ui, panel: &PanelContext<'_>, house: &House) {
    panel.heading(ui, "curious-grid");
    let here = house.passage.positions().map(usize::from);
    Grid::new("curious-settings").spacing(vec2(6.0, 6.0)).show(ui, |ui| {
        ui.label("");
        for key in ["curious-grid-far-up", "curious-grid-far-down"] {
            ui.label(RichText::new(panel.say(key, &[])).small());
        }
        ui.end_row();
        for (near, key) in [(1, "curious-grid-near-up"), (0, "curious-grid-near-down")] {
            ui.label(RichText::new(panel.say(key, &[])).small());
            for far in [1, 0] {
                cell(ui, panel, house.seen[near][far], here == [near, far]);
            }
            ui.end_row();
        }
    });
    theme::quiet(ui, &panel.say("curious-here", &[]));
}

fn cell(ui: &mut Ui, panel: &PanelContext<'_>, lit: Option<bool>, is_here: bool) {
    let (key, ground) = match lit {
        Some(true) => ("curious-lit", theme::LAMPLIGHT),
        Some(false) => ("curious-dark", theme::DUSK),
        None => ("curious-unseen", theme::PANEL),
    };
    let edge = if is_here { Stroke::new(2.5, theme::ACCENT) } else { Stroke::new(1.0, theme::HAIR) };
    // As wide with either edge.
    let margin = if is_here { Margin::symmetric(7, 5) } else { Margin::symmetric(8, 6) };
    Frame::new().fill(ground.worn()).stroke(edge).corner_radius(4).inner_margin(margin).show(ui, |ui| {
        ui.set_min_width(90.0 * theme::scale_of(ui));
        ui.label(RichText::new(panel.say(key, &[])).small());
    });
}
