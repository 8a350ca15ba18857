//! A rework keeps what it can.

use weekwright::input::plan::Plan;
use weekwright::input::profile::Profile;
use weekwright::planner::{Options, Planner};
use weekwright::rework::{Ask, Outcome};

fn profile(days: &str) -> Profile {
    serde_yaml::from_str(&format!(
        "{{client: t, training_status: novice, goal: general-fitness,
           equipment: [dumbbells, bench, kettlebell], sessions: [{days}]}}"
    ))
    .unwrap()
}

fn new(planner: &Planner, plan: &Plan, ask: &Ask) -> (Plan, usize) {
    match planner.rework(plan, ask).unwrap() {
        Outcome::New(new) => (new.plan, new.table.changes()),
        Outcome::Same => panic!("something changed"),
    }
}

const TWO: &str = "{day: tue, minutes: 40}, {day: fri, minutes: 40}";

#[test]
fn no_ask_no_change() {
    let planner = Planner::built_in();
    let plan = planner.plan(&profile(TWO), &Options::default()).unwrap();
    assert_eq!(planner.rework(&plan, &Ask::default()).unwrap(), Outcome::Same);
    let same =
        Ask { seed: Some(plan.seed), profile: Some(Box::new(profile(TWO))), ..Ask::default() };
    assert_eq!(planner.rework(&plan, &same).unwrap(), Outcome::Same);
}

/// What was not in the plan can be kept out of it at no change at all.
#[test]
fn keeping_out_what_is_not_in_changes_no_pick() {
    let planner = Planner::built_in();
    let plan = planner.plan(&profile(TWO), &Options::default()).unwrap();
    let used: Vec<String> = items(&plan);
    let absent = planner.request(&profile(TWO), &Options::default());
    let absent = absent.candidates.iter().map(|one| one.id.clone()).find(|id| !used.contains(id));
    let ask = Ask { never: vec![absent.unwrap()], ..Ask::default() };
    let (after, changes) = new(&planner, &plan, &ask);
    assert_eq!((items(&after), changes), (used, 0));
    assert_eq!(after.reworked_from.len(), 1);
}

#[test]
fn only_today_changes_to_the_letter() {
    let planner = Planner::built_in();
    let plan = planner.plan(&profile(TWO), &Options::default()).unwrap();
    let ask = Ask {
        without: vec!["dumbbells".parse().unwrap()],
        today: Some("tue".to_owned()),
        ..Ask::default()
    };
    let (after, _) = new(&planner, &plan, &ask);
    assert_eq!(after.sessions[1], plan.sessions[1]);
    for (week, was) in after.weeks.iter().zip(&plan.weeks) {
        assert_eq!(week.sessions[1], was.sessions[1]);
    }
    let request = planner.request(&profile(TWO), &Options::default());
    for item in after.sessions[0]
        .groups
        .iter()
        .filter(|group| group.is_work())
        .flat_map(|group| &group.items)
    {
        let kit = &request.candidate(&item.exercise).unwrap().kit;
        assert!(!kit.contains(&"dumbbells".parse().unwrap()), "{}", item.exercise);
    }
}

/// Reworking what keeps an exercise out never returns it, and every other pick that can stay does: on a small week a
/// plan that drops one exercise needs at most that pick and its stand-in, unless targets ask for more.
#[test]
fn one_exercise_out_changes_little() {
    let planner = Planner::built_in();
    let plan = planner.plan(&profile(TWO), &Options::default()).unwrap();
    let out = items(&plan)[0].clone();
    let ask = Ask { never: vec![out.clone()], ..Ask::default() };
    let (after, changes) = new(&planner, &plan, &ask);
    assert!(!items(&after).contains(&out));
    let uses = items(&plan).iter().filter(|id| **id == out).count();
    assert!(changes <= 2 * uses + 1, "{changes} changes");
}

fn items(plan: &Plan) -> Vec<String> {
    let sessions = plan.sessions.iter().flat_map(|session| &session.groups);
    let items = sessions.filter(|group| group.is_work()).flat_map(|group| &group.items);
    items.map(|item| item.exercise.clone()).collect()
}
