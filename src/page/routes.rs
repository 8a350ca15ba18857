//! Which address is which page, and which form does what.

use std::sync::Arc;

use axum::Router;
use axum::extract::rejection::{FormRejection, PathRejection, QueryRejection};
use axum::extract::{DefaultBodyLimit, Form, Path, Query, State};
use axum::http::{HeaderMap, StatusCode};
use axum::middleware;
use axum::response::Response;
use axum::routing::{get, post};
use tower_http::catch_panic::CatchPanicLayer;

use super::acts::{self, Act};
use super::clients::Clients;
use super::desk::{Desk, Seat, Visit};
use super::fields::Fields;
use super::guard::{self, LARGEST_BODY};
use super::{answer, past, profile, shows, template, write};
use crate::request::turn::Turn;

type Pairs = Vec<(String, String)>;

/// Every page of a desk.
pub fn router(desk: Arc<Desk>) -> Router {
    Router::new()
        .route("/", get(clients))
        .route("/favicon.ico", get(async || StatusCode::NO_CONTENT))
        .route("/page.css", get(async || style()))
        .route("/page.js", get(async || script()))
        .route("/client/{key}", get(week))
        .route("/new", get(blank).post(create))
        .route("/client/{key}/profile", get(form).post(save))
        .route("/client/{key}/write", get(card).post(write_down))
        .route("/client/{key}/progress", get(progress))
        .route("/client/{key}/progress/print", get(progress_print))
        .route("/client/{key}/review", get(review))
        .route("/client/{key}/{act}", post(act))
        .route("/client/{key}/instead/{id}", get(instead))
        .route("/client/{key}/sheet/{form}", get(sheet))
        .fallback(async || answer::not_found())
        .layer(DefaultBodyLimit::max(LARGEST_BODY))
        .layer(middleware::from_fn_with_state(Arc::clone(&desk), guard::watch))
        .layer(CatchPanicLayer::custom(|_| {
            answer::refused(StatusCode::INTERNAL_SERVER_ERROR, "broken")
        }))
        .with_state(desk)
}

/// Files and searches are for threads that may wait.
async fn at_work(
    desk: Arc<Desk>,
    work: impl FnOnce(&Desk) -> Response + Send + 'static,
) -> Response {
    let done = tokio::task::spawn_blocking(move || work(&desk)).await;
    done.unwrap_or_else(|_| answer::refused(StatusCode::INTERNAL_SERVER_ERROR, "broken"))
}

/// The same for a page with a client's week, whose search ends where every browser that waits for one goes away. All that a
/// page asks for is of one turn: what begins later ends, too.
async fn on_a_visit(
    desk: Arc<Desk>,
    key: String,
    work: impl FnOnce(&Desk, &str, Turn) -> Response + Send + 'static,
) -> Response {
    if !desk.has(&key) {
        return answer::not_found();
    }
    let seat = desk.seat(&key);
    let turn = seat.visit();
    let visit = Visit::to(seat);
    let done = at_work(desk, move |desk| work(desk, &key, turn)).await;
    drop(visit);
    done
}

fn style() -> Response {
    answer::text("text/css; charset=utf-8", template::STYLE.to_owned())
}

fn script() -> Response {
    answer::text("text/javascript; charset=utf-8", template::SCRIPT.to_owned())
}

async fn clients(State(desk): State<Arc<Desk>>) -> Response {
    at_work(desk, |desk| answer::page(desk, "clients.html", &Clients::of(desk.cabinet.as_ref())))
        .await
}

async fn week(
    State(desk): State<Arc<Desk>>,
    path: Result<Path<String>, PathRejection>,
    query: Result<Query<Pairs>, QueryRejection>,
) -> Response {
    let (Ok(Path(key)), Ok(Query(query))) = (path, query) else { return answer::not_found() };
    let query = Fields(query);
    on_a_visit(desk, key, move |desk, key, turn| shows::week(desk, key, turn, &query)).await
}

async fn instead(
    State(desk): State<Arc<Desk>>,
    path: Result<Path<(String, String)>, PathRejection>,
) -> Response {
    let Ok(Path((key, id))) = path else { return answer::not_found() };
    on_a_visit(desk, key, move |desk, key, turn| shows::instead(desk, key, turn, &id)).await
}

async fn sheet(
    State(desk): State<Arc<Desk>>,
    path: Result<Path<(String, String)>, PathRejection>,
    query: Result<Query<Pairs>, QueryRejection>,
) -> Response {
    let (Ok(Path((key, form))), Ok(Query(query))) = (path, query) else {
        return answer::not_found();
    };
    let query = Fields(query);
    on_a_visit(desk, key, move |desk, key, turn| shows::sheet(desk, key, turn, (&form, &query)))
        .await
}

async fn form(
    State(desk): State<Arc<Desk>>,
    path: Result<Path<String>, PathRejection>,
) -> Response {
    let Ok(Path(key)) = path else { return answer::not_found() };
    at_work(desk, move |desk| profile::show(desk, &key)).await
}

async fn blank(State(desk): State<Arc<Desk>>) -> Response {
    at_work(desk, profile::blank).await
}

async fn save(
    State(desk): State<Arc<Desk>>,
    path: Result<Path<String>, PathRejection>,
    form: Result<Form<Pairs>, FormRejection>,
) -> Response {
    let fields = match fields(&desk, form) {
        Ok(fields) => fields,
        Err(key) => return refused_form(key),
    };
    let Ok(Path(key)) = path else { return answer::not_found() };
    at_work(desk, move |desk| profile::save(desk, &key, &fields)).await
}

async fn card(
    State(desk): State<Arc<Desk>>,
    path: Result<Path<String>, PathRejection>,
    query: Result<Query<Pairs>, QueryRejection>,
) -> Response {
    let (Ok(Path(key)), Ok(Query(query))) = (path, query) else { return answer::not_found() };
    at_work(desk, move |desk| write::show(desk, &key, &Fields(query))).await
}

async fn write_down(
    State(desk): State<Arc<Desk>>,
    path: Result<Path<String>, PathRejection>,
    form: Result<Form<Pairs>, FormRejection>,
) -> Response {
    let fields = match fields(&desk, form) {
        Ok(fields) => fields,
        Err(key) => return refused_form(key),
    };
    let Ok(Path(key)) = path else { return answer::not_found() };
    at_work(desk, move |desk| write::save(desk, &key, &fields)).await
}

async fn progress(
    State(desk): State<Arc<Desk>>,
    path: Result<Path<String>, PathRejection>,
) -> Response {
    let Ok(Path(key)) = path else { return answer::not_found() };
    at_work(desk, move |desk| past::show(desk, &key, "progress.html")).await
}

async fn review(
    State(desk): State<Arc<Desk>>,
    path: Result<Path<String>, PathRejection>,
) -> Response {
    let Ok(Path(key)) = path else { return answer::not_found() };
    at_work(desk, move |desk| past::show(desk, &key, "review.html")).await
}

async fn progress_print(
    State(desk): State<Arc<Desk>>,
    path: Result<Path<String>, PathRejection>,
    query: Result<Query<Pairs>, QueryRejection>,
) -> Response {
    let (Ok(Path(key)), Ok(Query(query))) = (path, query) else { return answer::not_found() };
    at_work(desk, move |desk| past::print(desk, &key, &Fields(query))).await
}

async fn create(
    State(desk): State<Arc<Desk>>,
    form: Result<Form<Pairs>, FormRejection>,
) -> Response {
    match fields(&desk, form) {
        Ok(fields) => at_work(desk, move |desk| profile::create(desk, &fields)).await,
        Err(key) => refused_form(key),
    }
}

/// The fields of a form of this start; else the word for what is wrong with it.
fn fields(desk: &Desk, form: Result<Form<Pairs>, FormRejection>) -> Result<Fields, &'static str> {
    let Ok(Form(pairs)) = form else { return Err("bad_form") };
    let fields = Fields(pairs);
    let is_ours = fields.get("token").is_some_and(|given| guard::is_same(given, &desk.token));
    if is_ours { Ok(fields) } else { Err("no_token") }
}

fn refused_form(key: &str) -> Response {
    let status = if key == "no_token" { StatusCode::FORBIDDEN } else { StatusCode::BAD_REQUEST };
    answer::refused(status, key)
}

/// A form that does something to a client's week.
async fn act(
    State(desk): State<Arc<Desk>>,
    path: Result<Path<(String, String)>, PathRejection>,
    headers: HeaderMap,
    form: Result<Form<Pairs>, FormRejection>,
) -> Response {
    let fields = match fields(&desk, form) {
        Ok(fields) => fields,
        Err(key) => return refused_form(key),
    };
    let Ok(Path((key, act))) = path else { return answer::not_found() };
    let Some(act) = Act::named(&act) else { return answer::not_found() };
    if !desk.has(&key) {
        return answer::not_found();
    }
    let is_part = headers.contains_key("x-part");
    let seat = desk.seat(&key);
    let turn = Turn::take(seat.counter);
    let waiting = Waiting { seat: Arc::clone(&seat), is_answered: false };
    let answer = at_work(desk, move |desk| {
        let notice = acts::done(desk, &seat, &key, act, &fields, turn);
        shows::after(desk, &key, notice, is_part)
    });
    waiting.answered(answer.await)
}

/// Somebody waits for an answer. Where they go away first, the search for it ends.
struct Waiting {
    seat: Arc<Seat>,
    is_answered: bool,
}

impl Waiting {
    fn answered(mut self, response: Response) -> Response {
        self.is_answered = true;
        response
    }
}

impl Drop for Waiting {
    fn drop(&mut self) {
        if !self.is_answered {
            let _ = Turn::take(self.seat.counter);
        }
    }
}
