//! `weekwright intake`: a talk in the terminal, a profile in the end.

use std::fs;
use std::io::{self, BufRead as _, IsTerminal as _, Write as _};
use std::path::{Path, PathBuf};

use jiff::ToSpan as _;

use super::args::{Format, IntakeArgs, PlanArgs};
use super::output::Console;
use super::{Exit, Failure, Faults, files, plan};
use crate::catalog::Catalog;
use crate::diagnostic::{Diagnostic, Label};
use crate::input::check::Known;
use crate::intake::{Answers, Around, Talk, file_name, interview, profile_text};
use crate::rules::RULES;

/// Where profiles are kept unless the coach says otherwise.
const FOLDER: &str = "profiles";

pub(super) fn run(arguments: &IntakeArgs, console: &Console) -> Result<Exit, Failure> {
    if !io::stdin().is_terminal() || !io::stderr().is_terminal() {
        return Err(no_terminal().into());
    }
    let catalog = files::load_catalog(arguments.catalog.as_deref())?;
    let beside = arguments.output.clone().unwrap_or_else(|| Path::new(FOLDER).join("new.yaml"));
    let around = Around { first_day: next_monday(), places: files::places(&beside) };
    let mut terminal = Terminal { console };
    let answers = talk(&mut terminal, &around, &catalog)?;
    let Some(path) = free_path(&mut terminal, arguments, &answers) else {
        return Err(stopped().into());
    };
    if arguments.output.is_none() && path.starts_with(FOLDER) && !Path::new(FOLDER).exists() {
        let made = fs::create_dir(FOLDER);
        made.map_err(|error| Failure::Unwritten(files::io_fault(FOLDER, &error)))?;
    }
    console.write(Some(&path), &profile_text(&answers))?;
    if path == Path::new("-") {
        return Ok(Exit::Done);
    }
    terminal.say(&format!("\nWritten: {}", path.display()));
    offer_plan(&mut terminal, &path, arguments, &answers)
}

fn talk(
    terminal: &mut Terminal<'_>,
    around: &Around,
    catalog: &Catalog,
) -> Result<Answers, Failure> {
    let ids: Vec<&str> = RULES.iter().map(|rule| rule.id()).collect();
    let known = Known { entries: catalog.entries(), rules: &ids };
    interview(terminal, around, known).ok_or_else(|| stopped().into())
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
        let question = format!("{} is there already. Replace it? (y/n) [n]: ", path.display());
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

/// Plans the new profile at once where the coach wants it.
fn offer_plan(
    terminal: &mut Terminal<'_>,
    path: &Path,
    arguments: &IntakeArgs,
    answers: &Answers,
) -> Result<Exit, Failure> {
    let later = format!("To plan it later: weekwright plan {}", path.display());
    if answers.says_yes("screening.told_to_wait") {
        terminal.say("No plan until the clinician agrees to training; the profile is kept.");
        terminal.say(&later);
        return Ok(Exit::Done);
    }
    match terminal.hear("Plan it now? (y/n) [y]: ") {
        Some(answer) if is_yes(&answer, true) => {
            let arguments = PlanArgs {
                best_effort: false,
                profile: path.to_owned(),
                seed: 0,
                format: Format::Text,
                output: None,
                catalog: arguments.catalog.clone(),
            };
            plan::run(&arguments, terminal.console)
        }
        _ => {
            terminal.say(&later);
            Ok(Exit::Done)
        }
    }
}

fn is_yes(answer: &str, usual: bool) -> bool {
    match answer.trim().to_lowercase().as_str() {
        "" => usual,
        answer => answer == "y" || answer == "yes",
    }
}

/// Monday of the coming week by universal time: a proposal, so that a day more or less is no harm.
fn next_monday() -> String {
    let today = jiff::tz::Offset::UTC.to_datetime(jiff::Timestamp::now()).date();
    let ahead = 7 - i64::from(today.weekday().to_monday_zero_offset());
    today.checked_add(ahead.days()).map(|day| day.to_string()).unwrap_or_default()
}

/// Questions go to standard error, so that standard output holds nothing but a plan.
struct Terminal<'a> {
    console: &'a Console,
}

impl Talk for Terminal<'_> {
    fn hear(&mut self, prompt: &str) -> Option<String> {
        let mut stderr = io::stderr().lock();
        stderr.write_all(prompt.as_bytes()).and_then(|()| stderr.flush()).ok()?;
        let mut line = Vec::new();
        match io::stdin().lock().read_until(b'\n', &mut line) {
            Ok(0) | Err(_) => {
                // The line of the question is still open.
                let _ = writeln!(stderr);
                None
            }
            Ok(_) => Some(String::from_utf8_lossy(&line).trim_end_matches(['\r', '\n']).to_owned()),
        }
    }

    fn say(&mut self, line: &str) {
        self.console.note(&super::render::paragraph(line, self.console.width()));
    }
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
fn stopped() -> Faults {
    Diagnostic::error("E5003", "the talk ended before its end; nothing was written")
        .at(Label::whole("intake"))
        .help("start again with `weekwright intake`; Enter takes what stands in brackets")
        .into()
}
