//! `preparation`: the warm-up is short and for the day's muscles.
//!
//! After a general start everything readies a muscle that a set of the day is done for: no hang on a leg day. Common
//! practice.
//!
//! Four to ten minutes and up to four items; up to three minutes in sessions up to half an hour (Iversen et al.
//! 2021: exercise-specific warm-up is enough when time is short).

use super::{Finding, Force, Rule};
use crate::request::Request;
use crate::week::{Group, Week};
use crate::words::{GroupKind, Part};

/// Preparation by session.
pub(super) struct Preparation;

const MOST_ITEMS: usize = 4;

impl Rule for Preparation {
    fn id(&self) -> &'static str {
        "preparation"
    }
    fn summary(&self) -> &'static str {
        "the warm-up is short and for the day's muscles"
    }
    fn force(&self) -> Force {
        Force::View
    }
    fn recount(&self, request: &Request, week: &Week) -> Vec<Finding> {
        let mut findings = Vec::new();
        for session in &week.sessions {
            let groups: Vec<&Group> =
                session.groups.iter().filter(|group| group.kind == GroupKind::Prep).collect();
            if groups.is_empty() {
                continue;
            }
            let seconds: u32 = groups.iter().map(|group| group.recounted_s()).sum();
            let items: Vec<_> = groups.iter().flat_map(|group| &group.items).collect();
            let short = request.days[session.day].minutes <= 30;
            let (least, most) = if short { (0, 180) } else { (240, 600) };
            let mut remark = |place: String, wanted: String, got: String| {
                findings.push(Finding::broken(self.id(), place, wanted, got).as_remark());
            };
            if seconds < least || seconds > most {
                let wanted = format!("{} to {} minutes", least / 60, most / 60);
                remark(session.label.clone(), wanted, format!("{seconds} s"));
            }
            if items.len() > MOST_ITEMS {
                let wanted = format!("{MOST_ITEMS} items at most");
                remark(session.label.clone(), wanted, items.len().to_string());
            }
            let trained = |muscle| session.work().any(|item| item.entry.direct.contains(&muscle));
            for item in items {
                let prepared = &item.entry.muscles;
                let used = prepared.iter().any(|muscle| trained(*muscle));
                let general = item.entry.part == Some(Part::General);
                if !general && !prepared.is_empty() && !used {
                    let place = format!("{}, {}", session.label, item.entry.id);
                    remark(place, "for a muscle the day trains".to_owned(), "for none".to_owned());
                }
            }
        }
        findings
    }
}
