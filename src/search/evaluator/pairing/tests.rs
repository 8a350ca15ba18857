//! The best ways to pair what a day has.

use super::super::memo::Memos;
use super::*;

fn best(pairing: &DayPairing, able: &Able, is_led: bool, seconds: i32) -> Way {
    let load = DayLoad { seconds, ..DayLoad::default() };
    pairing.chosen(&Two::of(pairing.best_two(able, is_led)), &load)
}

/// The pairs of a way, and what counts each.
fn pairs(pairing: &DayPairing, way: &Way, able: &Able) -> Vec<Pair> {
    let class = |pick: usize| able.iter().find(|(_, one)| *one as usize == pick).unwrap().0;
    let couples = Couples::of(way, able);
    let pair = |couple: &u64| {
        let [one, other] = picks_of(*couple).map(|(_, pick)| pick);
        (one, other, pairing.count_of(class(one), class(other)))
    };
    couples.all().iter().map(pair).collect()
}

/// A day on which nothing leads and no two go together.
fn day() -> DayPairing {
    DayPairing {
        leads: vec![false; 3],
        led: 0.0,
        room: 0,
        sets: (99.0, 0.0),
        like: 0,
        counts: vec![vec![None; 3]; 3],
    }
}

/// Two of one class, and one each of two others, of which not all go together.
#[test]
fn what_is_known_of_classes_is_what_their_picks_can_do() {
    let count = |var, saves, points| Some(Count { var, saves, points });
    let pairing = DayPairing {
        counts: vec![
            vec![None, count(70, 30, 1.0), count(71, 50, 1.0)],
            vec![count(70, 30, 1.0), None, None],
            vec![count(71, 50, 1.0), None, None],
        ],
        ..day()
    };
    let mut memos = Memos::default();
    memos.for_days(1);
    let mut found = |able: &[(Class, u32)]| {
        let able = Able::from(able);
        let load = DayLoad { seconds: 1000, ..DayLoad::default() };
        let way = memos.way(&pairing, &able, false, &load);
        (way.saved, pairs(&pairing, &way, &able))
    };
    assert_eq!(found(&[(0, 4), (0, 7)]), (0, vec![]));
    assert_eq!(found(&[(0, 4), (1, 5), (2, 6)]), (50, vec![(4, 6, 71)]), "the seconds count");
    let all = found(&[(0, 4), (0, 7), (1, 5), (2, 6)]);
    assert_eq!(all, (80, vec![(4, 5, 70), (7, 6, 71)]), "as many as there are");
    assert_eq!(found(&[(0, 1), (0, 2), (1, 8), (2, 9)]).1, [(1, 8, 70), (2, 9, 71)]);
}

/// Where pairs are as many and save as much, points tell.
#[test]
fn of_equal_ways_the_one_with_more_points_is_taken() {
    let count = |var, points| Some(Count { var, saves: 20, points });
    let pairing = DayPairing {
        counts: vec![vec![None, count(70, 3.0), count(71, 8.0)], vec![None; 3], vec![None; 3]],
        ..day()
    };
    let able = Able::from(&[(0, 4), (1, 5), (2, 6)][..]);
    let way = best(&pairing, &able, false, 1000);
    assert_eq!(pairs(&pairing, &way, &able), [(4, 6, 71)]);
}

/// A lead that is worth more alone than its pair stays alone, where the day's minutes hold that.
#[test]
fn a_lead_stands_alone_where_the_minutes_hold_it() {
    let count = |var, points| Some(Count { var, saves: 20, points });
    let pairing = DayPairing {
        leads: vec![true, false],
        led: 60.0,
        room: 1000,
        counts: vec![vec![None, count(70, 8.0)], vec![count(70, 8.0), None]],
        ..day()
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
            best_of_all(pairing, able, one + 1, now.with(one, other, &count), best);
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
        leads: vec![false; 4],
        led: 0.0,
        room: 0,
        sets: (99.0, 0.0),
        like: 0,
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
            assert_eq!(pairs(&pairing, found, &able), pairs(&pairing, &all.way, &able));
        }
    }
}
