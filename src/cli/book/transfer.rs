//! The whole book as comma-separated tables, and back to the same rows.

use std::path::Path;

use rusqlite::types::ValueRef;
use rusqlite::{Connection, Transaction, params_from_iter};

/// A table of the export: rows are named by what people know, not by numbers of the file.
struct Table {
    file: &'static str,
    columns: &'static [&'static str],
    select: &'static str,
    insert: &'static str,
}

/// In an order in which each finds what it refers to.
const TABLES: &[Table] = &[
    Table {
        file: "clients.csv",
        columns: &["client", "archived_on"],
        select: "SELECT code, archived_on FROM client ORDER BY code",
        insert: "INSERT INTO client (code, archived_on) VALUES (?1, ?2)",
    },
    Table {
        file: "plans.csv",
        columns: &[
            "client",
            "sha256",
            "name",
            "filed_on",
            "first_day",
            "last_day",
            "course",
            "text",
        ],
        select: "SELECT code, sha256, name, filed_on, first_day, last_day, course, text
                 FROM plan JOIN client ON client.id = client_id ORDER BY code, plan.id",
        insert: "INSERT INTO plan
                 (client_id, sha256, name, filed_on, first_day, last_day, course, text)
                 VALUES ((SELECT id FROM client WHERE code = ?1), ?2, ifnull(?3, ''), ?4, ?5, ?6,
                         ifnull(?7, ''), ?8)",
    },
    Table {
        file: "sessions.csv",
        columns: &[
            "client",
            "done_on",
            "part",
            "plan_sha256",
            "week",
            "day",
            "at",
            "is_light",
            "note",
        ],
        select: "SELECT code, done_on, part, sha256, week, day, at, is_light, note
                 FROM session JOIN client ON client.id = session.client_id
                      LEFT JOIN plan ON plan.id = plan_id
                 ORDER BY code, done_on, part",
        insert: "INSERT INTO session
                 (client_id, done_on, part, plan_id, week, day, at, is_light, note)
                 SELECT id, ?2, ?3,
                        (SELECT plan.id FROM plan WHERE plan.client_id = client.id AND sha256 = ?4),
                        ?5, ?6, ?7, ?8, ifnull(?9, '')
                 FROM client WHERE code = ?1",
    },
    Table {
        file: "items.csv",
        columns: &[
            "client",
            "done_on",
            "part",
            "place",
            "exercise",
            "asked_sets",
            "asked_amount",
            "asked_load_g",
            "asked_rir",
            "note",
        ],
        select:
            "SELECT code, done_on, part, place, exercise, asked_sets, asked_amount, asked_load_g,
                        asked_rir, item.note
                 FROM item JOIN session ON session.id = session_id
                           JOIN client ON client.id = client_id
                 ORDER BY code, done_on, part, place",
        insert: "INSERT INTO item (session_id, place, exercise, asked_sets, asked_amount,
                                   asked_load_g, asked_rir, note)
                 SELECT session.id, ?4, ?5, ?6, ?7, ?8, ?9, ifnull(?10, '')
                 FROM session JOIN client ON client.id = client_id
                 WHERE code = ?1 AND done_on = ?2 AND part = ?3",
    },
    Table {
        file: "sets.csv",
        columns: &[
            "client",
            "done_on",
            "part",
            "place",
            "number",
            "load_kind",
            "load_g",
            "band",
            "amount",
            "measure",
            "right_amount",
            "effort_tenths",
            "effort_scale",
        ],
        select:
            "SELECT code, done_on, part, place, number, load_kind, load_g, band, amount, measure,
                        right_amount, effort_tenths, effort_scale
                 FROM set_done JOIN item ON item.id = item_id
                               JOIN session ON session.id = session_id
                               JOIN client ON client.id = client_id
                 ORDER BY code, done_on, part, place, number",
        insert: "INSERT INTO set_done (item_id, number, load_kind, load_g, band, amount, measure,
                                       right_amount, effort_tenths, effort_scale)
                 SELECT item.id, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12, ?13
                 FROM item JOIN session ON session.id = session_id
                           JOIN client ON client.id = client_id
                 WHERE code = ?1 AND done_on = ?2 AND part = ?3 AND place = ?4",
    },
    Table {
        file: "measures.csv",
        columns: &["client", "taken_on", "kind", "site", "method", "thousandths"],
        select: "SELECT code, taken_on, kind, site, method, value
                 FROM measure JOIN client ON client.id = client_id
                 ORDER BY code, taken_on, kind, site, method",
        insert: "INSERT INTO measure (client_id, taken_on, kind, site, method, value)
                 VALUES ((SELECT id FROM client WHERE code = ?1), ?2, ?3, ifnull(?4, ''),
                         ifnull(?5, ''), ?6)",
    },
    Table {
        file: "remarks.csv",
        columns: &["client", "made_on", "text"],
        select: "SELECT code, made_on, text FROM remark JOIN client ON client.id = client_id
                 ORDER BY code, made_on, remark.id",
        insert: "INSERT INTO remark (client_id, made_on, text)
                 VALUES ((SELECT id FROM client WHERE code = ?1), ?2, ?3)",
    },
];

/// The names of the tables' files.
pub(in crate::cli) fn files() -> impl Iterator<Item = &'static str> {
    TABLES.iter().map(|table| table.file)
}

/// Every table as its file's name and text.
pub(in crate::cli) fn export(
    connection: &Connection,
) -> rusqlite::Result<Vec<(&'static str, String)>> {
    TABLES.iter().map(|table| Ok((table.file, text(connection, table)?))).collect()
}

fn text(connection: &Connection, table: &Table) -> rusqlite::Result<String> {
    let mut writer =
        csv::WriterBuilder::new().terminator(csv::Terminator::CRLF).from_writer(Vec::new());
    let in_memory = "a list of bytes takes every row";
    writer.write_record(table.columns).expect(in_memory);
    let mut query = connection.prepare(table.select)?;
    let mut rows = query.query([])?;
    while let Some(row) = rows.next()? {
        let cells = (0..table.columns.len()).map(|at| row.get_ref(at).map(cell));
        writer.write_record(cells.collect::<rusqlite::Result<Vec<String>>>()?).expect(in_memory);
    }
    let bytes = writer.into_inner().expect(in_memory);
    Ok(String::from_utf8_lossy(&bytes).into_owned())
}

/// A value as text that no spreadsheet takes for a formula: an apostrophe leads one that would be.
fn cell(value: ValueRef<'_>) -> String {
    match value {
        ValueRef::Integer(number) => number.to_string(),
        ValueRef::Real(number) => number.to_string(),
        ValueRef::Text(bytes) => {
            let text = String::from_utf8_lossy(bytes);
            let is_formula = text.starts_with(['=', '+', '-', '@', '\t', '\r', '\'']);
            if is_formula { format!("'{text}") } else { text.into_owned() }
        }
        ValueRef::Null | ValueRef::Blob(_) => String::new(),
    }
}

/// Why a table cannot be taken in.
#[derive(Debug)]
pub(in crate::cli) struct Refused {
    /// The table's file.
    pub(in crate::cli) file: &'static str,
    /// The line, the headings counted; 1 for the headings.
    pub(in crate::cli) line: u64,
    /// What is wrong.
    pub(in crate::cli) what: String,
}

/// Takes in one table. Gives how many rows.
pub(in crate::cli) fn import(
    transaction: &Transaction<'_>,
    folder: &Path,
    read: &dyn Fn(&Path) -> Option<String>,
) -> rusqlite::Result<Result<usize, Refused>> {
    let mut count = 0;
    for table in TABLES {
        let Some(text) = read(&folder.join(table.file)) else { continue };
        match take(transaction, table, &text) {
            Ok(rows) => count += rows,
            Err(refused) => return Ok(Err(refused)),
        }
    }
    Ok(Ok(count))
}

fn take(transaction: &Transaction<'_>, table: &Table, text: &str) -> Result<usize, Refused> {
    let refuse = |line: u64, what: String| Refused { file: table.file, line, what };
    let mut reader = csv::ReaderBuilder::new().from_reader(text.as_bytes());
    let head = reader.headers().map_err(|error| refuse(1, error.to_string()))?.clone();
    if head.iter().ne(table.columns.iter().copied()) {
        return Err(refuse(1, format!("the columns are not {}", table.columns.join(", "))));
    }
    let broken = |error: rusqlite::Error| refuse(1, error.to_string());
    let mut query = transaction.prepare(table.insert).map_err(broken)?;
    let mut count = 0;
    for record in reader.records() {
        let record = record.map_err(|error| refuse(0, error.to_string()))?;
        let line = record.position().map_or(0, csv::Position::line);
        let cells = record.iter().map(|cell| {
            let cell = cell.strip_prefix('\'').unwrap_or(cell);
            Some(cell).filter(|cell| !cell.is_empty())
        });
        let rows =
            query.execute(params_from_iter(cells)).map_err(|error| refuse(line, told(&error)))?;
        if rows != 1 {
            return Err(refuse(line, "its client or session is in none of the tables".to_owned()));
        }
        count += 1;
    }
    Ok(count)
}

fn told(error: &rusqlite::Error) -> String {
    let text = error.to_string();
    if text.contains("UNIQUE") {
        "the book has this row already, or the table has it twice".to_owned()
    } else {
        text
    }
}
