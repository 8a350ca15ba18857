//! Ergometer, running and the like at the end of a session: what, how long, how hard, and how it grows.

mod days;

pub use self::days::interval_days;

use self::days::busy;
use crate::input::catalog::Entry;
use crate::input::profile::{ConditioningWish, Profile};
use crate::plan::file::{Group, Item};
use crate::plan::heart_rate;
use crate::plan::screening::{CarefulStart, age};
use crate::plan::timing::{CONDITIONING_WAY_IN_S, WAY_IN_S, pace_ms, written_group_s};
use crate::request::closing::most_s;
use crate::words::{Goal, GroupKind, Intensity, Kit, Measure, Part, Status, Weekday};

/// Steady weeks of a novice before the first intervals. Common practice: two or three; who has trained for a while has one,
/// and to lose fat none, as what is driven hard is what the minutes are for.
const STEADY_WEEKS: u32 = 3;
/// Work grows by at most a tenth a week. Common practice.
const GROWTH_PERCENT: u32 = 10;
/// Steps of the work in seconds.
const STEP_S: u32 = 15;
/// The least that is worth starting.
const LEAST_S: u32 = 180;
/// The most rounds of intervals in a session. Common practice.
const MOST_ROUNDS: u32 = 10;
/// Fewer rounds are no intervals. Common practice.
const FEWEST_ROUNDS: u32 = 4;

/// The conditioning of a client: what is done and from when.
#[derive(Debug, Clone)]
pub struct Conditioning<'a> {
    steady: Option<&'a Entry>,
    /// The steady work of every wished mode, which sessions do in turn.
    modes: Vec<&'a Entry>,
    intervals: Option<&'a Entry>,
    /// All hard work that is wished.
    hard: Vec<&'a Entry>,
    goal: Goal,
    status: Status,
    from_week: u32,
    minutes: u32,
    age: Option<u32>,
    resting: Option<u32>,
    start: CarefulStart,
    /// The days of hard sport and those before them.
    busy: Vec<Weekday>,
}

/// What was chosen, and what the plan says about it.
#[derive(Debug, Clone, Default)]
pub struct Choice<'a> {
    /// None where nothing fits or the goal keeps it apart.
    pub conditioning: Option<Conditioning<'a>>,
    /// Wished modes that the place lacks, or why there is none.
    pub notes: Vec<String>,
}

/// Chooses from conditioning entries that kit, limits and level allow, in catalog order.
#[must_use]
pub fn choose<'a>(profile: &Profile, usable: &[&'a Entry], start: &CarefulStart) -> Choice<'a> {
    let mut choice = Choice::default();
    let Some(wish) = &profile.conditioning else {
        return choice;
    };
    if profile.goal == Goal::Power {
        // CO-17: in the same session it costs explosive strength, not when 3 hours or more apart.
        choice.notes.push(format!(
            "conditioning ({} min) is not put after the lifts: for power keep it on another day, or at least 3 hours away",
            wish.minutes
        ));
        return choice;
    }
    let gentle = wants_no_more_than_moderate(profile);
    let mut wished = wished(wish, usable, &mut choice.notes);
    // Who means to train moderately has bouts where they are asked for by name only.
    wished.retain(|entry| {
        !gentle || entry.part == Some(Part::Steady) || wish.modes.contains(&entry.id)
    });
    let of = |part: Part| wished.iter().copied().filter(move |entry| entry.part == Some(part));
    let intervals = of(Part::Intervals).min_by_key(bout_s);
    let steady = of(Part::Steady).next().or_else(|| steady_form(intervals?, usable));
    if steady.is_none() && intervals.is_none() {
        choice.notes.push("no conditioning: nothing for it is left by kit and limits".to_owned());
        return choice;
    }
    choice.conditioning = Some(Conditioning {
        steady,
        modes: if wish.modes.is_empty() { Vec::new() } else { of(Part::Steady).collect() },
        intervals,
        hard: of(Part::Intervals).collect(),
        goal: profile.goal,
        status: profile.training_status,
        from_week: wish.from_week,
        minutes: wish.minutes,
        age: age(profile),
        resting: profile.resting_heart_rate.map(u32::from),
        start: start.clone(),
        busy: busy(profile),
    });
    choice
}

/// Whether the client said to want light or moderate work.
fn wants_no_more_than_moderate(profile: &Profile) -> bool {
    let said = profile.screening.as_ref().and_then(|said| said.intensity);
    said.is_some_and(|said| said != Intensity::Vigorous)
}

/// The entries of the wished modes in order of liking; all of them where no mode is wished or none is here.
fn wished<'a>(
    wish: &ConditioningWish,
    usable: &[&'a Entry],
    notes: &mut Vec<String>,
) -> Vec<&'a Entry> {
    let mut wished: Vec<&Entry> = Vec::new();
    for mode in &wish.modes {
        let kit = mode.parse::<Kit>().ok();
        let fits = |entry: &&&Entry| entry.id == *mode || kit.is_some_and(|kit| needs(entry, kit));
        let found: Vec<&Entry> = usable.iter().filter(fits).copied().collect();
        if found.is_empty() {
            notes.push(format!("conditioning mode `{mode}` is not to be had here and is left out"));
        }
        wished.extend(found);
    }
    if wished.is_empty() {
        if !wish.modes.is_empty() && !usable.is_empty() {
            notes.push(
                "none of the wished conditioning modes is here; another one stands in".to_owned(),
            );
        }
        // Machines before work on foot: they load the joints least and can be dosed.
        wished.extend(usable.iter().copied());
        wished.sort_by_key(|entry| entry.needs.iter().any(Vec::is_empty));
    }
    wished
}

/// What stands in for intervals that are wished alone, in weeks and on days that are not for hard work.
fn steady_form<'a>(intervals: &Entry, usable: &[&'a Entry]) -> Option<&'a Entry> {
    let alike = |one: &&Entry| intervals.easier.contains(&one.id) || shares_kit(one, intervals);
    usable.iter().copied().filter(|one| one.part == Some(Part::Steady)).find(alike)
}

fn shares_kit(one: &Entry, other: &Entry) -> bool {
    one.needs.iter().flatten().any(|kit| needs(other, *kit))
}

fn needs(entry: &Entry, kit: Kit) -> bool {
    entry.needs.iter().flatten().any(|need| *need == kit)
}

impl Conditioning<'_> {
    /// The first week that has any.
    #[must_use]
    pub const fn from_week(&self) -> u32 {
        self.from_week
    }

    /// The same for the session at a place of the week: wished modes come in turn.
    #[must_use]
    pub fn in_turn(&self, place: usize) -> Self {
        match self.modes.get(place % self.modes.len().max(1)) {
            Some(steady) => self.on_the_kit_of(steady),
            None => self.clone(),
        }
    }

    /// The same for a session that is planned with an exercise.
    #[must_use]
    pub fn with(&self, exercise: &str) -> Self {
        let planned = self.modes.iter().chain(&self.hard).find(|entry| entry.id == exercise);
        planned.map_or_else(|| self.clone(), |planned| self.on_the_kit_of(planned))
    }

    /// The same with the steady and the hard work that an entry's kit is for, or what there is.
    fn on_the_kit_of(&self, planned: &Entry) -> Self {
        let alike = |entry: &&Entry| entry.id == planned.id || shares_kit(entry, planned);
        let steady = self.modes.iter().copied().find(|entry| entry.id == planned.id);
        let steady = steady.or_else(|| self.modes.iter().copied().find(alike)).or(self.steady);
        let intervals = self.hard.iter().copied().filter(alike).min_by_key(bout_s);
        Self { steady, intervals: intervals.or(self.intervals), ..self.clone() }
    }

    /// The group at its fullest, for the week as planned; `None` where the session's share for it is too short.
    /// `intervals_fit` tells whether hard work may stand here.
    #[must_use]
    pub fn fullest(&self, session_minutes: u32, intervals_fit: bool) -> Option<Group> {
        let hard = intervals_fit && self.is_hard_in(self.from_week);
        let intervals = self.intervals.filter(|_| hard).into_iter();
        intervals.chain(self.steady).chain(self.intervals).find_map(|entry| {
            self.fill(entry, self.most_s(entry, session_minutes), session_minutes)
        })
    }

    /// Whether a week may have intervals.
    fn is_hard_in(&self, week: u32) -> bool {
        let steady_first = match self.status {
            Status::Novice => STEADY_WEEKS,
            _ => u32::from(self.goal != Goal::FatLoss),
        };
        week >= self.from_week + steady_first && self.start.allows_intervals(week)
    }

    /// The group of a week; `None` before its first week. `raises` tells how often the work has grown,
    /// `intervals_fit` whether hard work may stand here.
    #[must_use]
    pub fn of_week(
        &self,
        week: u32,
        raises: u32,
        session_minutes: u32,
        intervals_fit: bool,
    ) -> Option<Group> {
        let hard = intervals_fit && self.is_hard_in(week);
        (week >= self.from_week).then_some(())?;
        let entry = if hard { self.intervals.or(self.steady) } else { self.steady }?;
        let most_s = self.most_s(entry, session_minutes);
        let group = self.fill(entry, self.grown(most_s, raises), session_minutes);
        // Too short for so many rounds: steady work instead.
        group.or_else(|| {
            let steady = self.steady?;
            let most_s = self.most_s(steady, session_minutes);
            self.fill(steady, self.grown(most_s, raises), session_minutes)
        })
    }

    /// Seconds of work and rest: the minutes that are wished, where the session's share for them holds them and the way in.
    fn most_s(&self, entry: &Entry, session_minutes: u32) -> u32 {
        let wished = self.minutes * 60;
        let kept = most_s(self.goal, session_minutes).min(wished + CONDITIONING_WAY_IN_S);
        wished.min(kept.saturating_sub(WAY_IN_S + entry.setup_s)) / STEP_S * STEP_S
    }

    /// For novices from four fifths, a tenth more with each raise, up to the most; who has trained for a while does what
    /// is wished from the start.
    fn grown(&self, most_s: u32, raises: u32) -> u32 {
        let first = if self.status == Status::Novice { most_s * 4 / 5 } else { most_s };
        let mut seconds = (first / STEP_S * STEP_S).max(LEAST_S).min(most_s);
        for _ in 0..raises.min(52) {
            let more = seconds * (100 + GROWTH_PERCENT) / 100 / STEP_S * STEP_S;
            seconds = more.max(seconds).min(most_s);
        }
        seconds
    }

    fn fill(&self, entry: &Entry, seconds: u32, session_minutes: u32) -> Option<Group> {
        if seconds < LEAST_S {
            return None;
        }
        let item = match entry.part {
            Some(Part::Intervals) => self.rounds(entry, seconds)?,
            _ => self.steady_item(entry, seconds)?,
        };
        let mut group = Group { kind: GroupKind::Conditioning, seconds: None, items: vec![item] };
        group.seconds = Some(written_group_s(&group, &|_| Some(entry)));
        group.seconds.filter(|seconds| *seconds <= most_s(self.goal, session_minutes))?;
        Some(group)
    }

    fn steady_item(&self, entry: &Entry, seconds: u32) -> Option<Item> {
        let amount = amount_for(entry, seconds);
        let most = entry.reps.last().copied().unwrap_or(amount);
        let amount = amount.min(most);
        let mut item = item(entry, vec![amount]);
        (amount > 0).then_some(())?;
        item.effort =
            Some(self.effort(Intensity::Moderate, "you can speak in short sentences", true));
        Some(item)
    }

    fn rounds(&self, entry: &Entry, seconds: u32) -> Option<Item> {
        let amount = usual_bout(entry);
        let bout_s = seconds_for(entry, amount);
        // On the spot nobody goes all out: it rests as long as it lasts.
        let easy = entry.needs.iter().all(Vec::is_empty);
        let rest_s = if easy { bout_s } else { rest_for(bout_s) };
        let rounds = ((seconds + rest_s) / (bout_s + rest_s)).min(MOST_ROUNDS);
        if rounds < FEWEST_ROUNDS {
            return None;
        }
        let mut item = item(entry, vec![amount; usize::try_from(rounds).unwrap_or(0)]);
        item.rest_s = rest_s;
        // Short bouts end before the heart rate has followed, so only the scale is given.
        let long = bout_s >= 60;
        item.effort = Some(self.effort(
            Intensity::Vigorous,
            "hard but even, easy movement in the rests",
            long,
        ));
        Some(item)
    }

    /// Borg scale, talk test and, with an age, a heart-rate range with its error.
    fn effort(&self, intensity: Intensity, words: &str, with_heart_rate: bool) -> String {
        let [low, high] = heart_rate::band(intensity).borg;
        let pulse = self.age.filter(|_| with_heart_rate);
        let pulse = pulse.map_or(String::new(), |age| {
            format!("; {}", heart_rate::text(intensity, age, self.resting))
        });
        format!("Borg scale 6-20: {low}-{high}, {words}{pulse}")
    }
}

/// Seconds of one bout of intervals. Common practice.
const USUAL_BOUT_S: u32 = 30;

/// The amount of one bout, within what the entry is done for.
fn usual_bout(entry: &Entry) -> u32 {
    let [low, high] = [entry.reps.first(), entry.reps.last()].map(|end| end.copied().unwrap_or(0));
    amount_for(entry, USUAL_BOUT_S).clamp(low, high.max(low))
}

/// How far one bout is from the usual: the nearest leaves room for the most rounds.
fn bout_s(entry: &&Entry) -> u32 {
    seconds_for(entry, usual_bout(entry)).abs_diff(USUAL_BOUT_S)
}

/// The least rest after a bout by energy system, in steps of 15 s: 1:12 up to 10 s, 1:3 up to 3 min, then 1:1
/// (CO-09, NSCA Essentials, Table 3.6).
#[must_use]
pub fn rest_for(bout_s: u32) -> u32 {
    let times = match bout_s {
        0..=10 => 12,
        11..=180 => 3,
        _ => 1,
    };
    (bout_s * times).div_ceil(STEP_S) * STEP_S
}

/// The amount in the entry's measure that takes about so many seconds, rounded down to a number one would say.
fn amount_for(entry: &Entry, seconds: u32) -> u32 {
    match entry.measure {
        Measure::Seconds | Measure::Reps => seconds,
        Measure::Meters => {
            let meters = seconds * 1000 / pace_ms(entry);
            let step = if meters >= 500 { 100 } else { 25 };
            meters / step * step
        }
        Measure::Calories => seconds / 6,
    }
}

fn seconds_for(entry: &Entry, amount: u32) -> u32 {
    match entry.measure {
        Measure::Seconds | Measure::Reps => amount,
        Measure::Meters => amount.saturating_mul(pace_ms(entry)).div_ceil(1000),
        Measure::Calories => amount.saturating_mul(6),
    }
}

fn item(entry: &Entry, amounts: Vec<u32>) -> Item {
    let mut item = Item {
        exercise: entry.id.clone(),
        sets: u32::try_from(amounts.len()).unwrap_or(u32::MAX),
        ..Item::default()
    };
    match entry.measure {
        Measure::Meters => item.meters = Some(amounts),
        Measure::Calories => item.calories = Some(amounts),
        Measure::Seconds | Measure::Reps => item.seconds = Some(amounts),
    }
    item
}

/// What the week's conditioning is worth beside the WHO's figures for adults (CO-08).
#[must_use]
pub fn weekly_text(moderate_min: f64, vigorous_min: f64) -> String {
    let equivalent = moderate_equivalent(moderate_min, vigorous_min);
    let rest = if equivalent >= 150.0 {
        "which reaches the 150 to 300"
    } else {
        "the rest can come from walking, cycling or rowing; 150 to 300"
    };
    format!(
        "conditioning worth {equivalent:.0} moderate minutes a week (a vigorous minute counts two), {rest} that the WHO advises adults"
    )
}

/// Moderate minutes, a vigorous one counting two (CO-08).
#[must_use]
pub fn moderate_equivalent(moderate_min: f64, vigorous_min: f64) -> f64 {
    moderate_min + 2.0 * vigorous_min
}

#[cfg(test)]
mod tests;
