//! What loads a region that hurts heavily, and so stays out. Common practice without a source: it is a place to begin,
//! and `painless` brings back what was tried.

use crate::input::catalog::Entry;
use crate::request::candidate::grade;
use crate::words::{Grade, Pattern, Region, Role, Stress};

/// What stays out for a region.
struct Out {
    /// Stresses in every form.
    whole: &'static [Stress],
    /// Stresses in their heavy form.
    heavy: &'static [Stress],
    /// Patterns that work the region's joint alone, or land on it.
    joint: &'static [Pattern],
}

const fn out(region: Region) -> Out {
    use Stress::{
        Ballistic, DeepHipFlexion, DeepKneeFlexion, Grip, Impact, Inverted, Kneeling,
        LoadedRotation, LoadedSpinalExtension, LoadedSpinalFlexion, NeckLoad,
        OpenChainKneeExtension, Overhead, ShoulderExtensionEndRange, SingleLegBalance,
        SpinalCompression, SpinalShear, WristExtension,
    };
    match region {
        Region::Neck => Out {
            whole: &[NeckLoad, Inverted],
            heavy: &[Overhead, SpinalCompression],
            joint: &[Pattern::ScapularElevation],
        },
        Region::Shoulder => {
            Out { whole: &[ShoulderExtensionEndRange, Inverted], heavy: &[Overhead], joint: &[] }
        }
        Region::Elbow => Out {
            whole: &[],
            heavy: &[Grip, WristExtension, Ballistic],
            joint: &[Pattern::ElbowExtension],
        },
        Region::Wrist => Out { whole: &[WristExtension, Inverted], heavy: &[Grip], joint: &[] },
        Region::Chest => Out {
            whole: &[ShoulderExtensionEndRange],
            heavy: &[Ballistic],
            joint: &[Pattern::ShoulderHorizontalAdduction],
        },
        Region::UpperBack => Out {
            whole: &[],
            heavy: &[LoadedSpinalFlexion, LoadedRotation, SpinalCompression],
            joint: &[Pattern::ExplosivePull],
        },
        Region::LowerBack => Out {
            whole: &[LoadedSpinalFlexion],
            heavy: &[
                SpinalCompression,
                SpinalShear,
                LoadedSpinalExtension,
                LoadedRotation,
                Ballistic,
            ],
            joint: &[Pattern::ExplosivePull],
        },
        Region::Hip => {
            Out { whole: &[Impact], heavy: &[DeepHipFlexion], joint: &[Pattern::HipFlexion] }
        }
        Region::Groin => Out {
            whole: &[Impact],
            heavy: &[DeepHipFlexion, Ballistic],
            joint: &[Pattern::HipAdduction],
        },
        Region::Knee => Out {
            whole: &[OpenChainKneeExtension, Impact, Kneeling],
            heavy: &[DeepKneeFlexion],
            joint: &[Pattern::KneeExtension, Pattern::Jump],
        },
        Region::Ankle => {
            Out { whole: &[Impact], heavy: &[SingleLegBalance], joint: &[Pattern::Jump] }
        }
        Region::Foot => Out { whole: &[Impact], heavy: &[], joint: &[Pattern::Jump] },
    }
}

/// Whether an exercise loads a region heavily, by its stresses or by the joint that it works.
pub(super) fn strains(region: Region, entry: &Entry) -> bool {
    let out = out(region);
    let works = |pattern: Pattern| entry.role == Role::Work && out.joint.contains(&pattern);
    out.whole.iter().any(|stress| grade(entry, *stress).is_some())
        || out.heavy.iter().any(|stress| grade(entry, *stress) == Some(Grade::Heavy))
        || entry.pattern.is_some_and(works)
}

/// The stresses that stay out for a region.
pub(super) fn stresses(region: Region) -> impl Iterator<Item = Stress> {
    let out = out(region);
    out.whole.iter().chain(out.heavy).copied()
}
