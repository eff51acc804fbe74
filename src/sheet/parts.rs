//! Titles, columns, boxes and figures become strips.

use super::block::Block;
use super::builder::{Across, Builder, HAIR, kept_with_next, rule};
use super::element::Role;
use super::ink::Ink;
use super::layout::LayoutError;
use super::page::{Area, ChartBox, Drawn, Item};
use super::shape::cleaned;
use super::strip::Strip;
use super::svg::read_svg;
use std::collections::VecDeque;

/// Thickness of the bar under a title, mm.
const BAR_MM: f64 = 0.7;

type Strips = Result<VecDeque<Strip>, LayoutError>;

impl Builder<'_> {
    /// A title, what stands under it and a short bar; they stay with what follows.
    pub(super) fn title(&mut self, text: &str, under: &str, across: Across, id: usize) -> Strips {
        let styles = self.styles;
        let role = Role::Heading {
            level: 1,
            words: cleaned(text),
        };
        let mut strips = self.text(text, styles.title, across, (role, id))?;
        let mut below = self.text(under, styles.under, across, (Role::Paragraph, id))?;
        if let Some(first) = below.front_mut() {
            first.before = 0.3 * styles.step();
        }
        strips.append(&mut below);
        let bar = Across {
            width: across.width.min(6.0 * styles.step()),
            ..across
        };
        let bar = rule(bar, 0.0, BAR_MM, Ink::Accent);
        strips.push_back(Strip::of(id, 1.1 * styles.step(), vec![bar], BAR_MM));
        Ok(kept_with_next(strips))
    }

    /// Two columns with a gap of two lines.
    pub(super) fn pair(
        &mut self,
        [left, right]: [&[Block]; 2],
        share: f64,
        across: Across,
        id: usize,
    ) -> Strips {
        let gap = 4.0 * self.styles.step();
        let share = if share.is_finite() { share } else { 0.5 };
        let left_width = (across.width - gap) * share.clamp(0.1, 0.9);
        let first = Across {
            x: across.x,
            width: left_width,
        };
        let second = Across {
            x: across.x + left_width + gap,
            width: across.width - gap - left_width,
        };
        let top = Some(self.named[id].0);
        let columns = [
            self.blocks(left, first, top)?,
            self.blocks(right, second, top)?,
        ];
        Ok([Strip::pair(id, columns)].into())
    }

    /// A box with a tinted ground.
    pub(super) fn boxed(&mut self, inner: &[Block], across: Across, id: usize) -> Strips {
        let padding = 1.5 * self.styles.step();
        let column = Across {
            x: across.x + padding,
            width: across.width - 2.0 * padding,
        };
        let top = Some(self.named[id].0);
        let aside = self.element(Role::Aside);
        let inner = self.within(aside, |own| own.blocks(inner, column, top))?;
        Ok([Strip::boxed(id, inner, across, padding)].into())
    }

    /// A chart at the left edge of its column.
    pub(super) fn figure(&mut self, block: &Block, across: Across, id: usize) -> Strips {
        let Block::Figure {
            svg,
            width_mm,
            height_mm,
            alt,
            lacks,
        } = block
        else {
            return Ok(VecDeque::new());
        };
        let (block, begins) = self.named[id].clone();
        let reason = |reason: String| LayoutError::Figure {
            block,
            begins: begins.clone(),
            reason,
        };
        let sized = |mm: f64| mm.is_finite() && mm > 0.0;
        if !sized(*width_mm) || !sized(*height_mm) {
            return Err(reason("width and height must be positive".to_owned()));
        }
        if *width_mm > across.width + HAIR {
            let too_much_mm = width_mm - across.width;
            return Err(LayoutError::TooWide {
                too_much_mm,
                block,
                begins,
            });
        }
        let tree = read_svg(svg).map_err(reason)?;
        self.lacks.extend(lacks);
        let alternative = alt.clone();
        let element = Some(self.element(Role::Figure { alternative }));
        let area = area([across.x, 0.0], [*width_mm, *height_mm]);
        let drawn = Drawn::Chart(ChartBox { area, tree });
        let items = vec![Item { element, drawn }];
        Ok([Strip::of(id, 0.0, items, *height_mm)].into())
    }
}

const fn area([x_mm, y_mm]: [f64; 2], [width_mm, height_mm]: [f64; 2]) -> Area {
    Area {
        x_mm,
        y_mm,
        width_mm,
        height_mm,
    }
}
