//! Files with the slips that people, editors and disks make, by a seeded draw: whatever stands in a file, a command ends
//! with an exit code of its own, says so in few words, and never panics.

use std::fs;
use std::path::Path;
use std::process::Output;

use rand::{Rng as _, RngExt as _, SeedableRng as _};
use rand_chacha::ChaCha8Rng;
use rayon::prelude::*;

use super::{program, run, text};

/// How many files are drawn in a short run where `WEEKWRIGHT_MUTATIONS` says nothing.
const USUAL: usize = 100;

/// The most that is said about one file: some dozens of faults, each with a line of it.
const MOST_TOLD: usize = 60_000;

const PROFILE: &str = "client: dinghy-01
birth_year: 1990
sex: female
body_mass_kg: 64
training_status: novice
goal: general-fitness
start: 2027-01-04
weeks: 2
place: loft
sessions: [{day: tue, at: \"07:00\", minutes: 30}, {day: fri, minutes: 30}]
limits: [{tag: grip, allow: light}]
emphasis: {glutes: more}
exercises: {prefer: [goblet-squat], never: [plank]}
targets: {chest: [2, 14]}
known_lifts: {goblet-squat: {load: 12, reps: 8, rir: 2}}
conditioning: {from_week: 1, minutes: 6}
screening: {active: true, disease: false, signs: false, pregnant: false, pain: [wrist]}
other_training: [{day: sat, load: hard, muscles: [lats]}]
";

const PLACE: &str = "place: loft
equipment:
  barbell: {count: 1, mass_kg: 20}
  squat-rack: 1
  bench: 2
  plates_kg: {20: 2, 10: 2, 2.5: 4, 1.25: 2}
  dumbbells: {from_kg: 4, to_kg: 24, step_kg: 2}
  pull-up-bar: 1
";

const CATALOG: &str = "- id: oar-pull
  name: Oar pull
  family: one-arm-row
  pattern: horizontal-pull
  kind: compound
  direct: [lats, upper-back]
  indirect: [biceps, forearms]
  needs: [[dumbbells, bench]]
  level: 1
  sides: each
  load: per-hand
  measure: reps
  reps: [8, 15]
  tempo: 2-1-1-0
  setup_s: 45
  stress: [grip]
  easier: []
  harder: []
  cues: [\"Pull to the hip\"]
";

/// Values that a number, a word or a list may be replaced by.
const VALUES: [&str; 28] = [
    "0",
    "-1",
    "1",
    "1.5",
    "4294967295",
    "18446744073709551616",
    "1e308",
    "-1e-308",
    ".nan",
    ".inf",
    "\"\"",
    "~",
    "[]",
    "{}",
    "true",
    "mon",
    "tue@07:00",
    "2027-13-45",
    "9999-12-31",
    "\"25:61\"",
    "squat",
    "goblet-squat",
    "weekwright-plan/1",
    "weekwright-plan/2",
    "'\u{1f6a3}'",
    "\"\\e[2J\"",
    "&a x",
    "!t y",
];

/// One slip in a text.
fn slip(text: &str, draw: &mut ChaCha8Rng) -> String {
    let mut lines: Vec<String> = text.lines().map(str::to_owned).collect();
    if lines.is_empty() {
        return text.to_owned();
    }
    let at = draw.random_range(0..lines.len());
    let other = draw.random_range(0..lines.len());
    match draw.random_range(0..9) {
        0 => drop(lines.remove(at)),
        1 => lines.insert(other, lines[at].clone()),
        2 => lines.swap(at, other),
        3 => lines[at].insert_str(0, "  "),
        4 => lines.truncate(at + 1),
        5 => {
            let letter = char::from(draw.random_range(b' '..=b'~'));
            let place = draw.random_range(0..=lines[at].chars().count());
            let mut letters: Vec<char> = lines[at].chars().collect();
            letters.insert(place, letter);
            lines[at] = letters.into_iter().collect();
        }
        _ => lines[at] = with_other_value(&lines[at], draw),
    }
    lines.join("\n") + "\n"
}

/// A line with one of its values replaced.
fn with_other_value(line: &str, draw: &mut ChaCha8Rng) -> String {
    let is_part = |letter: char| letter.is_alphanumeric() || "._-@/".contains(letter);
    let mut words: Vec<(usize, usize)> = Vec::new();
    for (at, letter) in line.char_indices().filter(|(_, letter)| is_part(*letter)) {
        match words.last_mut() {
            Some((_, end)) if *end == at => *end += letter.len_utf8(),
            _ => words.push((at, at + letter.len_utf8())),
        }
    }
    if words.is_empty() {
        return line.to_owned();
    }
    let (from, to) = words[draw.random_range(0..words.len())];
    let value = VALUES[draw.random_range(0..VALUES.len())];
    format!("{}{value}{}", &line[..from], &line[to..])
}

fn mutated(text: &str, draw: &mut ChaCha8Rng) -> String {
    let slips = draw.random_range(1..=3);
    (0..slips).fold(text.to_owned(), |text, _| slip(&text, draw))
}

/// A few numbers raised, as a coach might in an editor: the file can still be read.
fn edited(text: &str, draw: &mut ChaCha8Rng) -> String {
    let mut lines: Vec<String> = text.lines().map(str::to_owned).collect();
    for _ in 0..6 {
        let at = draw.random_range(0..lines.len());
        if let Some(digit) = lines[at].rfind(|letter: char| letter.is_ascii_digit()) {
            lines[at].insert(digit, '9');
        }
    }
    lines.join("\n") + "\n"
}

/// How a profile is planned: a slip that leaves it a profile is met before and after the search, whose length is not what
/// is tried here, so only some have the whole of it.
fn planned(number: u64) -> Vec<&'static str> {
    match number % 10 {
        0 | 1 => vec!["plan", "p.yaml"],
        _ => vec!["plan", "p.yaml", "--effort", "quick"],
    }
}

/// The kinds of files, each with what reads it.
fn outputs(number: u64, plans: &[String; 2], folder: &Path) -> Vec<(String, Output)> {
    let mut draw = ChaCha8Rng::seed_from_u64(number);
    let write = |name: &str, text: &str| fs::write(folder.join(name), text).unwrap();
    fs::create_dir_all(folder.join("places")).unwrap();
    let [mut profile, mut place] = [PROFILE, PLACE].map(str::to_owned);
    let commands: Vec<Vec<&str>> = match number % 6 {
        0 => {
            profile = mutated(PROFILE, &mut draw);
            vec![planned(number)]
        }
        1 => {
            place = mutated(PLACE, &mut draw);
            vec![planned(number)]
        }
        2 => {
            write("own.yaml", &mutated(CATALOG, &mut draw));
            vec![
                vec!["catalog", "lint", "--catalog", "own.yaml"],
                vec!["catalog", "list", "--catalog", "own.yaml"],
            ]
        }
        _ => {
            let kept = &plans[usize::from(draw.next_u32() % 4 == 0)];
            let edited = if number % 6 == 5 { edited } else { mutated };
            write("p.plan.yaml", &edited(kept, &mut draw));
            let forms = ["text", "html", "md", "csv", "ics", "json"];
            let form = forms[draw.random_range(0..forms.len())];
            vec![vec!["audit", "p.plan.yaml"], vec!["sheet", "p.plan.yaml", "--as", form]]
        }
    };
    write("p.yaml", &profile);
    write("places/loft.yaml", &place);
    let run = |arguments: Vec<&str>| {
        let output = program().current_dir(folder).args(&arguments).output().unwrap();
        (arguments.join(" "), output)
    };
    commands.into_iter().map(run).collect()
}

#[test]
fn mutated_files_get_an_answer() {
    let cases = std::env::var("WEEKWRIGHT_MUTATIONS").ok();
    let cases =
        cases.and_then(|told| told.parse().ok()).unwrap_or_else(|| crate::cases(USUAL) as u64);
    let folder = tempfile::tempdir().unwrap();
    fs::create_dir(folder.path().join("places")).unwrap();
    let at = |name: &str| folder.path().join(name).display().to_string();
    fs::write(at("p.yaml"), PROFILE).unwrap();
    fs::write(at("places/loft.yaml"), PLACE).unwrap();
    let plan = |format: &str| {
        let output = run(&["plan", &at("p.yaml"), "--format", format]);
        assert_eq!(output.status.code(), Some(0), "{}", text(&output.stderr));
        text(&output.stdout).to_owned()
    };
    let plans = [plan("yaml"), plan("json")];
    let codes: Vec<i32> = (0..cases)
        .into_par_iter()
        .flat_map_iter(|number| {
            let folder = folder.path().join(number.to_string());
            fs::create_dir(&folder).unwrap();
            let outputs = outputs(number, &plans, &folder);
            fs::remove_dir_all(&folder).unwrap();
            outputs.into_iter().map(move |(arguments, output)| {
                let told = String::from_utf8_lossy(&output.stderr);
                let case = format!("{number}: {arguments}: {:?}: {told}", output.status);
                let code = output.status.code();
                let code =
                    code.filter(|code| (0..=4).contains(code)).unwrap_or_else(|| panic!("{case}"));
                assert!(!told.contains("panicked") && !told.contains("E4001"), "{case}");
                assert!(told.len() < MOST_TOLD, "{} bytes: {}", told.len(), &case[..2000]);
                assert!(code == 0 || code == 4 || !told.is_empty(), "{case}");
                code
            })
        })
        .collect();
    // The draw reaches both sides: files that are refused, and files that still are what they should be.
    for code in [0, 2, 4] {
        assert!(codes.contains(&code), "no case ends with {code}");
    }
}
