//! A profile as JSON on each line of standard input, a line of JSON for each on standard output. Every line
//! stands alone and is answered before the next is read, so that any other program can hand out the work.

use std::io::{self, BufRead, Read as _};
use std::path::Path;

use serde_json::Value;

use super::output::Console;
use super::plan::{Answer, Desk};
use super::{Exit, Failure, many};
use crate::input::source::{MOST_BYTES, source};

pub(super) fn run(desk: &Desk, console: &Console) -> Result<Exit, Failure> {
    let mut exits = Vec::new();
    let mut input = io::stdin().lock();
    let mut number = 0_usize;
    while let Some(bytes) = next_line(&mut input).map_err(|error| unreadable(&error))? {
        number += 1;
        if bytes.iter().all(u8::is_ascii_whitespace) {
            continue;
        }
        let answer = answer(desk, &format!("<line {number}>"), bytes);
        console.print(&format!("{}\n", document(&answer)))?;
        if answer.plan.is_ok() {
            console.report(&answer.remarks);
        }
        exits.push(answer.plan.err().unwrap_or(Exit::Done));
    }
    Ok(many::exit(exits.into_iter()))
}

fn answer(desk: &Desk, name: &str, bytes: Vec<u8>) -> Answer {
    match source(name, bytes, MOST_BYTES) {
        Ok(source) => desk.answer_text(&source, Path::new("-")),
        Err(fault) => desk.refusal(fault.into()),
    }
}

/// The plan, or what stood in its way.
fn document(answer: &Answer) -> Value {
    match &answer.plan {
        Ok(plan) => serde_json::to_value(plan).expect("a plan has text keys only"),
        Err(_) => super::render::document(&answer.remarks.diagnostics, &answer.remarks.details),
    }
}

/// The next line without its end; of one that is too long, a byte more than is taken. `None` at the end.
fn next_line(input: &mut impl BufRead) -> io::Result<Option<Vec<u8>>> {
    let mut line = Vec::new();
    input.take(MOST_BYTES as u64 + 1).read_until(b'\n', &mut line)?;
    if line.is_empty() {
        return Ok(None);
    }
    if line.last() == Some(&b'\n') {
        line.pop();
    } else if line.len() > MOST_BYTES {
        input.skip_until(b'\n')?;
    }
    Ok(Some(line))
}

fn unreadable(error: &io::Error) -> Failure {
    Failure::Unwritten(super::files::io_fault("standard input", error))
}
