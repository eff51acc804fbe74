//! Texts painted in a frame.

use eframe::egui::{Color32, Rect, Shape};

/// A text on screen.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Painted {
    pub(crate) rect: Rect,
    pub(crate) color: Color32,
    /// It ends in an ellipsis for want of room.
    pub(crate) is_cut: bool,
}

pub(crate) fn find_text(shape: &Shape, words: &str, found: &mut Vec<Painted>) {
    match shape {
        Shape::Text(text) if text.galley.text().starts_with(words) => {
            let mut parts = text.galley.job.sections.iter();
            let color = parts.next().map(|part| part.format.color);
            let color = color.filter(|color| *color != Color32::PLACEHOLDER);
            found.push(Painted {
                rect: text.galley.rect.translate(text.pos.to_vec2()),
                color: color.unwrap_or(text.fallback_color),
                is_cut: text.galley.elided,
            });
        }
        Shape::Vec(shapes) => {
            for shape in shapes {
                find_text(shape, words, found);
            }
        }
        _ => {}
    }
}

pub(crate) fn count_text(shape: &Shape, words: &str) -> usize {
    match shape {
        Shape::Text(text) => usize::from(text.galley.text() == words),
        Shape::Vec(shapes) => shapes.iter().map(|shape| count_text(shape, words)).sum(),
        _ => 0,
    }
}
