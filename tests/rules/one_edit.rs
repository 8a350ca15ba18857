//! For each hard rule one edited plan that this rule alone refuses: the plan of a demo profile with one thing changed.

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;
use std::process::Command;
use std::sync::LazyLock;

use weekwright::audit;
use weekwright::input::catalog::Entry;
use weekwright::input::plan::{Item, Plan, ProfileRef};
use weekwright::input::profile::{Limit, Profile, RuleSetting};
use weekwright::input::screening::Pain;
use weekwright::planner::Options;
use weekwright::request::Barred;
use weekwright::rules::{Force, RULES, Severity};
use weekwright::timing;
use weekwright::words::{ChestPain, LoadKind, Measure, Pattern, Region, Role, Sides};

use super::check::PLANNER;
use crate::demo;

static PLAN: LazyLock<Plan> = LazyLock::new(|| {
    PLANNER.plan(&demo("tide-01"), &Options::default()).expect("a demo profile plans")
});

/// What keeps each exercise out.
static BARRED: LazyLock<BTreeMap<String, Barred>> =
    LazyLock::new(|| PLANNER.request(&demo("tide-01"), &Options::default()).barred);

/// The hard rules that the audit finds broken.
fn broken(plan: &Plan) -> BTreeSet<&'static str> {
    let audit = PLANNER.audit(plan).expect("an edit leaves a plan that can be counted");
    audit.of(Severity::Broken).map(|finding| finding.rule).collect()
}

/// The plan with its figures counted anew, so that only the edit is wrong.
fn recounted(mut plan: Plan) -> Plan {
    let request = PLANNER.request(profile(&mut plan), &Options::default());
    for session in &mut plan.sessions {
        timing::fill_in(session, &|id| PLANNER.catalog().get(id));
    }
    let week = audit::week_of(&plan.sessions, &request).unwrap();
    plan.volume = audit::volume(&request, &week);
    plan.balance = Some(audit::balance(&week));
    plan
}

fn profile(plan: &mut Plan) -> &mut Profile {
    match &mut plan.profile {
        ProfileRef::Whole(profile) => profile,
        ProfileRef::File(_) => unreachable!("a plan of ours holds its profile"),
    }
}

/// One edit of the plan.
fn edited(edit: impl FnOnce(&mut Plan)) -> Plan {
    let mut plan = PLAN.clone();
    edit(&mut plan);
    recounted(plan)
}

/// The first of some edited plans that a rule alone refuses.
fn refused_by(rule: &str, plans: impl IntoIterator<Item = Plan>) -> Plan {
    let alone = |plan: &Plan| broken(plan).into_iter().eq([rule]);
    let mut tried = 0;
    let found = plans.into_iter().inspect(|_| tried += 1).find(alone);
    found.unwrap_or_else(|| panic!("none of {tried} edits is refused by {rule} alone"))
}

/// Where the working items stand: session, group, item.
fn places() -> Vec<(usize, usize, usize)> {
    let mut places = Vec::new();
    for (session, one) in PLAN.sessions.iter().enumerate() {
        for (group, one) in one.groups.iter().enumerate().filter(|(_, group)| group.is_work()) {
            places.extend((0..one.items.len()).map(|item| (session, group, item)));
        }
    }
    places
}

fn at(plan: &mut Plan, place: (usize, usize, usize)) -> &mut Item {
    &mut plan.sessions[place.0].groups[place.1].items[place.2]
}

fn entry_at(place: (usize, usize, usize)) -> &'static Entry {
    let item = &PLAN.sessions[place.0].groups[place.1].items[place.2];
    PLANNER.catalog().get(&item.exercise).unwrap()
}

/// Puts another exercise in the place of an item, with as many sets.
fn swap(item: &mut Item, entry: &Entry) {
    let sets = item.sets as usize;
    let of = |measure: Measure| (entry.measure == measure).then(|| vec![entry.reps[0]; sets]);
    *item = Item {
        exercise: entry.id.clone(),
        sets: item.sets,
        reps: of(Measure::Reps),
        seconds: of(Measure::Seconds),
        meters: of(Measure::Meters),
        calories: of(Measure::Calories),
        each_side: entry.sides == Sides::Each,
        rest_s: item.rest_s,
        rir: item.rir,
        ..Item::default()
    };
}

/// The plans with one item swapped for an entry that a test chooses for its place.
fn swaps(test: impl Fn((usize, usize, usize), &Entry) -> bool) -> impl Iterator<Item = Plan> {
    let work = PLANNER.catalog().iter().filter(|entry| entry.role == Role::Work);
    let entries: Vec<&'static Entry> = work.collect();
    places().into_iter().flat_map(move |place| {
        let fitting: Vec<_> = entries.iter().copied().filter(|entry| test(place, entry)).collect();
        fitting.into_iter().map(move |entry| edited(|plan| swap(at(plan, place), entry)))
    })
}

fn edits(rule: &str) -> Plan {
    let first = places()[0];
    match rule {
        // Without a load, so that nothing but the kit is wrong.
        "kit" => refused_by(
            rule,
            swaps(|place, entry| {
                let lacks = matches!(BARRED.get(&entry.id), Some(Barred::Kit(_)));
                let own_weight = entry.load == LoadKind::Bodyweight && entry.level == 1;
                lacks && own_weight && entry.pattern == entry_at(place).pattern
            }),
        ),
        "limits" => refused_by(
            rule,
            [edited(|plan| {
                let stress = entry_at(first).stress[0].parts()[0].0;
                profile(plan).limits.push(Limit::Whole(stress));
            })],
        ),
        "pain" => refused_by(
            rule,
            Region::ALL.iter().map(|region| {
                edited(|plan| {
                    let answers = profile(plan).screening.get_or_insert_default();
                    answers.pain = Some(vec![Pain::Region(*region)]);
                    answers.chest = Some(ChestPain::Muscle);
                })
            }),
        ),
        "wish-lists" => refused_by(
            rule,
            [edited(|plan| {
                profile(plan).exercises.never.push(entry_at(first).id.clone());
            })],
        ),
        "level" => refused_by(
            rule,
            swaps(|place, entry| entry.level == 2 && entry.pattern == entry_at(place).pattern),
        ),
        "session-minutes" => refused_by(rule, [edited(|plan| at(plan, first).rest_s += 900)]),
        "recovery" => refused_by(rule, [edited(|plan| profile(plan).recovery_hours = 72)]),
        "session-cap" => refused_by(
            rule,
            [edited(|plan| {
                profile(plan).rules.insert("session-cap".to_owned(), RuleSetting::Figure(2.0));
            })],
        ),
        "family" => refused_by(
            rule,
            swaps(|place, entry| {
                let family =
                    |entry: &Entry| entry.family.clone().unwrap_or_else(|| entry.id.clone());
                let others =
                    places().into_iter().filter(|other| other.0 == place.0 && *other != place);
                let mut others = others.map(entry_at);
                entry.level == 1 && others.any(|other| family(other) == family(entry))
            }),
        ),
        "weekly-uses" => refused_by(rule, thrice()),
        "session-size" => refused_by(
            rule,
            [edited(|plan| {
                let mut works = 0;
                plan.sessions[0].groups.retain(|group| {
                    works += u32::from(group.is_work());
                    !group.is_work() || works == 1
                });
            })],
        ),
        "sets-per-exercise" => refused_by(
            rule,
            [edited(|plan| {
                let item = at(plan, first);
                item.sets = 1;
                for list in
                    [&mut item.reps, &mut item.seconds, &mut item.meters].into_iter().flatten()
                {
                    list.truncate(1);
                }
            })],
        ),
        _ => panic!("no edit for {rule}"),
    }
}

/// An exercise that is no main lift put into every session, in the place of another.
fn thrice() -> impl Iterator<Item = Plan> {
    let small = |entry: &&Entry| {
        let pattern = entry.pattern.unwrap();
        !entry.main && !pattern.is_trunk() && pattern != Pattern::PlantarFlexion
    };
    let ids: Vec<&'static Entry> = places().into_iter().map(entry_at).filter(small).collect();
    ids.into_iter().flat_map(|entry| {
        let has = |session: usize| {
            places().into_iter().any(|place| place.0 == session && entry_at(place).id == entry.id)
        };
        let lacking: Vec<usize> = (0..PLAN.sessions.len()).filter(|one| !has(*one)).collect();
        let choices: Vec<Vec<(usize, usize, usize)>> = lacking
            .iter()
            .map(|session| places().into_iter().filter(|place| place.0 == *session).collect())
            .collect();
        each_way(choices).into_iter().map(move |chosen| {
            edited(|plan| {
                for place in chosen {
                    swap(at(plan, place), entry);
                }
            })
        })
    })
}

/// Every way to take one of each list.
fn each_way<T: Copy>(lists: Vec<Vec<T>>) -> Vec<Vec<T>> {
    lists.into_iter().fold(vec![Vec::new()], |ways, list| {
        let with = |way: &Vec<T>, one: T| way.iter().copied().chain([one]).collect();
        ways.iter()
            .flat_map(|way| list.iter().map(|one| with(way, *one)).collect::<Vec<_>>())
            .collect()
    })
}

#[test]
fn the_plan_itself_passes() {
    assert!(broken(&PLAN).is_empty() && broken(&recounted(PLAN.clone())).is_empty());
}

#[test]
fn each_hard_rule_alone_refuses_an_edited_plan() {
    for rule in RULES.iter().filter(|rule| rule.force() == Force::Hard) {
        edits(rule.id());
    }
}

#[test]
fn the_program_exits_4_and_names_the_rule() {
    let folder = tempfile::tempdir().unwrap();
    for rule in ["session-size", "wish-lists"] {
        let file = folder.path().join(format!("{rule}.yaml"));
        std::fs::write(&file, serde_yaml::to_string(&edits(rule)).unwrap()).unwrap();
        let output = audit_of(&file);
        assert_eq!(output.status.code(), Some(4), "{rule}");
        let told = [output.stdout, output.stderr].concat();
        assert!(String::from_utf8(told).unwrap().contains(rule), "{rule}");
    }
    let file = folder.path().join("clean.yaml");
    std::fs::write(&file, serde_yaml::to_string(&*PLAN).unwrap()).unwrap();
    assert_eq!(audit_of(&file).status.code(), Some(0));
}

fn audit_of(file: &Path) -> std::process::Output {
    Command::new(env!("CARGO_BIN_EXE_weekwright")).arg("audit").arg(file).output().unwrap()
}
