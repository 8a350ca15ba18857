//! The `weekwright` program.

use std::process::ExitCode;
use std::sync::atomic::{AtomicBool, Ordering};

/// Whether standard output was closed before the start, as by `>&-`.
static IS_CLOSED: AtomicBool = AtomicBool::new(false);

// The runtime puts the null device where nothing is open, before `main`: results would vanish there without a word.
#[cfg(unix)]
ctor::declarative::ctor! {
    #[ctor(unsafe)]
    fn look_at_output() {
        let is_closed = rustix::io::fcntl_getfd(rustix::stdio::stdout()).is_err();
        IS_CLOSED.store(is_closed, Ordering::Relaxed);
    }
}

fn main() -> ExitCode {
    weekwright::cli::run(std::env::args_os(), !IS_CLOSED.load(Ordering::Relaxed))
}
