//! Why there is no plan, told with the lines of the profile that made it so.

use itertools::Itertools as _;

use super::{Exit, Faults};
use crate::diagnostic::{Diagnostic, Label};
use crate::explain::collision::{Collision, told};
use crate::explain::conflict;
use crate::explain::ways::WayOut;
use crate::input::marks::{Marks, Step};
use crate::input::profile::Profile;
use crate::planner::{Impossible, NoPlan};
use crate::request::screening;
use crate::rules::reason::PathStep;

/// Where the profile stands: its name, and the places of its parts where it was read from a text.
pub(super) struct Origin<'a> {
    /// What messages call the file.
    pub(super) name: String,
    /// The places of the profile's parts.
    pub(super) marks: Option<&'a Marks>,
}

/// Says why there is no plan, and how the program ends.
pub(super) fn tell(reason: &NoPlan, origin: &Origin) -> (Faults, Exit) {
    if let NoPlan::Impossible(impossible) = reason {
        let faults = Faults {
            diagnostics: vec![collide(impossible, origin)],
            sources: origin.marks.map(|marks| marks.source.clone()).into_iter().collect(),
            details: details(impossible),
        };
        return (faults, Exit::Impossible);
    }
    let (code, help, exit) = match reason {
        NoPlan::Withheld(withheld) => ("E3003", withheld.instead.as_str(), Exit::Input),
        NoPlan::Refused(_) => ("E4001", "please report the profile and this message", Exit::Other),
        NoPlan::Spent(_) => ("E3005", "allow more with `--work`, or ask for less", Exit::Other),
        _ => ("E3002", "try again with more minutes or fewer demands", Exit::Other),
    };
    let message = match reason {
        NoPlan::Refused(findings) => {
            let named: Vec<String> = findings.iter().map(ToString::to_string).collect();
            format!("{reason}: {}", named.join("; "))
        }
        _ => reason.to_string(),
    };
    let fault = Diagnostic::error(code, message).at(Label::whole(origin.name.clone())).help(help);
    (fault.into(), exit)
}

/// E3003: a plan whose client waits for a clinician is neither counted nor handed out.
pub(super) fn may_train(profile: &Profile, name: String) -> Result<(), Faults> {
    match screening::advise(profile).withheld {
        Some(withheld) => Err(tell(&NoPlan::Withheld(withheld), &Origin { name, marks: None }).0),
        None => Ok(()),
    }
}

/// E3001: what collides, each demand at its line, and the ways out.
fn collide(impossible: &Impossible, origin: &Origin) -> Diagnostic {
    let message = match &impossible.conflict {
        Some(conflict) if conflict.proven => conflict::sentence(conflict),
        Some(conflict) => {
            format!("{} (perhaps fewer of these suffice)", conflict::sentence(conflict))
        }
        None => "no week meets all hard rules".to_owned(),
    };
    let mut fault = Diagnostic::error("E3001", message).help(help(impossible));
    let collisions = impossible.conflict.iter().flat_map(|conflict| &conflict.collisions);
    let alike = collisions.chunk_by(|one| (one.rule.clone(), one.path.clone()));
    for (_, collisions) in &alike {
        fault = fault.at(label(&collisions.collect::<Vec<_>>(), origin));
    }
    if fault.labels.is_empty() { fault.at(Label::whole(origin.name.clone())) } else { fault }
}

/// Collisions of one rule at one place of the profile.
fn label(alike: &[&Collision], origin: &Origin) -> Label {
    let text = format!("{}: {}", alike[0].rule, told(alike.iter().copied()).join("; "));
    let steps: Vec<Step> = alike[0]
        .path
        .iter()
        .map(|step| match step {
            PathStep::Key(key) => Step::Key(key),
            PathStep::Index(index) => Step::Index(*index),
        })
        .collect();
    match origin.marks {
        // A default has no line of its own.
        Some(marks) if marks.has(&steps[..steps.len().min(1)]) && !steps.is_empty() => {
            marks.at(&steps, text)
        }
        _ => Label { text, ..Label::whole(origin.name.clone()) },
    }
}

fn help(impossible: &Impossible) -> String {
    let ways: Vec<String> = impossible.ways.iter().map(WayOut::effect).collect();
    match ways.as_slice() {
        [] => "no single small change was found that helps; ask for less of what is named above"
            .to_owned(),
        [one] => format!("{one} (it was tried, and a plan exists)"),
        _ => {
            let numbered: Vec<String> = ways
                .iter()
                .enumerate()
                .map(|(place, way)| format!("{}. {way}", place + 1))
                .collect();
            format!("any one of these brings a plan, each was tried:\n{}", numbered.join("\n"))
        }
    }
}

/// The same for programs.
fn details(impossible: &Impossible) -> serde_json::Map<String, serde_json::Value> {
    let collisions = impossible.conflict.iter().flat_map(|conflict| &conflict.collisions);
    let conflict: Vec<_> = collisions
        .map(|one| {
            serde_json::json!({"rule": one.rule, "subject": one.subject, "demand": one.demand.to_string()})
        })
        .collect();
    let ways: Vec<_> = impossible
        .ways
        .iter()
        .map(|way| serde_json::json!({"change": way.to_string(), "cost": way.cost, "lacks": way.lacks}))
        .collect();
    let proven = impossible.conflict.as_ref().is_some_and(|conflict| conflict.proven);
    [("conflict", conflict.into()), ("minimal", proven.into()), ("ways_out", ways.into())]
        .map(|(key, value): (&str, serde_json::Value)| (key.to_owned(), value))
        .into_iter()
        .collect()
}
