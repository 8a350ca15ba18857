//! `previous`: the plan of the last block, whose main lifts are kept.

use std::collections::BTreeSet;
use std::fs;
use std::io::Write as _;
use std::path::Path;
use std::process::Stdio;

use serde_json::Value;
use weekwright::catalog::Catalog;

use super::{program, text};

const PROFILE: &str = "client: bow-11
training_status: intermediate
goal: hypertrophy
weeks: 1
variety: 1
equipment: [barbell, squat-rack, bench, dumbbells, pull-up-bar, trap-bar, landmine]
sessions: [{day: mon, minutes: 75}, {day: thu, minutes: 75}]
";

fn plan(profile: &Path, seed: &str) -> Value {
    let output =
        program().args(["plan", "--format", "json", "--seed", seed]).arg(profile).output().unwrap();
    assert_eq!(output.status.code(), Some(0), "{}", text(&output.stderr));
    serde_json::from_slice(&output.stdout).unwrap()
}

/// Main lifts of a plan.
fn mains(plan: &Value) -> BTreeSet<String> {
    let catalog = Catalog::built_in();
    let sessions = plan["sessions"].as_array().unwrap().iter();
    let groups = sessions.flat_map(|session| session["groups"].as_array().unwrap());
    let items = groups.flat_map(|group| group["items"].as_array().unwrap());
    let ids = items.map(|item| item["exercise"].as_str().unwrap());
    ids.filter(|id| catalog.get(id).is_some_and(|entry| entry.main)).map(str::to_owned).collect()
}

/// A last block of lifts that would not be chosen freely, as they were kept out of the free plan.
#[test]
fn main_lifts_of_the_last_block_come_back() {
    let folder = tempfile::tempdir().unwrap();
    let file = |name: &str, text: &str| {
        let path = folder.path().join(name);
        fs::write(&path, text).unwrap();
        path
    };
    let free = mains(&plan(&file("free.yaml", PROFILE), "0"));
    let never: Vec<&str> = free.iter().map(String::as_str).collect();
    let without = format!("{PROFILE}exercises: {{never: [{}]}}\n", never.join(", "));
    let last = plan(&file("last.yaml", &without), "0");
    let old = mains(&last);
    assert!(!old.is_empty() && old.is_disjoint(&free), "{old:?} {free:?}");
    fs::create_dir(folder.path().join("plans")).unwrap();
    file("plans/last.plan.json", &last.to_string());
    let next = format!("{PROFILE}previous: plans/last.plan.json\n");
    let new = mains(&plan(&file("next.yaml", &next), "0"));
    let kept = new.intersection(&old).count();
    assert!(2 * kept >= old.len(), "{kept} of {old:?} in {new:?}");
}

#[test]
fn a_missing_last_block_is_told_with_its_place_in_folders_too() {
    let folder = tempfile::tempdir().unwrap();
    fs::write(folder.path().join("a.yaml"), format!("{PROFILE}previous: nowhere.yaml\n")).unwrap();
    let output = program().arg("plan").arg(folder.path()).output().unwrap();
    assert_eq!(output.status.code(), Some(2));
    let told = text(&output.stderr);
    assert!(told.contains("E1004") && told.contains("a.yaml`, line 8, column 11:"), "{told}");
    assert!(told.contains("previous: nowhere.yaml"), "the line is shown: {told}");
}

#[test]
fn lines_look_beside_where_they_are_read() {
    let folder = tempfile::tempdir().unwrap();
    let mut value: Value = serde_yaml::from_str(PROFILE).unwrap();
    value["previous"] = "last.yaml".into();
    let answer = || {
        let mut child = program()
            .args(["plan", "--lines"])
            .current_dir(folder.path())
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .unwrap();
        writeln!(child.stdin.take().unwrap(), "{value}").unwrap();
        let output = child.wait_with_output().unwrap();
        serde_json::from_slice::<Value>(&output.stdout).unwrap()
    };
    assert_eq!(answer()["diagnostics"][0]["code"], "E1004");
    let last = "format: weekwright-plan/1
profile: {client: bow-11, training_status: novice, goal: strength, equipment: [], sessions: [{day: mon, minutes: 45}]}
sessions: [{day: mon, groups: [{kind: single, items: [{exercise: front-squat, sets: 1, reps: [8]}]}]}]
";
    fs::write(folder.path().join("last.yaml"), last).unwrap();
    assert!(mains(&answer()).contains("front-squat"));
}
