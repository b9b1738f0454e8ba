//! The program: chooses between the command line and the window, and returns the exit code.

mod command;
mod journal;

use std::process::ExitCode;

fn main() -> ExitCode {
    command::run(std::env::args_os())
}
