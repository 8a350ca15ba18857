//! What is to be said of the lifts that a profile tells.

use super::{KnownLifts, Source, name};
use crate::input::catalog::Entry;
use crate::strength::estimate::Estimate;
use crate::strength::ladder::Ladder;
use crate::words::LoadKind;

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

    /// What a note says where even the lightest is too heavy.
    pub(super) fn too_light_note(
        &self,
        entry: &Entry,
        ladder: &Ladder,
        limited: f64,
        source: &Source<'_>,
    ) -> String {
        let what =
            if entry.load == LoadKind::BarTotal { "the empty bar" } else { "the lightest here" };
        let easier = entry.easier.first().map_or_else(
            || "use a lighter bar or an easier form".to_owned(),
            |easier| format!("take an easier form, such as the {}", name(easier)),
        );
        format!(
            "about {} is wanted, under {what} ({}): {easier}; {}",
            self.mass(limited),
            ladder.text(ladder.lightest()),
            source.text
        )
    }
}
