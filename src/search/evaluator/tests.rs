//! Tables and rows agree, on every step of random walks through weeks that may be far from any good one.

mod pinned;

use rand::{Rng as _, SeedableRng as _};
use rand_chacha::ChaCha8Rng;

use super::rows;
use super::tables::BREAKING;
use super::{Change, Evaluator, Score, Tables, Weights};
use crate::input::profile::Profile;
use crate::model::Weekly;
use crate::model::tier::{PerTier, Tier};
use crate::planner::{Options, Planner};
use crate::program::{Op, Settles, Term, Var, VarDef};
use crate::request::Request;
use crate::rules;
use crate::search::presolve::dominance;
use crate::split::design;
use crate::words::Muscle;

const STEPS: usize = 150;

/// Profiles that between them have every rule with rows.
const PROFILES: [&str; 8] = [
    "client: walk-01\ntraining_status: novice\ngoal: general-fitness\nequipment: [dumbbells, bench]\nsessions: [{day: \
     tue, minutes: 45}, {day: fri, minutes: 45}]\n",
    "client: walk-02\ntraining_status: intermediate\ngoal: hypertrophy\nsupersets: prefer\nequipment: [dumbbells, \
     bench, kettlebell, pull-up-bar, resistance-band]\nsessions: [{day: mon, minutes: 30}, {day: wed, minutes: 40}, \
     {day: thu, minutes: 25}]\n",
    "client: walk-03\ntraining_status: advanced\ngoal: strength\nequipment: [barbell, squat-rack, bench, \
     pull-up-bar, dumbbells]\nsessions: [{day: mon, minutes: 75}, {day: tue, minutes: 60}, {day: thu, minutes: 75}, \
     {day: sat, minutes: 60}]\n",
    "client: walk-04\ntraining_status: intermediate\ngoal: power\nequipment: [barbell, squat-rack, bench, \
     pull-up-bar, medicine-ball, dumbbells]\nsessions: [{day: mon, minutes: 60}, {day: wed, minutes: 60}, {day: fri, \
     minutes: 60}]\nbalance: {pull_push: [0.873, 1.2345], knee_hip: [0.6, 1.7]}\n",
    "client: walk-05\ntraining_status: novice\ngoal: fat-loss\nbirth_year: 1955\nequipment: [resistance-band]\n\
     sessions: [{day: sun, minutes: 20}]\ntargets: {chest: {range: [3, 5], strict: true}}\n",
    "client: walk-06\ntraining_status: intermediate\ngoal: endurance\nsplit: full-body\nequipment: [dumbbells, bench, \
     suspension-trainer, band-anchor, resistance-band]\nsessions: [{day: mon, minutes: 40}, {day: tue, minutes: 40}, \
     {day: wed, minutes: 40}, {day: thu, minutes: 40}, {day: fri, minutes: 40}, {day: sat, minutes: 40}]\n\
     emphasis: {glutes: more, biceps: less}\nexercises: {must: [push-up]}\n",
    "client: walk-07\ntraining_status: novice\ngoal: general-fitness\nequipment: [barbell, squat-rack, bench, \
     dumbbells]\nsessions: [{day: mon, minutes: 50}, {day: thu, minutes: 50}]\nknown_lifts: {goblet-squat: {load: 16, \
     reps: 10}, bench-press: {load: 40, reps: 8}}\n",
    "client: walk-08\ntraining_status: intermediate\ngoal: hypertrophy\nequipment: [barbell, squat-rack, bench, \
     dumbbells, pull-up-bar, resistance-band]\nsessions: [{day: mon, at: \"18:30\", minutes: 60}, {day: tue, at: \
     \"18:30\", minutes: 60}, {day: thu, at: \"18:30\", minutes: 60}]\nother_training: [{day: fri, load: hard, muscles: [calves, biceps]}, {day: sat, at: \"08:30\", load: \
     hard, muscles: [lats, upper-back, quads, spinal-erectors]}]\nknown_lifts: {back-squat: {load: 60, reps: 5}, \
     pull-up: {reps: 8}}\n",
];

fn request(profile: &str) -> Request {
    let profile: Profile = serde_yaml::from_str(profile).unwrap();
    Planner::built_in().request(&profile, &Options::default())
}

/// Pairs are chosen by rows that look like those of two rules: no other rule's row is taken for one.
#[test]
fn pairs_are_chosen_by_leads_and_sets() {
    let mut read = std::collections::BTreeSet::new();
    for profile in PROFILES {
        let request = request(profile);
        let keep = dominance::kept(&request);
        for split in &design::candidates(&request) {
            read.extend(super::kinds::rules_read(&rules::weekly_model(&request, split, &keep)));
        }
    }
    assert_eq!(read.into_iter().collect::<Vec<_>>(), ["lead-lift", "working-sets"]);
}

/// Every walk of the model of a profile under its splits, changed somehow.
fn walk_each(profile: &str, changed: impl Fn(&mut Weekly)) {
    let request = request(profile);
    let keep = dominance::kept(&request);
    for (number, split) in design::candidates(&request).iter().enumerate() {
        let mut weekly = rules::weekly_model(&request, split, &keep);
        changed(&mut weekly);
        walk(&weekly, number as u64);
    }
}

/// A random change: up to three picks with any sets at all, or none.
fn drawn(weekly: &Weekly, random: &mut ChaCha8Rng, week: &Evaluator) -> Change {
    let mut below = |count: usize| random.next_u32() as usize % count;
    let mut change = Change::new();
    for _ in 0..=below(3) {
        let done: Vec<usize> = week.done().iter().flatten().copied().collect();
        let goes = below(5) < 2 && !done.is_empty();
        let pick = if goes { done[below(done.len())] } else { below(weekly.picks.len()) };
        let [least, most] = weekly.picks[pick].sets;
        let sets = if goes {
            0
        } else {
            least + u32::try_from(below((most - least + 1) as usize)).unwrap()
        };
        if change.iter().all(|(other, _)| *other != pick) {
            change.push((pick, sets));
        }
    }
    change
}

fn walk(weekly: &Weekly, seed: u64) {
    let tables = Tables::new(weekly);
    let mut of_tiers = [7.0, 1.1, 5.0, 1.0].into_iter();
    let score = Score { broken: 3.0, tiers: PerTier::of(|_| of_tiers.next().unwrap()) };
    let weights = Weights::new(&tables, score);
    let mut random = ChaCha8Rng::seed_from_u64(seed);
    let mut week = Evaluator::new(&tables);
    // Later blocks are held to them.
    for (sum, _) in Muscle::ALL.iter().flat_map(|muscle| weekly.halves(*muscle)) {
        assert_eq!(week.sum(sum), Some(0.0), "{}", weekly.model.vars[sum.0].name);
    }
    for _ in 0..STEPS {
        let change = drawn(weekly, &mut random, &week);
        let before = week.score();
        let Some(gain) = week.weigh(&change, &weights, f64::NEG_INFINITY, 0.0) else { continue };
        let after = week.score_in_hand();
        assert!((weights.of(&after) - weights.of(&before) - gain).abs() < 1e-6, "{gain}");
        week.commit(&change);
        assert_eq!(week.score(), after);
        let counted = rows::count(weekly, &tables, week.sets());
        let parts = |score: &Score| {
            let tiers = Tier::ALL.into_iter().map(|tier| score.tiers[tier]);
            std::iter::once(score.broken).chain(tiers).collect::<Vec<f64>>()
        };
        for (of_tables, of_rows) in parts(&after).into_iter().zip(parts(&counted.score)) {
            assert!((of_tables - of_rows).abs() < 1e-5, "{after:?} {:?} {change:?}", counted.score);
        }
        for (var, def) in weekly.model.vars.iter().enumerate() {
            if def.settles == Settles::Equal
                && let Some(sum) = week.sum(Var(var))
            {
                assert!((sum - counted.values[var]).abs() < 1e-6, "{}", def.name);
            }
        }
    }
    assert!(week.done().iter().any(|day| day.len() > 4), "the walk fills some day");
}

/// What is ahead refuses what would be refused in the end, and nothing else, however long a week was changed since.
#[test]
fn what_is_ahead_refuses_nothing_else() {
    for (profile, wanted) in PROFILES.into_iter().zip([0.0, -3.0, -30.0].into_iter().cycle()) {
        let request = request(profile);
        let keep = dominance::kept(&request);
        let split = &design::candidates(&request)[0];
        let weekly = rules::weekly_model(&request, split, &keep);
        let tables = Tables::new(&weekly);
        let score = Score {
            broken: 300.0,
            tiers: PerTier::of(|tier| if tier == Tier::View { 1.0 } else { 10.0 }),
        };
        let weights = Weights::new(&tables, score);
        let mut random = ChaCha8Rng::seed_from_u64(7);
        let [mut plain, mut ahead] = [Evaluator::new(&tables), Evaluator::new(&tables)];
        ahead.look_ahead(&weights);
        let mut refused = 0;
        for _ in 0..20 * STEPS {
            let change = drawn(&weekly, &mut random, &plain);
            let whole = plain.weigh(&change, &weights, f64::NEG_INFINITY, f64::INFINITY);
            let gain = plain.weigh(&change, &weights, wanted, f64::INFINITY);
            let with = ahead.weigh(&change, &weights, wanted, f64::INFINITY);
            let (rooms, of_pairs) = ahead.ahead_of_change(&weights);
            let most = ahead.gain_of_picks(0.0, &weights) + rooms[BREAKING] + of_pairs;
            assert!(whole.is_none_or(|gain| gain <= most + 1e-6), "{whole:?} {most} {change:?}");
            assert_eq!(gain.is_some(), with.is_some(), "{gain:?} {with:?}");
            refused += u32::from(gain.is_none());
            if gain.is_some() {
                plain.commit(&change);
                ahead.take(&change, &weights);
            }
        }
        assert!(refused > 100, "{refused} of them are");
    }
}

#[test]
fn tables_and_rows_agree_on_every_step() {
    for profile in PROFILES {
        walk_each(profile, |_| {});
    }
}

#[test]
fn they_agree_without_conventions_and_goals() {
    for profile in PROFILES {
        walk_each(profile, |weekly| *weekly = rules::hard_rows_only(weekly.clone()));
    }
}

fn count(weekly: &mut Weekly, tier: Tier, var: Var, weight: f64) {
    weekly.count("trial", "trial", tier, var, weight);
}

/// Rows and variables of shapes that no rule may have as yet.
fn of_other_shapes(weekly: &mut Weekly) {
    let picks = weekly.picks.clone();
    let chosen = |from: usize, step: usize, by: f64| -> Vec<Term> {
        picks.iter().skip(from).step_by(step).map(|pick| (pick.chosen, by)).collect()
    };
    // The lesser of two sums, in a row of its own and as a goal.
    let lesser = weekly.model.most("lesser".to_owned(), 40.0);
    for from in [0, 1] {
        let sets = picks.iter().skip(from).step_by(2).flat_map(|pick| pick.sets_times(-1.0));
        let row = sets.chain([(lesser, 1.0)]).collect();
        weekly.model.demand("trial", "lesser", row, Op::Le, 0.0);
    }
    count(weekly, Tier::View, lesser, 2.0);
    // The greater of two, in whole numbers, and at least one by a row of a constant.
    let greater = weekly.model.least_whole("greater".to_owned(), 30);
    for (from, by) in [(0, 0.7), (2, 1.3)] {
        let row = chosen(from, 3, by).into_iter().chain([(greater, -1.0)]).collect();
        weekly.model.demand("trial", "greater", row, Op::Le, 0.5);
    }
    weekly.model.demand("trial", "greater", vec![(greater, 1.0)], Op::Ge, 1.0);
    count(weekly, Tier::Ranges, greater, 3.0);
    weekly.model.demand("trial", "both", vec![(greater, 1.0), (lesser, 1.0)], Op::Le, 6.0);
    // A part of a set, handed on, in a row with a variable that settles later.
    let part = weekly.model.least("part".to_owned(), 50.0);
    let later = weekly.model.least("later".to_owned(), 50.0);
    let more = weekly.model.least("more".to_owned(), 9.0);
    let row = chosen(1, 2, 0.35).into_iter().chain([(part, -1.0)]).collect();
    weekly.model.demand("trial", "part", row, Op::Le, 0.1);
    let row = chosen(3, 4, 1.0).into_iter().chain([(later, -1.5), (part, -1.0)]).collect();
    weekly.model.demand("trial", "later", row, Op::Le, 0.0);
    weekly.model.demand(
        "trial",
        "more",
        vec![(part, 1.0), (later, 2.0), (more, -1.0)],
        Op::Le,
        1.0,
    );
    for var in [part, later, more] {
        count(weekly, Tier::Coverage, var, 1.0);
    }
    // Sums with a goal, with a bound that they pass, and with another factor.
    let sum = weekly.model.sum("trial", "sum".to_owned(), chosen(0, 2, 1.0), 3.0);
    let settles = Settles::Equal;
    let def = VarDef { name: "half".to_owned(), low: 0.0, high: 99.0, integer: false, settles };
    let half = weekly.model.var(def);
    let row = chosen(0, 1, -1.0).into_iter().chain([(half, 2.0)]).collect();
    weekly.model.demand("trial", "half", row, Op::Eq, 0.0);
    count(weekly, Tier::View, sum, 1.0);
    count(weekly, Tier::View, half, -0.5);
    weekly.model.demand("trial", "sums", vec![(sum, 1.0), (half, -1.0)], Op::Ge, 0.0);
    // Some of those who are paired, and pairs of some classes.
    let paired: Vec<Term> =
        picks.iter().step_by(2).flat_map(|pick| pick.paired_times(1.0)).collect();
    let odd = weekly.model.least("odd".to_owned(), 9.0);
    let row = paired.into_iter().chain([(odd, -1.0)]).collect();
    weekly.model.demand("trial", "paired", row, Op::Le, 1.0);
    count(weekly, Tier::View, odd, -4.0);
    let pairs = weekly.pairs.iter().step_by(3).map(|pair| (pair.count, 1.0)).collect();
    weekly.model.demand("trial", "pairs", pairs, Op::Le, 0.0);
    if let Some(pair) = weekly.pairs.first() {
        count(weekly, Tier::View, pair.count, 5.0);
    }
    // Nothing of a week moves these.
    let idle = weekly.model.most("idle".to_owned(), 4.0);
    count(weekly, Tier::View, idle, 1.0);
    weekly.model.demand("trial", "idle", vec![(idle, 1.0)], Op::Le, 3.0);
}

#[test]
#[should_panic(expected = "`free` is no pick and no pair")]
fn a_decision_beside_picks_and_pairs_is_refused() {
    walk_each(PROFILES[0], |weekly| {
        weekly.model.binary("free".to_owned());
    });
}

/// Since pairs have equal sets, rows about pairs that no rule has are counted otherwise by tables than by rows.
#[test]
#[ignore = "rows about pairs that no rule has: tables and rows differ by a broken row"]
fn rows_of_any_shape_are_taken() {
    for profile in PROFILES {
        walk_each(profile, of_other_shapes);
    }
}
