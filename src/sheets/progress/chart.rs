//! A course over days as a drawn chart: dots, a line, and figures beside them, so that it reads in grey too.

use jiff::ToSpan;
use jiff::civil::Date;
use serde::Serialize;

use crate::sheets::phrase;
use crate::sheets::wording::say;

/// The drawing's size; it is shown no larger than this and no smaller than a phone.
const WIDTH: f64 = 340.0;
const HEIGHT: f64 = 150.0;
/// Room for figures at the left, at the right, above and below.
const LEFT: f64 = 44.0;
const RIGHT: f64 = 54.0;
const TOP: f64 = 14.0;
const BOTTOM: f64 = 24.0;

/// A drawing is at least so high, as a share of its values: what differs from day to day is not to look like a cliff.
const LEAST_SPAN: f64 = 0.1;
/// Two readings are no course.
const LEAST_READINGS: usize = 3;

/// A drawn course.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub(super) struct Chart {
    width: String,
    height: String,
    left: String,
    right: String,
    /// Lines across, each with its figure.
    across: Vec<Mark>,
    /// Days below.
    days: Vec<Mark>,
    /// Each reading.
    dots: Vec<Dot>,
    /// The line through them.
    line: String,
    /// The last figure beside the last dot.
    last: Mark,
    /// What the drawing shows, for those who do not see it.
    pub(super) told: String,
}

/// A figure at a place.
#[derive(Debug, Clone, PartialEq, Serialize)]
struct Mark {
    at: String,
    text: String,
    anchor: &'static str,
}

/// A reading.
#[derive(Debug, Clone, PartialEq, Serialize)]
struct Dot {
    x: String,
    y: String,
    told: String,
}

/// What is drawn: days from the first day on, and values.
pub(super) struct Course<'a> {
    pub(super) name: &'a str,
    pub(super) unit: &'a str,
    pub(super) from: Date,
    pub(super) points: &'a [(i32, f64)],
    pub(super) line: &'a [(i32, f64)],
}

impl Chart {
    /// The chart of a course; none without three readings on two days at least.
    pub(super) fn new(course: &Course<'_>) -> Option<Chart> {
        let (first, last) = (course.points.first()?, course.points.last()?);
        if first.0 == last.0 || course.points.len() < LEAST_READINGS {
            return None;
        }
        let values = course.points.iter().chain(course.line).map(|(_, value)| *value);
        let (low, high) = values.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), value| {
            (low.min(value), high.max(value))
        });
        let short = (f64::midpoint(low, high).abs() * LEAST_SPAN - (high - low)).max(0.0);
        let (low, high) = (low - short / 2.0, high + short / 2.0);
        let step = step(high - low);
        let (bottom, top) =
            ((low / step).floor() * step, ((high / step).ceil() * step).max(low + step));
        let across = |day: i32| {
            let share = f64::from(day - first.0) / f64::from(last.0 - first.0);
            LEFT + share * (WIDTH - LEFT - RIGHT)
        };
        let up = |value: f64| {
            HEIGHT - BOTTOM - (value - bottom) / (top - bottom) * (HEIGHT - TOP - BOTTOM)
        };
        let place = |number: f64| phrase::trimmed(number, 1);
        let figure = |value: f64| phrase::trimmed(value, 1);
        let date = |day: i32| course.from.checked_add(i64::from(day).days()).unwrap_or(course.from);
        let dots = course.points.iter().map(|(day, value)| Dot {
            x: place(across(*day)),
            y: place(up(*value)),
            told: format!("{}: {}{}", phrase::day_month(date(*day)), figure(*value), course.unit),
        });
        let line: Vec<String> = course
            .line
            .iter()
            .map(|(day, value)| format!("{},{}", place(across(*day)), place(up(*value))))
            .collect();
        let count = ((top - bottom) / step).round();
        let ticks = (0..=8_u32).map(f64::from).take_while(|tick| *tick <= count);
        let last_value = course.line.last().map_or(last.1, |(_, value)| *value);
        let ends = [(first.0, "start"), (last.0, "end")];
        Some(Chart {
            width: place(WIDTH),
            height: place(HEIGHT),
            left: place(LEFT),
            right: place(WIDTH - RIGHT),
            across: ticks
                .map(|tick| bottom + tick * step)
                .map(|value| Mark { at: place(up(value)), text: figure(value), anchor: "end" })
                .collect(),
            days: ends
                .map(|(day, anchor)| Mark {
                    at: place(across(day)),
                    text: phrase::day_month(date(day)),
                    anchor,
                })
                .to_vec(),
            dots: dots.collect(),
            line: line.join(" "),
            last: Mark { at: place(up(last_value)), text: figure(last_value), anchor: "start" },
            told: say!(
                chart_told,
                name = course.name,
                first = figure(first.1),
                unit = course.unit,
                from = phrase::day_month(date(first.0)),
                last = figure(last.1),
                to = phrase::day_month(date(last.0)),
                count = course.points.len()
            ),
        })
    }
}

/// A round step that gives two to five lines across.
fn step(span: f64) -> f64 {
    const ROUND: [f64; 9] = [0.5, 1.0, 2.0, 2.5, 5.0, 10.0, 20.0, 25.0, 50.0];
    ROUND.into_iter().find(|step| span / step <= 4.0).unwrap_or(100.0)
}

#[cfg(test)]
mod tests {
    use jiff::civil::date;

    use super::*;

    fn chart(points: &[(i32, f64)]) -> Option<Chart> {
        let from = date(2027, 1, 4);
        Chart::new(&Course { name: "Back squat", unit: " kg", from, points, line: points })
    }

    #[test]
    fn figures_stand_on_the_chart_and_in_words() {
        let chart = chart(&[(0, 50.0), (14, 53.5), (28, 57.0)]).unwrap();
        let across: Vec<&str> = chart.across.iter().map(|mark| mark.text.as_str()).collect();
        assert_eq!(across, ["50", "52", "54", "56", "58"]);
        assert_eq!(chart.last.text, "57");
        assert_eq!(chart.told, "Back squat: 50 kg on 4 January, 57 kg on 1 February, 3 readings");
        assert_eq!((chart.dots[0].x.as_str(), chart.dots[2].x.as_str()), ("44", "286"));
    }

    /// Half a kilogram between sessions is what differs from day to day, and looks so.
    #[test]
    fn a_small_difference_is_drawn_small() {
        let chart = chart(&[(0, 50.0), (7, 50.5), (14, 50.0)]).unwrap();
        let heights: Vec<f64> = chart.dots.iter().map(|dot| dot.y.parse().unwrap()).collect();
        assert!((heights[0] - heights[1]).abs() < HEIGHT / 8.0, "{heights:?}");
    }

    #[test]
    fn a_level_course_is_drawn_and_fewer_than_three_readings_are_not() {
        assert!(chart(&[(0, 50.0), (7, 50.0), (14, 50.0)]).unwrap().across.len() >= 2);
        assert_eq!(chart(&[(0, 50.0), (7, 52.0)]), None);
        assert_eq!(chart(&[(3, 50.0), (3, 51.0), (3, 52.0)]), None, "one day");
        assert_eq!(chart(&[]), None);
    }
}
