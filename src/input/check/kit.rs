//! What the items of a place offer.

use crate::diagnostic::{Diagnostic, Label};
use crate::input::marks::Marks;
use crate::input::place::{Equipment, Offer, Stock};
use crate::path;
use crate::words::Kit;

/// Every fault of a kit, wherever `equipment` stands in the file.
pub(super) fn faults(equipment: &Equipment, marks: &Marks) -> Vec<Diagnostic> {
    let mut faults = Vec::new();
    for (kit, stock) in &equipment.items {
        if let Stock::Offer(offer) = stock {
            let at = |key: &str, text: &str| marks.at(path!["equipment", kit.id(), key], text);
            faults.extend(e1324_rack_rises(*kit, offer, &at));
            faults.extend(e1325_masses_are_masses(*kit, offer, &at));
        }
    }
    faults.extend(e1326_plates_are_plates(equipment, marks));
    faults
}

/// E1324: a rack goes from light to heavy.
fn e1324_rack_rises(
    kit: Kit,
    offer: &Offer,
    at: &dyn Fn(&str, &str) -> Label,
) -> Option<Diagnostic> {
    let (from, to) = offer.from_kg.zip(offer.to_kg)?;
    (from > to).then(|| {
        Diagnostic::error("E1324", format!("`{kit}` goes from {from} kg down to {to} kg"))
            .at(at("from_kg", "heavier than the heaviest"))
            .help(format!("write `from_kg: {to}, to_kg: {from}`"))
    })
}

/// E1325: masses are listed from light to heavy, each above 0 and up to 1000 kg.
fn e1325_masses_are_masses(
    kit: Kit,
    offer: &Offer,
    at: &dyn Fn(&str, &str) -> Label,
) -> Option<Diagnostic> {
    let masses = offer.masses_kg.as_ref()?;
    let can_be = masses.iter().all(|mass| (0.05..=1000.0).contains(mass));
    let rises = masses.windows(2).all(|pair| pair[0] < pair[1]);
    if can_be && rises && !masses.is_empty() {
        return None;
    }
    let fault =
        Diagnostic::error("E1325", format!("the masses of `{kit}` are not a list of masses"))
            .at(at("masses_kg", "light to heavy, each once"))
            .help("list each mass once, above 0 and rising, as in `masses_kg: [4, 6, 8]`");
    Some(fault)
}

/// E1326: a plate has 0.05 to 100 kg.
fn e1326_plates_are_plates(equipment: &Equipment, marks: &Marks) -> Vec<Diagnostic> {
    /// Grams.
    const PLATE: std::ops::RangeInclusive<u32> = 50..=100_000;
    let masses = equipment.plates_kg.iter().flat_map(|plates| plates.keys());
    let wrong = masses.filter(|grams| !PLATE.contains(grams));
    wrong
        .map(|grams| {
            let mass = f64::from(*grams) / 1000.0;
            let text = mass.to_string();
            Diagnostic::error("E1326", format!("no plate has {mass} kg"))
                .at(marks.at_key(path!["equipment", "plates_kg", &text], "a mass in kilograms"))
                .help("write mass in kg and pieces, as in `plates_kg: {20: 2, 1.25: 4}`")
        })
        .collect()
}
