//! `emphasis`: a muscle that should get more has its best lift and a second one, and the most sets of its region; a large
//! one as many as any other but the glutes, which every leg lift trains.
//!
//! A wish is paid for by place and sets, not by a wider range alone. Common practice.

use std::collections::BTreeSet;

use super::{Figure, Finding, Force, Rule, Unit, to_halves};
use crate::input::catalog::Entry;
use crate::model::goal::{Near, at_least, at_most};
use crate::model::points::{
    BEHIND, FEW_OWN_SETS, NO_ABDUCTION, NO_BEST_LIFT, NOT_SPARED, ONE_LIFT_ONLY, OWN_SET_MISSING,
};
use crate::model::tier::Tier;
use crate::model::{Pick, Weekly, minus};
use crate::program::Term;
use crate::request::{Candidate, Request};
use crate::split::idea::region;
use crate::week::Week;
use crate::words::{Effort, Emphasis as Wish, Goal, Kind, Muscle, Pattern, Standing};

/// Lifts and sets by emphasized muscle.
pub(super) struct Emphasis;

/// Weekly sets that are done for a muscle that should get more: three a day, and what other lifts give it comes on top; hard
/// sport for it stands for a day.
fn own_sets(request: &Request, muscle: Muscle) -> u32 {
    const A_DAY: u32 = 3;
    const FEWEST: u32 = 6;
    const MOST: u32 = 12;
    let other = request.profile.other_training.iter();
    let hard = other.filter(|one| one.load == Effort::Hard && one.muscles.contains(&muscle));
    let days = request.days.len().saturating_sub(hard.count());
    let days = u32::try_from(days).unwrap_or(MOST);
    (A_DAY * days).clamp(FEWEST, MOST)
}

/// Sets by which a wish may fall short of its own and is still paid for.
const A_FEW_SETS: f64 = 2.0;

/// More half-sets than one muscle is ever behind another.
const MOST: f64 = 200.0;

/// The muscles that should get more.
fn emphasized(request: &Request) -> impl Iterator<Item = Muscle> {
    let wishes = request.profile.emphasis.iter();
    wishes.filter(|(_, wish)| **wish == Wish::More).map(|(muscle, _)| *muscle)
}

/// The muscles that should get less, and have a range.
fn spared(request: &Request) -> impl Iterator<Item = Muscle> {
    let wishes = request.profile.emphasis.iter();
    let less = wishes.filter(|(_, wish)| **wish == Wish::Less).map(|(muscle, _)| *muscle);
    less.filter(|muscle| request.targets.contains_key(muscle))
}

/// Whether an exercise is a staple whose prime mover is the muscle; for the glutes one that extends the hip alone, as a
/// squat or a deadlift is in the week anyway.
fn is_best(entry: &Entry, muscle: Muscle) -> bool {
    let own = muscle != Muscle::Glutes || entry.pattern == Some(Pattern::HipExtension);
    entry.standing == Standing::Staple && entry.direct.first() == Some(&muscle) && own
}

/// Whether an exercise is done for the muscle and no filler: for the glutes a thrust or bridge, or the leg moved out; for
/// other large ones a lift, where size is not the goal.
fn is_own(request: &Request, entry: &Entry, muscle: Muscle) -> bool {
    let for_size = request.profile.goal == Goal::Hypertrophy;
    let lifts = matches!(muscle, Muscle::Chest | Muscle::Lats | Muscle::Quads) && !for_size;
    let glutes = matches!(entry.pattern, Some(Pattern::HipExtension | Pattern::HipAbduction));
    let own = match muscle {
        Muscle::Glutes => glutes,
        _ => {
            entry.direct.first() == Some(&muscle) && (!lifts || entry.kind == Some(Kind::Compound))
        }
    };
    entry.standing <= Standing::Regular && own
}

/// Whether an exercise moves the leg out, which the side of the hip does alone.
fn is_moved_out(entry: &Entry) -> bool {
    entry.pattern == Some(Pattern::HipAbduction) && entry.standing <= Standing::Regular
}

/// The other muscles that should not get ahead: those that are trained with it, and the large ones for a large one.
fn rivals(request: &Request, muscle: Muscle) -> impl Iterator<Item = Muscle> {
    let rivals = request.targets.keys().copied();
    rivals.filter(move |other| {
        let large = muscle.is_major() && other.is_major() && *other != Muscle::Glutes;
        *other != muscle && (large || region(muscle).contains(other)) && !request.wants_more(*other)
    })
}

impl Rule for Emphasis {
    fn id(&self) -> &'static str {
        "emphasis"
    }
    fn summary(&self) -> &'static str {
        "a muscle that should get more has its best lift and a second one, and the most sets of its region"
    }
    fn force(&self) -> Force {
        Force::Ranges
    }
    fn add_to(&self, weekly: &mut Weekly) {
        for muscle in spared(weekly.request).collect::<Vec<_>>() {
            let least = f64::from(to_halves(weekly.request.targets[&muscle].floor));
            let wish = at_most(weekly.halves(muscle), least).missed_by(MOST);
            weekly.miss(self.id(), format!("{muscle}_spared"), Tier::View, wish, NOT_SPARED);
        }
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
            let own = |pick: &&Pick| is_own(weekly.request, &weekly.candidate(pick).entry, muscle);
            let own: Vec<&Pick> = weekly.picks.iter().filter(own).collect();
            let days: BTreeSet<usize> = own.iter().map(|pick| pick.day).collect();
            if days.len() > 1 {
                let own = own.into_iter().map(|pick| (pick.chosen, 1.0)).collect();
                let subject = format!("{muscle}_second");
                weekly.miss(self.id(), subject, Tier::Ranges, at_least(own, 2.0), ONE_LIFT_ONLY);
            }
            let wanted_sets = own_sets(weekly.request, muscle);
            let own_sets = weekly.sets_of(|one| is_own(weekly.request, &one.entry, muscle));
            if !own_sets.is_empty() {
                let wanted = f64::from(wanted_sets);
                let wish = at_least(own_sets, wanted).missed_by(wanted);
                let subject = format!("{muscle}_own");
                let near = Near { by: A_FEW_SETS, points: FEW_OWN_SETS };
                let cost = (Tier::Ranges, OWN_SET_MISSING);
                weekly.miss_beyond(self.id(), subject, wish, near, cost);
            }
            if muscle == Muscle::Glutes {
                let out =
                    weekly.picks.iter().filter(|pick| is_moved_out(&weekly.candidate(pick).entry));
                let out: Vec<Term> = out.map(|pick| (pick.chosen, 1.0)).collect();
                if !out.is_empty() {
                    let wish = at_least(out, 1.0);
                    weekly.miss(self.id(), "glutes_out", Tier::View, wish, NO_ABDUCTION);
                }
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
            let own = |one: &Candidate| is_own(request, &one.entry, muscle);
            let usable = request.candidates.iter().any(own);
            let done = week.work().filter(|(_, item)| is_own(request, &item.entry, muscle)).count();
            if usable && request.days.len() > 1 && done == 1 {
                let wanted = "a second exercise that is done for it";
                findings.push(Finding::broken(self.id(), muscle.id(), wanted, "one").as_remark());
            }
            let usable = request.candidates.iter().any(|one| is_moved_out(&one.entry));
            if muscle == Muscle::Glutes
                && usable
                && !week.work().any(|(_, item)| is_moved_out(&item.entry))
            {
                let wanted = "an exercise that moves the leg out";
                findings.push(Finding::broken(self.id(), muscle.id(), wanted, "none").as_remark());
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
