//! One self-contained page for screen, phone and paper.

pub(crate) mod chart;
mod coach;
mod cover;
mod fit;
mod flow;
mod words;

use std::io;
use std::sync::LazyLock;

use jiff::civil::Date;
use minijinja::{Value, value::Serde};
use serde::Serialize;

use self::coach::Coach;
use self::cover::Cover;
use self::fit::Page;
use super::block;
use super::wording::{self, say};
use super::{Lookup, Names, Options, Paper, Sheet, SheetError, head, phrase};
use crate::catalog::sha256;
use crate::plan::file::Plan;
use crate::words::Status;

const TEMPLATE: &str = include_str!("sheet.html");
const STYLE: &str = include_str!("style.css");

/// What a phone needs beside the style: the day of today first, ticks that stay, and what was done as text.
const SCRIPT: &str = include_str!("pocket.js");

/// The mark by which a page allows this script and no other.
static MARK: LazyLock<String> = LazyLock::new(|| sha256(SCRIPT.as_bytes())[..32].to_owned());

/// The mark of the script in a sheet, for the policy of a server that hands it out.
pub(crate) fn script_mark() -> &'static str {
    &MARK
}

/// A page with a cover, a card per session that prints on one page of A4 or Letter (a very long one takes the back of the
/// paper too), and the coach's pages.
/// It needs no network, and no script but on a phone, where one helps.
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
        let page =
            wording::environment().render_str(TEMPLATE, Serde(view(plan, &names, options)))?;
        out.write_all(page.as_bytes())?;
        Ok(())
    }
}

/// One page with the cards of a day: those of every plan that is given, which hold nothing else. Without a paper, that of
/// the first client.
///
/// # Errors
/// A fault of the template.
pub fn cards_of_day(
    plans: &[Plan],
    names: &dyn Lookup,
    date: Date,
    paper: Option<Paper>,
) -> Result<String, SheetError> {
    let paper = paper.or(plans.first().map(head::paper)).unwrap_or(Paper::A4);
    let blocks = plans.iter().flat_map(|plan| blocks(plan, &Names::new(plan, names), paper));
    let view = View {
        client: phrase::long_date(date),
        what: say!(cards_of_day),
        about: None,
        span: String::new(),
        paper: name_of(paper),
        style: Value::from_safe_string(STYLE.to_owned()),
        covers: Vec::new(),
        clock: false,
        stop: head::stop(),
        convention: head::convention(),
        reserve: false,
        steps: false,
        blocks: blocks.collect(),
        script: Value::from_safe_string(SCRIPT.to_owned()),
        mark: script_mark(),
        pocket: wording::words_of("pocket_"),
        coach: None,
    };
    Ok(wording::environment().render_str(TEMPLATE, Serde(view))?)
}

const fn name_of(paper: Paper) -> &'static str {
    match paper {
        Paper::A4 => "A4",
        Paper::Letter => "Letter",
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
    /// The pages before the cards; none on a sheet for the coach alone.
    covers: Vec<Cover>,
    /// Whether some day has its hour.
    clock: bool,
    stop: &'static str,
    convention: &'static str,
    reserve: bool,
    /// Whether some card names the load to take next.
    steps: bool,
    blocks: Vec<Pages>,
    script: Value,
    mark: &'static str,
    /// The words of the script.
    pocket: String,
    coach: Option<Coach>,
}

fn view(plan: &Plan, names: &Names<'_>, options: &Options) -> View {
    let client = options.audience.client();
    let paper = options.paper.unwrap_or_else(|| head::paper(plan));
    let blocks = if client { blocks(plan, names, paper) } else { Vec::new() };
    View {
        client: head::client(plan),
        what: if client { say!(training_plan) } else { say!(training_plan_coach) },
        about: head::about(plan),
        span: head::span(plan),
        paper: name_of(paper),
        style: Value::from_safe_string(STYLE.to_owned()),
        covers: if client { cover::pages(plan, names, paper) } else { Vec::new() },
        clock: plan.sessions.iter().any(|session| session.at.is_some()),
        stop: head::stop(),
        convention: head::convention(),
        reserve: head::status(plan).is_some_and(|status| status != Status::Novice),
        steps: blocks.iter().flat_map(|block| &block.cards).any(Page::has_steps),
        blocks,
        script: Value::from_safe_string(SCRIPT.to_owned()),
        mark: script_mark(),
        pocket: wording::words_of("pocket_"),
        coach: options.audience.coach().then(|| Coach::new(plan, names, options.audience, paper)),
    }
}

/// The cards of a run of weeks.
#[derive(Serialize)]
struct Pages {
    /// Tells the plan from others, for what a phone keeps of it.
    plan: String,
    client: String,
    title: String,
    cards: Vec<Page>,
}

fn blocks(plan: &Plan, names: &Names<'_>, paper: Paper) -> Vec<Pages> {
    let mut blocks = block::blocks(plan, names);
    blocks.iter_mut().flat_map(|block| &mut block.cards).for_each(words::settle);
    let own = sha256(serde_json::to_string(plan).unwrap_or_default().as_bytes())[..12].to_owned();
    blocks
        .into_iter()
        .map(|block| Pages {
            plan: own.clone(),
            client: head::client(plan),
            title: block.title,
            cards: block.cards.into_iter().flat_map(|card| fit::pages(card, paper)).collect(),
        })
        .collect()
}
