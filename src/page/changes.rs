//! What the last change did to the week: kept, swapped, moved, other sets, and what it costs.

use serde::Serialize;

use super::draft::{By, Draft};
use super::template::say;
use super::tries::name_of;
use crate::input::plan::{Plan, Shortfall};
use crate::planner::Planner;
use crate::rework::table::{Fate, Line, Volume};
use crate::sheets::{head, phrase};
use crate::words::{Muscle, Weekday};

/// What the last change did.
#[derive(Serialize)]
pub(super) struct Changes {
    label: String,
    /// Exercises that stay as they are, where the week was planned again.
    kept: Option<usize>,
    lines: Vec<Changed>,
    /// What comes from the record: what, to what, and why.
    record: Vec<[String; 3]>,
    remarks: Vec<String>,
    /// The week that the record made.
    week: Option<u32>,
    sets: Vec<Sets>,
    minutes: Vec<Minutes>,
    /// Wishes that fall short since, and those that no longer do.
    worse: Vec<String>,
    better: Vec<String>,
    /// Whether a longer search may still find a better week.
    is_quick: bool,
}

/// An exercise that did not stay as it was.
#[derive(Serialize)]
struct Changed {
    day: String,
    name: String,
    /// The key of the word for it.
    what: &'static str,
    /// The other exercise, the other day, or the sets.
    to: String,
    why: String,
}

/// A muscle's weekly sets before and now.
#[derive(Serialize)]
struct Sets {
    muscle: String,
    before: String,
    now: String,
    is_less: bool,
}

/// A day's minutes before and now.
#[derive(Serialize)]
struct Minutes {
    day: &'static str,
    before: String,
    now: String,
}

/// What the last step of a draft did; nothing where none was taken.
pub(super) fn of(draft: &Draft, planner: &Planner) -> Option<Changes> {
    let step = draft.steps.last()?;
    let (old, new) = (draft.before(), &step.plan);
    let (kept, lines, volume) = match &step.by {
        By::Wish(wish) => {
            let table = &wish.1;
            let kept = table.lines.iter().filter(|line| line.fate == Fate::Kept).count();
            let lines = table.lines.iter().filter_map(|line| changed(line, planner, new));
            (Some(kept), lines.collect(), table.volume.clone())
        }
        By::Record(_) => (None, Vec::new(), volume(old, new)),
    };
    let differ = volume.iter().filter(|line| (line.before - line.after).abs() > 1e-9);
    let sets = differ.map(|line| Sets {
        muscle: line.muscle.name(),
        before: phrase::trimmed(line.before, 1),
        now: phrase::trimmed(line.after, 1),
        is_less: line.after < line.before,
    });
    let record = match &step.by {
        By::Record(record) => Some(record),
        By::Wish(..) => step.again.as_ref(),
    };
    Some(Changes {
        label: step.label.clone(),
        kept,
        lines,
        record: record.map(|record| record.lines.clone()).unwrap_or_default(),
        remarks: record.map(|record| record.remarks.clone()).unwrap_or_default(),
        week: record.and_then(|record| record.week),
        sets: sets.collect(),
        minutes: minutes(old, new),
        worse: fallen(&new.shortfalls, &old.shortfalls),
        better: fallen(&old.shortfalls, &new.shortfalls),
        is_quick: step.is_quick,
    })
}

/// Weekly sets of two plans.
fn volume(old: &Plan, new: &Plan) -> Vec<Volume> {
    let sets = |plan: &Plan, muscle: Muscle| {
        plan.volume.iter().find(|row| row.muscle == muscle).map_or(0.0, |row| row.sets)
    };
    let told = Muscle::ALL.iter().map(|muscle| Volume {
        muscle: *muscle,
        before: sets(old, *muscle),
        after: sets(new, *muscle),
    });
    told.collect()
}

fn changed(line: &Line, planner: &Planner, plan: &Plan) -> Option<Changed> {
    let nothing = String::new;
    let (what, to, why) = match &line.fate {
        Fate::Kept => return None,
        Fate::Sets { from, to } => ("other_sets", format!("{from} → {to}"), nothing()),
        Fate::Swapped { by, why } => ("swapped", name_of(planner, plan, by), why.clone()),
        Fate::Moved { to } => ("moved", day_name(to), nothing()),
        Fate::Dropped { why } => ("out", nothing(), why.clone()),
        Fate::Added => ("new", nothing(), nothing()),
    };
    let name = name_of(planner, plan, &line.exercise);
    Some(Changed { day: day_name(&line.day), name, what, to, why })
}

/// `Monday` of `mon@18:30`.
fn day_name(label: &str) -> String {
    let id = label.split('@').next().unwrap_or(label);
    let day = Weekday::ALL.iter().find(|day| day.id() == id);
    day.map_or_else(|| label.to_owned(), |day| day.name().to_owned())
}

fn minutes(old: &Plan, new: &Plan) -> Vec<Minutes> {
    let pairs = new.sessions.iter().filter_map(|session| {
        let is_it =
            |one: &&crate::input::plan::Session| one.day == session.day && one.at == session.at;
        let before = old.sessions.iter().find(is_it)?.minutes.as_ref()?;
        Some((session.day, before, session.minutes.as_ref()?))
    });
    let differ = pairs.filter(|(_, before, now)| before != now);
    let told = |minutes: &crate::input::plan::MinutesUsed| {
        say!(count_of, count = phrase::trimmed(minutes.planned, 0), all = minutes.limit)
    };
    differ
        .map(|(day, before, now)| Minutes { day: day.name(), before: told(before), now: told(now) })
        .collect()
}

/// Wishes that fall short in one plan and not, or not by so much, in the other.
fn fallen(short: &[Shortfall], other: &[Shortfall]) -> Vec<String> {
    let is_same = |one: &Shortfall, two: &Shortfall| {
        one.rule == two.rule && one.wanted == two.wanted && one.got == two.got
    };
    let new = short.iter().filter(|one| !other.iter().any(|two| is_same(one, two)));
    new.map(head::missed).collect()
}
