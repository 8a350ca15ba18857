//! A plan by hand misses what it misses: a rework changes what is asked, and leaves the rest as it is written.

use std::fs;
use std::path::Path;

use weekwright::input::plan::{Group, Plan};
use weekwright::planner::{Options, Planner};
use weekwright::rework::table::Fate;
use weekwright::rework::{Ask, Outcome, Reworked};
use weekwright::why::About;

fn by_hand(planner: &Planner) -> Plan {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/fixtures/plans/by-hand.yaml");
    planner.read(&fs::read_to_string(path).unwrap()).unwrap()
}

fn new(planner: &Planner, plan: &Plan, ask: &Ask) -> Reworked {
    match planner.rework(plan, ask).unwrap() {
        Outcome::New(new) => *new,
        Outcome::Same => panic!("something changed"),
    }
}

/// The exercises that are no longer as they were.
fn changed(new: &Reworked) -> Vec<&str> {
    let lines = new.table.lines.iter().filter(|line| line.fate != Fate::Kept);
    lines.map(|line| line.exercise.as_str()).collect()
}

/// The week has 3 of 8 sets for the chest and none for the calves, and keeps them: shorter minutes that hold it as it
/// is change nothing.
#[test]
fn what_a_plan_by_hand_misses_is_told_and_left_alone() {
    let planner = Planner::built_in();
    let plan = by_hand(&planner);
    let new =
        new(&planner, &plan, &Ask { minutes: vec![("tue".to_owned(), 45)], ..Ask::default() });
    assert_eq!(changed(&new), Vec::<&str>::new());
    let written = new.written.unwrap();
    let missed: Vec<&str> = written.missed.iter().map(|one| one.place.as_str()).collect();
    assert!(missed.contains(&"chest") && missed.contains(&"calves"), "{missed:?}");
    assert_eq!(written.broken, []);
}

/// What the plan does meet is kept to: another squat comes for the squat. A second rework still knows that the plan is
/// by hand.
#[test]
fn one_squat_out_brings_one_squat_in() {
    let planner = Planner::built_in();
    let plan = by_hand(&planner);
    let squat = |id: &str| {
        planner.catalog().get(id).unwrap().pattern == Some(weekwright::words::Pattern::Squat)
    };
    let out = |id: &str| Ask { never: vec![id.to_owned()], ..Ask::default() };
    let first = new(&planner, &plan, &out("back-squat"));
    assert_eq!(changed(&first), ["back-squat"], "{:?}", first.table.lines);
    let fate = &first.table.lines.iter().find(|line| line.exercise == "back-squat").unwrap().fate;
    assert!(matches!(fate, Fate::Swapped { by, .. } if squat(by)), "{fate:?}");
    let second = new(&planner, &first.plan, &out("bench-press"));
    assert!(second.written.is_some());
    assert_eq!(changed(&second), ["bench-press"], "{:?}", second.table.lines);
    let told: Vec<&str> = second
        .plan
        .reworked_from
        .iter()
        .flat_map(|past| &past.changes)
        .map(String::as_str)
        .collect();
    assert_eq!(told, ["by hand", "never back-squat", "by hand", "never bench-press"]);
}

/// A plan of ours is no plan by hand until its sets are edited.
#[test]
fn a_plan_of_ours_is_by_hand_once_its_sets_are_edited() {
    let planner = Planner::built_in();
    let profile = "{client: example-01, training_status: novice, goal: general-fitness, equipment: [dumbbells, bench],
        sessions: [{day: tue, minutes: 45}, {day: fri, minutes: 45}]}";
    let client = weekwright::load(profile, None).unwrap();
    let mut plan = planner.plan(&client.profile, &Options::default()).unwrap();
    let ask = Ask { minutes: vec![("fri".to_owned(), 44)], ..Ask::default() };
    assert_eq!(new(&planner, &plan, &ask).written, None);
    let group = plan.sessions[0].groups.iter().position(Group::is_work).unwrap();
    let out = plan.sessions[0].groups.remove(group);
    let edited = new(&planner, &plan, &ask);
    assert!(edited.written.is_some());
    let back = |id: &String| out.items.iter().any(|item| item.exercise == *id);
    let lines = &edited.table.lines;
    assert!(
        !lines.iter().any(|line| line.fate == Fate::Added && back(&line.exercise)),
        "{lines:?}"
    );
}

/// The reasons of a plan by hand are found by planning again, and its exercises are priced against the plan itself.
#[test]
fn a_plan_by_hand_has_real_reasons() {
    let planner = Planner::built_in();
    let plan = by_hand(&planner);
    let asked = planner.why(&plan).unwrap();
    let page = asked.page();
    let chest = page.shortfalls.iter().find(|short| short.wanted.starts_with("chest")).unwrap();
    assert_eq!(chest.because, "120 minutes a week hold about 98 % of the usual range");
    let About::In { without: Some(effect), .. } = asked.about("back-squat") else {
        panic!("it is in the week")
    };
    assert!(effect.out.iter().any(|out| out.ends_with("back-squat")), "{effect:?}");
    assert!(effect.out.len() <= 2 && effect.comes.len() <= 2, "{effect:?}");
    assert!(!effect.against_rework);
}
