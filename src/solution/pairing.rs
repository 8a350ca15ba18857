//! The pairs of a day in play: as few as its minutes need, those that save most.

use std::collections::BTreeMap;

use super::board::Board;
use crate::model::pairing::PairClass;
use crate::model::{Weekly, paired_sets};
use crate::request::figures::{
    MINUTES_PER_ITEM, MINUTES_PER_PAIRED_ITEM, PAIRED_SETS_PER_MINUTE, SETS_PER_MINUTE,
};
use crate::words::Supersets;

/// Two picks in turn, and the model's count of such pairs.
pub(super) type Pair = (usize, usize, usize);

/// What pairing needs to know of the model, and the pairs that stand.
pub(super) struct Pairing {
    /// The class of each pick that can be paired.
    classes: Vec<Option<PairClass>>,
    /// The count variable and saved seconds of two classes on a day.
    counts: BTreeMap<(usize, PairClass, PairClass), (usize, u32)>,
    /// The pairs of each day.
    standing: Vec<Vec<Pair>>,
    liked: bool,
}

impl Pairing {
    pub(super) fn new(weekly: &Weekly) -> Pairing {
        let class = |pick: &crate::model::Pick| {
            pick.paired.and_then(|_| PairClass::of(weekly.request, weekly.candidate(pick)))
        };
        let counts = weekly
            .pairs
            .iter()
            .map(|pair| ((pair.day, pair.classes.0, pair.classes.1), (pair.count.0, pair.saves_s)));
        Pairing {
            classes: weekly.picks.iter().map(class).collect(),
            counts: counts.collect(),
            standing: vec![Vec::new(); weekly.request.days.len()],
            liked: weekly.request.profile.supersets == Supersets::Prefer,
        }
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
        if self.counts.is_empty() {
            return;
        }
        let need = Need::of(weekly, day, done, sets);
        if !self.liked && need.is_met(0, 0) {
            return;
        }
        let rounds = paired_sets(weekly.request, day);
        let able: Vec<usize> = done
            .iter()
            .copied()
            .filter(|pick| self.classes[*pick].is_some() && sets[*pick] >= rounds)
            .collect();
        let best = self.best_by_number(day, &able);
        let enough =
            best.iter().enumerate().find(|(number, (saved, _))| need.is_met(*number, *saved));
        let chosen = match enough.filter(|_| !self.liked) {
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
        let mut best: Vec<(u32, Vec<Pair>)> = vec![(0, Vec::new())];
        let mut chosen = Vec::new();
        self.extend(day, able, 0, &mut chosen, &mut best);
        best
    }

    fn extend(
        &self,
        day: usize,
        open: &[usize],
        saved: u32,
        chosen: &mut Vec<Pair>,
        best: &mut Vec<(u32, Vec<Pair>)>,
    ) {
        match best.get(chosen.len()) {
            None => best.push((saved, chosen.clone())),
            Some((most, _)) if saved > *most => best[chosen.len()] = (saved, chosen.clone()),
            Some(_) => {}
        }
        let Some((first, rest)) = open.split_first() else { return };
        self.extend(day, rest, saved, chosen, best);
        for (place, other) in rest.iter().enumerate() {
            let Some((count, saves)) = self.count_of(day, *first, *other) else { continue };
            let mut left = rest.to_vec();
            left.remove(place);
            chosen.push((*first, *other, count));
            self.extend(day, &left, saved + saves, chosen, best);
            chosen.pop();
        }
    }

    fn count_of(&self, day: usize, one: usize, other: usize) -> Option<(usize, u32)> {
        let (a, b) = (self.classes[one]?, self.classes[other]?);
        self.counts.get(&(day, a, b)).or_else(|| self.counts.get(&(day, b, a))).copied()
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
