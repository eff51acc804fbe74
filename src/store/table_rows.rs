//! Ingredients from the rows of a table: all of them, or none and every reason why.

use super::table_cells::{Cells, short};
use super::table_columns::Column;
use super::table_ingredient::ingredient;
use super::table_read::Sheet;
use crate::kitchen::contents;
use crate::model::{Document, Ingredient, MAX_INGREDIENTS, check_one_ingredient};
use std::collections::{BTreeMap, HashMap};
use std::fmt;

/// Most reasons that are listed; the others are only counted.
const MOST_LISTED: usize = 200;

/// Something in a table that cannot stand.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RowError {
    /// Row as a spreadsheet counts it, from 1; the header's for what concerns the whole table.
    pub row: usize,
    /// The column's own header; blank when the whole row is meant.
    pub column: String,
    /// What is wrong with it.
    pub reason: String,
}

impl fmt::Display for RowError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self {
            row,
            column,
            reason,
        } = self;
        if column.is_empty() {
            write!(f, "row {row}: {reason}")
        } else {
            write!(f, "row {row}, {column}: {reason}")
        }
    }
}

/// Why nothing of a table was taken.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Refusal {
    /// What is wrong, from the top; at most 200.
    pub errors: Vec<RowError>,
    /// How much is wrong in all.
    pub count: usize,
    /// Rows with which nothing is wrong.
    pub good_rows: usize,
}

impl Refusal {
    fn add(&mut self, row: usize, column: &str, reason: impl Into<String>) {
        self.count += 1;
        if self.errors.len() < MOST_LISTED {
            self.errors.push(RowError {
                row,
                column: column.to_owned(),
                reason: reason.into(),
            });
        }
    }
}

/// The ingredients that a table describes, as a document's own; `meanings` says what its columns
/// mean, from the left.
///
/// All or nothing: when anything is wrong with any row, every reason is listed instead. Names must
/// differ from each other and from those of `existing`, capitals aside; figures must pass the checks
/// of the model and add up to something that can be.
pub fn ingredients(
    sheet: &Sheet,
    meanings: &[Option<Column>],
    existing: &Document,
) -> Result<Vec<Ingredient>, Refusal> {
    let mut refusal = Refusal::default();
    let places = places(sheet, meanings, &mut refusal);
    if !places.contains_key(&Column::Name) {
        refusal.add(sheet.header_row, "", "no column is chosen for the name");
    }
    let most = MAX_INGREDIENTS.saturating_sub(existing.ingredients.len());
    if sheet.rows.len() > most {
        let reason = format!("the document has room for {most} more ingredients only");
        refusal.add(sheet.header_row, "", reason);
    }
    if refusal.count > 0 {
        return Err(refusal);
    }
    let header = |column: Option<Column>| {
        let place = column.and_then(|column| places.get(&column));
        let header = place.and_then(|place| sheet.columns.get(*place));
        header.map_or("", |header| header.trim())
    };
    let mut names = Names::of(existing);
    let mut good = Vec::new();
    for row in &sheet.rows {
        let mut cells = Cells::new(&row.cells, &places, sheet.decimal_comma);
        if let Some(stray) = cells.beyond(sheet.columns.len()) {
            let reason = format!("\"{}\" stands right of the last column", short(stray));
            cells.wrong.push((None, reason));
        }
        let item = ingredient(&mut cells);
        names.note(&item.name, row.number, &mut cells);
        if cells.wrong.is_empty() {
            check(&item, &places, &mut cells);
        }
        if cells.wrong.is_empty() {
            good.push(item);
        }
        for (column, reason) in cells.wrong {
            refusal.add(row.number, header(column), reason);
        }
    }
    if refusal.count > 0 {
        refusal.good_rows = good.len();
        return Err(refusal);
    }
    Ok(good)
}

/// Where each meaning stands.
fn places(
    sheet: &Sheet,
    meanings: &[Option<Column>],
    refusal: &mut Refusal,
) -> BTreeMap<Column, usize> {
    let mut places = BTreeMap::new();
    for (place, column) in meanings.iter().enumerate() {
        let Some(column) = column else {
            continue;
        };
        if let Some(first) = places.insert(*column, place) {
            let named = |place: usize| sheet.columns.get(place).map_or("", |name| name.trim());
            let reason = format!(
                "{} is chosen for \"{}\" already",
                column.header(),
                named(first)
            );
            refusal.add(sheet.header_row, named(place), reason);
        }
    }
    places
}

/// What the model and the kitchen say of an ingredient.
fn check(item: &Ingredient, places: &BTreeMap<Column, usize>, cells: &mut Cells<'_>) {
    if let Err(error) = check_one_ingredient(item) {
        let column = Column::of_field(&error.field, places.keys().copied());
        let reason = match column {
            Some(_) => error.reason,
            None => error.to_string(),
        };
        cells.wrong.push((column, reason));
    } else if let Err(error) = contents(item) {
        cells.wrong.push((None, error.to_string()));
    }
}

/// Names that are taken, by their small letters.
#[derive(Debug)]
struct Names<'a> {
    document: HashMap<String, &'a str>,
    table: HashMap<String, (usize, String)>,
}

impl<'a> Names<'a> {
    fn of(document: &'a Document) -> Self {
        let names = document.ingredients.values().map(|item| item.name.as_str());
        Self {
            document: names.map(|name| (name.to_lowercase(), name)).collect(),
            table: HashMap::new(),
        }
    }

    /// Takes the name of a row, or says who has it.
    fn note(&mut self, name: &str, row: usize, cells: &mut Cells<'_>) {
        if name.is_empty() {
            cells.refuse(Column::Name, "is blank");
            return;
        }
        let key = name.trim().to_lowercase();
        if let Some(theirs) = self.document.get(&key) {
            let reason = format!(
                "\"{}\" is in the document already, as \"{}\"",
                short(name),
                short(theirs)
            );
            cells.refuse(Column::Name, reason);
        } else if let Some((first, theirs)) = self.table.get(&key) {
            let reason = format!(
                "\"{}\" stands in row {first} already, as \"{}\"",
                short(name),
                short(theirs)
            );
            cells.refuse(Column::Name, reason);
        } else {
            self.table.insert(key, (row, name.to_owned()));
        }
    }
}
