//! The questions, in the order a first talk takes.

use super::answers::Answers;
use super::kind::Kind;
use super::talk::Around;
use crate::words::{Goal, Intensity, Kit, Muscle, Sex, Status, Stress, Supersets, Units};

/// What stands in brackets and is taken on Enter.
#[derive(Clone, Copy)]
pub(super) enum Usual {
    /// The question needs an answer of its own.
    Needed,
    /// The key stays out of the profile.
    Nothing,
    /// A usual answer.
    Is(&'static str),
    /// What fits what is known.
    From(fn(&Around) -> String),
}

/// A question of the first talk.
pub(super) struct Question {
    /// The profile's key, with a dot inside a map.
    pub id: &'static str,
    /// The part of the talk.
    pub section: &'static str,
    /// The question.
    pub ask: &'static str,
    /// What `?` says.
    pub help: &'static str,
    /// What Enter takes.
    pub usual: Usual,
    /// What the answer is read as.
    pub kind: Kind,
    /// Whether it is asked until Enter ends it.
    pub repeats: bool,
    /// Whether it fits what was answered so far.
    pub when: fn(&Answers, &Around) -> bool,
}

impl Question {
    /// What Enter takes here.
    pub(super) fn usual(&self, answers: &Answers, around: &Around) -> Option<String> {
        match self.usual {
            Usual::Needed | Usual::Nothing => None,
            Usual::Is(_) if self.repeats && !answers.all(self.id).is_empty() => None,
            Usual::Is(usual) => Some(usual.to_owned()),
            Usual::From(usual) => Some(usual(around)).filter(|usual| !usual.is_empty()),
        }
    }
}

const WHO: &str = "Who";
const WHEN: &str = "When and where";
const WHAT: &str = "What to train";
const BEFORE: &str = "Before training\nThese are the usual questions, in our own words. They judge nobody's health: after a \
     yes a\nclinician decides what comes first. Enter leaves one open, and the plan says to ask it.";
const BESIDE: &str = "Beside the lifts";

const fn always(_: &Answers, _: &Around) -> bool {
    true
}

/// A question that is asked of everyone, once, and may stay open.
const fn open(
    id: &'static str,
    section: &'static str,
    ask: &'static str,
    help: &'static str,
    kind: Kind,
) -> Question {
    Question { id, section, ask, help, usual: Usual::Nothing, kind, repeats: false, when: always }
}

/// Every question.
pub(super) const QUESTIONS: &[Question] = &[
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
    Question {
        usual: Usual::Is("kg"),
        ..open("units", WHO, "Unit of loads", "Loads are read and shown in it.", Kind::Word(units))
    },
    open(
        "birth_year",
        WHO,
        "Year of birth",
        "Gives heart-rate ranges and the cautions of an age.",
        Kind::Number,
    ),
    open("sex", WHO, "Sex", "Used only where a published equation needs it.", Kind::Word(sexes)),
    open(
        "body_mass_kg",
        WHO,
        "Body mass in kg",
        "Used where the body is part of the load, as in a pull-up with a plate.",
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
        usual: Usual::Is("mon thu"),
        ..open(
            "days",
            WHEN,
            "Training days",
            "Such as `mon thu`; where the hours differ, `mon@18:30 sat@09:00`.",
            Kind::Days,
        )
    },
    Question {
        usual: Usual::Is("18:30"),
        when: |answers, _| {
            answers.get("days").is_none_or(|days| days.split(' ').any(|day| !day.contains('@')))
        },
        ..open(
            "at",
            WHEN,
            "Hour of the day",
            "When a session starts, such as 18:30; for days without an hour of their own.",
            Kind::Clock,
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
            "The day on which week 1 begins, such as 2027-01-04.",
            Kind::Text,
        )
    },
    Question {
        usual: Usual::Is("4"),
        ..open(
            "weeks",
            WHEN,
            "Weeks to plan",
            "1 to 52; four make a good first block.",
            Kind::Number,
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
    open(
        "limits",
        WHAT,
        "Stresses to keep out",
        "What the client should not be loaded with, such as `overhead`.",
        Kind::Words(stresses),
    ),
    open(
        "emphasis.more",
        WHAT,
        "Muscles that should get more",
        "Such as `glutes`.",
        Kind::Words(muscles),
    ),
    open(
        "emphasis.less",
        WHAT,
        "Muscles that should get less",
        "Such as `biceps`.",
        Kind::Words(muscles),
    ),
    open(
        "exercises.must",
        WHAT,
        "Exercises that must be in",
        "Ids, such as `back-squat`; `weekwright catalog list` shows them.",
        Kind::Exercises,
    ),
    open(
        "exercises.never",
        WHAT,
        "Exercises that must not be in",
        "Ids, such as `deadlift`; `weekwright catalog list` shows them.",
        Kind::Exercises,
    ),
    Question {
        repeats: true,
        ..open(
            "known_lifts",
            WHAT,
            "A lift done lately",
            "Such as `back-squat 50 x 5, 2 left`: the whole bar or one hand's weight, repetitions, and how many \
             were left. Enter ends the list.",
            Kind::Lift,
        )
    },
    Question {
        usual: Usual::Is("allow"),
        ..open(
            "supersets",
            WHAT,
            "Exercises in pairs",
            "Pairs share their rests and save time.",
            Kind::Word(supersets),
        )
    },
    open(
        "screening.active",
        BEFORE,
        "Moved on purpose, 30 minutes on 3 days a week, for the last 3 months (y/n)",
        "Brisk walking counts.",
        Kind::YesNo,
    ),
    open(
        "screening.disease",
        BEFORE,
        "Known disease of heart, blood vessels, metabolism or kidneys (y/n)",
        "Such as diabetes, or one that a clinician has named.",
        Kind::YesNo,
    ),
    open(
        "screening.signs",
        BEFORE,
        "Chest discomfort, faintness, odd breathlessness, racing heart or swollen ankles (y/n)",
        "At rest or under effort; also leg pain while walking that rest takes away.",
        Kind::YesNo,
    ),
    Question {
        usual: Usual::Is("moderate"),
        ..open(
            "screening.intensity",
            BEFORE,
            "How hard the client wants to work",
            "moderate: talking is still easy; vigorous: only a few words.",
            Kind::Word(intensities),
        )
    },
    Question {
        when: |answers, _| answers.get("sex") != Some("male"),
        ..open(
            "screening.pregnant",
            BEFORE,
            "Pregnant now (y/n)",
            "The clinician in charge agrees first.",
            Kind::YesNo,
        )
    },
    open(
        "screening.pain",
        BEFORE,
        "Places that hurt",
        "In the client's words, with commas between them.",
        Kind::Texts,
    ),
    open(
        "screening.told_to_wait",
        BEFORE,
        "A clinician said to wait with training (y/n)",
        "Then no plan is made until they agree.",
        Kind::YesNo,
    ),
    open(
        "conditioning.minutes",
        BESIDE,
        "Minutes of conditioning after the lifts",
        "Up to a quarter of a session, such as 10.",
        Kind::Number,
    ),
    Question {
        usual: Usual::Is("3"),
        when: |answers, _| answers.get("conditioning.minutes").is_some(),
        ..open(
            "conditioning.from_week",
            BESIDE,
            "From week",
            "The first week that holds it.",
            Kind::Number,
        )
    },
    Question {
        repeats: true,
        ..open(
            "other_training",
            BESIDE,
            "Sport on the side",
            "Day, easy or hard, and the muscles it loads, such as `sat hard lats quads`. Enter ends the list.",
            Kind::Sport,
        )
    },
];

fn ids<W: Copy + Into<&'static str>>(words: &[W]) -> Vec<&'static str> {
    words.iter().map(|word| (*word).into()).collect()
}

fn units() -> Vec<&'static str> {
    ids(Units::ALL)
}
fn sexes() -> Vec<&'static str> {
    ids(Sex::ALL)
}
fn statuses() -> Vec<&'static str> {
    ids(Status::ALL)
}
fn goals() -> Vec<&'static str> {
    ids(Goal::ALL)
}
fn kit() -> Vec<&'static str> {
    ids(Kit::ALL)
}
fn stresses() -> Vec<&'static str> {
    ids(Stress::ALL)
}
fn muscles() -> Vec<&'static str> {
    ids(Muscle::ALL)
}
fn supersets() -> Vec<&'static str> {
    ids(Supersets::ALL)
}
fn intensities() -> Vec<&'static str> {
    ids(Intensity::ALL)
}
