//! `fractional-cap`: within the recovery hours a muscle gets no more fractional sets than its session cap.
//!
//! Eleven fractional sets a session is where a preprint no longer sees a gain (Remmert et al. 2025), not a
//! danger line. It holds for a muscle that should get more, and for size past the first steps; elsewhere the lower caps by
//! status hold, which are common practice.

use super::{Bound, Figure, Finding, Force, Rule, Unit, to_halves};
use crate::model::Weekly;
use crate::model::goal::at_most;
use crate::model::points::CROWDED;
use crate::model::tier::Tier;
use crate::request::Request;
use crate::request::figures::FRACTIONAL_CAP;
use crate::week::Week;
use crate::words::Muscle;

/// Half-sets by muscle and window.
pub(super) struct FractionalCap;

/// More half-sets than any week is over by.
const MOST: f64 = 100.0;

/// The most half-sets of a muscle within the recovery hours.
fn cap(request: &Request, muscle: Muscle) -> u32 {
    let by_status = 2 * request.figures.session_cap_of(muscle);
    let grows = request.wants_more(muscle) || request.builds_size();
    if grows { by_status.max(to_halves(FRACTIONAL_CAP)) } else { by_status }
}

/// Each day with the later days that lie within the recovery hours of it: every window begins at a day.
fn windows(request: &Request) -> Vec<Vec<usize>> {
    (0..request.days.len())
        .map(|first| {
            let mut window = vec![first];
            window.extend((0..request.days.len()).filter(|other| {
                *other != first
                    && request.too_close(first, *other)
                    && follows(request, first, *other)
            }));
            window
        })
        .collect()
}

/// Whether the other day comes after the first the shorter way round the week.
fn follows(request: &Request, first: usize, other: usize) -> bool {
    const WEEK_MIN: u32 = 7 * 24 * 60;
    let (one, two) = (request.days[first].start_min, request.days[other].start_min);
    let ahead = (two + WEEK_MIN - one) % WEEK_MIN;
    ahead > 0 && ahead <= WEEK_MIN / 2
}

impl Rule for FractionalCap {
    fn id(&self) -> &'static str {
        "fractional-cap"
    }
    fn summary(&self) -> &'static str {
        "within the recovery hours a muscle gets no more fractional sets than its session cap"
    }
    fn force(&self) -> Force {
        Force::Ranges
    }
    fn add_to(&self, weekly: &mut Weekly) {
        for window in windows(weekly.request) {
            for muscle in Muscle::ALL.iter().copied().filter(|muscle| !muscle.recovers_fast()) {
                let halves: Vec<_> =
                    window.iter().flat_map(|day| weekly.halves_on(muscle, *day)).collect();
                if halves.is_empty() {
                    continue;
                }
                let subject = format!("{muscle}_{}", weekly.request.days[window[0]].label());
                let cap = f64::from(cap(weekly.request, muscle));
                let wish = at_most(halves, cap).missed_by(MOST);
                weekly.miss(self.id(), subject, Tier::Ranges, wish, CROWDED);
            }
        }
    }
    fn recount(&self, request: &Request, week: &Week) -> Vec<Finding> {
        let mut findings = Vec::new();
        for window in windows(request) {
            let sessions: Vec<_> =
                week.sessions.iter().filter(|session| window.contains(&session.day)).collect();
            for muscle in Muscle::ALL.iter().copied().filter(|muscle| !muscle.recovers_fast()) {
                let halves: u32 = sessions.iter().map(|session| session.halves(muscle)).sum();
                let cap = cap(request, muscle);
                if halves > cap {
                    let label = request.days[window[0]].label();
                    let wanted = Figure::sets(cap, Unit::Sets).bounded(Bound::AtMost);
                    let place = format!("{muscle}, from {label}");
                    findings.push(
                        Finding::broken(self.id(), place, wanted, Figure::sets(halves, Unit::Sets))
                            .as_remark(),
                    );
                }
            }
        }
        findings
    }
}
