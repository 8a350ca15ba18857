//! What a client did, on one page of our own: drawn courses with their figures, bests, and what comes next.

mod chart;

use jiff::ToSpan as _;
use jiff::civil::Date;
use minijinja::{Value, value::Serde};
use serde::Serialize;

use self::chart::{Chart, Course};
use super::wording::{self, say};
use super::{Audience, Lookup, Names, Paper, SheetError, card, head, phrase};
use crate::book::review::{BestSet, LiftTrend, Review, Trend, text};
use crate::book::{DoneSession, slot};
use crate::input::plan::{Plan, Session, Week};
use crate::words::{Measure, Units};

/// How a course is drawn, as a macro for templates.
pub(crate) const DRAWN: &str = include_str!("drawn.html");
const TEMPLATE: &str = include_str!("page.html");
const STYLE: &str = include_str!("style.css");

/// What the page is made from.
pub struct Progress<'a> {
    /// The look back.
    pub review: &'a Review,
    /// Its first day.
    pub from: Date,
    /// The current plan.
    pub plan: Option<&'a Plan>,
    /// The week that comes and the sessions of it that are to be done.
    pub coming: Option<(&'a Week, Vec<&'a Session>)>,
    /// The client's unit of mass.
    pub units: Units,
    /// Whom it is for: the coach gets the review too.
    pub audience: Audience,
    /// The paper, in place of the profile's.
    pub paper: Option<Paper>,
}

/// The page.
///
/// # Errors
/// A template that failed, which is a fault of ours.
pub fn page(progress: &Progress<'_>, names: &dyn Lookup) -> Result<String, SheetError> {
    let mut environment = wording::environment();
    environment.add_template("drawn.html", DRAWN)?;
    Ok(environment.render_str(TEMPLATE, Serde(view(progress, names)))?)
}

/// Everything that the template shows.
#[derive(Serialize)]
pub(crate) struct View<'a> {
    client: &'a str,
    span: String,
    paper: &'static str,
    style: Value,
    facts: Vec<[String; 2]>,
    lifts: Vec<Lift>,
    body: Vec<Body>,
    bests: Vec<[String; 4]>,
    coming: Option<Coming>,
    stop: &'static str,
    defer: &'static str,
    coach: Option<Coach>,
}

#[derive(Serialize)]
struct Lift {
    name: String,
    chart: Option<Chart>,
    now: String,
    trend: String,
}

#[derive(Serialize)]
struct Body {
    name: String,
    chart: Option<Chart>,
    told: String,
}

#[derive(Serialize)]
struct Coming {
    title: String,
    days: Vec<Day>,
}

#[derive(Serialize)]
struct Day {
    name: String,
    lines: Vec<[String; 3]>,
}

#[derive(Serialize)]
struct Coach {
    muscles: Vec<[String; 3]>,
    work: Vec<[String; 4]>,
    effort: Vec<String>,
    skipped: Vec<String>,
    proposals: Vec<[String; 3]>,
    remarks: Vec<String>,
}

/// What was done, in words and figures.
pub(crate) fn view<'a>(progress: &Progress<'a>, names: &dyn Lookup) -> View<'a> {
    let review = progress.review;
    let paper = progress.paper.or(progress.plan.map(head::paper)).unwrap_or(Paper::A4);
    View {
        client: &review.client,
        span: say!(range_from_to, low = long(&review.from), high = long(&review.to)),
        paper: match paper {
            Paper::A4 => "A4",
            Paper::Letter => "Letter",
        },
        style: Value::from_safe_string(STYLE.to_owned()),
        facts: facts(review, progress.units),
        lifts: review
            .lifts
            .iter()
            .filter(|one| progress.audience.coach() || !one.points.is_empty())
            .map(|one| lift(one, progress))
            .collect(),
        body: body(progress),
        bests: review.bests.iter().map(|one| best(one, progress.units)).collect(),
        coming: what_comes(progress, names),
        stop: head::stop(),
        defer: head::defer(),
        coach: progress.audience.coach().then(|| coach(review, progress.units)),
    }
}

/// The first week of a plan with sessions that come after what is written down, and these sessions.
#[must_use]
pub fn coming<'a>(plan: &'a Plan, done: &[DoneSession]) -> Option<(&'a Week, Vec<&'a Session>)> {
    let taken = slot::taken(done, plan);
    let last = done.last().map(|session| session.date);
    let after = last.and_then(|last| last.checked_add(1.day()).ok());
    let is_open = |week: &Week, session: &Session| {
        let first = week.date.as_deref().and_then(crate::input::clock::date);
        let date = first.and_then(|first| slot::day_in_week(first, session.day));
        let is_past = date.zip(after).is_some_and(|(date, after)| date < after);
        !is_past && !taken.contains(&(week.week, session.day, session.at.clone()))
    };
    plan.weeks.iter().find_map(|week| {
        let open: Vec<&Session> =
            week.sessions.iter().filter(|session| is_open(week, session)).collect();
        (!open.is_empty()).then_some((week, open))
    })
}

fn long(date: &String) -> String {
    phrase::date(Some(date)).map_or_else(|| date.clone(), phrase::long_date)
}

fn short(date: &String) -> String {
    phrase::date(Some(date)).map_or_else(|| date.clone(), phrase::day_month)
}

/// The figures at the head: what was done, in numbers.
fn facts(review: &Review, units: Units) -> Vec<[String; 2]> {
    let sets: usize = review.work.iter().map(|week| week.sets).sum();
    let lifted: f64 = review.work.iter().map(|week| week.kilograms).sum();
    let counts = review.sessions;
    let done = counts.done + counts.extra;
    let sessions = match counts.planned {
        0 => done.to_string(),
        planned => say!(count_of, count = counts.done, all = planned),
    };
    let extra = (counts.planned > 0 && counts.extra > 0)
        .then(|| [counts.extra.to_string(), say!(fact_beside).to_owned()]);
    let lifted =
        (lifted > 0.0).then(|| [phrase::mass(lifted, units), say!(fact_lifted).to_owned()]);
    let fixed = [[sessions, say!(fact_sessions).to_owned()]];
    let sets = [sets.to_string(), say!(count_sets).to_owned()];
    fixed.into_iter().chain(extra).chain([sets]).chain(lifted).collect()
}

fn lift(one: &LiftTrend, progress: &Progress<'_>) -> Lift {
    let in_units = |kilograms: f64| {
        phrase::mass_number(kilograms, progress.units).parse().unwrap_or(kilograms)
    };
    let points: Vec<(i32, f64)> =
        one.points.iter().map(|point| (point.days, in_units(point.kilograms))).collect();
    let unit = format!(" {}", progress.units.id());
    let course = Course {
        name: &one.name,
        unit: &unit,
        from: progress.from,
        points: &points,
        line: &points,
    };
    let now = one.points.last().map_or_else(
        || say!(no_estimate).to_owned(),
        |point| {
            let rough = if point.rough { say!(most_for_one_rough) } else { "" };
            say!(
                most_for_one,
                mass = phrase::mass(point.kilograms, progress.units),
                low = phrase::mass(point.range[0], progress.units),
                high = phrase::mass(point.range[1], progress.units),
                rough
            )
        },
    );
    let trend = match one.trend {
        Trend::Rises => say!(trend_rises).to_owned(),
        Trend::Holds => say!(trend_holds).to_owned(),
        Trend::Falls => say!(trend_falls).to_owned(),
        Trend::TooFew => say!(trend_few).to_owned(),
    };
    let trend = if progress.audience.coach() { text::trend(one, progress.units) } else { trend };
    let [now, trend] = [now, trend].map(|text| phrase::sentence(&text));
    Lift { name: one.name.clone(), chart: Chart::new(&course), now, trend }
}

fn body(progress: &Progress<'_>) -> Vec<Body> {
    let lines = progress.review.body.iter().map(|one| {
        let is_mass = one.kind == "mass";
        let shown = |points: &[(i32, f64)]| -> Vec<(i32, f64)> {
            let value = |value: f64| match is_mass {
                true => phrase::mass_number(value, progress.units).parse().unwrap_or(value),
                false => value,
            };
            points.iter().map(|(day, one)| (*day, value(*one))).collect()
        };
        let unit = one.last.split_once(' ').map_or(String::new(), |(_, unit)| format!(" {unit}"));
        let (points, line) = (shown(&one.points), shown(&one.smoothed));
        let course = Course {
            name: &one.name,
            unit: &unit,
            from: progress.from,
            points: &points,
            line: &line,
        };
        let site = if one.site.is_empty() { String::new() } else { format!(", {}", one.site) };
        Body {
            name: format!("{}{site}", phrase::sentence(&one.name)),
            chart: Chart::new(&course),
            told: format!("{}; {}", one.last, one.told),
        }
    });
    lines.collect()
}

fn best(one: &BestSet, units: Units) -> [String; 4] {
    let counted = |amount: u32| match one.measure {
        Measure::Reps => amount.to_string(),
        Measure::Seconds => say!(time_s, seconds = amount),
        Measure::Meters => say!(dose_meters, meters = amount),
        Measure::Calories => say!(dose_calories, calories = amount),
    };
    let set = |load: Option<f64>, amount: u32| match load {
        Some(load) => format!("{} × {}", phrase::mass(load, units), counted(amount)),
        None => counted(amount),
    };
    let before = one.before.map_or(String::new(), |(load, amount)| set(load, amount));
    [one.name.clone(), set(one.load_kg, one.amount), short(&one.date), before]
}

fn what_comes(progress: &Progress<'_>, names: &dyn Lookup) -> Option<Coming> {
    let (week, sessions) = progress.coming.as_ref()?;
    let plan = progress.plan?;
    let names = Names::new(plan, names);
    let first = phrase::date(week.date.as_ref());
    let days = sessions.iter().map(|session| {
        let date = first.and_then(|first| phrase::day_in_week(first, session.day));
        let date = date.map_or(String::new(), |date| format!(" {}", phrase::day_month(date)));
        Day { name: format!("{}{date}", session.day.name()), lines: lines(session, plan, &names) }
    });
    Some(Coming { title: say!(what_comes, week = week.week), days: days.collect() })
}

/// The working lines of a session: letter and name, what is asked for, and the load.
fn lines(session: &Session, plan: &Plan, names: &Names<'_>) -> Vec<[String; 3]> {
    let units = head::units(plan);
    let works = session.groups.iter().filter(|group| group.is_work());
    works
        .enumerate()
        .flat_map(|(place, group)| group.items.iter().map(move |item| (card::letter(place), item)))
        .map(|(letter, item)| {
            let load = item.load_kg.map(|load| phrase::mass(load, units)).unwrap_or_default();
            [format!("{letter}  {}", names.name(&item.exercise)), phrase::dose(item), load]
        })
        .collect()
}

fn coach(review: &Review, units: Units) -> Coach {
    Coach {
        muscles: review
            .muscles
            .iter()
            .map(|one| {
                [one.muscle.name(), phrase::trimmed(one.sets, 1), head::range(one.low, one.high)]
            })
            .collect(),
        work: review
            .work
            .iter()
            .map(|week| {
                [
                    short(&week.from),
                    week.sessions.to_string(),
                    week.sets.to_string(),
                    phrase::mass(week.kilograms, units),
                ]
            })
            .collect(),
        effort: review
            .effort
            .iter()
            .map(|one| {
                say!(
                    effort_course,
                    lift = one.name,
                    mass = phrase::mass(one.load_kg, units),
                    reps = one.reps,
                    first = one.reserve[0],
                    last = one.reserve[1]
                )
            })
            .collect(),
        skipped: review
            .skipped
            .iter()
            .take(5)
            .map(|one| say!(skipped_times, lift = one.name, times = one.times, all = one.of))
            .collect(),
        proposals: review
            .proposals
            .iter()
            .map(|one| [one.what.clone(), one.because.clone(), one.command.clone()])
            .collect(),
        remarks: review.remarks.clone(),
    }
}
