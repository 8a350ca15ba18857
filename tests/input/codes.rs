//! The table of codes against the sources and the fixtures.

use std::collections::BTreeSet;
use std::fs;
use std::io::Write as _;
use std::path::Path;

use schemars::JsonSchema;
use serde::Deserialize;
use weekwright::catalog::Catalog;
use weekwright::catalog::cells::KitGroup;
use weekwright::catalog::lint::lint;
use weekwright::cli::files::read_source;
use weekwright::cli::plan_file::load_plan;
use weekwright::diagnostic::{Diagnostic, Source};
use weekwright::input::catalog::Entry;
use weekwright::input::check::CODES;
use weekwright::input::read;
use weekwright::input::source::{MOST_BYTES, source};
use weekwright::words::{Kit, Pattern};

use super::fixtures::codes_with_a_fixture;

/// Codes whose bad input is made here, because no file in the repository could hold it.
/// E1008 is met in `tests/page/gate.rs`, E1010 in `tests/cli/many.rs`, E1011 to E1014 in `tests/cli/keeps.rs`.
const MADE_HERE: [&str; 14] = [
    "E1001", "E1004", "E1005", "E1006", "E1008", "E1009", "E1010", "E1011", "E1012", "E1013",
    "E1014", "E1212", "W1412", "W1413",
];

/// Codes past those of files that no input can force: a search that stops too early, a fault of ours, a system without
/// random numbers.
const NOT_FORCED: [&str; 3] = ["E3002", "E4001", "E5005"];

/// Whether a code is one of a file, `E1` or `W1`.
fn is_of_a_file(code: &str) -> bool {
    code[1..].starts_with('1')
}

#[test]
fn every_code_is_listed_once_and_has_bad_input() {
    let with_input: BTreeSet<&str> = codes_with_a_fixture().into_iter().chain(MADE_HERE).collect();
    let listed: BTreeSet<&str> = CODES.iter().map(|(code, _, _)| *code).collect();
    assert_eq!(listed.len(), CODES.len(), "a code is listed twice");
    let of_files: BTreeSet<&str> =
        listed.iter().copied().filter(|code| is_of_a_file(code)).collect();
    assert_eq!(of_files, with_input);
    let met = [
        include_str!("../cli/codes.rs"),
        include_str!("../cli/many.rs"),
        include_str!("../cli/record/faults.rs"),
        include_str!("../cli/intake.rs"),
        include_str!("../cli/rota.rs"),
        include_str!("../why/stories.rs"),
    ];
    for code in listed.difference(&of_files).filter(|code| !NOT_FORCED.contains(code)) {
        assert!(met.iter().any(|tests| tests.contains(code)), "no test meets {code}");
    }
    assert!(CODES.iter().all(|(_, cause, way_out)| !cause.is_empty() && !way_out.is_empty()));
}

#[test]
fn every_code_in_the_sources_is_listed() {
    let mut used = BTreeSet::new();
    collect(&Path::new(env!("CARGO_MANIFEST_DIR")).join("src"), &mut used);
    let listed: BTreeSet<String> = CODES.iter().map(|(code, _, _)| (*code).to_owned()).collect();
    let missing: Vec<_> = used.difference(&listed).collect();
    assert!(missing.is_empty(), "used but not listed: {missing:?}");
}

/// Codes that stand in quotes in the sources, but for the table itself.
fn collect(folder: &Path, used: &mut BTreeSet<String>) {
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            collect(&path, used);
        } else if !path.ends_with("codes.rs") {
            let text = fs::read_to_string(&path).unwrap();
            let is_code = |word: &&str| {
                let digits = word.strip_prefix('E').or_else(|| word.strip_prefix('W'));
                digits.is_some_and(|digits| {
                    digits.len() == 4 && digits.bytes().all(|byte| byte.is_ascii_digit())
                })
            };
            used.extend(text.split('"').filter(is_code).map(str::to_owned));
        }
    }
}

fn told(found: &Diagnostic, code: &str) {
    assert_eq!(found.code, code);
    assert!(!found.help.is_empty());
    assert!(!found.labels.is_empty());
}

#[test]
fn a_profile_over_1_mb_is_refused_and_one_of_1_mb_is_not() {
    let text = vec![b'#'; MOST_BYTES + 1];
    told(&source("big.yaml", text, MOST_BYTES).unwrap_err(), "E1001");
    assert!(source("big.yaml", vec![b'#'; MOST_BYTES], MOST_BYTES).is_ok());
}

#[test]
fn a_profile_over_1_mb_is_refused_on_disk() {
    let file = tempfile::NamedTempFile::new().unwrap();
    file.as_file().set_len(MOST_BYTES as u64 + 1).unwrap();
    told(&read_source(file.path()).unwrap_err(), "E1001");
}

/// A plan of a year of six days has more than 1 MB, and is read again; comments fill this one up.
#[test]
fn a_plan_may_be_larger_than_a_profile() {
    let folder = tempfile::tempdir().unwrap();
    let by_hand = include_str!("../fixtures/plans/by-hand.yaml");
    for (lines, is_read) in [(15_000, true), (60_000, false)] {
        let file = folder.path().join("plan.yaml");
        let filling = format!("# {}\n", "-".repeat(77)).repeat(lines);
        fs::write(&file, format!("{by_hand}{filling}")).unwrap();
        let faults = weekwright::cli::plan_file::load_plan(&file).err();
        assert_eq!(faults.is_none(), is_read, "{faults:?}");
        assert!(faults.is_none_or(|faults| faults.diagnostics[0].code == "E1001"));
    }
}

#[test]
fn a_missing_file_gets_the_nearest_name() {
    let folder = tempfile::tempdir().unwrap();
    fs::write(folder.path().join("tide-01.yaml"), "client: tide-01\n").unwrap();
    let found = read_source(&folder.path().join("tide-1.yaml")).unwrap_err();
    told(&found, "E1004");
    assert!(found.help.contains("tide-01.yaml"), "{}", found.help);
}

#[test]
fn a_directory_gets_a_file_in_it() {
    let folder = tempfile::tempdir().unwrap();
    fs::write(folder.path().join("tide-01.yaml"), "client: tide-01\n").unwrap();
    let found = read_source(folder.path()).unwrap_err();
    told(&found, "E1005");
    assert!(found.help.contains("tide-01.yaml"), "{}", found.help);
}

#[cfg(unix)]
#[test]
fn a_path_through_a_file_cannot_be_used() {
    let file = tempfile::NamedTempFile::new().unwrap();
    told(&read_source(&file.path().join("tide-01.yaml")).unwrap_err(), "E1006");
}

#[test]
fn a_plan_of_another_format_is_refused() {
    let mut file = tempfile::NamedTempFile::new().unwrap();
    let session = "{day: mon, groups: []}";
    writeln!(file, "format: rows/9\nprofile: tide-01.yaml\nsessions: [{session}]").unwrap();
    let faults = load_plan(file.path()).unwrap_err();
    told(&faults.diagnostics[0], "E1009");
}

/// Its schema allows more than the type holds.
#[derive(Debug, Deserialize, JsonSchema)]
struct Looser {
    #[schemars(with = "String")]
    #[allow(dead_code, reason = "only read")]
    minutes: u8,
}

#[test]
fn what_fits_the_schema_but_not_the_type_is_told() {
    let found = read::<Looser>(&Source::new("looser.yaml", "minutes: sixty\n")).unwrap_err();
    told(&found[0], "E1212");
}

/// A file that replaces entries of the built-in catalog with forms that need no kit.
fn without_kit(is_replaced: impl Fn(&Entry) -> bool) -> Source {
    let catalog = Catalog::built_in();
    let replaced = catalog.iter().filter(|entry| is_replaced(entry));
    let entries: Vec<Entry> =
        replaced.map(|entry| Entry { needs: vec![vec![]], ..entry.clone() }).collect();
    Source::new("replaced.yaml", &serde_yaml::to_string(&entries).unwrap())
}

#[test]
fn kit_that_no_exercise_needs_is_told() {
    let sleds = without_kit(|entry| entry.needs.iter().flatten().any(|kit| *kit == Kit::Sled));
    let found = lint(&[sleds]).diagnostics;
    told(found.iter().find(|found| found.message.contains("`sled`")).unwrap(), "W1412");
}

#[test]
fn a_pattern_without_an_exercise_for_machines_is_told() {
    let on_machines = |set: &Vec<Kit>| KitGroup::of(set) == KitGroup::Machines;
    let curls = without_kit(|entry| {
        entry.pattern == Some(Pattern::KneeFlexion) && entry.needs.iter().any(on_machines)
    });
    let found = lint(&[curls]).diagnostics;
    told(found.iter().find(|found| found.code == "W1413").unwrap(), "W1413");
}
