//! `conditioning`: conditioning comes last, fills up to a quarter of a session (two fifths of the first three quarters of an hour where strength and size are not the goal), and comes in later for novices.
//!
//! A power goal keeps it apart (Schumann et al. 2022: worse for explosive strength in the same session).

use super::recovery::hours_after;
use super::{Figure, Finding, Force, Rule, Unit};
use crate::request::Request;
use crate::request::closing::most_s;
use crate::week::{Item, Session, Week};
use crate::words::{GroupKind, Kit, Muscle, Part, Role};

/// Conditioning by session.
pub(super) struct Conditioning;

impl Rule for Conditioning {
    fn id(&self) -> &'static str {
        "conditioning"
    }
    fn summary(&self) -> &'static str {
        "conditioning comes last and fills up to a quarter of a session"
    }
    fn force(&self) -> Force {
        Force::View
    }
    fn recount(&self, request: &Request, week: &Week) -> Vec<Finding> {
        let mut findings = Vec::new();
        for session in &week.sessions {
            let place =
                session.groups.iter().position(|group| group.kind == GroupKind::Conditioning);
            let Some(place) = place else { continue };
            let label = session.label.clone();
            if session.groups[place..].iter().any(crate::week::Group::is_work) {
                findings.push(
                    Finding::broken(self.id(), label.clone(), "after the strength work", "before")
                        .as_remark(),
                );
            }
            let seconds: u32 = session
                .groups
                .iter()
                .filter(|group| group.kind == GroupKind::Conditioning)
                .map(crate::week::Group::recounted_s)
                .sum();
            let limit = most_s(request.profile.goal, request.days[session.day].minutes);
            let strength = session.work().next().is_some();
            if strength && seconds > limit {
                let wanted = format!("{limit} s at most");
                findings.push(
                    Finding::broken(
                        self.id(),
                        label,
                        wanted,
                        Figure::number(seconds, Unit::Seconds),
                    )
                    .as_remark(),
                );
            }
        }
        for (before, after) in both_ways(&week.sessions) {
            let hours = hours_after(request, before, after);
            let hard =
                before.groups.iter().flat_map(|group| &group.items).find(|item| is_hard(item));
            if let Some(item) = hard.filter(|item| hours < BEFORE_HEAVY_H && suffers(item, after)) {
                let place = format!("{}, {}", before.label, item.entry.id);
                let wanted = format!("{BEFORE_HEAVY_H:.0} h before heavy work on {}", after.label);
                findings.push(
                    Finding::broken(
                        self.id(),
                        place,
                        wanted,
                        Figure::number(hours.round(), Unit::Hours),
                    )
                    .as_remark(),
                );
            }
        }
        findings
    }
}

/// Hours between hard intervals and heavy legs. Common practice.
const BEFORE_HEAVY_H: f64 = 24.0;

/// Every ordered pair of different sessions.
fn both_ways(sessions: &[Session]) -> impl Iterator<Item = (&Session, &Session)> {
    sessions.iter().enumerate().flat_map(move |(place, one)| {
        let others = sessions.iter().enumerate().filter(move |(other, _)| *other != place);
        others.map(move |(_, other)| (one, other))
    })
}

fn is_hard(item: &Item) -> bool {
    item.entry.role == Role::Conditioning && item.entry.part == Some(Part::Intervals)
}

/// Whether a session is heavy on what the intervals tire: the legs, on a rowing or ski ergometer also back and hinge.
fn suffers(intervals: &Item, session: &Session) -> bool {
    let hard_for = |muscles: &[Muscle]| muscles.iter().any(|muscle| session.is_hard_for(*muscle));
    let kit = intervals.entry.needs.iter().flatten();
    let pulls = kit.copied().any(|kit| matches!(kit, Kit::RowingErgometer | Kit::SkiErgometer));
    hard_for(&[Muscle::Quads, Muscle::Hamstrings, Muscle::Glutes])
        || (pulls && hard_for(&[Muscle::Lats, Muscle::UpperBack, Muscle::SpinalErectors]))
}
