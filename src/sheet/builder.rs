//! Blocks become strips: text is set in lines, columns get their places.

use super::block::Block;
use super::element::{Element, Role};
use super::fonts::Fonts;
use super::ink::Ink;
use super::layout::LayoutError;
use super::page::{Area, Drawn, Item, LackingMark, TextRun};
use super::shape::{Piece, cleaned, shape};
use super::strip::Strip;
use super::style::{Style, Styles};
use super::wrap::{Line, wrap};
use std::collections::{BTreeSet, VecDeque};

/// Rounding of lengths in mm.
pub(super) const HAIR: f64 = 1.0e-6;
/// Thickness of a hairline, mm.
pub(super) const HAIRLINE_MM: f64 = 0.15;
/// Largest free space that a block may ask for, mm.
const MOST_SPACE_MM: f64 = 1000.0;

/// Where a column of text stands, mm.
#[derive(Clone, Copy, Debug)]
pub(super) struct Across {
    pub(super) x: f64,
    pub(super) width: f64,
}

/// Lines of one text with their height each, mm.
pub(super) struct SetText {
    pub(super) lines: Vec<Vec<Item>>,
    pub(super) line_mm: f64,
}

/// Turns blocks into strips and collects what they mean.
pub(super) struct Builder<'a> {
    pub(super) fonts: &'a Fonts,
    pub(super) styles: Styles,
    pub(super) elements: Vec<Element>,
    /// Letters that the fonts lack.
    pub(super) lacks: BTreeSet<char>,
    /// For every block, also those inside others: its place from the top, its first words.
    pub(super) named: Vec<(usize, String)>,
    /// The element that new ones stand in.
    parent: Option<usize>,
    /// Level of headings: below a title if there is one.
    level: u16,
}

impl<'a> Builder<'a> {
    pub(super) fn new(fonts: &'a Fonts, styles: Styles, blocks: &[Block]) -> Self {
        let titled = |block: &Block| matches!(block, Block::Title { .. });
        Self {
            fonts,
            styles,
            elements: Vec::new(),
            lacks: BTreeSet::new(),
            named: Vec::new(),
            parent: None,
            level: if blocks.iter().any(titled) { 2 } else { 1 },
        }
    }

    /// A new element inside the present one.
    pub(super) fn element(&mut self, role: Role) -> usize {
        self.elements.push(Element {
            role,
            parent: self.parent,
        });
        self.elements.len() - 1
    }

    /// Does something with new elements standing inside that one.
    pub(super) fn within<T>(&mut self, parent: usize, then: impl FnOnce(&mut Self) -> T) -> T {
        let before = self.parent.replace(parent);
        let done = then(self);
        self.parent = before;
        done
    }

    /// The strips of blocks in a column; `top` is the place of all of them if they stand in another.
    pub(super) fn blocks(
        &mut self,
        blocks: &[Block],
        across: Across,
        top: Option<usize>,
    ) -> Result<VecDeque<Strip>, LayoutError> {
        let mut strips = VecDeque::new();
        let mut after = None;
        for (place, block) in blocks.iter().enumerate() {
            let id = self.named.len();
            self.named.push((top.unwrap_or(place), block.begins()));
            let mut own = self.block(block, across, id)?;
            if let Some(first) = own.front_mut() {
                first.before = spacing(after, block) * self.styles.step();
                if let Block::Space(mm) = block {
                    first.before = mm.clamp(0.0, MOST_SPACE_MM);
                    // Space below a heading does not part it from what follows.
                    first.keep = strips.back().is_some_and(|above: &Strip| above.keep);
                }
            }
            after = Some(block);
            strips.append(&mut own);
        }
        Ok(strips)
    }

    fn block(
        &mut self,
        block: &Block,
        across: Across,
        id: usize,
    ) -> Result<VecDeque<Strip>, LayoutError> {
        let styles = self.styles;
        match block {
            Block::Title { text, under } => self.title(text, under, across, id),
            Block::Heading(text) => {
                let role = Role::Heading {
                    level: self.level,
                    words: cleaned(text),
                };
                let strips = self.text(text, styles.heading, across, (role, id))?;
                Ok(kept_with_next(strips))
            }
            Block::Paragraph(text) => self.text(text, styles.text, across, (Role::Paragraph, id)),
            Block::Small(text) => self.text(text, styles.small, across, (Role::Paragraph, id)),
            Block::List { numbered, items } => self.list(*numbered, items, across, id),
            Block::Table { columns, rows } => self.table(columns, rows, across, id),
            Block::Figure { .. } => self.figure(block, across, id),
            Block::Pair { left, right, share } => self.pair([left, right], *share, across, id),
            Block::Rule => {
                let rule = rule(across, 0.0, HAIRLINE_MM, Ink::Line);
                Ok([Strip::of(id, 0.0, vec![rule], HAIRLINE_MM)].into())
            }
            Block::Space(_) => Ok([Strip::of(id, 0.0, Vec::new(), 0.0)].into()),
            Block::Boxed(inner) => self.boxed(inner, across, id),
        }
    }

    /// Strips of a text, a line each: neither its first nor its last line stands alone.
    pub(super) fn text(
        &mut self,
        text: &str,
        style: Style,
        across: Across,
        (role, id): (Role, usize),
    ) -> Result<VecDeque<Strip>, LayoutError> {
        let element = self.element(role);
        let set = self.set(text, style, across, (false, Some(element), id))?;
        let count = set.lines.len();
        let strips = set.lines.into_iter().enumerate().map(|(place, items)| {
            let mut strip = Strip::of(id, 0.0, items, set.line_mm);
            strip.keep = place + 1 < count && (count <= 3 || place == 0 || place + 2 == count);
            strip
        });
        Ok(strips.collect())
    }

    /// Sets a text in lines, against the right edge if asked.
    pub(super) fn set(
        &mut self,
        text: &str,
        style: Style,
        across: Across,
        (right, element, id): (bool, Option<usize>, usize),
    ) -> Result<SetText, LayoutError> {
        let size = style.size_mm();
        let lines = wrap(self.fonts, style.face, &cleaned(text), across.width / size);
        let widest = lines
            .iter()
            .map(|line| line.width * size)
            .fold(0.0, f64::max);
        if widest > across.width + HAIR {
            let (block, begins) = self.named[id].clone();
            let too_much_mm = widest - across.width;
            return Err(LayoutError::TooWide {
                too_much_mm,
                block,
                begins,
            });
        }
        let lines = lines.iter().map(|line| {
            let free = across.width - line.width * size;
            let x = across.x + if right { free } else { 0.0 };
            self.put(line, style, x, element)
        });
        Ok(SetText {
            lines: lines.collect(),
            line_mm: style.line_mm(),
        })
    }

    fn put(&mut self, line: &Line, style: Style, x: f64, element: Option<usize>) -> Vec<Item> {
        let mut items = Vec::with_capacity(line.pieces.len());
        let mut x_mm = x;
        for piece in &line.pieces {
            if let Piece::Lacking(letter) = piece {
                self.lacks.insert(*letter);
            }
            let drawn = draw(self.fonts, piece.clone(), style, x_mm);
            items.push(Item { element, drawn });
            x_mm += piece.width() * style.size_mm();
        }
        items
    }

    /// Width of a text that is not broken but where it says so, mm.
    pub(super) fn width(&self, text: &str, style: Style) -> f64 {
        let text = cleaned(text);
        let shaped = |line: &str| shape(self.fonts, style.face, line);
        let width = |line: &str| -> f64 { shaped(line).iter().map(Piece::width).sum() };
        text.lines().map(width).fold(0.0, f64::max) * style.size_mm()
    }
}

pub(super) fn kept_with_next(mut strips: VecDeque<Strip>) -> VecDeque<Strip> {
    for strip in &mut strips {
        strip.keep = true;
    }
    strips
}

/// A filled line across.
pub(super) fn rule(across: Across, y_mm: f64, height_mm: f64, ink: Ink) -> Item {
    let area = Area {
        x_mm: across.x,
        y_mm,
        width_mm: across.width,
        height_mm,
    };
    let element = None;
    let drawn = Drawn::Rectangle(area, ink);
    Item { element, drawn }
}

/// A piece of a line whose top is at 0.
pub(super) fn draw(fonts: &Fonts, piece: Piece, style: Style, x_mm: f64) -> Drawn {
    let font = fonts.font(style.face);
    let (size_pt, ink) = (style.size_pt, style.ink);
    let air = style.leading - font.ascent - font.descent;
    let baseline_mm = (air / 2.0 + font.ascent) * style.size_mm();
    match piece {
        Piece::Run { face, text, glyphs } => Drawn::Text(TextRun {
            x_mm,
            baseline_mm,
            size_pt,
            face,
            ink,
            text,
            glyphs,
        }),
        Piece::Lacking(letter) => Drawn::Lacking(LackingMark {
            letter,
            x_mm,
            baseline_mm,
            size_pt,
            ink,
        }),
    }
}

/// Space above a block that stands below another, in steps of half a line.
fn spacing(above: Option<&Block>, block: &Block) -> f64 {
    match (above, block) {
        (None, _) | (_, Block::Space(_)) | (Some(Block::Space(_)), Block::Paragraph(_)) => 0.0,
        (Some(Block::Title { .. }), _) => 2.2,
        (Some(Block::Heading(_)), Block::Table { .. }) => 0.15,
        (Some(Block::Heading(_)), _) => 0.4,
        (_, Block::Heading(_)) => 2.1,
        (_, Block::Title { .. }) => 3.0,
        (_, Block::List { .. } | Block::Small(_)) => 0.7,
        (_, Block::Paragraph(_)) => 0.8,
        (_, Block::Table { .. }) => 1.0,
        (_, Block::Rule | Block::Figure { .. }) => 1.5,
        (_, Block::Boxed(_) | Block::Pair { .. }) => 1.8,
    }
}
