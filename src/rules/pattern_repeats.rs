//! `pattern-repeats`: a session does not do the same thing over and over.
//!
//! At most two exercises of a pattern, one hinge and one press overhead; one of each big movement on a day for the whole body. One exercise of
//! one joint for a pattern, two where the days are for body parts; three with the same prime mover;
//! for a novice no two that share pattern and four fifths of the direct muscles. Common practice.

use std::collections::BTreeMap;

use super::whole_body_day::is_for_whole_body;
use super::{Finding, Force, Rule};
use crate::input::catalog::Entry;
use crate::input::profile::{SplitChoice, SplitName};
use crate::model::Weekly;
use crate::model::goal::at_most;
use crate::model::points::{SAME_TODAY, THIRD_LEG_BAR};
use crate::model::tier::Tier;
use crate::program::{Op, Term};
use crate::request::Request;
use crate::request::candidate::alike;
use crate::week::Week;
use crate::words::{Goal, Kind, LoadKind, Muscle, Pattern, Sides, Status};

/// Exercises by pattern, prime mover and day.
pub(super) struct PatternRepeats;

const MOST_OF_PATTERN: usize = 2;
const MOST_OF_ONE_JOINT: usize = 1;
const MOST_OF_PRIME: usize = 3;
/// From so many muscles on a day is not for few body parts.
const WIDE_DAY: usize = 14;

/// Whether a day may have two exercises of one joint for the same: where days are for body parts, and past the first steps where
/// size is built and the client's own lists give the muscle one day. Common practice.
pub(super) fn comes_twice(request: &Request, entry: &Entry) -> bool {
    let Some(prime) = entry.direct.first() else { return false };
    let profile = &request.profile;
    let builds = profile.goal == Goal::Hypertrophy && profile.training_status != Status::Novice;
    match &profile.split {
        SplitChoice::Named(name) => *name == SplitName::BodyPart,
        SplitChoice::Own(lists) => {
            builds && lists.iter().filter(|list| list.contains(prime)).count() == 1
        }
    }
}

/// The most exercises of one joint among some that share a pattern.
fn most_of_one_joint<'a>(request: &Request, entries: impl IntoIterator<Item = &'a Entry>) -> usize {
    let twice = entries.into_iter().any(|entry| comes_twice(request, entry));
    MOST_OF_ONE_JOINT + usize::from(twice)
}

/// The big movements, of which a day for the whole body has one each.
const fn is_big(pattern: Pattern) -> bool {
    matches!(pattern, Pattern::Squat | Pattern::Hinge) || pattern.press_or_row().is_some()
}

/// The most exercises of a pattern in a session. One hinge is enough for a back, one press overhead for
/// the shoulders and one carry for the hands.
const fn most_of(pattern: Pattern, whole_body: bool) -> usize {
    let one = (whole_body && is_big(pattern))
        || matches!(pattern, Pattern::Hinge | Pattern::VerticalPush | Pattern::Carry);
    if one { 1 } else { MOST_OF_PATTERN }
}

/// A squat on both legs that no machine guides: one is enough for a day.
fn is_free_squat(entry: &Entry) -> bool {
    let guided = matches!(entry.load, LoadKind::Stack | LoadKind::PlateMachine);
    entry.pattern == Some(Pattern::Squat) && entry.sides == Sides::Both && !guided
}

/// A thrust or bridge: one is enough for a day.
fn is_thrust(entry: &Entry) -> bool {
    entry.pattern == Some(Pattern::HipExtension) && entry.kind == Some(Kind::Compound)
}

/// A lunge, split squat or step-up: the second tires what the first has tired.
fn is_lunge(entry: &Entry) -> bool {
    entry.pattern == Some(Pattern::Lunge) && entry.kind == Some(Kind::Compound)
}

/// Kinds of lifts of which a day has one: a name, what is wanted, and whether an exercise is of it.
const ONCE_A_DAY: [(&str, &str, fn(&Entry) -> bool); 3] = [
    ("squats", "one squat without a machine at most", is_free_squat),
    ("thrusts", "one thrust or bridge at most", is_thrust),
    ("lunges", "one lunge, split squat or step-up at most", is_lunge),
];

/// Single-joint work apart from the trunk's.
fn is_one_joint(entry: &Entry) -> bool {
    entry.kind == Some(Kind::Isolation) && !entry.pattern.is_some_and(Pattern::is_trunk)
}

impl Rule for PatternRepeats {
    fn id(&self) -> &'static str {
        "pattern-repeats"
    }
    fn summary(&self) -> &'static str {
        "a session does not do the same thing over and over"
    }
    fn force(&self) -> Force {
        Force::View
    }
    fn add_to(&self, weekly: &mut Weekly) {
        let novice = weekly.request.profile.training_status == Status::Novice;
        for day in weekly.days() {
            self.add_second_lifts(weekly, day);
            let mut patterns: BTreeMap<Pattern, Vec<Term>> = BTreeMap::new();
            let mut primes: BTreeMap<Muscle, Vec<Term>> = BTreeMap::new();
            let mut same: BTreeMap<(Pattern, Vec<Muscle>), Vec<Term>> = BTreeMap::new();
            let mut one_joint: BTreeMap<Pattern, (usize, Vec<Term>)> = BTreeMap::new();
            for pick in weekly.on(day) {
                let exercise = weekly.candidate(pick);
                let done = (pick.chosen, 1.0);
                patterns.entry(exercise.pattern).or_default().push(done);
                if is_one_joint(&exercise.entry) {
                    let (most, terms) = one_joint.entry(exercise.pattern).or_default();
                    *most = (*most).max(most_of_one_joint(weekly.request, [&*exercise.entry]));
                    terms.push(done);
                }
                if let Some(prime) = exercise.prime() {
                    primes.entry(prime).or_default().push(done);
                }
                let mut direct = exercise.entry.direct.clone();
                direct.sort_unstable();
                same.entry((exercise.pattern, direct)).or_default().push(done);
            }
            let label = weekly.request.days[day].label();
            for (pattern, (most, terms)) in one_joint {
                if terms.len() > most {
                    let subject = format!("{pattern}_{label}_one_joint");
                    weekly.model.convention(self.id(), subject, terms, Op::Le, limited(most));
                }
            }
            let whole = weekly.split.days[day].whole_body;
            let most_of = |pattern: &Pattern| most_of(*pattern, whole);
            for (pattern, terms) in
                patterns.into_iter().filter(|(pattern, terms)| terms.len() > most_of(pattern))
            {
                let most = limited(most_of(&pattern));
                weekly.model.convention(
                    self.id(),
                    format!("{pattern}_{label}"),
                    terms,
                    Op::Le,
                    most,
                );
            }
            for (prime, terms) in
                primes.into_iter().filter(|(_, terms)| terms.len() > MOST_OF_PRIME)
            {
                weekly.model.convention(self.id(), format!("{prime}_{label}"), terms, Op::Le, 3.0);
            }
            for ((pattern, _), terms) in
                same.into_iter().filter(|(_, terms)| novice && terms.len() > 1)
            {
                weekly.model.convention(
                    self.id(),
                    format!("{pattern}_{label}_same"),
                    terms,
                    Op::Le,
                    1.0,
                );
            }
        }
    }
    fn recount(&self, request: &Request, week: &Week) -> Vec<Finding> {
        let novice = request.profile.training_status == Status::Novice;
        let mut findings = Vec::new();
        for session in &week.sessions {
            let mut patterns: BTreeMap<Pattern, usize> = BTreeMap::new();
            let mut primes: BTreeMap<Muscle, usize> = BTreeMap::new();
            let mut one_joint: BTreeMap<Pattern, Vec<&Entry>> = BTreeMap::new();
            let items: Vec<_> = session.work().collect();
            for (place, item) in items.iter().enumerate() {
                let pattern = item.pattern().unwrap_or(Pattern::Locomotion);
                *patterns.entry(pattern).or_default() += 1;
                if is_one_joint(&item.entry) {
                    one_joint.entry(pattern).or_default().push(&item.entry);
                }
                if let Some(prime) = item.entry.direct.first() {
                    *primes.entry(*prime).or_default() += 1;
                }
                for other in items[place + 1..].iter().filter(|_| novice) {
                    if alike(&item.entry, &other.entry) {
                        let place =
                            format!("{}, {} and {}", session.label, item.entry.id, other.entry.id);
                        let got = "two that are alike";
                        findings.push(
                            Finding::broken(self.id(), place, "one of them", got).as_remark(),
                        );
                    }
                }
            }
            for (name, wanted, is_of) in ONCE_A_DAY {
                let done = items.iter().filter(|item| is_of(&item.entry)).count();
                if done > 1 {
                    let place = format!("{}, {name}", session.label);
                    let finding = Finding::broken(self.id(), place, wanted, done.to_string());
                    findings.push(finding.as_remark());
                }
            }
            let bars = items.iter().filter(|item| is_bar_for_legs(&item.entry)).count();
            if bars > MOST_BARS_FOR_LEGS {
                let wanted = "two lifts with the bar for the legs at most";
                let place = session.label.clone();
                findings
                    .push(Finding::broken(self.id(), place, wanted, bars.to_string()).as_remark());
            }
            let most = |entries: &[&Entry]| most_of_one_joint(request, entries.iter().copied());
            let many = one_joint.iter().filter(|(_, entries)| entries.len() > most(entries));
            findings.extend(many.map(|(pattern, entries)| {
                let (most, count) = (most(entries), entries.len());
                let place = format!("{}, {pattern}", session.label);
                let wanted = format!("{most} of one joint at most");
                Finding::broken(self.id(), place, wanted, count.to_string()).as_remark()
            }));
            let whole = is_for_whole_body(request, session);
            let many =
                patterns.iter().filter(|(pattern, count)| **count > most_of(**pattern, whole));
            findings.extend(many.map(|(pattern, count)| {
                let place = format!("{}, {pattern}", session.label);
                let wanted = format!("{} of the pattern at most", most_of(*pattern, whole));
                Finding::broken(self.id(), place, wanted, count.to_string()).as_remark()
            }));
            let many = primes.iter().filter(|(_, count)| **count > MOST_OF_PRIME);
            findings.extend(many.map(|(prime, count)| {
                let place = format!("{}, {prime}", session.label);
                Finding::broken(self.id(), place, "three exercises at most", count.to_string())
                    .as_remark()
            }));
        }
        findings
    }
}

/// Squat, hinge and thrust with the bar that a day has at most: the third begins with a tired back and another set-up.
/// Common practice.
const MOST_BARS_FOR_LEGS: usize = 2;

fn is_bar_for_legs(entry: &Entry) -> bool {
    let legs = [Pattern::Squat, Pattern::Hinge, Pattern::HipExtension];
    entry.load == LoadKind::BarTotal && entry.pattern.is_some_and(|one| legs.contains(&one))
}

fn limited(most: usize) -> f64 {
    f64::from(u32::try_from(most).unwrap_or(u32::MAX))
}

impl PatternRepeats {
    /// One squat without a machine, one thrust and one lunge, and rather no second press, row or squat on a day that is not for few body parts.
    fn add_second_lifts(&self, weekly: &mut Weekly, day: usize) {
        let label = weekly.request.days[day].label();
        let whole = weekly.split.days[day].whole_body;
        let chosen = |weekly: &Weekly, test: &dyn Fn(&Entry) -> bool| -> Vec<Term> {
            let picks = weekly.on(day).filter(|pick| test(&weekly.candidate(pick).entry));
            picks.map(|pick| (pick.chosen, 1.0)).collect()
        };
        for (name, _, is_of) in ONCE_A_DAY {
            let done = chosen(weekly, &is_of);
            if done.len() > 1 {
                let subject = format!("{name}_{label}");
                weekly.model.convention(self.id(), subject, done, Op::Le, 1.0);
            }
        }
        let bars = chosen(weekly, &is_bar_for_legs);
        if bars.len() > MOST_BARS_FOR_LEGS {
            let wish = at_most(bars, limited(MOST_BARS_FOR_LEGS)).missed_by(2.0);
            let subject = format!("leg_bars_{label}");
            weekly.miss(self.id(), subject, Tier::View, wish, THIRD_LEG_BAR);
        }
        // What should get less has one lift a day.
        for muscle in Muscle::ALL.iter().filter(|muscle| weekly.request.wants_less(**muscle)) {
            let lifts = |entry: &Entry| {
                entry.kind == Some(Kind::Compound) && entry.direct.first() == Some(muscle)
            };
            let done = chosen(weekly, &lifts);
            if done.len() > 1 {
                let wish = at_most(done, 1.0).missed_by(3.0);
                let subject = format!("{muscle}_{label}_spared");
                weekly.miss(self.id(), subject, Tier::View, wish, THIRD_LEG_BAR);
            }
        }
        // Days for few body parts do their movement from several sides.
        let is_wide = weekly.split.days[day].muscles.len() >= WIDE_DAY;
        let once = |pattern: &&Pattern| is_wide && is_big(**pattern);
        for pattern in Pattern::ALL.iter().filter(once) {
            let done = chosen(weekly, &|entry| entry.pattern == Some(*pattern));
            if most_of(*pattern, whole) > 1 && done.len() > 1 {
                let wish = at_most(done, 1.0).missed_by(1.0);
                let subject = format!("{pattern}_{label}_again");
                weekly.miss(self.id(), subject, Tier::View, wish, SAME_TODAY);
            }
        }
    }
}
