//! `weekwright book`: what is done with the book as a whole.

use std::collections::BTreeSet;
use std::fs;
use std::io::{self, IsTerminal as _};
use std::path::{Path, PathBuf};

use rusqlite::backup::Backup;
use rusqlite::{Connection, params};

use super::{Book, plans, transfer};
use crate::cli::args::book::{BookAction, BookArgs};
use crate::cli::output::Console;
use crate::cli::output::io_fault;
use crate::cli::terminal::Terminal;
use crate::cli::{Exit, Failure, today};
use crate::diagnostic::{Diagnostic, Label, counted, quoted};
use crate::intake::Talk as _;

pub(in crate::cli) fn run(arguments: &BookArgs, console: &Console) -> Result<Exit, Failure> {
    let path = super::place(arguments.book.as_deref(), None);
    if let BookAction::Import { folder } = &arguments.action {
        return import(&mut Book::open_or_promise(&path, console)?, folder, console);
    }
    let mut book = Book::open(&path, console)?;
    match &arguments.action {
        BookAction::Check => check(&book, console),
        BookAction::List { archived } => list(&book, *archived, console),
        BookAction::Backup { folder } => backup(&book, folder, console),
        BookAction::Export { folder } => export(&book, folder, console),
        BookAction::Import { .. } => unreachable!("it was answered before"),
        BookAction::Forget { client } => forget(&mut book, client, console),
        BookAction::Archive { client, back } => archive(&mut book, client, *back, console),
        BookAction::Rename { client, new } => rename(&mut book, client, new, console),
        BookAction::Remark { client, text, date } => {
            let date = match date {
                Some(text) => today::typed("--date", text)?,
                None => today::today(),
            };
            let id = book.client(client)?.id;
            book.change(|change| {
                change.execute(
                    "INSERT INTO remark (client_id, made_on, text) VALUES (?1, ?2, ?3)",
                    params![id, date.to_string(), text],
                )
            })?;
            done(&format!("{client}, {date}: remark written"), console)
        }
    }
}

fn done(text: &str, console: &Console) -> Result<Exit, Failure> {
    console.print(&format!("{text}\n"))?;
    Ok(Exit::Done)
}

/// The database's own check, the links between tables, and what the book holds.
fn check(book: &Book, console: &Console) -> Result<Exit, Failure> {
    let faults = book.ask(|connection| {
        let mut found: Vec<String> = Vec::new();
        let mut query = connection.prepare("PRAGMA integrity_check")?;
        let rows = query.query_map([], |row| row.get::<_, String>(0))?;
        for row in rows {
            found.extend(Some(row?).filter(|told| told != "ok"));
        }
        let mut query = connection.prepare("PRAGMA foreign_key_check")?;
        let rows = query.query_map([], |row| row.get::<_, String>(0))?;
        for row in rows {
            found.push(format!("a row of `{}` belongs to none", row?));
        }
        Ok(found)
    })?;
    if let Some(first) = faults.first() {
        let more = faults.len() - 1;
        let message = format!(
            "the book is damaged: {first}{}",
            if more > 0 { format!(", and {more} more") } else { String::new() }
        );
        let fault = Diagnostic::error("E6004", message)
            .at(Label::whole(book.path.display().to_string()))
            .help("take the last backup, and write down again what is missing in it");
        return Err(Failure::Unwritten(fault));
    }
    let counts = book.ask(|connection| {
        let count = |table: &str| {
            connection
                .query_row(&format!("SELECT count(*) FROM {table}"), [], |row| row.get::<_, u32>(0))
        };
        Ok([
            count("client")?,
            count("plan")?,
            count("session")?,
            count("set_done")?,
            count("measure")?,
        ])
    })?;
    let [clients, plans, sessions, sets, measures] = counts;
    let told = [
        counted(clients as usize, "client", "clients"),
        counted(plans as usize, "plan", "plans"),
        counted(sessions as usize, "session", "sessions"),
        counted(sets as usize, "set", "sets"),
        counted(measures as usize, "body measure", "body measures"),
    ];
    done(&format!("{} is sound: {}", book.path.display(), told.join(", ")), console)
}

fn list(book: &Book, archived: bool, console: &Console) -> Result<Exit, Failure> {
    let clients = book.clients()?;
    let shown = clients.iter().filter(|client| client.archived_on.is_some() == archived);
    let lines: Vec<String> = shown.map(|client| format!("{}\n", client.code)).collect();
    console.print(&lines.concat())?;
    Ok(Exit::Done)
}

/// Copies the book by the library's own way, which is right also while another writes, and the files around it.
fn backup(book: &Book, folder: &Path, console: &Console) -> Result<Exit, Failure> {
    let unwritten = |path: &Path, error: &io::Error| {
        Failure::Unwritten(io_fault(&path.display().to_string(), error))
    };
    let target = free(folder);
    fs::create_dir_all(&target).map_err(|error| unwritten(&target, &error))?;
    let name = book.path.file_name().map_or_else(|| PathBuf::from(super::NAME), PathBuf::from);
    let file = target.join(name);
    let mut copy = Connection::open(&file).map_err(|error| super::fault::of(&file, &error))?;
    let copied = Backup::new(&book.connection, &mut copy)
        .and_then(|backup| backup.run_to_completion(1000, std::time::Duration::ZERO, None));
    copied.map_err(|error| super::fault::of(&file, &error))?;
    let around = book.path.parent().filter(|path| *path != Path::new("")).unwrap_or(Path::new("."));
    let mut count = 0;
    for file in files_around(around) {
        let below = file.strip_prefix(around).unwrap_or(&file);
        let to = target.join(below);
        if let Some(parent) = to.parent() {
            fs::create_dir_all(parent).map_err(|error| unwritten(parent, &error))?;
        }
        fs::copy(&file, &to).map_err(|error| unwritten(&to, &error))?;
        count += 1;
    }
    let told = counted(count, "file", "files");
    done(
        &format!("{}: the book and {told} of profiles, places and plans", target.display()),
        console,
    )
}

/// A folder named by the day that is not there yet.
fn free(folder: &Path) -> PathBuf {
    let day = today::today().to_string();
    let names = std::iter::once(day.clone()).chain((2..).map(|number| format!("{day}-{number}")));
    let mut paths = names.map(|name| folder.join(name));
    paths.find(|path| !path.exists()).expect("some number is free")
}

/// Profiles, places, plans and exercises beside the book: YAML and JSON files there and in the folders that are ours.
fn files_around(folder: &Path) -> Vec<PathBuf> {
    const FOLDERS: [&str; 5] = ["", "profiles", "profiles/places", "places", "plans"];
    let mut found: Vec<PathBuf> = Vec::new();
    for name in FOLDERS {
        let entries = fs::read_dir(folder.join(name)).into_iter().flatten().flatten();
        let paths = entries.map(|entry| entry.path()).filter(|path| path.is_file());
        found.extend(paths.filter(|path| {
            path.extension()
                .is_some_and(|ending| ["yaml", "yml", "json"].iter().any(|ours| ending == *ours))
        }));
    }
    found.sort();
    found
}

fn export(book: &Book, folder: &Path, console: &Console) -> Result<Exit, Failure> {
    fs::create_dir_all(folder)
        .map_err(|error| Failure::Unwritten(io_fault(&folder.display().to_string(), &error)))?;
    let tables = book.ask(transfer::export)?;
    for (file, text) in &tables {
        console.write(Some(&folder.join(file)), text)?;
    }
    done(&format!("{}: {}", folder.display(), counted(tables.len(), "table", "tables")), console)
}

fn import(book: &mut Book, folder: &Path, console: &Console) -> Result<Exit, Failure> {
    if !transfer::files().any(|file| folder.join(file).is_file()) {
        let fault = Diagnostic::error("E1004", "the folder has no table of a book")
            .at(Label::whole(folder.display().to_string()))
            .help("`weekwright book export FOLDER` writes them");
        return Err(Failure::Faults(fault.into()));
    }
    let read = |file: &Path| fs::read_to_string(file).ok();
    let taken = book.change_unless_refused(|change| transfer::import(change, folder, &read))?;
    let rows = taken.map_err(|refused| {
        let message = format!("line {}: {}", refused.line, refused.what);
        let fault = Diagnostic::error("E6016", message)
            .at(Label::whole(folder.join(refused.file).display().to_string()))
            .help("nothing was taken in; export again, or read the tables into a new book");
        Failure::Faults(fault.into())
    })?;
    book.announce(console);
    done(&format!("{}: {} taken in", book.path.display(), counted(rows, "row", "rows")), console)
}

/// Removes a client and everything of theirs, and gives the space back so that nothing can be read from the file.
fn forget(book: &mut Book, code: &str, console: &Console) -> Result<Exit, Failure> {
    let client = book.client(code)?;
    if io::stdin().is_terminal() && io::stderr().is_terminal() {
        let mut terminal = Terminal { console, draft: None };
        let answer =
            terminal.hear(&format!("Remove {code} and all that was written down? (y/n) [n]: "));
        if !answer.is_some_and(|answer| answer.trim().to_lowercase().starts_with('y')) {
            return done("nothing was removed", console);
        }
    }
    let path = book.path.clone();
    let told = |error: rusqlite::Error| super::fault::of(&path, &error);
    let plans = book.ask(|connection| plans::names(connection, client.id))?;
    book.connection.pragma_update(None, "secure_delete", true).map_err(told)?;
    book.change(|change| change.execute("DELETE FROM client WHERE id = ?1", [client.id]))?;
    book.connection.execute_batch("VACUUM").map_err(told)?;
    let left = files_of(&path, code, plans);
    let mut text = format!("{code} is out of {}, and its space is given back\n", path.display());
    if !left.is_empty() {
        text.push_str("Left where they are, yours to delete:\n");
        left.iter().for_each(|file| text.push_str(&format!("  {}\n", file.display())));
    }
    console.print(&text)?;
    Ok(Exit::Done)
}

/// Files near the book that are named after a client or say that they are of one, and the files of plans.
fn files_of(book: &Path, code: &str, plans: Vec<PathBuf>) -> Vec<PathBuf> {
    let folder = book.parent().filter(|path| *path != Path::new("")).unwrap_or(Path::new("."));
    let folders = [folder.to_owned(), folder.join("profiles"), folder.join("plans")];
    let is_named = |file: &Path| {
        let rest = file.file_name().and_then(|name| name.to_str()?.strip_prefix(code));
        rest.is_some_and(|rest| !rest.starts_with(|next: char| next.is_alphanumeric()))
    };
    let line = format!("client: {code}");
    let says = |file: &Path| {
        file.extension().is_some_and(|ending| ending == "yaml" || ending == "yml")
            && fs::read_to_string(file).is_ok_and(|text| text.lines().any(|one| one.trim() == line))
    };
    let near = folders
        .iter()
        .flat_map(|folder| fs::read_dir(folder).into_iter().flatten().flatten())
        .map(|entry| entry.path())
        .filter(|file| file.is_file() && (is_named(file) || says(file)));
    let bare = |file: &PathBuf| file.strip_prefix(".").map_or_else(|_| file.clone(), PathBuf::from);
    let plans = plans.into_iter().filter(|file| file.is_file());
    let found: BTreeSet<PathBuf> = near.chain(plans).map(|file| bare(&file)).collect();
    found.into_iter().collect()
}

fn archive(book: &mut Book, code: &str, back: bool, console: &Console) -> Result<Exit, Failure> {
    let client = book.client(code)?;
    let day = (!back).then(|| today::today().to_string());
    book.change(|change| {
        change.execute("UPDATE client SET archived_on = ?2 WHERE id = ?1", params![client.id, day])
    })?;
    let told = if back { "is back in the lists" } else { "left the lists and stays in the book" };
    done(&format!("{code} {told}"), console)
}

fn rename(book: &mut Book, code: &str, new: &str, console: &Console) -> Result<Exit, Failure> {
    let client = book.client(code)?;
    let is_plain = !new.trim().is_empty() && !new.contains(char::is_control) && new.len() <= 60;
    let is_taken = book.clients()?.iter().any(|other| other.code == new);
    if !is_plain || is_taken {
        let message = if is_taken { "the book has a client" } else { "a client cannot be called" };
        let fault = Diagnostic::error("E2002", format!("{message} {}", quoted(new)))
            .help("write another code or nickname");
        return Err(Failure::Faults(fault.into()));
    }
    book.change(|change| {
        change.execute("UPDATE client SET code = ?2 WHERE id = ?1", params![client.id, new])
    })?;
    console.remark(&format!(
        "write `client: {new}` into the profile too: plans name their client by it"
    ));
    done(&format!("{code} is now {new}"), console)
}
