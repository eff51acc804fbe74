//! Strips: the smallest parts that a page break leaves whole, and how they fill pages.

use super::builder::Across;
use super::ink::Ink;
use super::page::{Area, Drawn, Item};
use std::collections::VecDeque;
use std::rc::Rc;

/// Rounding of lengths in mm.
const HAIR: f64 = 1.0e-6;

/// A part that no page break cuts, or columns and boxes of such parts.
pub(super) struct Strip {
    /// Free space above unless it begins a page or column, mm.
    pub(super) before: f64,
    /// Stands on one page with the next strip.
    pub(super) keep: bool,
    /// The block that it is of.
    pub(super) block: usize,
    /// What it holds.
    pub(super) body: Body,
    /// What is drawn again above it where it begins a page: heads of a table.
    pub(super) again: Option<Rc<Again>>,
}

/// Heads that a page repeats.
pub(super) struct Again {
    pub(super) items: Vec<Item>,
    pub(super) height: f64,
}

impl Again {
    /// Heads as decoration: a reader hears them once.
    pub(super) fn of(items: &[Item], height: f64) -> Self {
        let items = items.iter().cloned().map(|item| Item {
            element: None,
            ..item
        });
        Self {
            items: items.collect(),
            height,
        }
    }
}

/// What a strip holds.
pub(super) enum Body {
    /// Things, measured from the strip's top, with the strip's height, mm.
    Items(Vec<Item>, f64),
    /// Two columns.
    Pair(Columns),
    /// A tinted box around strips.
    Boxed(VecDeque<Strip>, Frame),
}

/// The strips of two columns.
type Columns = [VecDeque<Strip>; 2];

/// Where a box stands.
#[derive(Clone, Copy)]
pub(super) struct Frame {
    /// Its outer edges.
    across: Across,
    /// From its edges to what it holds, mm.
    padding_mm: f64,
}

/// Height of strips below each other, mm; the first has no space above.
pub(super) fn height_of<'a>(strips: impl IntoIterator<Item = &'a Strip>) -> f64 {
    let mut height = 0.0;
    for (place, strip) in strips.into_iter().enumerate() {
        height += strip.height() + if place == 0 { 0.0 } else { strip.before };
    }
    height
}

impl Strip {
    /// A strip of things.
    pub(super) fn of(block: usize, before: f64, items: Vec<Item>, height: f64) -> Self {
        Self {
            before,
            keep: false,
            block,
            body: Body::Items(items, height),
            again: None,
        }
    }

    /// Two columns of strips.
    pub(super) fn pair(block: usize, columns: [VecDeque<Self>; 2]) -> Self {
        Self {
            body: Body::Pair(columns),
            ..Self::of(block, 0.0, Vec::new(), 0.0)
        }
    }

    /// A tinted box around strips.
    pub(super) fn boxed(
        block: usize,
        inner: VecDeque<Self>,
        across: Across,
        padding_mm: f64,
    ) -> Self {
        let body = Body::Boxed(inner, Frame { across, padding_mm });
        Self {
            body,
            ..Self::of(block, 0.0, Vec::new(), 0.0)
        }
    }

    /// Puts things before what it holds.
    pub(super) fn put_first(&mut self, mut first: Vec<Item>) {
        if let Body::Items(items, _) = &mut self.body {
            first.append(items);
            *items = first;
        }
    }

    /// Height without the space above, mm.
    pub(super) fn height(&self) -> f64 {
        match &self.body {
            Body::Items(_, height) => *height,
            Body::Pair([left, right]) => height_of(left).max(height_of(right)),
            Body::Boxed(inner, frame) => height_of(inner) + 2.0 * frame.padding_mm,
        }
    }

    /// The first block in it.
    pub(super) fn left_over(&self) -> usize {
        let first = match &self.body {
            Body::Items(..) => None,
            Body::Pair([left, right]) => left.front().or_else(|| right.front()),
            Body::Boxed(inner, _) => inner.front(),
        };
        first.map_or(self.block, Self::left_over)
    }

    /// The height that it needs to begin on a page of that height: all of it if a page can hold it.
    fn least(&self, page: f64) -> f64 {
        let height = self.height();
        if height <= page + HAIR {
            return height;
        }
        let first = |strips: &VecDeque<Self>| strips.front().map_or(0.0, |strip| strip.least(page));
        match &self.body {
            Body::Items(..) => height,
            Body::Pair([left, right]) => first(left).max(first(right)),
            Body::Boxed(inner, frame) => first(inner) + 2.0 * frame.padding_mm,
        }
    }
}

/// Where strips are put.
pub(super) struct Room<'a> {
    /// Top and bottom, mm.
    pub(super) top: f64,
    pub(super) bottom: f64,
    /// Height of a whole page, mm.
    pub(super) page: f64,
    /// Whether the top is the top of a page.
    pub(super) fresh: bool,
    /// The page's things.
    pub(super) items: &'a mut Vec<Item>,
}

impl Room<'_> {
    /// Puts as many strips as there is room for below each other; gives where they end, mm.
    pub(super) fn fill(&mut self, queue: &mut VecDeque<Strip>) -> f64 {
        let mut y = self.top;
        let mut begun = false;
        while let Some(strip) = queue.front() {
            let before = if begun { strip.before } else { 0.0 };
            let fresh = self.fresh && !begun;
            let again = strip.again.clone().filter(|_| fresh);
            let head = again.as_ref().map_or(0.0, |again| again.height);
            let together = self.together(queue);
            let alone = strip.least(self.page);
            let needed = if fresh && self.top + together > self.bottom + HAIR {
                alone
            } else {
                together
            };
            if y + before + head + needed > self.bottom + HAIR {
                break;
            }
            y += before;
            if let Some(again) = again {
                self.put(again.items.clone(), y);
                y += again.height;
            }
            let Some(strip) = queue.pop_front() else {
                break;
            };
            let (end, rest) = self.put_strip(strip, y, fresh);
            // Free space alone begins no page.
            begun |= end > y;
            y = end;
            if let Some(rest) = rest {
                queue.push_front(rest);
                break;
            }
        }
        y
    }

    /// Height of the first strip and those that it stands together with, mm.
    fn together(&self, queue: &VecDeque<Strip>) -> f64 {
        let mut height = 0.0;
        for (place, strip) in queue.iter().enumerate() {
            height += strip.least(self.page) + if place == 0 { 0.0 } else { strip.before };
            if !strip.keep {
                break;
            }
        }
        height
    }

    fn put(&mut self, items: Vec<Item>, y: f64) {
        self.items.extend(items.into_iter().map(|mut item| {
            item.lower(y);
            item
        }));
    }

    /// Puts one strip; gives where it ends and what is left of it.
    fn put_strip(&mut self, strip: Strip, y: f64, fresh: bool) -> (f64, Option<Strip>) {
        match strip.body {
            Body::Items(items, height) => {
                self.put(items, y);
                (y + height, None)
            }
            Body::Pair(columns) => {
                let (end, rest) = self.put_pair(columns, y, fresh);
                let rest = rest.map(Body::Pair);
                (end, rest.map(|body| Strip { body, ..strip }))
            }
            Body::Boxed(inner, frame) => {
                let (end, rest) = self.put_box(inner, frame, y, fresh);
                let rest = rest.map(|inner| Body::Boxed(inner, frame));
                (end, rest.map(|body| Strip { body, ..strip }))
            }
        }
    }

    /// Fills two columns; gives where the longer one ends and what is left of both.
    fn put_pair(&mut self, mut columns: Columns, y: f64, fresh: bool) -> (f64, Option<Columns>) {
        let before = self.items.len();
        let bottom = self.bottom;
        let [left, right] = columns
            .each_mut()
            .map(|column| self.part(y, bottom, fresh).fill(column));
        let done = columns.iter().all(VecDeque::is_empty);
        let begun = done || self.items.len() > before;
        let end = if begun { left.max(right) } else { y };
        (end, (!done).then_some(columns))
    }

    /// Fills a box and tints its ground; gives where it ends and what is left of it.
    fn put_box(
        &mut self,
        mut inner: VecDeque<Strip>,
        frame: Frame,
        y: f64,
        fresh: bool,
    ) -> (f64, Option<VecDeque<Strip>>) {
        let ground = self.items.len();
        let (top, bottom) = (y + frame.padding_mm, self.bottom - frame.padding_mm);
        let end = self.part(top, bottom, fresh).fill(&mut inner) + frame.padding_mm;
        let done = inner.is_empty();
        let rest = (!done).then_some(inner);
        if !done && self.items.len() == ground {
            return (y, rest);
        }
        let area = Area {
            x_mm: frame.across.x,
            y_mm: y,
            width_mm: frame.across.width,
            height_mm: end - y,
        };
        let drawn = Drawn::Rectangle(area, Ink::Tint);
        let element = None;
        self.items.insert(ground, Item { element, drawn });
        (end, rest)
    }

    fn part(&mut self, top: f64, bottom: f64, fresh: bool) -> Room<'_> {
        Room {
            top,
            bottom,
            page: self.page,
            fresh,
            items: self.items,
        }
    }
}
