//! The small work that lifts leave out and that completes a week of the goal.
//!
//! Who presses pays for it with the back of the shoulder; for size the trunk is bent as well as held, and of four days or
//! more one has the front of the thigh alone and one a press on an incline; whose sport throws
//! or swims, and whose shoulder is touchy, turns the arm out; whose sport turns and kicks, or runs beside power, trains the
//! inner thighs, and the backs of the thighs past the first steps of power; for size a full week has a row on two days; who
//! runs to last trains the calves, and hinges and squats on one leg, as every stride does; who learns to be fast or trains to
//! lose fat pushes the hips; who is 65 or older trains the ankles and the side of the hip, for stairs and against falls, and
//! reaches overhead; who begins then gets up from a seat on two days and steps up once, or with nothing but a chair the other way
//! round; and a long session that is the week's only one has a row and a press overhead before any arms.
//! Common practice.

use super::Request;
use crate::input::catalog::Entry;
use crate::input::profile::Limit;
use crate::words::{Goal, Muscle, Pattern, Region, Sides, Status, Stress};

/// What completes a week: a name, the movements that do, how many exercises of them, and whether the client stands on it.
pub(crate) struct Part {
    pub name: &'static str,
    pub patterns: &'static [Pattern],
    pub times: u32,
    pub carries: bool,
    one_side: bool,
    pub family: Option<&'static str>,
}

impl Part {
    /// Whether an exercise is one of them.
    pub(crate) fn has(&self, entry: &Entry) -> bool {
        let side = !self.one_side || entry.sides == Sides::Each;
        let of_family = self.family.is_none_or(|family| entry.family() == family);
        side && of_family && entry.pattern.is_some_and(|pattern| self.patterns.contains(&pattern))
    }
}

const BEHIND_THE_SHOULDER: &[Pattern] =
    &[Pattern::ShoulderHorizontalAbduction, Pattern::ShoulderExternalRotation];
/// From so many days on a week for size has room for all of it.
const FULL_WEEK: usize = 3;

/// From so many minutes on one session holds every movement.
const LONG_SESSION: u32 = 60;

/// What completes a client's week.
pub(crate) fn parts(request: &Request) -> impl Iterator<Item = Part> {
    let plays = |muscle: Muscle| request.hard_elsewhere(muscle).next().is_some();
    let turns_out = plays(Muscle::FrontDelts) || has_a_touchy_shoulder(request);
    let goal = request.profile.goal;
    let jumps = goal == Goal::Power && plays(Muscle::Quads) && plays(Muscle::Hamstrings);
    let runs = u32::from(runs_to_last(request));
    // Where they should get more, with the knee straight and bent.
    let calves = runs * (1 + u32::from(request.wants_more(Muscle::Calves)));
    // Who has learnt the fast lifts pushes the hips with them.
    let learns = goal == Goal::Power && request.profile.training_status == Status::Novice;
    let pushes_the_hips = (learns || goal == Goal::FatLoss) && request.days.len() > 1;
    // For size it is the muscle that counts, elsewhere the shoulder of who has a use for it.
    let behind =
        &BEHIND_THE_SHOULDER[..if goal == Goal::Hypertrophy || !turns_out { 1 } else { 2 }];
    let part = |name, patterns, times| {
        let carries = false;
        Part { name, patterns, times, carries, one_side: false, family: None }
    };
    let full = u32::from(goal == Goal::Hypertrophy && request.days.len() > FULL_WEEK);
    let incline = if request.wants_less(Muscle::Chest) { 0 } else { full };
    let steady = |name, patterns, times| Part { carries: true, ..part(name, patterns, times) };
    let parts = [
        part("shoulder", behind, behind_the_shoulder(request)),
        part("outward", &[Pattern::ShoulderExternalRotation], u32::from(turns_out)),
        Part {
            family: Some("incline-press"),
            ..part("incline", &[Pattern::HorizontalPush], incline)
        },
        part("trunk", &[Pattern::TrunkFlexion], bending(request)),
        steady("calves", &[Pattern::PlantarFlexion], calves.max(u32::from(request.is_senior()))),
        Part { one_side: true, ..steady("strides", &[Pattern::Hinge], runs) },
        part("lunges", &[Pattern::Lunge], runs),
        part("thighs", &[Pattern::HipAdduction], u32::from(plays(Muscle::Adductors) || jumps)),
        part("calf_raises", &[Pattern::PlantarFlexion], once_or_twice(request, Muscle::Calves)),
        part("curls", &[Pattern::KneeFlexion], once_or_twice(request, Muscle::Hamstrings)),
        part("sprints", &[Pattern::KneeFlexion], u32::from(jumps && !learns)),
        part("steps", &[Pattern::HipAbduction], u32::from(request.is_senior())),
        Part {
            family: Some("step-up"),
            ..part("stairs", &[Pattern::Lunge], u32::from(request.is_older_beginner()))
        },
        part("seat", &[Pattern::Squat], seats(request)),
        part("legs", &[Pattern::Lunge], 2 * u32::from(rises_in_forms(request))),
        part("reach", &[Pattern::VerticalPush], u32::from(reaches(request))),
        part("row", &[Pattern::HorizontalPull], rows(request)),
        part("hips", &[Pattern::HipExtension], u32::from(pushes_the_hips)),
        part("knees", &[Pattern::KneeExtension], u32::from(extends_the_knees(request))),
    ];
    parts.into_iter().filter(|part| part.times > 0)
}

/// Whether the only session of the week is long: it has both presses and both pulls before any arms.
fn is_whole(request: &Request) -> bool {
    matches!(request.days.as_slice(), [day] if day.minutes >= LONG_SESSION)
}

/// How often a week has a row: in its only session, and for size on each of the days of the upper half of a full week.
fn rows(request: &Request) -> u32 {
    let full = request.profile.goal == Goal::Hypertrophy && request.days.len() > FULL_WEEK;
    let less = request.wants_less(Muscle::UpperBack)
        || request.hard_elsewhere(Muscle::UpperBack).next().is_some();
    match full && !less {
        true => 2,
        false => u32::from(is_whole(request)),
    }
}

/// How often who begins at 65 or later gets up from a seat, be it a machine's: every day of a week of two.
fn seats(request: &Request) -> u32 {
    const EVERY_DAY: usize = 2;
    let days = u32::try_from(request.days.len().min(EVERY_DAY)).unwrap_or(1);
    match request.is_older_beginner() {
        true if rises_in_forms(request) => 1,
        true => days,
        false => 0,
    }
}

/// Whether who has nothing but a chair for the legs of three days or more steps up and lunges on the others: the same getting
/// up again teaches no stairs.
pub(crate) fn rises_in_forms(request: &Request) -> bool {
    request.gets_up_from_a_chair() && request.days.len() >= FULL_WEEK
}

/// Whether a week has a press overhead: from 65 on, and where one session has to have everything.
fn reaches(request: &Request) -> bool {
    request.is_senior() || is_whole(request) && !has_a_touchy_shoulder(request)
}

/// Whether a shoulder hurts or has a limit: one that only must not go all the way up is stiff and not touchy.
pub(crate) fn has_a_touchy_shoulder(request: &Request) -> bool {
    let profile = &request.profile;
    let limited = |one: &Limit| {
        *one == Limit::Whole(Stress::Overhead) || one.stress() == Stress::ShoulderExtensionEndRange
    };
    let said = profile.screening.as_ref().and_then(|said| said.pain.as_ref());
    let hurts =
        said.is_some_and(|pain| pain.iter().any(|one| one.regions().contains(&Region::Shoulder)));
    hurts || profile.limits.iter().any(limited)
}

/// Whether a week for size has the days for the front of the thigh alone.
fn extends_the_knees(request: &Request) -> bool {
    let for_size = request.builds_size() && request.days.len() > FULL_WEEK;
    for_size && !request.wants_less(Muscle::Quads)
}

/// Whether the client trains to last and runs, walks or rides far: other training works the calves.
fn runs_to_last(request: &Request) -> bool {
    let profile = &request.profile;
    let far = profile.other_training.iter().any(|one| {
        let has = |muscle: Muscle| one.muscles.contains(&muscle);
        // Legs that work without the back run or ride.
        has(Muscle::Calves) || (has(Muscle::Quads) && !has(Muscle::Lats) && !has(Muscle::UpperBack))
    });
    far && profile.goal == Goal::Endurance
}

/// Whether arms have no work of their own in a week: who trains to last has better uses for the minutes, and for who learns
/// and pulls hard in sport the boat has done it, or who learns and comes seldom to lose fat. Common practice.
pub(super) fn spares_arms(request: &Request, entry: &Entry) -> bool {
    let bends = match entry.pattern {
        Some(Pattern::ElbowFlexion) => true,
        Some(Pattern::ElbowExtension) => false,
        _ => return false,
    };
    let profile = &request.profile;
    let wished =
        |muscle: &Muscle| request.wants_more(*muscle) || profile.targets.contains_key(muscle);
    let learns = profile.training_status == Status::Novice && profile.goal != Goal::Hypertrophy;
    let pulls = bends && learns && request.hard_elsewhere(Muscle::Lats).next().is_some();
    // Three days or fewer to lose fat in the first months are for what moves much.
    let few = learns && profile.goal == Goal::FatLoss && request.days.len() <= FULL_WEEK;
    (profile.goal == Goal::Endurance || pulls || few) && !entry.direct.iter().any(wished)
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
        Goal::Hypertrophy | Goal::Strength | Goal::Endurance => 1,
        // What is fast rows enough, and turns the arm out where its sport throws.
        Goal::Power | Goal::GeneralFitness | Goal::FatLoss => 0,
    }
}

/// How often a muscle has its own work of one joint for size, as the lifts for the legs leave it short: calves, and the backs
/// of the thighs, which hinges train long only. Common practice.
fn once_or_twice(request: &Request, muscle: Muscle) -> u32 {
    const MANY_DAYS: usize = 5;
    match request.days.len() {
        _ if request.profile.goal != Goal::Hypertrophy => 0,
        _ if request.wants_less(muscle) => 0,
        0..FULL_WEEK => 0,
        FULL_WEEK..MANY_DAYS => 1,
        _ => 2,
    }
}

fn bending(request: &Request) -> u32 {
    match request.days.len() {
        _ if request.profile.goal != Goal::Hypertrophy => 0,
        FULL_WEEK if request.profile.training_status == Status::Novice => 0,
        0..FULL_WEEK => 0,
        FULL_WEEK => 1,
        _ => 2,
    }
}
