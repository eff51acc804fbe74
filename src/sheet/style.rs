//! The type scale: which font, how large and how far apart, from the size of running text.

use super::fonts::Face;
use super::ink::Ink;
use super::page::MM_PER_PT;

/// How a kind of text looks.
#[derive(Clone, Copy, Debug)]
pub(super) struct Style {
    /// Font.
    pub(super) face: Face,
    /// Size, pt.
    pub(super) size_pt: f64,
    /// Colour.
    pub(super) ink: Ink,
    /// From line to line, in sizes.
    pub(super) leading: f64,
}

impl Style {
    /// Size, mm.
    pub(super) fn size_mm(self) -> f64 {
        self.size_pt * MM_PER_PT
    }

    /// From line to line, mm.
    pub(super) fn line_mm(self) -> f64 {
        self.size_mm() * self.leading
    }
}

/// All styles of a sheet.
#[derive(Clone, Copy, Debug)]
pub(super) struct Styles {
    pub(super) title: Style,
    pub(super) under: Style,
    pub(super) heading: Style,
    pub(super) text: Style,
    pub(super) small: Style,
    pub(super) label: Style,
    pub(super) head: Style,
    pub(super) cell: Style,
    pub(super) running: Style,
}

impl Styles {
    /// The scale for running text of that size, pt.
    pub(super) fn of(size_pt: f64) -> Self {
        let style = |face, size: f64, ink, leading: f64| Style {
            face,
            size_pt: size_pt * size,
            ink,
            leading,
        };
        Self {
            title: style(Face::Title, 2.3, Ink::Text, 1.2),
            under: style(Face::Slanted, 1.1, Ink::Weak, 1.4),
            heading: style(Face::Strong, 1.1, Ink::Accent, 1.35),
            text: style(Face::Text, 1.0, Ink::Text, 1.42),
            small: style(Face::Text, 0.82, Ink::Weak, 1.4),
            label: style(Face::Strong, 1.0, Ink::Accent, 1.42),
            head: style(Face::Strong, 0.82, Ink::Weak, 1.4),
            cell: style(Face::Text, 1.0, Ink::Text, 1.36),
            running: style(Face::Text, 0.76, Ink::Weak, 1.3),
        }
    }

    /// A step of vertical space, mm: half a line of running text.
    pub(super) fn step(&self) -> f64 {
        self.text.line_mm() / 2.0
    }
}
