//! Something that is worked out beside the window: no frame waits for it, and the window is woken when it is there.

use std::{
    sync::{
        Mutex,
        mpsc::{Receiver, RecvTimeoutError, channel},
    },
    thread,
    time::Duration,
};

use bevy_egui::egui::Context;

/// What is worked out beside the window.
#[derive(Debug)]
pub enum Beside<T> {
    /// It is being worked out.
    Waiting(Mutex<Receiver<T>>),
    /// It is there.
    Come(T),
    /// It never came.
    Lost,
}

impl<T: Send + 'static> Beside<T> {
    /// Starts the work on a thread called `name`, and wakes `ctx` when the result is there.
    pub fn new(name: &str, ctx: Option<Context>, work: impl FnOnce() -> T + Send + 'static) -> Self {
        let (sender, receiver) = channel();
        let beside = thread::Builder::new().name(name.to_owned()).spawn(move || {
            // Nobody may be waiting any more.
            let _ = sender.send(work());
            if let Some(ctx) = ctx {
                ctx.request_repaint();
            }
        });
        beside.map_or(Self::Lost, |_| Self::Waiting(Mutex::new(receiver)))
    }

    /// Takes it if it has come, or comes before so long.
    pub fn look(&mut self, at_most: Duration) {
        let Self::Waiting(receiver) = self else { return };
        *self = match receiver.get_mut().map(|it| it.recv_timeout(at_most)) {
            Ok(Ok(it)) => Self::Come(it),
            Ok(Err(RecvTimeoutError::Timeout)) => return,
            Ok(Err(RecvTimeoutError::Disconnected)) | Err(_) => Self::Lost,
        };
    }

    /// It, if it is there.
    pub fn come(&self) -> Option<&T> {
        if let Self::Come(it) = self { Some(it) } else { None }
    }

    /// It, for good, if it is there.
    pub fn taken(self) -> Option<T> {
        if let Self::Come(it) = self { Some(it) } else { None }
    }

    /// Whether it is still to come.
    pub fn is_waiting(&self) -> bool {
        matches!(self, Self::Waiting(_))
    }
}
