//! Easier weeks.

use super::*;

/// A lift that a day holds lighter than its week as planned, as a pull-up with a small plate after rows: the easier week asks for
/// less than the kit's lightest and has that, not the load as planned.
#[test]
fn an_easier_week_is_no_heavier_than_those_before() {
    let known = ", weeks: 4, known_lifts: {back-squat: {load: 27, reps: 1}}";
    let room = Room::new(Status::Advanced, Goal::Hypertrophy, known);
    let planned_heavier = |block: usize| {
        let mut sessions = room.block(block, None);
        let groups = sessions.iter_mut().flat_map(|session| &mut session.groups);
        let items = groups.flat_map(|group| &mut group.items);
        items
            .filter(|item| item.exercise == "back-squat")
            .for_each(|item| item.load_kg = Some(30.0));
        sessions
    };
    let loads: Vec<Option<f64>> = room
        .weeks_of(None, &planned_heavier)
        .iter()
        .map(|week| of(week, "back-squat").load_kg)
        .collect();
    assert_eq!(loads[3], Some(20.0), "{loads:?}");
}
