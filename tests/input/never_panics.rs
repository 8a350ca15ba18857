//! Whatever stands in a file, the answer is a value or faults with places inside the file.

use proptest::prelude::*;
use proptest::test_runner::RngSeed;
use weekwright::cli::render;
use weekwright::diagnostic::{Diagnostic, Source};
use weekwright::input::catalog::Entry;
use weekwright::input::place::Place;
use weekwright::input::plan::Plan;
use weekwright::input::profile::Profile;
use weekwright::input::source::{MOST_BYTES, source};
use weekwright::input::{check, read};

use super::with_known;

const PROFILE: &str = "client: tide-01
training_status: novice
goal: hypertrophy
equipment: {dumbbells: {from_kg: 4, to_kg: 24}, plates_kg: {20: 2, 1.25: 4}}
sessions:
  - {day: mon, at: \"18:30\", minutes: 60}
  - {day: thu, minutes: 45}
limits: [overhead, {tag: grip, allow: light}]
targets: {chest: [8, 14], lats: {range: [6, 9], strict: true}}
known_lifts: {back-squat: {load: 50, reps: 5}}
conditioning: {minutes: 12, modes: [running]}
";

/// Pieces that mean something to YAML or to our formats.
const PIECES: &[&str] = &[
    ":",
    ": ",
    "-",
    "- ",
    "\n",
    "\n  ",
    "\t",
    "[",
    "]",
    "{",
    "}",
    ",",
    "\"",
    "'",
    "&a ",
    "*a",
    "!t ",
    "#",
    "|",
    ">",
    "?",
    "---\n",
    "...\n",
    "%",
    "@",
    "~",
    "null",
    ".nan",
    "-.inf",
    "1e999",
    "0x1F",
    "99999999999999999999",
    "-1",
    "0.5",
    "true",
    "ü",
    "\u{1f6a3}",
    "\u{202e}",
    "\r\n",
    "\"\\e[2J\"",
    "<<: ",
    "day",
    "mon",
    "grip",
    "chest",
    "[[]]",
    "{}",
    "=",
    "\u{85}",
    "\u{2028}",
];

/// Reads a text as every format, checks it, shows the faults, and looks at their places.
fn survives(source: &Source) {
    let profile =
        read::<Profile>(source).map(|read| with_known(|known| check::profile(&read, None, known)));
    let place = read::<Place>(source).map(|read| check::place(&read));
    let catalog = read::<Vec<Entry>>(source).map(|_| Vec::new());
    let plan = read::<Plan>(source).map(|_| Vec::new());
    for result in [profile, place, catalog, plan] {
        let found: Vec<Diagnostic> = result.unwrap_or_else(|faults| {
            assert!(!faults.is_empty(), "refused without a reason");
            faults
        });
        for span in found.iter().flat_map(|found| &found.labels).filter_map(|label| label.span) {
            assert!(source.text.get(span.start..span.end).is_some(), "{span:?}");
            assert!(span.line >= 1 && span.column >= 1);
        }
        assert!(found.iter().all(|found| !found.help.is_empty()));
        assert!(
            found.is_empty()
                || !render::text(&found, std::slice::from_ref(source), true).is_empty()
        );
        assert!(render::json(&found, &serde_json::Map::default()).contains("diagnostics"));
    }
}

/// Few cases by default; `PROPTEST_CASES` asks for more.
fn settings() -> ProptestConfig {
    let usual = ProptestConfig::default();
    let cases = std::env::var_os("PROPTEST_CASES").map_or(100, |_| usual.cases);
    ProptestConfig { cases, rng_seed: RngSeed::Fixed(7), failure_persistence: None, ..usual }
}

proptest! {
    #![proptest_config(settings())]

    #[test]
    fn on_any_bytes(bytes in proptest::collection::vec(any::<u8>(), 0..200)) {
        if let Ok(source) = source("any.yaml", bytes, MOST_BYTES) {
            survives(&source);
        }
    }

    #[test]
    fn on_pieces_of_yaml(pieces in proptest::collection::vec(0..PIECES.len(), 0..40)) {
        let text: String = pieces.into_iter().map(|piece| PIECES[piece]).collect();
        if let Ok(source) = source("pieces.yaml", text.into_bytes(), MOST_BYTES) {
            survives(&source);
        }
    }

    #[test]
    fn on_a_mutated_profile(
        changes in proptest::collection::vec((0..PROFILE.len(), 0..12_usize, 0..PIECES.len()), 1..5),
    ) {
        let mut text = PROFILE.to_owned();
        for (at, length, piece) in changes {
            let start = (0..=at.min(text.len())).rev().find(|at| text.is_char_boundary(*at)).unwrap();
            let end = (start + length).min(text.len());
            let end = (end..=text.len()).find(|at| text.is_char_boundary(*at)).unwrap();
            text.replace_range(start..end, PIECES[piece]);
        }
        if let Ok(source) = source("mutated.yaml", text.into_bytes(), MOST_BYTES) {
            survives(&source);
        }
    }
}
