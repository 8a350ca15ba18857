//! Body measures in the book.

use rusqlite::{Connection, Transaction, params};

use crate::book::body::Measured;
use crate::input::clock;

/// A value is kept in whole thousandths of its unit.
const THOUSANDTHS: f64 = 1000.0;

/// Writes measures; one of the same day, kind, site and method takes the place of what stood there. Gives how many did.
pub(in crate::cli) fn write(
    transaction: &Transaction<'_>,
    client: i64,
    measured: &[Measured],
) -> rusqlite::Result<usize> {
    let mut replaced = 0;
    for one in measured {
        let key = params![client, one.date.to_string(), one.kind.id(), one.site, one.method];
        replaced += transaction.execute(
            "DELETE FROM measure
             WHERE client_id = ?1 AND taken_on = ?2 AND kind = ?3 AND site = ?4 AND method = ?5",
            key,
        )?;
        transaction.execute(
            "INSERT INTO measure (client_id, taken_on, kind, site, method, value)
             VALUES (?1, ?2, ?3, ?4, ?5, ?6)",
            params![
                client,
                one.date.to_string(),
                one.kind.id(),
                one.site,
                one.method,
                thousandths(one.value)
            ],
        )?;
    }
    Ok(replaced)
}

#[allow(clippy::cast_possible_truncation, reason = "measures lie within the bounds of their kinds")]
fn thousandths(value: f64) -> i64 {
    (value * THOUSANDTHS).round() as i64
}

/// The measures of a client, oldest first.
pub(in crate::cli) fn of(connection: &Connection, client: i64) -> rusqlite::Result<Vec<Measured>> {
    let mut query = connection.prepare(
        "SELECT taken_on, kind, site, method, value FROM measure WHERE client_id = ?1
         ORDER BY taken_on, id",
    )?;
    let mut rows = query.query([client])?;
    let mut found = Vec::new();
    while let Some(row) = rows.next()? {
        let (date, kind): (String, String) = (row.get(0)?, row.get(1)?);
        let Some((date, kind)) = clock::date(&date).zip(kind.parse().ok()) else { continue };
        let value = f64::from(row.get::<_, i32>(4)?) / THOUSANDTHS;
        found.push(Measured { date, kind, site: row.get(2)?, method: row.get(3)?, value });
    }
    Ok(found)
}
