//! Training weeks for a coach's clients: a profile in; an audited plan, its reworks, its reasons and its sheets out.
//!
//! ```
//! use weekwright::{Ask, Options, Outcome, Planner, sheets};
//!
//! let profile = "
//! client: example-01
//! training_status: novice
//! goal: general-fitness
//! place: shed
//! sessions: [{day: tue, minutes: 45}, {day: fri, minutes: 45}]
//! ";
//! let shed = "
//! place: shed
//! equipment: [dumbbells, bench]
//! ";
//!
//! // Every fault of both texts would be told at once, with its line and a way out.
//! let client = weekwright::load(profile, Some(shed))?;
//! let planner = Planner::built_in();
//! let plan = planner.plan(&client.profile, &Options::default())?;
//! assert_eq!(plan.sessions.len(), 2);
//!
//! // The audit counts every rule anew, from the plan alone.
//! let audit = planner.audit(&plan).expect("what was planned can be counted");
//! assert!(audit.passes());
//!
//! // Friday has less time: all else stays as far as it can.
//! let ask = Ask { minutes: vec![("fri".to_owned(), 35)], ..Ask::default() };
//! let Outcome::New(new) = planner.rework(&plan, &ask)? else { unreachable!("it is another week") };
//! assert_eq!(new.plan.sessions.len(), 2);
//! assert!(planner.audit(&new.plan).is_ok_and(|audit| audit.passes()));
//!
//! let page = planner.sheet(&new.plan, &sheets::Html, &sheets::Options::default())?;
//! assert!(page.contains("<!doctype html>"));
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```
//!
//! The modules follow the data: a profile is read, resolved, split, modelled, solved and written. `Planner` is the way
//! in; the model, the solver and the search are nobody else's.

#![forbid(unsafe_code)]

pub mod words;

pub mod diagnostic;

pub mod input;

pub mod timing;

pub mod catalog;

pub mod strength;

pub mod request;

pub mod week;

mod program;

mod split;

mod model;

pub mod rules;

mod search;

pub mod plan;

pub mod load;

pub mod audit;

pub mod explain;

pub mod planner;

pub mod rework;

pub mod room;

pub mod why;

pub mod book;

pub mod sheets;

mod front;

pub mod intake;

#[cfg(feature = "page")]
pub mod page;

pub mod cli;

pub use audit::Audit;
pub use diagnostic::Faults;
pub use front::load;
pub use input::plan::Plan;
pub use input::profile::Profile;
pub use planner::{NoPlan, Options, Planner};
pub use rework::{Ask, Outcome};
pub use search::budget::Budget;

/// The model and the search, for this crate's own tests and benches: no part of what it offers.
#[doc(hidden)]
pub mod inner {
    pub use crate::model::tier::Tier;
    pub use crate::model::weight_table;
    pub use crate::model::worth::worths;
    pub use crate::model::{Weekly, points};
    pub use crate::program::{
        Model, Op, Role, Row, Settles, Term, Var, VarDef, backend, export, holds, merged, value,
    };
    pub use crate::search::budget::Heat;
    pub use crate::search::presolve::dominance;
    pub use crate::search::{Done, feasibility, points_of_a_run, solve};
    pub use crate::split::design;
}
