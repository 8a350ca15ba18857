//! A profile as JSON on each line of standard input, a line of JSON for each on standard output. Every line
//! stands alone and is answered before the next is read, so that any other program can hand out the work, and no more
//! than one line is in memory. The work for a line is limited by a count, so that no clock and no core decides its answer.
//!
//! A line is a profile, or `{"profile": .., "previous": .., "seed": ..}` with the plan of the last block and a seed.

use std::io::{self, BufRead, Read as _};
use std::path::Path;
use std::sync::atomic::AtomicU64;

use serde_json::{Map, Value};

use super::{Answer, Desk};
use crate::cli::output::Console;
use crate::cli::output::io_fault;
use crate::cli::{Exit, Failure, Faults, render};
use crate::diagnostic::{Diagnostic, Label, Source, quoted};
use crate::input::source::{MOST_BYTES, MOST_PLAN_BYTES, source};
use crate::input::suggest;
use crate::load;
use crate::planner::Options;
use crate::request::turn::Turn;
use crate::search::budget::Budget;

/// The longest line: a profile and a plan.
const MOST_LINE: usize = MOST_BYTES + MOST_PLAN_BYTES;

/// Work that the line in hand has taken so far.
static TAKEN: AtomicU64 = AtomicU64::new(0);

/// What a line may say beside the profile.
const KEYS: [&str; 3] = ["profile", "previous", "seed"];

pub(super) fn run(desk: &Desk, thousands: u64, console: &Console) -> Result<Exit, Failure> {
    let mut worst = Exit::Done;
    let mut input = io::stdin().lock();
    let mut number = 0_usize;
    while let Some(bytes) = next_line(&mut input).map_err(|error| unreadable(&error))? {
        number += 1;
        if bytes.iter().all(u8::is_ascii_whitespace) {
            continue;
        }
        let turn = Turn::metered(&TAKEN, thousands.saturating_mul(1000));
        let answer = answer(&desk.with(turn), &format!("<line {number}>"), bytes);
        console.print(&format!("{}\n", document(&answer)))?;
        if answer.plan.is_ok() {
            console.report(&answer.remarks);
        }
        if console.is_verbose() {
            console.note(&format!("<line {number}>: {} changes of a week tried", turn.taken()));
        }
        let exit = answer.plan.err().unwrap_or(Exit::Done);
        worst = Exit::of_many([worst, exit]);
    }
    Ok(worst)
}

fn answer(desk: &Desk, name: &str, bytes: Vec<u8>) -> Answer {
    // A line with a plan in it may be longer; a profile alone may not.
    let most = if is_envelope(&bytes) { MOST_LINE } else { MOST_BYTES };
    let source = match source(name, bytes, most) {
        Ok(source) => source,
        Err(fault) => return desk.refusal(fault.into()),
    };
    let value = serde_json::from_str::<Value>(&source.text);
    match value {
        Ok(Value::Object(line)) if line.get("profile").is_some_and(Value::is_object) => {
            enveloped(desk, &source, &line)
        }
        _ => desk.answer_text(&source, Path::new("-")),
    }
}

/// Whether a line begins like one that holds a profile; it is read whole before that is believed.
fn is_envelope(bytes: &[u8]) -> bool {
    bytes.len() > MOST_BYTES
        && KEYS.iter().any(|key| {
            let text = String::from_utf8_lossy(&bytes[..bytes.len().min(64)]).replace(' ', "");
            text.starts_with(&format!("{{\"{key}\":"))
        })
}

/// The answer to a profile with what comes beside it.
fn enveloped(desk: &Desk, source: &Source, line: &Map<String, Value>) -> Answer {
    let name = &source.name;
    let mut faults = Faults::default();
    let mut refuse = |code: &'static str, message: String, help: String| {
        let label = Label::whole(name.to_string());
        faults.diagnostics.push(Diagnostic::error(code, message).at(label).help(help));
    };
    for key in line.keys().filter(|key| !KEYS.contains(&key.as_str())) {
        let message = format!("there is no key {} beside a profile", quoted(key));
        refuse("E1201", message, suggest::help(key, &KEYS, ""));
    }
    let seed = match line.get("seed") {
        None | Some(Value::Null) => desk.options.seed,
        Some(seed) => seed.as_u64().unwrap_or_else(|| {
            refuse(
                "E1203",
                format!("the seed {seed} is no whole number"),
                "write it like `\"seed\": 3`".to_owned(),
            );
            0
        }),
    };
    let part = |key: &str| line.get(key).filter(|part| !part.is_null());
    let text = |part: &Value| Source::new(name, &part.to_string());
    let previous = match part("previous").map(|plan| load::plan(text(plan))) {
        None => None,
        Some(Ok(loaded)) => Some(loaded.plan),
        Some(Err(found)) => {
            faults.add(found);
            None
        }
    };
    if faults.any_error() {
        return desk.refusal(faults);
    }
    let options = Options { seed, previous, ..desk.options.clone() };
    let profile = part("profile").map(text);
    let profile = profile.expect("a line without one is no envelope");
    desk.asked(options).answer_text(&profile, Path::new("-"))
}

impl<'a> Desk<'a> {
    /// The same for lines, with other options.
    fn asked(&self, options: Options) -> Desk<'a> {
        Desk {
            planner: self.planner,
            options,
            format: self.format,
            #[cfg(feature = "book")]
            shelf: None,
        }
    }

    /// The same with a turn of its own.
    fn with(&self, turn: Turn) -> Desk<'a> {
        let budget = Budget { turn, ..self.options.budget };
        self.asked(Options { budget, ..self.options.clone() })
    }
}

/// The plan, or what stood in its way: `error` is the list of faults, which `diagnostics` repeats for older readers.
fn document(answer: &Answer) -> Value {
    if let Ok(plan) = &answer.plan {
        return serde_json::to_value(plan).expect("a plan has text keys only");
    }
    let faults = &answer.remarks;
    let mut told = render::document(&faults.diagnostics, &faults.details);
    told["error"] = told["diagnostics"].clone();
    told
}

/// The next line without its end; of one that is too long, a byte more than is taken. `None` at the end.
fn next_line(input: &mut impl BufRead) -> io::Result<Option<Vec<u8>>> {
    let mut line = Vec::new();
    input.take(MOST_LINE as u64 + 1).read_until(b'\n', &mut line)?;
    if line.is_empty() {
        return Ok(None);
    }
    if line.last() == Some(&b'\n') {
        line.pop();
    } else if line.len() > MOST_LINE {
        input.skip_until(b'\n')?;
    }
    Ok(Some(line))
}

fn unreadable(error: &io::Error) -> Failure {
    Failure::Unwritten(io_fault("standard input", error))
}
