//! How a run is steered: what rows and costs weigh in points of tier 3, and what a change may cost.

use crate::search::evaluator::Score;

/// How phase of a run is steered. What is kept is decided tier by tier, not by this.
pub(in crate::search) struct Phase {
    /// Weights of a broken row and of the costs of tiers 1 and 2, in points of tier 3.
    pub(in crate::search) weights: [f64; 3],
    /// Points that its first and its last changes may cost.
    pub(in crate::search) temperature: [f64; 2],
}

/// The first phase looks around; the second starts again from the best week met, and its tiers are so far apart
/// that none is given up for the next. Found by trying on the demos and on small weeks.
const LOOKING: Phase = Phase { weights: [100.0, 10.0, 0.33], temperature: [60.0, 2.0] };
const COOLING: Phase = Phase { weights: [3000.0, 300.0, 10.0], temperature: [5.0, 0.3] };
/// From a good week, or a cross of two, on: as the second phase, less warm.
pub(in crate::search) const AGAIN: Phase = Phase { temperature: [4.0, 0.3], ..COOLING };

/// The two phases of a run.
pub(in crate::search) const PLAIN: [Phase; 2] = [LOOKING, COOLING];
/// Where a first run misses something of tiers 1 and 2, each further one is played in these three ways: the first phases
/// of two heed these tiers more. Of 95 drawn weeks that miss something, 14 end over 1 % behind by the first way alone
/// and four by all three.
pub(in crate::search) const FOR_LESS: [[Phase; 2]; 3] = [
    PLAIN,
    [Phase { weights: [3000.0, 1000.0, 100.0], temperature: [200.0, 20.0] }, COOLING],
    [Phase { weights: [100.0, 10.0, 3.0], ..LOOKING }, COOLING],
];

/// Toward any week that meets all rows.
pub(in crate::search) const MEETING: Phase =
    Phase { weights: [1000.0, 0.0, 0.0], temperature: [200.0, 20.0] };

/// What a changed pick of a rework weighs in points of tier 3, while a run is steered.
const CHANGE: f64 = 25.0;

/// More points of tier 3 than a change is expected to bring where it breaks a row.
const MOST_POINTS: f64 = 100.0;

impl Phase {
    /// The temperature of each of some changes.
    pub(in crate::search) fn temperatures(
        &self,
        changes: u32,
    ) -> impl Iterator<Item = f64> + use<> {
        let [warm, cold] = self.temperature;
        let cooling = libm::pow(cold / warm, 1.0 / f64::from(changes.max(1)));
        let temperatures = std::iter::successors(Some(warm * cooling), move |temperature| {
            Some(temperature * cooling)
        });
        temperatures.take(changes as usize)
    }

    /// More than a change can gain that breaks rows by so much and leads to some costs, where these are known.
    pub(in crate::search) fn most_gain(
        &self,
        breaks: f64,
        costs: Option<&Score>,
        now: &Score,
    ) -> f64 {
        let saved = self.costs(now) - costs.map_or(0.0, |score| self.costs(score));
        saved + MOST_POINTS - self.weights[0] * (breaks - now.broken)
    }

    /// Costs in points of tier 3.
    fn costs(&self, score: &Score) -> f64 {
        let [_, coverage, ranges] = self.weights;
        coverage * score.coverage + ranges * score.ranges + CHANGE * score.changes
    }

    /// The weighted sum that steers.
    pub(in crate::search) fn steer(&self, score: &Score) -> f64 {
        score.view - self.weights[0] * score.broken - self.costs(score)
    }
}
