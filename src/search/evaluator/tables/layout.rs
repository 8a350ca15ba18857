//! How tables are laid out: numbers of the same worth share a table, and so do parts that others have of them.

use std::collections::BTreeMap;
use std::ops::Range;

use super::super::lists::small;
use super::super::reading::Reading;
use super::super::score::Score;
use super::super::sums::{Input, Node as Number, rounded};
use super::{Choices, Forward, Kept, Part, Worth, at};

/// The widest table; a number that reaches further is read by its rows.
const WIDEST: i64 = 1 << 15;

pub(in crate::search::evaluator) fn signed(place: usize) -> i32 {
    i32::try_from(place).expect("the tables of a weekly model are small")
}

/// A variable by a reading, times a factor.
pub(super) struct Valued {
    reading: Reading,
    own: usize,
    by: f64,
}

impl Valued {
    pub(super) fn part(&self, number: i32) -> i32 {
        rounded(self.by * self.reading.value(self.own, number))
    }
}

/// Tables under construction: those that are alike share their place.
pub(super) struct Layout<'n> {
    numbers: &'n [Number],
    /// By function: the least and greatest number of those that have it.
    reaches: BTreeMap<Vec<u64>, [i32; 2]>,
    places: BTreeMap<Vec<u64>, i32>,
    pub(super) scores: Vec<Score>,
    /// Where each table of them begins.
    pub(super) starts: Vec<usize>,
    pub(super) readings: Vec<Vec<Reading>>,
    pub(super) parts: Vec<i32>,
    part_places: BTreeMap<(usize, usize, usize, i32), i32>,
    pub(super) valued: Vec<Valued>,
}

fn key(number: &Number) -> Vec<u64> {
    number.readings.iter().filter(|one| one.matters()).flat_map(Reading::key).collect()
}

impl<'n> Layout<'n> {
    pub(super) fn new(numbers: &'n [Number]) -> Layout<'n> {
        let mut reaches: BTreeMap<Vec<u64>, [i32; 2]> = BTreeMap::new();
        for number in numbers {
            let reach = reaches.entry(key(number)).or_insert(number.range);
            *reach = [reach[0].min(number.range[0]), reach[1].max(number.range[1])];
        }
        Layout {
            numbers,
            reaches,
            places: BTreeMap::new(),
            scores: Vec::new(),
            starts: Vec::new(),
            readings: Vec::new(),
            parts: Vec::new(),
            part_places: BTreeMap::new(),
            valued: Vec::new(),
        }
    }

    /// Where the worth of a number is found.
    pub(super) fn worth(&mut self, number: &Number) -> Worth {
        let key = key(number);
        if key.is_empty() {
            return Worth::Nothing;
        }
        let [low, high] = self.reaches[&key];
        let read = || number.readings.iter().filter(|one| one.matters());
        if i64::from(high) - i64::from(low) >= WIDEST {
            self.readings.push(read().cloned().collect());
            return Worth::Readings(small(self.readings.len() - 1));
        }
        if let Some(place) = self.places.get(&key) {
            return Worth::Table(*place);
        }
        let place = signed(self.scores.len()) - low;
        self.starts.push(self.scores.len());
        self.scores.extend((low..=high).map(|number| score(read(), number)));
        self.places.insert(key, place);
        Worth::Table(place)
    }

    /// Whether a number is worth the same all over its reach.
    pub(super) fn is_flat(&self, worth: Worth, range: [i32; 2]) -> bool {
        match worth {
            Worth::Nothing => true,
            Worth::Table(place) => {
                let [low, high] = range.map(|end| at(place, end));
                self.scores[low..=high].iter().all(|score| *score == self.scores[low])
            }
            Worth::Readings(_) => false,
        }
    }

    /// The part that another number has of one by a reading, times a factor.
    fn part(&mut self, node: usize, reading: usize, own: usize, by: f64) -> Part {
        let number = &self.numbers[node];
        let [low, high] = number.range;
        let valued = Valued { reading: number.readings[reading].clone(), own, by };
        if i64::from(high) - i64::from(low) >= WIDEST {
            self.valued.push(valued);
            return Part::Reading(small(self.valued.len() - 1));
        }
        let next = signed(self.parts.len()) - low;
        let place = *self.part_places.entry((node, reading, own, rounded(by))).or_insert(next);
        if place == next {
            self.parts.extend((low..=high).map(|number| valued.part(number)));
        }
        Part::Table(place)
    }
}

/// Whether a part of a number rises with it anywhere in its range, and whether it falls.
pub(super) fn monotone(layout: &Layout, part: Part, range: [i32; 2]) -> [bool; 2] {
    match part {
        Part::Times(by) => [by > 0, by < 0],
        Part::Table(place) => {
            let [low, high] = range.map(|end| at(place, end));
            let steps = || layout.parts[low..=high].windows(2);
            [steps().any(|two| two[0] < two[1]), steps().any(|two| two[0] > two[1])]
        }
        Part::Reading(_) | Part::Choice => [true, true],
    }
}

/// What some readings are worth at a number.
pub(super) fn score<'r>(readings: impl Iterator<Item = &'r Reading>, number: i32) -> Score {
    let mut sum = Score::default();
    for reading in readings {
        sum.add(&reading.score(number), 1.0);
    }
    sum
}

/// What numbers hand on, and how extremes are chosen.
pub(super) fn forwards(
    numbers: &[Number],
    layout: &mut Layout,
) -> (Vec<Vec<Forward>>, Vec<Choices>) {
    let mut forwards = vec![Vec::new(); numbers.len()];
    let mut choices = Vec::new();
    for (place, number) in numbers.iter().enumerate() {
        let to = small(place);
        choices.push(Choices::default());
        for (input, by) in &number.sum.inputs {
            let (from, part) = match *input {
                Input::Number(from) => (from, Part::Times(*by)),
                Input::Value(from, reading, own) => {
                    (from, layout.part(from, reading, own, f64::from(*by)))
                }
            };
            forwards[from].push(Forward { to, part });
        }
        if let Some(extreme) = &number.extreme {
            let of = extreme.of.iter().map(|(from, reading)| {
                forwards[*from].push(Forward { to, part: Part::Choice });
                (small(*from), layout.part(*from, *reading, 0, extreme.scale))
            });
            let of = of.collect();
            choices[place] = Choices { is_least: extreme.is_least, of };
        }
    }
    (forwards, choices)
}

/// Which part of the table of scores each number reaches.
pub(super) fn spans(numbers: &[Number], kept: &[Kept]) -> (Vec<Range<usize>>, Vec<usize>) {
    let mut spans = vec![Range::default()];
    let mut known = BTreeMap::new();
    let span_of = numbers.iter().zip(kept).map(|(number, kept)| {
        let Worth::Table(place) = kept.worth else { return 0 };
        let [low, high] = number.range.map(|end| at(place, end));
        *known.entry((low, high)).or_insert_with(|| {
            spans.push(low..high + 1);
            spans.len() - 1
        })
    });
    let span_of = span_of.collect();
    (spans, span_of)
}
