//! Lays blocks out on pages: all of the text, or a refusal that says what does not fit.

use super::block::Block;
use super::builder::{Across, Builder, draw};
use super::element::Element;
use super::fonts::{Fonts, bundled};
use super::layout::{About, Layout, LayoutError, Overflow};
use super::page::{Item, Page};
use super::shape::{Piece, cleaned, shape};
use super::strip::{Room, Strip, height_of};
use super::style::{Style, Styles};
use std::collections::VecDeque;

/// Sizes of running text that can be asked for, pt.
const SIZES_PT: [f64; 2] = [5.0, 40.0];
/// No text is made smaller than that to fit, pt.
const SMALLEST_PT: f64 = 8.0;
/// By how much text is made smaller at a time, pt.
const SMALLER_BY_PT: f64 = 0.5;
/// Letters of a line at the head or foot that are looked at.
const MOST_RUNNING: usize = 300;
/// Narrowest column of text, mm.
const NARROWEST_MM: f64 = 20.0;

/// Pages with everything that the blocks say.
#[derive(Clone, Debug)]
pub struct Laid {
    /// The pages.
    pub pages: Vec<Page>,
    /// What the things on them mean.
    pub elements: Vec<Element>,
    /// Letters that the fonts lack, by code point; each is drawn as a box with its code point.
    pub lacks: Vec<char>,
    /// Size of running text, pt.
    pub size_pt: f64,
    /// What the document says of itself.
    pub about: About,
}

impl Laid {
    /// "The font has no 酒 (U+9152)", or `None` if it has all letters.
    pub fn lacks_said(&self) -> Option<String> {
        let named = self.lacks.iter().map(|letter| {
            let code = u32::from(*letter);
            if letter.is_control() || letter.is_whitespace() {
                format!("U+{code:04X}")
            } else {
                format!("{letter} (U+{code:04X})")
            }
        });
        let named: Vec<String> = named.collect();
        (!named.is_empty()).then(|| format!("The font has no {}", named.join(", ")))
    }
}

/// The blocks on pages.
///
/// Nothing is ever cut: text that needs more than [`Layout::most_pages`] is refused.
pub fn lay_out(blocks: &[Block], layout: &Layout, about: &About) -> Result<Laid, LayoutError> {
    checked(layout)?;
    let fonts = bundled().ok_or(LayoutError::Fonts)?;
    let styles = Styles::of(layout.size_pt);
    let [width, _] = layout.paper.size_mm();
    let margin = layout.margins_mm;
    let mut builder = Builder::new(fonts, styles, blocks);
    let across = Across {
        x: margin,
        width: width - 2.0 * margin,
    };
    let strips = builder.blocks(blocks, across, None)?;
    let mut pages = paged(strips, layout, &builder)?;
    running(fonts, layout, about, &mut pages);
    Ok(Laid {
        pages,
        elements: builder.elements,
        lacks: builder.lacks.into_iter().collect(),
        size_pt: layout.size_pt,
        about: about.clone(),
    })
}

/// The strips on pages.
fn paged(
    mut queue: VecDeque<Strip>,
    layout: &Layout,
    builder: &Builder<'_>,
) -> Result<Vec<Page>, LayoutError> {
    let [width_mm, height_mm] = layout.paper.size_mm();
    let margin = layout.margins_mm;
    let mut pages = Vec::new();
    while !queue.is_empty() && pages.len() < layout.most_pages || pages.is_empty() {
        let mut items = Vec::new();
        let mut room = Room {
            top: margin,
            bottom: height_mm - margin,
            page: height_mm - 2.0 * margin,
            fresh: true,
            items: &mut items,
        };
        room.fill(&mut queue);
        if let Some(first) = queue.front().filter(|_| items.is_empty()) {
            let (block, begins) = builder.named[first.left_over()].clone();
            return Err(LayoutError::TooTall { block, begins });
        }
        pages.push(Page {
            width_mm,
            height_mm,
            items,
        });
    }
    match queue.front() {
        Some(first) => Err(too_long(builder, layout, first, &queue)),
        None => Ok(pages),
    }
}

/// Like [`lay_out`], with smaller text where it does not fit otherwise: by half points down to 8 pt.
pub fn lay_out_fitting(
    blocks: &[Block],
    layout: &Layout,
    about: &About,
) -> Result<Laid, LayoutError> {
    let mut layout = layout.clone();
    loop {
        let tried = lay_out(blocks, &layout, about);
        let smaller = layout.size_pt - SMALLER_BY_PT;
        let refused = matches!(
            tried,
            Err(LayoutError::TooLong(_)
                | LayoutError::TooTall { .. }
                | LayoutError::TooWide { .. })
        );
        if !refused || smaller < SMALLEST_PT || is_hopeless(&tried, &layout) {
            return tried;
        }
        layout.size_pt = smaller;
    }
}

/// Too long even for the smallest text: at best a text takes room as the square of its size.
fn is_hopeless(tried: &Result<Laid, LayoutError>, layout: &Layout) -> bool {
    let Err(LayoutError::TooLong(over)) = tried else {
        return false;
    };
    let [_, height] = layout.paper.size_mm();
    let room = over.pages as f64 * (height - 2.0 * layout.margins_mm);
    let shrinks = (SMALLEST_PT / layout.size_pt).min(1.0).powi(2);
    (room + over.too_much_mm) * shrinks > room
}

fn checked(layout: &Layout) -> Result<(), LayoutError> {
    let [width, height] = layout.paper.size_mm();
    let widest = (width.min(height) - NARROWEST_MM) / 2.0;
    let [smallest, largest] = SIZES_PT;
    let refused = |name, from, to, unit| LayoutError::Length {
        name,
        from,
        to,
        unit,
    };
    if !(smallest..=largest).contains(&layout.size_pt) {
        return Err(refused("the size of text", smallest, largest, "pt"));
    }
    if !(0.0..=widest).contains(&layout.margins_mm) {
        return Err(refused("the margins", 0.0, widest, "mm"));
    }
    Ok(())
}

fn too_long(
    builder: &Builder<'_>,
    layout: &Layout,
    first: &Strip,
    queue: &VecDeque<Strip>,
) -> LayoutError {
    let too_much_mm = height_of(queue);
    let line = builder.styles.text.line_mm();
    let (block, begins) = builder.named[first.left_over()].clone();
    LayoutError::TooLong(Overflow {
        pages: layout.most_pages,
        too_much_mm,
        lines: (too_much_mm / line).ceil() as usize,
        block,
        begins,
    })
}

/// Puts the name at the head of later pages, and the foot with the page's number below.
fn running(fonts: &Fonts, layout: &Layout, about: &About, pages: &mut [Page]) {
    let style = Styles::of(layout.size_pt).running;
    let count = pages.len();
    // Half a line of air at the edge of the paper, whatever the margin.
    let line = style.line_mm();
    if layout.margins_mm < 2.0 * line {
        return;
    }
    for (place, page) in pages.iter_mut().enumerate() {
        let across = Across {
            x: layout.margins_mm,
            width: page.width_mm - 2.0 * layout.margins_mm,
        };
        let head_y = (layout.margins_mm - line) / 2.0;
        let foot_y = page.height_mm - layout.margins_mm + head_y;
        if place > 0 {
            let head = one_line(fonts, &about.title, style, across);
            put(fonts, &mut page.items, head, style, [across.x, head_y]);
        }
        let number = format!("{} / {count}", place + 1);
        let number = if count > 1 { number.as_str() } else { "" };
        let number = one_line(fonts, number, style, across);
        let free = Across {
            width: across.width - number.width - 2.0 * style.size_mm(),
            ..across
        };
        let foot = one_line(fonts, &layout.foot, style, free);
        put(fonts, &mut page.items, foot, style, [across.x, foot_y]);
        let x = across.x + across.width - number.width;
        put(fonts, &mut page.items, number, style, [x, foot_y]);
    }
}

/// Decoration of one line.
struct Running {
    pieces: Vec<Piece>,
    width: f64,
}

fn one_line(fonts: &Fonts, text: &str, style: Style, across: Across) -> Running {
    let text: String = cleaned(text).chars().take(MOST_RUNNING).collect();
    let text = text.replace('\n', " ");
    let measure = |pieces: &[Piece]| -> f64 {
        pieces.iter().map(Piece::width).sum::<f64>() * style.size_mm()
    };
    let mut pieces = shape(fonts, style.face, &text);
    let mut kept: Vec<char> = text.chars().collect();
    // What runs along is said in full elsewhere, so it may be shortened.
    while measure(&pieces) > across.width && kept.pop().is_some() {
        let shorter: String = kept.iter().collect();
        pieces = shape(fonts, style.face, &format!("{}…", shorter.trim_end()));
    }
    Running {
        width: measure(&pieces),
        pieces,
    }
}

/// Puts decoration with its upper left corner there, mm.
fn put(fonts: &Fonts, items: &mut Vec<Item>, line: Running, style: Style, [x, y]: [f64; 2]) {
    let mut x = x;
    for piece in line.pieces {
        let width = piece.width() * style.size_mm();
        let mut item = Item {
            element: None,
            drawn: draw(fonts, piece, style, x),
        };
        item.lower(y);
        items.push(item);
        x += width;
    }
}
