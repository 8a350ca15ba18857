use super::*;
use crate::book::done::{Effort, Load};
use crate::catalog::Catalog;

fn plan() -> Plan {
    serde_yaml::from_str(
        "format: weekwright-plan/1
profile: {client: tide-03, training_status: novice, goal: hypertrophy, equipment: [barbell], sessions: [{day: mon, minutes: 60}]}
sessions: [{day: mon, groups: []}]
weeks:
  - week: 1
    date: '2027-01-11'
    kind: base
    sessions:
      - day: mon
        groups:
          - {kind: single, items: [{exercise: back-squat, sets: 2, reps: [8, 8], load_kg: 42.5}]}
          - {kind: single, items: [{exercise: plank, sets: 2, seconds: [30, 30]}]}
          - {kind: single, items: [{exercise: pull-up, sets: 2, reps: [5, 5]}]}",
    )
    .unwrap()
}

fn read(table: &str) -> (Vec<DoneSession>, Vec<Bad>) {
    let rows: Vec<Vec<String>> =
        table.lines().map(|line| line.split(';').map(str::to_owned).collect()).collect();
    let catalog = Catalog::built_in();
    let plan = plan();
    let taken = slot::Taken::new();
    let entries = catalog.entries();
    sessions(&rows, &Context { plan: Some(&plan), entries, units: Units::Kg, taken: &taken })
}

#[test]
fn filled_rows_are_sessions_and_empty_ones_are_not() {
    let (sessions, bad) = read(
        "week;day;exercise;sets;load_done;done;rir_done;note
1;mon;back-squat;2;42,5;8 8;2;
1;mon;plank;2;;45 40;;felt long
1;mon;pull-up;2;;;;",
    );
    assert_eq!(bad, []);
    assert_eq!(sessions.len(), 1);
    let session = &sessions[0];
    assert_eq!((session.date.to_string().as_str(), session.week), ("2027-01-11", Some(1)));
    assert_eq!(session.items.len(), 2);
    let squat = &session.items[0];
    assert_eq!(
        (&squat.sets[1].load, squat.sets[1].effort),
        (&Load::Grams(42_500), Some(Effort::Reserve(20)))
    );
    assert_eq!(squat.asked.unwrap().load_g, Some(42_500));
    assert_eq!(session.items[1].note, "felt long");
}

#[test]
fn every_bad_cell_is_named() {
    let (sessions, bad) = read(
        "date;exercise;load_done;done;rir_done
2027-01-11;back-squat;42.5;8 eight;2
2027-01-11;bakc-squat;42.5;8 8;2
2027-01-41;plank;;45;
2027-01-11;pull-up;10;5 5;1",
    );
    let named: Vec<(usize, &str, &str)> =
        bad.iter().map(|bad| (bad.row, bad.column.as_str(), bad.letter.as_str())).collect();
    assert_eq!(named, [(2, "done", "D"), (3, "exercise", "B"), (4, "date", "A")]);
    assert!(bad[1].help.contains("back-squat"));
    assert_eq!(sessions[0].items[0].sets[0].load, Load::Grams(10_000), "added to the body");
}

#[test]
fn every_bad_cell_of_a_row_is_named() {
    let (sessions, bad) = read(
        "date;exercise;load_done;done;rir_done
2027-01-41;bakc-squat;42.5;8 8;2
2027-01-41;back-squat;heavy;8 eight;many
2027-01-11;back-squat;heavy;8 8;2",
    );
    let named: Vec<(usize, &str)> = bad.iter().map(|bad| (bad.row, bad.letter.as_str())).collect();
    assert_eq!(named, [(2, "A"), (2, "B"), (3, "A"), (3, "C"), (3, "D"), (3, "E"), (4, "C")]);
    assert_eq!(sessions, []);
}

#[test]
fn headings_are_needed() {
    assert_eq!(read("").1[0].message, "the table is empty");
    assert_eq!(read("date;load_done\n").1[0].message, "there is no column `exercise`");
    let (sessions, bad) = read("Date;Exercise;Load done;Done\n11.1.2027;Back squat;40;8 8 7");
    assert_eq!((sessions.len(), bad.len()), (1, 0), "headings as people write them");
}
