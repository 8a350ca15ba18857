//! What every wish weighs, in one table. A cost is paid where a wish is missed, a point is won where it is met; only
//! weights of one tier are ever weighed against each other. All are common practice of ours, found by reading weeks.

use std::fmt::Write as _;

use super::tier::Tier;

/// A weight with the rule that uses it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Weight {
    /// Its name here.
    pub name: &'static str,
    /// The tier that it counts in.
    pub tier: Tier,
    /// The rule's id, or what of the model.
    pub rule: &'static str,
    /// Costs or points.
    pub value: f64,
    /// What it is paid or given for.
    pub what: &'static str,
}

macro_rules! weights {
    ($($tier:ident { $($rule:literal: $(#[doc = $what:literal] $name:ident = $value:expr;)+)+ })+) => {
        $($($(#[doc = $what] pub const $name: f64 = $value;)+)+)+
        /// Every weight, in the order of the tiers.
        pub const WEIGHTS: &[Weight] = &[$($($(Weight {
            name: stringify!($name),
            tier: Tier::$tier,
            rule: $rule,
            value: $value,
            what: $what,
        },)+)+)+];
    };
}

weights! {
    Coverage {
        "coverage":
            /// Cost of a pattern that the week lacks.
            PATTERN_MISSING = 10.0;
        "volume-floor":
            /// Cost of a half-set of a major muscle under its floor.
            FLOOR_MAJOR = 2.0;
            /// Cost of a half-set of another muscle under its floor.
            FLOOR_MINOR = 1.0;
    }
    Ranges {
        "weekly-volume":
            /// Cost of a half-set of a major muscle under its range.
            UNDER_MAJOR = 20.0;
            /// Cost of a half-set of another muscle under its range.
            UNDER_MINOR = 10.0;
            /// Cost of a half-set over the range, or over the most of a muscle without a target.
            OVER_RANGE = 10.0;
        "balance":
            /// Cost of a set outside a band.
            OUT_OF_BALANCE = 10.0;
        "planes":
            /// Cost of a plane that is missing.
            PLANE_MISSING = 40.0;
        "fractional-cap":
            /// Cost of a half-set over the cap within the recovery hours.
            CROWDED = 10.0;
        "explosive-work":
            /// Cost of an exposure that is missing.
            EXPOSURE_MISSING = 60.0;
    }
    Changes {
        "changes":
            /// Cost of a pick that goes though it could stay, or that comes beyond those that cannot stay.
            PICK_CHANGED = 1.0;
            /// Cost of a set more or less: a hundredth of a pick, as no plan has a hundred.
            SET_MOVED = 0.01;
    }
    View {
        "whole-body-day":
            /// A day for the whole body without a leg lift, a push or a pull.
            SIDE_MISSING = -18.0;
        "exercise-count":
            /// A session of two exercises where its minutes hold three.
            FEW_EXERCISES = -20.0;
        "different-exercises":
            /// One more exercise to learn for a novice.
            TO_LEARN = -2.0;
        "lead-lift":
            /// A session without a lift to lead it.
            NO_LEAD = -60.0;
        "more-sets":
            /// A half-set up to the middle of its range.
            TO_MIDDLE = 3.0;
            /// A half-set from the middle of its range to the end.
            TO_HIGH = 1.0;
            /// A half-set of a smaller muscle without a target.
            EXTRA = 1.0;
        "two-days":
            /// A half-set over the share that one day may hold.
            LOPSIDED = -3.0;
        "stations":
            /// A station, so that a session does not wander.
            STATION = -2.0;
            /// A station over the number.
            STATION_OVER = -15.0;
        "main-lift-repeats":
            /// A main lift that comes twice, up to the wanted number.
            MAIN_REPEATED = 12.0;
        "strength-lifts":
            /// A squat, hinge or press without a heavy main lift.
            MAIN_MISSING = -30.0;
        "pairs":
            /// A pair where the client likes them.
            PAIR_LIKED = 4.0;
        "planned-time":
            /// A minute under the aim.
            IDLE_MINUTE = -1.0;
        "coach-view":
            /// A main lift with the bar.
            MAIN_BAR = 3.0;
            /// Another main lift.
            MAIN_OTHER = -1.0;
            /// Another exercise of several joints, or explosive work: each one costs attention and floor time.
            COMPOUND = -4.0;
            /// Isolation, trunk work and the like.
            ISOLATION = -5.0;
            /// Isolation for a novice.
            ISOLATION_NOVICE = -7.0;
            /// A carry.
            CARRY = -8.0;
            /// An exercise that the client likes.
            PREFERRED = 25.0;
            /// An exercise that the client dislikes.
            AVOIDED = -40.0;
            /// A main lift of the last block.
            KEPT = 15.0;
            /// A lift that the client did lately.
            KNOWN = 6.0;
            /// An exercise of the client's own level.
            OWN_LEVEL = 1.0;
            /// A beginner's form without load for an advanced client, where the trade has a harder one.
            TOO_EASY = -12.0;
            /// An exercise that is not loaded in steps, where the goal needs load and the place has a loaded one of its pattern.
            UNLOADED = -9.0;
            /// The same for other goals.
            UNLOADED_FOR_FITNESS = -7.0;
    }
}

/// More sets count so many times for a muscle that should get more.
pub const EMPHASIS: f64 = 2.0;

/// The weights as a Markdown table. DEVELOPERS.md holds it.
#[must_use]
pub fn table() -> String {
    let mut table = String::from("| Tier | Rule | Weight | For |\n| --- | --- | ---: | --- |\n");
    for Weight { tier, rule, value, what, .. } in WEIGHTS {
        writeln!(table, "| {tier} | `{rule}` | {value} | {} |", what.trim())
            .expect("a string takes every write");
    }
    table
}
