//! Asks that make no sense: for any plan, or for this one.

use super::Ask;
use crate::words::Kit;

/// Why an ask makes no sense for a plan.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum BadAsk {
    /// No session on that day.
    #[error("the plan has no session `{day}`; its sessions are {have}")]
    NoSuchDay {
        /// The day as typed.
        day: String,
        /// The sessions.
        have: String,
    },
    /// Kit that the place does not have anyway.
    #[error("the place has no {0} as it is")]
    NoSuchKit(Kit),
    /// A change to a day that a rework of one day leaves as it is.
    #[error("only {today} may change, and this asks for a change of {day}")]
    HeldDay {
        /// The day that may change, as typed.
        today: String,
        /// The other, as typed.
        day: String,
    },
    /// The one day that may change is to go.
    #[error("{today} is the one day that may change, and this drops it")]
    TodayDropped {
        /// The day, as typed.
        today: String,
    },
    /// An edited profile that differs in more than the one day.
    #[error(
        "only {today} may change, and the edited profile changes {what}, which other days share"
    )]
    HeldProfile {
        /// The day that may change, as typed.
        today: String,
        /// The keys that differ.
        what: String,
    },
    /// An exercise that must be in and never be in.
    #[error("`{0}` is both demanded and kept out")]
    MustAndNever(String),
    /// A day that is to go and to have other minutes.
    #[error("{0} is dropped, and has no minutes then")]
    DroppedMinutes(String),
    /// A day with two lengths.
    #[error("{day} is given {one} minutes and {other} minutes")]
    TwoMinutes {
        /// The day, as typed.
        day: String,
        /// The first.
        one: u32,
        /// The second.
        other: u32,
    },
    /// A day that is told without its week.
    #[error("`{0}` alone does not say of which week")]
    NoWeek(String),
    /// A text that is no date.
    #[error("{0} is no date")]
    NoDate(String),
    /// A span that ends before it begins.
    #[error("the span from {from} to {to} falls")]
    SpanFalls {
        /// The first date.
        from: String,
        /// The last.
        to: String,
    },
    /// A week that the plan does not have.
    #[error("the plan has no week {week}; it has {weeks}")]
    NoSuchWeek {
        /// The week.
        week: u32,
        /// How many there are.
        weeks: usize,
    },
    /// A date before or after the plan.
    #[error("{date} is outside the plan: it has {weeks} weeks from {first}")]
    OutsidePlan {
        /// The date.
        date: String,
        /// Its first day.
        first: String,
        /// How many weeks it has.
        weeks: usize,
    },
    /// A lost day that was done.
    #[error("{day} was before {date}, so it is done")]
    AlreadyDone {
        /// The day.
        day: String,
        /// The date from which nothing is done yet.
        date: String,
    },
    /// Every session dropped.
    #[error("no session is left")]
    NoSession,
    /// The plan's profile is a file name.
    #[error("the plan's profile is not whole")]
    NoProfile,
}

impl BadAsk {
    /// What to type in its place.
    #[must_use]
    pub fn help(&self) -> &'static str {
        match self {
            BadAsk::NoSuchDay { .. } | BadAsk::NoSuchKit(_) | BadAsk::NoSession => {
                "name what the plan's own profile has"
            }
            BadAsk::HeldDay { .. } => "leave out `--today`, or ask for that day alone",
            BadAsk::TodayDropped { .. } => "leave out `--today`: the week is shared out anew",
            BadAsk::HeldProfile { .. } => {
                "leave out `--today`, or say what is different that day with `--without`, `--limit` or `--never`"
            }
            BadAsk::MustAndNever(_) | BadAsk::DroppedMinutes(_) | BadAsk::TwoMinutes { .. } => {
                "keep one of the two"
            }
            BadAsk::NoWeek(_) => "add `--week N`, or name the day by `--date 2027-01-13`",
            BadAsk::NoDate(_) => "write it like 2027-01-13",
            BadAsk::SpanFalls { .. } => "the first date comes first",
            BadAsk::NoSuchWeek { .. } | BadAsk::OutsidePlan { .. } => {
                "name a week or a date of the plan; without a `start` in the profile there are only weeks"
            }
            BadAsk::AlreadyDone { .. } => "drop a day that is still to come",
            BadAsk::NoProfile => "put the profile itself into the plan",
        }
    }
}

/// Refuses asks that contradict themselves.
pub(super) fn check(ask: &Ask) -> Result<(), BadAsk> {
    if let Some(id) = ask.must.iter().find(|id| ask.never.contains(id)) {
        return Err(BadAsk::MustAndNever(id.clone()));
    }
    for (place, (day, minutes)) in ask.minutes.iter().enumerate() {
        if ask.drop_days.contains(day) {
            return Err(BadAsk::DroppedMinutes(day.clone()));
        }
        let later = ask.minutes[place + 1..].iter();
        if let Some((_, other)) =
            later.clone().find(|(same, other)| same == day && other != minutes)
        {
            return Err(BadAsk::TwoMinutes { day: day.clone(), one: *minutes, other: *other });
        }
    }
    if let Some(today) = ask.today.as_ref().filter(|today| ask.drop_days.contains(today)) {
        return Err(BadAsk::TodayDropped { today: today.clone() });
    }
    Ok(())
}
