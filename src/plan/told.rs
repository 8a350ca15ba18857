//! What a week says of an exercise: how its bar is put together, its ramp, and when to go on. All of it follows from
//! the week's numbers, so that a plan whose numbers were edited by hand is told anew.

use std::cell::RefCell;
use std::collections::BTreeMap;
use std::rc::Rc;

use crate::input::catalog::Entry;
use crate::input::plan::Item;
use crate::input::profile::Profile;
use crate::plan::calendar::WeekPlan;
use crate::plan::next_time;
use crate::plan::ramp::ramp;
use crate::plan::screening::CarefulStart;
use crate::plan::steps::{Track, eased};
use crate::plan::waves::Maximum;
use crate::request::dose::{Duty, for_client};
use crate::strength::estimate::{Ask, percent_of_max};
use crate::strength::ladder::Ladder;
use crate::strength::working_load::KnownLifts;
use crate::strength::{first_load, racks};
use crate::words::{Status, WeekKind};

/// The note of a load that the client found in an earlier week.
pub const WRITTEN_DOWN: &str = "load as written down";

/// What the weeks need to know about the loads of one exercise.
#[derive(Debug, Clone, Default)]
pub struct Lift {
    /// The loads that the place can make for it.
    pub ladder: Option<Ladder>,
    /// The estimated one-repetition maximum.
    pub one_rep_max: Option<Maximum>,
    /// The load that is never passed.
    pub cap_kg: Option<f64>,
    /// The repetitions that went in all with the load that is known, and that load.
    pub lifted: Option<(u32, f64)>,
}

/// An exercise in one week.
#[derive(Debug, Clone, Copy)]
pub struct Told<'a> {
    /// The catalog entry.
    pub entry: &'a Entry,
    /// What it is there for.
    pub duty: Duty,
    /// Its loads.
    pub lift: &'a Lift,
    /// Where it stands.
    pub track: &'a Track,
    /// The week.
    pub week: WeekPlan,
    /// Whether it follows the block's heavy loads instead of its own track.
    pub is_heavy: bool,
    /// Whether an earlier week had it.
    pub is_known: bool,
}

impl Told<'_> {
    /// Writes load, ramp and note of an item that asks for `amount`.
    pub fn load(&self, item: &mut Item, load_kg: Option<f64>, amount: u32) {
        let Some(ladder) = self.lift.ladder.as_ref() else { return };
        let Some(load) = load_kg else {
            if self.is_known && self.lift.one_rep_max.is_none() {
                item.find_load = None;
                item.load_note = Some(match self.track.step_from.filter(|_| !self.week.is_light) {
                    Some(reached) => next_time::own_step(reached),
                    None => WRITTEN_DOWN.to_owned(),
                });
            } else {
                first_load::to_week(item);
            }
            return;
        };
        // The lightest steps go first where the session was timed with fewer.
        item.ramp = ramp(Some(load), Some(ladder), amount, item.ramp.len());
        item.load_kg = Some(load);
        let plates = ladder.plates_text(load);
        item.load_note = match (self.week.week, item.load_note.take()) {
            (1, Some(note)) => Some(join(plates, note)),
            _ => plates,
        };
    }

    /// What to do the next time, from the load of this week.
    #[must_use]
    pub fn next(&self, load_kg: Option<f64>, status: Status, careful: &CarefulStart) -> String {
        if self.week.kind == WeekKind::Test && self.entry.main {
            let last = if status == Status::Novice || !careful.heavy_sets {
                "write load and repetitions of the last set down"
            } else {
                "in the last set go on until one is left in reserve, and write load and repetitions down"
            };
            return format!("{last}: the next loads come from them");
        }
        if status == Status::Novice && self.week.week <= 2 {
            // RM-19: beginners misjudge their reserve, so nothing is steered by it yet.
            return "the same next time: the movement first".to_owned();
        }
        if self.week.is_light {
            return "an easier week: nothing is raised".to_owned();
        }
        let ladder = self.lift.ladder.as_ref();
        if self.is_heavy {
            return after_a_heavy_set(load_kg, ladder);
        }
        next_time::condition(self.entry, self.duty, self.track, ladder, self.lift.cap_kg)
    }
}

/// What to do where a heavy set was harder than planned: a little off the bar (RM-23).
fn after_a_heavy_set(load_kg: Option<f64>, ladder: Option<&Ladder>) -> String {
    let eased = load_kg.zip(ladder).and_then(|(load, ladder)| eased(load, ladder));
    match eased.zip(ladder) {
        Some((load, ladder)) => format!(
            "if a set leaves one fewer than planned, take {} for the next and stay there next week",
            ladder.text(load)
        ),
        None => "keep this load next week if fewer were left than planned".to_owned(),
    }
}

fn join(plates: Option<String>, note: String) -> String {
    match plates {
        Some(plates) if !note.contains(&plates) => format!("{plates}; {note}"),
        _ => note,
    }
}

/// The lifts of a client: each is worked out once, and asked for in every week.
#[derive(Debug, Default)]
pub struct Lifts {
    known: RefCell<BTreeMap<String, Rc<Lift>>>,
}

impl Lifts {
    /// The lift of an exercise, for always the same client.
    #[must_use]
    pub fn of(
        &self,
        profile: &Profile,
        careful: &CarefulStart,
        known: &KnownLifts,
        entry: &Entry,
    ) -> Rc<Lift> {
        if let Some(lift) = self.known.borrow().get(&entry.id) {
            return Rc::clone(lift);
        }
        let lift = Rc::new(lift(profile, careful, known, entry));
        self.known.borrow_mut().insert(entry.id.clone(), Rc::clone(&lift));
        lift
    }
}

/// What the weeks need to know about the loads of an exercise.
#[must_use]
pub fn lift(profile: &Profile, careful: &CarefulStart, known: &KnownLifts, entry: &Entry) -> Lift {
    let Some(place) = profile.equipment.as_ref() else { return Lift::default() };
    let ladder = racks::ladder(entry, place, profile.units);
    let dose = for_client(profile, entry, None);
    let ask = Ask { reps: dose.span(entry).aim, rir: dose.rir, most_percent: careful.most_percent };
    let found = known.working_load(entry, ladder.as_ref(), ask);
    let body_kg = known.body_share(entry);
    let one_rep_max = found.one_rep_max_kg.map(|total_kg| Maximum { total_kg, body_kg });
    let moderate = careful.cap_percent.zip(one_rep_max);
    let lifted = known.lifted(&entry.id);
    // The estimate lies a little under the table of percents: what was lifted at a moderate share of it stays moderate.
    let as_lifted = |percent: f64| {
        let moderate = |reps: u32| percent_of_max(reps).is_some_and(|share| share <= percent);
        lifted.filter(|(reps, _)| moderate(*reps)).map_or(0.0, |(_, kg)| kg)
    };
    let most_kg = moderate
        .map(|(percent, most_for_one)| most_for_one.load_kg(percent).max(as_lifted(percent)));
    let cap_kg = [found.cap_kg, most_kg].into_iter().flatten().reduce(f64::min);
    Lift { ladder, one_rep_max, cap_kg, lifted }
}
