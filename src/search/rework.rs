//! A plan that somebody wrote by hand misses what it misses: a rework of it holds each wish at what the plan reaches,
//! so that nothing changes beyond what is asked.

use std::collections::BTreeSet;

use super::anneal::{Annealer, Incumbent, before};
use super::presolve::dominance;
use crate::model::tier::Tier;
use crate::model::{Pick, Weekly};
use crate::program::{Op, Role, Row, Settles, Var, value};
use crate::request::{Misses, Request};
use crate::rules;
use crate::split::Split;

/// Less than this is rounding.
const ROUNDING: f64 = 1e-6;

/// The model of a request under a split; where a plan is reworked, with each wish held at what that plan reaches.
pub(super) fn weekly_model<'a>(
    request: &'a Request,
    split: &'a Split,
    keep: &BTreeSet<usize>,
) -> Weekly<'a> {
    let mut weekly = rules::weekly_model(request, split, keep);
    hold(&mut weekly);
    weekly
}

/// The last touch of a rework: what changed is put back, one exercise after another, wherever no earlier tier
/// loses by it, if need be with a set less or more of a new one, or with another new one of its pattern.
pub(super) fn put_back(weekly: &Weekly, mut best: Incumbent) -> Incumbent {
    if weekly.goals_of(Tier::Changes).next().is_none() {
        return best;
    }
    let (empty, before) = (Annealer::new(weekly), before(weekly));
    loop {
        let score = best.score;
        for pick in &weekly.picks {
            let own = [pick.chosen.0, pick.extra.0];
            if own.iter().all(|var| (best.values[*var] - before[*var]).abs() < ROUNDING) {
                continue;
            }
            let mut values = best.values.clone();
            for var in own {
                values[var] = before[var];
            }
            let others = with_other_new_ones(weekly, &values, &before);
            for values in std::iter::once(values).chain(others) {
                let next = empty.clone().with(&values).anneal(0);
                best = if next.score.beats(&best.score) { next } else { best };
            }
        }
        if !best.score.beats(&score) {
            return best;
        }
    }
}

/// The same week with a set less or more of each exercise that is new in it, and with each other one of its pattern.
fn with_other_new_ones(weekly: &Weekly, values: &[f64], before: &[f64]) -> Vec<Vec<f64>> {
    let is_in = |one: &Pick| before[one.chosen.0] > 0.5 || values[one.chosen.0] > 0.5;
    let is_new = |one: &&Pick| is_in(one) && before[one.chosen.0] < 0.5;
    let pattern = |one: &Pick| weekly.candidate(one).pattern;
    let mut weeks = Vec::new();
    for new in weekly.picks.iter().filter(is_new) {
        let [least, most] = new.sets.map(f64::from);
        let sets = least + values[new.extra.0];
        for other in [sets - 1.0, sets + 1.0] {
            if (least..=most).contains(&other) {
                let mut changed = values.to_vec();
                changed[new.extra.0] = other - least;
                weeks.push(changed);
            }
        }
        let others = weekly.picks.iter().filter(|other| {
            other.day == new.day && pattern(other) == pattern(new) && !is_in(other)
        });
        weeks.extend(others.map(|other| {
            let [least, most] = other.sets.map(f64::from);
            let mut swapped = values.to_vec();
            (swapped[new.chosen.0], swapped[new.extra.0]) = (0.0, 0.0);
            (swapped[other.chosen.0], swapped[other.extra.0]) =
                (1.0, sets.clamp(least, most) - least);
            swapped
        }));
    }
    weeks
}

/// What the plan of a request that is reworked misses as it stands.
#[must_use]
pub fn misses(request: &Request, split: &Split) -> Misses {
    let weekly = weekly_model(request, split, &dominance::kept(request));
    let values = Annealer::at_start(&weekly).anneal(0).values;
    let model = &weekly.model;
    let mut misses = Misses::default();
    for var in wished(&weekly) {
        if model.vars[var.0].settles == Settles::Least && values[var.0] > ROUNDING {
            misses.wishes.insert(model.vars[var.0].name.clone(), values[var.0]);
        }
    }
    for row in model.rows.iter().filter(|row| row.role == Role::Convention) {
        let left = value(&row.terms, &values);
        let broken = if row.op == Op::Le { left - row.right } else { row.right - left };
        if row.op != Op::Eq && broken > ROUNDING {
            let most = misses.conventions.entry(key(row)).or_default();
            *most = most.max(broken);
        }
    }
    misses
}

/// What counts in tiers 1 and 2.
fn wished(weekly: &Weekly) -> impl Iterator<Item = Var> {
    let goals = [Tier::Coverage, Tier::Ranges].into_iter().flat_map(|tier| weekly.goals_of(tier));
    goals.map(|goal| goal.var)
}

fn key(row: &Row) -> (String, String) {
    (row.rule.to_owned(), row.subject.clone())
}

/// A wish that the plan misses costs what it costs there at least, so that to meet it better gains nothing; what a
/// convention forbids and the plan does may stay.
fn hold(weekly: &mut Weekly) {
    let Some(rework) = &weekly.request.rework else { return };
    let missed: Vec<_> = wished(weekly)
        .filter_map(|var| {
            let def = &weekly.model.vars[var.0];
            // A target that came down can be missed by less than before.
            let cost = rework.misses.wishes.get(&def.name)?.min(def.high);
            Some((var, def.name.clone(), cost))
        })
        .collect();
    for (var, name, cost) in missed {
        weekly.model.define("as-written", name, vec![(var, 1.0)], Op::Ge, cost);
    }
    for row in &mut weekly.model.rows {
        let Some(by) = rework.misses.conventions.get(&key(row)) else { continue };
        match row.op {
            Op::Le => row.right += by,
            Op::Ge => row.right -= by,
            Op::Eq => {}
        }
    }
}
