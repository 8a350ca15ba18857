//! The coach's pages: what the week counts, what fell short, and what the numbers rest on.

use serde::Serialize;

use super::chart::Chart;
use super::fit::{lines, room};
use super::flow::Flow;
use crate::plan::file::{Balance, Plan, Session};
use crate::sheets::sources::{self, Source};
use crate::sheets::wording::say;
use crate::sheets::{Audience, Names, Paper, head, phrase, whys};

/// A page of figures, then pages of words.
#[derive(Serialize)]
pub(super) struct Coach {
    /// What was reported before training.
    alerts: Vec<String>,
    sets: u32,
    chart: Chart,
    balance: Option<Balance>,
    ratios: Vec<Told>,
    /// The sessions' times, where they fit under the chart.
    sessions: Vec<Time>,
    pages: Vec<Words>,
}

/// What stands on a page of words; an empty list is not shown.
#[derive(Default, Serialize)]
struct Words {
    sessions: Vec<Time>,
    whys: Vec<String>,
    shortfalls: Vec<Missed>,
    /// One mark where nothing fell short.
    nothing: Vec<()>,
    loads: Vec<String>,
    made: Vec<String>,
    sources: Vec<Source>,
    cautions: Vec<String>,
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

/// Millimeters of a page's header, of a heading, and of a heading with a table's head.
const HEADER: f64 = 20.0;
const HEADING: f64 = 13.0;
const TABLE: f64 = 21.0;
/// Of a row in a table, and of a bar in the chart.
const ROW: f64 = 6.8;
const BAR: f64 = 6.2;

impl Coach {
    pub(super) fn new(plan: &Plan, names: &Names<'_>, audience: Audience, paper: Paper) -> Self {
        let conditioning = head::conditioning(plan, names)
            .map(|words| Told { name: say!(group_conditioning).to_owned(), words });
        let ratios = head::ratios(plan, names)
            .into_iter()
            .map(|ratio| Told { name: phrase::sentence(ratio.name), words: ratio.words() });
        let ratios: Vec<Told> = ratios.chain(conditioning).collect();
        let room = room(paper) - HEADER;
        let alerts = head::alerts(plan);
        let told: f64 = alerts.iter().map(|alert| 1.0 + 5.3 * lines(alert, 84.0)).sum();
        let told = if alerts.is_empty() { 0.0 } else { HEADING + told };
        let figures =
            told + 2.0 * HEADING + BAR * count(plan.volume.len() + 2) + told_height(&ratios);
        let times: Vec<Time> = plan.sessions.iter().map(time).collect();
        let fits = figures + TABLE + ROW * count(times.len()) <= room;
        let (sessions, late) = if fits { (times, Vec::new()) } else { (Vec::new(), times) };
        Coach {
            alerts,
            sets: head::working_sets(&plan.sessions),
            chart: Chart::new(&plan.volume),
            balance: plan.balance,
            ratios,
            sessions,
            pages: words(plan, names, (audience, paper), late),
        }
    }
}

/// Sessions that had no room before, shortfalls, loads, sources; a sheet without a cover has all cautions here.
fn words(
    plan: &Plan,
    names: &Names<'_>,
    (audience, paper): (Audience, Paper),
    sessions: Vec<Time>,
) -> Vec<Words> {
    let mut flow: Flow<Words> = Flow::new(room(paper) - HEADER, 0.0);
    let text = |text: &String| 1.0 + 5.3 * lines(text, 84.0);
    let small = |text: &str| 1.0 + 4.7 * lines(text, 92.0);
    flow.put(TABLE, sessions, |_| ROW, |page| &mut page.sessions);
    flow.put(HEADING, whys::whys(plan, names), text, |page| &mut page.whys);
    let nothing = if plan.shortfalls.is_empty() { vec![()] } else { Vec::new() };
    flow.put(HEADING, nothing, |()| ROW, |page| &mut page.nothing);
    let missed = plan.shortfalls.iter().map(|shortfall| Missed {
        missed: head::missed(shortfall),
        because: head::because(shortfall),
    });
    let tall = |missed: &Missed| text(&missed.missed) + 4.3 * lines(&missed.because, 96.0);
    flow.put(HEADING, missed.collect(), tall, |page| &mut page.shortfalls);
    flow.put(HEADING, head::loads(plan, names), |load| small(load), |page| &mut page.loads);
    flow.put(HEADING, head::made(plan), text, |page| &mut page.made);
    let tall = |source: &Source| small(&format!("{}: {}", source.about, source.says.join("; ")));
    flow.put(HEADING, sources::of(plan, names), tall, |page| &mut page.sources);
    // Beside the client's pages only what those leave out.
    let cautions = if audience.client() {
        head::kept_from_client(plan)
    } else {
        head::cautions(plan, Audience::Coach)
    };
    flow.put(HEADING, cautions, text, |page| &mut page.cautions);
    flow.done()
}

/// Push, pull and legs, and the ratios below.
fn told_height(ratios: &[Told]) -> f64 {
    let row = |told: &Told| 1.9 + 4.9 * lines(&told.words, 56.0).max(1.0);
    ROW + ratios.iter().map(row).sum::<f64>()
}

fn count(number: usize) -> f64 {
    f64::from(u32::try_from(number).unwrap_or(u32::MAX))
}

fn time(session: &Session) -> Time {
    let minutes = session.minutes.as_ref();
    Time {
        day: session.day.name(),
        planned: minutes
            .map_or_else(String::new, |m| say!(time_min, minutes = phrase::trimmed(m.planned, 1))),
        limit: minutes.map_or_else(String::new, |m| say!(time_min, minutes = m.limit)),
        sets: head::working_sets(std::slice::from_ref(session)),
    }
}
