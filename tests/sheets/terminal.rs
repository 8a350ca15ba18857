//! The plan for a terminal.

use unicode_width::UnicodeWidthStr;
use weekwright::sheets::{Audience, Options, SheetError, sheet};
use weekwright::words::{Status, Units};

use crate::sample::{bare, exotic, names, sheet_of, tide, weeks};

fn profile(plan: &mut weekwright::plan::file::Plan) -> &mut weekwright::input::profile::Profile {
    match &mut plan.profile {
        weekwright::plan::file::ProfileRef::Whole(profile) => profile,
        weekwright::plan::file::ProfileRef::File(_) => panic!("the sample holds its profile"),
    }
}

#[test]
fn text_of_the_sample() {
    insta::assert_snapshot!(sheet_of("text", &tide(), &Options::default()));
}

#[test]
fn no_line_is_wider_than_the_terminal() {
    for width in [60, 80, 100] {
        for plan in [tide(), exotic(), bare(), weeks(12)] {
            let text = sheet_of("text", &plan, &Options { width, ..Options::default() });
            for line in text.lines() {
                assert!(line.width() <= width, "{} of {width} columns: {line}", line.width());
            }
        }
    }
}

#[test]
fn color_only_adds_to_the_plain_text() {
    for plan in [tide(), exotic()] {
        let plain = sheet_of("text", &plan, &Options::default());
        let color = sheet_of("text", &plan, &Options { color: true, ..Options::default() });
        assert!(!plain.contains('\u{1b}'));
        assert!(color.contains("\u{1b}["));
        assert_eq!(anstream::adapter::strip_str(&color).to_string(), plain);
    }
}

#[test]
fn client_and_coach_have_their_own_part() {
    let part = |audience| sheet_of("text", &tide(), &Options { audience, ..Options::default() });
    let (client, coach) = (part(Audience::Client), part(Audience::Coach));
    assert!(client.contains(" A   Back squat") && !coach.contains(" A   Back squat"));
    assert!(coach.contains("What fell short") && !client.contains("What fell short"));
    assert!(coach.contains("2 under") && !client.contains("2 under"));
    assert!(client.contains("Stop if it hurts") && coach.contains("Stop if it hurts"));
}

#[test]
fn a_week_can_be_shown_alone() {
    let week = |week| Options { week: Some(week), ..Options::default() };
    let first = sheet_of("text", &tide(), &week(1));
    assert!(first.contains("Shown: week 1"));
    assert!(first.contains("2 × 8               40 kg total"), "{first}");
    assert!(!first.contains("Rowing ergometer, steady"));
    let result = sheet("text").expect("text").write(&tide(), &names(), &week(9), &mut Vec::new());
    assert!(matches!(result, Err(SheetError::NoSuchWeek { wanted: 9, weeks: 2 })));
}

/// The pound is 0.45359237 kg exactly (international yard and pound agreement, 1959).
#[test]
fn loads_are_exact_in_both_units() {
    let mut plan = tide();
    plan.sessions[0].groups[1].items[0].load_kg = Some(135.0 * 0.453_592_37);
    profile(&mut plan).units = Units::Lb;
    assert!(sheet_of("text", &plan, &Options::default()).contains("135 lb total"));
    profile(&mut plan).units = Units::Kg;
    assert!(sheet_of("text", &plan, &Options::default()).contains("61.235 kg total"));
    assert!(sheet_of("text", &tide(), &Options::default()).contains("42.5 kg total"));
}

#[test]
fn only_those_past_novice_read_reserve_as_a_number() {
    let novice = sheet_of("text", &tide(), &Options::default());
    assert!(!novice.contains("RIR"));
    assert!(novice.contains("Stop with about two good reps left"));
    let mut plan = tide();
    profile(&mut plan).training_status = Status::Advanced;
    let advanced = sheet_of("text", &plan, &Options::default());
    assert!(advanced.contains("Lifts  RIR 2, tempo 3-0-1-0"));
    assert!(!advanced.contains("good reps left, tempo"));
}

#[test]
fn what_is_said_once_is_not_said_of_each_lift() {
    let text = sheet_of("text", &tide(), &Options::default());
    let monday = text.split("THURSDAY").next().expect("Monday");
    assert_eq!(monday.matches("good reps left").count(), 1);
    assert_eq!(monday.matches("3-0-1-0").count(), 1);
}

#[test]
fn a_bare_plan_prints_what_it_has() {
    let text = sheet_of("text", &bare(), &Options::default());
    assert!(text.contains("THURSDAY\n"));
    assert!(text.contains(" A   Plank                            2 × 30 s            body weight"));
    assert!(text.contains("Stop if it hurts"));
}

#[test]
fn the_whys_follow_the_plan_as_it_stands() {
    let whys = |plan: &weekwright::plan::file::Plan| {
        let text = sheet_of("text", plan, &Options { width: 100, ..Options::default() });
        let from = text.find("Why so").expect("a section");
        text[from..text.find("Weekly sets").expect("the next")].replace("\n    ", " ")
    };
    let mut plan = tide();
    let before = whys(&plan);
    assert!(before.contains("is led by the back squat"), "{before}");
    for item in
        plan.sessions.iter_mut().flat_map(|day| &mut day.groups).flat_map(|group| &mut group.items)
    {
        if item.exercise == "back-squat" {
            "front-squat".clone_into(&mut item.exercise);
        }
    }
    profile(&mut plan).exercises.never = vec!["back-squat".to_owned()];
    let after = whys(&plan);
    assert!(after.contains("is led by the front squat"), "{after}");
    assert!(after.contains("Without the back squat, as asked"), "{after}");
    profile(&mut plan).supersets = weekwright::words::Supersets::Never;
    assert!(whys(&plan).contains("No pairs, as asked"));
    let client = Options { audience: Audience::Client, ..Options::default() };
    assert!(!sheet_of("text", &plan, &client).contains("Why so"));
}
