use jiff::civil::date;

use super::*;
use crate::book::done::{Asked, DoneItem, DoneSet, Effort, Load, grams};
use crate::catalog::Catalog;
use crate::input::plan::ProfileRef;
use crate::words::Measure;

/// Four weeks of two days: the load is to be found, a novice's first week is the easy one.
fn plan() -> Plan {
    let week = |number: u32, kind: &str, reps: u32| {
        let first = date(2027, 1, 4) + jiff::ToSpan::days(7 * (i64::from(number) - 1));
        format!(
            "  - week: {number}
    date: '{first}'
    kind: {kind}
    sessions:
      - day: mon
        groups:
          - {{kind: single, items: [{{exercise: bench-press, sets: 3, reps: [{reps}, {reps}, {reps}], rest_s: 120, rir: 3}}]}}
          - {{kind: single, items: [{{exercise: plank, sets: 2, seconds: [30, 30], rest_s: 60}}]}}
      - day: thu
        groups:
          - {{kind: single, items: [{{exercise: back-squat, sets: 3, reps: [{reps}, {reps}, {reps}], rest_s: 120, rir: 3}}]}}
          - {{kind: single, items: [{{exercise: bench-press, sets: 3, reps: [{reps}, {reps}, {reps}], rest_s: 120, rir: 3}}]}}
"
        )
    };
    let text = format!(
        "format: weekwright-plan/1
client: tide-03
profile:
  client: tide-03
  training_status: novice
  goal: hypertrophy
  start: '2027-01-04'
  weeks: 4
  equipment: {{barbell: {{count: 1, mass_kg: 20}}, plates_kg: {{'10': 4, '5': 4, '2.5': 4, '1.25': 4}}, squat-rack: 1, bench: 1}}
  sessions: [{{day: mon, minutes: 60}}, {{day: thu, minutes: 60}}]
sessions:
  - day: mon
    groups: [{{kind: single, items: [{{exercise: bench-press, sets: 3, reps: [10, 10, 10]}}]}}]
  - day: thu
    groups: [{{kind: single, items: [{{exercise: back-squat, sets: 3, reps: [10, 10, 10]}}]}}]
weeks:
{}{}{}{}",
        week(1, "base", 10),
        week(2, "build", 10),
        week(3, "build", 10),
        week(4, "easy", 10)
    );
    serde_yaml::from_str(&text).unwrap()
}

/// A session of the plan, each exercise at a load with its sets; the last with a reserve.
fn done(week: u32, day: Weekday, items: &[(&str, f64, &[u32])]) -> DoneSession {
    let first = date(2027, 1, 4) + jiff::ToSpan::days(7 * (i64::from(week) - 1));
    let item = |(exercise, load_kg, reps): &(&str, f64, &[u32])| {
        let last = reps.len() - 1;
        let set = |(place, amount): (usize, &u32)| DoneSet {
            load: if *load_kg > 0.0 { Load::Grams(grams(*load_kg)) } else { Load::Body },
            amount: *amount,
            measure: if *exercise == "plank" { Measure::Seconds } else { Measure::Reps },
            right: None,
            effort: (place == last).then_some(Effort::Reserve(30)),
        };
        let amount = if *exercise == "plank" { 30 } else { 10 };
        DoneItem {
            exercise: (*exercise).to_owned(),
            asked: Some(Asked { sets: 3, amount, load_g: None, rir: Some(3) }),
            sets: reps.iter().enumerate().map(set).collect(),
            note: String::new(),
        }
    };
    DoneSession {
        date: slot::day_in_week(first, day).unwrap(),
        at: None,
        week: Some(week),
        day: Some(day),
        is_light: false,
        course: String::new(),
        items: items.iter().map(item).collect(),
        note: String::new(),
    }
}

fn come(plan: &Plan, done: &[DoneSession], as_of: Date) -> Result<Coming, Nothing> {
    let ProfileRef::Whole(profile) = &plan.profile else { panic!("the profile is whole") };
    let catalog = Catalog::built_in();
    coming(&Told { plan, profile, entries: catalog.entries(), done, as_of, easier: false })
}

fn item<'a>(plan: &'a Plan, week: usize, day: usize, exercise: &str) -> &'a Item {
    let items = slot::work(&plan.weeks[week - 1].sessions[day]);
    items.into_iter().find(|item| item.exercise == exercise).unwrap()
}

const TWO_MORE: &[u32] = &[10, 10, 12];

#[test]
fn two_sessions_with_two_more_raise_what_comes_and_leave_what_was() {
    let plan = plan();
    let sessions = [
        done(1, Weekday::Mon, &[("bench-press", 32.5, TWO_MORE)]),
        done(
            1,
            Weekday::Thu,
            &[("bench-press", 32.5, TWO_MORE), ("back-squat", 40.0, &[10, 10, 10])],
        ),
    ];
    let coming = come(&plan, &sessions, date(2027, 1, 11)).unwrap();
    assert_eq!(coming.week, 2);
    assert_eq!(coming.plan.weeks[0], plan.weeks[0], "a week that was done is history");
    let bench = item(&coming.plan, 2, 0, "bench-press");
    assert_eq!(bench.load_kg, Some(35.0));
    let basis = bench.basis.as_ref().unwrap();
    assert_eq!((basis.load, basis.reps, basis.rir), (Some(32.5), 12, Some(3)));
    assert_eq!((basis.date.as_str(), basis.rule.as_str()), ("2027-01-07", "two-for-two"));
    let line = &coming.changes[0];
    assert_eq!(line.because, "two sessions with two more than asked: 32.5 → 35 kg");
    assert_eq!(
        item(&coming.plan, 2, 1, "bench-press").load_kg,
        Some(35.0),
        "the week's second time"
    );
    let squat = item(&coming.plan, 2, 1, "back-squat");
    assert_eq!((squat.load_kg, squat.reps.as_deref()), (Some(40.0), Some(&[10, 10, 10][..])));
    assert_eq!(item(&coming.plan, 2, 0, "plank").basis, None, "never done: as it was planned");
}

#[test]
fn the_rest_of_a_week_that_was_begun_comes_first() {
    let plan = plan();
    let sessions = [
        done(1, Weekday::Mon, &[("bench-press", 30.0, &[10, 10, 10])]),
        done(1, Weekday::Thu, &[("bench-press", 30.0, &[10, 10, 10])]),
        done(2, Weekday::Mon, &[("bench-press", 30.0, &[10, 10, 8])]),
    ];
    let coming = come(&plan, &sessions, date(2027, 1, 12)).unwrap();
    assert_eq!(coming.week, 2);
    assert_eq!(coming.plan.weeks[1].sessions[0], plan.weeks[1].sessions[0], "Monday is done");
    let bench = item(&coming.plan, 2, 1, "bench-press");
    assert_eq!((bench.load_kg, bench.reps.as_deref()), (Some(30.0), Some(&[10, 10, 10][..])));
    assert_eq!(bench.basis.as_ref().unwrap().rule, "hold-after-a-miss");
}

#[test]
fn an_easier_week_raises_nothing() {
    let plan = plan();
    let sessions: Vec<DoneSession> = (1..=3)
        .map(|week| done(week, Weekday::Mon, &[("bench-press", 32.5, TWO_MORE)]))
        .chain((1..=3).map(|week| done(week, Weekday::Thu, &[("back-squat", 40.0, TWO_MORE)])))
        .collect();
    let mut sessions = sessions;
    sessions.sort_by_key(|session| session.date);
    let coming = come(&plan, &sessions, date(2027, 1, 25)).unwrap();
    assert_eq!(coming.week, 4);
    assert_eq!(item(&coming.plan, 4, 0, "bench-press").load_kg, Some(32.5));
    assert!(
        coming.changes.iter().all(|change| change.because == "an easier week: nothing is raised")
    );
}

#[test]
fn a_missed_week_moves_the_course_and_is_moved_once() {
    let plan = plan();
    let sessions = [
        done(1, Weekday::Mon, &[("bench-press", 30.0, &[10, 10, 10])]),
        done(1, Weekday::Thu, &[("back-squat", 40.0, &[10, 10, 10])]),
    ];
    let coming = come(&plan, &sessions, date(2027, 1, 18)).unwrap();
    let weeks = |plan: &Plan| -> Vec<(u32, Option<u32>)> {
        plan.weeks.iter().map(|week| (week.week, week.repeats)).collect()
    };
    let moved = [(1, None), (2, None), (3, Some(2)), (4, Some(3)), (5, Some(4))];
    assert_eq!((coming.week, weeks(&coming.plan)), (3, moved.to_vec()));
    assert_eq!(coming.plan.weeks[4].date.as_deref(), Some("2027-02-01"));
    assert!(coming.plan.weeks[2].note.as_deref().unwrap().starts_with("Week 2 was missed"));
    assert!(coming.remarks[0].contains("a week later"), "{:?}", coming.remarks);
    let again = come(&coming.plan, &sessions, date(2027, 1, 18)).unwrap();
    assert_eq!(weeks(&again.plan), moved, "the same week is not moved twice");
}

#[test]
fn one_session_of_two_is_enough_for_a_week() {
    let plan = plan();
    let sessions = [
        done(1, Weekday::Mon, &[("bench-press", 30.0, &[10, 10, 10])]),
        done(2, Weekday::Mon, &[("bench-press", 30.0, &[10, 10, 10])]),
    ];
    let coming = come(&plan, &sessions, date(2027, 1, 18)).unwrap();
    assert_eq!((coming.week, coming.plan.weeks.len()), (3, 4));
    assert!(coming.remarks[0].contains("Thursday of week 2"), "{:?}", coming.remarks);
}

#[test]
fn three_weeks_away_begin_again_lower() {
    let plan = plan();
    let sessions = [done(1, Weekday::Mon, &[("bench-press", 30.0, &[12, 12, 12])])];
    let coming = come(&plan, &sessions, date(2027, 1, 25)).unwrap();
    let bench = item(&coming.plan, usize::try_from(coming.week).unwrap(), 0, "bench-press");
    assert_eq!((bench.load_kg, bench.sets), (Some(25.0), 2), "30 kg less a tenth, rounded down");
    assert_eq!(bench.basis.as_ref().unwrap().rule, "restart");
    assert!(
        coming.remarks.iter().any(|remark| remark.contains("3 weeks without")),
        "{:?}",
        coming.remarks
    );
}

#[test]
fn nothing_comes_of_nothing_and_a_plan_ends() {
    let plan = plan();
    assert_eq!(come(&plan, &[], date(2027, 1, 11)), Err(Nothing::NotBegun));
    let all: Vec<DoneSession> = (1..=4)
        .flat_map(|week| {
            [Weekday::Mon, Weekday::Thu].map(|day| done(week, day, &[("plank", 0.0, &[30])]))
        })
        .collect();
    assert_eq!(come(&plan, &all, date(2027, 2, 1)), Err(Nothing::Over));
}

#[test]
fn a_plan_without_weeks_has_its_one_week_made_anew() {
    let mut plan = plan();
    plan.weeks.clear();
    let mut session = done(1, Weekday::Mon, &[("bench-press", 30.0, &[10, 10, 10])]);
    session.course = slot::course(&plan);
    let coming = come(&plan, &[session], date(2027, 1, 11)).unwrap();
    let items = slot::work(&coming.plan.sessions[0]);
    assert_eq!((items[0].load_kg, items[0].reps.as_deref()), (Some(30.0), Some(&[10, 10, 10][..])));
}

#[test]
fn an_easier_week_can_be_put_in() {
    let plan = plan();
    let ProfileRef::Whole(profile) = &plan.profile else { panic!("the profile is whole") };
    let catalog = Catalog::built_in();
    let sessions = [
        done(1, Weekday::Mon, &[("bench-press", 32.5, TWO_MORE)]),
        done(1, Weekday::Thu, &[("bench-press", 32.5, TWO_MORE)]),
    ];
    let coming = coming(&Told {
        plan: &plan,
        profile,
        entries: catalog.entries(),
        done: &sessions,
        as_of: date(2027, 1, 11),
        easier: true,
    })
    .unwrap();
    let bench = item(&coming.plan, 2, 0, "bench-press");
    assert_eq!((bench.load_kg, bench.sets, bench.rir), (Some(32.5), 2, Some(4)));
    assert_eq!(item(&coming.plan, 2, 0, "plank").sets, 1, "also what was never done");
    assert_eq!(item(&coming.plan, 3, 0, "bench-press").load_kg, Some(35.0), "raised a week later");
    assert_eq!(coming.plan.weeks[1].kind, crate::words::WeekKind::Easy);
}
