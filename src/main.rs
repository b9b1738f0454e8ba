//! The program: chooses between the command line and the window, and returns the exit code.

mod command;
mod desk;
mod journal;
#[cfg(feature = "register")]
mod store;
#[cfg(feature = "workshop")]
mod workshop;

use std::process::ExitCode;

fn main() -> ExitCode {
    match command::run(std::env::args_os()) {
        command::Ending::Exit(code) => code,
        #[cfg(feature = "workshop")]
        command::Ending::Window { attempts, exercises, seed, assignment, class } => {
            let settings = Some(journal::settings_file());
            match workshop::open(workshop::Options { attempts, exercises, seed, settings, class, assignment }) {
                workshop::Closed::ByHand => ExitCode::SUCCESS,
                workshop::Closed::NoScreen(why) => command::sample("window-no-screen", &why),
                workshop::Closed::BrokeDown(why) => command::broke_down(&why),
            }
        }
    }
}
