//! Heart-rate ranges from age, with the error they carry, and bands of effort.

use crate::words::Intensity;

/// Highest heart rate by Tanaka, Monahan and Seals 2001: 208 - 0.7 x age, in beats a minute (CO-01).
#[must_use]
pub fn highest(age: u32) -> f64 {
    208.0 - 0.7 * f64::from(age)
}

/// Beats that such a formula may be off, either way (CO-04, Robergs and Landwehr 2002).
pub const ERROR: u32 = 10;

/// A band of effort in shares of the highest heart rate, of the reserve, and on the Borg scale 6-20 (CO-06).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Band {
    /// Percent of the highest heart rate.
    pub percent_of_highest: [f64; 2],
    /// Percent of the heart-rate reserve.
    pub percent_of_reserve: [f64; 2],
    /// Borg scale 6-20.
    pub borg: [u32; 2],
}

/// The band of an intensity: Garber et al. 2011, ACSM (CO-06).
#[must_use]
pub const fn band(intensity: Intensity) -> Band {
    match intensity {
        Intensity::Light => Band {
            percent_of_highest: [57.0, 63.0],
            percent_of_reserve: [30.0, 39.0],
            borg: [9, 11],
        },
        Intensity::Moderate => Band {
            percent_of_highest: [64.0, 76.0],
            percent_of_reserve: [40.0, 59.0],
            borg: [12, 13],
        },
        Intensity::Vigorous => Band {
            percent_of_highest: [77.0, 95.0],
            percent_of_reserve: [60.0, 89.0],
            borg: [14, 17],
        },
    }
}

/// Beats a minute for a band and an age, low and high end.
#[must_use]
pub fn range(intensity: Intensity, age: u32) -> [f64; 2] {
    band(intensity).percent_of_highest.map(|percent| highest(age) * percent / 100.0)
}

/// The range in words with its error, as a sheet prints it.
#[must_use]
pub fn text(intensity: Intensity, age: u32) -> String {
    let [low, high] = range(intensity, age);
    format!(
        "about {low:.0} to {high:.0} beats a minute, give or take {ERROR} (208 - 0.7 x age; some medicines void it)"
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    /// CO-01 (Tanaka, Monahan and Seals 2001), tolerance 0.05.
    #[test]
    fn highest_heart_rate_gives_the_handbook_s_examples() {
        for (age, want) in [(20, 194.0), (40, 180.0), (60, 166.0)] {
            assert!((highest(age) - want).abs() < 0.05, "CO-01 {age}");
        }
    }

    /// CO-06 (Garber et al. 2011): bands of percent of the highest rate, of the reserve, and of the Borg scale.
    #[test]
    fn bands_are_the_handbook_s() {
        let moderate = band(Intensity::Moderate);
        assert_eq!(moderate.borg, [12, 13], "CO-06");
        assert!((moderate.percent_of_highest[0] - 64.0).abs() < 1e-9, "CO-06");
        let vigorous = band(Intensity::Vigorous);
        assert_eq!(vigorous.borg, [14, 17], "CO-06");
        assert!((vigorous.percent_of_reserve[1] - 89.0).abs() < 1e-9, "CO-06, CO-07");
        assert_eq!(band(Intensity::Light).borg, [9, 11], "CO-06");
    }

    #[test]
    fn the_text_names_formula_and_error() {
        let text = text(Intensity::Moderate, 40);
        assert!(text.starts_with("about 115 to 137 beats"), "{text}");
        assert!(text.contains("give or take 10"));
    }
}
