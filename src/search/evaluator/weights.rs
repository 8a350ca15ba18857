//! What a score weighs while a search is steered, looked up as scores are.

use std::ops::Range;

use super::score::Score;
use super::tables::Tables;
use crate::model::tier::Tier;

/// What rows and costs weigh in points of the last tier, looked up as scores are.
pub(in crate::search) struct Weights {
    weights: Score,
    pub(super) scores: Vec<f64>,
    pub(super) picks: Vec<[f64; 2]>,
    pub(super) pairs: Vec<f64>,
    pub(super) marks: Vec<f64>,
    /// The most that a table has from each place on, and up to it.
    pub(super) beyond: Vec<[f64; 2]>,
    /// The most that each number is worth anywhere in its reach.
    pub(super) most: Vec<f64>,
    /// The most that a pair of each day is worth.
    pub(super) most_of_pair: Vec<f64>,
}

impl Weights {
    /// The weights of one broken row and of one point of cost in each tier.
    pub(in crate::search) fn new(tables: &Tables, weights: Score) -> Weights {
        let weighed = |score: &Score| weighed(&weights, score);
        let scores: Vec<f64> = tables.scores.iter().map(weighed).collect();
        let pairs: Vec<f64> = tables.pair_scores.iter().map(weighed).collect();
        let marks: Vec<f64> = tables.mark_scores.iter().map(weighed).collect();
        let most =
            |span: &Range<usize>| scores[span.clone()].iter().copied().fold(f64::MIN, f64::max);
        let most: Vec<f64> = tables.spans.iter().map(most).collect();
        Weights {
            most: tables.span_of.iter().map(|span| most[*span]).collect(),
            most_of_pair: (0..pairs.len())
                .map(|day| tables.most_of_pair(day, pairs[day], &marks))
                .collect(),
            picks: tables
                .pick_scores
                .iter()
                .map(|two| [weighed(&two[0]), weighed(&two[1])])
                .collect(),
            beyond: beyond(&scores, &tables.starts),
            scores,
            pairs,
            marks,
            weights,
        }
    }

    /// A score as points of the last tier.
    pub(in crate::search) fn of(&self, score: &Score) -> f64 {
        weighed(&self.weights, score)
    }
}

/// The most that each table has from each place on, and up to it.
fn beyond(scores: &[f64], starts: &[usize]) -> Vec<[f64; 2]> {
    let mut beyond: Vec<[f64; 2]> = scores.iter().map(|score| [*score, *score]).collect();
    let ends = starts.iter().skip(1).copied().chain([scores.len()]);
    for (start, end) in starts.iter().zip(ends) {
        let table = &mut beyond[*start..end];
        for place in 1..table.len() {
            table[place][1] = table[place][1].max(table[place - 1][1]);
        }
        for place in (1..table.len()).rev() {
            table[place - 1][0] = table[place - 1][0].max(table[place][0]);
        }
    }
    beyond
}

fn weighed(weights: &Score, score: &Score) -> f64 {
    let points = weights.tiers[Tier::View] * score.tiers[Tier::View];
    let costs = [Tier::Coverage, Tier::Ranges, Tier::Changes]
        .map(|tier| weights.tiers[tier] * score.tiers[tier]);
    points - weights.broken * score.broken - costs.iter().sum::<f64>()
}
