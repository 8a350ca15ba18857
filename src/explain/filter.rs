//! The deletion filter and elastic rows over any ledger (Guieu and Chinneck 1999; Chinneck 2008).
//!
//! Rows are dropped together by what they say and of whom: a group is a rule with a subject.

use std::collections::{BTreeMap, BTreeSet};

use crate::program::backend::{self, Work};
use crate::program::{Model, Op, Row};
use crate::search::feasibility::Verdict;

/// A rule with its subject.
pub type Group = (String, String);

/// Nodes of an elastic question.
const NODES: u64 = 100;

/// A minimal set of groups that cannot hold together.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Minimal {
    /// The groups.
    pub groups: BTreeSet<Group>,
    /// Whether every question on the way was answered, so that no group can be left out.
    pub proven: bool,
}

/// The group of a row.
#[must_use]
pub fn group(row: &Row) -> Group {
    (row.rule.to_owned(), row.subject.clone())
}

/// The deletion filter: groups are tried in their order, in ever smaller lots; a lot that is not needed for the
/// collision is dropped. `without` answers whether the rest can hold together.
pub fn deletion_filter(
    groups: Vec<Group>,
    mut with: impl FnMut(&BTreeSet<Group>) -> Verdict,
) -> Minimal {
    let mut kept = groups;
    let mut proven = true;
    let mut lot = kept.len().div_ceil(2).max(1);
    loop {
        let mut start = 0;
        while start < kept.len() {
            let end = (start + lot).min(kept.len());
            let rest: BTreeSet<Group> = kept[..start].iter().chain(&kept[end..]).cloned().collect();
            match with(&rest) {
                Verdict::Impossible => {
                    kept.drain(start..end);
                }
                Verdict::Feasible => start = end,
                Verdict::Unknown => {
                    proven &= lot > 1;
                    start = end;
                }
            }
        }
        if lot == 1 {
            return Minimal { groups: kept.into_iter().collect(), proven };
        }
        lot = (lot / 2).max(1);
    }
}

/// The least total by which rows of some groups must give way, and by how much each does; `None` where the other
/// rows collide by themselves. Rows give way in their own units.
#[must_use]
pub fn elastic(model: &Model, soft: &BTreeSet<Group>) -> Option<BTreeMap<Group, f64>> {
    let mut model = model.clone();
    let mut goal = Vec::new();
    let mut slacks = Vec::new();
    for place in 0..model.rows.len() {
        let group = group(&model.rows[place]);
        if !soft.contains(&group) {
            continue;
        }
        for sign in signs(model.rows[place].op) {
            let slack = model.least(format!("slack_{}", slacks.len()), 1e5);
            model.rows[place].terms.push((slack, *sign));
            goal.push((slack, -1.0));
            slacks.push((group.clone(), slack));
        }
    }
    let found = backend::maximize(&model, &goal, Some(Work { nodes: NODES })).ok()?;
    let mut gives: BTreeMap<Group, f64> = BTreeMap::new();
    for (group, slack) in slacks {
        *gives.entry(group).or_default() += found.values[slack.0];
    }
    Some(gives)
}

const fn signs(op: Op) -> &'static [f64] {
    match op {
        Op::Le => &[-1.0],
        Op::Ge => &[1.0],
        Op::Eq => &[1.0, -1.0],
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::search::feasibility::verdict;

    /// The worked example of an infeasible subset: two lifts, at most five sets each, twelve wanted, 2.5 minutes a
    /// set in 40 minutes (after Chinneck 2008; the figures are ours).
    fn worked_example() -> Model {
        let mut model = Model::default();
        let (one, two) = (model.least("s1".to_owned(), 50.0), model.least("s2".to_owned(), 50.0));
        model.demand("target", "chest", vec![(one, 1.0), (two, 1.0)], Op::Ge, 12.0);
        model.demand("cap", "s1", vec![(one, 1.0)], Op::Le, 5.0);
        model.demand("cap", "s2", vec![(two, 1.0)], Op::Le, 5.0);
        model.demand("minutes", "mon", vec![(one, 2.5), (two, 2.5)], Op::Le, 40.0);
        model
    }

    fn only(model: &Model, kept: &BTreeSet<Group>) -> Model {
        let rows = model.rows.iter().filter(|row| kept.contains(&group(row))).cloned().collect();
        Model { vars: model.vars.clone(), rows }
    }

    fn named(list: &[(&str, &str)]) -> BTreeSet<Group> {
        list.iter().map(|(rule, subject)| ((*rule).to_owned(), (*subject).to_owned())).collect()
    }

    /// OP-01 and OP-02: the unique subset is the target with both caps; the minutes are not in it.
    #[test]
    fn the_deletion_filter_finds_the_worked_subset() {
        let model = worked_example();
        let groups: Vec<Group> = model.rows.iter().map(group).collect();
        let found = deletion_filter(groups, |kept| verdict(&only(&model, kept)));
        let wanted = named(&[("target", "chest"), ("cap", "s1"), ("cap", "s2")]);
        assert_eq!(found, Minimal { groups: wanted, proven: true });
    }

    /// OP-03: with slack on the target alone it gives way by 2.0; a feasible model needs none.
    #[test]
    fn elastic_rows_give_way_by_the_least() {
        let mut model = worked_example();
        let target = named(&[("target", "chest")]);
        let gives = elastic(&model, &target).unwrap();
        assert!((gives.values().sum::<f64>() - 2.0).abs() < 1e-6, "{gives:?}");
        model.rows[0].right = 10.0;
        let gives = elastic(&model, &target).unwrap();
        assert!(gives.values().sum::<f64>().abs() < 1e-6, "{gives:?}");
        let minutes = named(&[("minutes", "mon")]);
        assert_eq!(elastic(&worked_example(), &minutes), None, "the others collide by themselves");
    }

    /// A question that is not answered is said to be open, and its group stays.
    #[test]
    fn an_open_question_is_not_called_proven() {
        let groups: Vec<Group> = named(&[("a", ""), ("b", "")]).into_iter().collect();
        let open = deletion_filter(groups, |_| Verdict::Unknown);
        assert_eq!((open.groups.len(), open.proven), (2, false));
    }
}
