//! Sets with the body's own weight, of which nobody can say beforehand how many a client does.
//!
//! A modest number that leaves two is common practice: the set that breaks down teaches nothing.

use crate::input::catalog::Entry;
use crate::input::profile::{KnownLift, Profile};
use crate::input::{age, is_senior};
use crate::strength::working_load::KnownLifts;
use crate::words::{LoadKind, Sex, Status};

/// Repetitions left in every set whose number is a guess.
const LEFT: u32 = 2;

/// Lifts of the whole body by the arms, of which many do few.
const WHOLE_BODY: &[&str] =
    &["pull-up", "chin-up", "neutral-grip-pull-up", "wide-grip-pull-up", "dip", "ring-dip"];

/// The fewest that are asked for, whatever is estimated: the note says to end before.
const FEWEST: u32 = 3;

/// The fewest where only other lifts say how many go, and those of a woman. Common practice.
const LEAST_BY_A_STACK: u32 = 5;
const LEAST_OF_A_WOMAN: u32 = 4;

/// A woman's sets of pull-ups and dips of unknown number have so many fewer, and push-ups so many at most. Common practice.
const FEWER_OF_A_WOMAN: u32 = 3;
const MOST_PUSH_UPS: u32 = 8;
/// From this age on push-ups of unknown number are few for anybody. Common practice.
const FEW_PUSH_UPS_FROM: u32 = 50;

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
            let fewer = if profile.sex == Some(Sex::Female) { FEWER_OF_A_WOMAN } else { 0 };
            let most: u32 = (most - fewer).max(FEWEST);
            // One more left is one fewer done.
            let rir = rir.max(LEFT);
            let most = amount.min(most).saturating_sub(rir - LEFT).max(1);
            // What other lifts say may be fewer yet, though on a stack they say little.
            let goes = KnownLifts::of(profile).with_the_body_alone(&entry.id);
            let least = if fewer > 0 { LEAST_OF_A_WOMAN } else { LEAST_BY_A_STACK };
            let most = goes.map_or(most, |goes| most.min(goes.saturating_sub(rir).max(least)));
            Some(few(most, rir))
        }
        (None, "push-up") if starts_raised(profile) => {
            let amount = amount.min(6);
            let note =
                format!("hands on a bench or box until {amount} clean ones go from the floor");
            Some(OwnWeight { amount, rir: rir.max(LEFT), note })
        }
        (None, "push-up") if does_few_push_ups(profile) && amount > MOST_PUSH_UPS => {
            Some(few(MOST_PUSH_UPS, rir.max(LEFT)))
        }
        _ => None,
    }
}

/// A set of a number that is a guess.
fn few(amount: u32, rir: u32) -> OwnWeight {
    let note = format!("own weight: end every set with {rir} left, even if that is fewer");
    OwnWeight { amount, rir, note }
}

fn does_few_push_ups(profile: &Profile) -> bool {
    profile.sex == Some(Sex::Female) || age(profile).is_some_and(|age| age >= FEW_PUSH_UPS_FROM)
}

/// Novices, clients from 65, and below advanced women from 50 whose push-ups nobody has counted.
fn starts_raised(profile: &Profile) -> bool {
    let few = age(profile).is_some_and(|age| age >= FEW_PUSH_UPS_FROM);
    let fewer = profile.sex == Some(Sex::Female) && few;
    match profile.training_status {
        Status::Novice => true,
        Status::Intermediate => fewer || is_senior(profile),
        Status::Advanced => is_senior(profile),
    }
}

/// What goes once does not go three times: of three sets and more one repetition is taken off. Where few go, half of them
/// are done: a set of one trains nothing. Common practice.
fn known_set(known: &KnownLift, (amount, sets): (u32, u32), rir: u32) -> OwnWeight {
    let can = known.reps.saturating_add(known.rir);
    let tired = u32::from(sets > 2);
    let half = can.div_ceil(2).min(amount);
    let amount = amount.min(can.saturating_sub(rir).saturating_sub(tired)).max(half).max(1);
    let rir = rir.min(can.saturating_sub(amount));
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

    /// Four that go are two with two left, and not one with three.
    #[test]
    fn of_few_that_go_half_are_done() {
        let four = KnownLift { load: 0.0, reps: 4, rir: 0, cap: None };
        let set = known_set(&four, (10, 4), 3);
        assert_eq!((set.amount, set.rir), (2, 2));
        let many = KnownLift { load: 0.0, reps: 14, rir: 0, cap: None };
        let set = known_set(&many, (10, 4), 3);
        assert_eq!((set.amount, set.rir), (10, 3));
    }

    #[test]
    fn an_unknown_number_is_modest_and_leaves_two() {
        assert_eq!(amount(&client("training_status: novice"), "pull-up"), Some((5, 2)));
        assert_eq!(amount(&client("training_status: intermediate"), "dip"), Some((6, 2)));
        assert_eq!(amount(&client("training_status: intermediate"), "squat-jump"), None);
    }

    #[test]
    fn other_lifts_and_sex_say_how_many_may_go() {
        let woman = "training_status: advanced, sex: female, body_mass_kg: 61";
        assert_eq!(amount(&client(woman), "pull-up"), Some((5, 2)));
        let pulls =
            format!("{woman}, known_lifts: {{lat-pulldown: {{load: 50, reps: 10, rir: 2}}}}");
        assert_eq!(amount(&client(&pulls), "pull-up"), Some((4, 2)));
        let strong = "training_status: advanced, body_mass_kg: 80, known_lifts: {lat-pulldown: {load: 90, reps: 10}}";
        assert_eq!(amount(&client(strong), "pull-up"), Some((6, 2)));
    }

    #[test]
    fn push_ups_of_a_woman_or_from_50_on_are_few_until_counted() {
        let woman = "training_status: intermediate, sex: female";
        assert_eq!(amount(&client(woman), "push-up"), Some((8, 2)));
        let known = format!("{woman}, known_lifts: {{push-up: {{reps: 20}}}}");
        assert_eq!(amount(&client(&known), "push-up"), Some((10, 1)));
        let older = "training_status: intermediate, birth_year: 1974, start: 2027-01-04";
        assert_eq!(amount(&client(older), "push-up"), Some((8, 2)));
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
