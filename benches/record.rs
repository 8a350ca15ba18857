//! Whole processes over a large book: 60 clients, 52 weeks, four sessions a week of 20 sets, about 250 000 sets. Wall time
//! and peak memory of one session written, a review and a page; and of reading such a book in.

#![allow(clippy::print_stdout, reason = "a bench prints its table")]

use std::fmt::Write as _;
use std::fs;
use std::path::Path;
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

/// Runs of each command; the quickest counts.
const RUNS: usize = 5;
const CLIENTS: u32 = 60;
const WEEKS: i64 = 52;
/// Days of the week from its first.
const DAYS: [i64; 4] = [0, 1, 3, 4];
const LIFTS: [&str; 5] = ["back-squat", "bench-press", "deadlift", "barbell-row", "overhead-press"];

fn main() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let tables = folder.path().join("tables");
    fs::create_dir_all(&tables).expect("the folder can be made");
    write_tables(&tables);
    println!("| command | wall | peak memory |\n| --- | --- | --- |");
    let book = folder.path().join("book.sqlite").display().to_string();
    let tables = tables.display().to_string();
    let (wall, peak) = run(&["book", "import", &tables, "--book", &book]);
    println!("| 250 000 sets read in | {:.2} s | {} MB |", wall.as_secs_f64(), peak / 1024);
    let size = fs::metadata(&book).map_or(0, |file| file.len()) / 1_000_000;
    println!("| the book | {size} MB | |");
    let line = "back-squat 60 8 8 8 8; bench-press 50 8 8 8 8; deadlift 80 5 5 5 5; \
                barbell-row 45 10 10 10 10; overhead-press 30 8 8 8 r2";
    row("one session written", &["log", "crew-30", "--date", "2027-12-31", line, "--book", &book]);
    row("a review of a year", &["review", "crew-30", "--from", "2027-01-04", "--book", &book]);
    let page = folder.path().join("page.html").display().to_string();
    row(
        "a page of progress",
        &["--force", "sheet", "--progress", "crew-30", "-o", &page, "--book", &book],
    );
    row("the book's check", &["book", "check", "--book", &book]);
}

/// The tables of an export.
fn write_tables(folder: &Path) {
    let mut clients = String::from("client,archived_on\r\n");
    let mut sessions =
        String::from("client,done_on,part,plan_sha256,week,day,at,is_light,note\r\n");
    let mut items = String::from(
        "client,done_on,part,place,exercise,asked_sets,asked_amount,asked_load_g,asked_rir,note\r\n",
    );
    let mut sets = String::from(
        "client,done_on,part,place,number,load_kind,load_g,band,amount,measure,right_amount,\
         effort_tenths,effort_scale\r\n",
    );
    let start = jiff::civil::date(2027, 1, 4);
    for client in 0..CLIENTS {
        writeln!(clients, "crew-{client:02},\r").expect("a string takes every write");
        for (week, day) in (0..WEEKS).flat_map(|week| DAYS.map(|day| (week, day))) {
            let date = start + jiff::Span::new().days(week * 7 + day);
            let key = format!("crew-{client:02},{date},/@");
            writeln!(sessions, "{key},,,,,0,\r").expect("a string takes every write");
            for (place, lift) in LIFTS.iter().enumerate() {
                writeln!(items, "{key},{place},{lift},4,8,,2,\r")
                    .expect("a string takes every write");
                let load = 20_000 + 1250 * (week / 2) + 2500 * i64::from(client % 7);
                for number in 1..=4 {
                    let reps = 8 + (week + day + number) % 3;
                    let told =
                        format!("{key},{place},{number},load,{load},,{reps},reps,,20,reserve\r");
                    writeln!(sets, "{told}").expect("a string takes every write");
                }
            }
        }
    }
    for (name, text) in
        [("clients", clients), ("sessions", sessions), ("items", items), ("sets", sets)]
    {
        fs::write(folder.join(format!("{name}.csv")), text).expect("it is written");
    }
}

fn row(name: &str, arguments: &[&str]) {
    let runs: Vec<(Duration, u64)> = (0..RUNS).map(|_| run(arguments)).collect();
    let wall = runs.iter().map(|(wall, _)| *wall).min().unwrap_or_default();
    let peak = runs.iter().map(|(_, peak)| *peak).max().unwrap_or_default();
    println!("| {name} | {:.3} s | {} MB |", wall.as_secs_f64(), peak / 1024);
}

/// Wall time and peak resident kilobytes of a process, which must end well.
fn run(arguments: &[&str]) -> (Duration, u64) {
    let clock = Instant::now();
    let mut child = Command::new(env!("CARGO_BIN_EXE_weekwright"))
        .args(arguments)
        .stdout(Stdio::null())
        .stderr(Stdio::null())
        .spawn()
        .expect("the program is built");
    let status = format!("/proc/{}/status", child.id());
    let mut peak = 0;
    loop {
        let seen = fs::read_to_string(&status).ok();
        peak = peak.max(seen.and_then(|text| high_water(&text)).unwrap_or(0));
        if let Some(ended) = child.try_wait().expect("the child is ours") {
            assert!(ended.success(), "{arguments:?}");
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
