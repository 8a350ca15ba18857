//! What is asked for, typed: days, usable exercises with this client's dose, targets, and why each
//! other exercise is out. Everything after this module reads only the request.

pub mod barred;
pub mod candidate;
pub mod closing;
pub(crate) mod completing;
pub mod conflicts;
pub mod day;
pub mod dose;
pub mod eligibility;
pub mod figures;
mod leads;
mod primer;
pub mod resolve;
mod rest;
pub mod screening;
pub mod standing;
pub mod target;
pub mod targets;
pub mod turn;

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use self::turn::Turn;
use crate::input::catalog::Entry;
use crate::input::profile::{Limit, Profile, SessionSlot};
use crate::strength::working_load::KnownLifts;
use crate::words::{Effort, Goal, Muscle, Stress, Supersets, Weekday};

pub use barred::Barred;
pub use candidate::{Candidate, Wish};
pub use day::Day;
pub use figures::Figures;
pub use target::{Lowered, Target};

/// Every entry of the catalog in use, by id.
pub type Entries = BTreeMap<String, Arc<Entry>>;

/// Weeks of a block: main lifts stay longer, accessories change with the block. Common practice.
pub const WEEKS_OF_BLOCK: u32 = 4;

/// Sessions for general fitness of more minutes have the time for a lead that stands alone.
const LEAD_ALONE_OVER: u32 = 30;

/// Smaller muscles that still get some work where minutes are left, also without a target. Common practice.
pub const EXTRAS: [Muscle; 7] = [
    Muscle::SideDelts,
    Muscle::RearDelts,
    Muscle::Biceps,
    Muscle::Triceps,
    Muscle::Calves,
    Muscle::Abs,
    Muscle::Obliques,
];

/// A client's wishes, ready to be planned.
#[derive(Debug, Clone)]
pub struct Request {
    /// The profile with its place merged in.
    pub profile: Profile,
    /// The catalog in use.
    pub entries: Entries,
    /// The sessions, in the order of the week.
    pub days: Vec<Day>,
    /// Exercises that may be chosen, in id order.
    pub candidates: Vec<Candidate>,
    /// Why each other working exercise is out.
    pub barred: BTreeMap<String, Barred>,
    /// Loaded staples that are passed over for a better lift, and good enough where its place is taken.
    pub spare: Vec<Candidate>,
    /// Weekly ranges after scaling, by muscle.
    pub targets: BTreeMap<Muscle, Target>,
    /// Most weekly sets of every other muscle.
    pub ceilings: BTreeMap<Muscle, f64>,
    /// Targets that the days and minutes cannot hold, lowered before solving.
    pub lowered: Vec<Lowered>,
    /// What the client has lifted lately.
    pub known: KnownLifts,
    /// The figures that follow from the client's status and goal.
    pub figures: Figures,
    /// Main lifts of the previous block, kept where that costs nothing.
    pub previous_mains: BTreeSet<String>,
    /// What chooses among equals.
    pub seed: u64,
    /// The plan that is reworked, where one is.
    pub rework: Option<Rework>,
    /// Least repetitions in reserve that screening answers and age ask for.
    pub least_rir: u32,
    /// Ends the work early once nobody waits for the answer.
    pub turn: Turn,
}

/// The plan before, and what may not change.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Rework {
    /// Sets by day's place and exercise.
    pub picks: BTreeMap<(usize, String), u32>,
    /// Days that stay as they are.
    pub frozen: BTreeSet<usize>,
    /// Picks that must be done, or must not.
    pub asked: BTreeMap<(usize, String), bool>,
    /// Whether the plan was written by hand.
    pub as_written: bool,
    /// What a plan by hand misses as it stands: a rework does not mend it.
    pub misses: Misses,
}

/// What a plan by hand misses of wishes and conventions.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Misses {
    /// Costs of wishes by the names of their variables.
    pub wishes: BTreeMap<String, f64>,
    /// How far conventions are broken, by rule and subject.
    pub conventions: BTreeMap<(String, String), f64>,
}

impl Rework {
    /// Whether an exercise was done, or is asked for, on a day.
    #[must_use]
    pub fn names(&self, day: usize, id: &str) -> bool {
        let key = (day, id.to_owned());
        self.picks.contains_key(&key) || self.asked.get(&key) == Some(&true)
    }
}

impl Request {
    /// The candidate with an id.
    #[must_use]
    pub fn candidate(&self, id: &str) -> Option<&Candidate> {
        self.candidates
            .binary_search_by(|candidate| candidate.id.as_str().cmp(id))
            .ok()
            .map(|index| &self.candidates[index])
    }

    /// Whether a limit spares the back loads or bending under them.
    #[must_use]
    pub fn minds_its_back(&self) -> bool {
        let of_the_back = |limit: &Limit| {
            matches!(limit.stress(), Stress::SpinalCompression | Stress::LoadedSpinalFlexion)
        };
        self.profile.limits.iter().any(of_the_back)
    }

    /// Whether a day's lead stands alone with its whole rest. In a short session, and where the goal is to last, to lose
    /// fat or to be fit, the lead goes in turn with other muscles: what is not near the limit needs no three minutes.
    /// Nor does a lead without a load, for who likes pairs. Common practice.
    #[must_use]
    pub fn leads_alone(&self, day: usize) -> bool {
        let minutes = self.days[day].minutes;
        let heavy = |one: &Candidate| one.duty == dose::Duty::Main && one.entry.is_loaded();
        let likes_pairs = self.profile.supersets == Supersets::Prefer;
        // Who likes pairs has them from the first set on where time is short or loads are light.
        let begins_in_turn =
            minutes <= LEAD_ALONE_OVER || self.is_guided() || !self.candidates.iter().any(heavy);
        match self.profile.goal {
            Goal::Strength | Goal::Power => true,
            _ if likes_pairs && begins_in_turn => false,
            Goal::Hypertrophy => minutes >= candidate::SHORT_SESSION,
            Goal::GeneralFitness | Goal::Endurance => minutes > LEAD_ALONE_OVER,
            Goal::FatLoss => false,
        }
    }

    /// The client's other training that is hard for a muscle.
    pub fn hard_elsewhere(&self, muscle: Muscle) -> impl Iterator<Item = Day> {
        let other = self.profile.other_training.iter();
        let hard =
            other.filter(move |one| one.load == Effort::Hard && one.muscles.contains(&muscle));
        hard.map(|one| Day::new(&SessionSlot { day: one.day, at: one.at.clone(), minutes: 60 }, 0))
    }

    /// Whether the client's own sport works a muscle hard twice a week or more.
    #[must_use]
    pub fn is_of_sport(&self, muscle: Muscle) -> bool {
        self.hard_elsewhere(muscle).count() > 1
    }

    /// Whether hard training elsewhere follows a day within two days and a half for a muscle: what is heavy rather comes after it.
    #[must_use]
    pub fn is_before_sport(&self, muscle: Muscle, day: usize) -> bool {
        const FRESH_H: f64 = 60.0;
        let close = |day: usize, sport: &Day| self.days[day].hours_until(sport) < FRESH_H;
        let mut sports: Vec<Day> = self.hard_elsewhere(muscle).collect();
        // Where practice leaves no day free, the weekend counts, when matches are played and long tours are made.
        if (0..self.days.len()).all(|day| sports.iter().any(|sport| close(day, sport))) {
            sports.retain(|sport| matches!(sport.weekday, Weekday::Sat | Weekday::Sun));
        }
        sports.iter().any(|sport| close(day, sport))
    }

    /// Whether the goal is to be strong, fast or big, so that lifts are done for their load and none by the way.
    #[must_use]
    pub fn trains_heavy(&self) -> bool {
        self.profile.goal.builds() || self.profile.goal == Goal::Power
    }

    /// Whether a lift is pushed harder than others: it is liked or asked for, or its load is known.
    #[must_use]
    pub fn is_pushed(&self, id: &str) -> bool {
        let wished = &self.profile.exercises;
        let is_wished = wished.must.iter().chain(&wished.prefer).any(|one| one == id);
        is_wished || self.profile.known_lifts.contains_key(id)
    }

    /// Whether hard training elsewhere follows on the next day: what is heavy has another day where there is one.
    #[must_use]
    pub fn is_eve_of_sport(&self, day: usize) -> bool {
        let this = &self.days[day];
        let mut next = Muscle::ALL.iter().flat_map(|muscle| self.hard_elsewhere(*muscle));
        next.any(|sport| this.hours_until(&sport) > 0.0 && this.is_eve_of(&sport, self.eve_h()))
    }

    /// Hours before hard training elsewhere that are its eve: who trains for strength lifts heavy in the morning of the day
    /// before. Common practice.
    fn eve_h(&self) -> f64 {
        const OF_AN_EVENING: f64 = 30.0;
        if self.profile.goal == Goal::Strength { OF_AN_EVENING } else { day::A_DAY_H }
    }

    /// Whether hard training elsewhere for a muscle comes within a day after a session.
    #[must_use]
    pub fn is_eve_of(&self, muscle: Muscle, day: usize) -> bool {
        let this = &self.days[day];
        self.hard_elsewhere(muscle).any(|sport| this.is_eve_of(&sport, self.eve_h()))
    }

    /// Whether hard training elsewhere works on the next day what an exercise is felt by, and not after each day of the week:
    /// there it is done fresh and light. Common practice.
    #[must_use]
    pub fn is_eve_for(&self, entry: &Entry, day: usize) -> bool {
        let is_eve =
            |day: usize| candidate::felt_by(entry).any(|muscle| self.is_eve_of(muscle, day));
        let counts = self.profile.goal != Goal::Power || self.is_light_eve(day);
        let slow = self.has_slow_legs(day)
            && candidate::felt_by(entry).any(|muscle| self.is_after_sport(muscle, day));
        slow || self.is_primer(day) || counts && is_eve(day) && !(0..self.days.len()).all(is_eve)
    }

    /// Whether hard training elsewhere for a muscle was within a day before a session.
    #[must_use]
    pub fn is_after_sport(&self, muscle: Muscle, day: usize) -> bool {
        let this = &self.days[day];
        self.hard_elsewhere(muscle).any(|sport| sport.is_eve_of(this, day::A_DAY_H))
    }

    /// Whether it is the eve of hard sport that the client's goal keeps fresh for: for power that of a practice is a day like
    /// others, and only the match counts. Common practice.
    #[must_use]
    pub fn is_light_eve(&self, day: usize) -> bool {
        match self.profile.goal {
            Goal::Power => self.is_eve_of_a_match(day),
            _ => self.is_eve_of_sport(day),
        }
    }

    /// Whether it is the eve of hard sport at the weekend, when matches are played and long tours are made: who plays
    /// tomorrow goes home early. Common practice.
    #[must_use]
    pub fn is_eve_of_a_match(&self, day: usize) -> bool {
        let weekend = [Weekday::Fri, Weekday::Sat].contains(&self.days[day].weekday);
        weekend && self.is_eve_of_sport(day)
    }

    /// Blocks of four weeks, the last perhaps shorter.
    #[must_use]
    pub fn blocks(&self) -> u32 {
        self.profile.weeks.div_ceil(WEEKS_OF_BLOCK).max(1)
    }

    /// Whether two sessions are closer than the client's recovery hours, over the turn of the week.
    ///
    /// From start to start, with three hours' grace, so that an evening after a morning still counts.
    #[must_use]
    pub fn too_close(&self, one: usize, other: usize) -> bool {
        one != other
            && self.days[one].hours_to(&self.days[other])
                < f64::from(self.profile.recovery_hours) - day::GRACE_H
    }
}
