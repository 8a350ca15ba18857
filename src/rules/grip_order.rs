//! `grip-order`: the hands are fresh for a bar hinge, and rest after three items in a row.
//!
//! No grip-heavy item in the two places before a bar hinge; carries and hangs after the last hinge and pull
//! (common practice).

use super::{Finding, Force, Rule};
use crate::request::Request;
use crate::request::candidate::grade;
use crate::week::{Item, Week};
use crate::words::{Grade, LoadKind, Measure, Pattern, Stress};

/// Grip-heavy items by place in a session.
pub(super) struct GripOrder;

const MOST_IN_A_ROW: usize = 3;

/// Heavy on the hands; a light hold tires nobody.
fn grips(item: &Item) -> bool {
    grade(&item.entry, Stress::Grip) == Some(Grade::Heavy)
}

/// Carries, and hangs that are held.
fn is_carry_or_hang(item: &Item) -> bool {
    let held = grips(item) && item.entry.measure == Measure::Seconds;
    item.pattern() == Some(Pattern::Carry) || held
}

fn is_bar_hinge(item: &Item) -> bool {
    item.pattern() == Some(Pattern::Hinge) && item.entry.load == LoadKind::BarTotal
}

impl Rule for GripOrder {
    fn id(&self) -> &'static str {
        "grip-order"
    }
    fn summary(&self) -> &'static str {
        "the hands are fresh for a bar hinge, and carries come after hinges and pulls"
    }
    fn force(&self) -> Force {
        Force::View
    }
    fn recount(&self, _request: &Request, week: &Week) -> Vec<Finding> {
        let mut findings = Vec::new();
        for session in &week.sessions {
            let items: Vec<&Item> = session.work().collect();
            let mut remark = |place: usize, wanted: &str, got: &str| {
                let place = format!("{}, {}", session.label, items[place].entry.id);
                findings.push(Finding::broken(self.id(), place, wanted, got).as_remark());
            };
            for (place, item) in items.iter().enumerate() {
                let before = &items[place.saturating_sub(2)..place];
                if is_bar_hinge(item) && before.iter().any(|earlier| grips(earlier)) {
                    remark(place, "fresh hands for a bar hinge", "grip work just before");
                }
                let carries = is_carry_or_hang(item);
                let later = items[place + 1..].iter().any(|after| {
                    matches!(
                        after.pattern(),
                        Some(Pattern::Hinge | Pattern::HorizontalPull | Pattern::VerticalPull)
                    )
                });
                if carries && later {
                    remark(place, "carries and hangs after the last hinge and pull", "before one");
                }
            }
            let run =
                items.windows(MOST_IN_A_ROW + 1).position(|run| run.iter().all(|item| grips(item)));
            if let Some(place) = run {
                remark(place, "three grip items in a row at most", "four");
            }
        }
        findings
    }
}
