//! The program as it is run: exit codes, streams, files.

mod bad_lifts;
mod codes;
mod effort;
mod intake;
mod keeps;
mod killed;
mod manners;
mod many;
mod mutated;
mod previous;
#[cfg(feature = "book")]
mod record;
mod rota;
mod rota_ends;
mod screening;
mod sheets;
mod sources;

use std::fs;
use std::io::Write as _;
use std::path::Path;
use std::process::{Command, Output, Stdio};

fn program() -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_weekwright"));
    // Codes are for programs, and a test is one.
    command.env_remove("NO_COLOR").env_remove("CLICOLOR_FORCE").env("WEEKWRIGHT_CODES", "1");
    command
}

fn run(arguments: &[&str]) -> Output {
    program().args(arguments).output().unwrap()
}

fn text(bytes: &[u8]) -> &str {
    std::str::from_utf8(bytes).unwrap()
}

#[test]
fn usage_errors_exit_2_and_help_exits_0() {
    assert_eq!(run(&["--help"]).status.code(), Some(0));
    assert_eq!(run(&["--version"]).status.code(), Some(0));
    assert_eq!(run(&["catalog", "--nonsense"]).status.code(), Some(2));
    assert_eq!(run(&[]).status.code(), Some(2));
}

#[test]
fn lint_of_the_built_in_catalog_exits_0_and_of_a_bad_one_2() {
    let good = run(&["catalog", "lint"]);
    assert_eq!(good.status.code(), Some(0));
    assert!(!text(&good.stderr).contains("error"), "{}", text(&good.stderr));
    assert!(text(&good.stdout).contains("horizontal-push"));
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/fixtures/bad/catalog");
    assert_eq!(run(&["catalog", "lint", "--catalog", folder]).status.code(), Some(2));
    let hold = format!("{folder}/long-hold.yaml");
    assert_eq!(run(&["catalog", "lint", "--catalog", &hold]).status.code(), Some(0));
}

#[test]
fn list_combines_its_filters_and_keeps_to_80_columns() {
    let all = run(&["catalog", "list"]);
    let all = text(&all.stdout);
    assert!(all.lines().all(|line| line.chars().count() <= 80));
    let listed = run(&[
        "catalog",
        "list",
        "--pattern",
        "horizontal-push",
        "--kit",
        "dumbbells",
        "--limit",
        "wrist-extension",
        "--format",
        "json",
    ]);
    let listed: serde_json::Value = serde_json::from_slice(&listed.stdout).unwrap();
    let listed = listed.as_array().unwrap();
    assert!(!listed.is_empty());
    for entry in listed {
        assert_eq!(entry["pattern"], "horizontal-push");
        assert!(!entry["stress"].to_string().contains("wrist-extension"));
        let needs = entry["needs"].as_array().unwrap();
        assert!(needs.contains(&serde_json::json!(["dumbbells"])));
    }
    let nothing = run(&["catalog", "list", "--kit", "none"]);
    assert!(text(&nothing.stdout).contains("\n  push-up "));
    assert!(!text(&nothing.stdout).contains("goblet-squat"));
}

#[test]
fn an_unknown_word_gets_the_nearest() {
    for (arguments, near) in [
        (["list", "--pattern", "squt"], "id you mean `squat`?"),
        (["list", "--muscle", "quad"], "id you mean `quads`?"),
        (["list", "--kit", "dumbell"], "id you mean `dumbbells`?"),
        (["list", "--limit", "overheads"], "id you mean `overhead`?"),
        (["list", "--role", "warmup"], "ne of `work`, `prep`"),
    ] {
        let output = program().arg("catalog").args(arguments).output().unwrap();
        assert_eq!(output.status.code(), Some(2));
        assert!(text(&output.stderr).contains(near), "{}", text(&output.stderr));
        assert!(output.stdout.is_empty());
    }
    let shown = run(&["catalog", "show", "goblet-squatt"]);
    assert_eq!(shown.status.code(), Some(2));
    assert!(text(&shown.stderr).contains("id you mean `goblet-squat`?"));
}

#[test]
fn faults_are_json_where_asked_and_never_colored_in_a_pipe() {
    let output = run(&["catalog", "show", "goblet-squatt", "--format", "json"]);
    let faults: serde_json::Value = serde_json::from_slice(&output.stderr).unwrap();
    assert_eq!(faults["diagnostics"][0]["code"], "E1313");
    let plain = run(&["catalog", "show", "goblet-squatt"]);
    assert!(!text(&plain.stderr).contains('\u{1b}'));
}

#[test]
fn faults_are_colored_where_color_is_forced() {
    let mut command = program();
    command.env("CLICOLOR_FORCE", "1").args(["catalog", "show", "goblet-squatt"]);
    assert!(text(&command.output().unwrap().stderr).contains('\u{1b}'));
}

#[test]
fn schemas_are_json_schema_2020_12_with_a_title() {
    for shape in ["profile", "place", "catalog", "plan"] {
        let output = run(&["schema", shape]);
        let schema: serde_json::Value = serde_json::from_slice(&output.stdout).unwrap();
        assert_eq!(schema["$schema"], "https://json-schema.org/draft/2020-12/schema");
        assert!(schema["title"].as_str().unwrap().eq_ignore_ascii_case(shape));
        assert!(schema["description"].is_string());
        assert!(schema.get("$id").is_none());
    }
}

#[test]
fn a_file_is_written_whole_and_keeps_its_permissions() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("place.schema.json");
    fs::write(&file, "old").unwrap();
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt as _;
        fs::set_permissions(&file, fs::Permissions::from_mode(0o640)).unwrap();
    }
    let output = run(&["schema", "place", "--force", "-o", file.to_str().unwrap()]);
    assert_eq!((output.status.code(), text(&output.stdout)), (Some(0), ""));
    let written = fs::read(&file).unwrap();
    assert_eq!(written, run(&["schema", "place", "-o", "-"]).stdout);
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt as _;
        assert_eq!(fs::metadata(&file).unwrap().permissions().mode() & 0o777, 0o640);
    }
    assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 1, "nothing is left beside it");
}

#[test]
fn an_output_that_cannot_be_is_told() {
    let folder = tempfile::tempdir().unwrap();
    let missing = folder.path().join("none/place.json");
    let output = run(&["schema", "place", "-o", missing.to_str().unwrap()]);
    assert_eq!(output.status.code(), Some(2));
    assert!(text(&output.stderr).contains("E1004"));
    let output = run(&["schema", "place", "-o", folder.path().to_str().unwrap()]);
    assert_eq!(output.status.code(), Some(2));
    assert!(text(&output.stderr).contains("E1005"));
}

#[cfg(target_os = "linux")]
#[test]
fn a_full_disk_exits_1() {
    if !Path::new("/dev/full").exists() {
        return;
    }
    let output = run(&["schema", "place", "-o", "/dev/full"]);
    assert_eq!(output.status.code(), Some(1));
    assert!(text(&output.stderr).contains("E1006"));
}

#[cfg(unix)]
#[test]
fn a_closed_pipe_is_no_fault() {
    let mut child = program()
        .args(["catalog", "list", "--format", "json"])
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    drop(child.stdout.take());
    let output = child.wait_with_output().unwrap();
    assert_eq!((output.status.code(), text(&output.stderr)), (Some(0), ""));
}

#[test]
fn a_catalog_folder_adds_and_replaces() {
    let folder = tempfile::tempdir().unwrap();
    let mut file = fs::File::create(folder.path().join("own.yaml")).unwrap();
    file.write_all(
        b"- id: goblet-squat\n  name: Our goblet squat\n  pattern: squat\n  kind: compound\n  \
          direct: [quads]\n  needs: [[kettlebell]]\n  level: 1\n  sides: both\n  \
          load: single-implement\n  measure: reps\n  reps: [6, 12]\n  setup_s: 30\n",
    )
    .unwrap();
    let folder = folder.path().to_str().unwrap();
    let shown = run(&["catalog", "show", "goblet-squat", "--catalog", folder]);
    assert!(text(&shown.stdout).starts_with("Our goblet squat (goblet-squat)\n"));
}

#[test]
fn the_profile_inside_a_plan_is_checked_in_its_place() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("plan.yaml");
    fs::write(
        &file,
        "format: weekwright-plan/1\nprofile:\n  client: tide-01\n  training_status: novice\n  \
         goal: hypertrophy\n  equipment: []\n  sessions: [{day: mon, minutes: 60}]\n  \
         exercises: {never: [push-upp]}\nsessions: [{day: mon, groups: []}]\n",
    )
    .unwrap();
    let output = run(&["audit", file.to_str().unwrap()]);
    let stderr = text(&output.stderr);
    assert_eq!(output.status.code(), Some(2), "{stderr}");
    assert!(
        stderr.contains("E1313") && stderr.contains("plan.yaml`, line 8, column 23"),
        "{stderr}"
    );
    assert!(stderr.contains("id you mean `push-up`?"), "{stderr}");
}
