//! What a client's answers before training change: cautions in words and a more careful start.
//!
//! The table follows the 2015 algorithm of the American College of Sports Medicine (Riebe et al., Med Sci Sports Exerc
//! 47:2473-2479; rows SC-01 to SC-08 of the handbook) in our own words. It does not judge anyone's health: it defers to
//! clinicians and to local rules.

use crate::input::profile::{Profile, Screening};
use crate::words::{Intensity, Stress};

/// What the answers change.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Advice {
    /// The row of the table that fits, `SC-01` to `SC-08`; none where answers are missing.
    pub row: Option<&'static str>,
    /// To be printed with the plan.
    pub cautions: Vec<String>,
    /// What the weeks must keep to.
    pub start: CarefulStart,
}

/// Bounds on the weeks.
#[derive(Debug, Clone, PartialEq)]
pub struct CarefulStart {
    /// A clinician said to wait: no plan is made.
    pub must_wait: bool,
    /// Stresses to keep out, whatever else the profile says.
    pub keep_out: Vec<Stress>,
    /// Least repetitions in reserve in every week.
    pub least_rir: u32,
    /// Least repetitions in reserve in weeks 1 and 2.
    pub first_weeks_rir: u32,
    /// The most sets of an exercise in week 1.
    pub first_week_sets: Option<u32>,
    /// The most in percent of the maximum that the first loads may be.
    pub most_percent: Option<f64>,
    /// The first week that may hold intervals; none where there should be none at all.
    pub intervals_from: Option<u32>,
    /// Whether a week of measures may ask for a heavy set.
    pub heavy_sets: bool,
    /// Whether a balance item belongs in the week.
    pub balance_item: bool,
}

impl Default for CarefulStart {
    fn default() -> Self {
        CarefulStart {
            must_wait: false,
            keep_out: Vec::new(),
            least_rir: 0,
            first_weeks_rir: 0,
            first_week_sets: None,
            most_percent: None,
            intervals_from: Some(1),
            heavy_sets: true,
            balance_item: false,
        }
    }
}

impl CarefulStart {
    /// Least repetitions in reserve in a week.
    #[must_use]
    pub fn rir(&self, week: u32) -> u32 {
        let first = if week <= 2 { self.first_weeks_rir } else { 0 };
        self.least_rir.max(first)
    }

    /// Whether a week may hold intervals.
    #[must_use]
    pub fn allows_intervals(&self, week: u32) -> bool {
        self.intervals_from.is_some_and(|from| week >= from)
    }
}

/// The client's age in the year that the plan starts; `None` without a birth year or a start.
#[must_use]
pub fn age(profile: &Profile) -> Option<u32> {
    let year: u32 = profile.start.as_deref()?.get(..4)?.parse().ok()?;
    year.checked_sub(u32::from(profile.birth_year?))
}

/// The advice for a profile.
#[must_use]
pub fn advise(profile: &Profile) -> Advice {
    let mut advice = Advice::default();
    match &profile.screening {
        Some(answers) => answered(answers, &mut advice),
        None => advice.say(NOT_ASKED),
    }
    by_age(age(profile), &mut advice);
    advice
}

const NOT_ASKED: &str = "Before the first session, coach and client go through heart, metabolic or kidney disease, symptoms \
     under effort, pregnancy and pain, and the answers go into the profile; with any yes a clinician comes first.";
const WAIT: &str = "A clinician said to wait: no plan until they agree.";
const PREGNANT: &str = "Pregnancy: the clinician in charge agrees before the first session. Nothing flat on the back and no \
     breath held under load; about 150 min a week at a pace that allows talk is the usual advice. Stop and call them on bleeding, \
     fluid, pain, dizziness, chest or breathing symptoms, or a swollen calf (ACOG Committee Opinion 804).";
const YOUNG: &str = "Under 18: a qualified adult watches every session, form comes before load, no heavy single tries \
     (NSCA and AAP statements on youth training).";
const OLDER: &str = "From 65: one or two sets in the first week, light loads first, and a balance item in the week \
     (NSCA position on older adults; WHO 2020). Ask the clinician about medicines that change heart rate or blood pressure.";

impl Advice {
    fn say(&mut self, text: impl Into<String>) {
        self.cautions.push(text.into());
    }
}

fn answered(answers: &Screening, advice: &mut Advice) {
    if answers.told_to_wait {
        advice.start.must_wait = true;
        advice.say(WAIT);
    }
    match (answers.active, answers.disease, answers.signs) {
        (Some(active), Some(disease), Some(signs)) => {
            let wanted = answers.intensity.unwrap_or(Intensity::Moderate);
            by_table(row(active, disease, signs, wanted), advice);
        }
        _ => advice.say(NOT_ASKED),
    }
    // A single yes counts even where other answers are missing.
    if advice.row.is_none() && (answers.signs == Some(true) || answers.disease == Some(true)) {
        by_table(if answers.signs == Some(true) { "SC-04" } else { "SC-03" }, advice);
    }
    if answers.pregnant {
        advice.start.keep_out.extend([Stress::Supine, Stress::BreathHold]);
        be_careful(&mut advice.start, 3);
        advice.start.intervals_from = None;
        advice.start.heavy_sets = false;
        advice.say(PREGNANT);
    }
    if !answers.pain.is_empty() {
        be_careful(&mut advice.start, 3);
        advice.say(format!(
            "Pain reported ({}): keep to ranges and loads that do not bring it on; what provokes it belongs under \
             limits, and a clinician sees it if it stays or grows.",
            answers.pain.join(", ")
        ));
    }
}

/// The row of the table for four answers.
#[must_use]
pub fn row(active: bool, disease: bool, signs: bool, wanted: Intensity) -> &'static str {
    match (active, disease, signs, wanted) {
        (false, _, true, _) => "SC-04",
        (true, _, true, _) => "SC-08",
        (false, true, false, _) => "SC-03",
        (false, false, false, Intensity::Vigorous) => "SC-02",
        (false, false, false, _) => "SC-01",
        (true, false, false, _) => "SC-05",
        (true, true, false, Intensity::Vigorous) => "SC-07",
        (true, true, false, _) => "SC-06",
    }
}

fn by_table(row: &'static str, advice: &mut Advice) {
    advice.row = Some(row);
    let start = &mut advice.start;
    match row {
        "SC-02" => {
            be_careful(start, 3);
            start.intervals_from = Some(3);
        }
        "SC-03" | "SC-04" | "SC-08" => {
            be_careful(start, 3);
            start.intervals_from = None;
            start.heavy_sets = false;
        }
        "SC-06" | "SC-07" => {
            start.intervals_from = None;
            start.heavy_sets = false;
        }
        _ => {}
    }
    advice.say(words(row));
}

fn be_careful(start: &mut CarefulStart, rir: u32) {
    start.first_weeks_rir = start.first_weeks_rir.max(rir);
}

fn words(row: &str) -> &'static str {
    match row {
        "SC-01" => {
            "Not active lately, nothing reported: begin light to moderate and build up slowly over weeks."
        }
        "SC-02" => {
            "Not active lately and hard work wanted: two light to moderate weeks come first, hard intervals later."
        }
        "SC-03" => {
            "Known heart, metabolic or kidney disease and not active lately: see a clinician before starting, then begin \
             light to moderate."
        }
        "SC-04" => "Symptoms reported and not active lately: see a clinician before starting.",
        "SC-05" => "Active and nothing reported: go on, and ask again when anything changes.",
        "SC-06" => {
            "Active with a known disease: moderate work can go on if a clinician saw the client within 12 months and nothing \
             has changed since; otherwise ask them first."
        }
        "SC-07" => {
            "Active with a known disease and hard work wanted: ask a clinician before anything vigorous; until then moderate."
        }
        _ => "Symptoms reported: stop training and see a clinician before going on.",
    }
}

fn by_age(age: Option<u32>, advice: &mut Advice) {
    let start = &mut advice.start;
    match age {
        Some(0..=17) => {
            start.least_rir = start.least_rir.max(2);
            start.most_percent = Some(60.0);
            start.heavy_sets = false;
            advice.say(YOUNG);
        }
        Some(65..) => {
            start.least_rir = start.least_rir.max(2);
            start.first_week_sets = Some(2);
            start.most_percent = Some(50.0);
            start.balance_item = true;
            start.heavy_sets = false;
            advice.say(OLDER);
        }
        _ => {}
    }
}

#[cfg(test)]
mod tests {
    use super::*;

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

    #[test]
    fn inactive_and_vigorous_means_two_easy_weeks_without_intervals() {
        let screening =
            ", screening: {active: false, disease: false, signs: false, intensity: vigorous}";
        let start = advise(&client(screening)).start;
        assert_eq!((start.rir(1), start.rir(2), start.rir(3)), (3, 3, 0));
        assert!(!start.allows_intervals(2) && start.allows_intervals(3));
    }

    #[test]
    fn missing_answers_give_a_reminder_and_a_lone_yes_still_counts() {
        assert_eq!(advise(&client("")).cautions, vec![NOT_ASKED.to_owned()]);
        let advice = advise(&client(", screening: {signs: true}"));
        assert_eq!(advice.row, Some("SC-04"));
        assert_eq!(advice.start.intervals_from, None);
        assert!(advice.cautions.iter().any(|text| text.contains("clinician before starting")));
    }

    #[test]
    fn told_to_wait_means_no_plan() {
        assert!(advise(&client(", screening: {told_to_wait: true}")).start.must_wait);
        assert!(!advise(&client(", screening: {pregnant: true, pain: [knee]}")).start.must_wait);
    }

    /// SC-11 (ACOG 804), SC-12 (youth), SC-13 (older adults).
    #[test]
    fn age_pregnancy_and_pain_make_a_careful_start() {
        let young = advise(&client(", birth_year: 2011")).start;
        assert!(
            !young.heavy_sets && young.rir(9) == 2 && young.most_percent == Some(60.0),
            "SC-12"
        );
        let older = advise(&client(", birth_year: 1960")).start;
        assert!(older.balance_item && older.first_week_sets == Some(2), "SC-13");
        assert_eq!(older.most_percent, Some(50.0), "SC-13");
        let pregnant = advise(&client(", screening: {pregnant: true}")).start;
        assert_eq!(pregnant.keep_out, vec![Stress::Supine, Stress::BreathHold], "SC-11");
        let pain = advise(&client(", screening: {pain: [left shoulder]}"));
        assert_eq!(pain.start.rir(1), 3);
        assert!(pain.cautions.iter().any(|text| text.contains("left shoulder")));
    }

    #[test]
    fn no_text_promises_anything() {
        for number in 1..=8 {
            let text = words(&format!("SC-0{number}")).to_lowercase();
            for word in ["safe", "cleared", "clearance", "guarantee"] {
                assert!(!text.contains(word), "{text}");
            }
        }
    }
}
