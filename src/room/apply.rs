//! What a settled week changes, written into the plans as exceptions of single dates.

use super::rota::{Rota, clock};
use crate::input::plan::{Exception, Past, Plan};
use crate::plan::seal;

/// The plans with their dates; a plan without a change is the same.
#[must_use]
pub fn applied(rota: &Rota, plans: &[Plan]) -> Vec<Plan> {
    let mut all = plans.to_vec();
    for (place, visit) in rota.visits.iter().enumerate() {
        let done = &rota.done[place];
        let plan = &mut all[visit.plan];
        let hour = clock(done.start);
        let before = visit.written.at.clone();
        let is_moved = plan.start_of(visit.week, &visit.written) != Some(hour.as_str());
        let told: Vec<String> = is_moved
            .then(|| format!("starts {hour}"))
            .into_iter()
            .chain(done.arrangement.told().cloned())
            .collect();
        let Some(week) = plan.weeks.iter_mut().find(|week| week.week == visit.week) else {
            continue;
        };
        if told.is_empty() {
            continue;
        }
        let same_day = week.sessions.iter().filter(|one| one.day == visit.day).count();
        let called = match &before {
            Some(at) if same_day > 1 => format!("{}@{at}", visit.day),
            _ => visit.day.to_string(),
        };
        let about = format!("This day only: {}.", told.join("; "));
        let mut session = done.arrangement.session.clone();
        session.note = Some(match &visit.written.note {
            Some(note) => format!("{about} {note}"),
            None => about,
        });
        week.sessions[visit.session] = session;
        plan.exceptions.push(Exception {
            week: visit.week,
            day: called,
            date: visit.date.map(|date| date.to_string()),
            at: is_moved.then_some(hour),
            asked: told,
            equipment: None,
        });
    }
    for (new, old) in all.iter_mut().zip(plans) {
        if new != old {
            remembered(new, old, &rota.room.place);
        }
    }
    all
}

/// The history and the marks of a changed plan.
fn remembered(new: &mut Plan, old: &Plan, place: &str) {
    let dates = new.exceptions.iter().skip(old.exceptions.len());
    let told = dates.map(|one| format!("week {} {}: {}", one.week, one.day, one.asked.join(", ")));
    let changes = std::iter::once(format!("rota of {place}")).chain(told).collect();
    let profile_sha256 = old.inputs.as_ref().map(|inputs| inputs.profile_sha256.clone());
    new.reworked_from.push(Past { seed: old.seed, profile_sha256, changes });
    seal::reseal(new, old);
}
