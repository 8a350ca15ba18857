//! Growth, rests and places of conditioning.

use super::*;
use crate::plan::file::Session;
use proptest::prelude::*;

fn entry(id: &str, part: &str, kit: &str, measure: &str, reps: [u32; 2]) -> Entry {
    serde_yaml::from_str(&format!(
        "{{id: {id}, name: X, role: conditioning, part: {part}, muscles: [quads], needs: [[{kit}]], level: 1, sides: both,
           measure: {measure}, reps: [{}, {}], setup_s: 30}}",
        reps[0], reps[1]
    ))
    .unwrap()
}

fn client(status: &str, goal: &str, conditioning: &str) -> Profile {
    serde_yaml::from_str(&format!(
        "{{client: t, birth_year: 1987, start: 2027-01-04, training_status: {status}, goal: {goal},
           equipment: [rowing-ergometer], sessions: [{{day: mon, minutes: 60}}], conditioning: {conditioning}}}"
    ))
    .unwrap()
}

fn rowing() -> Vec<Entry> {
    vec![
        entry("rowing-steady", "steady", "rowing-ergometer", "seconds", [300, 2400]),
        entry("rowing-short-intervals", "intervals", "rowing-ergometer", "seconds", [15, 60]),
    ]
}

fn chosen<'a>(profile: &Profile, entries: &'a [Entry]) -> Choice<'a> {
    let usable: Vec<&Entry> = entries.iter().collect();
    choose(profile, &usable, &CarefulStart::default())
}

/// CO-09 (NSCA Essentials, Table 3.6): 10 s -> 120-200 s, 30 s -> 90-150 s, 240 s -> 240-720 s.
#[test]
fn rests_follow_the_energy_system() {
    for (bout, least, most) in [(10, 120, 200), (30, 90, 150), (60, 180, 240), (240, 240, 720)] {
        assert!((least..=most).contains(&rest_for(bout)), "CO-09 {bout}");
    }
}

/// CO-08 (WHO 2020): 90 moderate and 40 vigorous minutes are worth 170.
#[test]
fn a_vigorous_minute_counts_two() {
    assert!((moderate_equivalent(90.0, 40.0) - 170.0).abs() < 1e-9, "CO-08");
    assert!(weekly_text(90.0, 40.0).contains("reaches"));
    assert!(weekly_text(24.0, 0.0).contains("worth 24 moderate minutes"));
}

/// Bouts that are wished alone have a steady form for the days that are not for hard work.
#[test]
fn bouts_alone_have_a_steady_form() {
    let mut bouts = entry("march-bouts", "intervals", "", "seconds", [20, 60]);
    bouts.easier = vec!["step-circuit".to_owned()];
    let entries = [bouts, entry("step-circuit", "steady", "", "seconds", [180, 900])];
    let profile =
        client("intermediate", "fat-loss", "{from_week: 1, minutes: 8, modes: [march-bouts]}");
    let conditioning = chosen(&profile, &entries).conditioning.unwrap();
    let done = |fits| conditioning.of_week(1, 0, 40, fits).unwrap().items[0].exercise.clone();
    assert_eq!([done(true), done(false)], ["march-bouts", "step-circuit"]);
}

#[test]
fn novices_start_steady_in_their_week_and_meet_intervals_after_three_weeks() {
    let entries = rowing();
    let profile =
        client("novice", "hypertrophy", "{from_week: 3, minutes: 12, modes: [rowing-ergometer]}");
    let conditioning = chosen(&profile, &entries).conditioning.unwrap();
    assert!(conditioning.of_week(2, 0, 60, true).is_none());
    let first = conditioning.of_week(3, 0, 60, true).unwrap();
    assert_eq!(first.items[0].exercise, "rowing-steady");
    assert_eq!(first.items[0].seconds, Some(vec![570]));
    let effort = first.items[0].effort.clone().unwrap();
    assert!(
        effort.contains("Borg scale 6-20: 12-13") && effort.contains("give or take 10"),
        "{effort}"
    );
    assert_eq!(conditioning.of_week(5, 2, 60, true).unwrap().items[0].exercise, "rowing-steady");
    let later = conditioning.of_week(6, 3, 60, true).unwrap();
    assert_eq!(later.items[0].exercise, "rowing-short-intervals");
    assert_eq!(later.items[0].rest_s, 90);
    assert_eq!(conditioning.of_week(6, 3, 60, false).unwrap().items[0].exercise, "rowing-steady");
}

#[test]
fn power_keeps_it_apart_and_missing_modes_are_named() {
    let entries = rowing();
    let apart = chosen(&client("advanced", "power", "{minutes: 12}"), &entries);
    assert!(apart.conditioning.is_none() && apart.notes[0].contains("3 hours"), "CO-17");
    let other = chosen(&client("novice", "strength", "{minutes: 12, modes: [air-bike]}"), &entries);
    assert!(other.conditioning.is_some());
    assert!(other.notes[0].contains("`air-bike`") && other.notes.len() == 2);
    assert!(chosen(&client("novice", "strength", "{minutes: 12}"), &[]).conditioning.is_none());
}

/// To lose fat who has trained begins with them, on the shortest bouts of the machine.
#[test]
fn who_has_trained_and_loses_fat_has_intervals_from_the_first_week() {
    let entries = rowing();
    let of = |status: &str, goal: &str| {
        let profile =
            client(status, goal, "{from_week: 1, minutes: 12, modes: [rowing-ergometer]}");
        let conditioning = chosen(&profile, &entries).conditioning.unwrap();
        conditioning.fullest(60, true).unwrap().items[0].exercise.clone()
    };
    assert_eq!(of("intermediate", "fat-loss"), "rowing-short-intervals");
    assert_eq!(of("novice", "fat-loss"), "rowing-steady");
    assert_eq!(of("intermediate", "endurance"), "rowing-steady");
}

#[test]
fn meters_and_calories_are_round_numbers() {
    let entries = vec![
        entry("row-far", "steady", "rowing-ergometer", "meters", [1000, 5000]),
        entry("row-calories", "intervals", "rowing-ergometer", "calories", [8, 25]),
    ];
    let profile = client("intermediate", "fat-loss", "{from_week: 1, minutes: 15}");
    let conditioning = chosen(&profile, &entries).conditioning.unwrap();
    let steady = conditioning.of_week(1, 0, 60, false).unwrap();
    assert_eq!(steady.items[0].meters.as_ref().map(|meters| meters[0] % 100), Some(0));
    let hard = conditioning.of_week(1, 0, 60, true).unwrap();
    let planned = conditioning.fullest(60, true).unwrap();
    assert_eq!(planned.items[0].exercise, hard.items[0].exercise, "the week as planned says so");
    let calories = hard.items[0].calories.clone().unwrap();
    assert!(calories.len() >= 3 && calories.iter().all(|amount| *amount == 8));
}

#[test]
fn intervals_keep_a_day_from_heavy_legs() {
    let entries = rowing();
    let squat: Entry = serde_yaml::from_str(
        "{id: back-squat, name: S, pattern: squat, kind: compound, direct: [quads], needs: [[barbell]], level: 1,
          sides: both, load: bar-total, measure: reps, reps: [3, 12], setup_s: 60}",
    )
    .unwrap();
    let sessions: Vec<Session> = serde_yaml::from_str(
        "[{day: mon, groups: []}, {day: tue, groups: [{kind: single, items: [{exercise: back-squat, sets: 1, reps: [5]}]}]},
          {day: thu, groups: []}]",
    )
    .unwrap();
    let days = |sport: &str| {
        let mut profile = client("intermediate", "hypertrophy", "{minutes: 12}");
        profile.other_training = serde_yaml::from_str(sport).unwrap();
        let conditioning = chosen(&profile, &entries).conditioning.unwrap();
        interval_days(&sessions, &conditioning, &|id| (id == "back-squat").then_some(&squat))
    };
    assert_eq!(days("[]"), [false, true, false]);
    let hard = |day: &str| format!("[{{day: {day}, load: hard, muscles: [quads]}}]");
    assert_eq!(days(&hard("wed")), [false, false, true], "nor on the eve of hard sport");
    assert_eq!(days(&hard("tue")), [false, false, true], "nor on its day");
}

proptest! {
    #[test]
    fn work_grows_by_a_tenth_at_most_and_stays_in_its_quarter(
        minutes in 5_u32..40, session in 30_u32..120, novice in any::<bool>(), from in 1_u32..6
    ) {
        let entries = rowing();
        let status = if novice { "novice" } else { "advanced" };
        let profile = client(status, "strength", &format!("{{from_week: {from}, minutes: {minutes}}}"));
        let conditioning = chosen(&profile, &entries).conditioning.unwrap();
        let fullest = conditioning.fullest(session, false).and_then(|group| group.seconds);
        let mut before: Option<u32> = None;
        for week in 1..=20 {
            let group = conditioning.of_week(week, week.saturating_sub(from), session, false);
            if week < from {
                prop_assert!(group.is_none());
                continue;
            }
            let Some(group) = group else { continue };
            prop_assert!(group.seconds <= fullest, "never fuller than planned");
            prop_assert!(group.seconds.unwrap() <= session * 15);
            let seconds = group.items[0].seconds.as_ref().unwrap()[0];
            if let Some(before) = before {
                prop_assert!(seconds * 100 <= before * 110);
            }
            before = Some(seconds);
            let hard = conditioning.of_week(week, week.saturating_sub(from), session, true).unwrap();
            prop_assert!(hard.seconds <= fullest);
        }
    }
}
