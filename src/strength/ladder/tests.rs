//! Worked examples of the handbook and the exhaustive search for plates.

use super::*;
use crate::input::catalog::Entry;
use crate::input::place::Equipment;
use crate::strength::racks::ladder;
use itertools::Itertools;
use proptest::prelude::*;

fn place(yaml: &str) -> Equipment {
    serde_yaml::from_str(yaml).unwrap()
}

fn stock(list: &[(f64, u32)]) -> Plates {
    list.iter().map(|(mass, pieces)| (grams(*mass), *pieces)).collect()
}

fn kg_bar(list: &[(f64, u32)]) -> Ladder {
    Ladder::bar(20_000, &stock(list), false, Units::Kg)
}

fn entry(load: &str, needs: &str) -> Entry {
    serde_yaml::from_str(&format!(
        "{{id: x, name: X, pattern: squat, kind: compound, direct: [quads], needs: {needs}, level: 1, sides: both,
           load: {load}, measure: reps, reps: [1, 20], setup_s: 30}}"
    ))
    .unwrap()
}

/// EQ-04: the exact pound.
#[test]
fn pounds_are_exact() {
    assert!((to_kg(45.0, Units::Lb) - 20.411_656_65).abs() < 1e-5, "EQ-04");
    assert!((to_kg(225.0, Units::Lb) - 102.058_283_25).abs() < 1e-5, "EQ-04");
    assert!((100.0 / KG_PER_LB - 220.462_26).abs() < 1e-5, "EQ-04");
    assert_eq!(mass_text(to_kg(95.0, Units::Lb), Units::Lb), "95 lb");
}

/// EQ-05: 100 kg is 25 + 15 a side, 62.5 is 20 + 1.25, 61 cannot be loaded: 60 or 62.5.
#[test]
fn plates_per_side_give_the_handbook_s_examples() {
    let all = [(25.0, 2), (20.0, 2), (15.0, 2), (10.0, 2), (5.0, 2), (2.5, 2), (1.25, 2)];
    let ladder = kg_bar(&all);
    assert_eq!(ladder.plates_text(100.0).as_deref(), Some("each side 25 + 15 kg"), "EQ-05");
    assert_eq!(ladder.plates_text(62.5).as_deref(), Some("each side 20 + 1.25 kg"), "EQ-05");
    assert_eq!(ladder.at_most(61.0), Some(60.0), "EQ-05");
    assert_eq!(ladder.next_above(61.0), Some(62.5), "EQ-05");
    assert_eq!(ladder.plates_text(20.0).as_deref(), Some("no plates"));
}

/// EQ-06: greedy takes 20 and stops; the exact search finds 15 + 15.
#[test]
fn odd_stock_is_searched_exactly() {
    let ladder = kg_bar(&[(20.0, 2), (15.0, 4)]);
    assert_eq!(ladder.plates_text(80.0).as_deref(), Some("each side 15 + 15 kg"), "EQ-06");
}

/// EQ-02: with 0.5 kg discs the smallest jump is 1 kg. EQ-03: usual plates give 2.5 kg, pounds 5 lb.
#[test]
fn the_smallest_jump_is_a_pair_of_the_smallest_plates() {
    let small = kg_bar(&[(20.0, 2), (0.5, 2)]);
    assert_eq!(small.next_above(20.0), Some(21.0), "EQ-02");
    let usual = ladder(&entry("bar-total", "[[barbell]]"), &place("[barbell]"), Units::Kg).unwrap();
    assert_eq!(usual.next_above(40.0), Some(42.5), "EQ-03");
    let pounds =
        ladder(&entry("bar-total", "[[barbell]]"), &place("[barbell]"), Units::Lb).unwrap();
    let next = pounds.next_above(to_kg(95.0, Units::Lb) + 0.001).unwrap();
    assert_eq!(pounds.text(next), "100 lb", "EQ-03");
}

#[test]
fn an_odd_piece_stays_on_the_floor() {
    let ladder = kg_bar(&[(10.0, 3)]);
    assert_eq!(ladder.loads().collect::<Vec<_>>(), vec![20.0, 40.0]);
}

#[test]
fn a_place_with_no_plates_has_the_empty_bar() {
    let ladder = ladder(
        &entry("bar-total", "[[barbell]]"),
        &place("{barbell: {mass_kg: 15}, plates_kg: {}}"),
        Units::Kg,
    )
    .unwrap();
    assert_eq!(ladder.loads().collect::<Vec<_>>(), vec![15.0]);
    assert_eq!(ladder.at_most(14.9), None);
}

#[test]
fn racks_follow_what_the_place_says() {
    let lateral = entry("per-hand", "[[dumbbells], [kettlebell]]");
    let loads = |text: &str| -> Vec<f64> {
        let ladder = ladder(&lateral, &place(text), Units::Kg);
        ladder.map(|ladder| ladder.loads().collect()).unwrap_or_default()
    };
    assert_eq!(
        loads("{dumbbells: {from_kg: 4, to_kg: 10, step_kg: 2}}"),
        vec![4.0, 6.0, 8.0, 10.0]
    );
    assert_eq!(loads("{dumbbells: {masses_kg: [5, 7.5]}}"), vec![5.0, 7.5]);
    assert_eq!(loads("{kettlebell: {masses_kg: [8, 12, 12, 16]}}"), vec![12.0]);
    assert_eq!(loads("{dumbbells: 6}")[..3], [1.0, 2.0, 3.0]);
    assert_eq!(loads("{dumbbells: 0}"), Vec::<f64>::new());
    assert_eq!(loads("[barbell]"), Vec::<f64>::new());
}

#[test]
fn a_landmine_takes_single_plates_and_a_leg_press_pairs() {
    let kit = place("{barbell: 1, landmine: 1, leg-press: 1, plates_kg: {10: 3}}");
    let landmine = ladder(&entry("bar-total", "[[landmine, barbell]]"), &kit, Units::Kg).unwrap();
    assert_eq!(landmine.loads().collect::<Vec<_>>(), vec![20.0, 30.0, 40.0, 50.0]);
    let press = ladder(&entry("plate-machine", "[[leg-press]]"), &kit, Units::Kg).unwrap();
    assert_eq!(press.loads().collect::<Vec<_>>(), vec![20.0]);
}

/// Every subset of up to seven pieces a side, by brute force.
fn exhaustive(pieces: &[u32]) -> BTreeMap<u32, usize> {
    let mut sums = BTreeMap::new();
    for subset in pieces.iter().copied().powerset() {
        let sum: u32 = subset.iter().sum();
        let fewest = sums.entry(sum).or_insert(subset.len());
        *fewest = subset.len().min(*fewest);
    }
    sums
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 128, ..ProptestConfig::default() })]

    #[test]
    fn plates_match_the_exhaustive_search(
        stock in proptest::collection::btree_map(prop::sample::select(vec![500_u32, 1250, 2500, 5000, 7500, 10_000, 15_000, 20_000]), 0_u32..6, 0..5)
    ) {
        let pieces: Vec<u32> =
            stock.iter().flat_map(|(mass, count)| std::iter::repeat_n(*mass, (count / 2) as usize)).collect();
        let want = exhaustive(&pieces);
        let ladder = Ladder::bar(20_000, &stock, false, Units::Kg);
        let got: BTreeMap<u32, usize> =
            ladder.rungs.iter().map(|(mass, side)| ((mass - 20_000) / 2, side.len())).collect();
        prop_assert_eq!(got, want);
        for (mass, side) in &*ladder.rungs {
            prop_assert_eq!(20_000 + 2 * side.iter().sum::<u32>(), *mass);
            for plate in side {
                let used = u32::try_from(side.iter().filter(|other| *other == plate).count()).unwrap();
                prop_assert!(2 * used <= stock[plate]);
            }
        }
    }

    #[test]
    fn rounding_never_goes_up_and_stays_on_a_rung(load in 0.0_f64..300.0) {
        let ladder = kg_bar(&[(20.0, 4), (10.0, 2), (2.5, 2)]);
        if let Some(made) = ladder.at_most(load) {
            prop_assert!(made <= load + 0.0005 && ladder.makes(made));
            prop_assert!(ladder.next_above(made).is_none_or(|next| next > load - 0.0005));
        } else {
            prop_assert!(load < 20.0);
        }
    }
}
