//! What the book gives to profiles that are planned with it.

use std::collections::BTreeMap;
use std::path::Path;

use super::Failure;
use super::book::Book;
use super::output::Console;
use super::review::Past;
use crate::book::DoneSession;
use crate::book::carry::{Known, give};
use crate::book::review::Review;
use crate::catalog::Catalog;
use crate::input::plan::{FromBook, Plan};
use crate::input::profile::Profile;
use crate::planner::Options;

/// What the book has of every client, read before the planning begins, so that all cores can use it.
pub(super) struct Shelf {
    clients: BTreeMap<String, OfClient>,
    catalog: Catalog,
}

struct OfClient {
    sessions: Vec<DoneSession>,
    review: Review,
    plan: Option<Plan>,
}

impl Shelf {
    /// Reads a book. Clients of whom nothing is written down have nothing to give.
    pub(super) fn of(path: &Path, catalog: &Catalog, console: &Console) -> Result<Shelf, Failure> {
        let book = Book::open(path, console)?;
        let mut clients = BTreeMap::new();
        for client in book.clients()? {
            if book.is_blank(&client)? {
                continue;
            }
            let past = Past::of(&book, &client.code, (None, None), catalog.clone())?;
            let review = past.review(Path::new("."));
            let Past { sessions, mut plans, .. } = past;
            clients.insert(client.code, OfClient { sessions, review, plan: plans.pop() });
        }
        Ok(Shelf { clients, catalog: catalog.clone() })
    }

    /// Gives a profile what the book knows of its client, and the planner the last block; none where it knows nothing.
    pub(super) fn give(&self, profile: &mut Profile, options: &mut Options) -> Option<FromBook> {
        let client = self.clients.get(&profile.client)?;
        let known = Known {
            sessions: &client.sessions,
            review: &client.review,
            plan: client.plan.as_ref(),
            entries: self.catalog.entries(),
        };
        Some(give(profile, &mut options.previous, &known))
    }
}
