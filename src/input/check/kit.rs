//! What the items of a place offer.

use crate::diagnostic::{Diagnostic, Label};
use crate::input::marks::Marks;
use crate::input::place::{Equipment, Masses, Offer, Plates, Stock};
use crate::path;
use crate::words::{Kit, Units};

/// Every fault of a kit, wherever `equipment` stands in the file.
pub(super) fn faults(equipment: &Equipment, marks: &Marks) -> Vec<Diagnostic> {
    let mut faults = Vec::new();
    for (kit, stock) in &equipment.items {
        let Stock::Offer(offer) = stock else { continue };
        let at = |key: &str, text: &str| marks.at(path!["equipment", kit.id(), key], text);
        faults.extend(e1332_parts_belong(*kit, offer, &at));
        for units in Units::ALL {
            let masses = offer.in_units(*units);
            faults.extend(e1324_rack_rises(*kit, masses, *units, &at));
            faults.extend(e1325_masses_are_masses(*kit, masses, *units, &at));
        }
        let both = Units::ALL.iter().all(|units| !offer.in_units(*units).is_empty());
        faults.extend(
            both.then(|| e1328_one_unit(marks.at_key(path!["equipment", kit.id()], "kg and lb"))),
        );
    }
    for (units, plates) in [(Units::Kg, &equipment.plates_kg), (Units::Lb, &equipment.plates_lb)] {
        faults
            .extend(plates.iter().flat_map(|plates| e1326_plates_are_plates(plates, units, marks)));
    }
    if equipment.plates_kg.is_some() && equipment.plates_lb.is_some() {
        faults.push(e1328_one_unit(
            marks.at_key(path!["equipment", "plates_lb"], "beside `plates_kg`"),
        ));
    }
    faults
}

/// E1324: a rack goes from light to heavy.
fn e1324_rack_rises(
    kit: Kit,
    masses: Masses<'_>,
    units: Units,
    at: &dyn Fn(&str, &str) -> Label,
) -> Option<Diagnostic> {
    let (from, to) = masses.from.zip(masses.to)?;
    (from > to).then(|| {
        let message = format!("`{kit}` goes from {from} {units} down to {to} {units}");
        Diagnostic::error("E1324", message)
            .at(at(&format!("from_{units}"), "heavier than the heaviest"))
            .help(format!("write `from_{units}: {to}, to_{units}: {from}`"))
    })
}

/// E1325: masses are listed from light to heavy, each above 0 and up to 1000 kg.
fn e1325_masses_are_masses(
    kit: Kit,
    masses: Masses<'_>,
    units: Units,
    at: &dyn Fn(&str, &str) -> Label,
) -> Option<Diagnostic> {
    let each = masses.each?;
    let most = if units == Units::Kg { 1000.0 } else { 2200.0 };
    let can_be = each.iter().all(|mass| (0.05..=most).contains(mass));
    let rises = each.windows(2).all(|pair| pair[0] < pair[1]);
    if can_be && rises && !each.is_empty() {
        return None;
    }
    let key = format!("masses_{units}");
    let fault =
        Diagnostic::error("E1325", format!("the masses of `{kit}` are not a list of masses"))
            .at(at(&key, "light to heavy, each once"))
            .help(format!("list each mass once, above 0 and rising, as in `{key}: [4, 6, 8]`"));
    Some(fault)
}

/// E1326: a plate has 0.05 to 100 kg, or 0.1 to 220 lb.
fn e1326_plates_are_plates(plates: &Plates, units: Units, marks: &Marks) -> Vec<Diagnostic> {
    let can_be = if units == Units::Kg { 50..=100_000 } else { 100..=220_000 };
    let wrong = plates.keys().filter(|mass| !can_be.contains(*mass));
    wrong
        .map(|mass| {
            let mass = f64::from(*mass) / 1000.0;
            let text = mass.to_string();
            let key = format!("plates_{units}");
            let help = match units {
                Units::Kg => "write mass in kg and pieces, as in `plates_kg: {20: 2, 1.25: 4}`",
                Units::Lb => "write mass in lb and pieces, as in `plates_lb: {45: 2, 2.5: 4}`",
            };
            Diagnostic::error("E1326", format!("no plate has {mass} {units}"))
                .at(marks.at_key(path!["equipment", &key, &text], "the mass of a plate"))
                .help(help)
        })
        .collect()
}

/// E1332: hand-held weights come in pairs, and cable stations have sides.
fn e1332_parts_belong(
    kit: Kit,
    offer: &Offer,
    at: &dyn Fn(&str, &str) -> Label,
) -> Option<Diagnostic> {
    let fault = |key: &str, owner: &str| {
        Diagnostic::error("E1332", format!("`{kit}` has no {key}"))
            .at(at(key, "not here"))
            .help(format!("write `count: 2` for two of them; `{key}` belongs to {owner}"))
    };
    let in_pairs = matches!(kit, Kit::Dumbbells | Kit::Kettlebell);
    let pairs = (offer.pairs.is_some() && !in_pairs).then(|| fault("pairs", "hand-held weights"));
    let sides = offer.sides.is_some() && kit != Kit::CableStation;
    pairs.or_else(|| sides.then(|| fault("sides", "cable stations")))
}

/// E1328: what is written in pounds is not written in kilograms as well.
fn e1328_one_unit(label: Label) -> Diagnostic {
    Diagnostic::error("E1328", "masses in kilograms and in pounds for one thing")
        .at(label)
        .help("keep one of the two")
}
