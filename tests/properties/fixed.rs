//! Properties with a worked example of their own.

use weekwright::input::plan::Plan;
use weekwright::planner::Options;
use weekwright::words::{Kind, Pattern};

use crate::rules::check::PLANNER;

fn planned(keys: &str) -> Plan {
    let mut profile: serde_yaml::Mapping =
        serde_yaml::from_str("{client: shell-01, training_status: novice, goal: general-fitness}")
            .unwrap();
    profile.extend(serde_yaml::from_str::<serde_yaml::Mapping>(keys).unwrap());
    let profile = serde_yaml::from_value(profile.into()).unwrap();
    PLANNER.plan(&profile, &Options::default()).expect("an ordinary profile plans")
}

/// VO-12 (Iversen et al. 2021): even a minimal week has a leg press pattern, an upper-body pull and an upper-body push
/// of several joints.
#[test]
fn a_minimal_week_has_legs_a_push_and_a_pull() {
    use Pattern::{
        Hinge, HorizontalPull, HorizontalPush, Lunge, Squat, VerticalPull, VerticalPush,
    };
    for keys in [
        "{equipment: [], sessions: [{day: sat, minutes: 25}, {day: sun, minutes: 25}]}",
        "{equipment: [dumbbells], sessions: [{day: mon, minutes: 30}]}",
        "{equipment: [barbell, squat-rack, bench], sessions: [{day: tue, minutes: 25}, {day: fri, minutes: 25}]}",
    ] {
        let plan = planned(keys);
        let has = |patterns: &[Pattern]| {
            plan.sessions
                .iter()
                .flat_map(|session| &session.groups)
                .filter(|group| group.is_work())
                .flat_map(|group| &group.items)
                .filter_map(|item| PLANNER.catalog().get(&item.exercise))
                .filter(|entry| entry.kind == Some(Kind::Compound))
                .any(|entry| entry.pattern.is_some_and(|pattern| patterns.contains(&pattern)))
        };
        assert!(has(&[Squat, Lunge, Hinge]), "{keys}: no leg work");
        assert!(has(&[HorizontalPull, VerticalPull]), "{keys}: no pull");
        assert!(has(&[HorizontalPush, VerticalPush]), "{keys}: no push");
    }
}
