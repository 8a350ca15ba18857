//! `weekwright measure`: body measures into the book, with what they allow to estimate.

use jiff::civil::Date;

use super::args::book::MeasureArgs;
use super::book::{self, Book, client_id, measures, plans};
use super::log::target::{filed_plan, profile_of};
use super::output::Console;
use super::profile_file;
use super::render::{paragraph, wrapped};
use super::{Exit, Failure, table, today};
use crate::book::body::estimate::Body;
use crate::book::body::kind::Unit;
use crate::book::body::report::{Report, report};
use crate::book::body::{Kind, Measured};
use crate::book::written::number;
use crate::catalog::Catalog;
use crate::diagnostic::{Diagnostic, counted, quoted};
use crate::input::profile::Profile;
use crate::input::suggest;
use crate::load;
use crate::planner::Planner;
use crate::strength::ladder::{KG_PER_LB, to_kg};
use crate::words::{Sex, Units};

pub(super) fn run(arguments: &MeasureArgs, console: &Console) -> Result<Exit, Failure> {
    let date = match &arguments.date {
        Some(text) => today::typed("--date", text)?,
        None => today::today(),
    };
    let path = book::place(arguments.book.book.as_deref(), None);
    let mut book = Book::open_or_promise(&path, console)?;
    let known = book.clients()?.into_iter().find(|client| client.code == arguments.client);
    let profile = profile(arguments, &book, known.as_ref().map(|client| client.id))?;
    let units = profile.as_ref().map_or(Units::Kg, |profile| profile.units);
    let measured = typed(arguments, date, units)?;
    if known.is_none() {
        announce(&book, &arguments.client, console)?;
    }
    let (replaced, all) = book.change(|transaction| {
        let client = client_id(transaction, &arguments.client)?;
        let replaced = measures::write(transaction, client, &measured)?;
        Ok((replaced, measures::of(transaction, client)?))
    })?;
    book.announce(console);
    let body = profile.as_ref().map(|profile| body(profile, date)).unwrap_or_default();
    let report = report(&all, date, &body, units);
    let count = counted(measured.len(), "measure", "measures");
    let head = format!("{}, {date}: {count} written to {}", arguments.client, path.display());
    console.print(&told(&head, replaced, &report, console.width()))?;
    if profile.is_none() {
        console.remark(
            "height, sex and age come from the client's plan or from `--profile FILE`; without them less is estimated",
        );
    }
    Ok(Exit::Done)
}

/// The profile that is named, else that of the client's latest plan in the book.
fn profile(
    arguments: &MeasureArgs,
    book: &Book,
    client: Option<i64>,
) -> Result<Option<Profile>, Failure> {
    if let Some(path) = &arguments.profile {
        let catalog = Catalog::built_in();
        let known = load::known(catalog.entries());
        return Ok(Some(profile_file::load_profile(path, known)?.profile));
    }
    let Some(client) = client else { return Ok(None) };
    let Some(filed) = book.ask(|connection| plans::latest(connection, client))? else {
        return Ok(None);
    };
    let plan = filed_plan(&filed, &Planner::built_in())?;
    Ok(profile_of(&plan.plan).cloned())
}

fn body(profile: &Profile, date: Date) -> Body {
    let years = |birth: u16| u32::try_from(date.year()).ok()?.checked_sub(u32::from(birth));
    Body {
        is_female: profile.sex.map(|sex| sex == Sex::Female),
        age: profile.birth_year.and_then(years),
        height_cm: profile.height_cm,
    }
}

/// A new client is told, so that a slip of the pen does not go unseen.
fn announce(book: &Book, code: &str, console: &Console) -> Result<(), Failure> {
    let clients = book.clients()?;
    let near = suggest::nearest(code, clients.iter().map(|client| client.code.as_str()));
    let meant = near.map_or(String::new(), |near| format!("; did you mean `{near}`?"));
    console.remark(&format!("a new client: {code}{meant}"));
    Ok(())
}

/// Every measure as it was typed.
fn typed(arguments: &MeasureArgs, date: Date, units: Units) -> Result<Vec<Measured>, Failure> {
    let sites = pairs(&arguments.site, "--site waist=navel")?;
    let mut told = arguments.named();
    let folds = pairs(&arguments.skinfold, "--skinfold triceps=12")?;
    for (site, value) in &folds {
        let kind = format!("{site}-fold").parse().map_err(|_| {
            let words: Vec<&str> =
                Kind::ALL.iter().filter_map(|kind| kind.id().strip_suffix("-fold")).collect();
            fault(
                &format!("there is no skinfold {}", quoted(site)),
                &suggest::help(site, &words, &suggest::list(&words)),
            )
        })?;
        told.push((kind, value));
    }
    if told.is_empty() {
        return Err(fault(
            "no measure is named",
            "write them like `--mass 64.2 --waist 81 --skinfold triceps=12`",
        ));
    }
    let one = |(kind, text): (Kind, &str)| {
        let site =
            sites.iter().find(|(site, _)| *site == kind.id()).map(|(_, site)| (*site).to_owned());
        Ok(Measured {
            date,
            kind,
            site: site.unwrap_or_default(),
            method: arguments.method.clone().unwrap_or_default(),
            value: value(kind, text, units)?,
        })
    };
    told.into_iter().map(one).collect()
}

/// A measure in the unit of its kind, from one in the client's or with its own.
fn value(kind: Kind, text: &str, units: Units) -> Result<f64, Failure> {
    let lower = text.trim().to_lowercase();
    let with = |ending: &str| lower.strip_suffix(ending).and_then(|rest| number(rest.trim()));
    let found = match kind.unit() {
        Unit::Mass => with("kg")
            .or_else(|| with("lb").map(|pounds| pounds * KG_PER_LB))
            .or_else(|| number(&lower).map(|mass| to_kg(mass, units))),
        Unit::Length => {
            with("cm").or_else(|| with("in").map(|inches| inches * 2.54)).or_else(|| number(&lower))
        }
        Unit::Fold => with("mm").or_else(|| number(&lower)),
        Unit::Percent => with("%").or_else(|| number(&lower)),
        Unit::Beats => number(&lower),
    };
    let (low, high) = kind.bounds();
    let bounds = format!(
        "write {} to {}",
        crate::book::body::report::text(kind, low, units),
        crate::book::body::report::text(kind, high, units)
    );
    match found {
        Some(value) if (low..=high).contains(&value) => Ok(value),
        Some(_) => Err(fault(&format!("{} is no {}", quoted(text), kind.name()), &bounds)),
        None => Err(fault(&format!("{} is no number", quoted(text)), &bounds)),
    }
}

/// `site=value` pairs.
fn pairs<'a>(texts: &'a [String], example: &str) -> Result<Vec<(&'a str, &'a str)>, Failure> {
    let pair = |text: &'a String| {
        let wrong = || {
            fault(&format!("{} is no pair", quoted(text)), &format!("write it like `{example}`"))
        };
        text.split_once('=').ok_or_else(wrong)
    };
    texts.iter().map(pair).collect()
}

fn fault(message: &str, help: &str) -> Failure {
    Failure::Faults(Diagnostic::error("E6012", message).help(help).into())
}

fn told(head: &str, replaced: usize, report: &Report, width: usize) -> String {
    let mut text = format!("{head}\n");
    if replaced > 0 {
        text.push_str("What stood there for that day is replaced.\n");
    }
    let rows: Vec<Vec<String>> = report
        .lines
        .iter()
        .map(|line| {
            vec![format!("  {}", line.kind.name()), line.value.clone(), line.change.clone()]
        })
        .collect();
    text.push_str(&table::table(&["  measure", "value", "change"], &rows, width.max(100)));
    for estimate in &report.estimates {
        let places = if estimate.unit.is_empty() { 2 } else { 1 };
        let error = estimate.error.map_or(String::new(), |error| format!(" ± {error:.1}"));
        let line = format!(
            "  {}: {:.places$}{error}{} ({})",
            estimate.name, estimate.value, estimate.unit, estimate.source
        );
        text.push_str(&paragraph(&line, width));
        text.push('\n');
    }
    for remark in &report.remarks {
        text.push_str(&wrapped(remark, width));
        text.push('\n');
    }
    text
}
