//! Where a plan's time goes: `cargo bench --bench planning`.

mod cases;

use std::path::{Path, PathBuf};

use divan::{Bencher, black_box};
use weekwright::inner;
use weekwright::inner::design;
use weekwright::inner::dominance;
use weekwright::input::catalog::Entry;
use weekwright::input::profile::Profile;
use weekwright::planner::{Options, Planner};
use weekwright::rules;

use cases::{SIZES, case};

fn main() {
    divan::main();
}

fn demos() -> Vec<PathBuf> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("profiles");
    let entries = std::fs::read_dir(folder).expect("the demos are there").flatten();
    let mut files: Vec<PathBuf> = entries.map(|entry| entry.path()).collect();
    files.retain(|file| file.extension().is_some_and(|ending| ending == "yaml"));
    files.sort();
    files
}

fn load(file: &Path, planner: &Planner) -> Profile {
    let text = |file: &Path| std::fs::read_to_string(file).expect("a demo can be read");
    let profile = text(file);
    let place = profile.lines().find_map(|line| line.strip_prefix("place: "));
    let place = place.map(|name| text(&file.with_file_name(format!("places/{name}.yaml"))));
    planner.load(&profile, place.as_deref()).expect("a demo is well formed").profile
}

#[divan::bench]
fn catalog_read() -> usize {
    let text = include_str!(concat!(env!("OUT_DIR"), "/catalog.json"));
    serde_json::from_str::<Vec<Entry>>(black_box(text)).map_or(0, |list| list.len())
}

#[divan::bench]
fn input_check(bencher: Bencher) {
    let planner = Planner::built_in();
    let demo = Path::new(env!("CARGO_MANIFEST_DIR")).join("profiles/tide-01.yaml");
    bencher.bench(|| load(black_box(&demo), &planner));
}

#[divan::bench(args = SIZES)]
fn request(bencher: Bencher, size: (usize, usize)) {
    let case = case(size.0, size.1);
    bencher.bench(|| case.planner.request(black_box(&case.profile), &Options::default()));
}

#[divan::bench(args = SIZES)]
fn split_design(bencher: Bencher, size: (usize, usize)) {
    let case = case(size.0, size.1);
    let request = case.planner.request(&case.profile, &Options::default());
    bencher.bench(|| design::candidates(black_box(&request)));
}

#[divan::bench(args = SIZES)]
fn model_build(bencher: Bencher, size: (usize, usize)) {
    let case = case(size.0, size.1);
    let request = case.planner.request(&case.profile, &Options::default());
    let split = design::candidates(&request).remove(0);
    bencher.bench(|| {
        let keep = dominance::kept(black_box(&request));
        rules::weekly_model(&request, &split, &keep).model.rows.len()
    });
}

/// Ten thousand changes.
#[divan::bench(args = SIZES)]
fn one_game(bencher: Bencher, size: (usize, usize)) {
    let case = case(size.0, size.1);
    let request = case.planner.request(&case.profile, &Options::default());
    let split = design::candidates(&request).remove(0);
    let weekly = rules::weekly_model(&request, &split, &dominance::kept(&request));
    bencher.bench(|| inner::points_of_a_run(black_box(&weekly), 10_000));
}

#[divan::bench(args = SIZES, sample_count = 5, sample_size = 1)]
fn whole_plan(bencher: Bencher, size: (usize, usize)) {
    let case = case(size.0, size.1);
    bencher.bench(|| case.planner.plan(black_box(&case.profile), &Options::default()).is_ok());
}

fn demo_names() -> Vec<String> {
    demos().iter().map(|file| file.display().to_string()).collect()
}

#[divan::bench(args = demo_names(), sample_count = 3, sample_size = 1)]
fn demo_plan(bencher: Bencher, file: &str) {
    let planner = Planner::built_in();
    let profile = load(Path::new(file), &planner);
    bencher.bench(|| planner.plan(black_box(&profile), &Options::default()).is_ok());
}
