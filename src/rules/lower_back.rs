//! `lower-back`: of what the lower back has to hold, a day has one: a squat or pull off the floor with the bar, and no row bent over
//! beside a hinge.
//!
//! The back that holds both is tired by the first. The other comes with dumbbells, on a machine, with the chest on a bench
//! or on another day. Who begins at 65 or later has one loaded hinge a week. Where another day takes
//! legs as well, a day has two lifts for them and one big one. Common practice.

use itertools::Itertools;

use super::{Finding, Force, Rule};
use crate::input::catalog::Entry;
use crate::model::Weekly;
use crate::model::goal::at_most;
use crate::model::points::{
    BACK_LOADED_TWICE, BENT_NEAR_A_HINGE, BIG_SETS, HINGED_TWICE, SECOND_BIG_LIFT,
    SECOND_BIG_LIFT_FOR_POWER, THIRD_LEG_LIFT, THIRD_LEG_LIFT_FOR_STRENGTH,
};
use crate::model::tier::Tier;
use crate::program::Term;
use crate::request::candidate::Station;
use crate::request::day::A_DAY_H;
use crate::request::dose::takes_few_reps;
use crate::request::standing::{is_bar_on_legs, is_bent_over, loads_both_legs};
use crate::request::{Candidate, Request};
use crate::week::{Session, Week};
use crate::words::{Goal, Muscle, Pattern, Side};

/// What the lower back holds, by day.
pub(super) struct LowerBack;

/// Kinds of work of which a day has one: a name, and whether an exercise is of it.
const KINDS: [(&str, fn(&Entry) -> bool); 2] = [
    ("one squat or pull off the floor with the bar", is_heavy_bar),
    ("one hinge or row bent over", |entry| is_hinge(entry) || is_bent_over(entry)),
];

/// Sets over two of each lift that a back holds on one day.
const SETS_OVER_TWO: f64 = 4.0;

/// Up to so many days a week for strength squats on the day of the pull as well.
const FEW_DAYS: usize = 2;
/// More of a kind than a day ever has over one.
const MOST_OVER: f64 = 4.0;

/// A hinge from the top, with its lighter load and its many repetitions, goes with a squat.
fn is_heavy_bar(entry: &Entry) -> bool {
    is_bar_on_legs(entry) && (entry.pattern != Some(Pattern::Hinge) || takes_few_reps(entry))
}

fn is_hinge(entry: &Entry) -> bool {
    entry.main && loads_both_legs(entry, Pattern::Hinge)
}

/// Whether two days follow each other.
fn are_near(request: &Request, one: usize, other: usize) -> bool {
    one != other && request.days[one].hours_to(&request.days[other]) <= A_DAY_H
}

impl LowerBack {
    /// Where another day takes legs as well, a day has two lifts for them, and one of those that are big where size, strength
    /// or power is the goal.
    fn add_leg_lifts(&self, weekly: &mut Weekly) {
        let goal = weekly.request.profile.goal;
        let takes = |day: usize| {
            let idea = &weekly.split.days[day];
            idea.takes(Muscle::Quads) && idea.takes(Muscle::Hamstrings)
        };
        let days: Vec<usize> = weekly.days().filter(|day| takes(*day)).collect();
        // For strength a hinge from the top goes with a squat, for size a machine's squat with a hinge.
        let big = |one: &Candidate| {
            let seated = matches!(one.station, Station::Fixed(_)) && goal == Goal::Hypertrophy;
            let loads = |pattern: Pattern| loads_both_legs(&one.entry, pattern);
            let heavy = goal != Goal::Strength || takes_few_reps(&one.entry);
            one.entry.main && !seated && (loads(Pattern::Squat) || loads(Pattern::Hinge) && heavy)
        };
        // On two days for strength each big lift has its heavy day, and the squat a light one beside the pull.
        let few = goal == Goal::Strength && weekly.request.days.len() <= FEW_DAYS;
        let heavy = weekly.request.trains_heavy() && !few;
        for day in days.iter().copied().filter(|_| days.len() > 1) {
            self.add_sets_of_big_lifts(weekly, day);
            let mut miss = |name: &str, most: f64, cost: f64, is: &dyn Fn(&Candidate) -> bool| {
                let picks = weekly.on(day).filter(|pick| is(weekly.candidate(pick)));
                let row: Vec<Term> = picks.map(|pick| (pick.chosen, 1.0)).collect();
                let subject = format!("{}_{name}", weekly.request.days[day].label());
                let wish = at_most(row, most).missed_by(MOST_OVER);
                weekly.miss(self.id(), subject, Tier::View, wish, cost);
            };
            let (second, third) = match goal {
                Goal::Strength => (SECOND_BIG_LIFT, THIRD_LEG_LIFT_FOR_STRENGTH),
                Goal::Power => (SECOND_BIG_LIFT_FOR_POWER, THIRD_LEG_LIFT),
                _ => (SECOND_BIG_LIFT, THIRD_LEG_LIFT),
            };
            if heavy {
                miss("big", 1.0, second, &big);
            }
            miss("legs", 2.0, third, &|one| {
                one.is_compound() && one.pattern.side() == Some(Side::Legs)
            });
        }
    }

    /// A back that squats and pulls off the floor on one day does eight sets of them at most.
    fn add_sets_of_big_lifts(&self, weekly: &mut Weekly, day: usize) {
        let picks = weekly.on(day).filter(|pick| is_heavy_bar(&weekly.candidate(pick).entry));
        let row: Vec<Term> = picks.map(|pick| (pick.extra, 1.0)).collect();
        if row.len() > 1 {
            let subject = format!("{}_sets", weekly.request.days[day].label());
            let wish = at_most(row, SETS_OVER_TWO).missed_by(MOST_OVER);
            weekly.miss(self.id(), subject, Tier::View, wish, BIG_SETS);
        }
    }

    /// Rows bent over have a day between them and a hinge, as the back that is sore from the one holds the other badly.
    fn add_rows_beside_hinges(&self, weekly: &mut Weekly) {
        let of = |day: usize, is_of: fn(&Entry) -> bool| -> Vec<Term> {
            let picks = weekly.on(day).filter(|pick| is_of(&weekly.candidate(pick).entry));
            picks.map(|pick| (pick.chosen, 1.0)).collect()
        };
        let request = weekly.request;
        let mut rows = Vec::new();
        for (one, other) in weekly.days().cartesian_product(weekly.days()) {
            let (bent, hinges) = (of(one, is_bent_over), of(other, is_hinge));
            if are_near(request, one, other) && !bent.is_empty() && !hinges.is_empty() {
                let subject =
                    format!("{}_{}", request.days[one].label(), request.days[other].label());
                rows.push((subject, bent.into_iter().chain(hinges).collect::<Vec<Term>>()));
            }
        }
        for (subject, row) in rows {
            let wish = at_most(row, 1.0).missed_by(MOST_OVER);
            weekly.miss(self.id(), subject, Tier::View, wish, BENT_NEAR_A_HINGE);
        }
    }

    /// A day for size has one lift with the bar for the legs where a machine does the other: twelve squats after a hinge end
    /// in the back.
    fn add_bars_for_size(&self, weekly: &mut Weekly) {
        let request = weekly.request;
        let machine = |one: &Candidate| {
            loads_both_legs(&one.entry, Pattern::Squat) && matches!(one.station, Station::Fixed(_))
        };
        if request.profile.goal != Goal::Hypertrophy || !request.candidates.iter().any(machine) {
            return;
        }
        for day in weekly.days() {
            let bars = weekly.on(day).filter(|pick| is_bar_on_legs(&weekly.candidate(pick).entry));
            let row: Vec<Term> = bars.map(|pick| (pick.chosen, 1.0)).collect();
            if row.len() > 1 {
                let subject = format!("{}_bars", request.days[day].label());
                let wish = at_most(row, 1.0).missed_by(MOST_OVER);
                weekly.miss(self.id(), subject, Tier::View, wish, BACK_LOADED_TWICE);
            }
        }
    }

    /// Who begins at 65 or later has one loaded hinge on both legs a week, and the other against a band or without a load.
    fn add_hinges(&self, weekly: &mut Weekly) {
        let loaded = |entry: &Entry| loads_both_legs(entry, Pattern::Hinge);
        let picks = weekly.picks.iter().filter(|pick| loaded(&weekly.candidate(pick).entry));
        let row: Vec<Term> = picks.map(|pick| (pick.chosen, 1.0)).collect();
        if weekly.request.is_older_beginner() && row.len() > 1 {
            let wish = at_most(row, 1.0).missed_by(MOST_OVER);
            weekly.miss(self.id(), "hinges", Tier::View, wish, HINGED_TWICE);
        }
    }
}

impl Rule for LowerBack {
    fn id(&self) -> &'static str {
        "lower-back"
    }
    fn summary(&self) -> &'static str {
        "a day has one squat or pull off the floor with the bar, and no row bent over beside a hinge"
    }
    fn force(&self) -> Force {
        Force::View
    }
    fn add_to(&self, weekly: &mut Weekly) {
        self.add_hinges(weekly);
        self.add_bars_for_size(weekly);
        self.add_leg_lifts(weekly);
        self.add_rows_beside_hinges(weekly);
        // The only day of a week has squat and pull, and still no row that the same back holds.
        let kinds = if weekly.request.days.len() > 1 { &KINDS[..] } else { &KINDS[1..] };
        for day in weekly.days() {
            for (place, (_, is_of)) in kinds.iter().enumerate() {
                let picks = weekly.on(day).filter(|pick| is_of(&weekly.candidate(pick).entry));
                let row: Vec<Term> = picks.map(|pick| (pick.chosen, 1.0)).collect();
                if row.len() > 1 {
                    let subject = format!("{}_{place}", weekly.request.days[day].label());
                    let wish = at_most(row, 1.0).missed_by(MOST_OVER);
                    weekly.miss(self.id(), subject, Tier::View, wish, BACK_LOADED_TWICE);
                }
            }
        }
    }
    /// Two a day may be the price of few days: three are a remark.
    fn recount(&self, request: &Request, week: &Week) -> Vec<Finding> {
        let mut findings = Vec::new();
        let has = |session: &Session, is_of: fn(&Entry) -> bool| {
            session.work().any(|item| is_of(&item.entry))
        };
        for (one, other) in week.sessions.iter().cartesian_product(&week.sessions) {
            let near = are_near(request, one.day, other.day);
            if near && has(one, is_bent_over) && has(other, is_hinge) {
                let place = format!("{} and {}", one.label, other.label);
                let wanted = "a day between a row bent over and a hinge";
                findings.push(Finding::broken(self.id(), place, wanted, "none").as_remark());
            }
        }
        let sessions = week.sessions.iter().filter(|_| request.days.len() > 1);
        for (session, (wanted, is_of)) in
            sessions.flat_map(|session| KINDS.map(|kind| (session, kind)))
        {
            let got = session.work().filter(|item| is_of(&item.entry)).count();
            if got > 2 {
                let place = session.label.clone();
                let finding = Finding::broken(self.id(), place, wanted, got.to_string());
                findings.push(finding.as_remark());
            }
        }
        findings
    }
}
