//! A wish that has no plan: what collides, and the ways out, each a button that does it.

use serde::Serialize;

use super::draft::Refused;
use crate::diagnostic::Diagnostic;
use crate::explain::conflict;

/// A wish that has no plan.
#[derive(Serialize)]
pub(super) struct Collision {
    /// What was asked for.
    label: String,
    /// What collides, as one sentence; empty where nothing does.
    sentence: String,
    ways: Vec<Way>,
    /// Other faults.
    faults: Vec<Told>,
}

/// A way out.
#[derive(Serialize)]
struct Way {
    /// Its place in the list.
    place: usize,
    /// What is changed.
    change: String,
    /// What is changed, and what the plan then lacks.
    effect: String,
}

/// A fault as the command line tells it.
#[derive(Serialize)]
pub(super) struct Told {
    pub(super) code: &'static str,
    pub(super) is_error: bool,
    pub(super) message: String,
    pub(super) help: String,
    /// File, line and column, where there are any.
    pub(super) place: String,
}

impl Told {
    pub(super) fn of(fault: &Diagnostic) -> Told {
        let label = fault.labels.first();
        let place = label.map(|label| match label.span {
            Some(span) => format!("{}:{}:{}", label.source, span.line, span.column),
            None => label.source.clone(),
        });
        Told {
            code: fault.code,
            is_error: fault.is_error(),
            message: fault.message.clone(),
            help: fault.help.clone(),
            place: place.unwrap_or_default(),
        }
    }

    pub(super) fn all(faults: &[Diagnostic]) -> Vec<Told> {
        faults.iter().map(Told::of).collect()
    }
}

impl Collision {
    pub(super) fn of(refused: &Refused) -> Collision {
        let label = refused.label.clone();
        let Some(impossible) = &refused.impossible else {
            let faults = Told::all(&refused.told);
            return Collision { label, sentence: String::new(), ways: Vec::new(), faults };
        };
        let sentence = match &impossible.conflict {
            Some(found) => conflict::sentence(found),
            None => refused.told.first().map(|fault| fault.message.clone()).unwrap_or_default(),
        };
        let ways = impossible.ways.iter().enumerate();
        let ways =
            ways.map(|(place, way)| Way { place, change: way.to_string(), effect: way.effect() });
        Collision { label, sentence, ways: ways.collect(), faults: Vec::new() }
    }
}
