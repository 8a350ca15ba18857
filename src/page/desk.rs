//! What all requests share: the folder, the planner, and what is being tried for each client.

use std::collections::BTreeMap;
use std::sync::atomic::AtomicU64;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

use super::cabinet::Cabinet;
use super::draft::{Draft, Refused};
use crate::planner::Planner;
use crate::request::turn::Turn;

/// What all requests share.
pub struct Desk {
    pub(super) cabinet: Box<dyn Cabinet>,
    pub(super) planner: Planner,
    /// The secret of this start.
    pub(super) token: String,
    /// The port that is listened at.
    pub(super) port: u16,
    seats: Mutex<BTreeMap<String, Arc<Seat>>>,
}

/// A client's place at the desk.
pub(super) struct Seat {
    /// Counts what was asked for; a search for anything but the newest ends.
    pub(super) counter: &'static AtomicU64,
    /// Browsers that wait for a page with this client's week.
    visitors: Mutex<usize>,
    /// Counts how often the last of them left: what is looked for their pages then ends.
    left: &'static AtomicU64,
    /// What is shown and tried; nothing before the first look.
    draft: Mutex<Option<Draft>>,
    /// What was just done, for the page that comes next.
    notice: Mutex<String>,
    /// Why the profile, by its hash, has no week, with the ways out: to find them takes longer than all else.
    no_week: Mutex<Option<(String, Refused)>>,
}

impl Desk {
    /// A desk before a folder.
    #[must_use]
    pub fn new(cabinet: Box<dyn Cabinet>, planner: Planner, token: String, port: u16) -> Desk {
        Desk { cabinet, planner, token, port, seats: Mutex::default() }
    }

    /// Whether the folder has such a client.
    pub(super) fn has(&self, key: &str) -> bool {
        self.cabinet.keys().is_ok_and(|keys| keys.iter().any(|one| one == key))
    }

    /// The place of a client whom the folder has.
    pub(super) fn seat(&self, key: &str) -> Arc<Seat> {
        let mut seats = self.seats.lock().unwrap_or_else(PoisonError::into_inner);
        Arc::clone(seats.entry(key.to_owned()).or_insert_with(|| {
            // Two numbers for each client who was looked at, for as long as the program runs.
            let [counter, left] = Box::leak(Box::new([AtomicU64::new(0), AtomicU64::new(0)]));
            Arc::new(Seat {
                counter,
                left,
                visitors: Mutex::default(),
                draft: Mutex::default(),
                notice: Mutex::default(),
                no_week: Mutex::default(),
            })
        }))
    }
}

/// A browser that waits for a page with a client's week, until it is dropped.
pub(super) struct Visit(Arc<Seat>);

impl Visit {
    pub(super) fn to(seat: Arc<Seat>) -> Visit {
        *seat.visitors() += 1;
        Visit(seat)
    }
}

impl Drop for Visit {
    fn drop(&mut self) {
        let mut visitors = self.0.visitors();
        *visitors -= 1;
        if *visitors == 0 {
            let _ = Turn::take(self.0.left);
        }
    }
}

impl Seat {
    fn visitors(&self) -> MutexGuard<'_, usize> {
        self.visitors.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// The turn of all who wait for a page.
    pub(super) fn visit(&self) -> Turn {
        Turn::share(self.left)
    }

    /// What is shown and tried. A request that failed in the middle leaves what it found.
    pub(super) fn draft(&self) -> MutexGuard<'_, Option<Draft>> {
        self.draft.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// Why a profile has no week, where that was found before.
    pub(super) fn no_week(&self, profile_sha256: &str) -> Option<Refused> {
        let known = self.no_week.lock().unwrap_or_else(PoisonError::into_inner);
        known.as_ref().filter(|(of, _)| of == profile_sha256).map(|(_, refused)| refused.clone())
    }

    /// Remembers why a profile has no week.
    pub(super) fn remember(&self, profile_sha256: String, refused: Refused) {
        let mut known = self.no_week.lock().unwrap_or_else(PoisonError::into_inner);
        *known = Some((profile_sha256, refused));
    }

    /// Leaves a sentence for the page that comes next, and hands over the one that was left.
    pub(super) fn swap_notice(&self, notice: String) -> String {
        std::mem::replace(&mut *self.notice.lock().unwrap_or_else(PoisonError::into_inner), notice)
    }
}
