//! The plan as comma-separated values, read back by a reader of our own that is as strict as the
//! grammar of RFC 4180 section 2.

use weekwright::sheets::Options;

use crate::sample::{exotic, sheet_of, tide};

/// Reads the grammar of RFC 4180: CRLF ends a record, a quoted field may hold commas, quotes that
/// are doubled, and breaks; a bare field may hold none of them.
fn read(text: &str) -> Vec<Vec<String>> {
    let mut records = vec![vec![String::new()]];
    let mut rest = text.strip_suffix("\r\n").expect("the last record ends with CRLF");
    loop {
        let (field, after) = if let Some(quoted) = rest.strip_prefix('"') {
            let mut end = quoted.find('"').expect("a closing quote");
            while quoted[end + 1..].starts_with('"') {
                end = end + 2 + quoted[end + 2..].find('"').expect("a closing quote");
            }
            (quoted[..end].replace("\"\"", "\""), &quoted[end + 1..])
        } else {
            let end = rest.find([',', '\r']).unwrap_or(rest.len());
            assert!(!rest[..end].contains(['"', '\n']), "a bare field holds no quote or break");
            (rest[..end].to_owned(), &rest[end..])
        };
        *records.last_mut().and_then(|record| record.last_mut()).expect("a field") = field;
        if let Some(after) = after.strip_prefix(',') {
            records.last_mut().expect("a record").push(String::new());
            rest = after;
        } else if let Some(after) = after.strip_prefix("\r\n") {
            records.push(vec![String::new()]);
            rest = after;
        } else {
            assert!(after.is_empty(), "nothing follows a closing quote: {after}");
            return records;
        }
    }
}

/// The worked example of RFC 4180 section 2, rules 6 and 7.
#[test]
fn the_reader_knows_the_examples_of_the_standard() {
    let read = read("\"aaa\",\"b\r\nbb\",\"ccc\"\r\nzzz,\"y\"\"yy\",xxx\r\n");
    assert_eq!(read, [["aaa", "b\r\nbb", "ccc"], ["zzz", "y\"yy", "xxx"]]);
}

#[test]
fn table_of_the_sample() {
    insta::assert_snapshot!(sheet_of("csv", &tide(), &Options::default()));
}

#[test]
fn there_is_a_row_for_each_item_and_week() {
    let plan = tide();
    let records = read(&sheet_of("csv", &plan, &Options::default()));
    let sessions = plan.weeks.iter().flat_map(|week| &week.sessions);
    let items = sessions.flat_map(|session| &session.groups).flat_map(|group| &group.items);
    assert_eq!(records.len(), 1 + items.count());
    assert!(records.iter().all(|record| record.len() == records[0].len()));
    let column = |name: &str| records[0].iter().position(|found| found == name).expect("a column");
    let squat = records
        .iter()
        .find(|record| record[column("exercise")] == "back-squat" && record[column("week")] == "2")
        .expect("the squat of week 2");
    for (name, cell) in [
        ("date", "2027-01-11"),
        ("label", "A"),
        ("amounts", "8 8 8"),
        ("load", "42.5"),
        ("load_unit", "kg"),
        ("rest_s", "150"),
        ("ramp", "20 kg × 8, 32.5 kg × 4"),
    ] {
        assert_eq!(squat[column(name)], cell, "{name}");
    }
}

#[test]
fn no_text_is_run_as_a_formula_and_every_number_stays_one() {
    let records = read(&sheet_of("csv", &exotic(), &Options::default()));
    let signs = ['=', '+', '-', '@', '\t', '\r'];
    for cell in records.iter().flatten() {
        assert!(!cell.starts_with(signs) || cell.parse::<f64>().is_ok(), "{cell}");
    }
    let column = |name: &str| records[0].iter().position(|found| found == name).expect("a column");
    assert_eq!(records[1][column("name")], "'=HYPERLINK(\"x\"), <img src=x onerror=alert(1)> 🚣");
    assert_eq!(records[1][column("how_to_load")], "'+ 45 lb on each side");
    assert_eq!(records[1][column("next")], "'@next: -2.5 lb | or hold");
    assert_eq!(records[1][column("load")], "135");
    assert_eq!(records[2][column("exercise")], "'-not in any catalog");
}
