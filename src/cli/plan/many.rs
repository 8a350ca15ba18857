//! Many profiles at once, on all cores. What is written, and in which order, does not depend on their number.

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

use indicatif::{ProgressBar, ProgressStyle};
use rayon::prelude::*;

use super::{Desk, tiers, told};
use crate::cli::args::{Format, PlanArgs};
use crate::cli::output::Console;
use crate::cli::{Exit, Failure, Faults, files};
use crate::diagnostic::{Diagnostic, Label, counted};

/// What is kept of a profile until all are planned: texts only, so that many take little room.
struct Finished {
    remarks: Faults,
    exit: Exit,
    /// The plan as it is printed; empty where there is none.
    text: String,
    model: Option<String>,
    tiers: Option<String>,
}

pub(super) fn run(arguments: &PlanArgs, desk: &Desk, console: &Console) -> Result<Exit, Failure> {
    let paths = files::profile_paths(&arguments.profiles)?;
    for folder in arguments.output.iter().chain(&arguments.write_model) {
        own_names(&paths)?;
        files::make_folder(folder)?;
    }
    let bar = progress(paths.len(), console);
    let finished: Result<Vec<Finished>, Failure> = paths
        .par_iter()
        .map(|path| {
            let finished = finish(arguments, path, desk, console);
            bar.inc(1);
            finished
        })
        .collect();
    bar.finish_and_clear();
    let finished = finished?;
    let mut exits = Vec::new();
    for (place, (path, one)) in paths.iter().zip(&finished).enumerate() {
        let heading = if place == 0 { Heading::First } else { Heading::Later };
        exits.push(match hand_out(arguments, desk, path, one, heading, console) {
            Ok(()) => one.exit,
            Err(failure) => failure.told(console)?,
        });
    }
    let planned = exits.iter().filter(|exit| **exit == Exit::Done).count();
    if !console.is_quiet() {
        let all = counted(paths.len(), "profile", "profiles");
        console.note(&format!("{planned} of {all} planned"));
    }
    Ok(Exit::of_many(exits))
}

fn finish(
    arguments: &PlanArgs,
    path: &Path,
    desk: &Desk,
    console: &Console,
) -> Result<Finished, Failure> {
    let answer = desk.answer(path);
    let remarks = answer.remarks;
    Ok(match answer.plan {
        Ok(plan) => Finished {
            remarks,
            exit: Exit::Done,
            text: told(&plan, desk, arguments, false, console.width())?,
            model: arguments.write_model.as_ref().map(|_| desk.model(&plan, &answer.options)),
            tiers: console.is_verbose().then(|| tiers(&plan)),
        },
        Err(exit) => Finished { remarks, exit, text: String::new(), model: None, tiers: None },
    })
}

/// Writes what came of one profile: remarks to standard error, the plan into its own file or after the others.
fn hand_out(
    arguments: &PlanArgs,
    desk: &Desk,
    path: &Path,
    one: &Finished,
    heading: Heading,
    console: &Console,
) -> Result<(), Failure> {
    console.report(&one.remarks);
    if let Some(tiers) = &one.tiers {
        console.note(&format!("{}: {tiers}", path.display()));
    }
    if one.exit != Exit::Done {
        return Ok(());
    }
    let what = if arguments.sources { "sources" } else { "plan" };
    let file_in =
        |folder: &PathBuf, ending: &str| folder.join(format!("{}.{ending}", name_of(path)));
    let plan = arguments.output.as_ref();
    let plan = plan.map(|folder| file_in(folder, &format!("{what}.{}", letters(desk.format))));
    let model = arguments.write_model.as_ref().map(|folder| file_in(folder, "mps"));
    let texts =
        [plan.as_deref().zip(Some(one.text.as_str())), model.as_deref().zip(one.model.as_deref())];
    let results: Vec<(Option<&Path>, &str)> =
        texts.into_iter().flatten().map(|(file, text)| (Some(file), text)).collect();
    console.write_all(&results)?;
    match plan {
        Some(_) => Ok(()),
        None => console.print(&joined(desk.format, path, &one.text, heading)),
    }
}

/// Where a plan stands among those that are printed one after the other.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Heading {
    First,
    Later,
}

/// A plan among others: under a heading, as one YAML document of several, or as one JSON document per line.
fn joined(format: Format, path: &Path, text: &str, heading: Heading) -> String {
    let name = path.display().to_string();
    match format {
        Format::Text => {
            let gap = if heading == Heading::First { "" } else { "\n\n" };
            format!("{gap}{name}\n{}\n\n{text}", "=".repeat(name.chars().count()))
        }
        Format::Yaml => format!("---\n{text}"),
        Format::Json => {
            let plan: serde_json::Value =
                serde_json::from_str(text).expect("the plan was just written as JSON");
            format!("{plan}\n")
        }
    }
}

const fn letters(format: Format) -> &'static str {
    match format {
        Format::Text => "txt",
        Format::Yaml => "yaml",
        Format::Json => "json",
    }
}

fn name_of(profile: &Path) -> String {
    let name = profile.file_stem().unwrap_or_default().to_string_lossy().into_owned();
    if name == "-" { "stdin".to_owned() } else { name }
}

/// Each of several results needs a name of its own.
fn own_names(profiles: &[PathBuf]) -> Result<(), Faults> {
    let mut names = BTreeSet::new();
    match profiles.iter().find(|profile| !names.insert(name_of(profile))) {
        None => Ok(()),
        Some(twice) => {
            let name = name_of(twice);
            Err(Diagnostic::error("E1010", format!("two results would be named `{name}`"))
                .at(Label::whole(twice.display().to_string()))
                .help("name each profile once, and give files of different folders different names")
                .into())
        }
    }
}

/// A bar on standard error where that is a terminal; nowhere else is anything drawn.
fn progress(profiles: usize, console: &Console) -> ProgressBar {
    if console.is_quiet() {
        return ProgressBar::hidden();
    }
    let style = ProgressStyle::with_template("{bar:30} {pos} of {len} planned, {eta} to go")
        .expect("the template is well formed");
    ProgressBar::new(profiles as u64).with_style(style)
}
