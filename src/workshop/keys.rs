//! What keys ask for wherever the keyboard is.

use bevy_egui::egui::{Key, Modifiers, Ui};
use switchdrop::{exercise::LocationId, work::Action};

use super::{
    panel::{Intent, Scaling},
    view::Sight,
    words::WordsAct,
};

/// Text size, help, undo and redo.
///
/// `helps` says whether help is over everything, or the glossary: Escape closes either.
pub fn shortcuts(ui: &Ui, helps: bool, reads: bool) -> Vec<Intent> {
    let mut asked = Vec::new();
    let in_text = ui.ctx().text_edit_focused();
    ui.input_mut(|it| {
        let scaling = [
            (Key::Plus, Scaling::Up),
            (Key::Equals, Scaling::Up),
            (Key::Minus, Scaling::Down),
            (Key::Num0, Scaling::Normal),
        ];
        for (key, how) in scaling {
            if it.consume_key(Modifiers::CTRL, key) {
                asked.push(Intent::Scale(how));
            }
        }
        if it.consume_key(Modifiers::NONE, Key::F1) || helps && it.consume_key(Modifiers::NONE, Key::Escape) {
            asked.push(Intent::Help);
        }
        if it.consume_key(Modifiers::NONE, Key::F2) || reads && it.consume_key(Modifiers::NONE, Key::Escape) {
            asked.push(Intent::Words(WordsAct::Turn));
        }
        // A text field takes these for itself, and help is no place to undo anything.
        if in_text || helps || reads {
            return;
        }
        let redo =
            it.consume_key(Modifiers::CTRL | Modifiers::SHIFT, Key::Z) || it.consume_key(Modifiers::CTRL, Key::Y);
        if redo {
            asked.push(Intent::Act(vec![Action::Redo]));
        } else if it.consume_key(Modifiers::CTRL, Key::Z) {
            asked.push(Intent::Act(vec![Action::Undo]));
        }
    });
    asked
}

/// Alt and a digit go to a place: 1 to the whole place, 2 and on to its locations as they stand in the row.
pub fn place_asked(ui: &Ui, locations: impl Iterator<Item = LocationId>) -> Option<Intent> {
    let digits = [Key::Num2, Key::Num3, Key::Num4, Key::Num5, Key::Num6, Key::Num7, Key::Num8, Key::Num9];
    ui.input_mut(|it| {
        if it.consume_key(Modifiers::ALT, Key::Num1) {
            return Some(Intent::Go(Sight::Place));
        }
        let mut places = digits.into_iter().zip(locations);
        let (_, place) = places.find(|(key, _)| it.consume_key(Modifiers::ALT, *key))?;
        Some(Intent::Go(Sight::Location(place)))
    })
}
