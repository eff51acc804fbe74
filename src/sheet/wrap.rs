//! Breaks text into lines where Unicode allows it (UAX #14); a word that is too long breaks inside.

use super::fonts::{Face, Fonts};
use super::shape::{Glyph, Piece, shape};
use unicode_linebreak::{BreakOpportunity, linebreaks};

/// Rounding of lengths in em.
const HAIR: f64 = 1.0e-9;

/// A line of text.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Line {
    /// What stands in it, from left to right.
    pub(super) pieces: Vec<Piece>,
    /// Width without the blank at its end, em.
    pub(super) width: f64,
    /// Width with it, em.
    full: f64,
}

impl Line {
    fn add(&mut self, pieces: Vec<Piece>) {
        for piece in pieces {
            let width = piece.width();
            let (blank, only_blank) = piece.blank_end();
            if !only_blank {
                self.width = self.full + width - blank;
            }
            self.full += width;
            join(&mut self.pieces, piece);
        }
    }
}

/// Adds a piece; runs that touch become one.
fn join(pieces: &mut Vec<Piece>, piece: Piece) {
    let Piece::Run { face, text, glyphs } = &piece else {
        pieces.push(piece);
        return;
    };
    if let Some(Piece::Run {
        text: before,
        glyphs: known,
        ..
    }) = pieces.last_mut().filter(|last| last.face() == Some(*face))
    {
        let shift = before.len();
        known.extend(glyphs.iter().map(|glyph| Glyph {
            text: glyph.text.start + shift..glyph.text.end + shift,
            ..glyph.clone()
        }));
        before.push_str(text);
    } else {
        pieces.push(piece);
    }
}

/// Width without the blank at the end, em.
fn measured(pieces: &[Piece]) -> f64 {
    let mut line = Line::default();
    line.add(pieces.to_vec());
    line.width
}

/// The width that a word may need for a hyphen, em.
fn hyphen(fonts: &Fonts, face: Face, word: &str) -> f64 {
    if word.ends_with('\u{AD}') {
        measured(&shape(fonts, face, "-"))
    } else {
        0.0
    }
}

/// The lines of a cleaned text in a column of that width, em. No text, no line.
pub(super) fn wrap(fonts: &Fonts, face: Face, text: &str, width: f64) -> Vec<Line> {
    let mut lines = Vec::new();
    let mut line = Line::default();
    let mut start = 0;
    if text.is_empty() {
        return lines;
    }
    for (end, kind) in linebreaks(text) {
        if kind == BreakOpportunity::Allowed && parts_unit(text, end) {
            continue;
        }
        let from = std::mem::replace(&mut start, end);
        let word = &text[from..end];
        let ends_line = kind == BreakOpportunity::Mandatory;
        let word = word.strip_suffix('\n').unwrap_or(word);
        let pieces = shape(fonts, face, word);
        let least = measured(&pieces) + hyphen(fonts, face, word);
        if line.full + least > width + HAIR && !line.pieces.is_empty() {
            hyphenate(fonts, face, &text[..from], &mut line);
            lines.push(std::mem::take(&mut line));
        }
        if least > width + HAIR {
            break_inside(shape(fonts, face, word), width, &mut lines, &mut line);
        } else {
            line.add(pieces);
        }
        if ends_line {
            lines.push(std::mem::take(&mut line));
        }
    }
    lines
}

/// Units that stay beside their number.
const UNITS: [&str; 18] = [
    "g", "kg", "ml", "cl", "oz", "mm", "cm", "%", "°C", "°Bx", "K", "h", "min", "s", "kJ", "kcal",
    "EUR", "g/L",
];

/// Whether a break would part a number from its unit: "10 g", "−5 °C", "38 % vol".
fn parts_unit(text: &str, at: usize) -> bool {
    let (before, after) = text.split_at(at);
    let number = before
        .strip_suffix(' ')
        .and_then(|words| words.chars().last());
    let unit = after
        .split(|letter: char| letter.is_whitespace())
        .next()
        .unwrap_or("");
    let unit = unit.trim_end_matches(['.', ',', ';', ')', ':']);
    number.is_some_and(|last| last.is_ascii_digit()) && UNITS.contains(&unit)
}

/// A line that ends at a soft hyphen shows it.
fn hyphenate(fonts: &Fonts, face: Face, before: &str, line: &mut Line) {
    if before.ends_with('\u{AD}') {
        line.add(shape(fonts, face, "-"));
    }
}

/// Breaks a word that is wider than the column between its letters; every line takes one at least.
fn break_inside(pieces: Vec<Piece>, width: f64, lines: &mut Vec<Line>, line: &mut Line) {
    for piece in pieces {
        let letters = match piece {
            Piece::Run { face, text, glyphs } => letters(face, &text, &glyphs),
            lacking @ Piece::Lacking(_) => vec![lacking],
        };
        for letter in letters {
            let least = measured(std::slice::from_ref(&letter));
            if line.full + least > width + HAIR && !line.pieces.is_empty() {
                lines.push(std::mem::take(line));
            }
            line.add(vec![letter]);
        }
    }
}

/// A run cut between its letters, each with the glyphs and marks that belong to it.
fn letters(face: Face, text: &str, glyphs: &[Glyph]) -> Vec<Piece> {
    glyphs
        .chunk_by(|a, b| a.text == b.text)
        .filter_map(|chunk| {
            let range = chunk.first()?.text.clone();
            let glyphs = chunk
                .iter()
                .map(|glyph| Glyph {
                    text: 0..range.len(),
                    ..glyph.clone()
                })
                .collect();
            Some(Piece::Run {
                face,
                text: text[range].to_owned(),
                glyphs,
            })
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::parts_unit;

    #[test]
    fn a_number_keeps_its_unit_and_nothing_else() {
        for (before, after, parted) in [
            ("10 ", "g).", true),
            ("−5 ", "°C.", true),
            ("38 ", "% vol", true),
            ("145 ", "kcal.", true),
            ("after 12 ", "s, to", true),
            ("1169/2011 ", "Annex", false),
            ("24 ", "drinks", false),
            ("a glass ", "g", false),
        ] {
            let text = format!("{before}{after}");
            assert_eq!(parts_unit(&text, before.len()), parted, "{text}");
        }
    }
}
