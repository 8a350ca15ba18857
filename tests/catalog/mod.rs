//! The built-in catalog as it stands, and what lint finds in others.

use weekwright::catalog::Catalog;
use weekwright::catalog::lint::{built_in_sources, lint};

#[test]
fn the_built_in_catalog_has_no_fault_and_no_gap() {
    let report = lint(&[]);
    assert_eq!(report.diagnostics, []);
    assert!(report.entries >= 160, "{} entries", report.entries);
    assert!(report.families >= 90, "{} families", report.families);
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
