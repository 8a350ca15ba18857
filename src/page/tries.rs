//! What a coach wants to try, from the fields of a form to a wish that the planner knows.

use super::fields::Fields;
use super::template::say;
use crate::diagnostic::{Diagnostic, quoted};
use crate::input::plan::Plan;
use crate::input::profile::{Profile, SessionSlot};
use crate::input::suggest;
use crate::planner::Planner;
use crate::rework::{Ask, profile_of};
use crate::sheets::phrase;
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

/// `Tuesday`, with its hour where that day has another session too.
pub(super) fn day_name(profile: &Profile, slot: &SessionSlot) -> String {
    let same = profile.sessions.iter().filter(|one| one.day == slot.day).count();
    let at = slot.at.as_deref().and_then(phrase::clock).filter(|_| same > 1);
    let at = at.map(|at| format!(" {}", phrase::clock_text(at, profile.clock)));
    format!("{}{}", slot.day.name(), at.unwrap_or_default())
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
    Diagnostic::error("E2003", say!(nothing_asked)).help(say!(nothing_asked_help))
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
                    self.labels.push(say!(tried_minutes, day = day_name(profile, slot), minutes));
                    self.ask.minutes.push((day.to_owned(), minutes));
                }
                None => self.faults.push(
                    Diagnostic::error("E2002", say!(no_minutes, typed = quoted(text)))
                        .help(say!(minutes_help)),
                ),
            }
        }
    }

    fn days_off(&mut self, profile: &Profile) {
        for day in self.fields.all("drop") {
            let slot = profile.sessions.iter().find(|slot| day_label(slot) == day);
            let name = slot.map_or_else(|| day.to_owned(), |slot| day_name(profile, slot));
            self.labels.push(say!(tried_off, day = name));
            self.ask.drop_days.push(day.to_owned());
        }
    }

    fn kit(&mut self) {
        for typed in self.fields.all("without") {
            if let Some(item) = self.known(typed, say!(what_kit), Kit::ALL, Kit::id) {
                self.labels.push(say!(tried_without, kit = item.id().replace('-', " ")));
                self.ask.without.push(item);
            }
        }
    }

    fn limits(&mut self) {
        for typed in self.fields.all("limit") {
            if let Some(tag) = self.known(typed, say!(what_stress), Stress::ALL, Stress::id) {
                self.labels.push(say!(tried_limit, limit = tag.id().replace('-', " ")));
                self.ask.limits.push(tag);
            }
        }
    }

    fn exercises(&mut self) {
        for id in self.fields.all("never") {
            if let Some(name) = self.exercise(id) {
                self.labels.push(say!(tried_never, name));
                self.ask.never.push(id.to_owned());
            }
        }
        for id in self.fields.all("must") {
            if let Some(name) = self.exercise(id) {
                self.labels.push(say!(tried_must, name));
                self.ask.must.push(id.to_owned());
            }
        }
        for pair in self.fields.all("swap") {
            let Some((old, new)) = pair.split_once(' ') else { continue };
            if let (Some(_), Some(name)) = (self.exercise(old), self.exercise(new)) {
                let old_name = name_of(self.planner, self.plan, old);
                self.labels.push(say!(tried_swap, new = name, old = old_name));
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
                if let Some(muscle) = self.known(typed, say!(what_muscle), Muscle::ALL, Muscle::id)
                {
                    let name = muscle.name();
                    self.labels.push(match wish {
                        Some(Emphasis::More) => say!(tried_more, muscle = name),
                        Some(Emphasis::Less) => say!(tried_less, muscle = name),
                        None => say!(tried_usual, muscle = name),
                    });
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
                    let message = say!(no_seed, typed = quoted(text));
                    self.faults.push(Diagnostic::error("E2002", message).help(say!(seed_help)));
                    return;
                }
            }
            None => return,
        };
        if seed != self.plan.seed {
            self.labels.push(say!(tried_seed, seed));
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
        self.faults.push(unknown(id, say!(what_exercise), &ids));
        None
    }
}

fn unknown(typed: &str, what: &str, words: &[&str]) -> Diagnostic {
    Diagnostic::error("E2002", say!(no_such_word, what, typed = quoted(typed))).help(suggest::help(
        typed,
        words,
        say!(word_help),
    ))
}
