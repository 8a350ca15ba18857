//! Many profiles at once, and a line for a line.

use std::fs;
use std::io::Write as _;
use std::path::Path;
use std::process::{Output, Stdio};

use serde_json::{Value, json};

use super::{program, text};

/// A quick profile: two short days and nothing in the room.
fn profile(client: &str) -> Value {
    json!({
        "client": client, "training_status": "novice", "goal": "general-fitness", "equipment": [],
        "sessions": [{"day": "tue", "minutes": 25}, {"day": "fri", "minutes": 25}]
    })
}

/// No week holds this must: its kit is not there.
fn impossible() -> Value {
    let mut profile = profile("stern-03");
    profile["exercises"] = json!({"must": ["back-squat"]});
    profile
}

fn folder(profiles: &[(&str, String)]) -> tempfile::TempDir {
    let folder = tempfile::tempdir().unwrap();
    for (name, text) in profiles {
        fs::write(folder.path().join(name), text).unwrap();
    }
    folder
}

fn crew() -> tempfile::TempDir {
    let crew = folder(&[
        ("bow-01.yaml", profile("bow-01").to_string()),
        ("bad-02.yaml", "client: bad-02\ngoal: strenght\n".to_owned()),
        ("cox-04.yaml", profile("cox-04").to_string()),
        ("notes.txt", "no profile".to_owned()),
    ]);
    fs::create_dir(crew.path().join("places")).unwrap();
    crew
}

fn plan(folder: &Path, threads: &str, arguments: &[&str]) -> Output {
    let mut command = program();
    command.env("RAYON_NUM_THREADS", threads).arg("plan").arg(folder).args(arguments);
    command.output().unwrap()
}

#[test]
fn the_same_bytes_on_one_core_and_on_four_in_every_format() {
    let crew = crew();
    for format in ["text", "yaml", "json"] {
        let one = plan(crew.path(), "1", &["--format", format]);
        let four = plan(crew.path(), "4", &["--format", format]);
        assert_eq!((one.status.code(), four.status.code()), (Some(2), Some(2)));
        assert_eq!(
            (text(&one.stdout), text(&one.stderr)),
            (text(&four.stdout), text(&four.stderr))
        );
    }
}

/// A week that is annealed under several splits, not solved whole: which core a run is made on is no part of it.
#[test]
fn a_week_of_many_runs_has_the_same_bytes_however_many_cores_make_it() {
    let demo = concat!(env!("CARGO_MANIFEST_DIR"), "/profiles/scull-07.yaml");
    for effort in [&[][..], &["--effort", "quick"]] {
        let arguments = [&["--format", "json"], effort].concat();
        let one = plan(Path::new(demo), "1", &arguments);
        assert_eq!(one.status.code(), Some(0), "{}", text(&one.stderr));
        assert!(text(&one.stdout).contains("within-gap"), "nothing was proven, so it was annealed");
        for threads in ["2", "5"] {
            assert_eq!(text(&plan(Path::new(demo), threads, &arguments).stdout), text(&one.stdout));
        }
    }
}

#[test]
fn a_bad_profile_stops_no_other_and_plans_come_in_the_order_of_the_names() {
    let crew = crew();
    let output = plan(crew.path(), "2", &["--format", "json"]);
    let lines: Vec<Value> =
        text(&output.stdout).lines().map(|line| serde_json::from_str(line).unwrap()).collect();
    let clients: Vec<&str> = lines.iter().map(|plan| plan["client"].as_str().unwrap()).collect();
    assert_eq!(clients, ["bow-01", "cox-04"]);
    assert!(text(&output.stderr).contains("id you mean `strength`?"));
    assert!(text(&output.stderr).contains("2 of 3 profiles planned"));
    assert!(!text(&output.stderr).contains('\r'), "a bar is for terminals only");
}

#[test]
fn in_text_each_plan_has_a_heading_and_is_the_plan_it_is_alone() {
    let crew = crew();
    let all = plan(crew.path(), "2", &[]);
    let file = crew.path().join("cox-04.yaml");
    let alone = plan(&file, "2", &[]);
    assert_eq!(alone.status.code(), Some(0));
    let heading = format!("{0}\n{1}\n\n", file.display(), "=".repeat(file.to_str().unwrap().len()));
    let wanted = format!("\n\n{heading}{}", text(&alone.stdout));
    assert!(text(&all.stdout).ends_with(&wanted), "{}", text(&all.stdout));
}

#[test]
fn in_a_folder_each_plan_has_its_own_file() {
    let (crew, out) = (crew(), tempfile::tempdir().unwrap());
    let to = out.path().to_str().unwrap();
    let output = plan(crew.path(), "2", &["--format", "yaml", "-o", to, "--write-model", to]);
    assert_eq!((output.status.code(), text(&output.stdout)), (Some(2), ""));
    let entries = fs::read_dir(out.path()).unwrap();
    let mut names: Vec<_> = entries.map(|entry| entry.unwrap().file_name()).collect();
    names.sort();
    assert_eq!(names, ["bow-01.mps", "bow-01.plan.yaml", "cox-04.mps", "cox-04.plan.yaml"]);
    let audit = program().arg("audit").arg(out.path().join("cox-04.plan.yaml")).output().unwrap();
    assert_eq!(audit.status.code(), Some(0), "{}", text(&audit.stdout));
}

#[test]
fn two_results_are_never_written_to_one_file() {
    let (one, other, out) = (crew(), crew(), tempfile::tempdir().unwrap());
    let arguments = [other.path().to_str().unwrap(), "-o", out.path().to_str().unwrap()];
    let output = plan(one.path(), "2", &arguments);
    assert_eq!(output.status.code(), Some(2));
    assert!(text(&output.stderr).contains("E1010"), "{}", text(&output.stderr));
    assert_eq!(fs::read_dir(out.path()).unwrap().count(), 0);
    let file = out.path().join("all.yaml");
    let output = plan(one.path(), "2", &["-o", file.to_str().unwrap()]);
    assert_eq!(output.status.code(), Some(2));
    assert!(text(&output.stderr).contains("E1004") && !file.exists());
    let empty = plan(out.path(), "2", &[]);
    assert_eq!(empty.status.code(), Some(2));
    assert!(text(&empty.stderr).contains("E1004"));
}

/// The first of 1, 3, 2, 0 that occurs (the fixed table of exit codes).
#[test]
fn the_gravest_end_is_the_end_of_all() {
    let good = ("a.yaml", profile("bow-01").to_string());
    let bad = ("b.yaml", "client: bad-02\n".to_owned());
    let impossible = ("c.yaml", impossible().to_string());
    let ends = |profiles: &[(&str, String)]| plan(folder(profiles).path(), "2", &[]).status.code();
    assert_eq!(ends(std::slice::from_ref(&good)), Some(0));
    assert_eq!(ends(&[good.clone(), bad.clone()]), Some(2));
    assert_eq!(ends(&[good.clone(), impossible.clone()]), Some(3));
    assert_eq!(ends(&[good, bad, impossible]), Some(3));
}

fn lines(input: &str) -> Output {
    lines_with(input, &[], None)
}

/// The same with more arguments, and on so many cores.
fn lines_with(input: &str, arguments: &[&str], cores: Option<&str>) -> Output {
    let mut command = program();
    command.args(["plan", "--lines"]).args(arguments).stdin(Stdio::piped());
    command.envs(cores.map(|cores| ("RAYON_NUM_THREADS", cores)));
    let mut child = command.stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().unwrap();
    let mut stdin = child.stdin.take().unwrap();
    stdin.write_all(input.as_bytes()).unwrap();
    drop(stdin);
    child.wait_with_output().unwrap()
}

#[test]
fn every_line_gets_its_own_line_whatever_stands_on_the_others() {
    let long = format!("{{\"client\": \"{}\"}}", "x".repeat(1_000_000));
    let first = profile("bow-01").to_string();
    let input = format!("{first}\n\n{{\"client\": \n{long}\n{}\n{first}", impossible());
    let output = lines(&input);
    let answers: Vec<Value> =
        text(&output.stdout).lines().map(|line| serde_json::from_str(line).unwrap()).collect();
    assert_eq!(answers.len(), 5, "a blank line has no answer");
    assert_eq!(answers[0]["client"], "bow-01");
    assert_eq!(answers[1]["diagnostics"][0]["labels"][0]["source"], "<line 3>");
    assert_eq!(answers[2]["diagnostics"][0]["code"], "E1001");
    assert_eq!(answers[3]["error"][0]["code"], "E3001");
    assert_eq!(answers[4], answers[0], "no line knows of another");
    assert_eq!(output.status.code(), Some(3));
}

/// A line may bring the last block and a seed; half a line, a huge one and what does not fit are told, each on its own.
#[test]
fn a_line_may_bring_more_than_the_profile() {
    let seeded =
        r#"{"profile": PROFILE, "seed": 3}"#.replace("PROFILE", &profile("bow-01").to_string());
    let first = lines(&format!("{seeded}\n"));
    let plan: Value = serde_json::from_str(text(&first.stdout)).unwrap();
    assert_eq!((&plan["client"], &plan["seed"]), (&Value::from("bow-01"), &Value::from(3)));
    let next = format!("{{\"previous\": {plan}, \"profile\": {}}}", profile("bow-01"));
    let huge = "x".repeat(10_000_000);
    let odd = seeded.replace("\"seed\": 3", "\"sead\": 3");
    let output = lines(&format!("{next}\n{huge}\n{odd}\n{}", &seeded[..seeded.len() / 2]));
    let answers: Vec<Value> =
        text(&output.stdout).lines().map(|line| serde_json::from_str(line).unwrap()).collect();
    assert_eq!(answers.len(), 4);
    assert_eq!(answers[0]["client"], "bow-01");
    let codes = answers[1..].iter().map(|answer| answer["error"][0]["code"].as_str().unwrap());
    assert_eq!(codes.collect::<Vec<_>>(), ["E1001", "E1201", "E1101"]);
}

/// A line has so much work and no more: to the change of a week, on any number of cores, whatever other lines took.
#[test]
fn a_line_that_takes_more_work_than_is_allowed_is_answered_with_a_fault() {
    let mut tight = profile("stern-03");
    tight["sessions"] = json!([{"day": "mon", "minutes": 17}]);
    tight["equipment"] = json!(["barbell", "squat-rack", "bench"]);
    tight["exercises"] = json!({"must": ["back-squat", "bench-press", "deadlift"]});
    let input = format!("{}\n{tight}\n", profile("bow-01"));
    let told = lines_with(&input, &["--verbose"], Some("1"));
    let taken: Vec<u64> = text(&told.stderr)
        .lines()
        .filter_map(|line| line.strip_prefix("<line ")?.split(' ').nth(1)?.parse().ok())
        .collect();
    assert!(taken.len() == 2 && taken.iter().all(|taken| *taken > 1000), "{taken:?}");
    let answers = |thousands: u64, cores: &str| -> Vec<Value> {
        let output = lines_with(&input, &["--work", &thousands.to_string()], Some(cores));
        text(&output.stdout).lines().map(|line| serde_json::from_str(line).unwrap()).collect()
    };
    let codes = |answers: &[Value]| -> Vec<Option<String>> {
        let code = |one: &Value| one["error"][0]["code"].as_str().map(str::to_owned);
        answers.iter().map(code).collect()
    };
    let [spent, impossible] = ["E3005", "E3001"].map(|code| Some(code.to_owned()));
    for cores in ["1", "3"] {
        let most = taken.iter().max().unwrap().div_ceil(1000);
        let enough = answers(most, cores);
        assert_eq!(codes(&enough), [None, impossible.clone()], "{cores} cores, {most}");
        assert_eq!(
            enough[0],
            serde_json::from_str::<Value>(text(&told.stdout).lines().next().unwrap()).unwrap()
        );
        for (line, taken) in taken.iter().enumerate() {
            let short = answers((taken - 1) / 1000, cores);
            assert_eq!(codes(&short)[line], spent, "line {line} of {taken} on {cores} cores");
        }
    }
}

/// The next line is not needed for an answer to this one.
#[test]
fn a_line_is_answered_while_the_input_is_still_open() {
    use std::io::{BufRead as _, BufReader};
    let mut command = program();
    command.args(["plan", "--lines"]).stdin(Stdio::piped()).stdout(Stdio::piped());
    let mut child = command.spawn().unwrap();
    let mut stdin = child.stdin.take().unwrap();
    writeln!(stdin, "{}", profile("bow-01")).unwrap();
    stdin.flush().unwrap();
    let mut answer = String::new();
    BufReader::new(child.stdout.take().unwrap()).read_line(&mut answer).unwrap();
    assert!(answer.contains("bow-01"));
    drop(stdin);
    assert_eq!(child.wait().unwrap().code(), Some(0));
}

#[test]
fn lines_stand_alone() {
    let output = program().args(["plan", "--lines", "someone.yaml"]).output().unwrap();
    assert_eq!(output.status.code(), Some(2));
    let output = program().arg("plan").output().unwrap();
    assert_eq!(output.status.code(), Some(2));
}

/// The numbers of a model: columns, rows, and those of tiers 1 and 2 that are held.
#[test]
fn the_model_is_written_with_bounds_for_every_column() {
    let crew = crew();
    let file = crew.path().join("model.mps");
    let profile = crew.path().join("bow-01.yaml");
    let output = plan(&profile, "1", &["--write-model", file.to_str().unwrap()]);
    assert_eq!(output.status.code(), Some(0), "{}", text(&output.stderr));
    let model = fs::read_to_string(&file).unwrap();
    let part = |from: &str, to: &str| -> Vec<&str> {
        let rest = model.split_once(from).unwrap().1;
        rest.split_once(to).unwrap().0.lines().collect()
    };
    let columns: std::collections::BTreeSet<&str> = part("COLUMNS\n", "RHS\n")
        .iter()
        .filter(|line| !line.contains("'MARKER'"))
        .filter_map(|line| line.split_whitespace().next())
        .collect();
    let bounds = part("BOUNDS\n", "ENDATA");
    for column in &columns {
        for kind in ["LO", "UP"] {
            let bound = format!(" {kind} bnd {column} ");
            assert!(bounds.iter().any(|line| line.starts_with(&bound)), "{column} has no {kind}");
        }
    }
    let rows = part("ROWS\n", "COLUMNS\n");
    assert!(rows.iter().any(|row| row.starts_with(" L held_")), "{rows:?}");
    assert!(
        columns.contains("do_incline_push_up_tue") && columns.contains("do_incline_push_up_fri")
    );
}
