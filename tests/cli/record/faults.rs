//! What goes wrong with a book, and what a coach reads then.

use std::fs;
use std::process::Output;

use super::super::text;
use super::{Desk, PLAN, said};

#[track_caller]
fn tells(output: &Output, code: &str, exit: i32) {
    let told = said(output);
    // What is wrong, and what to do about it.
    assert!(told.contains(&format!("[{code}]")) && told.contains(". "), "{code}: {told}");
    assert_eq!(output.status.code(), Some(exit), "{code}: {told}");
}

fn begun() -> Desk {
    let desk = Desk::new();
    desk.log("2027-01-04", "bench-press 32.5 10 10 12; plank 30s 30s");
    desk
}

#[test]
fn a_line_that_cannot_be_read_is_shown_with_its_place() {
    let desk = Desk::new();
    let log = |lines: &str| desk.run(&["log", PLAN, "--date", "2027-01-04", lines]);
    tells(&log("bench-press 32.5 ten"), "E6010", 2);
    tells(&log("bench-press 32.5"), "E6011", 2);
    tells(&log("bench-press 32.5 500"), "E6012", 2);
    tells(&log("bnech-press 32.5 10"), "E6013", 2);
    let both = log("bnech-press 32.5 10; plank 30m");
    assert_eq!(said(&both).matches("[E60").count(), 2, "all at once");
    assert!(said(&both).contains("Did you mean `bench-press`?"));
    tells(&desk.run(&["log", PLAN, "--date", "2027-13-04", "plank 30s"]), "E2002", 2);
    tells(&desk.run(&["log", PLAN, "--week", "1", "--day", "sun", "plank 30s"]), "E6008", 2);
    tells(&desk.run(&["log", PLAN, "--week", "1", "--day", "mon"]), "E5001", 2);
    tells(&desk.run(&["measure", "dock-03", "--mass", "800"]), "E6012", 2);
    assert!(
        !desk.path().join("weekwright.sqlite").exists(),
        "nothing was written, so no book was made"
    );
}

/// What could be two days is asked for, with both of them; what can be one only is taken as it is written.
#[test]
fn a_day_that_could_be_two_is_asked_for() {
    let desk = Desk::new();
    let log = |date: &str| desk.run(&["log", PLAN, "--date", date, "plank 30s 30s"]);
    let two = log("03/04/2027");
    tells(&two, "E2002", 2);
    assert!(said(&two).contains("could be 2027-04-03 or 2027-03-04"), "{}", said(&two));
    assert!(!desk.path().join("weekwright.sqlite").exists());
    tells(&desk.run(&["measure", "dock-03", "--date", "3-4-2027", "--mass", "80"]), "E2002", 2);
    assert!(text(&log("18.1.2027").stdout).contains("Monday 2027-01-18"));
    assert!(text(&log("25/01/2027").stdout).contains("Monday 2027-01-25"));
    // A table without a plan's weeks to decide it, and one whose other rows do.
    let table = |rows: &[&str]| {
        let head = "date;exercise;load_done;done\n";
        fs::write(desk.path().join("t.csv"), format!("{head}{}\n", rows.join("\n"))).unwrap();
        desk.run(&["log", "dock-03", "--from", "t.csv"])
    };
    let two = table(&["03/04/2026;plank;;30s"]);
    tells(&two, "E6015", 2);
    assert!(said(&two).contains("A2, `date`: `03/04/2026` could be 2026-04-03 or 2026-03-04"));
    let one = table(&["03/04/2026;plank;;30s", "25/03/2026;plank;;30s"]);
    assert!(text(&one.stdout).contains("Friday 2026-04-03"), "{}", said(&one));
}

#[test]
fn another_file_is_left_alone() {
    let desk = Desk::new();
    let file = desk.path().join("weekwright.sqlite");
    fs::write(&file, "not a database, but long enough to be read as the head of one: 0123456789 0123456789 0123456789").unwrap();
    let before = fs::read(&file).unwrap();
    tells(&desk.run(&["log", PLAN, "--date", "2027-01-04", "plank 30s"]), "E6001", 2);
    assert_eq!(fs::read(&file).unwrap(), before);
    fs::remove_file(&file).unwrap();
    let other = rusqlite::Connection::open(&file).unwrap();
    other.execute_batch("CREATE TABLE recipes (name TEXT)").unwrap();
    drop(other);
    tells(&desk.run(&["review", "dock-03"]), "E6001", 2);
}

#[test]
fn a_book_of_a_newer_version_is_left_alone() {
    let desk = begun();
    let file = desk.path().join("weekwright.sqlite");
    let book = rusqlite::Connection::open(&file).unwrap();
    book.pragma_update(None, "user_version", 99).unwrap();
    drop(book);
    let before = fs::read(&file).unwrap();
    tells(&desk.run(&["log", PLAN, "--date", "2027-01-07", "back-squat 40 8"]), "E6002", 2);
    assert_eq!(fs::read(&file).unwrap(), before);
}

/// A second writer waits; where the first does not end, the second says so and changes nothing.
#[test]
fn two_writers_wait_for_each_other() {
    let desk = begun();
    let book = rusqlite::Connection::open(desk.path().join("weekwright.sqlite")).unwrap();
    book.execute_batch("BEGIN IMMEDIATE").unwrap();
    tells(&desk.run(&["log", PLAN, "--date", "2027-01-07", "back-squat 40 8"]), "E6003", 1);
    book.execute_batch("ROLLBACK").unwrap();
    desk.log("2027-01-07", "back-squat 40 8");
    assert!(desk.done(&["book", "check"]).contains("2 sessions"));
}

#[test]
fn a_damaged_book_is_found_by_its_check() {
    let desk = begun();
    for day in 1..=27 {
        desk.log(
            &format!("2028-02-{day:02}"),
            "bench-press 32.5 10 10 12; back-squat 40 8 8 8; plank 30s",
        );
    }
    let file = desk.path().join("weekwright.sqlite");
    let mut bytes = fs::read(&file).unwrap();
    let middle = bytes.len() / 2;
    bytes[middle..middle + 4096].fill(0xa5);
    fs::write(&file, bytes).unwrap();
    tells(&desk.run(&["book", "check"]), "E6004", 1);
}

#[test]
fn where_no_book_can_be_it_says_so() {
    let desk = Desk::new();
    let book = ["--book", "no-such-folder/book.sqlite"];
    let output =
        desk.run(&[&["log", PLAN, "--date", "2027-01-04", "plank 30s"][..], &book].concat());
    tells(&output, "E6005", 1);
    tells(&begun().run(&["review", "dock-3"]), "E6006", 2);
    let near = begun().run(&["review", "dock-3"]);
    assert!(said(&near).contains("Did you mean `dock-03`?"), "{}", said(&near));
}

#[test]
fn a_copy_that_a_second_machine_left_is_named() {
    let desk = begun();
    let copy = "weekwright (conflicted copy 2027-01-05).sqlite";
    fs::copy(desk.path().join("weekwright.sqlite"), desk.path().join(copy)).unwrap();
    let output = desk.run(&["review", "dock-03"]);
    tells(&output, "W6007", 0);
    assert!(said(&output).contains(copy));
}

/// A result never takes the place of what it comes from.
#[test]
fn neither_plan_nor_book_is_replaced_by_a_result() {
    let desk = begun();
    let plan = desk.path().join("p.plan.yaml");
    fs::copy(PLAN, &plan).unwrap();
    tells(&desk.run(&["next", "p.plan.yaml", "-o", "p.plan.yaml"]), "E1011", 2);
    let page =
        desk.run(&["sheet", "--progress", "dock-03", "--as", "html", "-o", "weekwright.sqlite"]);
    assert_eq!(page.status.code(), Some(2), "{}", text(&page.stderr));
    assert!(desk.done(&["book", "check"]).contains("is sound"));
}

#[test]
fn tables_that_cannot_be_taken_are_named_by_their_cells() {
    let desk = begun();
    let table = "date;exercise;load_done;done\n4.1.2027;plank;;thirty\n";
    fs::write(desk.path().join("t.csv"), table).unwrap();
    let output = desk.run(&["log", PLAN, "--from", "t.csv"]);
    tells(&output, "E6015", 2);
    assert!(said(&output).contains("D2, `done`"), "{}", said(&output));
    desk.done(&["book", "export", "out"]);
    tells(&desk.run(&["book", "import", "out"]), "E6016", 2);
    fs::write(desk.path().join("out/clients.csv"), "client\r\n").unwrap();
    tells(&desk.run(&["book", "import", "out", "--book", "new.sqlite"]), "E6016", 2);
    assert!(!desk.path().join("new.sqlite").exists(), "no table was taken in, so no book was made");
}

/// A slip in the year is kept and remarked, and neither ends the plan nor stretches the look back.
#[test]
fn a_session_of_another_year_changes_neither_what_comes_nor_the_look_back() {
    let desk = begun();
    let before = desk.next();
    for (date, told) in
        [("2031-01-04", "lies in the future"), ("2019-01-04", "lies outside the plan")]
    {
        let output = desk.run(&["log", PLAN, "--date", date, "bench-press 60 10 10 12"]);
        assert!(output.status.success() && said(&output).contains(told), "{}", said(&output));
    }
    assert_eq!(desk.next(), before);
    let output = desk.run(&["next", PLAN, "--format", "json"]);
    assert!(!said(&output).contains("the plan is over"), "{}", said(&output));
    let review = desk.done(&["review", "dock-03"]);
    assert!(review.starts_with("dock-03, 2027-01-04 to 2027-01-"), "{review}");
    let years = desk.done(&["review", "dock-03", "--from", "2019-01-01"]);
    assert!(years.contains("nothing in 4") && years.lines().count() < 80, "{years}");
}

/// `--week` and `--day` name a day of the plan: that is when it was done, where no date says otherwise.
#[test]
fn a_week_and_a_day_of_the_plan_are_a_date() {
    let desk = begun();
    let told = desk.done(&["log", PLAN, "--week", "2", "--day", "thu", "back-squat 40 8 8"]);
    assert!(told.contains("Thursday 2027-01-14, week 2"), "{told}");
    let told = desk.done(&["log", "dock-03", "--week", "2", "--day", "mon", "bench-press 30 8 8"]);
    assert!(told.contains("Monday 2027-01-11, week 2"), "by the plan in the book: {told}");
    tells(&desk.run(&["log", "dock-03", "--week", "99", "--day", "mon", "plank 30s"]), "E6008", 2);
}
