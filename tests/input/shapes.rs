//! What is read as it should be.

use weekwright::diagnostic::Source;
use weekwright::input::marks::Marks;
use weekwright::input::place::Place;
use weekwright::input::profile::{Profile, SplitChoice};
use weekwright::input::source::{MOST_BYTES, source};
use weekwright::input::{check, read};
use weekwright::path;
use weekwright::words::Kit;

use super::with_known;

/// Every key of the format, once.
const WHOLE: &str = r#"
client: tide-01
birth_year: 1991
sex: female
height_cm: 168
body_mass_kg: 64
resting_heart_rate: 62
units: kg
training_status: novice
goal: hypertrophy
start: 2027-01-04
weeks: 4
equipment: [dumbbells, bench]
sessions:
  - {day: mon, at: "18:30", minutes: 60}
  - {day: thu, at: "18:30", minutes: 60}
split: [[quads, glutes, chest], [hamstrings, lats, upper-back]]
limits: [overhead, {tag: spinal-compression, allow: light}]
emphasis: {glutes: more, biceps: less}
exercises: {must: [], prefer: [goblet-squat], avoid: [], never: [walking-lunge]}
targets: {chest: [8, 14], lats: {range: [8, 12], strict: true}}
supersets: allow
variety: 0.5
recovery_hours: 48
known_lifts:
  back-squat: {load: 50, reps: 5, rir: 2, cap: 60}
conditioning: {from_week: 3, minutes: 12, modes: [rowing-ergometer, running]}
screening: {active: false, disease: false, signs: false, intensity: vigorous, pregnant: false, pain: [], told_to_wait: false}
other_training: [{day: sat, at: "07:00", load: hard, muscles: [lats, quads, spinal-erectors]}]
balance: {pull_push: [0.9, 1.5], knee_hip: [0.67, 1.5]}
finishers: allow
previous: tide-01.plan.yaml
rules: {weekly-volume: 2, session-length: false}
"#;

#[test]
fn a_profile_with_every_key_has_no_fault() {
    let read = read::<Profile>(&Source::new("whole.yaml", WHOLE)).unwrap();
    let found = with_known(|known| check::profile(&read, None, known));
    assert_eq!(found, []);
    assert!(matches!(&read.value.split, SplitChoice::Own(days) if days.len() == 2));
}

#[test]
fn the_same_profile_as_json_is_read_alike() {
    let yaml = read::<Profile>(&Source::new("whole.yaml", WHOLE)).unwrap().value;
    let text = serde_json::to_string(&yaml).unwrap();
    let json = read::<Profile>(&Source::new("whole.json", &text)).unwrap().value;
    assert_eq!(yaml, json);
}

#[test]
fn a_place_brings_its_kit_without_items_of_count_0() {
    let text = "place: shed\nequipment:\n  dumbbells: {from_kg: 4, to_kg: 24, step_kg: 2}\n  \
                kettlebell: 0\n  plates_kg: {20: 2, 1.25: 4}\n  barbell: 1\n";
    let place = read::<Place>(&Source::new("shed.yaml", text)).unwrap();
    assert_eq!(check::place(&place), []);
    let profile = read::<Profile>(&Source::new("whole.yaml", WHOLE)).unwrap().value;
    let resolved = weekwright::load::resolve_place(&profile, Some(&place.value)).equipment.unwrap();
    let items: Vec<Kit> = resolved.items.keys().copied().collect();
    assert_eq!(items, [Kit::Barbell, Kit::Dumbbells]);
    let plates = resolved.plates_kg.unwrap();
    assert_eq!(plates.into_iter().collect::<Vec<_>>(), [(1250, 4), (20000, 2)]);
}

#[test]
fn an_empty_list_of_kit_means_body_weight() {
    let text = WHOLE.replace("[dumbbells, bench]", "[]");
    let read = read::<Profile>(&Source::new("bare.yaml", &text)).unwrap();
    assert_eq!(with_known(|known| check::profile(&read, None, known)), []);
    assert!(read.value.equipment.unwrap().items.is_empty());
}

#[test]
fn a_byte_order_mark_is_taken_off() {
    let source = source("bom.yaml", b"\xef\xbb\xbfclient: tide-01\n".to_vec(), MOST_BYTES).unwrap();
    assert_eq!(&*source.text, "client: tide-01\n");
}

/// Columns count characters, bytes count bytes, whatever the line endings.
#[test]
fn places_are_right_after_letters_of_several_bytes_and_windows_line_endings() {
    let text = "client: \"Bär – ü\"\r\nlimits: [õverhead, \"ü\", grip]\r\n";
    let source = Source::new("letters.yaml", text);
    let marks = Marks::parse(&source).unwrap();
    let span = marks.at(path!["limits", 2], "").span.unwrap();
    assert_eq!((span.line, span.column), (2, 25));
    assert_eq!(&text[span.start..span.end], "grip");
    let key = marks.at_key(path!["limits"], "").span.unwrap();
    assert_eq!(&text[key.start..key.end], "limits");
}
