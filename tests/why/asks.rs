//! What may be asked of a rework, and what is refused with a reason.

use std::fs;
use std::path::Path;
use std::process::{Command, Output};

const PROFILE: &str = "client: tide-04
training_status: novice
goal: general-fitness
equipment: [dumbbells, bench, kettlebell]
sessions:
  - {day: tue, minutes: 40}
  - {day: fri, minutes: 40}
";

fn run(arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_weekwright"))
        .env("WEEKWRIGHT_CODES", "1")
        .args(arguments)
        .output()
        .unwrap()
}

/// What a run says, its lines joined.
fn told(output: &Output) -> String {
    let text = String::from_utf8(output.stderr.clone()).unwrap();
    text.split_whitespace().collect::<Vec<&str>>().join(" ")
}

fn written(folder: &Path, name: &str, text: &str) -> String {
    let path = folder.join(name);
    fs::write(&path, text).unwrap();
    path.to_str().unwrap().to_owned()
}

/// A profile file and its plan.
fn planned(folder: &Path) -> (String, String) {
    let profile = written(folder, "profile.yaml", PROFILE);
    let plan = folder.join("plan.yaml").to_str().unwrap().to_owned();
    let output = run(&["plan", &profile, "--format", "yaml", "-o", &plan]);
    assert_eq!(output.status.code(), Some(0), "{}", told(&output));
    (profile, plan)
}

fn yaml(output: &Output) -> serde_yaml::Value {
    assert_eq!(output.status.code(), Some(0), "{}", told(output));
    serde_yaml::from_slice(&output.stdout).unwrap()
}

#[test]
fn asks_that_contradict_themselves_are_refused() {
    let folder = tempfile::tempdir().unwrap();
    let (_, plan) = planned(folder.path());
    for (asks, reason) in [
        (&["--must", "plank", "--never", "plank"][..], "`plank` is both demanded and kept out"),
        (
            &["--week", "2", "--day", "tue", "--drop-day", "tue"],
            "tue is the one day that may change",
        ),
        (&["--week", "2", "--day", "tue", "--drop-day", "fri"], "only tue may change"),
        (&["--week", "2", "--day", "tue", "--minutes", "fri=30"], "only tue may change"),
        (
            &["--week", "2", "--day", "wed"],
            "the plan has no session `wed`; its sessions are tue, fri",
        ),
        (&["--week", "99", "--day", "tue"], "the plan has no week 99"),
        (&["--date", "2020-01-01"], "2020-01-01 is outside the plan"),
        (&["--week", "2"], "`--week 2` needs its day"),
        (&["--today", "tue"], "`tue` alone does not say of which week"),
        (&["--from", "2027-01-05", "--to", "2027-01-06"], "a span needs `--place NAME` or `--off`"),
        (&["--drop-day", "fri", "--minutes", "fri=30"], "fri is dropped"),
        (&["--minutes", "fri=30", "--minutes", "fri=50"], "given 30 minutes and 50 minutes"),
        (&["--drop-day", "tue", "--drop-day", "fri"], "no session is left"),
        (&["--without", "barbell"], "the place has no barbell"),
    ] {
        let output = run(&[&["rework", &plan][..], asks].concat());
        assert_eq!(output.status.code(), Some(2), "{asks:?}: {}", told(&output));
        assert!(told(&output).contains(reason), "{asks:?}: {}", told(&output));
        assert_eq!(output.stdout, b"", "{asks:?}");
    }
}

#[test]
fn an_edited_profile_is_planned_for_and_the_same_one_changes_no_byte() {
    let folder = tempfile::tempdir().unwrap();
    let (profile, plan) = planned(folder.path());
    let same = run(&["rework", &plan, "--profile", &profile]);
    assert_eq!(same.stdout, fs::read(&plan).unwrap());
    let edited = PROFILE.replace("fri, minutes: 40", "fri, minutes: 30");
    let edited = written(folder.path(), "edited.yaml", &edited);
    let new = yaml(&run(&["rework", &plan, "--profile", &edited, "--format", "yaml"]));
    assert_eq!(new["profile"]["sessions"][1]["minutes"], 30);
    assert_eq!(new["reworked_from"][0]["changes"][0], "profile");
    let minutes = yaml(&run(&["rework", &plan, "--minutes", "fri=30", "--format", "yaml"]));
    assert_eq!(new["sessions"], minutes["sessions"], "a file asks for what an option asks for");
}

#[test]
fn plans_of_another_time_are_refused_or_noticed() {
    let folder = tempfile::tempdir().unwrap();
    let (_, plan) = planned(folder.path());
    let text = fs::read_to_string(&plan).unwrap();
    let edit = |name: &str, from: &str, to: &str| {
        assert!(text.contains(from), "{from}");
        written(folder.path(), name, &text.replacen(from, to, 1))
    };
    let sha = |key: &str| {
        let line = text.lines().find(|line| line.contains(key)).unwrap();
        line.split_once(": ").unwrap().1.to_owned()
    };
    let whole = run(&["sheet", &plan, "--as", "json"]).stdout;
    let whole = String::from_utf8(whole).unwrap();
    assert!(whole.contains("weekwright-plan/1"));
    let newer = whole.replacen("weekwright-plan/1", "weekwright-plan/9", 1);
    let version = written(folder.path(), "version.yaml", &newer);
    let item = |line: &'_ str| {
        Some(line.trim().strip_prefix("- {exercise: ")?.split_once(',')?.0.to_owned())
    };
    let used = text.lines().find_map(item).unwrap();
    let missing = format!("{used}x");
    let unknown =
        edit("unknown.yaml", &format!("exercise: {used},"), &format!("exercise: {missing},"));
    let nearest = format!("id you mean `{used}`?");
    for command in ["rework", "why", "audit"] {
        let output = run(&[command, &version]);
        assert_eq!(output.status.code(), Some(2), "{command}");
        assert!(told(&output).contains("weekwright-plan/9"), "{command}: {}", told(&output));
        let sentence = told(&output);
        assert!(sentence.contains("his version reads `weekwright-plan/1`"), "{sentence}");
        let output = run(&[command, &unknown]);
        assert_eq!(output.status.code(), Some(2), "{command}");
        assert!(told(&output).contains(&missing), "{command}: {}", told(&output));
        assert!(told(&output).contains(&nearest), "{command}: {}", told(&output));
    }
    let profile = edit("profile-edited.yaml", &sha("profile_sha256"), &"0".repeat(64));
    let catalog = edit("catalog-edited.yaml", &sha("catalog_sha256"), &"0".repeat(64));
    for command in ["rework", "why"] {
        for (plan, code) in [(&profile, "W2004"), (&catalog, "W2005")] {
            let output = run(&[command, plan]);
            assert_eq!(output.status.code(), Some(0), "{command}: {}", told(&output));
            assert!(told(&output).contains(code), "{command} {code}: {}", told(&output));
        }
        assert!(!told(&run(&[command, &plan])).contains("W200"), "{command}");
    }
}
