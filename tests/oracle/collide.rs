//! Conflicts judged by the second solver: the named rules alone collide, without any one of them they do not, and each
//! way out leaves a week. That is what an irreducible infeasible subset is (Chinneck 2008).

use std::collections::BTreeSet;

use proptest::prelude::*;
use proptest::sample::subsequence;
use proptest::strategy::ValueTree as _;
use proptest::test_runner::{Config, RngAlgorithm, TestRng, TestRunner};
use weekwright::explain::conflict::{Conflict, explain};
use weekwright::explain::filter::{self, Group};
use weekwright::explain::ways::ways_out;
use weekwright::inner::design;
use weekwright::inner::dominance;
use weekwright::inner::feasibility;
use weekwright::inner::{Model, Role};
use weekwright::input::profile::Profile;
use weekwright::planner::Options;
use weekwright::request::Request;
use weekwright::rules::{hard_rows_only, weekly_model};

use super::draws::{POOL, all_but};
use super::examples::two_days;
use super::second;
use crate::rules::check::PLANNER;

/// Conflicts that are judged.
const CASES: u32 = 16;
const MUSTS: [&str; 6] =
    ["back-squat", "bench-press", "deadlift", "barbell-row", "overhead-press", "hip-thrust"];

/// One or two short days, some exercises that must be in, a strict target, and few exercises to choose from.
fn draws() -> impl Strategy<Value = Profile> {
    let musts = subsequence(MUSTS.to_vec(), 0..=4);
    (1..=2_usize, 12..=30_u32, musts, 4..=12_u32).prop_map(|(days, minutes, musts, sets)| {
        let sessions: Vec<String> = ["mon", "thu"][..days]
            .iter()
            .map(|day| format!("{{day: {day}, minutes: {minutes}}}"))
            .collect();
        let text = format!(
            "{{client: t, training_status: novice, goal: hypertrophy, split: full-body, supersets: never,
               equipment: [barbell, squat-rack, bench, leg-curl-machine], sessions: [{}],
               exercises: {{must: [{}]}}, targets: {{hamstrings: {{range: [{sets}, 20], strict: true}}}}}}",
            sessions.join(", "),
            musts.join(", ")
        );
        let mut profile: Profile = serde_yaml::from_str(&text).unwrap();
        profile.exercises.never = all_but(&POOL);
        profile
    })
}

fn request(profile: &Profile) -> Request {
    PLANNER.request(profile, &Options::default())
}

/// Whether the second solver finds values under any split for the demands: those of some groups, or
/// all of them.
fn holds(request: &Request, groups: Option<&BTreeSet<Group>>) -> bool {
    let keep = dominance::kept(request);
    design::candidates(request).iter().any(|split| {
        let mut model = hard_rows_only(weekly_model(request, split, &keep)).model;
        model.rows.retain(|row| {
            let named = || groups.is_none_or(|groups| groups.contains(&filter::group(row)));
            row.role == Role::Definition || named()
        });
        second::greatest(&second::written_out(&model), &[]).is_some()
    })
}

fn is_minimal(groups: &BTreeSet<Group>, holds: impl Fn(&BTreeSet<Group>) -> bool) {
    assert!(!holds(groups), "{groups:?} can hold together");
    for group in groups {
        let rest = groups.iter().filter(|other| *other != group).cloned().collect();
        assert!(holds(&rest), "{groups:?} collide without {group:?}");
    }
}

/// OP-01, OP-02: of the worked example our filter names the target and both caps, and the second solver agrees.
#[test]
fn the_worked_conflict_is_minimal() {
    let (model, ..) = two_days();
    let only = |kept: &BTreeSet<Group>| -> Model {
        let rows = model.rows.iter().filter(|row| kept.contains(&filter::group(row)));
        Model { vars: model.vars.clone(), rows: rows.cloned().collect() }
    };
    let groups = model.rows.iter().map(filter::group).collect();
    let found = filter::deletion_filter(groups, |kept| feasibility::verdict(&only(kept)));
    assert!(found.proven);
    let rules: Vec<&str> = found.groups.iter().map(|(rule, _)| rule.as_str()).collect();
    assert_eq!(rules, ["cap-1", "cap-2", "target"]);
    is_minimal(&found.groups, |kept| second::greatest(&only(kept), &[]).is_some());
}

#[test]
fn the_second_solver_agrees_on_conflicts_and_ways_out() {
    let rng = TestRng::from_seed(RngAlgorithm::ChaCha, b"profiles that ask for too much!!");
    let mut runner = TestRunner::new_with_rng(Config::default(), rng);
    let (mut cases, mut ways) = (0, 0);
    while cases < CASES {
        let profile = draws().new_tree(&mut runner).unwrap().current();
        let request = request(&profile);
        let Some(conflict): Option<Conflict> = explain(&request) else {
            assert!(holds(&request, None), "{profile:?}");
            continue;
        };
        cases += 1;
        assert!(conflict.proven, "{:?}", conflict.groups());
        is_minimal(conflict.groups(), |groups| holds(&request, Some(groups)));
        let found = ways_out(&request, &conflict);
        assert!(!found.is_empty(), "{:?} has no way out", conflict.groups());
        for way in found {
            ways += 1;
            assert!(holds(&request.with_profile(way.profile.clone()), None), "{way}");
        }
    }
    assert!(ways >= cases, "{ways} ways out of {cases} conflicts");
}
