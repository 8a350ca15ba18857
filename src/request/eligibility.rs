//! May this client do this exercise, with which kit, and if not, why? Asked here by everyone: the request, the rules
//! that recount, preparation and the course of the weeks.

use super::candidate::grade;
use super::{Barred, Request, screening};
use crate::input::catalog::Entry;
use crate::input::profile::{Limit, Profile};
use crate::words::{Goal, Kit, Pattern, Role, Status, Stress};

impl Request {
    /// The kit that an exercise is done with, or the first reason that keeps it out.
    ///
    /// # Errors
    /// The client's never list, the place's kit, the limits, what was reported before training, or the level, in this
    /// order.
    pub fn eligible(&self, entry: &Entry) -> Result<Vec<Kit>, Barred> {
        let never = &self.profile.exercises.never;
        let form = entry.family.as_ref().filter(|_| entry.role == Role::Finisher);
        if never.contains(&entry.id) || form.is_some_and(|form| never.contains(form)) {
            return Err(Barred::Never);
        }
        let kit = kit_for(&self.profile, entry)?;
        if let Some(stress) = limited(&self.profile, entry) {
            return Err(Barred::Limit(stress));
        }
        if let Some(reported) = screening::kept_out(&self.profile, entry) {
            return Err(Barred::Reported(reported));
        }
        if entry.level > self.most_level(entry) {
            return Err(Barred::Level(entry.level));
        }
        Ok(kit)
    }

    /// The entries of a role that the client may do, in id order, whether or not the week has a use for them.
    pub fn eligible_for(&self, role: Role) -> impl Iterator<Item = &Entry> {
        let entries = self.entries.values().map(AsRef::as_ref);
        entries.filter(move |entry| entry.role == role && self.eligible(entry).is_ok())
    }

    /// The highest level that an entry may have: the client's, or one above where it is named.
    #[must_use]
    pub fn most_level(&self, entry: &Entry) -> u8 {
        self.figures.level + u8::from(is_named(&self.profile, &entry.id))
    }

    /// How often a week an exercise may be done: three times for main lifts of novices on three days or of strength goals, else twice;
    /// trunk, calves and balance are free, and where the client may do fewer than three exercises of its pattern, half
    /// the days (common practice).
    #[must_use]
    pub fn weekly_uses(&self, entry: &Entry) -> u32 {
        let days = u32::try_from(self.days.len()).unwrap_or(u32::MAX);
        let pattern = entry.pattern.unwrap_or(Pattern::Locomotion);
        if pattern.is_trunk() || matches!(pattern, Pattern::PlantarFlexion | Pattern::Balance) {
            return days;
        }
        let learns = self.profile.training_status == Status::Novice && days <= 3;
        let often = learns || self.profile.goal == Goal::Strength;
        let usual = if entry.main && often { 3 } else { 2 };
        let of_pattern = self.entries.values().filter(|other| {
            other.role == Role::Work
                && other.pattern == entry.pattern
                && self.eligible(other).is_ok()
        });
        if of_pattern.take(3).count() < 3 { usual.max(days.div_ceil(2)) } else { usual }
    }
}

/// Whether a coach names an exercise for the client: must, prefer, or a lift that was done lately.
pub(crate) fn is_named(profile: &Profile, id: &str) -> bool {
    let in_list = |list: &[String]| list.iter().any(|name| name == id);
    in_list(&profile.exercises.must)
        || in_list(&profile.exercises.prefer)
        || profile.known_lifts.contains_key(id)
}

/// The first set of kit that is all there, or what the nearest one lacks.
pub(crate) fn kit_for(profile: &Profile, entry: &Entry) -> Result<Vec<Kit>, Barred> {
    let missing = |needs: &Vec<Kit>| -> Vec<Kit> {
        needs.iter().copied().filter(|item| !has_kit(profile, *item)).collect()
    };
    if let Some(kit) = entry.needs.iter().find(|needs| missing(needs).is_empty()) {
        return Ok(kit.clone());
    }
    let least = entry.needs.iter().map(missing).min_by_key(Vec::len);
    Err(Barred::Kit(least.unwrap_or_default()))
}

/// Whether the place has an item; an adjustable bench serves as a bench.
pub(crate) fn has_kit(profile: &Profile, item: Kit) -> bool {
    let there = |item: Kit| {
        let equipment = profile.equipment.as_ref();
        equipment.and_then(|kit| kit.items.get(&item)).is_some_and(|stock| stock.count() > 0)
    };
    there(item) || (item == Kit::Bench && there(Kit::AdjustableBench))
}

/// The first stress of an entry that the client's limits keep out.
pub(crate) fn limited(profile: &Profile, entry: &Entry) -> Option<Stress> {
    profile.limits.iter().find_map(|limit| match limit {
        Limit::Whole(stress) => grade(entry, *stress).map(|_| *stress),
        Limit::Graded(limit) => {
            grade(entry, limit.tag).filter(|grade| *grade > limit.allow).map(|_| limit.tag)
        }
    })
}
