//! The inks of a sheet: the only place of this layer where raw colours stand.
//!
//! Made for white paper: text and accent keep a contrast above 4.5 to 1 (WCAG 2.2, 1.4.3). Sweet, sour,
//! strength and bitter differ in lightness as well; in greyscale marks and dashes tell all hues apart.

use crate::chart::Hue;

/// A colour by what it is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Ink {
    /// Text.
    Text,
    /// Secondary text.
    Weak,
    /// Hairlines.
    Line,
    /// Headings, numbers of steps, the rule under a title.
    Accent,
    /// Behind a box.
    Tint,
    /// The paper itself.
    Paper,
}

impl Ink {
    /// Red, green and blue.
    pub const fn rgb(self) -> [u8; 3] {
        match self {
            Self::Text => [28, 30, 36],
            Self::Weak => [92, 96, 106],
            Self::Line => [206, 203, 196],
            Self::Accent => [118, 34, 74],
            Self::Tint => [246, 243, 237],
            Self::Paper => [255, 255, 255],
        }
    }

    /// "#1c1e24".
    pub(super) fn hex(self) -> String {
        hex(self.rgb())
    }
}

fn hex([r, g, b]: [u8; 3]) -> String {
    format!("#{r:02x}{g:02x}{b:02x}")
}

/// The ink of a group of marks, "#b5730d".
pub(super) fn hue(hue: Hue) -> String {
    match hue {
        Hue::Sweet => hex([181, 115, 13]),
        Hue::Sour => hex([44, 128, 90]),
        Hue::Strength => hex([18, 61, 138]),
        Hue::Bitter => hex([116, 86, 138]),
        Hue::Water => hex([14, 143, 180]),
        Hue::Fat => hex([100, 84, 0]),
        Hue::Accent => Ink::Accent.hex(),
        Hue::Ink => Ink::Text.hex(),
        Hue::Quiet => hex([124, 128, 136]),
    }
}
