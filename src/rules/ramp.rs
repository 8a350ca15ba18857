//! `ramp`: ramp sets climb in load and fall in repetitions, and end near the working load.
//!
//! The last step is 75-90 % of the working load, no gap is over 35 % of it, none is under the empty bar, and all
//! of a session take up to eight minutes (after the NSCA protocol for maximum tests; common practice).

use super::{Finding, Force, Rule};
use crate::request::Request;
use crate::timing::{RAMP_MOST_S, RAMP_REST_S, RAMP_SET_S};
use crate::week::{Item, Week};

/// Ramp sets by item and session.
pub(super) struct Ramp;

impl Rule for Ramp {
    fn id(&self) -> &'static str {
        "ramp"
    }
    fn summary(&self) -> &'static str {
        "ramp sets climb in load and fall in repetitions, and end near the working load"
    }
    fn force(&self) -> Force {
        Force::View
    }
    fn recount(&self, _request: &Request, week: &Week) -> Vec<Finding> {
        let mut findings = Vec::new();
        for session in &week.sessions {
            let steps: usize = session.work().map(|item| item.ramp.len()).sum();
            let seconds = u32::try_from(steps).unwrap_or(u32::MAX).saturating_mul(RAMP_SET_S + RAMP_REST_S);
            if seconds > RAMP_MOST_S {
                let got = format!("{seconds} s");
                let wanted = "eight minutes of ramp sets at most";
                findings.push(Finding::broken(self.id(), session.label.clone(), wanted, got).as_remark());
            }
            for item in session.work() {
                findings.extend(odd(item).map(|(wanted, got)| {
                    let place = format!("{}, {}", session.label, item.entry.id);
                    Finding::broken(self.id(), place, wanted, got).as_remark()
                }));
            }
        }
        findings
    }
}

/// What is odd about an item's ramp.
fn odd(item: &Item) -> Option<(&'static str, String)> {
    let falls = item.ramp.windows(2).all(|pair| pair[0].1 >= pair[1].1);
    if !falls {
        return Some(("repetitions that fall", "they rise".to_owned()));
    }
    let working = item.load_kg?;
    let loads: Vec<f64> = item.ramp.iter().filter_map(|(load, _)| *load).collect();
    let last = *loads.last()?;
    if loads.windows(2).any(|pair| pair[0] >= pair[1]) {
        return Some(("loads that climb", "they do not".to_owned()));
    }
    if last > 0.9 * working + 1e-6 {
        return Some(("a last step of 75-90 %", format!("{:.0} %", 100.0 * last / working)));
    }
    None
}
