//! What the page makes of a week from the book: the coming week, an easier one, the next block.

use std::fs;
use std::process::Command;

use axum::http::StatusCode;
use tempfile::TempDir;

use crate::browser::Browser;
use crate::form::fields;
use crate::written::{form, kept, send, value};

const PLAN: &str = "tide-01.plan.yaml";

/// Writes the first exercise of a session down.
fn written(browser: &Browser, week: u32, day: &str, load: &str) {
    let page = browser.get(&format!("/client/tide-01/write?week={week}&day={day}")).body;
    let amount = value(&fields(&page), "amount.0.1").to_owned();
    let typed = [("load.0.1", load), ("amount.0.1", amount.as_str()), ("done.0.1", "1")];
    assert_eq!(send(browser, &form(&page, &typed)).status, StatusCode::SEE_OTHER);
}

/// What the command line makes of the same files in a folder of its own.
fn told_by_the_command_line(browser: &Browser, arguments: &[&str]) -> String {
    let folder = TempDir::new().unwrap();
    fs::create_dir(folder.path().join("places")).unwrap();
    for name in ["tide-01.yaml", PLAN, "weekwright.sqlite", "places/boathouse.yaml"] {
        fs::copy(browser.path(name), folder.path().join(name)).unwrap();
    }
    let mut command = Command::new(env!("CARGO_BIN_EXE_weekwright"));
    let output = command.current_dir(folder.path()).args(arguments).output().unwrap();
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    String::from_utf8(output.stdout).unwrap()
}

#[test]
fn an_easier_week_is_tried_taken_back_and_kept_as_the_command_line_makes_it() {
    let browser = kept();
    let before = browser.text(PLAN);
    let none = browser.post("/client/tide-01/easier", &[]);
    assert_eq!(none.status, StatusCode::SEE_OTHER);
    assert!(browser.get("/client/tide-01").body.contains("nothing is written down yet"));
    written(&browser, 1, "mon", "14");
    let review = browser.get("/client/tide-01/review").body;
    for act in ["coming", "easier", "block"] {
        assert!(review.contains(&format!("action=\"/client/tide-01/{act}\"")), "{act}: {review}");
    }
    let arguments = ["next", PLAN, "--easier", "--format", "yaml"];
    let wanted = told_by_the_command_line(&browser, &arguments);
    assert_ne!(wanted, before);
    browser.post("/client/tide-01/easier", &[]);
    let page = browser.get("/client/tide-01").body;
    assert!(page.contains("Tried: <bdi>an easier week 1</bdi>"), "{page}");
    assert!(page.contains("?week=1\">Week 1</a>"));
    assert_eq!(browser.text(PLAN), before, "nothing is written before it is kept");
    browser.post("/client/tide-01/undo", &[]);
    assert!(!browser.get("/client/tide-01").body.contains("an easier week"));
    browser.post("/client/tide-01/easier", &[]);
    browser.post("/client/tide-01/keep", &[]);
    assert!(browser.get("/client/tide-01").body.contains("Kept in tide-01.plan.yaml."));
    assert_eq!(browser.text(PLAN), wanted);
    // The book knows it, so that what comes is told by it.
    let review = browser.get("/client/tide-01/review").body;
    assert!(review.contains("14 "), "{review}");
    let filed =
        told_by_the_command_line(&browser, &["book", "check", "--book", "weekwright.sqlite"]);
    assert!(!filed.is_empty());
}

#[test]
fn the_coming_week_comes_from_what_was_done_and_is_not_kept_over_a_change() {
    let browser = kept();
    written(&browser, 1, "mon", "14");
    let wanted = told_by_the_command_line(&browser, &["next", PLAN, "--format", "yaml"]);
    browser.post("/client/tide-01/coming", &[]);
    let page = browser.get("/client/tide-01").body;
    assert!(page.contains("from what was done</bdi>"), "{page}");
    assert_eq!(browser.get("/client/tide-01/sheet/yaml").body, wanted);
    let other = format!("{}# by hand\n", browser.text(PLAN));
    fs::write(browser.path(PLAN), &other).unwrap();
    browser.post("/client/tide-01/keep", &[]);
    assert!(browser.get("/client/tide-01").body.contains("Changed elsewhere"));
    assert_eq!(browser.text(PLAN), other);
}

#[test]
fn the_next_block_is_that_of_the_command_line_and_the_plan_before_it_stays() {
    let browser = kept();
    let before = browser.text(PLAN);
    written(&browser, 1, "mon", "14");
    written(&browser, 4, "fri", "16");
    let review = browser.get("/client/tide-01/review").body;
    let proposals = &review[..review.find("id=\"make-title\"").unwrap()];
    assert!(proposals.contains("the next block"), "{proposals}");
    assert!(proposals.contains("action=\"/client/tide-01/block\""), "{proposals}");
    let folder = fs::canonicalize(browser.folder.path()).unwrap();
    assert!(!review.contains(folder.to_str().unwrap()), "commands name files from the folder");
    let arguments = ["plan", "tide-01.yaml", "--book", "weekwright.sqlite", "--format", "yaml"];
    let wanted = told_by_the_command_line(&browser, &arguments);
    browser.post("/client/tide-01/block", &[]);
    let page = browser.get("/client/tide-01").body;
    assert!(page.contains("Tried: <bdi>the next block</bdi>"), "{page}");
    assert!(page.contains("the day after the last plan"), "{page}");
    assert_eq!(browser.text(PLAN), before);
    browser.post("/client/tide-01/keep", &[]);
    let page = browser.get("/client/tide-01").body;
    assert!(page.contains("What stood there is tide-01.1.plan.yaml now."), "{page}");
    assert!(!page.contains("was not made from the profile"), "{page}");
    assert_eq!(browser.text(PLAN), wanted);
    assert_eq!(browser.text("tide-01.1.plan.yaml"), before);
    assert!(!browser.get("/").body.contains("older than the profile"));
    // A wish on top of it still goes back to the profile that the book was asked for.
    browser.post("/client/tide-01/try", &[("seed", "3")]);
    assert!(!browser.get("/client/tide-01").body.contains("was not made from the profile"));
}

#[test]
fn a_wish_on_top_of_an_easier_week_keeps_that_week() {
    let browser = kept();
    written(&browser, 1, "mon", "14");
    let eased = "An easier week was put in";
    browser.post("/client/tide-01/easier", &[]);
    browser.post("/client/tide-01/try", &[("minutes.wed@18:30", "45")]);
    let page = browser.get("/client/tide-01").body;
    assert!(page.contains("Tried: <bdi>Wednesday 45 min</bdi>"), "{page}");
    assert!(page.contains("?week=1\">Week 1</a>"), "the week is told with the wish: {page}");
    let sheet = browser.get("/client/tide-01/sheet/yaml").body;
    assert!(sheet.contains(eased) && sheet.contains("minutes wed"), "{sheet}");
    browser.post("/client/tide-01/undo", &[]);
    assert!(browser.get("/client/tide-01/sheet/yaml").body.contains(eased));
    // Kept, it is still there under the next wish, and what is kept is whole.
    browser.post("/client/tide-01/keep", &[]);
    browser.post("/client/tide-01/try", &[("minutes.wed@18:30", "45")]);
    browser.post("/client/tide-01/keep", &[]);
    let plan = browser.text(PLAN);
    assert!(plan.contains(eased) && plan.contains("minutes wed"), "{plan}");
    let again = ["next", PLAN, "--easier", "--format", "yaml"];
    assert_eq!(told_by_the_command_line(&browser, &again), plan, "it is made from the same record");
    told_by_the_command_line(&browser, &["audit", PLAN]);
    // Without such a week a wish makes none.
    browser.post("/client/tide-01/anew", &[]);
    browser.post("/client/tide-01/try", &[("minutes.wed@18:30", "45")]);
    assert!(!browser.get("/client/tide-01/sheet/yaml").body.contains(eased));
}

#[test]
fn a_next_block_that_collides_has_its_ways_out_as_buttons() {
    let browser = kept();
    let before = browser.text(PLAN);
    written(&browser, 1, "mon", "14");
    written(&browser, 4, "fri", "16");
    let musts = "[back-squat, deadlift, bench-press, barbell-row, overhead-press, hip-thrust]";
    let profile = browser.text("tide-01.yaml").replace("minutes: 60", "minutes: 10");
    let profile = format!("{profile}exercises: {{must: {musts}}}\n");
    fs::write(browser.path("tide-01.yaml"), &profile).unwrap();
    browser.post("/client/tide-01/block", &[]);
    let page = browser.get("/client/tide-01").body;
    assert!(page.contains("Not possible: <bdi>the next block</bdi>"), "{page}");
    assert!(page.contains("action=\"/client/tide-01/way\"") && page.contains("name=\"way\""));
    // What was written down since makes another block: the way out of that one is gone.
    written(&browser, 2, "wed", "17");
    browser.post("/client/tide-01/way", &[("way", "0")]);
    let page = browser.get("/client/tide-01").body;
    assert!(page.contains("this way out is no longer there"), "{page}");
    browser.post("/client/tide-01/block", &[]);
    browser.post("/client/tide-01/way", &[("way", "0")]);
    let page = browser.get("/client/tide-01").body;
    assert!(page.contains("Tried: <bdi>the next block, "), "{page}");
    assert!(page.contains("the day after the last plan"), "{page}");
    assert_eq!(browser.text(PLAN), before, "nothing is written before it is kept");
    browser.post("/client/tide-01/keep", &[]);
    assert!(
        browser
            .get("/client/tide-01")
            .body
            .contains("What stood there is tide-01.1.plan.yaml now.")
    );
    assert_eq!(browser.text("tide-01.1.plan.yaml"), before);
    assert_eq!(browser.text("tide-01.yaml"), profile, "the profile stays as it was typed");
    told_by_the_command_line(&browser, &["audit", PLAN]);
}
