//! What the shape of a file cannot say: one file per topic, one function per fault.

mod birth;
mod codes;
mod conditioning;
mod exercises;
mod kit;
mod known_lifts;
mod place;
mod rules;
mod screening;
mod sessions;
mod split;
mod targets;

use std::collections::BTreeMap;

pub use codes::CODES;

use super::catalog::Entry;
use super::marks::Marks;
use super::naming;
use super::place::{Equipment, Place};
use super::profile::Profile;
use super::read::Read;
use crate::diagnostic::{self, Diagnostic};

/// The ids that a profile may name.
#[derive(Debug, Clone, Copy)]
pub struct Known<'a> {
    /// Exercises by id.
    pub entries: &'a BTreeMap<String, Entry>,
    /// Ids of rules whose defaults a profile may change.
    pub rules: &'a [&'a str],
}

impl<'a> Known<'a> {
    /// The exercise that an id or a name means.
    fn entry(&self, typed: &str) -> Option<&'a Entry> {
        self.entries.get(naming::id_of(typed, self.entries)?)
    }
}

/// A profile under check.
struct Case<'a> {
    profile: &'a Profile,
    marks: &'a Marks,
    /// The kit of the place where one is named, else the profile's own.
    equipment: Option<&'a Equipment>,
    known: Known<'a>,
}

type Check = fn(&Case<'_>) -> Vec<Diagnostic>;

/// Checks that hold for every profile, also for one inside a plan.
const CHECKS: &[Check] = &[
    sessions::e1301_one_session_an_hour,
    sessions::e1302_clock_is_a_time,
    sessions::e1303_days_are_in_the_calendar,
    sessions::e1304_sessions_do_not_overlap,
    split::e1305_one_entry_per_session,
    split::e1306_entries_name_muscles,
    targets::e1309_low_comes_first,
    targets::e1310_sets_can_be_done,
    targets::e1311_bands_can_be_met,
    exercises::e1312_wishes_agree,
    exercises::e1313_ids_are_known,
    exercises::w1314_nothing_is_said_twice,
    known_lifts::e1315_ids_are_known,
    known_lifts::e1331_load_can_be_lifted,
    known_lifts::w1316_load_is_a_bar_at_least,
    known_lifts::w1317_exercise_takes_a_load,
    known_lifts::w1318_cap_is_above_what_was_done,
    conditioning::e1319_modes_are_known,
    conditioning::e1320_minutes_leave_a_session,
    conditioning::w1321_starts_within_the_plan,
    rules::e1322_ids_are_known,
    birth::e1323_age_can_be,
    screening::e1329_agreed_before_the_start,
    screening::e1330_painless_ids_are_known,
];

/// Every fault and remark of a profile file, sorted by place. `place` is the place it names,
/// where that was read.
#[must_use]
pub fn profile(read: &Read<Profile>, place: Option<&Place>, known: Known<'_>) -> Vec<Diagnostic> {
    let mut faults = resolved(read, place.map(|place| &place.equipment), known);
    faults.extend(place::w1307_place_wins(read));
    faults.extend(place::e1308_kit_is_told(read));
    diagnostic::sort(&mut faults);
    faults
}

/// The same for a profile inside a plan, where the place's kit already stands in `equipment`.
#[must_use]
pub fn resolved(
    read: &Read<Profile>,
    equipment: Option<&Equipment>,
    known: Known<'_>,
) -> Vec<Diagnostic> {
    let own = read.value.equipment.as_ref();
    let case =
        Case { profile: &read.value, marks: &read.marks, equipment: equipment.or(own), known };
    let mut faults: Vec<Diagnostic> = CHECKS.iter().flat_map(|check| check(&case)).collect();
    faults.extend(own.into_iter().flat_map(|own| kit::faults(own, &read.marks)));
    diagnostic::sort(&mut faults);
    faults
}

/// Every fault of a place file, sorted by place.
#[must_use]
pub fn place(read: &Read<Place>) -> Vec<Diagnostic> {
    let mut faults = kit::faults(&read.value.equipment, &read.marks);
    diagnostic::sort(&mut faults);
    faults
}
