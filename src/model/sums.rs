//! Sets of a muscle as variables of their own, so that rows about them are short.

use super::Weekly;
use crate::program::{Term, Var};
use crate::words::Muscle;

/// More half-sets than any week has.
const MOST: f64 = 1000.0;

/// For each muscle, its half-sets and direct sets.
#[derive(Debug, Clone, Default)]
pub(crate) struct Sums {
    /// Half-sets by muscle and day.
    pub(super) halves: Vec<Vec<Option<Var>>>,
    /// Direct sets by muscle and day.
    pub(super) direct: Vec<Vec<Option<Var>>>,
    /// Half-sets of the week by muscle.
    pub(super) week: Vec<Option<Var>>,
    /// Half-sets of the week that are done for the muscle: two of its prime mover, one of another direct muscle.
    pub(super) own: Vec<Option<Var>>,
}

/// Adds a variable for each sum that has a term.
pub(super) fn add_sums(weekly: &mut Weekly) {
    let mut sums = Sums::default();
    for muscle in Muscle::ALL {
        let (mut halves, mut direct) = (Vec::new(), Vec::new());
        for day in weekly.days() {
            let label = weekly.request.days[day].name_part();
            let of_day = weekly.half_terms(*muscle, day);
            halves.push(sum(weekly, format!("halves_{muscle}_{label}"), of_day));
            let of_day = weekly.direct_terms(*muscle, day);
            direct.push(sum(weekly, format!("direct_{muscle}_{label}"), of_day));
        }
        let of_week = halves.iter().flatten().map(|var| (*var, 1.0)).collect();
        sums.week.push(sum(weekly, format!("halves_{muscle}"), of_week));
        let own = weekly.own_terms(*muscle);
        sums.own.push(sum(weekly, format!("own_{muscle}"), own));
        sums.halves.push(halves);
        sums.direct.push(direct);
    }
    weekly.sums = sums;
}

/// A variable that is the sum of some terms; `None` of none.
fn sum(weekly: &mut Weekly, name: String, terms: Vec<Term>) -> Option<Var> {
    if terms.is_empty() {
        return None;
    }
    Some(weekly.model.sum("adds-up", name, terms, MOST))
}
