//! Texts broken into lines and set in columns for a plain text.

use super::one_line::one_line;
use unicode_linebreak::linebreaks;

/// Places that a text takes in a line of even letters.
///
/// Wide letters of East Asia and pictures take two, marks upon a letter none (after UAX #11, from
/// memory, without its rare cases).
pub(super) fn places(text: &str) -> usize {
    let of = |letter: char| match u32::from(letter) {
        0x0300..=0x036F | 0x200B..=0x200F | 0x20D0..=0x20FF | 0xFE00..=0xFE0F => 0,
        0x1100..=0x115F
        | 0x2E80..=0xA4CF
        | 0xAC00..=0xD7A3
        | 0xF900..=0xFAFF
        | 0xFE30..=0xFE6F
        | 0xFF00..=0xFF60
        | 0xFFE0..=0xFFE6
        | 0x1F300..=0x1FAFF
        | 0x2_0000..=0x3_FFFD => 2,
        _ => 1,
    };
    text.chars().map(of).sum()
}

/// The lines of a text of at most so many places; a word that is longer stands alone on its line.
pub(super) fn wrapped(text: &str, most: usize) -> Vec<String> {
    let text = one_line(text);
    let mut lines = Vec::new();
    let mut line = String::new();
    let mut from = 0;
    for (end, _) in linebreaks(&text) {
        let word = &text[from..end];
        if !line.is_empty() && places(&line) + places(word.trim_end()) > most {
            lines.push(line.trim_end().to_owned());
            line.clear();
        }
        line.push_str(word);
        from = end;
    }
    if !line.trim().is_empty() {
        lines.push(line.trim_end().to_owned());
    }
    lines
}

/// A text behind a mark such as "- ", later lines set in below it.
pub(super) fn hanging(mark: &str, text: &str, most: usize) -> String {
    let indent = places(mark);
    let lines = wrapped(text, most.saturating_sub(indent));
    let mut out = mark.trim_end().to_owned();
    for (place, line) in lines.iter().enumerate() {
        if place == 0 {
            out = format!("{mark}{line}");
        } else {
            out.push('\n');
            out.push_str(&" ".repeat(indent));
            out.push_str(line);
        }
    }
    out
}

/// A column of a plain text.
#[derive(Clone, Copy, Debug)]
pub(super) struct PlainColumn {
    /// Set against its right edge, as numbers are.
    pub(super) right: bool,
    /// It is broken into lines above so many places.
    pub(super) most: usize,
}

/// Rows in columns two blanks apart; columns without any text are left out.
pub(super) fn columns(columns: &[PlainColumn], rows: &[Vec<String>]) -> Vec<String> {
    let cell = |row: &Vec<String>, place: usize| -> Vec<String> {
        let text = row.get(place).map_or("", |cell| cell);
        wrapped(text, columns[place].most)
    };
    let width = |place: usize| {
        let cells = rows.iter().flat_map(|row| cell(row, place));
        cells.map(|line| places(&line)).max().unwrap_or(0)
    };
    let widths: Vec<usize> = (0..columns.len()).map(width).collect();
    let mut out = Vec::new();
    for row in rows {
        let cells: Vec<Vec<String>> = (0..columns.len()).map(|place| cell(row, place)).collect();
        let height = cells.iter().map(Vec::len).max().unwrap_or(0);
        for line in 0..height {
            out.push(one_row(columns, &widths, &cells, line));
        }
    }
    out
}

fn one_row(
    columns: &[PlainColumn],
    widths: &[usize],
    cells: &[Vec<String>],
    line: usize,
) -> String {
    let mut out = String::new();
    let all = columns.iter().zip(widths).zip(cells);
    for ((column, width), cell) in all.filter(|((_, width), _)| **width > 0) {
        let text = cell.get(line).map_or("", String::as_str);
        let room = " ".repeat(width.saturating_sub(places(text)));
        if !out.is_empty() {
            out.push_str("  ");
        }
        if column.right {
            out.push_str(&room);
            out.push_str(text);
        } else {
            out.push_str(text);
            out.push_str(&room);
        }
    }
    out.trim_end().to_owned()
}
