//! Faults past those of the files themselves, each met as a coach would meet it: its code, its exit code, and what to do.

use std::fs;
use std::path::Path;
use std::process::Output;

use super::{program, run, text};

const SMALL: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/fixtures/small.yaml");

/// The plan of the small profile, with some text in it replaced by another.
fn plan(folder: &Path, from: &str, to: &str) -> String {
    let made = run(&["plan", SMALL, "--format", "yaml", "--quiet"]);
    let made = text(&made.stdout);
    assert!(made.contains(from), "{from} is not in the plan");
    let file = folder.join("small.plan.yaml");
    fs::write(&file, made.replace(from, to)).unwrap();
    file.to_str().unwrap().to_owned()
}

fn tells(output: &Output, code: &str, exit: i32) {
    let told = text(&output.stderr);
    assert!(told.contains(&format!("[{code}]")) && told.contains(". "), "{code}: {told}");
    assert_eq!(output.status.code(), Some(exit), "{code}: {told}");
}

#[test]
fn questions_about_a_plan_that_cannot_be_answered() {
    let folder = tempfile::tempdir().unwrap();
    let file = plan(folder.path(), "client: dinghy-01", "client: dinghy-01");
    tells(&run(&["rework", &file, "--without", "barbel"]), "E2002", 2);
    tells(&run(&["rework", &file, "--drop-day", "sun"]), "E2003", 2);
    tells(&run(&["sheet", &file, "--as", "ics"]), "E4002", 2);
    tells(&run(&["manual", "plam"]), "E5002", 2);
    tells(&run(&["intake"]), "E5001", 2);
    let edited = plan(folder.path(), "goal: general-fitness", "goal: hypertrophy");
    tells(&run(&["why", &edited]), "W2004", 0);
    let lost = plan(folder.path(), "catalog_sha256: ", "catalog_sha256: 0");
    tells(&run(&["why", &lost]), "W2005", 0);
}

/// What a plan by hand misses is left alone; what no plan may do is mended: the place has no leg press.
#[test]
fn a_plan_by_hand_says_what_it_misses_and_what_it_breaks() {
    let folder = tempfile::tempdir().unwrap();
    let by_hand = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/fixtures/plans/by-hand.yaml");
    let output = run(&["rework", by_hand, "--minutes", "tue=45"]);
    tells(&output, "W2006", 0);
    assert!(!text(&output.stderr).contains("W2007"), "{}", text(&output.stderr));
    let written = fs::read_to_string(by_hand).unwrap();
    let broken = folder.path().join("p.yaml");
    fs::write(&broken, written.replace("exercise: back-squat", "exercise: leg-press")).unwrap();
    let output = run(&["rework", broken.to_str().unwrap(), "--minutes", "tue=45"]);
    tells(&output, "W2007", 0);
    assert!(text(&output.stderr).contains("leg-press"), "{}", text(&output.stderr));
}

#[test]
fn a_client_who_was_told_to_wait_gets_no_plan() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("p.yaml");
    let small = fs::read_to_string(SMALL).unwrap();
    fs::write(&file, format!("{small}screening: {{told_to_wait: true}}\n")).unwrap();
    tells(&run(&["plan", file.to_str().unwrap()]), "E3003", 2);
}

/// A plan outlives the catalog that it was made with: its sheet is still made, and says what it lacks.
#[test]
fn a_sheet_of_an_exercise_that_the_catalog_lost_says_so() {
    let folder = tempfile::tempdir().unwrap();
    let known = plan(folder.path(), "client: dinghy-01", "client: dinghy-01");
    let output = run(&["sheet", &known]);
    assert!(!text(&output.stderr).contains("W4003"), "{}", text(&output.stderr));
    let lost = plan(folder.path(), "exercise: goblet-squat,", "exercise: goblet-squatt,");
    for form in ["text", "html", "md", "csv"] {
        let output = run(&["sheet", &lost, "--as", form, "-o", "-"]);
        tells(&output, "W4003", 0);
        let told = text(&output.stderr);
        assert_eq!(told.matches("W4003").count(), 1, "told once: {told}");
        assert!(told.contains("id you mean `goblet-squat`?"), "{told}");
        assert!(told.contains("small.plan.yaml`, line "), "with its line: {told}");
        assert!(text(&output.stdout).contains("goblet"), "the sheet is made");
    }
    let quiet = program().args(["--quiet", "sheet", &lost]).output().unwrap();
    assert!(quiet.stderr.is_empty());
    tells(&run(&["audit", &lost]), "E2001", 2);
}

#[cfg(feature = "page")]
#[test]
fn a_page_cannot_listen_where_somebody_else_does() {
    let other = std::net::TcpListener::bind("127.0.0.1:0").unwrap();
    let port = other.local_addr().unwrap().port().to_string();
    let folder = tempfile::tempdir().unwrap();
    let folder = folder.path().to_str().unwrap();
    tells(&run(&["open", folder, "--port", &port, "--no-browser"]), "E5004", 1);
    tells(&run(&["open", SMALL, "--no-browser"]), "E1004", 2);
}
