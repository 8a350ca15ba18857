//! A robust line through points: the median of all slopes (Theil 1950, Sen 1968).

/// A line with the interval of its slope.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Line {
    /// Per unit of the first coordinate.
    pub slope: f64,
    /// At nought: the median of the second coordinate less the slope times that of the first.
    pub intercept: f64,
    /// The interval that holds the slope with 95 %, by Kendall's statistic (Sen 1968).
    pub low: f64,
    /// Its other end.
    pub high: f64,
}

/// Two-sided 95 % of the normal distribution.
const Z: f64 = 1.959_963_984_540_054;

/// The line; `None` where no two points differ in their first coordinate.
#[must_use]
pub fn theil_sen(points: &[(f64, f64)]) -> Option<Line> {
    let mut slopes: Vec<f64> = Vec::with_capacity(points.len() * points.len() / 2);
    for (place, one) in points.iter().enumerate() {
        for other in &points[place + 1..] {
            let across = other.0 - one.0;
            if across != 0.0 {
                slopes.push((other.1 - one.1) / across);
            }
        }
    }
    slopes.sort_by(f64::total_cmp);
    let slope = median(&slopes)?;
    let ordinate = |pick: fn(&(f64, f64)) -> f64| {
        let mut values: Vec<f64> = points.iter().map(pick).collect();
        values.sort_by(f64::total_cmp);
        median(&values)
    };
    let intercept = ordinate(|point| point.1)? - slope * ordinate(|point| point.0)?;
    let (low, high) = interval(&slopes, points);
    Some(Line { slope, intercept, low, high })
}

/// The middle of sorted numbers.
fn median(sorted: &[f64]) -> Option<f64> {
    let half = sorted.len() / 2;
    match sorted.len() {
        0 => None,
        count if count % 2 == 1 => Some(sorted[half]),
        _ => Some(f64::midpoint(sorted[half - 1], sorted[half])),
    }
}

/// The ranks of the slopes between which the true one lies with 95 %, ties counted (Sen 1968, section 3).
#[allow(
    clippy::cast_precision_loss,
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "counts of points, and ranks that are clamped to the slopes"
)]
fn interval(slopes: &[f64], points: &[(f64, f64)]) -> (f64, f64) {
    let repeats = |pick: fn(&(f64, f64)) -> f64| -> f64 {
        let mut values: Vec<f64> = points.iter().map(pick).collect();
        values.sort_by(f64::total_cmp);
        let groups = values.chunk_by(|one, other| one.total_cmp(other).is_eq());
        let share = |count: f64| count * (count - 1.0) * (2.0 * count + 5.0);
        groups.map(|group| share(group.len() as f64)).sum()
    };
    let n = points.len() as f64;
    let count = slopes.len() as f64;
    let all = n * (n - 1.0) * (2.0 * n + 5.0);
    let variance = (all - repeats(|point| point.0) - repeats(|point| point.1)) / 18.0;
    let spread = variance.max(0.0).sqrt();
    let last = slopes.len() - 1;
    let upper = f64::midpoint(count, Z * spread).round_ties_even().clamp(0.0, last as f64) as usize;
    let lower = (((count - Z * spread) / 2.0).round_ties_even() - 1.0).max(0.0) as usize;
    (slopes[lower], slopes[upper])
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn is(points: &[(f64, f64)], want: [f64; 4]) {
        let line = theil_sen(points).unwrap();
        for (got, want) in [line.slope, line.intercept, line.low, line.high].iter().zip(want) {
            assert!((got - want).abs() < 1e-9, "{line:?}, wanted {want}");
        }
    }

    /// `SciPy` 1.17.1, `scipy.stats.theilslopes(y, x, 0.95)`, on numbers drawn with numpy's generator of seed 17: points
    /// that rise, with ties in both coordinates, five of them, and twenty-four without a trend.
    #[test]
    fn lines_and_intervals_are_those_of_scipy() {
        is(
            &[
                (0.0, 61.7),
                (2.0, 60.7),
                (7.0, 60.0),
                (9.0, 59.2),
                (14.0, 58.8),
                (16.0, 61.9),
                (21.0, 61.3),
                (23.0, 61.5),
                (28.0, 63.0),
                (30.0, 63.5),
            ],
            [0.09285714285714265, 60.00714285714286, -0.05714285714285694, 0.21111111111111094],
        );
        is(
            &[
                (0.0, 40.0),
                (7.0, 41.0),
                (7.0, 40.0),
                (14.0, 41.5),
                (21.0, 40.5),
                (21.0, 40.5),
                (28.0, 41.0),
                (35.0, 40.0),
            ],
            [0.0, 40.5, -0.03571428571428571, 0.07142857142857142],
        );
        is(&[(0.0, 3.0), (1.0, 1.0), (2.0, 4.0), (3.0, 1.0), (4.0, 5.0)], [0.5, 2.0, -3.0, 4.0]);
        is(
            &[
                (10.0, 100.0),
                (14.0, 100.0),
                (15.0, 102.0),
                (17.0, 98.0),
                (20.0, 96.0),
                (23.0, 97.0),
                (29.0, 102.0),
                (30.0, 97.0),
                (34.0, 98.0),
                (38.0, 103.0),
                (39.0, 98.0),
                (40.0, 97.0),
                (43.0, 100.0),
                (46.0, 101.0),
                (48.0, 103.0),
                (48.0, 97.0),
                (53.0, 95.0),
                (55.0, 100.0),
                (55.0, 102.0),
                (55.0, 96.0),
                (68.0, 99.0),
                (72.0, 101.0),
                (77.0, 101.0),
                (83.0, 100.0),
            ],
            [0.0, 100.0, -0.05128205128205128, 0.06666666666666667],
        );
    }

    #[test]
    fn an_outlier_does_not_bend_the_line() {
        let mut points: Vec<(f64, f64)> =
            (0..9).map(f64::from).map(|x| (x, 2.0 * x + 1.0)).collect();
        points[4].1 = 100.0;
        let line = theil_sen(&points).unwrap();
        assert!((line.slope - 2.0).abs() < 1e-9, "{line:?}");
    }

    #[test]
    fn no_line_without_two_places() {
        assert_eq!(theil_sen(&[]), None);
        assert_eq!(theil_sen(&[(1.0, 2.0), (1.0, 3.0)]), None);
        is(&[(0.0, 1.0), (2.0, 5.0)], [2.0, 1.0, 2.0, 2.0]);
    }
}
