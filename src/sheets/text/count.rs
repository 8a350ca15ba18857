//! What the coach counts: sets per muscle, balance, minutes and what fell short.

use super::page::Page;
use crate::plan::file::{MuscleVolume, Plan, Session};
use crate::sheets::wording::say;
use crate::sheets::{Names, head, phrase, whys};

/// Columns of the name, of the number before a bar, and of the words after it.
const NAME: usize = 18;
const NUMBER: usize = 6;
const WORDS: usize = 20;

/// The columns of a bar and how many of them make a set.
#[derive(Clone, Copy)]
struct Scale {
    columns: usize,
    per_set: usize,
}

impl Scale {
    /// Half a set a column where that fits the width, else a whole set.
    fn new(plan: &Plan, width: usize) -> Self {
        let ends = plan.volume.iter().map(|row| row.sets.max(row.high.unwrap_or(0.0)));
        let top = whole(ends.fold(1.0, f64::max).ceil()).next_multiple_of(5);
        let room = width.saturating_sub(NAME + NUMBER + WORDS + 3);
        let per_set = if top * 2 <= room { 2 } else { 1 };
        Scale { columns: (top * per_set).min(room / 5 * 5), per_set }
    }

    /// Columns of so many sets, a broken one among them.
    #[allow(clippy::cast_precision_loss, reason = "one or two columns")]
    fn at(self, sets: f64) -> f64 {
        sets * self.per_set as f64
    }
}

/// Sets per muscle as plain bars against their ranges.
pub(super) fn volume(page: &mut Page, plan: &Plan) {
    if plan.volume.is_empty() {
        return;
    }
    page.heading(say!(bars_head));
    let scale = Scale::new(plan, page.width());
    for row in &plan.volume {
        let name = format!("{:<NAME$}", row.muscle.name());
        let number = format!("{:>4}  ", phrase::trimmed(row.sets, 1));
        let bar = bar(row, scale);
        let cells = [("", 0), (&name, 0), ("", 0), (&number, NUMBER), (&bar, scale.columns + 2)];
        page.row(&[cells.as_slice(), &[(&verdict(row), 0)]].concat());
    }
    let indent = " ".repeat(NAME + NUMBER);
    page.line_as_is(&format!("{indent}{}", ticks(scale)));
    page.quiet(say!(bars_help));
}

/// `████[███▌░░░]`: the sets, the room left in the range, and the range's ends.
fn bar(row: &MuscleVolume, scale: Scale) -> String {
    let sets = scale.at(row.sets);
    let filled = whole(sets);
    let half = sets - sets.floor() >= 0.5;
    let [low, high] = [row.low, row.high].map(|end| end.map(|end| whole(scale.at(end).round())));
    let sign = |column: usize| match column {
        column if low == Some(column) => '[',
        column if high == Some(column) => ']',
        column if column < filled => '█',
        column if column == filled && half => '▌',
        column if low.is_some_and(|low| column > low) && high.is_some_and(|high| column < high) => {
            '░'
        }
        _ => ' ',
    };
    (0..=scale.columns).map(sign).collect()
}

/// `8 to 14`, and by how much it is missed.
fn verdict(row: &MuscleVolume) -> String {
    let parts = [head::range(row.low, row.high), head::miss(row)];
    parts.into_iter().filter(|part| !part.is_empty()).collect::<Vec<_>>().join(", ")
}

/// Numbers under the bars, every five sets.
fn ticks(scale: Scale) -> String {
    let mut line = String::new();
    for tick in (0..=scale.columns).step_by(5 * scale.per_set) {
        line.push_str(&" ".repeat(tick.saturating_sub(line.len())));
        line.push_str(&(tick / scale.per_set).to_string());
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
    page.heading(say!(balance));
    if let Some(balance) = &plan.balance {
        page.hanging(
            "  ",
            &say!(all_sets_dotted, push = balance.push, pull = balance.pull, legs = balance.legs),
        );
    }
    for ratio in ratios {
        page.hanging("  ", &format!("{}: {}", ratio.name, ratio.words()));
    }
}

/// Minutes and sets per session.
pub(super) fn minutes(page: &mut Page, sessions: &[Session], conditioning: Option<&str>) {
    page.heading(say!(sessions));
    for session in sessions {
        let time = session.minutes.as_ref().map_or_else(String::new, |minutes| {
            let planned = phrase::trimmed(minutes.planned, 1);
            say!(minutes_of, planned, limit = minutes.limit) + " · "
        });
        let sets = head::working_sets(std::slice::from_ref(session));
        page.hanging(
            &format!("  {:<11}", session.day.name()),
            &format!("{time}{sets} {}", say!(count_working)),
        );
    }
    if let Some(conditioning) = conditioning {
        page.hanging("  ", &phrase::sentence(conditioning));
    }
}

/// What the coach would say of the week.
pub(super) fn whys(page: &mut Page, plan: &Plan, names: &Names<'_>) {
    let whys = whys::whys(plan, names);
    if whys.is_empty() {
        return;
    }
    page.heading(say!(why_so));
    for why in whys {
        page.hanging("  - ", &why);
    }
}

/// What was wished and is not there, with what limited it.
pub(super) fn shortfalls(page: &mut Page, plan: &Plan) {
    page.heading(say!(fell_short));
    if plan.shortfalls.is_empty() {
        page.hanging("  ", say!(nothing_short));
    }
    for shortfall in &plan.shortfalls {
        page.hanging("  - ", &head::missed(shortfall));
        page.quiet_hanging("    ", &head::because(shortfall));
    }
}
