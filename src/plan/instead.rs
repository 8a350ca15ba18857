//! A ready substitute for a main lift, for the day when its place is taken.

use crate::model::worth::worths;
use crate::request::Request;
use crate::request::candidate::Candidate;
use crate::words::{LoadKind, Standing};

/// An exercise of the same pattern that trains the lift's prime mover, with other kit or at another station where
/// there is one, that the day (candidates by place) does not have. It is no special and no stand-in unless the lift is
/// one, and whoever came to lift a load gets another load; nothing else is a substitute.
#[must_use]
pub(super) fn instead(request: &Request, main: &Candidate, day: &[usize]) -> Option<String> {
    let worths = worths(request);
    let mut others: Vec<(&Candidate, f64)> = request
        .candidates
        .iter()
        .enumerate()
        .filter(|(place, _)| !day.contains(place))
        .map(|(place, other)| (other, worths[place]))
        .chain(request.spare.iter().map(|other| (other, 0.0)))
        .filter(|(other, _)| serves(main, other))
        .collect();
    // The first of those that are alike in what follows is the one with the most worth.
    others.sort_by(|(_, one), (_, other)| other.total_cmp(one));
    let best = others.into_iter().map(|(other, _)| other).min_by_key(|other| {
        (
            is_bare(other) && !is_bare(main),
            other.pattern != main.pattern,
            other.kit == main.kit,
            other.entry.standing,
            other.prime() != main.prime(),
            other.station == main.station,
            other.is_each_side() != main.is_each_side(),
            other.duty,
        )
    });
    best.map(|other| other.id.clone())
}

/// Without a load that is told in kilograms.
fn is_bare(candidate: &Candidate) -> bool {
    use LoadKind::{Assisted, Band, Bodyweight, None};
    matches!(candidate.entry.load, Bodyweight | None | Band | Assisted)
}

/// Whether one exercise does the other's work.
fn serves(main: &Candidate, other: &Candidate) -> bool {
    let trains = main.entry.direct.iter().any(|muscle| other.entry.direct.contains(muscle));
    // The same lift is another one with other kit, or where it is the easier form.
    let apart = other.entry.family() != main.entry.family()
        || other.kit != main.kit
        || main.entry.easier.contains(&other.id);
    other.id != main.id
        && main.pattern.is_related(other.pattern)
        && (trains || other.pattern != main.pattern)
        && apart
        && other.entry.standing <= main.entry.standing.max(Standing::Regular)
        && (other.entry.is_loaded() || !main.entry.is_loaded() || own_weight(main, other))
}

/// A dip is replaced by a push-up where nothing else presses with the body's own weight or more.
fn own_weight(main: &Candidate, other: &Candidate) -> bool {
    let own = |one: &Candidate| one.entry.load == LoadKind::Bodyweight;
    own(main) && own(other) && other.entry.standing == Standing::Staple
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::planner::{Options, Planner};
    use crate::words::{Pattern, Side};

    fn of<'a>(request: &'a Request, id: &str) -> &'a Candidate {
        request.candidates.iter().find(|candidate| candidate.id == id).expect("a usable exercise")
    }

    fn instead_of(kit: &str, status: &str, id: &str) -> Option<String> {
        let yaml = format!(
            "client: finch-01\ntraining_status: {status}\ngoal: strength\nsessions: [{{day: mon, minutes: 60}}]\n\
             equipment: {kit}\n"
        );
        let profile = serde_yaml::from_str(&yaml).expect("a whole profile");
        let request = Planner::built_in().request(&profile, &Options::default());
        instead(&request, of(&request, id), &[])
    }

    /// Who never bench presses does not with dumbbells either, when the bar is taken.
    #[test]
    fn what_is_never_wanted_stands_in_for_nothing() {
        let kit = "{bench: 1, dumbbells: {from_kg: 2, to_kg: 30, step_kg: 2}}\nexercises: {never: [bench-press]}";
        let press = instead_of(kit, "intermediate", "push-up");
        assert_ne!(press.as_deref(), Some("dumbbell-bench-press"));
    }

    /// Common practice: a press is replaced by a press with a load, never by a towel or a wall.
    #[test]
    fn a_load_is_replaced_by_a_load() {
        let kit =
            "{barbell: 1, squat-rack: 1, bench: 1, dumbbells: {from_kg: 2, to_kg: 30, step_kg: 2}}";
        let bench = instead_of(kit, "intermediate", "bench-press");
        assert_eq!(bench.as_deref(), Some("dumbbell-bench-press"));
        let squat = instead_of(kit, "intermediate", "back-squat");
        assert!(matches!(squat.as_deref(), Some("goblet-squat" | "dumbbell-squat")), "{squat:?}");
    }

    /// Where the movement has nothing else with a load, a relative of it stands in: a press for a press.
    #[test]
    fn a_press_is_replaced_by_a_press() {
        let bar = "{barbell: 1, squat-rack: 1}";
        let press = instead_of(bar, "intermediate", "overhead-press").expect("there are others");
        let planner = Planner::built_in();
        let entry = &planner.catalog().entries()[&press];
        assert_eq!(entry.pattern.and_then(Pattern::press_or_row), Some(Side::Push), "{press}");
    }
}
