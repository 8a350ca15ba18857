//! `steady`: from 65 on work for balance comes on two days of the week, where there are two.
//!
//! WHO 2020 asks older adults for varied activity with balance on three days a week; the other days are the client's own.

use super::{Finding, Force, Rule};
use crate::model::Weekly;
use crate::model::goal::at_least;
use crate::model::points::STEADIED_ONCE;
use crate::model::tier::Tier;
use crate::program::Term;
use crate::request::Request;
use crate::week::Week;
use crate::words::Pattern;

/// Balance work by week.
pub(super) struct Steady;

/// Days with balance work.
const DAYS: u32 = 2;

/// Whether two days are asked for, and can be had.
fn is_asked(request: &Request) -> bool {
    let kinds = request.candidates.iter().filter(|one| one.pattern == Pattern::Balance);
    request.needs_balance() && request.days.len() >= DAYS as usize && kinds.count() > 0
}

impl Rule for Steady {
    fn id(&self) -> &'static str {
        "steady"
    }
    fn summary(&self) -> &'static str {
        "from 65 on work for balance comes on two days"
    }
    fn force(&self) -> Force {
        Force::Ranges
    }
    fn add_to(&self, weekly: &mut Weekly) {
        if !is_asked(weekly.request) {
            return;
        }
        let mut days: Vec<Term> = Vec::new();
        for day in weekly.days() {
            let label = weekly.request.days[day].label();
            let balance =
                weekly.on(day).filter(|pick| weekly.candidate(pick).pattern == Pattern::Balance);
            let done = balance.map(|pick| (pick.chosen, 1.0)).collect();
            days.push(weekly.if_any(self.id(), format!("steady_{label}"), label, done));
        }
        let wish = at_least(days, f64::from(DAYS)).missed_by(f64::from(DAYS));
        weekly.miss(self.id(), "week", Tier::Ranges, wish, STEADIED_ONCE);
    }
    fn recount(&self, request: &Request, week: &Week) -> Vec<Finding> {
        let has = |session: &&crate::week::Session| {
            session.work().any(|item| item.pattern() == Some(Pattern::Balance))
        };
        let days = week.sessions.iter().filter(has).count();
        let few = is_asked(request) && days < DAYS as usize;
        let finding =
            || Finding::broken(self.id(), "week", "balance on two days", days.to_string());
        few.then(|| finding().as_shortfall()).into_iter().collect()
    }
}
