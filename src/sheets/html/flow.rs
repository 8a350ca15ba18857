//! Pages that are filled from top to bottom: what no longer fits goes on the next one.

/// Pages of one kind, the last of them still open.
pub(super) struct Flow<P> {
    pages: Vec<P>,
    /// Millimeters of a page, and those left on the last one.
    room: f64,
    left: f64,
}

impl<P: Default> Flow<P> {
    /// A first page of which `taken` millimeters are taken.
    pub(super) fn new(room: f64, taken: f64) -> Self {
        Flow { pages: vec![P::default()], room, left: room - taken }
    }

    /// Puts the items one after the other under a heading, which is told again where a page is turned.
    pub(super) fn put<T>(
        &mut self,
        heading: f64,
        items: Vec<T>,
        height: impl Fn(&T) -> f64,
        place: impl Fn(&mut P) -> &mut Vec<T>,
    ) {
        let mut lead = heading;
        for item in items {
            let tall = height(&item);
            if lead + tall > self.left && self.left < self.room {
                self.turn();
                lead = heading;
            }
            self.left -= lead + tall;
            lead = 0.0;
            place(self.last()).push(item);
        }
    }

    /// What comes next begins a page.
    pub(super) fn turn(&mut self) {
        self.pages.push(P::default());
        self.left = self.room;
    }

    pub(super) fn done(self) -> Vec<P> {
        self.pages
    }

    fn last(&mut self) -> &mut P {
        self.pages.last_mut().expect("there is a first page")
    }
}

#[cfg(test)]
mod tests {
    use super::Flow;

    #[test]
    fn a_page_that_is_full_is_turned_and_its_heading_told_again() {
        let mut flow: Flow<Vec<u32>> = Flow::new(10.0, 4.0);
        // 4 taken, 2 of heading, 2 + 2; then a new page: 2 of heading, 2 + 2 + 2 + 2; then a third.
        flow.put(2.0, (1..=7).collect(), |_| 2.0, |page| page);
        assert_eq!(flow.done(), [vec![1, 2], vec![3, 4, 5, 6], vec![7]]);
    }

    #[test]
    fn what_is_taller_than_a_page_stands_alone_and_makes_no_empty_page() {
        let mut flow: Flow<Vec<u32>> = Flow::new(10.0, 0.0);
        flow.put(0.0, vec![20, 1], |item| f64::from(*item), |page| page);
        assert_eq!(flow.done(), [vec![20], vec![1]]);
    }
}
