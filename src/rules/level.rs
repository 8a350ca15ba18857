//! `level`: no exercise is above the client's level, but for those that a coach names.

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
        "no exercise is above the client's level; those asked for by name or done lately may be one above"
    }
    fn force(&self) -> Force {
        Force::Hard
    }
    fn recount(&self, request: &Request, week: &Week) -> Vec<Finding> {
        let items = week.sessions.iter().flat_map(|session| {
            session.groups.iter().flat_map(|group| &group.items).map(move |item| (session, item))
        });
        items
            .filter_map(|(session, item)| {
                let entry = &item.entry;
                let most = request.most_level(entry);
                (entry.level > most).then(|| {
                    let place = format!("{}, {}", session.label, entry.id);
                    let got = format!("level {}", entry.level);
                    Finding::broken(self.id(), place, format!("level {most} at most"), got)
                })
            })
            .collect()
    }
}
