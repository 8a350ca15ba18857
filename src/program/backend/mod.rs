//! The solver behind the model. good_lp builds the problem; the backend is named here and nowhere else.

#[cfg(feature = "highs")]
mod highs;
mod microlp;

use good_lp::{Expression, ProblemVariables, Solver, SolverModel as _, Variable, variable};

use super::{Model, Op, Row, Term, VarDef, holds};

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
    /// Nodes of the search tree that it took, one at least.
    pub nodes: u64,
}

/// What a solver is asked.
#[derive(Debug, Clone)]
pub struct Problem<'a> {
    /// The solver.
    pub backend: Backend,
    /// The model.
    pub model: &'a Model,
    /// The goal, to be maximized.
    pub goal: &'a [Term],
    /// Whether whole-number variables may take any value between their bounds.
    pub relaxed: bool,
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
    let backend = Backend::default();
    solve(&Problem { backend, model, goal, relaxed: false, start: None, work })
}

/// Maximizes a goal.
///
/// # Errors
/// Whether the rows collide or the work was spent first.
pub fn solve(problem: &Problem) -> Result<Found, Nothing> {
    let rows = &problem.model.rows;
    if rows.iter().any(|row| row.terms.is_empty() && !holds(0.0, row.op, row.right)) {
        return Err(Nothing::Infeasible);
    }
    match problem.backend {
        Backend::Microlp => microlp::solve(problem),
        #[cfg(feature = "highs")]
        Backend::Highs => highs::solve(problem),
    }
}

/// The problem in good_lp's terms, variables in order of creation.
fn built<S: Solver>(problem: &Problem, solver: S) -> S::Model {
    let mut variables = ProblemVariables::new();
    let vars: Vec<Variable> = problem
        .model
        .vars
        .iter()
        .map(|def| {
            let bounded = variable().min(def.low).max(def.high);
            let whole = def.integer && !problem.relaxed;
            variables.add(if whole { bounded.integer() } else { bounded })
        })
        .collect();
    let mut built = variables.maximise(expression(problem.goal, &vars)).using(solver);
    // A row that the bounds alone keep need not be seen.
    let rows = problem.model.rows.iter();
    for row in rows.filter(|row| !always_holds(problem.model, row)) {
        let left = expression(&row.terms, &vars);
        built.add_constraint(match row.op {
            Op::Le => left.leq(row.right),
            Op::Ge => left.geq(row.right),
            Op::Eq => left.eq(row.right),
        });
    }
    built
}

fn expression(terms: &[Term], vars: &[Variable]) -> Expression {
    let mut sum = Expression::with_capacity(terms.len());
    for (var, factor) in terms {
        sum.add_mul(*factor, vars[var.0]);
    }
    sum
}

/// The values found, whole where the variable is.
fn values(problem: &Problem, found: impl Iterator<Item = f64>) -> Vec<f64> {
    let whole = |def: &VarDef| def.integer && !problem.relaxed;
    let vars = problem.model.vars.iter();
    vars.zip(found).map(|(def, value)| if whole(def) { value.round() } else { value }).collect()
}

/// Whether a row holds wherever its variables are.
fn always_holds(model: &Model, row: &Row) -> bool {
    let sum = |most: bool| -> f64 {
        let end = |(var, factor): &Term| {
            let def = &model.vars[var.0];
            factor * if (*factor > 0.0) == most { def.high } else { def.low }
        };
        row.terms.iter().map(end).sum()
    };
    match row.op {
        Op::Le => sum(true) <= row.right,
        Op::Ge => sum(false) >= row.right,
        Op::Eq => false,
    }
}
