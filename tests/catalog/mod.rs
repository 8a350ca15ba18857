//! The built-in catalog as it stands, and what lint finds in others.

use weekwright::catalog::Catalog;
use weekwright::catalog::cells::{KitGroup, NOTHING_TO_FILL};
use weekwright::catalog::lint::{built_in_sources, lint};
use weekwright::diagnostic::Diagnostic;
use weekwright::words::{Kit, Pattern};

/// Cells that the trade has exercises for and the catalog does not yet. The list may only shrink:
/// whoever fills a cell takes it off.
const TO_FILL: &[(Pattern, KitGroup)] = &[
    (Pattern::LateralFlexion, KitGroup::Barbell),
    (Pattern::AntiExtension, KitGroup::Machines),
    (Pattern::AntiLateralFlexion, KitGroup::Barbell),
    (Pattern::AntiLateralFlexion, KitGroup::Machines),
    (Pattern::Balance, KitGroup::HandHeld),
    (Pattern::ElbowFlexion, KitGroup::Nothing),
    (Pattern::Dorsiflexion, KitGroup::Machines),
    (Pattern::Locomotion, KitGroup::HandHeld),
];

#[test]
fn the_built_in_catalog_has_no_fault_and_no_other_gap() {
    let report = lint(&[]);
    assert_eq!(report.cells.gaps(), TO_FILL);
    let others = report.diagnostics.iter().filter(|found| found.code != "W1413");
    assert_eq!(others.collect::<Vec<_>>(), Vec::<&Diagnostic>::new());
    assert!(report.entries >= 160, "{} entries", report.entries);
    assert!(report.families >= 90, "{} families", report.families);
}

#[test]
fn a_cell_of_the_allow_list_is_empty() {
    let report = lint(&[]);
    for (pattern, group) in NOTHING_TO_FILL {
        let levels = report.cells.levels(*pattern, *group);
        assert_eq!(levels, [0; 3], "{pattern} with {} has exercises", group.name());
    }
}

#[test]
fn the_built_in_catalog_is_what_its_files_say() {
    let from_files =
        Catalog::built_in().with(&built_in_sources()).expect("the files have no fault");
    assert_eq!(from_files.entries(), Catalog::built_in().entries());
    assert_eq!(from_files.sha256(), Catalog::built_in().sha256());
    assert_eq!(from_files.added().count(), from_files.len());
    assert_eq!(Catalog::built_in().added().count(), 0);
}

/// A client who has dumbbells must not read of a kettlebell: where an exercise can be done with either, its name is of
/// neither.
#[test]
fn a_name_tells_of_no_weight_that_the_client_may_lack() {
    for entry in Catalog::built_in().entries().values() {
        let name = entry.name.to_lowercase();
        for weight in ["dumbbell", "kettlebell", "medicine", "sandbag"] {
            let has = |kit: &[Kit]| kit.iter().any(|item| item.to_string().contains(weight));
            let everywhere = entry.needs.iter().all(|set| has(set));
            assert!(everywhere || !name.contains(weight), "{}: {:?}", entry.name, entry.needs);
        }
    }
}
