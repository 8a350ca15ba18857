//! Exercises that could give way to one as good: the same movement for the same muscles, no lower in standing, and the
//! audit finds no rule broken in the week, and no wish further from what is wanted, than now.

use super::orders::Held;
use crate::input::plan::{Amounts, Item, Session};
use crate::plan::{ramp, screening};
use crate::request::Request;
use crate::request::candidate::Candidate;
use crate::strength::estimate::Ask;
use crate::strength::{first_load, racks};
use crate::timing;
use crate::words::Sides;

/// Other exercises that are looked at for each.
const MOST: usize = 3;

/// A session with one exercise in the place of another.
#[derive(Debug, Clone, PartialEq)]
pub struct Swap {
    /// The exercise that gives way.
    pub old: String,
    /// The one that comes.
    pub new: String,
    /// Where: the group and the item in it.
    pub at: [usize; 2],
    /// The session with it.
    pub session: Session,
}

/// Every swap of one exercise of a session.
#[must_use]
pub fn swaps(held: &Held<'_>, request: &Request, week: &[Session], place: usize) -> Vec<Swap> {
    let session = &week[place];
    let mut found = Vec::new();
    for (group_at, group) in session.groups.iter().enumerate().filter(|(_, one)| one.is_work()) {
        for (item_at, item) in group.items.iter().enumerate() {
            let others = others(request, item).into_iter().filter_map(|other| {
                let new = in_place_of(request, item, other)?;
                let mut changed = session.clone();
                changed.groups[group_at].items[item_at] = new;
                let entry = |id: &str| request.entry(id);
                timing::fill_in(&mut changed, &entry);
                let mut sessions = week.to_vec();
                sessions[place] = changed;
                let passes = held.finds_as_good(&sessions);
                passes.then(|| Swap {
                    old: item.exercise.clone(),
                    new: other.id.clone(),
                    at: [group_at, item_at],
                    session: sessions.swap_remove(place),
                })
            });
            found.extend(others.take(MOST));
        }
    }
    found
}

/// The exercises that are as good as an item's, its ready substitute first.
fn others<'a>(request: &'a Request, item: &Item) -> Vec<&'a Candidate> {
    let Some(own) = request.candidate(&item.exercise) else { return Vec::new() };
    let is_as_good = |other: &&Candidate| {
        let (entry, mine) = (&other.entry, &own.entry);
        other.id != own.id
            && other.pattern == own.pattern
            && other.duty == own.duty
            && other.prime() == own.prime()
            && entry.standing <= mine.standing
            && entry.measure == mine.measure
            && entry.is_loaded() == mine.is_loaded()
            && other.kit != own.kit
    };
    let mut others: Vec<&Candidate> = request.candidates.iter().filter(is_as_good).collect();
    let is_ready = |other: &Candidate| item.instead.as_deref() == Some(other.id.as_str());
    others.sort_by_key(|other| (!is_ready(other), other.entry.standing, other.id.clone()));
    others
}

/// An item with another exercise: the same sets, repetitions, reserve and rest, with a load that is worked out from what
/// the client has lifted, or to be found.
fn in_place_of(request: &Request, item: &Item, other: &Candidate) -> Option<Item> {
    let entry = &other.entry;
    let list = item.amounts().map(Amounts::list)?;
    let first = *list.first()?;
    if !list.iter().all(|amount| (entry.reps[0]..=entry.reps[1]).contains(amount)) {
        return None;
    }
    let profile = &request.profile;
    let ladder = racks::ladder(entry, profile.equipment.as_ref()?, profile.units);
    let most_percent = screening::advise(profile).start.most_percent;
    let ask = Ask { reps: first, rir: item.rir.unwrap_or(other.rir), most_percent };
    let load = request.known.working_load(entry, ladder.as_ref(), ask);
    let start = load.load_kg.or(load.find.as_ref().map(|find| find.start_kg));
    let ramp = ramp::ramp(start, ladder.as_ref(), first, item.ramp.len());
    let mut new = Item {
        exercise: entry.id.clone(),
        each_side: entry.sides == Sides::Each,
        tempo: item.tempo.as_ref().and(entry.tempo.clone()),
        load_kg: load.load_kg,
        load_lb: None,
        find_load: load.find,
        load_note: Some(load.note).filter(|note| !note.is_empty()),
        ramp,
        next: None,
        instead: None,
        basis: None,
        ..item.clone()
    };
    if new.load_kg.is_none() {
        first_load::to_week(&mut new);
    }
    Some(new)
}
