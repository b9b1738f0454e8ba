//! Bringing what was written to the disk itself, off the main thread and at most once a second.
//!
//! A line survives a killed program as soon as it is written; this is for a computer that loses its power.

use std::{
    fs::File,
    io,
    sync::mpsc::{Receiver, RecvTimeoutError, Sender, channel},
    thread::{self, JoinHandle},
    time::{Duration, Instant},
};

/// The shortest time between two flushes that nobody waits for.
const PAUSE: Duration = Duration::from_secs(1);

/// The thread that flushes one file. Dropping it flushes what is left and waits for the thread.
#[derive(Debug)]
pub(super) struct Flusher {
    asks: Option<Sender<Ask>>,
    thread: Option<JoinHandle<()>>,
}

enum Ask {
    /// Something was written.
    Soon,
    /// Somebody waits.
    Now(Sender<io::Result<()>>),
}

impl Flusher {
    /// Starts the thread.
    pub fn start(file: File) -> io::Result<Self> {
        let (asks, asked) = channel();
        let thread = thread::Builder::new().name("journal".to_owned()).spawn(move || serve(&file, &asked))?;
        Ok(Self { asks: Some(asks), thread: Some(thread) })
    }

    /// Says that something was written.
    pub fn soon(&self) {
        if let Some(asks) = &self.asks {
            // If the thread is gone there is nobody to tell; a flush that somebody waits for will say so.
            let _ = asks.send(Ask::Soon);
        }
    }

    /// Flushes, and waits until it is done.
    pub fn now(&self) -> io::Result<()> {
        let gone = || io::Error::other("the thread that flushes is gone");
        let (answer, answered) = channel();
        self.asks.as_ref().ok_or_else(gone)?.send(Ask::Now(answer)).map_err(|_| gone())?;
        answered.recv().map_err(|_| gone())?
    }
}

impl Drop for Flusher {
    fn drop(&mut self) {
        self.asks = None;
        if let Some(thread) = self.thread.take() {
            let _ = thread.join();
        }
    }
}

fn serve(file: &File, asked: &Receiver<Ask>) {
    let mut written = false;
    let mut last: Option<Instant> = None;
    loop {
        let rest = last.map_or(Duration::ZERO, |it| PAUSE.saturating_sub(it.elapsed()));
        if written && rest.is_zero() {
            // A failure shows again at the flush that somebody waits for.
            let _ = file.sync_data();
            (written, last) = (false, Some(Instant::now()));
        }
        // With nothing written there is nothing to wait for but the next ask.
        match asked.recv_timeout(if written { rest } else { Duration::MAX }) {
            Ok(Ask::Soon) => written = true,
            Ok(Ask::Now(answer)) => {
                let _ = answer.send(file.sync_data());
                (written, last) = (false, Some(Instant::now()));
            }
            Err(RecvTimeoutError::Timeout) => {}
            Err(RecvTimeoutError::Disconnected) => {
                if written {
                    let _ = file.sync_data();
                }
                return;
            }
        }
    }
}
