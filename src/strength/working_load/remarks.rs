//! What is to be said of the lifts that a profile tells.

use super::{KnownLifts, name};
use crate::strength::estimate::Estimate;

impl KnownLifts {
    /// What a careful coach would say about the lifts themselves: estimates that are refused or rough, caps that
    /// are already passed.
    #[must_use]
    pub fn remarks(&self) -> Vec<String> {
        let mut remarks = Vec::new();
        for (id, lift) in &self.lifts {
            match Estimate::from_set(lift.load_kg, lift.reps, lift.rir) {
                Err(error) => remarks.push(format!("{}: {error}; find the load in the gym", name(id))),
                Ok(estimate) if estimate.is_rough() => remarks.push(format!(
                    "{}: an estimate from {} repetitions to failure is rough; a set of 3 to 8 tells more",
                    name(id),
                    estimate.reps
                )),
                Ok(_) => {}
            }
            if let Some(cap) = lift.cap_kg.filter(|cap| *cap < lift.load_kg) {
                remarks.push(format!(
                    "{}: the cap of {} is under the {} already lifted; the cap holds",
                    name(id),
                    self.mass(cap),
                    self.mass(lift.load_kg)
                ));
            }
        }
        remarks
    }
}
