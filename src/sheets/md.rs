//! The plan as Markdown, for notes and messages.

use std::fmt::Write as _;
use std::io;

use super::block::{self, Block, BlockCard, Cell, Row};
use super::wording::say;
use super::{Lookup, Names, Options, Sheet, SheetError, head, phrase, whys};
use crate::plan::file::Plan;

/// The plan as Markdown with tables (the widespread pipe form).
pub struct Markdown;

impl Sheet for Markdown {
    fn format(&self) -> &'static str {
        "md"
    }

    fn write(
        &self,
        plan: &Plan,
        names: &dyn Lookup,
        options: &Options,
        out: &mut dyn io::Write,
    ) -> Result<(), SheetError> {
        let names = Names::new(plan, names);
        let mut text = header(plan);
        if options.audience.coach() {
            alerts(plan, &mut text);
        }
        if options.audience.client() {
            weeks(plan, &mut text);
            for block in block::blocks(plan, &names) {
                write_block(&block, &mut text);
            }
        }
        if options.audience.coach() {
            coach(plan, &names, &mut text);
        }
        heading(&mut text, 2, say!(with_care));
        for caution in head::cautions(plan, options.audience)
            .iter()
            .map(String::as_str)
            .chain([head::convention()])
        {
            bullet(&mut text, &escape(caution));
        }
        out.write_all(text.as_bytes())?;
        Ok(())
    }
}

/// What was reported before training, before anything else is read.
fn alerts(plan: &Plan, text: &mut String) {
    let alerts = head::alerts(plan);
    if !alerts.is_empty() {
        heading(text, 2, say!(section_before));
    }
    for alert in &alerts {
        bullet(text, &escape(alert));
    }
}

/// Text with every character that Markdown or HTML would act on made plain.
pub(crate) fn escape(text: &str) -> String {
    let mut escaped = String::with_capacity(text.len());
    let number = text.chars().take_while(char::is_ascii_digit).count();
    for (place, c) in text.char_indices() {
        let opens_list = place == number && number > 0 && matches!(c, '.' | ')')
            || place == 0 && matches!(c, '-' | '+' | '=');
        if opens_list
            || matches!(
                c,
                '\\' | '`'
                    | '*'
                    | '_'
                    | '{'
                    | '}'
                    | '['
                    | ']'
                    | '<'
                    | '>'
                    | '#'
                    | '|'
                    | '~'
                    | '&'
                    | '!'
                    | '@'
            )
        {
            escaped.push('\\');
        }
        escaped.push(c);
    }
    escaped.replace("://", ":\\//")
}

fn heading(text: &mut String, level: usize, name: &str) {
    let _ = write!(text, "\n{} {name}\n\n", "#".repeat(level));
}

fn bullet(text: &mut String, line: &str) {
    let _ = writeln!(text, "- {line}");
}

fn row(text: &mut String, cells: &[String]) {
    let _ = writeln!(text, "| {} |", cells.join(" | "));
}

/// The head row of a table and the line under it.
fn table(text: &mut String, names: &[String]) {
    row(text, names);
    row(text, &vec!["---".to_owned(); names.len()]);
}

fn header(plan: &Plan) -> String {
    let mut text = format!("# {}\n\n", escape(&head::client(plan)));
    if let Some(about) = head::about(plan) {
        let _ = write!(text, "{}\n\n", escape(&about));
    }
    let _ = writeln!(text, "{}", escape(&head::span(plan)));
    text
}

fn weeks(plan: &Plan, text: &mut String) {
    if plan.weeks.len() < 2 {
        return;
    }
    heading(text, 2, say!(weeks_head));
    table(
        text,
        &[say!(week), say!(from_day), say!(kind), say!(sets), say!(what_changes)]
            .map(str::to_owned),
    );
    for week in block::week_lines(plan) {
        let number = week.column.week.to_string();
        let kind = week.column.kind.to_owned();
        row(text, &[number, week.column.date, kind, week.sets.to_string(), escape(&week.note)]);
    }
}

fn write_block(block: &Block, text: &mut String) {
    for card in &block.cards {
        let clock = match (&card.head.start, &card.head.end) {
            (Some(start), Some(end)) => format!(", {start} {} {end}", say!(to_about)),
            (Some(start), None) => format!(", {start}"),
            _ => String::new(),
        };
        heading(text, 2, &format!("{}{clock} ({})", card.head.day, block.title.to_lowercase()));
        facts(card, text);
        text.push('\n');
        let mut columns = vec![String::new(), say!(exercise).to_owned()];
        columns.extend(card.columns.iter().map(|column| say!(week_only, week = column.week)));
        table(text, &columns);
        let rows = || card.groups.iter().flat_map(|group| &group.rows);
        for row in rows() {
            doses(row, text);
        }
        text.push('\n');
        for row in rows() {
            details(row, text);
        }
    }
}

fn facts(card: &BlockCard, text: &mut String) {
    let prep = card.head.preparation();
    let kit = card.head.kit.join(", ");
    let facts = [
        (say!(time), &card.minutes),
        (say!(focus), &card.head.focus),
        (say!(kit), &kit),
        (say!(prep_short), &prep),
        (say!(lifts), &card.every),
        (say!(loads), &card.loads),
        (say!(next), &card.next),
        (say!(note), &card.note),
    ];
    for (name, fact) in facts.into_iter().filter(|(_, fact)| !fact.is_empty()) {
        bullet(text, &format!("**{name}:** {}", escape(fact)));
    }
}

fn doses(exercise: &Row, text: &mut String) {
    let line = &exercise.line;
    let mut cells = vec![line.label.clone(), escape(&line.name)];

    let told = exercise.cells.iter().map(Option::as_ref);
    cells.extend(told.map(|told| {
        told.map_or_else(|| say!(not_this_week).to_owned(), |told| cell(told, line.each_side))
    }));
    row(text, &cells);
}

fn cell(cell: &Cell, each_side: bool) -> String {
    let dose = &cell.dose;
    let dose = if each_side { say!(dose_each_side, dose) } else { dose.clone() };
    let ramp = ramp(&cell.ramp);
    let next = led(block::NEXT, &cell.next);
    escape(&said(&[&dose, &cell.load, &cell.effort, &ramp, &cell.note, &next], ", "))
}

fn details(row: &Row, text: &mut String) {
    let line = &row.line;
    let name = &line.instead;
    let instead = if name.is_empty() { String::new() } else { say!(or_instead, name) };
    let ramp = ramp(&line.ramp);
    let parts = [
        &ramp,
        &line.effort,
        &line.rest,
        &line.tempo,
        &line.plates,
        line.load_note.trim_end_matches('.'),
        line.next.trim_end_matches('.'),
        &instead,
    ];
    let said = said(&parts, "; ");
    if !said.is_empty() {
        bullet(text, &format!("**{}** {}", line.label, escape(&said)));
    }
}

fn ramp(ramp: &str) -> String {
    if ramp.is_empty() { String::new() } else { say!(ramp_is, ramp) }
}

/// The text after a word that says what it is; nothing where there is no text.
fn led(word: &str, text: &str) -> String {
    if text.is_empty() { String::new() } else { format!("{word} {text}") }
}

/// The texts that say something.
fn said(parts: &[&str], between: &str) -> String {
    let parts: Vec<&str> = parts.iter().copied().filter(|part| !part.is_empty()).collect();
    parts.join(between)
}

fn coach(plan: &Plan, names: &Names<'_>, text: &mut String) {
    if !plan.volume.is_empty() {
        heading(text, 2, say!(sets_by_muscle));
        table(text, &[say!(muscle), say!(sets), say!(range), say!(missed_by)].map(str::to_owned));
        for volume in &plan.volume {
            let sets = phrase::trimmed(volume.sets, 1);
            let range = head::range(volume.low, volume.high);
            row(text, &[volume.muscle.name(), sets, range, head::miss(volume)]);
        }
    }
    heading(text, 2, say!(balance));
    if let Some(balance) = &plan.balance {
        bullet(
            text,
            &say!(all_sets_listed, push = balance.push, pull = balance.pull, legs = balance.legs),
        );
    }
    for ratio in head::ratios(plan, names) {
        bullet(text, &format!("{}: {}", phrase::sentence(ratio.name), ratio.words()));
    }
    if let Some(conditioning) = head::conditioning(plan, names) {
        bullet(text, &phrase::sentence(&conditioning));
    }
    let whys = whys::whys(plan, names);
    if !whys.is_empty() {
        heading(text, 2, say!(why_so));
    }
    for why in whys {
        bullet(text, &escape(&why));
    }
    heading(text, 2, say!(fell_short));
    if plan.shortfalls.is_empty() {
        bullet(text, say!(nothing_short));
    }
    for shortfall in &plan.shortfalls {
        bullet(text, &escape(&format!("{} {}", head::missed(shortfall), head::because(shortfall))));
    }
}
