//! The text that a phone makes of a card is read back by the record.

use weekwright::book::slot;
use weekwright::book::written::{Context, lines};
use weekwright::catalog::Catalog;
use weekwright::diagnostic::Source;
use weekwright::sheets::Options;
use weekwright::words::Units;

use crate::page::tags;
use crate::sample::{sheet_of, weeks};

/// Every line that a phone makes of a whole card is read back by the record, and says what was planned.
#[test]
fn the_text_of_a_card_is_read_back() {
    let catalog = Catalog::built_in();
    let plan = weeks(4);
    let html = sheet_of("html", &plan, &Options::default());
    let attribute = |tag: &str, name: &str| -> Option<String> {
        let from = tag.find(&format!(" {name}=\""))? + name.len() + 3;
        Some(tag[from..from + tag[from..].find('"')?].to_owned())
    };
    let mut read = 0;
    // The script names cells as well.
    let cards = html.split("<script").next().unwrap();
    for row in cards.split("<tr data-id=").skip(1) {
        let id = row.trim_start_matches('"').split('"').next().unwrap();
        for cell in row.split("data-n=\"").skip(1) {
            let week: u32 = cell.split('"').next().unwrap().parse().unwrap();
            let sets: Vec<String> =
                tags(cell).iter().filter_map(|tag| attribute(tag, "data-set")).collect();
            if sets.is_empty() {
                continue;
            }
            let load = tags(cell).into_iter().find(|tag| tag.contains("data-after"));
            let value =
                load.and_then(|tag| attribute(tag, "value")).filter(|value| !value.is_empty());
            // What the client writes where a load is to be found.
            let value = load.map(|_| value.unwrap_or_else(|| "10".to_owned()));
            let [before, after] = ["data-before", "data-after"]
                .map(|name| load.and_then(|tag| attribute(tag, name)).unwrap_or_default());
            let is_plain = value.as_ref().is_some_and(|value| value.parse::<f64>().is_ok());
            let word = value.map(|value| {
                if is_plain { format!("{before}{value}{after} ") } else { format!("{value} ") }
            });
            let line = format!("{id} {}{}", word.unwrap_or_default(), sets.join(" "));
            let sessions =
                plan.weeks.iter().filter(|one| one.week == week).flat_map(|one| &one.sessions);
            let items: Vec<_> = sessions.flat_map(slot::work).collect();
            let context = Context {
                items: &items,
                entries: catalog.entries(),
                units: Units::Kg,
                lightest_kg: &|_| None,
            };
            let done = lines(&Source::new("the card", &line), &context)
                .unwrap_or_else(|faults| panic!("{line}: {faults:?}"));
            assert_eq!(
                (done.len(), done[0].sets.len(), done[0].exercise.as_str()),
                (1, sets.len(), id),
                "{line}"
            );
            let grams = |load_kg| weekwright::book::done::grams(load_kg);
            let loads: Vec<_> = items
                .iter()
                .filter(|item| item.exercise == id)
                .map(|item| item.load_kg.map(grams))
                .collect();
            let written = done[0].sets[0].load.grams();
            // Conditioning is no work that has a load.
            let is_planned = loads.is_empty() || loads.contains(&None) || loads.contains(&written);
            assert!(is_planned, "{line}: {done:?}");
            read += 1;
        }
    }
    assert!(read > 12, "{read} lines");
}
