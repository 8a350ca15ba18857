//! The pairs of a day in play: as few as its minutes need, those that save most.

use std::collections::BTreeSet;
use std::sync::Arc;

use super::board::Board;
use crate::model::pairing::PairClass;
use crate::model::{Weekly, paired_sets};
use crate::request::figures::{
    MINUTES_PER_ITEM, MINUTES_PER_PAIRED_ITEM, PAIRED_SETS_PER_MINUTE, SETS_PER_MINUTE,
};
use crate::words::Supersets;

/// Two picks in turn, and the model's count of such pairs.
pub(super) type Pair = (usize, usize, usize);

/// The pairs that stand.
#[derive(Clone)]
pub(super) struct Pairing {
    wiring: Arc<Wiring>,
    /// The pairs of each day.
    standing: Vec<Vec<Pair>>,
}

/// The count variable and saved seconds of each two classes or picks that go together.
type Table = Vec<Vec<Option<(usize, u32)>>>;

/// What pairing needs to know of the model.
struct Wiring {
    /// The place of the class of each pick that can be paired.
    classes: Vec<Option<usize>>,
    /// By day and the places of the classes.
    counts: Vec<Table>,
    /// Whether pairs are formed wherever they can be.
    liked: bool,
}

impl Pairing {
    pub(super) fn new(weekly: &Weekly) -> Pairing {
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
        let wiring = Wiring {
            classes: of_picks.iter().map(|class| class.as_ref().and_then(place)).collect(),
            counts,
            liked: weekly.request.profile.supersets == Supersets::Prefer,
        };
        Pairing { wiring: Arc::new(wiring), standing: vec![Vec::new(); days] }
    }

    /// No pairs on any day.
    pub(super) fn clear(&mut self) {
        self.standing.iter_mut().for_each(Vec::clear);
    }

    /// The pairs of a day.
    pub(super) fn standing(&self, day: usize) -> Vec<Pair> {
        self.standing[day].clone()
    }

    /// Puts pairs back that stood before; the board takes back its own part.
    pub(super) fn put_back(&mut self, day: usize, pairs: Vec<Pair>) {
        self.standing[day] = pairs;
    }

    /// Pairs a day anew.
    pub(super) fn pair(
        &mut self,
        weekly: &Weekly,
        board: &mut Board,
        day: usize,
        done: &[usize],
        sets: &[u32],
    ) {
        for (one, other, count) in std::mem::take(&mut self.standing[day]) {
            Pairing::mark(weekly, board, [one, other], count, 0.0);
        }
        if self.wiring.counts[day].is_empty() {
            return;
        }
        let need = Need::of(weekly, day, done, sets);
        if !self.wiring.liked && need.is_met(0, 0) {
            return;
        }
        let rounds = paired_sets(weekly.request, day);
        let able: Vec<usize> = done
            .iter()
            .copied()
            .filter(|pick| self.wiring.classes[*pick].is_some() && sets[*pick] >= rounds)
            .collect();
        let best = self.best_by_number(day, &able);
        let enough =
            best.iter().enumerate().find(|(number, (saved, _))| need.is_met(*number, *saved));
        let chosen = match enough.filter(|_| !self.wiring.liked) {
            Some((_, (_, pairs))) => pairs.clone(),
            None => best.last().map(|(_, pairs)| pairs.clone()).unwrap_or_default(),
        };
        for (one, other, count) in &chosen {
            Pairing::mark(weekly, board, [*one, *other], *count, 1.0);
        }
        self.standing[day] = chosen;
    }

    /// Marks two picks as paired or not, and counts the pair.
    fn mark(weekly: &Weekly, board: &mut Board, picks: [usize; 2], count: usize, by: f64) {
        for pick in picks {
            if let Some(paired) = weekly.picks[pick].paired {
                board.set(paired.0, by);
            }
        }
        let step = if by > 0.0 { 1.0 } else { -1.0 };
        board.set(count, board.values[count] + step);
    }

    /// For each number of pairs, the most seconds saved and the pairs that save them.
    fn best_by_number(&self, day: usize, able: &[usize]) -> Vec<(u32, Vec<Pair>)> {
        let mut matching = Matching {
            counts: able
                .iter()
                .map(|one| able.iter().map(|other| self.count_of(day, *one, *other)).collect())
                .collect(),
            chosen: Vec::new(),
            best: Vec::new(),
        };
        matching.extend(0, (1 << able.len()) - 1, 0);
        let named = |(one, other): &(usize, usize)| {
            let (count, _) = matching.counts[*one][*other].expect("only such pairs are chosen");
            (able[*one], able[*other], count)
        };
        let best = matching.best.iter();
        best.map(|(saved, pairs)| (*saved, pairs.iter().map(named).collect())).collect()
    }

    fn count_of(&self, day: usize, one: usize, other: usize) -> Option<(usize, u32)> {
        let (a, b) = (self.wiring.classes[one]?, self.wiring.classes[other]?);
        self.wiring.counts[day][a][b]
    }
}

/// All ways to pair some exercises, one after another.
struct Matching {
    counts: Table,
    chosen: Vec<(usize, usize)>,
    /// For each number of pairs, the most seconds saved and the pairs that save them.
    best: Vec<(u32, Vec<(usize, usize)>)>,
}

impl Matching {
    /// Pairs those that are open, from a place on; the bits of `open` say which.
    fn extend(&mut self, from: usize, open: u32, saved: u32) {
        let number = self.chosen.len();
        match self.best.get(number) {
            None => self.best.push((saved, self.chosen.clone())),
            Some((most, _)) if saved > *most => self.best[number] = (saved, self.chosen.clone()),
            Some(_) => {}
        }
        let count = self.counts.len();
        for one in (from..count).filter(|one| open & 1 << one != 0) {
            for other in (one + 1..count).filter(|other| open & 1 << other != 0) {
                let Some((_, saves)) = self.counts[one][other] else { continue };
                self.chosen.push((one, other));
                self.extend(one + 1, open & !(1 << one | 1 << other), saved + saves);
                self.chosen.pop();
            }
        }
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
