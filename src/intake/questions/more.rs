//! What is asked only of those who want more than the usual.

use super::words::{muscles, sexes, stresses, supersets, units};
use super::{Kind, Question, Usual, further};

const WHO_MORE: &str = "More about the client";
const WHAT: &str = "What to train";
const BESIDE: &str = "Beside the lifts";

pub(super) const MORE: &[Question] = &[
    further(
        "sex",
        WHO_MORE,
        "Sex",
        "Used only where a published equation needs it.",
        Kind::Word(sexes),
    ),
    further(
        "body_mass_kg",
        WHO_MORE,
        "Body mass in kg",
        "Used where the body is part of the load, as in a pull-up with a plate.",
        Kind::Number,
    ),
    Question {
        usual: Usual::Is("kg"),
        ..further(
            "units",
            WHO_MORE,
            "Unit of loads",
            "Loads are read and shown in it.",
            Kind::Word(units),
        )
    },
    Question {
        usual: Usual::Is("4"),
        ..further(
            "weeks",
            WHO_MORE,
            "Weeks to plan",
            "1 to 52; four make a good first block.",
            Kind::Number,
        )
    },
    further(
        "limits",
        WHAT,
        "Stresses to keep out",
        "What the client should not be loaded with, such as `overhead`.",
        Kind::Words(stresses),
    ),
    further(
        "emphasis.more",
        WHAT,
        "Muscles that should get more",
        "Such as `glutes`.",
        Kind::Words(muscles),
    ),
    further(
        "emphasis.less",
        WHAT,
        "Muscles that should get less",
        "Such as `biceps`.",
        Kind::Words(muscles),
    ),
    further(
        "exercises.must",
        WHAT,
        "Exercises that must be in",
        "Names with commas between them, such as `back squat`; `weekwright catalog find` looks for them.",
        Kind::Exercises,
    ),
    further(
        "exercises.never",
        WHAT,
        "Exercises that must not be in",
        "Names with commas between them, such as `deadlift`.",
        Kind::Exercises,
    ),
    Question {
        repeats: true,
        ..further(
            "known_lifts",
            WHAT,
            "A lift done lately",
            "Such as `back squat 50 x 5, 2 left`: the whole bar or one hand's weight, repetitions, and how many \
             were left. Enter ends the list.",
            Kind::Lift,
        )
    },
    Question {
        usual: Usual::Is("allow"),
        ..further(
            "supersets",
            WHAT,
            "Exercises in pairs",
            "Pairs share their rests and save time.",
            Kind::Word(supersets),
        )
    },
    further(
        "conditioning.minutes",
        BESIDE,
        "Minutes of conditioning after the lifts",
        "Up to a quarter of a session, such as 10.",
        Kind::Number,
    ),
    Question {
        usual: Usual::Is("3"),
        when: |answers, _| answers.get("conditioning.minutes").is_some(),
        ..further(
            "conditioning.from_week",
            BESIDE,
            "From week",
            "The first week that holds it.",
            Kind::Number,
        )
    },
    Question {
        repeats: true,
        ..further(
            "other_training",
            BESIDE,
            "Sport on the side",
            "Day, easy or hard, and the muscles it loads, such as `sat hard lats quads`. Enter ends the list.",
            Kind::Sport,
        )
    },
];
