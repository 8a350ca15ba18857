//! Quality over streams of draws: `cargo bench --bench streams -- [quick | long] [STREAMS] [PROFILE...]`, with `quick` that
//! of a quick answer, with `long` what others are held against: runs four times as long, up to 12 rounds of four.
//!
//! A line for each week and stream: processor seconds of the search, costs of tiers 1 and 2, points of tier 3. Without
//! profiles the weeks are the demos and the cases of the other benches. `benches/losses.py` compares such tables.

#![allow(clippy::print_stdout, reason = "a bench prints its table")]

mod cases;

use std::fs;
use std::path::{Path, PathBuf};

use cases::{SIZES, case};
use weekwright::Budget;
use weekwright::inner::{Tier, design, solve};
use weekwright::input::profile::Profile;
use weekwright::planner::{Options, Planner};

fn main() {
    let given = std::env::args().skip(1).filter(|argument| !argument.starts_with("--"));
    let (efforts, given): (Vec<String>, Vec<String>) =
        given.partition(|word| ["quick", "long"].contains(&word.as_str()));
    let (streams, files): (Vec<String>, Vec<String>) =
        given.into_iter().partition(|argument| argument.parse::<u64>().is_ok());
    let budget = match efforts.first().map(String::as_str) {
        None => Budget::default(),
        Some("quick") => Budget::quick(),
        Some(_) => long(Budget::default()),
    };
    let streams = streams.first().map_or(3, |streams| streams.parse().expect("a number"));
    let weeks = if files.is_empty() { known() } else { read(files.iter().map(PathBuf::from)) };
    for stream in 1..=streams {
        for (name, planner, profile) in &weeks {
            line(name, planner, profile, Budget { stream, ..budget });
        }
    }
}

fn long(usual: Budget) -> Budget {
    Budget { proposals_a_day: 4 * usual.proposals_a_day, rounds: 12, round_runs: 4, ..usual }
}

type Week = (String, Planner, Profile);

fn known() -> Vec<Week> {
    let demos = Path::new(env!("CARGO_MANIFEST_DIR")).join("profiles");
    let files = fs::read_dir(demos).expect("the demos are there").flatten().map(|file| file.path());
    let mut weeks = read(files.filter(|file| file.extension().is_some_and(|end| end == "yaml")));
    weeks.sort_by(|one, other| one.0.cmp(&other.0));
    let sizes = SIZES.iter().map(|(days, usable)| case(*days, *usable));
    weeks.extend(sizes.map(|case| (case.name, case.planner, case.profile)));
    weeks
}

fn read(files: impl Iterator<Item = PathBuf>) -> Vec<Week> {
    let week = |file: PathBuf| {
        let text = |file: &Path| fs::read_to_string(file).expect("a profile can be read");
        let profile = text(&file);
        let place = profile.lines().find_map(|line| line.strip_prefix("place: "));
        let places = Path::new(env!("CARGO_MANIFEST_DIR")).join("profiles/places");
        let place = place.map(|name| text(&places.join(format!("{name}.yaml"))));
        let planner = Planner::built_in();
        let loaded = planner.load(&profile, place.as_deref()).ok()?;
        let name = file.file_stem()?.to_string_lossy().into_owned();
        Some((name, planner, loaded.profile))
    };
    files.filter_map(week).collect()
}

fn line(name: &str, planner: &Planner, profile: &Profile, budget: Budget) {
    let request = planner.request(profile, &Options::default());
    let splits = design::candidates(&request);
    let before = processor_seconds();
    let stream = budget.stream;
    let found = solve::best(&request, &splits, budget);
    let seconds = processor_seconds() - before;
    let Ok(solution) = found else {
        println!("{name} {stream} {seconds:.3} no week");
        return;
    };
    let value = |tier: Tier| {
        let told = solution.tiers.iter().find(|told| told.name == tier.name());
        told.map_or(0.0, |told| told.value)
    };
    let [coverage, ranges, view] = [Tier::Coverage, Tier::Ranges, Tier::View].map(value);
    println!("{name} {stream} {seconds:.3} {coverage} {ranges} {view}");
}

/// Processor time of all threads so far; only Linux tells it.
fn processor_seconds() -> f64 {
    let threads = fs::read_dir("/proc/self/task").into_iter().flatten().flatten();
    let nanos = threads.filter_map(|thread| {
        let text = fs::read_to_string(thread.path().join("schedstat")).ok()?;
        text.split_whitespace().next()?.parse::<f64>().ok()
    });
    nanos.sum::<f64>() / 1e9
}
