//! A talk in the terminal.

use std::io::{self, BufRead as _, Write as _};
use std::path::PathBuf;

use super::output::Console;
use super::render::paragraph;
use crate::intake::{Answers, Talk, draft_text};

/// Questions go to standard error, so that standard output holds nothing but a plan.
pub(super) struct Terminal<'a> {
    pub(super) console: &'a Console,
    /// Where the answers are kept until the profile is written.
    pub(super) draft: Option<PathBuf>,
}

impl Talk for Terminal<'_> {
    fn hear(&mut self, prompt: &str) -> Option<String> {
        let prompt = paragraph(prompt.trim_end(), self.console.width());
        let mut stderr = io::stderr().lock();
        stderr.write_all(format!("{prompt} ").as_bytes()).and_then(|()| stderr.flush()).ok()?;
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
        self.console.note(&paragraph(line, self.console.width()));
    }

    fn keep(&mut self, answers: &Answers) {
        if let Some(draft) = &self.draft {
            // Where a draft cannot be kept, the talk goes on all the same.
            let _ = self.console.keep(draft, &draft_text(answers));
        }
    }
}
