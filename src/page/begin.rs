//! How a week comes into hand: from the kept plan, or made now.

use std::sync::Arc;

use super::cabinet::{PlanFile, ProfileFile};
use super::desk::Desk;
use super::draft::{Draft, Refused};
use crate::diagnostic::Diagnostic;
use crate::input::plan::Plan;
use crate::input::profile::Profile;
use crate::planner::{NoPlan, Options, sha256};
use crate::request::turn::Turn;
use crate::search::budget::Budget;

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

/// Sees that the draft in hand is of the files as they are: read again where nothing was tried since.
pub(super) fn look(
    desk: &Desk,
    (key, file): (&str, &ProfileFile),
    draft: &mut Option<Draft>,
    turn: Turn,
) -> Looked {
    let kept = desk.cabinet.plan(key);
    if let Some(draft) = draft {
        let is_same = draft.is_of(file, kept.as_ref());
        if is_same || !draft.steps.is_empty() {
            return Looked::Week { is_changed: !is_same };
        }
    }
    match begun(desk, (key, file), kept, turn) {
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
    (key, file): (&str, &ProfileFile),
    kept: Option<PlanFile>,
    turn: Turn,
) -> Result<Draft, Box<Refused>> {
    let nothing = |told: Vec<Diagnostic>| Box::new(Refused::told(told));
    let name = kept.as_ref().map(|kept| (kept.sha256.clone(), kept.name.clone()));
    let (base, is_kept) = match kept {
        Some(kept) => (kept.plan.map_err(nothing)?, true),
        None => (Arc::new(made_once(desk, key, file, turn)?), false),
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
pub(super) fn made_once(
    desk: &Desk,
    key: &str,
    file: &ProfileFile,
    turn: Turn,
) -> Result<Plan, Box<Refused>> {
    let seat = desk.seat(key);
    // A last block is a file of its own, which may change too.
    let alone = file.profile.as_ref().ok().filter(|_| file.previous.is_none());
    let of = alone.map(|profile| sha256(profile));
    if let Some(known) = of.as_deref().and_then(|of| seat.no_week(of)) {
        return Err(Box::new(known));
    }
    let made = made(desk, key, file, turn);
    if let (Err(refused), Some(of)) = (&made, of)
        && refused.impossible.is_some()
        && !turn.is_over()
    {
        seat.remember(of, (**refused).clone());
    }
    made
}

/// A plan as the command line makes it from the profile; none where nobody waits for it any more.
pub(super) fn made(
    desk: &Desk,
    key: &str,
    file: &ProfileFile,
    turn: Turn,
) -> Result<Plan, Box<Refused>> {
    let unread = |told: &Vec<Diagnostic>| Box::new(Refused::told(told.clone()));
    let profile = file.profile.as_ref().map_err(unread)?;
    planned(desk, key, profile, file.previous.as_deref().cloned(), turn)
}

/// A plan of a profile after a last block.
pub(super) fn planned(
    desk: &Desk,
    key: &str,
    profile: &Profile,
    previous: Option<Plan>,
    turn: Turn,
) -> Result<Plan, Box<Refused>> {
    let refused = |told, impossible| Box::new(Refused { impossible, ..Refused::told(told) });
    let budget = Budget { turn, ..Budget::default() };
    let options = Options { previous, budget, ..Options::default() };
    let plan = desk.planner.plan(profile, &options);
    let plan = if turn.is_over() { Err(NoPlan::Stopped) } else { plan };
    plan.map_err(|reason| {
        let told = desk.cabinet.told(key, &reason);
        match reason {
            NoPlan::Impossible(impossible) => refused(told, Some(*impossible)),
            _ => refused(told, None),
        }
    })
}
