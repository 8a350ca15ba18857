//! A model as a ledger: variables with readable names, and rows that know their rule and subject.
//!
//! Solving, explaining and exporting all read the same ledger; the solver behind it is good_lp.

pub mod backend;
pub mod export;

/// A variable, by its place in the model.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Var(pub usize);

/// A variable with its factor.
pub type Term = (Var, f64);

/// How the two sides of a row compare.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Op {
    /// At most.
    Le,
    /// At least.
    Ge,
    /// Equal.
    Eq,
}

/// A variable's name and bounds.
#[derive(Debug, Clone, PartialEq)]
pub struct VarDef {
    /// Readable, of letters, digits, `-` and `_`.
    pub name: String,
    /// Least value.
    pub low: f64,
    /// Greatest value.
    pub high: f64,
    /// Whole numbers only.
    pub integer: bool,
    /// What sets its value.
    pub settles: Settles,
}

/// What sets a variable's value once the decisions are made.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Settles {
    /// It is a decision itself.
    Decision,
    /// It is as small as its rows and the variables before it allow: a cost.
    Least,
    /// It is as large as its rows and the variables before it allow: a gain.
    Most,
    /// It is what the only equation that ends with it says, and follows nothing else.
    Equal,
}

/// What a row is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Role {
    /// It says what a variable means, and can always be kept by that variable.
    Definition,
    /// No week does without it.
    Demand,
    /// Good coaches keep to it, where that leaves any week.
    Convention,
}

/// A row with the rule that it comes from and what it is about.
#[derive(Debug, Clone, PartialEq)]
pub struct Row {
    /// What it is for.
    pub role: Role,
    /// The rule's id.
    pub rule: &'static str,
    /// What it is about: a day, a muscle, an exercise.
    pub subject: String,
    /// The left side.
    pub terms: Vec<Term>,
    /// The comparison.
    pub op: Op,
    /// The right side.
    pub right: f64,
}

/// Variables and rows.
#[derive(Debug, Clone, Default)]
pub struct Model {
    /// The variables, in order of creation.
    pub vars: Vec<VarDef>,
    /// The rows, in order of creation.
    pub rows: Vec<Row>,
}

impl Model {
    /// A new variable.
    pub fn var(&mut self, def: VarDef) -> Var {
        self.vars.push(def);
        Var(self.vars.len() - 1)
    }

    /// A new yes-or-no decision.
    pub fn binary(&mut self, name: String) -> Var {
        self.integer(name, 0, 1)
    }

    /// A new whole-number decision.
    pub fn integer(&mut self, name: String, low: u32, high: u32) -> Var {
        let (low, high) = (f64::from(low), f64::from(high));
        self.var(VarDef { name, low, high, integer: true, settles: Settles::Decision })
    }

    /// A new variable from nought that takes the least value its rows allow.
    pub fn least(&mut self, name: String, high: f64) -> Var {
        self.least_of(name, high, false)
    }

    /// The same, whole or not.
    pub fn least_of(&mut self, name: String, high: f64, integer: bool) -> Var {
        self.var(VarDef { name, low: 0.0, high, integer, settles: Settles::Least })
    }

    /// A new variable from nought that is the sum of some terms, by a row of its own.
    pub fn sum(&mut self, rule: &'static str, name: String, terms: Vec<Term>, high: f64) -> Var {
        let settles = Settles::Equal;
        let subject = name.clone();
        let sum = self.var(VarDef { name, low: 0.0, high, integer: false, settles });
        let row = terms.into_iter().map(|(var, factor)| (var, -factor)).chain([(sum, 1.0)]);
        self.define(rule, subject, row.collect(), Op::Eq, 0.0);
        sum
    }

    /// A new whole number from nought that takes the least value its rows allow.
    pub fn least_whole(&mut self, name: String, high: u32) -> Var {
        self.least_of(name, f64::from(high), true)
    }

    /// A new variable from nought that takes the most value its rows allow.
    pub fn most(&mut self, name: String, high: f64) -> Var {
        let settles = Settles::Most;
        self.var(VarDef { name, low: 0.0, high, integer: false, settles })
    }

    /// Adds what a variable means.
    pub fn define(
        &mut self,
        rule: &'static str,
        subject: impl Into<String>,
        terms: Vec<Term>,
        op: Op,
        right: f64,
    ) {
        self.row(Role::Definition, rule, subject, terms, op, right);
    }

    /// Adds a demand.
    pub fn demand(
        &mut self,
        rule: &'static str,
        subject: impl Into<String>,
        terms: Vec<Term>,
        op: Op,
        right: f64,
    ) {
        self.row(Role::Demand, rule, subject, terms, op, right);
    }

    /// Adds a convention.
    pub fn convention(
        &mut self,
        rule: &'static str,
        subject: impl Into<String>,
        terms: Vec<Term>,
        op: Op,
        right: f64,
    ) {
        self.row(Role::Convention, rule, subject, terms, op, right);
    }

    /// Adds a row. Rows without terms are kept only where they cannot hold.
    pub fn row(
        &mut self,
        role: Role,
        rule: &'static str,
        subject: impl Into<String>,
        terms: Vec<Term>,
        op: Op,
        right: f64,
    ) {
        if !terms.is_empty() || !holds(0.0, op, right) {
            self.rows.push(Row {
                role,
                rule,
                subject: subject.into(),
                terms: merged(terms),
                op,
                right,
            });
        }
    }
}

impl Model {
    /// Drops the definitions of costs and gains that no demand or convention looks at.
    pub fn drop_unused_definitions(&mut self) {
        let follows = |var: Var, vars: &[VarDef]| {
            matches!(vars[var.0].settles, Settles::Least | Settles::Most)
        };
        let mut used = vec![false; self.vars.len()];
        let others = self.rows.iter().filter(|row| row.role != Role::Definition);
        for (var, _) in others.flat_map(|row| &row.terms) {
            used[var.0] = true;
        }
        // What a kept definition is made of is made before it.
        for row in self.rows.iter().rev().filter(|row| row.role == Role::Definition) {
            if row.terms.iter().any(|(var, _)| used[var.0] && follows(*var, &self.vars)) {
                for (var, _) in &row.terms {
                    used[var.0] = true;
                }
            }
        }
        let vars = &self.vars;
        self.rows.retain(|row| {
            row.role != Role::Definition
                || row.terms.iter().all(|(var, _)| used[var.0] || !follows(*var, vars))
        });
    }
}

/// One term per variable, in variable order.
#[must_use]
pub fn merged(mut terms: Vec<Term>) -> Vec<Term> {
    terms.sort_by_key(|(var, _)| *var);
    terms.dedup_by(|next, first| {
        let same = next.0 == first.0;
        if same {
            first.1 += next.1;
        }
        same
    });
    terms.retain(|(_, factor)| *factor != 0.0);
    terms
}

/// Whether a comparison holds, with room for rounding.
#[must_use]
pub fn holds(left: f64, op: Op, right: f64) -> bool {
    const ROUNDING: f64 = 1e-6;
    match op {
        Op::Le => left <= right + ROUNDING,
        Op::Ge => left >= right - ROUNDING,
        Op::Eq => (left - right).abs() <= ROUNDING,
    }
}

/// The value of a sum of terms.
#[must_use]
pub fn value(terms: &[Term], values: &[f64]) -> f64 {
    terms.iter().map(|(var, factor)| factor * values[var.0]).sum()
}
