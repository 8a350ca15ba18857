//! The pairs of a day in play: as few as its minutes need, those that save most.

use std::collections::BTreeSet;
use std::sync::Arc;

use smallvec::SmallVec;

use super::Evaluator;
use super::matching::{Able, Memo, Wanted};
use crate::model::pairing::PairClass;
use crate::model::{Weekly, paired_sets};
use crate::request::figures::{
    MINUTES_PER_ITEM, MINUTES_PER_PAIRED_ITEM, PAIRED_SETS_PER_MINUTE, SETS_PER_MINUTE,
};
use crate::words::Supersets;

/// Two picks in turn, and the model's count of such pairs.
pub(in crate::search) type Pair = (usize, usize, usize);

/// The pairs of a day.
pub(in crate::search) type Pairs = SmallVec<[Pair; 5]>;

/// The pairs that stand.
#[derive(Clone)]
pub(in crate::search) struct Pairing {
    wiring: Arc<Index>,
    /// The pairs of each day.
    standing: Vec<Pairs>,
    /// What each day's classes can save.
    memo: Vec<Memo>,
}

/// The count variable and saved seconds of each two classes that go together.
pub(in crate::search) type Table = Vec<Vec<Option<(usize, u32)>>>;

/// What pairing needs to know of the model.
struct Index {
    /// The place of the class of each pick that can be paired.
    classes: Vec<Option<usize>>,
    /// By day and the places of the classes.
    counts: Vec<Table>,
    /// Whether pairs are formed wherever they can be.
    liked: bool,
}

impl Pairing {
    pub(in crate::search) fn new(weekly: &Weekly) -> Pairing {
        let class = |pick: &crate::model::Pick| {
            pick.paired.and_then(|_| PairClass::of(weekly.request, weekly.candidate(pick)))
        };
        let of_picks: Vec<Option<PairClass>> = weekly.picks.iter().map(class).collect();
        let known: BTreeSet<PairClass> = of_picks.iter().flatten().copied().collect();
        let place = |class: &PairClass| known.iter().position(|other| other == class);
        let days = weekly.request.days.len();
        let mut counts = vec![vec![vec![None; known.len()]; known.len()]; days];
        for pair in &weekly.pairs {
            if let (Some(one), Some(other)) = (place(&pair.classes.0), place(&pair.classes.1)) {
                counts[pair.day][one][other] = Some((pair.count.0, pair.saves_s));
                counts[pair.day][other][one] = Some((pair.count.0, pair.saves_s));
            }
        }
        let wiring = Index {
            classes: of_picks.iter().map(|class| class.as_ref().and_then(place)).collect(),
            counts,
            liked: weekly.request.profile.supersets == Supersets::Prefer,
        };
        Pairing {
            wiring: Arc::new(wiring),
            standing: vec![Pairs::new(); days],
            memo: vec![Memo::default(); days],
        }
    }

    /// No pairs on any day.
    pub(in crate::search) fn clear(&mut self) {
        self.standing.iter_mut().for_each(Pairs::clear);
    }

    /// The pairs of a day.
    pub(in crate::search) fn standing(&self, day: usize) -> Pairs {
        self.standing[day].clone()
    }

    /// Puts pairs back that frequency before; the evaluator takes back its own part.
    pub(in crate::search) fn put_back(&mut self, day: usize, pairs: Pairs) {
        self.standing[day] = pairs;
    }

    /// Pairs a day anew.
    pub(in crate::search) fn pair(
        &mut self,
        weekly: &Weekly,
        evaluator: &mut Evaluator,
        day: usize,
        done: &[usize],
        sets: &[u32],
    ) {
        let chosen = self.chosen(weekly, day, done, sets);
        let before = std::mem::replace(&mut self.standing[day], chosen);
        let now = &self.standing[day];
        for (one, other, count) in before.iter().filter(|pair| !now.contains(pair)) {
            Pairing::mark(weekly, evaluator, [*one, *other], *count, 0.0);
        }
        for (one, other, count) in now.iter().filter(|pair| !before.contains(pair)) {
            Pairing::mark(weekly, evaluator, [*one, *other], *count, 1.0);
        }
    }

    /// The pairs that a day should have.
    fn chosen(&mut self, weekly: &Weekly, day: usize, done: &[usize], sets: &[u32]) -> Pairs {
        if self.wiring.counts[day].is_empty() {
            return Pairs::new();
        }
        let need = Need::of(weekly, day, done, sets);
        if !self.wiring.liked && need.is_met(0, 0) {
            return Pairs::new();
        }
        let rounds = paired_sets(weekly.request, day);
        let able = |pick: &usize| Some((*pick, self.wiring.classes[*pick]?));
        let able = done.iter().filter(|pick| sets[**pick] >= rounds).filter_map(able);
        let able: Able = able.collect();
        let counts = &self.wiring.counts[day];
        let saved = self.memo[day].saved(counts, &able);
        let enough = |number: &usize| need.is_met(*number, saved[*number]);
        let most = saved.len() - 1;
        let number = if self.wiring.liked { None } else { (1..most).find(enough) };
        let number = number.unwrap_or(most);
        Wanted::pairs(counts, &able, number, saved[number])
    }

    /// Marks two picks as paired or not, and counts the pair.
    fn mark(weekly: &Weekly, evaluator: &mut Evaluator, picks: [usize; 2], count: usize, by: f64) {
        for pick in picks {
            if let Some(paired) = weekly.picks[pick].paired {
                evaluator.set(paired.0, by);
            }
        }
        let step = if by > 0.0 { 1.0 } else { -1.0 };
        evaluator.set(count, evaluator.values[count] + step);
    }
}

/// How much of a day's exercises has to be paired.
struct Need {
    /// Seconds over the day's working seconds.
    seconds: i64,
    /// Working sets over the straight rate.
    sets: f64,
    /// Exercises over the straight rate.
    items: f64,
    rounds: f64,
}

impl Need {
    fn of(weekly: &Weekly, day: usize, done: &[usize], sets: &[u32]) -> Need {
        let mut seconds = -i64::from(weekly.request.days[day].work_s());
        for pick in done {
            let exercise = weekly.candidate(&weekly.picks[*pick]);
            let rests = sets[*pick].saturating_sub(1) * exercise.rest_s;
            seconds += i64::from(exercise.start_s + sets[*pick] * exercise.work_s + rests);
        }
        let minutes = f64::from(weekly.request.days[day].minutes);
        let all: u32 = done.iter().map(|pick| sets[*pick]).sum();
        let count = f64::from(u32::try_from(done.len()).unwrap_or(u32::MAX));
        Need {
            seconds,
            sets: f64::from(all) - (minutes * SETS_PER_MINUTE).max(4.0),
            items: count - (minutes / MINUTES_PER_ITEM).max(2.0),
            rounds: f64::from(paired_sets(weekly.request, day)),
        }
    }

    /// Whether a number of pairs that save some seconds is enough.
    fn is_met(&self, pairs: usize, saved: u32) -> bool {
        let items = 2.0 * f64::from(u32::try_from(pairs).unwrap_or(u32::MAX));
        let set_credit = items * self.rounds * (1.0 - SETS_PER_MINUTE / PAIRED_SETS_PER_MINUTE);
        let item_credit = items * (1.0 - MINUTES_PER_PAIRED_ITEM / MINUTES_PER_ITEM);
        self.seconds <= i64::from(saved)
            && self.sets <= set_credit + 1e-6
            && self.items <= item_credit + 1e-6
    }
}
