//! What holds for the plan of any profile.

use itertools::Itertools as _;
use weekwright::audit::week_of;
use weekwright::input::plan::{Amounts, Group, Item, Plan, Session};
use weekwright::input::profile::Profile;
use weekwright::planner::{NoPlan, Options};
use weekwright::rules::{RULES, Severity};
use weekwright::words::{Goal, GroupKind, Kit, LoadKind, Muscle, Pattern, Role, Sides, Status};

use super::profiles::{demanding, faults, ordinary};
use super::run::for_all;
use crate::rules::check::PLANNER;

#[test]
fn ordinary_profiles_plan_and_their_figures_are_right() {
    for_all(20, ordinary(), |profile| {
        let plan = plan_of(profile)?;
        clean(&plan)?;
        volume(&plan)?;
        time(&plan)?;
        ranges(profile, &plan)
    });
}

#[test]
fn demanding_profiles_plan_or_are_told_why_not() {
    for_all(7, demanding(), |profile| match PLANNER.plan(profile, &Options::default()) {
        Ok(plan) => clean(&plan),
        Err(NoPlan::Impossible(_) | NoPlan::Stopped) => Ok(()),
        Err(fault) => Err(format!("{fault:?}")),
    });
}

/// What may be planned, the audit allows: every usable exercise stands in a week that no rule about what a client may do
/// refuses, however it came to be usable.
#[test]
fn whatever_is_usable_is_allowed() {
    for_all(200, demanding(), |profile| {
        let request = PLANNER.request(profile, &Options::default());
        let items = request.candidates.iter().map(|candidate| {
            let of = |id: &str| Item { exercise: id.to_owned(), sets: 3, ..Item::default() };
            Group { kind: GroupKind::Single, seconds: None, items: vec![of(&candidate.id)] }
        });
        let day = &request.days[0];
        let session = Session {
            day: day.weekday,
            at: day.at.clone(),
            focus: Vec::new(),
            minutes: None,
            note: None,
            groups: items.collect(),
        };
        let week = week_of(&[session], &request).map_err(|faults| format!("{faults:?}"))?;
        let rules = RULES.iter().filter(|rule| matches!(rule.id(), "kit" | "limits" | "level"));
        let broken: Vec<_> = rules.flat_map(|rule| rule.recount(&request, &week)).collect();
        if broken.is_empty() { Ok(()) } else { Err(broken.iter().join("; ")) }
    });
}

#[test]
fn the_same_input_twice_gives_the_same_bytes() {
    for_all(2, ordinary(), |profile| {
        let plan = || PLANNER.plan(profile, &Options { seed: 7, ..Options::default() });
        let text = |plan| serde_yaml::to_string(&plan).unwrap();
        match (plan().map(text), plan().map(text)) {
            (one, other) if one == other => Ok(()),
            _ => Err("two runs differ".to_owned()),
        }
    });
}

/// The plan of a profile that the input checks pass.
pub(super) fn plan_of(profile: &Profile) -> Result<Plan, String> {
    let faults = faults(profile);
    if !faults.is_empty() {
        return Err(format!("the input checks refuse it: {faults:?}"));
    }
    let plan = PLANNER.plan(profile, &Options::default());
    plan.map_err(|why| format!("it does not plan: {why:?}"))
}

fn clean(plan: &Plan) -> Result<(), String> {
    let audit = PLANNER.audit(plan).map_err(|faults| format!("cannot be counted: {faults:?}"))?;
    // A plan's own substitutes are ones that the audit would take, too.
    let substitutes = audit.findings.iter().filter(|one| one.rule == "instead");
    let substitutes: Vec<String> = substitutes.map(ToString::to_string).collect();
    if !substitutes.is_empty() {
        return Err(substitutes.join("; "));
    }
    let broken: Vec<String> = audit.of(Severity::Broken).map(ToString::to_string).collect();
    if broken.is_empty() { Ok(()) } else { Err(broken.join("; ")) }
}

fn groups(plan: &Plan) -> impl Iterator<Item = &Group> {
    plan.sessions.iter().flat_map(|session| &session.groups)
}

/// Fractional sets of a muscle counted anew (VO-03: a direct set is 1, an indirect one 0.5).
pub(super) fn fractional(sessions: &[Session], muscle: Muscle) -> f64 {
    let groups = sessions.iter().flat_map(|session| &session.groups);
    let mut sets = 0.0;
    for item in groups.filter(|group| group.is_work()).flat_map(|group| &group.items) {
        let entry = PLANNER.catalog().get(&item.exercise).unwrap();
        let counts = entry.role == Role::Work
            && !matches!(
                entry.pattern,
                Some(Pattern::Jump | Pattern::Throw | Pattern::Locomotion) | None
            );
        let share = if entry.direct.contains(&muscle) {
            1.0
        } else if entry.indirect.contains(&muscle) {
            0.5
        } else {
            0.0
        };
        sets += if counts { f64::from(item.sets) * share } else { 0.0 };
    }
    sets
}

fn volume(plan: &Plan) -> Result<(), String> {
    for muscle in Muscle::ALL {
        let sets = fractional(&plan.sessions, *muscle);
        let line = plan.volume.iter().find(|line| line.muscle == *muscle);
        let printed = line.map_or(0.0, |line| line.sets);
        if (printed - sets).abs() > 1e-9 {
            return Err(format!("{muscle}: {printed} sets are printed, {sets} counted"));
        }
    }
    Ok(())
}

/// Seconds counted anew: the way in, set-up, ramp sets, work by tempo, and rests between sets or rounds (the model of
/// SS-06).
fn time(plan: &Plan) -> Result<(), String> {
    for session in &plan.sessions {
        let minutes = session.minutes.as_ref().unwrap();
        let mut sum = 0;
        for group in &session.groups {
            let said = group.seconds.unwrap();
            sum += said;
            let counted = group_seconds(group);
            if group.kind != GroupKind::Conditioning && said != counted {
                return Err(format!(
                    "{}: {said} s are printed, {counted} counted",
                    group.items[0].exercise
                ));
            }
        }
        if sum != minutes.planned_s || sum > minutes.limit * 60 {
            return Err(format!("{}: {sum} s of {} min", session.day, minutes.limit));
        }
    }
    Ok(())
}

fn group_seconds(group: &Group) -> u32 {
    let setup = |item: &Item| PLANNER.catalog().get(&item.exercise).unwrap().setup_s;
    let ramp = |item: &Item| (u32::try_from(item.ramp.len()).unwrap() * 70).min(480);
    let once: u32 = group.items.iter().map(|item| setup(item) + ramp(item) + work(item)).sum();
    let rounds = group.items.iter().map(|item| item.sets).max().unwrap();
    let rest = group.items.iter().map(|item| item.rest_s).max().unwrap();
    30 + once + (rounds - 1) * rest
}

fn work(item: &Item) -> u32 {
    let digits = |tempo: &String| tempo.split('-').map(|one| one.parse::<u32>().unwrap()).sum();
    let repetition: u32 = item.tempo.as_ref().map_or(3, digits);
    let once: Vec<u32> = match item.amounts().unwrap() {
        Amounts::Reps(list) => list.iter().map(|reps| reps * repetition.max(1)).collect(),
        Amounts::Seconds(list) | Amounts::Meters(list) => list.to_vec(),
        Amounts::Calories(list) => list.iter().map(|calories| calories * 6).collect(),
    };
    let role = PLANNER.catalog().get(&item.exercise).unwrap().role;
    let into_place = if role == Role::Work { 10 } else { 0 };
    once.iter().map(|once| into_place + if item.each_side { 2 * once + 10 } else { *once }).sum()
}

const fn is_of_the_legs(pattern: Pattern) -> bool {
    matches!(pattern, Pattern::Squat | Pattern::Hinge)
}

/// Repetitions and rests of bar lifts by goal: RX-05 (ACSM 2009), RX-07 and RX-11 (NSCA goal table). Rests for size
/// are longer than the table's 30-90 s on purpose (RX-18: Singer et al. 2024).
fn ranges(profile: &Profile, plan: &Plan) -> Result<(), String> {
    for item in groups(plan).filter(|group| group.is_work()).flat_map(|group| &group.items) {
        let entry = PLANNER.catalog().get(&item.exercise).unwrap();
        let explosive = entry.pattern.is_some_and(Pattern::is_explosive);
        if !entry.main || entry.load != LoadKind::BarTotal || explosive {
            continue;
        }
        let Some(reps) = &item.reps else { continue };
        let novice = profile.training_status == Status::Novice;
        // Fives and triples are for a bar on two legs.
        let two_legged = entry.sides == Sides::Both;
        let (reps_range, rests) = match profile.goal {
            Goal::Hypertrophy if profile.training_status == Status::Advanced => (1..=12, 60..=180),
            Goal::Hypertrophy => (6..=12, 60..=165),
            // A Romanian deadlift or a thrust is done for eight and more.
            // A bar in its corner holds plates at one end: the heaviest of it is done for as many as go.
            Goal::Strength if !novice && two_legged && entry.reps[0] <= 6 => {
                let corner = entry.needs.iter().flatten().any(|kit| *kit == Kit::Landmine);
                (1..=if corner { 9 } else { 6 }, 120..=300)
            }
            // Who lasts squats and pulls with the bar for sixes (CO-21) past the first steps.
            Goal::Endurance if !novice && entry.pattern.is_some_and(is_of_the_legs) => {
                (5..=25, 30..=150)
            }
            Goal::Endurance => (10.min(entry.reps[1])..=25, 30..=120),
            _ => (1..=15, 30..=300),
        };
        if let Some(odd) = reps.iter().find(|reps| !reps_range.contains(*reps)) {
            return Err(format!("{}: {odd} repetitions", item.exercise));
        }
        if !rests.contains(&item.rest_s) {
            return Err(format!("{}: {} s of rest", item.exercise, item.rest_s));
        }
    }
    Ok(())
}
