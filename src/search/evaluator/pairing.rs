//! The pairs of a day: those that bring most points where its minutes hold them, else as many as can be formed, those that
//! save most seconds. A lift that leads, or is there for its load, is worth more alone.

use smallvec::SmallVec;

use super::score::ROUNDING;

/// Exercises of a day up to which pairs are looked for; no session may have more.
const MOST_PAIRED: usize = 10;

/// A class of exercises that are alike for pairing, by its place among those of the week.
pub(super) type Class = u8;

/// Picks of a day that can be paired, in order, each behind its class.
pub(super) type Able = SmallVec<[(Class, u32); MOST_PAIRED]>;

/// Two picks in turn, and the model's count of such pairs.
pub(super) type Pair = (usize, usize, usize);

/// The pairs of a day.
pub(super) type Pairs = SmallVec<[Pair; 5]>;

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
    /// Sets of an exercise that can be paired: both have as many.
    pub(super) rounds: u32,
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
    pub(super) fn chosen<'w>(&self, [tight, loose]: &'w [Way; 2], load: &DayLoad) -> &'w Way {
        if tight.is_only || !self.holds(load, loose) { tight } else { loose }
    }

    /// Whether a day holds its exercises, paired in a way.
    fn holds(&self, load: &DayLoad, way: &Way) -> bool {
        let (most, less) = self.sets;
        let sets = f64::from(load.sets) - 2.0 * less * f64::from(way.pairs);
        load.seconds - way.saved <= self.room && sets <= most + ROUNDING
    }

    /// The pairs of a way, which is one of these exercises.
    pub(super) fn pairs(&self, way: &Way, able: &Able) -> Pairs {
        let pair = |two: &u8| {
            let [(class, first), (with, second)] =
                [two >> 4, two & 15].map(|at| able[usize::from(at)]);
            let count = self.counts[usize::from(class)][usize::from(with)];
            (first as usize, second as usize, count.expect("a way pairs what goes together").var)
        };
        way.places[..usize::from(way.pairs)].iter().map(pair).collect()
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
        let hopes = able.iter().map(|(class, _)| self.hope(able, *class)).collect();
        self.every_way(able, &hopes, (0, 0), best[0], &mut best);
        let is_only = !best[1].brings_more(&best[0]);
        let key = DayPairing::key(able, is_led);
        let [tight, loose] = best.map(|best| best.way);
        [Way { key, is_only, ..tight }, Way { key: key | LOOSE, is_only, ..loose }]
    }

    /// The most seconds and points that any pair of a class brings, of which it is half.
    fn hope(&self, able: &Able, class: Class) -> (i32, f64) {
        let pairs = able.iter().filter_map(|(with, _)| {
            self.counts[usize::from(class)][usize::from(*with)]
                .map(|count| (count.saves, count.points))
        });
        pairs.fold((0, 0.0), |most, (saves, points)| (saves.max(most.0), points.max(most.1)))
    }

    /// Looks at the ways that go on from one, and keeps the best two. Exercises of a class stand side by side and change
    /// nothing by changing places, so of those that are open only the first is looked at; and none is where even the most
    /// that those from a place on can bring is no better. Points are whole, so that their sums are exact.
    fn every_way(
        &self,
        able: &Able,
        hopes: &Hopes,
        (from, taken): (usize, u32),
        now: Started,
        best: &mut [Started; 2],
    ) {
        if now.beats(&best[0]) {
            best[0] = now;
        }
        if now.brings_more(&best[1]) {
            best[1] = now;
        }
        for one in firsts(able, from, taken) {
            let most = now.at_most(hopes, one, taken);
            if !most.beats(&best[0]) && !most.brings_more(&best[1]) {
                break;
            }
            let class = usize::from(able[one].0);
            for other in firsts(able, one + 1, taken) {
                let with = usize::from(able[other].0);
                if let Some(count) = self.counts[class][with] {
                    let taken = taken | 1 << one | 1 << other;
                    let mut next = now.with(one, other, count);
                    next.leads -= u8::from(self.leads[class]) + u8::from(self.leads[with]);
                    if next.leads == 0 && now.leads > 0 {
                        next.points -= self.led;
                    }
                    self.every_way(able, hopes, (one + 1, taken), next, best);
                }
            }
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

/// What each exercise of a day can bring at most.
type Hopes = SmallVec<[(i32, f64); MOST_PAIRED]>;

/// From some place on, the first place of each class that is not taken.
fn firsts(able: &Able, from: usize, taken: u32) -> impl Iterator<Item = usize> {
    let mut last = None;
    let is_first = move |place: &usize| {
        let class = able[*place].0;
        taken & 1 << *place == 0 && last.replace(class) != Some(class)
    };
    (from..able.len()).filter(is_first)
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
    pub(super) const EMPTY: Way = Way { key: 1, ..Way::NONE };

    /// The same of another key, for tests of where ways are kept.
    #[cfg(test)]
    pub(super) fn of_key(key: u128) -> Way {
        Way { key, ..Way::NONE }
    }
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

    /// More than it can become by pairs of those from a place on that are not taken.
    fn at_most(mut self, hopes: &Hopes, from: usize, taken: u32) -> Started {
        let open = (from..hopes.len()).filter(|place| taken & 1 << *place == 0);
        let (mut count, mut saves, mut points) = (0, 0, 0.0);
        for place in open {
            count += 1;
            saves += hopes[place].0;
            points += hopes[place].1;
        }
        self.way.pairs += count / 2;
        self.way.saved += saves / 2;
        self.points += points / 2.0;
        self
    }

    /// The same with one more pair.
    #[allow(clippy::cast_possible_truncation, reason = "a day has few exercises")]
    fn with(mut self, one: usize, other: usize, count: Count) -> Started {
        self.way.places[usize::from(self.way.pairs)] = (one as u8) << 4 | other as u8;
        self.way.pairs += 1;
        self.way.saved += count.saves;
        self.points += count.points;
        self
    }
}

#[cfg(test)]
mod tests {
    use super::super::memo::Memos;
    use super::*;

    fn best(pairing: &DayPairing, able: &Able, is_led: bool, seconds: i32) -> Way {
        let load = DayLoad { seconds, ..DayLoad::default() };
        *pairing.chosen(&pairing.best_two(able, is_led), &load)
    }

    /// Two of one class, and one each of two others, of which not all go together.
    #[test]
    fn what_is_known_of_classes_is_what_their_picks_can_do() {
        let count = |var, saves, points| Some(Count { var, saves, points });
        let pairing = DayPairing {
            rounds: 3,
            leads: vec![false; 3],
            led: 0.0,
            room: 0,
            sets: (99.0, 0.0),
            counts: vec![
                vec![None, count(70, 30, 1.0), count(71, 50, 1.0)],
                vec![count(70, 30, 1.0), None, None],
                vec![count(71, 50, 1.0), None, None],
            ],
        };
        let mut memos = Memos::default();
        memos.for_days(1);
        let mut pairs = |able: &[(Class, u32)]| {
            let able = Able::from(able);
            let load = DayLoad { seconds: 1000, ..DayLoad::default() };
            let way = memos.way(0, &pairing, &able, false, &load);
            (way.saved, pairing.pairs(&way, &able).to_vec())
        };
        assert_eq!(pairs(&[(0, 4), (0, 7)]), (0, vec![]));
        assert_eq!(pairs(&[(0, 4), (1, 5), (2, 6)]), (50, vec![(4, 6, 71)]), "the seconds count");
        let all = pairs(&[(0, 4), (0, 7), (1, 5), (2, 6)]);
        assert_eq!(all, (80, vec![(4, 5, 70), (7, 6, 71)]), "as many as there are");
        assert_eq!(pairs(&[(0, 1), (0, 2), (1, 8), (2, 9)]).1, [(1, 8, 70), (2, 9, 71)]);
    }

    /// Where pairs are as many and save as much, points tell.
    #[test]
    fn of_equal_ways_the_one_with_more_points_is_taken() {
        let count = |var, points| Some(Count { var, saves: 20, points });
        let pairing = DayPairing {
            rounds: 3,
            leads: vec![false; 3],
            led: 0.0,
            room: 0,
            sets: (99.0, 0.0),
            counts: vec![vec![None, count(70, 3.0), count(71, 8.0)], vec![None; 3], vec![None; 3]],
        };
        let able = Able::from(&[(0, 4), (1, 5), (2, 6)][..]);
        let way = best(&pairing, &able, false, 1000);
        assert_eq!(pairing.pairs(&way, &able).as_slice(), [(4, 6, 71)]);
    }

    /// A lead that is worth more alone than its pair stays alone, where the day's minutes hold that.
    #[test]
    fn a_lead_stands_alone_where_the_minutes_hold_it() {
        let count = |var, points| Some(Count { var, saves: 20, points });
        let pairing = DayPairing {
            rounds: 3,
            leads: vec![true, false],
            led: 60.0,
            room: 1000,
            sets: (99.0, 0.0),
            counts: vec![vec![None, count(70, 8.0)], vec![count(70, 8.0), None]],
        };
        let able = Able::from(&[(0, 4), (1, 5)][..]);
        let pairs = |seconds, is_led| best(&pairing, &able, is_led, seconds).pairs;
        assert_eq!(pairs(1000, false), 0);
        assert_eq!(pairs(1001, false), 1, "the minutes ask for the pair");
        assert_eq!(pairs(1000, true), 1, "something else leads");
    }

    /// Every way to pair, whatever the classes, as it would be without what classes tell; the first of the best two.
    fn best_of_all(
        pairing: &DayPairing,
        able: &Able,
        at: usize,
        now: Started,
        best: &mut [Started; 2],
    ) {
        if now.beats(&best[0]) {
            best[0] = now;
        }
        if now.brings_more(&best[1]) {
            best[1] = now;
        }
        let pairs = &now.way.places[..usize::from(now.way.pairs)];
        let is_open = |place: &usize| {
            pairs.iter().all(|two| [two >> 4, two & 15].iter().all(|at| usize::from(*at) != *place))
        };
        for one in (at..able.len()).filter(is_open) {
            for other in (one + 1..able.len()).filter(is_open) {
                let [class, with] = [one, other].map(|place| usize::from(able[place].0));
                let Some(count) = pairing.counts[class][with] else { continue };
                best_of_all(pairing, able, one + 1, now.with(one, other, count), best);
            }
        }
    }

    #[test]
    fn the_first_of_a_class_stands_for_all_of_it() {
        let count = |one: usize, other: usize| {
            let [one, other] = [one.min(other), one.max(other)];
            let drawn = i32::try_from((one * 7 + other * 5) % 11).unwrap();
            let count = Count { var: 70, saves: drawn * 5 % 7, points: f64::from(drawn * 3 - 10) };
            (drawn != 4).then_some(count)
        };
        let counts = (0..4).map(|one| (0..4).map(|other| count(one, other)).collect());
        let pairing = DayPairing {
            rounds: 3,
            leads: vec![false; 4],
            led: 0.0,
            room: 0,
            sets: (99.0, 0.0),
            counts: counts.collect(),
        };
        for drawn in 0..4_u32.pow(5) {
            let mut classes: Vec<Class> =
                (0..7).map(|at| ((drawn >> (at * 3 / 2)) & 3) as u8).collect();
            classes.sort_unstable();
            let able: Able = classes.into_iter().zip(0..).collect();
            let nobody = pairing.nobody(&able, false);
            let mut all = [nobody; 2];
            best_of_all(&pairing, &able, 0, nobody, &mut all);
            let found = pairing.best_two(&able, false);
            for (found, all) in found.iter().zip(&all) {
                assert_eq!(pairing.pairs(found, &able), pairing.pairs(&all.way, &able));
            }
        }
    }
}
