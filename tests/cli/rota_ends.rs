//! How a rota ends: what is not proven ends with 0, coaches are shared, and the roster is a table and a page.

use std::fs;

use super::rota::{json, plan, plan_with, tells};
use super::{run, text};

/// Three on two benches with more ways to choose between them than are looked at: nothing fits, but nobody has proven it.
#[test]
fn what_is_not_proven_is_no_impossible_week() {
    let folder = tempfile::tempdir().unwrap();
    let kit =
        "{bench: 1, adjustable-bench: 1, dumbbells: {from_kg: 4, to_kg: 24, step_kg: 2, pairs: 3}}";
    let presses = [("dumbbell-bench-press", 1); 10];
    let all = ["oar-1", "oar-2", "oar-3"]
        .map(|client| plan_with(folder.path(), client, "18:30", &presses, (kit, None)));
    let arguments = ["rota", &all[0], &all[1], &all[2], "--slack", "0"];
    let output = run(&arguments);
    assert_eq!(output.status.code(), Some(0), "{}", text(&output.stderr));
    let told = text(&output.stdout);
    assert!(told.contains("which proves nothing") && told.contains(" over\n"), "{told}");
    let week = json(&run(&[&arguments[..], &["--format", "json"]].concat()));
    let outcome = &week["clashes"][0]["outcome"];
    assert_eq!((&outcome["settled"], &outcome["proven"]), (&false.into(), &false.into()));
}

/// Two novices with a heavy bar at the same minute want a coach each; who has trained for years does not.
#[test]
fn novices_lift_heavy_beside_a_coach_of_their_own() {
    let told = |status: &str, coaches: &str| {
        let folder = tempfile::tempdir().unwrap();
        let kit = "{barbell: 2, squat-rack: 2}";
        let both = ["oar-1", "oar-2"].map(|client| {
            let file =
                plan_with(folder.path(), client, "18:30", &[("back-squat", 3)], (kit, Some(40)));
            let written = fs::read_to_string(&file).unwrap();
            fs::write(&file, written.replace("intermediate", status)).unwrap();
            file
        });
        let room = ["--slack", "0", "--per-coach", "4", "--coaches", coaches];
        run(&[&["rota", &both[0], &both[1]], &room[..]].concat())
    };
    let alone = told("novice", "1");
    tells(&alone, "E3004", 3);
    let report = text(&alone.stderr).replace('\n', " ");
    assert!(report.contains("one more coach beside a novice's bar"), "{report}");
    for (status, coaches) in [("novice", "2"), ("intermediate", "1")] {
        assert_eq!(told(status, coaches).status.code(), Some(0), "{status}, {coaches}");
    }
}

#[test]
fn the_roster_is_a_table_and_a_page() {
    let folder = tempfile::tempdir().unwrap();
    plan(folder.path(), "oar-1", "18:30", &[("push-up", 3)]);
    plan(folder.path(), "oar-2", "", &[("push-up", 3)]);
    let place = folder.path().to_str().unwrap();
    let written = |name: &str| {
        let file = folder.path().join(name);
        let output = run(&["roster", place, "--date", "2027-01-04", "-o", file.to_str().unwrap()]);
        assert_eq!(output.status.code(), Some(0), "{}", text(&output.stderr));
        fs::read_to_string(file).unwrap()
    };
    let table = written("roster.csv");
    assert_eq!(table.lines().count(), 3, "{table}");
    let page = written("roster.html");
    for told in ["oar-1", "18:30", "oar-2", "no hour on mon", "shed"] {
        assert!(table.contains(told) && page.contains(told), "{told}: {table}{page}");
    }
}
