//! The shape of a place file: what kit there is and what it offers.

use std::borrow::Cow;
use std::collections::BTreeMap;

use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::de::Error as _;
use serde::ser::SerializeMap as _;
use serde::{Deserialize, Deserializer, Serialize, Serializer};

use crate::words::{Kit, Units};

/// A room with kit.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Place {
    /// The name that profiles use.
    #[schemars(length(min = 1, max = 200))]
    #[schemars(example = &"boathouse")]
    pub place: String,
    /// The kit and what it offers.
    pub equipment: Equipment,
}

/// The kit there is: a plain list with usual amounts, or a map from item to what it offers.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Equipment {
    /// Each item with what is known of it.
    pub items: BTreeMap<Kit, Stock>,
    /// Loose plates in pieces, by mass in grams; `None` means a usual set with the bar.
    pub plates_kg: Option<Plates>,
    /// The same by mass in thousandths of a pound.
    pub plates_lb: Option<Plates>,
}

/// Pieces by mass in thousandths of the unit, so that masses compare exactly.
pub type Plates = BTreeMap<u32, u32>;

/// What a place has of one item.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(untagged)]
pub enum Stock {
    /// How many there are.
    Count(#[schemars(range(min = 0, max = 1000))] u32),
    /// What it offers.
    Offer(Offer),
}

/// What an item offers. Leave out what is usual.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub struct Offer {
    /// How many there are.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = 0, max = 1000))]
    pub count: Option<u32>,
    /// Pairs of each mass of hand-held weights; one where it is not said.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = 1, max = 100))]
    pub pairs: Option<u32>,
    /// Sides of a cable station at which somebody can work; one where it is not said.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = 1, max = 20))]
    pub sides: Option<u32>,
    /// The mass of the bare bar or sled.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = 0, max = 200))]
    pub mass_kg: Option<f64>,
    /// The lightest of a rack or stack.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = 0, max = 500))]
    pub from_kg: Option<f64>,
    /// The heaviest of a rack or stack.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = 0.5, max = 1000))]
    pub to_kg: Option<f64>,
    /// The step between two of them.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = 0.25, max = 100))]
    pub step_kg: Option<f64>,
    /// The masses one by one, where the steps are uneven.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schemars(example = [4.0, 6.0, 8.0])]
    #[schemars(length(max = 200))]
    pub masses_kg: Option<Vec<f64>>,
    /// The mass of the bare bar or sled, in pounds.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = 0, max = 440))]
    pub mass_lb: Option<f64>,
    /// The lightest of a rack or stack, in pounds.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = 0, max = 1100))]
    pub from_lb: Option<f64>,
    /// The heaviest of a rack or stack, in pounds.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = 1, max = 2200))]
    pub to_lb: Option<f64>,
    /// The step between two of them, in pounds.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = 0.5, max = 220))]
    pub step_lb: Option<f64>,
    /// The masses one by one, in pounds.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schemars(example = [10.0, 15.0, 25.0])]
    #[schemars(length(max = 200))]
    pub masses_lb: Option<Vec<f64>>,
}

impl Offer {
    /// What is written in kilograms, or in pounds.
    #[must_use]
    pub fn in_units(&self, units: Units) -> Masses<'_> {
        match units {
            Units::Kg => Masses {
                mass: self.mass_kg,
                from: self.from_kg,
                to: self.to_kg,
                step: self.step_kg,
                each: self.masses_kg.as_deref(),
            },
            Units::Lb => Masses {
                mass: self.mass_lb,
                from: self.from_lb,
                to: self.to_lb,
                step: self.step_lb,
                each: self.masses_lb.as_deref(),
            },
        }
    }

    /// The mass of the bare bar or sled in kilograms, where it is written.
    #[must_use]
    pub fn bare_kg(&self) -> Option<f64> {
        self.mass_kg.or(self.mass_lb.map(|mass| mass * KG_PER_LB))
    }
}

/// The masses of an offer, all in one unit.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct Masses<'a> {
    /// Of the bare bar or sled.
    pub mass: Option<f64>,
    /// The lightest.
    pub from: Option<f64>,
    /// The heaviest.
    pub to: Option<f64>,
    /// Between two of them.
    pub step: Option<f64>,
    /// One by one.
    pub each: Option<&'a [f64]>,
}

impl Masses<'_> {
    /// Whether nothing is written.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        *self == Masses::default()
    }
}

impl Stock {
    /// How many pieces: what the file says, else one.
    #[must_use]
    pub fn count(&self) -> u32 {
        match self {
            Stock::Count(count) => *count,
            Stock::Offer(offer) => offer.count.unwrap_or(1),
        }
    }

    /// How many pieces lie there: the count, or the masses where each is written.
    #[must_use]
    pub fn pieces(&self) -> u32 {
        let Stock::Offer(offer) = self else { return self.count() };
        let each = offer.masses_kg.as_ref().or(offer.masses_lb.as_ref());
        let masses = each.and_then(|each| u32::try_from(each.len()).ok());
        self.count().max(masses.unwrap_or(0))
    }

    /// What is known beyond the count.
    #[must_use]
    pub fn offer(&self) -> Offer {
        match self {
            Stock::Count(count) => Offer { count: Some(*count), ..Offer::default() },
            Stock::Offer(offer) => offer.clone(),
        }
    }
}

/// Kilograms in a pound, exact (EQ-04, international yard and pound 1959).
pub const KG_PER_LB: f64 = 0.453_592_37;

/// The key of the loose plates in kilograms, and in pounds.
const PLATES: [&str; 2] = ["plates_kg", "plates_lb"];

impl<'de> Deserialize<'de> for Equipment {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        #[derive(Deserialize)]
        #[serde(untagged)]
        enum Shape {
            List(Vec<Kit>),
            Map(BTreeMap<String, serde_yaml::Value>),
        }
        let mut equipment = Equipment::default();
        match Shape::deserialize(deserializer)? {
            Shape::List(list) => {
                equipment.items =
                    list.into_iter().map(|kit| (kit, Stock::Offer(Offer::default()))).collect();
            }
            Shape::Map(map) => {
                for (key, value) in map {
                    if key == PLATES[0] {
                        equipment.plates_kg = Some(plates(value).map_err(D::Error::custom)?);
                    } else if key == PLATES[1] {
                        equipment.plates_lb = Some(plates(value).map_err(D::Error::custom)?);
                    } else {
                        let kit = key
                            .parse::<Kit>()
                            .map_err(|_| D::Error::custom(format!("unknown kit `{key}`")))?;
                        let stock = serde_yaml::from_value(value).map_err(D::Error::custom)?;
                        equipment.items.insert(kit, stock);
                    }
                }
            }
        }
        Ok(equipment)
    }
}

/// Reads `{20: 2, 1.25: 4}`: keys may be numbers or text.
fn plates(value: serde_yaml::Value) -> Result<Plates, String> {
    let serde_yaml::Value::Mapping(map) = value else {
        return Err("plates are a map from mass to pieces".to_owned());
    };
    map.into_iter()
        .map(|(mass, pieces)| {
            let mass = match &mass {
                serde_yaml::Value::Number(number) => number.as_f64(),
                serde_yaml::Value::String(text) => text.parse::<f64>().ok(),
                _ => None,
            };
            let grams = mass.filter(|mass| (0.0..=1000.0).contains(mass)).map(grams);
            let pieces = pieces.as_u64().and_then(|pieces| u32::try_from(pieces).ok());
            grams.zip(pieces).ok_or_else(|| "a plate is `mass: pieces`, as in `20: 2`".to_owned())
        })
        .collect()
}

impl Equipment {
    /// The unit that the place's weights are made in: what it writes them in, else the client's.
    #[must_use]
    pub fn made_in(&self, client: Units) -> Units {
        let written = |units: Units| {
            let plates = match units {
                Units::Kg => &self.plates_kg,
                Units::Lb => &self.plates_lb,
            };
            let says = |stock: &Stock| !stock.offer().in_units(units).is_empty();
            plates.is_some() || self.items.values().any(says)
        };
        match (written(Units::Kg), written(Units::Lb)) {
            (true, false) => Units::Kg,
            (false, true) => Units::Lb,
            _ => client,
        }
    }

    /// The same kit without the items that are listed with a count of 0.
    #[must_use]
    pub fn present(&self) -> Equipment {
        let mut present = self.clone();
        present.items.retain(|_, stock| stock.count() > 0);
        present
    }
}

/// Kilograms to whole grams, pounds to whole thousandths.
#[allow(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "masses are checked to be 0 to 2200"
)]
#[must_use]
pub fn grams(kilograms: f64) -> u32 {
    (kilograms * 1000.0).round() as u32
}

impl Serialize for Equipment {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut map = serializer.serialize_map(None)?;
        for (kit, stock) in &self.items {
            map.serialize_entry(kit, stock)?;
        }
        for (key, plates) in PLATES.into_iter().zip([&self.plates_kg, &self.plates_lb]) {
            let Some(plates) = plates else { continue };
            let plates: BTreeMap<String, u32> = plates
                .iter()
                .map(|(mass, pieces)| ((f64::from(*mass) / 1000.0).to_string(), *pieces))
                .collect();
            map.serialize_entry(key, &plates)?;
        }
        map.end()
    }
}

impl JsonSchema for Equipment {
    fn schema_name() -> Cow<'static, str> {
        "Equipment".into()
    }

    fn json_schema(generator: &mut SchemaGenerator) -> Schema {
        let kit = generator.subschema_for::<Kit>();
        let stock = generator.subschema_for::<Stock>();
        let mut properties = serde_json::Map::new();
        for kit in Kit::ALL {
            properties.insert(kit.id().to_owned(), stock.clone().into());
        }
        for (key, unit) in PLATES.into_iter().zip(["kg", "lb"]) {
            properties.insert(
                key.to_owned(),
                serde_json::json!({
                    "description": format!("Loose plates: mass in {unit} to pieces."),
                    "type": "object",
                    "patternProperties": { "^[0-9]{1,3}(\\.[0-9]{1,3})?$": { "type": "integer", "minimum": 0, "maximum": 1000 } },
                    "additionalProperties": false,
                    "maxProperties": 40,
                }),
            );
        }
        json_schema!({
            "description": "The kit there is: a plain list, or a map from item to a count or to what it offers.",
            "examples": [["dumbbells", "bench"]],
            "anyOf": [
                { "type": "array", "maxItems": 100, "items": kit },
                { "type": "object", "properties": properties, "additionalProperties": false },
            ],
        })
    }
}
