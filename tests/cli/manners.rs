//! How the program behaves in a shell: help, manual, completions, colors, widths, pipes.

use std::fs;
use std::process::Stdio;

use super::{program, run, text};

const COMMANDS: [&str; 8] =
    ["plan", "audit", "sheet", "catalog", "intake", "schema", "manual", "completions"];

#[test]
fn help_of_every_command_has_examples_within_80_columns() {
    for command in COMMANDS {
        let output = run(&[command, "--help"]);
        let help = text(&output.stdout);
        assert_eq!(output.status.code(), Some(0), "{command}");
        let examples = help.split("Examples:\n").nth(1).expect(command);
        assert!(examples.contains(&format!("weekwright {command}")), "{help}");
        assert!(help.lines().all(|line| line.chars().count() <= 80), "{help}");
    }
    let help = run(&["--help"]);
    assert!(COMMANDS.iter().all(|command| text(&help.stdout).contains(command)));
}

/// Every example is a command that the arguments take, up to the files it names.
#[test]
fn examples_are_commands_that_there_are() {
    use clap::Parser as _;
    for command in COMMANDS {
        let output = run(&[command, "--help"]);
        let examples = text(&output.stdout).split("Examples:\n").nth(1).unwrap().to_owned();
        let lines = examples.lines().filter_map(|line| line.strip_prefix("  weekwright "));
        for line in lines {
            let line = line.split("  ").next().unwrap().split(" <").next().unwrap();
            let words = std::iter::once("weekwright").chain(line.split(' '));
            let parsed = weekwright::cli::args::Args::try_parse_from(words);
            assert!(parsed.is_ok(), "{line}: {}", parsed.unwrap_err());
        }
    }
}

/// The sections are those that man-pages(7) asks for, in its order.
#[test]
fn the_manual_is_a_page_that_man_reads() {
    let output = run(&["manual"]);
    let page = text(&output.stdout).to_owned();
    assert_eq!(output.status.code(), Some(0));
    let mut at = 0;
    for section in [
        ".TH weekwright 1",
        ".SH NAME",
        ".SH SYNOPSIS",
        ".SH DESCRIPTION",
        ".SH OPTIONS",
        ".SH EXAMPLES\n.nf\n  weekwright intake ",
    ] {
        let found = page[at..].find(section);
        at += found.unwrap_or_else(|| panic!("{section} in its order: {page}"));
    }
    assert!(COMMANDS.iter().all(|command| page.contains(command)), "{page}");
    let plan = run(&["manual", "plan"]);
    assert!(text(&plan.stdout).contains(".TH weekwright-plan 1"), "{}", text(&plan.stdout));
    assert!(text(&plan.stdout).contains("\\-\\-seed"));
    let wrong = run(&["manual", "plann"]);
    assert_eq!(wrong.status.code(), Some(2));
    assert!(text(&wrong.stderr).contains("id you mean `plan`?"), "{}", text(&wrong.stderr));
}

#[test]
fn completions_know_commands_options_and_words() {
    for (shell, sign) in [
        ("bash", "complete -F"),
        ("zsh", "#compdef weekwright"),
        ("fish", "complete -c weekwright"),
        ("elvish", "edit:completion"),
        ("powershell", "Register-ArgumentCompleter"),
    ] {
        let output = run(&["completions", shell]);
        assert_eq!(output.status.code(), Some(0));
        let script = text(&output.stdout);
        assert!(script.contains(sign), "{shell}");
        let knows_values = matches!(shell, "bash" | "zsh" | "fish");
        assert!(!knows_values || script.contains("html"), "{shell} completes words");
        assert!(["intake", "seed"].iter().all(|word| script.contains(word)), "{shell}");
    }
    assert_eq!(run(&["completions", "cobalt"]).status.code(), Some(2));
}

#[cfg(target_os = "linux")]
#[test]
fn bash_takes_its_completions() {
    let script = run(&["completions", "bash"]).stdout;
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("weekwright.bash");
    fs::write(&file, script).unwrap();
    let ask = "source \"$1\"; COMP_WORDS=(weekwright cat); COMP_CWORD=1; \
               _weekwright weekwright cat weekwright; echo \"${COMPREPLY[@]}\"";
    let output =
        std::process::Command::new("bash").args(["-c", ask, "bash"]).arg(&file).output().unwrap();
    assert_eq!(text(&output.stdout).trim(), "catalog", "{}", text(&output.stderr));
}

#[test]
fn color_is_only_where_it_may_be() {
    let forced = |no_color: Option<&str>| {
        let mut command = program();
        command.args(["plan", "-"]).env("CLICOLOR_FORCE", "1").stdin(Stdio::null());
        if let Some(value) = no_color {
            command.env_remove("CLICOLOR_FORCE").env("NO_COLOR", value);
        }
        let output = command.output().unwrap();
        text(&output.stderr).contains('\u{1b}')
    };
    assert!(forced(None));
    assert!(!forced(Some("1")));
}

#[test]
fn tables_are_as_wide_as_they_are_told() {
    let widest = |columns: &str| {
        let output = program().env("COLUMNS", columns).args(["catalog", "list"]).output().unwrap();
        text(&output.stdout).lines().map(|line| line.chars().count()).max().unwrap()
    };
    assert!(widest("60") <= 60);
    assert!(widest("200") > 80);
    assert_eq!(widest("nonsense"), 80);
    assert_eq!(widest("0"), 80);
}

#[cfg(unix)]
#[test]
fn closed_pipes_are_no_fault_of_any_command() {
    for arguments in [
        vec!["--help"],
        vec!["catalog", "lint"],
        vec!["schema", "plan"],
        vec!["manual"],
        vec!["completions", "bash"],
    ] {
        let mut child = program()
            .args(&arguments)
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .unwrap();
        drop(child.stdout.take());
        let output = child.wait_with_output().unwrap();
        assert_eq!(output.status.code(), Some(0), "{arguments:?}");
        assert!(!text(&output.stderr).contains("panic"), "{arguments:?}");
    }
}

/// The proof comes after the plan, and is told beside it.
#[test]
fn bounds_that_are_proven_on_request_change_no_byte_of_the_plan() {
    let profile = concat!(env!("CARGO_MANIFEST_DIR"), "/profiles/cox-05.yaml");
    let usual = run(&["plan", profile, "--format", "json"]);
    assert_eq!(usual.status.code(), Some(0), "{}", text(&usual.stderr));
    let proved = run(&["plan", profile, "--format", "json", "--prove", "--verbose"]);
    assert_eq!(text(&proved.stdout), text(&usual.stdout));
    assert!(text(&proved.stderr).contains("bounds by linear"), "{}", text(&proved.stderr));
    assert!(!text(&usual.stderr).contains("bounds by linear"));
}

/// The fixture has a warning and no error, and asks for a week that is planned in a moment.
#[test]
fn quiet_says_nothing_beside_the_plan_and_verbose_says_how() {
    let profile = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/fixtures/small.yaml");
    let usual = run(&["plan", profile]);
    assert_eq!(usual.status.code(), Some(0), "{}", text(&usual.stderr));
    assert!(text(&usual.stderr).contains("W1314"));
    let quiet = run(&["plan", profile, "--quiet"]);
    assert_eq!((text(&quiet.stderr), &quiet.stdout), ("", &usual.stdout));
    let verbose = run(&["--verbose", "plan", profile]);
    assert!(text(&verbose.stderr).contains("solved with"), "{}", text(&verbose.stderr));
    assert!(text(&verbose.stderr).contains("splits tried"), "{}", text(&verbose.stderr));
    assert!(text(&verbose.stderr).contains("  full body: "), "{}", text(&verbose.stderr));
    assert!(text(&verbose.stderr).contains("planned in"), "{}", text(&verbose.stderr));
    assert_eq!(verbose.stdout, usual.stdout);
    assert_eq!(run(&["plan", profile, "-q", "-v"]).status.code(), Some(2));
    let wrong = run(&["plan", "no-such.yaml", "--quiet"]);
    assert!(text(&wrong.stderr).contains("E1004"), "errors are told all the same");
}
