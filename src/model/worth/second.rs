//! What an exercise loses where a coach would take another one first.

use super::Best;
use crate::model::points::{SECOND_CHOICE, SECOND_TO};
use crate::request::candidate::Station;
use crate::request::{Candidate, Request};
use crate::words::{Goal, Kit, Pattern, Standing};

impl Best {
    /// What an exercise loses where a coach would take another one first.
    pub(super) fn second_choice(&self, request: &Request, one: &Candidate) -> f64 {
        // For a muscle that should get more its own work and lifts are the first choice; lunges are all for the same ones.
        let own = !one.is_compound() || one.entry.standing == Standing::Staple;
        let wished = one.prime().is_some_and(|prime| request.wants_more(prime))
            && own
            && one.pattern != Pattern::Lunge;
        let has_go_to = self.go_to.contains(&one.pattern.work()) && !wished;
        // A machine that holds the way is nobody's second choice for who begins.
        let is_held = request.is_guided()
            && one.entry.standing == Standing::Staple
            && matches!(one.station, Station::Fixed(_));
        let first = one.entry.go_to || stands_up(request, one);
        let choice = if has_go_to && !first && !is_held { SECOND_CHOICE } else { 0.0 };
        let sits = request.candidates.iter().any(|other| stands_up(request, other))
            && is_press_of_dumbbells(one)
            && !request.is_pushed(&one.id)
            && !stands_up(request, one);
        let second = !wished && is_second(request, one) || sits || is_other_form(request, one);
        choice + if second { SECOND_TO } else { 0.0 }
    }
}

/// Whether a coach takes another exercise first that is at hand. What the client likes or knows is second to nothing.
fn is_second(request: &Request, one: &Candidate) -> bool {
    let first = |id: &String| request.candidate(id).is_some();
    !request.is_pushed(&one.id) && one.entry.second_to.iter().any(first)
}

/// Whether a press overhead with dumbbells is a usual one.
fn is_press_of_dumbbells(one: &Candidate) -> bool {
    one.pattern == Pattern::VerticalPush
        && one.entry.standing == Standing::Staple
        && one.kit.contains(&Kit::Dumbbells)
}

/// Whether a press overhead with dumbbells comes first as it is done standing, for who trains to be fast or to last: the
/// trunk has its part in it. Common practice.
fn stands_up(request: &Request, one: &Candidate) -> bool {
    let goal = matches!(request.profile.goal, Goal::Power | Goal::Endurance);
    let can = !request.is_senior() && !request.minds_its_back();
    let sits = one.kit.iter().any(|kit| matches!(kit, Kit::Bench | Kit::AdjustableBench));
    goal && can && is_press_of_dumbbells(one) && !sits
}

/// Whether a lunge is the easy form beside a harder one, for who has trained for size for a while, or the harder one where
/// neither size nor strength nor power is the goal. Common practice.
fn is_other_form(request: &Request, one: &Candidate) -> bool {
    let lunge = |one: &Candidate| one.pattern == Pattern::Lunge;
    let first = |other: &Candidate| {
        let level = (other.entry.level, one.entry.level);
        let harder = request.builds_size() && level.0 > level.1;
        let easier = !request.trains_heavy() && level.0 < level.1;
        lunge(other) && other.entry.go_to && (harder || easier)
    };
    lunge(one) && !request.is_pushed(&one.id) && request.candidates.iter().any(first)
}
