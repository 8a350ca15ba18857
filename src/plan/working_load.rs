//! From what a client has lifted to the load on the bar: for repetitions at a reserve, never above a cap, rounded
//! down to what the place can make.

use std::collections::BTreeMap;
use std::sync::LazyLock;

use serde::Deserialize;

use crate::input::catalog::Entry;
use crate::input::profile::Profile;
use crate::plan::loads::{Ladder, mass_text, to_kg};
use crate::plan::strength::{Estimate, Estimator, percent_at_reserve};
use crate::words::{Kit, LoadKind, Units};

/// What a note begins with where the load is still to be found.
pub const FIRST_LOAD: &str = "first load:";

/// What stands in a note before the estimate of the most for one repetition; its figures end with a
/// closing bracket.
pub const ESTIMATE: &str = ": most for one about";

/// What a client has lifted lately, in kilograms.
#[derive(Debug, Clone, Default)]
pub struct KnownLifts {
    lifts: BTreeMap<String, Lift>,
    body_mass_kg: Option<f64>,
    units: Option<Units>,
}

#[derive(Debug, Clone)]
struct Lift {
    load_kg: f64,
    reps: u32,
    rir: u32,
    cap_kg: Option<f64>,
}

/// How heavy a set should be.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ask {
    /// Repetitions of the set.
    pub reps: u32,
    /// Repetitions left in reserve.
    pub rir: u32,
    /// The most in percent of the maximum, where age or a long break asks for it.
    pub most_percent: Option<f64>,
}

/// A load for the first week, or how to find one.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct WorkingLoad {
    /// The whole bar, or one hand's implement; none where it is to be found, or where there is nothing to load.
    pub load_kg: Option<f64>,
    /// Where the load comes from, or how to find it; empty where there is nothing to load.
    pub note: String,
    /// The estimated one-repetition maximum, for the weeks that follow.
    pub one_rep_max_kg: Option<f64>,
    /// The load that is never passed.
    pub cap_kg: Option<f64>,
}

/// A maximum and where it comes from.
struct Source<'a> {
    one_rep_max: f64,
    lift: &'a Lift,
    direct: bool,
    text: String,
}

impl KnownLifts {
    /// The lifts of a profile.
    #[must_use]
    pub fn of(profile: &Profile) -> KnownLifts {
        let kg = |load: f64| to_kg(load, profile.units);
        let lifts = profile.known_lifts.iter().map(|(id, known)| {
            let lift = Lift {
                load_kg: kg(known.load),
                reps: known.reps,
                rir: known.rir,
                cap_kg: known.cap.map(kg),
            };
            (id.clone(), lift)
        });
        KnownLifts {
            lifts: lifts.collect(),
            body_mass_kg: profile.body_mass_kg,
            units: Some(profile.units),
        }
    }

    /// What a careful coach would say about the lifts themselves: estimates that are refused or rough, caps that
    /// are already passed.
    #[must_use]
    pub fn remarks(&self) -> Vec<String> {
        let mut remarks = Vec::new();
        for (id, lift) in &self.lifts {
            match Estimate::from_set(lift.load_kg, lift.reps, lift.rir) {
                Err(error) => remarks.push(format!("{}: {error}; find the load in the gym", name(id))),
                Ok(estimate) if estimate.is_rough() => remarks.push(format!(
                    "{}: an estimate from {} repetitions to failure is rough; a set of 3 to 8 tells more",
                    name(id),
                    estimate.reps
                )),
                Ok(_) => {}
            }
            if let Some(cap) = lift.cap_kg.filter(|cap| *cap < lift.load_kg) {
                remarks.push(format!(
                    "{}: the cap of {} is under the {} already lifted; the cap holds",
                    name(id),
                    self.mass(cap),
                    self.mass(lift.load_kg)
                ));
            }
        }
        remarks
    }

    /// The load for a set, or how to find it.
    #[must_use]
    pub fn working_load(&self, entry: &Entry, ladder: Option<&Ladder>, ask: Ask) -> WorkingLoad {
        let cap_kg = self.lifts.get(&entry.id).and_then(|lift| lift.cap_kg);
        let Some(ladder) = ladder else {
            let note = unloaded_note(entry.load, ask.rir).to_owned();
            return WorkingLoad { note, cap_kg, ..WorkingLoad::default() };
        };
        let mut found = WorkingLoad { cap_kg, ..WorkingLoad::default() };
        let Some(source) = self.source(entry) else {
            found.note = self.find_note(entry, ladder, cap_kg);
            return found;
        };
        found.one_rep_max_kg = Some(source.one_rep_max);
        let Some(wanted) = self.wanted(entry, &source, ask) else {
            found.note = self.find_note(entry, ladder, cap_kg);
            return found;
        };
        let limited = cap_kg.map_or(wanted, |cap| cap.min(wanted));
        found.load_kg = ladder.at_most(limited);
        found.note = match found.load_kg {
            Some(_) if limited < wanted => {
                format!("held at the cap of {}; {}", self.mass(limited), source.text)
            }
            Some(_) => source.text,
            None => self.too_light_note(entry, ladder, limited, &source),
        };
        found
    }

    /// The load in kilograms that the maximum gives, before cap and rounding.
    fn wanted(&self, entry: &Entry, source: &Source<'_>, ask: Ask) -> Option<f64> {
        let percent = percent_at_reserve(ask.reps, ask.rir)?;
        let percent = ask.most_percent.map_or(percent, |most| most.min(percent));
        let mut total = source.one_rep_max * percent / 100.0;
        let done = source.lift;
        if source.direct && ask.reps + ask.rir >= done.reps + done.rir {
            // At least as many as were done: no more than was lifted then.
            total = total.min(done.load_kg + self.body_share(entry));
        }
        let load = total - self.body_share(entry);
        (load > 0.0).then_some(load)
    }

    /// The body's own part in the load that is lifted.
    fn body_share(&self, entry: &Entry) -> f64 {
        match entry.load {
            LoadKind::BodyweightPlus => self.body_mass_kg.unwrap_or(0.0),
            _ => 0.0,
        }
    }

    fn source(&self, entry: &Entry) -> Option<Source<'_>> {
        if entry.load == LoadKind::BodyweightPlus && self.body_mass_kg.is_none() {
            return None;
        }
        if let Some(lift) = self.lifts.get(&entry.id) {
            let body = self.body_share(entry);
            let estimate = Estimate::from_set(lift.load_kg + body, lift.reps, lift.rir).ok()?;
            let text = self.set_text(lift, &estimate, "");
            return Some(Source { one_rep_max: estimate.one_rep_max, lift, direct: true, text });
        }
        RELATED.iter().filter(|row| row.lift == entry.id).find_map(|row| {
            let lift = self.lifts.get(&row.from)?;
            let body = if row.with_body { self.body_mass_kg? } else { 0.0 };
            let estimate = Estimate::from_set(lift.load_kg + body, lift.reps, lift.rir).ok()?;
            let text = format!(
                "a cautious start: {:.0} % of the {} ({}), common practice",
                row.share * 100.0,
                name(&row.from),
                self.set_text(lift, &estimate, "its ")
            );
            let one_rep_max = estimate.one_rep_max * row.share;
            Some(Source { one_rep_max, lift, direct: false, text })
        })
    }

    /// "50 kg × 5 with 2 left: most about 60 kg (Brzycki; 57-62 kg by seven equations)".
    fn set_text(&self, lift: &Lift, estimate: &Estimate, whose: &str) -> String {
        let reserve = if lift.rir == 0 { "none".to_owned() } else { lift.rir.to_string() };
        let rough = if estimate.is_rough() { ", rough" } else { "" };
        format!(
            "from {whose}{} × {} with {reserve} left{ESTIMATE} {} ({}, {} to {}{rough})",
            self.mass(lift.load_kg),
            lift.reps,
            self.mass(estimate.one_rep_max.round()),
            Estimator::DEFAULT,
            self.mass(estimate.low.floor()),
            self.mass(estimate.high.ceil()),
        )
    }

    fn mass(&self, load_kg: f64) -> String {
        mass_text(load_kg, self.units.unwrap_or(Units::Kg))
    }

    /// Where the search for a load begins; how it goes on stands once at the head of a session.
    fn find_note(&self, entry: &Entry, ladder: &Ladder, cap: Option<f64>) -> String {
        let lightest = ladder.text(ladder.lightest());
        let start = match entry.load {
            LoadKind::BarTotal if lies_low(entry) => {
                format!("empty bar ({lightest}), raised to mid-shin on blocks or plates")
            }
            LoadKind::BarTotal => format!("empty bar ({lightest})"),
            LoadKind::BodyweightPlus => "body weight alone".to_owned(),
            _ => format!("light (from {lightest})"),
        };
        let most = cap.map_or(String::new(), |cap| format!("; never above {}", self.mass(cap)));
        format!("{FIRST_LOAD} {start}{most}")
    }

    fn too_light_note(
        &self,
        entry: &Entry,
        ladder: &Ladder,
        limited: f64,
        source: &Source<'_>,
    ) -> String {
        let what =
            if entry.load == LoadKind::BarTotal { "the empty bar" } else { "the lightest here" };
        let easier = entry.easier.first().map_or_else(
            || "use a lighter bar or an easier form".to_owned(),
            |easier| format!("take an easier form, such as the {}", name(easier)),
        );
        format!(
            "about {} is wanted, under {what} ({}): {easier}; {}",
            self.mass(limited),
            ladder.text(ladder.lightest()),
            source.text
        )
    }
}

/// Whether the bar is lifted from the floor, where it lies too low without large plates: common practice.
fn lies_low(entry: &Entry) -> bool {
    let family = entry.family.as_ref().unwrap_or(&entry.id);
    family == "deadlift" && entry.needs.iter().any(|kit| !kit.contains(&Kit::SquatRack))
}

fn name(id: &str) -> String {
    id.replace('-', " ")
}

const fn unloaded_note(load: LoadKind, rir: u32) -> &'static str {
    match (load, rir) {
        (LoadKind::Band, 0..=1) => "a band with which the last repetition is just clean",
        (LoadKind::Band, _) => "a band that leaves a few good repetitions",
        (LoadKind::Assisted, _) => "as much help as leaves a few good repetitions",
        _ => "",
    }
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct Related {
    lift: String,
    from: String,
    share: f64,
    /// Whether the known lift counts the body with its load.
    #[serde(default)]
    with_body: bool,
}

static RELATED: LazyLock<Vec<Related>> = LazyLock::new(|| {
    serde_yaml::from_str(include_str!("related.yaml")).expect("related.yaml is well formed")
});

#[cfg(test)]
mod tests;
