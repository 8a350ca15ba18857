//! The clients of a room or a folder: plans as they are, and profiles without one planned now.

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

use jiff::civil::Date;
use rayon::prelude::*;

use super::output::Console;
use super::plan::Desk;
use super::plan_file;
use super::{Exit, Failure, Faults, files};
use crate::diagnostic::{Diagnostic, Label, quoted};
use crate::input::clock;
use crate::input::plan::{Plan, Week};
use crate::room::visit::{covers, monday_of, profile};
use crate::words::WeekKind;

/// A client with a plan.
pub(super) struct Guest {
    /// The file.
    pub(super) path: PathBuf,
    pub(super) plan: Plan,
    /// The text of the file, where it is a plan.
    pub(super) text: Option<String>,
}

/// Everyone that files and folders name; a profile whose client has a plan in the same folder is left out.
///
/// # Errors
/// All faults of all files, or how the program ends where a profile has no plan.
pub(super) fn gathered(
    arguments: &[PathBuf],
    desk: &Desk<'_>,
    console: &Console,
) -> Result<Result<Vec<Guest>, Exit>, Failure> {
    let mut paths: Vec<PathBuf> = Vec::new();
    for argument in arguments {
        if !argument.is_dir() {
            paths.push(argument.clone());
            continue;
        }
        let (plans, profiles) = folder(argument)?;
        paths.extend(plans);
        paths.extend(profiles);
    }
    let found: Vec<Result<(Guest, Faults), (Faults, Exit)>> =
        paths.par_iter().map(|path| guest(path, desk)).collect();
    let mut guests = Vec::new();
    let mut faults = Faults::default();
    let mut exits = Vec::new();
    for one in found {
        match one {
            Ok((guest, remarks)) => {
                console.report(&remarks);
                guests.push(guest);
            }
            Err((told, exit)) => {
                faults.add(told);
                exits.push(exit);
            }
        }
    }
    if exits.is_empty() {
        return Ok(Ok(guests));
    }
    console.report(&faults);
    Ok(Err(Exit::of_many(exits)))
}

/// The plans of a folder, and the profiles whose clients have none there.
pub(super) fn folder(folder: &Path) -> Result<(Vec<PathBuf>, Vec<PathBuf>), Faults> {
    let plans = files::plan_paths(folder);
    let profiles = files::profile_paths(&[folder.to_owned()]);
    if let (Err(_), Err(fault)) = (&plans, &profiles) {
        return Err(fault.clone());
    }
    let (plans, profiles) = (plans.unwrap_or_default(), profiles.unwrap_or_default());
    let planned: BTreeSet<String> = plans.iter().filter_map(|path| client_of(path)).collect();
    let is_new = |path: &PathBuf| client_of(path).is_none_or(|client| !planned.contains(&client));
    Ok((plans, profiles.into_iter().filter(is_new).collect()))
}

/// The client that a file names; faults are told when it is read.
pub(super) fn client_of(path: &Path) -> Option<String> {
    told(path, "client")
}

/// The word after a key at the beginning of a line, or of a whole value.
pub(super) fn told(path: &Path, key: &str) -> Option<String> {
    let source = files::read_plan(path).ok()?;
    let value: serde_yaml::Value = serde_yaml::from_str(&source.text).ok()?;
    value.get(key)?.as_str().map(str::to_owned)
}

fn guest(path: &Path, desk: &Desk<'_>) -> Result<(Guest, Faults), (Faults, Exit)> {
    if files::holds_plan(path) {
        let read = || -> Result<Guest, Faults> {
            let loaded = plan_file::load_plan(path)?;
            let text = Some(loaded.source.text.to_string());
            let plan = plan_file::with_profile(path, loaded, desk.planner)?;
            plan_file::may_train(&plan, path)?;
            Ok(Guest { path: path.to_owned(), plan: whole(plan), text })
        };
        return read()
            .map(|guest| (guest, Faults::default()))
            .map_err(|faults| (faults, Exit::Input));
    }
    let answer = desk.answer(path);
    match answer.plan {
        Ok(plan) => {
            let guest = Guest { path: path.to_owned(), plan: *plan, text: None };
            Ok((guest, answer.remarks))
        }
        Err(exit) => Err((answer.remarks, exit)),
    }
}

/// A plan by hand may have neither code nor weeks: its profile has the one, and its sessions are a week.
pub(super) fn whole(mut plan: Plan) -> Plan {
    let own = profile(&plan).map(|profile| (profile.client.clone(), profile.start.clone()));
    let (client, date) = own.unwrap_or_default();
    if plan.client.is_empty() {
        plan.client = client;
    }
    if plan.weeks.is_empty() {
        let sessions = plan.sessions.clone();
        let (kind, repeats, note) = (WeekKind::Base, None, None);
        plan.weeks.push(Week { week: 1, date, kind, repeats, note, sessions });
    }
    plan
}

/// The Monday of the week that is meant: that of a typed date, else of today where a plan has it, else of the first start.
pub(super) fn monday(date: Option<&str>, plans: &[&Plan]) -> Result<Date, Failure> {
    if let Some(text) = date {
        let date = clock::date(text).ok_or_else(|| {
            let fault = Diagnostic::error("E2002", format!("there is no day {}", quoted(text)))
                .help("write it like `--date 2027-01-11`");
            Failure::Faults(fault.into())
        })?;
        return Ok(monday_of(date));
    }
    let dated = || plans.iter().filter(|plan| plan.weeks.iter().any(|week| week.date.is_some()));
    #[cfg(feature = "book")]
    {
        let now = monday_of(super::today::today());
        if dated().any(|plan| covers(plan, now)) {
            return Ok(now);
        }
    }
    let first = dated().filter_map(|plan| clock::date(plan.weeks.first()?.date.as_deref()?)).min();
    Ok(first.map_or(jiff::civil::date(2027, 1, 4), monday_of))
}

/// One plan for each client: where there are several, the one that has the week.
///
/// # Errors
/// E2008: two files for one client in that week.
pub(super) fn one_each(guests: Vec<Guest>, monday: Date) -> Result<Vec<Guest>, Faults> {
    let mut by_client: BTreeMap<String, Vec<Guest>> = BTreeMap::new();
    for guest in guests {
        by_client.entry(guest.plan.client.clone()).or_default().push(guest);
    }
    let mut faults = Faults::default();
    let mut kept = Vec::new();
    for (client, mut own) in by_client {
        if own.len() > 1 && own.iter().any(|guest| covers(&guest.plan, monday)) {
            own.retain(|guest| covers(&guest.plan, monday));
        }
        if own.len() > 1 {
            let message = format!("{} files are for the client {}", own.len(), quoted(&client));
            let mut fault = Diagnostic::error("E2008", message);
            for guest in &own {
                fault = fault.at(Label::whole(guest.path.display().to_string()));
            }
            let names: Vec<String> =
                own.iter().map(|guest| guest.path.display().to_string()).collect();
            faults.diagnostics.push(fault.help(format!(
                "give each client a code of their own, or name one of {}",
                names.join(" and ")
            )));
        }
        kept.append(&mut own);
    }
    if faults.diagnostics.is_empty() { Ok(kept) } else { Err(faults) }
}
