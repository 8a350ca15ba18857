//! What the client has lifted lately.

use super::Case;
use super::exercises::unknown_exercise;
use crate::diagnostic::{Diagnostic, Label, quoted};
use crate::input::catalog::Entry;
use crate::input::place::{Equipment, KG_PER_LB};
use crate::input::profile::KnownLift;
use crate::path;
use crate::words::{Kit, LoadKind, Units};

/// Each known lift with its entry of the catalog.
fn lifts<'a>(case: &'a Case<'_>) -> impl Iterator<Item = (&'a str, &'a KnownLift, &'a Entry)> {
    case.profile.known_lifts.iter().filter_map(|(id, lift)| {
        let entry = case.known.entry(id)?;
        Some((id.as_str(), lift, entry))
    })
}

fn at(case: &Case<'_>, id: &str, key: &str, text: &str) -> Label {
    case.marks.at(path!["known_lifts", id, key], text)
}

/// E1315: a lift is an exercise of the catalog.
pub(super) fn e1315_ids_are_known(case: &Case<'_>) -> Vec<Diagnostic> {
    let ids = case.profile.known_lifts.keys();
    let unknown = ids.filter(|id| case.known.entry(id).is_none());
    unknown
        .map(|id| {
            let label = case.marks.at_key(path!["known_lifts", id], "not in the catalog");
            unknown_exercise("E1315", case, id).at(label)
        })
        .collect()
}

/// E1331: the range of a load is wide enough for pounds; in kilograms nobody lifts so much (common practice).
pub(super) fn e1331_load_can_be_lifted(case: &Case<'_>) -> Vec<Diagnostic> {
    const MOST_KG: f64 = 500.0;
    if case.profile.units != Units::Kg {
        return Vec::new();
    }
    let told = case.profile.known_lifts.iter().flat_map(|(id, lift)| {
        let cap = lift.cap.map(|cap| (id, "cap", cap));
        [Some((id, "load", lift.load)), cap].into_iter().flatten()
    });
    told.filter(|(_, _, load)| *load > MOST_KG)
        .map(|(id, key, load)| {
            let message = format!("{} with {load} kg cannot be", quoted(id));
            Diagnostic::error("E1331", message)
                .at(at(case, id, key, format!("over {MOST_KG} kg").as_str()))
                .help("check the digits, or write `units: lb` where it is in pounds")
        })
        .collect()
}

/// W1316: less than the empty bar cannot be put on a bar, so the exercise starts with the bar.
pub(super) fn w1316_load_is_a_bar_at_least(case: &Case<'_>) -> Vec<Diagnostic> {
    let unit = case.profile.units;
    let kilograms = |load: f64| match unit {
        Units::Kg => load,
        Units::Lb => load * KG_PER_LB,
    };
    let on_a_bar = lifts(case).filter(|(_, _, entry)| entry.load == LoadKind::BarTotal);
    let too_light = on_a_bar.filter_map(|(id, lift, entry)| {
        let bar = lightest_bar(entry, case.equipment)?;
        (kilograms(lift.load) < bar - 0.05).then_some((id, lift.load, bar))
    });
    too_light
        .map(|(id, load, bar)| {
            let message = format!("{} with {load} {unit} is less than the empty bar", quoted(id));
            Diagnostic::warning("W1316", message)
                .at(at(case, id, "load", "the bar is part of the load"))
                .help(format!(
                    "write bar and plates together (the bar here has {bar} kg); until then the \
                     exercise is planned as if no load were known"
                ))
        })
        .collect()
}

/// The lightest bar among those that the exercise may be done with; usual masses are common
/// practice.
fn lightest_bar(entry: &Entry, equipment: Option<&Equipment>) -> Option<f64> {
    const USUAL: [(Kit, f64); 3] = [(Kit::Barbell, 20.0), (Kit::TrapBar, 20.0), (Kit::EzBar, 8.0)];
    let needed = |kit: Kit| entry.needs.iter().any(|set| set.contains(&kit));
    let mass = |(kit, usual): (Kit, f64)| {
        let stock = equipment.and_then(|equipment| equipment.items.get(&kit));
        stock.and_then(|stock| stock.offer().bare_kg()).unwrap_or(usual)
    };
    USUAL.into_iter().filter(|(kit, _)| needed(*kit)).map(mass).min_by(f64::total_cmp)
}

/// W1317: body weight and bands have no load to know.
pub(super) fn w1317_exercise_takes_a_load(case: &Case<'_>) -> Vec<Diagnostic> {
    let without = lifts(case).filter(|(_, lift, entry)| {
        let none = matches!(entry.load, LoadKind::Bodyweight | LoadKind::Band | LoadKind::None);
        none && lift.load > 0.0
    });
    without
        .map(|(id, _, entry)| {
            Diagnostic::warning("W1317", format!("{} takes no load in kg or lb", quoted(id)))
                .at(case.marks.at_key(path!["known_lifts", id], format!("load: {}", entry.load)))
                .help("leave the load out and keep the repetitions, or name the loaded form of the exercise")
        })
        .collect()
}

/// W1318: a cap under what was lifted holds, so the plan steps back.
pub(super) fn w1318_cap_is_above_what_was_done(case: &Case<'_>) -> Vec<Diagnostic> {
    let capped = lifts(case).filter_map(|(id, lift, _)| {
        let cap = lift.cap.filter(|cap| *cap < lift.load)?;
        Some((id, lift.load, cap))
    });
    capped
        .map(|(id, load, cap)| {
            let message = format!("the cap of {} is under the {load} that was lifted", quoted(id));
            Diagnostic::warning("W1318", message)
                .at(at(case, id, "cap", "lower than the load"))
                .help(format!(
                    "the plan stays at or under {cap}; raise the cap if that is not meant"
                ))
        })
        .collect()
}
