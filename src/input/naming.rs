//! Exercises by what people call them: the id, the name on the card, other names of the trade, in any case. What is near
//! is so by the meaning of its words: a lift is never answered with another lift that is only spelled alike.

use std::collections::{BTreeMap, BTreeSet};

use super::catalog::Entry;
use super::profile::Profile;
use crate::words::{Kit, Muscle, Pattern};

/// Other names of the trade, with the exercise that each one means. Common practice.
const OTHER_NAMES: &[(&str, &str)] = &[
    ("rdl", "romanian-deadlift"),
    ("dumbbell rdl", "dumbbell-romanian-deadlift"),
    ("conventional deadlift", "deadlift"),
    ("barbell deadlift", "deadlift"),
    ("hex bar deadlift", "trap-bar-deadlift"),
    ("squat", "back-squat"),
    ("barbell squat", "back-squat"),
    ("barbell back squat", "back-squat"),
    ("barbell front squat", "front-squat"),
    ("air squat", "bodyweight-squat"),
    ("pause squat", "paused-back-squat"),
    ("smith squat", "smith-machine-squat"),
    ("bulgarian split squat", "rear-foot-raised-split-squat"),
    ("rear foot elevated split squat", "rear-foot-raised-split-squat"),
    ("dumbbell bulgarian split squat", "dumbbell-rear-foot-raised-split-squat"),
    ("pistol squat", "single-leg-squat"),
    ("lateral lunge", "side-lunge"),
    ("bench", "bench-press"),
    ("flat bench press", "bench-press"),
    ("incline barbell bench press", "incline-bench-press"),
    ("incline dumbbell bench press", "incline-dumbbell-press"),
    ("chest press machine", "machine-chest-press"),
    ("press up", "push-up"),
    ("parallel bar dip", "dip"),
    ("chest fly", "dumbbell-fly"),
    ("pec fly", "dumbbell-fly"),
    ("military press", "overhead-press"),
    ("strict press", "overhead-press"),
    ("ohp", "overhead-press"),
    ("dumbbell shoulder press", "dumbbell-overhead-press"),
    ("seated dumbbell shoulder press", "seated-dumbbell-overhead-press"),
    ("shoulder press machine", "machine-shoulder-press"),
    ("side raise", "lateral-raise"),
    ("lat raise", "lateral-raise"),
    ("side lateral raise", "lateral-raise"),
    ("reverse fly", "rear-raise"),
    ("rear delt raise", "rear-raise"),
    ("rear delt fly", "rear-raise"),
    ("bent over row", "barbell-row"),
    ("one arm dumbbell row", "one-arm-row"),
    ("single arm dumbbell row", "one-arm-row"),
    ("single arm row", "one-arm-row"),
    ("cable row", "seated-cable-row"),
    ("low row", "seated-cable-row"),
    ("australian pull up", "inverted-row"),
    ("negative pull up", "lowering-pull-up"),
    ("pull down", "lat-pulldown"),
    ("skull crusher", "lying-triceps-extension"),
    ("pushdown", "triceps-pressdown"),
    ("triceps pushdown", "triceps-pressdown"),
    ("tricep pushdown", "triceps-pressdown"),
    ("tricep extension", "overhead-triceps-extension"),
    ("kickback", "dumbbell-kickback"),
    ("dumbbell curl", "biceps-curl"),
    ("bicep curl", "biceps-curl"),
    ("lying leg curl", "leg-curl"),
    ("hamstring curl", "leg-curl"),
    ("nordic hamstring curl", "nordic-curl"),
    ("hyperextension", "back-extension"),
    ("barbell hip thrust", "hip-thrust"),
    ("bridge", "glute-bridge"),
    ("hip abductor machine", "machine-hip-abduction"),
    ("standing calf raise", "calf-raise"),
    ("seated calf raise", "dumbbell-seated-calf-raise"),
    ("farmer walk", "farmer-carry"),
    ("farmers walk", "farmer-carry"),
    ("suitcase walk", "suitcase-carry"),
    ("ab wheel", "ab-wheel-rollout"),
    ("ab rollout", "ab-wheel-rollout"),
    ("russian twist", "weighted-seated-twist"),
    ("superman", "prone-arch-hold"),
    ("long jump", "broad-jump"),
];

/// Words that are written short.
const SHORT: &[(&str, &str)] = &[
    ("db", "dumbbell"),
    ("bb", "barbell"),
    ("kb", "kettlebell"),
    ("bw", "bodyweight"),
    ("ghr", "glute ham raise"),
];

/// The id of what was typed: an id, a name or another name of the trade, in any case, with or without dashes and plurals.
#[must_use]
pub fn id_of<'a>(typed: &str, entries: &'a BTreeMap<String, Entry>) -> Option<&'a str> {
    if let Some((id, _)) = entries.get_key_value(typed) {
        return Some(id);
    }
    let wanted = letters(typed);
    if wanted.is_empty() {
        return None;
    }
    let by_id = entries.keys().find(|id| letters(id) == wanted).map(String::as_str);
    let by_name = || {
        let named = entries.values().find(|entry| letters(&entry.name) == wanted);
        named.map(|entry| entry.id.as_str())
    };
    let other = || {
        let (_, id) = OTHER_NAMES.iter().find(|(name, _)| letters(name) == wanted)?;
        entries.get_key_value(*id).map(|(id, _)| id.as_str())
    };
    by_id.or_else(by_name).or_else(other)
}

/// A profile with ids wherever an exercise was called by a name. What no exercise is called stays as it is.
#[must_use]
pub fn with_ids(mut profile: Profile, entries: &BTreeMap<String, Entry>) -> Profile {
    let id = |typed: &String| id_of(typed, entries).map_or_else(|| typed.clone(), str::to_owned);
    let lists = &mut profile.exercises;
    let painless = profile.screening.as_mut().map(|answers| &mut answers.painless);
    let wishes = [&mut lists.must, &mut lists.prefer, &mut lists.avoid, &mut lists.never];
    for list in wishes.into_iter().chain(painless) {
        *list = list.iter().map(id).collect();
    }
    let lifts = std::mem::take(&mut profile.known_lifts);
    profile.known_lifts = lifts.into_iter().map(|(typed, lift)| (id(&typed), lift)).collect();
    profile
}

/// What the exercises are called, written out once for many questions.
pub struct Index<'a> {
    /// Each id with the words of its names, and the letters of id and name.
    entries: Vec<(&'a str, Vec<String>, [String; 2])>,
}

impl<'a> Index<'a> {
    /// The names of some exercises.
    #[must_use]
    pub fn new(entries: &'a BTreeMap<String, Entry>) -> Index<'a> {
        let called = |entry: &'a Entry| {
            let names = [letters(&entry.id), letters(&entry.name)];
            (entry.id.as_str(), words_of(entry), names)
        };
        Index { entries: entries.values().map(called).collect() }
    }

    /// What may have been meant: exercises that have all the words that were typed, the shortest name first; else those
    /// of which an id or a name is a slip of the pen away. At most three.
    #[must_use]
    pub fn near(&self, typed: &str) -> Vec<&'a str> {
        const MOST: usize = 3;
        let wanted = words(typed);
        if wanted.is_empty() {
            return Vec::new();
        }
        let has_all = |words: &[String]| wanted.iter().all(|word| words.contains(word));
        let all = self.entries.iter().filter(|(_, words, _)| has_all(words));
        let mut found: Vec<(usize, &str)> = all.map(|(id, words, _)| (words.len(), *id)).collect();
        if found.is_empty() {
            let wanted = letters(typed);
            let slips = (wanted.chars().count() / 6).clamp(1, 3);
            let away = |name: &String| strsim::osa_distance(name, &wanted);
            let each = self.entries.iter();
            let each = each.map(|(id, _, [by_id, name])| (away(by_id).min(away(name)), *id));
            found = each.filter(|(away, _)| *away <= slips).collect();
            let least = found.iter().map(|(away, _)| *away).min();
            found.retain(|(away, _)| Some(*away) == least);
        }
        found.sort_unstable();
        found.into_iter().take(MOST).map(|(_, id)| id).collect()
    }
}

/// The same for one question.
#[must_use]
pub fn near<'a>(typed: &str, entries: &'a BTreeMap<String, Entry>) -> Vec<&'a str> {
    Index::new(entries).near(typed)
}

/// What to type instead of what is no exercise.
#[must_use]
pub fn help(typed: &str, entries: &BTreeMap<String, Entry>) -> String {
    match near(typed, entries).as_slice() {
        [] => {
            let words = words(typed).join(" ");
            let words = if words.is_empty() { "WORDS".to_owned() } else { words };
            format!("`weekwright catalog find {words}` looks through names, muscles and kit")
        }
        [one] => format!("did you mean `{one}`?"),
        several => format!("did you mean {}?", super::suggest::list(several)),
    }
}

/// Exercises that have all the words in names, muscles, kit or pattern, those by name first; where none has all, those
/// that have most of them.
#[must_use]
pub fn find<'a>(typed: &str, entries: &'a BTreeMap<String, Entry>) -> Vec<&'a Entry> {
    let wanted = words(typed);
    let begins = |words: &[String], wanted: &String| {
        words.iter().any(|word| word.starts_with(wanted.as_str()))
    };
    let mut found: Vec<(usize, usize, usize, &Entry)> = Vec::new();
    for entry in entries.values() {
        let names = words_of(entry);
        let more = words_about(entry);
        let by_name = wanted.iter().filter(|word| begins(&names, word)).count();
        let all = wanted.iter().filter(|word| begins(&names, word) || begins(&more, word)).count();
        if all > 0 {
            found.push((wanted.len() - all, wanted.len() - by_name, names.len(), entry));
        }
    }
    let least = found.iter().map(|(lacks, ..)| *lacks).min();
    found.retain(|(lacks, ..)| Some(*lacks) == least);
    found.sort_by(|a, b| (a.0, a.1, a.2, &a.3.id).cmp(&(b.0, b.1, b.2, &b.3.id)));
    found.into_iter().map(|(.., entry)| entry).collect()
}

/// The words of a text, in small letters, without plurals, short forms written out.
fn words(text: &str) -> Vec<String> {
    let plain = text.to_lowercase();
    let parts = plain.split(|letter: char| !letter.is_alphanumeric() && letter != '\'');
    let parts = parts.map(|part| part.replace("'s", "").replace('\'', ""));
    let written_out = |part: String| -> Vec<String> {
        let short = SHORT.iter().find(|(short, _)| *short == part);
        short.map_or_else(
            || vec![singular(&part)],
            |(_, long)| long.split(' ').map(singular).collect(),
        )
    };
    parts.filter(|part| !part.is_empty()).flat_map(written_out).collect()
}

fn singular(word: &str) -> String {
    let is_plural = word.len() > 2 && word.ends_with('s') && !word.ends_with("ss");
    // `biceps` and `triceps` are no plurals.
    let is_plural = is_plural && !word.ends_with("ceps");
    if is_plural { word[..word.len() - 1].to_owned() } else { word.to_owned() }
}

/// A text without spaces and signs, so that `pull ups`, `Pull-up` and `pullup` are the same.
fn letters(text: &str) -> String {
    words(text).concat()
}

/// The words of an entry's id, name and other names.
fn words_of(entry: &Entry) -> Vec<String> {
    let others = OTHER_NAMES.iter().filter(|(_, id)| *id == entry.id).map(|(name, _)| *name);
    let all = [entry.id.as_str(), entry.name.as_str()].into_iter().chain(others);
    let all: BTreeSet<String> = all.flat_map(words).collect();
    all.into_iter().collect()
}

/// The words of its muscles, kit and pattern.
fn words_about(entry: &Entry) -> Vec<String> {
    let muscles = entry.direct.iter().chain(&entry.muscles).copied().map(Muscle::id);
    let kit = entry.needs.iter().flatten().copied().map(Kit::id);
    let pattern = entry.pattern.map(Pattern::id);
    muscles.chain(kit).chain(pattern).flat_map(words).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::catalog::Catalog;

    #[test]
    fn every_other_name_means_an_exercise_and_no_other_ones_name() {
        let catalog = Catalog::built_in();
        for (name, id) in OTHER_NAMES {
            assert!(catalog.contains(id), "{name}: {id}");
            assert_eq!(id_of(name, catalog.entries()), Some(*id), "{name}");
        }
    }

    #[test]
    fn every_name_on_a_card_leads_to_its_exercise() {
        let catalog = Catalog::built_in();
        for entry in catalog.iter() {
            for typed in [&entry.id, &entry.name, &entry.name.to_uppercase()] {
                assert_eq!(id_of(typed, catalog.entries()), Some(entry.id.as_str()), "{typed}");
            }
        }
    }

    #[test]
    fn a_lift_is_never_answered_with_another() {
        let catalog = Catalog::built_in();
        let entries = catalog.entries();
        assert_eq!(id_of("Sumo deadlift", entries), Some("wide-stance-deadlift"));
        assert_eq!(id_of("db rdl", entries), Some("dumbbell-romanian-deadlift"));
        assert_eq!(id_of("Pull ups", entries), Some("pull-up"));
        assert_eq!(id_of("zercher squat", entries), None);
        assert!(near("zercher squat", entries).is_empty());
        assert_eq!(near("goblet-squatt", entries), ["goblet-squat"]);
        assert_eq!(near("sumo deadlfit", entries), ["wide-stance-deadlift"]);
        for id in near("machine press", entries) {
            assert!(id.contains("press"), "{id}");
        }
        assert!(help("zercher squat", entries).contains("catalog find zercher squat"));
        assert!(near("", entries).is_empty() && id_of("--", entries).is_none());
    }

    #[test]
    fn words_are_looked_for_in_names_muscles_and_kit() {
        let catalog = Catalog::built_in();
        let found = find("hamstrings kettlebell", catalog.entries());
        assert!(found.len() > 2, "{found:?}");
        assert!(
            found.iter().all(|entry| entry
                .needs
                .iter()
                .flatten()
                .any(|kit| *kit == Kit::Kettlebell))
        );
        assert_eq!(find("rdl", catalog.entries())[0].id, "romanian-deadlift");
        assert!(find("umbrella", catalog.entries()).is_empty());
    }
}
