use weekwright::inner::worths;
use weekwright::planner::Options;
use weekwright::words::Standing;

use super::check::{PLANNER, check_rule};

/// Common practice: the staple of a movement comes first, and what stands in for it last.
#[test]
fn nothing_comes_before_the_staple_of_its_movement() {
    for kit in ["[dumbbells, bench]", "[barbell, squat-rack, bench, pull-up-bar, cable-station]"] {
        let profile = serde_yaml::from_str(&format!(
            "{{client: t, training_status: advanced, goal: hypertrophy, equipment: {kit},
               sessions: [{{day: mon, minutes: 60}}]}}"
        ));
        let request = PLANNER.request(&profile.unwrap(), &Options::default());
        let worths = worths(&request);
        let ranked = || request.candidates.iter().zip(&worths);
        let mut lower = 0;
        for (one, worth) in ranked().filter(|(one, _)| one.entry.standing == Standing::Staple) {
            let others = ranked().filter(|(other, _)| {
                other.pattern == one.pattern && other.entry.standing > Standing::Regular
            });
            for (other, less) in others {
                assert!(less < worth, "{} before {}", other.id, one.id);
                lower += 1;
            }
        }
        assert!(lower > 10, "{lower} special exercises and stand-ins beside staples");
    }
}

#[test]
fn the_disliked_is_left_out() {
    check_rule("coach-view")
        .with("exercises: {avoid: [deadlift]}")
        .allows("mon: back-squat x3")
        .remarks("mon: deadlift x3", "deadlift: wanted left out (avoid)");
}
