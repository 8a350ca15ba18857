//! The form of a profile: what it writes, what it keeps, what it refuses.

use std::fs;
use std::process::Command;

use axum::http::StatusCode;

use crate::browser::Browser;

/// The fields of a page's largest form, as a browser would send them untouched.
pub(crate) fn fields(page: &str) -> Vec<(String, String)> {
    let start = page.find("class=\"profile\"").or_else(|| page.find("class=\"bench\"")).unwrap();
    let form = &page[start..start + page[start..].find("</form>").unwrap()];
    let mut found = Vec::new();
    for tag in form.split('<').skip(1) {
        let attribute = |name: &str| {
            let from = tag.find(&format!(" {name}=\""))? + name.len() + 3;
            Some(unescaped(&tag[from..from + tag[from..].find('"')?]))
        };
        let is_set = |name: &str| tag.split('>').next().unwrap().ends_with(&format!(" {name}"));
        if tag.starts_with("select") {
            found.push((attribute("name").unwrap(), String::new()));
        } else if tag.starts_with("option") && is_set("selected") {
            found.last_mut().unwrap().1 = attribute("value").unwrap();
        } else if tag.starts_with("textarea") {
            // The first line break of a text is not part of it (HTML, 13.1.2.6).
            let text = tag.split_once('>').unwrap().1;
            found.push((
                attribute("name").unwrap(),
                unescaped(text.strip_prefix('\n').unwrap_or(text)),
            ));
        } else if tag.starts_with("input") {
            let kind = attribute("type").unwrap_or_default();
            if (kind == "radio" || kind == "checkbox") && !is_set("checked") {
                continue;
            }
            found.push((attribute("name").unwrap(), attribute("value").unwrap_or_default()));
        }
    }
    found.retain(|(name, _)| name != "token");
    found
}

fn unescaped(text: &str) -> String {
    let marks = [
        ("&lt;", "<"),
        ("&gt;", ">"),
        ("&quot;", "\""),
        ("&#x27;", "'"),
        ("&#x2f;", "/"),
        ("&amp;", "&"),
    ];
    marks.iter().fold(text.to_owned(), |text, (mark, letter)| text.replace(mark, letter))
}

/// The fields with some of them changed.
fn with<'a>(
    fields: &'a [(String, String)],
    changes: &[(&'a str, &'a str)],
) -> Vec<(&'a str, &'a str)> {
    let stays = |name: &str| changes.iter().all(|(changed, _)| *changed != name);
    let kept = fields.iter().filter(|(name, _)| stays(name));
    kept.map(|(name, value)| (name.as_str(), value.as_str()))
        .chain(changes.iter().copied())
        .collect()
}

fn planned(folder: &std::path::Path, name: &str) -> Vec<u8> {
    let mut command = Command::new(env!("CARGO_BIN_EXE_weekwright"));
    let output =
        command.current_dir(folder).args(["plan", name, "--format", "yaml"]).output().unwrap();
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    output.stdout
}

#[test]
fn a_form_that_is_saved_untouched_changes_no_byte() {
    let clients =
        ["tide-01", "oar-02", "scull-07", "keel-04", "bow-03", "sweep-10", "skiff-11", "buoy-09"];
    let browser = Browser::before(&clients);
    for client in clients {
        let before = browser.text(&format!("{client}.yaml"));
        let page = browser.get(&format!("/client/{client}/profile"));
        assert_eq!(page.status, StatusCode::OK, "{client}");
        let fields = fields(&page.body);
        let answer = browser.post(&format!("/client/{client}/profile"), &with(&fields, &[]));
        assert_eq!(answer.status, StatusCode::SEE_OTHER, "{client}: {}", answer.body);
        assert_eq!(browser.text(&format!("{client}.yaml")), before, "{client}");
    }
}

#[test]
fn one_changed_field_changes_one_line() {
    let browser = Browser::before(&["oar-02"]);
    let before = browser.text("oar-02.yaml");
    let page = browser.get("/client/oar-02/profile").body;
    let fields = fields(&page);
    let sent =
        with(&fields, &[("weeks", "6"), ("screening.active", "yes"), ("sessions.1.minutes", "50")]);
    assert_eq!(browser.post("/client/oar-02/profile", &sent).status, StatusCode::SEE_OTHER);
    let after = browser.text("oar-02.yaml");
    let gone: Vec<&str> = before.lines().filter(|line| !after.contains(line)).collect();
    let new: Vec<&str> = after.lines().filter(|line| !before.contains(line)).collect();
    assert_eq!(gone, ["weeks: 8", "  - {day: tue, at: \"18:30\", minutes: 60}"]);
    assert_eq!(
        new,
        ["weeks: 6", "  - {day: tue, at: \"18:30\", minutes: 50}", "screening: {active: true}"]
    );
    assert!(after.contains("# above 140 the back rounds"));
}

#[test]
fn faults_stand_beside_their_fields_in_the_words_of_the_command_line() {
    let browser = Browser::before(&["tide-01"]);
    let before = browser.text("tide-01.yaml");
    let page = browser.get("/client/tide-01/profile").body;
    let fields = fields(&page);
    let wrong =
        [("weeks", "many"), ("sessions.0.minutes", "5"), ("client", ""), ("start", "4 January")];
    let answer = browser.post("/client/tide-01/profile", &with(&fields, &wrong));
    assert_eq!(answer.status, StatusCode::UNPROCESSABLE_ENTITY);
    assert_eq!(browser.text("tide-01.yaml"), before);
    for typed in ["value=\"many\"", "value=\"5\"", "value=\"4 January\""] {
        assert!(answer.body.contains(typed), "{typed} is lost");
    }
    for name in ["weeks", "sessions", "client"] {
        assert!(answer.body.contains(&format!("id=\"faults-{name}\"")), "{name}");
    }
    let said = {
        let text =
            before.replace("weeks: 4", "weeks: many").replacen("minutes: 60", "minutes: 5", 1);
        fs::write(browser.path("wrong.yaml"), text).unwrap();
        let mut command = Command::new(env!("CARGO_BIN_EXE_weekwright"));
        let output =
            command.arg("plan").arg(browser.path("wrong.yaml")).args(["--format", "json"]).output();
        let faults: serde_json::Value = serde_json::from_slice(&output.unwrap().stderr).unwrap();
        faults["diagnostics"].as_array().unwrap().clone()
    };
    assert_eq!(said.len(), 2);
    for fault in said {
        let message = fault["message"].as_str().unwrap();
        assert!(unescaped(&answer.body).contains(message), "{message}");
    }
}

#[test]
fn a_new_client_plans_to_the_bytes_of_the_command_line() {
    let browser = Browser::before(&[]);
    assert_eq!(browser.get("/new").status, StatusCode::OK);
    let half = [("client", "tide-20"), ("birth_year", "1991")];
    let answer = browser.post("/new", &half);
    assert_eq!(answer.status, StatusCode::UNPROCESSABLE_ENTITY);
    assert!(answer.body.contains("value=\"tide-20\"") && answer.body.contains("value=\"1991\""));
    for name in ["training_status", "goal", "sessions"] {
        assert!(answer.body.contains(&format!("id=\"faults-{name}\"")), "{name}");
    }
    assert!(!browser.path("tide-20.yaml").exists());
    let whole = [
        ("client", "tide-20"),
        ("training_status", "novice"),
        ("goal", "general-fitness"),
        ("place", "boathouse"),
        ("start", "2027-01-04"),
        ("sessions.0.day", "tue"),
        ("sessions.0.at", "18:30"),
        ("sessions.0.minutes", "45"),
        ("sessions.1.day", "fri"),
        ("sessions.1.minutes", "45"),
        ("limits", "overhead"),
        ("emphasis.0.key", "glutes"),
        ("emphasis.0.value", "more"),
        ("exercises.prefer", "goblet-squat"),
        ("screening.pain", "left knee: on stairs, # and so on"),
    ];
    let answer = browser.post("/new", &whole);
    assert_eq!(
        (answer.status, answer.header("location")),
        (StatusCode::SEE_OTHER, "/client/tide-20"),
        "{}",
        answer.body
    );
    let text = browser.text("tide-20.yaml");
    assert!(
        text.contains("limits: [overhead]\n") && text.contains("emphasis: {glutes: more}\n"),
        "{text}"
    );
    browser.post("/client/tide-20/keep", &[]);
    let kept = fs::read(browser.path("tide-20.plan.yaml")).unwrap();
    assert_eq!(kept, planned(browser.folder.path(), "tide-20.yaml"));
    let again = browser.post("/new", &whole);
    assert!(again.body.contains("there is a profile of this name already"));
    assert_eq!(browser.text("tide-20.yaml"), text);
}

#[test]
fn a_name_that_looks_like_a_path_makes_a_plain_file() {
    let browser = Browser::before(&[]);
    let fields = [
        ("client", "../../tide/../99"),
        ("training_status", "novice"),
        ("goal", "general-fitness"),
        ("place", "boathouse"),
        ("sessions.0.day", "tue"),
        ("sessions.0.minutes", "45"),
    ];
    let answer = browser.post("/new", &fields);
    assert_eq!(answer.header("location"), "/client/tide-99", "{}", answer.body);
    assert!(browser.path("tide-99.yaml").exists());
}

#[test]
fn a_profile_that_changed_meanwhile_is_not_written_over() {
    let browser = Browser::before(&["tide-01"]);
    let page = browser.get("/client/tide-01/profile").body;
    let fields = fields(&page);
    let other = browser.text("tide-01.yaml").replace("weeks: 4", "weeks: 12");
    fs::write(browser.path("tide-01.yaml"), &other).unwrap();
    let answer = browser.post("/client/tide-01/profile", &with(&fields, &[("birth_year", "1980")]));
    assert_eq!(answer.status, StatusCode::CONFLICT);
    assert!(
        answer.body.contains("value=\"1980\"") && answer.body.contains("was changed elsewhere")
    );
    assert_eq!(browser.text("tide-01.yaml"), other);
}

#[test]
fn the_file_can_be_written_as_text_and_a_broken_one_mended() {
    let browser = Browser::before(&["tide-01"]);
    let text = browser.text("tide-01.yaml");
    let broken = text.replace("sessions:", "sessions: [");
    fs::write(browser.path("tide-01.yaml"), &broken).unwrap();
    let page = browser.get("/client/tide-01/profile").body;
    assert!(page.contains("E1101"), "{page}");
    let read =
        page.split("name=\"read\" value=\"").nth(1).unwrap().split('"').next().unwrap().to_owned();
    let lines = text.trim_end().replace('\n', "\r\n");
    let answer = browser.post("/client/tide-01/profile", &[("read", &read), ("whole", &lines)]);
    assert_eq!(answer.status, StatusCode::SEE_OTHER, "{}", answer.body);
    assert_eq!(browser.text("tide-01.yaml"), text);
}

/// Keys that the form shows as they stand, because their shape has no field of its own.
#[test]
fn what_the_form_cannot_show_stays_as_it_is() {
    let browser = Browser::before(&["tide-01"]);
    let text = browser.text("tide-01.yaml")
        + "split: [[quads, chest], [lats, hamstrings], [glutes, biceps]]\nlimits: [impact, {tag: spinal-compression, allow: light}]\n\
           targets: {chest: {range: [8, 14], strict: true}, lats: [6, 12]}\nrules: {stations: 3}\n\
           known_lifts:\n  back-squat: {load: 50, reps: 5}   # in spring\n\
           exercises: {must: [], prefer: [goblet-squat]}\nscreening: {active: true, pain: []}\n";
    fs::write(browser.path("tide-01.yaml"), &text).unwrap();
    let page = browser.get("/client/tide-01/profile").body;
    let fields = fields(&page);
    let answer = browser.post("/client/tide-01/profile", &with(&fields, &[("weeks", "5")]));
    assert_eq!(answer.status, StatusCode::SEE_OTHER, "{}", answer.body);
    assert_eq!(browser.text("tide-01.yaml"), text.replace("weeks: 4", "weeks: 5"));
}
