//! Which hard rules collide, and the words for it.

use std::collections::BTreeSet;

use super::filter::{self, Group, Minimal};
use super::hard::HardRules;
use crate::input::profile::Profile;
use crate::request::{Barred, Request};
use crate::rules::RULES;
use crate::solution::any_week::Verdict;
use crate::split::design;

/// A hard rule with what it is about, as part of a collision.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Collision {
    /// The rule's id.
    pub rule: String,
    /// A day, muscle or exercise.
    pub subject: String,
    /// What it demands, in a few words.
    pub demand: String,
    /// Where the profile says so: keys and places in lists.
    pub path: Vec<PathStep>,
}

/// A step into the profile.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub enum PathStep {
    /// A key of a map.
    Key(String),
    /// A place in a list.
    Index(usize),
}

/// A minimal set of hard rules that cannot hold together.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Conflict {
    /// The rules with their subjects.
    pub collisions: Vec<Collision>,
    /// Whether it is proven that none of them can be left out.
    pub proven: bool,
    groups: BTreeSet<Group>,
}

impl Conflict {
    /// The rules and subjects alone.
    #[must_use]
    pub fn groups(&self) -> &BTreeSet<Group> {
        &self.groups
    }
}

/// Rules that hold for everyone are the last to be blamed.
const COMMON: u8 = 1;

/// How readily a coach thinks of a rule when wishes collide.
pub(super) fn blame(rule: &str) -> u8 {
    match rule {
        "wish-lists" | "weekly-volume" => 4,
        "today" | "asked" => 3,
        "session-minutes" => 2,
        _ => COMMON,
    }
}

/// Why no week meets the hard rules: what is out before any planning first, then what collides in the week.
/// `None` where there is a week.
#[must_use]
pub fn explain(request: &Request) -> Option<Conflict> {
    if let Some(conflict) = out_before_planning(request) {
        return Some(conflict);
    }
    let splits = design::candidates(request);
    let hard = HardRules::of(request, &splits);
    let whole = hard.all();
    if whole == Verdict::Feasible {
        return None;
    }
    let found = colliding(&hard);
    let proven = found.proven && whole == Verdict::Impossible;
    let collisions = found.groups.iter().map(|group| collision(request, group)).collect();
    Some(Conflict { collisions, proven, groups: found.groups })
}

/// A minimal set of groups: of what the profile demands, where that alone collides or nothing else is known in
/// time; the rules that hold for everyone are then in force without being named.
fn colliding(hard: &HardRules) -> Minimal {
    let (demanded, common): (Vec<Group>, Vec<Group>) =
        hard.groups().into_iter().partition(|(rule, _)| blame(rule) > COMMON);
    let alone = hard.verdict(&demanded.iter().cloned().collect());
    match alone {
        Verdict::Impossible => filter::deletion_filter(demanded, |kept| hard.verdict(kept)),
        Verdict::Feasible => {
            let all = common.into_iter().chain(demanded).collect();
            filter::deletion_filter(all, |kept| hard.verdict(kept))
        }
        Verdict::Unknown => {
            let found = filter::deletion_filter(demanded, |kept| {
                hard.verdict(&common.iter().chain(kept).cloned().collect())
            });
            Minimal { proven: false, ..found }
        }
    }
}

/// A `must` that kit, limits, level or the client's own lists keep out, or nothing left to train with.
fn out_before_planning(request: &Request) -> Option<Conflict> {
    let musts = &request.profile.exercises.must;
    let id = musts.iter().find(|id| request.candidate(id).is_none())?;
    let must = collision(request, &("wish-lists".to_owned(), id.clone()));
    let mut collisions = vec![must];
    if let Some(reason) = request.barred.get(id) {
        collisions.push(barring(request, id, reason));
    }
    let groups = collisions.iter().map(|one| (one.rule.clone(), one.subject.clone())).collect();
    Some(Conflict { collisions, proven: true, groups })
}

/// The rule that keeps an exercise out, with the line of the profile that made it.
fn barring(request: &Request, id: &str, reason: &Barred) -> Collision {
    let (rule, path) = match reason {
        Barred::Kit(_) => {
            let key = if request.profile.place.is_some() { "place" } else { "equipment" };
            ("kit", vec![key_step(key)])
        }
        Barred::Limit(stress) => ("limits", limit_path(&request.profile, *stress)),
        Barred::Level(_) => ("level", vec![key_step("training_status")]),
        Barred::Never => ("wish-lists", vec![key_step("exercises"), key_step("never")]),
        Barred::NoPurpose => ("weekly-volume", vec![key_step("targets")]),
    };
    let subject = match reason {
        Barred::Kit(missing) => missing.first().map_or(id, |kit| kit.id()).to_owned(),
        Barred::Limit(stress) => stress.id().to_owned(),
        _ => id.to_owned(),
    };
    Collision { rule: rule.to_owned(), subject, demand: reason.to_string(), path }
}

fn limit_path(profile: &Profile, stress: crate::words::Stress) -> Vec<PathStep> {
    use crate::input::profile::Limit;
    let is_it = |limit: &Limit| match limit {
        Limit::Whole(tag) => *tag == stress,
        Limit::Graded(graded) => graded.tag == stress,
    };
    let mut path = vec![key_step("limits")];
    path.extend(profile.limits.iter().position(is_it).map(PathStep::Index));
    path
}

fn key_step(key: &str) -> PathStep {
    PathStep::Key(key.to_owned())
}

/// What a group demands, in a coach's words.
fn collision(request: &Request, group: &Group) -> Collision {
    let (rule, subject) = group;
    let (demand, path) = match rule.as_str() {
        "wish-lists" => must(request, subject),
        "weekly-volume" => strict(request, subject),
        _ => of_a_day(request, rule, subject),
    };
    Collision { rule: rule.clone(), subject: subject.clone(), demand, path }
}

fn must(request: &Request, id: &str) -> (String, Vec<PathStep>) {
    let mut path = vec![key_step("exercises"), key_step("must")];
    let place = request.profile.exercises.must.iter().position(|other| other == id);
    path.extend(place.map(PathStep::Index));
    (format!("`{id}` must be in the week"), path)
}

fn strict(request: &Request, muscle: &str) -> (String, Vec<PathStep>) {
    let target = muscle.parse().ok().and_then(|muscle| request.targets.get(&muscle));
    let low = target.map_or(0.0, |target| target.low);
    let path = vec![key_step("targets"), key_step(muscle)];
    (format!("{muscle} must get {low} sets a week"), path)
}

/// A rule about a day, or a muscle, pattern or family on a day.
fn of_a_day(request: &Request, rule: &str, subject: &str) -> (String, Vec<PathStep>) {
    let day = request.days.iter().find(|day| subject.contains(&day.label()));
    let slot = day.and_then(|day| {
        let slots = &request.profile.sessions;
        slots.iter().position(|slot| slot.day == day.weekday && slot.at == day.at)
    });
    let mut path = Vec::new();
    if let Some(slot) = slot {
        path = vec![key_step("sessions"), PathStep::Index(slot), key_step("minutes")];
    }
    let summary = RULES.iter().find(|known| known.id() == rule).map(|known| known.summary());
    let demand = match (rule, day) {
        ("session-minutes", Some(day)) => {
            let (minutes, work) = (day.minutes, day.work_s() / 60);
            let warm_up =
                if work < minutes { format!(", {work} of them for work") } else { String::new() };
            format!("{} has {minutes} minutes{warm_up}", day.label())
        }
        ("today", _) => "the other days stay as they are".to_owned(),
        ("recovery", _) => {
            path = vec![key_step("recovery_hours")];
            format!(
                "{} stays light: its hard sessions are {} h apart",
                subject.replace('_', " on "),
                request.profile.recovery_hours
            )
        }
        _ => format!("{}: {}", subject.replace('_', " on "), summary.unwrap_or(rule)),
    };
    (demand, path)
}

/// The colliding demands as one sentence; exercises that must be in are told together.
#[must_use]
pub fn sentence(conflict: &Conflict) -> String {
    const MUST: &str = " must be in the week";
    let demands = conflict.collisions.iter().map(|one| one.demand.as_str());
    let (musts, mut told): (Vec<&str>, Vec<&str>) =
        demands.partition(|demand| demand.ends_with(MUST));
    let ids: Vec<&str> = musts.iter().map(|must| must.trim_end_matches(MUST)).collect();
    let musts = match ids.as_slice() {
        [] => String::new(),
        [one] => format!("{one}{MUST}"),
        [first @ .., last] => format!("{} and {last}{MUST}", first.join(", ")),
    };
    told.extend(Some(musts.as_str()).filter(|musts| !musts.is_empty()));
    match told.as_slice() {
        [] => "no week meets all hard rules".to_owned(),
        [one] => format!("no week can do this: {one}"),
        [first @ .., last] => {
            format!("no week can do all of this: {}, and {last}", first.join(", "))
        }
    }
}
