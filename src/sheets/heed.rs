//! What to mind where a limit allows a stress in its light form only, and when to breathe where the breath must not be held:
//! a word for the exercises that it concerns.

use super::wording::say;
use crate::input::catalog::{Entry, StressTag};
use crate::input::profile::{Limit, Profile};
use crate::words::{Kind, Stress};

/// The words for an exercise, where a limit of the client's leaves one of its stresses the light form. Common practice; the
/// clinician who set the limit knows better.
pub(super) fn words(profile: &Profile, entry: &Entry) -> Option<&'static str> {
    let lightly = profile.limits.iter().filter_map(|limit| match limit {
        Limit::Graded(graded) => Some(graded.tag),
        Limit::Whole(_) => None,
    });
    let has = |wanted: &Stress| {
        entry.stress.iter().flat_map(StressTag::parts).any(|(stress, _)| stress == *wanted)
    };
    lightly.filter(has).find_map(of).or_else(|| breathes(profile, entry))
}

/// Who must not hold the breath reads with each loaded lift when to let it go.
fn breathes(profile: &Profile, entry: &Entry) -> Option<&'static str> {
    let held = profile.limits.contains(&Limit::Whole(Stress::BreathHold));
    let lift = entry.kind == Some(Kind::Compound) && entry.is_loaded();
    (held && lift).then(|| say!(heed_breath))
}

fn of(stress: Stress) -> Option<&'static str> {
    Some(match stress {
        Stress::DeepKneeFlexion => say!(heed_knees),
        Stress::DeepHipFlexion => say!(heed_hips),
        Stress::SpinalCompression | Stress::SpinalShear => say!(heed_back),
        Stress::Overhead => say!(heed_overhead),
        Stress::Impact => say!(heed_impact),
        Stress::WristExtension => say!(heed_wrists),
        Stress::Kneeling => say!(heed_kneeling),
        Stress::BreathHold => say!(heed_breath),
        Stress::HighHeartRate => say!(heed_heart),
        Stress::SingleLegBalance => say!(heed_balance),
        Stress::ShoulderExtensionEndRange => say!(heed_elbows),
        _ => return None,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::catalog::Catalog;

    #[test]
    fn a_light_form_comes_with_a_word() {
        let catalog = Catalog::built_in();
        let told = |limits: &str, id: &str| {
            let profile: Profile = serde_yaml::from_str(&format!(
                "{{client: t, training_status: novice, goal: strength, equipment: [barbell], sessions: [{{day: mon, minutes: 60}}], \
                 limits: {limits}}}"
            ))
            .unwrap();
            words(&profile, catalog.get(id).unwrap())
        };
        let knees = "[{tag: deep-knee-flexion, allow: light}]";
        assert_eq!(told(knees, "leg-press"), Some("knees no further than a right angle"));
        assert_eq!(told(knees, "one-arm-row"), None);
        assert_eq!(told("[impact]", "leg-press"), None);
        assert!(told("[breath-hold]", "leg-press").is_some_and(|word| word.contains("breath")));
        assert_eq!(told("[breath-hold]", "dead-bug"), None);
    }
}
