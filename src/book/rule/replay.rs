//! A client of known strength who does what the lines ask, for six weeks: where the loads end.
//!
//! The client is drawn: a most for one, steps of the place, a range, a reserve, a first load within a fifth of the right one.
//! Repetitions to failure follow Brzycki's line; days differ, sessions are missed, and a tenth of the reserves is not written
//! down. Strength does not grow, so that there is one right load for each line.

use jiff::civil::date;
use rand::{Rng as _, SeedableRng as _};
use rand_chacha::ChaCha8Rng;

use super::*;
use crate::book::done::{Asked, Load};
use crate::words::{Measure, Units};

const CLIENTS: u64 = 400;
const WEEKS: u32 = 6;

struct Draw(ChaCha8Rng);

impl Draw {
    /// Between nought and one.
    fn share(&mut self) -> f64 {
        f64::from(self.0.next_u32()) / f64::from(u32::MAX)
    }

    fn between(&mut self, low: f64, high: f64) -> f64 {
        low + self.share() * (high - low)
    }

    fn one_of<T: Copy>(&mut self, list: &[T]) -> T {
        list[self.0.next_u32() as usize % list.len()]
    }

    /// About normal, by the sum of twelve.
    fn normal(&mut self, spread: f64) -> f64 {
        ((0..12).map(|_| self.share()).sum::<f64>() - 6.0) * spread
    }
}

/// A drawn client.
struct Client {
    max_kg: f64,
    ladder: Ladder,
    low: u32,
    high: u32,
    rir: u32,
    per_week: u32,
    judges_from: u32,
    cap_kg: Option<f64>,
}

/// The load for so many repetitions to failure (Brzycki 1993).
fn load_for(max_kg: f64, repetitions: u32) -> f64 {
    max_kg * (37.0 - f64::from(repetitions)) / 36.0
}

#[allow(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "a small number that is not negative"
)]
fn repetitions_at(max_kg: f64, load_kg: f64) -> u32 {
    (37.0 - 36.0 * load_kg / max_kg).round().max(0.0) as u32
}

impl Client {
    fn drawn(draw: &mut Draw) -> (Client, f64) {
        let max_kg = draw.between(40.0, 160.0);
        let step: u32 = draw.one_of(&[1000, 2000, 2500, 5000]);
        let (low, high) = draw.one_of(&[(5, 8), (6, 10), (8, 12), (10, 15)]);
        let rir = draw.one_of(&[1, 2, 3]);
        let right = load_for(max_kg, low + rir);
        let first = right * draw.between(0.8, 1.2);
        let cap_kg = (draw.share() < 0.2).then(|| right * draw.between(0.9, 1.3));
        let ladder =
            Ladder::implements((20_000..=200_000).step_by(step as usize).collect(), Units::Kg);
        let first = ladder.at_most(cap_kg.map_or(first, |cap| cap.min(first))).unwrap_or(20.0);
        let (per_week, judges_from) = (draw.one_of(&[2, 3]), draw.one_of(&[1, 3]));
        (Client { max_kg, ladder, low, high, rir, per_week, judges_from, cap_kg }, first)
    }

    fn room(&self) -> Room<'_> {
        Room {
            low: self.low,
            high: self.high,
            widened: self.high + 3,
            step: 1,
            ladder: Some(&self.ladder),
            cap_kg: self.cap_kg,
            asked: self.low,
            rir: Some(self.rir),
            judges_from: self.judges_from,
        }
    }

    /// A session at a load: two sets as asked, the last until the asked reserve is left, as far as the day allows.
    fn session(&self, week: u32, load_kg: f64, asked: u32, draw: &mut Draw) -> Performance {
        let most = repetitions_at(self.max_kg * (1.0 + draw.normal(0.005)), load_kg);
        let last = asked.max(most.saturating_sub(self.rir)).min(most);
        Performance {
            date: date(2027, 1, 4),
            week: Some(week),
            day: None,
            is_light: false,
            load: Load::Grams(grams(load_kg)),
            measure: Measure::Reps,
            amounts: vec![asked.min(most), asked.min(most), last],
            reserve: (draw.share() >= 0.1).then_some(most - last),
            asked: Some(Asked { sets: 3, amount: asked, load_g: None, rir: Some(self.rir) }),
        }
    }
}

/// Where a client's line ended.
struct End {
    /// How far the middle of the last four lines is from its right load, as a share of it.
    off: f64,
    /// One step there, as a share.
    step: f64,
    /// Whether the load lies in the range: right for some number of it, within a step or a twentieth.
    in_range: bool,
    /// Whether a cap or the lightest load stands in the way of the right one.
    is_barred: bool,
}

fn replay(seed: u64) -> End {
    let mut draw = Draw(ChaCha8Rng::seed_from_u64(seed));
    let (client, first) = Client::drawn(&mut draw);
    let (mut load, mut asked) = (first, client.low);
    let mut done: Vec<Performance> = Vec::new();
    let mut lines: Vec<(f64, f64)> = Vec::new();
    for week in (1..=WEEKS).flat_map(|week| (0..client.per_week).map(move |_| week)) {
        if draw.share() < 0.12 {
            continue;
        }
        done.push(client.session(week, load, asked, &mut draw));
        let next = decide(&done, &client.room()).expect("there is a session");
        let next_load = kilograms(next.load_g.expect("the lift has a load"));
        assert!(client.cap_kg.is_none_or(|cap| next_load <= cap), "seed {seed}: over the cap");
        assert!(client.ladder.makes(next_load), "seed {seed}: not makeable");
        let step = client.ladder.next_above(load).unwrap_or(load);
        assert!(next_load <= (load * MOST_RAISE + 1e-9).max(step), "seed {seed}: too far up");
        (load, asked) = (next_load, next.amount);
        lines.push((load, load_for(client.max_kg, asked + client.rir)));
    }
    let late = &lines[lines.len().saturating_sub(4)..];
    let mut off: Vec<f64> = late.iter().map(|(load, right)| (load - right) / right).collect();
    off.sort_by(f64::total_cmp);
    let (load, right) = lines.last().copied().expect("some session was done");
    let step = (client.ladder.next_above(load).unwrap_or(load) - load) / right;
    let slack = (0.05 * right).max(step * right);
    let [most, least] =
        [client.low, client.high].map(|reps| load_for(client.max_kg, reps + client.rir));
    let highest = client.cap_kg.unwrap_or(f64::INFINITY);
    End {
        off: f64::midpoint(off[(off.len() - 1) / 2], off[off.len() / 2]).abs(),
        step,
        in_range: (least - slack..=most + slack).contains(&load),
        is_barred: highest < most || least < client.ladder.lightest(),
    }
}

/// Every load ends right for the range, and nine lines in ten within a step or a twentieth of the load for just the
/// repetitions and the reserve that they ask for; the others are probing a repetition or two further.
#[test]
fn loads_find_a_client_of_known_strength_in_six_weeks() {
    let ends: Vec<End> = (0..CLIENTS).map(replay).filter(|end| !end.is_barred).collect();
    let count = |test: &dyn Fn(&End) -> bool| ends.iter().filter(|end| test(end)).count();
    let within = count(&|end| end.off <= end.step.max(0.05));
    let range = count(&|end| end.in_range);
    let all = ends.len();
    assert!(all > 250, "{all} clients are few");
    assert!(range * 100 >= all * 99, "{range} of {all} are right for the range");
    assert!(within * 10 >= all * 9, "{within} of {all} are within a step or a twentieth");
    assert!(ends.iter().all(|end| end.off < 0.25), "none is lost");
}
