//! The year of birth.

use super::Case;
use crate::diagnostic::Diagnostic;
use crate::input::clock::date;
use crate::path;

/// E1323: at the start of the plan the client is old enough to train and still among us.
pub(super) fn e1323_age_can_be(case: &Case<'_>) -> Vec<Diagnostic> {
    /// Years; ready from about 7 to 8 on (NSCA 2009, AAP 2020); younger children play rather than follow a plan.
    const YOUNGEST: i32 = 8;
    const OLDEST: i32 = 110;
    let start = case.profile.start.as_deref().and_then(date);
    let (Some(start), Some(birth_year)) = (start, case.profile.birth_year) else {
        return Vec::new();
    };
    let age = i32::from(start.year()) - i32::from(birth_year);
    if (YOUNGEST..=OLDEST).contains(&age) {
        return Vec::new();
    }
    let message = match age {
        ..0 => "the plan starts before the client is born".to_owned(),
        age => format!("the client is {age} years old when the plan starts"),
    };
    let fault = Diagnostic::error("E1323", message)
        .at(case.marks.at(path!["birth_year"], "year of birth"))
        .at(case.marks.at(path!["start"], "first day of the plan"))
        .help("check both years; without `birth_year` nothing depends on age");
    vec![fault]
}
