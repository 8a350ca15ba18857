//! `level`: no exercise is above the client's level, but for those asked for by name.

use super::{Finding, Force, Rule};
use crate::request::Request;
use crate::week::Week;

/// `must`, `prefer` and known lifts may be one level above.
pub(super) struct Level;

impl Rule for Level {
    fn id(&self) -> &'static str {
        "level"
    }
    fn summary(&self) -> &'static str {
        "no exercise is above the client's level; those asked for by name may be one above"
    }
    fn force(&self) -> Force {
        Force::Hard
    }
    fn recount(&self, request: &Request, week: &Week) -> Vec<Finding> {
        let lists = &request.profile.exercises;
        week.work()
            .filter_map(|(session, item)| {
                let entry = &item.entry;
                let asked = lists.must.contains(&entry.id)
                    || lists.prefer.contains(&entry.id)
                    || request.profile.known_lifts.contains_key(&entry.id);
                let most = request.figures.level + u8::from(asked);
                (entry.level > most).then(|| {
                    let place = format!("{}, {}", session.label, entry.id);
                    let got = format!("level {}", entry.level);
                    Finding::broken(self.id(), place, format!("level {most} at most"), got)
                })
            })
            .collect()
    }
}
