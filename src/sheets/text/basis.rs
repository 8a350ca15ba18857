//! What a plan rests on, for a terminal.

use super::page::Page;
use crate::sheets::basis::{Basis, DoseRow, TargetRow};
use crate::sheets::wording::say;
use crate::sheets::{Options, head, phrase};

/// The text of `plan --sources`.
#[must_use]
pub fn basis_text(basis: &Basis, options: &Options) -> String {
    let mut page = Page::new(options);
    page.title(&say!(basis_of, client = basis.client));
    page.line(&basis.about);
    page.quiet(say!(basis_help));
    page.heading(say!(basis_doses));
    for row in &basis.doses {
        hanging_row(&mut page, row.duty, &dose(row), &row.sources.join(", "));
    }
    page.heading(say!(basis_sets));
    for row in &basis.targets {
        let sources = if row.sources.is_empty() {
            say!(basis_own).to_owned()
        } else {
            row.sources.join(", ")
        };
        page.hanging("  ", &phrase::sentence(&head::muscles(&row.muscles)));
        page.quiet_hanging("      ", &format!("{}: {sources}", target(row)));
    }
    page.heading(say!(basis_parts));
    for (about, ids) in basis.parts() {
        page.hanging("  ", &format!("{about}: {}", ids.join(", ")));
    }
    page.heading(say!(basis_conflicts));
    for matter in &basis.conflicts {
        page.hanging("  - ", &format!("{}: {}.", phrase::sentence(&matter.topic), matter.says));
        let ids = matter.sources.join(", ");
        page.hanging("    ", &say!(basis_choice, choice = matter.choice, ids));
    }
    page.heading(say!(basis_sources));
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
    let tempo =
        row.tempo.as_ref().map_or_else(String::new, |tempo| format!(", {}", say!(tempo_is, tempo)));
    let sets =
        if few == most { format!("{few}") } else { say!(range_from_to, low = few, high = most) };
    let amount = say!(basis_amount, sets, low, high, unit);
    say!(
        basis_dose,
        amount = amount.trim_end(),
        first_weeks = row.first_weeks,
        rir = row.rir,
        rest = row.rest_s,
        tempo
    )
}

fn target(row: &TargetRow) -> String {
    let floor = row
        .floor
        .map_or_else(String::new, |floor| say!(basis_floor, floor = phrase::trimmed(floor, 1)));
    format!("{}{floor}", head::range(row.low, Some(row.high)))
}
