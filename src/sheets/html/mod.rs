//! One self-contained page for screen, phone and paper.

mod chart;
mod fit;

use std::io;

use minijinja::{AutoEscape, Environment, Value, value::Serde};
use serde::Serialize;

use self::chart::Chart;
use super::block::{self, BlockCard, WeekLine};
use super::card::Card;
use super::sources::{self, Source};
use super::{Lookup, Names, Options, Paper, Sheet, SheetError, head, phrase};
use crate::plan::file::{Balance, Plan, Session};
use crate::words::Status;

const TEMPLATE: &str = include_str!("sheet.html");
const STYLE: &str = include_str!("style.css");

/// A page with a cover, a card per session that prints on one sheet of paper, and the coach's pages.
/// It needs no network and no script.
pub struct Html;

impl Sheet for Html {
    fn format(&self) -> &'static str {
        "html"
    }

    fn write(
        &self,
        plan: &Plan,
        names: &dyn Lookup,
        options: &Options,
        out: &mut dyn io::Write,
    ) -> Result<(), SheetError> {
        let names = Names::new(plan, names);
        let mut environment = Environment::new();
        environment.set_auto_escape_callback(|_| AutoEscape::Html);
        let page = environment.render_str(TEMPLATE, Serde(view(plan, &names, options)))?;
        out.write_all(page.as_bytes())?;
        Ok(())
    }
}

/// Everything that the template shows.
#[derive(Serialize)]
#[allow(clippy::struct_excessive_bools, reason = "a template asks yes or no")]
struct View {
    client: String,
    what: &'static str,
    about: Option<String>,
    span: String,
    paper: &'static str,
    style: Value,
    cover: bool,
    days: Vec<Card>,
    /// Whether some day has its hour.
    clock: bool,
    weeks: Vec<WeekLine>,
    /// Whether the weeks need a page of their own.
    weeks_apart: bool,
    cautions: Vec<String>,
    stop: &'static str,
    convention: &'static str,
    reserve: bool,
    blocks: Vec<Pages>,
    coach: Option<Coach>,
}

fn view(plan: &Plan, names: &Names<'_>, options: &Options) -> View {
    let client = options.audience.client();
    let weeks = block::week_lines(plan);
    let cautions = head::cautions(plan);
    View {
        client: head::client(plan),
        what: if client { "Training plan" } else { "Training plan, for the coach" },
        about: head::about(plan),
        span: head::span(plan),
        paper: match options.paper {
            Paper::A4 => "A4",
            Paper::Letter => "Letter",
        },
        style: Value::from_safe_string(STYLE.to_owned()),
        cover: client,
        days: plan.sessions.iter().map(|session| Card::new(plan, session, names)).collect(),
        clock: plan.sessions.iter().any(|session| session.at.is_some()),
        weeks_apart: !fit::cover_holds(&weeks, &cautions, plan.sessions.len(), options.paper),
        weeks,
        cautions,
        stop: head::STOP,
        convention: head::CONVENTION,
        reserve: head::status(plan).is_some_and(|status| status != Status::Novice),
        blocks: if client { blocks(plan, names, options.paper) } else { Vec::new() },
        coach: options.audience.coach().then(|| Coach::new(plan, names)),
    }
}

/// A card and how closely it is set.
#[derive(Serialize)]
struct Page {
    fit: &'static str,
    card: BlockCard,
}

/// The cards of a run of weeks.
#[derive(Serialize)]
struct Pages {
    title: String,
    cards: Vec<Page>,
}

fn blocks(plan: &Plan, names: &Names<'_>, paper: Paper) -> Vec<Pages> {
    let blocks = block::blocks(plan, names).into_iter();
    blocks
        .map(|block| Pages {
            title: block.title,
            cards: block
                .cards
                .into_iter()
                .map(|card| Page { fit: fit::class(&card, paper), card })
                .collect(),
        })
        .collect()
}

/// What the coach's pages show.
#[derive(Serialize)]
struct Coach {
    sets: u32,
    chart: Chart,
    balance: Option<Balance>,
    ratios: Vec<Told>,
    sessions: Vec<Time>,
    /// Whether the sessions' times still fit under the chart.
    sessions_first: bool,
    /// Whether the sources need a page of their own.
    sources_apart: bool,
    shortfalls: Vec<Missed>,
    loads: Vec<String>,
    sources: Vec<Source>,
    made: Vec<String>,
}

/// A name and what is said of it.
#[derive(Serialize)]
struct Told {
    name: String,
    words: String,
}

/// A session's time and sets.
#[derive(Serialize)]
struct Time {
    day: &'static str,
    planned: String,
    limit: String,
    sets: u32,
}

/// A wish that was not met.
#[derive(Serialize)]
struct Missed {
    missed: String,
    because: String,
}

impl Coach {
    fn new(plan: &Plan, names: &Names<'_>) -> Self {
        let conditioning = head::conditioning(plan, names)
            .map(|words| Told { name: "Conditioning".to_owned(), words });
        let ratios = head::ratios(plan, names)
            .into_iter()
            .map(|ratio| Told { name: phrase::sentence(ratio.name), words: ratio.words() });
        let loads = head::loads(plan, names);
        // Rough heights in millimeters; the check in a browser counts the pages that come out.
        let sessions_first = plan.volume.len() * 6 + plan.sessions.len() * 7 <= 160;
        let sessions = if sessions_first { 0 } else { 15 + plan.sessions.len() * 7 };
        let before_sources = sessions + plan.shortfalls.len() * 14 + loads.len() * 9;
        Coach {
            sets: head::working_sets(&plan.sessions),
            chart: Chart::new(plan),
            balance: plan.balance,
            ratios: ratios.chain(conditioning).collect(),
            sessions: plan.sessions.iter().map(time).collect(),
            sessions_first,
            sources_apart: before_sources > 100,
            loads,
            shortfalls: plan
                .shortfalls
                .iter()
                .map(|missed| Missed {
                    missed: head::missed(missed),
                    because: head::because(missed),
                })
                .collect(),
            sources: sources::of(plan, names),
            made: head::made(plan),
        }
    }
}

fn time(session: &Session) -> Time {
    let minutes = session.minutes.as_ref();
    Time {
        day: session.day.name(),
        planned: minutes
            .map_or_else(String::new, |m| format!("{} min", phrase::trimmed(m.planned, 1))),
        limit: minutes.map_or_else(String::new, |m| format!("{} min", m.limit)),
        sets: head::working_sets(std::slice::from_ref(session)),
    }
}
