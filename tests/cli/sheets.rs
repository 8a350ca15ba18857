//! Sheets through the program: plans that are not ours, places that take no file, exotic names.

use std::fs;
use std::path::Path;

use super::{program, run, text};

const FORMS: [&str; 7] = ["text", "html", "md", "csv", "ics", "yaml", "json"];

fn plan(name: &str) -> String {
    format!("{}/tests/fixtures/plans/{name}.yaml", env!("CARGO_MANIFEST_DIR"))
}

#[test]
fn a_plan_of_another_version_is_refused_in_every_form() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("old.yaml");
    let old = fs::read_to_string(plan("tide-01")).unwrap();
    fs::write(&file, old.replacen("weekwright-plan/1", "weekwright-plan/9", 1)).unwrap();
    for form in FORMS {
        let out = folder.path().join(if form == "text" {
            "sheet.txt".to_owned()
        } else {
            format!("sheet.{form}")
        });
        let arguments =
            ["sheet", file.to_str().unwrap(), "--as", form, "-o", out.to_str().unwrap()];
        let output = run(&arguments);
        assert_eq!(output.status.code(), Some(2), "{form}");
        let stderr = text(&output.stderr);
        assert!(stderr.contains("E1009") && stderr.contains("weekwright-plan/1"), "{stderr}");
        assert!(!out.exists(), "nothing is written");
    }
}

#[test]
fn a_profile_given_as_a_plan_is_told_what_is_missing() {
    let profile = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/fixtures/small.yaml");
    let output = run(&["sheet", profile]);
    assert_eq!(output.status.code(), Some(2));
    assert!(text(&output.stderr).contains("format"), "{}", text(&output.stderr));
}

#[cfg(unix)]
#[test]
fn a_folder_that_takes_no_file_keeps_what_it_has() {
    use std::os::unix::fs::PermissionsExt as _;
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("sheet.html");
    fs::write(&file, "old").unwrap();
    let lock = |mode| fs::set_permissions(folder.path(), fs::Permissions::from_mode(mode)).unwrap();
    lock(0o500);
    let may_write_anyway = fs::write(folder.path().join("probe"), "").is_ok();
    let output = run(&["sheet", &plan("tide-01"), "--force", "-o", file.to_str().unwrap()]);
    lock(0o700);
    if may_write_anyway {
        // The user of a container may write everywhere, so that only the good way is left to see.
        assert_eq!(output.status.code(), Some(0));
        assert_ne!(fs::read_to_string(&file).unwrap(), "old");
    } else {
        assert_eq!(output.status.code(), Some(1), "{}", text(&output.stderr));
        assert!(text(&output.stderr).contains("E1006"), "{}", text(&output.stderr));
        assert_eq!(fs::read_to_string(&file).unwrap(), "old");
    }
}

#[test]
fn a_folder_that_is_not_there_is_told() {
    let folder = tempfile::tempdir().unwrap();
    for (target, code) in [("none/sheet.html", "E1004"), ("", "E1005")] {
        let target = folder.path().join(target);
        let output =
            run(&["sheet", &plan("tide-01"), "--as", "html", "-o", target.to_str().unwrap()]);
        assert_eq!(output.status.code(), Some(2));
        assert!(text(&output.stderr).contains(code), "{}", text(&output.stderr));
    }
    assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 0);
}

/// `/dev/full` of Linux refuses every byte with "no space left on device".
#[cfg(target_os = "linux")]
#[test]
fn a_full_disk_is_told_by_name_and_by_redirection() {
    assert!(Path::new("/dev/full").exists());
    for form in FORMS {
        let output = run(&["sheet", &plan("tide-01"), "--as", form, "-o", "/dev/full"]);
        assert_eq!(output.status.code(), Some(1), "{form}");
        assert!(text(&output.stderr).contains("E1006"), "{form}: {}", text(&output.stderr));
        let full = fs::OpenOptions::new().write(true).open("/dev/full").unwrap();
        let mut command = program();
        command.args(["sheet", &plan("tide-01"), "--as", form]).stdout(full);
        let output = command.output().unwrap();
        assert_eq!(output.status.code(), Some(1), "{form}");
        assert!(text(&output.stderr).contains("E1006"), "{form}: {}", text(&output.stderr));
    }
}

#[test]
fn exotic_names_come_through_in_every_form() {
    // Signs that steer a terminal are refused at the door; what is left has to come through.
    let refused = run(&["sheet", &plan("exotic")]);
    assert_eq!(refused.status.code(), Some(2));
    assert!(text(&refused.stderr).contains("E1209"), "{}", text(&refused.stderr));
    let mut exotic = fs::read_to_string(plan("exotic")).unwrap();
    for sign in ["\\u202E", "\\u202C", "\\u001b", "\\r"] {
        assert!(exotic.contains(sign), "{sign}");
        exotic = exotic.replace(sign, "");
    }
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("exotic.yaml");
    fs::write(&file, exotic).unwrap();
    for form in FORMS {
        let output = run(&["sheet", file.to_str().unwrap(), "--as", form]);
        assert_eq!(output.status.code(), Some(0), "{form}: {}", text(&output.stderr));
        let sheet = text(&output.stdout);
        assert!(sheet.contains('🚣'), "{form}");
        if form == "html" {
            // The page has one script of its own, at its end.
            assert_eq!(sheet.matches("<script").count(), 1, "tags of the plan's own");
            assert!(!sheet.contains("<img"), "tags of the plan's own");
        }
    }
}

#[test]
fn a_calendar_without_dates_says_what_is_missing() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("plan.yaml");
    let bare =
        "format: weekwright-plan/1\nprofile: tide-01.yaml\nsessions: [{day: thu, groups: []}]\n";
    fs::write(&file, bare).unwrap();
    let output = run(&["sheet", file.to_str().unwrap(), "--as", "ics"]);
    assert_eq!(output.status.code(), Some(2));
    assert!(text(&output.stderr).contains("start:"), "{}", text(&output.stderr));
}
