//! How often the body alone goes up, by what is lifted beside it or on a machine.

use super::KnownLifts;
use crate::strength::estimate::{Estimate, reps_at_percent};
use crate::strength::related::RELATED;

impl KnownLifts {
    /// The repetitions of a pull-up or dip that go with the body alone, by its loaded form or what is related to that; none
    /// where nothing tells.
    #[must_use]
    pub fn with_the_body_alone(&self, id: &str) -> Option<u32> {
        const PULL_UP: &str = "weighted-pull-up";
        let loaded = match id {
            "chin-up" => "weighted-chin-up",
            "dip" | "ring-dip" => "weighted-dip",
            _ => PULL_UP,
        };
        let body = self.body_mass_kg?;
        let of = |id: &str, with_body: bool| {
            let lift = self.lifts.get(id).filter(|lift| with_body || lift.load_kg > 0.0)?;
            let mass = lift.load_kg + if with_body { body } else { 0.0 };
            Some(Estimate::from_set(mass, lift.reps, lift.rir).ok()?.one_rep_max)
        };
        let related = |loaded: &str| {
            let mut rows = RELATED.iter().filter(|row| row.lift == loaded);
            rows.find_map(|row| Some(of(&row.from, row.with_body)? * row.share))
        };
        let pulls = || related(PULL_UP).filter(|_| !id.contains("dip"));
        let most_for_one = of(loaded, true).or_else(|| related(loaded)).or_else(pulls)?;
        Some(reps_at_percent(body / most_for_one * 100.0))
    }
}
