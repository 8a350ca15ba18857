//! The sheets of sample plans, each format read back by something other than its writer.
#![allow(clippy::unwrap_used, reason = "a test may fail where it stands")]

#[path = "sheets/absurd.rs"]
mod absurd;
#[path = "sheets/calendar.rs"]
mod calendar;
#[path = "sheets/copied.rs"]
mod copied;
#[path = "sheets/page.rs"]
mod page;
#[path = "sheets/sample.rs"]
mod sample;
#[path = "sheets/table.rs"]
mod table;
#[path = "sheets/terminal.rs"]
mod terminal;
#[path = "sheets/wording.rs"]
mod wording;

use std::io;

use sample::{exotic, names, sheet_of, tide};
use weekwright::plan::file::Plan;
use weekwright::sheets::{Options, SHEETS, SheetError, sheet};

#[test]
fn every_format_has_its_own_word() {
    let words: Vec<&str> = SHEETS.iter().map(|sheet| sheet.format()).collect();
    assert_eq!(words, ["text", "html", "md", "csv", "ics", "yaml", "json"]);
    assert!(words.iter().all(|word| sheet(word).is_some_and(|found| found.format() == *word)));
    assert!(sheet("pdf").is_none());
}

#[test]
fn the_same_plan_gives_the_same_bytes() {
    for format in SHEETS.iter().map(|sheet| sheet.format()) {
        let first = sheet_of(format, &tide(), &Options::default());
        assert_eq!(first, sheet_of(format, &tide(), &Options::default()), "{format}");
    }
}

#[test]
fn json_gives_the_plan_back() {
    // YAML is the kept form, which has its own tests.
    for plan in [tide(), exotic()] {
        let json = sheet_of("json", &plan, &Options::default());
        assert_eq!(serde_json::from_str::<Plan>(&json).expect("json"), plan);
    }
}

/// A disk that takes some bytes and then no more.
struct Full(usize);

impl io::Write for Full {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        let taken = bytes.len().min(self.0);
        self.0 -= taken;
        if taken == 0 { Err(io::Error::from(io::ErrorKind::StorageFull)) } else { Ok(taken) }
    }

    fn flush(&mut self) -> io::Result<()> {
        Ok(())
    }
}

#[test]
fn a_full_disk_is_told_in_every_format() {
    for sheet in SHEETS {
        let result = sheet.write(&tide(), &names(), &Options::default(), &mut Full(1000));
        let Err(SheetError::Write(error)) = result else {
            panic!("{} says nothing", sheet.format())
        };
        assert_eq!(error.kind(), io::ErrorKind::StorageFull, "{}", sheet.format());
    }
}

#[test]
fn markdown_of_the_sample() {
    insta::assert_snapshot!(sheet_of("md", &tide(), &Options::default()));
}

/// What `CommonMark` 0.31 (sections 2.4, 4 and 6) would act on is led by a backslash.
#[test]
fn markdown_of_exotic_text_stays_text() {
    let text = sheet_of("md", &exotic(), &Options::default());
    assert!(text.starts_with("# \\<script\\>alert('tide')\\</script\\>, \"bow\";"), "{text}");
    assert!(!text.replace("\\<", "").contains('<'));
    assert!(text.contains("- 1\\. Not an ordered list"));
    assert!(text.contains("- \\- nor a bullet \\<\\!-- nor a comment"));
    let rows = text.lines().filter(|line| line.starts_with("| A |"));
    let bars = rows.map(|row| row.replace("\\|", "").matches('|').count());
    assert_eq!(bars.collect::<Vec<_>>(), [4]);
}
