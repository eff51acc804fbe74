//! Lists and tables become strips.

use super::block::Column;
use super::builder::{Across, Builder, HAIRLINE_MM, SetText, rule};
use super::element::Role;
use super::ink::Ink;
use super::layout::LayoutError;
use super::page::Item;
use super::strip::{Again, Body, Strip};
use super::style::Style;
use std::collections::VecDeque;
use std::rc::Rc;

/// Thickness of the line under the heads of a table, mm.
const HEAD_RULE_MM: f64 = 0.3;
/// Columns that take what they need share at most that much of the width.
const MOST_NATURAL: f64 = 0.75;

impl Builder<'_> {
    /// Strips of a list with hanging numbers or bullets.
    pub(super) fn list(
        &mut self,
        numbered: bool,
        items: &[String],
        across: Across,
        id: usize,
    ) -> Result<VecDeque<Strip>, LayoutError> {
        let styles = self.styles;
        let labels: Vec<String> = (1..=items.len())
            .map(|place| label(numbered, place))
            .collect();
        let widest = labels
            .iter()
            .map(|label| self.width(label, styles.label))
            .fold(0.0, f64::max);
        let gap = 0.6 * styles.text.size_mm();
        let column = Across {
            x: across.x + widest + gap,
            width: across.width - widest - gap,
        };
        let beside = Across {
            width: widest,
            ..across
        };
        let list = self.element(Role::List { numbered });
        let mut strips = VecDeque::new();
        for (label, text) in labels.iter().zip(items) {
            let item = self.within(list, |own| own.element(Role::ListItem));
            let places = [beside, column];
            let mut own = self.within(item, |own| own.list_item([label, text], places, id))?;
            if let Some(first) = own.front_mut().filter(|_| !strips.is_empty()) {
                first.before = 0.45 * styles.step();
            }
            strips.append(&mut own);
        }
        Ok(strips)
    }

    /// Strips of one item: the label beside its first line.
    fn list_item(
        &mut self,
        [label, text]: [&str; 2],
        [beside, column]: [Across; 2],
        id: usize,
    ) -> Result<VecDeque<Strip>, LayoutError> {
        let styles = self.styles;
        let number = Some(self.element(Role::ListLabel));
        let set = self.set(label, styles.label, beside, (true, number, id))?;
        let mut strips = self.text(text, styles.text, column, (Role::ListBody, id))?;
        if strips.is_empty() {
            strips.push_back(Strip::of(id, 0.0, Vec::new(), set.line_mm));
        }
        if let Some(first) = strips.front_mut() {
            first.put_first(set.lines.into_iter().flatten().collect());
        }
        Ok(strips)
    }

    /// Strips of a table, a row each; a page repeats the heads.
    pub(super) fn table(
        &mut self,
        columns: &[Column],
        rows: &[Vec<String>],
        across: Across,
        id: usize,
    ) -> Result<VecDeque<Strip>, LayoutError> {
        let columns = all_columns(columns, rows);
        let places = self.places(&columns, rows, across);
        let table = self.element(Role::Table);
        let mut strips = VecDeque::new();
        let mut again = None;
        if columns.iter().any(|column| !column.head.is_empty()) {
            let heads = self.within(table, |own| own.heads(&columns, &places, across, id))?;
            if let Body::Items(items, height) = &heads.body {
                again = Some(Rc::new(Again::of(items, *height)));
            }
            strips.push_back(heads);
        }
        // Without heads of columns, what stands first names its row.
        let named = again.is_none() && columns.len() > 1;
        let first = if named { Role::RowHead } else { Role::DataCell };
        let body = self.within(table, |own| own.element(Role::TableBody));
        for (place, cells) in rows.iter().enumerate() {
            let row = self.within(body, |own| own.element(Role::TableRow));
            let (mut items, height) = self.within(row, |own| {
                let style = own.styles.cell;
                let roles = [&first, &Role::DataCell];
                own.row(cells, &columns, &places, (style, roles, id))
            })?;
            items.push(rule(across, height, HAIRLINE_MM, Ink::Line));
            let mut strip = Strip::of(id, 0.0, items, height + HAIRLINE_MM);
            strip.keep = place + 2 == rows.len();
            strip.again = again.clone().filter(|_| place > 0);
            strips.push_back(strip);
        }
        Ok(strips)
    }

    /// The row of heads; it stays with the first row.
    fn heads(
        &mut self,
        columns: &[Column],
        places: &[Across],
        across: Across,
        id: usize,
    ) -> Result<Strip, LayoutError> {
        let style = self.styles.head;
        let heads: Vec<String> = columns.iter().map(|column| column.head.clone()).collect();
        let head = self.element(Role::TableHead);
        let row = self.within(head, |own| own.element(Role::TableRow));
        let (mut items, height) = self.within(row, |own| {
            let roles = [&Role::HeadCell; 2];
            own.row(&heads, columns, places, (style, roles, id))
        })?;
        items.push(rule(across, height, HEAD_RULE_MM, Ink::Text));
        let mut strip = Strip::of(id, 0.0, items, height + HEAD_RULE_MM);
        strip.keep = true;
        Ok(strip)
    }

    /// The things of a row, and its height, mm.
    fn row(
        &mut self,
        cells: &[String],
        columns: &[Column],
        places: &[Across],
        (style, [first, other], id): (Style, [&Role; 2], usize),
    ) -> Result<(Vec<Item>, f64), LayoutError> {
        let mut set: Vec<SetText> = Vec::with_capacity(columns.len());
        for (place, (column, across)) in columns.iter().zip(places).enumerate() {
            let role = if place == 0 { first } else { other };
            let how = (column.right, Some(self.element(role.clone())), id);
            let text = cells.get(place).map_or("", String::as_str);
            let mut cell = self.set(text, style, *across, how)?;
            if cell.lines.iter().all(Vec::is_empty) {
                // An empty cell is a cell, too: a blank stands in it.
                cell = self.set(" ", style, *across, how)?;
            }
            set.push(cell);
        }
        let padding = 0.3 * style.size_mm();
        let most = set.iter().map(|text| text.lines.len()).max().unwrap_or(0);
        let mut items = Vec::new();
        for text in set {
            // Heads stand on the line below them.
            let free = if *first == Role::HeadCell {
                most - text.lines.len()
            } else {
                0
            };
            for (place, line) in text.lines.into_iter().enumerate() {
                let y = padding + (place + free) as f64 * text.line_mm;
                items.extend(line.into_iter().map(|mut item| {
                    item.lower(y);
                    item
                }));
            }
        }
        Ok((items, most as f64 * style.line_mm() + 2.0 * padding))
    }

    /// Where the columns stand.
    fn places(&self, columns: &[Column], rows: &[Vec<String>], across: Across) -> Vec<Across> {
        let styles = self.styles;
        let gap = 1.4 * styles.text.size_mm();
        let free = across.width - gap * columns.len().saturating_sub(1) as f64;
        let natural = |(place, column): (usize, &Column)| {
            let cells = rows.iter().filter_map(|row| row.get(place));
            let cells = cells.map(|cell| self.width(cell, styles.cell));
            // A hair more, so that rounding breaks no cell.
            cells.fold(self.width(&column.head, styles.head), f64::max) + 0.01
        };
        let shared = columns.iter().any(|column| column.share > 0.0);
        let shares: Vec<f64> = (columns.iter().enumerate())
            .map(|(place, column)| match column.share {
                share if share > 0.0 && share.is_finite() => share,
                _ if !shared && place == 0 => 1.0,
                _ => 0.0,
            })
            .collect();
        let own: Vec<f64> = (columns.iter().enumerate())
            .map(|entry| {
                if shares[entry.0] > 0.0 {
                    0.0
                } else {
                    natural(entry)
                }
            })
            .collect();
        let wanted: f64 = own.iter().sum();
        let squeeze = (MOST_NATURAL * free / wanted.max(1.0e-9)).min(1.0);
        let rest = (free - wanted * squeeze).max(0.0);
        let parts: f64 = shares.iter().sum();
        let mut x = across.x;
        let widths = own.iter().zip(&shares).map(|(own, share)| {
            let width = own * squeeze + rest * share / parts.max(1.0e-9);
            let place = Across { x, width };
            x += width + gap;
            place
        });
        widths.collect()
    }
}

/// What stands before an item.
fn label(numbered: bool, place: usize) -> String {
    if numbered {
        place.to_string()
    } else {
        "•".to_owned()
    }
}

/// The columns, with one more for every cell that stands beyond them: nothing is left out.
fn all_columns(columns: &[Column], rows: &[Vec<String>]) -> Vec<Column> {
    let most = rows.iter().map(Vec::len).max().unwrap_or(0);
    let mut columns = columns.to_vec();
    while columns.len() < most {
        columns.push(Column::words("", 0.0));
    }
    columns
}
