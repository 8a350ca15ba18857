//! Where sources disagree, and what the plan goes by.
//!
//! The table stands in `conflicts.yaml` beside this file.

use std::sync::LazyLock;

use serde::{Deserialize, Serialize};

/// The part of a plan that a matter bears on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum About {
    /// Every plan.
    Always,
    /// Loads from known lifts.
    Loads,
    /// Plans for muscle growth.
    Size,
    /// Plans with easier weeks.
    EasierWeeks,
    /// Plans with conditioning.
    Conditioning,
}

/// One matter.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize, Serialize)]
#[serde(deny_unknown_fields)]
pub struct Conflict {
    /// What it is about.
    pub topic: String,
    #[serde(skip_serializing)]
    about: About,
    /// What the sources say.
    pub says: String,
    /// What the plan goes by.
    pub choice: String,
    /// Source ids; [`super::dose::citation`] prints them.
    pub sources: Vec<String>,
}

/// The matters that bear on some parts of a plan, in the order of the table.
#[must_use]
pub fn on(parts: &[About]) -> Vec<&'static Conflict> {
    TABLE.iter().filter(|row| row.about == About::Always || parts.contains(&row.about)).collect()
}

static TABLE: LazyLock<Vec<Conflict>> = LazyLock::new(|| {
    serde_yaml::from_str(include_str!("conflicts.yaml")).expect("conflicts.yaml is well formed")
});

#[cfg(test)]
mod tests {
    use super::*;
    use crate::request::dose::citation;

    #[test]
    fn every_conflict_names_two_sources_that_are_cited() {
        for row in TABLE.iter() {
            assert!(row.sources.len() >= 2, "{}", row.topic);
            for id in &row.sources {
                assert!(citation(id).is_some(), "{id}");
            }
        }
    }

    #[test]
    fn only_what_bears_on_the_plan_is_told() {
        let topics = |parts: &[About]| on(parts).len();
        assert!(topics(&[]) >= 1);
        assert!(topics(&[About::Conditioning]) > topics(&[]));
    }
}
