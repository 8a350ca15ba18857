//! HiGHS through good_lp, for proofs and cross-checks; only in builds with the feature `highs`.

use good_lp::SolverModel as _;
use good_lp::solvers::highs::highs as using_highs;
use highs::{HighsModelStatus, HighsSolutionStatus};

use super::{Found, Nothing, Part, Reduced};

/// Closer than this, value and bound have met.
const MET: f64 = 1e-6;

/// Solves a reduced part. Node limit and bound are not in good_lp's own trait, so the problem that it built is
/// solved with HiGHS's options. One thread, so that the same part gives the same values.
pub(super) fn solve(part: &Part, reduced: &Reduced) -> Result<Found, Nothing> {
    let (variables, vars) = super::variables(part, reduced);
    let goal = super::expression(&reduced.goal, &vars);
    let mut problem = variables.maximise(goal).using(using_highs);
    for row in &reduced.rows {
        problem.add_constraint(super::constraint(row, &vars));
    }
    let mut model = problem.try_into_inner().map_err(|_| Nothing::Stopped)?;
    model.make_quiet();
    model.set_option("threads", 1);
    model.set_option("mip_rel_gap", 0.0);
    model.set_option("mip_abs_gap", MET);
    if let Some(work) = part.work {
        model.set_option("mip_max_nodes", i32::try_from(work.nodes).unwrap_or(i32::MAX));
    }
    if let Some(start) = part.start {
        let start: Vec<f64> = reduced.free.iter().map(|var| start[var.0]).collect();
        model.set_solution(Some(&start), None, None, None);
    }
    let solved = model.try_solve().map_err(|_| Nothing::Stopped)?;
    match solved.status() {
        HighsModelStatus::Infeasible => Err(Nothing::Infeasible),
        _ if solved.primal_solution_status() == HighsSolutionStatus::Feasible => {
            Ok(read(part, reduced, &solved))
        }
        _ => Err(Nothing::Stopped),
    }
}

fn read(part: &Part, reduced: &Reduced, solved: &highs::SolvedModel) -> Found {
    let values = super::values(part, reduced, solved.get_solution().columns().iter().copied());
    let found = solved.objective_value();
    let optimal = solved.status() == HighsModelStatus::Optimal;
    // A model without whole numbers has no such bound; its optimum is the bound.
    let bound = solved.double_info_value(c"mip_dual_bound").ok().filter(|bound| bound.is_finite());
    let bound = if optimal { found } else { bound.unwrap_or(f64::INFINITY) };
    Found {
        values,
        objective: found + reduced.constant,
        bound: bound + reduced.constant,
        proven: optimal,
    }
}
