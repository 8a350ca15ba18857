//! Published equations for body measures, each with its error and the numbers that it holds for.

use super::Kind;

/// A figure from measures, with the error that its authors print.
#[derive(Debug, Clone, PartialEq)]
pub struct Estimate {
    /// What: `body fat by tape`.
    pub name: &'static str,
    /// The figure.
    pub value: f64,
    /// Its unit, with its leading blank where it has one.
    pub unit: &'static str,
    /// The published error, in the same unit; none for plain arithmetic.
    pub error: Option<f64>,
    /// The source, and what to mind.
    pub source: &'static str,
}

/// Who is measured, as far as an equation needs it.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Body {
    /// Whether the equations for women hold; none where the profile does not say.
    pub is_female: Option<bool>,
    /// Whole years on the day.
    pub age: Option<u32>,
    /// Centimeters.
    pub height_cm: Option<f64>,
}

/// Body mass index, kg/m² (BM-01).
#[must_use]
pub fn body_mass_index(mass_kg: f64, height_cm: f64) -> f64 {
    let height_m = height_cm / 100.0;
    mass_kg / (height_m * height_m)
}

/// The class of the WHO table that a body mass index lies in, by its bounds (BM-01).
#[must_use]
pub fn index_class(index: f64) -> (f64, f64) {
    const BOUNDS: [f64; 6] = [0.0, 18.5, 25.0, 30.0, 35.0, 40.0];
    let place = BOUNDS.iter().rposition(|low| index >= *low).unwrap_or(0);
    (BOUNDS[place], BOUNDS.get(place + 1).copied().unwrap_or(f64::INFINITY))
}

/// Waist to height (BM-03).
#[must_use]
pub fn waist_to_height(waist_cm: f64, height_cm: f64) -> f64 {
    waist_cm / height_cm
}

/// Body fat in percent from tape measures, men (BM-05, Hodgdon and Beckett 1984): abdomen at the navel. `None` outside
/// the numbers that the equation holds for (BM-13).
#[must_use]
pub fn fat_by_tape_men(height_cm: f64, neck_cm: f64, abdomen_cm: f64) -> Option<f64> {
    let girth = abdomen_cm - neck_cm;
    let holds = girth > 0.0 && height_cm > 100.0;
    holds.then(|| {
        let density = 1.0324 - 0.19077 * libm::log10(girth) + 0.15456 * libm::log10(height_cm);
        shown(495.0 / density - 450.0)
    })
}

/// Body fat in percent from tape measures, women (BM-06, Hodgdon and Beckett 1984): waist at its narrowest.
#[must_use]
pub fn fat_by_tape_women(height_cm: f64, neck_cm: f64, waist_cm: f64, hip_cm: f64) -> Option<f64> {
    let girth = waist_cm + hip_cm - neck_cm;
    let holds = girth > 0.0 && height_cm > 100.0;
    holds.then(|| {
        let density = 1.29579 - 0.35004 * libm::log10(girth) + 0.22100 * libm::log10(height_cm);
        shown(495.0 / density - 450.0)
    })
}

/// Only what a body can be is shown (BM-13).
fn shown(percent: f64) -> f64 {
    percent.clamp(2.0, 60.0)
}

/// Body fat in percent from the body's density (BM-14, Siri 1956).
#[must_use]
pub fn siri(density: f64) -> f64 {
    495.0 / density - 450.0
}

/// Body fat in percent from the body's density (BM-15, Brozek et al. 1963).
#[must_use]
pub fn brozek(density: f64) -> f64 {
    457.0 / density - 414.2
}

/// Density from the sum of seven skinfolds in mm, men (BM-16, Jackson and Pollock 1978).
#[must_use]
pub fn density_seven_men(sum_mm: f64, age: f64) -> f64 {
    1.112 - 0.000_434_99 * sum_mm + 0.000_000_55 * sum_mm * sum_mm - 0.000_288_26 * age
}

/// Density from chest, abdomen and thigh, men (BM-17, Jackson and Pollock 1978).
#[must_use]
pub fn density_three_men(sum_mm: f64, age: f64) -> f64 {
    1.109_38 - 0.000_826_7 * sum_mm + 0.000_001_6 * sum_mm * sum_mm - 0.000_257_4 * age
}

/// Density from the sum of seven skinfolds in mm, women (BM-18, Jackson, Pollock and Ward 1980).
#[must_use]
pub fn density_seven_women(sum_mm: f64, age: f64) -> f64 {
    1.0970 - 0.000_469_71 * sum_mm + 0.000_000_56 * sum_mm * sum_mm - 0.000_128_28 * age
}

/// Density from triceps, suprailiac and thigh, women (BM-19, Jackson, Pollock and Ward 1980).
#[must_use]
pub fn density_three_women(sum_mm: f64, age: f64) -> f64 {
    1.099_492_1 - 0.000_992_9 * sum_mm + 0.000_002_3 * sum_mm * sum_mm - 0.000_139_2 * age
}

/// Fat mass in kg of women from hip, three skinfolds and knee breadth (BM-31, Garcia et al. 2005).
#[must_use]
pub fn fat_mass_women(hip_cm: f64, log_folds: f64, knee_cm: f64) -> f64 {
    -75.231 + 0.512 * hip_cm + 8.889 * log_folds + 1.905 * knee_cm
}

const SEVEN: [Kind; 7] = [
    Kind::ChestFold,
    Kind::MidaxillaryFold,
    Kind::TricepsFold,
    Kind::SubscapularFold,
    Kind::AbdomenFold,
    Kind::SuprailiacFold,
    Kind::ThighFold,
];
const THREE_MEN: [Kind; 3] = [Kind::ChestFold, Kind::AbdomenFold, Kind::ThighFold];
const THREE_WOMEN: [Kind; 3] = [Kind::TricepsFold, Kind::SuprailiacFold, Kind::ThighFold];

/// The ages that the skinfold equations were made for (BM-16: 18 to 61; BM-18: 18 to 55).
fn age_holds(is_female: bool, age: u32) -> bool {
    if is_female { (18..=55).contains(&age) } else { (18..=61).contains(&age) }
}

/// Every estimate that the measures of one day allow. `of` gives a measure in its kind's unit.
#[must_use]
pub fn estimates(of: &dyn Fn(Kind) -> Option<f64>, body: &Body) -> Vec<Estimate> {
    let height = of(Kind::Height).or(body.height_cm);
    let mut found = Vec::new();
    found.extend(of(Kind::Mass).zip(height).map(|(mass, height)| Estimate {
        name: "body mass index",
        value: body_mass_index(mass, height),
        unit: " kg/m²",
        error: None,
        source: "WHO; made for groups, muscle counts as mass",
    }));
    found.extend(of(Kind::Waist).zip(height).map(|(waist, height)| Estimate {
        name: "waist to height",
        value: waist_to_height(waist, height),
        unit: "",
        error: None,
        source: "NICE 2022; waist midway between lowest rib and hip, not in pregnancy",
    }));
    found.extend(by_tape(of, body, height));
    found.extend(by_folds(of, body));
    found.extend(fat_mass(of, body));
    found
}

fn by_tape(of: &dyn Fn(Kind) -> Option<f64>, body: &Body, height: Option<f64>) -> Option<Estimate> {
    let (neck, waist) = of(Kind::Neck).zip(of(Kind::Waist))?;
    // BM-10: 3.52 points for men, 3.72 for women.
    let (value, error, source) = if body.is_female? {
        let value = fat_by_tape_women(height?, neck, waist, of(Kind::Hip)?)?;
        (value, 3.72, "Hodgdon and Beckett 1984, women: waist at its narrowest; for the trend only")
    } else {
        let value = fat_by_tape_men(height?, neck, waist)?;
        (value, 3.52, "Hodgdon and Beckett 1984, men: waist at the navel; for the trend only")
    };
    Some(Estimate { name: "body fat by tape", value, unit: " %", error: Some(error), source })
}

fn by_folds(of: &dyn Fn(Kind) -> Option<f64>, body: &Body) -> Option<Estimate> {
    let is_female = body.is_female?;
    let age = body.age.filter(|age| age_holds(is_female, *age))?;
    let sum = |kinds: &[Kind]| kinds.iter().map(|kind| of(*kind)).sum::<Option<f64>>();
    let years = f64::from(age);
    let (density, error, source) = match (is_female, sum(&SEVEN)) {
        (false, Some(seven)) => (
            density_seven_men(seven, years),
            0.0078,
            "Jackson and Pollock 1978, seven sites; Siri 1961",
        ),
        (true, Some(seven)) => (
            density_seven_women(seven, years),
            0.0083,
            "Jackson, Pollock and Ward 1980, seven sites; Siri 1961",
        ),
        (false, None) => (
            density_three_men(sum(&THREE_MEN)?, years),
            0.0077,
            "Jackson and Pollock 1978, three sites; Siri 1961",
        ),
        // The error of three sites in women is not in the abstract; that of seven stands for it.
        (true, None) => (
            density_three_women(sum(&THREE_WOMEN)?, years),
            0.0083,
            "Jackson, Pollock and Ward 1980, three sites; Siri 1961",
        ),
    };
    // An error of density as points of body fat: what Siri's line makes of it there.
    let points = (siri(density - error) - siri(density + error)) / 2.0;
    let value = shown(siri(density));
    Some(Estimate { name: "body fat by skinfolds", value, unit: " %", error: Some(points), source })
}

fn fat_mass(of: &dyn Fn(Kind) -> Option<f64>, body: &Body) -> Option<Estimate> {
    if body.is_female != Some(true) {
        return None;
    }
    let log = |kind| of(kind).map(libm::log10);
    let folds = log(Kind::ChinFold)? + log(Kind::TricepsFold)? + log(Kind::SubscapularFold)?;
    let value = fat_mass_women(of(Kind::Hip)?, folds, of(Kind::KneeBreadth)?);
    Some(Estimate {
        name: "fat mass",
        value: value.max(0.0),
        unit: " kg",
        error: Some(3.487),
        source: "Garcia et al. 2005, women",
    })
}

#[cfg(test)]
mod tests;
