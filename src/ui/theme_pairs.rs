//! Which colours of a theme stand on which, for whoever checks that they can be told apart.

use super::theme::{Tokens, faint};
use crate::chart::Hue;
use eframe::egui::Color32;

/// Least contrast of text with its ground: WCAG 2.2, 1.4.3 (AA).
const TEXT: f64 = 4.5;
/// Least contrast of what a control or a chart is known by: WCAG 2.2, 1.4.11.
const SHAPE: f64 = 3.0;

/// Hues of charts, bars and marks.
const HUES: [(Hue, &str); 9] = [
    (Hue::Sweet, "sweet"),
    (Hue::Sour, "sour"),
    (Hue::Strength, "strength"),
    (Hue::Bitter, "bitter"),
    (Hue::Water, "water"),
    (Hue::Fat, "fat"),
    (Hue::Accent, "accent"),
    (Hue::Ink, "ink"),
    (Hue::Quiet, "quiet"),
];

/// A colour on its ground.
#[derive(Clone, Debug, PartialEq)]
pub struct ThemePair {
    /// What stands on what.
    pub name: String,
    /// Red, green and blue of what is drawn.
    pub ink: [u8; 3],
    /// Red, green and blue of what lies behind it.
    pub ground: [u8; 3],
    /// Least contrast that is asked of the two, as WCAG 2.2 counts it.
    pub least: f64,
}

/// Every pair of colours that the window draws on each other, in the dark or the light theme.
pub fn theme_pairs(dark: bool) -> Vec<ThemePair> {
    let tokens = Tokens::by_dark(dark);
    let grounds = tokens.grounds();
    let striped = ("striped row", over(faint(tokens.line, 0.35), grounds[0].1));
    let mut pairs = Vec::new();
    let mut pair = |ink: (&str, Color32), ground: (&str, Color32), least| {
        pairs.push(ThemePair {
            name: format!("{} on {}", ink.0, ground.0),
            ink: channels(ink.1),
            ground: channels(ground.1),
            least,
        });
    };
    let texts = [
        ("text", tokens.text),
        ("weak text", tokens.weak),
        ("warning", tokens.warn),
        ("caution", tokens.caution),
    ];
    for ground in grounds.into_iter().chain([striped]) {
        for text in texts {
            pair(text, ground, TEXT);
        }
        pair(("outline of a control", tokens.edge), ground, SHAPE);
        pair(("focus ring", tokens.accent), ground, SHAPE);
        // A button is grey under the pointer, whatever was chosen.
        let least = if ground.0 == "button under the pointer" {
            SHAPE
        } else {
            TEXT
        };
        pair(("accent", tokens.accent), ground, least);
    }
    let [page, card, field, ..] = grounds;
    for (hue, name) in HUES {
        for ground in [page, card, field, striped] {
            pair((name, tokens.hue(hue)), ground, SHAPE);
        }
    }
    pairs
}

/// The hues of a theme with their names, as red, green and blue.
pub fn theme_hues(dark: bool) -> Vec<(&'static str, [u8; 3])> {
    let tokens = Tokens::by_dark(dark);
    let hues = HUES.into_iter();
    hues.map(|(hue, name)| (name, channels(tokens.hue(hue))))
        .collect()
}

/// A see-through colour on a ground, mixed as the window mixes them: in coded values.
fn over(color: Color32, ground: Color32) -> Color32 {
    ground.blend(color)
}

fn channels(color: Color32) -> [u8; 3] {
    [color.r(), color.g(), color.b()]
}
