//! What a coach wants to try, from the fields of a form to a wish that the planner knows.

use super::fields::Fields;
use super::template::{word, word_of};
use crate::diagnostic::{Diagnostic, quoted};
use crate::input::plan::Plan;
use crate::input::profile::{Profile, SessionSlot};
use crate::input::suggest;
use crate::planner::Planner;
use crate::rework::{Ask, profile_of};
use crate::words::{Emphasis, Kit, Muscle, Stress};

/// The shortest and longest session that a profile may have, in minutes.
pub(super) const MINUTES: std::ops::RangeInclusive<u32> = 10..=240;

/// A wish in words and for the planner.
pub(super) struct Wish {
    pub(super) label: String,
    pub(super) ask: Ask,
}

/// `tue`, or `tue@07:30`, as reworks name a session.
pub(super) fn day_label(slot: &SessionSlot) -> String {
    match &slot.at {
        Some(at) => format!("{}@{at}", slot.day),
        None => slot.day.to_string(),
    }
}

/// The name of an exercise; its id where nothing knows it.
pub(super) fn name_of(planner: &Planner, plan: &Plan, id: &str) -> String {
    let entry = plan.exercises.get(id).or_else(|| planner.catalog().get(id));
    entry.map_or_else(|| id.to_owned(), |entry| entry.name.clone())
}

/// The wish of a form.
///
/// # Errors
/// Every field that makes no sense, in the words of the command line.
pub(super) fn wish(
    planner: &Planner,
    plan: &Plan,
    fields: &Fields,
) -> Result<Wish, Vec<Diagnostic>> {
    let Ok(profile) = profile_of(plan) else { return Err(vec![nothing_asked()]) };
    let mut reader = Reader {
        planner,
        plan,
        fields,
        labels: Vec::new(),
        faults: Vec::new(),
        ask: Ask::default(),
    };
    reader.minutes(profile);
    reader.days_off(profile);
    reader.kit();
    reader.limits();
    reader.exercises();
    reader.muscles(profile);
    reader.seed();
    let Reader { labels, faults, ask, .. } = reader;
    match (faults.is_empty(), labels.is_empty()) {
        (false, _) => Err(faults),
        (true, true) => Err(vec![nothing_asked()]),
        (true, false) => Ok(Wish { label: labels.join(", "), ask }),
    }
}

fn nothing_asked() -> Diagnostic {
    Diagnostic::error("E2003", word("nothing_asked")).help(word("nothing_asked_help"))
}

struct Reader<'a> {
    planner: &'a Planner,
    plan: &'a Plan,
    fields: &'a Fields,
    labels: Vec<String>,
    faults: Vec<Diagnostic>,
    ask: Ask,
}

impl Reader<'_> {
    fn minutes(&mut self, profile: &Profile) {
        for (day, text) in self.fields.under("minutes.") {
            let Some(slot) = profile.sessions.iter().find(|slot| day_label(slot) == day) else {
                continue;
            };
            match text.parse::<u32>().ok().filter(|minutes| MINUTES.contains(minutes)) {
                Some(minutes) if minutes == slot.minutes => {}
                Some(minutes) => {
                    self.labels.push(format!("{} {minutes} min", slot.day.name()));
                    self.ask.minutes.push((day.to_owned(), minutes));
                }
                None => self.faults.push(
                    Diagnostic::error("E2002", format!("{} is no number of minutes", quoted(text)))
                        .help(word("minutes_help")),
                ),
            }
        }
    }

    fn days_off(&mut self, profile: &Profile) {
        for day in self.fields.all("drop") {
            let slot = profile.sessions.iter().find(|slot| day_label(slot) == day);
            let name = slot.map_or_else(|| day.to_owned(), |slot| slot.day.name().to_owned());
            self.labels.push(word_of("tried_off", &name));
            self.ask.drop_days.push(day.to_owned());
        }
    }

    fn kit(&mut self) {
        for typed in self.fields.all("without") {
            if let Some(item) = self.known(typed, "kit", Kit::ALL, Kit::id) {
                self.labels.push(word_of("tried_without", &item.id().replace('-', " ")));
                self.ask.without.push(item);
            }
        }
    }

    fn limits(&mut self) {
        for typed in self.fields.all("limit") {
            if let Some(tag) = self.known(typed, "stress tag", Stress::ALL, Stress::id) {
                self.labels.push(word_of("tried_limit", &tag.id().replace('-', " ")));
                self.ask.limits.push(tag);
            }
        }
    }

    fn exercises(&mut self) {
        for id in self.fields.all("never") {
            if let Some(name) = self.exercise(id) {
                self.labels.push(word_of("tried_never", &name));
                self.ask.never.push(id.to_owned());
            }
        }
        for id in self.fields.all("must") {
            if let Some(name) = self.exercise(id) {
                self.labels.push(word_of("tried_must", &name));
                self.ask.must.push(id.to_owned());
            }
        }
        for pair in self.fields.all("swap") {
            let Some((old, new)) = pair.split_once(' ') else { continue };
            if let (Some(_), Some(name)) = (self.exercise(old), self.exercise(new)) {
                let old_name = name_of(self.planner, self.plan, old);
                self.labels.push(word_of("tried_swap", &name).replace("{old}", &old_name));
                self.ask.swap.push((old.to_owned(), new.to_owned()));
            }
        }
    }

    /// More, less or the usual of a muscle stands in the profile alone.
    fn muscles(&mut self, profile: &Profile) {
        let mut changed = profile.clone();
        for (field, wish) in
            [("more", Some(Emphasis::More)), ("less", Some(Emphasis::Less)), ("usual", None)]
        {
            for typed in self.fields.all(field) {
                if let Some(muscle) = self.known(typed, "muscle", Muscle::ALL, Muscle::id) {
                    self.labels.push(word_of(&format!("tried_{field}"), &muscle.name()));
                    match wish {
                        Some(wish) => changed.emphasis.insert(muscle, wish),
                        None => changed.emphasis.remove(&muscle),
                    };
                }
            }
        }
        if changed != *profile {
            self.ask.profile = Some(Box::new(changed));
        }
    }

    fn seed(&mut self) {
        let seed = match self.fields.get("seed") {
            Some("another") => self.plan.seed.wrapping_add(1),
            Some(text) => {
                if let Ok(seed) = text.parse() {
                    seed
                } else {
                    let message = format!("{} is no seed", quoted(text));
                    self.faults.push(Diagnostic::error("E2002", message).help(word("seed_help")));
                    return;
                }
            }
            None => return,
        };
        if seed != self.plan.seed {
            self.labels.push(word_of("tried_seed", &seed.to_string()));
            self.ask.seed = Some(seed);
        }
    }

    fn known<T: Copy>(
        &mut self,
        typed: &str,
        what: &str,
        all: &[T],
        id: impl Fn(T) -> &'static str,
    ) -> Option<T> {
        let found = all.iter().copied().find(|one| id(*one) == typed);
        if found.is_none() {
            let words: Vec<&str> = all.iter().map(|one| id(*one)).collect();
            self.faults.push(unknown(typed, what, &words));
        }
        found
    }

    fn exercise(&mut self, id: &str) -> Option<String> {
        if self.plan.exercises.contains_key(id) || self.planner.catalog().contains(id) {
            return Some(name_of(self.planner, self.plan, id));
        }
        let ids: Vec<&str> = self.planner.catalog().ids().collect();
        self.faults.push(unknown(id, "exercise", &ids));
        None
    }
}

fn unknown(typed: &str, what: &str, words: &[&str]) -> Diagnostic {
    Diagnostic::error("E2002", format!("there is no {what} {}", quoted(typed))).help(suggest::help(
        typed,
        words,
        word("word_help"),
    ))
}
