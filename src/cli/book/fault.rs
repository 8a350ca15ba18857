//! What the book's library says, for a coach.

use std::path::Path;

use rusqlite::ErrorCode;
use rusqlite_migration::Error as MigrationError;

use crate::cli::Failure;
use crate::diagnostic::{Diagnostic, Label, quoted};
use crate::input::suggest;

fn at(path: &Path, code: &'static str, message: &str, help: &str) -> Diagnostic {
    Diagnostic::error(code, message).at(Label::whole(path.display().to_string())).help(help)
}

/// An error of `SQLite`. What is wrong with the file is input; what the machine refuses is not.
pub(super) fn of(path: &Path, error: &rusqlite::Error) -> Failure {
    let code = error.sqlite_error_code();
    let machine =
        |code, message: &str, help: &str| Failure::Unwritten(at(path, code, message, help));
    match code {
        Some(ErrorCode::NotADatabase) => no_book(path),
        Some(ErrorCode::DatabaseCorrupt) => machine(
            "E6004",
            "the book is damaged",
            "`weekwright book check` says where; take the last backup and write down what is missing",
        ),
        Some(ErrorCode::DatabaseBusy | ErrorCode::DatabaseLocked) => machine(
            "E6003",
            "another program is writing to the book, and ten seconds were not enough",
            "wait until it is done, or close it, and try again; nothing was changed",
        ),
        Some(ErrorCode::DiskFull) => machine(
            "E6005",
            "the disk is full",
            "make room and try again; what was written before stands, and nothing else was changed",
        ),
        Some(ErrorCode::ReadOnly | ErrorCode::PermissionDenied) => machine(
            "E6005",
            "the book may be read but not written",
            "check who may write the file and its folder, or copy it to where you may; nothing was changed",
        ),
        Some(ErrorCode::CannotOpen) => machine(
            "E6005",
            "the book cannot be opened or made there",
            "check that the folder is there and that you may write into it, or name another with `--book`",
        ),
        _ => machine(
            "E6005",
            &format!("the book cannot be used: {error}"),
            "check the disk and the file; `weekwright book check` looks the book through; nothing was changed",
        ),
    }
}

pub(super) fn of_version(path: &Path, error: MigrationError) -> Failure {
    match error {
        MigrationError::RusqliteError { err, .. } => of(path, &err),
        MigrationError::MigrationDefinition(_) => newer(path),
        error => Failure::Unwritten(at(
            path,
            "E6005",
            &format!("the book could not be brought to this version: {error}"),
            "keep a copy of it and report this; nothing was changed",
        )),
    }
}

/// E6001: some other file.
pub(super) fn no_book(path: &Path) -> Failure {
    Failure::Faults(
        at(
            path,
            "E6001",
            "this file is no book of Weekwright",
            "name the right file with `--book`",
        )
        .into(),
    )
}

/// E6002: made by a later version.
pub(super) fn newer(path: &Path) -> Failure {
    let message = "this book was written by a newer version of Weekwright";
    let help =
        "use that version; this one would not understand all of it, so it left the file alone";
    Failure::Faults(at(path, "E6002", message, help).into())
}

/// E1004: no book there.
pub(super) fn missing(path: &Path) -> Failure {
    let help = "`weekwright log PLAN` makes one, or name the book with `--book FILE`";
    Failure::Faults(at(path, "E1004", "there is no book", help).into())
}

/// E6006: no such client.
pub(super) fn no_client(path: &Path, code: &str, codes: &[&str]) -> Failure {
    let message = format!("the book has no client {}", quoted(code));
    let otherwise = if codes.is_empty() {
        "the book is empty: `weekwright log PLAN` writes the first session".to_owned()
    } else {
        format!("it has {}", suggest::list(codes))
    };
    let help = suggest::help(code, codes, &otherwise);
    Failure::Faults(at(path, "E6006", &message, &help).into())
}
