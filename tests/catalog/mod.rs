//! The built-in catalog as it stands, and what lint finds in others.

mod anatomy;
mod related;

use weekwright::catalog::cells::KitGroup;
use weekwright::catalog::first_choice::{FirstChoice, first_choice, is_staple_of};
use weekwright::catalog::lint::{built_in_sources, lint};
use weekwright::catalog::{Catalog, FILES};
use weekwright::diagnostic::Diagnostic;
use weekwright::input::catalog::Entry;
use weekwright::words::{Kit, Pattern, Standing};

#[test]
fn the_built_in_catalog_has_no_fault() {
    let report = lint(&[]);
    assert_eq!(report.diagnostics, Vec::<Diagnostic>::new());
    assert!(report.entries >= 160, "{} entries", report.entries);
    assert!(report.families >= 90, "{} families", report.families);
}

/// The program reads the catalog as JSON, made of the files when it is built.
#[test]
fn the_program_knows_what_the_files_say() {
    let read = |(_, text): &(&str, &str)| serde_yaml::from_str::<Vec<Entry>>(text).unwrap();
    let written: Vec<Entry> = FILES.iter().flat_map(read).collect();
    let catalog = Catalog::built_in();
    assert_eq!(catalog.len(), written.len());
    for entry in &written {
        assert_eq!(catalog.get(&entry.id), Some(entry));
    }
}

/// Every cell of pattern and kind of kit has its staple, or a reason and none.
#[test]
fn every_cell_has_its_first_choice_or_a_reason() {
    let catalog = Catalog::built_in();
    for (pattern, group) in
        Pattern::ALL.iter().flat_map(|pattern| KitGroup::ALL.map(|group| (*pattern, group)))
    {
        let staples: Vec<&str> = catalog
            .iter()
            .filter(|entry| is_staple_of(entry, pattern, group))
            .map(|entry| entry.id.as_str())
            .collect();
        match first_choice(pattern, group) {
            FirstChoice::Staple(id) => {
                assert!(staples.contains(&id), "{id} for {pattern} with {}", group.name());
            }
            FirstChoice::NoneBecause(reason) => {
                assert!(reason.len() > 10, "{pattern} with {}: why?", group.name());
                assert!(staples.is_empty(), "{pattern} with {}: {staples:?}", group.name());
            }
        }
    }
}

/// A variant is taken after its exercise, and a staple is no variant.
#[test]
fn variants_come_after_their_exercise() {
    let catalog = Catalog::built_in();
    let variants = catalog.iter().filter_map(|entry| Some((entry, entry.variant_of.as_ref()?)));
    let mut count = 0;
    for (variant, parent) in variants {
        let parent = catalog.get(parent).expect("lint finds it");
        assert_ne!(variant.standing, Standing::Staple, "{}: a staple stands alone", variant.id);
        assert!(variant.standing >= parent.standing, "{} of {}", variant.id, parent.id);
        count += 1;
    }
    assert!(count >= 40, "{count} variants");
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
