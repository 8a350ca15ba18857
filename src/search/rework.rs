//! A plan that somebody wrote by hand misses what it misses: a rework of it holds each wish at what the plan reaches,
//! so that nothing changes beyond what is asked.

use std::collections::BTreeSet;

use smallvec::smallvec;

use super::anneal::{Annealer, Incumbent, Landscape};
use super::budget::Budget;
use super::evaluator::{Change, ROUNDING, rows};
use super::presolve::dominance;
use crate::model::Weekly;
use crate::model::tier::Tier;
use crate::program::{Op, Role, Row, Settles, Var, value};
use crate::request::{Misses, Request};
use crate::rules;
use crate::split::Split;

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
pub(super) fn put_back(weekly: &Weekly, landscape: &Landscape, best: Incumbent) -> Incumbent {
    if weekly.goals_of(Tier::Changes).next().is_none() {
        return best;
    }
    let before = &landscape.start;
    let mut week = Annealer::new(landscape).with(&best.sets).evaluator;
    loop {
        let score = week.score();
        for pick in 0..before.len() {
            if week.sets()[pick] == before[pick] {
                continue;
            }
            let back: Change = smallvec![(pick, before[pick])];
            let others = others_of_new_ones(weekly, week.sets(), before, pick);
            let beside =
                others.into_iter().map(|other| back.iter().copied().chain(other).collect());
            let changes: Vec<Change> = std::iter::once(back.clone()).chain(beside).collect();
            for change in changes {
                let stood: Change =
                    change.iter().map(|(pick, _)| (*pick, week.sets()[*pick])).collect();
                let score = week.score();
                week.make(&change);
                if !week.score().beats(&score) {
                    week.make(&stood);
                }
            }
        }
        if !week.score().beats(&score) {
            return Annealer::new(landscape).with(week.sets()).anneal(0);
        }
    }
}

/// For each exercise that is new in a week: a set less or more of it, and each other one of its pattern in its place.
fn others_of_new_ones(weekly: &Weekly, sets: &[u32], before: &[u32], but: usize) -> Vec<Change> {
    let pattern = |pick: usize| weekly.candidate(&weekly.picks[pick]).pattern;
    let is_free = |pick: usize| pick != but && before[pick] == 0;
    let mut changes: Vec<Change> = Vec::new();
    for new in (0..sets.len()).filter(|pick| is_free(*pick) && sets[*pick] > 0) {
        let [least, most] = weekly.picks[new].sets;
        let steps = [sets[new] - 1, sets[new] + 1];
        let steps = steps.into_iter().filter(|sets| (least..=most).contains(sets));
        changes.extend(steps.map(|sets| Change::from_iter([(new, sets)])));
        for other in (0..sets.len()).filter(|pick| is_free(*pick) && sets[*pick] == 0) {
            if weekly.picks[other].day == weekly.picks[new].day && pattern(other) == pattern(new) {
                let [least, most] = weekly.picks[other].sets;
                changes.push(smallvec![(new, 0), (other, sets[new].clamp(least, most))]);
            }
        }
    }
    changes
}

/// What the plan of a request that is reworked misses as it stands.
#[must_use]
pub(crate) fn misses(request: &Request, split: &Split) -> Misses {
    let weekly = weekly_model(request, split, &dominance::kept(request));
    let landscape = Landscape::new(&weekly, &Budget::default());
    let values = rows::count(&weekly, &landscape.tables, &landscape.start).values;
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
