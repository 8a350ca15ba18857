//! Three stories as a coach meets them, from the command line.

use std::fs;
use std::path::Path;
use std::process::{Command, Output};

fn run(arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_weekwright"))
        .env("WEEKWRIGHT_CODES", "1")
        .args(arguments)
        .output()
        .unwrap()
}

fn text(bytes: &[u8]) -> &str {
    std::str::from_utf8(bytes).unwrap()
}

fn in_repository(path: &str) -> String {
    format!("{}/{path}", env!("CARGO_MANIFEST_DIR"))
}

/// The plan of a demo profile, in a folder of its own.
fn planned(folder: &Path) -> String {
    let plan = folder.join("plan.yaml").to_str().unwrap().to_owned();
    let profile = in_repository("profiles/tide-01.yaml");
    let output = run(&["plan", &profile, "--format", "yaml", "-o", &plan]);
    assert_eq!(output.status.code(), Some(0), "{}", text(&output.stderr));
    plan
}

#[test]
fn a_boathouse_without_its_barbell() {
    let folder = tempfile::tempdir().unwrap();
    let plan = planned(folder.path());
    let same = run(&["rework", &plan]);
    assert_eq!(same.stdout, fs::read(&plan).unwrap(), "no change in, the same bytes out");
    let new = folder.path().join("new.yaml").to_str().unwrap().to_owned();
    let output = run(&["rework", &plan, "--without", "barbell", "-o", &new]);
    let told = text(&output.stderr);
    assert_eq!((output.status.code(), text(&output.stdout)), (Some(0), ""), "{told}");
    let words: Vec<&str> = told.split_whitespace().collect();
    assert!(words.join(" ").contains("the place has no barbell"), "{told}");
    assert!(told.contains("kept"), "{told}");
    assert!(told.contains("weekly sets"), "{told}");
    assert_eq!(run(&["audit", &new]).status.code(), Some(0));
    assert!(fs::read_to_string(&new).unwrap().contains("without barbell"));
    let why = run(&["why", &new, "back-squat"]);
    assert!(
        text(&why.stdout).contains("back-squat is out: the place has no"),
        "{}",
        text(&why.stdout)
    );
}

#[test]
fn one_of_three_evenings_is_lost() {
    let folder = tempfile::tempdir().unwrap();
    let plan = planned(folder.path());
    let output = run(&["rework", &plan, "--drop-day", "wed", "--format", "json"]);
    assert_eq!(output.status.code(), Some(0), "{}", text(&output.stderr));
    let new: serde_json::Value = serde_json::from_slice(&output.stdout).unwrap();
    assert_eq!(new["sessions"].as_array().unwrap().len(), 2);
    let table: serde_json::Value = serde_json::from_slice(&output.stderr).unwrap();
    let lines = table["changes"]["lines"].as_array().unwrap();
    assert!(lines.iter().any(|line| line["what"] == "kept"));
    let wrong = run(&["rework", &plan, "--drop-day", "sun"]);
    assert_eq!(wrong.status.code(), Some(2));
    let told: Vec<&str> = text(&wrong.stderr).split_whitespace().collect();
    assert!(told.join(" ").contains("mon@18:30, wed@18:30, fri@18:30"));
}

#[test]
fn too_much_in_too_little_time() {
    let profile = in_repository("tests/fixtures/why/too-much.yaml");
    let output = run(&["plan", &profile]);
    let told = text(&output.stderr);
    assert_eq!(output.status.code(), Some(3), "{told}");
    assert!(told.contains("E3001") && told.contains("more minutes"), "{told}");
    assert!(told.contains("was tried"), "{told}");
    let in_a_row = told.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(in_a_row.contains("the plan then misses"), "{told}");
    assert!(in_a_row.contains("and mon and thu have 17 minutes each"), "{told}");
    assert!(!told.contains("perhaps fewer"), "{told}");
    let json = run(&["plan", &profile, "--format", "json"]);
    let told: serde_json::Value = serde_json::from_slice(&json.stderr).unwrap();
    assert!(!told["conflict"].as_array().unwrap().is_empty());
    assert_eq!(told["minimal"], true, "{told}");
    let ways = told["ways_out"].as_array().unwrap();
    assert!((1..=3).contains(&ways.len()) && ways.is_sorted_by_key(|way| way["cost"].as_f64()));
    assert!(ways.iter().all(|way| way["lacks"].as_array().is_some_and(|lacks| !lacks.is_empty())));
    let plan = run(&["plan", &profile, "--best-effort", "--format", "json"]);
    assert_eq!(plan.status.code(), Some(0), "{}", text(&plan.stderr));
    let plan: serde_json::Value = serde_json::from_slice(&plan.stdout).unwrap();
    assert_eq!(plan["shortfalls"][0]["rule"], "best-effort");
    let cheapest = ways[0]["change"].as_str().unwrap();
    assert_eq!(cheapest, "give mon 12 more minutes (29)");
    assert_eq!(plan["shortfalls"][0]["wanted"], "17 minutes on mon");
}

#[test]
fn a_plan_by_hand_is_audited_explained_and_reworked() {
    let plan = in_repository("tests/fixtures/plans/by-hand.yaml");
    assert_eq!(run(&["audit", &plan]).status.code(), Some(0));
    let page = run(&["why", &plan]);
    assert!(text(&page.stdout).contains("Written by hand"), "{}", text(&page.stdout));
    let muscle = run(&["why", &plan, "--muscle", "lats"]);
    assert!(text(&muscle.stdout).contains("pull-up"), "{}", text(&muscle.stdout));
    let near = run(&["why", &plan, "bakc-squat"]);
    assert_eq!(near.status.code(), Some(2));
    assert!(text(&near.stderr).contains("id you mean `back-squat`?"));
    let new = run(&["rework", &plan, "--minutes", "tue=45"]);
    assert_eq!(new.status.code(), Some(0), "{}", text(&new.stderr));
}
