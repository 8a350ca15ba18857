//! `weekwright rework`: a plan changed as little as possible.

use std::collections::BTreeMap;
use std::path::Path;

use super::args::{Format, ReworkArgs};
use super::no_plan::{self, Origin};
use super::output::Console;
use super::plan_file;
use super::profile_file;
use super::{Exit, Failure, Faults, ending, files, places, rework_table};
use crate::diagnostic::{Diagnostic, Label, counted, quoted};
use crate::explain::shortfall;
use crate::input::plan::{Plan, ProfileRef, Week};
use crate::input::{naming, suggest};
use crate::planner::Planner;
use crate::rework::table::label;
use crate::rework::{self, Ask, BadAsk, NoRework, Outcome, Reworked, When};
use crate::words::{Kit, Stress};

/// The shortest and longest session that a profile may have, in minutes.
const MINUTES: std::ops::RangeInclusive<u32> = 10..=240;

pub(super) fn run(arguments: &ReworkArgs, console: &Console) -> Result<Exit, Failure> {
    let output = arguments.output.as_deref();
    let format = ending::chosen(arguments.format.as_ref(), output, Format::Yaml)?;
    let planner = Planner::new(files::load_catalog(arguments.catalog.as_deref())?);
    let loaded = plan_file::load_plan(&arguments.plan)?;
    let text = loaded.source.text.to_string();
    let source = loaded.source.clone();
    let plan = plan_file::with_profile(&arguments.plan, loaded, &planner)?;
    let planner = planner.with_plan(&plan);
    all_exercises_exist(&plan, &planner, &arguments.plan)?;
    console.report(&notices(&plan, &planner, &arguments.plan));
    let ask = ask(arguments, &planner)?;
    let when = when(arguments, &plan)?;
    let outcome = match &when {
        Some(when) => planner.rework_dates(&plan, &ask, when),
        None => planner.rework(&plan, &ask),
    };
    match outcome {
        Ok(Outcome::Same) => {
            console.write(output, &text)?;
            console.note("nothing changed: the plan stands as it is");
            Ok(Exit::Done)
        }
        Ok(Outcome::New(new)) => {
            console.report(&by_hand(&new, &arguments.plan));
            let is_file = output.is_some_and(|path| path != Path::new("-"));
            let color = console.colors() && !is_file;
            let changes = match format {
                Format::Json => format!("{:#}", serde_json::json!({ "changes": new.table })),
                Format::Text | Format::Yaml => {
                    let said = said(&new.plan, &plan, when.as_ref());
                    match &when {
                        // A pause changes no exercise.
                        Some(When::Off { .. }) => said,
                        _ => said + &rework_table::told(&new.table, console.width()),
                    }
                }
            };
            if output.is_none() && arguments.format.is_none() {
                console.print(&format!("{}\n", changes.trim_end()))?;
                console.note("nothing is written yet: `-o FILE` writes the plan");
                return Ok(Exit::Done);
            }
            let text = super::plan::rendered(&new.plan, &planner, format, color, console.width())?;
            console.write(output, &text)?;
            console.note(&changes);
            Ok(Exit::Done)
        }
        Err(NoRework::Plan(reason)) => {
            let marks = crate::input::marks::Marks::parse(&source).ok();
            let inside = marks.map(|marks| marks.part(crate::path!["profile"]));
            let name = arguments.plan.display().to_string();
            let (told, exit) = no_plan::tell(&reason, &Origin { name, marks: inside.as_ref() });
            console.report(&told);
            Ok(exit)
        }
        Err(NoRework::Ask(fault)) => {
            let fault = Diagnostic::error("E2003", fault.to_string())
                .at(Label::whole(arguments.plan.display().to_string()))
                .help(fault.help());
            Err(Failure::Faults(fault.into()))
        }
    }
}

/// What the change is for: these dates, or every week.
fn said(new: &Plan, old: &Plan, when: Option<&When>) -> String {
    let dates = new.exceptions.iter().skip(old.exceptions.len());
    let dates = dates.map(|one| match &one.date {
        Some(date) => format!("{} {date} (week {}): {}", one.day, one.week, one.asked.join(", ")),
        None => format!("{} of week {}: {}", one.day, one.week, one.asked.join(", ")),
    });
    let pauses = new.pauses.iter().skip(old.pauses.len()).map(|pause| {
        let moved = match (pause.by, pause.week) {
            (0, _) | (_, None) => "no week moves".to_owned(),
            (by, Some(week)) => {
                let weeks = counted(by as usize, "week", "weeks");
                format!("from week {week} on the plan moves by {weeks}")
            }
        };
        let back = plan_week(new, pause.week).and_then(|week| week.note.as_deref());
        let back = back.map_or_else(String::new, |note| format!("\n  {note}"));
        format!("off from {} to {}: {moved}{back}", pause.from, pause.to)
    });
    let told: Vec<String> = dates.chain(pauses).collect();
    match when {
        None => "For good: the change is in every week of the plan.\n\n".to_owned(),
        Some(_) => format!("Only:\n  {}\n\n", told.join("\n  ")),
    }
}

fn plan_week(plan: &Plan, number: Option<u32>) -> Option<&Week> {
    plan.weeks.iter().find(|week| Some(week.week) == number)
}

/// The dates that are meant; none where the change is for good.
fn when(arguments: &ReworkArgs, plan: &Plan) -> Result<Option<When>, Failure> {
    let fault = |fault: BadAsk| {
        let told = Diagnostic::error("E2003", fault.to_string())
            .at(Label::whole(arguments.plan.display().to_string()))
            .help(fault.help());
        Failure::Faults(told.into())
    };
    if let Some((from, to)) = arguments.from.clone().zip(arguments.to.clone()) {
        if arguments.off {
            return Ok(Some(When::Off { from, to }));
        }
        let Some(name) = &arguments.place else {
            let told = Diagnostic::error("E2002", "a span needs `--place NAME` or `--off`")
                .help("say where the dates are trained, or that they are off");
            return Err(Failure::Faults(told.into()));
        };
        let equipment = places::load_kit(&arguments.plan, name)?;
        return Ok(Some(When::Elsewhere { from, to, place: name.clone(), equipment }));
    }
    if let Some(date) = &arguments.date {
        if !arguments.drop_day.is_empty() {
            return Ok(Some(When::Rest { date: date.clone() }));
        }
        let (week, day) = rework::day_of_date(plan, date).map_err(fault)?;
        return Ok(Some(When::Day { week, day }));
    }
    match (arguments.week, &arguments.day) {
        (Some(week), Some(day)) => Ok(Some(When::Day { week, day: day.clone() })),
        (None, Some(day)) => Err(fault(BadAsk::NoWeek(day.clone()))),
        (Some(week), None) => {
            let told = Diagnostic::error("E2002", format!("`--week {week}` needs its day"))
                .help("write it like `--week 2 --day wed`");
            Err(Failure::Faults(told.into()))
        }
        _ => Ok(None),
    }
}

/// W2006 and W2007: what a plan by hand misses, and whether the rework changes it.
fn by_hand(new: &Reworked, path: &Path) -> Faults {
    let mut faults = Faults::default();
    let Some(written) = &new.written else { return faults };
    for (code, findings, message, help) in [
        (
            "W2006",
            &written.missed,
            "the plan by hand falls short of wishes",
            "left as they are: a rework changes no more than is asked, and `plan` makes a week anew",
        ),
        (
            "W2007",
            &written.broken,
            "the plan by hand breaks hard rules",
            "mended, because no plan may break them",
        ),
    ] {
        if findings.is_empty() {
            continue;
        }
        let told = shortfall::in_short(findings.iter());
        let message = format!("{message}: {}", told.join(", "));
        let label = Label::whole(path.display().to_string());
        faults.diagnostics.push(Diagnostic::warning(code, message).at(label).help(help));
    }
    faults
}

/// What was typed, with every word checked.
fn ask(arguments: &ReworkArgs, planner: &Planner) -> Result<Ask, Failure> {
    let kit: Vec<&str> = Kit::ALL.iter().map(|item| item.id()).collect();
    let tags: Vec<&str> = Stress::ALL.iter().map(|tag| tag.id()).collect();
    let exercises = |list: &[String]| -> Result<Vec<String>, Failure> {
        let entries = planner.catalog().entries();
        list.iter().map(|typed| Ok(files::exercise(typed, entries)?)).collect()
    };
    let profile = match &arguments.profile {
        Some(path) => Some(Box::new(profile_file::load_profile(path, planner.known())?.profile)),
        None => None,
    };
    Ok(Ask {
        without: arguments
            .without
            .iter()
            .map(|item| word(item, "kit", &kit, |item| item.parse().ok()))
            .collect::<Result<_, _>>()?,
        limits: arguments
            .limit
            .iter()
            .map(|tag| word(tag, "stress tag", &tags, |tag| tag.parse().ok()))
            .collect::<Result<_, _>>()?,
        never: exercises(&arguments.never)?,
        must: exercises(&arguments.must)?,
        minutes: arguments.minutes.iter().map(|text| minutes(text)).collect::<Result<_, _>>()?,
        drop_days: arguments.drop_day.clone(),
        swap: Vec::new(),
        today: None,
        held: Vec::new(),
        profile,
        seed: arguments.seed,
    })
}

fn word<T>(
    typed: &str,
    what: &str,
    words: &[&str],
    parse: impl Fn(&str) -> Option<T>,
) -> Result<T, Failure> {
    if words.contains(&typed)
        && let Some(value) = parse(typed)
    {
        return Ok(value);
    }
    let fault = Diagnostic::error("E2002", format!("there is no {what} {}", quoted(typed)))
        .help(suggest::help(typed, words, "`catalog list` and the README name them all"));
    Err(Failure::Faults(fault.into()))
}

fn minutes(text: &str) -> Result<(String, u32), Failure> {
    let parts = text.rsplit_once('=');
    let read = parts.and_then(|(day, minutes)| Some((day.to_owned(), minutes.parse().ok()?)));
    read.filter(|(_, minutes)| MINUTES.contains(minutes)).ok_or_else(|| {
        let fault = Diagnostic::error("E2002", format!("{} is no day with minutes", quoted(text)))
            .help("write it like `--minutes tue=40`, from 10 to 240");
        Failure::Faults(fault.into())
    })
}

/// E2001: an exercise of the plan that the catalog does not have, with its days and the nearest that there is.
pub(super) fn all_exercises_exist(
    plan: &Plan,
    planner: &Planner,
    path: &Path,
) -> Result<(), Failure> {
    let mut unknown: BTreeMap<&str, Vec<String>> = BTreeMap::new();
    for session in &plan.sessions {
        let items = session.groups.iter().flat_map(|group| &group.items);
        for item in items.filter(|item| !planner.catalog().contains(&item.exercise)) {
            let days = unknown.entry(&item.exercise).or_default();
            days.extend(Some(label(session)).filter(|day| !days.contains(day)));
        }
    }
    if unknown.is_empty() {
        return Ok(());
    }
    let told = |(id, days): (&str, Vec<String>)| {
        let message = format!("{}: there is no exercise {}", days.join(", "), quoted(id));
        Diagnostic::error("E2001", message)
            .at(Label::whole(path.display().to_string()))
            .help(naming::help(id, planner.catalog().entries()))
    };
    Err(Failure::Faults(Faults::new(unknown.into_iter().map(told).collect(), Vec::new())))
}

/// W2004 and W2005: profile or catalog are not what the plan was made from.
pub(super) fn notices(plan: &Plan, planner: &Planner, path: &Path) -> Faults {
    let mut faults = Faults::default();
    let Some(inputs) = &plan.inputs else { return faults };
    let ProfileRef::Whole(profile) = &plan.profile else { return faults };
    let mut warn = |code: &'static str, message: &str, help: &str| {
        let label = Label::whole(path.display().to_string());
        faults.diagnostics.push(Diagnostic::warning(code, message).at(label).help(help));
    };
    if rework::edited(plan, profile) {
        warn(
            "W2004",
            "the profile inside this plan was edited since it was planned",
            "the profile as it stands now is used",
        );
    }
    if planner.catalog().sha256() != inputs.catalog_sha256 {
        warn(
            "W2005",
            "the exercises are not the ones this plan was made from",
            "the exercises as they are now are used; `audit` recounts the plan with them",
        );
    }
    faults
}
