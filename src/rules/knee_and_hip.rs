//! `knee-and-hip`: legs are bent at the knee at least as often as at the hip.
//!
//! Hinges, thrusts and bridges fill the range of the hamstrings cheaply; a day of two of them without a squat or lunge is half
//! a leg day, and a week of more hinges than squats tires the back. Common practice.

use super::{Finding, Force, Rule};
use crate::input::catalog::Entry;
use crate::model::goal::at_most;
use crate::model::points::{HINGES_OVER_SQUATS, HIPS_WITHOUT_KNEES};
use crate::model::tier::Tier;
use crate::model::{Pick, Weekly};
use crate::program::Term;
use crate::request::Request;
use crate::week::{Item, Week};
use crate::words::{Goal, Kind, Muscle, Pattern};

/// Lifts of the knee and of the hip, by day and week.
pub(super) struct KneeAndHip;

/// More of the one than of the other than a week ever has.
const MOST_OVER: f64 = 20.0;

fn is_lift(entry: &Entry, patterns: &[Pattern]) -> bool {
    let of_it = entry.pattern.is_some_and(|pattern| patterns.contains(&pattern));
    entry.kind == Some(Kind::Compound) && of_it
}

/// One more lift for the hips, one less where it is for the knees.
fn over(entry: &Entry, hips: &[Pattern], knees: &[Pattern]) -> i32 {
    i32::from(is_lift(entry, hips)) - i32::from(is_lift(entry, knees))
}

const HINGES: &[Pattern] = &[Pattern::Hinge];
const SQUATS: &[Pattern] = &[Pattern::Squat];
/// What counts beside the hinges of a week: who runs to last squats on one leg as well.
fn squats(request: &Request) -> &'static [Pattern] {
    if request.profile.goal == Goal::Endurance { KNEES } else { SQUATS }
}

const HIPS: &[Pattern] = &[Pattern::Hinge, Pattern::HipExtension];
const KNEES: &[Pattern] = &[Pattern::Squat, Pattern::Lunge];

/// Whether the hips are what the client wants more of, or the knees are to be spared: then it is as it comes.
fn is_free(request: &Request) -> bool {
    let squats = request.candidates.iter().any(|one| is_lift(&one.entry, SQUATS));
    let hips = [Muscle::Glutes, Muscle::Hamstrings].iter().any(|one| request.wants_more(*one));
    hips || !squats || request.wants_less(Muscle::Quads)
}

fn balance<'a>(
    weekly: &'a Weekly<'_>,
    picks: impl Iterator<Item = &'a Pick>,
    (hips, knees): (&[Pattern], &[Pattern]),
) -> Vec<Term> {
    let counted = picks.map(|pick| (pick.chosen, over(&weekly.candidate(pick).entry, hips, knees)));
    counted.filter(|(_, over)| *over != 0).map(|(chosen, over)| (chosen, over.into())).collect()
}

impl Rule for KneeAndHip {
    fn id(&self) -> &'static str {
        "knee-and-hip"
    }
    fn summary(&self) -> &'static str {
        "legs bend at the knee at least as often as at the hip"
    }
    fn force(&self) -> Force {
        Force::View
    }
    fn add_to(&self, weekly: &mut Weekly) {
        if is_free(weekly.request) {
            return;
        }
        let row = balance(weekly, weekly.picks.iter(), (HINGES, squats(weekly.request)));
        let wish = at_most(row, 0.0).missed_by(MOST_OVER);
        weekly.miss(self.id(), "week", Tier::View, wish, HINGES_OVER_SQUATS);
        for day in
            weekly.days().filter(|day| weekly.split.days[*day].whole_body).collect::<Vec<_>>()
        {
            let row = balance(weekly, weekly.on(day), (HIPS, KNEES));
            let label = weekly.request.days[day].label();
            let wish = at_most(row, 0.0).missed_by(MOST_OVER);
            weekly.miss(self.id(), label, Tier::View, wish, HIPS_WITHOUT_KNEES);
        }
    }
    /// One more may be what the days leave: two more in a week are a remark.
    fn recount(&self, request: &Request, week: &Week) -> Vec<Finding> {
        const MANY_OVER: i32 = 2;
        let more = |item: &Item| over(&item.entry, HINGES, squats(request));
        let over: i32 = week.work().map(|(_, item)| more(item)).sum();
        if is_free(request) || over < MANY_OVER {
            return Vec::new();
        }
        let wanted = "as many squats as hinges";
        let got = format!("{over} hinges more");
        vec![Finding::broken(self.id(), "week".to_owned(), wanted, got).as_remark()]
    }
}
