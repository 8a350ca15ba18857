//! Why the week is as it is, in the few sentences that a coach would say over it: read from the plan as it stands, so that
//! a hand edit changes them too.

use itertools::Itertools as _;

use super::wording::say;
use super::{Names, head, phrase};
use crate::input::catalog::Entry;
use crate::input::profile::{Limit, Profile};
use crate::plan::file::{Item, Plan, Session};
use crate::request::screening::age;
use crate::words::{
    Effort, Emphasis, Goal, Kind, LoadKind, Muscle, Pattern, Status, Supersets, Turn,
};

/// From this age on machines and seats take the balance out of hard work.
const SENIOR: u32 = 65;

/// One sentence for each thing that the coach decided.
pub(crate) fn whys(plan: &Plan, names: &Names<'_>) -> Vec<String> {
    let Some(profile) = head::profile(plan) else { return Vec::new() };
    let week = Week { plan, names, profile };
    let mut lines = Vec::from_iter(week.shape());
    lines.extend(week.leads());
    lines.extend(week.heavier_and_lighter());
    lines.extend(week.emphasis());
    lines.extend(week.kept_out());
    lines.extend(week.limits());
    lines.extend(week.pairs());
    lines.extend(week.reserve());
    lines.extend(week.other_training());
    lines
}

struct Week<'a> {
    plan: &'a Plan,
    names: &'a Names<'a>,
    profile: &'a Profile,
}

impl<'a> Week<'a> {
    fn work(session: &'a Session) -> impl Iterator<Item = &'a Item> {
        session.groups.iter().filter(|group| group.is_work()).flat_map(|group| &group.items)
    }

    fn name(&self, id: &str) -> String {
        lower(&self.names.name(id))
    }

    fn entry(&self, item: &Item) -> Option<&'a Entry> {
        self.names.entry(&item.exercise)
    }

    /// How often the large muscles come.
    fn shape(&self) -> Option<String> {
        let days = |muscle: &Muscle| {
            let trains = |session: &&'a Session| {
                let mut items = Self::work(session).filter_map(|item| self.entry(item));
                items.any(|entry| entry.direct.contains(muscle))
            };
            self.plan.sessions.iter().filter(trains).count()
        };
        let large = [Muscle::Chest, Muscle::UpperBack, Muscle::Quads, Muscle::Hamstrings];
        let often: Vec<usize> = large.iter().map(days).collect();
        let (least, most) = (*often.iter().min()?, *often.iter().max()?);
        let sessions = self.plan.sessions.len();
        if sessions < 2 || most < 2 {
            return None;
        }
        let split =
            self.plan.split.as_ref().map_or(say!(why_the_week), |split| split.name.as_str());
        Some(if least < 2 {
            say!(why_split_uneven, split, least, most)
        } else {
            let days = if least == most {
                format!("{most}")
            } else {
                say!(range_from_to, low = least, high = most)
            };
            say!(why_split, split, days)
        })
    }

    /// What the sessions begin with, and why that; sessions with one reason share a sentence.
    fn leads(&self) -> Vec<String> {
        let mut by_reason: Vec<(String, Vec<String>)> = Vec::new();
        for (lead, reason) in self.plan.sessions.iter().filter_map(|session| self.lead(session)) {
            match by_reason.iter_mut().find(|(other, _)| *other == reason) {
                Some((_, leads)) => leads.push(lead),
                None => by_reason.push((reason, vec![lead])),
            }
        }
        let told =
            by_reason.iter().map(|(reason, leads)| format!("{}: {reason}.", leads.join(", ")));
        told.collect()
    }

    /// What a session begins with, and why that.
    fn lead(&self, session: &'a Session) -> Option<(String, String)> {
        let is_lead = |item: &&Item| {
            self.entry(item).is_some_and(|entry| {
                let fast = entry.pattern.is_some_and(Pattern::is_explosive);
                entry.kind == Some(Kind::Compound) && !fast
            })
        };
        let lead = Self::work(session).find(is_lead)?;
        let entry = self.entry(lead)?;
        let led = say!(why_led, day = session.day.name(), lift = self.name(&lead.exercise));
        Some((led, self.reason(lead, entry)))
    }

    fn reason(&self, lead: &Item, entry: &Entry) -> String {
        let choices = &self.profile.exercises;
        let wants = |muscle: &&Muscle| self.profile.emphasis.get(muscle) == Some(&Emphasis::More);
        let more = entry.direct.first().filter(wants);
        if self.profile.known_lifts.contains_key(&entry.id) {
            say!(why_lead_known).to_owned()
        } else if choices.must.contains(&entry.id) || choices.prefer.contains(&entry.id) {
            say!(why_lead_wished).to_owned()
        } else if let Some(muscle) = more {
            say!(why_lead_more, muscle = muscle.name())
        } else if lead.turn == Some(Turn::Lighter) {
            say!(why_lead_lighter).to_owned()
        } else {
            self.usual_reason(entry)
        }
    }

    /// What speaks for a lead where nobody asked for it.
    fn usual_reason(&self, entry: &Entry) -> String {
        let learns = self.profile.training_status == Status::Novice;
        let senior = age(self.profile).is_some_and(|age| age >= SENIOR);
        let strong = matches!(self.profile.goal, Goal::Strength | Goal::Power);
        let legs =
            matches!(entry.pattern, Some(Pattern::Squat | Pattern::Hinge | Pattern::HipExtension));
        let text = match entry.load {
            LoadKind::Stack | LoadKind::PlateMachine if senior => {
                say!(why_lead_seat)
            }
            LoadKind::Stack | LoadKind::PlateMachine if learns => {
                say!(why_lead_guided)
            }
            LoadKind::Stack | LoadKind::PlateMachine => {
                say!(why_lead_machine)
            }
            LoadKind::BarTotal if strong => {
                say!(why_lead_strength)
            }
            LoadKind::PerHand | LoadKind::SingleImplement if senior && !learns => {
                say!(why_lead_hands)
            }
            LoadKind::PerHand | LoadKind::SingleImplement if learns => {
                say!(why_lead_learned)
            }
            LoadKind::Band | LoadKind::Bodyweight | LoadKind::None | LoadKind::Assisted
                if !entry.is_hung() =>
            {
                say!(why_lead_hardest)
            }
            _ if entry.is_hung() => {
                say!(why_lead_hung)
            }
            _ if legs => say!(why_lead_legs),
            _ => say!(why_lead_upper),
        };
        text.to_owned()
    }

    /// Lifts with a heavier and a lighter day.
    fn heavier_and_lighter(&self) -> Vec<String> {
        let turned = |turn: Turn| {
            let of = move |session: &'a Session| {
                let items = Self::work(session).filter(move |item| item.turn == Some(turn));
                items.map(move |item| (session, item))
            };
            self.plan.sessions.iter().flat_map(of)
        };
        let told = turned(Turn::Heavier).filter_map(|(day, heavy)| {
            let (other, light) =
                turned(Turn::Lighter).find(|(_, item)| item.exercise == heavy.exercise)?;
            Some(say!(
                why_twice,
                lift = self.name(&heavy.exercise),
                day = day.day.name(),
                heavier = phrase::dose(heavy),
                other = other.day.name(),
                lighter = phrase::dose(light),
            ))
        });
        told.collect()
    }

    fn emphasis(&self) -> Vec<String> {
        let sets = |muscle: Muscle| {
            let row = self.plan.volume.iter().find(|row| row.muscle == muscle);
            row.map_or_else(|| "0".to_owned(), |row| phrase::trimmed(row.sets, 1))
        };
        let by = |muscle: Muscle| {
            let items = self.plan.sessions.iter().flat_map(Self::work);
            let own = items.filter(|item| {
                self.entry(item).is_some_and(|entry| entry.direct.first() == Some(&muscle))
            });
            own.map(|item| self.name(&item.exercise)).unique().join(", ")
        };
        let wishes = self.profile.emphasis.iter().map(|(muscle, wish)| match wish {
            Emphasis::More => {
                let (sets, by) = (sets(*muscle), by(*muscle));
                match by.is_empty() {
                    true => say!(why_more, muscle = muscle.name(), sets),
                    false => say!(why_more_with, muscle = muscle.name(), sets, by),
                }
            }
            Emphasis::Less => {
                say!(why_less, muscle = muscle.name(), sets = sets(*muscle))
            }
        });
        wishes.collect()
    }

    /// What is done in the place of what the client does not want.
    fn kept_out(&self) -> Vec<String> {
        let never = self.profile.exercises.never.iter().chain(&self.profile.exercises.avoid);
        let told = never.filter_map(|id| {
            let pattern = self.names.entry(id)?.pattern?;
            let items = self.plan.sessions.iter().flat_map(Self::work);
            let same = items
                .filter(|item| self.entry(item).and_then(|entry| entry.pattern) == Some(pattern));
            let mut others = same
                .filter(|item| item.exercise != *id)
                .map(|item| self.name(&item.exercise))
                .unique();
            let is_in =
                self.plan.sessions.iter().flat_map(Self::work).any(|item| item.exercise == *id);
            let other = others.join(", ");
            (!is_in && !other.is_empty()).then(|| say!(why_without, lift = self.name(id), other))
        });
        told.collect()
    }

    fn limits(&self) -> Option<String> {
        let mut limits = self.profile.limits.iter().map(|limit| match limit {
            Limit::Whole(stress) => stress.id().replace('-', " "),
            Limit::Graded(graded) => {
                let limit = graded.tag.id().replace('-', " ");
                say!(why_limit_up_to, limit, allowed = graded.allow.id())
            }
        });
        let limits = limits.join(", ");
        (!limits.is_empty()).then(|| say!(why_limits, limits))
    }

    fn pairs(&self) -> Option<String> {
        if self.profile.supersets == Supersets::Never {
            return Some(say!(why_no_pairs).to_owned());
        }
        let groups = self.plan.sessions.iter().flat_map(|session| &session.groups);
        let pairs = groups.filter(|group| group.is_work() && group.items.len() > 1).count();
        (pairs > 0).then(|| {
            let pairs = if pairs == 1 {
                say!(why_one_pair).to_owned()
            } else {
                say!(why_many_pairs, pairs)
            };
            say!(why_pairs, pairs)
        })
    }

    /// Why who learns stops early.
    fn reserve(&self) -> Option<String> {
        let learns = self.profile.training_status == Status::Novice;
        let leads = self.plan.sessions.iter().filter_map(|session| Self::work(session).next());
        let least = leads.filter_map(|item| item.rir).min()?;
        (learns && least >= 3).then(|| say!(why_reserve, reps = least))
    }

    fn other_training(&self) -> Vec<String> {
        let hard = self.profile.other_training.iter().filter(|other| other.load == Effort::Hard);
        let told = hard.map(|other| {
            say!(
                why_other_training,
                day = other.day.name(),
                muscles = head::muscles(&other.muscles)
            )
        });
        told.collect()
    }
}

/// A name in the middle of a sentence.
fn lower(name: &str) -> String {
    let mut letters = name.chars();
    let second_is_small = name.chars().nth(1).is_some_and(char::is_lowercase);
    let is_proper = ["Romanian", "Nordic"].iter().any(|proper| name.starts_with(proper));
    match letters.next() {
        Some(first) if second_is_small && !is_proper => {
            first.to_lowercase().chain(letters).collect()
        }
        _ => name.to_owned(),
    }
}
