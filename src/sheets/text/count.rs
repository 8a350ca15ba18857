//! What the coach counts: sets per muscle, balance, minutes and what fell short.

use super::page::Page;
use crate::plan::file::{MuscleVolume, Plan, Session};
use crate::sheets::{Names, head, phrase};

/// Columns of the name and of the number before a bar.
const NAME: usize = 18;
const NUMBER: usize = 6;

/// Sets per muscle as plain bars against their ranges; a column is half a set, or more where the
/// week is large.
pub(super) fn volume(page: &mut Page, plan: &Plan) {
    if plan.volume.is_empty() {
        return;
    }
    page.heading("Weekly sets (direct 1, indirect ½)");
    let top =
        plan.volume.iter().map(|row| row.sets.max(row.high.unwrap_or(0.0))).fold(0.0, f64::max);
    let columns_per_set = if top <= 20.0 { 2 } else { 1 };
    let columns = whole(top.clamp(1.0, 40.0).ceil()) * columns_per_set;
    let columns = columns.next_multiple_of(5 * columns_per_set);
    for row in &plan.volume {
        let name = format!("  {:<NAME$}", row.muscle.name());
        let number = format!("{:>4}  ", phrase::trimmed(row.sets, 1));
        let bar = bar(row, columns, columns_per_set);
        page.row(&[
            ("", 0),
            (&name, 0),
            ("", 0),
            (&number, NUMBER),
            (&bar, columns + 3),
            (&verdict(row), 0),
        ]);
    }
    let indent = " ".repeat(2 + NAME + NUMBER);
    page.line_as_is(&format!("{indent}{}", ticks(columns, columns_per_set)));
    page.quiet("  Full: sets in the week. The marks [ and ] are the ends of the range.");
}

/// `████[████░░░]`: the sets, the room left in the range, and the range's ends.
fn bar(row: &MuscleVolume, columns: usize, per_set: usize) -> String {
    #[allow(clippy::cast_precision_loss, reason = "one or two columns")]
    let at = |sets: f64| whole((sets * per_set as f64).round());
    let filled = at(row.sets);
    let (low, high) = (row.low.map(at), row.high.map(at));
    (0..=columns)
        .map(|column| match column {
            column if low == Some(column) => '[',
            column if high == Some(column) => ']',
            column if column < filled => '█',
            column
                if low.is_some_and(|low| column > low)
                    && high.is_some_and(|high| column < high) =>
            {
                '░'
            }
            _ => ' ',
        })
        .collect()
}

/// `8 to 14`, and by how much it is missed.
fn verdict(row: &MuscleVolume) -> String {
    let parts = [head::range(row.low, row.high), head::miss(row)];
    parts.into_iter().filter(|part| !part.is_empty()).collect::<Vec<_>>().join(", ")
}

/// Numbers under the bars, every five sets.
fn ticks(columns: usize, per_set: usize) -> String {
    let mut line = String::new();
    for tick in (0..=columns).step_by(5 * per_set) {
        line.push_str(&" ".repeat(tick.saturating_sub(line.len())));
        line.push_str(&(tick / per_set).to_string());
    }
    line
}

/// Sets are between 0 and some dozens, so nothing is lost.
#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "clamped to 0 to 10000")]
const fn whole(number: f64) -> usize {
    number.clamp(0.0, 10_000.0) as usize
}

/// Whole sets by side and the two ratios.
pub(super) fn balance(page: &mut Page, plan: &Plan, names: &Names<'_>) {
    let ratios = head::ratios(plan, names);
    if plan.balance.is_none() && ratios.is_empty() {
        return;
    }
    page.heading("Balance");
    if let Some(balance) = &plan.balance {
        page.hanging(
            "  ",
            &format!("push {} · pull {} · legs {} sets", balance.push, balance.pull, balance.legs),
        );
    }
    for ratio in ratios {
        page.hanging("  ", &format!("{}: {}", ratio.name, ratio.words()));
    }
}

/// Minutes and sets per session.
pub(super) fn minutes(page: &mut Page, sessions: &[Session]) {
    page.heading("Sessions");
    for session in sessions {
        let time = session.minutes.as_ref().map_or_else(String::new, |minutes| {
            format!("{} of {} min · ", phrase::trimmed(minutes.planned, 1), minutes.limit)
        });
        let sets = head::working_sets(std::slice::from_ref(session));
        page.hanging(
            &format!("  {:<11}", session.day.name()),
            &format!("{time}{sets} working sets"),
        );
    }
}

/// What was wished and is not there, with what limited it.
pub(super) fn shortfalls(page: &mut Page, plan: &Plan) {
    page.heading("What fell short");
    if plan.shortfalls.is_empty() {
        page.hanging("  ", "Nothing: every wish is met.");
    }
    for shortfall in &plan.shortfalls {
        page.hanging("  - ", &head::missed(shortfall));
        page.quiet_hanging("    ", &head::because(shortfall));
    }
}
