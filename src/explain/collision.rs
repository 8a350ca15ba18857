//! The words for hard rules that collide.

use itertools::Itertools as _;

use super::filter::Group;
use crate::input::profile::{Limit, Profile};
use crate::request::{Barred, Request};
use crate::rules::reason::{Demand, PathStep, Reason, keys, reason};
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
    pub(super) fn of(request: &Request, (rule, subject): &Group) -> Collision {
        let Reason { demand, day, path, .. } = reason(request, rule, subject);
        Collision { rule: rule.clone(), subject: subject.clone(), day, demand, path }
    }

    /// The rule that keeps an exercise out, with the line of the profile that made it.
    pub(super) fn barring(request: &Request, id: &str, reason: &Barred) -> Collision {
        let (rule, path) = match reason {
            Barred::Kit(_) => {
                let key = if request.profile.place.is_some() { "place" } else { "equipment" };
                ("kit", keys([key]))
            }
            Barred::Limit(stress) => ("limits", limit_path(&request.profile, *stress)),
            Barred::Reported(_) => ("limits", keys(["screening"])),
            Barred::Level(_) => ("level", keys(["training_status"])),
            Barred::Never => ("wish-lists", keys(["exercises", "never"])),
            Barred::NoPurpose => ("weekly-volume", keys(["targets"])),
            Barred::PassedOver(_) => ("coach-view", keys(["exercises", "prefer"])),
            Barred::VariantOfNever(_) => ("wish-lists", keys(["exercises", "never"])),
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

fn limit_path(profile: &Profile, stress: Stress) -> Vec<PathStep> {
    let is_it = |limit: &Limit| match limit {
        Limit::Whole(tag) => *tag == stress,
        Limit::Graded(graded) => graded.tag == stress,
    };
    let mut path = keys(["limits"]);
    path.extend(profile.limits.iter().position(is_it).map(PathStep::Index));
    path
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
