//! A line of a form: what it is called, and beside that a field or some choices.

use bevy_egui::egui::{Align, Id, Label, Layout, TextEdit, TextStyle, Ui, vec2};

use super::{panel::PanelContext, theme};

/// How wide names of fields are at the normal text size, points; where there is little room, less.
const NAME: f32 = 140.0;
/// The longest path that can be typed, characters.
pub const PATH: usize = 1024;

/// Draws a name and something beside it, which is told the id of the name.
pub fn named<R>(ui: &mut Ui, name: &str, add: impl FnOnce(&mut Ui, Id) -> R) -> R {
    let wide = (NAME * theme::scale_of(ui)).min(0.3 * ui.available_width());
    let size = vec2(wide, ui.text_style_height(&TextStyle::Body) + 4.0);
    let row = ui.horizontal_top(|ui| {
        let label = ui.allocate_ui_with_layout(size, Layout::left_to_right(Align::Center), |ui| {
            ui.set_min_size(size);
            ui.add(Label::new(name).wrap()).id
        });
        ui.vertical(|ui| add(ui, label.inner)).inner
    });
    row.inner
}

/// Draws a field. `most`: characters; `wide`: points at the normal text size. Whether something was typed.
pub fn field(
    ui: &mut Ui,
    panel: &mut PanelContext<'_>,
    (key, name): (&str, &str),
    typed: &mut String,
    (most, wide): (usize, f32),
) -> bool {
    let name = panel.say(name, &[]);
    named(ui, &name, |ui, label| {
        let wide = (wide * theme::scale_of(ui)).min(ui.available_width() - 12.0);
        let response = ui.add(TextEdit::singleline(typed).char_limit(most).desired_width(wide)).labelled_by(label);
        typed.retain(|it| !it.is_control());
        panel.touchable(ui, &response, key, &name);
        panel.holds(typed);
        response.changed()
    })
}

/// Draws some choices, each with the word that its key ends in and its face.
pub fn choices<T: PartialEq>(
    ui: &mut Ui,
    panel: &mut PanelContext<'_>,
    (key, name): (&str, &str),
    now: &mut T,
    all: impl IntoIterator<Item = (T, &'static str, String)>,
) {
    let name = panel.say(name, &[]);
    named(ui, &name, |ui, _| {
        ui.horizontal_wrapped(|ui| {
            for (it, word, face) in all {
                if panel.choice(ui, *now == it, &format!("{key}:{word}"), &face) {
                    *now = it;
                }
            }
        });
    });
}

/// The faces of some choices: what stands in the catalogue under a beginning and the word of each.
pub fn faces<T: Copy>(
    panel: &PanelContext<'_>,
    key: &str,
    all: &[T],
    word: impl Fn(T) -> &'static str,
) -> Vec<(T, &'static str, String)> {
    let face = |choice: &T| {
        let word = word(*choice);
        (*choice, word, panel.say(&format!("{key}-{word}"), &[]))
    };
    all.iter().map(face).collect()
}
