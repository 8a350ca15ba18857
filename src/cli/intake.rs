//! `weekwright intake`: a talk in the terminal; a profile, its plan and a page to print in the end.

use std::collections::BTreeMap;
use std::fs;
use std::io::{self, IsTerminal as _};
use std::path::{Path, PathBuf};

use jiff::ToSpan as _;
use jiff::civil::Date;

use super::args::{Format, IntakeArgs};
use super::ending::DRAFT;
use super::output::Console;
use super::output::io_fault;
use super::plan::{Desk, rendered};
use super::terminal::Terminal;
use super::{Exit, Failure, Faults, files, places, sheet};
use crate::catalog::Catalog;
use crate::diagnostic::{Diagnostic, Label};
use crate::input::check::Known;
use crate::input::place::Place;
use crate::input::read;
use crate::intake::{
    Answers, Around, Talk, ask_client, change, file_name, interview, profile_text, recalled,
};
use crate::load;
use crate::planner::{Options, Planner};
use crate::sheets;

/// Where profiles are kept unless the coach says otherwise.
const FOLDER: &str = "profiles";

pub(super) fn run(arguments: &IntakeArgs, console: &Console) -> Result<Exit, Failure> {
    if !io::stdin().is_terminal() || !io::stderr().is_terminal() {
        return Err(no_terminal().into());
    }
    let catalog = files::load_catalog(arguments.catalog.as_deref())?;
    let known = load::known(catalog.entries());
    let named = arguments.file.as_deref().or(arguments.output.as_deref());
    let beside = named.map_or_else(|| Path::new(FOLDER).join("new.yaml"), Path::to_owned);
    let around = around(&beside);
    let mut terminal = Terminal { console, draft: None };
    let Some((path, answers)) = answers(&mut terminal, arguments, &around, known)? else {
        return Err(stopped(terminal.draft.as_deref()).into());
    };
    let Some(answers) = answers else {
        return Err(stopped(terminal.draft.as_deref()).into());
    };
    let text = profile_text(&answers);
    if path == Path::new("-") {
        console.print(&text)?;
        return Ok(Exit::Done);
    }
    console.replace(&path, &text)?;
    if let Some(draft) = terminal.draft.take() {
        let _ = fs::remove_file(draft);
    }
    terminal.say(&format!("\nWritten: {}", path.display()));
    finish(&mut terminal, &path, &catalog)
}

/// Where the answers go, and the answers: of a profile that is there, of a draft that is gone on with, or of a new
/// client. The file is settled before the first of them. The inner `None` is a talk that ended.
#[allow(clippy::type_complexity, reason = "two ends of a talk, told apart by their place")]
fn answers(
    terminal: &mut Terminal<'_>,
    arguments: &IntakeArgs,
    around: &Around,
    known: Known<'_>,
) -> Result<Option<(PathBuf, Option<Answers>)>, Failure> {
    if let Some(file) = &arguments.file {
        let source = files::read_source(file).map_err(Faults::from)?;
        let before = recalled(&source.text);
        let is_draft = file.to_string_lossy().ends_with(DRAFT);
        let path = if is_draft { undrafted(file) } else { file.clone() };
        terminal.draft = Some(drafted(&path));
        let talked = if is_draft {
            interview(terminal, around, known, before)
        } else {
            change(terminal, around, known, before)
        };
        return Ok(Some((path, talked)));
    }
    if let Some(draft) = offered(terminal, arguments) {
        let source = files::read_source(&draft).map_err(Faults::from)?;
        terminal.draft = Some(draft.clone());
        let talked = interview(terminal, around, known, recalled(&source.text));
        return Ok(Some((undrafted(&draft), talked)));
    }
    let Some(begun) = ask_client(terminal, around, known) else { return Ok(None) };
    let Some(path) = free_path(terminal, arguments, &begun) else { return Ok(None) };
    if path != Path::new("-") {
        if arguments.output.is_none() && path.starts_with(FOLDER) {
            let made = fs::create_dir_all(FOLDER);
            made.map_err(|error| Failure::Unwritten(io_fault(FOLDER, &error)))?;
        }
        terminal.draft = Some(drafted(&path));
        terminal.keep(&begun);
        terminal.say(&format!("The profile goes to {}.", path.display()));
    }
    let talked = interview(terminal, around, known, begun);
    Ok(Some((path, talked)))
}

/// The file of a profile's draft, and the other way round.
fn drafted(path: &Path) -> PathBuf {
    let name = path.file_stem().unwrap_or_default().to_string_lossy().into_owned();
    path.with_file_name(format!("{name}{DRAFT}"))
}

fn undrafted(draft: &Path) -> PathBuf {
    let name = draft.file_name().unwrap_or_default().to_string_lossy().into_owned();
    draft.with_file_name(format!("{}.yaml", name.trim_end_matches(DRAFT)))
}

/// A draft of an earlier talk that the coach wants to go on with.
fn offered(terminal: &mut Terminal<'_>, arguments: &IntakeArgs) -> Option<PathBuf> {
    let folder = match &arguments.output {
        Some(path) => path.parent().unwrap_or(Path::new("")).to_owned(),
        None => PathBuf::from(FOLDER),
    };
    let drafts = files::names_in(&folder).into_iter().filter(|name| name.ends_with(DRAFT));
    let drafts = drafts.map(|name| folder.join(name)).filter(|path| path.is_file());
    let drafts: Vec<PathBuf> = drafts
        .filter(|draft| arguments.output.as_ref().is_none_or(|path| drafted(path) == **draft))
        .collect();
    for draft in drafts {
        let question = format!(
            "{} is there from an earlier talk. Go on with it? (y/n) [y]: ",
            draft.display()
        );
        if is_yes(&terminal.hear(&question)?, true) {
            return Some(draft);
        }
    }
    None
}

/// The file to write, which is not there yet or may be replaced; `None` where the talk ends.
fn free_path(
    terminal: &mut Terminal<'_>,
    arguments: &IntakeArgs,
    answers: &Answers,
) -> Option<PathBuf> {
    let client = answers.get("client").unwrap_or_default();
    let mut path =
        arguments.output.clone().unwrap_or_else(|| Path::new(FOLDER).join(file_name(client)));
    while path != Path::new("-") && path.exists() {
        let question = format!(
            "{0} is there already; `weekwright intake {0}` changes it. Replace it? (y/n) [n]: ",
            path.display()
        );
        if is_yes(&terminal.hear(&question)?, false) {
            break;
        }
        let other = terminal.hear("Another file, or Enter to stop: ")?;
        if other.trim().is_empty() {
            return None;
        }
        path = PathBuf::from(other.trim());
    }
    Some(path)
}

/// Plans the profile at once where the coach wants it, and makes the page to print.
fn finish(terminal: &mut Terminal<'_>, path: &Path, catalog: &Catalog) -> Result<Exit, Failure> {
    let later = format!("To plan it later: weekwright plan {}", path.display());
    let wanted = terminal.hear("Plan it now, and make the page to print? (y/n) [y]: ");
    if !wanted.is_some_and(|answer| is_yes(&answer, true)) {
        terminal.say(&later);
        return Ok(Exit::Done);
    }
    let console = terminal.console;
    let planner = Planner::new(catalog.clone());
    let desk = Desk {
        planner: &planner,
        options: Options::default(),
        format: Format::Text,
        #[cfg(feature = "book")]
        shelf: None,
    };
    let progress = console.progress("planning ...");
    let answer = desk.answer(path);
    drop(progress);
    console.report(&answer.remarks);
    let plan = match answer.plan {
        Ok(plan) => plan,
        Err(exit) => {
            terminal.say(&later);
            return Ok(exit);
        }
    };
    let options =
        sheets::Options { audience: sheets::Audience::Client, ..sheets::Options::default() };
    let yaml = rendered(&plan, &planner, Format::Yaml, false, console.width())?;
    let page = sheet::made(&plan, catalog.entries(), "html", &options)?;
    let [plan_file, page_file] = ["plan.yaml", "html"].map(|ending| path.with_extension(ending));
    let text = rendered(&plan, &planner, Format::Text, console.colors(), console.width())?;
    console.print(&text)?;
    for (file, text) in [(&plan_file, &yaml), (&page_file, &page)] {
        let refused = console.write(Some(file), text);
        if let Err(Failure::Faults(faults)) = refused {
            console.report(&faults);
            let question = format!("Replace {}? (y/n) [n]: ", file.display());
            if terminal.hear(&question).is_some_and(|answer| is_yes(&answer, false)) {
                console.replace(file, text)?;
            }
        } else {
            refused?;
        }
    }
    let named = |file: &PathBuf| file.display().to_string();
    terminal.say(&format!(
        "\nSaved: {}, {} and, to print, {}",
        path.display(),
        named(&plan_file),
        named(&page_file)
    ));
    Ok(Exit::Done)
}

fn is_yes(answer: &str, usual: bool) -> bool {
    match answer.trim().to_lowercase().as_str() {
        "" => usual,
        answer => answer == "y" || answer == "yes",
    }
}

/// Today, the coming Monday as a proposal, and the places with what they have.
fn around(beside: &Path) -> Around {
    // By universal time: a day more or less is no harm to a proposal.
    let today = jiff::tz::Offset::UTC.to_datetime(jiff::Timestamp::now()).date();
    let places = places::places(beside);
    let rooms: BTreeMap<String, Place> = places
        .iter()
        .filter_map(|name| {
            let source = places::place_source(beside, name).ok()?;
            Some((name.clone(), read::<Place>(&source).ok()?.value))
        })
        .collect();
    Around { today: today.to_string(), first_day: next_monday(today), places, rooms }
}

fn next_monday(today: Date) -> String {
    let ahead = 7 - i64::from(today.weekday().to_monday_zero_offset());
    today.checked_add(ahead.days()).map(|day| day.to_string()).unwrap_or_default()
}

/// E5001: the questions need somebody to answer them.
fn no_terminal() -> Faults {
    Diagnostic::error("E5001", "the questions need a terminal to be answered in")
        .at(Label::whole("intake"))
        .help(
            "copy a profile of the folder `profiles` and change it; `weekwright schema profile` \
             tells every key",
        )
        .into()
}

/// E5003: the talk ended before its last question.
fn stopped(draft: Option<&Path>) -> Faults {
    let (message, help) = match draft.filter(|draft| draft.is_file()) {
        Some(draft) => (
            "the talk ended before its end; what was answered is kept".to_owned(),
            format!("go on with `weekwright intake {}`", draft.display()),
        ),
        None => (
            "the talk ended before its end; nothing was written".to_owned(),
            "start again with `weekwright intake`; Enter takes what stands in brackets".to_owned(),
        ),
    };
    Diagnostic::error("E5003", message).at(Label::whole("intake")).help(help).into()
}
