//! The shape of a day, as a coach sees it on the card. Common practice.

use weekwright::planner::Options;

use crate::rules::check::PLANNER;

#[test]
fn a_known_lift_and_a_bar_stand_alone_where_the_lead_does() {
    let profile = serde_yaml::from_str(
        "client: shape-01\ngoal: strength\ntraining_status: novice\nequipment: [barbell, squat-rack, bench, pull-up-bar, \
         dumbbells]\nsessions: [{day: mon, minutes: 60}, {day: wed, minutes: 60}, {day: fri, minutes: 60}]\n\
         known_lifts: {back-squat: {load: 70, reps: 5, rir: 3}, bench-press: {load: 55, reps: 5, rir: 3}}",
    )
    .expect("a profile");
    let plan = PLANNER.plan(&profile, &Options::default()).expect("a plan");
    let groups: Vec<_> = plan.sessions.iter().flat_map(|session| &session.groups).collect();
    for id in ["back-squat", "bench-press"] {
        let mut with_it = groups
            .iter()
            .filter(|group| group.items.iter().any(|item| item.exercise == id))
            .peekable();
        assert!(with_it.peek().is_some(), "{id}");
        assert!(with_it.all(|group| group.items.len() == 1), "{id} goes in turn with something");
    }
}

#[test]
fn nobody_climbs_to_the_same_load_twice_in_a_week() {
    let profile = serde_yaml::from_str(
        "client: shape-02\ngoal: general-fitness\ntraining_status: novice\nequipment: [dumbbells, bench]\n\
         sessions: [{day: tue, minutes: 45}, {day: fri, minutes: 45}]",
    )
    .expect("a profile");
    let plan = PLANNER.plan(&profile, &Options::default()).expect("a plan");
    let items =
        plan.sessions.iter().flat_map(|session| &session.groups).flat_map(|group| &group.items);
    let mut found: Vec<&str> =
        items.filter(|item| item.find_load.is_some()).map(|item| item.exercise.as_str()).collect();
    let count = found.len();
    found.sort_unstable();
    found.dedup();
    assert_eq!(found.len(), count);
    assert!(count > 3, "loads are to be found at all: {count}");
}
