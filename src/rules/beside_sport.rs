//! `beside-sport`: what the client's own sport works hard the day before or after is left alone, where another day is free.
//!
//! Calves are sore after the long run, and legs that are to be fresh tomorrow are not trained today. Common practice.

use super::before_sport::{is_lowered, keeps_in_season};
use super::{Figure, Finding, Force, Rule, Unit};
use crate::input::catalog::Entry;
use crate::model::Weekly;
use crate::model::goal::at_most;
use crate::model::points::EVE_OF_SPORT;
use crate::model::tier::Tier;
use crate::program::Term;
use crate::request::Request;
use crate::request::candidate::felt_by;
use crate::request::day::A_DAY_H;
use crate::request::standing::{is_bar_on_legs, loads_both_legs};
use crate::week::Week;
use crate::words::{Goal, Kind, Muscle, Pattern, Side, Sides};

/// Sets by day beside sport.
pub(super) struct BesideSport;

/// Sets of one light lift, which such a day holds: legs that have rested since the start of the week are stiff on the day
/// that they are needed. Common practice.
const FEW_SETS: f64 = 3.0;
/// Sets of a quick lift and a step up, which the day after hard sport holds where speed is the goal.
const FEW_SETS_IF_SLOW: f64 = 5.0;

/// More sets than a day ever has.
const MOST: f64 = 120.0;

/// Whether hard sport for a muscle is a day away from a session.
fn is_near(request: &Request, muscle: Muscle, day: usize) -> bool {
    let this = &request.days[day];
    let mut sports = request.hard_elsewhere(muscle);
    sports.any(|sport| sport.is_eve_of(this, A_DAY_H) || this.is_eve_of(&sport, A_DAY_H))
}

/// Whether hard sport for a muscle was a day before a session and is a day after it.
fn is_between(request: &Request, muscle: Muscle, day: usize) -> bool {
    request.is_eve_of(muscle, day) && request.is_after_sport(muscle, day)
}

/// Whether legs work hard tomorrow and two other days are free of that.
fn is_eve_beside_others(request: &Request, day: usize) -> bool {
    const OTHERS: usize = 2;
    let eve = |day: usize| request.is_eve_of(Muscle::Quads, day);
    eve(day) && (0..request.days.len()).filter(|other| !eve(*other)).count() >= OTHERS
}

/// Whether a muscle had better have another day: its sport is near this one and not near all, or follows this one and not
/// all, or this one stands between two of its days and not all do.
fn waits(request: &Request, muscle: Muscle, day: usize) -> bool {
    let is_better = |is: fn(&Request, Muscle, usize) -> bool| {
        let mut days = 0..request.days.len();
        is(request, muscle, day) && days.any(|other| !is(request, muscle, other))
    };
    is_better(is_near) || is_better(Request::is_eve_of) || is_better(is_between)
}

/// How often a set counts on a day: not where nothing waits, a loaded hinge on both legs twice, as it is felt longest, and
/// all of it twice on the eve of a match.
/// Sport that the back holds is done with the hips: hinges and thrusts with a load wait for it as well.
/// A few fresh jumps or throws tire nobody, nor do light lifts for speed where that is the goal.
fn times(request: &Request, entry: &Entry, day: usize) -> u32 {
    let fast = request.profile.goal == Goal::Power;
    // A runner's calves have their slow raises whatever the day.
    let calves =
        entry.pattern == Some(Pattern::PlantarFlexion) && request.profile.goal == Goal::Endurance;
    let free = |pattern: Pattern| pattern.flies() || fast && pattern.is_explosive();
    if calves || entry.pattern.is_some_and(free) || keeps_in_season(request, entry, day) {
        return 0;
    }
    let hips = matches!(entry.pattern, Some(Pattern::Hinge | Pattern::HipExtension));
    let heavy = hips && entry.is_loaded() && !(fast && request.is_quick_pull(entry));
    let back = heavy.then_some(Muscle::SpinalErectors);
    // Nor do legs that play tomorrow pull off the floor or lower themselves tonight.
    let slow = heavy || is_lowered(entry);
    let legs = (slow && request.is_eve_of_a_match(day)).then_some(Muscle::Quads);
    let mut muscles = felt_by(entry).chain(back).chain(legs);
    // What stretches one leg under a load is what makes it sore where it should be fast, and of days that all are near sport
    // the eve of a match is the worst for it.
    let legs = entry.kind == Some(Kind::Compound)
        && entry.pattern.and_then(Pattern::side) == Some(Side::Legs);
    let steps = entry.family() == "step-up" && !is_between(request, Muscle::Quads, day);
    let sore = fast && legs && entry.sides == Sides::Each && !steps;
    let of_a_match = |day: usize| request.is_eve_of_a_match(day);
    let is_worst = (sore || slow)
        && of_a_match(day)
        && felt_by(entry).any(|muscle| request.is_eve_of(muscle, day))
        && (0..request.days.len()).any(|other| !of_a_match(other));
    // The day after hard sport for the legs is none for them where speed is the goal.
    let slow_legs = request.has_slow_legs(day)
        && felt_by(entry).any(|muscle| request.is_after_sport(muscle, day));
    let waits = is_worst || slow_legs || muscles.any(|muscle| waits(request, muscle, day));
    let long = heavy && entry.main && entry.pattern == Some(Pattern::Hinge);
    // Nor does who learns it squat with the bar.
    let long = long || request.is_guided() && is_bar_on_legs(entry);
    // A few quick squats on both legs are what who is fast does the day before.
    let quick = fast
        && !request.is_guided()
        && (loads_both_legs(entry, Pattern::Squat) || request.is_quick_pull(entry));
    // Legs that ran far yesterday and run hard tomorrow are asked for nothing today.
    let between = request.profile.goal == Goal::Endurance
        && entry.kind == Some(Kind::Compound)
        && felt_by(entry).any(|muscle| is_between(request, muscle, day));
    let twice = of_a_match(day) && !quick;
    // A lift whose load is known is to grow, and does on a day that is free of sport.
    let strong = request.profile.goal == Goal::Strength;
    let dear = !(fast || strong) && entry.main && request.is_pushed(&entry.id) && entry.is_loaded();
    let times = (1 + u32::from(dear) + u32::from(twice) + 2 * u32::from(between))
        * (1 + u32::from(long || sore));
    if waits { times } else { 0 }
}

impl Rule for BesideSport {
    fn id(&self) -> &'static str {
        "beside-sport"
    }
    fn summary(&self) -> &'static str {
        "what the client's sport works hard the day before or after is trained on another day"
    }
    fn force(&self) -> Force {
        Force::View
    }
    fn add_to(&self, weekly: &mut Weekly) {
        for day in weekly.days() {
            let request = weekly.request;
            let waiting = |is_small: bool| -> Vec<Term> {
                let waiting = weekly.on(day).filter_map(|pick| {
                    let entry = &weekly.candidate(pick).entry;
                    let times = times(request, entry, day);
                    let counts = times > 0 && is_small == (entry.kind == Some(Kind::Isolation));
                    counts.then(|| pick.sets_times(f64::from(times)))
                });
                waiting.flatten().collect()
            };
            let (lifts, small) = (waiting(false), waiting(true));
            let few = match request.profile.goal {
                // A quick pull and a step up.
                _ if request.has_slow_legs(day) => FEW_SETS_IF_SLOW,
                // Between the long run and the hard one nothing is asked of legs.
                Goal::Endurance if is_between(request, Muscle::Quads, day) => 0.0,
                // For size the other days have the sets.
                Goal::Hypertrophy if is_eve_beside_others(request, day) => 0.0,
                _ => FEW_SETS,
            };
            for (sets, few) in [(lifts, few), (small, 0.0)] {
                if !sets.is_empty() {
                    let wish = at_most(sets, few).missed_by(MOST);
                    let label = request.days[day].label();
                    weekly.miss(self.id(), label, Tier::View, wish, EVE_OF_SPORT);
                }
            }
        }
    }
    fn recount(&self, request: &Request, week: &Week) -> Vec<Finding> {
        /// So many sets are worth a remark.
        const MANY_SETS: u32 = 6;
        let found = week.sessions.iter().filter_map(|session| {
            let near =
                session.work().map(|item| item.sets * times(request, &item.entry, session.day));
            let sets: u32 = near.sum();
            let wanted = "what sport works hard a day away on another day";
            let got = Figure::sets(2 * sets, Unit::Sets);
            let finding = Finding::broken(self.id(), session.label.clone(), wanted, got);
            (sets > MANY_SETS).then(|| finding.as_remark())
        });
        found.collect()
    }
}
