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

/// The same band from the reserve: the rate at rest and a share of what lies above it (CO-05, Karvonen 1957).
#[must_use]
pub fn range_from_rest(intensity: Intensity, age: u32, resting: u32) -> [f64; 2] {
    let resting = f64::from(resting);
    let reserve = highest(age) - resting;
    band(intensity).percent_of_reserve.map(|percent| resting + reserve * percent / 100.0)
}

/// The range in words with its error, as a sheet prints it; from the reserve where the rate at rest is known.
#[must_use]
pub fn text(intensity: Intensity, age: u32, resting: Option<u32>) -> String {
    let ([low, high], how) = match resting {
        Some(resting) => (
            range_from_rest(intensity, age, resting),
            format!("208 - 0.7 x age and {resting} at rest"),
        ),
        None => (range(intensity, age), "208 - 0.7 x age".to_owned()),
    };
    format!(
        "about {low:.0} to {high:.0} beats a minute, give or take {ERROR} ({how}; some medicines void it)"
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

    /// CO-05 (Karvonen 1957): at 40 with 60 at rest 108.0 to 130.8 and 132.0 to 166.8, tolerance 0.1.
    #[test]
    fn the_reserve_gives_the_handbook_s_ranges() {
        for (intensity, want) in
            [(Intensity::Moderate, [108.0, 130.8]), (Intensity::Vigorous, [132.0, 166.8])]
        {
            let got = range_from_rest(intensity, 40, 60);
            let is_near = got.iter().zip(want).all(|(got, want)| (got - want).abs() < 0.1);
            assert!(is_near, "CO-05 {got:?}");
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
        let text = |resting| text(Intensity::Moderate, 40, resting);
        assert!(text(None).starts_with("about 115 to 137 beats"), "{}", text(None));
        assert!(text(None).contains("give or take 10"));
        assert!(text(Some(60)).starts_with("about 108 to 131 beats"), "{}", text(Some(60)));
        assert!(text(Some(60)).contains("60 at rest"));
    }
}
