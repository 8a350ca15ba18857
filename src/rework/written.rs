//! A plan that somebody wrote or edited by hand, and what it misses as it stands.

use crate::audit;
use crate::input::plan::Plan;
use crate::input::profile::Profile;
use crate::planner::{Options, Planner};
use crate::request::candidate::halves;
use crate::request::{Request, Rework};
use crate::rules::{Finding, Severity};
use crate::search::rework;
use crate::words::Muscle;

use super::splits;
use super::table::work;

/// How the history of a plan says that it goes back to one by hand.
pub(super) const BY_HAND: &str = "by hand";

/// What a plan by hand misses.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Written {
    /// Wishes, which a rework leaves as they are.
    pub missed: Vec<Finding>,
    /// Hard rules, which a rework mends.
    pub broken: Vec<Finding>,
}

impl Written {
    /// Recounts a plan by its own profile.
    pub(super) fn of(planner: &Planner, plan: &Plan, profile: &Profile) -> Written {
        let request = planner.request(profile, &Options::default());
        let week = audit::week_of(&plan.sessions, &request);
        let found = week.map(|week| audit::recount(&request, &week)).unwrap_or_default();
        let of = |severity| found.iter().filter(move |one| one.severity == severity).cloned();
        Written {
            missed: of(Severity::Shortfall).collect(),
            broken: of(Severity::Broken).collect(),
        }
    }
}

/// A request that holds what a plan by hand misses by its own profile.
#[must_use]
pub(crate) fn held(plan: &Plan, mut request: Request, own: &Request) -> Request {
    let Some(rework) = request.rework.as_mut().filter(|rework| rework.as_written) else {
        return request;
    };
    let own = Request { rework: Some(Rework::of(plan, own)), ..own.clone() };
    if let Some(split) = splits(plan, &own).first() {
        rework.misses = rework::misses(&own, split);
    }
    request
}

/// Whether a plan, or one that it was reworked from, is by hand: it was never solved, or its sets are not those that it
/// was solved with.
pub(super) fn is_by_hand(plan: &Plan, request: &Request) -> bool {
    let goes_back =
        plan.reworked_from.iter().any(|past| past.changes.iter().any(|one| one == BY_HAND));
    let sets = |muscle: Muscle| -> u32 {
        let items = plan.sessions.iter().flat_map(work);
        items
            .filter_map(|item| {
                Some(item.sets * halves(request.entries.get(&item.exercise)?, muscle))
            })
            .sum()
    };
    let planned = |muscle: Muscle| {
        let line = plan.volume.iter().find(|line| line.muscle == muscle);
        crate::rules::to_halves(line.map_or(0.0, |line| line.sets))
    };
    let picks = plan.inputs.as_ref().and_then(|inputs| inputs.picks_sha256.as_ref());
    if let Some(picks) = picks {
        return goes_back || *picks != crate::plan::seal::picks(&plan.sessions);
    }
    goes_back
        || plan.solve.is_none()
        || Muscle::ALL.iter().any(|muscle| sets(*muscle) != planned(*muscle))
}
