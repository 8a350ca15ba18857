//! A browser without windows: it keeps the cookie, sends forms with the token of the page, and follows no link by itself.

use std::fs;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use axum::Router;
use axum::body::Body;
use axum::http::{HeaderMap, Request, StatusCode, header};
use http_body_util::BodyExt as _;
use tempfile::TempDir;
use tower::ServiceExt as _;
use weekwright::cli::open;
use weekwright::page;

pub(crate) const TOKEN: &str = "0123456789abcdef0123456789abcdef";
pub(crate) const HOST: &str = "127.0.0.1:8700";

/// An answer.
pub(crate) struct Answer {
    pub(crate) status: StatusCode,
    pub(crate) headers: HeaderMap,
    pub(crate) body: String,
}

impl Answer {
    pub(crate) fn header(&self, name: &str) -> &str {
        self.headers.get(name).map_or("", |value| value.to_str().unwrap())
    }
}

pub(crate) struct Browser {
    pub(crate) router: Router,
    pub(crate) folder: TempDir,
    runtime: tokio::runtime::Runtime,
}

impl Browser {
    /// Before a folder with some of the demo clients and every place.
    pub(crate) fn before(clients: &[&str]) -> Browser {
        let folder = TempDir::new().unwrap();
        let demos = Path::new(env!("CARGO_MANIFEST_DIR")).join("profiles");
        fs::create_dir(folder.path().join("places")).unwrap();
        for entry in fs::read_dir(demos.join("places")).unwrap() {
            let path = entry.unwrap().path();
            fs::copy(&path, folder.path().join("places").join(path.file_name().unwrap())).unwrap();
        }
        for client in clients {
            let name = format!("{client}.yaml");
            fs::copy(demos.join(&name), folder.path().join(&name)).unwrap();
        }
        Browser::at(folder)
    }

    pub(crate) fn at(folder: TempDir) -> Browser {
        let desk = open::desk(folder.path(), TOKEN, 8700).unwrap();
        let runtime = tokio::runtime::Builder::new_current_thread().enable_all().build().unwrap();
        Browser { router: page::router(Arc::new(desk)), folder, runtime }
    }

    pub(crate) fn path(&self, name: &str) -> PathBuf {
        self.folder.path().join(name)
    }

    pub(crate) fn text(&self, name: &str) -> String {
        fs::read_to_string(self.path(name)).unwrap()
    }

    pub(crate) fn send(&self, request: Request<Body>) -> Answer {
        self.runtime.block_on(async {
            let response = self.router.clone().oneshot(request).await.unwrap();
            let (parts, body) = response.into_parts();
            let bytes = body.collect().await.unwrap().to_bytes();
            let body = String::from_utf8_lossy(&bytes).into_owned();
            Answer { status: parts.status, headers: parts.headers, body }
        })
    }

    pub(crate) fn get(&self, path: &str) -> Answer {
        let request = Request::get(path).header(header::HOST, HOST);
        self.send(request.header(header::COOKIE, cookie()).body(Body::empty()).unwrap())
    }

    /// Sends a form as the page has it.
    pub(crate) fn post(&self, path: &str, fields: &[(&str, &str)]) -> Answer {
        let token = [("token", TOKEN)];
        let body = encoded(token.iter().chain(fields));
        let request = Request::post(path)
            .header(header::HOST, HOST)
            .header(header::ORIGIN, format!("http://{HOST}"))
            .header(header::COOKIE, cookie())
            .header(header::CONTENT_TYPE, "application/x-www-form-urlencoded");
        self.send(request.body(Body::from(body)).unwrap())
    }
}

pub(crate) fn cookie() -> String {
    format!("weekwright-8700={TOKEN}")
}

/// Fields as a browser writes them (WHATWG URL, application/x-www-form-urlencoded).
pub(crate) fn encoded<'a>(fields: impl Iterator<Item = &'a (&'a str, &'a str)>) -> String {
    let one = |text: &str| -> String {
        let plain = |byte: &u8| byte.is_ascii_alphanumeric() || b"*-._".contains(byte);
        text.bytes()
            .map(|byte| match byte {
                byte if plain(&byte) => char::from(byte).to_string(),
                b' ' => "+".to_owned(),
                byte => format!("%{byte:02X}"),
            })
            .collect()
    };
    fields
        .map(|(name, value)| format!("{}={}", one(name), one(value)))
        .collect::<Vec<_>>()
        .join("&")
}
