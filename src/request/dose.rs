//! How much of an exercise: sets, repetitions, reserve, rest and tempo by goal, status and duty.
//!
//! The figures stand in `dose.yaml` beside this file, each row with the ids of its sources.

mod as_known;
mod span;

use std::collections::BTreeMap;
use std::sync::LazyLock;

use serde::Deserialize;

pub use as_known::{as_done, for_client};
pub use span::Span;

use crate::input::catalog::Entry;
use crate::words::{Goal, Kind, LoadKind, Measure, Pattern, Role, Sides, Status, Turn};

/// What an exercise is there for, as far as its dose goes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Deserialize, strum::VariantArray)]
#[serde(rename_all = "kebab-case")]
pub enum Duty {
    /// A lift that leads its session.
    Main,
    /// Other work of several joints.
    Compound,
    /// Work of one joint.
    Isolation,
    /// Trunk work in repetitions.
    Trunk,
    /// A position held for seconds.
    Hold,
    /// A load moved over meters.
    Carry,
    /// Jumps, throws and fast pulls.
    Explosive,
    /// What readies the muscles of the day.
    Prep,
    /// A short, lively end of a session.
    Finisher,
    /// Ergometer, running and the like.
    Conditioning,
}

impl Duty {
    /// Every duty, in the order of the table.
    pub const ALL: &'static [Duty] = <Duty as strum::VariantArray>::VARIANTS;

    /// The words for it.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Duty::Main => "main lifts",
            Duty::Compound => "other multi-joint",
            Duty::Isolation => "single-joint",
            Duty::Trunk => "trunk",
            Duty::Hold => "holds",
            Duty::Carry => "carries",
            Duty::Explosive => "explosive",
            Duty::Prep => "preparation",
            Duty::Finisher => "finishers",
            Duty::Conditioning => "conditioning",
        }
    }

    /// The duty of a catalog entry.
    #[must_use]
    pub fn of(entry: &Entry) -> Duty {
        match entry.role {
            Role::Prep => return Duty::Prep,
            Role::Finisher => return Duty::Finisher,
            Role::Conditioning => return Duty::Conditioning,
            Role::Work => {}
        }
        let is = |test: fn(Pattern) -> bool| entry.pattern.is_some_and(test);
        if is(Pattern::is_explosive) {
            Duty::Explosive
        } else if entry.measure == Measure::Seconds {
            Duty::Hold
        } else if entry.measure == Measure::Meters {
            Duty::Carry
        } else if is(Pattern::is_trunk) {
            Duty::Trunk
        } else if entry.kind == Some(Kind::Isolation) {
            Duty::Isolation
        } else if entry.main {
            Duty::Main
        } else {
            Duty::Compound
        }
    }
}

/// A row of the table.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Dose {
    /// Fewest and most sets in a session.
    pub sets: [u32; 2],
    /// Least and most of a set, in `unit`, for each side where sides are worked in turn.
    pub reps: [u32; 2],
    /// The most that a set asks for in the first four weeks; sessions are timed with it.
    pub aim: u32,
    /// Repetitions left in reserve.
    pub rir: u32,
    /// Rest after a set, in seconds.
    pub rest_s: u32,
    /// Lowering-pause-lifting-pause in seconds; none where speed is the point.
    pub tempo: Option<String>,
    /// What `reps` and `aim` count.
    pub unit: Measure,
    /// Source ids; [`citation`] prints them.
    pub sources: Vec<String>,
}

/// The dose of a duty for a goal and a status.
///
/// # Panics
/// Never: a test holds the table complete.
#[must_use]
pub fn dose(goal: Goal, status: Status, duty: Duty) -> &'static Dose {
    TABLE
        .doses
        .get(&(goal, status, duty, None))
        .expect("the dose table covers every goal, status and duty")
}

/// The dose of a lift that comes after a heavier one, on a day of the week.
fn accessory(goal: Goal, status: Status, turn: Option<Turn>) -> &'static Dose {
    let of_turn = TABLE.doses.get(&(goal, status, Duty::Compound, turn));
    of_turn.unwrap_or_else(|| dose(goal, status, Duty::Compound))
}

/// The dose of an exercise on a day of the week: its heavier or lighter day, or as usual where the table has no row
/// of its own for that day.
#[must_use]
pub fn dose_for(goal: Goal, status: Status, entry: &Entry, turn: Option<Turn>) -> &'static Dose {
    let duty = Duty::of(entry);
    if let Some(dose) = with_the_bar(goal, status, entry, turn) {
        return dose;
    }
    // A pull-up for threes is no pull-up: its heavier day is as usual.
    let hung = entry.is_hung() && entry.pattern == Some(Pattern::VerticalPull);
    let turn = turn.filter(|turn| !(hung && *turn == Turn::Heavier && goal == Goal::Strength));
    // Who is fast pulls up for a few and not for threes.
    let status = match status {
        Status::Advanced if hung && goal == Goal::Power => Status::Intermediate,
        status => status,
    };
    let found = |duty: Duty, turn: Option<Turn>| {
        let of_turn = TABLE.doses.get(&(goal, status, duty, turn));
        of_turn.unwrap_or_else(|| dose(goal, status, duty))
    };
    // Few repetitions are for what is loaded in small steps; dumbbells and machines take the next dose.
    let few = |dose: &Dose| {
        let beyond = entry.reps.first().is_some_and(|least| *least > dose.reps[1]);
        dose.aim <= FEW_REPS && duty == Duty::Main && (beyond || !takes_few_reps(entry))
    };
    let wanted = found(duty, turn);
    let usual = found(duty, None);
    match (few(wanted), few(usual)) {
        (false, _) => wanted,
        (true, false) => usual,
        (true, true) => accessory(goal, status, turn),
    }
}

/// The dose of a bar on the legs where the goal has one of its own, but on the lighter day.
fn with_the_bar(
    goal: Goal,
    status: Status,
    entry: &Entry,
    turn: Option<Turn>,
) -> Option<&'static Dose> {
    let legs = matches!(entry.pattern, Some(Pattern::Squat | Pattern::Hinge));
    let bar = entry.main && entry.load == LoadKind::BarTotal && entry.sides == Sides::Both;
    let light = turn.is_some_and(Turn::is_light);
    TABLE.with_the_bar.get(&(goal, status)).filter(|_| legs && bar && !light)
}

impl Turn {
    /// Whether a day is lighter than others.
    #[must_use]
    pub const fn is_light(self) -> bool {
        matches!(self, Turn::Lighter | Turn::Eve)
    }
}

/// Sets of up to so many repetitions are heavy.
pub const FEW_REPS: u32 = 6;

/// Whether sets of few repetitions suit an exercise: a bar on two legs, a trap bar, a pull-up or dip with a weight added.
/// Common practice.
#[must_use]
pub fn takes_few_reps(entry: &Entry) -> bool {
    let hung = entry.is_hung() && entry.load == LoadKind::BodyweightPlus;
    let bar = entry.load == LoadKind::BarTotal && entry.sides == Sides::Both;
    let own = entry.reps.first().is_some_and(|least| *least <= FEW_REPS);
    hung || (bar && own && entry.pattern != Some(Pattern::Lunge))
}

/// The citation behind a source id, as `plan --sources` prints it.
#[must_use]
pub fn citation(id: &str) -> Option<&'static str> {
    TABLE.citations.get(id).map(String::as_str)
}

/// What a row of the table is for.
type Key = (Goal, Status, Duty, Option<Turn>);

struct Table {
    doses: BTreeMap<Key, Dose>,
    with_the_bar: BTreeMap<(Goal, Status), Dose>,
    citations: BTreeMap<String, String>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct File {
    rows: Vec<Row>,
    with_the_bar: Vec<Row>,
    citations: BTreeMap<String, String>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Row {
    duty: Duty,
    #[serde(default)]
    turn: Option<Turn>,
    #[serde(default)]
    goals: Vec<Goal>,
    #[serde(default)]
    statuses: Vec<Status>,
    #[serde(default = "reps")]
    unit: Measure,
    sets: [u32; 2],
    reps: [u32; 2],
    aim: u32,
    rir: u32,
    rest_s: u32,
    #[serde(default)]
    tempo: Option<String>,
    sources: Vec<String>,
}

const fn reps() -> Measure {
    Measure::Reps
}

impl Row {
    fn keys(&self) -> Vec<Key> {
        let goals = if self.goals.is_empty() { Goal::ALL } else { &self.goals };
        let statuses = if self.statuses.is_empty() { Status::ALL } else { &self.statuses };
        let pairs = goals.iter().flat_map(|goal| statuses.iter().map(|status| (*goal, *status)));
        pairs.map(|(goal, status)| (goal, status, self.duty, self.turn)).collect()
    }

    fn into_dose(self) -> Dose {
        Dose {
            sets: self.sets,
            reps: self.reps,
            aim: self.aim,
            rir: self.rir,
            rest_s: self.rest_s,
            tempo: self.tempo,
            unit: self.unit,
            sources: self.sources,
        }
    }
}

static TABLE: LazyLock<Table> = LazyLock::new(|| {
    let file: File =
        serde_yaml::from_str(include_str!("dose.yaml")).expect("dose.yaml is well formed");
    let mut doses = BTreeMap::new();
    for row in file.rows {
        let keys = row.keys();
        let dose = row.into_dose();
        doses.extend(keys.into_iter().map(|key| (key, dose.clone())));
    }
    let mut with_the_bar = BTreeMap::new();
    for row in file.with_the_bar {
        let keys = row.keys();
        let dose = row.into_dose();
        with_the_bar
            .extend(keys.into_iter().map(|(goal, status, ..)| ((goal, status), dose.clone())));
    }
    Table { doses, with_the_bar, citations: file.citations }
});

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_combination_is_given_exactly_once() {
        let file: File = serde_yaml::from_str(include_str!("dose.yaml")).unwrap();
        let mut times = BTreeMap::new();
        for key in file.rows.iter().flat_map(Row::keys) {
            *times.entry(key).or_insert(0) += 1;
        }
        for goal in Goal::ALL {
            for status in Status::ALL {
                for duty in Duty::ALL {
                    let key = (*goal, *status, *duty, None);
                    assert_eq!(times.get(&key), Some(&1), "{key:?}");
                }
            }
        }
    }

    #[test]
    fn every_source_id_has_a_citation() {
        for dose in TABLE.doses.values().chain(TABLE.with_the_bar.values()) {
            assert!(!dose.sources.is_empty());
            for id in &dose.sources {
                assert!(citation(id).is_some(), "{id}");
            }
        }
    }

    /// The coach's figures (common practice) and RX-06, RX-18, RX-19.
    #[test]
    fn doses_stay_inside_the_coach_s_bounds() {
        for ((goal, status, duty, turn), dose) in &TABLE.doses {
            let key = (goal, status, duty, turn);
            assert!(dose.reps[0] <= dose.aim && dose.aim <= dose.reps[1], "{key:?}");
            assert_eq!(dose.rest_s % 15, 0, "{key:?}");
            assert!(dose.rir <= 5, "RM-21: {key:?}");
            if matches!(duty, Duty::Prep | Duty::Conditioning) {
                continue;
            }
            // A heavy lift is done for two sets where other training leaves the day no more, a fast one is not.
            let fast = *duty == Duty::Explosive && *goal == Goal::Power;
            let three = match goal {
                Goal::Strength => *status == Status::Novice,
                Goal::Hypertrophy => *status != Status::Novice,
                _ => false,
            };
            let fewest = u32::from(fast || *duty == Duty::Main && three);
            assert!(dose.sets[0] == 2 + if turn.is_none() { fewest } else { 0 }, "{key:?}");
            let most = match (status, duty) {
                (Status::Novice, Duty::Isolation) => 3,
                (Status::Advanced, _) | (Status::Intermediate, Duty::Main | Duty::Explosive) => 5,
                _ => 4,
            };
            assert!(dose.sets[1] <= most, "{key:?}");
            if *status == Status::Novice {
                assert!(dose.rir >= 2, "{key:?}");
            }
            match duty {
                Duty::Isolation => assert!(dose.reps[0] >= 8 && (60..=90).contains(&dose.rest_s)),
                Duty::Hold => assert!(dose.reps[0] >= 15 && dose.reps[1] <= 60),
                Duty::Explosive => assert!(dose.reps[1] <= 6),
                Duty::Main if *goal == Goal::Hypertrophy && turn.is_none() => {
                    assert!((90..=120).contains(&dose.rest_s), "{key:?}");
                }
                Duty::Main
                    if *goal == Goal::Strength && *status != Status::Novice && turn.is_none() =>
                {
                    assert!((180..=300).contains(&dose.rest_s), "RX-02, RX-19: {key:?}");
                    assert!(dose.reps[1] + dose.rir <= 8, "80 % of 1RM or more by RM-14: {key:?}");
                }
                _ => {}
            }
        }
    }

    fn entry(yaml: &str) -> Entry {
        serde_yaml::from_str(yaml).unwrap()
    }

    #[test]
    fn a_barbell_squat_stops_at_twelve_and_a_rolling_item_keeps_its_own_range() {
        let squat = entry(
            "{id: back-squat, name: Back squat, pattern: squat, kind: compound, main: true, direct: [quads], needs: [[barbell]],
              level: 1, sides: both, load: bar-total, measure: reps, reps: [1, 20], tempo: 3-1-1-0, setup_s: 60}",
        );
        assert_eq!(Duty::of(&squat), Duty::Main);
        let dose = dose(Goal::Endurance, Status::Novice, Duty::Main);
        assert_eq!(dose.span(&squat), Span { low: 10, high: 12, aim: 12 });
        assert_eq!(dose.tempo_for(&squat), Some("3-1-1-0"));
        let roll = entry(
            "{id: roll-quads, name: Roll, role: prep, part: rolling, muscles: [quads], needs: [[foam-roller]], level: 1,
              sides: both, measure: seconds, reps: [30, 120], setup_s: 10}",
        );
        let dose = super::dose(Goal::Strength, Status::Novice, Duty::of(&roll));
        assert_eq!(dose.span(&roll), Span { low: 30, high: 120, aim: 60 });
    }
}
