//! The Bevy application around the panels: the window, when it is drawn, and what happens when there is no screen.
//!
//! Nothing of an exercise is known here.

use std::{
    panic::{self, AssertUnwindSafe},
    sync::atomic::{AtomicBool, Ordering},
    time::Duration,
};

use bevy::{
    log::LogPlugin,
    prelude::*,
    window::{RequestRedraw, WindowResolution},
    winit::{UpdateMode, WinitSettings},
};
use bevy_egui::{
    EguiContexts, EguiInput, EguiPlugin, EguiPreUpdateSet, EguiPrimaryContextPass,
    egui::{self, LayerId, Modifiers, Ui, UiBuilder},
};

use super::{Closed, Options, shop::Shop, theme, times};

/// Whether a frame was ever drawn: what went wrong before that went wrong for want of a screen.
static DRAWN: AtomicBool = AtomicBool::new(false);

/// Opens the window and comes back when it is closed. Bevy panics where there is no display and no graphics driver, and
/// offers no way to ask beforehand: the panic is caught, and its text is the reason.
pub fn open(options: Options) -> Closed {
    let hook = panic::take_hook();
    panic::set_hook(Box::new(|_| {}));
    let done = panic::catch_unwind(AssertUnwindSafe(|| {
        let mut app = build(options);
        app.run()
    }));
    panic::set_hook(hook);
    match done {
        Ok(AppExit::Success) => Closed::ByHand,
        Ok(AppExit::Error(code)) => Closed::BrokeDown(code.to_string()),
        Err(payload) => {
            let text = payload.downcast_ref::<String>().cloned();
            let text = text.or_else(|| payload.downcast_ref::<&str>().map(|it| (*it).to_owned())).unwrap_or_default();
            let reason = plain(text.lines().next().unwrap_or_default());
            if DRAWN.load(Ordering::Relaxed) { Closed::BrokeDown(reason) } else { Closed::NoScreen(reason) }
        }
    }
}

/// What a panic says, without what only its makers understand: the last thing it quotes, if it quotes anything.
fn plain(text: &str) -> String {
    let mut quoted = text.rsplit('"').skip(1).step_by(2).filter(|it| it.contains(' '));
    quoted.next().unwrap_or(text).trim_end_matches('.').to_owned()
}

fn build(options: Options) -> App {
    let mut app = App::new();
    let window =
        Window { title: "Switchdrop".to_owned(), resolution: WindowResolution::new(1280, 800), ..Window::default() };
    app.insert_resource(times::Times::from_environment());
    app.add_plugins(
        DefaultPlugins
            .set(WindowPlugin { primary_window: Some(window), ..WindowPlugin::default() })
            .set(LogPlugin { filter: "error".to_owned(), ..LogPlugin::default() }),
    );
    app.add_plugins((EguiPlugin::default(), times::plugin))
        .insert_resource(rests())
        .insert_resource(ClearColor(ground()))
        .insert_resource(Shop::new(options))
        .init_resource::<LastModifiers>()
        .add_systems(Startup, camera)
        .add_systems(
            PreUpdate,
            drop_idle_modifiers.after(EguiPreUpdateSet::ProcessInput).before(EguiPreUpdateSet::BeginPass),
        )
        .add_systems(EguiPrimaryContextPass, show);
    app
}

/// A frame for every event, and one a minute: nothing here moves by itself.
fn rests() -> WinitSettings {
    let minute = Duration::from_mins(1);
    WinitSettings { focused_mode: UpdateMode::reactive(minute), unfocused_mode: UpdateMode::reactive_low_power(minute) }
}

fn ground() -> Color {
    let [r, g, b, _] = theme::PAPER.to_array();
    Color::srgb_u8(r, g, b)
}

fn camera(mut commands: Commands) {
    commands.spawn(Camera2d);
}

#[derive(Debug, Default, Resource)]
struct LastModifiers(Option<Modifiers>);

/// `bevy_egui` tells egui the modifier keys every frame, and egui draws again for any event: what has not changed is
/// dropped, else the window never rests.
fn drop_idle_modifiers(mut last: ResMut<LastModifiers>, mut inputs: Query<&mut EguiInput>) {
    for mut input in &mut inputs {
        input.0.events.retain(|event| match event {
            egui::Event::ModifiersChanged(now) => last.0.replace(*now) != Some(*now),
            _ => true,
        });
    }
}

/// Draws the panels, then does what was asked for in the same frame, and asks for another if anything changed.
fn show(mut contexts: EguiContexts, mut shop: ResMut<Shop>, mut redraw: MessageWriter<RequestRedraw>) -> Result {
    let ctx = contexts.ctx_mut()?.clone();
    let room = UiBuilder::new().layer_id(LayerId::background()).max_rect(ctx.viewport_rect());
    let mut ui = Ui::new(ctx.clone(), egui::Id::new("switchdrop"), room);
    if shop.frame(&mut ui) {
        ctx.request_repaint();
        redraw.write(RequestRedraw);
    }
    DRAWN.store(true, Ordering::Relaxed);
    Ok(())
}
