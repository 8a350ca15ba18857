//! `volume-floor`: every target muscle has the least weekly sets that are worth planning.
//!
//! About four fractional sets (coverage of Pelland et al. 2024; Iversen et al. 2021), less where the minutes
//! do not hold them.

use super::weekly_volume::WeeklyVolume;
use super::{Bound, Figure, Finding, Force, Rule, Unit, to_halves};
use crate::model::Weekly;
use crate::model::goal::at_least;
use crate::model::points::{FLOOR_MAJOR, FLOOR_MINOR};
use crate::model::tier::Tier;
use crate::request::Request;
use crate::week::Week;

/// Half-sets by muscle and week.
pub(super) struct VolumeFloor;

impl Rule for VolumeFloor {
    fn id(&self) -> &'static str {
        "volume-floor"
    }
    fn summary(&self) -> &'static str {
        "every target muscle has the least weekly sets that are worth planning"
    }
    fn force(&self) -> Force {
        Force::Coverage
    }
    fn add_to(&self, weekly: &mut Weekly) {
        for (muscle, target) in &weekly.request.targets {
            let floor = f64::from(to_halves(target.floor));
            let weight = if muscle.is_major() { FLOOR_MAJOR } else { FLOOR_MINOR };
            let wish = at_least(weekly.halves(*muscle), floor);
            weekly.miss(self.id(), muscle.id(), Tier::Coverage, wish, weight);
        }
    }
    fn told_by(&self) -> Option<&'static str> {
        Some(WeeklyVolume.id())
    }
    fn recount(&self, request: &Request, week: &Week) -> Vec<Finding> {
        let under = |floor: f64, halves: u32| halves < to_halves(floor);
        request
            .targets
            .iter()
            .filter(|(muscle, target)| under(target.floor, week.halves(**muscle)))
            .map(|(muscle, target)| {
                let floor = Figure::sets(to_halves(target.floor), Unit::SetsAWeek);
                let got = Figure::sets(week.halves(*muscle), Unit::Sets);
                Finding::of_muscle(self.id(), *muscle, floor.bounded(Bound::AtLeast), got)
                    .as_shortfall()
            })
            .collect()
    }
}
