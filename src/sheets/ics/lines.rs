//! Content lines of RFC 5545: escaped (3.3.11), folded at 75 octets (3.1), ended by CRLF.

/// The most octets of a line without its break.
const OCTETS: usize = 75;

/// A calendar under way.
#[derive(Default)]
pub(super) struct Lines(String);

impl Lines {
    /// A property whose value has nothing to escape.
    pub(super) fn plain(&mut self, name: &str, value: &str) {
        self.0.push_str(&fold(&format!("{name}:{value}")));
    }

    /// A property whose value is text.
    pub(super) fn text(&mut self, name: &str, value: &str) {
        self.plain(name, &escape(value));
    }

    /// The calendar's text.
    pub(super) fn finish(self) -> String {
        self.0
    }
}

/// Backslash, semicolon and comma are led by a backslash; a line break is `\n`.
fn escape(text: &str) -> String {
    let mut escaped = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '\\' | ';' | ',' => escaped.extend(['\\', c]),
            '\n' => escaped.push_str("\\n"),
            c if c.is_control() => {}
            c => escaped.push(c),
        }
    }
    escaped
}

/// The line with its breaks: further parts start with a space that counts toward their octets, and
/// no character is split.
fn fold(line: &str) -> String {
    let mut folded = String::with_capacity(line.len() + line.len() / 30);
    let mut used = 0;
    for c in line.chars() {
        if used + c.len_utf8() > OCTETS {
            folded.push_str("\r\n ");
            used = 1;
        }
        folded.push(c);
        used += c.len_utf8();
    }
    folded + "\r\n"
}

#[cfg(test)]
mod tests {
    use super::{escape, fold};

    /// RFC 5545 section 3.1: at most 75 octets, and a fold is a line break and one space.
    #[test]
    fn a_line_of_92_octets_folds_into_75_and_17() {
        let folded = fold(&format!("DESCRIPTION:{}", "a".repeat(80)));
        let lines: Vec<&str> = folded.split("\r\n").collect();
        assert_eq!(lines[0], format!("DESCRIPTION:{}", "a".repeat(63)));
        assert_eq!(lines[1], format!(" {}", "a".repeat(17)));
        assert_eq!(lines[2], "");
    }

    #[test]
    fn a_fold_never_splits_a_character() {
        for shift in 0..4 {
            let line = format!("{}{}", "x".repeat(shift), "🚣é".repeat(60));
            let folded = fold(&line);
            assert!(folded.split("\r\n").all(|part| part.len() <= 75));
            assert_eq!(folded.replace("\r\n ", "").trim_end(), line);
        }
    }

    /// RFC 5545 section 3.3.11.
    #[test]
    fn text_is_escaped() {
        assert_eq!(escape("Row; 3x8, rest"), "Row\\; 3x8\\, rest");
        assert_eq!(escape("a\\b\nc\u{7}"), "a\\\\b\\nc");
    }
}
