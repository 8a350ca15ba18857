//! Answers before training as a coach meets them: no plan, no audit, no sheet until a clinician agreed; the caution at
//! the head of what a coach reads, the instruction on what the client gets.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::Output;

use super::{run, text};

const SMALL: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/fixtures/small.yaml");

fn profile(folder: &Path, answers: &str) -> PathBuf {
    let file = folder.join("p.yaml");
    let small = fs::read_to_string(SMALL).unwrap();
    fs::write(&file, format!("{small}start: 2027-01-05\nscreening: {{{answers}}}\n")).unwrap();
    file
}

fn is_withheld(output: &Output) {
    let told = text(&output.stderr);
    assert_eq!(output.status.code(), Some(2), "{told}");
    assert!(told.contains("[E3003]") && told.contains("clinician_agreed:"), "{told}");
    assert!(output.stdout.is_empty(), "{}", text(&output.stdout));
}

#[test]
fn signs_give_no_plan_until_a_clinician_agreed() {
    let folder = tempfile::tempdir().unwrap();
    for answers in [
        "signs: true",
        "pain: [chest]",
        "active: false, disease: true, signs: false",
        "pregnant: true",
        "signs: true, clinician_agreed: 2025-06-01",
    ] {
        is_withheld(&run(&["plan", profile(folder.path(), answers).to_str().unwrap()]));
    }
    let file = profile(folder.path(), "signs: true, clinician_agreed: 2026-12-15");
    let output = run(&["plan", file.to_str().unwrap(), "--quiet"]);
    assert_eq!(output.status.code(), Some(0), "{}", text(&output.stderr));
    let plan = text(&output.stdout);
    assert!(plan.contains("Before training\n  - Signs of heart"), "{plan}");
    assert!(plan.contains("agreed to training on 2026-12-15"), "{plan}");
}

#[test]
fn a_plan_whose_client_has_to_wait_is_neither_counted_nor_handed_out() {
    let folder = tempfile::tempdir().unwrap();
    let file = profile(folder.path(), "signs: false");
    let plan = folder.path().join("p.plan.yaml");
    let made = run(&["plan", file.to_str().unwrap(), "-o", plan.to_str().unwrap(), "--quiet"]);
    assert_eq!(made.status.code(), Some(0), "{}", text(&made.stderr));
    let written = fs::read_to_string(&plan).unwrap();
    fs::write(&plan, written.replacen("signs: false", "signs: true", 1)).unwrap();
    let plan = plan.to_str().unwrap();
    for command in ["audit", "sheet", "why"] {
        is_withheld(&run(&[command, plan]));
    }
    is_withheld(&run(&["rework", plan, "--without", "bench"]));
}

#[test]
fn the_client_reads_what_to_do_and_the_coach_why() {
    let folder = tempfile::tempdir().unwrap();
    let answers = "active: true, disease: true, signs: false, intensity: moderate, pregnant: false, pain: [knee]";
    let file = profile(folder.path(), answers);
    let plan = folder.path().join("p.plan.yaml");
    let plan = plan.to_str().unwrap();
    let made = run(&["plan", file.to_str().unwrap(), "-o", plan, "--quiet"]);
    assert_eq!(made.status.code(), Some(0), "{}", text(&made.stderr));
    for form in ["text", "md", "html"] {
        let sheet = |audience| {
            let output = run(&["sheet", plan, "--as", form, "--for", audience]);
            text(&output.stdout).to_lowercase()
        };
        let client = sheet("client");
        for word in ["disease", "kidney", "knee", "pain reported", "clinician said"] {
            assert!(!client.contains(word) || is_of_an_exercise(&client, word), "{form}: {word}");
        }
        assert!(client.contains("keep every session moderate"), "{form}");
        let coach = sheet("coach");
        assert!(
            coach.contains("disease of heart") && coach.contains("pain reported (knee)"),
            "{form}"
        );
        let both = sheet("both");
        assert_eq!(both.matches("pain reported (knee)").count(), 1, "{form}: told once");
    }
}

/// Names and cues of exercises speak of knees too.
fn is_of_an_exercise(page: &str, word: &str) -> bool {
    word == "knee" && !page.contains("(knee)") && !page.contains("knee that hurts")
}
