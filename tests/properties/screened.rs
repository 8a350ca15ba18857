//! Whole plans for drawn combinations of answers before training and ages: what the words say, the weeks keep.

use rayon::prelude::*;
use weekwright::Budget;
use weekwright::catalog::Catalog;
use weekwright::inner::Heat;
use weekwright::input::plan::{Item, Plan, Week};
use weekwright::input::profile::Profile;
use weekwright::planner::{NoPlan, Options};
use weekwright::request::screening::{Advice, advise, kept_out};
use weekwright::strength::estimate::Estimate;
use weekwright::words::{GroupKind, Part, Pattern};

use crate::rules::check::PLANNER;

/// How many combinations are planned in a short run.
const CASES: usize = 20;

/// A short search: what the answers change holds in any week.
fn hurried() -> Budget {
    let usual = Budget::default();
    Budget {
        heats: Heat::ONE_SPLIT,
        runs: 1,
        proposals_a_day: 1000,
        rounds: 0,
        exact_picks: 0,
        ..usual
    }
}

/// A profile with the answers of a draw: every question open, no or yes, every age band.
fn drawn(number: usize) -> Profile {
    // A fixed walk that meets every value of each answer; the steps share no divisor with the counts.
    let pick = |step: usize, count: usize| (number * step + number / count) % count;
    let answer = |key: &str, at: usize| {
        ["", "false", "true"]
            .get(at)
            .filter(|word| !word.is_empty())
            .map(|word| format!("{key}: {word}"))
    };
    let answers = [
        answer("active", pick(1, 3)),
        answer("disease", pick(2, 3)),
        answer("signs", [1, 1, 0, 2][pick(3, 4)]),
        [None, Some("light"), Some("moderate"), Some("vigorous")][pick(5, 4)]
            .map(|word| format!("intensity: {word}")),
        answer("pregnant", [1, 0, 1, 2, 1][pick(7, 5)]),
        [
            None,
            Some("[]"),
            Some("[knee]"),
            Some("[lower-back, wrist]"),
            Some("[sore left shoulder]"),
            Some("[chest]"),
        ][pick(11, 6)]
        .map(|list| format!("pain: {list}, chest: muscle").replace("[], chest: muscle", "[]")),
        answer("told_to_wait", [1, 0, 1][pick(2, 3)]),
        Some("clinician_agreed: 2026-12-15".to_owned()).filter(|_| pick(1, 4) > 0),
    ];
    let answers: Vec<String> = answers.into_iter().flatten().collect();
    let birth = ["", "birth_year: 2013", "birth_year: 1990", "birth_year: 1955"][pick(13, 4)];
    let status = ["novice", "intermediate", "advanced"][pick(17, 3)];
    let goal = ["strength", "hypertrophy", "general-fitness"][pick(19, 3)];
    serde_yaml::from_str(&format!(
        "client: draw
training_status: {status}
goal: {goal}
start: 2027-01-04
weeks: 4
{birth}
equipment: [barbell, squat-rack, bench, dumbbells, pull-up-bar, rowing-ergometer, resistance-band]
sessions: [{{day: mon, minutes: 55}}, {{day: thu, minutes: 55}}]
known_lifts:
  back-squat: {{load: 100, reps: 5}}
  bench-press: {{load: 70, reps: 5}}
conditioning: {{from_week: 1, minutes: 12}}
screening: {{{}}}
",
        answers.join(", ")
    ))
    .unwrap()
}

#[test]
fn weeks_keep_what_the_words_before_training_say() {
    let cases = crate::cases(CASES);
    let planned = (0..cases).into_par_iter().map(|number| {
        let profile = drawn(number);
        let advice = advise(&profile);
        match PLANNER.plan(&profile, &Options { budget: hurried(), ..Options::default() }) {
            Err(NoPlan::Withheld(withheld)) => {
                assert_eq!(Some(withheld), advice.withheld);
                false
            }
            Err(other) => panic!("{number}: {other:?}"),
            Ok(plan) => {
                assert_eq!(advice.withheld, None, "{number}");
                assert!(
                    advice.cautions.iter().all(|told| plan.cautions.contains(told)),
                    "{number}"
                );
                kept(number, &profile, &advice, &plan);
                true
            }
        }
    });
    let planned = planned.filter(|is_planned| *is_planned).count();
    assert!((cases / 4..cases).contains(&planned), "the draw has both: {planned} are planned");
}

/// Every item of a plan's weeks, with the week and the kind of its group.
fn items(plan: &Plan) -> impl Iterator<Item = (&Week, GroupKind, &Item)> {
    plan.weeks.iter().flat_map(|week| {
        let groups = week.sessions.iter().flat_map(|session| &session.groups);
        groups.flat_map(move |group| group.items.iter().map(move |item| (week, group.kind, item)))
    })
}

fn kept(number: usize, profile: &Profile, advice: &Advice, plan: &Plan) {
    let catalog = Catalog::built_in();
    let start = &advice.start;
    let most = |id: &str| {
        let lift = profile.known_lifts.get(id)?;
        Estimate::from_set(lift.load, lift.reps, lift.rir).ok().map(|estimate| estimate.one_rep_max)
    };
    for (week, kind, item) in items(plan) {
        let case = format!("{number}, week {}: {item:?}\n{advice:?}", week.week);
        let entry = catalog.get(&item.exercise).unwrap();
        assert_eq!(kept_out(profile, entry), None, "{case}");
        if matches!(kind, GroupKind::Single | GroupKind::Superset) {
            assert!(item.rir.is_none_or(|rir| rir >= start.rir(week.week)), "{case}");
            assert!(start.most_sets.is_none_or(|most| item.sets <= most), "{case}");
        }
        if kind == GroupKind::Conditioning && entry.part == Some(Part::Intervals) {
            assert!(start.allows_intervals(week.week), "{case}");
        }
        if let (Some(load), Some(most)) = (item.load_kg, most(&item.exercise)) {
            let percent = load / most * 100.0;
            assert!(start.cap_percent.is_none_or(|cap| percent <= cap + 0.01), "{percent}: {case}");
            let first = start.most_percent.filter(|_| week.week == 1);
            assert!(first.is_none_or(|cap| percent <= cap + 0.01), "{percent}: {case}");
        }
    }
    let has_balance = items(plan)
        .any(|(_, _, item)| catalog.get(&item.exercise).unwrap().pattern == Some(Pattern::Balance));
    assert!(!start.balance_item || has_balance, "{number}: {:?}", plan.shortfalls);
}
