//! The words for what the answers change. What they say of effort is told from the bounds that the weeks keep, so that
//! the two cannot disagree.

use super::Withheld;
use std::collections::BTreeSet;

use super::effort::CarefulStart;
use super::facts::{Agreement, Facts, Question};
use super::pain::stresses;

use crate::words::{Region, Stress};

/// Why there is no plan yet.
pub(super) fn withheld(facts: &Facts) -> Option<Withheld> {
    if facts.is_too_young() {
        return Some(Withheld {
            because: "no plan for a child under 8: they play, with a qualified adult beside them"
                .to_owned(),
            instead: "check `birth_year` and `start`".to_owned(),
        });
    }
    let waits = facts.told_to_wait == Some(true);
    let agreed = matches!(facts.agreement, Agreement::On(_));
    if !waits && (agreed || !facts.needs_clinician()) {
        return None;
    }
    let mut reasons = reasons(facts);
    if waits {
        reasons.push("a clinician said to wait".to_owned());
    }
    let asked_before = match facts.agreement {
        Agreement::Old(day) => format!("; that of {day} is over 12 months old"),
        _ => String::new(),
    };
    let because =
        format!("no plan until a clinician agrees to training{asked_before}: {}", all_of(&reasons));
    let mut steps = Vec::new();
    if waits {
        steps.push("once they agree, write `told_to_wait: false`".to_owned());
    }
    if facts.needs_clinician() {
        let lead = if waits { "and" } else { "once they agree, write" };
        steps.push(format!(
            "{lead} the day of it under `screening`, as in `clinician_agreed: 2026-12-15`"
        ));
    }
    let only_chest = facts.chest && facts.signs != Some(true) && !facts.has_disease();
    if only_chest && !facts.is_pregnant() && !waits {
        steps.push(
            "or `chest: muscle` where the pain is only of a muscle that is pressed or moved"
                .to_owned(),
        );
    }
    Some(Withheld { because, instead: steps.join(", ") })
}

/// What asks for a clinician, each named.
fn reasons(facts: &Facts) -> Vec<String> {
    let mut reasons = Vec::new();
    if facts.signs == Some(true) {
        reasons.push("signs of heart, metabolic or kidney disease were reported".to_owned());
    }
    if facts.chest {
        reasons.push("pain in the chest that may come from effort was reported".to_owned());
    }
    if facts.has_disease() {
        reasons.push(match facts.active {
            Some(true) => "a disease of heart, metabolism or kidneys is known".to_owned(),
            _ => "a disease of heart, metabolism or kidneys is known, and the client is not known to be active"
                .to_owned(),
        });
    }
    if facts.is_pregnant() {
        reasons.push("pregnancy".to_owned());
    }
    reasons
}

/// For the coach.
pub(super) fn cautions(facts: &Facts, start: &CarefulStart) -> Vec<String> {
    let mut told = Vec::new();
    told.extend(clinician(facts));
    told.extend(facts.is_pregnant().then(|| PREGNANT.to_owned()));
    told.extend(pain(facts));
    told.extend(effort(facts, start));
    told.extend(facts.is_young().then(|| YOUNG.to_owned()));
    told.extend(facts.is_older().then(|| OLDER.to_owned()));
    told.extend(open(facts));
    if facts.open.is_empty() && !facts.reported() {
        told.insert(0, NOTHING.to_owned());
    }
    told
}

const NOTHING: &str = "Nothing reported before training; ask again when anything changes.";

const PREGNANT: &str = "Pregnancy: nothing flat on the back and no breath held under load; about 150 min a week at a pace that \
     allows talk is the usual advice. Stop and call the clinician on bleeding, fluid, pain, dizziness, chest or breathing symptoms, \
     or a swollen calf (ACOG Committee Opinion 804).";

const YOUNG: &str = "Under 18: a qualified adult watches every session, form comes before load, up to three sets of an exercise, no \
     heavy single tries (NSCA and AAP statements on youth training).";

const OLDER: &str = "From 65: one or two sets in the first week, light loads first, and a balance item in the week \
     (NSCA position on older adults; WHO 2020). Ask the clinician about medicines that change heart rate or blood pressure.";

/// What a clinician is asked, or has said.
fn clinician(facts: &Facts) -> Option<String> {
    let reasons: Vec<String> =
        reasons(facts).into_iter().filter(|reason| reason != "pregnancy").collect();
    if reasons.is_empty() && !facts.is_pregnant() {
        return None;
    }
    let lead = if reasons.is_empty() {
        String::new()
    } else {
        format!("{}. ", sentence(&all_of(&reasons)))
    };
    Some(match facts.agreement {
        Agreement::On(day) => format!(
            "{lead}A clinician agreed to training on {day}: keep to what they said, and ask again after 12 months or when anything changes."
        ),
        Agreement::Old(day) => format!(
            "{lead}A clinician agreed on {day}, over 12 months before: ask them again before the first session."
        ),
        Agreement::None if facts.needs_clinician() => {
            format!("{lead}A clinician agrees before the first session.")
        }
        Agreement::None => format!(
            "{lead}Go on only if a clinician saw the client within 12 months and nothing has changed since; else ask them first, and \
             before anything vigorous in any case."
        ),
    })
}

/// Later blocks bring nothing back by themselves: only the coach knows what became of it.
const AGAIN: &str = " Ask again before the second block: what was left out comes back by hand or with a new plan, not by itself.";

/// What hurts, and what is left out for it.
fn pain(facts: &Facts) -> Vec<String> {
    let mut told = Vec::new();
    let regions: Vec<Region> = facts.regions.iter().copied().collect();
    if !regions.is_empty() {
        let names: Vec<String> = regions.iter().map(|region| region.name()).collect();
        let tags: BTreeSet<Stress> = regions.iter().flat_map(|region| stresses(*region)).collect();
        let tags: Vec<String> = tags.into_iter().map(|tag| tag.id().to_owned()).collect();
        told.push(format!(
            "Pain reported ({}): the first block leaves out what loads it heavily ({}). Keep to ranges and loads that do not bring it on; what was \
             tried and does not hurt can be named under `painless`.{} A clinician sees it if it stays or grows.",
            names.join(", "),
            tags.join(", "),
            if facts.goes_on { AGAIN } else { "" }
        ));
    }
    if !facts.notes.is_empty() {
        told.push(format!(
            "Pain reported in the client's words ({}): it names no region, so nothing is left out for it. What brings it on belongs under \
             `limits`; a clinician sees it if it stays or grows.",
            facts.notes.join(", ")
        ));
    }
    told
}

/// How hard the weeks are, from their bounds.
fn effort(facts: &Facts, start: &CarefulStart) -> Option<String> {
    if let Some(percent) = start.cap_percent {
        return Some(format!(
            "Every week is moderate: at least {} good repetitions left in each set, loads up to {percent} % of the most for one \
             repetition, no heavy sets, no intervals.",
            start.least_rir
        ));
    }
    if !start.is_easy_start() {
        return None;
    }
    let why = if facts.active == Some(false) { "Not active lately: the" } else { "The" };
    let intervals = match start.intervals_from {
        Some(week) if week > 1 => format!(", and intervals come from week {week} on"),
        _ => String::new(),
    };
    Some(format!(
        "{why} first two weeks are light to moderate, with at least {} good repetitions left in each set{intervals}; then it grows slowly.",
        start.first_weeks_rir
    ))
}

/// The questions that nobody answered.
fn open(facts: &Facts) -> Option<String> {
    let names: Vec<String> =
        facts.open.iter().map(|question| question.words().to_owned()).collect();
    (!names.is_empty()).then(|| {
        format!(
            "Still to be asked before the first session, the answers go under `screening`: {}. With a yes a clinician may have to come first.",
            names.join("; ")
        )
    })
}

impl Question {
    /// What is to be asked, in a few words.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Question::Active => "moved on purpose 3 days a week lately",
            Question::Disease => "heart, metabolic or kidney disease",
            Question::Signs => "symptoms at rest or under effort",
            Question::Intensity => "how hard the client wants to work",
            Question::Pregnant => "pregnancy",
            Question::Pain => "pain, and where",
            Question::Chest => "whether the pain in the chest is of a muscle or comes under effort",
            Question::ToldToWait => "whether a clinician said to wait",
        }
    }

    /// The key of the answer.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Question::Active => "active",
            Question::Disease => "disease",
            Question::Signs => "signs",
            Question::Intensity => "intensity",
            Question::Pregnant => "pregnant",
            Question::Pain => "pain",
            Question::Chest => "chest",
            Question::ToldToWait => "told_to_wait",
        }
    }
}

/// For the client: what to do, and never why.
pub(super) fn instructions(facts: &Facts, start: &CarefulStart) -> Vec<String> {
    let mut told = Vec::new();
    if start.is_moderate() {
        told.push(format!(
            "Keep every session moderate: you can talk throughout, and each set ends with {} good repetitions left.",
            number(start.least_rir)
        ));
    } else if start.is_easy_start() {
        told.push(format!(
            "The first two weeks are easy on purpose: each set ends with {} good repetitions left.",
            number(start.first_weeks_rir)
        ));
    }
    if facts.has_pain() {
        told.push(
            "Stay in ranges and with loads that do not hurt, and tell your coach what does."
                .to_owned(),
        );
    }
    if facts.is_pregnant() {
        told.push(
            "Breathe through every repetition, and do no exercise flat on your back.".to_owned(),
        );
    }
    if facts.needs_clinician() || facts.has_disease() {
        told.push(
            "Stop, and call your clinician, at dizziness, trouble with chest or breath, or what they told you to watch for.".to_owned(),
        );
    }
    if facts.is_young() {
        told.push(
            "A qualified adult watches every session; good form comes before more load.".to_owned(),
        );
    }
    if let Some(sets) = start.first_week_sets {
        told.push(format!(
            "Begin light, with up to {} sets of an exercise in the first week; keep a wall or a rail within reach in balance work.",
            number(sets)
        ));
    }
    if !facts.open.is_empty() {
        told.push("Your coach has a few questions for you before the first session.".to_owned());
    }
    told
}

const fn number(count: u32) -> &'static str {
    match count {
        0 | 1 => "one",
        2 => "two",
        3 => "three",
        4 => "four",
        _ => "five",
    }
}

/// `a; b; c`.
fn all_of(parts: &[String]) -> String {
    parts.join("; ")
}

fn sentence(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}
