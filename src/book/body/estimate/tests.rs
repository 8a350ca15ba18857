//! The worked examples of the published equations, row by row.

use super::*;

#[track_caller]
fn near(got: f64, want: f64, tolerance: f64, row: &str) {
    assert!((got - want).abs() <= tolerance, "{row}: {got} for {want}");
}

/// BM-01 (WHO 1995, 2000, 2004): 70 kg and 1.75 m; 80 kg and 1.78 m; the bound of 25.00 belongs to the class above.
#[test]
fn body_mass_index_and_its_classes() {
    near(body_mass_index(70.0, 175.0), 22.86, 0.005, "BM-01");
    near(body_mass_index(80.0, 178.0), 25.25, 0.005, "BM-01");
    for (index, low) in [
        (18.49, 0.0),
        (22.86, 18.5),
        (24.99, 18.5),
        (25.0, 25.0),
        (25.25, 25.0),
        (30.0, 30.0),
        (41.0, 40.0),
    ] {
        near(index_class(index).0, low, 0.0, "BM-01");
    }
}

/// BM-03 (NICE 2022).
#[test]
fn waist_to_height_ratios() {
    near(waist_to_height(85.0, 178.0), 0.4775, 0.000_05, "BM-03");
    near(waist_to_height(81.0, 163.0), 0.497, 0.0005, "BM-03");
    near(waist_to_height(91.0, 178.0), 0.511, 0.0005, "BM-03");
}

/// BM-05 and BM-06 (Hodgdon and Beckett 1984, NHRC reports 84-11 and 84-29).
#[test]
fn body_fat_by_tape() {
    for (height, neck, abdomen, want) in
        [(178.0, 38.0, 85.0, 16.44), (180.0, 40.0, 95.0, 21.89), (170.0, 36.0, 78.0, 13.71)]
    {
        near(fat_by_tape_men(height, neck, abdomen).unwrap(), want, 0.01, "BM-05");
    }
    for (height, neck, waist, hip, want) in [
        (165.0, 32.0, 70.0, 95.0, 24.86),
        (168.0, 33.0, 80.0, 102.0, 32.04),
        (160.0, 31.0, 65.0, 90.0, 21.38),
    ] {
        near(fat_by_tape_women(height, neck, waist, hip).unwrap(), want, 0.01, "BM-06");
    }
}

/// The forms in inches (BM-07 and BM-08, Hodgdon and Friedl 1999), a second way to the same figure.
fn inches_men(height: f64, neck: f64, abdomen: f64) -> f64 {
    86.010 * libm::log10(abdomen - neck) - 70.041 * libm::log10(height) + 36.76
}

fn inches_women(height: f64, neck: f64, waist: f64, hip: f64) -> f64 {
    163.205 * libm::log10(waist + hip - neck) - 97.684 * libm::log10(height) - 78.387
}

#[test]
fn the_forms_in_inches_give_nearly_the_same() {
    const CM: f64 = 2.54;
    // By hand: 86.010 log 21 - 70.041 log 70 + 36.76 = 113.72 - 129.23 + 36.76.
    near(inches_men(70.0, 15.0, 36.0), 21.25, 0.01, "BM-07");
    near(fat_by_tape_men(70.0 * CM, 15.0 * CM, 36.0 * CM).unwrap(), 21.12, 0.01, "BM-05");
    near(inches_men(178.0 / CM, 38.0 / CM, 85.0 / CM), 16.49, 0.01, "BM-07");
    // By hand: 163.205 log 56 - 97.684 log 65 - 78.387 = 285.31 - 177.09 - 78.39.
    near(inches_women(65.0, 13.0, 30.0, 39.0), 29.83, 0.01, "BM-08");
    near(
        fat_by_tape_women(65.0 * CM, 13.0 * CM, 30.0 * CM, 39.0 * CM).unwrap(),
        29.53,
        0.01,
        "BM-06",
    );
    near(inches_women(165.0 / CM, 32.0 / CM, 70.0 / CM, 95.0 / CM), 25.10, 0.01, "BM-08");
    for height in (150..=205).step_by(5).map(f64::from) {
        for neck in (33..=45).step_by(3).map(f64::from) {
            for girth in (35..=80).step_by(5).map(f64::from) {
                let metric = fat_by_tape_men(height, neck, neck + girth).unwrap();
                let inches = inches_men(height / CM, neck / CM, (neck + girth) / CM);
                if (8.0..=35.0).contains(&metric) {
                    near(metric, inches, 0.8, "BM-09");
                }
            }
        }
    }
}

/// BM-13: what no body has is refused, and a centimeter of waist is about 0.77 points in men and 0.52 in women.
#[test]
fn the_equations_keep_to_bodies() {
    assert_eq!(fat_by_tape_men(178.0, 40.0, 39.0), None, "BM-13");
    assert_eq!(fat_by_tape_men(95.0, 30.0, 60.0), None, "BM-13");
    assert_eq!(fat_by_tape_women(165.0, 200.0, 70.0, 95.0), None, "BM-13");
    near(fat_by_tape_men(178.0, 38.0, 200.0).unwrap(), 60.0, 12.0, "BM-13");
    let men =
        fat_by_tape_men(178.0, 38.0, 86.0).unwrap() - fat_by_tape_men(178.0, 38.0, 85.0).unwrap();
    near(men, 0.77, 0.02, "BM-13");
    let women = fat_by_tape_women(165.0, 32.0, 71.0, 95.0).unwrap()
        - fat_by_tape_women(165.0, 32.0, 70.0, 95.0).unwrap();
    near(women, 0.52, 0.02, "BM-13");
}

/// BM-14 (Siri 1961) and BM-15 (Brozek et al. 1963); the lines cross at 1.06145.
#[test]
fn body_fat_from_density() {
    for (density, by_siri, by_brozek) in
        [(1.03, 30.58, 29.49), (1.05, 21.43, 21.04), (1.065, 14.79, 14.91), (1.08, 8.33, 8.95)]
    {
        near(siri(density), by_siri, 0.005, "BM-14");
        near(brozek(density), by_brozek, 0.006, "BM-15");
    }
    near(siri(1.061_45), 16.34, 0.01, "BM-15");
    near(brozek(1.061_45), 16.34, 0.01, "BM-15");
}

/// BM-16 and BM-17 (Jackson and Pollock 1978), BM-18 and BM-19 (Jackson, Pollock and Ward 1980).
#[test]
fn density_from_skinfolds() {
    type Rows = [(f64, f64, f64, f64); 3];
    let check = |density: fn(f64, f64) -> f64, rows: Rows, row: &str| {
        for (sum, age, want, fat) in rows {
            near(density(sum, age), want, 0.000_01, row);
            near(siri(density(sum, age)), fat, 0.01, row);
        }
    };
    check(
        density_seven_men,
        [(100.0, 30.0, 1.06535, 14.63), (70.0, 25.0, 1.07704, 9.59), (150.0, 45.0, 1.04615, 23.16)],
        "BM-16",
    );
    check(
        density_three_men,
        [(45.0, 30.0, 1.06770, 13.61), (30.0, 25.0, 1.07958, 8.51), (75.0, 45.0, 1.04479, 23.78)],
        "BM-17",
    );
    check(
        density_seven_women,
        [
            (120.0, 30.0, 1.04485, 23.75),
            (90.0, 22.0, 1.05644, 18.55),
            (170.0, 45.0, 1.02756, 31.72),
        ],
        "BM-18",
    );
    check(
        density_three_women,
        [(60.0, 30.0, 1.04402, 24.13), (40.0, 22.0, 1.06039, 16.81), (80.0, 45.0, 1.02852, 31.28)],
        "BM-19",
    );
}

/// BM-31 (Garcia et al. 2005): hip 112 cm, the logarithms of the folds together 4.42, knee 9.4 cm.
#[test]
fn fat_mass_of_women() {
    near(fat_mass_women(112.0, 4.42, 9.4), 39.31, 0.01, "BM-31");
}

fn of(measures: &[(Kind, f64)]) -> impl Fn(Kind) -> Option<f64> {
    move |kind| measures.iter().find(|(one, _)| *one == kind).map(|(_, value)| *value)
}

#[test]
fn an_estimate_needs_its_numbers_and_its_people() {
    let men = Body { is_female: Some(false), age: Some(30), height_cm: Some(178.0) };
    let measures = [(Kind::Mass, 80.0), (Kind::Waist, 85.0), (Kind::Neck, 38.0)];
    let names = |body: &Body| -> Vec<&str> {
        estimates(&of(&measures), body).iter().map(|found| found.name).collect()
    };
    assert_eq!(names(&men), ["body mass index", "waist to height", "body fat by tape"]);
    assert_eq!(names(&Body { is_female: None, ..men }), ["body mass index", "waist to height"]);
    assert_eq!(
        names(&Body { is_female: Some(true), ..men }),
        ["body mass index", "waist to height"]
    );
    assert!(names(&Body::default()).is_empty());
}

/// BM-20: the sum is squared, not each fold; three sites are read only where all three are there.
#[test]
fn skinfolds_are_summed_first() {
    let men = Body { is_female: Some(false), age: Some(30), height_cm: None };
    let three = [(Kind::ChestFold, 15.0), (Kind::AbdomenFold, 18.0), (Kind::ThighFold, 12.0)];
    let found = estimates(&of(&three), &men);
    near(found[0].value, 13.61, 0.01, "BM-17 and BM-20");
    let error = found[0].error.unwrap();
    near(error, 3.35, 0.1, "an error of 0.0077 in density is about three points of fat");
    assert!(estimates(&of(&three[..2]), &men).is_empty());
    assert!(
        estimates(&of(&three), &Body { age: Some(70), ..men }).is_empty(),
        "made for 18 to 61 years"
    );
}
