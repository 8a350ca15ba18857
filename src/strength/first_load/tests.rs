//! Starts and climbs, against weeks that a coach wrote by hand and the kit's own loads.

use super::*;
use crate::catalog::Catalog;
use crate::input::place::Equipment;
use crate::strength::racks;
use crate::words::Role;
use proptest::prelude::*;

fn profile(yaml: &str) -> Profile {
    let rest = "goal: hypertrophy, equipment: [barbell], sessions: [{day: mon, minutes: 60}]";
    serde_yaml::from_str(&format!("{{client: t, {rest}, {yaml}}}")).unwrap()
}

fn kit(yaml: &str) -> Equipment {
    serde_yaml::from_str(yaml).unwrap()
}

fn climb(yaml: &str, place: &str, id: &str, reps: u32, rir: u32) -> (f64, f64, u32) {
    let profile = profile(yaml);
    let catalog = Catalog::built_in();
    let entry = catalog.get(id).expect("a lift of the catalog");
    let ladder = racks::ladder(entry, &kit(place), profile.units).expect("the kit is there");
    let ask = Ask { reps, rir, most_percent: None };
    let find =
        Starter::of(&profile).climb(entry, &ladder, ask, [None, None]).expect("there is a climb");
    (find.start_kg, find.step_kg, find.sets)
}

const ROOM: &str = "{barbell: {mass_kg: 20}, plates_kg: {20: 2, 15: 2, 10: 4, 5: 4, 2.5: 4, 1.25: 4}, squat-rack: 1, bench: 1,
    dumbbells: {from_kg: 4, to_kg: 40, step_kg: 2}, kettlebell: {masses_kg: [16]}, dip-belt: 1, pull-up-bar: 1,
    lat-pulldown: {from_kg: 5, to_kg: 100, step_kg: 5}}";

/// Common practice: first sets as an experienced coach wrote them by hand for such clients.
#[test]
fn starts_are_near_those_that_a_coach_wrote() {
    let [fit, strong] = ["training_status: intermediate", "training_status: advanced"];
    assert_eq!(climb(fit, ROOM, "back-squat", 8, 2), (50.0, 5.0, 3));
    assert_eq!(climb(fit, ROOM, "bench-press", 8, 2), (40.0, 5.0, 3));
    assert_eq!(climb(fit, ROOM, "dumbbell-bench-press", 8, 2), (16.0, 2.0, 3));
    assert_eq!(climb(fit, ROOM, "romanian-deadlift", 8, 2), (50.0, 5.0, 3));
    assert_eq!(climb(fit, ROOM, "lat-pulldown", 8, 2), (40.0, 5.0, 3));
    assert_eq!(climb(strong, ROOM, "bench-press", 6, 2), (60.0, 5.0, 3));
    assert_eq!(climb(strong, ROOM, "back-squat", 6, 2), (70.0, 10.0, 3));
    assert_eq!(climb(strong, ROOM, "weighted-pull-up", 6, 2), (5.0, 2.5, 3));
    let woman = "training_status: novice, sex: female, body_mass_kg: 64";
    assert_eq!(climb(woman, ROOM, "bench-press", 10, 3), (20.0, 2.5, 3));
    assert_eq!(climb(woman, ROOM, "dumbbell-romanian-deadlift", 10, 3).0, 8.0);
}

/// Common practice: who has never lifted begins two sizes under the heaviest, and a belt is for five kilograms and more.
#[test]
fn nobody_begins_with_the_heaviest_or_with_a_plate_of_one_kilogram() {
    let few = "{dumbbells: {masses_kg: [2, 4, 6, 8]}}";
    let heavy = "training_status: novice, sex: male, body_mass_kg: 118";
    assert_eq!(climb(heavy, few, "goblet-squat", 10, 3), (4.0, 2.0, 3));
    let profile = profile("training_status: advanced");
    let place = kit(ROOM);
    let catalog = Catalog::built_in();
    let entry = catalog.get("weighted-dip").expect("it is in the catalog");
    let ladder = racks::ladder(entry, &place, profile.units).expect("plates hang from a belt");
    let ask = Ask { reps: 12, rir: 2, most_percent: None };
    let find = Starter::of(&profile).climb(entry, &ladder, ask, [Some(2.0), None]).unwrap();
    assert_eq!(find.start_kg, 0.0);
}

#[test]
fn in_a_pound_gym_starts_and_steps_are_pounds() {
    let client = "training_status: intermediate, units: lb";
    let (start, step, sets) = climb(client, "[barbell, squat-rack, bench]", "bench-press", 8, 2);
    assert!((start / KG_PER_LB - 90.0).abs() < 0.01, "{start}");
    assert!((step / KG_PER_LB - 10.0).abs() < 0.01, "{step}");
    assert_eq!(sets, 3);
    let (start, step, _) = climb(client, "[dumbbells, bench]", "dumbbell-bench-press", 8, 2);
    assert!((start / KG_PER_LB - 35.0).abs() < 0.01 && (step / KG_PER_LB - 5.0).abs() < 0.01);
}

#[test]
fn a_single_weight_is_no_climb() {
    let catalog = Catalog::built_in();
    let entry = catalog.get("goblet-squat").unwrap();
    let one = Ladder::implements(vec![16_000], Units::Kg);
    let ask = Ask { reps: 10, rir: 2, most_percent: None };
    assert_eq!(
        Starter::of(&profile("training_status: novice")).climb(entry, &one, ask, [None, None]),
        None
    );
}

/// Every exercise that is loaded in kilograms has a figure, and no figure falls with experience.
#[test]
fn the_table_covers_the_catalog() {
    for entry in Catalog::built_in().iter().filter(|entry| entry.role == Role::Work) {
        let unloaded = [LoadKind::Bodyweight, LoadKind::None, LoadKind::Band, LoadKind::Assisted];
        assert!(unloaded.contains(&entry.load) || row(entry).is_some(), "{}", entry.id);
    }
    for row in ROWS.iter() {
        assert!(row.kg[0] <= row.kg[1] && row.kg[1] <= row.kg[2], "{row:?}");
        assert!(row.lifts.is_empty() != (row.load.is_none() && row.patterns.is_empty()), "{row:?}");
    }
}

proptest! {
    #[test]
    fn every_set_of_a_climb_can_be_made(
        id in prop::sample::select(vec!["back-squat", "bench-press", "deadlift", "lat-pulldown", "lateral-raise", "one-arm-row"]),
        status in prop::sample::select(vec!["novice", "intermediate", "advanced"]),
        mass in 40_u32..140, reps in 1_u32..20, rir in 0_u32..5, pounds in any::<bool>(),
    ) {
        let units = if pounds { "lb" } else { "kg" };
        let profile = profile(&format!("training_status: {status}, body_mass_kg: {mass}, units: {units}"));
        let place = kit("[barbell, squat-rack, bench, dumbbells, lat-pulldown]");
        let catalog = Catalog::built_in();
        let entry = catalog.get(id).unwrap();
        let ladder = racks::ladder(entry, &place, profile.units).unwrap();
        let ask = Ask { reps, rir, most_percent: None };
        let starter = Starter::of(&profile);
        let Some(find) = starter.climb(entry, &ladder, ask, [None, Some(90.0)]) else {
            // There is nothing to climb only where the first set is as heavy as the cap lets it be.
            let wanted = starter.wanted(entry, ask).unwrap();
            prop_assert!(wanted * 1.02 + 1e-6 >= ladder.at_most(90.0).unwrap(), "{wanted}");
            return Ok(());
        };
        for set in 0..find.sets {
            let load = find.start_kg + find.step_kg * f64::from(set);
            prop_assert!(ladder.near(load).is_some() && load <= 90.0 + 1e-9, "{load} {find:?}");
        }
        if status != "novice" && entry.main && entry.load == LoadKind::BarTotal {
            prop_assert!(find.start_kg > ladder.lightest(), "never the empty bar");
        }
    }
}

/// Common practice: from 70 on a first weight is half of what a younger beginner takes, and from the lower half of the rack.
#[test]
fn from_70_on_the_first_weight_is_a_light_one_of_the_rack() {
    let few = "{dumbbells: {from_kg: 1, to_kg: 6, step_kg: 1}}";
    let aged = |year: u32| {
        format!(
            "training_status: novice, sex: male, body_mass_kg: 80, birth_year: {year}, start: 2027-01-04"
        )
    };
    for id in ["dumbbell-romanian-deadlift", "goblet-squat", "dumbbell-bench-press"] {
        assert!(climb(&aged(1949), few, id, 10, 3).0 <= 3.0, "{id}");
        assert!(
            climb(&aged(1949), ROOM, id, 10, 3).0 < climb(&aged(1990), ROOM, id, 10, 3).0,
            "{id}"
        );
    }
}
