//! `pattern-repeats`: a session does not do the same thing over and over.
//!
//! At most two exercises of a pattern and three with the same prime mover; for a novice no two that share
//! pattern and four fifths of the direct muscles (common practice).

use std::collections::BTreeMap;

use super::{Finding, Force, Rule};
use crate::model::Weekly;
use crate::program::{Op, Term};
use crate::request::Request;
use crate::request::candidate::alike;
use crate::week::Week;
use crate::words::{Muscle, Pattern, Status};

/// Exercises by pattern, prime mover and day.
pub(super) struct PatternRepeats;

const MOST_OF_PATTERN: usize = 2;
const MOST_OF_PRIME: usize = 3;

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
            let mut patterns: BTreeMap<Pattern, Vec<Term>> = BTreeMap::new();
            let mut primes: BTreeMap<Muscle, Vec<Term>> = BTreeMap::new();
            let mut same: BTreeMap<(Pattern, Vec<Muscle>), Vec<Term>> = BTreeMap::new();
            for pick in weekly.on(day) {
                let exercise = weekly.candidate(pick);
                let done = (pick.chosen, 1.0);
                patterns.entry(exercise.pattern).or_default().push(done);
                if let Some(prime) = exercise.prime() {
                    primes.entry(prime).or_default().push(done);
                }
                let mut direct = exercise.entry.direct.clone();
                direct.sort_unstable();
                same.entry((exercise.pattern, direct)).or_default().push(done);
            }
            let label = weekly.request.days[day].label();
            for (pattern, terms) in
                patterns.into_iter().filter(|(_, terms)| terms.len() > MOST_OF_PATTERN)
            {
                weekly.model.convention(
                    self.id(),
                    format!("{pattern}_{label}"),
                    terms,
                    Op::Le,
                    2.0,
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
            let items: Vec<_> = session.work().collect();
            for (place, item) in items.iter().enumerate() {
                *patterns.entry(item.pattern().unwrap_or(Pattern::Locomotion)).or_default() += 1;
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
            let many = patterns.iter().filter(|(_, count)| **count > MOST_OF_PATTERN);
            findings.extend(many.map(|(pattern, count)| {
                let place = format!("{}, {pattern}", session.label);
                Finding::broken(self.id(), place, "two exercises at most", count.to_string())
                    .as_remark()
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
