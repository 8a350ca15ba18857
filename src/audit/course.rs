//! Weeks that were edited, against the course that the sessions at their fullest give: what differs, item by item.
//!
//! Only the first block can be told so closely; later blocks have sessions of their own.

use crate::input::plan::{Item, Plan, Session};
use crate::plan::calendar::BLOCK;
use crate::plan::course::Course;
use crate::plan::seal;
use crate::request::Request;
use crate::rules::Finding;
use crate::strength::ladder::mass_text;

const RULE: &str = "course";

/// What edited weeks of the first block have otherwise.
pub(super) fn check(plan: &Plan, request: &Request) -> Vec<Finding> {
    let edited = seal::edited(plan);
    let is_edited = |week: u32| edited.contains(&format!("week-{week}"));
    if !plan.weeks.iter().any(|week| week.week <= BLOCK && is_edited(week.week)) {
        return Vec::new();
    }
    let usual = Course::new(request).weeks(&|_| plan.sessions.clone());
    let weeks = plan.weeks.iter().filter(|week| week.week <= BLOCK && is_edited(week.week));
    let mut findings = Vec::new();
    for week in weeks {
        let Some(usual) = usual.iter().find(|usual| usual.week == week.week) else { continue };
        for session in &week.sessions {
            let is_it = |one: &&Session| one.day == session.day && one.at == session.at;
            let Some(usual) = usual.sessions.iter().find(is_it) else { continue };
            for (what, wanted, got) in differences(session, usual, request) {
                let place = format!("week {}, {}, {what}", week.week, session.day);
                findings.push(Finding::broken(RULE, place, wanted, got).as_remark());
            }
        }
    }
    findings
}

type Difference = (String, String, String);

fn differences(session: &Session, usual: &Session, request: &Request) -> Vec<Difference> {
    let items = |session: &Session| -> Vec<Item> {
        session.groups.iter().flat_map(|group| group.items.clone()).collect()
    };
    let (now, usual) = (items(session), items(usual));
    let mut found = Vec::new();
    for item in &now {
        match usual.iter().find(|one| one.exercise == item.exercise) {
            None => found.push((
                item.exercise.clone(),
                "not in the course".to_owned(),
                "done".to_owned(),
            )),
            Some(usual) => found.extend(of_item(item, usual, request)),
        }
    }
    for usual in usual.iter().filter(|one| !now.iter().any(|item| item.exercise == one.exercise)) {
        found.push((usual.exercise.clone(), "done".to_owned(), "left out".to_owned()));
    }
    found
}

fn of_item(item: &Item, usual: &Item, request: &Request) -> Vec<Difference> {
    let units = request.profile.units;
    let load = |item: &Item| match (item.load_kg, &item.find_load) {
        (Some(load), _) => mass_text(load, units),
        (None, Some(find)) => format!("from {}", mass_text(find.start_kg, units)),
        (None, None) => "no load".to_owned(),
    };
    let amounts = |item: &Item| {
        let lists = [&item.reps, &item.seconds, &item.meters, &item.calories];
        let list: Vec<String> = lists.into_iter().flatten().flatten().map(u32::to_string).collect();
        format!("{} sets of {}", item.sets, list.join(", "))
    };
    let ramp = |item: &Item| {
        let steps = item.ramp.iter().map(|step| {
            let load = step.load_kg.map_or_else(|| "light".to_owned(), |kg| mass_text(kg, units));
            format!("{load} × {}", step.reps)
        });
        let steps: Vec<String> = steps.collect();
        if steps.is_empty() { "no ramp".to_owned() } else { steps.join(", ") }
    };
    let reserve = |item: &Item| match item.rir {
        Some(rir) => format!("{rir} in reserve"),
        None => "no reserve".to_owned(),
    };
    let rest = |item: &Item| format!("{} s of rest", item.rest_s);
    let text = |text: &Option<String>| text.clone().unwrap_or_else(|| "nothing".to_owned());
    let tells: [(&dyn Fn(&Item) -> String, &str); 8] = [
        (&amounts, ""),
        (&load, ""),
        (&ramp, ""),
        (&reserve, ""),
        (&rest, ""),
        (&|item| text(&item.load_note), "note"),
        (&|item| text(&item.next), "next"),
        (&|item| text(&item.tempo), "tempo"),
    ];
    if item.basis.is_some() {
        // It comes from what was done, and the course does not know that.
        return Vec::new();
    }
    let differ = tells.iter().filter_map(|(tell, what)| {
        let (wanted, got) = (tell(usual), tell(item));
        let place = if what.is_empty() {
            item.exercise.clone()
        } else {
            format!("{} ({what})", item.exercise)
        };
        (wanted != got).then_some((place, wanted, got))
    });
    differ.collect()
}
