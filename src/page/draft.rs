//! A client's week in hand: the plan that is kept or freshly made, and what was tried since. Nothing of it is on the disk
//! before it is kept.

use std::sync::Arc;

use super::cabinet::{PlanFile, ProfileFile};
use super::tries::Wish;
use crate::diagnostic::Diagnostic;
use crate::input::plan::{Plan, ProfileRef};
use crate::input::profile::Profile;
use crate::planner::{Impossible, sha256};
use crate::rework::Ask;
use crate::rework::table::Table;

/// Steps that can be taken back.
const MOST_STEPS: usize = 30;

/// A client's week in hand.
#[derive(Clone)]
pub(super) struct Draft {
    /// Of the profile's text.
    pub(super) profile_sha256: String,
    /// Of the kept plan's text, and its file's name.
    pub(super) kept: Option<(String, String)>,
    /// The plan before anything was tried.
    pub(super) base: Arc<Plan>,
    /// Whether the base is the kept plan.
    pub(super) is_kept: bool,
    /// What was tried since, in order.
    pub(super) steps: Vec<Step>,
    /// What was asked for last and is not possible.
    pub(super) refused: Option<Refused>,
}

/// One change that was tried.
#[derive(Clone)]
pub(super) struct Step {
    /// What was asked for, in words.
    pub(super) label: String,
    pub(super) by: By,
    /// Where a wish was planned on top of a week from the record: that week, made again.
    pub(super) again: Option<FromRecord>,
    pub(super) plan: Arc<Plan>,
    /// Whether a longer search may still find a better week.
    pub(super) is_quick: bool,
}

/// How a step came about.
#[derive(Clone)]
pub(super) enum By {
    /// A wish, as the planner reads it, and what it did to the week.
    Wish(Box<(Ask, Table)>),
    /// The record of what was done.
    Record(FromRecord),
}

/// What the record did to the plan.
#[derive(Clone)]
pub(super) struct FromRecord {
    /// The week that it made; none where it is a block of its own.
    pub(super) week: Option<u32>,
    /// What changed, to what, and why.
    pub(super) lines: Vec<[String; 3]>,
    pub(super) remarks: Vec<String>,
}

impl Step {
    /// The wish that it was asked by, where a longer search may find a better week for it.
    pub(super) fn open_wish(&self) -> Option<Wish> {
        match &self.by {
            By::Wish(wish) if self.is_quick => {
                Some(Wish { label: self.label.clone(), ask: wish.0.clone() })
            }
            _ => None,
        }
    }
}

/// A wish that has no plan.
#[derive(Clone)]
pub(super) struct Refused {
    /// What was asked for, in words.
    pub(super) label: String,
    /// Why not, as the command line says it.
    pub(super) told: Vec<Diagnostic>,
    /// What collides, and the ways out.
    pub(super) impossible: Option<Impossible>,
    /// The profile that was planned, where it is that of a next block.
    pub(super) block: Option<Box<Profile>>,
    /// The seed that it was asked with.
    pub(super) seed: u64,
}

impl Refused {
    /// Faults, and nothing that collides.
    pub(super) fn told(told: Vec<Diagnostic>) -> Refused {
        Refused { label: String::new(), told, impossible: None, block: None, seed: 0 }
    }
}

impl Draft {
    /// A week that was made by a way out of what the profile asks.
    pub(super) fn of_way(file: &ProfileFile, plan: Plan) -> Draft {
        Draft {
            profile_sha256: file.sha256.clone(),
            kept: None,
            base: Arc::new(plan),
            is_kept: false,
            steps: Vec::new(),
            refused: None,
        }
    }

    /// The plan as it is shown.
    pub(super) fn plan(&self) -> &Arc<Plan> {
        self.steps.last().map_or(&self.base, |step| &step.plan)
    }

    /// The plan before the last step.
    pub(super) fn before(&self) -> &Arc<Plan> {
        match self.steps.as_slice() {
            [.., one, _] => &one.plan,
            _ => &self.base,
        }
    }

    /// Takes in a step.
    pub(super) fn push(&mut self, step: Step) {
        self.refused = None;
        self.steps.push(step);
        if self.steps.len() > MOST_STEPS {
            let first = self.steps.remove(0);
            self.base = first.plan;
            self.is_kept = false;
        }
    }

    /// What the record did since the week was begun.
    pub(super) fn records(&self) -> impl Iterator<Item = &FromRecord> {
        self.steps.iter().filter_map(|step| match &step.by {
            By::Record(record) => Some(record),
            By::Wish(..) => step.again.as_ref(),
        })
    }

    /// Whether the files are those that it was begun with.
    pub(super) fn is_of(&self, profile: &ProfileFile, kept: Option<&PlanFile>) -> bool {
        let sha256 = self.kept.as_ref().map(|(sha256, _)| sha256);
        self.profile_sha256 == profile.sha256 && sha256 == kept.map(|kept| &kept.sha256)
    }
}

/// Whether a plan goes back to a profile: planned from it, or reworked from a plan that was.
pub(super) fn goes_back_to(plan: &Plan, profile: &Profile) -> bool {
    let wanted = sha256(profile);
    let now = plan.inputs.as_ref().map(|inputs| &inputs.profile_sha256);
    let before = plan.reworked_from.iter().filter_map(|past| past.profile_sha256.as_ref());
    let by_hand = plan.inputs.is_none()
        && matches!(&plan.profile, ProfileRef::Whole(inside) if **inside == *profile);
    let book = plan.inputs.as_ref().and_then(|inputs| inputs.book.as_ref());
    let bare = book.and_then(|book| book.profile_sha256.as_ref());
    by_hand || now.into_iter().chain(before).chain(bare).any(|sha256| *sha256 == wanted)
}
