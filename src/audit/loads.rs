//! Loads, ramps, rests and effort of a plan, item by item: what the place can make, what the client was given as a
//! cap, and how far a week may go beyond the one before.

use std::collections::BTreeMap;

use crate::input::catalog::Entry;
use crate::input::place::Equipment;
use crate::input::plan::{Item, Plan, Session};
use crate::plan::screening::{self, CarefulStart};
use crate::plan::steps::MOST_RAISE;
use crate::plan::told::Lifts;
use crate::request::Request;
use crate::request::dose::dose_for;
use crate::rules::Finding;
use crate::strength::estimate::Ask;
use crate::strength::ladder::{Ladder, half_pounds, mass_text};
use crate::strength::racks;
use crate::strength::working_load::KnownLifts;
use crate::words::{GroupKind, LoadKind, Turn, Units};

const LOADS: &str = "loads";
const REST: &str = "rest";
const EFFORT: &str = "effort";

/// A rest may be this share of the dose's. Common practice: pairs and short sessions halve it.
const SHORTEST_REST: f64 = 0.4;
/// The same, upwards.
const LONGEST_REST: f64 = 2.5;
/// Grams that a load in pounds may be off.
const ROUNDING_LB: f64 = 0.01;

/// Everything odd about the loads of a plan, in its sessions at their fullest and in every week.
pub(super) fn check(plan: &Plan, request: &Request) -> Vec<Finding> {
    let profile = &request.profile;
    let mut audit = Loads {
        request,
        known: KnownLifts::of(profile),
        careful: screening::advise(profile).start,
        elsewhere: plan
            .exceptions
            .iter()
            .filter_map(|one| Some(((one.week, one.day.clone()), one.equipment.as_ref()?)))
            .collect(),
        kit: None,
        lifts: Lifts::default(),
        heaviest: BTreeMap::new(),
        findings: Vec::new(),
    };
    audit.sessions(&plan.sessions, "", None);
    for week in &plan.weeks {
        audit.sessions(&week.sessions, &format!("week {}, ", week.week), Some(week.week));
        audit.passed(&week.sessions);
    }
    audit.findings
}

struct Loads<'a> {
    request: &'a Request,
    known: KnownLifts,
    careful: CarefulStart,
    /// The kit of dates that are done at another place, by week and day.
    elsewhere: BTreeMap<(u32, String), &'a Equipment>,
    kit: Option<&'a Equipment>,
    lifts: Lifts,
    /// The heaviest load of each exercise in the weeks before.
    heaviest: BTreeMap<String, f64>,
    findings: Vec<Finding>,
}

impl Loads<'_> {
    fn sessions(&mut self, sessions: &[Session], week: &str, number: Option<u32>) {
        for session in sessions {
            self.kit = self.elsewhere.get(&(number.unwrap_or(0), session.day.to_string())).copied();
            for group in &session.groups {
                let works = matches!(group.kind, GroupKind::Single | GroupKind::Superset);
                let rest_s = group.items.iter().map(|item| item.rest_s).max().unwrap_or(0);
                for item in &group.items {
                    let Some(entry) = self.request.entries.get(&item.exercise).cloned() else {
                        continue;
                    };
                    let place = format!("{week}{}, {}", session.day, item.exercise);
                    self.load(item, &entry, &place, number);
                    if works {
                        self.rest(rest_s, group.items.len(), (&entry, item.turn), &place);
                        self.effort(item, &place, number);
                    }
                }
            }
        }
    }

    fn passed(&mut self, sessions: &[Session]) {
        let items = sessions.iter().flat_map(|session| &session.groups);
        for item in items.flat_map(|group| &group.items) {
            if let Some(load) = item.load_kg {
                let heaviest = self.heaviest.entry(item.exercise.clone()).or_insert(load);
                *heaviest = heaviest.max(load);
            }
        }
    }

    fn broken(&mut self, place: &str, wanted: String, got: String) {
        self.findings.push(Finding::broken(LOADS, place, wanted, got));
    }

    fn load(&mut self, item: &Item, entry: &Entry, place: &str, week: Option<u32>) {
        let units = self.request.profile.units;
        let lift = self.lifts.of(&self.request.profile, &self.careful, &self.known, entry);
        let elsewhere = self.kit.and_then(|kit| racks::ladder(entry, kit, units));
        let ladder = if self.kit.is_some() { elsewhere.as_ref() } else { lift.ladder.as_ref() };
        for (kg, lb, what) in written(item) {
            let Some(kg) = kg else { continue };
            if lb.is_some_and(|lb| (half_pounds(kg) - lb).abs() > ROUNDING_LB) {
                let wanted = format!("{} lb beside {kg} kg", half_pounds(kg));
                self.broken(place, wanted, format!("{} lb", lb.unwrap_or_default()));
            }
            let is_body = entry.load == LoadKind::BodyweightPlus && kg == 0.0;
            if takes_none(entry) {
                self.broken(
                    place,
                    format!("no {what}, the exercise takes none"),
                    mass_text(kg, units),
                );
            } else if let Some(ladder) = ladder.filter(|_| !is_body)
                && ladder.near(kg).is_none()
            {
                self.broken(place, format!("a {what} that the place can make"), told(kg, ladder));
            }
        }
        self.search(item, ladder, place);
        self.ramp(item, ladder, place);
        let Some((load, ladder)) = item.load_kg.zip(ladder) else { return };
        if let Some(cap) = lift.cap_kg.filter(|cap| load > cap + 1e-6) {
            self.broken(
                place,
                format!("at most the cap of {}", ladder.text(cap)),
                ladder.text(load),
            );
        }
        self.course(item, entry, ladder, load, place, week);
    }

    /// More than a tenth and a step above what the course so far allows.
    fn course(
        &mut self,
        item: &Item,
        entry: &Entry,
        ladder: &Ladder,
        load: f64,
        place: &str,
        week: Option<u32>,
    ) {
        let before = week.and_then(|_| self.heaviest.get(&item.exercise).copied());
        let by_lift = || {
            let reps = crate::plan::fit::most_of(item);
            let ask = Ask { reps, rir: item.rir?, most_percent: self.careful.most_percent };
            self.known.working_load(entry, Some(ladder), ask).load_kg
        };
        let done = item.basis.as_ref().and_then(|basis| basis.load);
        // In the first weeks the known lift says what may be, later the weeks before, and what was done by then.
        let known = done.into_iter().chain(before).reduce(f64::max);
        let Some(allowed) = known.or_else(by_lift) else { return };
        let step = ladder.next_above(allowed).unwrap_or(allowed);
        let most = (allowed * MOST_RAISE).max(step);
        if load > most + 1e-6 {
            let wanted = format!(
                "at most {}, a tenth or a step above {}",
                ladder.text(most),
                ladder.text(allowed)
            );
            self.broken(place, wanted, ladder.text(load));
        }
    }

    fn search(&mut self, item: &Item, ladder: Option<&Ladder>, place: &str) {
        let Some(find) = &item.find_load else { return };
        // Without the kit there is nothing to say of its loads; the rule about kit says the rest.
        let Some(ladder) = ladder else { return };
        let steps = (1..find.sets).map(|set| find.start_kg + find.step_kg * f64::from(set));
        for load in steps {
            if ladder.near(load).is_none() {
                let wanted = "a climb that the place can make".to_owned();
                self.broken(place, wanted, told(load, ladder));
                return;
            }
        }
        let mut remark = |wanted: String, got: String| {
            self.findings.push(Finding::broken(LOADS, place, wanted, got).as_remark());
        };
        if item.load_kg.is_some() {
            remark("a load or a way to find one".to_owned(), "both".to_owned());
        }
        if find.sets > item.sets {
            remark(format!("a climb of {} sets at most", item.sets), find.sets.to_string());
        }
        if let Some(rir) = item.rir.filter(|rir| *rir != find.stop) {
            remark(format!("a climb that stops at {rir} in reserve"), find.stop.to_string());
        }
    }

    /// Ramp sets below the work: a step as heavy as the work is no ramp.
    fn ramp(&mut self, item: &Item, ladder: Option<&Ladder>, place: &str) {
        let work = item.load_kg.or(item.find_load.as_ref().map(|find| find.start_kg));
        let most = item.ramp.iter().filter_map(|step| step.load_kg).fold(0.0, f64::max);
        if let (Some(work), Some(ladder)) = (work, ladder)
            && most >= work
        {
            let wanted = format!("ramp sets under {}", ladder.text(work));
            self.findings
                .push(Finding::broken(LOADS, place, wanted, ladder.text(most)).as_remark());
        }
    }

    fn rest(
        &mut self,
        rest_s: u32,
        items: usize,
        (entry, turn): (&Entry, Option<Turn>),
        place: &str,
    ) {
        let profile = &self.request.profile;
        let dosed = dose_for(profile.goal, profile.training_status, entry, turn).rest_s;
        if dosed == 0 {
            return;
        }
        // In a round the others' sets are rest too.
        let share = if items > 1 { 0.0 } else { SHORTEST_REST };
        let least = f64::from(dosed) * share;
        let most = f64::from(dosed) * LONGEST_REST;
        if f64::from(rest_s) < least || f64::from(rest_s) > most {
            let wanted = format!("{least:.0} to {most:.0} s of rest");
            self.findings
                .push(Finding::broken(REST, place, wanted, format!("{rest_s} s")).as_remark());
        }
    }

    fn effort(&mut self, item: &Item, place: &str, week: Option<u32>) {
        let least = week.map_or(self.careful.least_rir, |week| self.careful.rir(week));
        if let Some(rir) = item.rir.filter(|rir| *rir < least) {
            let wanted = format!("{least} in reserve, the start is a careful one");
            self.findings.push(Finding::broken(EFFORT, place, wanted, rir.to_string()).as_remark());
        }
    }
}

/// The loads that an item writes down, each in both units, and what they are.
fn written(item: &Item) -> Vec<(Option<f64>, Option<f64>, &'static str)> {
    let mut loads = vec![(item.load_kg, item.load_lb, "load")];
    loads.extend(item.ramp.iter().map(|step| (step.load_kg, step.load_lb, "ramp set")));
    loads.extend(
        item.find_load.iter().map(|find| (Some(find.start_kg), find.start_lb, "first load")),
    );
    loads
}

fn takes_none(entry: &Entry) -> bool {
    matches!(entry.load, LoadKind::Bodyweight | LoadKind::Band | LoadKind::None)
}

/// A load with its neighbors: `43 kg (there are 42.5 kg and 45 kg)`.
fn told(kg: f64, ladder: &Ladder) -> String {
    let near: Vec<String> = [ladder.at_most(kg), ladder.next_above(kg)]
        .into_iter()
        .flatten()
        .map(|load| ladder.text(load))
        .collect();
    let units = if ladder.text(1.0).ends_with("lb") { Units::Lb } else { Units::Kg };
    format!("{} (there is {})", mass_text(kg, units), near.join(" and "))
}
