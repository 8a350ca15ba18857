//! `HiGHS` through good_lp, for proofs and cross-checks; only in builds with the feature `highs`.

use good_lp::solvers::highs::highs as using_highs;
use highs::{HighsModelStatus, HighsSolutionStatus};

use super::{Found, Nothing, Problem};

/// Closer than this, value and bound have met.
const MET: f64 = 1e-6;

/// Solves a problem. Node limit and bound are not in good_lp's own trait, so the problem that it built is
/// solved with `HiGHS`'s options. One thread, so that the same problem gives the same values.
pub(super) fn solve(problem: &Problem) -> Result<Found, Nothing> {
    let mut model =
        super::built(problem, using_highs).try_into_inner().map_err(|_| Nothing::Stopped)?;
    model.make_quiet();
    model.set_option("threads", 1);
    model.set_option("mip_rel_gap", 0.0);
    model.set_option("mip_abs_gap", MET);
    if let Some(work) = problem.work {
        model.set_option("mip_max_nodes", i32::try_from(work.nodes).unwrap_or(i32::MAX));
    }
    if let Some(start) = problem.start {
        model.set_solution(Some(start), None, None, None);
    }
    let solved = model.try_solve().map_err(|_| Nothing::Stopped)?;
    match solved.status() {
        HighsModelStatus::Infeasible => Err(Nothing::Infeasible),
        _ if solved.primal_solution_status() == HighsSolutionStatus::Feasible => {
            Ok(read(problem, &solved))
        }
        _ => Err(Nothing::Stopped),
    }
}

fn read(problem: &Problem, solved: &highs::SolvedModel) -> Found {
    let values = super::values(problem, solved.get_solution().columns().iter().copied());
    let found = solved.objective_value();
    let optimal = solved.status() == HighsModelStatus::Optimal;
    // A model without whole numbers has no such bound; its optimum is the bound.
    let bound = solved.double_info_value(c"mip_dual_bound").ok().filter(|bound| bound.is_finite());
    let bound = if optimal { found } else { bound.unwrap_or(f64::INFINITY) };
    // Its own count is of a kind that the bindings do not hand out.
    let nodes = problem.work.map_or(1, |work| work.nodes);
    Found { values, objective: found, bound, proven: optimal, nodes }
}
