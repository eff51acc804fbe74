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

/// The ink of a group of marks, "#c47410".
pub(super) fn hue(hue: Hue) -> String {
    match hue {
        Hue::Sweet => hex([196, 116, 16]),
        Hue::Sour => hex([40, 122, 84]),
        Hue::Strength => hex([30, 72, 142]),
        Hue::Bitter => hex([112, 78, 142]),
        Hue::Water => hex([16, 118, 150]),
        Hue::Fat => hex([138, 110, 0]),
        Hue::Accent => Ink::Accent.hex(),
        Hue::Ink => Ink::Text.hex(),
        Hue::Quiet => hex([128, 132, 140]),
    }
}
