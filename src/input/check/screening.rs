//! Answers before training.

use super::Case;
use super::exercises::unknown_exercise;
use crate::diagnostic::Diagnostic;
use crate::input::clock::date;
use crate::path;

/// E1329: a clinician agrees before training starts, not after.
pub(super) fn e1329_agreed_before_the_start(case: &Case<'_>) -> Vec<Diagnostic> {
    let answers = case.profile.screening.as_ref();
    let agreed = answers.and_then(|answers| date(answers.clinician_agreed.as_deref()?));
    let start = case.profile.start.as_deref().and_then(date);
    let (Some(agreed), Some(start)) = (agreed, start) else { return Vec::new() };
    if agreed <= start {
        return Vec::new();
    }
    let fault = Diagnostic::error("E1329", "the clinician agrees after the plan starts")
        .at(case.marks.at(path!["screening", "clinician_agreed"], "agreed on this day"))
        .at(case.marks.at(path!["start"], "first day of the plan"))
        .help(format!("let the plan start on {agreed} or later, or correct the day"));
    vec![fault]
}

/// E1330: what was tried without pain is an exercise that there is.
pub(super) fn e1330_painless_ids_are_known(case: &Case<'_>) -> Vec<Diagnostic> {
    let answers = case.profile.screening.as_ref();
    let named = answers.map(|answers| answers.painless.as_slice()).unwrap_or_default();
    let unknown = named.iter().enumerate().filter(|(_, id)| case.known.entry(id).is_none());
    unknown
        .map(|(at, id)| {
            let label = case.marks.at(path!["screening", "painless", at], "not in the catalog");
            unknown_exercise("E1330", case, id).at(label)
        })
        .collect()
}
