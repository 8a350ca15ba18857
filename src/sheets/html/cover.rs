//! The pages before the cards: the days, the weeks, the cautions and how to read the cards.

use serde::Serialize;

use super::fit::{lines, room};
use super::flow::Flow;
use crate::plan::file::Plan;
use crate::sheets::block::{WeekLine, week_lines};
use crate::sheets::card::Card;
use crate::sheets::{Audience, Names, Paper, head};

/// What stands on a page of the cover; an empty list is not shown.
#[derive(Default, Serialize)]
pub(super) struct Cover {
    days: Vec<Card>,
    weeks: Vec<WeekLine>,
    cautions: Vec<String>,
    /// How to read the cards: shown where it holds one mark.
    key: Vec<()>,
}

/// Millimeters of the key to the cards, and of the heading of each part with its table's head.
const KEY: f64 = 66.0;
const DAYS: f64 = 15.0;
const WEEKS: f64 = 15.0;
const CARE: f64 = 12.0;

/// One page where it holds everything; else the weeks come last, on a page of their own, for what to mind is read
/// first.
pub(super) fn pages(plan: &Plan, names: &Names<'_>, paper: Paper) -> Vec<Cover> {
    let weeks = week_lines(plan);
    let weeks = if weeks.len() > 1 { weeks } else { Vec::new() };
    let mut together = begun(plan, names, paper);
    put_weeks(&mut together, weeks.clone());
    put_cautions(&mut together, plan);
    let together = together.done();
    if together.len() == 1 || weeks.is_empty() {
        return together;
    }
    let mut apart = begun(plan, names, paper);
    put_cautions(&mut apart, plan);
    apart.turn();
    put_weeks(&mut apart, weeks);
    apart.done()
}

/// The title and the days.
fn begun(plan: &Plan, names: &Names<'_>, paper: Paper) -> Flow<Cover> {
    let title = 38.0 + 11.0 * (lines(&head::client(plan), 26.0) - 1.0).max(0.0);
    let mut flow: Flow<Cover> = Flow::new(room(paper), title);
    let days = plan.sessions.iter().map(|session| Card::new(plan, session, names)).collect();
    let height = |day: &Card| 2.0 + 4.9 * lines(&day.focus, 42.0).max(1.0);
    flow.put(DAYS, days, height, |page| &mut page.days);
    flow
}

fn put_weeks(flow: &mut Flow<Cover>, weeks: Vec<WeekLine>) {
    let height = |week: &WeekLine| 2.3 + 4.9 * lines(&week.note, 56.0).max(1.0);
    flow.put(WEEKS, weeks, height, |page| &mut page.weeks);
}

/// The cautions and how to read the cards.
fn put_cautions(flow: &mut Flow<Cover>, plan: &Plan) {
    let height = |caution: &String| 1.0 + 5.3 * lines(caution, 84.0);
    flow.put(CARE, head::cautions(plan, Audience::Client), height, |page| &mut page.cautions);
    flow.put(0.0, vec![()], |()| KEY, |page| &mut page.key);
}
