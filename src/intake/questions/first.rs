//! Who, when, where and what for: what every plan needs.

use super::words::{goals, kit, statuses};
use super::{Kind, Question, Usual, open};

const WHO: &str = "Who";
const WHEN: &str = "When and where";

pub(super) const FIRST: &[Question] = &[
    Question {
        usual: Usual::Needed,
        ..open(
            "client",
            WHO,
            "Client's code or nickname",
            "Any short text, such as tide-07. A full name is not needed.",
            Kind::Text,
        )
    },
    open(
        "birth_year",
        WHO,
        "Year of birth",
        "Gives heart-rate ranges and the cautions of an age.",
        Kind::Number,
    ),
    Question {
        usual: Usual::Is("novice"),
        ..open(
            "training_status",
            WHO,
            "Training status",
            "novice: up to half a year of regular lifting; intermediate: up to about three years; \
             advanced: beyond.",
            Kind::Word(statuses),
        )
    },
    Question {
        usual: Usual::Is("general-fitness"),
        ..open("goal", WHO, "Goal", "What the training is for first of all.", Kind::Word(goals))
    },
    Question {
        usual: Usual::Is("mon thu 18:30"),
        ..open(
            "days",
            WHEN,
            "Training days and hour",
            "Such as `mon thu 18:30`, or `Monday and Friday` without an hour; where they differ, `mon@18:30 sat@09:00`, \
             and with other minutes `sat@09:00=90`.",
            Kind::Days,
        )
    },
    Question {
        usual: Usual::Is("60"),
        ..open(
            "minutes",
            WHEN,
            "Minutes for a session",
            "From the first step of the warm-up to the last set.",
            Kind::Number,
        )
    },
    Question {
        usual: Usual::From(|around| around.first_day.clone()),
        ..open(
            "start",
            WHEN,
            "First day",
            "The day on which week 1 begins, such as `2027-01-04` or `4 January`.",
            Kind::Date,
        )
    },
    Question {
        usual: Usual::From(|around| around.places.first().cloned().unwrap_or_default()),
        when: |_, around| !around.places.is_empty(),
        ..open(
            "place",
            WHEN,
            "Place",
            "A room that has a file under places/; `none` where the kit is told next.",
            Kind::Place,
        )
    },
    Question {
        usual: Usual::Is("dumbbells, bench"),
        when: |answers, _| answers.get("place").is_none_or(|place| place == "none"),
        ..open(
            "equipment",
            WHEN,
            "Kit",
            "Items with commas between them; `none` for floor and wall only. Each comes with a usual amount.",
            Kind::Words(kit),
        )
    },
];
