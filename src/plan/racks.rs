//! What a place has for an exercise: bars with their plates, racks of dumbbells and kettlebells, stacks, belts.
//!
//! Where a place gives only a count, the usual set stands in (EQ-01, EQ-03, EQ-07; the pieces are common practice).

use crate::input::catalog::Entry;
use crate::input::place::{Equipment, Offer, Plates, Stock};
use crate::plan::loads::{KG_PER_LB, Ladder, MOST_GRAMS, to_kg, whole_grams};
use crate::words::{Kit, LoadKind, Units};

/// The loads that an exercise can have in a place; `None` where it has no load that a place could limit, or where
/// the place lacks the kit.
#[must_use]
pub fn ladder(entry: &Entry, place: &Equipment, units: Units) -> Option<Ladder> {
    let kit = |wanted: &[Kit]| first_kit(entry, place, wanted);
    let ladder = match entry.load {
        LoadKind::BarTotal => {
            let bar = bar_grams(kit(BARS)?, place, units);
            let one_end = kit(&[Kit::Landmine]).is_some();
            Ladder::bar(bar, &plates(place, units), one_end, units)
        }
        LoadKind::PerHand | LoadKind::SingleImplement => {
            let by_hand = entry.load == LoadKind::PerHand;
            Ladder::implements(masses(kit(IMPLEMENTS)?, place, units, by_hand), units)
        }
        LoadKind::Stack => {
            Ladder::implements(rack(&machine_offer(entry, place), stack(units)), units)
        }
        LoadKind::PlateMachine | LoadKind::Sled => plate_machine(entry, place, units),
        LoadKind::BodyweightPlus => added(entry, place, units)?,
        LoadKind::Bodyweight | LoadKind::Assisted | LoadKind::Band | LoadKind::None => return None,
    };
    (!ladder.is_empty()).then_some(ladder)
}

/// What a plan says of a place whose bars have nothing to put on them.
#[must_use]
pub fn without_plates(place: &Equipment, units: Units) -> Option<String> {
    let has_bar = BARS.iter().any(|bar| place.items.contains_key(bar));
    (has_bar && plates(place, units).is_empty())
        .then(|| "the place has no plates, so that every bar is used empty".to_owned())
}

const BARS: &[Kit] = &[Kit::Barbell, Kit::TrapBar, Kit::EzBar, Kit::SmithMachine];
const IMPLEMENTS: &[Kit] = &[
    Kit::Dumbbells,
    Kit::Kettlebell,
    Kit::WeightPlate,
    Kit::MedicineBall,
    Kit::Sandbag,
    Kit::WeightVest,
];

/// The first kit of the exercise's own sets that is one of `wanted` and that the place has.
fn first_kit(entry: &Entry, place: &Equipment, wanted: &[Kit]) -> Option<Kit> {
    let here = |kit: &Kit| place.items.get(kit).is_some_and(|stock| stock.count() > 0);
    let listed = entry.needs.iter().flatten();
    listed.copied().find(|kit| wanted.contains(kit) && here(kit))
}

fn offer(place: &Equipment, kit: Kit) -> Offer {
    place.items.get(&kit).map(Stock::offer).unwrap_or_default()
}

/// A usual mass in grams, rounded down, so that a bar of 135 lb made of such plates is not a gram above 135 lb.
fn usual_grams(mass_kg: f64) -> u32 {
    let near = whole_grams(mass_kg);
    if f64::from(near) > mass_kg * 1000.0 + 0.01 { near - 1 } else { near }
}

/// The bare bar in grams: what the place says, else the usual (EQ-01 and EQ-03; trap, curl and guided bars vary,
/// common practice).
fn bar_grams(bar: Kit, place: &Equipment, units: Units) -> u32 {
    let usual_kg = match (bar, units) {
        (Kit::TrapBar, Units::Kg) => 25.0,
        (Kit::TrapBar, Units::Lb) => 60.0 * KG_PER_LB,
        (Kit::EzBar, Units::Kg) => 10.0,
        (Kit::EzBar, Units::Lb) => 20.0 * KG_PER_LB,
        (_, Units::Kg) => 20.0,
        (_, Units::Lb) => 45.0 * KG_PER_LB,
    };
    offer(place, bar).mass_kg.map_or_else(|| usual_grams(usual_kg), whole_grams)
}

/// The loose plates: what the place lists, else a usual set (EQ-03, the pieces are common practice).
fn plates(place: &Equipment, units: Units) -> Plates {
    if let Some(plates) = &place.plates_kg {
        return plates.clone();
    }
    let usual: &[(f64, u32)] = match units {
        Units::Kg => &[(20.0, 4), (15.0, 2), (10.0, 4), (5.0, 4), (2.5, 4), (1.25, 2)],
        Units::Lb => &[(45.0, 4), (35.0, 2), (25.0, 4), (10.0, 4), (5.0, 4), (2.5, 2)],
    };
    usual.iter().map(|(mass, pieces)| (usual_grams(to_kg(*mass, units)), *pieces)).collect()
}

/// The masses of an implement in grams.
fn masses(kit: Kit, place: &Equipment, units: Units, by_hand: bool) -> Vec<u32> {
    let offer = offer(place, kit);
    if kit == Kit::WeightPlate && offer.masses_kg.is_none() {
        return plates(place, units)
            .into_iter()
            .filter(|(_, pieces)| *pieces > 0)
            .map(|(mass, _)| mass)
            .collect();
    }
    let masses = rack(&offer, usual_rack(kit, units));
    // A hand needs its own kettlebell; dumbbell racks are written by the pair.
    if by_hand && kit == Kit::Kettlebell && offer.masses_kg.is_some() {
        return twice(&masses);
    }
    masses
}

fn twice(masses: &[u32]) -> Vec<u32> {
    let count = |mass: u32| masses.iter().filter(|other| **other == mass).count();
    masses.iter().copied().filter(|mass| count(*mass) > 1).collect()
}

/// What an offer says, filled up from the usual.
fn rack(offer: &Offer, usual: Vec<u32>) -> Vec<u32> {
    if let Some(masses) = &offer.masses_kg {
        return masses.iter().copied().map(whole_grams).collect();
    }
    if let Some(mass) = offer.mass_kg {
        return vec![whole_grams(mass)];
    }
    if offer.from_kg.is_none() && offer.to_kg.is_none() && offer.step_kg.is_none() {
        return usual;
    }
    let from = offer.from_kg.map_or_else(|| usual.first().copied().unwrap_or(0), whole_grams);
    let to = offer.to_kg.map_or_else(|| usual.last().copied().unwrap_or(from), whole_grams);
    if let Some(step) = offer.step_kg.map(whole_grams).filter(|step| *step > 0) {
        (from..=to.min(MOST_GRAMS)).step_by(step as usize).collect()
    } else {
        let mut masses: Vec<u32> =
            usual.into_iter().filter(|mass| (from..=to).contains(mass)).collect();
        masses.extend([from, to]);
        masses
    }
}

/// A usual rack, where the place does not say (EQ-07, custom).
fn usual_rack(kit: Kit, units: Units) -> Vec<u32> {
    let masses: Vec<f64> = match (kit, units) {
        (Kit::Kettlebell, _) => vec![8.0, 12.0, 16.0, 20.0, 24.0],
        (Kit::MedicineBall, _) => vec![2.0, 3.0, 4.0, 5.0, 6.0, 8.0],
        (Kit::Sandbag, _) => vec![10.0, 15.0, 20.0, 25.0],
        (Kit::WeightVest, _) => vec![5.0, 10.0],
        (_, Units::Kg) => {
            (1..=10).map(f64::from).chain((5..=12).map(|half| f64::from(half) * 2.5)).collect()
        }
        (_, Units::Lb) => (1..=12).map(|five| f64::from(five) * 5.0 * KG_PER_LB).collect(),
    };
    masses.into_iter().map(usual_grams).collect()
}

/// A usual stack: 5 kg or 10 lb steps. Custom.
fn stack(units: Units) -> Vec<u32> {
    let step = match units {
        Units::Kg => 5.0,
        Units::Lb => 10.0 * KG_PER_LB,
    };
    (1..=20).map(|step_number| usual_grams(f64::from(step_number) * step)).collect()
}

/// What the machine of an exercise offers: the first of its kit that says anything about masses.
fn machine_offer(entry: &Entry, place: &Equipment) -> Offer {
    let says = |offer: &Offer| {
        offer.masses_kg.is_some()
            || offer.from_kg.is_some()
            || offer.to_kg.is_some()
            || offer.step_kg.is_some()
    };
    let mut listed = entry.needs.iter().flatten().map(|kit| offer(place, *kit));
    listed.find(says).unwrap_or_default()
}

/// Plates on a machine or sled, in pairs; the machine's own mass counts only where the place says it.
fn plate_machine(entry: &Entry, place: &Equipment, units: Units) -> Ladder {
    let own = entry.needs.iter().flatten().find_map(|kit| offer(place, *kit).mass_kg);
    let own = whole_grams(own.unwrap_or(0.0));
    Ladder::bar(own, &plates(place, units), false, units).above_nothing()
}

/// Load added to the body: a vest as it is, or single plates on a belt or the back.
fn added(entry: &Entry, place: &Equipment, units: Units) -> Option<Ladder> {
    let wanted = [Kit::DipBelt, Kit::WeightVest, Kit::WeightPlate, Kit::Sandbag];
    let ladder = match first_kit(entry, place, &wanted)? {
        Kit::DipBelt | Kit::WeightPlate => Ladder::bar(0, &plates(place, units), true, units),
        kit => Ladder::implements(masses(kit, place, units, false), units),
    };
    Some(ladder.above_nothing())
}
