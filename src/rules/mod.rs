//! The rules of a good week, one file each, in the order they are explained and documented.
//!
//! A rule adds rows to the weekly model through the ledger, and recounts a finished week without them: the
//! recount reads only the week, the request's profile and the catalog. A new rule is one file and one line.

use std::collections::BTreeSet;
use std::fmt::{self, Write as _};

pub use self::finding::{Bound, Figure, Finding, Severity, Unit};
use self::reason::Reason;
use self::relaxation::Relaxation;
use crate::model::Weekly;
use crate::program::Role;
use crate::request::Request;
use crate::split::Split;
use crate::week::Week;

pub mod finding;
pub mod reason;
pub mod relaxation;
mod subject;

macro_rules! rules {
    ($($module:ident :: $rule:ident),+ $(,)?) => {
        $(mod $module;)+
        /// Every rule. Help, audit, README table, conflict report and row names come from this list.
        pub const RULES: &[&dyn Rule] = &[$(&$module::$rule),+];
    };
}

rules! {
    kit::UsableKit,
    limits::Limits,
    pain::Pain,
    wish_lists::WishLists,
    level::Level,
    session_minutes::SessionMinutes,
    recovery::Recovery,
    session_cap::SessionCap,
    family::Family,
    weekly_uses::WeeklyUses,
    session_size::SessionSize,
    sets_per_exercise::SetsPerExercise,
    coverage::Coverage,
    strength_lifts::StrengthLifts,
    known_lifts::KnownLifts,
    floor::VolumeFloor,
    weekly_volume::WeeklyVolume,
    balance::PushPullBalance,
    leg_day::LegDay,
    arm_work::ArmWork,
    emphasis::Emphasis,
    planes::Planes,
    fractional_cap::FractionalCap,
    explosive::ExplosiveWork,
    complete_week::CompleteWeek,
    three_sets::ThreeSets,
    whole_body_day::WholeBodyDay,
    exercise_count::ExerciseCount,
    working_sets::WorkingSets,
    different_exercises::DifferentExercises,
    pattern_repeats::PatternRepeats,
    trunk_work::TrunkWork,
    lifts_first::LiftsFirst,
    heavy_lifts::HeavyLifts,
    lower_back::LowerBack,
    knee_and_hip::KneeAndHip,
    before_sport::BeforeSport,
    beside_sport::BesideSport,
    fresh_lifts::FreshLifts,
    each_side_legs::EachSideLegs,
    support_lifts::SupportLifts,
    usual_sets::UsualSets,
    lead_lift::LeadLift,
    parent_first::ParentFirst,
    beginner_bars::BeginnerBars,
    more_sets::MoreSets,
    coach_view::CoachView,
    two_days::TwoDays,
    steady::Steady,
    stations::Stations,
    main_lift_repeats::MainLiftRepeats,
    pairs::Pairs,
    order::Order,
    grip_order::GripOrder,
    trunk_order::TrunkOrder,
    planned_time::PlannedTime,
    preparation::Preparation,
    focus::Focus,
    reserve::Reserve,
    ramp::Ramp,
    conditioning::Conditioning,
}

/// The weekly model over the kept candidates, with the rows and goals of every rule.
#[must_use]
pub fn weekly_model<'a>(
    request: &'a Request,
    split: &'a Split,
    keep: &BTreeSet<usize>,
) -> Weekly<'a> {
    let mut weekly = Weekly::new(request, split, keep);
    for rule in RULES {
        rule.add_to(&mut weekly);
    }
    weekly
}

/// The weekly model without conventions, which may stand in the way of every week.
#[must_use]
pub fn demands_only(mut weekly: Weekly<'_>) -> Weekly<'_> {
    weekly.model.rows.retain(|row| row.role != Role::Convention);
    weekly
}

/// The weekly model with nothing but the demands and the variables that they look at, and without goals.
#[must_use]
pub fn hard_rows_only(weekly: Weekly<'_>) -> Weekly<'_> {
    let mut weekly = demands_only(weekly);
    weekly.goals.clear();
    weekly.model.drop_unused_definitions();
    weekly
}

/// The rule that tells a shortfall of another at the same place, where it falls short there too.
#[must_use]
pub fn told_by(rule: &str) -> Option<&'static str> {
    RULES.iter().find(|known| known.id() == rule)?.told_by()
}

/// How much a rule demands.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Force {
    /// Holds in every plan.
    Hard,
    /// Wanted first: patterns and floors.
    Coverage,
    /// Wanted next: ranges and balance.
    Ranges,
    /// Wanted after that: how a good coach would like the week.
    View,
}

impl fmt::Display for Force {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Force::Hard => "hard",
            Force::Coverage => "wished first",
            Force::Ranges => "wished next",
            Force::View => "coach's view",
        })
    }
}

/// The rules as a Markdown table: id, demand and force, in the order of [`RULES`]. The README holds it.
#[must_use]
pub fn table() -> String {
    let mut table = String::from("| Rule | What it demands | Force |\n| --- | --- | --- |\n");
    for rule in RULES {
        writeln!(table, "| `{}` | {} | {} |", rule.id(), rule.summary(), rule.force())
            .expect("a string takes every write");
    }
    table
}

/// One rule.
pub trait Rule: Sync {
    /// Its stable id.
    fn id(&self) -> &'static str;
    /// One sentence.
    fn summary(&self) -> &'static str;
    /// How much it demands.
    fn force(&self) -> Force;
    /// Its rows and goals in the weekly model. Rules about order and arrangement have none.
    fn add_to(&self, _weekly: &mut Weekly) {}
    /// Why it stands in the way, where its rows about a subject collide with others.
    fn reason(&self, request: &Request, subject: &str) -> Reason {
        let says = format!(": {}", self.summary());
        Reason::of_a_day(request, subject, [says.clone(), says])
    }
    /// What of the profile may be loosened then.
    fn relaxations(&self, request: &Request, subject: &str) -> Vec<Relaxation> {
        Relaxation::longer_session(request, subject)
    }
    /// The weeks of a course in which its hard side holds.
    fn holds_in(&self) -> Weeks {
        if self.force() == Force::Hard { Weeks::Every } else { Weeks::Fullest }
    }
    /// Whether it is only a remark after the first block.
    fn is_of_the_first_block(&self) -> bool {
        false
    }
    /// The rule that tells a shortfall of this one at the same place, where it falls short there too.
    fn told_by(&self) -> Option<&'static str> {
        None
    }
    /// What a finished week misses.
    fn recount(&self, request: &Request, week: &Week) -> Vec<Finding>;
}

/// Weeks of a course.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Weeks {
    /// All of them.
    Every,
    /// Not an easier week or one of measures, which have less.
    Full,
    /// The one that the plan shows.
    Fullest,
}

/// Sets to whole half-sets.
#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "clamped to 0..=400")]
#[must_use]
pub fn to_halves(sets: f64) -> u32 {
    (sets * 2.0).round().clamp(0.0, 400.0) as u32
}
