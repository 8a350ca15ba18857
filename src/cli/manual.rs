//! `weekwright manual` and `weekwright completions`: both made from the arguments themselves.

use clap::CommandFactory as _;

use super::args::{Args, CompletionsArgs, ManualArgs};
use super::output::Console;
use super::{Exit, Failure, Faults};
use crate::diagnostic::{Diagnostic, Label, quoted};
use crate::input::suggest;

/// The manual page of the program or of one of its commands, in the roff form that `man` reads.
pub(super) fn run(arguments: &ManualArgs, console: &Console) -> Result<Exit, Failure> {
    let mut program = Args::command();
    program.build();
    let page = match &arguments.command {
        None => program,
        Some(name) => program.find_subcommand(name).cloned().ok_or_else(|| unknown(name))?,
    };
    let name = page.get_display_name().unwrap_or_else(|| page.get_name()).to_owned();
    let after = page.get_after_help().map(ToString::to_string).unwrap_or_default();
    let page = page.after_help(None::<&str>);
    let mut text = Vec::new();
    let page = clap_mangen::Man::new(page).title(name).manual("Weekwright");
    page.render(&mut text).expect("memory takes every write");
    let text = String::from_utf8(text).expect("help texts are text") + &examples(&after);
    console.write(arguments.output.as_deref(), &text)?;
    Ok(Exit::Done)
}

/// The text under the help as a section whose lines stay as they are.
fn examples(after: &str) -> String {
    let lines = after.strip_prefix("Examples:\n").unwrap_or(after);
    let lines = lines.replace('\\', "\\e").replace('-', "\\-");
    format!(".SH EXAMPLES\n.nf\n{lines}\n.fi\n")
}

fn unknown(name: &str) -> Faults {
    let program = Args::command();
    let names: Vec<&str> = program.get_subcommands().map(clap::Command::get_name).collect();
    Diagnostic::error("E5002", format!("there is no command {}", quoted(name)))
        .at(Label::whole("command line"))
        .help(suggest::help(name, &names, "`weekwright --help` lists the commands"))
        .into()
}

/// What a shell needs to complete commands, options and their words.
pub(super) fn completions(arguments: &CompletionsArgs, console: &Console) -> Result<Exit, Failure> {
    let mut program = Args::command();
    let mut text = Vec::new();
    clap_complete::generate(arguments.shell, &mut program, "weekwright", &mut text);
    let text = String::from_utf8(text).expect("help texts are text");
    console.write(arguments.output.as_deref(), &text)?;
    Ok(Exit::Done)
}
