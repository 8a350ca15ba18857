//! Whole courses with the built-in catalog and the planner's own weeks.

use super::*;
use crate::input::place::Place;
use crate::input::profile::Profile;
use crate::planner::{Options, Planner};
use crate::words::WeekKind;

/// The boathouse novice of the demonstration, with a longer course and conditioning. Invented.
fn novice(weeks: u32) -> Profile {
    let profile: Profile =
        serde_yaml::from_str(include_str!("../../../profiles/tide-01.yaml")).unwrap();
    let place: Place =
        serde_yaml::from_str(include_str!("../../../profiles/places/boathouse.yaml")).unwrap();
    let mut profile = crate::load::resolve_place(&profile, Some(&place));
    profile.weeks = weeks;
    profile.conditioning =
        serde_yaml::from_str("{from_week: 3, minutes: 12, modes: [rowing-ergometer]}").unwrap();
    profile
}

fn weeks(profile: &Profile) -> Vec<Week> {
    let planner = Planner::built_in();
    let options = Options::default();
    let plan = planner.plan(profile, &options).unwrap();
    let request = planner.request(profile, &options);
    Course::new(&request).weeks(&|_| plan.sessions.clone())
}

#[test]
fn the_boathouse_novice_gets_twelve_weeks_inside_their_minutes() {
    let weeks = weeks(&novice(12));
    assert_eq!(weeks.len(), 12);
    for week in &weeks {
        for session in &week.sessions {
            let minutes = session.minutes.as_ref().unwrap();
            assert!(minutes.planned_s <= minutes.limit * 60, "week {}", week.week);
            let sum: u32 = session.groups.iter().filter_map(|group| group.seconds).sum();
            assert_eq!(minutes.planned_s, sum, "week {}", week.week);
        }
        let groups = week.sessions.iter().flat_map(|session| &session.groups);
        let conditioning = groups.filter(|group| group.kind == GroupKind::Conditioning).count();
        assert_eq!(conditioning > 0, week.week >= 3, "week {}", week.week);
    }
    assert_eq!(weeks[11].kind, WeekKind::Test);
}

#[test]
fn sessions_that_end_already_are_left_alone() {
    let profile = novice(4);
    let planner = Planner::built_in();
    let request = planner.request(&profile, &Options::default());
    let plan = planner.plan(&profile, &Options::default()).unwrap();
    let course = Course::new(&request);
    let once = course.with_endings(plan.sessions);
    assert_eq!(course.with_endings(once.clone()), once);
}

#[test]
fn a_mode_that_the_boathouse_lacks_is_named() {
    let mut profile = novice(4);
    profile.conditioning = serde_yaml::from_str("{minutes: 10, modes: [treadmill]}").unwrap();
    let planner = Planner::built_in();
    let request = planner.request(&profile, &Options::default());
    assert!(Course::new(&request).notes()[0].contains("`treadmill`"));
}
