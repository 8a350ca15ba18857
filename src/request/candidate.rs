//! An exercise with this client's dose: what the model needs to know of it.

use std::sync::Arc;

use super::Request;
use super::dose::{Duty, FEW_REPS, takes_few_reps};
use crate::input::catalog::Entry;
use crate::words::{
    Goal, Grade, Kind, Kit, LoadKind, Muscle, Pattern, Side, Standing, Status, Stress,
};

/// Sessions under this many minutes have few sets of each exercise.
pub const SHORT_SESSION: u32 = 40;
/// Sessions under this many minutes have two sets of most exercises.
pub const VERY_SHORT_SESSION: u32 = 25;

/// What the client thinks of an exercise.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Wish {
    /// In the week at least once.
    Must,
    /// Liked.
    Prefer,
    /// No opinion.
    Open,
    /// Disliked.
    Avoid,
}

/// A usable exercise with its dose.
#[derive(Debug, Clone)]
pub struct Candidate {
    /// Its id.
    pub id: String,
    /// The catalog entry.
    pub entry: Arc<Entry>,
    /// The movement pattern.
    pub pattern: Pattern,
    /// What it does in a session.
    pub duty: Duty,
    /// Fewest and most sets that its dose allows; [`Candidate::sets_in`] is what a session takes.
    pub sets: [u32; 2],
    /// Repetitions, seconds or meters of a set.
    pub amount: u32,
    /// Seconds of one set.
    pub work_s: u32,
    /// Rest after a set.
    pub rest_s: u32,
    /// Arranging it, the way in, and its ramp sets.
    pub start_s: u32,
    /// How many ramp sets of it that is kept for.
    pub ramp_sets: usize,
    /// Repetitions left in reserve.
    pub rir: u32,
    /// The client's wish.
    pub wish: Wish,
    /// Where in the room it is done.
    pub station: Station,
    /// The set of kit that is used.
    pub kit: Vec<Kit>,
    /// How often a week it may be done.
    pub uses: u32,
}

/// Where in the room an exercise is done. Free floor space is one station whatever is held.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Station {
    /// Floor, with or without something in the hands.
    Floor,
    /// A bench with hand-held weights.
    Bench,
    /// The bar, in the rack or on the floor.
    Bar,
    /// A bar, rings or straps to hang from.
    Hanging,
    /// A machine, cable or other fixed item.
    Fixed(Kit),
}

impl Station {
    /// The station of a set of kit.
    #[must_use]
    pub fn of(kit: &[Kit]) -> Station {
        let has = |item: Kit| kit.contains(&item);
        if let Some(fixed) = kit.iter().find(|item| is_fixed(**item)) {
            Station::Fixed(*fixed)
        } else if has(Kit::Barbell) || has(Kit::SquatRack) || has(Kit::TrapBar) || has(Kit::EzBar) {
            Station::Bar
        } else if has(Kit::PullUpBar)
            || has(Kit::Rings)
            || has(Kit::SuspensionTrainer)
            || has(Kit::DipBars)
        {
            Station::Hanging
        } else if has(Kit::Bench) || has(Kit::AdjustableBench) {
            Station::Bench
        } else {
            Station::Floor
        }
    }
}

/// Machines and the like, which stand where they stand.
const fn is_fixed(kit: Kit) -> bool {
    matches!(
        kit,
        Kit::CableStation
            | Kit::LatPulldown
            | Kit::SeatedRowMachine
            | Kit::RowMachine
            | Kit::LegPress
            | Kit::LegExtensionMachine
            | Kit::LegCurlMachine
            | Kit::ChestPressMachine
            | Kit::ChestFlyMachine
            | Kit::ReverseFlyMachine
            | Kit::PreacherBench
            | Kit::ShoulderPressMachine
            | Kit::CalfRaiseMachine
            | Kit::SeatedCalfMachine
            | Kit::HackSquatMachine
            | Kit::SmithMachine
            | Kit::BackExtensionBench
            | Kit::GluteHamBench
            | Kit::AssistedPullUpMachine
            | Kit::HipAdductorMachine
            | Kit::HipAbductorMachine
    )
}

impl Candidate {
    /// Half-sets that one set gives a muscle: two direct, one indirect (Pelland et al. 2024).
    #[must_use]
    pub fn halves(&self, muscle: Muscle) -> u32 {
        halves(&self.entry, muscle)
    }

    /// Whether a set is done for a muscle, counted as volume or not.
    #[must_use]
    pub fn trains(&self, muscle: Muscle) -> bool {
        self.entry.direct.contains(&muscle)
    }

    /// Several joints.
    #[must_use]
    pub fn is_compound(&self) -> bool {
        self.entry.kind == Some(Kind::Compound)
    }

    /// Whether it works one side at a time.
    #[must_use]
    pub fn is_each_side(&self) -> bool {
        self.entry.sides == crate::words::Sides::Each
    }

    /// Whether it carries a stress, in any grade.
    #[must_use]
    pub fn stresses(&self, stress: Stress) -> bool {
        grade(&self.entry, stress).is_some()
    }

    /// A multi-joint lift of up to six repetitions, loaded or with the body's own weight, but for one leg after the other.
    #[must_use]
    pub fn is_heavy(&self) -> bool {
        let each_leg = self.is_each_side() && self.pattern.side() == Some(Side::Legs);
        self.is_compound() && self.amount <= FEW_REPS && !self.pattern.is_explosive() && !each_leg
    }

    /// Fewest and most sets in a session of so many minutes: short sessions have few of each, and a form of a squat, as a
    /// paused one, has four at most (common practice).
    #[must_use]
    pub fn sets_in(&self, minutes: u32) -> [u32; 2] {
        let [low, high] = self.sets;
        let form = self.pattern == Pattern::Squat && self.entry.variant_of.is_some();
        match (self.duty, minutes) {
            (Duty::Main, SHORT_SESSION..) if form => [low, high.min(4)],
            (Duty::Main, SHORT_SESSION..) => [low, high],
            (_, SHORT_SESSION..) => [low, high.min(4)],
            (Duty::Main, _) | (_, VERY_SHORT_SESSION..) => [low.min(2), high.min(3)],
            (_, _) => [low.min(2), low.min(2)],
        }
    }

    /// Whether the exercise can lead a day: a staple among the main lifts that is not done for speed, for strength and
    /// power a squat, hinge or press of few repetitions, one that the client knows, or any for who learns power. From 65
    /// on one that asks for little skill.
    #[must_use]
    pub fn leads(&self, request: &Request) -> bool {
        let entry = &self.entry;
        let learns = request.profile.training_status == Status::Novice;
        let (goal, senior) = (request.profile.goal, request.is_senior());
        let by_goal = match goal {
            Goal::Strength | Goal::Power if !(learns && goal == Goal::Power) => {
                (takes_few_reps(entry) || request.profile.known_lifts.contains_key(&self.id))
                    && (self.is_leg_lift() || self.pattern.press_or_row() == Some(Side::Push))
            }
            // A thrust or bridge is no lift for a whole day, and a press overhead comes after one over the chest.
            _ => !matches!(self.pattern, Pattern::HipExtension | Pattern::VerticalPush),
        };
        // Where nothing is heavy, any staple for both legs with a weight in the hands does.
        let in_hands = matches!(entry.load, LoadKind::PerHand | LoadKind::SingleImplement);
        let light = !request.trains_heavy() && self.is_leg_lift() && in_hands;
        let big = self.duty == Duty::Main || self.duty == Duty::Compound && light;
        let staple = big && entry.standing == Standing::Staple;
        staple && by_goal && !self.stresses(Stress::Ballistic) && !(senior && entry.skill >= 3)
    }

    /// A squat or hinge on both legs.
    #[must_use]
    pub fn is_leg_lift(&self) -> bool {
        matches!(self.pattern, Pattern::Squat | Pattern::Hinge) && !self.is_each_side()
    }

    /// A squat on both legs, with a load or without.
    #[must_use]
    pub fn is_squat_on_both_legs(&self) -> bool {
        self.is_leg_lift() && self.pattern == Pattern::Squat
    }

    /// Whether the client likes it or asks for it.
    #[must_use]
    pub const fn is_wished(&self) -> bool {
        matches!(self.wish, Wish::Must | Wish::Prefer)
    }

    /// Whether it is a wish paid for what should get more: a lift that the client likes or asks for, a thrust, or for size
    /// one whose load is known, for a muscle that should get more.
    #[must_use]
    pub fn is_wished_for_more(&self, request: &Request) -> bool {
        let thrust = self.duty == Duty::Main && self.pattern == Pattern::HipExtension;
        let more = self.prime().is_some_and(|prime| request.wants_more(prime));
        let sized = request.profile.goal == Goal::Hypertrophy;
        let known = sized && request.profile.known_lifts.contains_key(&self.id);
        more && (self.is_wished() || thrust || known && self.duty == Duty::Main)
    }

    /// The prime mover.
    #[must_use]
    pub fn prime(&self) -> Option<Muscle> {
        self.entry.direct.first().copied()
    }
}

/// The muscles that feel an exercise the day after: its prime mover, and of a lift of the legs all that it works directly.
pub fn felt_by(entry: &Entry) -> impl Iterator<Item = Muscle> {
    let legs = entry.kind == Some(Kind::Compound)
        && entry.pattern.and_then(Pattern::side) == Some(Side::Legs);
    let count = if legs { entry.direct.len() } else { 1 };
    entry.direct.iter().copied().take(count)
}

/// Half-sets that one set of an entry gives a muscle.
#[must_use]
pub fn halves(entry: &Entry, muscle: Muscle) -> u32 {
    if !entry.pattern.is_some_and(Pattern::gives_volume) {
        0
    } else if entry.direct.contains(&muscle) {
        2
    } else {
        u32::from(entry.indirect.contains(&muscle))
    }
}

/// How much of a stress an entry carries.
#[must_use]
pub fn grade(entry: &Entry, stress: Stress) -> Option<Grade> {
    entry
        .stress
        .iter()
        .flat_map(crate::input::catalog::StressTag::parts)
        .filter(|(tag, _)| *tag == stress)
        .map(|(_, grade)| grade)
        .max()
}

/// Two exercises that a novice would call the same: one pattern, and four fifths of the direct muscles.
#[must_use]
pub fn alike(one: &Entry, other: &Entry) -> bool {
    let shared = one.direct.iter().filter(|muscle| other.direct.contains(muscle)).count();
    let most = one.direct.len().max(other.direct.len()).max(1);
    one.pattern == other.pattern && shared * 5 >= most * 4
}
