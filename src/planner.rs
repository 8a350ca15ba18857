//! A profile goes in, an audited plan comes out.

use std::collections::BTreeSet;
use std::sync::Arc;

use crate::audit::{self, Audit, Misread};
use crate::catalog::Catalog;
use crate::explain::conflict::{self, Conflict};
use crate::explain::shortfall;
use crate::explain::ways::{self, WayOut};
use crate::input::plan::{
    FORMAT, Inputs, Plan, ProfileRef, Shortfall, Solve, SolveStatus, SplitUsed, TierValue,
};
use crate::input::profile::Profile;
use crate::plan::course::Course;
use crate::plan::screening::{self, Withheld};
use crate::plan::{compose, seal};
use crate::request::{Entries, Request, resolve};
use crate::rules::{Finding, Severity};
use crate::search::budget::Budget;
use crate::search::probe::{self, Tried};
use crate::search::solve::{self, NoWeek};
use crate::search::{Solution, model_file, relaxation};
use crate::split::{Split, design};
use crate::strength::racks;
use crate::strength::working_load::KnownLifts;

/// What a coach may choose beside the profile.
#[derive(Debug, Clone, Default)]
pub struct Options {
    /// Chooses among equally good weeks.
    pub seed: u64,
    /// The plan of the last block, whose main lifts are kept where that costs nothing.
    pub previous: Option<Plan>,
    /// How much work the search may spend.
    pub budget: Budget,
    /// Where the hard rules collide, apply the cheapest way out and say so in the plan.
    pub best_effort: bool,
}

/// Why there is no plan.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum NoPlan {
    /// No week meets the hard rules: what collides.
    #[error("no week meets all hard rules")]
    Impossible(Box<Impossible>),
    /// The search stopped before it found a week, which proves nothing.
    #[error("the search stopped before it found a week; this proves nothing about the wishes")]
    Stopped,
    /// More work than was allowed, in changes of a week that are tried.
    #[error("it takes more work than the {} thousand changes of a week that were allowed", .0 / 1000)]
    Spent(u64),
    /// A clinician comes first, or the client is too young.
    #[error("{0}")]
    Withheld(Withheld),
    /// Our own audit refuses the plan, which is a fault of ours.
    #[error("the plan did not pass its own audit; please report this")]
    Refused(Vec<Finding>),
}

/// What collides, and what would bring a plan.
#[derive(Debug, Clone, PartialEq)]
pub struct Impossible {
    /// A minimal set of hard rules that cannot hold together; `None` where only the search says so.
    pub conflict: Option<Conflict>,
    /// Up to three cheapest ways out, smallest first. Each was planned.
    pub ways: Vec<WayOut>,
}

/// Plans, audits and all else with one catalog.
#[derive(Debug, Clone)]
pub struct Planner {
    catalog: Catalog,
    entries: Entries,
}

impl Planner {
    /// A planner with the built-in catalog.
    #[must_use]
    pub fn built_in() -> Planner {
        Planner::new(Catalog::built_in())
    }

    /// A planner with a catalog.
    #[must_use]
    pub fn new(catalog: Catalog) -> Planner {
        let entries =
            catalog.iter().map(|entry| (entry.id.clone(), Arc::new(entry.clone()))).collect();
        Planner { catalog, entries }
    }

    /// The same planner with the exercises that a plan carries.
    #[must_use]
    pub fn with_plan(&self, plan: &Plan) -> Planner {
        if plan.exercises.is_empty() {
            return self.clone();
        }
        Planner::new(self.catalog.clone().with_entries(plan.exercises.values().cloned()))
    }

    /// The catalog.
    #[must_use]
    pub fn catalog(&self) -> &Catalog {
        &self.catalog
    }

    /// Plans a profile whose place is merged in and which passed the input checks.
    ///
    /// # Errors
    /// Why there is no plan.
    pub fn plan(&self, profile: &Profile, options: &Options) -> Result<Plan, NoPlan> {
        let advice = screening::advise(profile);
        if let Some(withheld) = advice.withheld {
            return Err(NoPlan::Withheld(withheld));
        }
        let request = self.request(profile, options);
        let splits = design::candidates(&request);
        let outcome = match self.solved(&request, &splits, options.budget, advice.cautions) {
            Err(NoPlan::Impossible(found)) if options.best_effort && !found.ways.is_empty() => {
                self.best_effort(&found.ways[0], options)
            }
            outcome => outcome,
        };
        // What was found by a search that ended early depends on where the others stood, so none of it is told.
        if let Some(most) = request.turn.spent() {
            return Err(NoPlan::Spent(most));
        }
        let mut plan = outcome?;
        seal::seal(&mut plan);
        Ok(plan)
    }

    /// The plan of a profile with a way out applied, which says so.
    fn best_effort(&self, way: &WayOut, options: &Options) -> Result<Plan, NoPlan> {
        let plain = Options { best_effort: false, ..options.clone() };
        let mut plan = self.plan(&way.profile, &plain)?;
        let told = way.changes.iter().map(|change| {
            let [wanted, got] = change.before_and_now();
            Shortfall {
                rule: "best-effort".to_owned(),
                wanted,
                got,
                because: "the hard rules of the profile collide, and this is the cheapest way out"
                    .to_owned(),
            }
        });
        plan.shortfalls.splice(0..0, told);
        Ok(plan)
    }

    /// The audited plan of a request under the best of some splits.
    pub(crate) fn solved(
        &self,
        request: &Request,
        splits: &[Split],
        budget: Budget,
        cautions: Vec<String>,
    ) -> Result<Plan, NoPlan> {
        let solution = best_solution(request, splits, budget)?;
        if request.turn.is_over() {
            return Err(NoPlan::Stopped);
        }
        let plan = self.written(request, &solution, cautions, budget.asks_why);
        Planner::checked(plan, request)
    }

    /// A plan that passes its own audit.
    pub(crate) fn checked(plan: Plan, request: &Request) -> Result<Plan, NoPlan> {
        match audit::audit(&plan, request) {
            Ok(audit) if audit.passes() => Ok(plan),
            Ok(audit) => Err(NoPlan::Refused(audit.of(Severity::Broken).cloned().collect())),
            Err(faults) => Err(NoPlan::Refused(misread(&faults))),
        }
    }

    /// The weekly model of a plan as free MPS, its goal the least of the negative points: the split and the
    /// values of tiers 1 and 2 are the plan's. `None` where a plan does not tell these, or is not of this
    /// catalog and these options.
    #[must_use]
    pub fn weekly_mps(&self, plan: &Plan, options: &Options) -> Option<String> {
        let ProfileRef::Whole(profile) = &plan.profile else { return None };
        let used = plan.split.as_ref()?;
        let solve = plan.solve.as_ref()?;
        let request = self.request(profile, options);
        let splits = design::candidates(&request);
        let split = splits.iter().find(|split| split.name == used.name)?;
        Some(model_file::weekly_mps(&request, split, &solve.tiers))
    }

    /// The tiers of a plan of ours with the bounds that the relaxation proves, which takes longer than planning.
    #[must_use]
    pub fn proven_bounds(&self, plan: &Plan, options: &Options) -> Option<Vec<TierValue>> {
        let ProfileRef::Whole(profile) = &plan.profile else { return None };
        let used = plan.split.as_ref()?;
        let request = self.request(profile, options);
        let splits = design::candidates(&request);
        let split = splits.iter().find(|split| split.name == used.name)?;
        Some(relaxation::bounds(&request, split, &plan.solve.as_ref()?.tiers))
    }

    /// What a profile asks for, typed.
    #[must_use]
    pub fn request(&self, profile: &Profile, options: &Options) -> Request {
        let mains = options.previous.as_ref().map(|plan| self.mains(plan)).unwrap_or_default();
        let resolved = resolve::resolve(profile.clone(), self.entries.clone(), mains, options.seed);
        Request { turn: options.budget.turn, ..resolved }
    }

    /// What each split that a plan of ours was chosen from is worth after its first game.
    #[must_use]
    pub fn splits_tried(&self, plan: &Plan, options: &Options) -> Vec<Tried> {
        let ProfileRef::Whole(profile) = &plan.profile else { return Vec::new() };
        let request = self.request(profile, options);
        probe::tried(&request, &design::candidates(&request), options.budget)
    }

    fn mains(&self, plan: &Plan) -> BTreeSet<String> {
        let items =
            plan.sessions.iter().flat_map(|session| &session.groups).flat_map(|group| &group.items);
        let main = |id: &&String| self.entries.get(*id).is_some_and(|entry| entry.main);
        items.map(|item| &item.exercise).filter(main).cloned().collect()
    }

    /// Audits a plan by its own profile, which must be whole.
    ///
    /// # Errors
    /// What of the plan cannot be counted.
    pub fn audit(&self, plan: &Plan) -> Result<Audit, Vec<Misread>> {
        let ProfileRef::Whole(profile) = &plan.profile else {
            return Err(Vec::new());
        };
        let added = plan.exercises.values().cloned();
        let planner = Planner::new(self.catalog.clone().with_entries(added));
        let options = Options { seed: plan.seed, ..Options::default() };
        let mut audit = audit::audit(plan, &planner.request(profile, &options))?;
        audit.findings.extend(planner.other_catalog(plan));
        Ok(audit)
    }

    /// A catalog that is not the plan's own any more.
    fn other_catalog(&self, plan: &Plan) -> Option<Finding> {
        let inputs = plan.inputs.as_ref()?;
        let is_other = inputs.catalog_sha256 != self.catalog.sha256();
        let finding = || {
            let wanted = "the catalog that the plan was made from";
            Finding::broken("edited", "catalog", wanted, "another").as_remark()
        };
        is_other.then(finding)
    }

    /// Counts the tables of a plan that has none: weekly sets and balance.
    pub fn count(&self, plan: &mut Plan) {
        let ProfileRef::Whole(profile) = &plan.profile else { return };
        let planner = self.with_plan(plan);
        let request = planner.request(profile, &Options { seed: plan.seed, ..Options::default() });
        let Ok(week) = audit::week_of(&plan.sessions, &request) else { return };
        if plan.volume.is_empty() {
            plan.volume = audit::volume(&request, &week);
        }
        plan.balance = plan.balance.or_else(|| Some(audit::balance(&week)));
    }

    fn written(
        &self,
        request: &Request,
        solution: &Solution,
        cautions: Vec<String>,
        asks_why: bool,
    ) -> Plan {
        let course = Course::new(request);
        let sessions = course.with_endings(compose::sessions(request, solution, 0));
        let weeks = course.weeks(&|block| compose::sessions(request, solution, block));
        let mut cautions = cautions;
        cautions.extend(course.notes().to_vec());
        cautions.extend(KnownLifts::of(&request.profile).remarks());
        let place = request.profile.equipment.as_ref();
        cautions
            .extend(place.and_then(|place| racks::without_plates(place, request.profile.units)));
        let week = audit::week_of(&sessions, request).expect("what is composed can be counted");
        let view = solution.tiers.last().expect("every solution has its tiers");
        let gap = (view.bound - view.value).abs() / view.value.abs().max(1.0);
        Plan {
            format: FORMAT.to_owned(),
            client: request.profile.client.clone(),
            seed: request.seed,
            inputs: Some(Inputs {
                profile_sha256: sha256(&request.profile),
                catalog_sha256: self.catalog.sha256(),
                version: env!("CARGO_PKG_VERSION").to_owned(),
                picks_sha256: Some(seal::picks(&sessions)),
                parts_sha256: std::collections::BTreeMap::new(),
                book: None,
            }),
            profile: ProfileRef::Whole(Box::new(request.profile.clone())),
            exercises: self.added_entries(),
            solve: Some(Solve {
                backend: solution.backend.name().to_owned(),
                status: solution.status,
                gap: if solution.status == SolveStatus::Proven {
                    0.0
                } else {
                    (gap * 1e4).round() / 1e4
                },
                bound: view.bound,
                objective: view.value,
                tiers: solution.tiers.clone(),
                points: solution.points.clone(),
            }),
            split: Some(SplitUsed {
                name: solution.split.name.clone(),
                days: solution.split.days.iter().map(|day| day.idea.clone()).collect(),
            }),
            sessions,
            volume: audit::volume(request, &week),
            balance: Some(audit::balance(&week)),
            shortfalls: shortfalls(request, &week, asks_why),
            cautions,
            weeks,
            exceptions: Vec::new(),
            pauses: Vec::new(),
            reworked_from: Vec::new(),
        }
    }

    fn added_entries(&self) -> std::collections::BTreeMap<String, crate::input::catalog::Entry> {
        let added = self.catalog.added().filter_map(|id| self.catalog.get(id));
        added.map(|entry| (entry.id.clone(), entry.clone())).collect()
    }
}

/// The best week over the splits worth trying. That there is none is proven only where every one of them is.
fn best_solution(request: &Request, splits: &[Split], budget: Budget) -> Result<Solution, NoPlan> {
    solve::best(request, splits, budget).map_err(|nothing| match nothing {
        NoWeek::Impossible => NoPlan::Impossible(Box::new(impossible(request))),
        NoWeek::NotFound => NoPlan::Stopped,
    })
}

/// What collides and the ways out of it.
fn impossible(request: &Request) -> Impossible {
    let conflict = conflict::explain(request);
    let ways = conflict.as_ref().map(|conflict| ways::ways_out(request, conflict));
    Impossible { ways: ways.unwrap_or_default(), conflict }
}

/// Wishes that fall short, those that came down before solving first; why, where that is asked.
pub(crate) fn shortfalls(
    request: &Request,
    week: &crate::week::Week,
    asks_why: bool,
) -> Vec<Shortfall> {
    let lowered = request.lowered.iter().map(|lowered| Shortfall {
        rule: "weekly-volume".to_owned(),
        wanted: format!("{}: {} sets a week", lowered.muscle.name(), lowered.wanted),
        got: format!("planned for {}", lowered.planned),
        because: lowered.because.clone(),
    });
    let found = audit::recount(request, week);
    let short: Vec<Finding> =
        found.into_iter().filter(|finding| finding.severity == Severity::Shortfall).collect();
    let reasons = match asks_why {
        true => shortfall::reasons(request, week, &short),
        false => shortfall::not_asked(&short),
    };
    let told = short.into_iter().zip(reasons).map(|(finding, (because, _))| Shortfall {
        rule: finding.rule.to_owned(),
        wanted: format!("{}: {}", finding.place, finding.wanted),
        because,
        got: finding.got.to_string(),
    });
    lowered.chain(told).collect()
}

/// SHA-256 of a profile as resolved, in lower-case hex.
pub(crate) fn sha256(profile: &Profile) -> String {
    seal::of_profile(profile)
}

fn misread(faults: &[Misread]) -> Vec<Finding> {
    faults
        .iter()
        .map(|fault| {
            Finding::broken("plan", "plan", "sessions that can be counted", fault.to_string())
        })
        .collect()
}
