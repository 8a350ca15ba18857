//! The default backend: microlp, pure Rust, through good_lp.

use good_lp::SolverModel as _;
use good_lp::solvers::microlp::microlp as using_microlp;
use microlp::{SolveOptions, TerminationReason};

use super::{Found, Nothing, Part, Reduced};

/// Solves a reduced part. Node limits, gap and bound are not in good_lp's own trait, so the problem that
/// it built is solved with microlp's options. Variable order is creation order in both.
pub(super) fn solve(part: &Part, reduced: &Reduced) -> Result<Found, Nothing> {
    let (variables, vars) = super::variables(part, reduced);
    let goal = super::expression(&reduced.goal, &vars);
    let mut problem = variables.maximise(goal).using(using_microlp);
    for row in &reduced.rows {
        problem.add_constraint(super::constraint(row, &vars));
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
    let values = super::values(part, reduced, solution.iter().map(|(_, value)| value));
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
