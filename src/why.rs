//! Why a plan is as it is: each answer is read from the plan, or planned again.

mod cost;

use std::collections::{BTreeMap, BTreeSet};
use std::sync::OnceLock;

use rayon::prelude::*;
use serde::Serialize;

use crate::explain::conflict;
use crate::input::plan::{Plan, RuleValue, Shortfall, TierValue};
use crate::model::tier::Tier;
use crate::planner::{Options, Planner, shortfalls};
use crate::request::candidate::halves;
use crate::request::turn::Turn;
use crate::request::{Request, Rework};
use crate::rework::table::{label, likeness, work};
use crate::rework::{BadAsk, edited, held, profile_of, request_of, splits};
use crate::search::Solution;
use crate::search::budget::{Budget, Heat};
use crate::search::probe;
use crate::search::solve::{self, NoWeek};
use crate::split::Split;
use crate::words::Muscle;

pub use cost::Cost;

/// Replacements that are planned again, and those that are told.
const TRIED: usize = 8;
const TOLD: usize = 5;

/// Enough for a week that is known but for one exercise: starting from the plan, a run and a half.
fn budget() -> Budget {
    Budget {
        heats: Heat::ONE_SPLIT,
        runs: 1,
        run_days: 1,
        proposals_a_day: 6000,
        rounds: 8,
        round_runs: 1,
        patience: 3,
        exact_picks: 0,
        mending: [0, 0],
        tells_all: false,
        ..Budget::default()
    }
}

/// The week in a page.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Page {
    /// Value and bound of each tier; none in a plan written by hand.
    pub tiers: Vec<TierValue>,
    /// What each rule costs or brings in its tier; none in a plan written by hand.
    pub points: Vec<RuleValue>,
    /// What binds on each day, the fullest first.
    pub days: Vec<DayPage>,
    /// Wishes that fall short.
    pub shortfalls: Vec<Shortfall>,
}

/// One day of the page.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct DayPage {
    /// The day.
    pub day: String,
    /// Minutes the client has.
    pub limit: u32,
    /// Minutes left over.
    pub left: f64,
    /// Caps that are reached.
    pub binding: Vec<String>,
}

/// A re-solved change: its cost, and the picks that come and go.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Effect {
    /// What it costs.
    pub cost: Cost,
    /// Picks that go.
    pub out: Vec<String>,
    /// Picks that come.
    pub comes: Vec<String>,
    /// Whether the plan as it stands could be better by itself, so that its rework is the base.
    pub against_rework: bool,
}

/// The answer about one exercise.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case", tag = "answer")]
pub enum About {
    /// It is in the plan.
    In {
        /// Sets by day.
        days: BTreeMap<String, u32>,
        /// Weekly fractional sets that it gives each muscle.
        gives: BTreeMap<Muscle, f64>,
        /// What leaving it out would cost; `None` where no week was found without it.
        without: Option<Effect>,
    },
    /// A rule keeps it out.
    Barred {
        /// Which, in words.
        because: String,
    },
    /// It could be in.
    Out {
        /// What putting it in would cost, or what it collides with.
        with: Result<Effect, String>,
    },
    /// It is no working exercise.
    NotWork,
}

/// One line of where a muscle's sets come from.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Source {
    /// The day.
    pub day: String,
    /// The exercise.
    pub exercise: String,
    /// Sets done.
    pub sets: u32,
    /// Fractional sets that they count for.
    pub counted: f64,
}

/// A replacement for an exercise, planned again.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Instead {
    /// The replacement.
    pub exercise: String,
    /// How alike it is; more is liker.
    pub likeness: u32,
    /// What it does to the week.
    pub effect: Effect,
}

/// A plan that is asked, with its request and splits.
pub struct Asked<'a> {
    plan: &'a Plan,
    request: Request,
    splits: Vec<Split>,
    /// The plan reworked without any ask: what changes are counted against.
    base: OnceLock<Option<Solution>>,
    /// Whether that alone misses less than the plan as it stands.
    is_bettered: OnceLock<bool>,
}

impl<'a> Asked<'a> {
    /// Readies a plan whose profile is whole.
    ///
    /// # Errors
    /// A profile that is only named.
    pub(crate) fn new(planner: &Planner, plan: &'a Plan) -> Result<Asked<'a>, BadAsk> {
        let options = Options { seed: plan.seed, ..Options::default() };
        let mut request = request_of(planner, plan, profile_of(plan)?, &options);
        request.rework = Some(Rework::of(plan, &request));
        let own = request.clone();
        let request = held(plan, request, &own);
        let splits = splits(plan, &request);
        let same = |split: &&Split| plan.split.as_ref().is_some_and(|used| used.name == split.name);
        let used: Vec<Split> = splits.iter().filter(same).cloned().collect();
        let splits = if used.is_empty() { splits } else { used };
        Ok(Asked { plan, request, splits, base: OnceLock::new(), is_bettered: OnceLock::new() })
    }

    /// The same for somebody who may go away.
    #[must_use]
    pub fn until(mut self, turn: Turn) -> Asked<'a> {
        self.request.turn = turn;
        self
    }

    /// The week in a page.
    #[must_use]
    pub fn page(&self) -> Page {
        let tiers = self.plan.solve.as_ref().map(|solve| solve.tiers.clone()).unwrap_or_default();
        let mut days: Vec<DayPage> = match crate::audit::week_of(&self.plan.sessions, &self.request)
        {
            Ok(week) => week.sessions.iter().map(|session| self.day(session)).collect(),
            Err(_) => Vec::new(),
        };
        days.sort_by(|one, other| one.left.total_cmp(&other.left));
        let points = self.plan.solve.as_ref().map(|solve| solve.points.clone()).unwrap_or_default();
        Page { tiers, points, days, shortfalls: self.shortfalls() }
    }

    /// The plan's own where it was planned from this profile; else they are counted, and nobody planned them so.
    fn shortfalls(&self) -> Vec<Shortfall> {
        let by_hand = self.request.rework.as_ref().is_some_and(|rework| rework.as_written);
        let as_planned = !by_hand && !edited(self.plan, &self.request.profile);
        match crate::audit::week_of(&self.plan.sessions, &self.request) {
            Ok(week) if !as_planned => shortfalls(&self.request, &week, true),
            _ => self.plan.shortfalls.clone(),
        }
    }

    fn day(&self, session: &crate::week::Session) -> DayPage {
        let day = &self.request.days[session.day];
        let left = f64::from(day.minutes) - crate::timing::tenths_of_minutes(session.seconds());
        let mut binding = Vec::new();
        for muscle in Muscle::ALL {
            let cap = self.request.figures.session_cap_of(*muscle);
            if session.direct(*muscle) < cap {
                continue;
            }
            binding.push(format!("{cap} direct sets of {muscle}, the most for a session"));
        }
        let items = session.work().count();
        if items >= self.request.figures.most_items as usize {
            binding.push(format!("{items} exercises, the most for a session"));
        }
        if left < 4.0 {
            binding.insert(0, "the minutes are used up".to_owned());
        }
        DayPage {
            day: session.label.clone(),
            limit: day.minutes,
            left: (left * 10.0).round() / 10.0,
            binding,
        }
    }

    /// The answer about an exercise that the catalog has.
    #[must_use]
    pub fn about(&self, id: &str) -> About {
        let Some(entry) = self.request.entries.get(id) else { return About::NotWork };
        let mut days = BTreeMap::new();
        for session in &self.plan.sessions {
            for item in work(session).into_iter().filter(|item| item.exercise == id) {
                *days.entry(label(session)).or_insert(0) += item.sets;
            }
        }
        if !days.is_empty() {
            let sets: u32 = days.values().sum();
            let gives = Muscle::ALL.iter().map(|muscle| (*muscle, sets * halves(entry, *muscle)));
            let gives = gives.filter(|(_, halves)| *halves > 0);
            let gives = gives.map(|(muscle, halves)| (muscle, f64::from(halves) / 2.0)).collect();
            let out = (0..self.request.days.len()).map(|day| ((day, id.to_owned()), false));
            let without = self.effect(&self.asking(out.collect(), None)).ok();
            return About::In { days, gives, without };
        }
        if let Some(reason) = self.request.barred.get(id) {
            return About::Barred { because: reason.to_string() };
        }
        if self.request.candidate(id).is_none() {
            return About::NotWork;
        }
        About::Out { with: self.effect(&self.asking(BTreeMap::new(), Some(id))) }
    }

    /// Where a muscle's sets come from.
    #[must_use]
    pub fn muscle(&self, muscle: Muscle) -> Vec<Source> {
        let mut sources = Vec::new();
        for session in &self.plan.sessions {
            for item in work(session) {
                let Some(entry) = self.request.entries.get(&item.exercise) else { continue };
                let counted = f64::from(item.sets * halves(entry, muscle)) / 2.0;
                if counted > 0.0 {
                    sources.push(Source {
                        day: label(session),
                        exercise: item.exercise.clone(),
                        sets: item.sets,
                        counted,
                    });
                }
            }
        }
        sources
    }

    /// The best replacements of an exercise on each day that has it: the likest are planned again, and ranked
    /// by what they do to the tiers, then by likeness.
    #[must_use]
    pub fn instead(&self, id: &str) -> Vec<Instead> {
        let Some(rework) = &self.request.rework else { return Vec::new() };
        let days: Vec<usize> =
            rework.picks.keys().filter(|(_, other)| other == id).map(|(day, _)| *day).collect();
        let fits =
            |other: &str| !days.is_empty() && days.iter().all(|day| !rework.names(*day, other));
        let mut likest: Vec<(u32, &str)> = self
            .request
            .candidates
            .iter()
            .map(|candidate| (likeness(&self.request, id, &candidate.id), candidate.id.as_str()))
            .filter(|(alike, other)| *alike > 0 && fits(other))
            .collect();
        likest.sort_by_key(|(alike, other)| (std::cmp::Reverse(*alike), *other));
        likest.truncate(TRIED);
        // Known before it is asked for side by side, so that no core waits for another.
        let Some(base) = (!likest.is_empty()).then(|| self.base()).flatten() else {
            return Vec::new();
        };
        self.is_bettered_by(base);
        let mut found: Vec<Instead> = likest
            .into_par_iter()
            .filter_map(|(likeness, other)| {
                let asked = days.iter().flat_map(|day| {
                    [((*day, id.to_owned()), false), ((*day, other.to_owned()), true)]
                });
                let effect = self.effect(&self.asking(asked.collect(), None)).ok()?;
                Some(Instead { exercise: other.to_owned(), likeness, effect })
            })
            .collect();
        found.sort_by(|one, other| {
            let (a, b) = (&one.effect.cost, &other.effect.cost);
            let tiers = a.coverage.total_cmp(&b.coverage).then(a.ranges.total_cmp(&b.ranges));
            tiers.then(a.view.total_cmp(&b.view)).then(other.likeness.cmp(&one.likeness))
        });
        found.truncate(TOLD);
        found
    }

    /// The request with picks asked for, and perhaps one exercise that must be in.
    fn asking(&self, asked: BTreeMap<(usize, String), bool>, must: Option<&str>) -> Request {
        let mut request = match must {
            Some(id) => {
                let mut profile = self.request.profile.clone();
                profile.exercises.must.push(id.to_owned());
                profile.exercises.avoid.retain(|other| other != id);
                self.request.with_profile(profile)
            }
            None => self.request.clone(),
        };
        if let Some(rework) = &mut request.rework {
            rework.asked = asked;
        }
        request
    }

    /// What a changed request does to the week, planned again from the plan as it stands.
    fn effect(&self, request: &Request) -> Result<Effect, String> {
        let base = self.base().ok_or("no week was found for this plan's own profile")?;
        let solution = solve::best(request, &self.splits, budget()).map_err(|nothing| {
            let is_impossible = nothing == NoWeek::Impossible;
            let found = is_impossible.then(|| conflict::explain(request)).flatten();
            found.map_or("no week with it was found".to_owned(), |found| conflict::sentence(&found))
        })?;
        let worse = |tier: Tier| rounded(tier.gain(value(base, tier), value(&solution, tier)));
        let [coverage, ranges, view] = [Tier::Coverage, Tier::Ranges, Tier::View].map(worse);
        let cost = Cost { coverage, ranges, view };
        let against_rework = self.is_bettered_by(base);
        let (out, comes) = exchanged((&self.request, base), (request, &solution));
        Ok(Effect { cost, out, comes, against_rework })
    }

    /// Whether the base misses less of tiers 1 and 2 than the plan as it stands.
    fn is_bettered_by(&self, base: &Solution) -> bool {
        *self.is_bettered.get_or_init(|| {
            let stands = probe::as_it_stands(&self.request, &self.splits).unwrap_or_default();
            let gain = |tier: Tier| tier.gain(value(base, tier), stands[tier]);
            [Tier::Coverage, Tier::Ranges].into_iter().any(|tier| gain(tier) > 0.01)
        })
    }

    /// The plan reworked without any ask.
    fn base(&self) -> Option<&Solution> {
        let found = || solve::best(&self.request, &self.splits, budget()).ok();
        self.base.get_or_init(found).as_ref()
    }
}

fn value(solution: &Solution, tier: Tier) -> f64 {
    solution.tiers.iter().find(|one| one.name == tier.name()).map_or(0.0, |one| one.value)
}

/// Picks that go and come from one week to another, as `day: exercise`.
fn exchanged(
    (old, base): (&Request, &Solution),
    (request, new): (&Request, &Solution),
) -> (Vec<String>, Vec<String>) {
    let picks = |solution: &Solution, of: &Request| -> BTreeSet<(usize, String)> {
        let done = solution.done.iter();
        done.map(|done| (done.day, of.candidates[done.candidate].id.clone())).collect()
    };
    let (before, after) = (picks(base, old), picks(new, request));
    let told = |(day, id): &(usize, String)| format!("{}: {id}", request.days[*day].label());
    (before.difference(&after).map(told).collect(), after.difference(&before).map(told).collect())
}

fn rounded(value: f64) -> f64 {
    (value * 100.0).round() / 100.0 + 0.0
}
