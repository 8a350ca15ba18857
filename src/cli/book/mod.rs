//! The book on disk: one `SQLite` file per coach.
//!
//! One writer at a time; a second one waits. The journal is deleted after each transaction, so that the file alone is
//! the whole book and may be copied while nobody writes.

mod actions;
mod copies;
mod fault;
pub(super) mod measures;
pub(super) mod plans;
pub(super) mod sessions;
mod transfer;

use std::path::{Path, PathBuf};
use std::time::Duration;

use rusqlite::{Connection, OpenFlags, OptionalExtension as _, Transaction, TransactionBehavior};
use rusqlite_migration::{M, Migrations};

use super::Failure;
use super::output::Console;
use super::output::used::{self, Use};

pub(super) use actions::run;
pub(super) use sessions::Written;

/// The book's name where none is given.
pub(super) const NAME: &str = "weekwright.sqlite";
/// What tells our files from other databases; it stands in `schema.sql` too.
const APPLICATION: i64 = 0x5765_6b77;
/// How long a writer waits for another.
const PATIENCE: Duration = Duration::from_secs(10);

/// Each version of the book; a new one is added at the end and never changed.
const MIGRATIONS: &[M<'static>] = &[M::up(include_str!("schema.sql"))];

/// An open book. Where the file is not there yet, an empty one in memory answers until the first change makes it.
pub(super) struct Book {
    connection: Connection,
    path: PathBuf,
    state: State,
}

/// Whether the file is there.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum State {
    /// It was there before.
    Found,
    /// Only once something is written.
    Promised,
    /// This run made it.
    Made,
}

/// A client of the book.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Client {
    pub(super) id: i64,
    pub(super) code: String,
    pub(super) archived_on: Option<String>,
}

/// Where the book is: as named, else in the working folder, else beside a file; a new one goes into the working folder.
pub(super) fn place(named: Option<&Path>, beside: Option<&Path>) -> PathBuf {
    if let Some(named) = named {
        return named.to_owned();
    }
    let here = PathBuf::from(NAME);
    let there = beside.and_then(Path::parent).map(|folder| folder.join(NAME));
    match there {
        Some(there) if !here.exists() && there.exists() => there,
        _ => here,
    }
}

impl Book {
    /// Opens a book that is there.
    ///
    /// # Errors
    /// No such file, or one that is no book of this version.
    pub(super) fn open(path: &Path, console: &Console) -> Result<Book, Failure> {
        if !path.is_file() {
            return Err(fault::missing(path));
        }
        Book::at(path, OpenFlags::SQLITE_OPEN_READ_WRITE, console)
    }

    /// Opens a book, or promises a new one: what is refused before anything is written leaves no empty file.
    ///
    /// # Errors
    /// A file that is no book of this version.
    pub(super) fn open_or_promise(path: &Path, console: &Console) -> Result<Book, Failure> {
        if path.exists() {
            return Book::at(path, OpenFlags::SQLITE_OPEN_READ_WRITE, console);
        }
        copies::remark(path, console);
        let connection = Connection::open_in_memory().map_err(|error| fault::of(path, &error))?;
        Book { connection, path: path.to_owned(), state: State::Promised }.brought_up()
    }

    /// Says so where this run made the book.
    pub(super) fn announce(&self, console: &Console) {
        if self.state == State::Made {
            console.remark(&format!("a new book: {}", self.path.display()));
        }
    }

    /// Makes the file of a book that was promised.
    fn make(&mut self) -> Result<(), Failure> {
        if self.state != State::Promised {
            return Ok(());
        }
        let flags = OpenFlags::SQLITE_OPEN_READ_WRITE | OpenFlags::SQLITE_OPEN_CREATE;
        let made = Book::connected(&self.path, flags)?;
        used::note(&self.path, Use::Read);
        *self = Book { state: State::Made, ..made };
        Ok(())
    }

    fn at(path: &Path, flags: OpenFlags, console: &Console) -> Result<Book, Failure> {
        copies::remark(path, console);
        used::note(path, Use::Read);
        Book::connected(path, flags)
    }

    fn connected(path: &Path, flags: OpenFlags) -> Result<Book, Failure> {
        let told = |error| fault::of(path, &error);
        let flags = flags | OpenFlags::SQLITE_OPEN_NO_MUTEX;
        let connection = Connection::open_with_flags(path, flags).map_err(told)?;
        connection.busy_timeout(PATIENCE).map_err(told)?;
        let book = Book { connection, path: path.to_owned(), state: State::Found };
        book.is_ours()?;
        book.brought_up()
    }

    /// With the tables of this version.
    fn brought_up(mut self) -> Result<Book, Failure> {
        let told = |error| fault::of(&self.path, &error);
        self.connection.pragma_update(None, "foreign_keys", true).map_err(told)?;
        let versions = Migrations::from_slice(MIGRATIONS);
        let brought = versions.to_latest(&mut self.connection);
        brought.map_err(|error| fault::of_version(&self.path, error))?;
        Ok(self)
    }

    /// Refuses other databases and books of a newer version.
    fn is_ours(&self) -> Result<(), Failure> {
        let number = |pragma: &str| {
            let read = self.connection.pragma_query_value(None, pragma, |row| row.get::<_, i64>(0));
            read.map_err(|error| fault::of(&self.path, &error))
        };
        let tables: i64 = self
            .connection
            .query_row("SELECT count(*) FROM sqlite_schema", [], |row| row.get(0))
            .map_err(|error| fault::of(&self.path, &error))?;
        let is_empty = tables == 0 && number("user_version")? == 0;
        if !is_empty && number("application_id")? != APPLICATION {
            return Err(fault::no_book(&self.path));
        }
        if usize::try_from(number("user_version")?).is_ok_and(|version| version > MIGRATIONS.len())
        {
            return Err(fault::newer(&self.path));
        }
        Ok(())
    }

    /// Where the book is.
    pub(super) fn path(&self) -> &Path {
        &self.path
    }

    /// One change: all of it or nothing.
    ///
    /// # Errors
    /// What the work says, or a book that cannot be written.
    pub(super) fn change<T>(
        &mut self,
        work: impl FnOnce(&Transaction<'_>) -> rusqlite::Result<T>,
    ) -> Result<T, Failure> {
        self.make()?;
        let transaction = self.begin()?;
        let told = |error: rusqlite::Error| fault::of(&self.path, &error);
        let done = work(&transaction).map_err(told)?;
        transaction.commit().map_err(told)?;
        Ok(done)
    }

    /// As `change`, for work that may refuse: then nothing is changed, and no book is made.
    ///
    /// # Errors
    /// As for `change`.
    fn change_unless_refused<T, E>(
        &mut self,
        work: impl Fn(&Transaction<'_>) -> rusqlite::Result<Result<T, E>>,
    ) -> Result<Result<T, E>, Failure> {
        let told = |error: rusqlite::Error| fault::of(&self.path, &error);
        if self.state == State::Promised {
            let tried = work(&self.begin()?).map_err(told)?;
            if tried.is_err() {
                return Ok(tried);
            }
            self.make()?;
        }
        let told = |error: rusqlite::Error| fault::of(&self.path, &error);
        let transaction = self.begin()?;
        let done = work(&transaction).map_err(told)?;
        if done.is_ok() {
            transaction.commit().map_err(told)?;
        }
        Ok(done)
    }

    fn begin(&self) -> Result<Transaction<'_>, Failure> {
        let begun = Transaction::new_unchecked(&self.connection, TransactionBehavior::Immediate);
        begun.map_err(|error| fault::of(&self.path, &error))
    }

    /// A question to the book.
    ///
    /// # Errors
    /// A book that cannot be read.
    pub(super) fn ask<T>(
        &self,
        work: impl FnOnce(&Connection) -> rusqlite::Result<T>,
    ) -> Result<T, Failure> {
        work(&self.connection).map_err(|error| fault::of(&self.path, &error))
    }

    /// A client by code.
    ///
    /// # Errors
    /// No such client, with the nearest that there is.
    pub(super) fn client(&self, code: &str) -> Result<Client, Failure> {
        let clients = self.clients()?;
        let found = clients.iter().find(|client| client.code == code).cloned();
        found.ok_or_else(|| {
            let codes: Vec<&str> = clients.iter().map(|client| client.code.as_str()).collect();
            fault::no_client(&self.path, code, &codes)
        })
    }

    /// Whether nothing but plans is written down of a client.
    ///
    /// # Errors
    /// A book that cannot be read.
    pub(super) fn is_blank(&self, client: &Client) -> Result<bool, Failure> {
        self.ask(|connection| {
            connection.query_row(
                "SELECT NOT EXISTS (SELECT 1 FROM session WHERE client_id = ?1)
                        AND NOT EXISTS (SELECT 1 FROM measure WHERE client_id = ?1)",
                [client.id],
                |row| row.get(0),
            )
        })
    }

    /// Every client in the order of their codes.
    ///
    /// # Errors
    /// A book that cannot be read.
    pub(super) fn clients(&self) -> Result<Vec<Client>, Failure> {
        self.ask(|connection| {
            let mut query =
                connection.prepare("SELECT id, code, archived_on FROM client ORDER BY code")?;
            let rows = query.query_map([], |row| {
                Ok(Client { id: row.get(0)?, code: row.get(1)?, archived_on: row.get(2)? })
            })?;
            rows.collect()
        })
    }
}

/// The id of a client, who is added where the book has none of that code.
pub(super) fn client_id(transaction: &Transaction<'_>, code: &str) -> rusqlite::Result<i64> {
    let known = transaction
        .query_row("SELECT id FROM client WHERE code = ?1", [code], |row| row.get(0))
        .optional()?;
    if let Some(id) = known {
        Ok(id)
    } else {
        transaction.execute("INSERT INTO client (code) VALUES (?1)", [code])?;
        Ok(transaction.last_insert_rowid())
    }
}
