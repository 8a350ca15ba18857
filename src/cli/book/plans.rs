//! Plans in the book: each as the file that was handed over.

use std::path::PathBuf;

use rusqlite::{Connection, OptionalExtension as _, Transaction, params};

use crate::catalog::sha256;

/// A plan as it was filed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(in crate::cli) struct Filed {
    pub(in crate::cli) id: i64,
    pub(in crate::cli) name: String,
    pub(in crate::cli) filed_on: String,
    pub(in crate::cli) text: String,
}

/// What is filed of a plan.
pub(in crate::cli) struct ToFile<'a> {
    pub(in crate::cli) name: &'a str,
    pub(in crate::cli) text: &'a str,
    pub(in crate::cli) first_day: Option<String>,
    pub(in crate::cli) last_day: Option<String>,
    pub(in crate::cli) course: String,
    pub(in crate::cli) today: String,
}

/// Files a plan. The same text is filed once, however often it comes.
pub(in crate::cli) fn file(
    transaction: &Transaction<'_>,
    client: i64,
    plan: &ToFile<'_>,
) -> rusqlite::Result<i64> {
    transaction.query_row(
        "INSERT INTO plan (client_id, sha256, name, filed_on, first_day, last_day, course, text)
         VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8)
         ON CONFLICT (client_id, sha256) DO UPDATE SET name = excluded.name
         RETURNING id",
        params![
            client,
            sha256(plan.text.as_bytes()),
            plan.name,
            plan.today,
            plan.first_day,
            plan.last_day,
            plan.course,
            plan.text
        ],
        |row| row.get(0),
    )
}

/// The latest plan that covers a date, else the latest without dates.
pub(in crate::cli) fn current(
    connection: &Connection,
    client: i64,
    date: &str,
) -> rusqlite::Result<Option<Filed>> {
    connection
        .query_row(
            "SELECT id, name, filed_on, text FROM plan
             WHERE client_id = ?1 AND (first_day IS NULL OR ?2 BETWEEN first_day AND last_day)
             ORDER BY first_day IS NULL, id DESC LIMIT 1",
            params![client, date],
            filed,
        )
        .optional()
}

/// The plans of a client that have a day in a span, the earliest filed first; of each course the latest, which has the
/// weeks of those before it.
pub(in crate::cli) fn between(
    connection: &Connection,
    client: i64,
    from: &str,
    to: &str,
) -> rusqlite::Result<Vec<Filed>> {
    let mut query = connection.prepare(
        "SELECT id, name, filed_on, text FROM plan WHERE id IN (
             SELECT max(id) FROM plan WHERE client_id = ?1 AND first_day <= ?3 AND last_day >= ?2 GROUP BY course
         ) ORDER BY id",
    )?;
    query.query_map(params![client, from, to], filed)?.collect()
}

/// The plan that was filed last.
pub(in crate::cli) fn latest(
    connection: &Connection,
    client: i64,
) -> rusqlite::Result<Option<Filed>> {
    connection
        .query_row(
            "SELECT id, name, filed_on, text FROM plan WHERE client_id = ?1 ORDER BY id DESC LIMIT 1",
            [client],
            filed,
        )
        .optional()
}

/// The files of a client's plans, as they were named when they were filed.
pub(super) fn names(connection: &Connection, client: i64) -> rusqlite::Result<Vec<PathBuf>> {
    let mut query = connection.prepare("SELECT DISTINCT name FROM plan WHERE client_id = ?1")?;
    query.query_map([client], |row| Ok(PathBuf::from(row.get::<_, String>(0)?)))?.collect()
}

fn filed(row: &rusqlite::Row<'_>) -> rusqlite::Result<Filed> {
    Ok(Filed { id: row.get(0)?, name: row.get(1)?, filed_on: row.get(2)?, text: row.get(3)? })
}
