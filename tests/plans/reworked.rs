//! Reworks for good: what is asked for holds for all that goes by it.

use weekwright::input::plan::{Item, Plan, Session};
use weekwright::rework::{Ask, Outcome};

use super::{PLANNER, plan_of};

fn items(sessions: &mut [Session]) -> impl Iterator<Item = &mut Item> {
    sessions.iter_mut().flat_map(|session| &mut session.groups).flat_map(|group| &mut group.items)
}

/// What a plan does stays possible in a rework, but not a variant of what shall never be done.
#[test]
fn what_is_never_done_takes_its_variants_along() {
    let squats = ["back-squat", "paused-back-squat"];
    let mut plan: Plan = plan_of("oar-02");
    let day = plan.sessions.iter().rev().find(|session| {
        let mut items = session.groups.iter().flat_map(|group| &group.items);
        items.any(|item| item.exercise == squats[0])
    });
    let day = day.expect("the strength demo squats").day;
    let weeks = plan.weeks.iter_mut().flat_map(|week| &mut week.sessions);
    for session in plan.sessions.iter_mut().chain(weeks).filter(|session| session.day == day) {
        for item in items(std::slice::from_mut(session)).filter(|item| item.exercise == squats[0]) {
            squats[1].clone_into(&mut item.exercise);
        }
    }
    let ask = Ask { never: vec![squats[0].to_owned()], ..Ask::default() };
    let Outcome::New(mut new) = PLANNER.rework(&plan, &ask).unwrap() else {
        panic!("nothing changed")
    };
    let left: Vec<String> =
        items(&mut new.plan.sessions).map(|item| item.exercise.clone()).collect();
    assert!(left.iter().all(|id| !squats.contains(&id.as_str())), "{left:?}");
}
