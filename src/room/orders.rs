//! Other orders of a session that its plan's audit lets pass: it finds nothing then that it does not find now.

use itertools::Itertools as _;

use crate::audit;
use crate::input::plan;
use crate::request::Request;
use crate::rules::finding::Severity;
use crate::rules::{Finding, RULES, Rule};
use crate::week::Week;

/// Sessions with up to so many groups of work are tried in every order; of longer ones one group moves.
pub const EVERY_ORDER: usize = 5;

/// Rules about the order of a session, asked first because they refuse most.
const OF_ORDER: [&str; 4] = ["order", "lead-lift", "grip-order", "trunk-order"];

/// The audit of one week as it stands, against which changes are held.
pub struct Held<'a> {
    request: &'a Request,
    /// Rules with what each finds now.
    found: Vec<(&'static dyn Rule, Vec<Finding>)>,
}

impl<'a> Held<'a> {
    /// The audit of a week's sessions; none where they cannot be counted.
    #[must_use]
    pub fn of(request: &'a Request, sessions: &[plan::Session]) -> Option<Held<'a>> {
        let week = audit::week_of(sessions, request).ok()?;
        let is_of_order = |rule: &&&'static dyn Rule| OF_ORDER.contains(&rule.id());
        let first = RULES.iter().filter(is_of_order);
        let rest = RULES.iter().filter(|rule| !is_of_order(rule));
        let found = first.chain(rest).map(|rule| (*rule, rule.recount(request, &week))).collect();
        Some(Held { request, found })
    }

    /// Whether the audit finds nothing new in a changed week.
    #[must_use]
    pub fn lets_pass(&self, week: &Week) -> bool {
        self.found.iter().all(|(rule, now)| {
            rule.recount(self.request, week).iter().all(|finding| now.contains(finding))
        })
    }

    /// Whether changed sessions break no rule, and let no wish fall short by more, than now; a coach may remark on them.
    #[must_use]
    pub fn finds_as_good(&self, sessions: &[plan::Session]) -> bool {
        let Ok(week) = audit::week_of(sessions, self.request) else { return false };
        self.found.iter().all(|(rule, now)| {
            let found = rule.recount(self.request, &week).into_iter();
            let mut heavy = found.filter(|finding| finding.severity != Severity::Remark);
            heavy.all(|finding| now.iter().any(|known| finding.is_no_worse_than(known)))
        })
    }

    /// The other orders of a session's groups in a week like this one, as places in the order that it has: preparation and
    /// endings stay. Sessions of more than so many groups of work have only those in which one moves.
    #[must_use]
    pub fn orders(
        &self,
        sessions: &[plan::Session],
        session: usize,
        every: usize,
    ) -> Vec<Vec<usize>> {
        let Ok(week) = audit::week_of(sessions, self.request) else { return Vec::new() };
        let Some(groups) = week.sessions.get(session).map(|session| &session.groups) else {
            return Vec::new();
        };
        let own: Vec<usize> = (0..groups.len()).collect();
        let work: Vec<usize> = own.iter().copied().filter(|at| groups[*at].is_work()).collect();
        let mut orders: Vec<Vec<usize>> = if work.len() <= every {
            work.iter().copied().permutations(work.len()).collect()
        } else {
            one_moved(&work)
        };
        orders.retain(|order| *order != work);
        let whole = orders.into_iter().map(|order| {
            let mut whole = own.clone();
            for (at, group) in work.iter().zip(order) {
                whole[*at] = group;
            }
            whole
        });
        let mut tried = week.clone();
        whole
            .filter(|order| {
                tried.sessions[session].groups =
                    order.iter().map(|at| groups[*at].clone()).collect();
                self.lets_pass(&tried)
            })
            .collect()
    }
}

/// Every order in which one place moves.
fn one_moved(places: &[usize]) -> Vec<Vec<usize>> {
    let moves = (0..places.len()).cartesian_product(0..places.len());
    let moved = moves.filter(|(from, to)| from != to).map(|(from, to)| {
        let mut order = places.to_vec();
        let place = order.remove(from);
        order.insert(to, place);
        order
    });
    moved.unique().collect()
}
