//! The default backend: microlp, pure Rust, through good_lp.

use good_lp::solvers::microlp::microlp as using_microlp;
use good_lp::{Expression, ProblemVariables, SolverModel as _, variable};
use microlp::{SolveOptions, TerminationReason};

use super::{Found, Nothing, Part, Reduced};
use crate::program::Op;

/// Solves a reduced part. Node limits, gap and bound are not in good_lp's own trait, so the problem that
/// it built is solved with microlp's options. Variable order is creation order in both.
pub(super) fn solve(part: &Part, reduced: &Reduced) -> Result<Found, Nothing> {
    let mut variables = ProblemVariables::new();
    let vars: Vec<_> = reduced
        .free
        .iter()
        .map(|var| {
            let def = &part.model.vars[var.0];
            let bounded = variable().min(def.low).max(def.high);
            variables.add(if def.integer && !part.relaxed[var.0] {
                bounded.integer()
            } else {
                bounded
            })
        })
        .collect();
    let sum = |terms: &[(usize, f64)]| -> Expression {
        let mut sum = Expression::with_capacity(terms.len());
        for (place, factor) in terms {
            sum.add_mul(*factor, vars[*place]);
        }
        sum
    };
    let mut problem = variables.maximise(sum(&reduced.goal)).using(using_microlp);
    for (terms, op, right) in &reduced.rows {
        let left = sum(terms);
        problem.add_constraint(match op {
            Op::Le => left.leq(*right),
            Op::Ge => left.geq(*right),
            Op::Eq => left.eq(*right),
        });
    }
    let mut options = SolveOptions::default();
    options.node_limit = part.work.map(|work| work.nodes);
    options.warm_start = part.start.map(|start| start_values(reduced, start));
    match problem.as_inner().solve_with(options) {
        Ok(outcome) => match outcome.into_solution() {
            Ok(solution) => Ok(read(part, reduced, &solution)),
            Err(_) => Err(Nothing::Stopped),
        },
        Err(microlp::Error::Infeasible) => Err(Nothing::Infeasible),
        Err(_) => Err(Nothing::Stopped),
    }
}

fn read(part: &Part, reduced: &Reduced, solution: &microlp::Solution) -> Found {
    let mut values: Vec<f64> = part.fixed.iter().map(|value| value.unwrap_or(0.0)).collect();
    for (var, value) in reduced.free.iter().zip(solution.iter().map(|(_, value)| value)) {
        let whole = part.model.vars[var.0].integer && !part.relaxed[var.0];
        values[var.0] = if whole { value.round() } else { value };
    }
    let bound = solution.stats().best_bound.unwrap_or_else(|| solution.objective());
    let proven = solution.termination_reason() == TerminationReason::ProvenOptimal;
    let objective = solution.objective() + reduced.constant;
    let bound = if proven { objective } else { bound + reduced.constant };
    Found { values, objective, bound, proven }
}

/// Start values for the free variables. microlp's variables are places in order of creation, and only a
/// problem hands them out, so a scratch problem of the same size does.
fn start_values(reduced: &Reduced, start: &[f64]) -> Vec<(microlp::Variable, f64)> {
    let mut scratch = microlp::Problem::new(microlp::OptimizationDirection::Maximize);
    let free = reduced.free.iter();
    free.map(|var| (scratch.add_var(0.0, (0.0, 1.0)), start[var.0])).collect()
}
