//! Nothing of the user's is overwritten: inputs, plans that were edited, files of others, links.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Output, Stdio};

use super::{program, run, text};

const SMALL: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/fixtures/small.yaml");

/// A folder with a profile, and where its plan goes.
struct Desk {
    folder: tempfile::TempDir,
}

impl Desk {
    fn new() -> Desk {
        let desk = Desk { folder: tempfile::tempdir().unwrap() };
        fs::copy(SMALL, desk.at("one.yaml")).unwrap();
        desk
    }

    fn at(&self, name: &str) -> PathBuf {
        self.folder.path().join(name)
    }

    fn read(&self, name: &str) -> String {
        fs::read_to_string(self.at(name)).unwrap()
    }

    fn names(&self) -> Vec<String> {
        let names = fs::read_dir(self.folder.path()).unwrap();
        let mut names: Vec<String> =
            names.map(|entry| entry.unwrap().file_name().into_string().unwrap()).collect();
        names.sort();
        names
    }

    /// Runs in the folder, so that arguments are names of its files.
    fn run(&self, arguments: &[&str]) -> Output {
        program().current_dir(self.folder.path()).args(arguments).output().unwrap()
    }

    fn does(&self, arguments: &[&str]) {
        let output = self.run(arguments);
        assert_eq!(output.status.code(), Some(0), "{arguments:?}: {}", text(&output.stderr));
    }

    /// Refuses with a code, and changes no file.
    fn refuses(&self, arguments: &[&str], code: &str) {
        let before: Vec<_> =
            self.names().into_iter().map(|name| fs::read(self.at(&name)).ok()).collect();
        let output = self.run(arguments);
        let told = text(&output.stderr);
        assert_eq!(output.status.code(), Some(2), "{arguments:?}: {told}");
        assert!(told.contains(code), "{arguments:?}: {told}");
        let after: Vec<_> =
            self.names().into_iter().map(|name| fs::read(self.at(&name)).ok()).collect();
        assert_eq!(before, after, "{arguments:?} changed a file");
    }
}

#[test]
fn no_result_replaces_an_input_by_whatever_name() {
    let desk = Desk::new();
    desk.does(&["plan", "one.yaml", "-o", "one.plan.yaml"]);
    fs::hard_link(desk.at("one.yaml"), desk.at("same.yaml")).unwrap();
    #[cfg(unix)]
    std::os::unix::fs::symlink(desk.at("one.yaml"), desk.at("link.yaml")).unwrap();
    let mut names = vec!["one.yaml", "./one.yaml", "same.yaml"];
    names.extend(cfg!(unix).then_some("link.yaml"));
    for name in names {
        for force in [&[][..], &["--force"]] {
            let with = |arguments: &[&'static str]| [arguments, &[name], force].concat();
            desk.refuses(&with(&["plan", "one.yaml", "-o"]), "E1011");
            desk.refuses(
                &with(&["rework", "one.plan.yaml", "--profile", "one.yaml", "-o"]),
                "E1011",
            );
        }
    }
    for name in ["one.plan.yaml", "./one.plan.yaml"] {
        desk.refuses(&["sheet", "one.plan.yaml", "-o", name, "--force"], "E1011");
        desk.refuses(&["rework", "one.plan.yaml", "--without", "bench", "-o", name], "E1011");
    }
    desk.refuses(&["sheet", "one.plan.yaml", "--as", "html", "-o", "one.plan.yaml"], "E1014");
    fs::rename(desk.at("one.yaml"), desk.at("one")).unwrap();
    desk.refuses(&["plan", "one", "--write-model", "one", "--force"], "E1011");
    desk.refuses(&["plan", "one", "--write-model", "new", "-o", "new"], "E1010");
    desk.refuses(&["plan", "one", "--write-model", "./new", "-o", "new"], "E1010");
    desk.refuses(&["plan", "one", "--write-model", "one.plan.yaml"], "E1014");
}

#[test]
fn a_plan_is_replaced_while_nobody_edited_it() {
    let desk = Desk::new();
    let plan = ["plan", "one.yaml", "-o", "p.plan.yaml"];
    desk.does(&plan);
    let first = desk.read("p.plan.yaml");
    desk.does(&plan);
    let longer = desk.read("one.yaml").replace("minutes: 30", "minutes: 45");
    fs::write(desk.at("longer.yaml"), longer).unwrap();
    desk.does(&["plan", "longer.yaml", "-o", "p.plan.yaml"]);
    assert_ne!(desk.read("p.plan.yaml"), first);
    let edited = first.replacen("rest_s: ", "rest_s: 1", 1);
    assert_ne!(edited, first);
    fs::write(desk.at("p.plan.yaml"), &edited).unwrap();
    desk.refuses(&plan, "E1012");
    for (number, old) in [(1, edited), (2, "format: mine\n".to_owned())] {
        fs::write(desk.at("p.plan.yaml"), &old).unwrap();
        let output = desk.run(&[&plan[..], &["--force"]].concat());
        assert_eq!(desk.read("p.plan.yaml"), first);
        assert_eq!(desk.read(&format!("p.{number}.plan.yaml")), old, "the old one is kept");
        assert!(text(&output.stderr).contains(&format!("p.{number}.plan.yaml")));
    }
}

#[test]
fn another_file_is_replaced_only_when_asked() {
    let desk = Desk::new();
    desk.does(&["plan", "one.yaml", "-o", "p.plan.yaml"]);
    for (arguments, name) in [
        (&["sheet", "p.plan.yaml", "-o"], "page.html"),
        (&["sheet", "p.plan.yaml", "-o"], "p.csv"),
        (&["plan", "one.yaml", "-o"], "p.txt"),
        (&["plan", "one.yaml", "--write-model"], "p.mps"),
        (&["schema", "plan", "-o"], "plan.schema.json"),
        (&["manual", "plan", "-o"], "plan.1"),
    ] {
        let arguments = [arguments, &[name][..]].concat();
        fs::write(desk.at(name), "mine\n").unwrap();
        desk.refuses(&arguments, "E1012");
        desk.does(&[&arguments[..], &["--force"]].concat());
        assert_ne!(desk.read(name), "mine\n");
        desk.does(&arguments);
    }
    let other = "client: other\n";
    fs::write(desk.at("other.yaml"), other).unwrap();
    desk.refuses(&["plan", "one.yaml", "-o", "other.yaml"], "E1012");
    desk.does(&["plan", "one.yaml", "-o", "other.yaml", "--force"]);
    assert_eq!(desk.read("other.yaml.1"), other);
}

#[test]
fn a_folder_is_planned_into_itself_twice() {
    let desk = Desk::new();
    let folder = desk.folder.path().to_str().unwrap();
    fs::write(desk.at("new.draft.yaml"), "client: new\n").unwrap();
    fs::write(desk.at("by-hand.yaml"), "format: weekwright-plan/1\n").unwrap();
    for seed in ["0", "0", "4"] {
        desk.does(&["plan", folder, "-o", folder, "--seed", seed]);
        assert_eq!(desk.names(), ["by-hand.yaml", "new.draft.yaml", "one.plan.yaml", "one.yaml"]);
    }
    assert_eq!(desk.read("one.yaml"), fs::read_to_string(SMALL).unwrap());
    desk.does(&["plan", folder, "--write-model", folder]);
    desk.does(&["plan", folder, "--write-model", folder]);
    desk.does(&["plan", folder, "-o", "a/new/folder"]);
    assert!(desk.at("a/new/folder/one.plan.yaml").is_file());
}

/// The edited plan of one client keeps nobody else from getting theirs.
#[test]
fn one_edited_plan_of_a_folder_stops_no_other() {
    let desk = Desk::new();
    fs::copy(SMALL, desk.at("two.yaml")).unwrap();
    fs::write(desk.at("one.plan.yaml"), "format: mine\n").unwrap();
    let output = desk.run(&["plan", ".", "-o", "."]);
    let told = text(&output.stderr);
    assert_eq!(output.status.code(), Some(2), "{told}");
    assert!(told.contains("[E1012]") && told.contains("1 of 2 profiles planned"), "{told}");
    assert_eq!(desk.read("one.plan.yaml"), "format: mine\n");
    assert!(desk.at("two.plan.yaml").is_file());
}

#[test]
fn the_ending_chooses_the_format_or_disagrees() {
    let desk = Desk::new();
    desk.does(&["plan", "one.yaml", "-o", "p.json"]);
    assert!(desk.read("p.json").starts_with('{'));
    desk.does(&["plan", "one.yaml", "-o", "p.plan.yaml"]);
    for (name, begin) in
        [("p.html", "<!doctype html>"), ("p.ics", ""), ("p.csv", ""), ("p.md", "# "), ("p.txt", "")]
    {
        let output = desk.run(&["sheet", "p.plan.yaml", "-o", name]);
        if name == "p.ics" {
            assert!(text(&output.stderr).contains("start:"), "a calendar it is");
        } else {
            let page = desk.read(name).to_lowercase();
            assert!(page.trim_start().starts_with(begin), "{name}: {page}");
        }
    }
    desk.refuses(&["sheet", "p.plan.yaml", "--as", "csv", "-o", "q.html"], "E1014");
    desk.refuses(&["sheet", "p.plan.yaml", "-o", "q.pdf"], "E1014");
    desk.refuses(&["plan", "one.yaml", "-o", "q.html"], "E1014");
    desk.refuses(&["plan", "one.yaml", "--format", "json", "-o", "q.plan.yaml"], "E1014");
    desk.refuses(&["rework", "p.plan.yaml", "--without", "bench", "-o", "q.csv"], "E1014");
    desk.does(&["plan", "one.yaml", "--format", "yaml", "-o", "one.plan"]);
    assert!(desk.read("one.plan").contains("format: weekwright-plan/2"));
}

#[cfg(unix)]
#[test]
fn a_link_stays_one_and_a_dangling_one_is_refused() {
    let desk = Desk::new();
    std::os::unix::fs::symlink("there.yaml", desk.at("link.yaml")).unwrap();
    desk.refuses(&["plan", "one.yaml", "-o", "link.yaml"], "E1013");
    desk.does(&["plan", "one.yaml", "-o", "there.yaml"]);
    desk.does(&["plan", "one.yaml", "-o", "link.yaml", "--seed", "2"]);
    assert!(fs::symlink_metadata(desk.at("link.yaml")).unwrap().is_symlink());
    assert_eq!(desk.read("there.yaml"), desk.read("link.yaml"));
}

/// What a run that was killed left behind goes with the next; what another one writes now stays.
#[test]
fn parts_of_dead_runs_are_swept() {
    let desk = Desk::new();
    for name in [".weekwright-dead.part", ".weekwright-busy.part", ".weekwright-notes"] {
        fs::write(desk.at(name), "half").unwrap();
    }
    let busy = fs::File::open(desk.at(".weekwright-busy.part")).unwrap();
    busy.lock().unwrap();
    desk.does(&["schema", "place", "-o", "place.json"]);
    let left = [".weekwright-busy.part", ".weekwright-notes", "one.yaml", "place.json"];
    assert_eq!(desk.names(), left);
}

/// A reader that has seen enough, as `| head` has.
#[cfg(unix)]
#[test]
fn a_reader_may_leave() {
    let mut child = program()
        .args(["plan", SMALL, "--quiet"])
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    drop(child.stdout.take());
    let output = child.wait_with_output().unwrap();
    assert_eq!((output.status.code(), text(&output.stderr)), (Some(0), ""));
}

/// Results that nobody can get are no success; the null device is somebody's choice, also where it is open both ways.
#[cfg(unix)]
#[test]
fn a_closed_output_is_told() {
    let shell = |rest: &str| {
        let command = format!("exec \"$0\" plan \"$1\" --quiet {rest}");
        let program = env!("CARGO_BIN_EXE_weekwright");
        std::process::Command::new("sh").args(["-c", &command, program, SMALL]).output().unwrap()
    };
    let closed = shell(">&-");
    assert_eq!(closed.status.code(), Some(1));
    assert!(text(&closed.stderr).contains("standard output is closed"), "{}", text(&closed.stderr));
    for open in [">/dev/null", "1<>/dev/null"] {
        assert_eq!(shell(open).status.code(), Some(0), "{open}");
    }
    let desk = Desk::new();
    let file = desk.at("p.plan.yaml");
    assert_eq!(shell(&format!("-o '{}' >&-", file.display())).status.code(), Some(0));
    assert!(file.exists());
}

#[cfg(target_os = "linux")]
#[test]
fn devices_take_results_without_being_asked_about() {
    assert!(Path::new("/dev/null").exists());
    assert_eq!(run(&["schema", "place", "-o", "/dev/null"]).status.code(), Some(0));
    assert_eq!(run(&["schema", "place", "-o", "/dev/stdout"]).status.code(), Some(0));
}
