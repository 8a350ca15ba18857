//! Lines of a terminal: wrapped to its width, colored where it may be.

use anstyle::{AnsiColor, Style};
use unicode_width::{UnicodeWidthChar, UnicodeWidthStr};

use crate::sheets::Options;

/// Headings and labels: bold in the terminal's own blue-green.
const HEAD: Style = AnsiColor::Cyan.on_default().bold();
/// What is read first.
const STRONG: Style = Style::new().bold();
/// What can be skipped.
const QUIET: Style = Style::new().dimmed();

/// A text under way.
pub(super) struct Page {
    text: String,
    width: usize,
    color: bool,
}

impl Page {
    pub(super) fn new(options: &Options) -> Self {
        Page { text: String::new(), width: options.width.clamp(60, 100), color: options.color }
    }

    /// The whole text.
    pub(super) fn text(&self) -> &str {
        &self.text
    }

    pub(super) const fn width(&self) -> usize {
        self.width
    }

    fn paint(&self, style: Style, text: &str) -> String {
        if self.color && !text.is_empty() {
            format!("{style}{text}{style:#}")
        } else {
            text.to_owned()
        }
    }

    /// An empty line, unless there is one already.
    pub(super) fn gap(&mut self) {
        if !self.text.is_empty() && !self.text.ends_with("\n\n") {
            self.text.push('\n');
        }
    }

    fn push(&mut self, line: &str) {
        self.text.push_str(line.trim_end());
        self.text.push('\n');
    }

    /// The first line of all.
    pub(super) fn title(&mut self, text: &str) {
        for line in wrap(text, self.width) {
            let line = self.paint(HEAD, &line);
            self.push(&line);
        }
    }

    /// The name of a section, over a rule.
    pub(super) fn heading(&mut self, text: &str) {
        self.banner(text, "");
    }

    /// A heading with something at the right edge, over a rule.
    pub(super) fn banner(&mut self, left: &str, right: &str) {
        self.gap();
        let left = cut(left, self.width.saturating_sub(right.width() + 2));
        let space = self.width.saturating_sub(left.width() + right.width());
        let line = format!(
            "{}{}{}",
            self.paint(HEAD, &left),
            " ".repeat(space),
            self.paint(STRONG, right)
        );
        self.push(&line);
        let rule = self.paint(QUIET, &"─".repeat(self.width));
        self.push(&rule);
    }

    /// Plain text, wrapped.
    pub(super) fn line(&mut self, text: &str) {
        for line in wrap(text, self.width) {
            self.push(&line);
        }
    }

    /// A line that is set out already.
    pub(super) fn line_as_is(&mut self, text: &str) {
        let line = self.paint(QUIET, text);
        self.push(&line);
    }

    /// Text that can be skipped, wrapped.
    pub(super) fn quiet(&mut self, text: &str) {
        for line in wrap(text, self.width) {
            let line = self.paint(QUIET, &line);
            self.push(&line);
        }
    }

    /// A start and a text whose further lines stand under its first.
    pub(super) fn hanging(&mut self, start: &str, text: &str) {
        self.hang(start, text, Style::new());
    }

    /// The same, in the quiet color.
    pub(super) fn quiet_hanging(&mut self, start: &str, text: &str) {
        self.hang(start, text, QUIET);
    }

    fn hang(&mut self, start: &str, text: &str, style: Style) {
        let indent = start.width();
        let lines = wrap(text, self.width.saturating_sub(indent));
        if lines.is_empty() {
            self.push(start);
        }
        for (place, line) in lines.iter().enumerate() {
            let lead = if place == 0 { start.to_owned() } else { " ".repeat(indent) };
            let line = format!("{lead}{}", self.paint(style, line));
            self.push(&line);
        }
    }

    /// Cells from the left, the first as a label, the second and third strong, the rest plain; each
    /// is padded to its width.
    pub(super) fn row(&mut self, cells: &[(&str, usize)]) {
        let mut line = String::new();
        for (place, (text, width)) in cells.iter().enumerate() {
            let style = match place {
                0 => HEAD,
                1 | 2 => STRONG,
                _ => Style::new(),
            };
            line.push_str(&self.paint(style, text));
            line.push_str(&" ".repeat(width.saturating_sub(text.width())));
        }
        self.push(&line);
    }
}

/// The text in lines of at most `width` columns, broken at spaces, inside a word only where it is
/// longer than a line.
pub(super) fn wrap(text: &str, width: usize) -> Vec<String> {
    let width = width.max(8);
    let mut lines: Vec<String> = Vec::new();
    for word in text.split(' ').flat_map(|word| pieces(word, width)) {
        match lines.last_mut() {
            Some(line) if line.width() + 1 + word.width() <= width => {
                line.push(' ');
                line.push_str(&word);
            }
            _ => lines.push(word),
        }
    }
    lines.retain(|line| !line.is_empty());
    lines
}

fn pieces(word: &str, width: usize) -> Vec<String> {
    let mut pieces = vec![String::new()];
    let mut used = 0;
    for c in word.chars() {
        let wide = c.width().unwrap_or(0);
        if used + wide > width {
            pieces.push(String::new());
            used = 0;
        }
        used += wide;
        if let Some(piece) = pieces.last_mut() {
            piece.push(c);
        }
    }
    pieces
}

/// The text cut to `width` columns, with a mark where something is missing.
fn cut(text: &str, width: usize) -> String {
    if text.width() <= width {
        return text.to_owned();
    }
    let mut short = String::new();
    for c in text.chars() {
        if short.width() + c.width().unwrap_or(0) + 1 > width {
            break;
        }
        short.push(c);
    }
    short + "…"
}

#[cfg(test)]
mod tests {
    use super::{cut, wrap};

    #[test]
    fn lines_break_at_spaces_and_count_wide_letters_twice() {
        assert_eq!(wrap("brace, then lift the bar", 12), ["brace, then", "lift the bar"]);
        assert_eq!(wrap("🚣🚣🚣🚣🚣", 8), ["🚣🚣🚣🚣", "🚣"]);
        assert!(wrap("", 20).is_empty());
        assert_eq!(cut("a long heading", 8), "a long …");
    }
}
