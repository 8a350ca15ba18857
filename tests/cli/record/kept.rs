//! Nothing is lost, nothing is half-written, and what is to go is gone.

use std::collections::BTreeSet;
use std::fs;
use std::process::Stdio;
use std::time::Duration;

use super::super::program;
use super::{Desk, PLAN, said};

#[test]
fn tables_go_out_and_come_back_to_the_same_rows() {
    let desk = Desk::new();
    desk.log("2027-01-04", "bench-press 32.5 10 10 12 r3 (=formula); plank 30s 30s @8; pull-up bw 5; machine-assisted-pull-up -15 8");
    desk.log("2027-01-07", "back-squat -; band-pull-apart green 12 12; one-arm-row 16 8/7");
    desk.done(&[
        "measure",
        "dock-03",
        "--date",
        "2027-01-04",
        "--mass",
        "64.2",
        "--site",
        "waist=navel",
        "--waist",
        "81",
    ]);
    desk.done(&[
        "book",
        "remark",
        "dock-03",
        "-back was stiff, \"a little\"",
        "--date",
        "2027-01-07",
    ]);
    desk.done(&["book", "export", "out"]);
    let sets = desk.file("out/sets.csv");
    assert!(
        sets.contains("dock-03,2027-01-04,1/mon@,0,3,load,32500,,12,reps,,30,reserve"),
        "{sets}"
    );
    desk.done(&["book", "import", "out", "--book", "new.sqlite"]);
    desk.done(&["book", "export", "again", "--book", "new.sqlite"]);
    for table in ["clients", "plans", "sessions", "items", "sets", "measures", "remarks"] {
        let [one, other] =
            ["out", "again"].map(|folder| desk.file(&format!("{folder}/{table}.csv")));
        assert_eq!(one, other, "{table}");
        assert!(one.lines().count() > 1, "{table} has rows");
    }
    let twice = desk.run(&["book", "import", "out", "--book", "new.sqlite"]);
    assert_eq!(twice.status.code(), Some(2));
    assert!(said(&twice).contains("[E6016]"), "{}", said(&twice));
}

#[test]
fn a_backup_is_the_book_and_the_files_around_it() {
    let desk = Desk::new();
    fs::create_dir_all(desk.path().join("profiles/places")).unwrap();
    fs::write(desk.path().join("profiles/dock-03.yaml"), "client: dock-03\n").unwrap();
    fs::write(desk.path().join("profiles/places/boathouse.yaml"), "place: boathouse\n").unwrap();
    desk.log("2027-01-04", "bench-press 32.5 10 10 12");
    desk.done(&["book", "backup", "kept"]);
    desk.log("2027-01-07", "back-squat 40 8");
    let day = fs::read_dir(desk.path().join("kept")).unwrap().next().unwrap().unwrap().path();
    assert!(day.join("profiles/dock-03.yaml").is_file());
    assert!(day.join("profiles/places/boathouse.yaml").is_file());
    // Restored: the copy takes the place of the book.
    fs::copy(day.join("weekwright.sqlite"), desk.path().join("weekwright.sqlite")).unwrap();
    assert!(desk.done(&["book", "check"]).contains("1 session, 3 sets"));
}

#[test]
fn who_is_forgotten_is_gone_from_the_file() {
    let desk = Desk::new();
    desk.log("2027-01-04", "bench-press 32.5 10 10 12 (words of a dock hand)");
    desk.done(&["measure", "keel-04", "--date", "2027-01-04", "--mass", "80"]);
    fs::write(desk.path().join("dock-03.html"), "").unwrap();
    fs::write(desk.path().join("dock-033.html"), "").unwrap();
    fs::write(desk.path().join("crew.yaml"), "client: dock-03\n").unwrap();
    let holds = |word: &str| {
        let bytes = fs::read(desk.path().join("weekwright.sqlite")).unwrap();
        bytes.windows(word.len()).any(|window| window == word.as_bytes())
    };
    assert!(holds("dock hand") && holds("dock-03"));
    let size = || fs::metadata(desk.path().join("weekwright.sqlite")).unwrap().len();
    let before = size();
    let told = desk.done(&["book", "forget", "dock-03"]);
    for left in ["  dock-03.html\n", "  crew.yaml\n", PLAN] {
        assert!(told.contains(left) && !told.contains("dock-033"), "{left}: {told}");
    }
    assert!(!holds("dock hand") && !holds("dock-03"));
    assert!(size() < before, "the space is given back");
    assert_eq!(desk.done(&["book", "list"]), "keel-04\n");
}

#[test]
fn clients_can_be_put_away_and_called_otherwise() {
    let desk = Desk::new();
    desk.log("2027-01-04", "bench-press 32.5 10 10 12");
    desk.done(&["book", "archive", "dock-03"]);
    assert_eq!(desk.done(&["book", "list"]), "");
    assert_eq!(desk.done(&["book", "list", "--archived"]), "dock-03\n");
    desk.done(&["book", "archive", "dock-03", "--back"]);
    desk.done(&["book", "rename", "dock-03", "pier-03"]);
    assert_eq!(desk.done(&["book", "list"]), "pier-03\n");
    assert!(desk.done(&["review", "pier-03"]).starts_with("pier-03, "));
}

/// Killed at any moment, 200 times: the book opens, passes its check, holds all that was acknowledged, and no session has
/// some of its sets.
#[test]
fn a_killed_writer_loses_nothing_that_it_acknowledged() {
    const RUNS: u32 = 200;
    const LINES: &str = "bench-press 32.5 10 10 12; back-squat 40 8 8 8; plank 30s 30s";
    const SETS: usize = 8;
    let desk = Desk::new();
    let mut acknowledged = BTreeSet::new();
    let mut killed = 0;
    for run in 0..RUNS {
        let date = format!("20{:02}-{:02}-{:02}", 30 + run / 168, 1 + run / 14 % 12, 1 + run % 14);
        let mut child = program()
            .current_dir(desk.path())
            .args(["--quiet", "log", PLAN, "--date", &date, LINES])
            .stdout(Stdio::null())
            .stderr(Stdio::null())
            .spawn()
            .unwrap();
        // From before the book is opened to after the session is written, in steps that share no divisor with the runs.
        std::thread::sleep(Duration::from_micros(u64::from(run * 7919 % 60_000)));
        let _ = child.kill();
        if child.wait().unwrap().success() {
            acknowledged.insert(date);
        } else {
            killed += 1;
        }
    }
    desk.log("2027-01-04", LINES);
    assert!(desk.done(&["book", "check"]).contains("is sound"));
    desk.done(&["book", "export", "out"]);
    let mut sets: std::collections::BTreeMap<String, usize> = std::collections::BTreeMap::new();
    for line in desk.file("out/sets.csv").lines().skip(1) {
        *sets.entry(line.split(',').nth(1).unwrap().to_owned()).or_default() += 1;
    }
    assert!(sets.values().all(|count| *count == SETS), "{sets:?}");
    assert!(acknowledged.iter().all(|date| sets.contains_key(date)));
    assert!(killed > 20, "only {killed} were killed in time: the test tests nothing");
}
