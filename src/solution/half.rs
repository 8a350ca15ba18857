//! How a game is steered: what rows and costs weigh in points of tier 3, and what a change may cost.

use super::board::Worth;

/// How half of a game is steered. What is kept is decided tier by tier, not by this.
pub(super) struct Half {
    /// Weights of a broken row and of the costs of tiers 1 and 2, in points of tier 3.
    pub(super) weights: [f64; 3],
    /// Points that its first and its last changes may cost.
    pub(super) heat: [f64; 2],
}

/// The first half looks around; the second starts again from the best week met, and its tiers are so far apart
/// that none is given up for the next. Found by trying on the demos and on small weeks.
const LOOKING: Half = Half { weights: [100.0, 10.0, 0.33], heat: [60.0, 2.0] };
const COOLING: Half = Half { weights: [3000.0, 300.0, 10.0], heat: [5.0, 0.3] };
/// From a good week, or a cross of two, on: as the second half, less warm.
pub(super) const AGAIN: Half = Half { heat: [4.0, 0.3], ..COOLING };

/// The two halves of a game.
pub(super) const PLAIN: [Half; 2] = [LOOKING, COOLING];
/// Where a first game misses something of tiers 1 and 2, each further one is played in these three ways: the first halves
/// of two heed these tiers more. Of 95 drawn weeks that miss something, 14 end over 1 % behind by the first way alone
/// and four by all three.
pub(super) const FOR_LESS: [[Half; 2]; 3] = [
    PLAIN,
    [Half { weights: [3000.0, 1000.0, 100.0], heat: [200.0, 20.0] }, COOLING],
    [Half { weights: [100.0, 10.0, 3.0], ..LOOKING }, COOLING],
];

/// Toward any week that meets all rows.
pub(super) const MEETING: Half = Half { weights: [1000.0, 0.0, 0.0], heat: [200.0, 20.0] };

/// What a changed pick of a rework weighs in points of tier 3, while a game is steered.
const CHANGE: f64 = 25.0;

/// More points of tier 3 than a change is expected to bring where it breaks a row.
const MOST_POINTS: f64 = 100.0;

impl Half {
    /// The heat of each of some changes.
    pub(super) fn heats(&self, changes: u32) -> impl Iterator<Item = f64> + use<> {
        let [warm, cold] = self.heat;
        let cooling = libm::pow(cold / warm, 1.0 / f64::from(changes.max(1)));
        let heats = std::iter::successors(Some(warm * cooling), move |heat| Some(heat * cooling));
        heats.take(changes as usize)
    }

    /// More than a change can gain that breaks rows by so much and leads to some costs, where these are known.
    pub(super) fn most_gain(&self, breaks: f64, costs: Option<&Worth>, now: &Worth) -> f64 {
        let saved = self.costs(now) - costs.map_or(0.0, |worth| self.costs(worth));
        saved + MOST_POINTS - self.weights[0] * (breaks - now.broken)
    }

    /// Costs in points of tier 3.
    fn costs(&self, worth: &Worth) -> f64 {
        let [_, coverage, ranges] = self.weights;
        coverage * worth.coverage + ranges * worth.ranges + CHANGE * worth.changes
    }

    /// The weighted sum that steers.
    pub(super) fn steer(&self, worth: &Worth) -> f64 {
        worth.view - self.weights[0] * worth.broken - self.costs(worth)
    }
}
