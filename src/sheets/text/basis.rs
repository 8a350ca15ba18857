//! What a plan rests on, for a terminal.

use super::page::Page;
use crate::sheets::basis::{Basis, DoseRow, TargetRow};
use crate::sheets::{Options, head, phrase};

/// Words for an id that is no published source.
const OWN: &str = "the client's own range";

/// The text of `plan --sources`.
#[must_use]
pub fn basis_text(basis: &Basis, options: &Options) -> String {
    let mut page = Page::new(options);
    page.title(&format!("What the plan of {} rests on", basis.client));
    page.line(&basis.about);
    page.quiet(
        "Every id is cited at the end. `common` stands for common practice, yours to change.",
    );
    page.heading("Sets, repetitions, reserve and rest in a session");
    for row in &basis.doses {
        hanging_row(&mut page, row.duty, &dose(row), &row.sources.join(", "));
    }
    page.heading("Sets of a muscle in a week");
    for row in &basis.targets {
        let sources = if row.sources.is_empty() { OWN.to_owned() } else { row.sources.join(", ") };
        page.hanging("  ", &phrase::sentence(&head::muscles(&row.muscles)));
        page.quiet_hanging("      ", &format!("{}: {sources}", target(row)));
    }
    page.heading("Part by part");
    for (about, ids) in basis.parts() {
        page.hanging("  ", &format!("{about}: {}", ids.join(", ")));
    }
    page.heading("Where sources disagree");
    for matter in &basis.conflicts {
        page.hanging("  - ", &format!("{}: {}.", phrase::sentence(&matter.topic), matter.says));
        let ids = matter.sources.join(", ");
        page.hanging("    ", &format!("The plan goes by {} ({ids}).", matter.choice));
    }
    page.heading("Sources");
    for (id, citation) in &basis.citations {
        page.hanging(&format!("  {id:<8}"), citation);
    }
    page.text().to_owned()
}

fn hanging_row(page: &mut Page, name: &str, text: &str, sources: &str) {
    page.hanging(&format!("  {name:<22}"), text);
    page.quiet_hanging(&" ".repeat(24), sources);
}

/// `2 to 4 sets of 8 to 12 (up to 10 in the first four weeks), RIR 3, rest 2 min, tempo 3-0-1-0`.
fn dose(row: &DoseRow) -> String {
    let [few, most] = row.sets;
    let [low, high] = row.amount;
    let unit = if row.unit == crate::words::Measure::Reps { "" } else { row.unit.id() };
    let tempo = row.tempo.as_ref().map_or_else(String::new, |tempo| format!(", tempo {tempo}"));
    let sets = if few == most { format!("{few}") } else { format!("{few} to {most}") };
    let amount = format!("{sets} x {low} to {high} {unit}");
    format!(
        "{} (up to {} in the first four weeks), RIR {}, rest {} s{tempo}",
        amount.trim_end(),
        row.first_weeks,
        row.rir,
        row.rest_s
    )
}

fn target(row: &TargetRow) -> String {
    let floor = row
        .floor
        .map_or_else(String::new, |floor| format!(", at least {}", phrase::trimmed(floor, 1)));
    format!("{}{floor}", head::range(row.low, Some(row.high)))
}
