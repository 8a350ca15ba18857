//! What a form says as the lines that `weekwright log` reads.

use std::fmt::Write as _;

use super::At;
use super::which::Which;
use crate::book::slot;
use crate::book::written::{has_load, number};
use crate::diagnostic::Diagnostic;
use crate::input::catalog::Entry;
use crate::page::fields::Fields;
use crate::page::template::say;
use crate::words::{LoadKind, Measure, Units};

/// The lines of a form.
pub(super) struct Lines {
    /// Each with the exercise's place in the session; the others come from what was done beside it.
    lines: Vec<(Option<usize>, String)>,
    /// What the form alone can tell.
    pub(super) faults: Vec<Diagnostic>,
}

impl Lines {
    pub(super) fn of(at: &At<'_>, which: &Which<'_>, fields: &Fields) -> Lines {
        let mut lines = Lines { lines: Vec::new(), faults: Vec::new() };
        let planner = at.desk.planner.with_plan(at.plan);
        for (place, item) in slot::work(which.session).into_iter().enumerate() {
            let Some(entry) = planner.catalog().get(&item.exercise) else { continue };
            let typed = Typed { place, entry, fields, units: at.units() };
            match typed.line() {
                Ok(Some(line)) => lines.lines.push((Some(place), line)),
                Ok(None) => {}
                Err(fault) => lines.faults.push(fault),
            }
        }
        let more = fields.get("more").unwrap_or_default();
        let more = more.split(['\n', '\r', ';']).filter(|line| !line.trim().is_empty());
        lines.lines.extend(more.map(|line| (None, line.trim().to_owned())));
        lines
    }

    /// The text that is read.
    pub(super) fn text(&self) -> String {
        let lines: Vec<&str> = self.lines.iter().map(|(_, line)| line.as_str()).collect();
        lines.join("\n")
    }

    /// The exercise that a line of the text is about, counted from 1.
    pub(super) fn exercise_of(&self, line: usize) -> Option<usize> {
        self.lines.get(line.checked_sub(1)?)?.0
    }
}

/// What was typed about an exercise.
struct Typed<'a> {
    place: usize,
    entry: &'a Entry,
    fields: &'a Fields,
    units: Units,
}

impl Typed<'_> {
    fn get(&self, what: &str) -> Option<String> {
        let name = format!("{what}.{}", self.place);
        self.fields.get(&name).map(one_line)
    }

    fn of_set(&self, what: &str, set: usize) -> Option<String> {
        let name = format!("{what}.{}.{set}", self.place);
        self.fields.get(&name).map(one_line)
    }

    /// The line; none where nothing was done.
    ///
    /// # Errors
    /// A set that was done and has no number.
    fn line(&self) -> Result<Option<String>, Diagnostic> {
        let note = self.get("about").map(|note| format!(" ({note})")).unwrap_or_default();
        if self.get("skip").is_some() {
            return Ok(Some(format!("{} -{note}", self.entry.id)));
        }
        let mut line = self.entry.id.clone();
        let mut load = String::new();
        let mut is_done = false;
        for set in 1..=rows_in(self.fields, self.place) {
            if self.of_set("done", set).is_none() {
                continue;
            }
            let now = self.of_set("load", set).map(|typed| self.load(&typed)).unwrap_or_default();
            if !now.is_empty() && now != load {
                let _ = write!(line, " {now}");
                load = now;
            }
            let amount = self.of_set("amount", set).ok_or_else(|| self.no_number(set))?;
            let _ = write!(line, " {}", self.amount(&amount));
            if let Some(left) = self.of_set("left", set) {
                let is_number = left.starts_with(|first: char| first.is_ascii_digit());
                let _ = write!(line, " {}{left}", if is_number { "r" } else { "" });
            }
            is_done = true;
        }
        Ok(is_done.then(|| line + &note))
    }

    /// A plain number in the field of the load can be nothing else, which the line has to say.
    fn load(&self, typed: &str) -> String {
        let is_plain = number(typed).is_some();
        match self.entry.load {
            kind if is_plain && (has_load(kind) || kind == LoadKind::Band) => {
                format!("{typed}{}", self.units.id())
            }
            LoadKind::BodyweightPlus | LoadKind::Bodyweight if is_plain => format!("+{typed}"),
            LoadKind::Assisted if is_plain => format!("-{typed}"),
            _ => typed.to_owned(),
        }
    }

    fn amount(&self, typed: &str) -> String {
        let unit = match self.entry.measure {
            Measure::Seconds => "s",
            Measure::Meters => "m",
            Measure::Calories => "cal",
            Measure::Reps => "",
        };
        let is_plain = typed.bytes().all(|byte| byte.is_ascii_digit());
        if is_plain { format!("{typed}{unit}") } else { typed.to_owned() }
    }

    fn no_number(&self, set: usize) -> Diagnostic {
        Diagnostic::error("E6010", say!(write_no_number, set, name = self.entry.name))
            .help(say!(write_no_number_help))
    }
}

/// How many sets a form has of an exercise.
pub(super) fn rows_in(fields: &Fields, place: usize) -> usize {
    let prefix = format!("amount.{place}.");
    fields.under(&prefix).count()
}

/// Brackets and semicolons have a meaning of their own in a line.
fn one_line(typed: &str) -> String {
    let plain = |letter: char| match letter {
        ';' => ',',
        '(' | ')' | '\n' | '\r' => ' ',
        letter => letter,
    };
    typed.chars().map(plain).collect::<String>().trim().to_owned()
}
