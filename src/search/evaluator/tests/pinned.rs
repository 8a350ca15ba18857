//! Weeks are pinned into the model, with their pairs: what the rows of each rule say of a week, and what its recount finds in
//! the sessions that would be printed. A rule with rows that `pinned.yaml` does not name fails the test.

use std::collections::{BTreeMap, BTreeSet};

use rand::SeedableRng as _;
use rand_chacha::ChaCha8Rng;
use serde::Deserialize;

use super::{PROFILES, drawn, request};
use crate::audit;
use crate::input::plan::SolveStatus;
use crate::model::{Pick, Weekly};
use crate::plan::compose;
use crate::program::backend::Backend;
use crate::program::{Role, holds, value};
use crate::request::Request;
use crate::rules::{self, RULES};
use crate::search::budget::Budget;
use crate::search::evaluator::{Evaluator, Tables, rows};
use crate::search::presolve::dominance;
use crate::search::{Done, Solution, solve};
use crate::split::design;

/// Weeks that are pinned for each profile, the first the best of a hurried search, others up to five changes away from it.
const WEEKS: usize = 120;

/// Who may find something where the other finds nothing.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum Alone {
    Rows,
    Recount,
}

/// Weeks in which nobody, one or both found something.
#[derive(Debug, Default)]
struct Seen {
    neither: u32,
    both: u32,
    rows: u32,
    recount: u32,
}

#[test]
fn rows_and_recount_agree() {
    let mut seen: BTreeMap<&str, Seen> = BTreeMap::new();
    for (number, profile) in PROFILES.iter().enumerate() {
        pin_weeks(&request(profile), number as u64, &mut seen);
    }
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/src/search/evaluator/tests/pinned.yaml");
    let named: BTreeMap<String, Vec<Alone>> =
        serde_yaml::from_str(&std::fs::read_to_string(path).unwrap()).unwrap();
    let told: Vec<String> = seen.iter().map(|(rule, seen)| format!("{rule}: {seen:?}")).collect();
    let told = told.join("\n");
    let ids: BTreeSet<&str> = named.keys().map(String::as_str).collect();
    let with_rows: BTreeSet<&str> = seen.keys().copied().collect();
    assert_eq!(ids, with_rows, "the rules with rows, and those of {path}\n{told}");
    for (rule, seen) in &seen {
        let may = |who: Alone| named[*rule].contains(&who);
        assert!(seen.rows == 0 || may(Alone::Rows), "{rule}: rows alone\n{told}");
        assert!(seen.recount == 0 || may(Alone::Recount), "{rule}: the recount alone\n{told}");
    }
}

/// Pins weeks of a request, and counts who finds something.
fn pin_weeks(request: &Request, seed: u64, seen: &mut BTreeMap<&str, Seen>) {
    let hurried = Budget { proposals_a_day: 1000, rounds: 0, exact_picks: 0, ..Budget::default() };
    let splits = design::candidates(request);
    // Where the demands leave no week, weeks are drawn from an empty one on.
    let found = solve::best(request, &splits, hurried).ok();
    let (split, done) =
        found.map_or_else(|| (splits[0].clone(), Vec::new()), |best| (best.split, best.done));
    let weekly = rules::weekly_model(request, &split, &dominance::kept(request));
    let tables = Tables::new(&weekly);
    let mut random = ChaCha8Rng::seed_from_u64(seed);
    for place in 0..WEEKS {
        let mut week = Evaluator::new(&tables);
        week.go_to(&sets_of(&weekly, &done));
        for _ in 0..if done.is_empty() { 12 } else { place % 6 } {
            let change = drawn(&weekly, &mut random, &week);
            week.make(&change);
        }
        if week.done().iter().any(smallvec::SmallVec::is_empty) {
            continue;
        }
        let values = rows::count(&weekly, &tables, week.sets()).values;
        let solution = Solution {
            backend: Backend::default(),
            split: split.clone(),
            done: done_of(&weekly, week.sets(), &values),
            later: Vec::new(),
            tiers: Vec::new(),
            points: Vec::new(),
            status: SolveStatus::WithinGap,
        };
        let (rows, recount) = (by_rows(&weekly, &values), by_recount(request, &solution));
        for rule in with_rows(&weekly) {
            let seen = seen.entry(rule).or_default();
            match (rows.contains(rule), recount.contains(rule)) {
                (false, false) => seen.neither += 1,
                (true, true) => seen.both += 1,
                (true, false) => seen.rows += 1,
                (false, true) => seen.recount += 1,
            }
        }
    }
}

/// The rules that have rows of their own or count something.
fn with_rows(weekly: &Weekly) -> BTreeSet<&'static str> {
    let rows = weekly.model.rows.iter().map(|row| row.rule);
    let all = rows.chain(weekly.goals.iter().map(|goal| goal.rule));
    all.filter(|id| RULES.iter().any(|rule| rule.id() == *id)).collect()
}

fn sets_of(weekly: &Weekly, done: &[Done]) -> Vec<u32> {
    let sets = |pick: &Pick| {
        let is_it = |one: &&Done| one.day == pick.day && one.candidate == pick.candidate;
        done.iter().find(is_it).map_or(0, |one| one.sets)
    };
    weekly.picks.iter().map(sets).collect()
}

fn done_of(weekly: &Weekly, sets: &[u32], values: &[f64]) -> Vec<Done> {
    let picks = weekly.picks.iter().zip(sets).filter(|(_, sets)| **sets > 0);
    let done = picks.map(|(pick, sets)| Done {
        day: pick.day,
        candidate: pick.candidate,
        sets: *sets,
        paired: pick.paired().any(|var| values[var.0] > 0.5),
    });
    done.collect()
}

/// The rules whose rows a week breaks, or by which it loses something.
fn by_rows(weekly: &Weekly, values: &[f64]) -> BTreeSet<&'static str> {
    let is_broken = |row: &&crate::program::Row| {
        row.role != Role::Definition && !holds(value(&row.terms, values), row.op, row.right)
    };
    let is_lost = |goal: &&crate::model::goal::Goal| {
        let worth = goal.weight * values[goal.var.0];
        if goal.tier.is_cost() { worth > 1e-6 } else { worth < -1e-6 }
    };
    let broken = weekly.model.rows.iter().filter(is_broken).map(|row| row.rule);
    broken.chain(weekly.goals.iter().filter(is_lost).map(|goal| goal.rule)).collect()
}

/// The rules whose recount finds something.
fn by_recount(request: &Request, solution: &Solution) -> BTreeSet<&'static str> {
    let sessions = compose::sessions(request, solution, 0);
    let week = audit::week_of(&sessions, request).unwrap();
    let found = RULES.iter().filter(|rule| !rule.recount(request, &week).is_empty());
    found.map(|rule| rule.id()).collect()
}
