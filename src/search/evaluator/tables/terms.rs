//! What picks bring to numbers, laid out by when a change asks for it.

use super::LATER;
use crate::search::evaluator::lists::small;

/// What a pick brings to a number: by its being done, and by each set above its fewest.
#[derive(Clone, Copy)]
pub(in crate::search::evaluator) struct Term {
    pub(in crate::search::evaluator) to: u32,
    pub(in crate::search::evaluator) by: [i32; 2],
}

/// The terms of each pick in the order of stages, and once more those of its sets alone: a change of these looks at no others.
pub(in crate::search::evaluator) struct Terms {
    /// By pick, and whether of sets alone: where each stage begins, and the last ends.
    starts: Vec<[u32; LATER + 2]>,
    items: Vec<Term>,
}

/// Those of a pick, by stage.
type OfPick = [Vec<Term>; LATER + 1];

impl Terms {
    pub(super) fn new(picks: &[OfPick]) -> Terms {
        let (mut starts, mut items) = (Vec::new(), Vec::new());
        for of_pick in picks {
            for is_of_sets in [false, true] {
                let mut of_pick_starts = [small(items.len()); LATER + 2];
                for (terms, end) in of_pick.iter().zip(&mut of_pick_starts[1..]) {
                    items.extend(terms.iter().filter(|term| !is_of_sets || term.by[1] != 0));
                    *end = small(items.len());
                }
                starts.push(of_pick_starts);
            }
        }
        Terms { starts, items }
    }

    /// What a pick brings to the numbers of one of the first stages, or to all that are later; by its sets alone, or also by
    /// its being done.
    #[inline]
    pub(in crate::search::evaluator) fn of(
        &self,
        pick: usize,
        is_of_sets: bool,
        stage: usize,
    ) -> &[Term] {
        let starts = &self.starts[pick.wrapping_mul(2).wrapping_add(usize::from(is_of_sets))];
        &self.items[starts[stage] as usize..starts[stage + 1] as usize]
    }
}
