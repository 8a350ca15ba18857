//! Goals: what a variable of the week counts, in which tier, for which rule and about what.

use super::Weekly;
use super::tier::Tier;
use crate::program::{Op, Role, Term, Var, value};

/// What a variable counts.
#[derive(Debug, Clone, PartialEq)]
pub struct Goal {
    /// The tier that it counts in.
    pub tier: Tier,
    /// The rule's id.
    pub rule: &'static str,
    /// What it is about: a day, a muscle, an exercise.
    pub subject: String,
    /// What is counted.
    pub var: Var,
    /// Costs of one, or points in the last tier.
    pub weight: f64,
}

/// What is wished of some terms. It may be missed, which costs.
#[derive(Debug, Clone, PartialEq)]
pub struct Wish {
    terms: Vec<Term>,
    op: Op,
    right: f64,
    unit: f64,
    most: f64,
    whole: bool,
    role: Role,
}

/// How much of a wish is a little, and the points that each unit of it costs.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Near {
    /// What may be missed so.
    pub by: f64,
    /// Points of one.
    pub points: f64,
}

/// More than any week misses of anything.
const ANY: f64 = 1000.0;

/// Terms are at least a number.
#[must_use]
pub(crate) fn at_least(terms: Vec<Term>, right: f64) -> Wish {
    Wish { most: right, ..wish(terms, Op::Ge, right) }
}

/// Terms are at most a number.
#[must_use]
pub(crate) fn at_most(terms: Vec<Term>, right: f64) -> Wish {
    wish(terms, Op::Le, right)
}

const fn wish(terms: Vec<Term>, op: Op, right: f64) -> Wish {
    Wish { terms, op, right, unit: 1.0, most: ANY, whole: false, role: Role::Definition }
}

impl Wish {
    /// Misses are counted in units of so many, and begun ones whole.
    #[must_use]
    pub fn in_whole(self, unit: f64) -> Wish {
        Wish { unit, whole: true, ..self }
    }

    /// No week misses it by more, as the terms themselves are bounded.
    #[must_use]
    pub fn missed_by(self, most: f64) -> Wish {
        Wish { most, ..self }
    }

    /// So much less is asked for.
    fn loosened_by(self, by: f64) -> Wish {
        let sign = if self.op == Op::Ge { -1.0 } else { 1.0 };
        Wish { right: self.right + sign * by, ..self }
    }

    /// To miss it by more is against convention.
    #[must_use]
    pub fn missed_at_most_by(self, most: f64) -> Wish {
        Wish { most, role: Role::Convention, ..self }
    }
}

impl Weekly<'_> {
    /// What is 1 at most, and only where anything of `done` is: a day that has some of a kind of work.
    pub fn if_any(
        &mut self,
        rule: &'static str,
        name: String,
        subject: String,
        done: Vec<Term>,
    ) -> Term {
        let any = self.model.most(name, 1.0);
        let mut row = vec![(any, 1.0)];
        row.extend(done.into_iter().map(|(var, _)| (var, -1.0)));
        self.model.define(rule, subject, row, Op::Le, 0.0);
        (any, 1.0)
    }

    /// A soft wish: what it is missed by costs a weight of its tier.
    pub fn miss(
        &mut self,
        rule: &'static str,
        subject: impl Into<String>,
        tier: Tier,
        wish: Wish,
        weight: f64,
    ) {
        // A solver may miss a wish by more than the week does, so that a miss that brought points would be free to take.
        debug_assert!(tier != Tier::View || weight <= 0.0, "{rule}: a miss brings no points");
        let subject = subject.into();
        let (side, sign) = if wish.op == Op::Ge { ("under", 1.0) } else { ("over", -1.0) };
        let name = format!("{side}_{rule}_{subject}");
        let miss = self.model.least_of(name, wish.most, wish.whole);
        let mut terms = wish.terms;
        terms.push((miss, sign * wish.unit));
        self.model.row(wish.role, rule, subject.clone(), terms, wish.op, wish.right);
        self.count(rule, subject, tier, miss, weight);
    }

    /// A soft wish of which a little may be missed: up to `near` it costs points of the coach's view, where it is weighed
    /// with everything else, and only what is missed beyond that costs in an earlier tier as well.
    pub fn miss_beyond(
        &mut self,
        rule: &'static str,
        subject: impl Into<String>,
        wish: Wish,
        near: Near,
        (tier, weight): (Tier, f64),
    ) {
        let subject = subject.into();
        let far = wish.clone().loosened_by(near.by);
        self.miss(rule, format!("{subject}_near"), Tier::View, wish, near.points);
        self.miss(rule, subject, tier, far, weight);
    }

    /// What comes again brings points: each day of an exercise after its first, whatever solver fills the week in.
    pub fn bring_again(
        &mut self,
        rule: &'static str,
        subject: String,
        candidate: usize,
        weight: f64,
    ) {
        let picks = self.picks.iter().filter(|pick| pick.candidate == candidate);
        let days: Vec<Term> = picks.map(|pick| (pick.chosen, -1.0)).collect();
        let Some(used) = self.used.get(&candidate).copied().filter(|_| days.len() > 1) else {
            return;
        };
        let most = days.iter().skip(1).map(|_| 1.0).sum();
        let again = self.model.most(format!("again_{subject}"), most);
        let terms = [(again, 1.0), (used, 1.0)].into_iter().chain(days).collect();
        self.model.define(rule, subject.clone(), terms, Op::Le, 0.0);
        self.count(rule, subject, Tier::View, again, weight);
    }

    /// A variable counts in a tier.
    pub fn count(
        &mut self,
        rule: &'static str,
        subject: impl Into<String>,
        tier: Tier,
        var: Var,
        weight: f64,
    ) {
        self.goals.push(Goal { tier, rule, subject: subject.into(), var, weight });
    }

    /// The goals of a tier.
    pub fn goals_of(&self, tier: Tier) -> impl Iterator<Item = &Goal> {
        self.goals.iter().filter(move |goal| goal.tier == tier)
    }

    /// The costs of a tier, or the points of the last.
    #[must_use]
    pub fn terms_of(&self, tier: Tier) -> Vec<Term> {
        self.goals_of(tier).map(|goal| (goal.var, goal.weight)).collect()
    }

    /// What is to be maximized in a tier.
    #[must_use]
    pub fn objective_of(&self, tier: Tier) -> Vec<Term> {
        let sign = if tier.is_cost() { -1.0 } else { 1.0 };
        self.goals_of(tier).map(|goal| (goal.var, sign * goal.weight)).collect()
    }

    /// What some values reach in a tier.
    #[must_use]
    pub fn reached(&self, tier: Tier, values: &[f64]) -> f64 {
        value(&self.terms_of(tier), values)
    }
}
