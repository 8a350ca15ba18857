//! From the set book to the coming week.

use std::fs;

use super::super::text;
use super::{COMES, Desk, PLAN, item, said};

#[test]
fn two_sessions_with_two_more_than_asked_raise_the_load() {
    let desk = Desk::new();
    let told = desk.log("2027-01-04", "bench-press 32.5 10 10 12 r3; plank 30s 30s");
    assert!(
        told.starts_with("dock-03, Monday 2027-01-04, week 1: 2 exercises with 5 sets"),
        "{told}"
    );
    desk.log("2027-01-07", "bench-press 32.5 10 10 12 r3; back-squat 40 10 10 10 r3");
    let next = desk.next();
    let bench = item(&next, 2, 0, "bench-press");
    assert_eq!(
        (bench["load_kg"].as_f64(), bench["basis"]["rule"].as_str()),
        (Some(35.0), Some("two-for-two"))
    );
    assert_eq!(bench["basis"]["load"], 32.5);
    assert_eq!(item(&next, 1, 0, "bench-press")["load_kg"], serde_json::Value::Null, "history");
    assert_eq!(item(&next, 2, 1, "back-squat")["load_kg"], 40.0);
    let output = desk.run(&["next", PLAN, "--on", COMES, "-o", "next.plan.yaml"]);
    let said = said(&output);
    assert!(said.contains("two sessions with two more than asked: 32.5 → 35 kg"), "{said}");
    let audit = desk.run(&["audit", "next.plan.yaml"]);
    assert_eq!(audit.status.code(), Some(0), "{}{}", text(&audit.stdout), text(&audit.stderr));
    let again = desk.done(&["next", "next.plan.yaml", "--on", COMES, "--format", "json"]);
    let again: serde_json::Value = serde_json::from_str(&again).unwrap();
    assert_eq!(item(&again, 2, 0, "bench-press")["load_kg"], 35.0, "the same from its own result");
}

/// The coming week is our own hand and no edit; what a coach edits before or after it still shows.
#[test]
fn a_coming_week_is_sealed_and_an_edit_still_shows() {
    let desk = Desk::new();
    let profile = desk.file_of_plan();
    desk.done(&["plan", &profile, "-o", "block.plan.yaml"]);
    let plan: serde_json::Value =
        serde_json::from_str(&desk.done(&["sheet", "block.plan.yaml", "--as", "json"])).unwrap();
    let groups = plan["weeks"][0]["sessions"][0]["groups"].as_array().unwrap();
    let items = groups.iter().flat_map(|group| group["items"].as_array().unwrap());
    let found = items.clone().find(|item| item.get("find_load").is_some()).unwrap();
    let id = found["exercise"].as_str().unwrap();
    let start = found["find_load"]["start_kg"].as_f64().unwrap();
    let line = format!("{id} {start}kg 8 8 r4");
    desk.done(&["log", "block.plan.yaml", "--date", "2027-01-04", &line]);
    desk.done(&["next", "block.plan.yaml", "--on", "2027-01-11", "-o", "second.plan.yaml"]);
    let text_of_plan = desk.file("second.plan.yaml");
    assert!(text_of_plan.starts_with('#') && text_of_plan.contains("format: weekwright-plan/2"));
    let kept = format!("load_kg: {start}");
    assert!(
        text_of_plan.contains("basis: {date: 2027-01-04, load: ") && text_of_plan.contains(&kept)
    );
    assert!(
        !text_of_plan.split("\nweeks:").nth(1).unwrap().contains("\n    sessions:"),
        "weeks are told by what changes: {text_of_plan}"
    );
    let audit = desk.done(&["audit", "second.plan.yaml"]);
    assert!(!audit.contains("edited since"), "{audit}");
    let edited = text_of_plan.replacen(&kept, "load_kg: 64", 1);
    fs::write(desk.path().join("edited.plan.yaml"), &edited).unwrap();
    let audit = desk.run(&["audit", "edited.plan.yaml"]);
    assert_eq!(audit.status.code(), Some(4), "far over what was done: {}", text(&audit.stdout));
    let noted = text_of_plan.replacen("limit: 60", "limit: 61", 1);
    fs::write(desk.path().join("noted.plan.yaml"), noted).unwrap();
    desk.done(&["next", "noted.plan.yaml", "--on", "2027-01-11", "-o", "third.plan.yaml"]);
    let audit = desk.run(&["audit", "third.plan.yaml"]);
    let said = format!("{}{}", text(&audit.stdout), said(&audit));
    assert!(said.contains("sessions: "), "an edit of the sessions is no work of `next`: {said}");
}

#[test]
fn the_same_session_again_takes_the_place_of_the_first_and_says_so() {
    let desk = Desk::new();
    desk.log("2027-01-04", "bench-press 32.5 10 10 12; plank 30s 30s");
    let told = desk.log("2027-01-04", "bench-press 30 10 10 12");
    assert!(told.contains("It takes the place of what stood there: bench-press, plank"), "{told}");
    assert!(desk.done(&["book", "check"]).contains("1 session, 3 sets"));
    assert_eq!(item(&desk.next(), 1, 1, "bench-press")["load_kg"], 30.0);
}

/// A new book is told, and never made where nobody looks for it.
#[test]
fn a_new_book_is_announced_and_only_writing_makes_one() {
    let desk = Desk::new();
    for reading in [
        &["review", "dock-03"][..],
        &["next", PLAN],
        &["book", "check"],
        &["sheet", "--progress", "dock-03"],
    ] {
        let output = desk.run(reading);
        assert_eq!(output.status.code(), Some(2), "{reading:?}");
        assert!(said(&output).contains("E1004"), "{}", said(&output));
    }
    assert!(!desk.path().join("weekwright.sqlite").exists());
    let output = desk.run(&["log", PLAN, "--date", "2027-01-04", "plank 30s"]);
    assert!(said(&output).contains("a new book: weekwright.sqlite"));
    let output = desk.run(&["log", "dock-03", "--date", "2027-01-07", "back-squat 40 10 10 10"]);
    assert!(
        output.status.success(),
        "a client of the book, by the plan that was filed: {}",
        said(&output)
    );
    assert!(text(&output.stdout).contains("week 1"), "{}", text(&output.stdout));
}

#[test]
fn what_is_odd_is_kept_and_remarked() {
    let desk = Desk::new();
    let lines = "bench-press 33 10 10 12; front-squat 30 5";
    let output = desk.run(&["log", PLAN, "--date", "2027-01-05", lines]);
    let said = said(&output);
    assert!(output.status.success(), "{said}");
    assert!(said.contains("the place cannot make 33 kg, the nearest is 32.5 kg"), "{said}");
    assert!(said.contains("`front-squat` is not on that day"), "{said}");
    assert!(said.contains("taken as the session of Monday, done on 2027-01-05"), "{said}");
    assert_eq!(item(&desk.next(), 1, 1, "bench-press")["load_kg"], 32.5, "what comes can be made");
}

/// The table of the plan is filled in by Rust's csv library and the workbook by openpyxl 3.1.5.
#[test]
fn tables_that_were_filled_in_are_read() {
    let desk = Desk::new();
    let table = desk.done(&["sheet", PLAN, "--as", "csv"]);
    let mut filled = csv::Writer::from_writer(Vec::new());
    let mut reader = csv::Reader::from_reader(table.as_bytes());
    let heads = reader.headers().unwrap().clone();
    filled.write_record(&heads).unwrap();
    let at = |name: &str| heads.iter().position(|head| head == name).unwrap();
    for record in reader.records().map(Result::unwrap) {
        let mut cells: Vec<String> = record.iter().map(str::to_owned).collect();
        if &record[at("week")] == "1" && &record[at("exercise")] == "bench-press" {
            cells[at("load_done")] = "32,5".to_owned();
            cells[at("done")] = "10 10 12".to_owned();
            cells[at("rir_done")] = "3".to_owned();
        }
        filled.write_record(&cells).unwrap();
    }
    fs::write(desk.path().join("filled.csv"), filled.into_inner().unwrap()).unwrap();
    let told = desk.done(&["log", PLAN, "--from", "filled.csv"]);
    assert_eq!(told.matches("1 exercise with 3 sets").count(), 2, "Monday and Thursday: {told}");
    assert_eq!(item(&desk.next(), 2, 0, "bench-press")["load_kg"], 35.0);
    let workbook = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/fixtures/record/monday.xlsx");
    let told = desk.done(&["log", PLAN, "--from", workbook]);
    assert!(told.contains("3 exercises with 8 sets"), "{told}");
    let semicolons = "Datum;x\n";
    fs::write(desk.path().join("other.csv"), semicolons).unwrap();
    assert!(said(&desk.run(&["log", PLAN, "--from", "other.csv"])).contains("E6015"));
}

#[test]
fn a_bad_table_is_taken_whole_or_not_at_all() {
    let desk = Desk::new();
    let table = "date;exercise;load_done;done;rir_done\n\
                 4.1.2027;bench-press;32,5;10 10 12;3\n\
                 4.1.2027;plank;;thirty;\n";
    fs::write(desk.path().join("t.csv"), table).unwrap();
    let output = desk.run(&["log", PLAN, "--from", "t.csv"]);
    let said = said(&output);
    assert_eq!(output.status.code(), Some(2), "{said}");
    assert!(said.contains("D3, `done`: `thirty` cannot be read"), "{said}");
    assert!(!desk.path().join("weekwright.sqlite").exists(), "nothing was taken");
    desk.done(&["log", PLAN, "--from", "t.csv", "--what-is-good"]);
    assert!(desk.done(&["book", "check"]).contains("1 session, 3 sets"));
}

#[test]
fn measures_come_with_what_they_allow_to_estimate() {
    let desk = Desk::new();
    desk.log("2027-01-04", "plank 30s");
    let first = [
        "measure",
        "dock-03",
        "--date",
        "2027-01-04",
        "--mass",
        "64,2",
        "--waist",
        "81",
        "--neck",
        "33",
        "--hip",
        "102",
    ];
    let told = desk.done(&first);
    assert!(told.contains("body fat by tape: ") && told.contains("± 3.7"), "{told}");
    let told = desk.done(&[
        "measure",
        "dock-03",
        "--date",
        "2027-01-11",
        "--mass",
        "63.8",
        "--waist",
        "76",
    ]);
    assert!(told.contains("no clear change since 2027-01-04"), "{told}");
    assert!(told.contains("5 cm less than on 2027-01-04"), "{told}");
    let output = desk.run(&["measure", "keel-99", "--date", "2027-01-04", "--mass", "80"]);
    assert!(said(&output).contains("a new client: keel-99"), "{}", said(&output));
}

#[test]
fn a_review_looks_back_and_changes_nothing() {
    let desk = Desk::new();
    for (date, lines) in [
        (
            "2027-01-04",
            "bench-press 30 10 10 10 r3; one-arm-row 16 10/10 10/10 10/9; plank 30s 30s",
        ),
        ("2027-01-07", "back-squat 40 10 10 10 r4; bench-press 30 10 10 11 r3"),
        ("2027-01-11", "bench-press 32.5 10 10 10 r3; one-arm-row -"),
        ("2027-01-14", "back-squat 42.5 10 10 10 r3; bench-press 32.5 10 10 11 r3"),
        ("2027-01-18", "bench-press 35 10 10 10 r3"),
        ("2027-01-21", "back-squat 45 10 10 10 r3; bench-press 35 10 10 11 r3"),
    ] {
        desk.log(date, lines);
    }
    let before = fs::read(desk.path().join("weekwright.sqlite")).unwrap();
    let review = desk.done(&["review", "dock-03", "--to", "2027-01-24"]);
    assert!(review.contains("6 of 6 planned were done"), "{review}");
    assert!(review.contains("Back squat"), "{review}");
    assert!(review.contains("One-arm row on a bench: 2 of 3 times"), "{review}");
    let json = desk.done(&["review", "dock-03", "--to", "2027-01-24", "--format", "json"]);
    let json: serde_json::Value = serde_json::from_str(&json).unwrap();
    let bench =
        json["lifts"].as_array().unwrap().iter().find(|lift| lift["exercise"] == "bench-press");
    assert_eq!(bench.unwrap()["trend"], "rises");
    assert!(
        json["proposals"].as_array().unwrap().iter().any(|one| one["what"] == "the next block")
    );
    let page = desk.done(&["sheet", "--progress", "dock-03", "--as", "html"]);
    assert!(page.contains("<svg") && page.contains("Bench press") || page.contains("bench press"));
    assert!(!page.contains("For the coach"));
    assert_eq!(fs::read(desk.path().join("weekwright.sqlite")).unwrap(), before);
}

/// What the book gave stands in the plan, and only where it was asked.
#[test]
fn the_next_block_begins_with_what_was_lifted() {
    let desk = Desk::new();
    let plan = desk.file_of_plan();
    desk.log("2027-01-04", "bench-press 40 10 10 10 r2; plank 30s 30s");
    desk.log("2027-01-07", "back-squat 52.5 8 8 8 r2; bench-press 40 10 10 10 r2");
    let with = desk.done(&["plan", &plan, "--book", "weekwright.sqlite", "--format", "json"]);
    let with: serde_json::Value = serde_json::from_str(&with).unwrap();
    let took = with["inputs"]["book"]["took"].to_string();
    assert!(
        took.contains("known lift: back-squat 52.5 kg × 8 with 2 left on 2027-01-07"),
        "{took}"
    );
    assert!(took.contains("start: 2027-02-01"), "{took}");
    assert_eq!(with["profile"]["known_lifts"]["bench-press"]["load"], 40.0);
    let without = desk.done(&["plan", &plan, "--format", "json"]);
    assert!(!without.contains("\"book\""));
}

impl Desk {
    /// The profile of the plan as a file of its own.
    fn file_of_plan(&self) -> String {
        let plan: serde_yaml::Value =
            serde_yaml::from_str(&fs::read_to_string(PLAN).unwrap()).unwrap();
        let profile = serde_yaml::to_string(&plan["profile"]).unwrap();
        fs::write(self.path().join("dock-03.yaml"), profile).unwrap();
        "dock-03.yaml".to_owned()
    }
}
