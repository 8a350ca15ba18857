//! One text for several weeks, naming the weeks only where they differ.

/// `rest 2 min` where every week says so; else `take 42.5 kg (week 1) / 45 kg (week 2) next time`,
/// or `week 1: …; week 2: …` where the texts have little in common. Weeks that say nothing are left
/// out.
pub(super) fn by_week(texts: impl Iterator<Item = (u32, String)>) -> String {
    let texts: Vec<(u32, String)> = texts.collect();
    let weeks = texts.len();
    let mut spells: Vec<(u32, u32, String)> = Vec::new();
    for (week, text) in texts {
        match spells.last_mut() {
            Some((_, last, said)) if *said == text && *last + 1 == week => *last = week,
            _ => spells.push((week, week, text)),
        }
    }
    spells.retain(|(_, _, text)| !text.is_empty());
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

/// Whether the spells stand for every week, though not one after the other.
fn covers(spells: &[(u32, u32, String)], weeks: usize) -> bool {
    let said: u32 = spells.iter().map(|(first, last, _)| last - first + 1).sum();
    usize::try_from(said) == Ok(weeks)
}

fn span(first: u32, last: u32) -> String {
    if first == last { format!("week {first}") } else { format!("weeks {first}-{last}") }
}

fn one_by_one(spells: &[(u32, u32, String)]) -> String {
    let said = spells.iter().map(|(first, last, text)| {
        let text = text.trim_end_matches('.');
        format!("{}: {text}", span(*first, *last))
    });
    said.collect::<Vec<_>>().join("; ")
}

/// The texts told once, with only the words that differ told per week; `None` where the texts are
/// not of one length, or fewer than half of their words are common: a mixture would be misread.
fn in_common(spells: &[(u32, u32, String)]) -> Option<String> {
    let words: Vec<Vec<&str>> =
        spells.iter().map(|(_, _, text)| text.split(' ').collect()).collect();
    let first = words.first()?;
    let length = first.len();
    if spells.len() < 2 || words.iter().any(|words| words.len() != length) {
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
    let middle: Vec<String> = spells
        .iter()
        .zip(&words)
        .map(|((from, to, _), words)| {
            format!("{} ({})", words[start..length - end].join(" "), span(*from, *to))
        })
        .collect();
    let mut all = first[..start].join(" ");
    for part in [middle.join(" / "), first[length - end..].join(" ")] {
        if !all.is_empty() && !part.is_empty() {
            all.push(' ');
        }
        all.push_str(&part);
    }
    Some(all)
}

#[cfg(test)]
mod tests {
    use super::by_week;

    fn tell(texts: &[&str]) -> String {
        by_week((1..).zip(texts.iter().map(|text| (*text).to_owned())))
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
        assert_eq!(tell(&["RIR 3", "RIR 2"]), "week 1: RIR 3; week 2: RIR 2");
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
