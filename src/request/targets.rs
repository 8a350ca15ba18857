//! Default weekly sets per muscle, by goal, training status and class of muscle.
//!
//! The figures stand in `targets.yaml` beside this file, each row with the ids of its sources
//! ([`super::dose::citation`] prints them).

use std::collections::BTreeMap;
use std::sync::LazyLock;

use serde::Deserialize;

use crate::words::{Goal, Muscle, Status};

/// Weekly fractional sets to aim at.
#[derive(Debug, Clone, PartialEq)]
pub struct Range {
    /// The least worth planning.
    pub floor: f64,
    /// Low end.
    pub low: f64,
    /// High end.
    pub high: f64,
    /// Source ids.
    pub sources: Vec<String>,
}

/// How much a muscle's weekly sets matter by default.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Deserialize, strum::VariantArray)]
#[serde(rename_all = "kebab-case")]
pub enum Class {
    /// Every client has a target for it.
    Major,
    /// Clients past novice have a target for it.
    Minor,
    /// It has a ceiling only.
    Other,
}

impl Class {
    /// The class of a muscle.
    #[must_use]
    pub const fn of(muscle: Muscle) -> Class {
        match muscle {
            _ if muscle.is_major() => Class::Major,
            Muscle::SideDelts | Muscle::Biceps | Muscle::Triceps | Muscle::Calves => Class::Minor,
            _ => Class::Other,
        }
    }
}

/// The default range of a muscle; `None` where it has a ceiling only.
#[must_use]
pub fn target(goal: Goal, status: Status, muscle: Muscle) -> Option<Range> {
    let row = row(goal, status, muscle);
    let (floor, low) = row.floor.zip(row.low)?;
    Some(Range { floor, low, high: row.high, sources: row.sources.clone() })
}

/// Ids of the sources behind a muscle's range or ceiling.
#[must_use]
pub fn sources(goal: Goal, status: Status, muscle: Muscle) -> &'static [String] {
    &row(goal, status, muscle).sources
}

/// The most weekly fractional sets of a muscle: the high end of its range, or its ceiling.
#[must_use]
pub fn ceiling(goal: Goal, status: Status, muscle: Muscle) -> f64 {
    row(goal, status, muscle).high
}

fn row(goal: Goal, status: Status, muscle: Muscle) -> &'static Row {
    TABLE
        .get(&(goal, status, Class::of(muscle)))
        .expect("the target table covers every goal, status and class")
}

#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
struct Row {
    class: Class,
    #[serde(default)]
    goals: Vec<Goal>,
    #[serde(default)]
    statuses: Vec<Status>,
    #[serde(default)]
    floor: Option<f64>,
    #[serde(default)]
    low: Option<f64>,
    high: f64,
    sources: Vec<String>,
}

impl Row {
    fn keys(&self) -> Vec<(Goal, Status, Class)> {
        let goals = if self.goals.is_empty() { Goal::ALL } else { &self.goals };
        let statuses = if self.statuses.is_empty() { Status::ALL } else { &self.statuses };
        let pairs = goals.iter().flat_map(|goal| statuses.iter().map(|status| (*goal, *status)));
        pairs.map(|(goal, status)| (goal, status, self.class)).collect()
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct File {
    rows: Vec<Row>,
}

static TABLE: LazyLock<BTreeMap<(Goal, Status, Class), Row>> = LazyLock::new(|| {
    let file: File =
        serde_yaml::from_str(include_str!("targets.yaml")).expect("targets.yaml is well formed");
    let rows = file.rows.into_iter();
    rows.flat_map(|row| row.keys().into_iter().map(move |key| (key, row.clone()))).collect()
});

#[cfg(test)]
mod tests {
    use super::*;
    use crate::request::dose::citation;

    #[test]
    fn every_combination_is_given_exactly_once() {
        let file: File = serde_yaml::from_str(include_str!("targets.yaml")).unwrap();
        let mut times = BTreeMap::new();
        for key in file.rows.iter().flat_map(Row::keys) {
            *times.entry(key).or_insert(0) += 1;
        }
        for goal in Goal::ALL {
            for status in Status::ALL {
                for class in <Class as strum::VariantArray>::VARIANTS {
                    let key = (*goal, *status, *class);
                    assert_eq!(times.get(&key), Some(&1), "{key:?}");
                }
            }
        }
        assert_eq!(times.len(), Goal::ALL.len() * Status::ALL.len() * 3);
    }

    #[test]
    fn rows_are_ordered_and_sourced() {
        for (key, row) in TABLE.iter() {
            assert_eq!(row.floor.is_some(), row.low.is_some(), "{key:?}");
            if let (Some(floor), Some(low)) = (row.floor, row.low) {
                assert!(0.0 < floor && floor <= low && low < row.high, "{key:?}");
            }
            assert!(row.sources.iter().all(|id| citation(id).is_some()), "{key:?}");
        }
    }

    /// VO-05 and VO-12: from 4 sets; RX-09: about 10 for size lies inside every range; VO-02: up to 20 when trained.
    #[test]
    fn size_targets_agree_with_the_handbook() {
        for status in Status::ALL {
            let range = target(Goal::Hypertrophy, *status, Muscle::Chest).unwrap();
            assert!(range.floor >= 4.0 && range.low <= 10.0 && 10.0 <= range.high, "{status}");
        }
        let trained = target(Goal::Hypertrophy, Status::Advanced, Muscle::Quads).unwrap();
        assert!((trained.high - 20.0).abs() < 1e-9);
    }

    #[test]
    fn minor_muscles_have_a_target_only_past_novice() {
        assert_eq!(target(Goal::Hypertrophy, Status::Novice, Muscle::Biceps), None);
        assert!(target(Goal::Hypertrophy, Status::Intermediate, Muscle::Biceps).is_some());
        assert_eq!(target(Goal::Hypertrophy, Status::Advanced, Muscle::Neck), None);
        assert!(ceiling(Goal::Hypertrophy, Status::Novice, Muscle::Neck) > 0.0);
    }
}
