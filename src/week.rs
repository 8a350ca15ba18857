//! What is done on each day, free of solver and of file: a solution, a previous plan and a plan written
//! by hand all become this, and every rule recounts it.

use std::collections::BTreeSet;
use std::sync::Arc;

use crate::input::catalog::Entry;
use crate::input::plan;
use crate::request::candidate::halves;
use crate::timing::{self, Timed};
use crate::words::{GroupKind, Kind, Muscle, Pattern, Role, Side};

/// A week of work.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Week {
    /// The sessions, each for a day of the request.
    pub sessions: Vec<Session>,
}

/// One day's work.
#[derive(Debug, Clone, PartialEq)]
pub struct Session {
    /// The day's place in the request.
    pub day: usize,
    /// What messages call it.
    pub label: String,
    /// The muscles it says it is for.
    pub focus: Vec<Muscle>,
    /// In the order they are done.
    pub groups: Vec<Group>,
}

/// Items done together.
#[derive(Debug, Clone, PartialEq)]
pub struct Group {
    /// What it is.
    pub kind: GroupKind,
    /// The seconds the plan gives it, where it does.
    pub seconds: Option<u32>,
    /// One item, or a pair.
    pub items: Vec<Item>,
}

/// One exercise in a session.
#[derive(Debug, Clone, PartialEq)]
pub struct Item {
    /// The catalog entry.
    pub entry: Arc<Entry>,
    /// Sets.
    pub sets: u32,
    /// Repetitions, seconds, meters or calories of each set; empty where a hand-written plan has none.
    pub amounts: Vec<u32>,
    /// Rest after each set or round.
    pub rest_s: u32,
    /// Repetitions left in reserve.
    pub rir: Option<u32>,
    /// Tempo, where it differs from the catalog's.
    pub tempo: Option<String>,
    /// The load.
    pub load_kg: Option<f64>,
    /// Ramp sets: load and repetitions.
    pub ramp: Vec<(Option<f64>, u32)>,
    /// What of it takes time.
    pub timed: Timed,
}

impl Week {
    /// Half-sets of a muscle over the week.
    #[must_use]
    pub fn halves(&self, muscle: Muscle) -> u32 {
        self.sessions.iter().map(|session| session.halves(muscle)).sum()
    }

    /// Whole sets that a test of patterns counts, over the week.
    #[must_use]
    pub fn sets_of(&self, test: impl Fn(&Entry) -> bool) -> u32 {
        self.sessions.iter().map(|session| session.sets_of(&test)).sum()
    }

    /// Every working item with its session.
    pub fn work(&self) -> impl Iterator<Item = (&Session, &Item)> {
        self.sessions.iter().flat_map(|session| session.work().map(move |item| (session, item)))
    }

    /// The ids of the week's working exercises.
    #[must_use]
    pub fn exercises(&self) -> BTreeSet<&str> {
        self.work().map(|(_, item)| item.entry.id.as_str()).collect()
    }
}

impl Session {
    /// Working items in order. Finishers count for time but give no sets.
    pub fn work(&self) -> impl Iterator<Item = &Item> {
        self.groups.iter().filter(|group| group.is_work()).flat_map(|group| &group.items)
    }

    /// Items that count toward volume: the session's work, and finishers that are ordinary exercises. Easy
    /// finishers of the catalog give no sets.
    fn counted(&self) -> impl Iterator<Item = &Item> {
        let groups = self.groups.iter();
        groups
            .filter(|group| group.is_work() || group.kind == GroupKind::Finisher)
            .flat_map(|group| &group.items)
            .filter(|item| item.entry.role == Role::Work)
    }

    /// Half-sets of a muscle: two a direct set, one an indirect (Pelland et al. 2024).
    #[must_use]
    pub fn halves(&self, muscle: Muscle) -> u32 {
        self.counted().map(|item| item.sets * halves(&item.entry, muscle)).sum()
    }

    /// Direct sets of a muscle.
    #[must_use]
    pub fn direct(&self, muscle: Muscle) -> u32 {
        let direct = |item: &&Item| halves(&item.entry, muscle) == 2;
        self.counted().filter(direct).map(|item| item.sets).sum()
    }

    /// Whether the session trains large muscles of both halves of the body.
    #[must_use]
    pub fn trains_both_halves(&self) -> bool {
        let trains = |muscles: [Muscle; 3]| muscles.iter().any(|muscle| self.direct(*muscle) > 0);
        trains([Muscle::Quads, Muscle::Hamstrings, Muscle::Glutes])
            && trains([Muscle::Chest, Muscle::Lats, Muscle::UpperBack])
    }

    /// Whether the session is hard for a muscle: three direct sets, or four fractional with one direct.
    #[must_use]
    pub fn is_hard_for(&self, muscle: Muscle) -> bool {
        crate::request::figures::is_hard(self.direct(muscle), self.halves(muscle))
    }

    /// Whole sets that a test counts.
    pub fn sets_of(&self, test: impl Fn(&Entry) -> bool) -> u32 {
        self.counted().filter(|item| test(&item.entry)).map(|item| item.sets).sum()
    }

    /// Seconds of the session, recounted from its items.
    #[must_use]
    pub fn seconds(&self) -> u32 {
        self.groups.iter().map(Group::recounted_s).sum()
    }
}

impl Group {
    /// Whether its items count as the session's work.
    #[must_use]
    pub fn is_work(&self) -> bool {
        matches!(self.kind, GroupKind::Single | GroupKind::Superset)
    }

    /// Seconds from the items alone.
    #[must_use]
    pub fn recounted_s(&self) -> u32 {
        let times: Vec<_> = self.items.iter().map(|item| item.timed.clone()).collect();
        timing::group_s(&times, timing::WAY_IN_S)
    }
}

impl Item {
    /// An item of a file. Where a hand-written plan gives no numbers, the middle of the catalog's range stands
    /// in for the time.
    #[must_use]
    pub fn of(item: &plan::Item, entry: &Arc<Entry>) -> Item {
        let usual = u32::midpoint(entry.reps[0], entry.reps[1]);
        let amounts = item.amounts().map_or_else(Vec::new, |amounts| amounts.list().to_vec());
        let mut timed = timing::timed(item, entry);
        if amounts.is_empty() {
            let set = timing::set_s(entry, usual, item.tempo.as_deref().or(entry.tempo.as_deref()));
            timed.work_s = vec![set; item.sets as usize];
        }
        Item {
            entry: Arc::clone(entry),
            sets: item.sets,
            amounts,
            rest_s: item.rest_s,
            rir: item.rir,
            tempo: item.tempo.clone(),
            load_kg: item.load_kg,
            ramp: item.ramp.iter().map(|step| (step.load_kg, step.reps)).collect(),
            timed,
        }
    }

    /// The movement pattern, where it has one.
    #[must_use]
    pub fn pattern(&self) -> Option<Pattern> {
        self.entry.pattern
    }

    /// Several joints.
    #[must_use]
    pub fn is_compound(&self) -> bool {
        self.entry.kind == Some(Kind::Compound)
    }

    /// Its side of the push / pull / legs count.
    #[must_use]
    pub fn side(&self) -> Option<Side> {
        self.entry.pattern.and_then(Pattern::side)
    }
}
