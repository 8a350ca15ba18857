//! What a room has that two people cannot hold at once, and how many pieces of each.

use std::fmt;

use crate::input::place::{Equipment, Plates, grams};
use crate::strength::ladder::{KG_PER_LB, half_pounds};
use crate::words::{Kit, Units};

/// One thing that is counted.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Thing {
    /// An item of kit.
    Kit(Kit),
    /// One mass of a rack of hand-held weights, in thousandths of the unit that the place's weights are made in.
    Mass(Kit, Units, u32),
    /// Loose plates of one mass, in the same.
    Plate(Units, u32),
    /// A coach's care for one client.
    Care,
    /// A coach beside a novice's bar.
    Watch,
}

/// A thing held for some seconds of a group.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Hold {
    /// What.
    pub thing: Thing,
    /// How many pieces.
    pub pieces: u32,
    /// From this second of the group.
    pub from_s: u32,
    /// Up to this one.
    pub to_s: u32,
}

/// One way to do a group: all that it holds.
pub type Way = Vec<Hold>;

/// What takes loose plates, beside hands.
const TAKES_PLATES: &[Kit] = &[
    Kit::Barbell,
    Kit::TrapBar,
    Kit::EzBar,
    Kit::SmithMachine,
    Kit::DipBelt,
    Kit::LegPress,
    Kit::HackSquatMachine,
    Kit::CalfRaiseMachine,
    Kit::SeatedCalfMachine,
    Kit::Sled,
];

/// A room with its kit, and who is there to help.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Room {
    /// Its name.
    pub place: String,
    /// Its kit.
    pub kit: Equipment,
    /// The unit that all its clients count in, which is that of its weights where the kit does not say.
    pub units: Option<Units>,
    /// Who is there, where that is to be heeded.
    pub coaches: Option<Coaches>,
}

/// The coaches on the floor.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Coaches {
    /// How many.
    pub count: u32,
    /// Clients whom each can look after at once.
    pub clients: u32,
}

/// Weights that are held, each mass a thing of its own.
#[must_use]
pub const fn is_by_mass(kit: Kit) -> bool {
    matches!(kit, Kit::Dumbbells | Kit::Kettlebell | Kit::MedicineBall)
}

/// An item as the floor calls it.
#[must_use]
pub fn name(kit: Kit) -> String {
    match kit {
        Kit::PullUpBar => "pull-up bar".to_owned(),
        Kit::EzBar => "EZ bar".to_owned(),
        _ => kit.id().replace('-', " "),
    }
}

impl Room {
    /// Whether there is any of an item.
    #[must_use]
    pub fn has(&self, kit: Kit) -> bool {
        self.kit.items.get(&kit).is_some_and(|stock| stock.count() > 0)
    }

    /// Pieces of a thing. Dumbbells come in pairs of each mass, other hand-held weights one by one (common practice).
    #[must_use]
    pub fn pieces(&self, thing: Thing) -> u32 {
        let stock = |kit: Kit| self.kit.items.get(&kit);
        match thing {
            Thing::Kit(kit) => stock(kit).map_or(0, |stock| {
                let sides = stock.offer().sides.unwrap_or(1);
                stock.count().saturating_mul(if kit == Kit::CableStation { sides } else { 1 })
            }),
            Thing::Mass(kit, ..) => stock(kit).map_or(0, |stock| match stock.offer().pairs {
                Some(pairs) => pairs.saturating_mul(2),
                None if kit == Kit::Dumbbells => stock.count().saturating_mul(2),
                None => stock.count(),
            }),
            Thing::Plate(_, mass) => {
                self.loose_plates().and_then(|plates| plates.get(&mass).copied()).unwrap_or(0)
            }
            Thing::Care => {
                self.coaches.map_or(u32::MAX, |all| all.count.saturating_mul(all.clients))
            }
            Thing::Watch => self.coaches.map_or(u32::MAX, |all| all.count),
        }
    }

    /// The unit that the weights are made in.
    #[must_use]
    pub fn made_in(&self) -> Units {
        self.kit.made_in(self.units.unwrap_or(Units::Kg))
    }

    /// The loose plates, where the place lists them and more than one bar could want them; a usual set goes with a bar, so
    /// where nothing is listed every bar has its own.
    #[must_use]
    pub fn loose_plates(&self) -> Option<&Plates> {
        let takers = TAKES_PLATES.iter().map(|kit| self.pieces(Thing::Kit(*kit)));
        let listed = match self.made_in() {
            Units::Kg => &self.kit.plates_kg,
            Units::Lb => &self.kit.plates_lb,
        };
        listed.as_ref().filter(|_| takers.sum::<u32>() > 1)
    }

    /// The hand-held weight of a load in kilograms.
    #[must_use]
    pub fn held_mass(&self, kit: Kit, load_kg: f64) -> Thing {
        let made_in = self.made_in();
        Thing::Mass(
            kit,
            made_in,
            match made_in {
                Units::Kg => grams(load_kg),
                Units::Lb => grams(half_pounds(load_kg)),
            },
        )
    }

    /// The loose plate of a load in kilograms, where there is one.
    #[must_use]
    pub fn loose_plate(&self, load_kg: f64) -> Option<Thing> {
        let made_in = self.made_in();
        let own = match made_in {
            Units::Kg => load_kg,
            Units::Lb => load_kg / KG_PER_LB,
        };
        let is_it = |mass: &&u32| (f64::from(**mass) / 1000.0 - own).abs() < 0.01;
        self.loose_plates()?.keys().find(is_it).map(|mass| Thing::Plate(made_in, *mass))
    }

    /// The room with one piece more of a thing; of dumbbells and plates one pair.
    #[must_use]
    pub fn with_one_more(&self, thing: Thing) -> Room {
        let mut room = self.clone();
        match thing {
            Thing::Care | Thing::Watch => {
                if let Some(coaches) = &mut room.coaches {
                    coaches.count += 1;
                }
            }
            Thing::Plate(units, mass) => {
                let listed = match units {
                    Units::Kg => &mut room.kit.plates_kg,
                    Units::Lb => &mut room.kit.plates_lb,
                };
                *listed.get_or_insert_default().entry(mass).or_default() += 2;
            }
            Thing::Kit(kit) | Thing::Mass(kit, ..) => {
                if let Some(stock) = room.kit.items.get_mut(&kit) {
                    let mut offer = stock.offer();
                    match (offer.pairs, kit) {
                        (Some(pairs), _) => offer.pairs = Some(pairs + 1),
                        _ => offer.count = Some(stock.count() + 1),
                    }
                    *stock = crate::input::place::Stock::Offer(offer);
                }
            }
        }
        room
    }
}

impl fmt::Display for Thing {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Thing::Kit(kit) => out.write_str(&name(*kit)),
            Thing::Mass(kit, units, mass) => {
                let mass = (f64::from(*mass) / 10.0).round() / 100.0;
                write!(out, "{} {mass} {}", name(*kit), units.id())
            }
            Thing::Plate(units, mass) => {
                write!(out, "plates {} {}", f64::from(*mass) / 1000.0, units.id())
            }
            Thing::Care => out.write_str("coach"),
            Thing::Watch => out.write_str("coach beside a novice's bar"),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn room(equipment: &str) -> Room {
        let kit = serde_yaml::from_str(equipment).expect("kit");
        Room { place: "shed".to_owned(), kit, ..Room::default() }
    }

    #[test]
    fn pieces_are_counted_by_what_the_place_says() {
        let room = room(
            "{squat-rack: 2, dumbbells: {from_kg: 4, to_kg: 24, step_kg: 2, pairs: 3}, kettlebell: {masses_kg: [8, 16]}, \
             cable-station: {count: 2, sides: 2}, bench: {}}",
        );
        assert_eq!(room.pieces(Thing::Kit(Kit::SquatRack)), 2);
        assert_eq!(room.pieces(Thing::Mass(Kit::Dumbbells, Units::Kg, 12_000)), 6);
        assert_eq!(room.pieces(Thing::Mass(Kit::Kettlebell, Units::Kg, 8000)), 1);
        assert_eq!(room.pieces(Thing::Kit(Kit::CableStation)), 4);
        assert_eq!(room.pieces(Thing::Kit(Kit::Bench)), 1);
        assert_eq!(room.pieces(Thing::Kit(Kit::Barbell)), 0);
        let rack = Thing::Kit(Kit::SquatRack);
        assert_eq!(room.with_one_more(rack).pieces(rack), 3);
    }
}
