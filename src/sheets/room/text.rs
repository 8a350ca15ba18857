//! A week of the room for the terminal.

use super::board::{Day, days};
use crate::diagnostic::counted;
use crate::room::arrangement::Reach;
use crate::room::hours::Collision;
use crate::room::rota::{Clash, Outcome, Rota, clock};
use crate::sheets::phrase;
use crate::sheets::wording::say;

/// Columns for the names of stations.
const NAMES: usize = 22;

/// Collisions that are told of a clash; the drawn week shows them all.
pub(super) const TOLD: usize = 6;

/// Who comes when, what collided and what came of it, and each station by the minute.
#[must_use]
pub fn rota_text(rota: &Rota, width: usize) -> String {
    let clients: std::collections::BTreeSet<&str> =
        rota.visits.iter().map(|visit| visit.client.as_str()).collect();
    let mut text = say!(
        rota_head,
        place = rota.room.place,
        day = phrase::long_date(rota.monday),
        clients = counted(clients.len(), say!(one_client), say!(many_clients)),
        sessions = counted(rota.visits.len(), say!(one_session), say!(fact_sessions)),
    );
    text.push('\n');
    for day in days(rota) {
        text.push_str(&of_day(rota, &day, width));
    }
    text
}

fn of_day(rota: &Rota, day: &Day, width: usize) -> String {
    let mut text = format!("\n{}\n", heading(day));
    let letter = |visit: usize| day.letter(visit);
    let longest = day.comes.iter().map(|one| one.client.chars().count()).max().unwrap_or(0);
    for one in &day.comes {
        let [from, to] = one.span.map(clock);
        let changes = one.changes.join("; ");
        let line =
            format!("  {} {from}-{to}  {:longest$}  {changes}", letter(one.visit), one.client);
        text.push_str(line.trim_end());
        text.push('\n');
    }
    for clash in rota.clashes.iter().filter(|clash| day.has(clash)) {
        text.push_str(&told(rota, clash));
    }
    if day.comes.len() > 1 {
        text.push_str(&board(day, width, &letter));
    }
    text
}

/// `Monday 4 January`, with the hour where the room is empty between two parts of the day.
pub(super) fn heading(day: &Day) -> String {
    let told = match day.date {
        Some(date) => phrase::long_date(date),
        None => day.day.name().to_owned(),
    };
    let first = day.comes.first().filter(|_| day.is_part);
    first.map_or(told.clone(), |one| say!(rota_part, day = told, from = clock(one.span[0])))
}

/// What collided, and what came of it.
fn told(rota: &Rota, clash: &Clash) -> String {
    let mut text = String::new();
    for collision in clash.collisions.iter().take(TOLD) {
        text.push_str(&format!(
            "  {}\n",
            say!(rota_planned, collision = collides(rota, collision))
        ));
    }
    if clash.collisions.len() > TOLD {
        text.push_str(&format!("  {}\n", say!(rota_more, count = clash.collisions.len() - TOLD)));
    }
    text.push_str(&format!("  {}\n", outcome(rota, &clash.outcome)));
    text
}

/// `squat rack 18:41-18:52: oar-02, scull-07 (1 there, 2 wanted)`.
pub(super) fn collides(rota: &Rota, one: &Collision) -> String {
    let names: Vec<&str> = one.visits.iter().map(|at| rota.visits[*at].client.as_str()).collect();
    let [from, to] = [one.from, one.to].map(clock);
    say!(
        rota_collides,
        thing = one.thing,
        from,
        to,
        names = names.join(", "),
        pieces = one.pieces,
        wanted = one.wanted
    )
}

/// What came of a clash, in a sentence.
pub(super) fn outcome(rota: &Rota, outcome: &Outcome) -> String {
    match outcome {
        Outcome::Settled { reach: Reach::Kept, .. } => say!(rota_settled_kept).to_owned(),
        Outcome::Settled { changes, proven, at_least, .. } => {
            let count = counted(*changes as usize, say!(one_change), say!(many_changes));
            if *proven {
                say!(rota_settled_fewest, count)
            } else {
                say!(rota_settled, count, at_least)
            }
        }
        Outcome::Nothing { smallest, is_smallest, ways_out } => {
            let names: Vec<&str> =
                smallest.iter().map(|at| rota.visits[*at].client.as_str()).collect();
            let ways: Vec<String> = ways_out.iter().map(ToString::to_string).collect();
            let ways = if ways.is_empty() {
                say!(rota_no_ways).to_owned()
            } else {
                say!(rota_ways, ways = ways.join(say!(rota_or)))
            };
            if *is_smallest {
                say!(rota_nothing_fewest, names = names.join(", "), ways)
            } else {
                say!(rota_nothing, names = names.join(", "), ways)
            }
        }
        Outcome::Open => say!(rota_open).to_owned(),
    }
}

/// Each station by the minute: a letter for each client.
fn board(day: &Day, width: usize, letter: &dyn Fn(usize) -> char) -> String {
    let [from, to] = day.span;
    let room = u32::try_from(width.saturating_sub(NAMES + 4)).unwrap_or(50).max(20);
    let step = [1, 2, 3, 5, 10, 15].into_iter().find(|step| (to - from) / step <= room);
    let step = step.unwrap_or(30);
    let columns = ((to - from) / step) as usize;
    let mut ruler = vec![' '; columns + 6];
    // Room for a time and a blank between two of them.
    let apart = [15, 30, 60, 120].into_iter().find(|apart| apart / step >= 6).unwrap_or(240);
    for minute in (from..to).filter(|minute| minute % apart == 0) {
        let at = ((minute - from) / step) as usize;
        for (place, sign) in clock(minute).chars().enumerate() {
            ruler[at + place] = sign;
        }
    }
    let ruler: String = ruler.into_iter().collect();
    let mut text = format!("  {:NAMES$}{}\n", say!(rota_sign, minutes = step), ruler.trim_end());
    for row in &day.rows {
        let mut line = vec!['.'; columns];
        for bar in &row.bars {
            for minute in bar.span[0]..bar.span[1] {
                if let Some(sign) = line.get_mut(((minute - from) / step) as usize) {
                    *sign = letter(bar.visit);
                }
            }
        }
        let line: String = line.into_iter().collect();
        let over = if row.is_over { format!(" {}", say!(rota_over)) } else { String::new() };
        let name: String = row.name.chars().take(NAMES - 1).collect();
        text.push_str(&format!("  {name:NAMES$}{line}{over}\n"));
    }
    text
}
