//! One text for several weeks, naming the weeks only where they differ.

use crate::sheets::wording::say;

/// What each week says that has the exercise.
pub(super) type Said = Vec<(u32, String)>;

/// A run of weeks with the same text: first week, last week, text.
type Spell = (u32, u32, String);

/// `rest 2 min` where every week says so; else `take 42.5 kg (week 1) / 45 kg (week 2) next time`,
/// or `week 1: …; week 2: …` where the texts have little in common. Weeks that say nothing are left
/// out.
pub(super) fn by_week(texts: &Said) -> String {
    let weeks = texts.len();
    let spells = spells(texts);
    match spells.as_slice() {
        [] => String::new(),
        [(first, last, text)]
            if usize::try_from(last - first).is_ok_and(|ahead| ahead + 1 == weeks) =>
        {
            text.clone()
        }
        _ if spells.windows(2).all(|pair| pair[0].2 == pair[1].2) && covers(&spells, weeks) => {
            spells[0].2.clone()
        }
        spells => in_common(spells).unwrap_or_else(|| one_by_one(spells)),
    }
}

fn spells(texts: &Said) -> Vec<Spell> {
    let mut spells: Vec<Spell> = Vec::new();
    for (week, text) in texts {
        match spells.last_mut() {
            Some((_, last, said)) if said == text && last.checked_add(1) == Some(*week) => {
                *last = *week;
            }
            _ => spells.push((*week, *week, text.clone())),
        }
    }
    spells.retain(|(_, _, text)| !text.is_empty());
    spells
}

/// Whether the spells stand for every week, though not one after the other.
fn covers(spells: &[Spell], weeks: usize) -> bool {
    let said: u32 = spells.iter().map(|(first, last, _)| last - first + 1).sum();
    usize::try_from(said) == Ok(weeks)
}

fn span(first: u32, last: u32) -> String {
    if first == last { say!(in_week, week = first) } else { say!(in_weeks, first, last) }
}

fn one_by_one(spells: &[Spell]) -> String {
    let said = spells.iter().map(|(first, last, text)| {
        let text = text.trim_end_matches('.');
        format!("{}: {text}", span(*first, *last))
    });
    said.collect::<Vec<_>>().join("; ")
}

/// The texts told once, with only the words that differ told per week.
fn in_common(spells: &[Spell]) -> Option<String> {
    let texts: Vec<&str> = spells.iter().map(|(_, _, text)| text.as_str()).collect();
    let (start, end, middles) = split(&texts)?;
    let told = spells.iter().zip(&middles);
    let told: Vec<String> =
        told.map(|((from, to, _), middle)| format!("{middle} ({})", span(*from, *to))).collect();
    Some(joined(&start, &told.join(" / "), &end))
}

/// The sentence with a mark where the weeks differ, and what each week has there: for a sheet that
/// has room for it in the week's own column.
pub(super) fn marked(texts: &Said, mark: &str) -> Option<(String, Vec<(u32, String)>)> {
    if texts.iter().any(|(_, text)| text.is_empty()) {
        return None;
    }
    let all: Vec<&str> = texts.iter().map(|(_, text)| text.as_str()).collect();
    let (start, end, middles) = split(&all)?;
    let weeks = texts.iter().map(|(week, _)| *week);
    Some((joined(&start, mark, &end), weeks.zip(middles).collect()))
}

fn joined(start: &str, middle: &str, end: &str) -> String {
    let parts = [start, middle, end].into_iter().filter(|part| !part.is_empty());
    parts.collect::<Vec<_>>().join(" ")
}

/// The words that all texts start with, those that all end with, and what each has between; `None`
/// where the texts are the same, are not of one length, or share fewer than half of their words: a
/// mixture would be misread.
fn split(texts: &[&str]) -> Option<(String, String, Vec<String>)> {
    let words: Vec<Vec<&str>> = texts.iter().map(|text| text.split(' ').collect()).collect();
    let first = words.first()?;
    let length = first.len();
    if words.iter().any(|words| words.len() != length) || words.iter().all(|words| words == first) {
        return None;
    }
    let same = |at: usize| words.iter().all(|words| words[at] == first[at]);
    let start = (0..length - 1).take_while(|at| same(*at)).count();
    let mut end = (start + 1..length).rev().take_while(|at| same(*at)).count();
    if end > 0 && matches!(first[length - end], "kg" | "lb" | "%" | "×") {
        end -= 1;
    }
    if (start + end) * 2 < length {
        return None;
    }
    let middles = words.iter().map(|words| words[start..length - end].join(" ")).collect();
    Some((first[..start].join(" "), first[length - end..].join(" "), middles))
}

#[cfg(test)]
mod tests {
    use super::by_week;

    fn tell(texts: &[&str]) -> String {
        by_week(&(1..).zip(texts.iter().map(|text| (*text).to_owned())).collect())
    }

    #[test]
    fn weeks_that_agree_are_told_once() {
        assert_eq!(tell(&["rest 2 min", "rest 2 min"]), "rest 2 min");
        assert_eq!(tell(&["", ""]), "");
    }

    #[test]
    fn weeks_that_differ_are_named() {
        assert_eq!(
            tell(&["take 42.5 kg next time.", "take 45 kg next time.", "take 45 kg next time."]),
            "take 42.5 kg (week 1) / 45 kg (weeks 2-3) next time."
        );
        assert_eq!(tell(&["RIR 3", "RIR 2"]), "RIR 3 (week 1) / 2 (week 2)");
        assert_eq!(tell(&["", "tempo 3-0-1-0"]), "week 2: tempo 3-0-1-0");
        assert_eq!(
            tell(&["20 kg × 8, 30 kg × 4", "20 kg × 8, 32.5 kg × 4"]),
            "20 kg × 8, 30 kg (week 1) / 32.5 kg (week 2) × 4"
        );
    }

    #[test]
    fn texts_of_different_length_are_told_one_by_one() {
        assert_eq!(
            tell(&["10 kg plates on each side", "10 and 1.25 kg plates on each side"]),
            "week 1: 10 kg plates on each side; week 2: 10 and 1.25 kg plates on each side"
        );
    }
}
