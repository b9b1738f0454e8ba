//! The Bevy application around the panels: the window, when it is drawn, and what happens when there is no screen.
//!
//! Nothing of an exercise is known here.

use std::{
    panic::{self, AssertUnwindSafe},
    sync::{
        Mutex,
        atomic::{AtomicU32, Ordering},
    },
    time::{Duration, Instant},
};

use bevy::{
    asset::AssetEventSystems,
    log::LogPlugin,
    prelude::*,
    window::{RequestRedraw, WindowResolution},
    winit::{UpdateMode, WinitSettings},
};
use bevy_egui::{
    EguiContexts, EguiInput, EguiPlugin, EguiPostUpdateSet, EguiPreUpdateSet, EguiPrimaryContextPass,
    egui::{self, LayerId, Modifiers, Ui, UiBuilder},
};

use super::{Closed, Options, theme, times, waiting::Waiting, window_state::WindowState};

/// Frames begun. What goes wrong before the [`SHOWN`]th goes wrong for want of a screen: the renderer is up to two behind.
static FRAMES: AtomicU32 = AtomicU32::new(0);
const SHOWN: u32 = 3;

/// The first thing that went wrong. What follows from it says less, and where the engine catches it nothing else is left.
static FIRST: Mutex<Option<String>> = Mutex::new(None);

/// Opens the window and comes back when it is closed. Bevy panics where there is no display and no graphics driver, and
/// offers no way to ask beforehand: the panic is caught, and its text is the reason.
pub fn open(options: Options) -> Closed {
    let hook = panic::take_hook();
    panic::set_hook(Box::new(|info| {
        if let Ok(mut first) = FIRST.lock() {
            first.get_or_insert_with(|| info.payload_as_str().unwrap_or_default().to_owned());
        }
    }));
    let done = panic::catch_unwind(AssertUnwindSafe(|| {
        let mut app = build(options);
        app.run()
    }));
    panic::set_hook(hook);
    if let Ok(AppExit::Success) = done {
        return Closed::ByHand;
    }
    let text = FIRST.lock().ok().and_then(|mut it| it.take()).unwrap_or_default();
    let reason = plain(text.lines().next().unwrap_or_default());
    if FRAMES.load(Ordering::Relaxed) < SHOWN { Closed::NoScreen(reason) } else { Closed::BrokeDown(reason) }
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
        .insert_resource(WindowState::new(options))
        .init_resource::<LastModifiers>()
        .add_systems(Startup, camera)
        .add_systems(
            PreUpdate,
            (tell_the_time, drop_idle_modifiers, one_button_a_frame)
                .chain()
                .after(EguiPreUpdateSet::ProcessInput)
                .before(EguiPreUpdateSet::BeginPass),
        )
        .add_systems(EguiPrimaryContextPass, show)
        // Letters that were never written before go into egui's texture after the pass. The renderer is told of a changed texture in the same
        // frame only if that is asked afterwards: else they are missing for a frame, and in a window that rests until the pointer moves.
        .configure_sets(PostUpdate, AssetEventSystems.after(EguiPostUpdateSet::PostProcessOutput));
    app
}

/// A frame for every event, and one a minute: nothing here moves by itself.
fn rests() -> WinitSettings {
    let minute = Duration::from_mins(1);
    WinitSettings { focused_mode: UpdateMode::reactive(minute), unfocused_mode: UpdateMode::reactive_low_power(minute) }
}

fn ground() -> Color {
    let [r, g, b, _] = theme::PAPER.worn().to_array();
    Color::srgb_u8(r, g, b)
}

fn camera(mut commands: Commands) {
    commands.spawn(Camera2d);
}

#[derive(Debug, Default, Resource)]
struct LastModifiers(Option<Modifiers>);

/// The engine's clock says when the frame before was presented. In a window that rests that may be long ago, and egui would take
/// a click after a pause for a press held all that while.
fn tell_the_time(mut started: Local<Option<Instant>>, mut inputs: Query<&mut EguiInput>) {
    let now = started.get_or_insert_with(Instant::now).elapsed().as_secs_f64();
    for mut input in &mut inputs {
        input.0.time = Some(now);
    }
}

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

/// What must not be seen together with what came before it waits for the next frame, which then has to come.
fn one_button_a_frame(
    mut waiting: Local<Waiting>,
    mut inputs: Query<&mut EguiInput>,
    mut redraw: MessageWriter<RequestRedraw>,
) {
    for mut input in &mut inputs {
        if waiting.pass(&mut input.0.events) {
            redraw.write(RequestRedraw);
        }
    }
}

/// Draws the panels, then does what was asked for in the same frame, and asks for another if anything changed.
fn show(
    mut contexts: EguiContexts,
    mut window: ResMut<WindowState>,
    mut redraw: MessageWriter<RequestRedraw>,
    mut cleared: ResMut<ClearColor>,
) -> Result {
    let ctx = contexts.ctx_mut()?.clone();
    let room = UiBuilder::new().layer_id(LayerId::background()).max_rect(ctx.viewport_rect());
    let mut ui = Ui::new(ctx.clone(), egui::Id::new("switchdrop"), room);
    let again = window.frame(&mut ui);
    // What no panel covers while the window is resized.
    if cleared.0 != ground() {
        cleared.0 = ground();
    }
    if again {
        ctx.request_repaint();
        redraw.write(RequestRedraw);
    }
    FRAMES.fetch_add(1, Ordering::Relaxed);
    Ok(())
}
