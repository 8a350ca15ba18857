//! What of a profile may be loosened so that there is a week.

use std::fmt;

use super::subject::slot_of;
use crate::diagnostic::counted;
use crate::input::place::Stock;
use crate::input::profile::{GradedLimit, Limit, Profile, TargetWish};
use crate::request::Request;
use crate::words::{Grade, Kit, Muscle, Stress};

/// What may be loosened, and how far.
#[derive(Debug, Clone, PartialEq)]
pub enum Relaxation {
    /// Once and for all.
    Whole(Change),
    /// The session at a place in the profile gets longer.
    Longer(usize),
    /// A strict target starts lower than this.
    Lower(Muscle, f64),
}

impl Relaxation {
    /// More minutes for the session that a subject names, if it names one.
    #[must_use]
    pub fn longer_session(request: &Request, subject: &str) -> Vec<Relaxation> {
        slot_of(request, subject).map(Relaxation::Longer).into_iter().collect()
    }
}

/// One change to a profile.
#[derive(Debug, Clone, PartialEq)]
pub enum Change {
    /// A session gets longer.
    Minutes {
        /// Its place in the profile.
        slot: usize,
        /// The day as messages call it.
        day: String,
        /// Minutes now.
        from: u32,
        /// Minutes then.
        to: u32,
    },
    /// A strict target starts lower.
    StrictLow {
        /// The muscle.
        muscle: Muscle,
        /// Sets now.
        from: f64,
        /// Sets then.
        to: f64,
    },
    /// An exercise need not be in the week.
    DropMust(String),
    /// A limit lets the light form through.
    Lighter(Stress),
    /// The place gets an item.
    Kit(Kit),
}

impl fmt::Display for Change {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Change::Minutes { day, from, to, .. } => {
                let more = counted((to - from) as usize, "more minute", "more minutes");
                write!(f, "give {day} {more} ({to})")
            }
            Change::StrictLow { muscle, from, to } => {
                write!(f, "let the strict {muscle} target start at {to} sets instead of {from}")
            }
            Change::DropMust(id) => write!(f, "drop `must: {id}`"),
            Change::Lighter(stress) => write!(
                f,
                "if whoever set the limit agrees, allow light work: `{{tag: {stress}, allow: light}}`"
            ),
            Change::Kit(item) => write!(f, "bring a {item}, and add it to the kit"),
        }
    }
}

impl Change {
    /// What it weighs.
    #[must_use]
    pub fn cost(&self) -> f64 {
        match self {
            Change::Minutes { from, to, .. } => f64::from(to - from),
            Change::StrictLow { from, to, .. } => 4.0 * (from - to),
            Change::DropMust(_) => 20.0,
            Change::Lighter(_) => 25.0,
            Change::Kit(_) => 40.0,
        }
    }

    /// What the profile asked for, and what is planned in its place.
    #[must_use]
    pub fn before_and_now(&self) -> [String; 2] {
        match self {
            Change::Minutes { day, from, to, .. } => {
                [format!("{from} minutes on {day}"), format!("{to} minutes")]
            }
            Change::StrictLow { muscle, from, to } => {
                [format!("{from} strict weekly sets of {muscle}"), format!("{to} as the least")]
            }
            Change::DropMust(id) => {
                [format!("`{id}` in the week"), "no place held for it".to_owned()]
            }
            Change::Lighter(stress) => {
                [format!("no {stress}"), "its light form allowed".to_owned()]
            }
            Change::Kit(item) => [format!("no {item}"), "one brought along".to_owned()],
        }
    }

    /// Makes the change.
    pub fn apply(&self, profile: &mut Profile) {
        match self {
            Change::Minutes { slot, to, .. } => profile.sessions[*slot].minutes = *to,
            Change::StrictLow { muscle, to, .. } => {
                if let Some(TargetWish::Strict(wish)) = profile.targets.get_mut(muscle) {
                    wish.range[0] = *to;
                }
            }
            Change::DropMust(id) => profile.exercises.must.retain(|other| other != id),
            Change::Lighter(stress) => {
                for limit in &mut profile.limits {
                    if *limit == Limit::Whole(*stress) {
                        *limit = Limit::Graded(GradedLimit { tag: *stress, allow: Grade::Light });
                    }
                }
            }
            Change::Kit(item) => {
                let equipment = profile.equipment.get_or_insert_default();
                equipment.items.insert(*item, Stock::Count(1));
            }
        }
    }
}
