//! A room in a week: who makes way for whom, what is told where nothing fits, and what is refused.

use std::fs;
use std::path::Path;
use std::process::Output;

use serde_json::Value;

use super::{run, text};

const MONDAY: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/fixtures/room");

/// A plan by hand for one Monday in the shed, of so many sets of each exercise in its order.
pub(super) fn plan(folder: &Path, client: &str, at: &str, exercises: &[(&str, u32)]) -> String {
    let kit =
        "{barbell: 2, squat-rack: 1, bench: 1, dumbbells: {from_kg: 4, to_kg: 24, step_kg: 2}}";
    plan_with(folder, client, at, exercises, (kit, None))
}

/// The same with other kit, and with a load for each exercise.
pub(super) fn plan_with(
    folder: &Path,
    client: &str,
    at: &str,
    exercises: &[(&str, u32)],
    (kit, load): (&str, Option<u32>),
) -> String {
    let load = load.map(|load| format!(", load_kg: {load}")).unwrap_or_default();
    let groups = exercises.iter().map(|(id, sets)| {
        let reps = vec!["8"; *sets as usize].join(", ");
        format!(
            "      - {{kind: single, items: [{{exercise: {id}, sets: {sets}, reps: [{reps}], rest_s: 120, rir: 2{load}}}]}}\n"
        )
    });
    let hour = if at.is_empty() { String::new() } else { format!(", at: \"{at}\"") };
    let written = format!(
        "format: weekwright-plan/1\nprofile:\n  client: {client}\n  training_status: intermediate\n  goal: hypertrophy\n  \
         start: 2027-01-04\n  weeks: 1\n  place: shed\n  equipment: {kit}\n  sessions: [{{day: mon, minutes: 60{hour}}}]\n\
         sessions:\n  - day: mon\n{}    groups:\n{}",
        if at.is_empty() { String::new() } else { format!("    at: \"{at}\"\n") },
        groups.collect::<String>()
    );
    let places = folder.join("places");
    fs::create_dir_all(&places).unwrap();
    fs::write(places.join("shed.yaml"), format!("place: shed\nequipment: {kit}\n")).unwrap();
    let file = folder.join(format!("{client}.plan.yaml"));
    fs::write(&file, written).unwrap();
    file.to_str().unwrap().to_owned()
}

pub(super) fn tells(output: &Output, code: &str, exit: i32) {
    let told = text(&output.stderr);
    assert!(told.contains(&format!("[{code}]")), "{code}: {told}");
    assert_eq!(output.status.code(), Some(exit), "{code}: {told}");
}

pub(super) fn json(output: &Output) -> Value {
    serde_json::from_str(text(&output.stdout))
        .unwrap_or_else(|_| panic!("{}", text(&output.stderr)))
}

#[test]
fn who_does_not_meet_is_left_alone() {
    let folder = tempfile::tempdir().unwrap();
    let one = plan(folder.path(), "oar-1", "17:00", &[("back-squat", 3), ("bench-press", 3)]);
    let other = plan(folder.path(), "oar-2", "18:30", &[("back-squat", 3), ("bench-press", 3)]);
    let out = folder.path().join("out");
    let output = run(&["rota", &one, &other, "-o", out.to_str().unwrap()]);
    assert_eq!(output.status.code(), Some(0), "{}", text(&output.stderr));
    for (name, file) in [("oar-1", &one), ("oar-2", &other)] {
        let written = fs::read_to_string(out.join(format!("{name}.plan.yaml"))).unwrap();
        assert!(!written.contains("exceptions"), "{name}: {written}");
        assert!(fs::read_to_string(file).unwrap().contains("back-squat"), "the input stays");
    }
}

/// One rack for two who squat first: one of them squats second, or comes later, and nobody does both.
#[test]
fn two_at_one_rack_are_settled_with_one_change() {
    let folder = tempfile::tempdir().unwrap();
    let one = plan(folder.path(), "oar-1", "18:30", &[("back-squat", 3), ("dumbbell-row", 3)]);
    let other = plan(folder.path(), "oar-2", "18:30", &[("back-squat", 3), ("dumbbell-row", 3)]);
    let arguments = ["rota", &one, &other, "--slack", "30", "--format", "json"];
    let week = json(&run(&arguments));
    let outcome = &week["clashes"][0]["outcome"];
    assert_eq!(
        (&outcome["changes"], &outcome["proven"]),
        (&Value::from(1), &Value::from(true)),
        "{week:#}"
    );
    let changed = week["visits"].as_array().unwrap().iter();
    assert_eq!(
        changed.filter(|visit| visit["changes"] != Value::from(Vec::<Value>::new())).count(),
        1
    );
    let out = folder.path().join("out");
    let written = run(&["rota", &one, &other, "--slack", "30", "-o", out.to_str().unwrap()]);
    assert_eq!(written.status.code(), Some(0));
    let plans = ["oar-1", "oar-2"].map(|name| out.join(format!("{name}.plan.yaml")));
    let dated =
        plans.iter().filter(|file| fs::read_to_string(file).unwrap().contains("exceptions:"));
    assert_eq!(dated.count(), 1);
    for (before, after) in [&one, &other].into_iter().zip(&plans) {
        let audited = |file: &str| run(&["audit", file]).status.code();
        assert_eq!(audited(after.to_str().unwrap()), audited(before), "no rule more is broken");
    }
    let wall = fs::read_to_string(out.join("rota.html")).unwrap();
    assert!(wall.contains("squat rack") && wall.contains("oar-1") && !wall.contains("hypertrophy"));
    // Who comes at another hour finds it on the card of the day and in the calendar.
    let day = run(&["sheet", out.to_str().unwrap(), "--date", "2027-01-04", "-o", "-"]);
    let visits = week["visits"].as_array().unwrap().iter().zip(&plans);
    for (visit, file) in visits.filter(|(visit, _)| visit["start"] != visit["planned"]) {
        let start = visit["start"].as_str().unwrap();
        assert!(text(&day.stdout).contains(start), "{start}: {}", text(&day.stderr));
        let calendar = run(&["sheet", file.to_str().unwrap(), "--as", "ics"]);
        let begins = format!("DTSTART:20270104T{}00", start.replace(':', ""));
        assert!(text(&calendar.stdout).contains(&begins), "{begins}: {}", text(&calendar.stderr));
    }
    // What is settled stays settled.
    let folder = out.to_str().unwrap();
    let again = json(&run(&["rota", folder, "--place", "shed", "--format", "json"]));
    assert_eq!(again["clashes"].as_array().unwrap().len(), 0, "{again:#}");
}

#[test]
fn where_nothing_fits_the_fewest_who_cannot_be_together_are_told_with_ways_out() {
    let folder = tempfile::tempdir().unwrap();
    let one = plan(folder.path(), "oar-1", "18:30", &[("back-squat", 6)]);
    let other = plan(folder.path(), "oar-2", "18:30", &[("back-squat", 6)]);
    let third = plan(folder.path(), "tide-3", "18:30", &[("push-up", 3)]);
    let never = run(&["rota", &one, &other, &third, "--slack", "0"]);
    tells(&never, "E3004", 3);
    let told = text(&never.stderr).replace('\n', " ");
    assert!(told.contains("oar-1, oar-2 cannot") && !told.contains("tide-3 cannot"), "{told}");
    assert!(told.contains("one more squat rack"), "{told}");
    assert!(told.contains("oar-1 on mon at 1"), "{told}");
}

/// Two with a bar for the whole session and one bar in the room: one of them does two of three lifts with dumbbells
/// while the other does the third.
#[test]
fn two_exercises_of_a_session_give_way_where_one_is_not_enough() {
    let folder = tempfile::tempdir().unwrap();
    let kit = "{barbell: 1, squat-rack: 1, bench: 2, dumbbells: {from_kg: 4, to_kg: 40, step_kg: 2, pairs: 2}}";
    let lifts = [("bench-press", 3), ("barbell-row", 3), ("overhead-press", 3)];
    let both = ["oar-1", "oar-2"]
        .map(|client| plan_with(folder.path(), client, "18:30", &lifts, (kit, Some(40))));
    let week = json(&run(&["rota", &both[0], &both[1], "--slack", "0", "--format", "json"]));
    let outcome = &week["clashes"][0]["outcome"];
    assert_eq!(outcome["reach"], "more", "{outcome:#}");
    assert_eq!((&outcome["changes"], &outcome["proven"]), (&Value::from(3), &Value::from(true)));
    let told =
        week["visits"].as_array().unwrap().iter().flat_map(|visit| {
            visit["changes"].as_array().unwrap().iter().filter_map(Value::as_str)
        });
    let told: Vec<&str> = told.collect();
    assert!(told.len() == 3 && told.iter().all(|one| one.contains(" instead of ")), "{told:?}");
    let out = folder.path().join("out");
    let out = out.to_str().unwrap();
    let written = run(&["rota", &both[0], &both[1], "--slack", "0", "-o", out]);
    assert_eq!(written.status.code(), Some(0), "{}", text(&written.stderr));
    let again = json(&run(&["rota", out, "--place", "shed", "--format", "json"]));
    assert_eq!(again["clashes"].as_array().unwrap().len(), 0, "{again:#}");
}

/// Two bars and racks, and plates for one: who cannot share them takes turns, and more plates would do.
#[test]
fn plates_that_are_listed_are_shared() {
    let told = |plates: &str| {
        let folder = tempfile::tempdir().unwrap();
        let kit =
            format!("{{barbell: {{count: 2, mass_kg: 20}}, squat-rack: 2, plates_kg: {plates}}}");
        let both = ["oar-1", "oar-2"].map(|client| {
            plan_with(folder.path(), client, "18:30", &[("back-squat", 3)], (&kit, Some(60)))
        });
        run(&["rota", &both[0], &both[1], "--slack", "0"])
    };
    let short = told("{20: 2}");
    tells(&short, "E3004", 3);
    let report = text(&short.stderr).replace('\n', " ");
    assert!(report.contains("one more pair of plates 20 kg"), "{report}");
    // Twice 10 on each end are 20: the same load from other plates.
    for enough in ["{20: 4}", "{20: 2, 10: 4}"] {
        let output = told(enough);
        assert_eq!(output.status.code(), Some(0), "{enough}: {}", text(&output.stderr));
    }
}

/// Where plates are shared, one in another's hands lies on no bar: only more plates let both go on.
#[test]
fn a_plate_in_the_hands_lies_on_no_bar() {
    let told = |plates: &str| {
        let folder = tempfile::tempdir().unwrap();
        let kit = format!(
            "{{barbell: {{count: 2, mass_kg: 20}}, squat-rack: 1, weight-plate: 2, plates_kg: {plates}}}"
        );
        let squats =
            plan_with(folder.path(), "oar-1", "18:30", &[("back-squat", 3)], (&kit, Some(60)));
        let arms = [("overhead-triceps-extension", 3)];
        let arms = plan_with(folder.path(), "oar-2", "18:30", &arms, (&kit, Some(20)));
        run(&["rota", &squats, &arms, "--slack", "0"])
    };
    let short = told("{20: 2}");
    tells(&short, "E3004", 3);
    let report = text(&short.stderr).replace('\n', " ");
    assert!(report.contains("one more pair of plates 20 kg"), "{report}");
    let enough = told("{20: 4}");
    assert_eq!(enough.status.code(), Some(0), "{}", text(&enough.stderr));
}

/// Where weights are made in pounds, terminal, wall and cards tell pounds.
#[test]
fn a_room_in_pounds_tells_pounds() {
    let folder = tempfile::tempdir().unwrap();
    let kit = "{dumbbells: {from_lb: 5, to_lb: 50, step_lb: 5}}";
    let rows = [("dumbbell-row", 3)];
    let both = ["oar-1", "oar-2"].map(|client| {
        let file = plan_with(folder.path(), client, "18:30", &rows, (kit, None));
        let written =
            fs::read_to_string(&file).unwrap().replace("rir: 2", "rir: 2, load_kg: 11.34");
        let written = written.replace("  goal:", "  units: lb\n  goal:");
        fs::write(&file, written).unwrap();
        file
    });
    let out = folder.path().join("out");
    let output = run(&["rota", &both[0], &both[1], "--slack", "60", "-o", out.to_str().unwrap()]);
    assert_eq!(output.status.code(), Some(0), "{}", text(&output.stderr));
    assert!(text(&output.stdout).contains("dumbbells 25 lb"), "{}", text(&output.stdout));
    let wall = fs::read_to_string(out.join("rota.html")).unwrap();
    assert!(wall.contains("dumbbells, lb") && wall.contains("25 lb\""), "{wall}");
    assert!(!wall.contains(" kg"), "{wall}");
    let cards = run(&["sheet", out.to_str().unwrap(), "--date", "2027-01-04", "-o", "-"]);
    assert!(text(&cards.stdout).contains("25 lb"), "{}", text(&cards.stderr));
}

/// A coach for one at a time is as scarce as a rack.
#[test]
fn a_coach_looks_after_so_many_at_once() {
    let folder = tempfile::tempdir().unwrap();
    let one = plan(folder.path(), "oar-1", "18:30", &[("push-up", 6)]);
    let other = plan(folder.path(), "oar-2", "18:30", &[("dumbbell-row", 6)]);
    let alone = run(&["rota", &one, &other]);
    assert_eq!(alone.status.code(), Some(0));
    let pair = ["rota", &one, &other, "--slack", "0", "--per-coach", "1"];
    tells(&run(&pair), "E3004", 3);
    let two = run(&[&pair[..], &["--coaches", "2"]].concat());
    assert_eq!(two.status.code(), Some(0));
}

#[test]
fn what_cannot_be_settled_is_refused_before_anything_is_written() {
    let folder = tempfile::tempdir().unwrap();
    let one = plan(folder.path(), "oar-1", "18:30", &[("push-up", 3)]);
    let twice = folder.path().join("again.yaml");
    fs::copy(&one, &twice).unwrap();
    tells(&run(&["rota", &one, twice.to_str().unwrap()]), "E2008", 2);
    fs::remove_file(&twice).unwrap();
    let open = plan(folder.path(), "oar-2", "", &[("push-up", 3)]);
    tells(&run(&["rota", &one, &open]), "E2009", 2);
    let out = folder.path().join("out");
    let spread = run(&["rota", &one, &open, "--spread", "-o", out.to_str().unwrap()]);
    assert_eq!(spread.status.code(), Some(0), "{}", text(&spread.stderr));
    let written = fs::read_to_string(out.join("oar-2.plan.yaml")).unwrap();
    assert!(written.contains("starts "), "{written}");
    tells(&run(&["rota", &one, "--date", "2028-01-04"]), "E2010", 2);
    tells(&run(&["rota", &one, "--place", "shd"]), "E1007", 2);
    tells(&run(&["rota", &one, "--slack", "7"]), "E2002", 2);
    let moved = fs::read_to_string(&one).unwrap().replace("place: shed", "place: barn");
    let elsewhere = folder.path().join("oar-9.plan.yaml");
    fs::write(&elsewhere, moved.replace("oar-1", "oar-9")).unwrap();
    let elsewhere = elsewhere.to_str().unwrap();
    tells(&run(&["rota", &one, elsewhere]), "E2011", 2);
    tells(&run(&["rota", &one, elsewhere, "--place", "shed"]), "W2012", 0);
}

/// Who names no place but lists the same kit shares a room; with other kit it is not known which room is meant.
#[test]
fn a_room_may_be_known_by_its_kit() {
    let folder = tempfile::tempdir().unwrap();
    let one = plan(folder.path(), "oar-1", "18:30", &[("push-up", 3)]);
    let other = plan(folder.path(), "oar-2", "18:30", &[("push-up", 3)]);
    for file in [&one, &other] {
        let text = fs::read_to_string(file).unwrap();
        fs::write(file, text.replace("  place: shed\n", "")).unwrap();
    }
    assert_eq!(run(&["rota", &one, &other]).status.code(), Some(0));
    let text = fs::read_to_string(&other).unwrap();
    fs::write(&other, text.replace("bench: 1", "bench: 2")).unwrap();
    tells(&run(&["rota", &one, &other]), "E2011", 2);
}

/// The boathouse's Monday evening: six clients, one rack, two ergometers.
#[test]
fn a_monday_evening_comes_out_as_a_page_for_the_wall() {
    let folder = tempfile::tempdir().unwrap();
    let out = folder.path().join("week");
    let output = run(&[
        "rota",
        MONDAY,
        "--place",
        "boathouse",
        "--date",
        "2027-01-04",
        "-o",
        out.to_str().unwrap(),
    ]);
    assert_eq!(output.status.code(), Some(0), "{}", text(&output.stderr));
    let told = text(&output.stdout);
    assert!(told.contains("proven to be the fewest") && !told.contains(" over\n"), "{told}");
    let wall = fs::read_to_string(out.join("rota.html")).unwrap();
    for client in ["oar-21", "scull-22", "tide-23", "bow-24", "cox-25", "keel-26"] {
        assert!(wall.contains(client));
        let file = out.join(format!("{client}.plan.yaml"));
        let after = run(&["audit", file.to_str().unwrap()]);
        assert_eq!(after.status.code(), Some(0), "{client}");
        // No rule and no wish is worse off than in the plan as it would be alone.
        let profile = format!("{MONDAY}/{client}.yaml");
        let alone = folder.path().join(format!("{client}.plan.yaml"));
        run(&["plan", &profile, "--format", "yaml", "-o", alone.to_str().unwrap()]);
        let before = run(&["audit", alone.to_str().unwrap()]);
        let found = text(&after.stdout).lines().filter(|line| line.starts_with("  "));
        for line in found {
            assert!(text(&before.stdout).contains(line), "{client}: {line}");
        }
    }
    let roster = run(&["roster", out.to_str().unwrap(), "--date", "2027-01-04"]);
    let told = text(&roster.stdout);
    assert!(
        told.contains("block 1, week 1 of 4") && told.contains("boathouse, most at once"),
        "{told}"
    );
    let table = run(&["roster", out.to_str().unwrap(), "--date", "2027-01-04", "--as", "csv"]);
    assert_eq!(text(&table.stdout).lines().count(), 7);
}
