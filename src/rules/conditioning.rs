//! `conditioning`: conditioning comes last, fills up to a quarter of a session, and comes in later for novices.
//!
//! A power goal keeps it apart (Schumann et al. 2022: worse for explosive strength in the same session).

use super::{Finding, Force, Rule};
use crate::request::Request;
use crate::week::Week;
use crate::words::GroupKind;

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
            let place = session.groups.iter().position(|group| group.kind == GroupKind::Conditioning);
            let Some(place) = place else { continue };
            let label = session.label.clone();
            if session.groups[place..].iter().any(crate::week::Group::is_work) {
                findings.push(
                    Finding::broken(self.id(), label.clone(), "after the strength work", "before").as_remark(),
                );
            }
            let seconds: u32 = session
                .groups
                .iter()
                .filter(|group| group.kind == GroupKind::Conditioning)
                .map(crate::week::Group::recounted_s)
                .sum();
            let limit = request.days[session.day].minutes * 60 / 4;
            let strength = session.work().next().is_some();
            if strength && seconds > limit {
                let wanted = format!("{limit} s at most, a quarter");
                findings.push(Finding::broken(self.id(), label, wanted, format!("{seconds} s")).as_remark());
            }
        }
        findings
    }
}
