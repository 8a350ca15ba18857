//! The talk as it is held: without a terminal, and in one.

use super::{program, run, text};

#[test]
fn without_a_terminal_it_refuses_and_says_what_to_do() {
    let output = run(&["intake"]);
    let stderr = text(&output.stderr);
    assert_eq!(output.status.code(), Some(2));
    assert!(
        stderr.contains("terminal") && stderr.contains("weekwright schema profile"),
        "{stderr}"
    );
    assert!(stderr.contains("profiles"), "{stderr}");
    assert!(output.stdout.is_empty());
}

/// `script` of util-linux lends a terminal; it is essential to Debian and its kin.
#[cfg(target_os = "linux")]
mod in_a_terminal {
    use std::fs;
    use std::io::Write as _;
    use std::path::Path;
    use std::process::{Command, Stdio};

    use super::{program, text};

    /// Holds the talk in a folder; returns the exit code and what the terminal showed.
    fn talk(folder: &Path, arguments: &str, typed: &str) -> (Option<i32>, String) {
        let binary = program().get_program().to_string_lossy().into_owned();
        let mut child = Command::new("script")
            .args(["--quiet", "--return", "--command", &format!("{binary} intake {arguments}")])
            .arg("/dev/null")
            .current_dir(folder)
            .env("COLUMNS", "80")
            .env("WEEKWRIGHT_CODES", "1")
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .spawn()
            .unwrap();
        child.stdin.take().unwrap().write_all(typed.as_bytes()).unwrap();
        let output = child.wait_with_output().unwrap();
        (output.status.code(), text(&output.stdout).to_owned())
    }

    #[test]
    fn a_whole_talk_ends_in_a_plan() {
        let folder = tempfile::tempdir().unwrap();
        // A wrong year on the way; Enter for all else, up to the last question.
        let typed = format!("tide-07\nninety\n{}", "\n".repeat(40));
        let (code, shown) = talk(folder.path(), "", &typed);
        assert_eq!(code, Some(0), "{shown}");
        assert!(shown.contains("`ninety` is no number"), "{shown}");
        assert!(shown.contains("Written: profiles/tide-07.yaml"), "{shown}");
        let profile = fs::read_to_string(folder.path().join("profiles/tide-07.yaml")).unwrap();
        assert!(profile.contains("\nclient: tide-07 "), "{profile}");
        assert!(shown.contains("Stop if it hurts"), "the plan is shown: {shown}");
        let mut names: Vec<_> = fs::read_dir(folder.path().join("profiles"))
            .unwrap()
            .map(|entry| entry.unwrap().file_name().into_string().unwrap())
            .collect();
        names.sort();
        assert_eq!(names, ["tide-07.html", "tide-07.plan.yaml", "tide-07.yaml"], "{shown}");
    }

    #[test]
    fn nothing_is_overwritten_unasked() {
        let folder = tempfile::tempdir().unwrap();
        let file = folder.path().join("old.yaml");
        fs::write(&file, "old").unwrap();
        let typed = format!("tide-07\n{}", "\n".repeat(50));
        let (code, shown) = talk(folder.path(), "-o old.yaml", &typed);
        assert_eq!(code, Some(2), "{shown}");
        assert!(shown.contains("old.yaml is there already;"), "{shown}");
        assert_eq!(fs::read_to_string(&file).unwrap(), "old");
        assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 1, "nothing else is written");
    }

    #[test]
    fn an_end_of_input_keeps_what_was_typed() {
        let folder = tempfile::tempdir().unwrap();
        let (code, shown) = talk(folder.path(), "", "tide-07\n1990\n\u{4}");
        assert_eq!(code, Some(2), "{shown}");
        assert!(shown.contains("the talk ended before its end"), "{shown}");
        assert!(shown.contains("[E5003]"), "{shown}");
        let draft = folder.path().join("profiles/tide-07.draft.yaml");
        let kept = fs::read_to_string(&draft).unwrap();
        assert!(kept.contains("birth_year: 1990"), "{kept}");
        assert!(shown.contains("weekwright intake profiles/tide-07.draft.yaml"), "{shown}");
        // It is offered again, and goes when the profile is there.
        let (code, shown) = talk(folder.path(), "", &"\n".repeat(40));
        assert_eq!(code, Some(0), "{shown}");
        let profile = fs::read_to_string(folder.path().join("profiles/tide-07.yaml")).unwrap();
        assert!(profile.contains("birth_year: 1990") && !draft.exists(), "{profile}");
    }

    #[test]
    fn a_draft_is_planned_as_a_trial() {
        let folder = tempfile::tempdir().unwrap();
        let (_, shown) = talk(folder.path(), "", "tide-07\n1990\n\u{4}");
        let draft = folder.path().join("profiles/tide-07.draft.yaml");
        let output = program().arg("plan").arg(&draft).output().unwrap();
        assert_eq!(output.status.code(), Some(0), "{shown}{}", text(&output.stderr));
        let plan = text(&output.stdout);
        assert!(plan.contains("Before training\n  - Trial, screening open:"), "{plan}");
        assert!(plan.contains("Still to be asked"), "{plan}");
    }

    #[test]
    fn a_trial_has_no_loads_and_passes_the_audit() {
        let folder = tempfile::tempdir().unwrap();
        let draft = folder.path().join("dinghy-01.draft.yaml");
        fs::write(&draft, include_str!("../fixtures/small.yaml")).unwrap();
        let kept = folder.path().join("trial.plan.yaml");
        let output = program().arg("plan").arg(&draft).arg("-o").arg(&kept).output().unwrap();
        assert_eq!(output.status.code(), Some(0), "{}", text(&output.stderr));
        let sheet = program().arg("sheet").arg(&kept).output().unwrap();
        let sheet = text(&sheet.stdout);
        assert!(
            sheet.contains("Trial, screening open") && sheet.contains("oblet squat"),
            "{sheet}"
        );
        let loaded = |line: &str| line.contains(" kg") || line.contains("find:");
        assert!(!sheet.lines().any(loaded), "{sheet}");
        let audit = program().arg("audit").arg(&kept).output().unwrap();
        assert_eq!(audit.status.code(), Some(0), "{}", text(&audit.stdout));
        assert!(!text(&audit.stdout).contains("edited"), "{}", text(&audit.stdout));
    }
}
