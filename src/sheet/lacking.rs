//! How a letter that the font lacks is drawn: a box with its code point in tiny digits.

use super::fonts::{Face, Fonts};
use super::page::{LackingMark, MM_PER_PT, TextRun};
use super::shape::{Piece, lacking_width, shape};

/// Left, top, right and bottom, mm.
pub(super) type Box4 = [f64; 4];

/// Share of the text's size that the digits have.
const DIGITS: f64 = 0.46;
/// Thickness of the frame, em.
const FRAME: f64 = 0.045;
/// Free space at either side, em.
const SIDE: f64 = 0.06;
/// Top and bottom of the frame above the baseline, em.
const SPAN: [f64; 2] = [0.86, -0.16];

/// The four sides of the frame, and the digits in two rows.
pub(super) fn lacking_marks(fonts: &Fonts, mark: &LackingMark) -> (Vec<Box4>, Vec<TextRun>) {
    let em = mark.size_pt * MM_PER_PT;
    let at = |x: f64, up: f64| [mark.x_mm + x * em, mark.baseline_mm - up * em];
    let width = lacking_width(mark.letter);
    let [left, top] = at(SIDE, SPAN[0]);
    let [right, bottom] = at(width - SIDE, SPAN[1]);
    let line = FRAME * em;
    let frame = vec![
        [left, top, right, top + line],
        [left, bottom - line, right, bottom],
        [left, top, left + line, bottom],
        [right - line, top, right, bottom],
    ];
    let code = u32::from(mark.letter);
    let digits = if code > 0xFFFF {
        format!("{code:06X}")
    } else {
        format!("{code:04X}")
    };
    let (upper, lower) = digits.split_at(digits.len() / 2);
    let row = |text: &str, up: f64| {
        let piece = shape(fonts, Face::Text, text).into_iter().next()?;
        let Piece::Run { text, glyphs, .. } = piece else {
            return None;
        };
        let wide: f64 = glyphs.iter().map(|glyph| glyph.advance * DIGITS).sum();
        let [x_mm, baseline_mm] = at((width - wide) / 2.0, up);
        Some(TextRun {
            x_mm,
            baseline_mm,
            size_pt: mark.size_pt * DIGITS,
            face: Face::Text,
            ink: mark.ink,
            text,
            glyphs,
        })
    };
    let rows = [row(upper, 0.43), row(lower, -0.04)];
    (frame, rows.into_iter().flatten().collect())
}
