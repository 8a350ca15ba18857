//! What was done: progress with drawn courses, and the look back with what could be changed.

use axum::response::Response;
use serde::Serialize;

use super::collision::Told;
use super::desk::Desk;
use super::records::LookBack;
use super::shows::{paper, printed};
use super::{answer, fields::Fields};
use crate::book::DoneSession;
use crate::book::review::{Review, Wish};
use crate::book::written::sets_text;
use crate::input::plan::MuscleVolume;
use crate::sheets::html::chart::Chart;
use crate::sheets::progress::{self, Progress, View, coming};
use crate::sheets::{Audience, Paper, phrase};
use crate::words::Weekday;

/// The most sessions that are told in full.
const LATEST: usize = 8;

/// The page of what was done.
#[derive(Serialize)]
struct Past<'a> {
    key: &'a str,
    client: String,
    past: Option<View<'a>>,
    /// Weekly sets that were done, against their ranges.
    chart: Option<Chart>,
    sessions: Vec<Session>,
    /// For each change that is proposed, the form that does it, with the field and its value where it is a try.
    tries: Vec<Option<[String; 3]>>,
}

/// A session that is written down.
#[derive(Serialize)]
struct Session {
    date: String,
    week: Option<u32>,
    /// Where the same session can be written again.
    day: Option<String>,
    note: String,
    /// Each exercise with its sets.
    lines: Vec<[String; 2]>,
}

/// Progress, or with `name` the look back.
pub(super) fn show(desk: &Desk, key: &str, name: &str) -> Response {
    looked(desk, key, |client, back| {
        let past = back
            .map(|back| progress::view(&of(back, Audience::Coach, None), back.catalog.entries()));
        let sessions = back.map(latest).unwrap_or_default();
        let chart = back.map(|back| Chart::new(&volume(&back.review)));
        let tries = back.map(tries).unwrap_or_default();
        answer::page(desk, name, &Past { key, client, past, chart, sessions, tries })
    })
}

/// The page that is printed or sent.
pub(super) fn print(desk: &Desk, key: &str, query: &Fields) -> Response {
    looked(desk, key, |_, back| {
        let Some(back) = back else { return answer::not_found() };
        let coach = query.get("for") == Some("coach");
        let audience = if coach { Audience::Coach } else { Audience::Client };
        match progress::page(&of(back, audience, paper(query)), back.catalog.entries()) {
            Ok(text) if query.get("save").is_some() => {
                answer::file("text/html; charset=utf-8", &format!("{key}.progress.html"), text)
            }
            Ok(text) => printed(desk, text),
            Err(_) => answer::refused(axum::http::StatusCode::INTERNAL_SERVER_ERROR, "broken"),
        }
    })
}

/// Does something with what the book has of a client whom the folder has.
fn looked(
    desk: &Desk,
    key: &str,
    work: impl FnOnce(String, Option<&LookBack>) -> Response,
) -> Response {
    let (Some(records), Some(file)) = (desk.cabinet.records(), desk.cabinet.profile(key)) else {
        return answer::not_found();
    };
    let kept = desk.cabinet.plan(key).and_then(|kept| kept.plan.ok());
    let named = kept.map(|plan| plan.client.clone()).filter(|client| !client.is_empty());
    let inside = || file.profile.ok().map(|profile| profile.client);
    let client = named.or_else(inside).unwrap_or_else(|| key.to_owned());
    match records.look_back(&client) {
        Ok(back) => work(client, back.as_ref()),
        Err(faults) => answer::faults(desk, key, &Told::all(&faults)),
    }
}

fn of(back: &LookBack, audience: Audience, paper: Option<Paper>) -> Progress<'_> {
    let plan = back.plan.as_ref();
    Progress {
        review: &back.review,
        from: back.from,
        plan,
        coming: plan.and_then(|plan| coming(plan, &back.sessions)),
        units: back.units,
        audience,
        paper,
    }
}

/// What was done of each muscle, as a plan tells it.
fn volume(review: &Review) -> Vec<MuscleVolume> {
    let told = review.muscles.iter().map(|one| MuscleVolume {
        muscle: one.muscle,
        low: one.low,
        high: one.high,
        sets: one.sets,
    });
    told.collect()
}

/// Proposals as tries of the week in hand; its plan knows a weekday with its hour where it has one.
fn tries(back: &LookBack) -> Vec<Option<[String; 3]>> {
    let day_of = |day: &Weekday| {
        let sessions = back.plan.as_ref()?.sessions.iter();
        let mut labels = sessions.filter(|one| one.day == *day).map(|one| match &one.at {
            Some(at) => format!("{day}@{at}"),
            None => day.to_string(),
        });
        labels.next().filter(|_| labels.next().is_none())
    };
    let field = |name: &str, value: String| ["try".to_owned(), name.to_owned(), value];
    let act = |name: &str| [name.to_owned(), String::new(), String::new()];
    let of_wish = |wish: &Wish| match wish {
        Wish::Without(day) => Some(field("drop", day_of(day)?)),
        Wish::Never(id) => Some(field("never", id.clone())),
        Wish::More(muscle) => Some(field("more", muscle.id().to_owned())),
        Wish::Easier => Some(act("easier")),
        Wish::NextBlock => Some(act("block")),
    };
    back.review.proposals.iter().map(|one| one.wish.as_ref().and_then(of_wish)).collect()
}

/// The last sessions, the latest first.
fn latest(back: &LookBack) -> Vec<Session> {
    let line = |item: &crate::book::DoneItem| {
        let entry = back.catalog.get(&item.exercise)?;
        Some([entry.name.clone(), sets_text(item, entry, back.units)])
    };
    let session = |done: &DoneSession| Session {
        date: phrase::long_date(done.date),
        week: done.week,
        day: done.day.map(|day| match &done.at {
            Some(at) => format!("{}@{at}", day.id()),
            None => day.id().to_owned(),
        }),
        note: done.note.clone(),
        lines: done.items.iter().filter_map(line).collect(),
    };
    back.sessions.iter().rev().take(LATEST).map(session).collect()
}
