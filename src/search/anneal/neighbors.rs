//! What proposals are drawn from.

use crate::model::Weekly;

/// Picks by what they have in common.
#[derive(Clone)]
pub(in crate::search) struct Neighbors {
    /// For each pick, others of its day that could stand in for it: same pattern or prime mover.
    pub(super) alike: Vec<Vec<usize>>,
    /// The picks of each day.
    pub(super) on_day: Vec<Vec<usize>>,
    /// The picks of each candidate.
    pub(super) days_of: Vec<Vec<usize>>,
}

impl Neighbors {
    pub(super) fn new(weekly: &Weekly) -> Neighbors {
        let mut on_day = vec![Vec::new(); weekly.request.days.len()];
        let mut days_of = vec![Vec::new(); weekly.request.candidates.len()];
        for (place, pick) in weekly.picks.iter().enumerate() {
            on_day[pick.day].push(place);
            days_of[pick.candidate].push(place);
        }
        let alike = weekly.picks.iter().map(|pick| {
            let one = weekly.candidate(pick);
            let similar = |other: &usize| {
                let two = weekly.candidate(&weekly.picks[*other]);
                two.id != one.id && (two.pattern == one.pattern || two.prime() == one.prime())
            };
            on_day[pick.day].iter().copied().filter(similar).collect()
        });
        Neighbors { alike: alike.collect(), on_day, days_of }
    }

    /// The same with what stood long in earlier runs at the front.
    pub(super) fn sorted(&self, frequency: &[u32]) -> Neighbors {
        let mut sorted = self.clone();
        for list in sorted.alike.iter_mut().chain(&mut sorted.on_day) {
            list.sort_by_key(|pick| std::cmp::Reverse(frequency[*pick]));
        }
        sorted
    }
}
