use super::*;
use crate::book::done::{DoneSet, Effort, Load};
use crate::catalog::Catalog;
use crate::words::Measure;

fn item(exercise: &str, reps: u32, load_kg: Option<f64>) -> Item {
    Item {
        exercise: exercise.to_owned(),
        sets: 3,
        reps: Some(vec![reps; 3]),
        rir: Some(2),
        load_kg,
        ..Item::default()
    }
}

fn day() -> Vec<Item> {
    vec![
        item("back-squat", 8, Some(42.5)),
        item("bench-press", 10, None),
        item("plank", 30, None),
        item("pull-up", 6, None),
        item("one-arm-row", 10, Some(16.0)),
    ]
}

fn read_in(text: &str, units: Units) -> Result<Vec<DoneItem>, Vec<Diagnostic>> {
    let catalog = Catalog::built_in();
    let items = day();
    let items: Vec<&Item> = items.iter().collect();
    let context = Context {
        items: &items,
        entries: catalog.entries(),
        units,
        lightest_kg: &|entry| (entry.id == "bench-press").then_some(20.0),
    };
    lines(&Source::new("typed", text), &context)
}

fn read(text: &str) -> Vec<DoneItem> {
    read_in(text, Units::Kg).unwrap_or_else(|faults| panic!("{text}: {faults:?}"))
}

fn code(text: &str) -> (&'static str, String) {
    let fault = read_in(text, Units::Kg).expect_err(text).remove(0);
    assert!(!fault.help.is_empty() && !fault.labels.is_empty(), "{fault:?}");
    (fault.code, fault.message)
}

fn loads(item: &DoneItem) -> Vec<(Option<u32>, u32)> {
    item.sets.iter().map(|set| (set.load.grams(), set.amount)).collect()
}

#[test]
fn a_line_is_a_name_a_load_and_each_set() {
    let done = read("back-squat 42.5 8 8 7 r2; bench-press 35 10 10 9");
    assert_eq!(loads(&done[0]), [(Some(42_500), 8), (Some(42_500), 8), (Some(42_500), 7)]);
    assert_eq!(done[0].sets[2].effort, Some(Effort::Reserve(20)));
    assert_eq!(done[0].sets[0].effort, None);
    assert_eq!(done[0].asked.unwrap().load_g, Some(42_500));
    assert_eq!(done[1].exercise, "bench-press");
}

#[test]
fn names_are_taken_with_blanks_and_short_where_the_day_has_one() {
    for text in ["Back squat 40 8", "back squat: 40 8", "BACK-SQUAT 40 8", "squat 40 8"] {
        assert_eq!(read(text)[0].exercise, "back-squat", "{text}");
    }
    assert_eq!(read("row 16 10/9")[0].exercise, "one-arm-row");
    assert_eq!(read("front-squat 40 5")[0].asked, None, "an extra");
    assert_eq!(
        read("farmer 24 40m")[0].exercise,
        "farmer-carry",
        "none of the day, one that there is"
    );
    let several = "`carry` could be more than one exercise".to_owned();
    assert_eq!(code("carry 24 40m"), ("E6011", several));
    assert_eq!(code("bakc-squat 40 8").0, "E6013");
    let several = read_in("press 40 8; p 40 8", Units::Kg).unwrap_err();
    assert_eq!(several.len(), 1, "`press` is one of the day, `p` is more");
    assert_eq!(several[0].code, "E6011");
}

#[test]
fn sets_that_are_no_repetitions_and_loads_that_are_no_bar() {
    let done = read(
        "plank 45s 40s; pull-up bw 6 5; machine-assisted-pull-up -15 8 8; farmer-carry 24 40m 40m",
    );
    assert_eq!(done[0].sets[0].measure, Measure::Seconds);
    assert_eq!(
        done[1].sets[1],
        DoneSet { load: Load::Body, amount: 5, measure: Measure::Reps, right: None, effort: None }
    );
    assert_eq!(done[2].sets[0].load, Load::Help(15_000));
    assert_eq!((done[3].sets[1].load.grams(), done[3].sets[1].amount), (Some(24_000), 40));
    let band = read("band-pull-apart dark green 12 12");
    assert_eq!(band[0].sets[0].load, Load::Band("dark green".to_owned()));
    let sides = read("one-arm-row 16 8/7 8");
    assert_eq!((sides[0].sets[0].right, sides[0].sets[0].both()), (Some(7), 7));
}

#[test]
fn loads_may_change_from_set_to_set() {
    let want = [(Some(42_500), 8), (Some(42_500), 8), (Some(40_000), 8)];
    assert_eq!(loads(&read("back-squat 42.5 8 8 40kg 8")[0]), want);
    assert_eq!(loads(&read("back-squat 42.5x8 42.5x8 40.5x8")[0])[..2], want[..2]);
    assert_eq!(loads(&read("back-squat 42,5 2x8 40kg 8")[0]), want);
    assert_eq!(loads(&read("back-squat 42.5 8 8; back-squat 40 8")[0]), want);
}

#[test]
fn pounds_are_read_in_pounds() {
    let done = read_in("back-squat 95 8 8", Units::Lb).unwrap();
    assert_eq!(done[0].sets[0].load.grams(), Some(43_091), "EQ-04: 95 lb");
    let done = read_in("back-squat 40kg 8 8", Units::Lb).unwrap();
    assert_eq!(done[0].sets[0].load.grams(), Some(40_000));
}

#[test]
fn what_could_be_read_in_two_ways_is_asked() {
    assert_eq!(code("back-squat 42.5").0, "E6011", "load or sets");
    assert_eq!(code("bench-press 12 12 14").0, "E6011", "the load is missing: under the empty bar");
    assert_eq!(code("back-squat 8 8 7").0, "E6011", "the load is missing: far under the plan's");
    assert_eq!(code("back-squat 3x8").0, "E6011", "three sets or three kilograms");
    assert_eq!(code("back-squat 42.5 8,8").0, "E6011", "8.8 repetitions");
    assert_eq!(code("plank 45m").0, "E6011", "meters of a hold");
    assert_eq!(code("weighted-pull-up 10 6 5").0, "E6011", "ten kilograms or ten repetitions");
}

#[test]
fn what_nobody_does_is_a_slip() {
    assert_eq!(code("back-squat 42.5 500").0, "E6012");
    assert_eq!(code("back-squat 4250 8").0, "E6012");
    assert_eq!(code("back-squat 42.5 8 eight").0, "E6010");
    assert_eq!(code("back-squat r2").0, "E6010");
    assert_eq!(code("42.5 8 8").0, "E6010");
    assert_eq!(code("bench-press ok").0, "E6010", "the plan names no load");
}

#[test]
fn a_line_may_be_left_out_done_as_planned_or_have_a_note() {
    let done = read("back-squat ok\nplank - (shoulder sore)\npull-up bw 5 @9");
    assert_eq!(loads(&done[0]), [(Some(42_500), 8); 3]);
    assert_eq!(done[0].sets[2].effort, Some(Effort::Reserve(20)));
    assert!(done[1].is_skipped());
    assert_eq!(done[1].note, "shoulder sore");
    assert_eq!(done[2].sets[0].effort.and_then(Effort::reserve), Some(1));
}

#[test]
fn every_fault_is_told_with_its_place() {
    let faults = read_in("bakc-squat 40 8; plank 45m; bench-press 35 10", Units::Kg).unwrap_err();
    let places: Vec<usize> =
        faults.iter().map(|fault| fault.labels[0].span.unwrap().column).collect();
    assert_eq!(places, [1, 24]);
}

/// A line that is written out and read again says the same.
fn comes_back(text: &str, units: Units) -> bool {
    let Ok(done) = read_in(text, units) else { return false };
    let catalog = Catalog::built_in();
    for item in &done {
        let entry = catalog.get(&item.exercise).unwrap();
        let line = format!("{} {}", item.exercise, sets_text(item, entry, units));
        let again = read_in(&line, units)
            .unwrap_or_else(|faults| panic!("{text} became {line}: {faults:?}"));
        assert_eq!(again[0].sets, item.sets, "{text} became {line}");
    }
    true
}

#[test]
fn written_out_a_line_says_the_same() {
    for text in [
        "back-squat 42.5 8 8 40kg 8 r2",
        "plank 45s 40s @8.5",
        "pull-up bw 6 5; weighted-pull-up +10 5 bw 8",
        "band-pull-apart dark green 12 12 borg13",
        "machine-assisted-pull-up -15 8 8; one-arm-row 16 8/7 8; band-assisted-pull-up green 8 7",
        "plank -",
    ] {
        assert!(comes_back(text, Units::Kg), "{text}");
        assert!(comes_back(text, Units::Lb), "{text}");
    }
}

proptest::proptest! {
    #[test]
    fn drawn_lines_come_back(
        text in "(back-squat|one-arm-row) [2-9][0-9](\\.[1-9])?( [0-9]{1,2}(/[0-9])?( r[0-5]| @[6-9])?){1,4}",
        pounds: bool,
    ) {
        comes_back(&text, if pounds { Units::Lb } else { Units::Kg });
    }

    #[test]
    fn no_line_causes_a_panic(text in "\\PC{0,60}") {
        let _ = read_in(&text, Units::Kg);
    }

    #[test]
    fn no_words_of_a_line_cause_a_panic(
        text in "(back-squat|plank|pull-up|one-arm-row) ?((-|\\+|@|r)?[0-9]{1,9}([.,/:x][0-9]{1,9})?(kg|lb|s|m)? ?){0,6}"
    ) {
        let _ = read_in(&text, Units::Lb);
    }
}
