//! The small work that lifts leave out and that completes a week of the goal.
//!
//! Who presses pays for it with the back of the shoulder; for size the trunk is bent as well as held; whose sport throws,
//! swims or rows, and whose shoulder is touchy, turns the arm out; whose sport turns and kicks, or runs beside power, trains the
//! inner thighs; who trains for power or to lose fat pushes the hips; who is 65 or older trains the ankles and the side of the
//! hip, for stairs and against falls. Common practice.

use super::Request;
use crate::words::{Goal, Muscle, Pattern, Status, Stress};

/// What completes a week: a name, the movements that do, and how many exercises of them.
pub(crate) struct Part {
    pub name: &'static str,
    pub patterns: &'static [Pattern],
    pub times: u32,
}

const BEHIND_THE_SHOULDER: &[Pattern] =
    &[Pattern::ShoulderHorizontalAbduction, Pattern::ShoulderExternalRotation];
/// From so many days on a week for size has room for all of it.
const FULL_WEEK: usize = 3;

/// What completes a client's week.
pub(crate) fn parts(request: &Request) -> impl Iterator<Item = Part> {
    let plays = |muscle: Muscle| request.hard_elsewhere(muscle).next().is_some();
    let limited = |stress: Stress| request.profile.limits.iter().any(|one| one.stress() == stress);
    let turns_out = plays(Muscle::FrontDelts) || plays(Muscle::Lats) || limited(Stress::Overhead);
    let goal = request.profile.goal;
    let runs = goal == Goal::Power && plays(Muscle::Quads) && plays(Muscle::Hamstrings);
    let pushes_the_hips = matches!(goal, Goal::Power | Goal::FatLoss) && request.days.len() > 1;
    // For size it is the muscle that counts, elsewhere the shoulder.
    let size = goal == Goal::Hypertrophy;
    let behind = &BEHIND_THE_SHOULDER[..if size { 1 } else { 2 }];
    let part = |name, patterns, times| Part { name, patterns, times };
    let parts = [
        part("shoulder", behind, behind_the_shoulder(request)),
        part("outward", &[Pattern::ShoulderExternalRotation], u32::from(turns_out)),
        part("trunk", &[Pattern::TrunkFlexion], bending(request)),
        part("ankles", &[Pattern::PlantarFlexion], u32::from(request.is_senior())),
        part("thighs", &[Pattern::HipAdduction], u32::from(plays(Muscle::Adductors) || runs)),
        part("steps", &[Pattern::HipAbduction], u32::from(request.is_senior())),
        part("hips", &[Pattern::HipExtension], u32::from(pushes_the_hips)),
    ];
    parts.into_iter().filter(|part| part.times > 0)
}

/// Whether a movement completes a client's week.
pub(super) fn completes(request: &Request, pattern: Pattern) -> bool {
    parts(request).any(|part| part.patterns.contains(&pattern))
}

fn behind_the_shoulder(request: &Request) -> u32 {
    let learns = request.profile.training_status == Status::Novice;
    match request.profile.goal {
        _ if request.days.len() < 2 || request.wants_less(Muscle::RearDelts) => 0,
        Goal::Hypertrophy if request.days.len() >= FULL_WEEK && !learns => 2,
        Goal::Hypertrophy | Goal::Strength | Goal::Power | Goal::Endurance => 1,
        Goal::GeneralFitness | Goal::FatLoss => 0,
    }
}

fn bending(request: &Request) -> u32 {
    match request.days.len() {
        _ if request.profile.goal != Goal::Hypertrophy => 0,
        0..FULL_WEEK => 0,
        FULL_WEEK => 1,
        _ => 2,
    }
}
