//! What a coach takes first for each pattern and kind of kit, or why nothing there is a first choice: `cells.yaml`.

use std::collections::BTreeMap;
use std::sync::LazyLock;

use serde::Deserialize;

use super::cells::KitGroup;
use crate::diagnostic::{Diagnostic, Label};
use crate::input::catalog::Entry;
use crate::words::{Pattern, Standing};

/// What the list says of one cell.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FirstChoice {
    /// The staple of this id.
    Staple(&'static str),
    /// Nothing, for this reason.
    NoneBecause(&'static str),
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
struct Row {
    no_kit: String,
    hand_held: String,
    barbell: String,
    machines: String,
}

static ROWS: LazyLock<BTreeMap<Pattern, Row>> = LazyLock::new(|| {
    serde_yaml::from_str(include_str!("cells.yaml")).expect("a test reads every row")
});

/// The first choice for a pattern with kit of a group.
#[must_use]
pub fn first_choice(pattern: Pattern, group: KitGroup) -> FirstChoice {
    let row = ROWS.get(&pattern).expect("a test finds a row for every pattern");
    let cell = match group {
        KitGroup::Nothing => &row.no_kit,
        KitGroup::HandHeld => &row.hand_held,
        KitGroup::Barbell => &row.barbell,
        KitGroup::Machines => &row.machines,
    };
    cell.strip_prefix("none: ").map_or(FirstChoice::Staple(cell), FirstChoice::NoneBecause)
}

/// Whether an exercise is a staple of a pattern with kit of a group.
#[must_use]
pub fn is_staple_of(entry: &Entry, pattern: Pattern, group: KitGroup) -> bool {
    entry.pattern == Some(pattern)
        && entry.standing == Standing::Staple
        && entry.needs.iter().any(|set| KitGroup::of(set) == group)
}

/// W1413: what is named as the first choice of a cell is one there.
pub(super) fn w1413_first_choices_are_staples(all: &BTreeMap<String, Entry>) -> Vec<Diagnostic> {
    let cells =
        Pattern::ALL.iter().flat_map(|pattern| KitGroup::ALL.map(|group| (*pattern, group)));
    let remark = |(pattern, group): (Pattern, KitGroup)| {
        let FirstChoice::Staple(id) = first_choice(pattern, group) else { return None };
        let stands = all.get(id).is_some_and(|entry| is_staple_of(entry, pattern, group));
        let message = format!("no `{id}` as the staple of `{pattern}` with {}", group.name());
        let remark = Diagnostic::warning("W1413", message)
            .at(Label::whole("catalog"))
            .help(format!("keep `{id}` as `standing: staple` with its pattern and kit"));
        (!stands).then_some(remark)
    };
    cells.filter_map(remark).collect()
}
