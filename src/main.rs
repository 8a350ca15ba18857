//! The `weekwright` program.

use std::process::ExitCode;

fn main() -> ExitCode {
    weekwright::cli::run(std::env::args_os())
}
