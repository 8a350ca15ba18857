//! What is measured, in which unit and between which bounds.

use jiff::civil::Date;
use strum::VariantArray;

/// What is measured.
#[derive(
    Debug,
    Clone,
    Copy,
    PartialEq,
    Eq,
    PartialOrd,
    Ord,
    strum::IntoStaticStr,
    strum::EnumString,
    VariantArray,
)]
#[strum(serialize_all = "kebab-case")]
#[allow(missing_docs, reason = "the variants are the trade's own words")]
pub enum Kind {
    Mass,
    Height,
    Neck,
    Waist,
    Hip,
    Chest,
    Arm,
    Thigh,
    Calf,
    KneeBreadth,
    BodyFat,
    RestingHeartRate,
    ChestFold,
    MidaxillaryFold,
    TricepsFold,
    SubscapularFold,
    AbdomenFold,
    SuprailiacFold,
    ThighFold,
    ChinFold,
}

/// A unit of a measure.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Unit {
    /// Kilograms, shown in the client's unit of mass.
    Mass,
    /// Centimeters.
    Length,
    /// Millimeters.
    Fold,
    /// Percent of the body's mass.
    Percent,
    /// Beats a minute.
    Beats,
}

impl Kind {
    /// Every kind, in the order that is printed.
    pub const ALL: &'static [Kind] = <Kind as VariantArray>::VARIANTS;

    /// The word that is kept.
    #[must_use]
    pub fn id(self) -> &'static str {
        self.into()
    }

    /// The words for it.
    #[must_use]
    pub fn name(self) -> String {
        match self {
            Kind::Mass => "body mass".to_owned(),
            Kind::ChestFold => "chest skinfold".to_owned(),
            _ if self.unit() == Unit::Fold => self.id().replace("-fold", " skinfold"),
            _ => self.id().replace('-', " "),
        }
    }

    /// Its unit.
    #[must_use]
    pub const fn unit(self) -> Unit {
        match self {
            Kind::Mass => Unit::Mass,
            Kind::Height
            | Kind::Neck
            | Kind::Waist
            | Kind::Hip
            | Kind::Chest
            | Kind::Arm
            | Kind::Thigh
            | Kind::Calf
            | Kind::KneeBreadth => Unit::Length,
            Kind::BodyFat => Unit::Percent,
            Kind::RestingHeartRate => Unit::Beats,
            _ => Unit::Fold,
        }
    }

    /// The bounds outside of which a number is a slip of the pen. Common practice.
    #[must_use]
    pub const fn bounds(self) -> (f64, f64) {
        match self {
            Kind::Mass => (25.0, 350.0),
            Kind::Height => (100.0, 250.0),
            Kind::Neck => (20.0, 80.0),
            Kind::Waist | Kind::Hip | Kind::Chest => (40.0, 250.0),
            Kind::Arm | Kind::Calf => (12.0, 90.0),
            Kind::Thigh => (25.0, 130.0),
            Kind::KneeBreadth => (5.0, 20.0),
            Kind::BodyFat => (2.0, 60.0),
            Kind::RestingHeartRate => (25.0, 130.0),
            _ => (2.0, 90.0),
        }
    }
}

/// One measure.
#[derive(Debug, Clone, PartialEq)]
pub struct Measured {
    /// The day.
    pub date: Date,
    /// What.
    pub kind: Kind,
    /// Where on the body, where that was told: `navel`, `narrowest`, `midway`.
    pub site: String,
    /// How, where that was told: `tape`, `scales`, `calliper`, `bioimpedance`.
    pub method: String,
    /// In the kind's unit.
    pub value: f64,
}
