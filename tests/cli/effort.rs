//! A quick answer keeps every rule and both tiers that a plan is held to.

use serde_json::Value;

use super::{run, text};

fn planned(keys: &[&str]) -> (Value, String) {
    let mut arguments = vec!["plan", "profiles/dock-08.yaml", "--format", "json"];
    arguments.extend(keys);
    let output = run(&arguments);
    assert_eq!(output.status.code(), Some(0), "{}", text(&output.stderr));
    (serde_json::from_slice(&output.stdout).unwrap(), text(&output.stderr).to_owned())
}

#[test]
fn a_quick_answer_gives_up_points_only() {
    let (quick, said) = planned(&["--effort", "quick"]);
    let (full, _) = planned(&[]);
    let tier =
        |plan: &Value, place: usize| plan["solve"]["tiers"][place]["value"].as_f64().unwrap();
    for place in 0..2 {
        assert!((tier(&quick, place) - tier(&full, place)).abs() < 1e-6, "tier {place}");
    }
    let points = |plan: &Value| plan["solve"]["objective"].as_f64().unwrap();
    assert!(points(&quick) <= points(&full) + 1e-6 && points(&quick) > 0.9 * points(&full));
    assert!(said.contains("plan again without `--effort quick`"), "{said}");
    assert_eq!(planned(&["--effort", "quick"]).0, quick, "the same bytes again");
}
