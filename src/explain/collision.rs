//! The words for hard rules that collide.

use std::fmt;

use itertools::Itertools as _;

use super::filter::Group;
use crate::input::profile::{Limit, Profile};
use crate::request::{Barred, Request};
use crate::rules::RULES;
use crate::words::Stress;

/// A hard rule with what it is about, as part of a collision.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Collision {
    /// The rule's id.
    pub rule: String,
    /// A day, muscle or exercise.
    pub subject: String,
    /// The place of the day that it is about, in the order of the week.
    pub day: Option<usize>,
    /// What it demands, in a few words.
    pub demand: Demand,
    /// Where the profile says so: keys and places in lists.
    pub path: Vec<PathStep>,
}

/// What is demanded, and of whom.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Demand {
    /// A muscle, an exercise or a day.
    who: String,
    /// The day, where it is not the subject itself.
    on: Option<String>,
    /// What is said of one, and of several.
    says: [String; 2],
}

impl fmt::Display for Demand {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let on = self.on.as_ref().map_or(String::new(), |day| format!(" on {day}"));
        write!(f, "{}{on}{}", self.who, self.says[0])
    }
}

/// A step into the profile.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub enum PathStep {
    /// A key of a map.
    Key(String),
    /// A place in a list.
    Index(usize),
}

/// What collisions demand; those that say the same of several are told together.
#[must_use]
pub fn told<'a>(collisions: impl IntoIterator<Item = &'a Collision>) -> Vec<String> {
    let mut alike: Vec<Vec<&Demand>> = Vec::new();
    for demand in collisions.into_iter().map(|one| &one.demand) {
        match alike.iter_mut().find(|list| list[0].says == demand.says) {
            Some(list) => list.push(demand),
            None => alike.push(vec![demand]),
        }
    }
    alike.iter().map(|list| of_all(list)).collect()
}

/// The same demand of several in one: muscles with the same days stand together.
fn of_all(alike: &[&Demand]) -> String {
    let [first, _, ..] = alike else { return alike.iter().join("") };
    let mut days_of: Vec<(&str, Vec<&str>)> = Vec::new();
    for demand in alike {
        let days = demand.on.iter().map(String::as_str);
        match days_of.iter_mut().find(|(who, _)| *who == demand.who) {
            Some((_, known)) => known.extend(days),
            None => days_of.push((&demand.who, days.collect())),
        }
    }
    let mut together: Vec<(Vec<&str>, Vec<&str>)> = Vec::new();
    for (who, days) in days_of {
        match together.iter_mut().find(|(_, known)| *known == days) {
            Some((all, _)) => all.push(who),
            None => together.push((vec![who], days)),
        }
    }
    let parts = together.iter().map(|(who, days)| {
        let on = if days.is_empty() { String::new() } else { format!(" on {}", listed(days)) };
        format!("{}{on}", listed(who))
    });
    format!("{}{}", parts.collect::<Vec<_>>().join(", "), first.says[1])
}

/// `mon, tue and fri`.
pub(super) fn listed(words: &[&str]) -> String {
    match words {
        [first @ .., last] if !first.is_empty() => format!("{} and {last}", first.join(", ")),
        _ => words.concat(),
    }
}

impl Collision {
    /// What a group demands, in a coach's words.
    pub(super) fn of(request: &Request, group: &Group) -> Collision {
        let (rule, subject) = group;
        match rule.as_str() {
            "wish-lists" => must(request, group),
            "weekly-volume" => strict(request, group),
            _ => of_a_day(request, rule, subject),
        }
    }

    /// The rule that keeps an exercise out, with the line of the profile that made it.
    pub(super) fn barring(request: &Request, id: &str, reason: &Barred) -> Collision {
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
        let demand = Demand { who: reason.to_string(), on: None, says: Default::default() };
        Collision { rule: rule.to_owned(), subject, day: None, demand, path }
    }
}

/// A demand about one subject whatever the day, in the same words for several.
fn about(who: &str, says: &str) -> Demand {
    Demand { who: who.to_owned(), on: None, says: [says.to_owned(), says.to_owned()] }
}

fn limit_path(profile: &Profile, stress: Stress) -> Vec<PathStep> {
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

fn must(request: &Request, (rule, id): &Group) -> Collision {
    let mut path = vec![key_step("exercises"), key_step("must")];
    let place = request.profile.exercises.must.iter().position(|other| other == id);
    path.extend(place.map(PathStep::Index));
    let demand = about(&format!("`{id}`"), " must be in the week");
    Collision { rule: rule.clone(), subject: id.clone(), day: None, demand, path }
}

fn strict(request: &Request, (rule, muscle): &Group) -> Collision {
    let target = muscle.parse().ok().and_then(|muscle| request.targets.get(&muscle));
    let low = target.map_or(0.0, |target| target.low);
    let path = vec![key_step("targets"), key_step(muscle)];
    let demand = about(muscle, &format!(" must get {low} sets a week"));
    Collision { rule: rule.clone(), subject: muscle.clone(), day: None, demand, path }
}

/// A rule about a day, or a muscle, pattern or family on a day.
fn of_a_day(request: &Request, rule: &str, subject: &str) -> Collision {
    let day = request.days.iter().position(|day| subject.contains(&day.label()));
    let known = day.map(|day| &request.days[day]);
    let slots = &request.profile.sessions;
    let slot =
        known.and_then(|day| slots.iter().position(|s| s.day == day.weekday && s.at == day.at));
    let mut path = Vec::new();
    if let Some(slot) = slot {
        path = vec![key_step("sessions"), PathStep::Index(slot), key_step("minutes")];
    }
    let (who, on) = match subject.split_once('_') {
        Some((who, on)) => (who.to_owned(), Some(on.to_owned())),
        None => (subject.to_owned(), None),
    };
    let says = match (rule, known) {
        ("session-minutes", Some(day)) => {
            let (minutes, work) = (day.minutes, day.work_s() / 60);
            let warm_up =
                if work < minutes { format!(", {work} of them for work") } else { String::new() };
            [
                format!(" has {minutes} minutes{warm_up}"),
                format!(" have {minutes} minutes each{warm_up}"),
            ]
        }
        ("recovery", _) => {
            path = vec![key_step("recovery_hours")];
            let apart = format!("hard sessions are {} h apart", request.profile.recovery_hours);
            [format!(" stays light: its {apart}"), format!(" stay light: their {apart}")]
        }
        _ => {
            let summary =
                RULES.iter().find(|known| known.id() == rule).map(|known| known.summary());
            let says = format!(": {}", summary.unwrap_or(rule));
            [says.clone(), says]
        }
    };
    let demand = match rule {
        "today" => about("the other days", " stay as they are"),
        _ => Demand { who, on, says },
    };
    Collision { rule: rule.to_owned(), subject: subject.to_owned(), day, demand, path }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn collision(who: &str, on: Option<&str>, says: [&str; 2]) -> Collision {
        let says = says.map(str::to_owned);
        let demand = Demand { who: who.to_owned(), on: on.map(str::to_owned), says };
        let (rule, subject) = (String::new(), String::new());
        Collision { rule, subject, day: None, demand, path: Vec::new() }
    }

    #[test]
    fn the_same_demand_of_several_is_told_once() {
        let light = [" stays light", " stay light"];
        let minutes = [" has 20 minutes", " have 20 minutes each"];
        let all = [
            collision("glutes", Some("tue"), light),
            collision("glutes", Some("fri"), light),
            collision("mon", None, minutes),
            collision("hamstrings", Some("tue"), light),
            collision("hamstrings", Some("fri"), light),
            collision("calves", Some("fri"), light),
            collision("tue", None, minutes),
            collision("wed", None, minutes),
        ];
        assert_eq!(
            told(&all),
            [
                "glutes and hamstrings on tue and fri, calves on fri stay light",
                "mon, tue and wed have 20 minutes each",
            ]
        );
        assert_eq!(told(&all[..1]), ["glutes on tue stays light"]);
    }
}
