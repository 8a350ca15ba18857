//! Every combination of the answers and the ages: numbers, words and refusals that agree with each other.

use super::*;
use crate::input::screening::{Pain, Screening};
use crate::words::{ChestPain, Region};

fn client(rest: &str) -> Profile {
    serde_yaml::from_str(&format!(
        "{{client: t, training_status: novice, goal: strength, equipment: [barbell], start: 2027-01-04,
           sessions: [{{day: mon, minutes: 60}}]{rest}}}"
    ))
    .unwrap()
}

/// SC-01 to SC-08, the algorithm of ACSM 2015 (Riebe et al.), in our own words.
#[test]
fn answers_find_their_row() {
    use Intensity::{Light, Moderate, Vigorous};
    let table = [
        (false, false, false, Light, "SC-01"),
        (false, false, false, Moderate, "SC-01"),
        (false, false, false, Vigorous, "SC-02"),
        (false, true, false, Light, "SC-03"),
        (false, true, false, Vigorous, "SC-03"),
        (false, false, true, Moderate, "SC-04"),
        (false, true, true, Vigorous, "SC-04"),
        (true, false, false, Moderate, "SC-05"),
        (true, false, false, Vigorous, "SC-05"),
        (true, true, false, Moderate, "SC-06"),
        (true, true, false, Vigorous, "SC-07"),
        (true, false, true, Light, "SC-08"),
        (true, true, true, Vigorous, "SC-08"),
    ];
    for (active, disease, signs, wanted, want) in table {
        assert_eq!(
            row(active, disease, signs, wanted),
            want,
            "{active} {disease} {signs} {wanted}"
        );
    }
}

/// The effect of each row, in the words of the published table: who is asked first, and how hard it may be then.
#[test]
fn rows_have_their_effect() {
    let table = [
        // Answers, a plan at once, moderate throughout, an easy start.
        ("active: false, disease: false, signs: false, intensity: moderate", true, false, true),
        ("active: false, disease: false, signs: false, intensity: vigorous", true, false, true),
        ("active: false, disease: true, signs: false, intensity: light", false, true, false),
        ("active: false, disease: false, signs: true, intensity: light", false, true, false),
        ("active: true, disease: false, signs: false, intensity: vigorous", true, false, false),
        ("active: true, disease: true, signs: false, intensity: moderate", true, true, false),
        ("active: true, disease: true, signs: false, intensity: vigorous", true, true, false),
        ("active: true, disease: false, signs: true, intensity: light", false, true, false),
        // SC-11: pregnancy.
        ("active: true, disease: false, signs: false, pregnant: true", false, true, false),
    ];
    for (answers, at_once, moderate, easy) in table {
        let asked = advise(&client(&format!(", screening: {{{answers}}}")));
        assert_eq!(asked.withheld.is_none(), at_once, "{answers}");
        let agreed =
            advise(&client(&format!(", screening: {{{answers}, clinician_agreed: 2026-12-15}}")));
        assert_eq!(agreed.withheld, None, "{answers}");
        assert_eq!(agreed.start.is_moderate(), moderate, "{answers}");
        assert_eq!(agreed.start.is_easy_start(), easy, "{answers}");
    }
}

#[test]
fn inactive_means_two_easy_weeks_without_intervals() {
    for wanted in ["moderate", "vigorous"] {
        let screening = format!(
            ", screening: {{active: false, disease: false, signs: false, intensity: {wanted}}}"
        );
        let start = advise(&client(&screening)).start;
        assert_eq!((start.rir(1), start.rir(2), start.rir(3)), (3, 3, 0));
        assert!(!start.allows_intervals(2) && start.allows_intervals(3));
    }
}

#[test]
fn an_open_question_is_named_and_a_lone_yes_counts() {
    let advice = advise(&client(""));
    assert_eq!(advice.open.len(), 7);
    assert!(advice.cautions[0].contains("pregnancy") && !advice.reported);
    let male = advise(&client(", sex: male"));
    assert!(!male.open.contains(&Question::Pregnant));
    let advice = advise(&client(", screening: {signs: true}"));
    assert_eq!(advice.row, Some("SC-04"));
    assert!(advice.withheld.is_some());
}

/// Who said that they agree counts from the day on, for twelve months (SC-06).
#[test]
fn a_clinicians_word_holds_for_a_year() {
    for (day, holds) in [
        ("2027-01-04", true),
        ("2026-01-04", true),
        ("2026-01-03", false),
        ("2027-01-05", false),
        ("soon", false),
    ] {
        let answers = format!(", screening: {{signs: true, clinician_agreed: {day}}}");
        assert_eq!(advise(&client(&answers)).withheld.is_none(), holds, "{day}");
    }
    let old = advise(&client(", screening: {signs: true, clinician_agreed: 2025-06-01}"));
    assert!(old.withheld.unwrap().because.contains("2025-06-01"));
}

#[test]
fn told_to_wait_means_no_plan_until_that_is_taken_back() {
    for agreed in ["", ", clinician_agreed: 2027-01-02"] {
        let answers = format!(", screening: {{told_to_wait: true{agreed}}}");
        let withheld = advise(&client(&answers)).withheld.unwrap();
        assert!(withheld.instead.contains("told_to_wait: false"), "{withheld:?}");
    }
}

#[test]
fn pain_in_the_chest_counts_as_a_sign_until_it_is_a_muscles() {
    for pain in ["chest", "tight chest on stairs", "sternum"] {
        let answers = format!(", screening: {{pain: [{pain}]}}");
        let advice = advise(&client(&answers));
        assert!(advice.withheld.unwrap().instead.contains("chest: muscle"), "{pain}");
        assert!(advice.open.contains(&Question::Chest));
        let answers = format!(", screening: {{pain: [{pain}], chest: muscle}}");
        let advice = advise(&client(&answers));
        assert!(advice.withheld.is_none() && !advice.open.contains(&Question::Chest), "{pain}");
    }
    assert!(advise(&client(", screening: {chest: under-effort}")).withheld.is_some());
}

#[test]
fn with_several_yes_each_is_named() {
    let answers =
        ", screening: {active: false, disease: true, signs: true, pregnant: true, pain: [chest]}";
    let withheld = advise(&client(answers)).withheld.unwrap().because;
    for word in ["signs", "disease", "pregnancy", "chest"] {
        assert!(withheld.contains(word), "{word}: {withheld}");
    }
}

#[test]
fn people_name_regions_in_their_own_words() {
    use Region::{Knee, LowerBack, Shoulder, UpperBack};
    for (text, regions) in [
        ("left knee on stairs", vec![Knee]),
        ("sore lower back", vec![LowerBack]),
        ("Lower-Back", vec![LowerBack]),
        ("both shoulders and knees", vec![Shoulder, Knee]),
        ("between the shoulder blades, upper back", vec![Shoulder, UpperBack]),
        ("my back", vec![LowerBack]),
        ("headache after reading", vec![]),
    ] {
        assert_eq!(Region::named_in(text), regions, "{text}");
    }
}

/// SC-11 (ACOG 804), SC-12 (youth), SC-13 (older adults).
#[test]
fn age_pregnancy_and_pain_have_their_numbers() {
    let young = advise(&client(", birth_year: 2011")).start;
    assert!(!young.heavy_sets && young.rir(9) == 2, "SC-12");
    assert_eq!((young.most_percent, young.most_sets), (Some(60.0), Some(3)), "SC-12");
    let mut trained = client(", birth_year: 2011");
    trained.training_status = crate::words::Status::Intermediate;
    assert_eq!(advise(&trained).start.most_percent, Some(80.0), "common practice");
    let older = advise(&client(", birth_year: 1960")).start;
    assert!(older.balance_item && older.first_week_sets == Some(2), "SC-13");
    assert_eq!(older.most_percent, Some(50.0), "SC-13");
    let child = advise(&client(", birth_year: 2020"));
    assert!(child.withheld.unwrap().because.contains("under 8"));
    let catalog = crate::catalog::Catalog::built_in();
    let out = |profile: &Profile, id: &str| kept_out(profile, catalog.get(id).unwrap());
    let pregnant = client(", screening: {pregnant: true}");
    assert_eq!(out(&pregnant, "bench-press"), Some(Reported::Pregnancy(Stress::Supine)), "SC-11");
    assert_eq!(out(&pregnant, "goblet-squat"), None, "SC-11");
    let pain = client(", screening: {pain: [left shoulder], painless: [overhead-press]}");
    assert_eq!(out(&pain, "push-press"), Some(Reported::Pain(Region::Shoulder)));
    assert_eq!(out(&pain, "overhead-press"), None, "it was tried");
    assert_eq!(out(&pain, "goblet-squat"), None);
    assert_eq!(advise(&pain).start.rir(1), 3);
    assert!(advise(&pain).cautions.iter().any(|text| text.contains("shoulder")));
    for (weeks, again) in [(4, false), (5, true)] {
        let told = advise(&Profile { weeks, ..pain.clone() }).cautions.join(" ");
        assert_eq!(told.contains("Ask again before the second block"), again, "{weeks}: {told}");
    }
}

/// The ages of the bands: none known, a child, a youth, an adult, from 65.
const BIRTHS: [Option<u16>; 5] = [None, Some(2020), Some(2014), Some(1990), Some(1955)];

/// Every combination of the answers, open ones too, with every age.
fn combinations() -> Vec<Profile> {
    let three = [None, Some(false), Some(true)];
    let wanted =
        [None, Some(Intensity::Light), Some(Intensity::Moderate), Some(Intensity::Vigorous)];
    let note = |text: &str| Pain::Note(text.to_owned());
    let pains = [
        (None, None),
        (Some(vec![]), None),
        (Some(vec![Pain::Region(Region::Knee)]), None),
        (Some(vec![Pain::Region(Region::Chest)]), None),
        (Some(vec![Pain::Region(Region::Chest)]), Some(ChestPain::Muscle)),
        (Some(vec![note("headache"), note("sore lower back")]), None),
    ];
    let plain = client("");
    let mut all = Vec::new();
    for birth_year in BIRTHS {
        for active in three {
            for disease in three {
                for signs in three {
                    for intensity in wanted {
                        for pregnant in three {
                            for (pain, chest) in &pains {
                                for told_to_wait in three {
                                    for agreed in [None, Some("2026-12-15"), Some("2025-01-01")] {
                                        let screening = Screening {
                                            active,
                                            disease,
                                            signs,
                                            intensity,
                                            pregnant,
                                            pain: pain.clone(),
                                            chest: *chest,
                                            painless: Vec::new(),
                                            told_to_wait,
                                            clinician_agreed: agreed.map(str::to_owned),
                                        };
                                        let screening = Some(screening);
                                        all.push(Profile {
                                            birth_year,
                                            screening,
                                            ..plain.clone()
                                        });
                                    }
                                }
                            }
                        }
                    }
                }
            }
        }
    }
    all
}

/// Words that promise what no program can.
const PROMISES: [&str; 5] = ["safe", "cleared", "clearance", "guarantee", "harmless"];

/// Words of a condition, which a client's card never carries.
const CONDITIONS: [&str; 12] = [
    "pregnan",
    "disease",
    "heart",
    "kidney",
    "pain",
    "knee",
    "back pain",
    "headache",
    "lower back",
    "signs",
    "symptom",
    "years",
];

#[test]
fn no_combination_of_answers_says_what_its_numbers_do_not() {
    let all = combinations();
    assert_eq!(all.len(), 5 * 27 * 4 * 3 * 6 * 3 * 3);
    for profile in &all {
        let answers = profile.screening.as_ref().unwrap();
        let advice = advise(profile);
        let told = format!("{}\n{}", advice.cautions.join("\n"), advice.instructions.join("\n"));
        let case = format!("{answers:?} {:?}\n{told}\n{:?}", profile.birth_year, advice.start);
        words_follow_numbers(&advice, &told, &case);
        gates(profile, answers, &advice, &case);
        let lower = told.to_lowercase();
        assert!(PROMISES.iter().all(|word| !lower.contains(word)), "{case}");
        let client = advice.instructions.join(" ").to_lowercase();
        assert!(CONDITIONS.iter().all(|word| !client.contains(word)), "{case}");
    }
}

fn words_follow_numbers(advice: &Advice, told: &str, case: &str) {
    let start = &advice.start;
    let says = |text: &str| told.contains(text);
    assert_eq!(says("Every week is moderate"), start.is_moderate(), "{case}");
    assert_eq!(says("Keep every session moderate"), start.is_moderate(), "{case}");
    assert_eq!(says("first two weeks are"), start.is_easy_start(), "{case}");
    assert!(!(says("Every week is moderate") && says("first two weeks")), "{case}");
    if start.is_moderate() {
        assert!(
            start.least_rir >= 3 && start.intervals_from.is_none() && !start.heavy_sets,
            "{case}"
        );
        let percents = (start.cap_percent, start.most_percent);
        assert!(percents.0 == Some(69.0) && percents.1 <= Some(69.0), "{case}");
        assert!(says("no intervals") && !says("intervals come"), "{case}");
    }
    assert_eq!(
        says("intervals come from week 3"),
        start.is_easy_start() && start.intervals_from == Some(3),
        "{case}"
    );
    assert_eq!(says("balance item"), start.balance_item, "{case}");
    assert_eq!(says("up to three sets"), start.most_sets == Some(3), "{case}");
    assert_eq!(says("Nothing reported"), advice.open.is_empty() && !advice.reported, "{case}");
    assert_eq!(says("Still to be asked"), !advice.open.is_empty(), "{case}");
    for question in &advice.open {
        assert!(says(question.words()), "{case}");
    }
}

fn gates(profile: &Profile, answers: &Screening, advice: &Advice, case: &str) {
    let is_child = profile.birth_year == Some(2020);
    let chest = advice.open.contains(&Question::Chest);
    let signs = answers.signs == Some(true) || chest;
    let asks = signs
        || answers.pregnant == Some(true)
        || (answers.disease == Some(true) && answers.active != Some(true));
    let waits = answers.told_to_wait == Some(true);
    let agreed = answers.clinician_agreed.as_deref() == Some("2026-12-15");
    assert_eq!(advice.withheld.is_some(), is_child || waits || (asks && !agreed), "{case}");
    let hurts = answers.pain.iter().flatten().any(|pain| !pain.regions().is_empty());
    let leaves_out = advice.cautions.iter().any(|told| told.contains("the first block leaves out"));
    assert_eq!(leaves_out, hurts, "{case}");
    let heeded = signs || answers.disease == Some(true) || answers.pregnant == Some(true);
    assert_eq!(advice.start.is_moderate(), heeded, "{case}");
    if let Some(withheld) = &advice.withheld {
        assert!(withheld.because.starts_with("no plan") && !withheld.instead.is_empty(), "{case}");
        let one_sentence = !withheld.because.contains(". ");
        assert!(one_sentence, "{case}");
    }
}

/// One yes more never makes the weeks harder.
#[test]
fn a_yes_never_loosens_the_weeks() {
    let all = combinations();
    for profile in all.iter().step_by(7) {
        let answers = profile.screening.as_ref().unwrap();
        let before = advise(profile).start;
        for change in 0..3 {
            let mut more = answers.clone();
            match change {
                0 => more.signs = Some(true),
                1 => more.disease = Some(true),
                _ => more.pregnant = Some(true),
            }
            let after = advise(&Profile { screening: Some(more), ..profile.clone() }).start;
            for week in 1..=6 {
                assert!(after.rir(week) >= before.rir(week), "{answers:?}");
                assert!(
                    before.allows_intervals(week) || !after.allows_intervals(week),
                    "{answers:?}"
                );
            }
            assert!(before.heavy_sets || !after.heavy_sets, "{answers:?}");
            let percent = |start: &CarefulStart| start.most_percent.unwrap_or(100.0);
            assert!(percent(&after) <= percent(&before), "{answers:?}");
        }
    }
}
