//! `weekwright sheet --progress`: what a client did, on one page.

use super::args::{Form, SheetArgs};
use super::book::{self, Book};
use super::output::Console;
use super::render::paragraph;
use super::review::Past;
use super::{Exit, Failure, ending, files};
use crate::book::review::text;
use crate::diagnostic::Diagnostic;
use crate::sheets::Audience;
use crate::sheets::SheetError;
use crate::sheets::progress::{Progress, coming, page};

pub(super) fn run(client: &str, arguments: &SheetArgs, console: &Console) -> Result<Exit, Failure> {
    let form = ending::chosen(arguments.form.as_ref(), arguments.output.as_deref(), Form::Text)?;
    if !matches!(form, Form::Html | Form::Text) {
        let fault = Diagnostic::error("E2002", format!("there is no progress as {}", form.id()))
            .help("write `--as html` or `--as text`");
        return Err(Failure::Faults(fault.into()));
    }
    let catalog = files::load_catalog(arguments.catalog.as_deref())?;
    let path = book::place(arguments.book.as_deref(), None);
    let book = Book::open(&path, console)?;
    let past = Past::of(&book, client, (None, None), catalog)?;
    let mut review = past.review(std::path::Path::new("."));
    let audience: Audience = arguments.audience.map_or(Audience::Client, Into::into);
    let text = if form == Form::Html {
        let plan = past.plans.last();
        let progress = Progress {
            review: &review,
            from: past.from,
            plan,
            coming: plan.and_then(|plan| coming(plan, &past.sessions)),
            units: past.units(),
            audience,
            paper: arguments.paper.map(Into::into),
        };
        page(&progress, past.catalog().entries()).map_err(unmade)?
    } else {
        if !audience.coach() {
            review.proposals.clear();
            review.skipped.clear();
        }
        text::text(&review, past.units(), &|line| paragraph(line, console.width()))
    };
    console.write(arguments.output.as_deref(), &text)?;
    Ok(Exit::Done)
}

fn unmade(error: SheetError) -> Failure {
    Failure::Unwritten(Diagnostic::error("E4002", error.to_string()).help("please report this"))
}
