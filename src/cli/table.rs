//! Plain tables that fit the width of a terminal.

/// Rows under headings, at most so many columns wide; only the last column is cut where a row is too wide.
#[must_use]
pub(super) fn table(headings: &[&str], rows: &[Vec<String>], most: usize) -> String {
    let mut widths: Vec<usize> = headings.iter().map(|heading| heading.chars().count()).collect();
    for row in rows {
        for (width, cell) in widths.iter_mut().zip(row) {
            *width = (*width).max(cell.chars().count());
        }
    }
    let headings: Vec<String> = headings.iter().map(|&heading| heading.to_owned()).collect();
    let mut text = line(&headings, &widths, most);
    for row in rows {
        text.push_str(&line(row, &widths, most));
    }
    text
}

fn line(cells: &[String], widths: &[usize], most: usize) -> String {
    let mut line = String::new();
    for (index, (cell, width)) in cells.iter().zip(widths).enumerate() {
        if index > 0 {
            line.push_str("  ");
        }
        line.push_str(cell);
        let room = width - cell.chars().count();
        line.extend(std::iter::repeat_n(' ', room));
    }
    let mut line = cut(line.trim_end(), most);
    line.push('\n');
    line
}

/// A text of at most so many characters, with dots where something is left out.
pub(super) fn cut(text: &str, width: usize) -> String {
    if text.chars().count() <= width {
        return text.to_owned();
    }
    let mut shown: String = text.chars().take(width.saturating_sub(2)).collect();
    shown.push_str("..");
    shown
}
