//! Who the plan is for, what stands around the sessions, and the lines that every sheet carries.

use super::wording::say;
use super::{Audience, Names, clean, phrase};
use crate::input::plan::SolveStatus;
use crate::input::profile::{BalanceWish, Profile};
use crate::plan::conditioning::{moderate_equivalent, weekly_text};
use crate::plan::file::{MuscleVolume, Plan, ProfileRef, Session, Shortfall, Week};
use crate::plan::screening;
use crate::timing;
use crate::words::{Clock, Goal, GroupKind, Muscle, Paper, Part, Side, Status, Units};

/// The one line that no sheet is without.
pub(crate) fn stop() -> &'static str {
    say!(stop)
}

/// What the sheet is not.
pub(crate) fn defer() -> &'static str {
    say!(defer)
}

/// What a client needs to know of the numbers.
pub(crate) fn convention() -> &'static str {
    say!(convention)
}

/// The profile, where the plan holds it and does not only name its file.
pub(crate) fn profile(plan: &Plan) -> Option<&Profile> {
    match &plan.profile {
        ProfileRef::Whole(profile) => Some(profile),
        ProfileRef::File(_) => None,
    }
}

/// The unit of the profile; kilograms where it is unknown.
pub(crate) fn units(plan: &Plan) -> Units {
    profile(plan).map_or(Units::Kg, |profile| profile.units)
}

/// How the profile tells times of day.
pub(crate) fn clock(plan: &Plan) -> Clock {
    profile(plan).map_or(Clock::Hours24, |profile| profile.clock)
}

/// The paper that the profile asks for.
pub(crate) fn paper(plan: &Plan) -> Paper {
    profile(plan).map_or(Paper::A4, |profile| profile.paper)
}

/// The training status, where the plan tells it.
pub(crate) fn status(plan: &Plan) -> Option<Status> {
    profile(plan).map(|profile| profile.training_status)
}

/// The client's code.
pub(crate) fn client(plan: &Plan) -> String {
    let code = profile(plan).map_or(plan.client.as_str(), |profile| profile.client.as_str());
    let code = clean::line(if plan.client.is_empty() { code } else { &plan.client });
    if code.is_empty() { say!(training_plan).to_owned() } else { code }
}

/// `Muscle growth` and the like.
pub(crate) fn goal(goal: Goal) -> &'static str {
    match goal {
        Goal::Hypertrophy => say!(goal_hypertrophy),
        Goal::Strength => say!(goal_strength),
        Goal::Power => say!(goal_power),
        Goal::Endurance => say!(goal_endurance),
        Goal::GeneralFitness => say!(goal_general_fitness),
        Goal::FatLoss => say!(goal_fat_loss),
    }
}

/// Goal, status and place in one line.
pub(crate) fn about(plan: &Plan) -> Option<String> {
    let profile = profile(plan)?;
    let place = profile.place.as_deref().map(clean::line);
    let parts =
        [Some(goal(profile.goal).to_owned()), Some(profile.training_status.id().to_owned()), place];
    let parts: Vec<String> = parts.into_iter().flatten().collect();
    Some(phrase::sentence(&parts.join(" · ")))
}

/// Days and weeks in one line: `Monday, Thursday · 4 weeks from Monday 4 January 2027`.
pub(crate) fn span(plan: &Plan) -> String {
    let mut days: Vec<&str> = plan.sessions.iter().map(|session| session.day.name()).collect();
    days.dedup();
    let count = weeks(plan);
    let weeks = if count == 1 { say!(one_week).to_owned() } else { say!(many_weeks, count) };
    let weeks = match start(plan) {
        Some(start) => say!(weeks_from, weeks, start = phrase::long_date(start)),
        None => weeks,
    };
    format!("{} · {weeks}", days.join(", "))
}

/// How many weeks the plan is for.
pub(crate) fn weeks(plan: &Plan) -> usize {
    let wished = profile(plan).map_or(1, |profile| usize::try_from(profile.weeks).unwrap_or(1));
    if plan.weeks.is_empty() { wished } else { plan.weeks.len() }
}

/// The first day of week 1.
pub(crate) fn start(plan: &Plan) -> Option<jiff::civil::Date> {
    let first = plan.weeks.first().and_then(|week| week.date.as_ref());
    phrase::date(first.or_else(|| profile(plan)?.start.as_ref()))
}

/// Muscles as a sheet lists them.
pub(crate) fn muscles(list: &[Muscle]) -> String {
    list.iter().map(|muscle| muscle.name()).collect::<Vec<_>>().join(", ")
}

/// What the caution of a plan begins with that is made from a draft.
pub(crate) const TRIAL: &str = "Trial, screening open:";

/// What the client reported before training, and what it asks for: at the head of what a coach reads. Nothing where
/// nothing was reported.
pub(crate) fn alerts(plan: &Plan) -> Vec<String> {
    let trial = plan.cautions.iter().filter(|caution| caution.starts_with(TRIAL)).cloned();
    let advice = profile(plan).map(screening::advise).filter(|advice| advice.reported);
    trial.chain(advice.map(|advice| advice.cautions).unwrap_or_default()).collect()
}

/// What the answers before training and the age ask for, where nothing was reported: the client reads what to do
/// instead.
pub(crate) fn kept_from_client(plan: &Plan) -> Vec<String> {
    let advice = profile(plan).map(screening::advise).filter(|advice| !advice.reported);
    let told = advice.map(|advice| advice.cautions).unwrap_or_default();
    told.into_iter().filter(|caution| plan.cautions.contains(caution)).collect()
}

/// The plan's cautions, led by the line about pain, which is ours unless the plan has its own. A client reads what to do
/// and never what was reported; a coach has read that at the head.
pub(crate) fn cautions(plan: &Plan, audience: Audience) -> Vec<String> {
    let advice = profile(plan).map(screening::advise).unwrap_or_default();
    let is_apart = |caution: &&String| match audience {
        Audience::Client => advice.cautions.contains(caution),
        Audience::Coach | Audience::Both => advice.reported && advice.cautions.contains(caution),
    };
    let instead = match audience {
        Audience::Client => advice.instructions.clone(),
        Audience::Coach | Audience::Both => Vec::new(),
    };
    let own = plan.cautions.iter().filter(|caution| !is_apart(caution));
    let own = instead.iter().chain(own).map(|caution| phrase::sentence(&clean::line(caution)));
    let (mut stops, others): (Vec<String>, Vec<String>) =
        own.partition(|caution| caution.to_lowercase().contains("stop if it hurts"));
    if stops.is_empty() {
        stops.push(stop().to_owned());
    }
    stops.into_iter().chain(others).chain([defer().to_owned()]).collect()
}

/// A shortfall in one sentence, without the end that names what limited it.
pub(crate) fn missed(shortfall: &Shortfall) -> String {
    let (wanted, got) = (clean::line(&shortfall.wanted), clean::line(&shortfall.got));
    say!(short_missed, wanted, got)
}

/// What limited it: `Because the minutes of mon are full.`
pub(crate) fn because(shortfall: &Shortfall) -> String {
    let because = clean::line(&shortfall.because);
    let because = because.strip_prefix("because ").unwrap_or(&because).trim_end_matches('.');
    if because.is_empty() { String::new() } else { say!(short_because, because) }
}

/// Working sets of a week.
pub(crate) fn working_sets(sessions: &[Session]) -> u32 {
    let groups = sessions.iter().flat_map(|session| &session.groups);
    let work = groups.filter(|group| group.is_work());
    phrase::total(work.flat_map(|group| &group.items).map(|item| item.sets))
}

/// `1 · 4 January · base`, what stands before the note in an overview of weeks.
pub(crate) fn week_date(week: &Week) -> String {
    phrase::date(week.date.as_ref()).map(phrase::day_month).unwrap_or_default()
}

/// One line of the week's balance.
pub(crate) struct Ratio {
    /// What is put against what.
    pub name: &'static str,
    /// The two counts in sets.
    pub counts: [u32; 2],
    /// First for each second, where there is a second.
    pub quotient: Option<f64>,
    /// The band that is wanted.
    pub band: [f64; 2],
}

/// Pulls to presses of several joints, and knee to hip, each with its band.
pub(crate) fn ratios(plan: &Plan, names: &Names<'_>) -> Vec<Ratio> {
    let band = profile(plan).map_or_else(BalanceWish::default, |profile| profile.balance);
    let mut ratios = Vec::new();
    let (push, pull) = (multi_joint(plan, names, Side::Push), multi_joint(plan, names, Side::Pull));
    if push.max(pull) > 0 {
        ratios.push(Ratio::new(say!(ratio_pull_push), [pull, push], band.pull_push));
    }
    if let Some(balance) = plan.balance.filter(|balance| balance.knee.max(balance.hip) > 0) {
        ratios.push(Ratio::new(say!(ratio_knee_hip), [balance.knee, balance.hip], band.knee_hip));
    }
    ratios
}

impl Ratio {
    fn new(name: &'static str, counts: [u32; 2], band: [f64; 2]) -> Self {
        let quotient = (counts[1] > 0).then(|| f64::from(counts[0]) / f64::from(counts[1]));
        Ratio { name, counts, quotient, band }
    }

    /// `14 to 12 sets, 1.17 (0.9 to 1.5 wanted)`.
    pub(crate) fn words(&self) -> String {
        let [first, second] = self.counts;
        let [low, high] = self.band.map(|end| phrase::trimmed(end, 2));
        let ratio = self.quotient.map_or_else(String::new, |ratio| format!(", {ratio:.2}"));
        say!(ratio_told, first, second, ratio, low, high)
    }
}

/// Sets of presses, or of rows and pulls, of several joints; the balance rule leaves isolation apart.
fn multi_joint(plan: &Plan, names: &Names<'_>, side: Side) -> u32 {
    let groups = plan.sessions.iter().flat_map(|session| &session.groups);
    let items = groups.filter(|group| group.is_work()).flat_map(|group| &group.items);
    let of_side = items.filter(|item| {
        let pattern = names.entry(&item.exercise).and_then(|entry| entry.pattern);
        pattern.and_then(crate::words::Pattern::press_or_row) == Some(side)
    });
    phrase::total(of_side.map(|item| item.sets))
}

/// The most that a week's conditioning is worth, beside what is advised to adults; nothing where there is none.
pub(crate) fn conditioning(plan: &Plan, names: &Names<'_>) -> Option<String> {
    let weeks = plan.weeks.iter().map(|week| week.sessions.as_slice());
    let minutes = weeks.chain([plan.sessions.as_slice()]).map(|week| worth(week, names));
    let worth = |minutes: &[f64; 2]| moderate_equivalent(minutes[0], minutes[1]);
    let [moderate, vigorous] = minutes.max_by(|one, other| worth(one).total_cmp(&worth(other)))?;
    (moderate + vigorous > 0.0).then(|| weekly_text(moderate, vigorous))
}

/// Minutes of a week's steady work and of its intervals; their rests are not counted.
fn worth(sessions: &[Session], names: &Names<'_>) -> [f64; 2] {
    let groups = sessions.iter().flat_map(|session| &session.groups);
    let items =
        groups.filter(|group| group.kind == GroupKind::Conditioning).flat_map(|group| &group.items);
    items.fold([0.0, 0.0], |[moderate, vigorous], item| {
        let entry = names.entry(&item.exercise);
        let work_s =
            entry.map_or(0, |entry| phrase::total(timing::timed(item, entry).work_s.into_iter()));
        let minutes = f64::from(work_s) / 60.0;
        match entry.and_then(|entry| entry.part) {
            Some(Part::Intervals) => [moderate, vigorous + minutes],
            _ => [moderate + minutes, vigorous],
        }
    })
}

/// Where the loads come from, exercise by exercise, with the estimates that the cards leave out.
pub(crate) fn loads(plan: &Plan, names: &Names<'_>) -> Vec<String> {
    let weeks = plan.weeks.first().map_or(&plan.sessions, |week| &week.sessions);
    let items = weeks.iter().flat_map(|session| &session.groups).flat_map(|group| &group.items);
    let mut told: Vec<String> = Vec::new();
    for item in items {
        let note = item.load_note.as_deref().map(clean::line).unwrap_or_default();
        let line = format!("{}: {note}", names.name(&item.exercise));
        if phrase::has_estimate(&note) && !told.contains(&line) {
            told.push(line);
        }
    }
    told
}

/// A range in words: `8 to 14`.
pub(crate) fn range(low: Option<f64>, high: Option<f64>) -> String {
    let tell = |end: f64| phrase::trimmed(end, 1);
    match (low, high) {
        (Some(low), Some(high)) => say!(range_from_to, low = tell(low), high = tell(high)),
        (Some(low), None) => say!(range_from, low = tell(low)),
        (None, Some(high)) => say!(range_up_to, high = tell(high)),
        (None, None) => String::new(),
    }
}

/// By how much a range is missed: `2 under`; empty inside it.
pub(crate) fn miss(row: &MuscleVolume) -> String {
    let under = row.low.map_or(0.0, |low| low - row.sets);
    let over = row.high.map_or(0.0, |high| row.sets - high);
    match (phrase::trimmed(under.max(0.0), 1), phrase::trimmed(over.max(0.0), 1)) {
        (under, _) if under != "0" => say!(miss_under, under),
        (_, over) if over != "0" => say!(miss_over, over),
        _ => String::new(),
    }
}

/// Gaps above this are not told.
const MOST_GAP: f64 = 0.3;

/// How the plan was made: solver, seed, version and split, as far as the plan says.
pub(crate) fn made(plan: &Plan) -> Vec<String> {
    let mut lines = Vec::new();
    if let Some(split) = &plan.split {
        let days: Vec<String> = split.days.iter().map(|day| clean::line(day)).collect();
        lines.push(say!(made_split, split = clean::line(&split.name), days = days.join("; ")));
    }
    if let Some(solve) = &plan.solve {
        let gap = phrase::trimmed(solve.gap * 100.0, 1);
        let found = match solve.status {
            SolveStatus::Proven => say!(made_proven).to_owned(),
            // A bound that far off says nothing about the week.
            _ if solve.gap > MOST_GAP => say!(made_found).to_owned(),
            SolveStatus::WithinGap => say!(made_within, gap),
            SolveStatus::StoppedEarly => say!(made_early, gap),
        };
        let backend = clean::line(&solve.backend);
        lines.push(say!(made_by, found, backend, seed = plan.seed));
    }
    if let Some(inputs) = &plan.inputs {
        lines.push(say!(made_version, version = clean::line(&inputs.version)));
    }
    lines
}
