//! Answers: pages, files, refusals in a sentence.

use axum::http::{HeaderName, HeaderValue, StatusCode, header};
use axum::response::{Html, IntoResponse as _, Redirect, Response};
use minijinja::context;
use serde::Serialize;

use super::collision::Told;
use super::desk::Desk;
use super::template::{rendered, word};

/// A page.
pub(super) fn page<V: Serialize>(desk: &Desk, name: &str, view: &V) -> Response {
    match rendered(name, &desk.token, view) {
        Ok(text) => Html(text).into_response(),
        Err(_) => refused(StatusCode::INTERNAL_SERVER_ERROR, "broken"),
    }
}

/// A page with a sentence on it.
pub(super) fn refused(status: StatusCode, key: &str) -> Response {
    let view = context! { sentence => word(key) };
    let text = rendered("refused.html", "", &view).unwrap_or_else(|_| word(key).to_owned());
    (status, Html(text)).into_response()
}

/// There is no such page, or no such client.
pub(super) fn not_found() -> Response {
    refused(StatusCode::NOT_FOUND, "not_found")
}

/// A page with faults as the command line tells them, and the way back to the client.
pub(super) fn faults(desk: &Desk, key: &str, faults: &[Told]) -> Response {
    page(desk, "faults.html", &Faults { key, faults })
}

#[derive(Serialize)]
struct Faults<'a> {
    key: &'a str,
    faults: &'a [Told],
}

/// A key as a part of an address.
pub(super) fn encoded(key: &str) -> String {
    minijinja::filters::urlencode(&key.into()).unwrap_or_default()
}

/// After a form: the page that shows what came of it.
pub(super) fn go_to(path: &str) -> Response {
    Redirect::to(path).into_response()
}

/// A text of some kind.
pub(super) fn text(kind: &'static str, body: String) -> Response {
    ([(header::CONTENT_TYPE, HeaderValue::from_static(kind))], body).into_response()
}

/// The same as a file to be saved under a name.
pub(super) fn file(kind: &'static str, name: &str, body: String) -> Response {
    let plain = |c: char| if c.is_ascii_alphanumeric() || "-_.".contains(c) { c } else { '_' };
    let name: String = name.chars().map(plain).collect();
    with(text(kind, body), header::CONTENT_DISPOSITION, &format!("attachment; filename=\"{name}\""))
}

/// An answer with one more header.
pub(super) fn with(mut response: Response, name: HeaderName, value: &str) -> Response {
    if let Ok(value) = HeaderValue::from_str(value) {
        response.headers_mut().insert(name, value);
    }
    response
}
