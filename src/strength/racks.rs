//! What a place has for an exercise: bars with their plates, racks of dumbbells and kettlebells, stacks, belts.
//!
//! Where a place gives only a count, the usual set stands in (EQ-01, EQ-03, EQ-07; the pieces are common practice).

use crate::input::catalog::Entry;
use crate::input::place::{Equipment, Masses, Plates, Stock, grams};
use crate::strength::ladder::{Ladder, MOST_GRAMS, to_kg, whole_grams};
use crate::words::{Kit, LoadKind, Units};

/// The loads that an exercise can have in a place; `None` where it has no load that a place could limit, or where
/// the place lacks the kit.
#[must_use]
pub fn ladder(entry: &Entry, place: &Equipment, units: Units) -> Option<Ladder> {
    let kit = |wanted: &[Kit]| first_kit(entry, place, wanted);
    let ladder = match entry.load {
        LoadKind::BarTotal => {
            let made_in = place.made_in(units);
            let bar = bar_mass(kit(BARS)?, place, made_in);
            let one_end = kit(&[Kit::Landmine]).is_some();
            let ladder = Ladder::bar_made_in(made_in, bar, &plates(place, made_in), one_end, units);
            if lies_low(entry) { ladder.off_the_floor() } else { ladder }
        }
        LoadKind::PerHand | LoadKind::SingleImplement => {
            let by_hand = entry.load == LoadKind::PerHand;
            let masses = masses(kit(IMPLEMENTS)?, place, units, by_hand);
            Ladder::implements_made_in(place.made_in(units), masses, units)
        }
        LoadKind::Stack => {
            let made_in = place.made_in(units);
            let stack = rack(machine(entry, place, made_in), stack(made_in), made_in);
            Ladder::implements_made_in(made_in, stack, units)
        }
        LoadKind::PlateMachine | LoadKind::Sled => plate_machine(entry, place, units),
        LoadKind::BodyweightPlus => added(entry, place, units)?,
        LoadKind::Bodyweight | LoadKind::Assisted | LoadKind::Band | LoadKind::None => return None,
    };
    (!ladder.is_empty()).then_some(ladder)
}

/// Whether the bar is lifted from the floor, where it lies too low without large plates: common practice.
pub(super) fn lies_low(entry: &Entry) -> bool {
    let family = entry.family.as_ref().unwrap_or(&entry.id);
    let is_bar = entry.load == LoadKind::BarTotal;
    is_bar && family == "deadlift" && entry.needs.iter().any(|kit| !kit.contains(&Kit::SquatRack))
}

/// What a plan says of a place whose bars have nothing to put on them.
#[must_use]
pub fn without_plates(place: &Equipment, units: Units) -> Option<String> {
    let has_bar = BARS.iter().any(|bar| place.items.contains_key(bar));
    (has_bar && plates(place, place.made_in(units)).is_empty())
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

/// What the place writes of an item, in the unit that its weights are made in.
fn masses_of(place: &Equipment, kit: Kit, made_in: Units) -> Masses<'_> {
    match place.items.get(&kit) {
        Some(Stock::Offer(offer)) => offer.in_units(made_in),
        _ => Masses::default(),
    }
}

/// Thousandths of the unit.
fn thousandths(mass: f64) -> u32 {
    grams(mass.clamp(0.0, 2000.0))
}

/// A mass of a place in grams.
fn in_grams(mass: f64, made_in: Units) -> u32 {
    whole_grams(to_kg(mass, made_in))
}

/// The bare bar in thousandths of the unit: what the place says, else the usual (EQ-01 and EQ-03; trap, curl and
/// guided bars vary, common practice).
fn bar_mass(bar: Kit, place: &Equipment, made_in: Units) -> u32 {
    let usual = match (bar, made_in) {
        (Kit::TrapBar, Units::Kg) => 25.0,
        (Kit::TrapBar, Units::Lb) => 60.0,
        (Kit::EzBar, Units::Kg) => 10.0,
        (Kit::EzBar, Units::Lb) | (_, Units::Kg) => 20.0,
        (_, Units::Lb) => 45.0,
    };
    thousandths(masses_of(place, bar, made_in).mass.unwrap_or(usual))
}

/// The loose plates in thousandths of the unit: what the place lists, else a usual set (EQ-03, the pieces are common
/// practice).
fn plates(place: &Equipment, made_in: Units) -> Plates {
    let listed = match made_in {
        Units::Kg => &place.plates_kg,
        Units::Lb => &place.plates_lb,
    };
    if let Some(plates) = listed {
        return plates.clone();
    }
    let usual: &[(f64, u32)] = match made_in {
        Units::Kg => &[(20.0, 4), (15.0, 2), (10.0, 4), (5.0, 4), (2.5, 4), (1.25, 2)],
        Units::Lb => &[(45.0, 6), (25.0, 4), (10.0, 4), (5.0, 4), (2.5, 2)],
    };
    usual.iter().map(|(mass, pieces)| (thousandths(*mass), *pieces)).collect()
}

/// The masses of an implement in grams.
fn masses(kit: Kit, place: &Equipment, units: Units, by_hand: bool) -> Vec<u32> {
    let made_in = place.made_in(units);
    let written = masses_of(place, kit, made_in);
    if kit == Kit::WeightPlate && written.each.is_none() {
        let pieces = plates(place, made_in).into_iter().filter(|(_, pieces)| *pieces > 0);
        return pieces.map(|(mass, _)| in_grams(f64::from(mass) / 1000.0, made_in)).collect();
    }
    let masses = rack(written, usual_rack(kit, made_in), made_in);
    // A hand needs its own kettlebell, unless they are there in pairs; dumbbell racks are written by the pair.
    let in_pairs = match place.items.get(&kit) {
        Some(Stock::Offer(offer)) => offer.pairs.is_some_and(|pairs| pairs > 0),
        _ => false,
    };
    if by_hand && kit == Kit::Kettlebell && written.each.is_some() && !in_pairs {
        return twice(&masses);
    }
    masses
}

fn twice(masses: &[u32]) -> Vec<u32> {
    let count = |mass: u32| masses.iter().filter(|other| **other == mass).count();
    masses.iter().copied().filter(|mass| count(*mass) > 1).collect()
}

/// What a place writes, filled up from the usual, in grams. Steps are counted in the place's own unit.
fn rack(written: Masses<'_>, usual: Vec<u32>, made_in: Units) -> Vec<u32> {
    let in_grams = |mass: f64| in_grams(mass, made_in);
    if let Some(each) = written.each {
        return each.iter().copied().map(in_grams).collect();
    }
    if let Some(mass) = written.mass {
        return vec![in_grams(mass)];
    }
    if written.is_empty() {
        return usual;
    }
    let first = || usual.first().map_or(0.0, |mass| from_grams(*mass, made_in));
    let from = written.from.unwrap_or_else(first);
    let last = || usual.last().map_or(from, |mass| from_grams(*mass, made_in));
    let to = written.to.unwrap_or_else(last);
    let most = from_grams(MOST_GRAMS, made_in).min(to);
    if let Some(step) = written.step.map(thousandths).filter(|step| *step > 0) {
        let rungs = (thousandths(from)..=thousandths(most)).step_by(step as usize);
        rungs.map(|mass| in_grams(f64::from(mass) / 1000.0)).collect()
    } else {
        let ends = [in_grams(from), in_grams(to)];
        let mut masses: Vec<u32> =
            usual.into_iter().filter(|mass| (ends[0]..=ends[1]).contains(mass)).collect();
        masses.extend(ends);
        masses
    }
}

fn from_grams(mass: u32, made_in: Units) -> f64 {
    f64::from(mass) / 1000.0 / to_kg(1.0, made_in)
}

/// A usual rack, where the place does not say (EQ-07, custom), in grams.
fn usual_rack(kit: Kit, made_in: Units) -> Vec<u32> {
    let pounds = made_in == Units::Lb;
    let masses: Vec<f64> = match kit {
        Kit::Kettlebell if pounds => vec![18.0, 26.0, 35.0, 44.0, 53.0],
        Kit::Kettlebell => vec![8.0, 12.0, 16.0, 20.0, 24.0],
        Kit::MedicineBall if pounds => vec![4.0, 6.0, 8.0, 10.0, 12.0, 16.0],
        Kit::MedicineBall => vec![2.0, 3.0, 4.0, 5.0, 6.0, 8.0],
        Kit::Sandbag if pounds => vec![20.0, 30.0, 40.0, 50.0],
        Kit::Sandbag => vec![10.0, 15.0, 20.0, 25.0],
        Kit::WeightVest if pounds => vec![10.0, 20.0],
        Kit::WeightVest => vec![5.0, 10.0],
        _ if pounds => (1..=20).map(|five| f64::from(five) * 5.0).collect(),
        _ => (1..=10).map(f64::from).chain((5..=12).map(|half| f64::from(half) * 2.5)).collect(),
    };
    masses.into_iter().map(|mass| in_grams(mass, made_in)).collect()
}

/// A usual stack: 5 kg or 10 lb steps. Custom.
fn stack(made_in: Units) -> Vec<u32> {
    let step = match made_in {
        Units::Kg => 5.0,
        Units::Lb => 10.0,
    };
    (1..=20).map(|number| in_grams(f64::from(number) * step, made_in)).collect()
}

/// What the place writes of the machine of an exercise: the first of its kit that says anything about a stack.
fn machine<'a>(entry: &Entry, place: &'a Equipment, made_in: Units) -> Masses<'a> {
    let says = |masses: &Masses<'_>| !Masses { mass: None, ..*masses }.is_empty();
    let mut listed = entry.needs.iter().flatten().map(|kit| masses_of(place, *kit, made_in));
    listed.find(says).unwrap_or_default()
}

/// Plates on a machine or sled, in pairs; the machine's own mass counts only where the place says it.
fn plate_machine(entry: &Entry, place: &Equipment, units: Units) -> Ladder {
    let made_in = place.made_in(units);
    // Some machines of this kind have a stack after all: what the place writes counts.
    let written = machine(entry, place, made_in);
    if !(Masses { mass: None, ..written }).is_empty() {
        return Ladder::implements_made_in(made_in, rack(written, Vec::new(), made_in), units);
    }
    let own = entry.needs.iter().flatten().find_map(|kit| masses_of(place, *kit, made_in).mass);
    let own = thousandths(own.unwrap_or(0.0));
    Ladder::bar_made_in(made_in, own, &plates(place, made_in), false, units).above_nothing()
}

/// What hangs from a belt where the place has no plates: kettlebells and dumbbells, each as it is.
fn hung(place: &Equipment, units: Units) -> Option<Vec<u32>> {
    let here = |kit: &&Kit| place.items.get(*kit).is_some_and(|stock| stock.count() > 0);
    let made_in = place.made_in(units);
    let listed = match made_in {
        Units::Kg => &place.plates_kg,
        Units::Lb => &place.plates_lb,
    };
    let has_plates = match listed {
        Some(plates) => plates.values().any(|pieces| *pieces > 0),
        None => BARS.iter().chain(&[Kit::WeightPlate]).any(|kit| here(&kit)),
    };
    let implements = [Kit::Kettlebell, Kit::Dumbbells];
    let masses = implements.iter().filter(here).flat_map(|kit| masses(*kit, place, units, false));
    let masses: Vec<u32> = masses.collect();
    (!has_plates && !masses.is_empty()).then_some(masses)
}

/// Load added to the body: a vest as it is, or single plates on a belt or the back.
fn added(entry: &Entry, place: &Equipment, units: Units) -> Option<Ladder> {
    let wanted = [Kit::DipBelt, Kit::WeightVest, Kit::WeightPlate, Kit::Sandbag];
    let kit = first_kit(entry, place, &wanted)?;
    let hung = hung(place, units).filter(|_| kit == Kit::DipBelt);
    let ladder = match (kit, hung) {
        (_, Some(masses)) => Ladder::implements_made_in(place.made_in(units), masses, units),
        (Kit::DipBelt | Kit::WeightPlate, None) => {
            let made_in = place.made_in(units);
            Ladder::bar_made_in(made_in, 0, &plates(place, made_in), true, units)
        }
        (kit, None) => {
            let masses = masses(kit, place, units, false);
            Ladder::implements_made_in(place.made_in(units), masses, units)
        }
    };
    Some(ladder.above_nothing().on_the_body())
}
