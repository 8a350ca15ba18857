//! `planes`: from three days a week pushes and pulls come both level and overhead, on two days where it can be.
//!
//! Each has about a third of its side's sets. Common practice. A plane counts only where kit and limits leave an exercise
//! of it.

use super::{Figure, Finding, Force, Rule};
use crate::input::catalog::Entry;
use crate::model::goal::{at_least, at_most};
use crate::model::points::{PLANE_LACKING, PLANE_MISSING, PLANE_THIN, PULLED_DOWN_AGAIN};
use crate::model::tier::Tier;
use crate::model::{Weekly, minus, times};
use crate::program::Term;
use crate::request::{Candidate, Request};
use crate::week::Week;
use crate::words::{Goal, Kind, Pattern, Role, Standing, Stress};

/// Planes by week.
pub(super) struct Planes;

const PLANES: [Pattern; 4] = [
    Pattern::HorizontalPush,
    Pattern::VerticalPush,
    Pattern::HorizontalPull,
    Pattern::VerticalPull,
];

/// The two planes of a side, which share its sets.
const SIDES: [[Pattern; 2]; 2] = [
    [Pattern::HorizontalPush, Pattern::VerticalPush],
    [Pattern::HorizontalPull, Pattern::VerticalPull],
];

/// Fewest days a week that always carry both planes.
const FROM_DAYS: usize = 3;
/// Fewest days a week that rather carry both.
const RATHER_FROM: usize = 2;

/// Whether an entry presses or pulls in a plane, over several joints.
fn is_of(entry: &Entry, plane: Pattern) -> bool {
    entry.pattern == Some(plane) && entry.kind == Some(Kind::Compound)
}

/// Whether a client's limits leave a plane to ask for: who should spare the arms overhead is not asked for work there.
fn is_open(request: &Request, plane: Pattern) -> bool {
    let overhead = matches!(plane, Pattern::VerticalPush | Pattern::VerticalPull);
    !(overhead && request.profile.limits.iter().any(|limit| limit.stress() == Stress::Overhead))
}

/// Whether an entry is a reason to ask for its plane: a stand-in is none.
fn serves(entry: &Entry, plane: Pattern) -> bool {
    is_of(entry, plane) && entry.standing != Standing::StandIn
}

/// The planes a request should have.
fn wanted(request: &Request) -> Vec<Pattern> {
    let possible = |plane: &Pattern| {
        let mut of_plane = request.candidates.iter().filter(|one| one.pattern == *plane);
        of_plane.any(|one| serves(&one.entry, *plane))
    };
    if request.days.len() < RATHER_FROM {
        Vec::new()
    } else {
        PLANES.into_iter().filter(|plane| is_open(request, *plane)).filter(possible).collect()
    }
}

impl Rule for Planes {
    fn id(&self) -> &'static str {
        "planes"
    }
    fn summary(&self) -> &'static str {
        "from three days a week pushes and pulls come both level and overhead, on two where it can be"
    }
    fn force(&self) -> Force {
        Force::Ranges
    }
    fn add_to(&self, weekly: &mut Weekly) {
        for plane in wanted(weekly.request) {
            let done: Vec<Term> = weekly
                .picks
                .iter()
                .filter(|pick| is_of(&weekly.candidate(pick).entry, plane))
                .map(|pick| (pick.chosen, 1.0))
                .collect();
            let (tier, cost) = if weekly.request.days.len() >= FROM_DAYS {
                (Tier::Ranges, PLANE_MISSING)
            } else {
                (Tier::View, PLANE_LACKING)
            };
            weekly.miss(self.id(), plane.id(), tier, at_least(done, 1.0), cost);
        }
        self.add_shares(weekly);
        self.add_pulldowns(weekly);
    }
    fn recount(&self, request: &Request, week: &Week) -> Vec<Finding> {
        let any_left =
            |plane: &Pattern| request.eligible_for(Role::Work).any(|entry| serves(entry, *plane));
        let always = request.days.len() >= FROM_DAYS;
        let wanted = PLANES
            .into_iter()
            .filter(|plane| request.days.len() >= RATHER_FROM && is_open(request, *plane));
        wanted
            .filter(any_left)
            .filter(|plane| week.sets_of(|entry| is_of(entry, *plane)) == 0)
            .map(|plane| {
                let wanted = Figure::OneInTheWeek(plane.to_string());
                let finding = Finding::broken(self.id(), plane.id(), wanted, Figure::None);
                if always { finding.as_shortfall() } else { finding.as_remark() }
            })
            .collect()
    }
}

impl Planes {
    /// Rows pay for the presses: where size is not the goal something is pulled down on every second day at most.
    fn add_pulldowns(&self, weekly: &mut Weekly) {
        let days = weekly.request.days.len();
        if days < RATHER_FROM || weekly.request.profile.goal == Goal::Hypertrophy {
            return;
        }
        let open = |one: &Candidate| {
            is_of(&one.entry, Pattern::VerticalPull) && !weekly.request.is_pushed(&one.id)
        };
        let picks = weekly.picks.iter().filter(|pick| open(weekly.candidate(pick)));
        let row: Vec<Term> = picks.map(|pick| (pick.chosen, 1.0)).collect();
        let most = f64::from(u32::try_from(days.div_ceil(2)).unwrap_or(u32::MAX));
        if !row.is_empty() {
            let wish = at_most(row, most).missed_by(14.0);
            weekly.miss(self.id(), "pulled_down", Tier::View, wish, PULLED_DOWN_AGAIN);
        }
    }

    /// A third of a side's sets for each of its planes, where it has both.
    fn add_shares(&self, weekly: &mut Weekly) {
        let wanted = wanted(weekly.request);
        for [one, other] in
            SIDES.into_iter().filter(|side| side.iter().all(|plane| wanted.contains(plane)))
        {
            for (plane, rest) in [(one, other), (other, one)] {
                let mut row = times(weekly.sets_of(|lift| is_of(&lift.entry, plane)), 2.0);
                row.extend(minus(weekly.sets_of(|lift| is_of(&lift.entry, rest))));
                let wish = at_least(row, 0.0).missed_by(200.0);
                let subject = format!("{plane}_share");
                weekly.miss(self.id(), subject, Tier::View, wish, PLANE_THIN);
            }
        }
    }
}
