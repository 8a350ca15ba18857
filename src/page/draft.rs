//! A client's week in hand: the plan that is kept or freshly made, and what was tried since. Nothing of it is on the disk
//! before it is kept.

use std::sync::Arc;

use super::cabinet::{PlanFile, ProfileFile};
use super::desk::Desk;
use crate::diagnostic::Diagnostic;
use crate::input::plan::{Plan, ProfileRef};
use crate::input::profile::Profile;
use crate::planner::{Impossible, NoPlan, Options, sha256};
use crate::rework::Ask;
use crate::rework::table::Table;
use crate::search::budget::Budget;

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
    /// The same for the planner.
    pub(super) ask: Ask,
    pub(super) plan: Arc<Plan>,
    pub(super) table: Table,
    /// Whether a longer search may still find a better week.
    pub(super) is_quick: bool,
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
    /// The seed that it was asked with.
    pub(super) seed: u64,
}

/// What a look at a client's files comes to.
pub(super) enum Looked {
    /// A week is in hand.
    Week {
        /// Whether the files were changed since the first step was tried.
        is_changed: bool,
    },
    /// There is none, and why.
    Nothing(Box<Refused>),
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

    /// Whether the files are those that it was begun with.
    fn is_of(&self, profile: &ProfileFile, kept: Option<&PlanFile>) -> bool {
        let sha256 = self.kept.as_ref().map(|(sha256, _)| sha256);
        self.profile_sha256 == profile.sha256 && sha256 == kept.map(|kept| &kept.sha256)
    }
}

/// Sees that the draft in hand is of the files as they are: read again where nothing was tried since.
pub(super) fn look(
    desk: &Desk,
    key: &str,
    file: &ProfileFile,
    draft: &mut Option<Draft>,
) -> Looked {
    let kept = desk.cabinet.plan(key);
    if let Some(draft) = draft {
        let is_same = draft.is_of(file, kept.as_ref());
        if is_same || !draft.steps.is_empty() {
            return Looked::Week { is_changed: !is_same };
        }
    }
    match begun(desk, key, file, kept) {
        Ok(new) => {
            *draft = Some(new);
            Looked::Week { is_changed: false }
        }
        Err(refused) => {
            *draft = None;
            Looked::Nothing(refused)
        }
    }
}

/// The week of the kept plan, or one that is made now.
fn begun(
    desk: &Desk,
    key: &str,
    file: &ProfileFile,
    kept: Option<PlanFile>,
) -> Result<Draft, Box<Refused>> {
    let nothing = |told: Vec<Diagnostic>| {
        Box::new(Refused { label: String::new(), told, impossible: None, seed: 0 })
    };
    let name = kept.as_ref().map(|kept| (kept.sha256.clone(), kept.name.clone()));
    let (base, is_kept) = match kept {
        Some(kept) => (kept.plan.map_err(nothing)?, true),
        None => (Arc::new(made_once(desk, key, file)?), false),
    };
    Ok(Draft {
        profile_sha256: file.sha256.clone(),
        kept: name,
        base,
        is_kept,
        steps: Vec::new(),
        refused: None,
    })
}

/// The same as [`made`]; that there is no week, and why, is found once for each profile.
pub(super) fn made_once(desk: &Desk, key: &str, file: &ProfileFile) -> Result<Plan, Box<Refused>> {
    let seat = desk.seat(key);
    // A last block is a file of its own, which may change too.
    let alone = file.profile.as_ref().ok().filter(|_| file.previous.is_none());
    let of = alone.map(|profile| sha256(profile));
    if let Some(known) = of.as_deref().and_then(|of| seat.no_week(of)) {
        return Err(Box::new(known));
    }
    let made = made(desk, key, file, 0);
    if let (Err(refused), Some(of)) = (&made, of)
        && refused.impossible.is_some()
    {
        seat.remember(of, (**refused).clone());
    }
    made
}

/// A plan as the command line makes it from the profile.
pub(super) fn made(
    desk: &Desk,
    key: &str,
    file: &ProfileFile,
    seed: u64,
) -> Result<Plan, Box<Refused>> {
    let refused =
        |told, impossible| Box::new(Refused { label: String::new(), told, impossible, seed });
    let profile = file.profile.as_ref().map_err(|told| refused(told.clone(), None))?;
    let options = Options {
        seed,
        previous: file.previous.as_deref().cloned(),
        budget: Budget::default(),
        best_effort: false,
    };
    desk.planner.plan(profile, &options).map_err(|reason| {
        let told = desk.cabinet.told(key, &reason);
        match reason {
            NoPlan::Impossible(impossible) => refused(told, Some(*impossible)),
            _ => refused(told, None),
        }
    })
}

/// Whether a plan goes back to a profile: planned from it, or reworked from a plan that was.
pub(super) fn goes_back_to(plan: &Plan, profile: &Profile) -> bool {
    let wanted = sha256(profile);
    let now = plan.inputs.as_ref().map(|inputs| &inputs.profile_sha256);
    let before = plan.reworked_from.iter().filter_map(|past| past.profile_sha256.as_ref());
    let by_hand = plan.inputs.is_none()
        && matches!(&plan.profile, ProfileRef::Whole(inside) if **inside == *profile);
    by_hand || now.into_iter().chain(before).any(|sha256| *sha256 == wanted)
}
