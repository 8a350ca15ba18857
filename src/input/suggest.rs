//! The nearest valid word to one that is not.

/// The nearest of the words, if one is near enough to be what was meant.
#[must_use]
pub fn nearest<'a>(word: &str, words: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    /// No word of ours has so many letters.
    const MOST: usize = 80;
    let typed = spelled(word);
    if typed.len() > 4 * MOST || typed.chars().count() > MOST {
        return None;
    }
    let reach = (typed.chars().count() / 3).clamp(1, 4);
    words
        .into_iter()
        .map(|candidate| (distance(&typed, &spelled(candidate)), candidate))
        .filter(|(distance, _)| *distance <= reach)
        .min()
        .map(|(_, candidate)| candidate)
}

/// Edits between two words; a word that is a whole part of the other counts as near.
fn distance(typed: &str, candidate: &str) -> usize {
    let edits = strsim::osa_distance(typed, candidate);
    let (short, long) =
        if typed.len() < candidate.len() { (typed, candidate) } else { (candidate, typed) };
    let is_part = short.len() >= 4 && long.split('-').any(|part| part == short);
    let is_end = short.len() >= 4 && (long.starts_with(short) || long.ends_with(short));
    // Whole names of days and the like: `monday` for `mon`.
    let is_spelled_out = candidate.len() >= 3 && typed.starts_with(candidate);
    if is_part || is_end || is_spelled_out {
        edits.min(1 + (long.len() - short.len()) / 8)
    } else {
        edits
    }
}

/// People write `Lat Pulldown`, `lat_pulldown` and `lat-pulldown` for the same thing.
fn spelled(word: &str) -> String {
    word.trim().to_lowercase().replace([' ', '_'], "-")
}

/// A help line: the nearest word, and the whole list where it is short.
#[must_use]
pub fn help(word: &str, words: &[&str], otherwise: &str) -> String {
    const SHORT: usize = 12;
    let near = nearest(word, words.iter().copied());
    let all = (words.len() <= SHORT && !words.is_empty()).then(|| list(words));
    match (near, all) {
        (Some(near), Some(all)) if words.len() > 1 => {
            format!("did you mean `{near}`? One of {all} belongs here")
        }
        (Some(near), _) => format!("did you mean `{near}`?"),
        (None, Some(all)) if words.len() > 1 => format!("one of {all} belongs here"),
        (None, Some(all)) => format!("{all} belongs here"),
        (None, None) => otherwise.to_owned(),
    }
}

/// Words in back quotes with commas between them.
#[must_use]
pub fn list(words: &[&str]) -> String {
    let quoted: Vec<String> = words.iter().map(|word| format!("`{word}`")).collect();
    quoted.join(", ")
}

#[cfg(test)]
mod tests {
    use super::nearest;

    #[test]
    fn finds_what_was_meant_and_nothing_far_off() {
        let words = ["back-squat", "front-squat", "lat-pulldown", "overhead"];
        let near = |word| nearest(word, words);
        assert_eq!(near("bakc-squat"), Some("back-squat"));
        assert_eq!(near("Lat Pulldown"), Some("lat-pulldown"));
        assert_eq!(near("lat_pulldowns"), Some("lat-pulldown"));
        assert_eq!(near("pulldown"), Some("lat-pulldown"));
        assert_eq!(nearest("Thursday", ["mon", "thu"]), Some("thu"));
        assert_eq!(near("umbrella"), None);
        assert_eq!(near(""), None);
    }
}
