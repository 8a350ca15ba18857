//! A client's week: the days as they will be printed, what they count, and what can be tried.

use serde::Serialize;

use super::cabinet::ProfileFile;
use super::changes::{self, Changes};
use super::clients;
use super::collision::{Collision, Told};
use super::desk::Desk;
use super::draft::{Draft, Refused, goes_back_to};
use super::records::Records;
use super::tries::{day_label, day_name};
use crate::input::plan::{Balance, Plan, Session};
use crate::input::profile::{Limit, Profile};
use crate::rework::profile_of;
use crate::sheets::card::Card;
use crate::sheets::html::chart::Chart;
use crate::sheets::{Audience, Names, head, phrase};
use crate::words::{Emphasis, Muscle, Paper, Stress};

/// The page of a client.
#[derive(Serialize)]
pub(super) struct Page {
    key: String,
    client: String,
    missing: Vec<String>,
    remarks: Vec<Told>,
    /// What was asked for last and is not possible.
    refused: Option<Collision>,
    /// Whether a file was changed elsewhere since.
    is_changed: bool,
    /// Whether sessions can be written down, and whether there is a book.
    writes: bool,
    has_book: bool,
    /// A sentence about what was just done.
    notice: String,
    week: Option<Week>,
}

/// The week, where there is one.
#[derive(Serialize)]
struct Week {
    about: Option<String>,
    span: String,
    /// The file that it is kept in.
    kept_in: Option<String>,
    is_kept: bool,
    is_older: bool,
    steps: Vec<String>,
    changes: Option<Changes>,
    shown: Shown,
    days: Vec<Day>,
    weeks: Vec<Line>,
    sets: u32,
    chart: Chart,
    balance: Option<Balance>,
    ratios: Vec<[String; 2]>,
    shortfalls: Vec<[String; 2]>,
    cautions: Vec<String>,
    /// The papers to print on, the client's first.
    papers: [Paper; 2],
    tries: Tries,
}

/// Which week the cards are of.
#[derive(Serialize)]
struct Shown {
    /// None shows the fullest.
    week: Option<u32>,
    title: String,
    note: String,
}

/// A day's card.
#[derive(Serialize)]
struct Day {
    card: Card,
    every: String,
    planned: f64,
    limit: u32,
    /// Of the limit, in percent.
    share: u32,
}

/// A week of the block.
#[derive(Serialize)]
struct Line {
    week: u32,
    date: String,
    kind: &'static str,
    sets: u32,
    note: String,
}

/// What can be tried.
#[derive(Serialize)]
struct Tries {
    days: Vec<Slot>,
    kit: Vec<Choice>,
    limits: Vec<Choice>,
    muscles: Vec<Choice>,
    more: Vec<Choice>,
    less: Vec<Choice>,
    seed: u64,
}

/// A training day.
#[derive(Serialize)]
struct Slot {
    label: String,
    name: String,
    minutes: u32,
}

/// A word to choose.
#[derive(Serialize)]
struct Choice {
    id: &'static str,
    name: String,
}

impl Choice {
    fn of(id: &'static str) -> Choice {
        Choice { id, name: id.replace('-', " ") }
    }
}

/// What stands around the week on its page.
pub(super) struct Around<'a> {
    pub(super) desk: &'a Desk,
    pub(super) key: &'a str,
    pub(super) file: &'a ProfileFile,
    pub(super) is_changed: bool,
    /// The week to show; none shows the fullest.
    pub(super) shown: Option<u32>,
    pub(super) notice: String,
}

impl Page {
    /// The page of a week in hand.
    pub(super) fn of(around: &Around, draft: &Draft) -> Page {
        Page {
            refused: draft.refused.as_ref().map(Collision::of),
            week: Some(Week::of(around, draft)),
            ..Page::without(around)
        }
    }

    /// The page of a client without a week, and why.
    pub(super) fn nothing(around: &Around, refused: &Refused) -> Page {
        Page { refused: Some(Collision::of(refused)), ..Page::without(around) }
    }

    fn without(around: &Around) -> Page {
        let kept = around.desk.cabinet.plan(around.key);
        let profile = around.file.profile.as_deref().ok();
        let records = around.desk.cabinet.records();
        Page {
            key: around.key.to_owned(),
            client: profile.map_or_else(|| around.key.to_owned(), |profile| profile.client.clone()),
            missing: clients::missing(around.file, kept.as_ref(), None),
            remarks: Told::all(&around.file.remarks),
            refused: None,
            is_changed: around.is_changed,
            writes: records.is_some(),
            has_book: records.is_some_and(Records::has_book),
            notice: around.notice.clone(),
            week: None,
        }
    }
}

impl Week {
    fn of(around: &Around, draft: &Draft) -> Week {
        let plan = draft.plan().as_ref();
        let planner = around.desk.planner.with_plan(plan);
        let names = Names::new(plan, planner.catalog().entries());
        let shown =
            around.shown.and_then(|number| plan.weeks.iter().find(|week| week.week == number));
        let sessions = shown.map_or(&plan.sessions, |week| &week.sessions);
        let profile = around.file.profile.as_deref().ok();
        let ratios = head::ratios(plan, &names).into_iter();
        Week {
            about: head::about(plan),
            span: head::span(plan),
            kept_in: draft.kept.as_ref().map(|(_, name)| name.clone()),
            is_kept: draft.is_kept && draft.steps.is_empty(),
            is_older: profile.is_some_and(|profile| !goes_back_to(plan, profile)),
            steps: draft.steps.iter().map(|step| step.label.clone()).collect(),
            changes: changes::of(draft, &planner),
            shown: Shown {
                week: shown.map(|week| week.week),
                title: shown.map(head::week_date).unwrap_or_default(),
                note: shown.and_then(|week| week.note.clone()).unwrap_or_default(),
            },
            days: sessions.iter().map(|session| day(plan, session, &names)).collect(),
            weeks: plan.weeks.iter().map(line).collect(),
            sets: head::working_sets(sessions),
            chart: Chart::new(&plan.volume),
            balance: plan.balance,
            ratios: ratios.map(|one| [phrase::sentence(one.name), one.words()]).collect(),
            shortfalls: plan
                .shortfalls
                .iter()
                .map(|short| [head::missed(short), head::because(short)])
                .collect(),
            cautions: head::cautions(plan, Audience::Coach),
            papers: match head::paper(plan) {
                Paper::A4 => [Paper::A4, Paper::Letter],
                Paper::Letter => [Paper::Letter, Paper::A4],
            },
            tries: tries(plan),
        }
    }
}

fn day(plan: &Plan, session: &Session, names: &Names<'_>) -> Day {
    let card = Card::alone(plan, session, names);
    let minutes = session.minutes.as_ref();
    let limit = minutes.map_or(0, |minutes| minutes.limit);
    let planned_s = minutes.map_or(0, |minutes| minutes.planned_s);
    Day {
        every: card.every(),
        planned: minutes.map_or(0.0, |minutes| minutes.planned),
        limit,
        share: if limit == 0 { 0 } else { (planned_s * 100 / (limit * 60)).min(100) },
        card,
    }
}

fn line(week: &crate::input::plan::Week) -> Line {
    Line {
        week: week.week,
        date: head::week_date(week),
        kind: week.kind.id(),
        sets: head::working_sets(&week.sessions),
        note: week.note.clone().unwrap_or_default(),
    }
}

/// What can be tried, from the profile that the plan was made for.
fn tries(plan: &Plan) -> Tries {
    let Ok(profile) = profile_of(plan) else {
        let (kit, limits, muscles) = (Vec::new(), Vec::new(), Vec::new());
        let (days, more, less) = (Vec::new(), Vec::new(), Vec::new());
        return Tries { days, kit, limits, muscles, more, less, seed: plan.seed };
    };
    let slots = profile.sessions.iter();
    let kit = profile.equipment.iter().flat_map(|kit| kit.items.iter());
    let wished = |wish: Emphasis| {
        let muscles = profile.emphasis.iter().filter(move |(_, wished)| **wished == wish);
        muscles.map(|(muscle, _)| Choice::of(muscle.id())).collect()
    };
    let free = Muscle::ALL.iter().filter(|muscle| !profile.emphasis.contains_key(muscle));
    Tries {
        days: slots
            .map(|slot| Slot {
                label: day_label(slot),
                name: day_name(profile, slot),
                minutes: slot.minutes,
            })
            .collect(),
        kit: kit
            .filter(|(_, stock)| stock.count() > 0)
            .map(|(item, _)| Choice::of(item.id()))
            .collect(),
        limits: open_limits(profile),
        muscles: free.map(|muscle| Choice::of(muscle.id())).collect(),
        more: wished(Emphasis::More),
        less: wished(Emphasis::Less),
        seed: plan.seed,
    }
}

/// Stress tags that are not kept out yet.
fn open_limits(profile: &Profile) -> Vec<Choice> {
    let is_out = |tag: &Stress| profile.limits.contains(&Limit::Whole(*tag));
    Stress::ALL.iter().filter(|tag| !is_out(tag)).map(|tag| Choice::of(tag.id())).collect()
}
