//! A week of the room as a page for the wall: a sheet for each day, stations down, minutes across, codes only.

use minijinja::{Value, value::Serde};
use serde::Serialize;

use super::board::{Bar, Day, days};
use super::text::{TOLD, collides, heading, outcome};
use crate::room::rota::{Outcome, Rota, clock};
use crate::sheets::wording::say;
use crate::sheets::{Paper, SheetError, phrase, wording};

const TEMPLATE: &str = include_str!("wall.html");
const STYLE: &str = include_str!("wall.css");

/// Patterns that tell neighbors apart on gray paper; the code in the bar says who it is.
const TONES: usize = 6;

/// Height of a printed sheet between its margins, and of what stands on it beside the rows, in millimeters.
const SHEET: f64 = 188.0;
const HEAD_AND_FOOT: f64 = 34.0;
const COMES: f64 = 16.0;
const NOTE: f64 = 6.0;
/// Clients side by side above the board.
const ABREAST: usize = 3;
/// Rows are as high as the sheet has room for, so that the board is read from where one lifts.
const ROW: [f64; 2] = [6.5, 17.0];

#[derive(Serialize)]
struct View {
    place: String,
    week: String,
    paper: &'static str,
    style: Value,
    days: Vec<Sheet>,
}

#[derive(Serialize)]
struct Sheet {
    name: String,
    /// Height of a row in millimeters.
    row: String,
    comes: Vec<Line>,
    ticks: Vec<Tick>,
    rows: Vec<Lane>,
    notes: Vec<String>,
}

#[derive(Serialize)]
struct Line {
    letter: char,
    client: String,
    tone: usize,
    from: String,
    to: String,
    changes: String,
}

#[derive(Serialize)]
struct Tick {
    at: String,
    text: String,
}

#[derive(Serialize)]
struct Lane {
    name: String,
    is_over: bool,
    by_mass: bool,
    bars: Vec<Drawn>,
}

#[derive(Serialize)]
struct Drawn {
    left: String,
    width: String,
    tone: usize,
    letter: char,
    client: String,
    more: String,
    told: String,
}

/// The page.
///
/// # Errors
/// A template that failed, which is a fault of ours.
pub fn wall(rota: &Rota, paper: Paper) -> Result<String, SheetError> {
    let view = View {
        place: rota.room.place.clone(),
        week: phrase::long_date(rota.monday),
        paper: match paper {
            Paper::A4 => "A4 landscape",
            Paper::Letter => "Letter landscape",
        },
        style: Value::from_safe_string(STYLE.to_owned()),
        days: days(rota).iter().map(|day| sheet(rota, day)).collect(),
    };
    Ok(wording::environment().render_str(TEMPLATE, Serde(view))?)
}

fn sheet(rota: &Rota, day: &Day) -> Sheet {
    let tone =
        |visit: usize| day.comes.iter().position(|one| one.visit == visit).unwrap_or(0) % TONES + 1;
    let share = |minute: u32| {
        let [from, to] = day.span.map(f64::from);
        format!("{:.3}", (f64::from(minute) - from) / (to - from).max(1.0) * 100.0)
    };
    let unit = rota.room.made_in().id();
    let drawn = |bar: &Bar| {
        let [from, to] = bar.span;
        Drawn {
            left: share(from),
            width: share(to - from + day.span[0]),
            tone: tone(bar.visit),
            letter: day.letter(bar.visit),
            told: format!("{} {}-{} {}", bar.client, clock(from), clock(to), bar.masses(unit))
                .trim_end()
                .to_owned(),
            client: bar.client.clone(),
            more: bar.masses_in_short(),
        }
    };
    let apart = if day.span[1] - day.span[0] > 4 * 60 { 30 } else { 15 };
    let ticks = (day.span[0]..=day.span[1]).filter(|minute| minute % apart == 0);
    let notes = notes(rota, day);
    Sheet {
        name: heading(day),
        row: format!("{:.1}", row_height(day, notes.len())),
        comes: day
            .comes
            .iter()
            .map(|one| Line {
                letter: day.letter(one.visit),
                client: one.client.clone(),
                tone: tone(one.visit),
                from: clock(one.span[0]),
                to: clock(one.span[1]),
                changes: rota.told_briefly(one.visit).join("; "),
            })
            .collect(),
        ticks: ticks.map(|minute| Tick { at: share(minute), text: clock(minute) }).collect(),
        rows: day
            .rows
            .iter()
            .map(|row| Lane {
                name: if row.by_mass {
                    say!(wall_by_mass, station = row.name, unit)
                } else {
                    row.name.clone()
                },
                is_over: row.is_over,
                by_mass: row.by_mass,
                bars: row.bars.iter().map(drawn).collect(),
            })
            .collect(),
        notes,
    }
}

/// How high the rows of a day may be, so that it stays on one sheet.
fn row_height(day: &Day, notes: usize) -> f64 {
    let few = |count: usize| f64::from(u32::try_from(count).unwrap_or(u32::MAX));
    let comes = few(day.comes.len().div_ceil(ABREAST)) * COMES;
    let left = SHEET - HEAD_AND_FOOT - comes - few(notes) * NOTE;
    (left / few(day.rows.len()).max(1.0)).clamp(ROW[0], ROW[1])
}

/// What still collides, and what would help; nothing where all fits.
fn notes(rota: &Rota, day: &Day) -> Vec<String> {
    let open = rota
        .clashes
        .iter()
        .filter(|clash| day.has(clash) && !matches!(clash.outcome, Outcome::Settled { .. }));
    open.flat_map(|clash| {
        let collisions = clash.collisions.iter().take(TOLD).map(|one| collides(rota, one));
        let more = clash.collisions.len().saturating_sub(TOLD);
        let more = (more > 0).then(|| say!(rota_more, count = more));
        [outcome(rota, &clash.outcome)].into_iter().chain(collisions).chain(more)
    })
    .collect()
}
