//! Whole processes: wall time and peak memory of one plan of each case and demo, and of 200 profiles at once.
//!
//! `cargo bench --bench process -- DIR` also leaves profiles, catalogs, plans and models in DIR, which is what
//! `benches/solvers.py DIR` puts other solvers on.

#![allow(clippy::print_stdout, reason = "a bench prints its table")]

mod cases;

use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

use cases::{SIZES, case};

/// Runs of each case; the middle one counts.
const RUNS: usize = 5;

fn main() {
    let named = std::env::args().skip(1).find(|argument| !argument.starts_with("--"));
    let kept = named.unwrap_or_else(|| format!("{}/cases", env!("CARGO_TARGET_TMPDIR")));
    let folder = PathBuf::from(kept);
    fs::create_dir_all(&folder).expect("the folder can be made");
    println!("| case | wall | peak memory |\n| --- | --- | --- |");
    for (days, usable) in SIZES {
        one(&folder, days, usable);
    }
    demos(&folder);
    reworked(&folder);
    collide(&folder);
    growth(&folder.join("growth"));
    many(&folder);
}

/// Exponents of wall time in usable exercises, on four days, and in days, with 150 of them.
fn growth(folder: &Path) {
    fs::create_dir_all(folder).expect("the folder can be made");
    let [small, large] =
        [75_u32, 300].map(|usable| (f64::from(usable), one(folder, 4, usable as usize)));
    println!("| growth in exercises | {:.2} | |", exponent(small, large));
    let [small, large] = [3_u32, 6].map(|days| (f64::from(days), one(folder, days as usize, 150)));
    println!("| growth in days | {:.2} | |", exponent(small, large));
}

/// The power of a size that a time grows with, from two sizes with their times.
fn exponent(one: (f64, Duration), other: (f64, Duration)) -> f64 {
    (other.1.as_secs_f64() / one.1.as_secs_f64()).ln() / (other.0 / one.0).ln()
}

fn one(folder: &Path, days: usize, usable: usize) -> Duration {
    let case = case(days, usable);
    let catalog = folder.join(format!("{}-catalog", case.name));
    fs::create_dir_all(&catalog).expect("the folder can be made");
    let file =
        |text: String, name: &str| fs::write(catalog.join(name), text).expect("it is written");
    // An empty list would be refused, and a case may need none beside the built-in ones.
    let mut arguments: Vec<String> = Vec::new();
    if !case.added.is_empty() {
        file(serde_yaml::to_string(&case.added).expect("entries are plain"), "variants.yaml");
        arguments.extend(["--catalog".to_owned(), catalog.display().to_string()]);
    }
    let profile = folder.join(format!("{}.yaml", case.name));
    let text = serde_yaml::to_string(&case.profile).expect("a profile is plain");
    fs::write(&profile, text).expect("it is written");
    line(&case.name, &profile, &arguments, folder)
}

/// Four days without the barbell, from the plan that the case left.
fn reworked(folder: &Path) {
    let plan = folder.join("4x150.json").display().to_string();
    let arguments = ["rework", &plan, "--without", "barbell"].map(str::to_owned);
    row("4x150, rework", || run(&arguments, Stdio::null()));
}

/// Eleven lifts for four short days: thirteen rules collide, nine of the lifts and the minutes of each day.
fn collide(folder: &Path) {
    const LIFTS: [&str; 11] = [
        "back-squat",
        "bench-press",
        "deadlift",
        "barbell-row",
        "overhead-press",
        "pull-up",
        "romanian-deadlift",
        "front-squat",
        "hip-thrust",
        "dip",
        "leg-press",
    ];
    let mut profile = case(4, 150).profile;
    profile.goal = "general-fitness".parse().expect("a goal");
    for (slot, day) in profile.sessions.iter_mut().zip(["mon", "wed", "fri", "sun"]) {
        (slot.minutes, slot.day) = (15, day.parse().expect("a day"));
    }
    let lists = &mut profile.exercises;
    lists.must = LIFTS.map(str::to_owned).to_vec();
    lists.never.retain(|id| !lists.must.contains(id));
    let file = folder.join("too-much.yaml");
    let text = serde_yaml::to_string(&profile).expect("a profile is plain");
    fs::write(&file, text).expect("it is written");
    let arguments = ["plan".to_owned(), file.display().to_string()];
    row("4x150, conflict", || run_to(&arguments, Stdio::null(), IMPOSSIBLE));
}

fn row(name: &str, ran: impl Fn() -> (Duration, u64)) {
    told(name, (0..RUNS).map(|_| ran()).collect());
}

/// Prints the middle wall time of some runs and the most memory of any.
fn told(name: &str, mut runs: Vec<(Duration, u64)>) -> Duration {
    runs.sort();
    let wall = runs[runs.len() / 2].0;
    let peak = runs.iter().map(|(_, peak)| *peak).max().unwrap_or_default();
    println!("| {name} | {:.3} s | {} MB |", wall.as_secs_f64(), peak / 1024);
    wall
}

fn demos(folder: &Path) {
    let demos = Path::new(env!("CARGO_MANIFEST_DIR")).join("profiles");
    let entries = fs::read_dir(&demos).expect("the demos are there").flatten();
    let mut files: Vec<PathBuf> = entries.map(|entry| entry.path()).collect();
    files.retain(|file| file.extension().is_some_and(|ending| ending == "yaml"));
    files.sort();
    for file in files {
        let name = file.file_stem().unwrap_or_default().to_string_lossy().into_owned();
        line(&name, &file, &[], folder);
    }
}

/// A row of the table; plan and model stay in the folder, with the seconds that the plan took.
fn line(name: &str, profile: &Path, more: &[String], folder: &Path) -> Duration {
    let mut arguments = vec!["plan".to_owned(), profile.display().to_string()];
    arguments.extend(more.iter().cloned());
    arguments.extend(["--format", "json"].map(str::to_owned));
    let wall = told(name, (0..RUNS).map(|_| run(&arguments, Stdio::null())).collect());
    let file = |ending: &str| folder.join(format!("{name}.{ending}")).display().to_string();
    arguments.extend(["--force", "-o"].map(str::to_owned));
    arguments.extend([file("json"), "--write-model".to_owned(), file("mps")]);
    run(&arguments, Stdio::null());
    fs::write(file("seconds"), wall.as_secs_f64().to_string()).expect("it is written");
    wall
}

/// 200 clients of three and four days, half of each.
fn many(folder: &Path) {
    let crew = folder.join("crew");
    fs::create_dir_all(&crew).expect("the folder can be made");
    let goals = ["hypertrophy", "strength", "general-fitness", "fat-loss", "endurance"];
    for number in 0..200_usize {
        let mut profile = case(3 + number % 2, 150).profile;
        profile.client = format!("crew-{number:03}");
        profile.goal = goals[number % goals.len()].parse().expect("a goal");
        let text = serde_yaml::to_string(&profile).expect("a profile is plain");
        fs::write(crew.join(format!("crew-{number:03}.yaml")), text).expect("it is written");
    }
    let arguments = ["plan", &crew.display().to_string(), "--format", "yaml"].map(str::to_owned);
    let (wall, peak) = run(&arguments, Stdio::null());
    println!("| 200 profiles | {:.1} s | {} MB |", wall.as_secs_f64(), peak / 1024);
}

/// How the program ends where it made a plan, and where no week meets the hard rules.
const DONE: i32 = 0;
const IMPOSSIBLE: i32 = 3;

/// Wall time and peak resident kilobytes of a process, which must end well.
fn run(arguments: &[String], output: Stdio) -> (Duration, u64) {
    run_to(arguments, output, DONE)
}

/// The same of a process that must end with a code.
fn run_to(arguments: &[String], output: Stdio, code: i32) -> (Duration, u64) {
    let clock = Instant::now();
    let mut child = Command::new(env!("CARGO_BIN_EXE_weekwright"))
        .args(arguments)
        .stdout(output)
        .stderr(Stdio::null())
        .spawn()
        .expect("the program is built");
    let status = format!("/proc/{}/status", child.id());
    let mut peak = 0;
    loop {
        peak = peak
            .max(fs::read_to_string(&status).ok().and_then(|text| high_water(&text)).unwrap_or(0));
        if let Some(ended) = child.try_wait().expect("the child is ours") {
            assert_eq!(ended.code(), Some(code), "{arguments:?}");
            return (clock.elapsed(), peak);
        }
        std::thread::sleep(Duration::from_millis(1));
    }
}

/// `VmHWM` in kilobytes; only Linux tells it.
fn high_water(status: &str) -> Option<u64> {
    let line = status.lines().find(|line| line.starts_with("VmHWM:"))?;
    line.split_whitespace().nth(1)?.parse().ok()
}
