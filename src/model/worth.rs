//! The coach's view of each usable exercise in whole points, the same in every week: how soon a coach takes it, what the
//! goal and the client's experience ask for, and what the client likes or did well last block.
//!
//! A step of standing is more than a search loses on a week; the rest is smaller on purpose, and equal staples are equal,
//! so that the seed has real ties.

mod second;

use std::collections::{BTreeMap, BTreeSet};

use super::points::{
    ALL_ROUND, ATTENTION, AVOIDED, BAR_FOR_STRENGTH, BENT_ROW, CALVES_FOR_FAT, CARRY,
    CARRY_FOR_STRENGTH, CURL_OF_THE_LEG, DEADLIFT, ENDS_EARLY, FAST, FILLER, FILLER_FOR_FAT,
    FILLER_FOR_POWER, FILLER_FOR_STRENGTH, FLY, FOR_LATER_YEARS, GUIDED, GUIDED_SENIOR,
    HARD_TO_LEARN, IN_HANDS, KEPT, KIN, KNOWN, MUCH_FILLER, OFF_THE_FLOOR, ONLY_A_STAND_IN,
    PAYS_FOR_PRESSES, PREFERRED, RAISE, REGULAR, ROW_FOR_STRENGTH, SMALL_WORK, SPARINGLY, SPECIAL,
    STAND_IN, TAKES_LEARNING, TIRED_BY_SPORT, TURNED, UNLOADED, UNLOADED_LIFT,
};
use crate::input::profile::Limit;
use crate::request::candidate::Station;
use crate::request::dose::{Duty, FEW_REPS};
use crate::request::standing::{is_bent_over, is_fast_press, is_proper, parents, standing_here};
use crate::request::{Candidate, Request, Wish};
use crate::words::{Goal, Kit, LoadKind, Muscle, Pattern, Side, Standing, Status, Stress};

/// The points of every candidate of a request, in their order.
#[must_use]
pub fn worths(request: &Request) -> Vec<f64> {
    let best = Best::of(request);
    let candidates = request.candidates.iter();
    candidates.map(|one| best.standing(request, one) + worth(request, one)).collect()
}

/// The best standing of each movement and of each prime mover.
struct Best {
    of_work: BTreeMap<Pattern, Standing>,
    of_prime: BTreeMap<Option<Muscle>, Standing>,
    /// Patterns with a loaded staple.
    loaded: BTreeSet<Pattern>,
    /// Work that a go-to does.
    go_to: BTreeSet<Pattern>,
}

impl Best {
    fn of(request: &Request) -> Best {
        let proper = |one: &&Candidate| is_proper(&one.entry, one.pattern);
        // Past the first steps any usual exercise with a load comes before one without.
        let usual = |one: &&Candidate| {
            let loaded = one.entry.standing <= Standing::Regular && one.entry.is_loaded();
            proper(one) || (loaded && !request.is_guided())
        };
        let loaded = request.candidates.iter().filter(usual).map(|one| one.pattern);
        let go_to = request.candidates.iter().filter(|one| one.entry.go_to);
        let mut best = Best {
            of_work: BTreeMap::new(),
            of_prime: BTreeMap::new(),
            loaded: loaded.collect(),
            go_to: go_to.map(|one| one.pattern.work()).collect(),
        };
        for one in &request.candidates {
            // Standings are in the order in which a coach takes them.
            let own = standing_here(request, one);
            let pattern = best.of_work.entry(one.pattern.work()).or_insert(own);
            *pattern = own.min(*pattern);
            let prime = best.of_prime.entry(one.prime()).or_insert(own);
            *prime = own.min(*prime);
        }
        best
    }

    /// What an exercise loses beside the best of its pattern.
    fn standing(&self, request: &Request, one: &Candidate) -> f64 {
        if is_second_form(request, one) {
            return BAR_FOR_STRENGTH;
        }
        let (own, pattern) = (standing_here(request, one), self.of_work[&one.pattern.work()]);
        let elsewhere = self.of_prime[&one.prime()] < Standing::Special;
        let only_stand_ins = pattern >= Standing::Special && elsewhere;
        let only_a_stand_in = if only_stand_ins { ONLY_A_STAND_IN } else { 0.0 };
        step(own) - step(pattern)
            + only_a_stand_in
            + self.unloaded(one)
            + self.second_choice(request, one)
    }

    /// What an exercise without load loses where a loaded staple does its movement.
    fn unloaded(&self, one: &Candidate) -> f64 {
        match self.loaded.contains(&one.pattern) && !one.entry.is_loaded() {
            true if one.is_compound() => UNLOADED_LIFT,
            // What a coach goes to first is loaded enough.
            true if !one.entry.go_to => UNLOADED,
            _ => 0.0,
        }
    }
}

const fn step(standing: Standing) -> f64 {
    match standing {
        Standing::Staple => 0.0,
        Standing::Regular => REGULAR,
        Standing::Special => SPECIAL,
        Standing::StandIn => STAND_IN,
    }
}

fn worth(request: &Request, candidate: &Candidate) -> f64 {
    let if_so = |so: bool, points: f64| if so { points } else { 0.0 };
    let wish = match candidate.wish {
        Wish::Must => if_so(avoids_parent(request, candidate), AVOIDED),
        Wish::Open if avoids_parent(request, candidate) => AVOIDED,
        Wish::Open => if_so(is_kin_of_unwanted(request, candidate), KIN),
        Wish::Prefer => 0.0,
        Wish::Avoid => AVOIDED,
    };
    ATTENTION
        + wish
        + for_goal(request, candidate)
        + for_experience(request, candidate)
        + for_once(request, candidate)
        + filler(request, candidate)
        + if_so(is_limited_to_light(request, candidate), SPARINGLY)
        + if request.is_senior() {
            if_so(is_for_later_years(candidate.pattern), FOR_LATER_YEARS)
        } else {
            let carry = match request.profile.goal {
                Goal::Strength => CARRY_FOR_STRENGTH,
                // What is carried makes nobody bigger.
                Goal::Hypertrophy => FLY,
                _ => CARRY,
            };
            if_so(candidate.pattern == Pattern::Carry && !candidate.is_wished(), carry)
        }
}

/// Whether it has a light form of what a limit of the client allows in that form only. One that is named is wished for.
fn is_limited_to_light(request: &Request, candidate: &Candidate) -> bool {
    let light =
        |limit: &Limit| matches!(limit, Limit::Graded(_)) && candidate.stresses(limit.stress());
    // A back that is touchy when loaded is so too where it is held bent over a load.
    let hangs = candidate.pattern == Pattern::Hinge
        && candidate.stresses(Stress::SpinalShear)
        && request.minds_its_back();
    // What who begins learns first is light whatever it is called.
    let first = request.is_guided() && candidate.entry.first_step;
    let limited = !first && request.profile.limits.iter().any(light);
    candidate.wish == Wish::Open && (hangs || limited)
}

/// What keeps an older client steady, quick and able to carry (WHO 2020 asks for balance and strength; the rest is
/// common practice).
const fn is_for_later_years(pattern: Pattern) -> bool {
    matches!(pattern, Pattern::Throw | Pattern::Carry | Pattern::Balance)
}

/// What small work loses where no wish asks for it.
fn filler(request: &Request, candidate: &Candidate) -> f64 {
    let wished = candidate.prime().is_some_and(|prime| request.wants_more(prime));
    if wished || candidate.is_compound() {
        return 0.0;
    }
    let pattern = candidate.pattern;
    let holds = pattern.is_trunk() || pattern == Pattern::Balance;
    let for_size = request.profile.goal == Goal::Hypertrophy;
    let small = if for_size || holds { 0.0 } else { SMALL_WORK };
    small + own_filler(request, candidate)
}

/// What small work of its movement loses beside that, by goal.
fn own_filler(request: &Request, candidate: &Candidate) -> f64 {
    let goal = request.profile.goal;
    let for_size = goal == Goal::Hypertrophy;
    let tired = candidate.prime().is_some_and(|prime| request.is_of_sport(prime));
    let begins = request.profile.training_status == Status::Novice;
    match candidate.pattern {
        _ if tired => TIRED_BY_SPORT,
        Pattern::ShoulderHorizontalAdduction | Pattern::ShoulderExtension if begins => MUCH_FILLER,
        Pattern::ShoulderHorizontalAdduction
        | Pattern::ShoulderExtension
        | Pattern::AntiRotation
            if for_size =>
        {
            FLY
        }
        Pattern::HipAdduction if for_size && !candidate.entry.is_loaded() => MUCH_FILLER,
        _ if for_size => 0.0,
        Pattern::ShoulderHorizontalAdduction | Pattern::ShoulderExtension => MUCH_FILLER,
        Pattern::ElbowFlexion | Pattern::ElbowExtension | Pattern::ShoulderAbduction
            if matches!(goal, Goal::Power | Goal::Endurance) =>
        {
            FILLER_FOR_POWER
        }
        Pattern::ElbowFlexion
        | Pattern::ElbowExtension
        | Pattern::ShoulderAbduction
        | Pattern::ShoulderHorizontalAbduction
            if goal == Goal::FatLoss =>
        {
            FILLER_FOR_FAT
        }
        Pattern::ShoulderAbduction => RAISE,
        Pattern::ElbowExtension if goal == Goal::Strength => FILLER_FOR_STRENGTH,
        Pattern::ElbowExtension => FILLER,
        // Weights or bands that the feet hold make nobody fast.
        Pattern::KneeFlexion if goal == Goal::Power && is_held_by_the_feet(candidate) => {
            MUCH_FILLER
        }
        Pattern::KneeFlexion | Pattern::KneeExtension => CURL_OF_THE_LEG,
        Pattern::PlantarFlexion if matches!(goal, Goal::FatLoss | Goal::Power) => CALVES_FOR_FAT,
        Pattern::Rotation if goal != Goal::Power => TURNED,
        Pattern::ShoulderHorizontalAbduction if goal == Goal::Strength => PAYS_FOR_PRESSES,
        _ => 0.0,
    }
}

/// Whether the feet hold what a leg curl is done against: no machine and not the client's own body.
fn is_held_by_the_feet(candidate: &Candidate) -> bool {
    !matches!(candidate.station, Station::Fixed(_)) && candidate.entry.load != LoadKind::Bodyweight
}

/// What an exercise gains by being in the week at all: it is liked, known, or was a main lift of the last block. A
/// further day of it gains no more.
pub(crate) fn for_once(request: &Request, candidate: &Candidate) -> f64 {
    let if_so = |so: bool, points: f64| if so { points } else { 0.0 };
    if_so(candidate.wish == Wish::Prefer, PREFERRED)
        + if_so(request.previous_mains.contains(&candidate.id), KEPT)
        + if_so(request.profile.known_lifts.contains_key(&candidate.id), KNOWN)
}

/// Whether the client would rather not do the lift that this one is a variant or a form of.
fn avoids_parent(request: &Request, candidate: &Candidate) -> bool {
    let avoid = &request.profile.exercises.avoid;
    let family = candidate.entry.family.as_deref();
    // Who is bored by the plank is bored by the one on the side.
    let named_like = |one: &str| candidate.id.split('-').any(|word| word == one);
    parents(request, &candidate.entry).chain(family).any(|id| avoid.iter().any(|one| one == id))
        || (candidate.pattern.is_trunk() && avoid.iter().any(|one| named_like(one)))
}

/// Whether a free lift makes the same movement as one with the bar that the client would rather not do or never does:
/// who keeps the bar off the back or away from overhead seldom means that bar alone.
fn is_kin_of_unwanted(request: &Request, candidate: &Candidate) -> bool {
    let is_free = match candidate.pattern {
        Pattern::Squat => candidate.entry.load == LoadKind::BarTotal,
        // Who does not thrust with the bar thrusts with nothing else.
        Pattern::HipExtension => candidate.id.contains("hip-thrust"),
        // A bar that stands in its corner goes up and forward, and a machine holds the way.
        Pattern::VerticalPush => {
            let by_landmine = |one: &Candidate| {
                one.pattern == Pattern::VerticalPush && one.kit.contains(&Kit::Landmine)
            };
            let firm = matches!(candidate.station, Station::Fixed(_))
                && !request.candidates.iter().any(by_landmine);
            !firm && !by_landmine(candidate)
        }
        _ => false,
    };
    let lists = &request.profile.exercises;
    let mut unwanted = lists.avoid.iter().chain(&lists.never);
    is_free
        && !request.profile.known_lifts.contains_key(&candidate.id)
        && unwanted.any(|id| {
            request.entries.get(id).is_some_and(|other| {
                other.pattern == Some(candidate.pattern) && other.load == LoadKind::BarTotal
            })
        })
}

/// In weeks of so many days the row that pays for the presses is soon left out.
const FEW_DAYS: usize = 3;

/// A staple with the bar.
fn is_bar_lift(candidate: &Candidate) -> bool {
    let entry = &candidate.entry;
    let staple = entry.standing == Standing::Staple && candidate.duty == Duty::Main;
    // Bent over, a row asks the back for what squats and hinges need.
    let rows = candidate.pattern == Pattern::HorizontalPull;
    staple && !rows && entry.load == LoadKind::BarTotal
}

/// Whether it is a usual form of a lift with the bar, with which the second day of that lift differs from the first.
fn is_second_form(request: &Request, candidate: &Candidate) -> bool {
    let entry = &candidate.entry;
    let parent = entry.variant_of.as_deref().and_then(|id| request.candidate(id));
    request.profile.goal == Goal::Strength
        && request.profile.training_status != Status::Novice
        && entry.standing == Standing::Regular
        && candidate.duty == Duty::Main
        // A back has one day off the floor, and bends for a lighter hinge on the other.
        && candidate.pattern != Pattern::Hinge
        && parent.is_some_and(is_bar_lift)
}

/// A pull off the floor with the bar, the hinge that costs most to recover from.
fn is_off_the_floor(candidate: &Candidate) -> bool {
    is_bar_lift(candidate)
        && candidate.entry.family() == "deadlift"
        && candidate.kit.contains(&Kit::Barbell)
}

/// Whether the client knows or likes another pull off the floor, as with the trap bar: one is enough for a week.
fn has_its_own_pull(request: &Request, candidate: &Candidate) -> bool {
    let pull = |one: &&Candidate| one.entry.main && one.entry.family() == "deadlift";
    let mut pulls = request.candidates.iter().filter(pull);
    !request.is_pushed(&candidate.id) && pulls.any(|one| request.is_pushed(&one.id))
}

/// A row that the lower back holds, though another one at hand is held by a bench or a machine.
fn is_bent_over_needlessly(request: &Request, candidate: &Candidate) -> bool {
    let held = |one: &Candidate| {
        one.pattern == Pattern::HorizontalPull
            && one.entry.is_loaded()
            && !is_bent_over(&one.entry)
            && one.entry.standing <= Standing::Regular
    };
    is_bent_over(&candidate.entry)
        && candidate.entry.is_loaded()
        && !request.is_pushed(&candidate.id)
        && request.candidates.iter().any(held)
}

fn for_goal(request: &Request, candidate: &Candidate) -> f64 {
    let staple = candidate.entry.standing == Standing::Staple;
    let snaps = candidate.pattern == Pattern::Hinge && candidate.stresses(Stress::Ballistic);
    let fast = (candidate.pattern.is_explosive() || snaps) && staple;
    match request.profile.goal {
        Goal::Strength if is_off_the_floor(candidate) && !has_its_own_pull(request, candidate) => {
            BAR_FOR_STRENGTH + DEADLIFT
        }
        // Who trains to be fast learns no pull off the floor by the way.
        Goal::Power
            if is_off_the_floor(candidate)
                && !request.is_guided()
                && !request.is_pushed(&candidate.id) =>
        {
            OFF_THE_FLOOR
        }
        // A press overhead for power is light and quick, with a push of the legs where it is with the bar.
        Goal::Power if is_fast_press(request, &candidate.entry) => FAST,
        Goal::Power if candidate.pattern == Pattern::VerticalPush => 0.0,
        Goal::Strength | Goal::Power if is_bar_lift(candidate) => BAR_FOR_STRENGTH,
        // A clean that is not known is learnt by the way no more than a pull off the floor is: the jump with a bar does it.
        Goal::Power
            if fast
                && candidate.entry.load == LoadKind::BarTotal
                && (candidate.pattern != Pattern::ExplosivePull
                    || request.is_pushed(&candidate.id)) =>
        {
            FAST + BAR_FOR_STRENGTH
        }
        Goal::Power if fast => FAST,
        Goal::Strength | Goal::Power if is_bent_over_needlessly(request, candidate) => BENT_ROW,
        Goal::Strength | Goal::Power
            if candidate.pattern == Pattern::HorizontalPull
                && candidate.entry.is_loaded()
                && request.days.len() <= FEW_DAYS =>
        {
            ROW_FOR_STRENGTH
        }
        Goal::Strength | Goal::Power => 0.0,
        _ if is_off_the_floor(candidate) && !request.is_pushed(&candidate.id) => OFF_THE_FLOOR,
        Goal::GeneralFitness => ALL_ROUND,
        Goal::Endurance if candidate.is_compound() && candidate.amount <= FEW_REPS => ENDS_EARLY,
        _ => 0.0,
    }
}

fn for_experience(request: &Request, candidate: &Candidate) -> f64 {
    if !request.is_guided() {
        return 0.0;
    }
    let learned = match candidate.entry.skill {
        3.. => HARD_TO_LEARN,
        2 if request.is_senior() => TAKES_LEARNING,
        _ => 0.0,
    };
    let strong = matches!(request.profile.goal, Goal::Strength | Goal::Power);
    let bar = is_bar_lift(candidate) && !request.is_senior();
    let kit = match candidate.station {
        Station::Fixed(_) if request.is_senior() => GUIDED_SENIOR,
        _ if strong => 0.0,
        Station::Fixed(_) => GUIDED,
        // For size a pair of dumbbells does as much from the first week on.
        _ if request.profile.goal == Goal::Hypertrophy
            && candidate.kit.contains(&Kit::Dumbbells)
            && candidate.pattern.side() != Some(Side::Legs) =>
        {
            GUIDED
        }
        _ if bar || candidate.kit.contains(&Kit::Dumbbells) => IN_HANDS,
        _ => 0.0,
    };
    learned + kit
}
