//! Sessions written down on the page, and what the page tells of them.

use axum::http::StatusCode;
use jiff::civil::{Date, date};
use weekwright::book::DoneSession;
use weekwright::book::done::{Effort, Load};
use weekwright::catalog::Catalog;
use weekwright::cli::notebook::{Notebook, ToLog};

use crate::browser::Browser;
use crate::form::fields;

const MONDAY: Date = date(2027, 1, 4);
const WEEK: &str = "/client/tide-01/write?week=1&day=mon";

pub(crate) fn kept() -> Browser {
    let browser = Browser::before(&["tide-01"]);
    browser.post("/client/tide-01/keep", &[]);
    browser
}

fn notebook(browser: &Browser) -> Notebook {
    Notebook::of_folder(browser.folder.path(), Catalog::built_in())
}

fn sessions(browser: &Browser) -> Vec<DoneSession> {
    notebook(browser).sessions("tide-01", Date::MIN, Date::MAX).unwrap()
}

/// The form of a page with some fields changed or added; an empty value of a box takes its mark off.
pub(crate) fn form(page: &str, changed: &[(&str, &str)]) -> Vec<(String, String)> {
    let is_changed = |name: &str| changed.iter().any(|(one, _)| *one == name);
    let kept = fields(page).into_iter().filter(|(name, _)| !is_changed(name) && name != "token");
    let new = changed.iter().filter(|(_, value)| !value.is_empty());
    kept.chain(new.map(|(name, value)| ((*name).to_owned(), (*value).to_owned()))).collect()
}

pub(crate) fn send(browser: &Browser, form: &[(String, String)]) -> crate::browser::Answer {
    let fields: Vec<(&str, &str)> =
        form.iter().map(|(name, value)| (name.as_str(), value.as_str())).collect();
    browser.post("/client/tide-01/write", &fields)
}

/// The value of a field.
pub(crate) fn value<'a>(form: &'a [(String, String)], name: &str) -> &'a str {
    form.iter().find(|(one, _)| one == name).map_or("", |(_, value)| value)
}

#[test]
fn marked_sets_are_written_down_as_they_stand_and_others_are_not() {
    let browser = kept();
    let page = browser.get(WEEK).body;
    let typed = form(
        &page,
        &[
            ("load.0.1", "14"),
            ("amount.0.1", "9"),
            ("left.0.1", "3"),
            ("done.0.1", "1"),
            ("load.0.2", "16,5"),
            ("amount.0.2", "8"),
            ("left.0.2", ""),
            ("done.0.2", "1"),
            ("skip.1", "1"),
            ("about.1", "sore (left); ask"),
            ("note", "slept badly"),
        ],
    );
    let answer = send(&browser, &typed);
    assert_eq!(answer.status, StatusCode::SEE_OTHER, "{}", answer.body);
    let page = browser.get(answer.header("location")).body;
    assert!(page.contains("Written down: 1 exercise with 2 sets."), "{page}");
    let done = sessions(&browser);
    let [session] = done.as_slice() else { panic!("{done:?}") };
    assert_eq!(
        (session.date, session.week, session.note.as_str()),
        (MONDAY, Some(1), "slept badly")
    );
    let [first, second] = session.items.as_slice() else { panic!("{session:?}") };
    let sets: Vec<_> =
        first.sets.iter().map(|set| (set.load.clone(), set.amount, set.effort)).collect();
    let reserve = Some(Effort::Reserve(30));
    assert_eq!(sets, [(Load::Grams(14_000), 9, reserve), (Load::Grams(16_500), 8, None)]);
    assert!(second.is_skipped() && second.note == "sore  left , ask", "{second:?}");
}

/// The same words for the command line: what `log` makes of the planned numbers is what the page makes of a tap a set.
#[test]
fn a_tap_a_set_writes_what_log_writes_for_ok() {
    let (browser, other) = (kept(), kept());
    let page = browser.get(WEEK).body;
    let (mut typed, mut told): (Vec<(String, String)>, Vec<String>) = (Vec::new(), Vec::new());
    for (place, id) in exercises(&browser).into_iter().enumerate() {
        let loads = fields(&page)
            .into_iter()
            .filter(|(name, _)| name.starts_with(&format!("load.{place}.")));
        let open: Vec<String> =
            loads.filter(|(_, load)| load.is_empty()).map(|(name, _)| name).collect();
        let sets = planned(&browser, place);
        if !open.is_empty() && !has_search(&browser, place) {
            continue;
        }
        // A load that is to be found is told on both ways.
        told.push(if open.is_empty() {
            format!("{id} ok")
        } else {
            // The page has the planned reserve beside the last set.
            let (amounts, reserve) = asked(&browser, place);
            format!("{id} 10kg {} r{reserve}", amounts.join(" "))
        });
        typed.extend(open.into_iter().map(|name| (name, "10".to_owned())));
        typed.extend((1..=sets).map(|set| (format!("done.{place}.{set}"), "1".to_owned())));
    }
    let typed: Vec<(&str, &str)> =
        typed.iter().map(|(name, value)| (name.as_str(), value.as_str())).collect();
    assert!(!typed.is_empty());
    assert_eq!(send(&browser, &form(&page, &typed)).status, StatusCode::SEE_OTHER);
    let lines = told.join("; ");
    let told = ToLog {
        target: &other.path("tide-01.plan.yaml"),
        date: MONDAY,
        week: Some(1),
        day: Some("mon"),
        note: None,
        lines: &lines,
    };
    notebook(&other).log(&told).unwrap();
    assert_eq!(sessions(&browser), sessions(&other));
}

fn plan(browser: &Browser) -> weekwright::input::plan::Plan {
    let told = ToLog {
        target: &browser.path("tide-01.plan.yaml"),
        date: MONDAY,
        week: Some(1),
        day: Some("mon"),
        note: None,
        lines: "plank 20s",
    };
    let aside = tempfile::TempDir::new().unwrap();
    let book = Notebook::of_folder(aside.path(), Catalog::built_in());
    book.log(&told).unwrap();
    book.plan("tide-01", MONDAY).unwrap().unwrap().plan
}

fn exercises(browser: &Browser) -> Vec<String> {
    let plan = plan(browser);
    let work = weekwright::book::slot::work(&plan.weeks[0].sessions[0]);
    work.iter().map(|item| item.exercise.clone()).collect()
}

fn has_search(browser: &Browser, place: usize) -> bool {
    let plan = plan(browser);
    weekwright::book::slot::work(&plan.weeks[0].sessions[0])[place].find_load.is_some()
}

fn asked(browser: &Browser, place: usize) -> (Vec<String>, u32) {
    let plan = plan(browser);
    let item = weekwright::book::slot::work(&plan.weeks[0].sessions[0])[place];
    let amounts = item.reps.iter().flatten().map(u32::to_string).collect();
    (amounts, item.rir.expect("lifts have a reserve"))
}

fn planned(browser: &Browser, place: usize) -> usize {
    let plan = plan(browser);
    weekwright::book::slot::work(&plan.weeks[0].sessions[0])[place].sets as usize
}

#[test]
fn what_log_refuses_is_refused_in_its_words_and_what_was_typed_stays() {
    let browser = kept();
    let page = browser.get(WEEK).body;
    let typed = [
        ("load.0.1", "14"),
        ("amount.0.1", "900"),
        ("done.0.1", "1"),
        ("load.2.1", "14"),
        ("amount.2.1", "eight"),
        ("done.2.1", "1"),
        ("more", "blorb 20s"),
        ("note", "a <b>hard</b> day"),
        ("date", "2027-01-05"),
    ];
    let answer = send(&browser, &form(&page, &typed));
    assert_eq!(answer.status, StatusCode::OK);
    for text in [
        "900 reps in a set are a slip of the pen",
        "\u{201c}eight\u{201d} cannot be read",
        "E6013",
        "Nothing was written yet",
    ] {
        assert!(
            answer.body.contains(text)
                || answer.body.contains(&text.replace(['\u{201c}', '\u{201d}'], "`")),
            "{text}: {}",
            answer.body
        );
    }
    assert!(!answer.body.contains("<b>hard</b>"));
    assert_eq!(answer.body.matches("class=\"fault\"").count(), 2, "beside both exercises");
    let again = fields(&answer.body);
    for (name, wanted) in typed {
        assert_eq!(value(&again, name), wanted, "{name}");
    }
    assert!(sessions(&browser).is_empty());
    // A mark without a number, and a day that is none.
    let blank = send(&browser, &form(&page, &[("amount.0.1", ""), ("done.0.1", "1")]));
    assert!(blank.body.contains("has its mark and no number"), "{}", blank.body);
    let none = send(&browser, &form(&page, &[("done.0.1", "1"), ("date", "2027-02-30")]));
    assert!(none.body.contains("there is no day 2027-02-30"));
    let nothing = send(&browser, &form(&page, &[]));
    assert!(nothing.body.contains("nothing is written down"), "{}", nothing.body);
    assert!(sessions(&browser).is_empty());
    assert!(!browser.path("weekwright.sqlite").exists(), "what is refused makes no book");
}

#[test]
fn the_same_session_takes_the_place_of_the_first_and_says_so() {
    let browser = kept();
    let first = [
        ("load.0.1", "14"),
        ("amount.0.1", "9"),
        ("done.0.1", "1"),
        ("more", "farmer-carry 20 40m"),
    ];
    let page = browser.get(WEEK).body;
    assert_eq!(send(&browser, &form(&page, &first)).status, StatusCode::SEE_OTHER);
    let page = browser.get(WEEK).body;
    let stands = fields(&page);
    for (name, wanted) in
        [("load.0.1", "14"), ("amount.0.1", "9"), ("done.0.1", "1"), ("more", first[3].1)]
    {
        assert_eq!(value(&stands, name), wanted, "{name}");
    }
    let answer = send(&browser, &form(&page, &[("amount.0.1", "10")]));
    let told = browser.get(answer.header("location")).body;
    assert!(told.contains("It takes the place of what stood there: "), "{told}");
    let done = sessions(&browser);
    assert_eq!((done.len(), done[0].items.len(), done[0].items[0].sets[0].amount), (1, 2, 10));
    // From a page that was opened before: nothing is lost, and nothing is written over unasked.
    let late = send(&browser, &form(&page, &[("amount.0.1", "12")]));
    assert_eq!(late.status, StatusCode::OK);
    assert!(
        late.body.contains("written down elsewhere")
            && value(&fields(&late.body), "amount.0.1") == "12"
    );
    assert_eq!(sessions(&browser)[0].items[0].sets[0].amount, 10);
    assert_eq!(send(&browser, &form(&late.body, &[])).status, StatusCode::SEE_OTHER);
    assert_eq!(sessions(&browser)[0].items[0].sets[0].amount, 12);
}

/// A plan that names no load, and a book that knows it.
#[test]
fn a_load_that_the_plan_leaves_open_is_the_last_one_that_was_written_down() {
    let browser = kept();
    let page = browser.get(WEEK).body;
    let fresh = fields(&page);
    assert_eq!(value(&fresh, "load.0.1"), "", "the load is to be found");
    assert!(!page.contains("the last one that was written down"));
    let lifted = [("load.0.1", "14"), ("amount.0.1", "9"), ("done.0.1", "1")];
    send(&browser, &form(&page, &lifted));
    let id = exercises(&browser).remove(0);
    let plan = plan(&browser);
    let mut later =
        plan.weeks[1..].iter().flat_map(|week| week.sessions.iter().map(|one| (week.week, one)));
    let (week, day, place) = later
        .find_map(|(week, session)| {
            let work = weekwright::book::slot::work(session);
            let place = work.iter().position(|item| item.exercise == id)?;
            work[place].load_kg.is_none().then_some((week, session.day, place))
        })
        .expect("a later session has it again");
    let page = browser.get(&format!("/client/tide-01/write?week={week}&day={day}")).body;
    let filled = fields(&page);
    assert_eq!(value(&filled, &format!("load.{place}.1")), "14");
    assert!(
        page.contains("The load is the last one that was written down, on 4 January."),
        "{page}"
    );
    // What comes before it knows nothing of it, and what was refused stays as it was typed.
    let emptied = format!("load.{place}.1");
    let kept: Vec<(String, String)> = filled
        .into_iter()
        .map(|(name, value)| if name == emptied { (name, String::new()) } else { (name, value) })
        .chain([
            (format!("done.{place}.1"), "1".to_owned()),
            ("more".to_owned(), "blorb".to_owned()),
        ])
        .collect();
    let again = fields(&send(&browser, &kept).body);
    assert_eq!(value(&again, &emptied), "");
}

#[test]
fn a_plan_that_changed_meanwhile_is_shown_and_nothing_written() {
    let browser = kept();
    let page = browser.get(WEEK).body;
    let text = browser.text("tide-01.plan.yaml");
    std::fs::write(browser.path("tide-01.plan.yaml"), format!("{text}# by hand\n")).unwrap();
    let answer = send(&browser, &form(&page, &[("done.0.1", "1"), ("load.0.1", "14")]));
    assert!(answer.body.contains("The plan was changed since this page was opened"));
    assert_eq!(value(&fields(&answer.body), "load.0.1"), "14");
    assert!(sessions(&browser).is_empty());
}

#[test]
fn there_is_nothing_to_see_before_there_is_a_book_and_everything_after() {
    let browser = kept();
    let client = browser.get("/client/tide-01").body;
    assert!(
        client.contains("/client/tide-01/write") && !client.contains("/client/tide-01/progress")
    );
    for path in ["progress", "review"] {
        let page = browser.get(&format!("/client/tide-01/{path}"));
        assert!(page.body.contains("Nothing is written down of this client yet"), "{path}");
    }
    assert!(!browser.get("/").body.contains("Last written down"));
    assert_eq!(browser.get("/client/tide-01/progress/print").status, StatusCode::NOT_FOUND);
    let page = browser.get(WEEK).body;
    send(&browser, &form(&page, &[("load.0.1", "14"), ("amount.0.1", "9"), ("done.0.1", "1")]));
    let client = browser.get("/client/tide-01").body;
    assert!(
        client.contains("/client/tide-01/progress") && client.contains("/client/tide-01/review")
    );
    assert!(browser.get("/").body.contains("4 January</td>"), "{}", browser.get("/").body);
    let review = browser.get("/client/tide-01/review").body;
    assert!(
        review.contains("class=\"sets\"") || review.contains("class=\"sets off\""),
        "drawn bars"
    );
    assert!(review.contains("14 9") && review.contains("write?week=1&amp;day=mon"), "{review}");
    assert!(browser.get("/client/tide-01/progress").body.contains("Best sets so far"));
    let print = browser.get("/client/tide-01/progress/print");
    assert!(print.header("content-security-policy").contains("style-src 'nonce-"));
}

#[test]
fn a_book_that_is_none_and_a_client_that_is_none_are_sentences() {
    let browser = kept();
    std::fs::write(browser.path("weekwright.sqlite"), "no book").unwrap();
    for path in [WEEK, "/client/tide-01/progress", "/client/tide-01/review"] {
        let page = browser.get(path);
        assert!(
            page.body.contains("Not done") && page.body.contains("E6001"),
            "{path}: {}",
            page.body
        );
    }
    assert!(browser.get("/").body.contains("/client/tide-01"));
    for path in [
        "/client/nobody/write",
        "/client/tide-01/write?week=9&day=mon",
        "/client/tide-01/write?week=1&day=sun",
    ] {
        let status = browser.get(path).status;
        assert!(status == StatusCode::NOT_FOUND || path.contains("week="), "{path}");
    }
    let fresh = Browser::before(&["tide-01"]);
    let none = fresh.get("/client/tide-01/write");
    assert!(none.status == StatusCode::CONFLICT && none.body.contains("Keep the client"));
}

#[cfg(unix)]
#[test]
fn a_book_that_leads_out_of_the_folder_is_left_alone() {
    let browser = kept();
    let outside = tempfile::TempDir::new().unwrap();
    let book = Notebook::of_folder(outside.path(), Catalog::built_in());
    let told = ToLog {
        target: &browser.path("tide-01.plan.yaml"),
        date: MONDAY,
        week: None,
        day: None,
        note: None,
        lines: "plank 20s",
    };
    book.log(&told).unwrap();
    std::os::unix::fs::symlink(book.path(), browser.path("weekwright.sqlite")).unwrap();
    assert!(browser.get("/client/tide-01/review").body.contains("E1008"));
    assert!(browser.get(WEEK).body.contains("E1008"));
}
