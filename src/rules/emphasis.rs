//! `emphasis`: a muscle that should get more has its best lift, and the most sets of its region.
//!
//! A wish is paid for by place and sets, not by a wider range alone. Common practice.

use super::{Figure, Finding, Force, Rule, Unit};
use crate::input::catalog::Entry;
use crate::model::goal::at_least;
use crate::model::points::{BEHIND, NO_BEST_LIFT};
use crate::model::tier::Tier;
use crate::model::{Weekly, minus};
use crate::program::Term;
use crate::request::{Candidate, Request};
use crate::split::idea::region;
use crate::week::Week;
use crate::words::{Emphasis as Wish, Muscle, Pattern, Standing};

/// Lifts and sets by emphasized muscle.
pub(super) struct Emphasis;

/// More half-sets than one muscle is ever behind another.
const MOST: f64 = 200.0;

/// The muscles that should get more.
fn emphasized(request: &Request) -> impl Iterator<Item = Muscle> {
    let wishes = request.profile.emphasis.iter();
    wishes.filter(|(_, wish)| **wish == Wish::More).map(|(muscle, _)| *muscle)
}

/// Whether an exercise is a staple whose prime mover is the muscle; for the glutes one that extends the hip alone, as a
/// squat or a deadlift is in the week anyway.
fn is_best(entry: &Entry, muscle: Muscle) -> bool {
    let own = muscle != Muscle::Glutes || entry.pattern == Some(Pattern::HipExtension);
    entry.standing == Standing::Staple && entry.direct.first() == Some(&muscle) && own
}

/// The other large and small muscles that are trained with a muscle.
fn rivals(request: &Request, muscle: Muscle) -> impl Iterator<Item = Muscle> {
    let region = region(muscle).iter().copied();
    region.filter(move |other| {
        *other != muscle
            && request.targets.contains_key(other)
            && request.profile.emphasis.get(other) != Some(&Wish::More)
    })
}

impl Rule for Emphasis {
    fn id(&self) -> &'static str {
        "emphasis"
    }
    fn summary(&self) -> &'static str {
        "a muscle that should get more has its best lift, and the most sets of its region"
    }
    fn force(&self) -> Force {
        Force::Ranges
    }
    fn add_to(&self, weekly: &mut Weekly) {
        for muscle in emphasized(weekly.request) {
            let best = |candidate: &Candidate| is_best(&candidate.entry, muscle);
            let done: Vec<Term> = weekly
                .picks
                .iter()
                .filter(|pick| best(weekly.candidate(pick)))
                .map(|pick| (pick.chosen, 1.0))
                .collect();
            if !done.is_empty() {
                let wish = at_least(done, 1.0);
                weekly.miss(self.id(), muscle.id(), Tier::Ranges, wish, NO_BEST_LIFT);
            }
            for rival in rivals(weekly.request, muscle).collect::<Vec<_>>() {
                let mut row = weekly.halves(muscle);
                row.extend(minus(weekly.halves(rival)));
                if row.len() < 2 {
                    continue;
                }
                let wish = at_least(row, 0.0).missed_by(MOST);
                weekly.miss(self.id(), format!("{muscle}_{rival}"), Tier::View, wish, BEHIND);
            }
        }
    }
    fn recount(&self, request: &Request, week: &Week) -> Vec<Finding> {
        let mut findings = Vec::new();
        for muscle in emphasized(request) {
            let usable = request.candidates.iter().any(|one| is_best(&one.entry, muscle));
            if usable && !week.work().any(|(_, item)| is_best(&item.entry, muscle)) {
                let wanted = "a staple that is done for it";
                findings
                    .push(Finding::broken(self.id(), muscle.id(), wanted, "none").as_shortfall());
            }
            let got = week.halves(muscle);
            let ahead = rivals(request, muscle).max_by_key(|rival| week.halves(*rival));
            if let Some(ahead) = ahead.filter(|rival| week.halves(*rival) > got) {
                let sets = Figure::sets(week.halves(ahead), Unit::Sets);
                let wanted = format!("as many sets as {}, {sets}", ahead.name());
                let got = Figure::sets(got, Unit::Sets);
                let finding = Finding::of_muscle(self.id(), muscle, wanted, got);
                findings.push(finding.as_remark());
            }
        }
        findings
    }
}
