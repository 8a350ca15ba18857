//! How old a client is, and whether they have sat for long.

use super::profile::Profile;
use crate::words::Status;

/// The year that counts for ages where a profile has no `start`.
const YEAR_OF_VERSION: u32 = 2026;

/// The client's age in the year that the plan starts; `None` without a birth year.
#[must_use]
pub fn age(profile: &Profile) -> Option<u32> {
    let start = profile.start.as_deref().and_then(|start| start.get(..4)?.parse().ok());
    start.unwrap_or(YEAR_OF_VERSION).checked_sub(u32::from(profile.birth_year?))
}

/// Whether a client is 65 or older, from when on figures, lifts and effort are more careful (WHO 2020; Fragala et al. 2019).
#[must_use]
pub fn is_senior(profile: &Profile) -> bool {
    age(profile).is_some_and(|age| age >= 65)
}

/// Whether a beginner says that they have not been active of late.
#[must_use]
pub fn starts_from_rest(profile: &Profile) -> bool {
    let sits = profile.screening.as_ref().is_some_and(|said| said.active == Some(false));
    sits && profile.training_status == Status::Novice
}
