//! What no week can pass, without a solver: the rows that settle gains and costs are priced, and what is left falls into
//! days, each a knapsack of minutes with one exercise of each kind that excludes itself.
//!
//! Every choice of prices gives a bound (Lagrangian relaxation, Fisher 1981); a few dozen steps along the subgradient
//! (Held, Wolfe and Crowder 1974) bring it near the best of them.

use std::collections::BTreeMap;

use crate::model::Weekly;
use crate::model::tier::Tier;
use crate::program::{Op, Row, Settles, Term};

/// Steps along the subgradient.
const STEPS: u32 = 60;
/// Steps without a better bound after which they get shorter.
const PATIENCE: u32 = 4;
/// Exercises of a day up to which pairs are made.
const MOST_PAIRED: f64 = 10.0;

/// A linear expression in variables that are no sums themselves.
#[derive(Clone, Default)]
struct Linear {
    terms: BTreeMap<usize, f64>,
    constant: f64,
}

/// A row that is priced: an expression that is at most nought.
struct Priced {
    terms: Vec<(usize, f64)>,
    constant: f64,
    price: f64,
}

/// A way to do an exercise on a day: seconds, and what it brings.
#[derive(Clone, Copy)]
struct Way {
    seconds: f64,
    gain: f64,
    pick: usize,
    sets: f64,
}

struct Bounding<'w, 'a> {
    weekly: &'w Weekly<'a>,
    goal: Linear,
    rows: Vec<Priced>,
    /// Picks of each day, together where only one of them can be done.
    kinds: Vec<Vec<Vec<usize>>>,
    /// Seconds of each day, with all that pairs can save.
    seconds: Vec<f64>,
    pair_day: BTreeMap<usize, usize>,
}

/// What no week passes in a tier where some value is reached: the least of costs, the most of points.
pub(super) fn of_tier(weekly: &Weekly, tier: Tier, reached: f64) -> f64 {
    if !tier.is_cost() {
        return most(weekly, &weekly.objective_of(tier), reached);
    }
    if reached < 1e-6 {
        0.0
    } else {
        (-most(weekly, &weekly.objective_of(tier), -reached)).max(0.0)
    }
}

/// The most that a goal can reach in any week that keeps the rows; at least what is reached.
fn most(weekly: &Weekly, goal: &[Term], reached: f64) -> f64 {
    let mut bounding = Bounding::new(weekly, goal);
    let (mut best, mut length, mut idle) = (f64::INFINITY, 1.0, 0);
    for _ in 0..STEPS {
        let (bound, over) = bounding.at_prices();
        if bound < best - 1e-9 {
            (best, idle) = (bound, 0);
        } else {
            idle += 1;
            if idle == PATIENCE {
                (length, idle) = (length / 2.0, 0);
            }
        }
        let squares: f64 = over.iter().map(|over| over * over).sum();
        if best <= reached + 1e-6 || squares < 1e-12 {
            break;
        }
        let step = length * (bound - reached).max(1e-3) / squares;
        for (row, over) in bounding.rows.iter_mut().zip(&over) {
            row.price = (row.price + step * over).max(0.0);
        }
    }
    best.max(reached)
}

impl<'w, 'a> Bounding<'w, 'a> {
    fn new(weekly: &'w Weekly<'a>, goal: &[Term]) -> Bounding<'w, 'a> {
        let sums = sums(weekly);
        let linear = |terms: &[Term]| -> Linear {
            let mut whole = Linear::default();
            for (var, by) in terms {
                match &sums[var.0] {
                    None => *whole.terms.entry(var.0).or_default() += by,
                    Some(sum) => {
                        whole.constant += by * sum.constant;
                        for (part, factor) in &sum.terms {
                            *whole.terms.entry(*part).or_default() += by * factor;
                        }
                    }
                }
            }
            whole
        };
        let settles = |row: &&Row| {
            let mut vars = row.terms.iter().map(|(var, _)| weekly.model.vars[var.0].settles);
            row.op != Op::Eq && vars.any(|one| matches!(one, Settles::Least | Settles::Most))
        };
        let rows = weekly.model.rows.iter().filter(settles).map(|row| {
            let Linear { terms, constant } = linear(&row.terms);
            let sign = if row.op == Op::Le { 1.0 } else { -1.0 };
            let terms = terms.into_iter().map(|(var, by)| (var, sign * by)).collect();
            Priced { terms, constant: sign * (constant - row.right), price: 0.0 }
        });
        let most_saved = |day: usize| {
            let pairs = weekly.pairs.iter().filter(|pair| pair.day == day);
            pairs.map(|pair| f64::from(pair.saves_s)).fold(0.0, f64::max) * MOST_PAIRED / 2.0
        };
        let seconds = |day: usize| f64::from(weekly.request.days[day].work_s()) + most_saved(day);
        let who = weekly.picks.iter().flat_map(|pick| pick.paired().map(|var| (var.0, pick.day)));
        let which = weekly.pairs.iter().map(|pair| (pair.count.0, pair.day));
        Bounding {
            weekly,
            goal: linear(goal),
            rows: rows.collect(),
            kinds: kinds(weekly),
            seconds: weekly.days().map(seconds).collect(),
            pair_day: who.chain(which).collect(),
        }
    }

    /// The bound at the prices as they stand, and by how much each priced row is over at the week that reaches it.
    fn at_prices(&self) -> (f64, Vec<f64>) {
        let count = self.weekly.model.vars.len();
        let mut gains = vec![0.0; count];
        for (var, by) in &self.goal.terms {
            gains[*var] += by;
        }
        let mut bound = self.goal.constant;
        for row in self.rows.iter().filter(|row| row.price > 0.0) {
            bound -= row.price * row.constant;
            for (var, by) in &row.terms {
                gains[*var] -= row.price * by;
            }
        }
        let mut values = vec![0.0; count];
        for (var, def) in self.weekly.model.vars.iter().enumerate() {
            if def.settles != Settles::Decision && gains[var] > 0.0 {
                values[var] = def.high;
                bound += gains[var] * def.high;
            }
        }
        // A day has few pairs, and each pair two exercises.
        let mut best_of_day = vec![0.0_f64; self.kinds.len()];
        for (var, day) in &self.pair_day {
            best_of_day[*day] = best_of_day[*day].max(gains[*var]);
        }
        bound += 1.5 * MOST_PAIRED * best_of_day.iter().sum::<f64>();
        for day in 0..self.kinds.len() {
            bound += self.filled(day, &gains, &mut values);
        }
        let over = self.rows.iter().map(|row| {
            row.constant + row.terms.iter().map(|(var, by)| by * values[*var]).sum::<f64>()
        });
        (bound, over.collect())
    }

    /// The most that the picks of a day bring within its seconds, where the last one may be done in part.
    fn filled(&self, day: usize, gains: &[f64], values: &mut [f64]) -> f64 {
        let mut steps: Vec<(f64, Way, Option<Way>)> = Vec::new();
        let mut sum = 0.0;
        for kind in &self.kinds[day] {
            let mut last: Option<Way> = None;
            for way in hull(self.ways(kind, gains)) {
                let before = last.map_or((0.0, 0.0), |last| (last.seconds, last.gain));
                let rate = (way.gain - before.1) / (way.seconds - before.0);
                steps.push((rate, way, last));
                last = Some(way);
            }
        }
        steps.sort_by(|one, other| other.0.total_cmp(&one.0));
        let mut left = self.seconds[day];
        for (_, way, before) in steps {
            let (seconds, gain) = before.map_or((0.0, 0.0), |before| (before.seconds, before.gain));
            let part = (left / (way.seconds - seconds)).min(1.0);
            left -= part * (way.seconds - seconds);
            sum += part * (way.gain - gain);
            for (way, part) in before.map(|before| (before, -part)).into_iter().chain([(way, part)])
            {
                let pick = &self.weekly.picks[way.pick];
                values[pick.chosen.0] += part;
                values[pick.extra.0] += part * (way.sets - f64::from(pick.sets[0]));
            }
            if left <= 1e-9 {
                break;
            }
        }
        sum
    }

    /// The ways to do one of some picks that bring anything.
    fn ways(&self, kind: &[usize], gains: &[f64]) -> Vec<Way> {
        let mut ways = Vec::new();
        for place in kind {
            let pick = &self.weekly.picks[*place];
            let exercise = self.weekly.candidate(pick);
            for sets in pick.sets[0]..=pick.sets[1] {
                let further = f64::from(sets - pick.sets[0]);
                let gain = gains[pick.chosen.0] + further * gains[pick.extra.0];
                let rests = f64::from(sets * (exercise.work_s + exercise.rest_s));
                let seconds = f64::from(exercise.start_s) - f64::from(exercise.rest_s) + rests;
                if gain > 0.0 {
                    let seconds = seconds.max(1.0);
                    ways.push(Way { seconds, gain, pick: *place, sets: f64::from(sets) });
                }
            }
        }
        ways
    }
}

/// The ways that are best at some price of a second, in the order of their seconds.
fn hull(mut ways: Vec<Way>) -> Vec<Way> {
    ways.sort_by(|one, other| {
        one.seconds.total_cmp(&other.seconds).then(other.gain.total_cmp(&one.gain))
    });
    let mut hull: Vec<Way> = Vec::new();
    for way in ways {
        if hull.last().is_some_and(|last| way.gain <= last.gain) {
            continue;
        }
        // The last one falls out where a line from the one before it passes above.
        while let Some(last) = hull.last() {
            let (seconds, gain) =
                hull.iter().rev().nth(1).map_or((0.0, 0.0), |one| (one.seconds, one.gain));
            let rise = (last.gain - gain) * (way.seconds - seconds);
            if rise > (way.gain - gain) * (last.seconds - seconds) {
                break;
            }
            hull.pop();
        }
        hull.push(way);
    }
    hull
}

/// For each variable that is a sum, what it is the sum of.
fn sums(weekly: &Weekly) -> Vec<Option<Linear>> {
    let mut sums: Vec<Option<Linear>> = vec![None; weekly.model.vars.len()];
    for row in weekly.model.rows.iter().filter(|row| row.op == Op::Eq) {
        let Some(((sum, own), parts)) = row.terms.split_last() else { continue };
        if weekly.model.vars[sum.0].settles != Settles::Equal {
            continue;
        }
        let mut whole = Linear { constant: row.right / own, ..Linear::default() };
        for (var, by) in parts {
            match &sums[var.0] {
                None => *whole.terms.entry(var.0).or_default() -= by / own,
                Some(part) => {
                    whole.constant -= by / own * part.constant;
                    for (inner, factor) in &part.terms {
                        *whole.terms.entry(*inner).or_default() -= by / own * factor;
                    }
                }
            }
        }
        sums[sum.0] = Some(whole);
    }
    sums
}

/// The picks of each day, together where a row lets only one of them be done.
fn kinds(weekly: &Weekly) -> Vec<Vec<Vec<usize>>> {
    let chosen: BTreeMap<usize, usize> =
        weekly.picks.iter().enumerate().map(|(place, pick)| (pick.chosen.0, place)).collect();
    let mut kind_of: Vec<Option<usize>> = vec![None; weekly.picks.len()];
    let mut number = 0;
    let one_only = |row: &&Row| row.op == Op::Le && row.right == 1.0;
    for row in weekly.model.rows.iter().filter(one_only) {
        let picks: Option<Vec<usize>> = row
            .terms
            .iter()
            .map(|(var, by)| chosen.get(&var.0).copied().filter(|_| *by == 1.0))
            .collect();
        let Some(picks) = picks else { continue };
        let day = picks.first().map(|pick| weekly.picks[*pick].day);
        let is_new =
            |pick: &usize| kind_of[*pick].is_none() && Some(weekly.picks[*pick].day) == day;
        if picks.iter().all(is_new) {
            for pick in picks {
                kind_of[pick] = Some(number);
            }
            number += 1;
        }
    }
    let of_day = |day: usize| {
        let mut kinds: BTreeMap<usize, Vec<usize>> = BTreeMap::new();
        for (place, pick) in weekly.picks.iter().enumerate().filter(|(_, pick)| pick.day == day) {
            kinds.entry(kind_of[place].unwrap_or(number + place)).or_default().push(place);
            debug_assert_eq!(pick.day, day);
        }
        kinds.into_values().collect()
    };
    weekly.days().map(of_day).collect()
}
