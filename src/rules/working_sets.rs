//! `working-sets`: working sets stay under what the minutes carry, 0.40 a minute straight and 0.60 paired.
//!
//! The share that pairs save agrees with a trial (Burke et al. 2024 preprint); the rates are common practice.

use super::{Finding, Force, Rule};
use crate::model::{Weekly, paired_sets};
use crate::program::{Op, Term};
use crate::request::Request;
use crate::request::figures::{PAIRED_SETS_PER_MINUTE, SETS_PER_MINUTE};
use crate::week::Week;

/// Sets by day.
pub(super) struct WorkingSets;

/// What a paired set counts against the straight rate.
const PAIRED_SHARE: f64 = SETS_PER_MINUTE / PAIRED_SETS_PER_MINUTE;

impl Rule for WorkingSets {
    fn id(&self) -> &'static str {
        "working-sets"
    }
    fn summary(&self) -> &'static str {
        "working sets stay under what the minutes carry"
    }
    fn force(&self) -> Force {
        Force::View
    }
    fn add_to(&self, weekly: &mut Weekly) {
        for day in weekly.days() {
            // The fewest rounds of a pair: one of more is no fuller than it is counted.
            let rounds = paired_sets(weekly.request, day).into_iter().flatten().min();
            let rounds = f64::from(rounds.unwrap_or_default());
            let mut sets: Vec<Term> =
                weekly.on(day).flat_map(|pick| pick.sets_times(1.0)).collect();
            let credit = rounds * (1.0 - PAIRED_SHARE);
            sets.extend(weekly.on(day).flat_map(|pick| pick.paired_times(-credit)));
            let day = &weekly.request.days[day];
            let most = (f64::from(day.minutes) * SETS_PER_MINUTE).max(4.0);
            let label = day.label();
            weekly.model.convention(self.id(), label, sets, Op::Le, most);
        }
    }
    fn recount(&self, request: &Request, week: &Week) -> Vec<Finding> {
        week.sessions
            .iter()
            .filter_map(|session| {
                let sets = |paired: bool| -> u32 {
                    let groups = session.groups.iter();
                    let of_kind =
                        groups.filter(|group| group.is_work() && (group.items.len() > 1) == paired);
                    of_kind.flat_map(|group| &group.items).map(|item| item.sets).sum()
                };
                let (straight, paired) = (sets(false), sets(true));
                let counted = f64::from(straight) + PAIRED_SHARE * f64::from(paired);
                let most =
                    (f64::from(request.days[session.day].minutes) * SETS_PER_MINUTE).max(4.0);
                (counted > most + 1e-6).then(|| {
                    let wanted =
                        format!("{most:.0} straight sets at most, paired ones count two thirds");
                    let got = format!("{straight} straight and {paired} paired");
                    Finding::broken(self.id(), session.label.clone(), wanted, got).as_remark()
                })
            })
            .collect()
    }
}
