//! A table that was filled in: read from a file, by a library for each form.

use std::fs;
use std::io::Cursor;
use std::path::Path;

use calamine::{Data, Reader as _, Xlsx};

use crate::book::table::Bad;
use crate::cli::output::io_fault;
use crate::cli::{Failure, Faults, files};
use crate::diagnostic::{Diagnostic, Label};
use crate::input::source::MOST_PLAN_BYTES;

/// Every row of a table as text.
///
/// # Errors
/// A file that cannot be read.
pub(super) fn rows(path: &Path) -> Result<Vec<Vec<String>>, Failure> {
    let is_workbook = path.extension().is_some_and(|ending| ending.eq_ignore_ascii_case("xlsx"));
    if is_workbook {
        return workbook(path);
    }
    let source = files::read_source(path).map_err(Faults::from)?;
    Ok(separated(&source.text))
}

/// Values apart by commas, semicolons or tabs: whichever the first line has most of.
fn separated(text: &str) -> Vec<Vec<String>> {
    let head = text.lines().next().unwrap_or_default();
    let count = |apart: u8| head.bytes().filter(|byte| *byte == apart).count();
    let apart =
        *b",;\t".iter().max_by_key(|apart| (count(**apart), **apart == b',')).unwrap_or(&b',');
    let mut reader = csv::ReaderBuilder::new()
        .delimiter(apart)
        .has_headers(false)
        .flexible(true)
        .from_reader(text.as_bytes());
    // The text is UTF-8 and rows may differ in length, so there is nothing to refuse.
    let records = reader.records().filter_map(Result::ok);
    records.map(|record| record.iter().map(str::to_owned).collect()).collect()
}

/// The first sheet of a workbook.
fn workbook(path: &Path) -> Result<Vec<Vec<String>>, Failure> {
    let place = || Label::whole(path.display().to_string());
    let size = fs::metadata(path).map(|file| file.len());
    let size = size
        .map_err(|error| Failure::Faults(io_fault(&path.display().to_string(), &error).into()))?;
    if size > MOST_PLAN_BYTES as u64 {
        let fault = Diagnostic::error("E1001", "the file is larger than 4 MB").at(place());
        return Err(Failure::Faults(fault.help("check that it is the right file").into()));
    }
    let bytes = fs::read(path)
        .map_err(|error| Failure::Faults(io_fault(&path.display().to_string(), &error).into()))?;
    let unread = |error: &dyn std::fmt::Display| {
        let fault = Diagnostic::error("E6010", format!("the workbook cannot be read: {error}"));
        let help = "save it as `.xlsx` again, or as comma-separated values";
        Failure::Faults(fault.at(place()).help(help).into())
    };
    let mut book: Xlsx<_> = Xlsx::new(Cursor::new(bytes)).map_err(|error| unread(&error))?;
    let sheet = book.worksheet_range_at(0).ok_or_else(|| unread(&"it has no sheet"))?;
    let sheet = sheet.map_err(|error| unread(&error))?;
    let first = sheet.start().unwrap_or((0, 0));
    let blank = vec![Vec::new(); first.0 as usize];
    let lead = vec![String::new(); first.1 as usize];
    let rows = sheet.rows().map(|row| lead.iter().cloned().chain(row.iter().map(cell)).collect());
    Ok(blank.into_iter().chain(rows).skip_while(Vec::is_empty).collect())
}

/// A cell as one would type it. Days come as numbers of days in a workbook.
fn cell(data: &Data) -> String {
    match data {
        Data::Empty => String::new(),
        Data::DateTime(time) if time.is_datetime() => {
            let (year, month, day, hour, minute, ..) = time.to_ymd_hms_milli();
            if time.as_f64() < 1.0 {
                format!("{hour:02}:{minute:02}")
            } else {
                format!("{year:04}-{month:02}-{day:02}")
            }
        }
        Data::DateTimeIso(text) => text.chars().take(10).collect(),
        other => other.to_string(),
    }
}

/// Every bad cell, by row and column.
pub(super) fn faults(path: &Path, bad: &[Bad], is_error: bool) -> Faults {
    let told = |bad: &Bad| {
        let place = match bad.column.as_str() {
            "" => format!("row {}", bad.row),
            column if bad.letter.is_empty() => format!("row {}, `{column}`", bad.row),
            column => format!("{}{}, `{column}`", bad.letter, bad.row),
        };
        let message = format!("{place}: {}", bad.message);
        let found = match is_error {
            true => Diagnostic::error("E6015", message),
            false => Diagnostic::warning("E6015", message),
        };
        found.at(Label::whole(path.display().to_string())).help(bad.help.clone())
    };
    Faults::new(bad.iter().map(told).collect(), Vec::new())
}
