//! What a rework changed, for people: day by day, why some went, and the weekly sets.

use std::collections::BTreeMap;
use std::fmt::Write as _;

use super::render::wrapped;
use super::table;
use crate::diagnostic::counted;
use crate::rework::table::{Fate, Line, Table};

/// The whole table, at most so many columns wide where words allow it.
pub(super) fn told(table: &Table, width: usize) -> String {
    let mut text = summary(table) + "\n";
    let mut days: Vec<(&str, Vec<&Line>)> = Vec::new();
    for line in &table.lines {
        match days.iter_mut().find(|(day, _)| *day == line.day) {
            Some((_, of_day)) => of_day.push(line),
            None => days.push((&line.day, vec![line])),
        }
    }
    for (day, lines) in days {
        writeln!(text, "\n{day}").expect("a string takes every write");
        text.push_str(&of_day(&lines, width));
    }
    text.push('\n');
    for (why, ids) in reasons(table) {
        text.push_str(&wrapped(&format!("{why}: {}", ids.join(", ")), width));
        text.push('\n');
    }
    text + &volume(table)
}

/// How many of each kind.
fn summary(table: &Table) -> String {
    let count =
        |test: fn(&Fate) -> bool| table.lines.iter().filter(|line| test(&line.fate)).count();
    let kept = count(|fate| *fate == Fate::Kept);
    let parts = [
        (count(|fate| matches!(fate, Fate::Sets { .. })), "with other sets"),
        (count(|fate| matches!(fate, Fate::Swapped { .. })), "swapped"),
        (count(|fate| matches!(fate, Fate::Moved { .. })), "moved"),
        (count(|fate| matches!(fate, Fate::Dropped { .. })), "out"),
        (count(|fate| *fate == Fate::Added), "new"),
    ];
    let told = parts.iter().filter(|(count, _)| *count > 0);
    let told: Vec<String> = told.map(|(count, what)| format!("{count} {what}")).collect();
    let kept = format!("{} kept", counted(kept, "exercise", "exercises"));
    [vec![kept], told].concat().join(", ")
}

/// What became of the exercises of a day: those that changed line by line, then those that stay.
fn of_day(lines: &[&Line], width: usize) -> String {
    let changed = || lines.iter().filter(|line| line.fate != Fate::Kept);
    let longest = changed().map(|line| line.exercise.len()).max().unwrap_or(0);
    let mut text = String::new();
    for line in changed() {
        let fate = fate(&line.fate);
        let id = &line.exercise;
        if 2 + longest + 2 + fate.chars().count() <= width {
            writeln!(text, "  {id:longest$}  {fate}").expect("a string takes every write");
        } else {
            writeln!(text, "  {id}\n    {fate}").expect("a string takes every write");
        }
    }
    let kept = lines.iter().filter(|line| line.fate == Fate::Kept);
    let kept: Vec<&str> = kept.map(|line| line.exercise.as_str()).collect();
    if !kept.is_empty() {
        let kept = wrapped(&format!("kept: {}", kept.join(", ")), width.saturating_sub(4));
        writeln!(text, "  {}", kept.replace('\n', "\n    ")).expect("a string takes every write");
    }
    text
}

fn fate(fate: &Fate) -> String {
    match fate {
        Fate::Kept => "kept".to_owned(),
        Fate::Sets { from, to } => format!("{to} sets, not {from}"),
        Fate::Swapped { by, .. } => format!("now {by}"),
        Fate::Moved { to } => format!("moved to {to}"),
        Fate::Dropped { .. } => "out".to_owned(),
        Fate::Added => "new".to_owned(),
    }
}

/// The exercises that went, by reason.
fn reasons(table: &Table) -> BTreeMap<&str, Vec<&str>> {
    let mut reasons: BTreeMap<&str, Vec<&str>> = BTreeMap::new();
    for line in &table.lines {
        if let Fate::Swapped { why, .. } | Fate::Dropped { why } = &line.fate {
            let ids = reasons.entry(why).or_default();
            if !ids.contains(&line.exercise.as_str()) {
                ids.push(&line.exercise);
            }
        }
    }
    reasons
}

/// The weekly sets of every muscle that has more or fewer than before.
fn volume(table: &Table) -> String {
    let changed: Vec<Vec<String>> = table
        .volume
        .iter()
        .filter(|line| (line.before - line.after).abs() > 1e-9)
        .map(|line| {
            let name = line.muscle.to_string();
            vec![name, line.before.to_string(), line.after.to_string()]
        })
        .collect();
    if changed.is_empty() {
        return "weekly sets as before".to_owned();
    }
    // Two blocks side by side keep the table short.
    let half = changed.len().div_ceil(2);
    let rows: Vec<Vec<String>> = (0..half)
        .map(|row| {
            let right = changed.get(half + row).cloned().unwrap_or_default();
            [changed[row].clone(), vec![String::new()], right].concat()
        })
        .collect();
    let heading = ["weekly sets", "before", "now"];
    let headings: Vec<&str> =
        if changed.len() > 1 { [&heading[..], &[""], &heading].concat() } else { heading.to_vec() };
    table::table(&headings, &rows, usize::MAX).trim_end().to_owned()
}
