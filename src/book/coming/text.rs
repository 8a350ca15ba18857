//! A line and its reason in words.

use crate::book::done::kilograms;
use crate::book::history::Performance;
use crate::book::rule::{Decision, Rule};
use crate::input::plan::{Amounts, Item};
use crate::strength::ladder::mass_text;
use crate::words::{Measure, Units};

/// The reason in a clause, with what changes: `two sessions with two more than asked: 42.5 → 45 kg`.
pub(super) fn because(decision: &Decision, last: &Performance, units: Units) -> String {
    let loads = last.load.grams().zip(decision.load_g);
    if let Some((before, now)) = loads.filter(|(before, now)| before != now) {
        let unit = format!(" {}", units.id());
        let [before, now] = [before, now].map(|load| mass_text(kilograms(load), units));
        let before = before.strip_suffix(unit.as_str()).unwrap_or(&before).to_owned();
        return format!("{}: {before} → {now}", decision.because);
    }
    let asked = last.asked.map(|asked| asked.amount);
    match asked {
        Some(asked) if asked != decision.amount && decision.rule != Rule::EasierWeek => {
            let unit = unit(last.measure);
            format!("{}: {asked} → {}{unit} a set", decision.because, decision.amount)
        }
        _ => decision.because.clone(),
    }
}

const fn unit(measure: Measure) -> &'static str {
    match measure {
        Measure::Reps => "",
        Measure::Seconds => " s",
        Measure::Meters => " m",
        Measure::Calories => " cal",
    }
}

/// What a line asks for: `3 × 10, 45 kg`.
pub(super) fn line(item: &Item, units: Units) -> String {
    let (list, measure) = match item.amounts() {
        Some(Amounts::Reps(list)) => (list, Measure::Reps),
        Some(Amounts::Seconds(list)) => (list, Measure::Seconds),
        Some(Amounts::Meters(list)) => (list, Measure::Meters),
        Some(Amounts::Calories(list)) => (list, Measure::Calories),
        None => (&[][..], Measure::Reps),
    };
    let amount = list.iter().max().copied().unwrap_or(0);
    let load = item.load_kg.map_or(String::new(), |load| format!(", {}", mass_text(load, units)));
    format!("{} × {amount}{}{load}", item.sets, unit(measure))
}

/// What stands beside the load on the card: how it is put together, then why.
#[allow(clippy::unnecessary_wraps, reason = "the card's note may be absent")]
pub(super) fn joined(plates: Option<String>, because: &str) -> Option<String> {
    Some(plates.map_or_else(|| because.to_owned(), |plates| format!("{plates}; {because}")))
}
