//! A week is worth as much without the exercises that `reduce` leaves out. Both models are solved whole, tier by
//! tier, by the backend alone: the games have no part in it.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use proptest::prelude::*;
use proptest::sample::{select, subsequence};
use weekwright::catalog::Catalog;
use weekwright::inner::Tier;
use weekwright::inner::Weekly;
use weekwright::inner::design;
use weekwright::inner::dominance;
use weekwright::inner::{Op, Term, backend};
use weekwright::input::catalog::Entry;
use weekwright::request::{Request, resolve};
use weekwright::rules;

use super::{drawn, profile};
use crate::cases;

/// Exercises that many rules look at in different ways.
const KINDS: [&str; 6] =
    ["goblet-squat", "push-up", "dumbbell-row", "romanian-deadlift", "biceps-curl", "plank"];

/// A pool with several exercises alike to every rule but family, id and what the client likes.
#[derive(Debug, Clone)]
struct Pool {
    kinds: Vec<&'static str>,
    alike: usize,
    one_family: bool,
    days: usize,
    minutes: u32,
    goal: &'static str,
    /// Numbers of alike exercises that the client prefers or would rather leave out.
    liked: Vec<usize>,
    avoided: Vec<usize>,
}

fn pools() -> impl Strategy<Value = Pool> {
    let numbers = || subsequence((0..7).collect::<Vec<usize>>(), 0..3);
    let goals = select(vec!["hypertrophy", "strength", "general-fitness"]);
    let shape = (subsequence(KINDS.to_vec(), 2..=3), 5..8_usize, any::<bool>(), 1..=2_usize);
    (shape, 25..50_u32, goals, numbers(), numbers()).prop_map(
        |((kinds, alike, one_family, days), minutes, goal, liked, avoided)| Pool {
            kinds,
            alike,
            one_family,
            days,
            minutes,
            goal,
            liked,
            avoided,
        },
    )
}

fn id(kind: &str, number: usize) -> String {
    format!("{kind}-{}", ["a", "b", "c", "d", "e", "f", "g"][number])
}

fn request(pool: &Pool) -> Request {
    let catalog = Catalog::built_in();
    let mut entries: BTreeMap<String, Arc<Entry>> = BTreeMap::new();
    for kind in &pool.kinds {
        for number in 0..pool.alike {
            let entry = catalog.get(kind).unwrap();
            let family = pool.one_family.then(|| (*kind).to_owned());
            let id = id(kind, number);
            entries.insert(id.clone(), Arc::new(Entry { id, family, ..entry.clone() }));
        }
    }
    let named = |numbers: &[usize]| -> String {
        let all = numbers.iter().filter(|number| **number < pool.alike);
        let ids = all.flat_map(|number| pool.kinds.iter().map(|kind| id(kind, *number)));
        ids.collect::<Vec<_>>().join(", ")
    };
    let avoided: Vec<usize> =
        pool.avoided.iter().copied().filter(|number| !pool.liked.contains(number)).collect();
    let days = ["{day: tue, minutes: M}", "{day: fri, minutes: M}"][..pool.days].join(", ");
    let profile = profile(&format!(
        "client: pool-01\ntraining_status: intermediate\ngoal: {}\nequipment: [dumbbells, kettlebell, \
         barbell]\nsplit: full-body\nsupersets: allow\nsessions: [{}]\nexercises: {{prefer: [{}], avoid: [{}]}}\n",
        pool.goal,
        days.replace('M', &pool.minutes.to_string()),
        named(&pool.liked),
        named(&avoided),
    ));
    resolve::resolve(profile, entries, BTreeSet::new(), 0)
}

/// The value of each tier, the earlier ones held; `None` where no week meets the hard rules.
fn tiers(request: &Request, keep: &BTreeSet<usize>) -> Option<[f64; 3]> {
    let split = design::candidates(request).remove(0);
    let mut weekly: Weekly = rules::weekly_model(request, &split, keep);
    let goals: [Vec<Term>; 3] =
        [Tier::Coverage, Tier::Ranges, Tier::View].map(|tier| weekly.objective_of(tier));
    let mut reached = [0.0; 3];
    for (tier, goal) in goals.iter().enumerate() {
        let found = backend::maximize(&weekly.model, goal, None).ok()?;
        assert!(found.proven);
        reached[tier] = found.objective;
        weekly.model.demand("held", "week", goal.clone(), Op::Ge, found.objective - 1e-6);
    }
    Some(reached)
}

#[test]
fn leaving_exercises_out_costs_no_tier_anything() {
    let mut left_out = 0;
    for pool in drawn(&pools(), cases(4)) {
        let request = request(&pool);
        let all: BTreeSet<usize> = (0..request.candidates.len()).collect();
        let kept = dominance::kept(&request);
        left_out += all.len() - kept.len();
        let (with_all, with_kept) = (tiers(&request, &all), tiers(&request, &kept));
        match (with_all, with_kept) {
            (Some(one), Some(other)) => {
                let same = one.iter().zip(&other).all(|(a, b)| (a - b).abs() < 1e-4);
                assert!(same, "{one:?} with all, {other:?} with those kept: {pool:?}");
            }
            (one, other) => assert_eq!(one.is_some(), other.is_some(), "{pool:?}"),
        }
    }
    assert!(left_out > 0, "no exercises were left out: the pools test nothing");
}
