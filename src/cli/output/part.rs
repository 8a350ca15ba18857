//! A file is written beside its place under a name of its own and then moved there, so that a reader sees the old
//! one or the new one and never a part. What an interrupted run leaves is swept.

use std::fs::{self, File, Permissions};
use std::io::{self, Write as _};
use std::path::{Path, PathBuf};
use std::sync::{Mutex, Once, PoisonError};

use tempfile::NamedTempFile;

const BEGIN: &str = ".weekwright-";
const END: &str = ".part";

/// What is being written now, for the end by a signal.
static OPEN: Mutex<Vec<PathBuf>> = Mutex::new(Vec::new());

/// Writes a whole file or nothing. An existing one hands its permissions on.
pub(super) fn replace(
    target: &Path,
    permissions: Option<&Permissions>,
    text: &str,
) -> io::Result<()> {
    let folder = target.parent().filter(|folder| *folder != Path::new(""));
    let folder = folder.unwrap_or(Path::new("."));
    sweep(folder);
    // Another run may sweep the part in the moment before it is locked.
    const TRIES: usize = 3;
    let mut outcome = Ok(());
    for _ in 0..TRIES {
        outcome = write(folder, target, permissions, text);
        match &outcome {
            Err(error) if error.kind() == io::ErrorKind::NotFound => {}
            _ => break,
        }
    }
    outcome
}

fn write(
    folder: &Path,
    target: &Path,
    permissions: Option<&Permissions>,
    text: &str,
) -> io::Result<()> {
    let mut part = Part::new(folder)?;
    part.file.write_all(text.as_bytes())?;
    if let Some(permissions) = permissions {
        part.file.as_file().set_permissions(permissions.clone())?;
    }
    part.file.as_file().sync_all()?;
    part.put(target)
}

/// A file that is removed when it is not put in its place.
struct Part {
    file: NamedTempFile,
    path: PathBuf,
}

impl Part {
    fn new(folder: &Path) -> io::Result<Part> {
        sweep_on_signals();
        let mut builder = tempfile::Builder::new();
        builder.prefix(BEGIN).suffix(END);
        #[cfg(unix)]
        {
            // Ordinary permissions of a new file; the user's mask is applied to them.
            use std::os::unix::fs::PermissionsExt as _;
            builder.permissions(Permissions::from_mode(0o666));
        }
        // A signal waits until what is there is known.
        let mut open = open();
        let file = builder.tempfile_in(folder)?;
        let path = file.path().to_owned();
        open.push(path.clone());
        drop(open);
        // Locked while its writer lives; a file system without locks has no other runs to mind either.
        let _ = file.as_file().lock();
        Ok(Part { file, path })
    }

    fn put(self, target: &Path) -> io::Result<()> {
        let Part { file, path } = self;
        let outcome = file.persist(target);
        open().retain(|one| *one != path);
        outcome.map(drop).map_err(|failed| failed.error)
    }
}

fn open() -> std::sync::MutexGuard<'static, Vec<PathBuf>> {
    OPEN.lock().unwrap_or_else(PoisonError::into_inner)
}

/// Removes the parts of runs that ended in the middle: nobody locks those any more.
fn sweep(folder: &Path) {
    let entries = fs::read_dir(folder).into_iter().flatten().flatten();
    let is_part = |name: &str| name.starts_with(BEGIN) && name.ends_with(END);
    for entry in entries.filter(|entry| entry.file_name().to_str().is_some_and(is_part)) {
        let is_file = entry.file_type().is_ok_and(|kind| kind.is_file());
        let is_left = is_file && File::open(entry.path()).is_ok_and(|file| file.try_lock().is_ok());
        if is_left {
            let _ = fs::remove_file(entry.path());
        }
    }
}

/// Ctrl-C and a request to end take the parts with them. The lock is kept until the end, so that none is added.
#[allow(
    clippy::disallowed_methods,
    reason = "a signal ends the program; nothing is left to return to"
)]
fn sweep_on_signals() {
    static ONCE: Once = Once::new();
    /// What a shell shows after Ctrl-C.
    const INTERRUPTED: i32 = 130;
    ONCE.call_once(|| {
        let _ = ctrlc::set_handler(|| {
            let open = open();
            for path in open.iter() {
                let _ = fs::remove_file(path);
            }
            std::process::exit(INTERRUPTED);
        });
    });
}
