//! The words that answers are chosen from.

use crate::words::{
    ChestPain, Goal, Intensity, Kit, Muscle, Sex, Status, Stress, Supersets, Units,
};

fn ids<W: Copy + Into<&'static str>>(words: &[W]) -> Vec<&'static str> {
    words.iter().map(|word| (*word).into()).collect()
}

pub(super) fn units() -> Vec<&'static str> {
    ids(Units::ALL)
}
pub(super) fn sexes() -> Vec<&'static str> {
    ids(Sex::ALL)
}
pub(super) fn statuses() -> Vec<&'static str> {
    ids(Status::ALL)
}
pub(super) fn goals() -> Vec<&'static str> {
    ids(Goal::ALL)
}
pub(super) fn kit() -> Vec<&'static str> {
    ids(Kit::ALL)
}
pub(super) fn stresses() -> Vec<&'static str> {
    ids(Stress::ALL)
}
pub(super) fn muscles() -> Vec<&'static str> {
    ids(Muscle::ALL)
}
pub(super) fn supersets() -> Vec<&'static str> {
    ids(Supersets::ALL)
}
pub(super) fn chest_pains() -> Vec<&'static str> {
    ids(ChestPain::ALL)
}
pub(super) fn intensities() -> Vec<&'static str> {
    ids(Intensity::ALL)
}
