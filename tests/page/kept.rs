//! What is written, when, and over what.

use std::fs;

use weekwright::input::plan::Plan;

use crate::browser::Browser;

fn yaml_of_the_command_line(browser: &Browser, name: &str) -> Vec<u8> {
    let mut command = std::process::Command::new(env!("CARGO_BIN_EXE_weekwright"));
    command.arg("plan").arg(browser.path(name)).args(["--format", "yaml"]);
    command.output().unwrap().stdout
}

#[test]
fn a_plan_that_is_kept_is_the_command_lines_to_the_byte() {
    let browser = Browser::before(&["tide-01"]);
    browser.post("/client/tide-01/keep", &[]);
    let page = browser.get("/client/tide-01").body;
    assert!(page.contains("Kept in tide-01.plan.yaml."), "{page}");
    assert!(
        !browser.get("/client/tide-01").body.contains("Kept in tide-01.plan.yaml."),
        "it is said once"
    );
    let kept = fs::read(browser.path("tide-01.plan.yaml")).unwrap();
    assert_eq!(kept, yaml_of_the_command_line(&browser, "tide-01.yaml"));
    assert!(!browser.get("/").body.contains("no plan is kept"));
    assert!(browser.get("/client/tide-01").body.contains("Kept in"));
}

#[test]
fn a_try_that_is_kept_replaces_the_plan_and_goes_back_to_its_profile() {
    let browser = Browser::before(&["tide-01"]);
    browser.post("/client/tide-01/keep", &[]);
    browser.post("/client/tide-01/try", &[("without", "bench")]);
    browser.post("/client/tide-01/keep", &[]);
    let sheet = browser.get("/client/tide-01/sheet/yaml").body;
    assert_eq!(sheet, browser.text("tide-01.plan.yaml"));
    assert!(sheet.contains("without bench"));
    assert!(!browser.get("/").body.contains("older than the profile"));
    let profile = browser.text("tide-01.yaml");
    fs::write(browser.path("tide-01.yaml"), profile.replace("minutes: 60", "minutes: 55")).unwrap();
    assert!(browser.get("/").body.contains("older than the profile"));
    browser.post("/client/tide-01/follow", &[]);
    let page = browser.get("/client/tide-01").body;
    assert!(page.contains("of 55 min") && !page.contains("This plan was not made from"));
}

#[test]
fn a_change_elsewhere_is_shown_and_never_written_over() {
    let browser = Browser::before(&["tide-01"]);
    browser.post("/client/tide-01/keep", &[]);
    browser.post("/client/tide-01/try", &[("never", "goblet-squat")]);
    let edited = browser.text("tide-01.plan.yaml").replace("rest_s: 135", "rest_s: 150");
    fs::write(browser.path("tide-01.plan.yaml"), &edited).unwrap();
    let page = browser.get("/client/tide-01").body;
    assert!(page.contains("Changed elsewhere"), "{page}");
    browser.post("/client/tide-01/keep", &[]);
    assert_eq!(browser.text("tide-01.plan.yaml"), edited);
    browser.post("/client/tide-01/back", &[]);
    let page = browser.get("/client/tide-01").body;
    assert!(!page.contains("Changed elsewhere") && page.contains("Kept in"));
}

#[test]
fn an_edited_plan_is_set_aside_before_it_is_replaced() {
    let browser = Browser::before(&["tide-01"]);
    browser.post("/client/tide-01/keep", &[]);
    let edited = browser.text("tide-01.plan.yaml").replace("rest_s: 135", "rest_s: 150");
    fs::write(browser.path("tide-01.plan.yaml"), &edited).unwrap();
    browser.post("/client/tide-01/try", &[("never", "goblet-squat")]);
    browser.post("/client/tide-01/keep", &[]);
    assert_eq!(browser.text("tide-01.1.plan.yaml"), edited);
    assert_ne!(browser.text("tide-01.plan.yaml"), edited);
    assert!(!browser.get("/").body.contains("Plans whose profile is gone"));
}

#[test]
fn a_plan_that_appears_meanwhile_is_not_written_over() {
    let browser = Browser::before(&["tide-01"]);
    browser.post("/client/tide-01/try", &[("never", "goblet-squat")]);
    fs::write(browser.path("tide-01.plan.yaml"), "format: mine\n").unwrap();
    browser.post("/client/tide-01/keep", &[]);
    assert_eq!(browser.text("tide-01.plan.yaml"), "format: mine\n");
}

#[test]
fn a_folder_that_is_gone_or_a_broken_plan_is_a_sentence() {
    let browser = Browser::before(&["tide-01"]);
    fs::write(browser.path("tide-01.plan.yaml"), "format: weekwright-plan/9\nclient: x\n").unwrap();
    let page = browser.get("/client/tide-01").body;
    assert!(page.contains("Please look again") && page.contains("tide-01.plan.yaml"), "{page}");
    assert!(browser.get("/").body.contains("the kept plan cannot be read"));
    fs::remove_dir_all(browser.folder.path()).unwrap();
    assert!(browser.get("/").body.contains("cannot be used"));
    assert_eq!(browser.get("/client/tide-01").status, 404);
    assert_eq!(browser.post("/client/tide-01/keep", &[]).status, 404);
}

/// A plan whose client is gone is told of, and there is no page of it, nothing to write down and nothing to keep.
#[test]
fn a_plan_whose_client_is_gone_is_told_and_left_alone() {
    let browser = Browser::before(&["tide-01", "oar-02"]);
    browser.post("/client/tide-01/keep", &[]);
    let kept = browser.text("tide-01.plan.yaml");
    fs::remove_file(browser.path("tide-01.yaml")).unwrap();
    let clients = browser.get("/").body;
    let told = clients.split("Plans whose profile is gone").nth(1).unwrap();
    assert!(told.contains("tide-01.plan.yaml") && !clients.contains("/client/tide-01"));
    for path in ["", "/profile", "/write", "/progress", "/review", "/sheet/html", "/instead/plank"]
    {
        let page = browser.get(&format!("/client/tide-01{path}"));
        assert!(page.status == 404 && page.body.contains("no such client"), "{path}");
    }
    for path in ["/keep", "/try", "/back", "/profile", "/write"] {
        assert_eq!(browser.post(&format!("/client/tide-01{path}"), &[]).status, 404, "{path}");
    }
    assert_eq!(browser.text("tide-01.plan.yaml"), kept);
    assert!(!browser.path("tide-01.yaml").exists());
}

/// A folder that may be read and not written. Who may write everywhere (root) is not kept from it by the folder.
#[cfg(unix)]
#[test]
fn a_folder_that_became_read_only_is_a_sentence() {
    use std::os::unix::fs::PermissionsExt as _;
    let browser = Browser::before(&["tide-01"]);
    browser.post("/client/tide-01/try", &[("minutes.fri@18:30", "45")]);
    let may = |mode| fs::set_permissions(browser.folder.path(), fs::Permissions::from_mode(mode));
    may(0o555).unwrap();
    let is_kept_out = fs::write(browser.path("probe"), "").is_err();
    browser.post("/client/tide-01/keep", &[]);
    let page = browser.get("/client/tide-01").body;
    may(0o755).unwrap();
    if is_kept_out {
        assert!(page.contains("the file cannot be written"), "{page:.3000}");
        assert!(page.contains("Tried: <bdi>Friday 45 min</bdi>"));
        browser.post("/client/tide-01/keep", &[]);
    }
    assert!(browser.text("tide-01.plan.yaml").contains("limit: 45"));
}

#[test]
fn sheets_are_those_of_the_week_in_hand() {
    let browser = Browser::before(&["tide-01"]);
    browser.post("/client/tide-01/try", &[("minutes.fri@18:30", "45")]);
    let yaml = browser.get("/client/tide-01/sheet/yaml");
    assert!(yaml.header("content-disposition").contains("filename=\"tide-01.plan.yaml\""));
    assert!(yaml.body.contains("limit: 45"));
    let calendar = browser.get("/client/tide-01/sheet/ics");
    assert!(calendar.body.starts_with("BEGIN:VCALENDAR"));
    assert_eq!(calendar.header("content-type"), "text/calendar; charset=utf-8");
    let named = yaml.body.split("exercise: ").nth(1).expect("an exercise");
    let lead = named.split([',', '}', '\n']).next().expect("its id");
    assert!(browser.get("/client/tide-01/sheet/csv").body.contains(lead));
    let page = browser.get("/client/tide-01/sheet/html?for=client&paper=letter").body;
    assert!(page.contains("size: Letter") && !page.contains("For the coach"));
    let usual = browser.get("/client/tide-01/sheet/html?for=client").body;
    assert!(usual.contains("size: A4"));
    // The kept form reads back as a plan by another parser than ours.
    assert!(serde_yaml::from_str::<Plan>(&yaml.body).is_err());
    assert!(
        serde_yaml::from_str::<serde_yaml::Value>(&yaml.body).unwrap().get("sessions").is_some()
    );
}

/// The first page to print is on the client's paper, and the file to send has it too.
#[test]
fn the_paper_of_the_profile_comes_first() {
    let browser = Browser::before(&["tide-01"]);
    let profile = browser.text("tide-01.yaml").replace("weeks: 4", "weeks: 4\npaper: letter");
    fs::write(browser.path("tide-01.yaml"), profile).unwrap();
    let page = browser.get("/client/tide-01").body;
    let place = |paper: &str| page.find(&format!("for=client&amp;paper={paper}")).unwrap();
    assert!(place("letter") < place("a4"));
    let print =
        |more: &str| browser.get(&format!("/client/tide-01/sheet/html?for=client{more}")).body;
    assert!(print("").contains("size: Letter") && print("&save=1").contains("size: Letter"));
    assert!(print("&paper=a4").contains("size: A4"));
    assert!(browser.get("/client/tide-01/profile").body.contains("value=\"letter\" selected"));
}

/// The folder above `profiles/` will do too, and plans go where plans are.
#[test]
fn profiles_and_plans_may_have_folders_of_their_own() {
    let whole = Browser::before(&["tide-01"]);
    let folder = tempfile::TempDir::new().unwrap();
    fs::create_dir(folder.path().join("plans")).unwrap();
    fs::rename(whole.folder.path(), folder.path().join("profiles")).unwrap();
    let browser = Browser::at(folder);
    assert!(browser.get("/").body.contains("/client/tide-01"));
    browser.post("/client/tide-01/keep", &[]);
    assert!(browser.path("plans/tide-01.plan.yaml").exists());
    fs::copy(browser.path("profiles/tide-01.yaml"), browser.path("profiles/tide-02.yaml")).unwrap();
    assert!(browser.get("/").body.contains("/client/tide-02"), "a new file is seen");
    let place = browser.text("profiles/places/boathouse.yaml").replace("  bench: 1\n", "");
    fs::write(browser.path("profiles/places/boathouse.yaml"), place).unwrap();
    let page = browser.get("/client/tide-01").body;
    assert!(page.contains("This plan was not made from the profile"), "a changed place is seen");
}
