//! One bad file per line, with the code and the place that must be told.

use std::path::{Path, PathBuf};

use weekwright::catalog::lint::lint;
use weekwright::cli::files::read_source;
use weekwright::cli::profile_file::load_profile;
use weekwright::cli::render;
use weekwright::diagnostic::Diagnostic;

use super::{told, with_known};

/// Profiles under `tests/fixtures/bad`; `|` between the faults of a file with several.
pub(crate) const PROFILES: &[(&str, &str)] = &[
    ("not-utf8", "E1002 1:15"),
    ("nul", "E1003 1:11"),
    ("empty", "E1108 1:1"),
    ("only-comments", "E1108 1:1"),
    ("broken", "E1101 9:8"),
    ("open-quote", "E1101 8:8"),
    ("tab", "E1102 7:1"),
    ("alias", "E1103 8:9"),
    ("anchor", "E1103 4:12"),
    ("tag", "E1104 1:9"),
    ("two-documents", "E1105 8:1"),
    ("too-deep", "E1106 8:40"),
    ("duplicate-key", "E1107 8:1"),
    ("key-is-list", "E1109 8:3"),
    ("list-instead-of-map", "E1203 1:1"),
    ("one-word", "E1203 1:1"),
    ("unknown-key", "E1201 8:1"),
    ("unknown-key-in-session", "E1201 6:29"),
    ("unknown-word", "E1202 8:10"),
    ("unknown-kit", "E1202 4:13"),
    ("unknown-day", "E1202 7:11"),
    ("unknown-goal", "E1202 3:7"),
    ("text-for-number", "E1203 8:8"),
    ("number-for-text", "E1203 1:9"),
    ("map-for-list", "E1203 8:9"),
    ("word-for-list", "E1203 8:9"),
    ("yes-for-true", "E1203 8:23"),
    ("nothing-for-map", "E1203 8:1"),
    ("half-week", "E1203 8:8"),
    ("wrong-everywhere", "E1203 8:8|E1203 9:9|E1203 10:10|E1203 11:13|E1203 12:12"),
    ("negative-minutes", "E1204 6:38"),
    ("zero-minutes", "E1204 6:38"),
    ("absurd-height", "E1204 8:12"),
    ("not-a-number", "E1204 8:15"),
    ("huge-weeks", "E1204 8:8"),
    ("variety-over-one", "E1204 8:10"),
    ("missing-keys", "E1205 1:1|E1205 1:1|E1205 1:1"),
    ("no-sessions", "E1206 5:11"),
    ("target-of-three", "E1206 8:18"),
    ("blank-client", "E1207 1:9"),
    ("escape-in-client", "E1209 1:9"),
    ("same-hour-twice", "E1301 7:5"),
    ("same-day-without-hour", "E1301 7:5"),
    ("clock", "E1302 6:20"),
    ("clock-of-sport", "E1302 8:33"),
    ("no-such-day", "E1303 8:8"),
    ("no-such-day-agreed", "E1303 8:31"),
    ("overlap", "E1304 7:5"),
    ("split-too-short", "E1305 8:1"),
    ("split-entry-empty", "E1306 8:26"),
    ("place-and-equipment", "W1307 4:1"),
    ("no-kit", "E1308 1:1"),
    ("unknown-place", "E1007 4:8"),
    ("place-outside", "E1007 4:8"),
    ("bad-place", "E1202 2:18|E1202 places/shed.yaml 2:13"),
    ("target-falls", "E1309 8:18"),
    ("target-too-high", "E1310 8:22|E1310 8:42"),
    ("balance-falls", "E1311 8:22"),
    ("must-and-never", "E1312 8:43"),
    ("prefer-and-avoid", "E1312 8:40"),
    ("unknown-exercise", "E1313 8:20"),
    ("named-twice", "W1314 8:30"),
    ("unknown-lift", "E1315 8:15"),
    ("under-the-bar", "W1316 8:34"),
    ("load-for-push-up", "W1317 8:15"),
    ("cap-under-load", "W1318 8:52"),
    ("unknown-mode", "E1319 8:37"),
    ("conditioning-fills-session", "E1320 8:25"),
    ("conditioning-too-late", "W1321 9:40"),
    ("unknown-rule", "E1322 8:9"),
    ("born-later", "E1323 8:13"),
    ("child", "E1323 8:13"),
    ("agreed-late", "E1329 9:44"),
    ("painless-unknown", "E1330 8:38"),
    ("pounds-as-kilograms", "E1331 8:34"),
    ("rack-falls", "E1324 4:34"),
    ("masses-fall", "E1325 4:36"),
    ("plate-of-nothing", "E1326 4:25"),
    ("two-units", "E1328 4:13"),
    ("pairs-of-racks", "E1332 4:45"),
    ("plate-of-words", "E1201 4:25"),
    ("negative-count", "E1204 4:24"),
    ("previous-missing", "E1004 8:11"),
    ("previous-broken", "E1205 plans/broken.plan.yaml 1:1|E1205 plans/broken.plan.yaml 1:1"),
    ("previous-of-another", "W1327 8:11"),
    ("no-repetitions", "E1204 8:44"),
    ("too-heavy", "E1204 8:34"),
];

/// Catalog files under `tests/fixtures/bad/catalog`.
pub(crate) const CATALOGS: &[(&str, &str)] = &[
    ("map-instead-of-list", "E1203 1:1"),
    ("bad-tempo", "E1208 13:10"),
    ("id-with-spaces", "E1208 1:7"),
    ("id-twice", "E1401 15:7"),
    ("dangling-link", "E1402 15:12"),
    ("one-sided-link", "E1403 15:12"),
    ("circle", "E1404 15:11"),
    ("no-pattern", "E1405 1:7"),
    ("no-direct-muscle", "E1405 5:11"),
    ("prep-without-part", "E1406 1:7|E1406 1:7"),
    ("range-falls", "E1407 12:9"),
    ("tempo-of-a-hold", "E1408 13:10"),
    ("long-hold", "W1409 12:9"),
    ("muscle-twice", "E1410 6:13"),
    ("landmine-alone", "E1411 7:11"),
    ("prime-mover-elsewhere", "W1415 6:11"),
    ("standing-misspelt", "E1202 5:13"),
    ("skill-too-high", "E1204 5:10"),
    ("variant-of-nothing", "E1402 5:15"),
    ("variant-of-itself", "E1404 5:15"),
    ("variant-of-another-movement", "E1414 5:15"),
    ("variant-before-its-exercise", "E1414 6:15"),
];

fn bad(name: &str) -> PathBuf {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/fixtures/bad");
    folder.join(format!("{name}.yaml"))
}

/// What a profile file is told, errors and warnings alike.
fn faults_of_profile(path: &Path) -> Vec<Diagnostic> {
    match with_known(|known| load_profile(path, known)) {
        Ok(loaded) => loaded.warnings.diagnostics,
        Err(faults) => faults.diagnostics,
    }
}

fn faults_of_catalog(path: &Path) -> Vec<Diagnostic> {
    let mut found = lint(&[read_source(path).unwrap()]).diagnostics;
    // Gaps of the whole catalog are not this file's.
    found.retain(|fault| fault.labels[0].source != "catalog");
    found
}

/// Every code that some fixture is held against.
pub(super) fn codes_with_a_fixture() -> Vec<&'static str> {
    let expected = PROFILES.iter().chain(CATALOGS);
    let faults = expected.flat_map(|(_, faults)| faults.split('|'));
    faults.filter_map(|fault| fault.split(' ').next()).collect()
}

fn check(table: &[(&str, &str)], folder: &str, faults: fn(&Path) -> Vec<Diagnostic>) {
    let mut wrong = Vec::new();
    for (name, expected) in table {
        let path = bad(&format!("{folder}{name}"));
        let found = faults(&path);
        let source = path.display().to_string();
        let places: Vec<String> = found.iter().map(|fault| told(fault, &source)).collect();
        if places.join("|") != *expected {
            let text = render::text(&found, &[], true);
            wrong.push(format!("{name}: expected {expected}, found {}\n{text}", places.join("|")));
        }
        for fault in &found {
            assert!(!fault.help.is_empty(), "{name}: {} has no help", fault.code);
            assert!(!fault.message.is_empty(), "{name}: {} has no message", fault.code);
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn every_bad_profile_is_told_what_and_where() {
    check(PROFILES, "", faults_of_profile);
}

#[test]
fn every_bad_catalog_file_is_told_what_and_where() {
    check(CATALOGS, "catalog/", faults_of_catalog);
}

#[test]
fn every_fixture_is_in_a_table() {
    let listed = |table: &[(&str, &str)], folder: &str| {
        let names = std::fs::read_dir(bad(folder).parent().unwrap()).unwrap();
        let names = names.map(|entry| entry.unwrap().file_name().into_string().unwrap());
        for name in names.filter_map(|name| name.strip_suffix(".yaml").map(str::to_owned)) {
            assert!(table.iter().any(|(listed, _)| *listed == name), "{name} is in no table");
        }
    };
    listed(PROFILES, "x");
    listed(CATALOGS, "catalog/x");
}

#[test]
fn messages_keep_to_80_columns() {
    for (name, _) in PROFILES {
        let path = bad(name);
        let found = faults_of_profile(&path);
        let source = read_source(&path).ok();
        let text = render::text(&found, source.as_slice(), false);
        let plain = anstream::adapter::strip_str(&text).to_string();
        // A path is as long as it is.
        for line in plain.lines().filter(|line| !line.contains(".yaml`")) {
            assert!(line.chars().count() <= 80, "{name}: {line}");
        }
    }
}
