//! What the last sessions of an exercise say about the next one.
//!
//! Double progression by the 2-for-2 rule (RX-12, Graves and Baechle): the load goes up where the last set of two
//! sessions running had two more than asked, or every set of two sessions reached the top of the range; by the
//! smallest step of the place that is worth it (RX-04), and where that step is over a tenth only once a wider range is
//! full. One session short of what was asked holds the load, two take about a tenth off; two with one fewer left than
//! asked take a repetition off (common practice).

use super::done::{grams, kilograms};
use super::history::Performance;
use crate::plan::steps::{MOST_RAISE, NextLoad, next_load};
use crate::strength::ladder::Ladder;

/// Repetitions past the goal, in so many sessions running, that raise the load (RX-12).
const TWO: i64 = 2;
/// Repetitions past the goal that show a load far too light: four hundredths of load each (RM-23, from memory), so a
/// whole tenth at once.
const FAR: i64 = 3;
/// Repetitions in reserve under those asked for that count as a miss although every set was done.
const HARDER: i64 = -2;
/// Loads are kept to the gram.
const LEAST_MASS_KG: f64 = 0.001;
/// What two misses take off a load, and a long break too. Common practice.
const BACK: f64 = 0.9;

/// Why a line is as it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, strum::IntoStaticStr, strum::EnumString)]
#[strum(serialize_all = "kebab-case")]
pub enum Rule {
    /// Two sessions with two more than asked.
    TwoForTwo,
    /// Two sessions at the top of the range.
    TopOfRange,
    /// The wider range before a wide step is full.
    WideStep,
    /// Two sessions with two more than asked, and the step is wide: more repetitions first.
    MoreFirst,
    /// Done as asked: one more.
    OneMore,
    /// Two more than asked once: the same again.
    OnceMore,
    /// Nothing to raise: at the top with nothing heavier.
    Hold,
    /// One session short of what was asked.
    HoldAfterAMiss,
    /// Two sessions short of what was asked.
    BackAfterTwo,
    /// Two sessions with one fewer left than asked.
    Ease,
    /// From the running estimate of the most for one.
    RunningMaximum,
    /// An easier week: nothing is raised.
    EasierWeek,
    /// After weeks away.
    Restart,
    /// From the coming week on, as the course goes.
    Course,
}

impl Rule {
    /// The word that a plan keeps.
    #[must_use]
    pub fn id(self) -> &'static str {
        self.into()
    }
}

/// What an exercise may do next.
pub struct Room<'a> {
    /// The low end of the range.
    pub low: u32,
    /// Its top.
    pub high: u32,
    /// The top before a step of more than a tenth.
    pub widened: u32,
    /// How much a set grows at a time.
    pub step: u32,
    /// The loads that the place can make; none where there is nothing to load.
    pub ladder: Option<&'a Ladder>,
    /// The load that is never passed.
    pub cap_kg: Option<f64>,
    /// What the coming line asks for, where a session was on no plan.
    pub asked: u32,
    /// The reserve that it asks for.
    pub rir: Option<u32>,
    /// From which week on the client's word on reserve is taken (RM-19: not from a beginner's first two).
    pub judges_from: u32,
}

/// The next line of an exercise.
#[derive(Debug, Clone, PartialEq)]
pub struct Decision {
    /// The load in grams, where there is one.
    pub load_g: Option<u32>,
    /// What each set asks for.
    pub amount: u32,
    /// Why.
    pub rule: Rule,
    /// Why, in a clause.
    pub because: String,
}

/// How a session went against what it asked for.
struct Judged {
    /// Past the goal in the last set, its reserve counted where it can be.
    surplus: i64,
    missed: bool,
    /// Whether the reserve was told and can be taken.
    told: bool,
}

impl Judged {
    /// Fewer were left than asked, or fewer done.
    const fn is_hard(&self) -> bool {
        self.told && self.surplus < 0
    }
}

fn judge(done: &Performance, room: &Room<'_>) -> Judged {
    let asked = done.asked.map_or(room.asked, |asked| asked.amount);
    let rir = done.asked.map_or(room.rir, |asked| asked.rir);
    let reserve = done.reserve.zip(rir).filter(|_| !room.is_early(done));
    let over = i64::from(done.last()) - i64::from(asked);
    let surplus = over + reserve.map_or(0, |(left, wanted)| i64::from(left) - i64::from(wanted));
    let is_short = done.least() < asked && !(reserve.is_some() && surplus >= 0);
    let told = reserve.is_some();
    Judged { surplus, missed: is_short || (told && surplus <= HARDER), told }
}

/// The next line from the sessions of the exercise that were no easier weeks, oldest first; `None` where there are none.
#[must_use]
pub fn decide(done: &[Performance], room: &Room<'_>) -> Option<Decision> {
    let seen = Seen::of(done, room)?;
    Some(seen.short().or_else(|| seen.raised()).unwrap_or_else(|| seen.go_on()))
}

/// The last two sessions at one load, against what was asked.
struct Seen<'a> {
    room: &'a Room<'a>,
    last: (&'a Performance, Judged),
    before: Option<(&'a Performance, Judged)>,
    /// Whether the reserve was told in one of the sessions before the last.
    tells: bool,
    asked: u32,
    load_kg: Option<f64>,
    step: Step,
}

/// Sessions back in which a told reserve shows that the client tells it.
const LATELY: usize = 4;

impl<'a> Seen<'a> {
    fn of(done: &'a [Performance], room: &'a Room<'a>) -> Option<Seen<'a>> {
        let last = done.last()?;
        let before = done.len().checked_sub(2).map(|place| &done[place]);
        let before = before.filter(|before| before.load == last.load);
        let load_kg = last.load.grams().map(kilograms);
        let asked = last.asked.map_or(room.asked, |asked| asked.amount);
        let lately = done.iter().rev().take(LATELY).skip(1);
        Some(Seen {
            room,
            tells: lately.clone().any(|one| judge(one, room).told),
            last: (last, judge(last, room)),
            before: before.map(|before| (before, judge(before, room))),
            asked: asked.clamp(room.low, room.widened.max(room.high)),
            load_kg,
            step: Step::of(load_kg, room),
        })
    }

    /// Whether both sessions pass a test.
    fn twice(&self, test: impl Fn(&Performance, &Judged) -> bool) -> bool {
        let passes = |(done, judged): &(&Performance, Judged)| test(done, judged);
        passes(&self.last) && self.before.as_ref().is_some_and(passes)
    }

    /// Half of what both sessions had past the goal: the sets before the last one are to reach it too. Common practice.
    fn half_of_the_surplus(&self) -> u32 {
        let before = self.before.as_ref().map_or(0, |(_, judged)| judged.surplus);
        u32::try_from(self.last.1.surplus.min(before)).unwrap_or(0).div_ceil(2)
    }

    /// Held after one miss, back after two.
    fn short(&self) -> Option<Decision> {
        if !self.last.1.missed {
            return None;
        }
        if !self.twice(|_, judged| judged.missed) {
            let why = "short of what was asked once: the same again";
            return Some(self.line(self.load_kg, self.asked, Rule::HoldAfterAMiss, why));
        }
        let less = back(self.load_kg, self.room);
        let (amount, why) = match less {
            Some(_) => (self.asked, "two sessions short of what was asked"),
            None => {
                (self.room.low, "two sessions short of what was asked, and nothing lighter here")
            }
        };
        Some(self.line(less.or(self.load_kg), amount, Rule::BackAfterTwo, why))
    }

    /// The next load, where it is earned.
    fn raised(&self) -> Option<Decision> {
        let high = self.room.high;
        match self.step {
            Step::Small(next) if self.twice(|_, judged| judged.surplus >= FAR) => {
                let load = farthest(self.load_kg?, next, self.room);
                let why = "two sessions with three or more than asked";
                Some(self.line(Some(load), self.asked.min(high), Rule::TwoForTwo, why))
            }
            Step::Small(next) if self.twice(|_, judged| judged.surplus >= TWO) => {
                let why = "two sessions with two more than asked";
                Some(self.line(Some(next), self.asked.min(high), Rule::TwoForTwo, why))
            }
            Step::Small(next)
                if self.twice(|done, judged| done.least() >= high && !judged.is_hard()) =>
            {
                let why = "two sessions at the top of the range";
                Some(self.line(Some(next), self.room.low, Rule::TopOfRange, why))
            }
            Step::Wide(next) if self.last.0.least() >= self.room.widened => {
                let why = format!("every set at {}, and the step is wide", self.room.widened);
                Some(self.line(Some(next), self.room.low, Rule::WideStep, &why))
            }
            Step::Wide(_)
                if self.asked < self.room.widened
                    && self.twice(|_, judged| judged.surplus >= TWO) =>
            {
                let reached = self.last.0.least() + self.room.step;
                let more = (self.asked + self.half_of_the_surplus()).max(reached);
                let amount = more.min(self.room.widened);
                let why = "two sessions with two more than asked, and the step is wide";
                Some(self.line(self.load_kg, amount, Rule::MoreFirst, why))
            }
            _ => None,
        }
    }

    /// The same load: one more in each set up to the top, where the last session was as asked.
    fn go_on(&self) -> Decision {
        let top = match self.step {
            Step::Wide(_) => self.room.widened,
            _ => self.room.high,
        };
        let (last, now) = &self.last;
        let same = |rule, why| self.line(self.load_kg, self.asked.min(top), rule, why);
        if matches!(self.step, Step::Small(_)) && now.surplus >= TWO {
            return same(Rule::OnceMore, "two more than asked once: the same again");
        }
        if now.is_hard() {
            return self.eased(top);
        }
        if self.room.is_early(last) {
            return same(Rule::Hold, "the first weeks: the same again");
        }
        if self.tells && !now.told {
            return same(Rule::Hold, "how many were left was not written down: the same again");
        }
        let reached = last.least().max(self.asked).min(top);
        if reached < top {
            let amount = (reached + self.room.step).min(top);
            return self.line(self.load_kg, amount, Rule::OneMore, "done as asked");
        }
        self.line(self.load_kg, top, Rule::Hold, self.step.at_the_top())
    }

    /// One fewer was left than asked: the same again, and after two such sessions one fewer in each set, or at the low end
    /// the next load down.
    fn eased(&self, top: u32) -> Decision {
        let asked = self.asked.min(top);
        if !self.twice(|_, judged| judged.is_hard()) {
            let why = "one fewer left than asked: the same again";
            return self.line(self.load_kg, asked, Rule::Hold, why);
        }
        let why = "two sessions with one fewer left than asked";
        if asked > self.room.low {
            let fewer = asked.saturating_sub(self.room.step).max(self.room.low);
            return self.line(self.load_kg, fewer, Rule::Ease, why);
        }
        self.line(self.next_down().or(self.load_kg), asked, Rule::Ease, why)
    }

    /// The next load down, where that is not more than about a tenth.
    fn next_down(&self) -> Option<f64> {
        let load = self.load_kg?;
        self.room.ladder?.at_most(load - LEAST_MASS_KG).filter(|down| *down >= load * BACK)
    }

    fn line(&self, load_kg: Option<f64>, amount: u32, rule: Rule, because: &str) -> Decision {
        let load_g = load_kg.map(|load| grams(self.room.under_cap(load)));
        Decision { load_g, amount, rule, because: because.to_owned() }
    }
}

/// The way up from a load.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Step {
    /// A step within a tenth.
    Small(f64),
    /// The next step is over a tenth.
    Wide(f64),
    /// The cap, or the end of the rack.
    Capped,
    /// Nothing to load.
    None,
}

impl Step {
    fn of(load_kg: Option<f64>, room: &Room<'_>) -> Step {
        match load_kg.zip(room.ladder) {
            None => Step::None,
            Some((load, ladder)) => match next_load(load, ladder, room.cap_kg) {
                Some(NextLoad { load_kg, is_wide: false }) => Step::Small(load_kg),
                Some(NextLoad { load_kg, is_wide: true }) => Step::Wide(load_kg),
                None => Step::Capped,
            },
        }
    }

    const fn at_the_top(self) -> &'static str {
        match self {
            Step::Small(_) | Step::Wide(_) => "at the top of the range once: the same again",
            Step::Capped => "at the top of the range, and no heavier load is allowed or here",
            Step::None => "at the top of the range: time for a harder form",
        }
    }
}

/// The heaviest load within a tenth, and no lighter than the next step.
fn farthest(load_kg: f64, next: f64, room: &Room<'_>) -> f64 {
    let most = room.cap_kg.unwrap_or(f64::INFINITY).min(load_kg * MOST_RAISE + 1e-9);
    room.ladder.and_then(|ladder| ladder.at_most(most)).map_or(next, |load| load.max(next))
}

/// About a tenth less, as the place can make it; `None` under the lightest.
fn back(load_kg: Option<f64>, room: &Room<'_>) -> Option<f64> {
    let (load, ladder) = (load_kg?, room.ladder?);
    let wanted = load * BACK;
    let under = ladder.at_most(wanted);
    let over = ladder.at_least(wanted).filter(|over| *over < load);
    match (under, over) {
        (Some(under), Some(over)) if over - wanted < wanted - under => Some(over),
        _ => under.or(over),
    }
}

impl Room<'_> {
    /// Whether a session lies in the weeks in which a beginner's movements come first.
    fn is_early(&self, done: &Performance) -> bool {
        done.week.is_some_and(|week| week < self.judges_from)
    }

    /// A load, or the heaviest of the place under the cap.
    fn under_cap(&self, load_kg: f64) -> f64 {
        match self.cap_kg {
            Some(cap) if load_kg > cap => {
                self.ladder.and_then(|ladder| ladder.at_most(cap)).unwrap_or(cap)
            }
            _ => load_kg,
        }
    }
}

/// The first line after weeks away: about a tenth off, from the low end of the range.
#[must_use]
pub fn restart(last: &Performance, weeks: u32, room: &Room<'_>) -> Decision {
    let load_kg = last.load.grams().map(kilograms);
    let rung = load_kg.zip(room.ladder);
    let less = rung.and_then(|(load, ladder)| ladder.at_most(load * BACK));
    Decision {
        load_g: less.or(load_kg).map(|load| grams(room.under_cap(load))),
        amount: room.low,
        rule: Rule::Restart,
        because: format!("{weeks} weeks away: about a tenth off, from the low end"),
    }
}

/// The same load in an easier week, at the low end.
#[must_use]
pub fn easier(last: &Performance, room: &Room<'_>) -> Decision {
    let load_g = last.load.grams().map(|load| grams(room.under_cap(kilograms(load))));
    Decision {
        load_g,
        amount: room.low,
        rule: Rule::EasierWeek,
        because: "an easier week: nothing is raised".to_owned(),
    }
}

/// A load that the place can make: the nearest at or under what was lifted, else its lightest.
#[must_use]
pub fn makeable(load_g: u32, ladder: &Ladder) -> u32 {
    let load = ladder.at_most(kilograms(load_g)).unwrap_or_else(|| ladder.lightest());
    grams(load)
}

#[cfg(test)]
mod replay;
#[cfg(test)]
mod tests;
