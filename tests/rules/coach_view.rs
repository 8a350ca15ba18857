use weekwright::model::worth::worths;

use super::check::{PLANNER, check_rule};

/// Common practice: a beginner's form is not for somebody advanced while the catalog has a harder one.
#[test]
fn an_easy_form_comes_last_for_an_advanced_client() {
    let worth = |status: &str, id: &str| {
        let profile = serde_yaml::from_str(&format!(
            "{{client: t, training_status: {status}, goal: hypertrophy, equipment: [dumbbells],
               sessions: [{{day: mon, minutes: 60}}]}}"
        ));
        let request = PLANNER.request(&profile.unwrap(), &weekwright::planner::Options::default());
        let place = request.candidates.iter().position(|candidate| candidate.id == id);
        worths(&request)[place.unwrap()]
    };
    let [easy, hard] = ["kneeling-side-plank-lift", "side-plank-lift"];
    assert!(worth("advanced", easy) + 10.0 < worth("advanced", hard));
    assert!(worth("intermediate", easy) + 3.0 > worth("intermediate", hard));
}

#[test]
fn the_disliked_is_left_out() {
    check_rule("coach-view")
        .with("exercises: {avoid: [deadlift]}")
        .allows("mon: back-squat x3")
        .remarks("mon: deadlift x3", "deadlift: wanted left out (avoid)");
}
