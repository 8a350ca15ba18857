//! What a coach tries, and what the page answers.

use axum::http::StatusCode;

use crate::browser::Browser;

/// The part of a page between two texts.
fn between<'a>(page: &'a str, from: &str, to: &str) -> &'a str {
    let start = page.find(from).map_or(0, |at| at + from.len());
    let end = page[start..].find(to).map_or(page.len(), |at| start + at);
    &page[start..end]
}

#[test]
fn clients_are_told_with_what_is_missing() {
    let browser = Browser::before(&["tide-01", "oar-02"]);
    std::fs::write(browser.path("broken.yaml"), "client: <b>x</b>\ngoal: fame\n").unwrap();
    std::fs::write(browser.path("gone.plan.yaml"), "format: weekwright-plan/2\n").unwrap();
    let page = browser.get("/").body;
    for text in [
        "/client/tide-01",
        "/client/oar-02",
        "no plan is kept",
        "questions before training are open",
    ] {
        assert!(page.contains(text), "{text}");
    }
    assert!(page.contains("faults in the profile: ") && page.contains("gone.plan.yaml"));
    assert!(!page.contains("<b>x</b>"));
    let client = browser.get("/client/broken").body;
    assert!(client.contains("E1202") && client.contains("broken.yaml:2:7"), "{client}");
}

#[test]
fn a_week_is_shown_before_anything_is_on_the_disk() {
    let browser = Browser::before(&["tide-01"]);
    let page = browser.get("/client/tide-01");
    assert_eq!(page.status, StatusCode::OK);
    for text in ["Monday", "Wednesday", "Friday", "Goblet squat", "not kept yet", "What fell short"]
    {
        assert!(page.body.contains(text), "{text}");
    }
    assert_eq!(std::fs::read_dir(browser.folder.path()).unwrap().count(), 2);
    let second = browser.get("/client/tide-01?week=2").body;
    assert!(second.contains("Week 2, from 11 January"));
}

#[test]
fn tries_stand_on_one_another_and_are_taken_back() {
    let browser = Browser::before(&["tide-01"]);
    let first = browser.get("/client/tide-01").body;
    let answer = browser.post("/client/tide-01/try", &[("minutes.mon@18:30", "40")]);
    assert_eq!(
        (answer.status, answer.header("location")),
        (StatusCode::SEE_OTHER, "/client/tide-01")
    );
    let shorter = browser.get("/client/tide-01").body;
    assert!(shorter.contains("Tried: <bdi>Monday 40 min</bdi>"));
    assert!(between(&shorter, "id=\"day-1\"", "</header>").contains("of 40 min"));
    browser.post("/client/tide-01/try", &[("never", "goblet-squat")]);
    let without = browser.get("/client/tide-01").body;
    assert!(
        without.contains("Tried: <bdi>not Goblet squat</bdi>") && without.contains("Before that:")
    );
    let cards = between(&without, "class=\"cards\"", "id=\"sets-title\"");
    assert!(!cards.contains(">Goblet squat<") && cards.contains("of 40 min"));
    browser.post("/client/tide-01/undo", &[]);
    assert_eq!(browser.get("/client/tide-01").body, shorter);
    browser.post("/client/tide-01/undo", &[]);
    assert_eq!(browser.get("/client/tide-01").body, first);
    assert_eq!(std::fs::read_dir(browser.folder.path()).unwrap().count(), 2);
}

#[test]
fn every_kind_of_wish_is_planned() {
    let browser = Browser::before(&["tide-01"]);
    for (fields, told) in [
        ([("without", "bench")], "without bench"),
        ([("drop", "wed@18:30")], "Wednesday off"),
        ([("limit", "overhead")], "keep out overhead"),
        ([("must", "goblet-squat")], "keep Goblet squat"),
        ([("more", "glutes")], "more glutes"),
        ([("less", "chest")], "less chest"),
        ([("seed", "another")], "week number 1"),
    ] {
        browser.post("/client/tide-01/try", &fields);
        let page = browser.get("/client/tide-01").body;
        assert!(page.contains(&format!("Tried: <bdi>{told}</bdi>")), "{told}");
        browser.post("/client/tide-01/back", &[]);
    }
}

#[test]
fn another_exercise_in_its_place_comes_from_a_short_list() {
    let browser = Browser::before(&["tide-01"]);
    let list = browser.get("/client/tide-01/instead/goblet-squat").body;
    let swap = between(&list, "name=\"swap\" value=\"", "\"").to_owned();
    assert!(swap.starts_with("goblet-squat "), "{swap}");
    browser.post("/client/tide-01/try", &[("swap", &swap)]);
    let page = browser.get("/client/tide-01").body;
    let other = swap.strip_prefix("goblet-squat ").unwrap();
    let cards = between(&page, "class=\"cards\"", "id=\"sets-title\"");
    assert!(
        cards.contains(&format!("value=\"{other}\"")) && !cards.contains("value=\"goblet-squat\"")
    );
    assert_eq!(browser.get("/client/tide-01/instead/nothing").status, StatusCode::NOT_FOUND);
}

#[test]
fn what_makes_no_sense_is_told_in_words_and_changes_nothing() {
    let browser = Browser::before(&["tide-01"]);
    browser.get("/client/tide-01");
    for (fields, told) in [
        (vec![("minutes.mon@18:30", "5")], "`5` is no number of minutes"),
        (vec![("minutes.mon@18:30", "sixty")], "`sixty` is no number of minutes"),
        (vec![("without", "dumbell")], "did you mean `dumbbells`?"),
        (vec![("without", "sled")], "the place has no sled as it is"),
        (vec![("drop", "sun")], "the plan has no session `sun`"),
        (vec![("limit", "overheads")], "did you mean `overhead`?"),
        (vec![("never", "goblet-squatt")], "did you mean `goblet-squat`?"),
        (vec![("more", "<i>quads</i>")], "there is no muscle `&lt;i&gt;quads"),
        (vec![("seed", "-1")], "`-1` is no seed"),
        (vec![("must", "plank"), ("never", "plank")], "`plank` is both demanded and kept out"),
        (vec![], "nothing was asked for"),
        (
            vec![("drop", "mon@18:30"), ("drop", "wed@18:30"), ("drop", "fri@18:30")],
            "no session is left",
        ),
    ] {
        browser.post("/client/tide-01/try", &fields);
        let page = browser.get("/client/tide-01").body;
        assert!(page.contains(told), "{told}: {}", between(&page, "id=\"refused\"", "</section>"));
        assert!(!page.contains("Take the last change back"));
    }
}

/// Thirty minutes hold no six exercises: the collision is told with its ways out, and each button does what it says.
#[test]
fn a_collision_is_solved_by_its_button() {
    let browser = Browser::before(&["tide-01"]);
    let musts =
        ["back-squat", "deadlift", "bench-press", "barbell-row", "overhead-press", "hip-thrust"];
    let wish: Vec<(&str, &str)> = musts
        .iter()
        .map(|id| ("must", *id))
        .chain([
            ("minutes.mon@18:30", "10"),
            ("minutes.wed@18:30", "10"),
            ("minutes.fri@18:30", "10"),
        ])
        .collect();
    browser.post("/client/tide-01/try", &wish);
    let page = browser.get("/client/tide-01").body;
    let refused = between(&page, "id=\"refused\"", "</section>");
    assert!(refused.contains("no week can do all of this"), "{refused}");
    assert!(refused.contains("name=\"way\" value=\"0\""), "{refused}");
    assert!(!page.contains("id=\"changes\""));
    browser.post("/client/tide-01/way", &[("way", "0")]);
    let page = browser.get("/client/tide-01").body;
    assert!(page.contains("id=\"changes\"") && !page.contains("id=\"refused\""));
    browser.post("/client/tide-01/way", &[("way", "0")]);
    assert!(browser.get("/client/tide-01").body.contains("this way out is no longer there"));
}

/// Two sessions on one day are told apart by their hours, on the client's clock.
#[test]
fn two_sessions_on_one_day_have_their_hours() {
    let browser = Browser::before(&["tide-01"]);
    let text = browser.text("tide-01.yaml").replace("weeks: 4", "weeks: 4\nclock: 12h");
    let text = text.replace("day: wed, at: \"18:30\"", "day: mon, at: \"07:00\"");
    std::fs::write(browser.path("tide-01.yaml"), text).unwrap();
    let page = browser.get("/client/tide-01").body;
    for name in ["Monday 7:00 am</label>", "Monday 6:30 pm</label>", "Friday</label>"] {
        assert!(page.contains(name), "{name}: {page}");
    }
    browser.post("/client/tide-01/try", &[("minutes.mon@07:00", "45")]);
    assert!(
        browser.get("/client/tide-01").body.contains("Tried: <bdi>Monday 7:00 am 45 min</bdi>")
    );
    browser.post("/client/tide-01/keep", &[]);
    let card = browser.get("/client/tide-01/write?week=1&day=mon%4007:00").body;
    assert!(
        card.contains("<h1>Monday 7:00 am") && card.contains("Monday 6:30 pm 4 January"),
        "{card}"
    );
}

#[test]
fn a_script_gets_the_part_and_the_better_week_after_it() {
    use axum::body::Body;
    use axum::http::{Request, header};

    use crate::browser::{HOST, TOKEN, cookie};

    let browser = Browser::before(&["tide-01"]);
    let part = |path: &str, body: String| {
        let request = Request::post(path)
            .header(header::HOST, HOST)
            .header(header::COOKIE, cookie())
            .header("x-part", "hand")
            .header(header::CONTENT_TYPE, "application/x-www-form-urlencoded");
        browser.send(request.body(Body::from(body)).unwrap()).body
    };
    let quick = part("/client/tide-01/try", format!("token={TOKEN}&quick=1&never=goblet-squat"));
    assert!(
        quick.trim_start().starts_with("<div id=\"hand\" data-better=\"/client/tide-01/better\">"),
        "{quick:.300}"
    );
    assert!(quick.contains("A first answer") && !quick.contains("<html"));
    let better = part("/client/tide-01/better", format!("token={TOKEN}"));
    assert!(
        better.contains("Tried: <bdi>not Goblet squat</bdi>") && !better.contains("A first answer")
    );
    assert!(!better.contains("Before that:"));
}
