//! From a checked profile and a catalog to a request.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use super::candidate::{Candidate, Station, Wish};
use super::dose::{self, Dose, Duty};
use super::eligibility::is_named;
use super::rest::rest_s;
use super::turn::Turn;
use super::{
    Barred, Day, Entries, Figures, Request, closing, completing, screening, standing, target,
};
use crate::input::catalog::Entry;
use crate::input::profile::Profile;
use crate::input::{is_senior, starts_from_rest};
use crate::strength::working_load::KnownLifts;
use crate::timing;
use crate::words::{
    Emphasis, Goal, Kind, Kit, LoadKind, Muscle, Pattern, Role, Sex, Standing, Status,
};

/// Resolves a profile whose place is merged in. The profile must have passed the input checks.
#[must_use]
pub fn resolve(
    profile: Profile,
    entries: Entries,
    previous_mains: BTreeSet<String>,
    seed: u64,
) -> Request {
    let days = days(&profile);
    let least_rir = screening::advise(&profile).start.least_rir;
    let figures = Figures::new(&profile);
    let (targets, lowered) = target::targets(&profile, &days, &figures);
    let ceilings = Muscle::ALL
        .iter()
        .filter(|muscle| !targets.contains_key(muscle))
        .map(|muscle| (*muscle, target::ceiling(&profile, *muscle)))
        .collect();
    let known = KnownLifts::of(&profile).measured_by(&|id| entries.get(id).map(AsRef::as_ref));
    let mut request = Request {
        known,
        profile,
        entries,
        days,
        candidates: Vec::new(),
        barred: BTreeMap::new(),
        spare: Vec::new(),
        targets,
        ceilings,
        lowered,
        figures,
        previous_mains,
        seed,
        least_rir,
        rework: None,
        turn: Turn::default(),
    };
    let entries = request.entries.clone();
    let mut left: Vec<(&Arc<Entry>, Vec<Kit>)> = Vec::new();
    for entry in entries.values().filter(|entry| entry.role == Role::Work) {
        match usable(&request, entry) {
            Ok(kit) => left.push((entry, kit)),
            Err(reason) => {
                request.barred.insert(entry.id.clone(), reason);
            }
        }
    }
    let can: Vec<&Arc<Entry>> = left.iter().map(|(entry, _)| *entry).collect();
    let passed_over = standing::passed_over(&request, &can);
    let (passed, left): (Vec<_>, Vec<_>) =
        left.into_iter().partition(|(entry, _)| passed_over.contains_key(&entry.id));
    for (entry, kit) in passed {
        let unwanted = matches!(passed_over[&entry.id], Barred::VariantOfNever(_));
        if entry.standing == Standing::Staple && entry.is_loaded() && !unwanted {
            request.spare.push(candidate(&request, entry, kit));
        }
    }
    request.barred.extend(passed_over);
    for (entry, kit) in left {
        request.candidates.push(candidate(&request, entry, kit));
    }
    request
}

impl Request {
    /// Takes exercises back that were only passed over: those of a plan that is reworked stay possible.
    pub(crate) fn admit<'a>(&mut self, ids: impl Iterator<Item = &'a str>) {
        let passed = |reason: &Barred| matches!(reason, Barred::PassedOver(_) | Barred::NoPurpose);
        for id in ids {
            let Some(entry) = self.entries.get(id).cloned() else { continue };
            let kit = self.eligible(&entry);
            if let (Some(_), Ok(kit)) = (self.barred.get(id).filter(|reason| passed(reason)), kit) {
                self.barred.remove(id);
                let new = candidate(self, &entry, kit);
                let place = self.candidates.partition_point(|one| one.id < new.id);
                self.candidates.insert(place, new);
            }
        }
    }
}

fn days(profile: &Profile) -> Vec<Day> {
    let mut slots: Vec<_> = profile.sessions.iter().collect();
    slots.sort_by_key(|slot| Day::new(slot, 0).start_min);
    let minutes: Vec<u32> = slots.iter().map(|slot| slot.minutes).collect();
    let closing_s = closing::seconds(profile, &minutes);
    let days = slots.iter().zip(closing_s).map(|(slot, closing_s)| Day::new(slot, closing_s));
    days.map(|day| if is_senior(profile) { day.with_time_to_get_warm() } else { day }).collect()
}

/// The kit that serves an entry which the week has a use for, or the first reason that keeps it out.
fn usable(request: &Request, entry: &Entry) -> Result<Vec<Kit>, Barred> {
    let kit = request.eligible(entry)?;
    if !is_named(&request.profile, &entry.id) && !has_purpose(request, entry) {
        return Err(Barred::NoPurpose);
    }
    Ok(kit)
}

/// Whether an entry can serve any wish: a target, a pattern that each week should have, or explosive
/// work for a power goal. What serves none can only take time from what does.
fn has_purpose(request: &Request, entry: &Entry) -> bool {
    let Some(pattern) = entry.pattern else { return false };
    if pattern.is_explosive() {
        return request.profile.goal == Goal::Power;
    }
    if completing::spares_arms(request, entry) {
        return false;
    }
    let wanted = |muscle: &Muscle| {
        request.targets.contains_key(muscle) || crate::request::EXTRAS.contains(muscle)
    };
    // For size the leg is moved out and in as well, and out where the glutes should get more.
    let size = request.profile.goal == Goal::Hypertrophy;
    let moved = match pattern {
        Pattern::HipAbduction => size || request.wants_more(Muscle::Glutes),
        Pattern::HipAdduction => size,
        _ => false,
    };
    let serves = moved
        || entry.direct.iter().any(wanted)
        || (entry.kind == Some(Kind::Compound) && entry.indirect.iter().any(wanted));
    pattern.is_trunk()
        || completing::completes(request, pattern)
        || (pattern == Pattern::Balance && request.needs_balance())
        || (pattern.gives_volume() && pattern != Pattern::Balance && serves)
}

impl Request {
    /// The request of another profile with the same catalog, seed and start.
    #[must_use]
    pub fn with_profile(&self, profile: Profile) -> Request {
        let mains = self.previous_mains.clone();
        let resolved = resolve(profile, self.entries.clone(), mains, self.seed);
        Request { rework: self.rework.clone(), turn: self.turn, ..resolved }
    }

    /// Balance work belongs in the week from 65 on (WHO 2020; Fragala et al. 2019).
    #[must_use]
    pub fn needs_balance(&self) -> bool {
        is_senior(&self.profile)
    }

    /// From 65 on figures, lifts and effort are more careful (WHO 2020; Fragala et al. 2019).
    #[must_use]
    pub fn is_senior(&self) -> bool {
        self.needs_balance()
    }

    /// Who learns, and who is 65 or older, is given what guides the movement. Common practice.
    #[must_use]
    pub fn is_guided(&self) -> bool {
        self.profile.training_status == Status::Novice || self.is_senior()
    }

    /// A catalog entry by its id.
    #[must_use]
    pub fn entry(&self, id: &str) -> Option<&Entry> {
        self.entries.get(id).map(AsRef::as_ref)
    }

    /// Who begins at 65 or later.
    #[must_use]
    pub fn is_older_beginner(&self) -> bool {
        self.profile.training_status == Status::Novice && self.is_senior()
    }

    /// Whether an older beginner has no load for a squat, and gets up from a chair instead: on two days, and first.
    #[must_use]
    pub fn gets_up_from_a_chair(&self) -> bool {
        let loads = |one: &Candidate| standing::loads_both_legs(&one.entry, Pattern::Squat);
        self.is_older_beginner() && !self.candidates.iter().any(loads)
    }

    /// Who begins without having moved on purpose lately: legs learn with both feet on the ground and a seat behind.
    /// Common practice.
    #[must_use]
    pub fn starts_from_rest(&self) -> bool {
        starts_from_rest(&self.profile)
    }

    /// A woman who begins, for whom most bars are heavy. Common practice.
    #[must_use]
    pub fn is_a_woman_who_begins(&self) -> bool {
        let profile = &self.profile;
        profile.training_status == Status::Novice && profile.sex == Some(Sex::Female)
    }

    /// Whether a muscle should get more.
    #[must_use]
    pub fn wants_more(&self, muscle: Muscle) -> bool {
        self.profile.emphasis.get(&muscle) == Some(&Emphasis::More)
    }

    /// Whether a muscle should get less.
    #[must_use]
    pub fn wants_less(&self, muscle: Muscle) -> bool {
        self.profile.emphasis.get(&muscle) == Some(&Emphasis::Less)
    }

    /// Whether the client has been strong for years: advanced, and not one of the many women who do few pull-ups even
    /// then. Common practice.
    #[must_use]
    pub fn is_strong(&self) -> bool {
        let profile = &self.profile;
        profile.training_status == Status::Advanced && profile.sex != Some(Sex::Female)
    }

    /// Size is the goal, past the first steps: main lifts stand alone with their full rests, small work has its own sets.
    #[must_use]
    pub fn builds_size(&self) -> bool {
        let profile = &self.profile;
        profile.goal == Goal::Hypertrophy && profile.training_status != Status::Novice
    }
}

fn candidate(request: &Request, entry: &Arc<Entry>, kit: Vec<Kit>) -> Candidate {
    let profile = &request.profile;
    let dose = dose::for_client(profile, entry, None);
    let pattern = entry.pattern.expect("a working entry has a pattern; the catalog is linted");
    let candidate = Candidate {
        id: entry.id.clone(),
        entry: Arc::clone(entry),
        pattern,
        duty: Duty::of(entry),
        sets: sets_of(request, entry, dose.sets),
        amount: 0,
        work_s: 0,
        rest_s: 0,
        start_s: 0,
        ramp_sets: 0,
        rir: 0,
        wish: wish(profile, &entry.id),
        station: Station::of(&kit),
        kit,
        uses: request.weekly_uses(entry),
    };
    with_dose(request, candidate, &dose)
}

/// A candidate whose sets are done by a dose: repetitions, seconds, rest and reserve.
#[must_use]
pub(crate) fn with_dose(request: &Request, candidate: Candidate, dose: &Dose) -> Candidate {
    let entry = &candidate.entry;
    let amount = amount_of(request, entry, dose);
    let ramp_sets = kept_steps(&request.profile, entry, candidate.duty, amount);
    let rest_s = rest_s(request, &candidate, dose, amount);
    Candidate {
        amount,
        work_s: timing::set_s(entry, amount, dose.tempo_for(entry)),
        rest_s,
        start_s: timing::WAY_IN_S + entry.setup_s + timing::ramp_s(ramp_sets),
        ramp_sets,
        rir: dose.rir.max(least_rir(request, candidate.pattern)).max(request.least_rir),
        ..candidate
    }
}

/// Most repetitions of a hinge with the bar, for strength and power and for other goals: long sets end where the back
/// does, and with loads that the legs do not feel. Common practice.
const MOST_HINGE_REPS: [u32; 2] = [8, 10];

/// Repetitions, seconds or meters of a set.
fn amount_of(request: &Request, entry: &Entry, dose: &Dose) -> u32 {
    let aim = dose.span(entry).aim;
    let strong = matches!(request.profile.goal, Goal::Strength | Goal::Power);
    let bar = entry.pattern == Some(Pattern::Hinge) && entry.load == LoadKind::BarTotal;
    let most = if strong { MOST_HINGE_REPS[0] } else { MOST_HINGE_REPS[1] };
    let belt = entry.load == LoadKind::BodyweightPlus && entry.is_hung();
    match request.profile.goal {
        Goal::Endurance => aim,
        _ if bar => aim.min(most),
        _ if belt => aim.min(MOST_REPS_WITH_A_BELT),
        _ => aim,
    }
}

/// Most repetitions with a weight on the belt: whoever does more hangs on more. Common practice.
const MOST_REPS_WITH_A_BELT: u32 = 8;

/// Most sets of a hinge, which tires the back for days, of the arm turned out, which is care, of any exercise of a beginner
/// from 65 on, and of lunges from then on, as knees remember them: common practice.
const MOST_HINGE_SETS: u32 = 4;
const MOST_TURNS_OUT: u32 = 2;
const MOST_SETS_OF_OLDER_BEGINNERS: u32 = 3;
const MOST_LUNGES_OF_SENIORS: u32 = 2;

/// Most sets of an exercise for what should get less: common practice.
const MOST_SETS_OF_THE_SPARED: u32 = 3;

/// The sets of a dose for this exercise and client.
fn sets_of(request: &Request, entry: &Entry, [low, high]: [u32; 2]) -> [u32; 2] {
    let asked = request.profile.exercises.must.contains(&entry.id);
    let spared = entry.direct.first().is_some_and(|prime| request.wants_less(*prime));
    let most = match entry.pattern {
        Some(Pattern::Lunge) if request.is_senior() && !asked => MOST_LUNGES_OF_SENIORS,
        _ if spared && !asked => high.min(MOST_SETS_OF_THE_SPARED),
        _ if request.is_older_beginner() => MOST_SETS_OF_OLDER_BEGINNERS,
        Some(Pattern::Hinge) => MOST_HINGE_SETS,
        Some(Pattern::ShoulderExternalRotation) => MOST_TURNS_OUT,
        _ => high,
    };
    [low.min(most), high.min(most)]
}

/// Ramp sets that a candidate's time is kept for: in the hands or on a stack the climb to an unknown load is its own way up.
fn kept_steps(profile: &Profile, entry: &Entry, duty: Duty, amount: u32) -> usize {
    let led_up_to = matches!(entry.load, LoadKind::BarTotal | LoadKind::BodyweightPlus)
        || profile.known_lifts.contains_key(&entry.id);
    if led_up_to { ramp_steps(entry, duty, amount) } else { 0 }
}

/// Ramp sets of a main lift with a load: a bar needs more steps than a pair of dumbbells, and few
/// repetitions more than many.
fn ramp_steps(entry: &Entry, duty: Duty, amount: u32) -> usize {
    match (duty, entry.load) {
        (Duty::Main, LoadKind::BarTotal) if amount <= 6 && entry.pattern.is_some_and(is_leg) => 4,
        (Duty::Main, LoadKind::BarTotal | LoadKind::BodyweightPlus) if amount <= 6 => 3,
        (Duty::Main | Duty::Explosive, LoadKind::BarTotal) => 2,
        (
            Duty::Main,
            LoadKind::PerHand
            | LoadKind::SingleImplement
            | LoadKind::PlateMachine
            | LoadKind::Stack,
        ) => 1,
        _ => 0,
    }
}

const fn is_leg(pattern: Pattern) -> bool {
    matches!(pattern, Pattern::Squat | Pattern::Hinge)
}

/// At least one repetition left on squats, hinges and overhead presses; two for a novice.
fn least_rir(request: &Request, pattern: Pattern) -> u32 {
    let big = matches!(pattern, Pattern::Squat | Pattern::Hinge | Pattern::VerticalPush);
    request.figures.least_rir.max(u32::from(big))
}

fn wish(profile: &Profile, id: &str) -> Wish {
    let named = |list: &[String]| list.iter().any(|name| name == id);
    if named(&profile.exercises.must) {
        Wish::Must
    } else if named(&profile.exercises.prefer) {
        Wish::Prefer
    } else if named(&profile.exercises.avoid) {
        Wish::Avoid
    } else {
        Wish::Open
    }
}
