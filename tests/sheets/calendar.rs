//! The plan as a calendar, read by the general-purpose crate `icalendar` and held against RFC 5545.

use std::collections::BTreeSet;

use icalendar::{Calendar, CalendarDateTime, Component, DatePerhapsTime, Event, EventLike};
use weekwright::plan::file::Plan;
use weekwright::sheets::{Options, SheetError, sheet};

use crate::sample::{bare, exotic, names, sheet_of, tide, weeks};

fn text(plan: &Plan) -> String {
    sheet_of("ics", plan, &Options::default())
}

fn events(plan: &Plan) -> Vec<Event> {
    let calendar: Calendar = text(plan).parse().expect("a calendar that the crate reads");
    calendar.iter().filter_map(|component| component.as_event().cloned()).collect()
}

#[test]
fn calendar_of_the_sample() {
    insta::assert_snapshot!(text(&tide()).replace("\r\n", "\n"));
}

/// RFC 5545 section 3.1.
#[test]
fn lines_end_with_crlf_and_have_at_most_75_octets() {
    for plan in [tide(), exotic()] {
        let text = text(&plan);
        assert!(text.ends_with("END:VCALENDAR\r\n"));
        assert_eq!(text.matches('\n').count(), text.matches("\r\n").count());
        assert_eq!(text.matches('\r').count(), text.matches("\r\n").count());
        assert!(text.split("\r\n").all(|line| line.len() <= 75));
        assert!(text.contains("\r\n "), "something is long enough to be folded");
    }
}

#[test]
fn there_is_an_event_for_each_session_and_week() {
    let events = events(&tide());
    assert_eq!(events.len(), 6);
    let first = &events[0];
    assert_eq!(first.get_summary(), Some("Training: Quads, chest, upper back"));
    assert_eq!(first.get_location(), Some("boathouse"));
    let floating = |day, hour, minute| {
        let date = icalendar_date(2027, 1, day);
        let time = date.and_hms_opt(hour, minute, 0).expect("a time");
        Some(DatePerhapsTime::DateTime(CalendarDateTime::Floating(time)))
    };
    assert_eq!(first.get_start(), floating(4, 18, 30));
    assert_eq!(first.get_end(), floating(4, 18, 59), "1705 s are 28 min and a bit");
    assert_eq!(events[5].get_start(), floating(16, 9, 0), "Saturday of week 2");
    let card = first.get_description().expect("the card");
    assert!(
        card.contains("A Back squat: 2 × 8, 40 kg total\nramp 20 kg × 8, 32.5 kg × 4"),
        "{card}"
    );
    assert!(card.contains("Stop if it hurts"));
}

fn icalendar_date(year: i32, month: u32, day: u32) -> chrono::NaiveDate {
    chrono::NaiveDate::from_ymd_opt(year, month, day).expect("a date")
}

/// RFC 5545 section 3.6.1: the end of a whole day is not part of it, so one day ends on the next.
/// The days are those of the check value 2026-01-05 to 2026-01-06.
#[test]
fn a_session_without_an_hour_takes_its_whole_day() {
    let mut plan = tide();
    plan.weeks.truncate(1);
    plan.weeks[0].date = Some("2026-01-05".to_owned());
    plan.weeks[0].sessions.truncate(1);
    plan.weeks[0].sessions[0].at = None;
    let text = text(&plan);
    assert!(
        text.contains("DTSTART;VALUE=DATE:20260105\r\nDTEND;VALUE=DATE:20260106\r\n"),
        "{text}"
    );
}

#[test]
fn a_session_past_midnight_ends_on_the_next_day() {
    let text = text(&exotic());
    assert!(text.contains("DTSTART:20270111T233000\r\nDTEND:20270112T001000\r\n"), "{text}");
}

#[test]
fn names_of_events_are_unique_and_outlive_a_changed_plan() {
    let uids = |plan: &Plan| -> Vec<String> {
        events(plan).iter().map(|event| event.get_uid().expect("a UID").to_owned()).collect()
    };
    let before = uids(&weeks(12));
    assert_eq!(before.iter().collect::<BTreeSet<_>>().len(), 36);
    assert_eq!(before[0], "tide-01.week1.mon.1830@weekwright");
    let mut changed = weeks(12);
    for week in &mut changed.weeks {
        week.sessions[0].groups.truncate(2);
        week.sessions[0].groups[1].items[0].load_kg = Some(50.0);
    }
    changed.seed = 99;
    assert_eq!(uids(&changed), before);
    assert_ne!(text(&changed), text(&weeks(12)));
}

#[test]
fn exotic_text_comes_through_a_reader_whole() {
    let events = events(&exotic());
    assert_eq!(events[0].get_location(), Some("boat & oar <shed>, \"upper\" deck"));
    let card = events[0].get_description().expect("the card");
    assert!(card.starts_with(
        "<script>alert('tide')</script>, \"bow\"; שלום evil 🚣 =1+1 | *x* \\ {{ 7 }}"
    ));
    assert!(
        card.contains("=HYPERLINK(\"x\"), <img src=x onerror=alert(1)> 🚣: 3 × 5, 135 lb total")
    );
    assert!(events.iter().all(|event| event.get_uid().is_some_and(str::is_ascii)));
}

#[test]
fn a_plan_without_dates_says_what_is_missing() {
    let result =
        sheet("ics").expect("ics").write(&bare(), &names(), &Options::default(), &mut Vec::new());
    assert!(matches!(result, Err(SheetError::NoStart)));
}
