//! The default backend: microlp, pure Rust, through good_lp.

use good_lp::solvers::microlp::microlp as using_microlp;
use microlp::{SolveOptions, TerminationReason};

use super::{Found, Nothing, Problem};

/// Solves a problem. Node limits, gap and bound are not in good_lp's own trait, so the problem that it built
/// is solved with microlp's options. Variable order is creation order in both.
pub(super) fn solve(problem: &Problem) -> Result<Found, Nothing> {
    let built = super::built(problem, using_microlp);
    let mut options = SolveOptions::default();
    options.node_limit = problem.work.map(|work| work.nodes);
    options.warm_start = problem.start.map(start_values);
    match built.as_inner().solve_with(options) {
        Ok(outcome) => match outcome.into_solution() {
            Ok(solution) => Ok(read(problem, &solution)),
            Err(_) => Err(Nothing::Stopped),
        },
        Err(microlp::Error::Infeasible) => Err(Nothing::Infeasible),
        Err(_) => Err(Nothing::Stopped),
    }
}

fn read(problem: &Problem, solution: &microlp::Solution) -> Found {
    let values = super::values(problem, solution.iter().map(|(_, value)| value));
    let objective = solution.objective();
    let proven = solution.termination_reason() == TerminationReason::ProvenOptimal;
    let bound = if proven { None } else { solution.stats().best_bound };
    let nodes = solution.stats().nodes_solved.max(1);
    Found { values, objective, bound: bound.unwrap_or(objective), proven, nodes }
}

/// Start values. microlp's variables are places in order of creation, and only a problem hands them out, so a
/// scratch problem of the same size does.
fn start_values(start: &[f64]) -> Vec<(microlp::Variable, f64)> {
    let mut scratch = microlp::Problem::new(microlp::OptimizationDirection::Maximize);
    start.iter().map(|value| (scratch.add_var(0.0, (0.0, 1.0)), *value)).collect()
}
