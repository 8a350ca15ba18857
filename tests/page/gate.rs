//! Who is let in, and with what.

use axum::body::Body;
use axum::http::{Method, Request, StatusCode, header};

use crate::browser::{Browser, HOST, TOKEN, cookie, encoded};

fn ask(method: Method, path: &str, headers: &[(&str, &str)], body: &str) -> Request<Body> {
    let mut request = Request::builder().method(method).uri(path);
    for (name, value) in headers {
        request = request.header(*name, *value);
    }
    request.body(Body::from(body.to_owned())).unwrap()
}

#[test]
fn the_printed_address_hands_over_a_cookie_and_hides_its_secret() {
    let browser = Browser::before(&[]);
    let letting_in = format!("/?token={TOKEN}");
    let answer = browser.send(ask(Method::GET, &letting_in, &[("host", HOST)], ""));
    assert_eq!(answer.status, StatusCode::SEE_OTHER);
    assert_eq!(answer.header("location"), "/");
    let set = answer.header("set-cookie");
    assert!(
        set.starts_with(&cookie()) && set.contains("HttpOnly") && set.contains("SameSite=Strict")
    );
    let cookie = cookie();
    let headers = [("host", HOST), ("cookie", cookie.as_str())];
    assert_eq!(browser.send(ask(Method::GET, "/", &headers, "")).status, StatusCode::OK);
}

#[test]
fn without_the_secret_nothing_is_shown() {
    let browser = Browser::before(&["tide-01"]);
    let wrong = format!("weekwright-8700={}", TOKEN.replace('0', "1"));
    let prefix = format!("weekwright-8700={}", &TOKEN[..31]);
    for cookie in ["", "weekwright-8700=", "weekwright=x", wrong.as_str(), prefix.as_str()] {
        for path in ["/", "/client/tide-01", "/page.js", "/?token=", "/?token=0123", "/nothing"] {
            let answer =
                browser.send(ask(Method::GET, path, &[("host", HOST), ("cookie", cookie)], ""));
            assert_eq!(answer.status, StatusCode::FORBIDDEN, "{path} with {cookie}");
            assert!(!answer.body.contains("tide-01") && !answer.body.contains(TOKEN));
        }
    }
}

/// A page elsewhere may point its own name at this machine; its browser then says that name (DNS rebinding).
#[test]
fn another_host_is_refused() {
    let browser = Browser::before(&["tide-01"]);
    let cookie = cookie();
    for host in
        ["evil.example", "evil.example:8700", "127.0.0.1", "127.0.0.1:8701", "", "localhost"]
    {
        let headers = [("host", host), ("cookie", cookie.as_str())];
        let answer = browser.send(ask(Method::GET, "/", &headers, ""));
        assert_eq!(answer.status, StatusCode::MISDIRECTED_REQUEST, "{host}");
        assert!(!answer.body.contains("tide-01"));
    }
    let twice = [("host", HOST), ("host", "evil.example"), ("cookie", cookie.as_str())];
    assert_eq!(
        browser.send(ask(Method::GET, "/", &twice, "")).status,
        StatusCode::MISDIRECTED_REQUEST
    );
    let none = browser.send(ask(Method::GET, "/", &[("cookie", cookie.as_str())], ""));
    assert_eq!(none.status, StatusCode::MISDIRECTED_REQUEST);
}

#[test]
fn what_writes_needs_the_token_of_this_start_and_our_own_page() {
    let browser = Browser::before(&["tide-01"]);
    let cookie = cookie();
    let kind = ("content-type", "application/x-www-form-urlencoded");
    let own = format!("http://{HOST}");
    let keep = "/client/tide-01/keep";
    let good = encoded([("token", TOKEN)].iter());
    let headers = [("host", HOST), ("cookie", cookie.as_str()), kind];
    for body in ["", "token=", "token=0123", "x=y"] {
        let answer = browser.send(ask(Method::POST, keep, &headers, body));
        assert_eq!(answer.status, StatusCode::FORBIDDEN, "{body}");
    }
    for other in
        [("origin", "http://evil.example"), ("origin", "null"), ("sec-fetch-site", "cross-site")]
    {
        let headers = [headers.as_slice(), &[other]].concat();
        let answer = browser.send(ask(Method::POST, keep, &headers, &good));
        assert_eq!(answer.status, StatusCode::FORBIDDEN, "{other:?}");
    }
    let bare = [("host", HOST), kind];
    assert_eq!(browser.send(ask(Method::POST, keep, &bare, &good)).status, StatusCode::FORBIDDEN);
    assert!(!browser.path("tide-01.plan.yaml").exists());
    let headers = [headers.as_slice(), &[("origin", own.as_str())]].concat();
    let answer = browser.send(ask(Method::POST, keep, &headers, &good));
    assert_eq!(answer.status, StatusCode::SEE_OTHER);
    assert!(browser.path("tide-01.plan.yaml").exists());
}

#[test]
fn every_answer_forbids_scripts_and_styles_inside_a_page() {
    let browser = Browser::before(&["tide-01"]);
    for path in ["/", "/client/tide-01", "/nothing", "/page.css", "/client/tide-01/sheet/html"] {
        let answer = browser.get(path);
        let policy = answer.header("content-security-policy");
        assert!(
            policy.starts_with("default-src 'none'") && !policy.contains("unsafe"),
            "{path}: {policy}"
        );
        assert_eq!(answer.header("x-content-type-options"), "nosniff");
        assert!(answer.header("access-control-allow-origin").is_empty());
        let inline = ["<script>", " style=", " onclick=", "javascript:"];
        assert!(inline.iter().all(|word| !answer.body.contains(word)), "{path}");
    }
    let sheet = browser.get("/client/tide-01/sheet/html");
    let nonce =
        sheet.header("content-security-policy").split('\'').find(|part| part.starts_with("nonce-"));
    let nonce = nonce.unwrap().trim_start_matches("nonce-").to_owned();
    assert!(sheet.body.contains(&format!("<style nonce=\"{nonce}\">")));
}

#[test]
fn no_address_is_a_path() {
    let browser = Browser::before(&["tide-01"]);
    std::fs::write(browser.path("secret.txt"), "nobody reads this").unwrap();
    let outside = browser.folder.path().with_extension("outside.yaml");
    std::fs::write(&outside, browser.text("tide-01.yaml")).unwrap();
    let up = format!("..%2F{}", outside.file_stem().unwrap().to_str().unwrap());
    let up = up.as_str();
    for key in [
        "..",
        "%2e%2e",
        "..%2f..%2fetc%2fpasswd",
        up,
        "secret.txt",
        "places",
        "places%2fboathouse",
        "tide-01.yaml",
        "tide-01%00",
        "%ff",
        "tide-01%2F..%2Ftide-01",
        "C:%5Cwindows",
        "%2Fetc%2Fpasswd",
        ".",
    ] {
        for path in [format!("/client/{key}"), format!("/client/{key}/sheet/yaml")] {
            let answer = browser.get(&path);
            assert_eq!(answer.status, StatusCode::NOT_FOUND, "{path}");
            assert!(!answer.body.contains("nobody reads this") && !answer.body.contains("root:"));
        }
        let answer = browser.post(&format!("/client/{key}/keep"), &[]);
        assert_eq!(answer.status, StatusCode::NOT_FOUND, "{key}");
    }
    for form in ["pdf", "..", "json", "%00"] {
        assert_eq!(
            browser.get(&format!("/client/tide-01/sheet/{form}")).status,
            StatusCode::NOT_FOUND
        );
    }
    std::fs::remove_file(outside).unwrap();
}

#[cfg(unix)]
#[test]
fn a_link_that_leads_out_of_the_folder_is_no_client() {
    let browser = Browser::before(&["tide-01"]);
    let outside = tempfile::NamedTempFile::new().unwrap();
    std::fs::write(outside.path(), browser.text("tide-01.yaml")).unwrap();
    std::os::unix::fs::symlink(outside.path(), browser.path("linked.yaml")).unwrap();
    assert_eq!(browser.get("/client/linked").status, StatusCode::NOT_FOUND);
    assert!(!browser.get("/").body.contains("linked"));
}

#[test]
fn a_last_block_outside_the_folder_is_refused() {
    let browser = Browser::before(&["tide-01"]);
    let outside = browser.folder.path().with_extension("plan.yaml");
    std::fs::write(&outside, "format: weekwright-plan/2\nclient: somebody\n").unwrap();
    let name = outside.file_name().unwrap().to_str().unwrap();
    let text = format!("{}previous: ../{name}\n", browser.text("tide-01.yaml"));
    std::fs::write(browser.path("tide-01.yaml"), text).unwrap();
    let page = browser.get("/client/tide-01").body;
    assert!(page.contains("E1008") && !page.contains("somebody"), "{page}");
    std::fs::remove_file(outside).unwrap();
}

#[test]
fn a_large_or_broken_body_is_a_sentence() {
    let browser = Browser::before(&["tide-01"]);
    let long = "x".repeat(weekwright::page::LARGEST_BODY + 1);
    let answer = browser.post("/client/tide-01/try", &[("never", &long)]);
    assert_eq!(answer.status, StatusCode::BAD_REQUEST);
    assert!(answer.body.contains("too large"));
    let cookie = cookie();
    for kind in ["text/plain", "application/json", "multipart/form-data; boundary=x"] {
        let headers = [("host", HOST), ("cookie", cookie.as_str()), ("content-type", kind)];
        let answer = browser.send(ask(Method::POST, "/client/tide-01/try", &headers, "{\"a\":1}"));
        assert_eq!(answer.status, StatusCode::BAD_REQUEST, "{kind}");
    }
    for method in [Method::PUT, Method::DELETE, Method::OPTIONS, Method::TRACE] {
        let headers = [("host", HOST), ("cookie", cookie.as_str())];
        let answer = browser.send(ask(method, "/", &headers, ""));
        assert_eq!(answer.status, StatusCode::METHOD_NOT_ALLOWED);
    }
    let encoded = [("host", HOST), (header::COOKIE.as_str(), cookie.as_str())];
    let query = browser.send(ask(Method::GET, "/client/tide-01?week=%ff&week=-1&x", &encoded, ""));
    assert!(query.status == StatusCode::OK || query.status == StatusCode::NOT_FOUND);
}
