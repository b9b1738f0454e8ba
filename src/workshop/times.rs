//! `SWITCHDROP_TIMES=1`: the program's own times on standard error.
//!
//! From the start of the program to the first frame handed to the screen, and the main schedule of each frame.

use std::time::Instant;

use bevy::prelude::*;

/// When things began.
#[derive(Debug, Resource)]
pub struct Times {
    started: Instant,
    frame: Instant,
    frames: u64,
    wanted: bool,
}

impl Times {
    /// Times from this moment, said if the environment asks for them.
    pub fn from_environment() -> Self {
        let now = Instant::now();
        Self { started: now, frame: now, frames: 0, wanted: std::env::var_os("SWITCHDROP_TIMES").is_some() }
    }
}

/// Adds the systems that time a frame.
pub fn plugin(app: &mut App) {
    app.add_systems(First, begin_frame).add_systems(Last, end_frame);
}

fn begin_frame(mut times: ResMut<Times>) {
    times.frame = Instant::now();
}

#[allow(clippy::print_stderr, reason = "the environment asked for it")]
fn end_frame(mut times: ResMut<Times>) {
    times.frames += 1;
    if !times.wanted {
        return;
    }
    // The second frame begins after the first was presented.
    if times.frames == 2 {
        let ms = times.frame.duration_since(times.started).as_secs_f64() * 1000.0;
        eprintln!("times: first frame presented after {ms:.0} ms");
    }
    eprintln!("times: main schedule {:.2} ms", times.frame.elapsed().as_secs_f64() * 1000.0);
}
