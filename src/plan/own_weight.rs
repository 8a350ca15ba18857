//! Sets with the body's own weight, of which nobody can say beforehand how many a client does.
//!
//! A modest number that leaves two is common practice: the set that breaks down teaches nothing.

use crate::input::catalog::Entry;
use crate::input::is_senior;
use crate::input::profile::{KnownLift, Profile};
use crate::words::{LoadKind, Status};

/// Repetitions left in every set whose number is a guess.
const LEFT: u32 = 2;

/// Lifts of the whole body by the arms, of which many do few.
const WHOLE_BODY: &[&str] =
    &["pull-up", "chin-up", "neutral-grip-pull-up", "wide-grip-pull-up", "dip", "ring-dip"];

/// What a set of the exercise asks for once the client is considered.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct OwnWeight {
    /// Repetitions of a set.
    pub amount: u32,
    /// Repetitions left in reserve.
    pub rir: u32,
    /// What the card says.
    pub note: String,
}

/// The set of a pull-up, dip or push-up; `None` for any other exercise, and where the dose asks for no more than the
/// client can do.
#[must_use]
pub fn set_of(
    profile: &Profile,
    entry: &Entry,
    (amount, sets): (u32, u32),
    rir: u32,
) -> Option<OwnWeight> {
    if entry.load != LoadKind::Bodyweight {
        return None;
    }
    match (profile.known_lifts.get(&entry.id), entry.id.as_str()) {
        (Some(known), _) => Some(known_set(known, (amount, sets), rir)),
        (None, id) if WHOLE_BODY.contains(&id) => {
            let most = match profile.training_status {
                Status::Novice => 5,
                Status::Intermediate => 6,
                Status::Advanced => 8,
            };
            // One more left is one fewer done.
            let rir = rir.max(LEFT);
            let most = amount.min(most).saturating_sub(rir - LEFT).max(1);
            let note = format!("own weight: end every set with {rir} left, even if that is fewer");
            Some(OwnWeight { amount: most, rir, note })
        }
        (None, "push-up") if starts_raised(profile) => {
            let amount = amount.min(6);
            let note =
                format!("hands on a bench or box until {amount} clean ones go from the floor");
            Some(OwnWeight { amount, rir: rir.max(LEFT), note })
        }
        _ => None,
    }
}

/// Novices and clients from 65 whose push-ups nobody has counted.
fn starts_raised(profile: &Profile) -> bool {
    profile.training_status == Status::Novice || is_senior(profile)
}

/// What goes once does not go three times: of three sets and more one repetition is taken off. Common practice.
fn known_set(known: &KnownLift, (amount, sets): (u32, u32), rir: u32) -> OwnWeight {
    let can = known.reps.saturating_add(known.rir);
    let tired = u32::from(sets > 2);
    let amount = amount.min(can.saturating_sub(rir).saturating_sub(tired)).max(1);
    OwnWeight { amount, rir, note: format!("own weight, of the {can} that go") }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn client(rest: &str) -> Profile {
        serde_yaml::from_str(&format!(
            "{{client: t, goal: hypertrophy, equipment: [pull-up-bar], sessions: [{{day: mon, minutes: 60}}], {rest}}}"
        ))
        .unwrap()
    }

    fn entry(id: &str) -> Entry {
        serde_yaml::from_str(&format!(
            "{{id: {id}, name: X, pattern: vertical-pull, kind: compound, direct: [lats], needs: [[]], level: 1,
               sides: both, load: bodyweight, measure: reps, reps: [3, 20], setup_s: 30}}"
        ))
        .unwrap()
    }

    fn amount(profile: &Profile, id: &str) -> Option<(u32, u32)> {
        set_of(profile, &entry(id), (10, 2), 1).map(|set| (set.amount, set.rir))
    }

    #[test]
    fn an_unknown_number_is_modest_and_leaves_two() {
        assert_eq!(amount(&client("training_status: novice"), "pull-up"), Some((5, 2)));
        assert_eq!(amount(&client("training_status: intermediate"), "dip"), Some((6, 2)));
        assert_eq!(amount(&client("training_status: intermediate"), "squat-jump"), None);
    }

    #[test]
    fn a_known_number_is_used() {
        let known = "training_status: intermediate, known_lifts: {pull-up: {reps: 9}}";
        assert_eq!(amount(&client(known), "pull-up"), Some((8, 1)));
        let more = "training_status: intermediate, known_lifts: {pull-up: {reps: 12, rir: 2}}";
        assert_eq!(amount(&client(more), "pull-up"), Some((10, 1)));
        let four = set_of(&client(known), &entry("pull-up"), (10, 4), 1).unwrap();
        assert_eq!(four.amount, 7, "one fewer than one set gives");
    }

    #[test]
    fn a_novice_s_push_ups_start_with_raised_hands() {
        let set =
            set_of(&client("training_status: novice"), &entry("push-up"), (10, 3), 3).unwrap();
        assert_eq!((set.amount, set.rir), (6, 3));
        assert!(set.note.starts_with("hands on a bench"), "{}", set.note);
        assert_eq!(amount(&client("training_status: intermediate"), "push-up"), None);
        let older = "training_status: intermediate, birth_year: 1955, start: 2027-01-04";
        assert!(amount(&client(older), "push-up").is_some());
    }
}
