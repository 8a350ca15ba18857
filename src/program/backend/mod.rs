//! The solver behind the model. good_lp builds the problem; the backend is named here and nowhere else.

#[cfg(feature = "highs")]
mod highs;
mod microlp;

use good_lp::{Expression, ProblemVariables, Variable, variable};

use super::{Model, Op, Term, Var, holds};

/// A solver behind the model.
#[derive(
    Debug,
    Clone,
    Copy,
    PartialEq,
    Eq,
    Default,
    strum::Display,
    strum::EnumString,
    strum::IntoStaticStr,
)]
#[strum(serialize_all = "kebab-case")]
pub enum Backend {
    /// Pure Rust, in every build.
    #[default]
    Microlp,
    /// C++, only in builds with the feature of its name: it takes on whole weeks, to the proof where it can.
    #[cfg(feature = "highs")]
    Highs,
}

impl Backend {
    /// The solver's name, as plans print it.
    #[must_use]
    pub fn name(self) -> &'static str {
        self.into()
    }

    /// Whether it is strong enough for a large week with no day held.
    #[must_use]
    pub const fn takes_whole_weeks(self) -> bool {
        !matches!(self, Backend::Microlp)
    }
}

/// What a solve may spend. Work, not clock time, so that the same input gives the same plan.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Work {
    /// Most nodes of the search tree.
    pub nodes: u64,
}

/// What a solve found.
#[derive(Debug, Clone, PartialEq)]
pub struct Found {
    /// A value for every variable of the model, whole where the variable is.
    pub values: Vec<f64>,
    /// The objective at those values.
    pub objective: f64,
    /// What no solution can pass.
    pub bound: f64,
    /// Whether objective and bound meet.
    pub proven: bool,
}

/// A solve over part of a model: some variables fixed, some relaxed to any value between their bounds.
#[derive(Debug, Clone)]
pub struct Part<'a> {
    /// The solver.
    pub backend: Backend,
    /// The model.
    pub model: &'a Model,
    /// The goal, to be maximized.
    pub goal: &'a [Term],
    /// Values of variables that are not free; `None` is free.
    pub fixed: &'a [Option<f64>],
    /// Whether a free whole-number variable may take any value.
    pub relaxed: &'a [bool],
    /// Values to start from, where a plan is known.
    pub start: Option<&'a [f64]>,
    /// What may be spent; `None` means to the proof.
    pub work: Option<Work>,
}

/// Why a solve gave no values.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Nothing {
    /// Proven: the rows collide.
    Infeasible,
    /// The work was spent, or the solver failed; this proves nothing.
    Stopped,
}

/// Maximizes a goal over a whole model.
///
/// # Errors
/// Whether the rows collide or the work was spent first.
pub fn maximize(model: &Model, goal: &[Term], work: Option<Work>) -> Result<Found, Nothing> {
    let part = Part {
        backend: Backend::default(),
        model,
        goal,
        fixed: &vec![None; model.vars.len()],
        relaxed: &vec![false; model.vars.len()],
        start: None,
        work,
    };
    solve(&part)
}

/// Maximizes a goal over the free variables of a part.
///
/// # Errors
/// Whether the rows collide or the work was spent first.
pub fn solve(part: &Part) -> Result<Found, Nothing> {
    let reduced = Reduced::new(part).ok_or(Nothing::Infeasible)?;
    match part.backend {
        Backend::Microlp => microlp::solve(part, &reduced),
        #[cfg(feature = "highs")]
        Backend::Highs => highs::solve(part, &reduced),
    }
}

/// A row over places: factors, comparison, right side.
pub(super) type ReducedRow = (Vec<(usize, f64)>, Op, f64);

/// A part with its fixed variables taken out.
pub(super) struct Reduced {
    /// The free variables, by their place in the model.
    pub(super) free: Vec<Var>,
    /// Rows over the places in `free`.
    pub(super) rows: Vec<ReducedRow>,
    /// The goal over the places in `free`.
    pub(super) goal: Vec<(usize, f64)>,
    /// What the fixed variables give the goal.
    pub(super) constant: f64,
}

impl Reduced {
    /// `None` where the fixed values break a row by themselves.
    fn new(part: &Part) -> Option<Reduced> {
        let free: Vec<Var> =
            (0..part.model.vars.len()).filter(|var| part.fixed[*var].is_none()).map(Var).collect();
        let mut place = vec![usize::MAX; part.model.vars.len()];
        for (index, var) in free.iter().enumerate() {
            place[var.0] = index;
        }
        let split = |terms: &[Term]| {
            let mut kept = Vec::new();
            let mut constant = 0.0;
            for (var, factor) in terms {
                match part.fixed[var.0] {
                    Some(value) => constant += factor * value,
                    None => kept.push((place[var.0], *factor)),
                }
            }
            (kept, constant)
        };
        let mut rows = Vec::new();
        for row in &part.model.rows {
            let (terms, constant) = split(&row.terms);
            if terms.is_empty() {
                if !holds(constant, row.op, row.right) {
                    return None;
                }
            } else if !always_holds(part, &free, &terms, row.op, row.right - constant) {
                rows.push((terms, row.op, row.right - constant));
            }
        }
        let (goal, constant) = split(part.goal);
        Some(Reduced { free, rows, goal, constant })
    }
}

/// The free variables in good_lp's terms, in order of creation.
fn variables(part: &Part, reduced: &Reduced) -> (ProblemVariables, Vec<Variable>) {
    let mut variables = ProblemVariables::new();
    let free = reduced.free.iter();
    let vars = free.map(|var| {
        let def = &part.model.vars[var.0];
        let bounded = variable().min(def.low).max(def.high);
        variables.add(if is_whole(part, *var) { bounded.integer() } else { bounded })
    });
    let vars = vars.collect();
    (variables, vars)
}

fn is_whole(part: &Part, var: Var) -> bool {
    part.model.vars[var.0].integer && !part.relaxed[var.0]
}

fn expression(terms: &[(usize, f64)], vars: &[Variable]) -> Expression {
    let mut sum = Expression::with_capacity(terms.len());
    for (place, factor) in terms {
        sum.add_mul(*factor, vars[*place]);
    }
    sum
}

fn constraint(row: &(Vec<(usize, f64)>, Op, f64), vars: &[Variable]) -> good_lp::Constraint {
    let (terms, op, right) = row;
    let left = expression(terms, vars);
    match op {
        Op::Le => left.leq(*right),
        Op::Ge => left.geq(*right),
        Op::Eq => left.eq(*right),
    }
}

/// Values of all variables: the fixed ones, and those found for the free ones.
fn values(part: &Part, reduced: &Reduced, found: impl Iterator<Item = f64>) -> Vec<f64> {
    let mut values: Vec<f64> = part.fixed.iter().map(|value| value.unwrap_or(0.0)).collect();
    for (var, value) in reduced.free.iter().zip(found) {
        values[var.0] = if is_whole(part, *var) { value.round() } else { value };
    }
    values
}

/// Whether the bounds alone keep a row, so that the solver need not see it.
fn always_holds(part: &Part, free: &[Var], terms: &[(usize, f64)], op: Op, right: f64) -> bool {
    let sum = |most: bool| -> f64 {
        terms
            .iter()
            .map(|(place, factor)| {
                let def = &part.model.vars[free[*place].0];
                factor * if (*factor > 0.0) == most { def.high } else { def.low }
            })
            .sum()
    };
    match op {
        Op::Le => sum(true) <= right,
        Op::Ge => sum(false) >= right,
        Op::Eq => false,
    }
}
