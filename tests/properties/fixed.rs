//! Properties with a worked example of their own.

use weekwright::input::plan::Plan;
use weekwright::planner::Options;
use weekwright::words::{Kind, LoadKind, Pattern};

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

/// Common practice: who finds the bar taken lifts another load, and does not pull at a towel.
#[test]
fn a_barbell_lift_has_a_loaded_stand_in_where_the_place_has_one() {
    let plan = planned(
        "{goal: hypertrophy, equipment: [barbell, squat-rack, bench, dumbbells, resistance-band, band-anchor], \
         sessions: [{day: mon, minutes: 60}, {day: wed, minutes: 60}, {day: fri, minutes: 60}]}",
    );
    let load = |id: &str| PLANNER.catalog().get(id).unwrap().load;
    let groups = plan.sessions.iter().flat_map(|session| &session.groups);
    let bars = groups
        .flat_map(|group| &group.items)
        .filter(|item| load(&item.exercise) == LoadKind::BarTotal);
    let pairs: Vec<(&str, &str)> =
        bars.filter_map(|item| Some((item.exercise.as_str(), item.instead.as_deref()?))).collect();
    assert!(!pairs.is_empty());
    for (bar, instead) in pairs {
        let kind = load(instead);
        let is_loaded = !matches!(kind, LoadKind::Bodyweight | LoadKind::Band | LoadKind::None);
        assert!(is_loaded, "{bar}: or instead {instead}");
    }
}

/// A lift one level above the client's that was done lately is planned and passes the plan's own audit.
#[test]
fn a_known_lift_one_level_above_is_planned() {
    let plan = planned(
        "{goal: strength, equipment: [barbell, squat-rack, adjustable-bench, dumbbells, pull-up-bar], \
         sessions: [{day: mon, minutes: 60}, {day: thu, minutes: 60}], \
         known_lifts: {incline-bench-press: {load: 40, reps: 8}}}",
    );
    let groups = plan.sessions.iter().flat_map(|session| &session.groups);
    let mut items = groups.flat_map(|group| &group.items);
    assert!(items.any(|item| item.exercise == "incline-bench-press"));
}
