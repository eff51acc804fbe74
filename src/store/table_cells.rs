//! The cells of one row, by what they mean, and how texts are kept from being taken for formulas.

use super::table_columns::{Column, End};
use super::table_words::Word;
use crate::model::{Figure, Range};
use crate::units::read_exact;
use std::collections::BTreeMap;

/// First characters that make a spreadsheet take a text for a formula or a command; the last four are
/// the wide ones that East Asian keyboards type and that some programs read alike (from memory).
const RISKY: [char; 11] = [
    '=', '+', '-', '@', '\t', '\r', '\n', '\u{FF1D}', '\u{FF0B}', '\u{FF0D}', '\u{FF20}',
];

/// True when a text begins like a formula, behind any number of apostrophes, and of blanks and marks
/// without a width, which some programs pass over.
fn is_risky(text: &str) -> bool {
    let bare = text.trim_start_matches('\'');
    let unseen = |letter: char| {
        letter.is_whitespace()
            || letter.is_control()
            || matches!(letter, '\u{AD}' | '\u{200B}'..='\u{200F}' | '\u{202A}'..='\u{202E}' | '\u{2060}'..='\u{2069}' | '\u{FEFF}')
    };
    bare.starts_with(RISKY) || bare.trim_start_matches(unseen).starts_with(RISKY)
}

/// A text as it is written: one that begins like a formula gets an apostrophe in front.
pub(super) fn guarded(text: &str) -> String {
    if is_risky(text) {
        format!("'{text}")
    } else {
        text.to_owned()
    }
}

/// A text as it was before [`guarded`].
fn unguarded(text: &str) -> &str {
    text.strip_prefix('\'')
        .filter(|rest| is_risky(rest))
        .unwrap_or(text)
}

/// One row with its columns, and what is wrong with its cells.
#[derive(Debug)]
pub(super) struct Cells<'a> {
    row: &'a [String],
    places: &'a BTreeMap<Column, usize>,
    decimal_comma: bool,
    /// What cannot stand, in the order in which it was read.
    pub(super) wrong: Vec<(Option<Column>, String)>,
}

impl<'a> Cells<'a> {
    pub(super) const fn new(
        row: &'a [String],
        places: &'a BTreeMap<Column, usize>,
        decimal_comma: bool,
    ) -> Self {
        Self {
            row,
            places,
            decimal_comma,
            wrong: Vec::new(),
        }
    }

    pub(super) fn refuse(&mut self, column: Column, reason: impl Into<String>) {
        self.wrong.push((Some(column), reason.into()));
    }

    /// A cell without the blanks around it; empty when there is no such column.
    fn cell(&self, column: Column) -> &'a str {
        self.places
            .get(&column)
            .and_then(|place| self.row.get(*place))
            .map_or("", |cell| cell.trim())
    }

    pub(super) fn text(&self, column: Column) -> String {
        unguarded(self.cell(column)).to_owned()
    }

    pub(super) fn is_blank(&self, column: Column) -> bool {
        self.cell(column).is_empty()
    }

    /// A number; `None` when blank or refused.
    pub(super) fn number(&mut self, column: Column) -> Option<f64> {
        let text = self.cell(column);
        if text.is_empty() {
            return None;
        }
        let number = read_exact(text, self.decimal_comma);
        if number.is_none() {
            let mark = |comma| if comma { "comma" } else { "point" };
            let other = read_exact(text, !self.decimal_comma).is_some();
            let why = if other {
                format!(
                    " with a decimal {}, which this file is read with",
                    mark(self.decimal_comma)
                )
            } else {
                String::new()
            };
            self.refuse(column, format!("\"{}\" is no number{why}", short(text)));
        }
        number
    }

    /// A range; a blank end takes the typical value. The typical pH may be left to the midpoint.
    pub(super) fn range(&mut self, figure: Figure) -> Option<Range> {
        let before = self.wrong.len();
        let low = self.number(Column::Range(figure, End::Low));
        let typical = self.number(Column::Range(figure, End::Typical));
        let high = self.number(Column::Range(figure, End::High));
        let Some(either) = low.or(high) else {
            return typical.map(Range::exact);
        };
        let typical = match (figure, typical) {
            (_, Some(typical)) => typical,
            (Figure::Ph, None) => 0.5 * (low.unwrap_or(either) + high.unwrap_or(either)),
            (_, None) => {
                if self.wrong.len() == before {
                    let typical = Column::Range(figure, End::Typical);
                    self.refuse(
                        typical,
                        "is missing: low and high alone say no working value",
                    );
                }
                return None;
            }
        };
        Some(Range {
            low: low.unwrap_or(typical),
            typical,
            high: high.unwrap_or(typical),
        })
    }

    /// One of a few words; the usual one when blank.
    pub(super) fn word<T: Word>(&mut self, column: Column) -> T {
        let text = self.cell(column);
        if text.is_empty() {
            return T::default();
        }
        T::read(text).unwrap_or_else(|| {
            let known: Vec<&str> = T::WORDS.iter().map(|(word, _)| *word).collect();
            let known = known.join(", ");
            self.refuse(column, format!("\"{}\" is none of {known}", short(text)));
            T::default()
        })
    }

    /// The first cell that stands right of the last column and is not blank.
    pub(super) fn beyond(&self, columns: usize) -> Option<&'a str> {
        let mut beyond = self.row.iter().skip(columns).map(|cell| cell.trim());
        beyond.find(|cell| !cell.is_empty())
    }
}

/// The beginning of a text, for a message.
pub(super) fn short(text: &str) -> String {
    const MOST: usize = 40;
    if text.chars().count() <= MOST {
        return text.to_owned();
    }
    text.chars().take(MOST).chain(['…']).collect()
}
