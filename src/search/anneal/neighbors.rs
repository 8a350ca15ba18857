//! What a run draws its changes from.

use crate::model::Weekly;

/// Picks by what they have in common.
#[derive(Clone)]
pub(in crate::search) struct Lists {
    /// For each pick, others of its day that could stand in for it: same pattern or prime mover.
    pub(super) alike: Vec<Vec<usize>>,
    /// The picks of each day.
    pub(super) on_day: Vec<Vec<usize>>,
    /// The picks of each candidate.
    pub(super) days_of: Vec<Vec<usize>>,
}

impl Lists {
    pub(super) fn new(weekly: &Weekly) -> Lists {
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
        Lists { alike: alike.collect(), on_day, days_of }
    }
}
