//! An empty window made of the same parts as ours: what the engine costs before anything of ours is in it.
//!
//! `tests/window/measure.py` runs it beside the program on the same display, so that a figure can be given as a ratio.

use std::time::Duration;

use bevy::{
    log::LogPlugin,
    prelude::*,
    window::WindowResolution,
    winit::{UpdateMode, WinitSettings},
};
use bevy_egui::{EguiPlugin, EguiPrimaryContextPass};

#[path = "../src/workshop/times.rs"]
mod times;

fn main() -> AppExit {
    let minute = Duration::from_mins(1);
    let window =
        Window { title: "Empty".to_owned(), resolution: WindowResolution::new(1280, 800), ..Window::default() };
    let mut app = App::new();
    app.insert_resource(times::Times::from_environment());
    app.add_plugins(
        DefaultPlugins
            .set(WindowPlugin { primary_window: Some(window), ..WindowPlugin::default() })
            .set(LogPlugin { filter: "error".to_owned(), ..LogPlugin::default() }),
    );
    app.add_plugins((EguiPlugin::default(), times::plugin))
        .insert_resource(WinitSettings {
            focused_mode: UpdateMode::reactive(minute),
            unfocused_mode: UpdateMode::reactive_low_power(minute),
        })
        .add_systems(Startup, |mut commands: Commands| {
            commands.spawn(Camera2d);
        })
        .add_systems(EguiPrimaryContextPass, || {});
    app.run()
}
