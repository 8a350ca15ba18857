//! Worked examples of the handbooks that bear on sets, repetitions, rests and preparation: each row names its id and
//! source.

use weekwright::input::catalog::Entry;
use weekwright::request::dose::{Dose, Duty, dose};
use weekwright::strength::estimate::percent_at_reserve;
use weekwright::timing::set_s;
use weekwright::words::{Goal, Part, Role, Status};

use crate::rules::check::PLANNER;

const TRAINED: &[Status] = &[Status::Intermediate, Status::Advanced];
const NOVICE: &[Status] = &[Status::Novice];
/// Past the first months, without the advanced.
const MIDDLE: &[Status] = &[Status::Intermediate];

/// Id and source, goal, statuses, duty, and what the row of the table must be.
type Row = (&'static str, Goal, &'static [Status], Duty, fn(&Dose) -> bool);

fn within(amounts: [u32; 2], low: u32, high: u32) -> bool {
    low <= amounts[0] && amounts[1] <= high
}

/// Percent of the maximum that the week's aim at its reserve stands for (RM-22).
fn percent(dose: &Dose) -> f64 {
    percent_at_reserve(dose.aim, dose.rir).unwrap()
}

const ROWS: &[Row] = &[
    // The position stand names the load by its most for so many; the share beside it is of summaries (RM-14 puts 12RM at 70 %).
    ("RX-01 ACSM 2009: novices, loads of 8-12RM", Goal::Strength, NOVICE, Duty::Main, |dose| {
        (8..=12).contains(&(dose.aim + dose.rir))
    }),
    ("RX-02 ACSM 2009: 1-6RM emphasis, 3-5 min", Goal::Strength, TRAINED, Duty::Main, |dose| {
        within(dose.reps, 1, 6) && (180..=300).contains(&dose.rest_s)
    }),
    ("RX-02 ACSM 2009: 1-2 s up, 1-2 s down", Goal::Strength, TRAINED, Duty::Main, |dose| {
        dose.tempo.as_deref() == Some("2-0-1-0")
    }),
    ("RX-05 ACSM 2009: 8-12 repetitions", Goal::Hypertrophy, NOVICE, Duty::Main, |dose| {
        within(dose.reps, 8, 12)
    }),
    ("RX-05 ACSM 2009: 70-85 %, 8-12 repetitions", Goal::Hypertrophy, MIDDLE, Duty::Main, |dose| {
        within(dose.reps, 8, 12) && percent_at_reserve(dose.reps[0], dose.rir).unwrap() >= 70.0
    }),
    (
        "RX-06 ACSM 2009: 3-6 fast repetitions, 2-3 min",
        Goal::Power,
        TRAINED,
        Duty::Explosive,
        |dose| within(dose.reps, 3, 6) && (120..=180).contains(&dose.rest_s),
    ),
    ("RX-07 ACSM 2009: 10-25 repetitions, 30-60 s", Goal::Endurance, TRAINED, Duty::Main, |dose| {
        within(dose.reps, 10, 25) && within(dose.sets, 2, 4) && (30..=60).contains(&dose.rest_s)
    }),
    ("RX-07 ACSM 2009: under 70 %", Goal::Endurance, TRAINED, Duty::Main, |dose| {
        percent(dose) < 70.0
    }),
    (
        "RX-08 ACSM's Guidelines: 2-3 min multi-joint",
        Goal::GeneralFitness,
        TRAINED,
        Duty::Main,
        |dose| (120..=180).contains(&dose.rest_s),
    ),
    (
        "RX-08 ACSM's Guidelines: 1-2 min single-joint",
        Goal::GeneralFitness,
        TRAINED,
        Duty::Isolation,
        |dose| (60..=120).contains(&dose.rest_s),
    ),
    ("RX-09 ACSM 2026: strength reaches 80 %", Goal::Strength, TRAINED, Duty::Main, |dose| {
        percent_at_reserve(dose.reps[0], dose.rir).unwrap() >= 80.0
    }),
    (
        "RX-11 NSCA goal table: 1-6 repetitions, 2-5 min",
        Goal::Strength,
        TRAINED,
        Duty::Main,
        |dose| within(dose.reps, 1, 6) && (120..=300).contains(&dose.rest_s),
    ),
    ("RX-18 Singer et al. 2024: over 60 s", Goal::Hypertrophy, TRAINED, Duty::Main, |dose| {
        (90..=120).contains(&dose.rest_s)
    }),
    ("RX-19 Grgic et al. 2018: trained, over 2 min", Goal::Strength, TRAINED, Duty::Main, |dose| {
        dose.rest_s > 120
    }),
    ("RX-19 Grgic et al. 2018: untrained, 60-120 s", Goal::Strength, NOVICE, Duty::Main, |dose| {
        (60..=120).contains(&dose.rest_s)
    }),
    (
        "RX-24 Refalo et al. 2023: no set to failure",
        Goal::Hypertrophy,
        TRAINED,
        Duty::Main,
        |dose| (1..=3).contains(&dose.rir),
    ),
    (
        "RX-25 Robinson et al. 2024: strength may keep 2-4",
        Goal::Strength,
        TRAINED,
        Duty::Main,
        |dose| (2..=4).contains(&dose.rir),
    ),
];

#[test]
fn doses_are_those_of_the_handbooks() {
    let mut wrong = Vec::new();
    for (row, goal, statuses, duty, holds) in ROWS {
        for status in *statuses {
            let dose = dose(*goal, *status, *duty);
            if !holds(dose) {
                wrong.push(format!("{row}, {status}: {dose:?}"));
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// WU-03 (Behm et al. 2020): 30-120 s a part; four parts at 60 s are 4.0 min.
#[test]
fn rolling_takes_half_a_minute_to_two_for_a_part() {
    let rolling = |entry: &&Entry| entry.role == Role::Prep && entry.part == Some(Part::Rolling);
    let parts: Vec<&Entry> = PLANNER.catalog().iter().filter(rolling).collect();
    assert!(parts.len() >= 4);
    for entry in &parts {
        assert!(within([entry.reps[0], entry.reps[1]], 30, 120), "WU-03 {}", entry.id);
    }
    let whole = |entry: &&&Entry| entry.sides == weekwright::words::Sides::Both;
    let minute = parts.iter().find(whole).map_or(60, |entry| set_s(entry, 60, None));
    assert_eq!(4 * minute, 240, "WU-03");
}
