//! Pointer buttons and keys that press something, one a frame.
//!
//! egui takes where the pointer is last in a frame for where it was pressed and let go: on a slow machine a click and what
//! moves the pointer on come together, and something else would have been pressed.

use std::collections::VecDeque;

use bevy_egui::egui::{Event, Key, Ui};

/// A key that presses what has the focus.
const fn is_pressed_key(event: &Event) -> bool {
    matches!(event, Event::Key { key: Key::Enter | Key::Space, pressed: true, .. })
}

/// How many presses end in this frame, by pointer or by key.
pub fn presses(ui: &Ui) -> usize {
    let ends = |it: &&Event| is_pressed_key(it) || matches!(it, Event::PointerButton { pressed: false, .. });
    ui.input(|input| input.events.iter().filter(ends).count())
}

/// What has come and is still to be seen, in its order.
#[derive(Debug, Default)]
pub struct Waiting(VecDeque<Event>);

impl Waiting {
    /// Takes what came and leaves what this frame is to see: nothing after a button or after Enter, and no release after a movement, for then
    /// a drag would be over before it was seen. Whether something waits for the next frame.
    pub fn pass(&mut self, events: &mut Vec<Event>) -> bool {
        self.0.extend(events.drain(..));
        let mut has_moved = false;
        let mut count = 0;
        for it in &self.0 {
            match it {
                Event::PointerButton { pressed: false, .. } if has_moved => break,
                Event::PointerMoved(_) => has_moved = true,
                _ => {}
            }
            count += 1;
            // Of Enter and Tab in one frame egui would take Enter for what Tab comes to.
            if is_pressed_key(it) || matches!(it, Event::PointerButton { .. }) {
                break;
            }
        }
        events.extend(self.0.drain(..count));
        !self.0.is_empty()
    }
}
