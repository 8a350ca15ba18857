//! Hours for sessions that have none: when the fewest others are there, and near the evening.

use super::visit::Visit;

/// Hours that are tried, in minutes of the day. Common practice.
const FROM: u32 = 7 * 60;
const TO: u32 = 20 * 60;
const STEP: u32 = 30;
/// The hour that most clients ask for. Common practice.
const LIKED: u32 = 18 * 60;

/// Gives each visit without an hour one, client by client.
pub fn spread(visits: &mut [Visit]) {
    for at in 0..visits.len() {
        if visits[at].start.is_some() {
            continue;
        }
        let others = |start: u32| -> u32 {
            let end = start + visits[at].minutes();
            let same_day = visits.iter().filter(|other| other.day == visits[at].day);
            let there = same_day.filter(|other| {
                let is_there = |begin: u32| begin < end && start < begin + other.minutes();
                other.start.is_some_and(is_there)
            });
            u32::try_from(there.count()).unwrap_or(u32::MAX)
        };
        let hours = (FROM..=TO).step_by(STEP as usize);
        let best = hours.min_by_key(|start| (others(*start), start.abs_diff(LIKED), *start));
        visits[at].start = best;
    }
}
