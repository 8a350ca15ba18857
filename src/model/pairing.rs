//! Pairs in the model: exercises are counted by class, and pairs by two classes that go together, so that
//! a matching always exists afterwards.

use std::collections::BTreeMap;

use super::{InTurn, Pick, Weekly};
use crate::input::place::Stock;
use crate::program::{Op, Term, Var};
use crate::request::Request;
use crate::request::candidate::{Candidate, Station};
use crate::request::dose::Duty;
use crate::request::standing::is_fast_press;
use crate::timing::{WAY_IN_S, round_rest_s};
use crate::words::{Goal, Kit, LoadKind, Measure, Pattern, Side, Stress, Supersets};

/// What a class of exercises trains, as far as pairing goes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Region {
    /// Presses.
    Push,
    /// Rows and pulldowns.
    Pull,
    /// Squats and lunges.
    Knee,
    /// Hinges and bridges.
    Hip,
    /// Knee extension and hip adduction alone.
    Thigh,
    /// Leg curls and hip abduction alone.
    Ham,
    /// Calves and shins.
    Calf,
    /// Biceps.
    ElbowFlexion,
    /// Triceps.
    ElbowExtension,
    /// Side delts.
    SideDelt,
    /// Rear delts and rotators.
    RearDelt,
    /// Chest alone.
    Fly,
    /// Lats alone.
    Pullover,
    /// Trunk.
    Trunk,
    /// Standing steadily.
    Balance,
}

use Region::{
    Balance, Calf, ElbowExtension, ElbowFlexion, Fly, Ham, Hip, Knee, Pull, Pullover, Push,
    RearDelt, SideDelt, Thigh, Trunk,
};

/// Regions that go together: opposite or unrelated muscles or a leg with an arm, never one prime mover twice, never two
/// leg lifts (Robbins et al. 2010; Iversen et al. 2024). Trunk work that tires the back for a squat or hinge has no class.
const TOGETHER: &[(Region, Region)] = &[
    (Push, Pull),
    (Push, ElbowFlexion),
    (Push, RearDelt),
    (Push, Thigh),
    (Push, Ham),
    (Push, Trunk),
    (Pull, ElbowExtension),
    (Pull, SideDelt),
    (Pull, Fly),
    (Pull, Thigh),
    (Pull, Ham),
    (Pull, Calf),
    (Pull, Trunk),
    (Knee, ElbowFlexion),
    (Knee, ElbowExtension),
    (Knee, SideDelt),
    (Knee, RearDelt),
    (Hip, ElbowExtension),
    (Hip, SideDelt),
    (Thigh, Ham),
    (Thigh, Calf),
    (Thigh, Trunk),
    (Thigh, SideDelt),
    (Thigh, ElbowFlexion),
    (Thigh, ElbowExtension),
    (Ham, Calf),
    (Ham, Trunk),
    (Ham, SideDelt),
    (Ham, ElbowFlexion),
    (Ham, ElbowExtension),
    (Calf, Trunk),
    (Calf, ElbowFlexion),
    (Calf, ElbowExtension),
    (Calf, SideDelt),
    (Calf, RearDelt),
    (ElbowFlexion, ElbowExtension),
    (ElbowFlexion, SideDelt),
    (ElbowFlexion, Fly),
    (ElbowExtension, RearDelt),
    (ElbowFlexion, Trunk),
    (ElbowExtension, Trunk),
    (SideDelt, Trunk),
    (RearDelt, Trunk),
    (Fly, RearDelt),
    (Fly, Trunk),
    (Pullover, Push),
    (Pullover, ElbowFlexion),
    (Pullover, ElbowExtension),
    (Pullover, SideDelt),
    (Pullover, RearDelt),
    (Pullover, Trunk),
    (Knee, Push),
    (Knee, Pull),
    (Hip, Push),
    (Hip, Pull),
    (Hip, ElbowFlexion),
    (Hip, RearDelt),
    (SideDelt, ElbowExtension),
    (SideDelt, Fly),
    (ElbowFlexion, RearDelt),
    (RearDelt, SideDelt),
    (Knee, Trunk),
    (Hip, Trunk),
    (Hip, Calf),
    (Balance, Trunk),
    (Balance, Push),
    (Balance, Pull),
];

/// Things that only one item of a pair may use. Bits, so that two classes are compared at once.
type Claims = u8;
const FIXED: Claims = 1;
const KETTLEBELL: Claims = 2;
const GRIP: Claims = 4;
/// A machine: a pair has one for several joints at most, and small ones stand side by side.
const MACHINE: Claims = 8;
/// A cable, which no pair shares with a machine across the room.
const CABLE: Claims = 16;

/// A place in the room other than the floor, which a beginner does not leave between two sets.
const PLACE: Claims = 32;
/// The bench, at which both may be done.
const BENCH: Claims = 64;

/// Exercises that are alike for pairing.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct PairClass {
    region: Region,
    claims: Claims,
    /// Rest after a set when done alone.
    rest_s: u32,
}

/// The number of pairs of two classes on a day.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct PairVar {
    /// The day.
    pub day: usize,
    /// The classes.
    pub classes: (PairClass, PairClass),
    /// Rounds, of as many sets of both.
    pub rounds: u32,
    /// How many.
    pub count: Var,
    /// Seconds that one of them saves at least.
    pub saves_s: u32,
}

impl PairClass {
    /// The class of an exercise on a day, or `None` where it is always done alone.
    #[must_use]
    pub fn of(request: &Request, candidate: &Candidate) -> Option<PairClass> {
        // A bar on the legs is set up for one who does nothing else.
        let legs = candidate.pattern.side() == Some(Side::Legs);
        let bar = candidate.entry.load == LoadKind::BarTotal && legs;
        let fast = request.profile.goal == Goal::Power;
        let pulls = candidate.pattern.side() == Some(Side::Pull)
            && candidate.entry.load != LoadKind::BarTotal;
        let arms = candidate.pattern.side() == Some(Side::Push) || pulls;
        let alone = !request.figures.pairs
            || (candidate.is_heavy() && !(fast && arms))
            || (candidate.duty == Duty::Main && bar)
            || (fast && request.wants_its_rest(candidate))
            || is_fast_press(request, &candidate.entry)
            || matches!(candidate.duty, Duty::Carry | Duty::Explosive);
        if alone {
            return None;
        }
        let region = region(candidate.pattern)?;
        if region == Trunk && tires_trunk(candidate) {
            return None;
        }
        let claims = claims(request, candidate);
        Some(PairClass { region, claims, rest_s: candidate.rest_s })
    }

    /// Whether it is work of one joint or for the trunk.
    #[must_use]
    pub const fn is_small(self) -> bool {
        !matches!(self.region, Push | Pull | Knee | Hip)
    }

    /// Whether an exercise of each may be done in turn.
    #[must_use]
    pub fn goes_with(self, other: PairClass) -> bool {
        let together = |one: Region, two: Region| TOGETHER.contains(&(one, two));
        let small = (self.claims | other.claims) & FIXED == 0;
        let shared = CABLE | PLACE | BENCH | if small { MACHINE } else { 0 };
        (together(self.region, other.region) || together(other.region, self.region))
            && self.claims & other.claims & !shared == 0
            && (self.claims & other.claims & PLACE == 0
                || self.claims & other.claims & (CABLE | BENCH) != 0)
            && (self.claims | other.claims) & (MACHINE | CABLE) != MACHINE | CABLE
    }
}

/// Spinal erector work and loaded flexion stay at the end, alone.
fn tires_trunk(candidate: &Candidate) -> bool {
    let bends =
        candidate.entry.measure == Measure::Reps && candidate.stresses(Stress::LoadedSpinalFlexion);
    candidate.pattern == Pattern::TrunkExtension || bends
}

const fn region(pattern: Pattern) -> Option<Region> {
    Some(match pattern {
        Pattern::HorizontalPush | Pattern::VerticalPush => Push,
        Pattern::HorizontalPull | Pattern::VerticalPull => Pull,
        Pattern::Squat | Pattern::Lunge => Knee,
        Pattern::Hinge | Pattern::HipExtension => Hip,
        Pattern::KneeExtension | Pattern::HipAdduction => Thigh,
        Pattern::KneeFlexion | Pattern::HipAbduction => Ham,
        Pattern::PlantarFlexion | Pattern::Dorsiflexion => Calf,
        Pattern::ElbowFlexion => ElbowFlexion,
        Pattern::ElbowExtension => ElbowExtension,
        Pattern::ShoulderAbduction => SideDelt,
        Pattern::ShoulderHorizontalAbduction | Pattern::ShoulderExternalRotation => RearDelt,
        Pattern::ShoulderHorizontalAdduction => Fly,
        Pattern::ShoulderExtension => Pullover,
        pattern if pattern.is_trunk() => Trunk,
        Pattern::Balance => Balance,
        _ => return None,
    })
}

fn claims(request: &Request, candidate: &Candidate) -> Claims {
    let single = |item: Kit| {
        let equipment = request.profile.equipment.as_ref();
        let pieces = equipment.and_then(|kit| kit.items.get(&item)).map(Stock::pieces);
        candidate.kit.contains(&item) && pieces.is_none_or(|pieces| pieces < 2)
    };
    // Work of the arms and small work may share a cable or go from one machine to the next; a bar, or a machine for the legs,
    // is set up for one.
    // Where pairs are liked, the client walks from one machine to the next; a press and a pull go from stack to stack anyway.
    let moves = request.profile.supersets == Supersets::Prefer;
    let legs = candidate.pattern.side() == Some(Side::Legs);
    let one = if candidate.is_compound() && legs && !moves { FIXED } else { 0 };
    let mut claims = match candidate.station {
        Station::Bar => FIXED,
        Station::Fixed(Kit::CableStation) => one | CABLE,
        Station::Fixed(_) => one | MACHINE,
        _ => 0,
    };
    // What is hung from is over the rack or beside it.
    let place = !matches!(candidate.station, Station::Floor | Station::Hanging);
    let stays = request.is_guided() && !moves && place;
    for (used, bit) in [
        (single(Kit::Kettlebell), KETTLEBELL),
        (candidate.stresses(Stress::Grip), GRIP),
        (stays, PLACE),
        (stays && candidate.station == Station::Bench, BENCH),
    ] {
        if used {
            claims |= bit;
        }
    }
    claims
}

/// The exercises of a class on a day.
#[derive(Default)]
struct Members {
    /// Whether each is done in a pair.
    paired: Vec<Term>,
}

/// Seconds that two exercises save in turn, from their rests alone: one way in, and the rests that one covers for the
/// other. Both have as many sets as there are rounds.
fn saved_s(one_s: u32, other_s: u32, rounds: u32) -> u32 {
    let between = rounds.saturating_sub(1);
    let alone_s = between * (one_s + other_s) + WAY_IN_S;
    alone_s.saturating_sub(between * round_rest_s([one_s, other_s].into_iter()))
}

/// Variables and rows that count pairs. Each paired exercise has as many sets as its pair has rounds.
pub(crate) fn add_pairs(weekly: &mut Weekly) {
    for day in weekly.days() {
        let mut members: BTreeMap<(PairClass, u32), Members> = BTreeMap::new();
        for pick in weekly.picks.clone().into_iter().filter(|pick| pick.day == day) {
            for InTurn { rounds, var } in pick.in_turn.into_iter().flatten() {
                let class = PairClass::of(weekly.request, weekly.candidate(&pick))
                    .expect("only exercises with a class have a pair variable");
                members.entry((class, rounds)).or_default().paired.push((var, 1.0));
            }
            add_rounds(weekly, pick);
        }
        add_day_pairs(weekly, day, &members);
    }
}

/// An exercise that is in a pair is done, with as many sets as that has rounds.
fn add_rounds(weekly: &mut Weekly, pick: Pick) {
    let subject = weekly.candidate(&pick).id.clone();
    let only_done: Vec<Term> = pick.paired_times(1.0).chain([(pick.chosen, -1.0)]).collect();
    if only_done.len() > 1 {
        weekly.model.define("pairs", subject.clone(), only_done, Op::Le, 0.0);
    }
    let most = f64::from(pick.sets[1] - pick.sets[0]);
    for InTurn { rounds, var } in pick.in_turn.into_iter().flatten() {
        let missing = f64::from(rounds - pick.sets[0]);
        if missing > 0.0 {
            let enough = vec![(pick.extra, 1.0), (var, -missing)];
            weekly.model.define("pairs", subject.clone(), enough, Op::Ge, 0.0);
        }
        if most > missing {
            let equal = vec![(pick.extra, 1.0), (var, most - missing)];
            weekly.model.define("pairs", subject.clone(), equal, Op::Le, most);
        }
    }
}

fn add_day_pairs(weekly: &mut Weekly, day: usize, members: &BTreeMap<(PairClass, u32), Members>) {
    let classes: Vec<(PairClass, u32)> = members.keys().copied().collect();
    let mut in_class: BTreeMap<(PairClass, u32), Vec<Term>> = BTreeMap::new();
    for (place, (one, rounds)) in classes.iter().enumerate() {
        for (other_place, (other, others)) in classes.iter().enumerate().skip(place + 1) {
            if rounds != others || !one.goes_with(*other) {
                continue;
            }
            let name =
                format!("pairs_{}_{place}_{other_place}", weekly.request.days[day].name_part());
            let count = weekly.model.integer(name, 0, 3);
            let saves_s = saved_s(one.rest_s, other.rest_s, *rounds);
            let classes = (*one, *other);
            weekly.pairs.push(PairVar { day, classes, rounds: *rounds, count, saves_s });
            in_class.entry((*one, *rounds)).or_default().push((count, -1.0));
            in_class.entry((*other, *rounds)).or_default().push((count, -1.0));
        }
    }
    for (class, members) in members {
        let mut terms = members.paired.clone();
        terms.extend(in_class.remove(class).unwrap_or_default());
        let part = weekly.request.days[day].name_part();
        let subject = format!("{:?}_{}_{part}", class.0.region, class.1);
        weekly.model.define("pairs", subject, terms, Op::Eq, 0.0);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::timing::{Timed, group_s};

    #[test]
    fn straight_arms_go_with_the_triceps_and_not_with_a_pull() {
        let one = region(Pattern::ShoulderExtension).expect("it has a class");
        let with = |pattern| {
            let other = region(pattern).expect("it has a class");
            TOGETHER.contains(&(one, other)) || TOGETHER.contains(&(other, one))
        };
        assert!(with(Pattern::ElbowExtension) && with(Pattern::ShoulderAbduction));
        assert!(!with(Pattern::VerticalPull) && !with(Pattern::ShoulderExtension));
    }

    /// By the arithmetic that the audit uses.
    #[test]
    fn a_pair_saves_what_the_model_counts() {
        let timed = |sets: u32, rest_s: u32| Timed {
            setup_s: 20,
            ramp_sets: 0,
            work_s: vec![40; sets as usize],
            rest_s,
        };
        for (one, other, rounds) in [(60, 120, 3), (90, 90, 4), (45, 180, 2)] {
            let alone: u32 = [timed(rounds, one), timed(rounds, other)]
                .iter()
                .map(|item| group_s(std::slice::from_ref(item), WAY_IN_S))
                .sum();
            let rest_s = round_rest_s([one, other].into_iter());
            let round = [timed(rounds, rest_s), timed(rounds, rest_s)];
            let saved = alone - group_s(&round, WAY_IN_S);
            assert_eq!(saved_s(one, other, rounds), saved, "{one} {other}");
        }
    }
}
