//! A quick answer keeps every rule and both tiers that a plan is held to.

use serde_json::Value;

use super::{run, text};

fn planned(name: &str, keys: &[&str]) -> (Value, String) {
    let profile = format!("profiles/{name}.yaml");
    let mut arguments = vec!["plan", &profile, "--format", "json"];
    arguments.extend(keys);
    let output = run(&arguments);
    assert_eq!(output.status.code(), Some(0), "{}", text(&output.stderr));
    (serde_json::from_slice(&output.stdout).unwrap(), text(&output.stderr).to_owned())
}

/// Points are won and lost, so what a quick answer gives up is told over several weeks.
#[test]
fn a_quick_answer_gives_up_points_only() {
    let [mut quick_points, mut full_points] = [0.0; 2];
    for name in ["dock-08", "oar-02", "tide-01"] {
        let (quick, said) = planned(name, &["--effort", "quick"]);
        let (full, _) = planned(name, &[]);
        let tier =
            |plan: &Value, place: usize| plan["solve"]["tiers"][place]["value"].as_f64().unwrap();
        for place in 0..2 {
            assert!(
                (tier(&quick, place) - tier(&full, place)).abs() < 1e-6,
                "{name}, tier {place}"
            );
        }
        let points = |plan: &Value| plan["solve"]["objective"].as_f64().unwrap();
        assert!(points(&quick) <= points(&full) + 1e-6, "a longer search is never behind: {name}");
        quick_points += points(&quick);
        full_points += points(&full);
        assert!(said.contains("plan again without `--effort quick`"), "{said}");
        assert_eq!(planned(name, &["--effort", "quick"]).0, quick, "the same bytes again");
    }
    assert!(quick_points > 0.9 * full_points, "{quick_points} of {full_points}");
}
