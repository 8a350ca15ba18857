//! The loads that can be made: sums of plates on a bar, masses of a rack, rounding down to them.

mod sums;

use std::collections::BTreeMap;
use std::sync::Arc;

use self::sums::Loadable;
use crate::input::place::{Plates, grams};
use crate::words::Units;

pub use crate::input::place::KG_PER_LB;

/// The heaviest load that is counted, in grams.
pub(super) const MOST_GRAMS: u32 = 500_000;

/// Plates on one end of a bar, heaviest first, in thousandths of the unit that they are made in.
type Side = Vec<u32>;

/// Each load in grams, with the plates that make it where there are any.
type Rungs = BTreeMap<u32, Side>;

/// The loads that one exercise can have in a place, from the lightest up.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Ladder {
    rungs: Arc<Rungs>,
    bar: Bar,
    /// Whether the body is lifted too.
    on_the_body: bool,
    /// What the client reads.
    units: Units,
    /// What the plates are stamped with.
    made_in: Units,
}

/// How the rungs are made.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Bar {
    /// A bar with the same plates on each end.
    BothEnds,
    /// A bar or belt with plates in one place.
    OneEnd,
    /// The same off the floor, where it lies too low without large plates.
    OffTheFloor,
    /// Implements or a stack.
    None,
}

/// Loads that end under so much of what is expected are light. Common practice.
const ENOUGH: f64 = 0.85;

impl Ladder {
    /// A bar of `bar_g` grams with plates in pairs, or singly on one end.
    #[must_use]
    pub fn bar(bar_g: u32, plates: &Plates, one_end: bool, units: Units) -> Ladder {
        Ladder::bar_made_in(Units::Kg, bar_g, plates, one_end, units)
    }

    /// The same with bar and plates in thousandths of the unit that they are made in, so that 45 and 2.5 lb plates
    /// add up to whole pounds; `units` are the client's.
    #[must_use]
    pub fn bar_made_in(
        made_in: Units,
        bar: u32,
        plates: &Plates,
        one_end: bool,
        units: Units,
    ) -> Ladder {
        let ends = if one_end { 1 } else { 2 };
        let rungs = Loadable { made_in, bar, plates, ends }.rungs();
        let bar = if one_end { Bar::OneEnd } else { Bar::BothEnds };
        Ladder { rungs, bar, on_the_body: false, units, made_in }
    }

    /// Implements of the given masses in grams.
    #[must_use]
    pub fn implements(masses_g: Vec<u32>, units: Units) -> Ladder {
        Ladder::implements_made_in(units, masses_g, units)
    }

    /// The same where they are made in another unit than the client's.
    #[must_use]
    pub fn implements_made_in(made_in: Units, masses_g: Vec<u32>, units: Units) -> Ladder {
        let usable = masses_g.into_iter().filter(|mass| (1..=MOST_GRAMS).contains(mass));
        let rungs = usable.map(|mass| (mass, Side::new())).collect();
        Ladder { rungs: Arc::new(rungs), bar: Bar::None, on_the_body: false, units, made_in }
    }

    /// The ladder of a bar that is lifted off the floor.
    #[must_use]
    pub fn off_the_floor(mut self) -> Ladder {
        self.bar = Bar::OffTheFloor;
        self
    }

    /// The ladder of what is added to the body.
    #[must_use]
    pub fn on_the_body(mut self) -> Ladder {
        self.on_the_body = true;
        self
    }

    /// Whether the body is lifted too, so that nothing added is a load as well.
    #[must_use]
    pub fn is_on_the_body(&self) -> bool {
        self.on_the_body
    }

    /// Whether a first easy set is done with the bare bar.
    #[must_use]
    pub fn starts_bare(&self) -> bool {
        self.bar == Bar::BothEnds
    }

    /// The bar off the floor with one large plate on each end, where there are such plates.
    #[must_use]
    pub fn on_large_plates(&self) -> Option<f64> {
        let large = match self.made_in {
            Units::Kg => 20_000,
            Units::Lb => 45_000,
        };
        let is_it = |side: &Side| side.as_slice() == [large];
        let rung = self.rungs.iter().find(|(_, side)| is_it(side));
        rung.filter(|_| self.bar == Bar::OffTheFloor).map(|(mass, _)| kilograms(*mass))
    }

    /// The ladder without a load of nothing.
    #[must_use]
    pub fn above_nothing(mut self) -> Ladder {
        if self.rungs.contains_key(&0) {
            Arc::make_mut(&mut self.rungs).remove(&0);
        }
        self
    }

    /// Whether there is no load at all.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.rungs.is_empty()
    }

    /// Every load in kilograms, from the lightest up.
    pub fn loads(&self) -> impl Iterator<Item = f64> + '_ {
        self.rungs.keys().copied().map(kilograms)
    }

    /// The lightest load in kilograms: the empty bar, the first dumbbell.
    #[must_use]
    pub fn lightest(&self) -> f64 {
        self.rungs.keys().next().copied().map_or(0.0, kilograms)
    }

    /// The heaviest load in kilograms.
    #[must_use]
    pub fn heaviest(&self) -> f64 {
        self.rungs.keys().next_back().copied().map_or(0.0, kilograms)
    }

    /// Whether even the heaviest is light for who is expected to lift so much for a set: it asks for less than is written.
    #[must_use]
    pub fn ends_early(&self, expected_kg: f64) -> bool {
        self.heaviest() < expected_kg * ENOUGH
    }

    /// Whether the place can make this load, to the gram.
    #[must_use]
    pub fn makes(&self, load_kg: f64) -> bool {
        self.rungs.contains_key(&whole_grams(load_kg))
    }

    /// The heaviest load that is not above `load_kg`; `None` under the lightest.
    #[must_use]
    pub fn at_most(&self, load_kg: f64) -> Option<f64> {
        let rung = self.rungs.range(..=whole_grams(load_kg)).next_back();
        rung.map(|(mass, _)| kilograms(*mass))
    }

    /// The lightest load that is not under `load_kg`; `None` above the heaviest.
    #[must_use]
    pub fn at_least(&self, load_kg: f64) -> Option<f64> {
        let rung = self.rungs.range(whole_grams(load_kg)..).next();
        rung.map(|(mass, _)| kilograms(*mass))
    }

    /// The next load up; `None` at the heaviest.
    #[must_use]
    pub fn next_above(&self, load_kg: f64) -> Option<f64> {
        let rung = self.rungs.range(whole_grams(load_kg) + 1..).next();
        rung.map(|(mass, _)| kilograms(*mass))
    }

    /// How the load is put together, in words: "each side 20 + 1.25 kg", "empty bar"; `None` for implements.
    #[must_use]
    pub fn plates_text(&self, load_kg: f64) -> Option<String> {
        let side = self.rungs.get(&whole_grams(load_kg))?;
        let place = match self.bar {
            Bar::None => return None,
            Bar::BothEnds | Bar::OffTheFloor => "each side ",
            Bar::OneEnd => "plates ",
        };
        if side.is_empty() {
            return Some("no plates".to_owned());
        }
        let pieces: Vec<String> =
            side.iter().map(|mass| (f64::from(*mass) / 1000.0).to_string()).collect();
        Some(format!("{place}{} {}", pieces.join(" + "), self.made_in.id()))
    }

    /// The plates of a load, heaviest first, in thousandths of the unit that they are made in, and on how many ends they go;
    /// `None` for implements and loads that the place cannot make.
    #[must_use]
    pub fn plates(&self, load_kg: f64) -> Option<(&[u32], u32)> {
        let side = self.rungs.get(&whole_grams(load_kg))?;
        match self.bar {
            Bar::None => None,
            Bar::OneEnd => Some((side, 1)),
            Bar::BothEnds | Bar::OffTheFloor => Some((side, 2)),
        }
    }

    /// The load of the place that this one is, within the rounding of a pound.
    #[must_use]
    pub fn near(&self, load_kg: f64) -> Option<f64> {
        const ROUNDING_G: u32 = 3;
        let mass = whole_grams(load_kg);
        let near = mass.saturating_sub(ROUNDING_G)..=mass.saturating_add(ROUNDING_G);
        self.rungs.range(near).next().map(|(mass, _)| kilograms(*mass))
    }

    /// Whether plates make the loads.
    #[must_use]
    pub fn is_bar(&self) -> bool {
        self.bar != Bar::None
    }

    /// The unit that the place's weights are made in.
    #[must_use]
    pub fn made_in(&self) -> Units {
        self.made_in
    }

    /// How many loads there are.
    #[must_use]
    pub fn len(&self) -> usize {
        self.rungs.len()
    }

    /// A load with its unit, in the client's own: "42.5 kg", "95 lb".
    #[must_use]
    pub fn text(&self, load_kg: f64) -> String {
        mass_text(load_kg, self.units)
    }
}

/// A mass with its unit, in the client's own.
#[must_use]
pub fn mass_text(load_kg: f64, units: Units) -> String {
    format!("{} {}", mass_number(load_kg, units), units.id())
}

/// A mass in the client's unit as a number: to the gram, or to half a pound.
#[must_use]
pub fn mass_number(load_kg: f64, units: Units) -> String {
    let rounded = match units {
        Units::Kg => (load_kg * 1000.0).round() / 1000.0,
        Units::Lb => half_pounds(load_kg),
    };
    rounded.to_string()
}

/// Kilograms as pounds, to the nearest half: what stands on implements and stacks.
#[must_use]
pub fn half_pounds(load_kg: f64) -> f64 {
    (load_kg / KG_PER_LB * 2.0).round() / 2.0
}

/// What the profile wrote, in kilograms.
#[must_use]
pub fn to_kg(load: f64, units: Units) -> f64 {
    match units {
        Units::Kg => load,
        Units::Lb => load * KG_PER_LB,
    }
}

fn kilograms(mass_g: u32) -> f64 {
    f64::from(mass_g) / 1000.0
}

/// Grams, with anything beyond what a bar holds cut off.
pub(super) fn whole_grams(load_kg: f64) -> u32 {
    if load_kg.is_nan() { 0 } else { grams(load_kg.clamp(0.0, 2000.0)) }
}

#[cfg(test)]
mod tests;
