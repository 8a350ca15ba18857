//! Twelve weeks of the boathouse novice, invented and drawn by a seed: two blocks of six weeks are planned, each session
//! is written down, each coming week is made from what was done, and the second block begins with what the first brought.
//!
//! `cargo run --release --example twelve-weeks -- FOLDER` leaves the book, every plan and the review of week three in the
//! folder. The novice misses a session in ten and the whole of week nine, and does not like one of the exercises.

#![allow(clippy::print_stdout, reason = "it tells its story")]

use std::collections::BTreeMap;
use std::ffi::OsString;
use std::fmt::Write as _;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

use jiff::ToSpan as _;
use jiff::civil::{Date, date};
use rand::{Rng as _, SeedableRng as _};
use rand_chacha::ChaCha8Rng;
use weekwright::book::slot;
use weekwright::catalog::Catalog;
use weekwright::cli::notebook::{Notebook, ToLog};
use weekwright::input::plan::{Amounts, Item, Session, Week};

const CLIENT: &str = "tide-01";
const START: Date = date(2027, 1, 4);
const BLOCK: u32 = 6;
/// The week that is missed: nobody was there.
const AWAY: u32 = 9;
/// The share of sessions that are missed beside it.
const MISSED: f64 = 0.1;
/// What a novice gains in a week, as a share.
const GAIN: f64 = 0.012;
/// An exercise that is not liked, and how often it is left out.
const DISLIKED: (&str, f64) = ("goblet-split-squat", 0.7);

fn main() -> Result<ExitCode, Box<dyn std::error::Error>> {
    let folder = PathBuf::from(std::env::args_os().nth(1).ok_or("name the folder to write into")?);
    fs::create_dir_all(&folder)?;
    let mut story = Story::new(&folder, Draw(ChaCha8Rng::seed_from_u64(12)));
    let profile = story.profile()?;
    let first = folder.join("block-1.plan.yaml");
    Story::command(&["plan", text(&profile), "-o", text(&first)])?;
    story.block(1, first)?;
    let second = folder.join("block-2.plan.yaml");
    let book = story.book();
    Story::command(&["plan", text(&profile), "--book", text(&book), "-o", text(&second)])?;
    story.block(BLOCK + 1, second)?;
    Ok(ExitCode::SUCCESS)
}

struct Story<'a> {
    folder: &'a Path,
    draw: Draw,
    /// What each exercise can be done with once, in kilograms, or how often, where it has no load; as it was in week one.
    strength: BTreeMap<String, f64>,
}

impl Story<'_> {
    fn new(folder: &Path, draw: Draw) -> Story<'_> {
        Story { folder, draw, strength: BTreeMap::new() }
    }

    fn book(&self) -> PathBuf {
        self.folder.join("weekwright.sqlite")
    }

    /// The novice of the demo profiles, for blocks of six weeks.
    fn profile(&self) -> std::io::Result<PathBuf> {
        let profiles = Path::new(env!("CARGO_MANIFEST_DIR")).join("profiles");
        let profile = fs::read_to_string(profiles.join("tide-01.yaml"))?;
        fs::create_dir_all(self.folder.join("places"))?;
        fs::copy(
            profiles.join("places/boathouse.yaml"),
            self.folder.join("places/boathouse.yaml"),
        )?;
        let path = self.folder.join("tide-01.yaml");
        fs::write(&path, profile.replace("weeks: 4", &format!("weeks: {BLOCK}")))?;
        Ok(path)
    }

    /// Runs a command of the program, as it is typed.
    fn command(typed: &[&str]) -> Result<(), String> {
        println!("$ weekwright {}", typed.join(" "));
        let arguments = ["weekwright", "--force"].iter().chain(typed).map(OsString::from);
        match weekwright::cli::run(arguments, true) {
            ExitCode::SUCCESS => Ok(()),
            _ => Err(format!("`{}` failed", typed.join(" "))),
        }
    }

    /// A block from its first week: each session written down, each coming week made from what was done.
    fn block(&mut self, first: u32, plan: PathBuf) -> Result<(), Box<dyn std::error::Error>> {
        let book = self.book();
        let notebook = Notebook::of_folder(self.folder, Catalog::built_in());
        // A missed week moves the course, so a block begins where its own plan does.
        let begins = read(&plan)?.weeks.first().and_then(|week| week.date.as_deref()?.parse().ok());
        let begins: Date = begins.unwrap_or(START);
        let mut plan = plan;
        for week in first..first + BLOCK {
            let monday = begins + (7 * i64::from(week - first)).days();
            let filed = notebook.plan(CLIENT, monday).map_err(|fault| fault.to_string())?;
            let known = filed.filter(|_| week > first).map(|filed| filed.plan);
            let whole = known.map_or_else(|| read(&plan), Ok)?;
            let Some(planned) = slot::week_of(&whole, monday).cloned() else { break };
            if week != AWAY {
                self.week(week, &planned, monday, &plan, &notebook)?;
            }
            let next = self.folder.join(format!("week-{}.plan.yaml", week + 1));
            let on = (monday + 7.days()).to_string();
            if week + 1 < first + BLOCK {
                Self::command(&[
                    "next",
                    text(&plan),
                    "--on",
                    &on,
                    "--book",
                    text(&book),
                    "-o",
                    text(&next),
                ])?;
                plan = next;
            }
            if week == BLOCK / 2 {
                Self::command(&["review", CLIENT, "--book", text(&book)])?;
            }
        }
        Ok(())
    }

    /// The sessions of a week that are done, and Monday's measures.
    fn week(
        &mut self,
        number: u32,
        week: &Week,
        monday: Date,
        plan: &Path,
        notebook: &Notebook,
    ) -> Result<(), Box<dyn std::error::Error>> {
        for session in &week.sessions {
            if self.draw.share() < MISSED {
                continue;
            }
            let day = slot::day_in_week(monday, session.day).ok_or("no such day")?;
            let lines = self.lines(number, session);
            let to_log =
                ToLog { target: plan, date: day, week: None, day: None, note: None, lines: &lines };
            println!("$ weekwright log {} --date {day} \"{lines}\"", plan.display());
            notebook.log(&to_log).map_err(|fault| format!("{fault}: {lines}"))?;
        }
        let mass = format!("{:.1}", 64.0 - 0.08 * f64::from(number) + self.draw.normal(0.3));
        let waist = format!("{:.1}", 81.0 - 0.15 * f64::from(number) + self.draw.normal(0.5));
        let (book, monday) = (self.book(), monday.to_string());
        Self::command(&[
            "measure",
            CLIENT,
            "--date",
            &monday,
            "--mass",
            &mass,
            "--waist",
            &waist,
            "--book",
            text(&book),
        ])?;
        Ok(())
    }

    /// A session as it is written down.
    fn lines(&mut self, week: u32, session: &Session) -> String {
        let lines: Vec<String> =
            slot::work(session).into_iter().map(|item| self.line(week, item)).collect();
        lines.join("; ")
    }

    fn line(&mut self, week: u32, item: &Item) -> String {
        if item.exercise == DISLIKED.0 && self.draw.share() < DISLIKED.1 {
            return format!("{} -", item.exercise);
        }
        let (amounts, unit) = match item.amounts() {
            Some(Amounts::Reps(list)) => (list, ""),
            Some(Amounts::Seconds(list)) => (list, "s"),
            Some(Amounts::Meters(list)) => (list, "m"),
            Some(Amounts::Calories(list)) => (list, "cal"),
            None => (&[][..], ""),
        };
        let asked = amounts.first().copied().unwrap_or(8);
        let rir = item.rir.unwrap_or(2);
        if !unit.is_empty() {
            return format!("{}{}", item.exercise, format!(" {asked}{unit}").repeat(amounts.len()));
        }
        let today = self.today(week, item, asked, rir);
        let mut line = item.exercise.clone();
        if let Some(find) = &item.find_load {
            climb(
                &mut line,
                find.start_kg,
                find.step_kg,
                item.sets.min(find.sets),
                (asked, rir),
                today,
            );
            return line;
        }
        if let Some(load) = item.load_kg {
            let _ = write!(line, " {load}kg");
        }
        let most = item.load_kg.map_or(today, |load| repetitions(today, load)).max(1.0);
        let most = whole(most);
        let last = asked.max(most.saturating_sub(rir)).min(most).min(asked + 3);
        let sets = usize::try_from(item.sets.max(1)).unwrap_or(1);
        for set in 1..=sets {
            let _ = write!(line, " {}", if set == sets { last } else { asked.min(most) });
        }
        if self.draw.share() > 0.1 {
            let _ = write!(line, " r{}", (most - last).min(6));
        }
        line
    }

    /// What the exercise can be done with once today, or how often.
    fn today(&mut self, week: u32, item: &Item, asked: u32, rir: u32) -> f64 {
        let draw = &mut self.draw;
        let first = *self.strength.entry(item.exercise.clone()).or_insert_with(|| {
            let above = 1.2 + 0.6 * draw.share();
            match item.find_load.as_ref().map(|find| find.start_kg).or(item.load_kg) {
                Some(load) => load * above * 36.0 / (37.0 - f64::from(asked + rir)),
                None => f64::from(asked + rir),
            }
        });
        first * (1.0 + GAIN * f64::from(week - 1)) * (1.0 + self.draw.normal(0.01))
    }
}

/// Sets up to the load that leaves what is asked.
fn climb(
    line: &mut String,
    start: f64,
    step: f64,
    sets: u32,
    (asked, rir): (u32, u32),
    today: f64,
) {
    for set in 0..sets {
        let load = start + step * f64::from(set);
        let left = whole(repetitions(today, load)).saturating_sub(asked);
        let _ = write!(line, " {load}kg {asked}");
        if left <= rir || set + 1 == sets {
            let _ = write!(line, " r{}", left.min(6));
            return;
        }
    }
}

/// Repetitions to failure at a load (Brzycki 1993).
fn repetitions(max_kg: f64, load_kg: f64) -> f64 {
    37.0 - 36.0 * load_kg / max_kg
}

#[allow(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "a small number, cut at nought"
)]
fn whole(number: f64) -> u32 {
    number.round().clamp(0.0, 60.0) as u32
}

fn text(path: &Path) -> &str {
    path.to_str().unwrap_or("a folder whose name is text")
}

/// A plan's file, every week complete.
fn read(path: &Path) -> Result<weekwright::input::plan::Plan, String> {
    let text = std::fs::read_to_string(path).map_err(|error| error.to_string())?;
    weekwright::Planner::built_in().read(&text).map_err(|faults| faults.to_string())
}

struct Draw(ChaCha8Rng);

impl Draw {
    /// Between nought and one.
    fn share(&mut self) -> f64 {
        f64::from(self.0.next_u32()) / f64::from(u32::MAX)
    }

    /// About normal, by the sum of twelve.
    fn normal(&mut self, spread: f64) -> f64 {
        ((0..12).map(|_| self.share()).sum::<f64>() - 6.0) * spread
    }
}
