//! Text from files made fit for one printed line.

/// The text on one line: line breaks and tabs become spaces, and characters that steer a terminal
/// or turn the reading direction of what follows are left out.
pub(crate) fn line(text: &str) -> String {
    let plain: String = text
        .chars()
        .filter_map(|c| match c {
            '\n' | '\r' | '\t' | '\u{2028}' | '\u{2029}' | '\u{85}' => Some(' '),
            c if c.is_control() || turns_direction(c) => None,
            c => Some(c),
        })
        .collect();
    plain.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// Marks that change the direction of the text after them, and would rearrange a whole line.
const fn turns_direction(c: char) -> bool {
    matches!(c, '\u{200e}' | '\u{200f}' | '\u{61c}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
}

#[cfg(test)]
mod tests {
    use super::line;

    #[test]
    fn a_line_keeps_letters_and_drops_what_steers() {
        assert_eq!(line("tide\r\n\t01"), "tide 01");
        assert_eq!(line("\u{1b}[31mred"), "[31mred");
        assert_eq!(line("abc\u{202e}def"), "abcdef");
        assert_eq!(line("גלים 🚣"), "גלים 🚣");
    }
}
