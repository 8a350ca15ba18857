//! The pages before the cards: the days, the weeks, the cautions and how to read the cards.

use serde::Serialize;

use super::fit::{lines, room};
use super::flow::Flow;
use crate::plan::file::Plan;
use crate::sheets::block::{WeekLine, week_lines};
use crate::sheets::card::Card;
use crate::sheets::{Names, Paper, head};

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

/// One page where it holds everything; else the weeks come last, for what to mind is read first.
pub(super) fn pages(plan: &Plan, names: &Names<'_>, paper: Paper) -> Vec<Cover> {
    let short = fill(plan, names, paper, true);
    if short.len() == 1 { short } else { fill(plan, names, paper, false) }
}

fn fill(plan: &Plan, names: &Names<'_>, paper: Paper, weeks_first: bool) -> Vec<Cover> {
    let title = 38.0 + 11.0 * (lines(&head::client(plan), 26.0) - 1.0).max(0.0);
    let mut flow: Flow<Cover> = Flow::new(room(paper), title);
    let days = plan.sessions.iter().map(|session| Card::new(plan, session, names)).collect();
    flow.put(
        DAYS,
        days,
        |day: &Card| 1.9 + 4.9 * lines(&day.focus, 46.0).max(1.0),
        |page| &mut page.days,
    );
    let weeks = |flow: &mut Flow<Cover>| {
        let weeks = week_lines(plan);
        let weeks = if weeks.len() > 1 { weeks } else { Vec::new() };
        flow.put(
            WEEKS,
            weeks,
            |week: &WeekLine| 2.2 + 4.9 * lines(&week.note, 58.0).max(1.0),
            |page| &mut page.weeks,
        );
    };
    if weeks_first {
        weeks(&mut flow);
    }
    flow.put(
        CARE,
        head::cautions(plan),
        |caution: &String| 1.0 + 5.3 * lines(caution, 84.0),
        |page| &mut page.cautions,
    );
    flow.put(0.0, vec![()], |()| KEY, |page| &mut page.key);
    if !weeks_first {
        weeks(&mut flow);
    }
    flow.done()
}
