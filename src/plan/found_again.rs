//! A load that one day of the week finds is the other day's too: nobody climbs to the same load twice in a week.

use std::collections::BTreeMap;

use crate::input::plan::{FindLoad, Item, Session};
use crate::plan::fit::most_of;
use crate::plan::loads::mass_text;
use crate::plan::strength::percent_at_reserve;
use crate::words::{Turn, Units, Weekday};

/// The first climb to the load of an exercise in a week.
struct Found {
    day: Weekday,
    find: FindLoad,
    amount: u32,
    rir: u32,
}

/// Takes a second climb to the same load out of the week and says instead what the first one gives.
pub fn go_on(sessions: &mut [Session], units: Units) {
    for item in again(sessions).into_iter().flatten() {
        item.find_load = None;
        item.load_note = None;
    }
    tell(sessions, units);
}

/// Says of every item without load and words of its own what an earlier day's climb gives it.
pub fn tell(sessions: &mut [Session], units: Units) {
    let mut first: BTreeMap<String, Found> = BTreeMap::new();
    for session in sessions {
        let day = session.day;
        for item in session.groups.iter_mut().flat_map(|group| &mut group.items) {
            match (&item.find_load, first.get(&item.exercise)) {
                (None, Some(found)) if item.load_kg.is_none() && item.load_note.is_none() => {
                    item.load_note = Some(note(found, item, units));
                }
                (Some(find), None) => {
                    let (find, amount) = (find.clone(), most_of(item));
                    let found = Found { day, find, amount, rir: item.rir.unwrap_or(0) };
                    first.insert(item.exercise.clone(), found);
                }
                _ => {}
            }
        }
    }
}

/// Later climbs to a load that an earlier session finds, by session.
fn again(sessions: &mut [Session]) -> Vec<Vec<&mut Item>> {
    let mut first: BTreeMap<String, usize> = BTreeMap::new();
    let mut later = Vec::new();
    for (place, session) in sessions.iter_mut().enumerate() {
        let items = session.groups.iter_mut().flat_map(|group| &mut group.items);
        let climbs = items.filter(|item| item.find_load.is_some());
        let is_again =
            |item: &&mut Item| *first.entry(item.exercise.clone()).or_insert(place) < place;
        later.push(climbs.filter(is_again).collect());
    }
    later
}

/// "Monday's load", or by how many steps it is more or less: for the repetitions and the reserve of this day, and on a
/// lighter day at least one less.
fn note(found: &Found, item: &Item, units: Units) -> String {
    let expected = found.find.start_kg + 2.0 * found.find.step_kg;
    let percent = |amount: u32, rir: u32| percent_at_reserve(amount, rir);
    let here = percent(most_of(item), item.rir.unwrap_or(0));
    let share = here.zip(percent(found.amount, found.rir)).map_or(1.0, |(here, then)| here / then);
    let steps = (expected * (share - 1.0) / found.find.step_kg).clamp(-4.0, 1.0).round();
    let steps = match item.turn {
        Some(Turn::Lighter) => steps.min(-1.0),
        Some(Turn::Heavier) => steps.max(0.0),
        None => steps,
    };
    let by = || mass_text(steps.abs() * found.find.step_kg, units);
    let day = found.day.name();
    if steps < 0.0 {
        format!("{day}'s load less {}", by())
    } else if steps > 0.0 {
        format!("{day}'s load and {} more", by())
    } else {
        format!("{day}'s load")
    }
}
