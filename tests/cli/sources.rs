//! `plan --sources`: what the numbers of a plan rest on.

use serde_json::Value;

use super::{run, text};

fn sources(profile: &str, format: &str) -> String {
    let output = run(&["plan", profile, "--sources", "--format", format]);
    assert_eq!(output.status.code(), Some(0), "{}", text(&output.stderr));
    text(&output.stdout).to_owned()
}

#[test]
fn rows_sources_and_conflicts_are_told_in_the_plan_s_place() {
    let told = sources("profiles/tide-01.yaml", "text");
    for part in [
        "RX-05",
        "VO-12",
        "Singer et al. 2024",
        "Where sources disagree",
        "Rest for size",
        "The plan goes by",
        "The next load: RX-04, RX-12",
    ] {
        assert!(told.contains(part), "{part} in {told}");
    }
    assert!(!told.contains("MONDAY"), "the plan itself is not printed: {told}");
    assert!(!told.contains("Loads:"), "no lift is known, so no estimator is used");
    assert!(told.lines().all(|line| line.chars().count() <= 80), "{told}");
}

#[test]
fn estimators_and_conditioning_are_told_where_the_plan_has_them() {
    let told = sources("profiles/oar-02.yaml", "text");
    assert!(told.contains("Brzycki 1993") && told.contains("Helms et al. 2018"), "{told}");
    assert!(told.contains("Ramp sets: WU-07"), "{told}");
    let told = sources("profiles/scull-07.yaml", "text");
    assert!(told.contains("Tanaka") && told.contains("WHO guidelines"), "{told}");
}

#[test]
fn every_id_is_cited_in_json_and_yaml() {
    let json: Value = serde_json::from_str(&sources("profiles/scull-07.yaml", "json")).unwrap();
    let yaml: Value = serde_yaml::from_str(&sources("profiles/scull-07.yaml", "yaml")).unwrap();
    assert_eq!(json, yaml);
    let cited = json["citations"].as_object().unwrap();
    for part in ["doses", "targets", "parts", "conflicts"] {
        let rows = json[part].as_array().unwrap();
        assert!(!rows.is_empty(), "{part}");
        for id in rows.iter().flat_map(|row| row["sources"].as_array().unwrap()) {
            assert!(cited.contains_key(id.as_str().unwrap()), "{id} of {part}");
        }
    }
}
