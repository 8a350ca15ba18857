//! `usual-sets`: each kind of work has as many sets as a coach writes for the goal; the lift that leads a day has more.
//!
//! More sets of what is there are the cheapest way to fill minutes, and a day of nothing but threes and fours has no idea.
//! Where size and strength are not the goal, small work has two sets and no more; for size four are for what leads. Common
//! practice. The ranges of the week come first: a muscle that lacks sets gets them.

use super::{Finding, Force, Rule};
use crate::input::catalog::Entry;
use crate::model::goal::at_most;
use crate::model::points::{OVER_SUPPORT, OVER_SUPPORT_FOR_STRENGTH, OVER_USUAL};
use crate::model::tier::Tier;
use crate::model::{Pick, Weekly, holds_four};
use crate::program::Term;
use crate::request::Request;
use crate::request::dose::Duty;
use crate::week::Week;
use crate::words::{Goal, Muscle, Pattern, Status};

/// Sets by kind of work.
pub(super) struct UsualSets;

/// The kinds of work of which a day has its usual sets.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Part {
    /// Squats, hinges, presses and pulls.
    Lifts,
    /// What supports the big lifts of the legs: lunges and thrusts.
    Support,
    /// Work of one joint, for the trunk, and carries.
    Small,
}

impl Part {
    const ALL: [(Part, &str); 3] =
        [(Part::Lifts, "lifts"), (Part::Support, "support"), (Part::Small, "small work")];

    /// What an exercise is; nothing counts jumps, and steadiness comes from many tries.
    fn of(entry: &Entry) -> Option<Part> {
        match (Duty::of(entry), entry.pattern) {
            (_, Some(Pattern::Balance)) => None,
            (Duty::Main | Duty::Compound, Some(Pattern::Lunge | Pattern::HipExtension)) => {
                Some(Part::Support)
            }
            (Duty::Main | Duty::Compound, _) => Some(Part::Lifts),
            (Duty::Isolation | Duty::Trunk | Duty::Hold | Duty::Carry, _) => Some(Part::Small),
            _ => None,
        }
    }
}

/// More sets over that than a day ever has.
const MOST: f64 = 60.0;

/// The usual sets of an exercise by its duty.
pub(super) fn usual_sets(request: &Request, duty: Duty) -> u32 {
    let is_small = matches!(duty, Duty::Isolation | Duty::Trunk | Duty::Hold | Duty::Carry);
    let novice = request.profile.training_status == Status::Novice;
    match request.profile.goal {
        Goal::Hypertrophy => 3,
        Goal::Strength if !is_small || !novice => 3,
        _ if is_small => 2,
        _ => 3,
    }
}

/// How many sets a day's lifts have over the usual: those of its lead.
fn of_the_lead(request: &Request, day: usize, part: Part) -> u32 {
    let strong = request.profile.goal == Goal::Strength;
    let longer = u32::from(strong && holds_four(request, day));
    match (request.profile.goal, request.profile.training_status) {
        // A pair of a lift and something small has three rounds.
        _ if part == Part::Small && request.is_brisk() => 1,
        // A thrust is the lift of a day where the glutes should get more.
        (Goal::Hypertrophy, _) if part == Part::Support && request.wants_more(Muscle::Glutes) => 1,
        _ if part != Part::Lifts => longer,
        (Goal::Strength, Status::Advanced) => 3 + longer,
        (Goal::Strength | Goal::Power, Status::Intermediate | Status::Advanced) => 2,
        (Goal::Hypertrophy | Goal::Strength, Status::Novice) => 1,
        (Goal::Endurance, _) => 1,
        (Goal::Hypertrophy, _) => 2,
        _ => 0,
    }
}

impl Rule for UsualSets {
    fn id(&self) -> &'static str {
        "usual-sets"
    }
    fn summary(&self) -> &'static str {
        "small work has few sets, and one lift of a day more than the others"
    }
    fn force(&self) -> Force {
        Force::View
    }
    fn add_to(&self, weekly: &mut Weekly) {
        for day in weekly.days() {
            let label = weekly.request.days[day].label();
            for (part, name) in Part::ALL {
                let over = |pick: &Pick| {
                    let usual = usual_sets(weekly.request, weekly.candidate(pick).duty);
                    let free = usual.saturating_sub(pick.sets[0]);
                    [(pick.extra, 1.0), (pick.chosen, -f64::from(free))]
                };
                let is_of = |pick: &&Pick| Part::of(&weekly.candidate(pick).entry) == Some(part);
                let row: Vec<Term> = weekly.on(day).filter(is_of).flat_map(over).collect();
                if !row.is_empty() {
                    let most = f64::from(of_the_lead(weekly.request, day, part));
                    let wish = at_most(row, most).missed_by(MOST);
                    let subject = format!("{label}_{}", name.replace(' ', "_"));
                    let cost = match part {
                        Part::Support if weekly.request.profile.goal == Goal::Strength => {
                            OVER_SUPPORT_FOR_STRENGTH
                        }
                        Part::Support => OVER_SUPPORT,
                        _ => OVER_USUAL,
                    };
                    weekly.miss(self.id(), subject, Tier::View, wish, cost);
                }
            }
        }
    }
    fn recount(&self, request: &Request, week: &Week) -> Vec<Finding> {
        /// So many sets over the usual are worth a remark.
        const MANY: u32 = 4;
        let days = week.sessions.iter().flat_map(|session| Part::ALL.map(|part| (session, part)));
        let found = days.filter_map(|(session, (part, name))| {
            let items = session.work().filter(|item| Part::of(&item.entry) == Some(part));
            let [mut sets, mut asked] = [0, of_the_lead(request, session.day, part)];
            for item in items {
                sets += item.sets;
                asked += usual_sets(request, Duty::of(&item.entry));
            }
            let wanted = format!("{asked} sets of {name}");
            let finding =
                Finding::broken(self.id(), session.label.clone(), wanted, sets.to_string());
            (sets >= asked + MANY).then(|| finding.as_remark())
        });
        found.collect()
    }
}
