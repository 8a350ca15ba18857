//! Lifts, places and conditioning that cannot be as they are written: a clear error, or a fallback that the plan names.

use std::fs;

use serde_json::Value;

use super::{program, text};

/// Exit code, standard error and plan of a profile with further keys.
fn planned(keys: &str) -> (Option<i32>, String, Value) {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("p.yaml");
    let profile = format!(
        "client: bow-11\ntraining_status: novice\ngoal: hypertrophy\nweeks: 2\nsessions: [{{day: mon, minutes: 45}}, \
         {{day: thu, minutes: 45}}]\nexercises: {{prefer: [back-squat, bench-press, barbell-row]}}\n{keys}\n"
    );
    fs::write(&file, profile).unwrap();
    let run = |format| program().args(["plan", "--format", format]).arg(&file).output().unwrap();
    let output = run("yaml");
    let plan = serde_json::from_slice(&run("json").stdout).unwrap_or(Value::Null);
    (output.status.code(), text(&output.stderr).to_owned(), plan)
}

const ROOM: &str = "equipment: [barbell, squat-rack, bench, dumbbells]";

#[test]
fn impossible_sets_are_refused_with_their_place() {
    for (lift, wanted) in [
        ("{load: 50, reps: 0}", "from 1 to 30"),
        ("{load: 1900, reps: 5}", "from 0 to 1100"),
        ("{load: -5, reps: 5}", "from 0 to 1100"),
    ] {
        let (code, told, _) = planned(&format!("{ROOM}\nknown_lifts: {{back-squat: {lift}}}"));
        assert_eq!(code, Some(2), "{lift}");
        assert!(told.contains("E1204") && told.contains("p.yaml`, line 8, column "), "{told}");
        // A sentence is broken into lines of a terminal's width.
        assert!(told.replace('\n', " ").contains(wanted), "{told}");
    }
}

#[test]
fn a_start_that_does_not_exist_is_refused() {
    let (code, told, _) = planned(&format!("{ROOM}\nstart: 2027-02-30"));
    assert_eq!(code, Some(2));
    assert!(told.contains("E1303") && told.contains("p.yaml`, line 8, column 8:"), "{told}");
}

#[test]
fn a_load_under_the_empty_bar_is_told_and_planned_with_an_easier_form() {
    let (code, told, plan) =
        planned(&format!("{ROOM}\nknown_lifts: {{back-squat: {{load: 12, reps: 8}}}}"));
    assert_eq!(code, Some(0), "{told}");
    assert!(told.contains("W1316"), "{told}");
    assert!(plan.to_string().contains("under the empty bar (20 kg)"), "{plan}");
}

#[test]
fn without_plates_the_bar_alone_is_what_there_is() {
    let room = "equipment: {barbell: 1, squat-rack: 1, bench: 1, plates_kg: {}}";
    let (code, told, plan) =
        planned(&format!("{room}\nknown_lifts: {{back-squat: {{load: 60, reps: 8}}}}"));
    assert_eq!(code, Some(0), "{told}");
    let items = plan["weeks"].as_array().unwrap().iter().flat_map(|week| {
        let sessions = week["sessions"].as_array().unwrap().iter();
        sessions.flat_map(|session| session["groups"].as_array().unwrap().clone())
    });
    let loads: Vec<f64> = items
        .flat_map(|group| group["items"].as_array().unwrap().clone())
        .filter_map(|item| item["load_kg"].as_f64())
        .collect();
    assert!(!loads.is_empty() && loads.iter().all(|load| (load - 20.0).abs() < 1e-9), "{loads:?}");
    assert!(plan.to_string().contains("has no plates"), "{plan}");
}

#[test]
fn a_mode_that_the_place_lacks_is_named_in_the_plan() {
    let (code, told, plan) =
        planned(&format!("{ROOM}\nconditioning: {{from_week: 1, minutes: 8, modes: [treadmill]}}"));
    assert_eq!(code, Some(0), "{told}");
    let cautions = plan["cautions"].to_string();
    assert!(cautions.contains("`treadmill`") && cautions.contains("stands in"), "{cautions}");
}
