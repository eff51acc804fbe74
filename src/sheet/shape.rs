//! Shapes text: letters become glyphs of a font, with kerning, ligatures and combining marks.

use super::fonts::{Face, Font, Fonts};
use rustybuzz::{Direction, UnicodeBuffer, script};
use std::ops::Range;

/// A glyph of a run; lengths are in em.
#[derive(Clone, Debug, PartialEq)]
pub struct Glyph {
    /// Number in its font.
    pub id: u16,
    /// Bytes of the run's text that it stands for.
    pub text: Range<usize>,
    /// From here to the next glyph.
    pub advance: f64,
    /// Moved to the right by that much.
    pub dx: f64,
    /// Moved up by that much.
    pub dy: f64,
}

/// A piece of a line.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Piece {
    /// Letters that the font has.
    Run {
        face: Face,
        text: String,
        glyphs: Vec<Glyph>,
    },
    /// A letter that it lacks: drawn as a box with its code point.
    Lacking(char),
}

/// Width of the mark for a letter that the font lacks, em: four digits in two rows, or six.
pub(super) fn lacking_width(letter: char) -> f64 {
    if u32::from(letter) > 0xFFFF {
        1.14
    } else {
        0.86
    }
}

impl Piece {
    /// Width, em.
    pub(super) fn width(&self) -> f64 {
        match self {
            Self::Run { glyphs, .. } => glyphs.iter().map(|glyph| glyph.advance).sum(),
            Self::Lacking(letter) => lacking_width(*letter),
        }
    }

    /// The font of a run.
    pub(super) fn face(&self) -> Option<Face> {
        match self {
            Self::Run { face, .. } => Some(*face),
            Self::Lacking(_) => None,
        }
    }

    /// Width of the blank at its end, em, and whether it is nothing but blank.
    pub(super) fn blank_end(&self) -> (f64, bool) {
        let Self::Run { text, glyphs, .. } = self else {
            return (0.0, false);
        };
        let kept = text.trim_end().len();
        let blank = glyphs.iter().filter(|glyph| glyph.text.start >= kept);
        (blank.map(|glyph| glyph.advance).sum(), kept == 0)
    }
}

/// Letters that steer other letters and leave no ink.
const fn steers(letter: char) -> bool {
    matches!(
        letter,
        '\u{200B}'..='\u{200F}'
            | '\u{202A}'..='\u{202E}'
            | '\u{2060}'..='\u{206F}'
            | '\u{FE00}'..='\u{FE0F}'
            | '\u{FEFF}'
            | '\u{00AD}'
            | '\u{034F}'
            | '\u{061C}'
            | '\u{E0000}'..='\u{E0FFF}'
    )
}

/// The text as it is laid out: line ends are `\n`, tabs are blanks, and nothing steers writing
/// direction or joining; places where a line may break, soft hyphens included, stay.
pub(super) fn cleaned(text: &str) -> String {
    let text = text.replace("\r\n", "\n");
    text.chars()
        .map(|letter| match letter {
            '\r' | '\u{2028}' | '\u{2029}' | '\u{0B}' | '\u{0C}' | '\u{85}' => '\n',
            '\t' => ' ',
            _ => letter,
        })
        .filter(|letter| !steers(*letter) || matches!(letter, '\u{AD}' | '\u{200B}' | '\u{2060}'))
        .collect()
}

/// The pieces of a text without line ends.
pub(super) fn shape(fonts: &Fonts, face: Face, text: &str) -> Vec<Piece> {
    let mut pieces = Vec::new();
    let mut plain = String::new();
    for letter in text.chars().filter(|letter| !steers(*letter)) {
        // No font draws a control character, and some say they do.
        if letter.is_control() {
            add(fonts, face, &plain, &mut pieces);
            plain.clear();
            pieces.push(Piece::Lacking(letter));
        } else {
            plain.push(letter);
        }
    }
    add(fonts, face, &plain, &mut pieces);
    pieces
}

/// Shapes a text, and what stands between the letters that the font lacks on its own.
fn add(fonts: &Fonts, face: Face, text: &str, pieces: &mut Vec<Piece>) {
    if text.is_empty() {
        return;
    }
    let font = fonts.font(face);
    let glyphs = glyphs(font, text);
    let lacking: Vec<Range<usize>> = glyphs
        .iter()
        .filter(|glyph| glyph.id == 0)
        .map(|glyph| glyph.text.clone())
        .collect();
    if lacking.is_empty() {
        pieces.push(Piece::Run {
            face,
            text: text.to_owned(),
            glyphs,
        });
        return;
    }
    let mut start = 0;
    for range in lacking {
        if range.start < start {
            continue;
        }
        add(fonts, face, &text[start..range.start], pieces);
        for letter in text[range.clone()].chars() {
            // A letter that the font has may share its place with a mark that it lacks.
            let known = font.shaper.glyph_index(letter).is_some();
            if known && range.len() > letter.len_utf8() {
                add(fonts, face, letter.encode_utf8(&mut [0; 4]), pieces);
            } else if face != Face::Signs && is_sign(fonts, letter) {
                add(fonts, Face::Signs, letter.encode_utf8(&mut [0; 4]), pieces);
            } else {
                pieces.push(Piece::Lacking(letter));
            }
        }
        start = range.end;
    }
    add(fonts, face, &text[start..], pieces);
}

/// Whether the font of signs has a letter; those of Arabic in it run from right to left.
fn is_sign(fonts: &Fonts, letter: char) -> bool {
    let arabic = (0x1_EE00..=0x1_EEFF).contains(&u32::from(letter));
    !arabic && fonts.font(Face::Signs).shaper.glyph_index(letter).is_some()
}

fn glyphs(font: &Font, text: &str) -> Vec<Glyph> {
    let mut buffer = UnicodeBuffer::new();
    buffer.push_str(text);
    buffer.guess_segment_properties();
    buffer.set_direction(Direction::LeftToRight);
    let found = buffer.script();
    let known = font.plans.iter().find(|(script, _)| *script == found);
    let plan = known.or_else(|| font.plans.first().filter(|_| is_common(found)));
    let shaped = if let Some((script, plan)) = plan {
        buffer.set_script(*script);
        rustybuzz::shape_with_plan(&font.shaper, plan, buffer)
    } else {
        rustybuzz::shape(&font.shaper, &font.features, buffer)
    };
    let ends = ends(&shaped, text.len());
    let em = |value: i32| f64::from(value) / font.units;
    shaped
        .glyph_infos()
        .iter()
        .zip(shaped.glyph_positions())
        .zip(ends)
        .map(|((info, position), end)| Glyph {
            id: u16::try_from(info.glyph_id).unwrap_or(0),
            text: info.cluster as usize..end,
            advance: em(position.x_advance),
            dx: em(position.x_offset),
            dy: em(position.y_offset),
        })
        .collect()
}

/// Where the letters of each glyph end: where those of the next one begin.
fn ends(shaped: &rustybuzz::GlyphBuffer, length: usize) -> Vec<usize> {
    let (mut end, mut start) = (length, length);
    let mut ends: Vec<usize> = shaped
        .glyph_infos()
        .iter()
        .rev()
        .map(|info| {
            let own = info.cluster as usize;
            if own != start {
                (end, start) = (start, own);
            }
            end
        })
        .collect();
    ends.reverse();
    ends
}

/// Figures, blanks and punctuation belong to no script.
fn is_common(found: rustybuzz::Script) -> bool {
    found == script::COMMON || found == script::INHERITED || found == script::UNKNOWN
}
