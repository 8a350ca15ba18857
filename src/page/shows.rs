//! What is shown of a client: the week, what could stand in for an exercise, the sheets.

use axum::http::{StatusCode, header};
use axum::response::Response;
use serde::Serialize;

use super::acts::shown_as;
use super::answer;
use super::begin::{self, Looked};
use super::desk::Desk;
use super::fields::Fields;
use super::tries::name_of;
use super::week::{Around, Page};
use crate::catalog;
use crate::input::plan::Plan;
use crate::planner::Planner;
use crate::request::turn::Turn;
use crate::sheets::html::script_mark;
use crate::sheets::{Audience, Options, Paper};

/// The page of a client's week.
pub(super) fn week(desk: &Desk, key: &str, turn: Turn, query: &Fields) -> Response {
    let shown = query.get("week").and_then(|week| week.parse().ok());
    let notice =
        if desk.has(key) { desk.seat(key).swap_notice(String::new()) } else { String::new() };
    match page(desk, (key, turn), shown, &notice) {
        Some(page) => answer::page(desk, "week.html", &page),
        None => answer::not_found(),
    }
}

/// What is shown after a form: the page again, or for a script its part about the week alone.
pub(super) fn after(desk: &Desk, key: &str, notice: String, is_part: bool) -> Response {
    if !is_part {
        desk.seat(key).swap_notice(notice);
        return answer::go_to(&format!("/client/{}", answer::encoded(key)));
    }
    match page(desk, (key, desk.seat(key).visit()), None, &notice) {
        Some(page) => answer::page(desk, "part.html", &page),
        None => answer::not_found(),
    }
}

fn page(desk: &Desk, (key, turn): (&str, Turn), shown: Option<u32>, notice: &str) -> Option<Page> {
    if !desk.has(key) {
        return None;
    }
    let file = desk.cabinet.profile(key)?;
    let seat = desk.seat(key);
    let mut held = seat.draft();
    let looked = begin::look(desk, (key, &file), &mut held, turn);
    let draft = held.clone();
    drop(held);
    let is_changed = matches!(looked, Looked::Week { is_changed: true });
    let around = Around { desk, key, file: &file, is_changed, shown, notice: notice.to_owned() };
    Some(match (looked, draft) {
        (Looked::Nothing(refused), _) => Page::nothing(&around, &refused),
        (Looked::Week { .. }, Some(draft)) => Page::of(&around, &draft),
        (Looked::Week { .. }, None) => return None,
    })
}

/// The plan in hand, if there is one.
fn plan_in_hand(desk: &Desk, key: &str, turn: Turn) -> Option<std::sync::Arc<Plan>> {
    if !desk.has(key) {
        return None;
    }
    let file = desk.cabinet.profile(key)?;
    let seat = desk.seat(key);
    let mut held = seat.draft();
    begin::look(desk, (key, &file), &mut held, turn);
    held.as_ref().map(|draft| std::sync::Arc::clone(draft.plan()))
}

/// The page of what could stand in for an exercise.
#[derive(Serialize)]
struct Instead<'a> {
    key: &'a str,
    id: &'a str,
    name: String,
    client: &'a str,
    list: Vec<StandIn>,
}

/// What could stand in.
#[derive(Serialize)]
struct StandIn {
    id: String,
    name: String,
    price: String,
    is_free: bool,
    /// Other exercises that go and come with it.
    out: Vec<String>,
    comes: Vec<String>,
}

/// A short list of what could stand in for an exercise, each planned again.
pub(super) fn instead(desk: &Desk, key: &str, turn: Turn, id: &str) -> Response {
    let Some(plan) = plan_in_hand(desk, key, turn) else { return answer::not_found() };
    let planner = desk.planner.with_plan(&plan);
    if !planner.catalog().contains(id) {
        return answer::not_found();
    }
    let found = match planner.why(&plan) {
        Ok(asked) => asked.until(turn).instead(id),
        Err(_) => Vec::new(),
    };
    let list: Vec<StandIn> = found
        .into_iter()
        .map(|one| StandIn {
            name: name_of(&planner, &plan, &one.exercise),
            price: one.effect.cost.to_string(),
            is_free: one.effect.cost.is_free(),
            out: others(&planner, &plan, &one.effect.out, id),
            comes: others(&planner, &plan, &one.effect.comes, &one.exercise),
            id: one.exercise,
        })
        .collect();
    let name = name_of(&planner, &plan, id);
    let view = Instead { key, id, name, client: &plan.client, list };
    answer::page(desk, "instead.html", &view)
}

/// `mon@18:30: plank` as `Plank`, without the exercise that was asked about.
fn others(planner: &Planner, plan: &Plan, picks: &[String], but: &str) -> Vec<String> {
    let ids = picks.iter().filter_map(|pick| pick.rsplit_once(": ")).map(|(_, id)| id);
    ids.filter(|id| *id != but).map(|id| name_of(planner, plan, id)).collect()
}

/// A sheet of the plan in hand: shown, or as a file to save.
pub(super) fn sheet(
    desk: &Desk,
    key: &str,
    turn: Turn,
    (form, query): (&str, &Fields),
) -> Response {
    let kind = match form {
        "html" => "text/html; charset=utf-8",
        "ics" => "text/calendar; charset=utf-8",
        "csv" => "text/csv; charset=utf-8",
        "md" | "text" | "yaml" => "text/plain; charset=utf-8",
        _ => return answer::not_found(),
    };
    let Some(plan) = plan_in_hand(desk, key, turn) else { return answer::not_found() };
    let options = Options {
        audience: match query.get("for") {
            Some("client") => Audience::Client,
            Some("coach") => Audience::Coach,
            _ => Audience::Both,
        },
        paper: paper(query),
        ..Options::default()
    };
    let Some(text) = shown_as(desk, &plan, form, &options) else {
        let key = if form == "ics" { "no_start" } else { "broken" };
        return answer::refused(StatusCode::CONFLICT, key);
    };
    if query.get("save").is_some() || form != "html" {
        let ending = if form == "yaml" { "plan.yaml" } else { form };
        return answer::file(kind, &format!("{key}.{ending}"), text);
    }
    printed(desk, text)
}

/// The paper that an address names.
pub(super) fn paper(query: &Fields) -> Option<Paper> {
    query.get("paper").and_then(|named| named.parse().ok())
}

/// A sheet brings its style along, which this one page may use and no other.
pub(super) fn printed(desk: &Desk, text: String) -> Response {
    let nonce = catalog::sha256(format!("{}{text}", desk.token).as_bytes());
    let text = text.replacen("<style>", &format!("<style nonce=\"{nonce}\">"), 1);
    let policy = format!(
        "default-src 'none'; style-src 'nonce-{nonce}'; script-src 'nonce-{}'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'",
        script_mark()
    );
    let response = answer::text("text/html; charset=utf-8", text);
    answer::with(response, header::CONTENT_SECURITY_POLICY, &policy)
}
