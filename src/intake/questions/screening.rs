//! The questions before training.

use super::words::{chest_pains, intensities};
use super::{Kind, Question, open};
use crate::intake::answers::Answers;
use crate::intake::around::Around;
use crate::words::Region;

const HEAD: &str = "Before training\nThese are the usual questions, in our own words. They judge nobody's health: after a \
     yes a clinician decides what comes first. Enter leaves one open, and the plan says to ask it.";

/// The questions that one answer of `no` settles, with the answer that it stands for.
pub(in crate::intake) const ANY_OF: [&str; 4] =
    ["screening.disease", "screening.signs", "screening.pregnant", "screening.told_to_wait"];

/// The question that asks for all of them at once.
pub(in crate::intake) const ANY: &str = "screening.any";

/// Whether single questions are asked: after a yes, or where the one question for all was left open before.
fn each(answers: &Answers, _: &Around) -> bool {
    answers.says_yes(ANY)
}

pub(super) const BEFORE: &[Question] = &[
    open(
        "screening.active",
        HEAD,
        "Moved on purpose, 30 minutes on 3 days a week, for the last 3 months (y/n)",
        "Brisk walking counts.",
        Kind::YesNo,
    ),
    Question {
        when: |answers, _| ANY_OF.iter().all(|id| answers.get(id).is_none()),
        ..open(
            ANY,
            HEAD,
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
            HEAD,
            "Known disease of heart, blood vessels, metabolism or kidneys (y/n)",
            "Such as diabetes, or one that a clinician has named.",
            Kind::YesNo,
        )
    },
    Question {
        when: each,
        ..open(
            "screening.signs",
            HEAD,
            "Chest discomfort, faintness, odd breathlessness, racing heart or swollen ankles (y/n)",
            "At rest or under effort; also leg pain while walking that rest takes away.",
            Kind::YesNo,
        )
    },
    Question {
        when: |answers, around| each(answers, around) && answers.get("sex") != Some("male"),
        ..open(
            "screening.pregnant",
            HEAD,
            "Pregnant now (y/n)",
            "The clinician in charge agrees first.",
            Kind::YesNo,
        )
    },
    Question {
        when: each,
        ..open(
            "screening.told_to_wait",
            HEAD,
            "A clinician said to wait with training (y/n)",
            "Then no plan is made until they agree.",
            Kind::YesNo,
        )
    },
    open(
        "screening.intensity",
        HEAD,
        "How hard the client wants to work",
        "light, moderate: talking is still easy; vigorous: only a few words.",
        Kind::Word(intensities),
    ),
    open(
        "screening.pain",
        HEAD,
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
            HEAD,
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
            HEAD,
            "The day on which a clinician agreed to training",
            "Such as 2026-12-15. Enter leaves it open; where a clinician comes first, no plan is made until it is there.",
            Kind::Date,
        )
    },
];
