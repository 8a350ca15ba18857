//! `balance`: pulls to pushes and knee work to hip work stay inside their bands.
//!
//! Counted in whole sets of multi-joint pushes and pulls; knee is squat, lunge and knee extension, hip is hinge,
//! hip extension and knee flexion. Bands of 0.9-1.5 and 0.67-1.5 are common practice.

use super::{Finding, Force, Rule};
use crate::input::catalog::Entry;
use crate::model::goal::{Near, at_least, at_most};
use crate::model::points::{JUST_OUT_OF_BALANCE, OUT_OF_BALANCE};
use crate::model::tier::Tier;
use crate::model::{Weekly, minus, times};
use crate::program::Term;
use crate::request::Request;
use crate::week::Week;
use crate::words::{Kind, Muscle, Pattern, Role, Side};

/// Sets by side and week.
pub(super) struct PushPullBalance;

/// More sets than any week is out of a band by.
const MOST: f64 = 200.0;

/// One ratio: its name, what is counted above and below, and its band.
struct Ratio {
    name: &'static str,
    above: fn(Pattern) -> bool,
    below: fn(Pattern) -> bool,
    band: [f64; 2],
    /// Sets above that are done elsewhere, as far as they are needed.
    elsewhere: u32,
    /// Whether single-joint work stands apart.
    apart: bool,
}

/// Over all sets, arms and shoulders counted in, pushes to pulls. Common practice.
const PUSH_PULL_OVERALL: [f64; 2] = [0.6, 1.6];

/// The band over all sets, which never forbids what the client's own band for presses and pulls asks for.
fn overall(request: &Request) -> [f64; 2] {
    let [low, high] = request.profile.balance.pull_push;
    [PUSH_PULL_OVERALL[0].min(1.0 / high), PUSH_PULL_OVERALL[1].max(1.0 / low)]
}

/// Pulls that a hard session of a pulling sport is worth. Common practice.
const PULLS_OF_A_SPORT: u32 = 3;

/// The pulls that the client's own sport has done already.
fn pulled_elsewhere(request: &Request) -> u32 {
    let sports = [Muscle::Lats, Muscle::UpperBack].map(|one| request.hard_elsewhere(one).count());
    let hard = sports.into_iter().max().unwrap_or(0);
    PULLS_OF_A_SPORT * u32::try_from(hard).unwrap_or(0)
}

fn ratios(request: &Request) -> [Ratio; 3] {
    [
        Ratio {
            name: "pushes to pulls over all sets",
            above: |pattern| pattern.side() == Some(Side::Push),
            below: |pattern| pattern.side() == Some(Side::Pull),
            band: overall(request),
            elsewhere: 0,
            apart: false,
        },
        Ratio {
            name: "pull to push",
            above: |pattern| pattern.press_or_row() == Some(Side::Pull),
            below: |pattern| pattern.press_or_row() == Some(Side::Push),
            band: request.profile.balance.pull_push,
            elsewhere: pulled_elsewhere(request),
            apart: true,
        },
        Ratio {
            name: "knee to hip",
            above: Pattern::is_knee,
            below: Pattern::is_hip,
            band: request.profile.balance.knee_hip,
            elsewhere: 0,
            apart: false,
        },
    ]
}

/// Whether an entry counts for a side of a ratio.
fn counts(entry: &Entry, ratio: &Ratio, side: fn(Pattern) -> bool) -> bool {
    entry.pattern.is_some_and(side) && !(ratio.apart && entry.kind == Some(Kind::Isolation))
}

impl Rule for PushPullBalance {
    fn id(&self) -> &'static str {
        "balance"
    }
    fn summary(&self) -> &'static str {
        "pulls to pushes and knee work to hip work stay inside their bands"
    }
    fn force(&self) -> Force {
        Force::Ranges
    }
    fn add_to(&self, weekly: &mut Weekly) {
        for ratio in ratios(weekly.request) {
            let above = weekly.sets_of(|one| counts(&one.entry, &ratio, ratio.above));
            let below = weekly.sets_of(|one| counts(&one.entry, &ratio, ratio.below));
            if above.is_empty() || below.is_empty() {
                continue;
            }
            let name = ratio.name.replace(' ', "-");
            let less = |share: f64| -> Vec<Term> {
                above.iter().copied().chain(minus(times(below.clone(), share))).collect()
            };
            let [low, high] = ratio.band;
            let done = f64::from(ratio.elsewhere);
            for wish in [at_least(less(low), -done), at_most(less(high), 0.0)] {
                let wish = wish.missed_by(MOST);
                let near = Near { by: 1.0, points: JUST_OUT_OF_BALANCE };
                let cost = (Tier::Ranges, OUT_OF_BALANCE);
                weekly.miss_beyond(self.id(), name.clone(), wish, near, cost);
            }
        }
    }
    fn recount(&self, request: &Request, week: &Week) -> Vec<Finding> {
        ratios(request)
            .iter()
            .filter_map(|ratio| {
                let above = |entry: &Entry| counts(entry, ratio, ratio.above);
                let below = |entry: &Entry| counts(entry, ratio, ratio.below);
                if !request.eligible_for(Role::Work).any(above)
                    || !request.eligible_for(Role::Work).any(below)
                {
                    return None;
                }
                let (above, below) = (week.sets_of(above), week.sets_of(below));
                let [low, high] = ratio.band;
                let (a, b) = (f64::from(above), f64::from(below));
                let outside =
                    a + f64::from(ratio.elsewhere) < low * b - 1e-6 || a > high * b + 1e-6;
                outside.then(|| {
                    let wanted = format!("{low} to {high}");
                    let got = format!("{above} to {below} sets");
                    Finding::broken(self.id(), ratio.name, wanted, got).as_shortfall()
                })
            })
            .collect()
    }
}
