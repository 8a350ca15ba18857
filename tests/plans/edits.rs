//! Edits by hand over every field of a plan: the audit notices each, and refuses those that it should.

use std::collections::BTreeSet;

use weekwright::input::plan::{
    FindLoad, Item, Plan, ProfileRef, RampSet, Session, Shortfall, SolveStatus,
};
use weekwright::input::profile::Profile;
use weekwright::rules::{Finding, Severity};
use weekwright::words::{Goal, GroupKind, Muscle, WeekKind};

use super::{PLANNER, plan_of};

/// How an edit is taken.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Taken {
    /// With a remark at least.
    Noticed,
    /// As broken: exit 4.
    Refused,
    /// Nothing can be counted: exit 2.
    Misread,
}

use Taken::{Misread, Noticed, Refused};

type Edit = (String, Taken, Box<dyn Fn(&mut Plan)>);

fn edit(name: impl Into<String>, taken: Taken, change: impl Fn(&mut Plan) + 'static) -> Edit {
    (name.into(), taken, Box::new(change))
}

fn profile(plan: &mut Plan) -> &mut Profile {
    match &mut plan.profile {
        ProfileRef::Whole(profile) => profile,
        ProfileRef::File(_) => unreachable!("a plan of ours holds its profile"),
    }
}

/// Where an edit is made: in the sessions at their fullest, or in a week, from 0.
type Where = Option<usize>;

fn sessions(plan: &mut Plan, place: Where) -> &mut Vec<Session> {
    match place {
        None => &mut plan.sessions,
        Some(week) => &mut plan.weeks[week].sessions,
    }
}

/// The first item that fits.
fn item(plan: &mut Plan, place: Where, fits: impl Fn(&Item) -> bool) -> &mut Item {
    let groups = sessions(plan, place).iter_mut().flat_map(|session| &mut session.groups);
    let works = groups.filter(|group| group.is_work());
    let mut items = works.flat_map(|group| &mut group.items);
    items.find(|item| fits(item)).expect("the demo plan has such an item")
}

fn bench(plan: &mut Plan, place: Where) -> &mut Item {
    item(plan, place, |item| item.exercise == "bench-press")
}

/// An exercise with the body's own weight.
fn own_weight(plan: &mut Plan, place: Where) -> &mut Item {
    let is_own = |id: &str| {
        let entry = PLANNER.catalog().get(id).unwrap();
        entry.load == weekwright::words::LoadKind::Bodyweight
    };
    item(plan, place, |item| is_own(&item.exercise) && item.reps.is_some())
}

/// Edits of items, for one place.
#[allow(clippy::too_many_lines, reason = "a list of edits, one line each")]
fn of_items(place: Where) -> Vec<Edit> {
    let at = place.map_or("sessions".to_owned(), |week| format!("week {}", week + 1));
    let edit = |name: &str, taken: Taken, change: fn(&mut Plan, Where)| {
        edit(format!("{at}: {name}"), taken, move |plan: &mut Plan| change(plan, place))
    };
    let mut edits = vec![
        edit("load a step up", Noticed, |plan, at| add(bench(plan, at), 2.5)),
        edit("load a step down", Noticed, |plan, at| add(bench(plan, at), -2.5)),
        edit("load half as much again", Refused, |plan, at| add(bench(plan, at), 35.0)),
        edit("load that no plates make", Refused, |plan, at| add(bench(plan, at), 0.7)),
        edit("load under the bar", Refused, |plan, at| bench(plan, at).load_kg = Some(15.0)),
        edit("load of nothing", Refused, |plan, at| bench(plan, at).load_kg = Some(0.0)),
        edit("load over the cap", Refused, |plan, at| {
            item(plan, at, |item| item.exercise == "deadlift").load_kg = Some(142.5);
        }),
        edit("load taken away", Noticed, |plan, at| bench(plan, at).load_kg = None),
        edit("load on a body-weight exercise", Refused, |plan, at| {
            own_weight(plan, at).load_kg = Some(10.0);
        }),
        edit("pounds beside kilograms", Refused, |plan, at| bench(plan, at).load_lb = Some(500.0)),
        edit("load and search", Noticed, |plan, at| {
            let find = FindLoad { start_kg: 40.0, step_kg: 5.0, sets: 3, stop: 2, ..no_search() };
            bench(plan, at).find_load = Some(find);
        }),
        edit("a set more", Noticed, |plan, at| resize(bench(plan, at), 1)),
        edit("a set fewer", Noticed, |plan, at| resize(bench(plan, at), -1)),
        edit("sets without numbers", Misread, |plan, at| bench(plan, at).sets += 1),
        edit("a repetition more", Noticed, |plan, at| reps(bench(plan, at), |reps| reps + 1)),
        edit("a repetition fewer", Noticed, |plan, at| reps(bench(plan, at), |reps| reps - 1)),
        edit("thirty repetitions", Noticed, |plan, at| reps(bench(plan, at), |_| 30)),
        edit("repetitions as seconds", Misread, |plan, at| {
            let item = bench(plan, at);
            item.seconds = item.reps.take();
        }),
        edit("nothing in reserve", Noticed, |plan, at| bench(plan, at).rir = Some(0)),
        edit("more in reserve", Noticed, |plan, at| {
            let item = bench(plan, at);
            item.rir = item.rir.map(|rir| rir + 1);
        }),
        edit("no reserve", Noticed, |plan, at| bench(plan, at).rir = None),
        edit("a rest of 15 s", Noticed, |plan, at| bench(plan, at).rest_s = 15),
        edit("a rest of 20 min", Noticed, |plan, at| bench(plan, at).rest_s = 1200),
        edit("a rest of 100 s", Noticed, |plan, at| bench(plan, at).rest_s = 100),
        edit("tempo", Noticed, |plan, at| bench(plan, at).tempo = Some("5-5-5-0".to_owned())),
        edit("no tempo", Noticed, |plan, at| bench(plan, at).tempo = None),
        edit("no ramp", Noticed, |plan, at| bench(plan, at).ramp.clear()),
        edit("ramp over the work", Noticed, |plan, at| ramp(bench(plan, at), 90.0, 2)),
        edit("ramp that no plates make", Refused, |plan, at| ramp(bench(plan, at), 51.1, 2)),
        edit("ramp repetitions", Noticed, |plan, at| bench(plan, at).ramp[0].reps = 20),
        edit("how the load was found", Noticed, |plan, at| {
            bench(plan, at).load_note = Some("as you like".to_owned());
        }),
        edit("what comes next", Noticed, |plan, at| {
            bench(plan, at).next = Some("twice as much".to_owned());
        }),
        edit("effort in words", Noticed, |plan, at| {
            bench(plan, at).effort = Some("all out".to_owned());
        }),
        edit("each side", Noticed, |plan, at| bench(plan, at).each_side = true),
        edit("another exercise", Noticed, |plan, at| {
            bench(plan, at).exercise = "paused-bench-press".to_owned();
        }),
        edit("an exercise that is not there", Misread, |plan, at| {
            bench(plan, at).exercise = "bench-pres".to_owned();
        }),
        edit("an exercise without its kit", Refused, |plan, at| {
            bench(plan, at).exercise = "machine-chest-press".to_owned();
        }),
        edit("an item left out", Noticed, |plan, at| {
            sessions(plan, at)[0].groups.last_mut().unwrap().items.pop();
            sessions(plan, at)[0].groups.retain(|group| !group.items.is_empty());
        }),
        edit("preparation left out", Noticed, |plan, at| {
            sessions(plan, at)[0].groups.retain(|group| group.kind != GroupKind::Prep);
        }),
        edit("another order", Noticed, |plan, at| sessions(plan, at)[0].groups.reverse()),
        edit("a session left out", Noticed, |plan, at| {
            sessions(plan, at).pop();
        }),
        edit("a session of another day", Misread, |plan, at| {
            sessions(plan, at)[0].day = weekwright::words::Weekday::Sun;
        }),
        edit("another hour", Misread, |plan, at| {
            sessions(plan, at)[0].at = Some("04:00".to_owned());
        }),
        edit("minutes limit", Refused, |plan, at| {
            sessions(plan, at)[0].minutes.as_mut().unwrap().limit = 120;
        }),
        edit("minutes planned", Refused, |plan, at| {
            sessions(plan, at)[0].minutes.as_mut().unwrap().planned = 12.0;
        }),
        edit("seconds planned", Refused, |plan, at| {
            sessions(plan, at)[0].minutes.as_mut().unwrap().planned_s = 100;
        }),
        edit("seconds of a group", Refused, |plan, at| {
            sessions(plan, at)[0].groups[1].seconds = Some(1);
        }),
        edit("a note", Noticed, |plan, at| {
            sessions(plan, at)[0].note = Some("go home".to_owned());
        }),
        edit("focus", Noticed, |plan, at| sessions(plan, at)[0].focus = vec![Muscle::Neck]),
    ];
    if place.is_none() {
        edits.push(edit("a substitute that is not there", Noticed, |plan, at| {
            bench(plan, at).instead = Some("bench-pres".to_owned());
        }));
        edits.push(edit("a substitute of another movement", Noticed, |plan, at| {
            bench(plan, at).instead = Some("back-squat".to_owned());
        }));
    }
    edits
}

const fn no_search() -> FindLoad {
    FindLoad { start_kg: 0.0, start_lb: None, step_kg: 0.0, step_lb: None, sets: 1, stop: 0 }
}

fn add(item: &mut Item, kg: f64) {
    item.load_kg = item.load_kg.map(|load| load + kg);
}

fn reps(item: &mut Item, change: impl Fn(u32) -> u32) {
    for reps in item.reps.iter_mut().flatten() {
        *reps = change(*reps);
    }
}

fn resize(item: &mut Item, by: i32) {
    item.sets = item.sets.saturating_add_signed(by);
    if let Some(reps) = &mut item.reps {
        reps.resize(item.sets as usize, reps[0]);
    }
}

fn ramp(item: &mut Item, load: f64, reps: u32) {
    let step = RampSet { load_kg: Some(load), reps, ..RampSet::default() };
    *item.ramp.last_mut().unwrap() = step;
}

/// Searches for a load; the demo has them in its sessions and in week 1.
fn of_searches() -> Vec<Edit> {
    fn find(plan: &mut Plan) -> &mut FindLoad {
        let item = item(plan, Some(0), |item| item.find_load.is_some());
        item.find_load.as_mut().unwrap()
    }
    vec![
        edit("search: start that nothing makes", Refused, |plan| find(plan).start_kg += 0.3),
        edit("search: start a step up", Noticed, |plan| {
            let find = find(plan);
            find.start_kg += find.step_kg;
        }),
        edit("search: step that nothing makes", Refused, |plan| find(plan).step_kg = 0.3),
        edit("search: too many sets", Noticed, |plan| find(plan).sets = 9),
        edit("search: stop elsewhere", Noticed, |plan| find(plan).stop = 0),
        edit("search: pounds", Refused, |plan| find(plan).start_lb = Some(999.0)),
    ]
}

fn of_weeks() -> Vec<Edit> {
    vec![
        edit("week number", Noticed, |plan| plan.weeks[2].week = 9),
        edit("week number twice", Noticed, |plan| plan.weeks[2].week = 2),
        edit("date", Noticed, |plan| plan.weeks[1].date = Some("2027-01-12".to_owned())),
        edit("no date", Noticed, |plan| plan.weeks[1].date = None),
        edit("kind", Noticed, |plan| plan.weeks[1].kind = WeekKind::Easy),
        edit("note of a week", Noticed, |plan| plan.weeks[1].note = Some("rest".to_owned())),
        edit("a week left out", Noticed, |plan| {
            plan.weeks.pop();
        }),
        edit("a week more", Noticed, |plan| {
            let week = plan.weeks[0].clone();
            plan.weeks.push(week);
        }),
        edit("weeks in another order", Noticed, |plan| plan.weeks.swap(1, 2)),
        edit("a session twice", Misread, |plan| {
            let session = plan.weeks[1].sessions[0].clone();
            plan.weeks[1].sessions.push(session);
        }),
    ]
}

fn of_tables() -> Vec<Edit> {
    vec![
        edit("volume: sets", Refused, |plan| plan.volume[0].sets += 1.0),
        edit("volume: low", Refused, |plan| plan.volume[0].low = Some(1.0)),
        edit("volume: high", Refused, |plan| plan.volume[0].high = Some(90.0)),
        edit("volume: a line left out", Refused, |plan| {
            plan.volume.remove(0);
        }),
        edit("volume: another muscle", Refused, |plan| plan.volume[0].muscle = Muscle::Neck),
        edit("balance: push", Refused, |plan| plan.balance.as_mut().unwrap().push += 1),
        edit("balance: pull", Refused, |plan| plan.balance.as_mut().unwrap().pull += 1),
        edit("balance: legs", Refused, |plan| plan.balance.as_mut().unwrap().legs += 1),
        edit("balance: knee", Refused, |plan| plan.balance.as_mut().unwrap().knee += 1),
        edit("balance: hip", Refused, |plan| plan.balance.as_mut().unwrap().hip += 1),
    ]
}

fn of_heads() -> Vec<Edit> {
    fn solve(plan: &mut Plan) -> &mut weekwright::input::plan::Solve {
        plan.solve.as_mut().unwrap()
    }
    fn inputs(plan: &mut Plan) -> &mut weekwright::input::plan::Inputs {
        plan.inputs.as_mut().unwrap()
    }
    vec![
        edit("client", Noticed, |plan| plan.client = "someone".to_owned()),
        edit("seed", Noticed, |plan| plan.seed = 99),
        edit("backend", Noticed, |plan| solve(plan).backend = "abacus".to_owned()),
        edit("status", Refused, |plan| solve(plan).status = SolveStatus::Proven),
        edit("gap", Refused, |plan| solve(plan).gap = 0.5),
        edit("bound", Refused, |plan| solve(plan).bound += 50.0),
        edit("objective", Refused, |plan| solve(plan).objective += 50.0),
        edit("tier: name", Noticed, |plan| solve(plan).tiers[0].name = "luck".to_owned()),
        edit("tier: value", Refused, |plan| solve(plan).tiers[2].value += 9.0),
        edit("tier: bound", Refused, |plan| solve(plan).tiers[2].bound += 9.0),
        edit("tier: proven", Refused, |plan| solve(plan).tiers[2].proven = true),
        edit("split: name", Noticed, |plan| plan.split.as_mut().unwrap().name = "none".to_owned()),
        edit("split: days", Noticed, |plan| {
            plan.split.as_mut().unwrap().days.pop();
        }),
        edit("a shortfall added", Noticed, |plan| {
            let text = || "nothing".to_owned();
            let (rule, wanted, got, because) = (text(), text(), text(), text());
            plan.shortfalls.push(Shortfall { rule, wanted, got, because });
        }),
        edit("cautions left out", Noticed, |plan| plan.cautions.clear()),
        edit("a caution reworded", Noticed, |plan| plan.cautions[0].push_str(" or not")),
        edit("the version", Noticed, |plan| inputs(plan).version = "0.0.0".to_owned()),
        edit("the profile's mark", Noticed, |plan| inputs(plan).profile_sha256 = "0".to_owned()),
        edit("the catalog's mark", Noticed, |plan| inputs(plan).catalog_sha256 = "0".to_owned()),
        edit("the mark of the picks", Noticed, |plan| {
            inputs(plan).picks_sha256 = Some("0".to_owned());
        }),
        edit("the mark of a part", Noticed, |plan| {
            inputs(plan).parts_sha256.insert("sessions".to_owned(), "0".to_owned());
        }),
        edit("a rework that never was", Noticed, |plan| {
            let past = weekwright::input::plan::Past {
                seed: 1,
                profile_sha256: None,
                changes: vec!["drop-day mon".to_owned()],
            };
            plan.reworked_from.push(past);
        }),
        edit("profile: goal", Noticed, |plan| profile(plan).goal = Goal::FatLoss),
        edit("profile: weeks", Noticed, |plan| profile(plan).weeks += 1),
        edit("profile: start", Noticed, |plan| {
            profile(plan).start = Some("2027-02-01".to_owned());
        }),
        edit("profile: minutes", Refused, |plan| profile(plan).sessions[0].minutes = 45),
        edit("profile: body mass", Noticed, |plan| profile(plan).body_mass_kg = Some(99.0)),
        edit("profile: kit", Refused, |plan| {
            let kit = profile(plan).equipment.as_mut().unwrap();
            kit.items.remove(&weekwright::words::Kit::Barbell);
        }),
        edit("profile: never", Refused, |plan| {
            profile(plan).exercises.never.push("bench-press".to_owned());
        }),
    ]
}

fn findings(plan: &Plan) -> Option<BTreeSet<Finding>> {
    PLANNER.audit(plan).ok().map(|audit| audit.findings.into_iter().collect())
}

/// The list is our own, drawn over every field that the format has.
#[test]
fn no_edit_goes_unnoticed() {
    let plan = plan_of("oar-02");
    let before = findings(&plan).unwrap();
    assert!(!before.iter().any(|finding| finding.severity == Severity::Broken), "{before:?}");
    let mut edits: Vec<Edit> =
        [None, Some(0), Some(2), Some(5)].into_iter().flat_map(of_items).collect();
    edits.extend(of_searches());
    edits.extend(of_weeks());
    edits.extend(of_tables());
    edits.extend(of_heads());
    assert!(edits.len() >= 100, "{}", edits.len());
    let mut wrong = Vec::new();
    for (name, wanted, change) in &edits {
        let mut edited = plan.clone();
        change(&mut edited);
        let got = match findings(&edited) {
            None => Some(Misread),
            Some(found) => {
                let new: Vec<&Finding> = found.difference(&before).collect();
                let broken = new.iter().any(|finding| finding.severity == Severity::Broken);
                (!new.is_empty()).then_some(if broken { Refused } else { Noticed })
            }
        };
        // What is only to be noticed may turn out to break a hard rule as well.
        let fits = got == Some(*wanted) || (*wanted == Noticed && got == Some(Refused));
        if !fits {
            wrong.push(format!("{name}: wanted {wanted:?}, got {got:?}"));
        }
    }
    assert!(wrong.is_empty(), "{} of {}:\n{}", wrong.len(), edits.len(), wrong.join("\n"));
}

#[test]
fn a_finding_says_what_differs() {
    let mut plan = plan_of("oar-02");
    add(bench(&mut plan, Some(1)), 2.5);
    plan.balance.as_mut().unwrap().knee += 2;
    let told: Vec<String> =
        PLANNER.audit(&plan).unwrap().findings.iter().map(ToString::to_string).collect();
    for finding in &told {
        let (wanted, got) = finding.split_once(", got ").unwrap();
        assert!(!wanted.ends_with(&format!("wanted {got}")), "{finding}");
    }
    assert!(told.iter().any(|one| one.contains("course: week 2, ")), "{told:?}");
    assert!(told.iter().any(|one| one.starts_with("figures: balance, knee")), "{told:?}");
}
