//! The book of the folder that was opened.

use std::collections::BTreeMap;
use std::path::PathBuf;

use jiff::civil::Date;

use super::folder::Folder;
use crate::book::DoneSession;
use crate::cli::Failure;
use crate::cli::notebook::{Notebook, ToLog};
use crate::diagnostic::{Diagnostic, Label};
use crate::page::records::{LookBack, Records, Stands, ToWrite};

impl Folder {
    /// The book, in the folder itself or beside the profiles.
    fn notebook(&self) -> Notebook {
        let own = Notebook::of_folder(self.root(), self.catalog().clone());
        let beside = Notebook::of_folder(&self.home(), self.catalog().clone());
        if !own.path().exists() && beside.path().exists() { beside } else { own }
    }

    /// The book, where it does not lead out of the folder.
    fn own_notebook(&self) -> Result<Notebook, Vec<Diagnostic>> {
        let book = self.notebook();
        let path = book.path();
        if path.symlink_metadata().is_ok() && !self.is_inside(path) {
            return Err(vec![super::folder::outside_fault(&self.name_of(path))]);
        }
        Ok(book)
    }

    fn kept_plan(&self, key: &str) -> Result<PathBuf, Vec<Diagnostic>> {
        self.plan_path(key).ok_or_else(|| {
            let gone = Diagnostic::error("E1004", "the plan is gone").at(Label::whole(key));
            vec![gone.help("plan the client again, and keep the plan")]
        })
    }
}

impl Records for Folder {
    fn has_book(&self) -> bool {
        self.notebook().path().is_file()
    }

    fn last_days(&self) -> Result<BTreeMap<String, Date>, Vec<Diagnostic>> {
        self.own_notebook()?.last_days().map_err(told)
    }

    fn sessions(&self, client: &str) -> Result<Vec<DoneSession>, Vec<Diagnostic>> {
        self.own_notebook()?.sessions(client, Date::MIN, Date::MAX).map_err(told)
    }

    fn look_back(&self, client: &str) -> Result<Option<LookBack>, Vec<Diagnostic>> {
        let Some(past) = self.own_notebook()?.past(client).map_err(told)? else { return Ok(None) };
        Ok(Some(LookBack {
            review: past.review(self.root()),
            from: past.from,
            units: past.units(),
            catalog: past.catalog().clone(),
            plan: past.plans.last().cloned(),
            sessions: past.sessions,
        }))
    }

    fn write(&self, key: &str, what: &ToWrite<'_>) -> Result<Stands, Vec<Diagnostic>> {
        let plan = self.kept_plan(key)?;
        let told_note = Some(what.note).filter(|note| !note.is_empty());
        let to_log = ToLog {
            target: &plan,
            date: what.date,
            week: Some(what.week),
            day: Some(what.day),
            note: told_note,
            lines: what.lines,
        };
        let logged = self.own_notebook()?.log(&to_log).map_err(told)?;
        Ok(Stands {
            session: logged.session,
            instead_of: logged.instead_of,
            remarks: logged.remarks,
        })
    }

    fn file(&self, key: &str) -> Result<(), Vec<Diagnostic>> {
        self.own_notebook()?.file(&self.kept_plan(key)?).map_err(told)
    }
}

fn told(failure: Failure) -> Vec<Diagnostic> {
    match failure {
        Failure::Faults(faults) => faults.diagnostics,
        Failure::Unwritten(fault) => vec![fault],
        Failure::ClosedPipe => Vec::new(),
    }
}
