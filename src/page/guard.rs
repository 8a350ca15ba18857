//! What is refused before any page looks at it, and what every answer carries.

use std::sync::Arc;

use axum::extract::{Request, State};
use axum::http::{HeaderMap, HeaderName, HeaderValue, Method, StatusCode, header};
use axum::middleware::Next;
use axum::response::{IntoResponse as _, Redirect, Response};

use super::answer;
use super::desk::Desk;

/// The largest body of a request, in bytes: a form, no file.
pub const LARGEST_BODY: usize = 256 * 1024;

/// The name of the cookie that this start's secret is kept in.
const COOKIE: &str = "weekwright";

/// The one address without a lock: a refusal should be fit to read, and how pages look is no secret.
const STYLE: &str = "/page.css";

/// Nothing from elsewhere, no script or style inside a page, no frame around it.
const POLICY: &str = "default-src 'none'; style-src 'self'; script-src 'self'; img-src 'self'; connect-src 'self'; \
                      form-action 'self'; base-uri 'none'; frame-ancestors 'none'";

/// Headers of every answer that does not bring its own.
const HEADERS: [(HeaderName, &str); 7] = [
    (header::CONTENT_SECURITY_POLICY, POLICY),
    (header::X_CONTENT_TYPE_OPTIONS, "nosniff"),
    (header::X_FRAME_OPTIONS, "DENY"),
    // A stricter one would make browsers leave out the origin of our own forms.
    (header::REFERRER_POLICY, "same-origin"),
    (header::CACHE_CONTROL, "no-store"),
    (HeaderName::from_static("cross-origin-opener-policy"), "same-origin"),
    (HeaderName::from_static("cross-origin-resource-policy"), "same-origin"),
];

/// Lets through what comes from a browser that was let in, and nothing else.
pub(super) async fn watch(State(desk): State<Arc<Desk>>, request: Request, next: Next) -> Response {
    let mut response = match refusal(&desk, &request) {
        Some(response) => response,
        None => next.run(request).await,
    };
    for (name, value) in HEADERS {
        response.headers_mut().entry(name).or_insert(HeaderValue::from_static(value));
    }
    response
}

/// Why a request goes no further: another host, another page's form, or no key to this start.
fn refusal(desk: &Desk, request: &Request) -> Option<Response> {
    let headers = request.headers();
    if !is_our_host(desk, headers) {
        return Some(answer::refused(StatusCode::MISDIRECTED_REQUEST, "host"));
    }
    if !matches!(*request.method(), Method::GET | Method::HEAD | Method::POST) {
        return Some(answer::refused(StatusCode::METHOD_NOT_ALLOWED, "method"));
    }
    if comes_from_elsewhere(desk, request) {
        return Some(answer::refused(StatusCode::FORBIDDEN, "elsewhere"));
    }
    if has_cookie(desk, headers) || request.uri().path() == STYLE {
        return None;
    }
    if is_letting_in(desk, request) {
        return Some(let_in(desk));
    }
    Some(answer::refused(StatusCode::FORBIDDEN, "locked"))
}

/// Whether the request is for the address that we listen at. A page elsewhere whose name was pointed at this machine
/// says its own name here.
fn is_our_host(desk: &Desk, headers: &HeaderMap) -> bool {
    let mut hosts = headers.get_all(header::HOST).iter();
    let (Some(host), None) = (hosts.next(), hosts.next()) else { return false };
    own_hosts(desk).iter().any(|own| host.as_bytes() == own.as_bytes())
}

fn own_hosts(desk: &Desk) -> [String; 2] {
    ["127.0.0.1", "localhost"].map(|name| format!("{name}:{}", desk.port))
}

/// Whether a browser says that another page sent this.
fn comes_from_elsewhere(desk: &Desk, request: &Request) -> bool {
    let headers = request.headers();
    let is_own = |origin: &HeaderValue| {
        own_hosts(desk).iter().any(|own| origin.as_bytes() == format!("http://{own}").as_bytes())
    };
    let from_other = headers.get(header::ORIGIN).is_some_and(|origin| !is_own(origin));
    let site = headers.get("sec-fetch-site").map(HeaderValue::as_bytes);
    let cross_write =
        *request.method() == Method::POST && !matches!(site, None | Some(b"same-origin" | b"none"));
    from_other || cross_write
}

fn has_cookie(desk: &Desk, headers: &HeaderMap) -> bool {
    let cookies = headers.get_all(header::COOKIE).iter().filter_map(|value| value.to_str().ok());
    let mut pairs = cookies.flat_map(|line| line.split("; ")).filter_map(|one| one.split_once('='));
    pairs.any(|(name, value)| name == cookie_name(desk) && is_same(value, &desk.token))
}

/// Two starts on one machine share their cookies, so each has a name of its own.
fn cookie_name(desk: &Desk) -> String {
    format!("{COOKIE}-{}", desk.port)
}

/// Whether the address is the one that the terminal printed.
fn is_letting_in(desk: &Desk, request: &Request) -> bool {
    let query = request.uri().query().unwrap_or_default();
    let given = query.split('&').find_map(|pair| pair.strip_prefix("token="));
    let is_front = request.uri().path() == "/" && *request.method() == Method::GET;
    is_front && given.is_some_and(|given| is_same(given, &desk.token))
}

/// Hands over the cookie, and takes the secret out of the address.
fn let_in(desk: &Desk) -> Response {
    let cookie = format!("{}={}; Path=/; HttpOnly; SameSite=Strict", cookie_name(desk), desk.token);
    let mut response = Redirect::to("/").into_response();
    if let Ok(cookie) = HeaderValue::from_str(&cookie) {
        response.headers_mut().insert(header::SET_COOKIE, cookie);
    }
    response
}

/// Compares without telling by its time how much was right.
pub(super) fn is_same(given: &str, wanted: &str) -> bool {
    let differ =
        given.bytes().zip(wanted.bytes()).fold(0, |found, (one, other)| found | (one ^ other));
    given.len() == wanted.len() && differ == 0
}
