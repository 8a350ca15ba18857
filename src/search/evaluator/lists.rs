//! Many short lists in one piece of memory.

/// Lists behind one another, so that walking them stays in the cache.
pub(super) struct Lists<T> {
    starts: Vec<u32>,
    items: Vec<T>,
}

impl<T> Default for Lists<T> {
    fn default() -> Lists<T> {
        Lists { starts: vec![0], items: Vec::new() }
    }
}

impl<T> Lists<T> {
    pub(super) fn new(lists: impl IntoIterator<Item = Vec<T>>) -> Lists<T> {
        let mut all = Lists::default();
        lists.into_iter().for_each(|list| all.push(list));
        all
    }

    pub(super) fn push(&mut self, list: impl IntoIterator<Item = T>) {
        self.items.extend(list);
        self.starts.push(small(self.items.len()));
    }

    #[inline]
    pub(super) fn of(&self, list: usize) -> &[T] {
        &self.items[self.starts[list] as usize..self.starts[list + 1] as usize]
    }
}

pub(super) fn small(place: usize) -> u32 {
    u32::try_from(place).expect("a weekly model is small")
}
