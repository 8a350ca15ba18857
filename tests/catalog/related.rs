//! What known lifts say about others: `src/strength/related.yaml` against the catalog.

use std::collections::{BTreeMap, BTreeSet};

use serde::Deserialize;
use weekwright::catalog::Catalog;
use weekwright::words::LoadKind;

/// The lifts that coaches test and write down.
const ANCHORS: [&str; 6] =
    ["back-squat", "bench-press", "deadlift", "overhead-press", "barbell-row", "weighted-pull-up"];

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Row {
    lift: String,
    from: String,
    share: f64,
    #[serde(default)]
    with_body: bool,
    #[serde(default)]
    near: bool,
}

fn rows() -> BTreeMap<(String, String), f64> {
    let rows: Vec<Row> =
        serde_yaml::from_str(include_str!("../../src/strength/related.yaml")).unwrap();
    let count = rows.len();
    for row in &rows {
        let load = Catalog::built_in().get(&row.from).map(|entry| entry.load);
        assert_eq!(row.with_body, load == Some(LoadKind::BodyweightPlus), "from {}", row.from);
        let kin = |id: &str| Catalog::built_in().get(id).map(|entry| (entry.load, entry.pattern));
        let bars = load == Some(LoadKind::BarTotal) && kin(&row.lift) == kin(&row.from);
        assert_eq!(row.near, bars, "bars of one movement: {} from {}", row.lift, row.from);
    }
    let rows: BTreeMap<_, _> =
        rows.into_iter().map(|row| ((row.lift, row.from), row.share)).collect();
    assert_eq!(rows.len(), count, "a pair stands twice");
    rows
}

#[test]
fn every_row_names_loaded_exercises_of_the_catalog() {
    let catalog = Catalog::built_in();
    for (lift, from) in rows().keys() {
        for id in [lift, from] {
            let entry = catalog.get(id).unwrap_or_else(|| panic!("no exercise {id}"));
            assert!(is_loaded(entry.load), "{id} has no load to tell");
        }
        assert_ne!(lift, from);
    }
}

/// Whoever knows a big lift gets a start for every main lift, and the other way round.
#[test]
fn every_loaded_main_lift_has_rows_from_and_to_a_tested_lift() {
    let rows = rows();
    let pairs: BTreeSet<(&str, &str)> =
        rows.keys().map(|(lift, from)| (lift.as_str(), from.as_str())).collect();
    let catalog = Catalog::built_in();
    let mains = catalog.iter().filter(|entry| entry.main && is_loaded(entry.load));
    let mut count = 0;
    for entry in mains {
        let id = entry.id.as_str();
        assert!(ANCHORS.iter().any(|anchor| pairs.contains(&(id, *anchor))), "no row for {id}");
        assert!(ANCHORS.iter().any(|anchor| pairs.contains(&(*anchor, id))), "no row from {id}");
        count += 1;
    }
    assert!(count >= 60, "{count} loaded main lifts");
}

/// Set low on purpose: there and back never promises more than was lifted.
#[test]
fn there_and_back_gives_no_gain() {
    let rows = rows();
    for ((lift, from), share) in &rows {
        assert!((0.05..=3.0).contains(share), "{lift} from {from}: {share}");
        if let Some(back) = rows.get(&(from.clone(), lift.clone())) {
            assert!(share * back <= 1.0, "{lift} and {from}: {}", share * back);
        }
    }
}

const fn is_loaded(load: LoadKind) -> bool {
    matches!(
        load,
        LoadKind::BarTotal
            | LoadKind::PerHand
            | LoadKind::SingleImplement
            | LoadKind::Stack
            | LoadKind::PlateMachine
            | LoadKind::Sled
            | LoadKind::BodyweightPlus
    )
}
