//! Muscle tags of the fifty commonest lifts against the muscles that a textbook names for each of them.
//!
//! The lists follow "major muscles involved" in the exercise checklists of NSCA's Essentials of Strength Training and
//! Conditioning, 4th ed., chapter 15, and the functions in Kendall et al., Muscles: Testing and Function, 5th ed., both
//! from memory, put into our groups (rhomboids and the middle trapezius are upper back, teres major goes with the lats,
//! brachialis with the biceps).

use weekwright::catalog::Catalog;
use weekwright::catalog::prime_movers::prime_movers;
use weekwright::words::{Muscle, Role};

/// The lift, what it is trained for first, and what else the books name.
const LIFTS: &[(&str, Muscle, &[Muscle])] = {
    use Muscle::{
        Abs, Adductors, Biceps, Calves, Chest, Forearms, FrontDelts, Glutes, Hamstrings,
        HipFlexors, Lats, Obliques, Quads, RearDelts, RotatorCuff, Serratus, SideDelts,
        SpinalErectors, Triceps, UpperBack, UpperTraps,
    };
    const PRESS: &[Muscle] = &[FrontDelts, Triceps, Serratus];
    const OVERHEAD: &[Muscle] = &[SideDelts, Triceps, UpperTraps, Serratus];
    const LEGS: &[Muscle] = &[Glutes, Hamstrings, Adductors, SpinalErectors, UpperBack, Forearms];
    const HINGE: &[Muscle] =
        &[Glutes, Hamstrings, Quads, SpinalErectors, UpperBack, UpperTraps, Forearms];
    const ROW: &[Muscle] = &[Lats, UpperBack, RearDelts, Biceps, Forearms, SpinalErectors];
    &[
        ("back-squat", Quads, LEGS),
        ("front-squat", Quads, LEGS),
        ("goblet-squat", Quads, LEGS),
        ("leg-press", Quads, LEGS),
        ("hack-squat", Quads, LEGS),
        ("smith-machine-squat", Quads, LEGS),
        ("dumbbell-split-squat", Quads, LEGS),
        ("dumbbell-walking-lunge", Quads, LEGS),
        ("dumbbell-step-up", Glutes, &[Quads, Hamstrings, Adductors, Muscle::Abductors, Forearms]),
        ("deadlift", Glutes, HINGE),
        ("trap-bar-deadlift", Glutes, HINGE),
        ("romanian-deadlift", Hamstrings, HINGE),
        ("dumbbell-romanian-deadlift", Hamstrings, HINGE),
        ("kettlebell-swing", Glutes, HINGE),
        ("hip-thrust", Glutes, &[Hamstrings, Quads, Adductors]),
        (
            "power-clean",
            Glutes,
            &[Hamstrings, Quads, Calves, UpperTraps, UpperBack, SpinalErectors, Forearms],
        ),
        ("leg-curl", Hamstrings, &[Calves]),
        ("leg-extension", Quads, &[]),
        ("machine-calf-raise", Calves, &[]),
        ("machine-seated-calf-raise", Calves, &[]),
        ("machine-hip-adduction", Adductors, &[]),
        ("bench-press", Chest, PRESS),
        ("incline-bench-press", Chest, PRESS),
        ("dumbbell-bench-press", Chest, PRESS),
        ("incline-dumbbell-press", Chest, PRESS),
        ("machine-chest-press", Chest, PRESS),
        ("push-up", Chest, PRESS),
        ("dip", Chest, PRESS),
        ("close-grip-bench-press", Triceps, &[Chest, FrontDelts]),
        ("cable-fly", Chest, &[FrontDelts]),
        ("machine-chest-fly", Chest, &[FrontDelts]),
        ("overhead-press", FrontDelts, OVERHEAD),
        ("dumbbell-overhead-press", FrontDelts, OVERHEAD),
        ("machine-shoulder-press", FrontDelts, OVERHEAD),
        ("lateral-raise", SideDelts, &[UpperTraps, FrontDelts]),
        ("rear-raise", RearDelts, &[UpperBack, RotatorCuff, SpinalErectors]),
        ("face-pull", RearDelts, &[UpperBack, RotatorCuff, Biceps]),
        ("barbell-row", UpperBack, ROW),
        ("seated-cable-row", UpperBack, ROW),
        ("chest-supported-row", UpperBack, ROW),
        ("inverted-row", UpperBack, ROW),
        ("one-arm-row", UpperBack, ROW),
        ("pull-up", Lats, ROW),
        ("chin-up", Lats, ROW),
        ("lat-pulldown", Lats, ROW),
        ("biceps-curl", Biceps, &[Forearms]),
        ("barbell-curl", Biceps, &[Forearms]),
        ("triceps-pressdown", Triceps, &[]),
        ("lying-triceps-extension", Triceps, &[]),
        ("barbell-shrug", UpperTraps, &[UpperBack, Forearms]),
        ("back-extension", SpinalErectors, &[Glutes, Hamstrings]),
        ("hanging-knee-raise", Abs, &[HipFlexors, Obliques, Forearms]),
        ("plank", Abs, &[Obliques]),
    ]
};

#[test]
fn the_commonest_lifts_train_what_the_books_say() {
    assert!(LIFTS.len() >= 50);
    let catalog = Catalog::built_in();
    for (id, prime, others) in LIFTS {
        let entry = catalog.get(id).unwrap_or_else(|| panic!("no exercise {id}"));
        assert_eq!(entry.direct.first(), Some(prime), "{id}: the prime mover");
        for muscle in entry.direct.iter().skip(1).chain(&entry.indirect) {
            assert!(others.contains(muscle), "{id}: {muscle} is not named for it");
        }
    }
}

/// A set is done for one muscle or two; what works on the way counts half.
#[test]
fn nobody_does_a_set_for_three_muscles() {
    for entry in Catalog::built_in().iter().filter(|entry| entry.role == Role::Work) {
        assert!(entry.direct.len() <= 2, "{}: {:?}", entry.id, entry.direct);
    }
}

/// The first direct muscle is one that does the joint action of the pattern.
#[test]
fn every_first_muscle_does_its_movement() {
    for entry in Catalog::built_in().iter().filter(|entry| entry.role == Role::Work) {
        let pattern = entry.pattern.expect("working exercises have one");
        let first = entry.direct.first().expect("working exercises have one");
        assert!(prime_movers(pattern).contains(first), "{}: {first}", entry.id);
    }
}
