//! The pairs of a day: those that bring most points where its minutes hold them, else as many as can be formed, those that
//! save most seconds. A lift that leads, or is there for its load, is worth more alone.

#[cfg(test)]
mod tests;
mod two;

use smallvec::SmallVec;

pub(super) use self::two::Two;
use super::score::ROUNDING;

/// Exercises of a day up to which pairs are looked for; no session may have more.
const MOST_PAIRED: usize = 10;

/// A class of exercises that are alike for pairing, by its place among those of the week.
pub(super) type Class = u8;

/// Picks of a day that can be paired, in order, each behind its class.
pub(super) type Able = SmallVec<[(Class, u32); MOST_PAIRED]>;

/// Two picks in turn, and the model's count of such pairs.
pub(super) type Pair = (usize, usize, usize);

/// What a day holds, as far as pairs depend on it.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub(super) struct DayLoad {
    /// Seconds without pairs.
    pub(super) seconds: i32,
    pub(super) sets: i32,
    pub(super) items: i32,
    pub(super) pairs: i32,
    /// Seconds that the pairs save.
    pub(super) saved: i32,
    /// Whether minutes chose between two ways to pair.
    pub(super) is_chosen: bool,
}

/// How a day is paired.
#[derive(Clone)]
pub(super) struct DayPairing {
    /// What each two classes that go together make.
    pub(super) counts: Vec<Vec<Option<Count>>>,
    /// Whether each class is of lifts that lead the day where they stand alone.
    pub(super) leads: Vec<bool>,
    /// What it is worth in the coach's view that one of them does.
    pub(super) led: f64,
    /// Seconds that the day holds.
    pub(super) room: i32,
    /// Sets that it holds, and how many fewer one in a pair counts for.
    pub(super) sets: (f64, f64),
    /// The first day of the week whose exercises are best paired as those of this one are.
    pub(super) like: usize,
}

/// A pair of two classes.
#[derive(Clone, Copy)]
pub(super) struct Count {
    /// The variable that counts such pairs.
    pub(super) var: usize,
    /// Seconds that one saves.
    pub(super) saves: i32,
    /// What one is worth in the coach's view.
    pub(super) points: f64,
}

/// In a key: something that is never paired leads the day.
const LED: u128 = 1 << 127;
/// In a key: the way that brings most points.
const LOOSE: u128 = 1 << 126;

impl DayPairing {
    /// Whether a day has more exercises than pairs are looked for among.
    pub(super) fn is_crowded(load: &DayLoad) -> bool {
        usize::try_from(load.items).is_ok_and(|items| items > MOST_PAIRED)
    }

    /// The better of two ways to pair the exercises of a day: the second, which brings most points, where its minutes hold it.
    pub(super) fn chosen(&self, two: &Two, load: &DayLoad) -> Way {
        let loose = two.way(1);
        if loose.is_only || !self.holds(load, &loose) { two.way(0) } else { loose }
    }

    /// Whether a class goes together with any other.
    pub(super) fn pairs_at_all(&self, class: Class) -> bool {
        self.counts[usize::from(class)].iter().any(Option::is_some)
    }

    /// Whether the best ways to pair any exercises are the same on another day.
    pub(super) fn is_like(&self, other: &DayPairing) -> bool {
        let alike = |one: &Option<Count>, other: &Option<Count>| {
            let brings = |count: &Count| (count.saves, count.points.to_bits());
            one.as_ref().map(brings) == other.as_ref().map(brings)
        };
        let counts = self.counts.iter().flatten().zip(other.counts.iter().flatten());
        self.leads == other.leads
            && self.led == other.led
            && counts.fold(true, |all, (one, other)| all && alike(one, other))
    }

    /// Whether a day holds its exercises, paired in a way.
    fn holds(&self, load: &DayLoad, way: &Way) -> bool {
        let (most, less) = self.sets;
        let sets = f64::from(load.sets) - 2.0 * less * f64::from(way.pairs);
        load.seconds - way.saved <= self.room && sets <= most + ROUNDING
    }

    /// The model's count of pairs of two classes that go together.
    pub(super) fn count_of(&self, class: Class, with: Class) -> usize {
        let count = self.counts[usize::from(class)][usize::from(with)];
        count.expect("a way pairs what goes together").var
    }

    /// What the ways to pair some exercises depend on: their classes in order, a byte each, behind a one, and whether
    /// something that is never paired leads the day.
    pub(super) fn key(able: &Able, is_led: bool) -> u128 {
        let key = able.iter().fold(1, |key, (class, _)| key << 8 | u128::from(*class));
        if is_led { key | LED } else { key }
    }

    /// The two best ways to pair some exercises of a day, where something else leads it or nothing does: the first of those
    /// that have most pairs, save most seconds, and bring most points; and the one that brings most points.
    pub(super) fn best_two(&self, able: &Able, is_led: bool) -> [Way; 2] {
        let mut best = [self.nobody(able, is_led); 2];
        let hopes: Hopes = able.iter().map(|(class, _)| self.hope(able, *class)).collect();
        let open = hopes.iter().fold(Hope::default(), |all, hope| all.and(hope));
        self.every_way(able, &hopes, Open { from: 0, taken: 0, hope: open }, best[0], &mut best);
        let is_only = !best[1].brings_more(&best[0]);
        let key = DayPairing::key(able, is_led);
        let [tight, loose] = best.map(|best| best.way);
        [Way { key, is_only, ..tight }, Way { key: key | LOOSE, is_only, ..loose }]
    }

    /// The most that any pair of a class brings, of which it is half.
    fn hope(&self, able: &Able, class: Class) -> Hope {
        let counts = &self.counts[usize::from(class)];
        let pairs = able.iter().filter_map(|(with, _)| counts[usize::from(*with)].as_ref());
        pairs.fold(Hope::default(), |most, count| Hope {
            pairs: 1,
            saves: count.saves.max(most.saves),
            points: count.points.max(most.points),
        })
    }

    /// Looks at the ways that go on from one, and keeps the best two. Exercises of a class stand side by side and change
    /// nothing by changing places, so of those that are open only the first is looked at; and none is where even the most
    /// that those from a place on can bring is no better. Points are whole, so that their sums are exact.
    fn every_way(
        &self,
        able: &Able,
        hopes: &Hopes,
        mut open: Open,
        now: Started,
        best: &mut [Started; 2],
    ) {
        if now.beats(&best[0]) {
            best[0] = now;
        }
        if now.brings_more(&best[1]) {
            best[1] = now;
        }
        let mut last = None;
        for one in (open.from..able.len()).filter(|place| open.taken & 1 << *place == 0) {
            let class = able[one].0;
            let hope = open.hope;
            open.hope = hope.without(&hopes[one]);
            if last.replace(class) == Some(class) {
                continue;
            }
            let most = now.at_most(&hope);
            if !most.beats(&best[0]) && !most.brings_more(&best[1]) {
                break;
            }
            if hopes[one].pairs > 0 {
                self.every_pair(able, hopes, (one, &open), now, best);
            }
        }
    }

    /// The same with one of the exercises in a pair, beside those behind it that are open.
    fn every_pair(
        &self,
        able: &Able,
        hopes: &Hopes,
        (one, open): (usize, &Open),
        now: Started,
        best: &mut [Started; 2],
    ) {
        let class = usize::from(able[one].0);
        let mut last = None;
        for other in (one + 1..able.len()).filter(|place| open.taken & 1 << *place == 0) {
            let with = usize::from(able[other].0);
            if last.replace(with) == Some(with) {
                continue;
            }
            let Some(count) = &self.counts[class][with] else { continue };
            let mut next = now.with(one, other, count);
            next.leads -= u8::from(self.leads[class]) + u8::from(self.leads[with]);
            if next.leads == 0 && now.leads > 0 {
                next.points -= self.led;
            }
            let taken = open.taken | 1 << one | 1 << other;
            let left = Open { from: one + 1, taken, hope: open.hope.without(&hopes[other]) };
            self.every_way(able, hopes, left, next, best);
        }
    }

    /// Nobody is paired. Where something else leads the day, none of those who can be paired need to.
    fn nobody(&self, able: &Able, is_led: bool) -> Started {
        let leads = able.iter().filter(|(class, _)| self.leads[usize::from(*class)]).count();
        let leads = u8::try_from(leads).unwrap_or(u8::MAX);
        // One that is never paired.
        Started { way: Way::NONE, points: 0.0, leads: leads + u8::from(is_led) }
    }
}

/// Halves of what pairs can bring at most.
#[derive(Clone, Copy, Default)]
struct Hope {
    /// Exercises that go together with any other.
    pairs: u8,
    saves: i32,
    points: f64,
}

impl Hope {
    fn and(&self, more: &Hope) -> Hope {
        let Hope { pairs, saves, points } = *more;
        Hope { pairs: self.pairs + pairs, saves: self.saves + saves, points: self.points + points }
    }

    fn without(&self, less: &Hope) -> Hope {
        let Hope { pairs, saves, points } = *less;
        Hope { pairs: self.pairs - pairs, saves: self.saves - saves, points: self.points - points }
    }
}

/// What each exercise of a day can bring at most.
type Hopes = SmallVec<[Hope; MOST_PAIRED]>;

/// The exercises that a way can still pair: those from a place on that are not taken, and what they can bring.
struct Open {
    from: usize,
    taken: u32,
    hope: Hope,
}

/// A way to pair the exercises of a day: small, as it is asked for nearly every proposal.
#[derive(Clone, Copy)]
pub(super) struct Way {
    /// What it follows from, and whether it is the one that brings most points; never nought once it was looked for.
    pub(super) key: u128,
    /// Seconds that the pairs save.
    pub(super) saved: i32,
    pub(super) pairs: u8,
    /// Whether none other brings more points.
    pub(super) is_only: bool,
    /// Who is paired: two places in one.
    places: [u8; MOST_PAIRED / 2],
}

impl Way {
    /// Nobody is paired.
    pub(super) const NONE: Way =
        Way { key: 0, pairs: 0, saved: 0, is_only: true, places: [0; MOST_PAIRED / 2] };

    /// Nothing can be paired.
    pub(super) const EMPTY: Way = Way::of_nobody(1);

    /// Nobody is paired, as a key says.
    pub(super) const fn of_nobody(key: u128) -> Way {
        Way { key, ..Way::NONE }
    }
}

/// Who is paired on a day, each two as one number.
#[derive(Clone, Copy, Default)]
pub(super) struct Couples {
    count: u8,
    couples: [u64; MOST_PAIRED / 2],
}

impl Couples {
    /// Those of a way to pair some exercises.
    pub(super) fn of(way: &Way, able: &Able) -> Couples {
        let mut couples = Couples { count: way.pairs, ..Couples::default() };
        let places = &way.places[..usize::from(way.pairs)];
        for (couple, two) in couples.couples.iter_mut().zip(places) {
            let [one, other] = [two >> 4, two & 15].map(|at| {
                let (class, pick) = able[usize::from(at)];
                u64::from(class) << PICK_BITS | u64::from(pick)
            });
            *couple = one << 32 | other;
        }
        couples
    }

    pub(super) fn all(&self) -> &[u64] {
        &self.couples[..usize::from(self.count)]
    }
}

/// In half of a couple: the pick, behind its class there.
const PICK_BITS: u32 = 24;

/// The two picks of a couple, each with its class there.
#[allow(clippy::cast_possible_truncation, reason = "each is a part of the number")]
pub(super) fn picks_of(couple: u64) -> [(Class, usize); 2] {
    let part = |half: u32| ((half >> PICK_BITS) as Class, (half & ((1 << PICK_BITS) - 1)) as usize);
    [part((couple >> 32) as u32), part(couple as u32)]
}

/// A way while others are looked for.
#[derive(Clone, Copy)]
struct Started {
    way: Way,
    points: f64,
    /// Lifts that lead the day, as they stand alone.
    leads: u8,
}

impl Started {
    fn beats(&self, other: &Started) -> bool {
        let [now, before] = [&self.way, &other.way];
        let order = now.pairs.cmp(&before.pairs).then(now.saved.cmp(&before.saved));
        order.then(self.points.total_cmp(&other.points)).is_gt()
    }

    fn brings_more(&self, other: &Started) -> bool {
        let [now, before] = [&self.way, &other.way];
        let order = self.points.total_cmp(&other.points).then(now.pairs.cmp(&before.pairs));
        order.then(now.saved.cmp(&before.saved)).is_gt()
    }

    /// More than it can become by pairs that bring no more than is hoped for.
    fn at_most(mut self, open: &Hope) -> Started {
        self.way.pairs += open.pairs / 2;
        self.way.saved += open.saves / 2;
        self.points += open.points / 2.0;
        self
    }

    /// The same with one more pair.
    #[allow(clippy::cast_possible_truncation, reason = "a day has few exercises")]
    fn with(mut self, one: usize, other: usize, count: &Count) -> Started {
        self.way.places[usize::from(self.way.pairs)] = (one as u8) << 4 | other as u8;
        self.way.pairs += 1;
        self.way.saved += count.saves;
        self.points += count.points;
        self
    }
}
