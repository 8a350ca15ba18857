//! Sessions in the book.

use std::collections::BTreeMap;

use jiff::civil::Date;
use rusqlite::{Connection, OptionalExtension as _, Row, Transaction, params};

use crate::book::done::Load;
use crate::book::{Asked, DoneItem, DoneSession, DoneSet, Effort};
use crate::input::clock;

/// How a session was written: anew, or in place of one.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(in crate::cli) enum Written {
    New,
    /// The exercises that stood there before.
    Instead(Vec<String>),
}

/// What tells sessions of one day apart: the plan's week and day.
fn part(session: &DoneSession) -> String {
    let week = session.week.map(|week| week.to_string()).unwrap_or_default();
    let day = session.day.map(crate::words::Weekday::id).unwrap_or_default();
    let at = session.at.as_deref().unwrap_or_default();
    format!("{week}/{day}@{at}")
}

/// Writes a session; the same session again takes the place of what stood there.
pub(in crate::cli) fn write(
    transaction: &Transaction<'_>,
    client: i64,
    plan: Option<i64>,
    session: &DoneSession,
) -> rusqlite::Result<Written> {
    let date = session.date.to_string();
    let part = part(session);
    let before = transaction
        .query_row(
            "SELECT id FROM session WHERE client_id = ?1 AND done_on = ?2 AND part = ?3",
            params![client, date, part],
            |row| row.get::<_, i64>(0),
        )
        .optional()?;
    let written = match before {
        None => Written::New,
        Some(id) => {
            let mut query = transaction
                .prepare_cached("SELECT exercise FROM item WHERE session_id = ?1 ORDER BY place")?;
            let stood = query.query_map([id], |row| row.get(0))?.collect::<Result<_, _>>()?;
            transaction.execute("DELETE FROM session WHERE id = ?1", [id])?;
            Written::Instead(stood)
        }
    };
    transaction.execute(
        "INSERT INTO session (client_id, plan_id, done_on, part, week, day, at, is_light, note)
         VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9)",
        params![
            client,
            plan,
            date,
            part,
            session.week,
            session.day.map(crate::words::Weekday::id),
            session.at,
            session.is_light,
            session.note
        ],
    )?;
    let id = transaction.last_insert_rowid();
    for (place, item) in session.items.iter().enumerate() {
        write_item(transaction, id, place, item)?;
    }
    Ok(written)
}

/// The day of each client's last session, by the client's code.
pub(in crate::cli) fn last_days(
    connection: &Connection,
) -> rusqlite::Result<BTreeMap<String, Date>> {
    let mut query = connection.prepare(
        "SELECT code, max(done_on) FROM session JOIN client ON client.id = client_id GROUP BY client_id",
    )?;
    let rows =
        query.query_map([], |row| Ok((row.get::<_, String>(0)?, row.get::<_, String>(1)?)))?;
    let days = rows.filter_map(|row| match row {
        Ok((code, day)) => Some(Ok((code, clock::date(&day)?))),
        Err(error) => Some(Err(error)),
    });
    days.collect()
}

fn write_item(
    transaction: &Transaction<'_>,
    session: i64,
    place: usize,
    item: &DoneItem,
) -> rusqlite::Result<()> {
    let asked = item.asked;
    let mut query = transaction.prepare_cached(
        "INSERT INTO item
         (session_id, place, exercise, asked_sets, asked_amount, asked_load_g, asked_rir, note)
         VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8)",
    )?;
    query.execute(params![
        session,
        i64::try_from(place).unwrap_or(i64::MAX),
        item.exercise,
        asked.map(|asked| asked.sets),
        asked.map(|asked| asked.amount),
        asked.and_then(|asked| asked.load_g),
        asked.and_then(|asked| asked.rir),
        item.note
    ])?;
    let id = transaction.last_insert_rowid();
    let mut query = transaction.prepare_cached(
        "INSERT INTO set_done (item_id, number, load_kind, load_g, band, amount, measure, right_amount,
                               effort_tenths, effort_scale)
         VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10)",
    )?;
    for (number, set) in (1_i64..).zip(&item.sets) {
        let (kind, grams, band) = match &set.load {
            Load::Body => ("body", None, None),
            Load::Grams(grams) => ("load", Some(*grams), None),
            Load::Help(grams) => ("help", Some(*grams), None),
            Load::Band(name) => ("band", None, Some(name.as_str())),
        };
        query.execute(params![
            id,
            number,
            kind,
            grams,
            band,
            set.amount,
            set.measure.id(),
            set.right,
            set.effort.map(Effort::tenths),
            set.effort.map(Effort::scale)
        ])?;
    }
    Ok(())
}

/// The sessions of a client from one day to another, oldest first, with their sets.
pub(in crate::cli) fn between(
    connection: &Connection,
    client: i64,
    from: Date,
    to: Date,
) -> rusqlite::Result<Vec<DoneSession>> {
    let mut query = connection.prepare(
        "SELECT session.id, done_on, week, day, at, is_light, session.note,
                item.id, exercise, asked_sets, asked_amount, asked_load_g, asked_rir, item.note,
                load_kind, load_g, band, amount, measure, right_amount, effort_tenths, effort_scale, course
         FROM session LEFT JOIN plan ON plan.id = plan_id
                      LEFT JOIN item ON item.session_id = session.id
                      LEFT JOIN set_done ON set_done.item_id = item.id
         WHERE session.client_id = ?1 AND done_on BETWEEN ?2 AND ?3
         ORDER BY done_on, part, session.id, place, number",
    )?;
    let mut rows = query.query(params![client, from.to_string(), to.to_string()])?;
    let mut sessions: Vec<DoneSession> = Vec::new();
    let mut last: (Option<i64>, Option<i64>) = (None, None);
    while let Some(row) = rows.next()? {
        let id: i64 = row.get(0)?;
        if last.0 != Some(id) {
            sessions.push(session(row)?);
            last = (Some(id), None);
        }
        let Some(session) = sessions.last_mut() else { continue };
        let item_id: Option<i64> = row.get(7)?;
        if item_id.is_some() && last.1 != item_id {
            session.items.push(item(row)?);
            last.1 = item_id;
        }
        if let (Some(item), Some(set)) = (session.items.last_mut(), set(row)?) {
            item.sets.push(set);
        }
    }
    Ok(sessions)
}

fn session(row: &Row<'_>) -> rusqlite::Result<DoneSession> {
    let day: Option<String> = row.get(3)?;
    Ok(DoneSession {
        date: clock::date(&row.get::<_, String>(1)?).unwrap_or(Date::MIN),
        at: row.get(4)?,
        week: row.get(2)?,
        day: day.and_then(|day| day.parse().ok()),
        is_light: row.get(5)?,
        course: row.get::<_, Option<String>>(22)?.unwrap_or_default(),
        items: Vec::new(),
        note: row.get(6)?,
    })
}

fn item(row: &Row<'_>) -> rusqlite::Result<DoneItem> {
    let asked = match (row.get(9)?, row.get(10)?) {
        (Some(sets), Some(amount)) => {
            Some(Asked { sets, amount, load_g: row.get(11)?, rir: row.get(12)? })
        }
        _ => None,
    };
    Ok(DoneItem { exercise: row.get(8)?, asked, sets: Vec::new(), note: row.get(13)? })
}

fn set(row: &Row<'_>) -> rusqlite::Result<Option<DoneSet>> {
    let Some(kind) = row.get::<_, Option<String>>(14)? else { return Ok(None) };
    let grams: Option<u32> = row.get(15)?;
    let load = match (kind.as_str(), grams) {
        ("load", Some(grams)) => Load::Grams(grams),
        ("help", Some(grams)) => Load::Help(grams),
        ("band", _) => Load::Band(row.get::<_, Option<String>>(16)?.unwrap_or_default()),
        _ => Load::Body,
    };
    let scale: Option<String> = row.get(21)?;
    let tenths: Option<u32> = row.get(20)?;
    Ok(Some(DoneSet {
        load,
        amount: row.get(17)?,
        measure: row.get::<_, String>(18)?.parse().unwrap_or(crate::words::Measure::Reps),
        right: row.get(19)?,
        effort: scale.zip(tenths).and_then(|(scale, tenths)| Effort::on(&scale, tenths)),
    }))
}
