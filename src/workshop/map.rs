//! `SWITCHDROP_MAP`: where everything that can be touched is on the screen, for whoever drives the window from outside.
//!
//! A JSON object of keys and rectangles in window pixels, written each frame. More entries tell a driver when what it did
//! has arrived: `#frame` counts the frames, `#on` lists the keys that are chosen, ticked, selected or under a probe, `#order`
//! those that Tab goes through, in its order, each with its pane before it (`beside kiln.1.L1`), and `#focus` is the one it is at;
//! `#typed` has what stands in each field, `#said` what was said last, `#actions` is how many actions of the attempt the
//! frame shows, and `#presses` how many clicks and pressing keys have had all that they asked for.

use std::{fs, path::PathBuf};

use bevy_egui::egui::{self, Id};

use super::panel::Targets;

/// What a frame shows beside what can be touched.
#[derive(Debug)]
pub struct Shown<'a> {
    /// Actions of the open attempt.
    pub actions: usize,
    /// What was said last.
    pub said: &'a str,
    /// Presses that are answered.
    pub presses: usize,
}

/// The file, and how many frames it has seen.
#[derive(Debug, Default)]
pub struct Map {
    path: Option<PathBuf>,
    frame: u64,
}

impl Map {
    /// The map that the environment asks for, if it does.
    pub fn from_environment() -> Self {
        Self { path: std::env::var_os("SWITCHDROP_MAP").map(PathBuf::from), frame: 0 }
    }

    /// Writes what is in sight and what the frame shows. A map that can't be written is nobody's loss but the driver's.
    pub fn write(&mut self, targets: &Targets, focused: Option<Id>, shown: &Shown<'_>, pixels_per_point: f32) {
        let Some(path) = &self.path else { return };
        self.frame += 1;
        let text = text(targets, focused, self.frame, shown, pixels_per_point);
        let next = path.with_extension("json.next");
        let _ = fs::write(&next, text).and_then(|()| fs::rename(&next, path));
    }
}

/// The object. Of two things with one key the first counts.
fn text(targets: &Targets, focused: Option<Id>, frame: u64, shown: &Shown<'_>, pixels_per_point: f32) -> String {
    let mut object = serde_json::Map::new();
    for it in targets.0.iter().filter(|it| it.visible) {
        let px = |points: f32| f64::from((points * pixels_per_point).round());
        let egui::Rect { min, .. } = it.rect;
        let rect = serde_json::json!([px(min.x), px(min.y), px(it.rect.width()), px(it.rect.height())]);
        object.entry(it.key.clone()).or_insert(rect);
    }
    let order = targets.0.iter().filter(|it| it.enabled);
    object.insert("#order".to_owned(), order.map(|it| format!("{} {}", it.pane.word(), it.key)).collect());
    let on = targets.0.iter().filter(|it| it.on);
    object.insert("#on".to_owned(), on.map(|it| it.key.clone()).collect());
    let typed = targets.0.iter().filter_map(|it| Some((it.key.clone(), it.typed.clone()?.into())));
    object.insert("#typed".to_owned(), serde_json::Value::Object(typed.collect()));
    object.insert("#frame".to_owned(), frame.into());
    object.insert("#actions".to_owned(), shown.actions.into());
    object.insert("#said".to_owned(), shown.said.into());
    object.insert("#presses".to_owned(), shown.presses.into());
    let focus = focused.and_then(|id| targets.0.iter().find(|it| it.id == id)).map(|it| it.key.clone());
    object.insert("#focus".to_owned(), focus.into());
    serde_json::Value::Object(object).to_string()
}
