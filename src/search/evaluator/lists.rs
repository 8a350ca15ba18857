//! Many short lists in one piece of memory.

/// Lists behind one another, so that walking them stays in the cache.
pub(super) struct Lists<T> {
    starts: Vec<u32>,
    items: Vec<T>,
}

impl<T> Lists<T> {
    pub(super) fn new(lists: impl IntoIterator<Item = Vec<T>>) -> Lists<T> {
        let mut starts = vec![0];
        let mut items = Vec::new();
        for list in lists {
            items.extend(list);
            starts.push(small(items.len()));
        }
        Lists { starts, items }
    }

    #[inline]
    pub(super) fn of(&self, list: usize) -> &[T] {
        &self.items[self.starts[list] as usize..self.starts[list + 1] as usize]
    }
}

pub(super) fn small(place: usize) -> u32 {
    u32::try_from(place).expect("a weekly model is small")
}
