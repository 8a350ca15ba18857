//! The questions, in the order a first talk takes.

use super::answers::Answers;
use super::kind::Kind;
use super::talk::Around;
use crate::words::{
    ChestPain, Goal, Intensity, Kit, Muscle, Region, Sex, Status, Stress, Supersets, Units,
};

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
    /// Whether it is asked only of those who want more than the usual.
    pub more: bool,
    /// Whether it fits what was answered so far.
    pub when: fn(&Answers, &Around) -> bool,
}

impl Question {
    /// What Enter takes here where nothing was answered before.
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
const WHO_MORE: &str = "More about the client";
const WHEN: &str = "When and where";
const WHAT: &str = "What to train";
const BEFORE: &str = "Before training\nThese are the usual questions, in our own words. They judge nobody's health: after a \
     yes a clinician decides what comes first. Enter leaves one open, and the plan says to ask it.";
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
    let usual = Usual::Nothing;
    Question { id, section, ask, help, usual, kind, repeats: false, more: false, when: always }
}

/// A question for those who want more than the usual.
const fn further(
    id: &'static str,
    section: &'static str,
    ask: &'static str,
    help: &'static str,
    kind: Kind,
) -> Question {
    Question { more: true, ..open(id, section, ask, help, kind) }
}

/// The questions that one answer of `no` settles, with the answer that it stands for.
pub(super) const ANY_OF: [&str; 4] =
    ["screening.disease", "screening.signs", "screening.pregnant", "screening.told_to_wait"];

/// The question that asks for all of them at once.
pub(super) const ANY: &str = "screening.any";

/// Whether single questions are asked: after a yes, or where the one question for all was left open before.
fn each(answers: &Answers, _: &Around) -> bool {
    answers.says_yes(ANY)
}

/// Every question: first those that every plan needs, then the others.
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
    open(
        "screening.active",
        BEFORE,
        "Moved on purpose, 30 minutes on 3 days a week, for the last 3 months (y/n)",
        "Brisk walking counts.",
        Kind::YesNo,
    ),
    Question {
        when: |answers, _| ANY_OF.iter().all(|id| answers.get(id).is_none()),
        ..open(
            ANY,
            BEFORE,
            "Any of these: a known disease of heart, vessels, metabolism or kidneys; chest discomfort, faintness, odd \
             breathlessness, racing heart or swollen ankles; pregnancy; a clinician who said to wait (y/n)",
            "After a yes each is asked. Chest discomfort and the like count at rest or under effort, and so does leg \
             pain while walking that rest takes away.",
            Kind::YesNo,
        )
    },
    Question {
        when: each,
        ..open(
            "screening.disease",
            BEFORE,
            "Known disease of heart, blood vessels, metabolism or kidneys (y/n)",
            "Such as diabetes, or one that a clinician has named.",
            Kind::YesNo,
        )
    },
    Question {
        when: each,
        ..open(
            "screening.signs",
            BEFORE,
            "Chest discomfort, faintness, odd breathlessness, racing heart or swollen ankles (y/n)",
            "At rest or under effort; also leg pain while walking that rest takes away.",
            Kind::YesNo,
        )
    },
    Question {
        when: |answers, around| each(answers, around) && answers.get("sex") != Some("male"),
        ..open(
            "screening.pregnant",
            BEFORE,
            "Pregnant now (y/n)",
            "The clinician in charge agrees first.",
            Kind::YesNo,
        )
    },
    Question {
        when: each,
        ..open(
            "screening.told_to_wait",
            BEFORE,
            "A clinician said to wait with training (y/n)",
            "Then no plan is made until they agree.",
            Kind::YesNo,
        )
    },
    open(
        "screening.intensity",
        BEFORE,
        "How hard the client wants to work",
        "light, moderate: talking is still easy; vigorous: only a few words.",
        Kind::Word(intensities),
    ),
    open(
        "screening.pain",
        BEFORE,
        "Places that hurt, or `none`",
        "With commas between them, such as `knee, lower back`. What loads one of them heavily is left out.",
        Kind::Pain,
    ),
    Question {
        when: |answers, _| {
            let pain = answers.get("screening.pain").unwrap_or_default();
            Region::named_in(&pain.replace(['[', ']', '"'], " ")).contains(&Region::Chest)
        },
        ..open(
            "screening.chest",
            BEFORE,
            "The pain in the chest: of a `muscle`, or `under-effort`",
            "muscle: it hurts when pressed or moved; under-effort: it comes with effort and goes with rest. Until it is \
             answered it counts as the latter, and a clinician comes first.",
            Kind::Word(chest_pains),
        )
    },
    Question {
        when: |answers, _| {
            ANY_OF.iter().any(|id| answers.says_yes(id)) || answers.get("screening.chest").is_some()
        },
        ..open(
            "screening.clinician_agreed",
            BEFORE,
            "The day on which a clinician agreed to training",
            "Such as 2026-12-15. Enter leaves it open; where a clinician comes first, no plan is made until it is there.",
            Kind::Date,
        )
    },
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
fn chest_pains() -> Vec<&'static str> {
    ids(ChestPain::ALL)
}
fn intensities() -> Vec<&'static str> {
    ids(Intensity::ALL)
}
