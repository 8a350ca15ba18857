//! Runs that are ended in the middle: a file holds the old text or the new one, and nothing is left beside it.

#![cfg(unix)]

use std::fs;
use std::path::Path;
use std::process::{Child, Command, Stdio};

use super::{program, run, text};

const SMALL: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/fixtures/small.yaml");
const ROUNDS: usize = 200;

/// The page for one paper, as it is printed where no file is named.
fn page(plan: &Path, paper: &str) -> Vec<u8> {
    let output = run(&["sheet", plan.to_str().unwrap(), "--as", "html", "--paper", paper]);
    assert_eq!(output.status.code(), Some(0), "{}", text(&output.stderr));
    output.stdout
}

fn writing(folder: &Path, paper: &str) -> Child {
    let mut command = program();
    command.current_dir(folder).args([
        "sheet",
        "p.plan.yaml",
        "--as",
        "html",
        "--paper",
        paper,
        "--force",
        "-o",
        "page.html",
    ]);
    command.stdout(Stdio::null()).stderr(Stdio::null()).spawn().unwrap()
}

fn has_part(folder: &Path) -> bool {
    let names = fs::read_dir(folder).unwrap().flatten().map(|entry| entry.file_name());
    names.into_iter().any(|name| name.to_string_lossy().ends_with(".part"))
}

fn desk() -> tempfile::TempDir {
    let folder = tempfile::tempdir().unwrap();
    let plan = folder.path().join("p.plan.yaml");
    let made = run(&["plan", SMALL, "-o", plan.to_str().unwrap(), "--quiet"]);
    assert_eq!(made.status.code(), Some(0), "{}", text(&made.stderr));
    folder
}

/// Every second run is ended in the moment in which its part is seen, the others after more and more looks at the folder.
#[test]
fn a_killed_run_leaves_the_old_file_or_the_new_one() {
    let folder = desk();
    let folder = folder.path();
    let plan = folder.join("p.plan.yaml");
    let kept = fs::read(&plan).unwrap();
    let pages = ["a4", "letter"].map(|paper| page(&plan, paper));
    let file = folder.join("page.html");
    fs::write(&file, &pages[0]).unwrap();
    let (mut killed, mut in_the_middle) = (0, 0);
    for round in 0..ROUNDS {
        let mut child = writing(folder, ["letter", "a4"][round / 2 % 2]);
        let mut looks = 0;
        while child.try_wait().unwrap().is_none() {
            looks += 1;
            let writes = round % 2 == 0 && has_part(folder);
            if writes || looks > 3 * round {
                let _ = child.kill();
                killed += 1;
                in_the_middle += usize::from(writes);
                break;
            }
        }
        child.wait().unwrap();
        let now = fs::read(&file).unwrap();
        assert!(pages.contains(&now), "round {round}: {} bytes", now.len());
        assert_eq!(fs::read(&plan).unwrap(), kept, "round {round}");
    }
    assert!(
        killed > ROUNDS / 4,
        "only {killed} were killed, {in_the_middle} of them while they wrote"
    );
    let last = writing(folder, "a4").wait().unwrap();
    assert!(last.success() && !has_part(folder), "what killed runs left is swept");
    assert_eq!(fs::read(&file).unwrap(), pages[0]);
}

/// Ctrl-C and a request to end, while the pages of many plans are written: the part goes with the run, and each page that
/// is there is whole.
#[test]
fn a_signal_takes_the_part_along() {
    const PLANS: usize = 40;
    const TRIES: usize = 20;
    let folder = desk();
    let folder = folder.path();
    let plan = folder.join("p.plan.yaml");
    let whole = page(&plan, "a4");
    let pages = folder.join("pages");
    fs::create_dir(folder.join("plans")).unwrap();
    fs::create_dir(&pages).unwrap();
    for number in 0..PLANS {
        fs::copy(&plan, folder.join(format!("plans/{number}.plan.yaml"))).unwrap();
    }
    for signal in ["-INT", "-TERM"] {
        let mut caught = false;
        for _ in 0..TRIES {
            let mut command = program();
            command
                .current_dir(folder)
                .args(["sheet", "plans", "--as", "html", "--force", "-o", "pages"]);
            let mut child = command.stdout(Stdio::null()).stderr(Stdio::null()).spawn().unwrap();
            while child.try_wait().unwrap().is_none() {
                if has_part(&pages) {
                    let told =
                        Command::new("kill").args([signal, &child.id().to_string()]).status();
                    assert!(told.is_ok(), "{told:?}");
                    break;
                }
            }
            let ended = child.wait().unwrap();
            assert!(!has_part(&pages), "{signal}: {ended}");
            for page in fs::read_dir(&pages).unwrap().flatten() {
                assert!(
                    fs::read(page.path()).unwrap() == whole,
                    "{signal}: {:?}",
                    page.file_name()
                );
            }
            assert!(ended.success() || ended.code() == Some(130), "{signal}: {ended}");
            caught |= !ended.success();
            if caught {
                break;
            }
        }
        assert!(caught, "{signal}: no run was met while it wrote");
    }
}
