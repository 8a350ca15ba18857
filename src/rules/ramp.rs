//! `ramp`: ramp sets climb in load and fall in repetitions, and end near the working load.
//!
//! The last step is 75-90 % of the working load, no gap is over 35 % of it, none is under the empty bar, and all
//! of a session take up to ten minutes (after the NSCA protocol for maximum tests; common practice). Where the body is
//! lifted too, what hangs from it is the smaller part, and its steps may be wide.

use super::{Finding, Force, Rule};
use crate::request::Request;
use crate::request::eligibility::kit_for;
use crate::timing::{RAMP_REST_S, RAMP_SET_S};
use crate::week::{Item, Week};
use crate::words::{Kit, LoadKind};

/// Ramp sets by item and session.
pub(super) struct Ramp;

/// The last step, as shares of the working load.
const LAST: [f64; 2] = [0.75, 0.90];
/// The widest step, as a share of the working load.
const WIDEST: f64 = 0.35;
/// The usual long bar (IWF rules).
const USUAL_BAR_KG: f64 = 20.0;
/// The most that the ramps of a session may take. Common practice.
const MOST_S: u32 = 10 * 60;
const ROUNDING: f64 = 1e-6;

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
    fn recount(&self, request: &Request, week: &Week) -> Vec<Finding> {
        let mut findings = Vec::new();
        for session in &week.sessions {
            let steps: usize = session.work().map(|item| item.ramp.len()).sum();
            let seconds =
                u32::try_from(steps).unwrap_or(u32::MAX).saturating_mul(RAMP_SET_S + RAMP_REST_S);
            if seconds > MOST_S {
                let got = format!("{seconds} s");
                let wanted = "ten minutes of ramp sets at most";
                findings.push(
                    Finding::broken(self.id(), session.label.clone(), wanted, got).as_remark(),
                );
            }
            for item in session.work() {
                findings.extend(odd(request, item).map(|(wanted, got)| {
                    let place = format!("{}, {}", session.label, item.entry.id);
                    Finding::broken(self.id(), place, wanted, got).as_remark()
                }));
            }
        }
        findings
    }
}

/// What is odd about an item's ramp.
fn odd(request: &Request, item: &Item) -> Option<(&'static str, String)> {
    if item.ramp.windows(2).any(|pair| pair[0].1 <= pair[1].1) {
        return Some(("repetitions that fall", "they do not".to_owned()));
    }
    let working = item.load_kg?;
    let loads: Vec<f64> = item.ramp.iter().filter_map(|(load, _)| *load).collect();
    let last = *loads.last()?;
    if loads.windows(2).any(|pair| pair[0] >= pair[1]) {
        return Some(("loads that climb", "they do not".to_owned()));
    }
    if item.entry.load == LoadKind::BodyweightPlus {
        return None;
    }
    let percent = |load: f64| format!("{:.0} %", 100.0 * load / working);
    if !(LAST[0] * working - ROUNDING..=LAST[1] * working + ROUNDING).contains(&last) {
        return Some(("a last step of 75-90 %", percent(last)));
    }
    let steps = loads.windows(2).map(|pair| pair[1] - pair[0]);
    let widest = steps.chain([working - last]).fold(0.0, f64::max);
    if widest > WIDEST * working + ROUNDING {
        return Some(("no step over 35 % of the working load", percent(widest)));
    }
    let bar = empty_bar(request, item)?;
    (loads[0] < bar - ROUNDING).then(|| ("nothing under the empty bar", format!("{} kg", loads[0])))
}

/// The mass of the empty bar, for lifts with the long bar.
fn empty_bar(request: &Request, item: &Item) -> Option<f64> {
    let kit = kit_for(&request.profile, &item.entry).ok()?;
    let long_bar = item.entry.load == LoadKind::BarTotal
        && kit.contains(&Kit::Barbell)
        && !kit.contains(&Kit::Landmine);
    let stock = request.profile.equipment.as_ref()?.items.get(&Kit::Barbell)?;
    long_bar.then(|| stock.offer().bare_kg().unwrap_or(USUAL_BAR_KG))
}
