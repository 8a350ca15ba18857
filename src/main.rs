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

/// Stores of memory that threads share while the page is open. Each would keep the most that a search once took, and there
/// are as many as threads; so few cost no time that was measured.
#[cfg(all(target_os = "linux", target_env = "gnu"))]
#[allow(unsafe_code, reason = "the C library is asked before any other thread is there")]
fn share_memory() {
    const STORES: libc::c_int = 2;
    // SAFETY: a number is handed over, and nothing else uses the allocator's settings. A refusal changes nothing.
    let _ = unsafe { libc::mallopt(libc::M_ARENA_MAX, STORES) };
}

#[cfg(not(all(target_os = "linux", target_env = "gnu")))]
fn share_memory() {}

fn main() -> ExitCode {
    if std::env::args_os().any(|argument| argument == "open") {
        share_memory();
    }
    weekwright::cli::run(std::env::args_os(), !IS_CLOSED.load(Ordering::Relaxed))
}
