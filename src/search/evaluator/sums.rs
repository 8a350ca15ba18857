//! Whole numbers that follow from what a week decides: sums of picks, their sets, pairs, and of variables that are
//! settled before. Equal sums are one.

use std::collections::BTreeMap;

use super::reading::Reading;
use crate::model::Weekly;

/// Greatest size of a number: a change moves it by at most twice as much, which a machine word holds.
const REACH: f64 = (1 << 28) as f64;

/// Values of a variable up to which it is looked at whether all of them are whole.
const LOOKED_AT: i32 = 4096;

/// Where a number gets a part from that is settled before it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Input {
    /// Another number.
    Number(usize),
    /// A variable: the number that it is read off, the reading, and its place there.
    Value(usize, usize, usize),
}

/// A linear combination of what a week decides.
#[derive(Debug, Clone, Default, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Sum<T> {
    /// By pick: of its being done, and of each set above its fewest.
    pub(super) picks: BTreeMap<usize, [T; 2]>,
    /// By day: of each pair, and of each second that pairs save.
    pub(super) pairs: BTreeMap<usize, [T; 2]>,
    /// By variable: of who is paired and which classes are, where a row asks for some of them.
    pub(super) marks: BTreeMap<usize, T>,
    pub(super) inputs: BTreeMap<Input, T>,
}

/// A variable that several rows push: the least or the greatest of the values that they give it.
pub(super) struct Extreme {
    pub(super) is_least: bool,
    /// Numbers, and their readings that have the variable alone.
    pub(super) of: Vec<(usize, usize)>,
    pub(super) scale: f64,
}

/// A number and what is read off it.
pub(super) struct Node {
    pub(super) sum: Sum<i32>,
    /// Where it is no sum.
    pub(super) extreme: Option<Extreme>,
    /// Least and greatest value, with some steps to spare.
    pub(super) range: [i32; 2],
    /// The steps to spare at either end, for what was rounded.
    pub(super) spare: i32,
    /// Its value in an empty week.
    pub(super) start: i32,
    /// Nought where it gets parts from no other number, else one more than their greatest level.
    pub(super) level: usize,
    pub(super) readings: Vec<Reading>,
}

/// How far the weeks of a model reach.
struct Reach {
    /// Exercises of a day.
    items: usize,
    /// Seconds that a pair saves.
    saves: f64,
    /// Day and sets above the fewest, by pick.
    picks: Vec<(usize, f64)>,
    /// Greatest value, by variable.
    highs: Vec<f64>,
}

/// The numbers of a model.
pub(super) struct Sums {
    pub(super) nodes: Vec<Node>,
    known: BTreeMap<Sum<i32>, usize>,
    reach: Reach,
}

impl<T: Default + PartialEq> Sum<T> {
    pub(super) fn is_empty(&self) -> bool {
        *self == Sum::default()
    }
}

impl Sum<f64> {
    /// The number that it is a multiple of, and the factor, where it is one of a single number.
    fn single(&self) -> Option<(usize, f64)> {
        let alone = self.picks.is_empty() && self.pairs.is_empty() && self.marks.is_empty();
        match (alone, self.inputs.len(), self.inputs.first_key_value()) {
            (true, 1, Some((Input::Number(node), by))) => Some((*node, *by)),
            _ => None,
        }
    }

    fn factors(&self) -> impl Iterator<Item = f64> {
        let twos = self.picks.values().chain(self.pairs.values()).flatten();
        twos.chain(self.marks.values()).chain(self.inputs.values()).copied()
    }

    fn times(&self, by: f64) -> Sum<i32> {
        let whole = |factor: &f64| rounded(factor * by);
        let twos = |map: &BTreeMap<usize, [f64; 2]>| {
            map.iter().map(|(key, two)| (*key, [whole(&two[0]), whole(&two[1])])).collect()
        };
        Sum {
            picks: twos(&self.picks),
            pairs: twos(&self.pairs),
            marks: self.marks.iter().map(|(key, factor)| (*key, whole(factor))).collect(),
            inputs: self.inputs.iter().map(|(key, factor)| (*key, whole(factor))).collect(),
        }
    }
}

/// The nearest whole number; what is rounded is bounded before.
#[allow(clippy::cast_possible_truncation, reason = "a cast saturates")]
pub(super) fn rounded(value: f64) -> i32 {
    value.round() as i32
}

fn is_whole(value: f64) -> bool {
    (value - value.round()).abs() < 1e-6
}

fn gcd(one: i32, other: i32) -> i32 {
    if other == 0 { one.abs() } else { gcd(other, one % other) }
}

impl Sums {
    pub(super) fn new(weekly: &Weekly, most_items: usize) -> Sums {
        let seconds = weekly.pairs.iter().map(|pair| f64::from(pair.saves_s));
        let further = |pick: &crate::model::Pick| f64::from(pick.sets[1] - pick.sets[0]);
        let reach = Reach {
            items: most_items,
            saves: seconds.fold(0.0, f64::max),
            picks: weekly.picks.iter().map(|pick| (pick.day, further(pick))).collect(),
            highs: weekly.model.vars.iter().map(|def| def.high).collect(),
        };
        Sums { nodes: Vec::new(), known: BTreeMap::new(), reach }
    }

    /// One more reading of a number, and its place.
    pub(super) fn add(&mut self, node: usize, reading: Reading) -> usize {
        let readings = &mut self.nodes[node].readings;
        readings.push(reading);
        readings.len() - 1
    }

    /// The number that a sum is a multiple of, and the factor.
    pub(super) fn number(&mut self, sum: &Sum<f64>) -> (usize, f64) {
        if let Some(single) = sum.single() {
            return single;
        }
        let range = self.range(sum);
        let scale = self.scale(sum, range[0].abs().max(range[1].abs()));
        let mut common = 0;
        for factor in sum.factors().chain(self.contributions(sum)) {
            common = gcd(common, rounded(factor * scale));
        }
        let sign = sum.factors().next().map_or(1.0, f64::signum);
        let by = sign * scale / f64::from(common.max(1));
        let whole = sum.times(by);
        let next = self.nodes.len();
        let node = *self.known.entry(whole.clone()).or_insert(next);
        if node == next {
            let ends = [range[0] * by, range[1] * by].map(rounded);
            let parts = sum.factors().chain(self.contributions(sum));
            let spare = i32::from(!parts.into_iter().all(|part| is_whole(part * by)));
            let (start, level) = self.start(&whole);
            self.nodes.push(Node {
                range: [ends[0].min(ends[1]) - spare, ends[0].max(ends[1]) + spare],
                spare,
                start,
                level,
                sum: whole,
                extreme: None,
                readings: Vec::new(),
            });
        }
        (node, 1.0 / by)
    }

    /// The number that is the least or greatest of the values that some numbers give a variable.
    pub(super) fn extreme(&mut self, is_least: bool, high: f64, of: Vec<(usize, usize)>) -> usize {
        let values = of.iter().flat_map(|(node, reading)| self.values(*node, *reading, 0));
        let scale = common_scale(values.collect::<Vec<f64>>().as_slice(), high);
        let starts = of.iter().map(|(node, reading)| {
            let node = &self.nodes[*node];
            rounded(node.readings[*reading].value(0, node.start) * scale)
        });
        let start = if is_least { starts.max() } else { starts.min() };
        let level = of.iter().map(|(node, _)| self.nodes[*node].level + 1).max();
        self.nodes.push(Node {
            range: [0, rounded(high * scale) + 1],
            spare: 0,
            start: start.unwrap_or(0),
            level: level.unwrap_or(0),
            sum: Sum::default(),
            extreme: Some(Extreme { is_least, of, scale }),
            readings: Vec::new(),
        });
        self.nodes.len() - 1
    }

    /// Values of a variable, at as many values of its number as are looked at.
    fn values(&self, node: usize, reading: usize, own: usize) -> impl Iterator<Item = f64> {
        let node = &self.nodes[node];
        let [low, high] = node.range;
        let end = high.min(low.saturating_add(LOOKED_AT));
        (low..=end).map(move |number| node.readings[reading].value(own, number))
    }

    /// What variables bring to a sum at their values.
    fn contributions(&self, sum: &Sum<f64>) -> impl Iterator<Item = f64> {
        sum.inputs.iter().flat_map(|(input, by)| {
            let values: Vec<f64> = match *input {
                Input::Number(_) => Vec::new(),
                Input::Value(node, reading, own) => {
                    self.values(node, reading, own).map(|value| by * value).collect()
                }
            };
            values
        })
    }

    fn scale(&self, sum: &Sum<f64>, reach: f64) -> f64 {
        let mut values: Vec<f64> = sum.factors().chain(self.contributions(sum)).collect();
        values.sort_by(f64::total_cmp);
        values.dedup();
        common_scale(&values, reach)
    }

    /// The value of a sum in an empty week, and its level.
    fn start(&self, sum: &Sum<i32>) -> (i32, usize) {
        let (mut start, mut level) = (0, 0);
        for (input, by) in &sum.inputs {
            let (node, part) = match *input {
                Input::Number(node) => (node, by * self.nodes[node].start),
                Input::Value(node, reading, own) => {
                    let value =
                        self.nodes[node].readings[reading].value(own, self.nodes[node].start);
                    (node, rounded(f64::from(*by) * value))
                }
            };
            start += part;
            level = level.max(self.nodes[node].level + 1);
        }
        (start, level)
    }

    /// Least and greatest value of a sum over all weeks.
    fn range(&self, sum: &Sum<f64>) -> [f64; 2] {
        let reach = &self.reach;
        let mut parts: Vec<[f64; 2]> = Vec::new();
        let mut days: BTreeMap<usize, Vec<[f64; 2]>> = BTreeMap::new();
        for (pick, [once, further]) in &sum.picks {
            let (day, most) = reach.picks[*pick];
            days.entry(day).or_default().push(ends([0.0, *once, once + further * most]));
        }
        for mut of_day in days.into_values() {
            of_day.sort_by(|one, other| one[0].total_cmp(&other[0]));
            let low: f64 = of_day.iter().take(reach.items).map(|end| end[0]).sum();
            of_day.sort_by(|one, other| other[1].total_cmp(&one[1]));
            parts.push([low, of_day.iter().take(reach.items).map(|end| end[1]).sum()]);
        }
        #[allow(clippy::cast_precision_loss, reason = "a few")]
        let pairs = (reach.items / 2) as f64;
        for [pair, second] in sum.pairs.values() {
            parts.push(ends([0.0, pair * pairs, 0.0]));
            parts.push(ends([0.0, second * pairs * reach.saves, 0.0]));
        }
        parts.extend(sum.marks.iter().map(|(var, by)| ends([0.0, by * reach.highs[*var], 0.0])));
        for (input, by) in &sum.inputs {
            parts.push(match *input {
                Input::Number(node) => {
                    let [low, high] = self.nodes[node].range.map(f64::from);
                    ends([by * low, by * high, by * low])
                }
                Input::Value(node, reading, _) => {
                    ends([0.0, by * self.nodes[node].readings[reading].high(), 0.0])
                }
            });
        }
        [parts.iter().map(|end| end[0]).sum(), parts.iter().map(|end| end[1]).sum()]
    }
}

fn ends(values: [f64; 3]) -> [f64; 2] {
    let [one, two, three] = values;
    [one.min(two).min(three), one.max(two).max(three)]
}

/// A factor that makes all of some values whole, or nearly where none does, and that keeps numbers within their reach.
fn common_scale(values: &[f64], reach: f64) -> f64 {
    let most = (REACH / reach.max(1.0)).max(f64::MIN_POSITIVE);
    let tens = [1e3, 1e4, 1e5, 1e6];
    let known = (1..=120).map(f64::from).chain(tens).take_while(|scale| *scale <= most);
    let makes_whole = |scale: &f64| values.iter().all(|value| is_whole(value * scale));
    known.into_iter().find(makes_whole).unwrap_or(most.min(1e6))
}
