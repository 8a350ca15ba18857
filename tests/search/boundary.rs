//! Exactly enough minutes and kit, a minute or an item less, and a minute more: there is an answer each time, and it is
//! a plan or the proof that there is none.

use weekwright::input::profile::Profile;
use weekwright::planner::{NoPlan, Options, Planner};
use weekwright::request::candidate::Candidate;

use super::profile;

fn demanding(minutes: u32, kit: &str) -> Profile {
    profile(&format!(
        "client: edge-01\ntraining_status: novice\ngoal: strength\nequipment: [{kit}]\nsupersets: never\nsessions: \
         [{{day: wed, minutes: {minutes}}}]\nexercises: {{must: [goblet-squat, push-up, one-arm-row]}}\n"
    ))
}

const KIT: &str = "dumbbells, kettlebell, bench";

/// Seconds of an exercise with its fewest sets in a session of so many minutes.
fn least_s(candidate: &Candidate, minutes: u32) -> u32 {
    let sets = candidate.sets_in(minutes)[0];
    candidate.start_s + sets * candidate.work_s + (sets - 1) * candidate.rest_s
}

/// Whether there is a plan; anything but a plan or a proof fails.
fn plans(planner: &Planner, profile: &Profile) -> bool {
    match planner.plan(profile, &Options::default()) {
        Ok(_) => true,
        Err(NoPlan::Impossible(_)) => false,
        Err(other) => panic!("{other}: {profile:?}"),
    }
}

#[test]
fn musts_plan_from_the_first_minute_that_holds_them_and_never_before() {
    let planner = Planner::built_in();
    let holds = |minutes: u32| {
        let request = planner.request(&demanding(minutes, KIT), &Options::default());
        let musts = ["goblet-squat", "push-up", "one-arm-row"];
        let needed: u32 =
            musts.iter().map(|id| least_s(request.candidate(id).unwrap(), minutes)).sum();
        needed <= request.days[0].work_s()
    };
    let first = (5..90).find(|minutes| holds(*minutes)).unwrap();
    for minutes in [first - 2, first - 1, first, first + 1, first + 2] {
        assert_eq!(plans(&planner, &demanding(minutes, KIT)), minutes >= first, "{minutes} min");
    }
}

#[test]
fn musts_plan_with_exactly_their_kit_and_with_nothing_less() {
    let planner = Planner::built_in();
    assert!(plans(&planner, &demanding(60, KIT)));
    assert!(!plans(&planner, &demanding(60, "bench")));
}

/// A range of one figure, strict: every half-set counts.
#[test]
fn a_strict_range_without_room_is_met_or_proven_to_be_out_of_reach() {
    let planner = Planner::built_in();
    let strict = |sets: u32| {
        profile(&format!(
            "client: edge-02\ntraining_status: novice\ngoal: hypertrophy\nequipment: [dumbbells, bench]\nsessions: \
             [{{day: tue, minutes: 40}}]\ntargets: {{chest: {{range: [{sets}, {sets}], strict: true}}}}\n"
        ))
    };
    let met: Vec<bool> = (1..=11).map(|sets| plans(&planner, &strict(sets))).collect();
    assert!(met[2], "three sets fit");
    assert!(!met[10], "eleven are over the cap of the only session of a week");
    // Once too many, always too many.
    assert!(met.windows(2).skip(2).all(|pair| pair[0] || !pair[1]), "{met:?}");
}
