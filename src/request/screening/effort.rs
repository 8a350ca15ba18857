//! How hard the weeks may be: the answers' numbers. The strictest of several wins.

use super::facts::Facts;
use crate::words::Stress;

/// What pregnancy keeps out: lying on the back and breath held under load (SC-11: ACOG Committee Opinion 804; common
/// practice).
pub(super) const PREGNANCY: [Stress; 2] = [Stress::Supine, Stress::BreathHold];

/// Moderate resistance work: up to 69 % of the most for one repetition (Garber et al. 2011, Med Sci Sports Exerc
/// 43:1334-1359, table of intensities; from memory).
pub const MODERATE_PERCENT: f64 = 69.0;

/// Repetitions left in reserve in easy and moderate work. Common practice.
const EASY_RIR: u32 = 3;

/// The first week with intervals after an easy start.
const AFTER_START: u32 = 3;

/// Bounds on the weeks.
#[derive(Debug, Clone, PartialEq)]
pub struct CarefulStart {
    /// Least repetitions in reserve in every week.
    pub least_rir: u32,
    /// Least repetitions in reserve in weeks 1 and 2.
    pub first_weeks_rir: u32,
    /// The most sets of an exercise in week 1.
    pub first_week_sets: Option<u32>,
    /// The most sets of an exercise in any week.
    pub most_sets: Option<u32>,
    /// The most in percent of the maximum that the first loads may be.
    pub most_percent: Option<f64>,
    /// The same for every week.
    pub cap_percent: Option<f64>,
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
            least_rir: 0,
            first_weeks_rir: 0,
            first_week_sets: None,
            most_sets: None,
            most_percent: None,
            cap_percent: None,
            intervals_from: Some(1),
            heavy_sets: true,
            balance_item: false,
        }
    }
}

impl CarefulStart {
    /// First loads up to a share of the maximum, where they are not lower already.
    fn lower_first_loads(&mut self, percent: f64) {
        self.most_percent = Some(self.most_percent.map_or(percent, |most| most.min(percent)));
    }

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

    /// Whether every week stays moderate.
    #[must_use]
    pub fn is_moderate(&self) -> bool {
        self.cap_percent.is_some()
    }

    /// Whether only the first two weeks are easier.
    #[must_use]
    pub fn is_easy_start(&self) -> bool {
        !self.is_moderate() && self.first_weeks_rir >= EASY_RIR
    }
}

/// The bounds that the answers and the age ask for.
pub(super) fn start(facts: &Facts) -> CarefulStart {
    let mut start = CarefulStart::default();
    if facts.active == Some(false) || facts.has_pain() {
        start.first_weeks_rir = EASY_RIR;
    }
    if facts.active == Some(false) {
        start.intervals_from = Some(AFTER_START);
    }
    if facts.has_signs() || facts.has_disease() || facts.is_pregnant() {
        moderate(&mut start);
    }
    if facts.is_young() {
        young(&mut start, facts.trained);
    }
    if facts.is_older() {
        older(&mut start, facts.trained);
    }
    start
}

/// SC-03, SC-04, SC-06 to SC-08 and SC-11, once there is a plan: moderate throughout.
fn moderate(start: &mut CarefulStart) {
    start.least_rir = start.least_rir.max(EASY_RIR);
    start.first_weeks_rir = start.first_weeks_rir.max(EASY_RIR);
    start.cap_percent = Some(MODERATE_PERCENT);
    start.most_percent = Some(MODERATE_PERCENT);
    start.intervals_from = None;
    start.heavy_sets = false;
}

/// SC-12: one to three sets, first loads up to 60 %, for who has trained for a while up to 80 % (common practice), never to
/// failure, no test of one repetition.
fn young(start: &mut CarefulStart, trained: bool) {
    start.least_rir = start.least_rir.max(2);
    start.lower_first_loads(if trained { 80.0 } else { 60.0 });
    start.most_sets = Some(3);
    start.heavy_sets = false;
}

/// SC-13: one or two sets at first, first loads from 40 to 50 %, for who has trained for a while up to 70 %, a balance
/// item (CO-08: WHO 2020).
fn older(start: &mut CarefulStart, trained: bool) {
    start.least_rir = start.least_rir.max(2);
    start.first_week_sets = Some(2);
    let percent = if trained { 70.0 } else { 50.0 };
    start.lower_first_loads(percent);
    start.balance_item = true;
    start.heavy_sets = false;
}
