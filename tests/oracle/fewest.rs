//! Small weeks reworked, against every other week that there is: none is as near to its wishes with fewer changes.
//! The changes are counted here from the two weeks alone.

use std::collections::BTreeMap;

use proptest::strategy::{Strategy as _, ValueTree as _};
use proptest::test_runner::{Config, RngAlgorithm, TestRng, TestRunner};
use weekwright::inner::Tier;
use weekwright::inner::Weekly;
use weekwright::inner::design;
use weekwright::inner::dominance;
use weekwright::inner::{holds, value};
use weekwright::input::plan::Plan;
use weekwright::input::profile::Profile;
use weekwright::planner::Options;
use weekwright::request::{Request, Rework};
use weekwright::rework::{Ask, Outcome};
use weekwright::rules::weekly_model;
use weekwright::words::Stress;

use super::draws::{all_but, draws};
use super::weeks::{choices, rows_of, tiny, values, ways};
use crate::rules::check::PLANNER;

/// Weeks that are planned, and the most choices of a week that is tried whole.
const CASES: usize = 4;
const MOST_WAYS: u32 = 8000;

/// Sets by day and exercise.
type Picks = BTreeMap<(usize, String), u32>;

/// A client whose `never` leaves only a few exercises.
fn profile(days: &[&str], minutes: u32, status: &str, ids: &[&str]) -> Profile {
    let mut profile = tiny(days, minutes, status);
    profile.exercises.never = all_but(ids);
    profile
}

fn picks(plan: &Plan, request: &Request) -> Picks {
    Rework::of(plan, request).picks
}

/// Picks that go though they could stay, new ones beyond those that stand in for picks that cannot stay, and a
/// hundredth for each set more or less than the day can still hold of what it was.
fn changes(before: &Picks, after: &Picks, request: &Request) -> f64 {
    let mut cost = 0.0;
    for day in 0..request.days.len() {
        let of = |picks: &Picks| -> BTreeMap<String, u32> {
            let here = picks.iter().filter(|((other, _), _)| *other == day);
            here.map(|((_, id), sets)| (id.clone(), *sets)).collect()
        };
        let (old, new) = (of(before), of(after));
        let (mut gone, mut lost, mut sets) = (0, 0, 0);
        for (id, was) in &old {
            match (new.get(id), request.candidate(id)) {
                (Some(now), Some(candidate)) => {
                    let [fewest, most] = candidate.sets_in(request.days[day].minutes);
                    sets += (*was).clamp(fewest, most).abs_diff(*now);
                }
                (None, Some(_)) => gone += 1,
                (_, None) => lost += 1,
            }
        }
        let added = i32::try_from(new.keys().filter(|id| !old.contains_key(*id)).count()).unwrap();
        cost += f64::from(gone + (added - lost).max(0)) + f64::from(sets) / 100.0;
    }
    cost
}

/// The least coverage, then ranges, then changes of all weeks that meet every row.
fn brute_force(weekly: &Weekly, before: &Picks) -> Option<[f64; 3]> {
    let (model, rows_of) = (&weekly.model, rows_of(&weekly.model));
    let mut best: Option<[f64; 3]> = None;
    for choice in choices(weekly) {
        let values = values(weekly, &rows_of, &choice);
        if !model.rows.iter().all(|row| holds(value(&row.terms, &values), row.op, row.right)) {
            continue;
        }
        let done = weekly.picks.iter().zip(&choice).filter(|(_, sets)| **sets > 0);
        let id = |candidate: usize| weekly.request.candidates[candidate].id.clone();
        let after = done.map(|(pick, sets)| ((pick.day, id(pick.candidate)), *sets)).collect();
        let changes = changes(before, &after, weekly.request);
        let costs = [
            weekly.reached(Tier::Coverage, &values),
            weekly.reached(Tier::Ranges, &values),
            changes,
        ];
        let better = |best: [f64; 3]| {
            let gains = costs.iter().zip(best).map(|(one, best)| best - one);
            gains.into_iter().find(|gain| gain.abs() > 1e-6).is_some_and(|gain| gain > 0.0)
        };
        if best.is_none_or(better) {
            best = Some(costs);
        }
    }
    best
}

/// What a coach may ask of a plan, each with the profile that it comes to.
fn asks(plan: &Plan, profile: &Profile, ids: &[&str]) -> Vec<(Ask, Profile)> {
    let request = PLANNER.request(profile, &Options::default());
    let used: Vec<String> = picks(plan, &request).into_keys().map(|(_, id)| id).collect();
    let mut asks = Vec::new();
    let mut asked = |ask: Ask, edit: &dyn Fn(&mut Profile)| {
        let mut profile = profile.clone();
        edit(&mut profile);
        asks.push((ask, profile));
    };
    let (first, last) = (used[0].clone(), profile.sessions.last().unwrap().day);
    asked(Ask { never: vec![first.clone()], ..Ask::default() }, &|profile| {
        profile.exercises.never.push(first.clone());
    });
    asked(Ask { drop_days: vec![last.to_string()], ..Ask::default() }, &|profile| {
        profile.sessions.pop();
    });
    asked(Ask { minutes: vec![(last.to_string(), 25)], ..Ask::default() }, &|profile| {
        profile.sessions.last_mut().unwrap().minutes = 25;
    });
    let spinal = Stress::SpinalCompression;
    asked(Ask { limits: vec![spinal], ..Ask::default() }, &|profile| {
        profile.limits.push(weekwright::input::profile::Limit::Whole(spinal));
    });
    if let Some(unused) = ids.iter().find(|id| !used.iter().any(|used| used == *id)) {
        asked(Ask { must: vec![(*unused).to_owned()], ..Ask::default() }, &|profile| {
            profile.exercises.must.push((*unused).to_owned());
        });
    }
    asks
}

#[test]
fn no_week_as_good_has_fewer_changes() {
    let rng = TestRng::from_seed(RngAlgorithm::ChaCha, b"tiny weeks that are reworked now");
    let mut runner = TestRunner::new_with_rng(Config::default(), rng);
    let (mut cases, mut compared, mut changed) = (0, 0, 0);
    while cases < CASES {
        let (days, minutes, status, ids) = draws().new_tree(&mut runner).unwrap().current();
        let profile = profile(&days, minutes, status, &ids);
        let Ok(plan) = PLANNER.plan(&profile, &Options::default()) else { continue };
        cases += 1;
        for (ask, edited) in asks(&plan, &profile, &ids) {
            let what = format!("{days:?} {minutes} min {status} {ids:?} {ask:?}");
            let request = PLANNER.request(&edited, &Options::default());
            let before = picks(&plan, &request);
            let rework_of = Some(Rework::of(&plan, &request));
            let request = Request { rework: rework_of, ..request };
            let splits = design::candidates(&request);
            assert_eq!(splits.len(), 1, "one way to share out the week: {what}");
            let weekly = weekly_model(&request, &splits[0], &dominance::kept(&request));
            if ways(&weekly) > MOST_WAYS {
                continue;
            }
            let Some(best) = brute_force(&weekly, &before) else { continue };
            let Outcome::New(new) = PLANNER.rework(&plan, &ask).unwrap() else {
                panic!("something is asked for: {what}")
            };
            let tiers = &new.plan.solve.as_ref().unwrap().tiers;
            let told: Vec<f64> = tiers.iter().take(3).map(|tier| tier.value).collect();
            let counted = changes(&before, &picks(&new.plan, &request), &request);
            for (one, best) in told.iter().chain([&counted]).zip([&best[..], &best[2..]].concat()) {
                assert!((one - best).abs() < 1e-3, "{what}: {told:?}, {counted}, not {best:?}");
            }
            assert!(tiers[..3].iter().all(|tier| tier.proven), "{what}: {tiers:?}");
            compared += 1;
            changed += usize::from(counted > 0.0);
        }
    }
    assert!(compared >= 2 * CASES && changed > 0, "{compared} compared, {changed} changed");
}
