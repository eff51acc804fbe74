//! Tables of ingredients.

use super::telling::{assert_told, text};
use equipour::model::Document;
use equipour::store::{Delimiter, Sheet, guess, ingredients, read_sheet, write_table};

/// Most reasons that a refusal lists.
const MOST_LISTED: usize = 200;

/// A table is refused with its rows and reasons, or is written and read as the same.
pub(crate) fn table(bytes: &[u8]) {
    let Some(text) = text(bytes) else { return };
    let ways = [
        (None, None),
        (Some(Delimiter::Comma), Some(false)),
        (Some(Delimiter::Semicolon), Some(true)),
    ];
    for (delimiter, comma) in ways {
        match read_sheet(text, delimiter, comma) {
            Ok(sheet) => taken(&sheet),
            Err(error) => assert_told(&error.to_string()),
        }
    }
}

fn taken(sheet: &Sheet) {
    let meanings = guess(sheet);
    assert_eq!(meanings.len(), sheet.columns.len());
    let items = match ingredients(sheet, &meanings, &Document::default()) {
        Ok(items) => items,
        Err(refusal) => {
            assert!(refusal.count > 0, "a refusal without a reason");
            assert!(refusal.errors.len() <= MOST_LISTED);
            for error in &refusal.errors {
                assert!(error.row > 0, "a reason without its row");
                assert_told(&error.to_string());
            }
            return;
        }
    };
    let written = write_table(&items).expect("what was read can be written");
    let sheet = read_sheet(&written, None, None).expect("what was written can be read");
    let again = ingredients(&sheet, &guess(&sheet), &Document::default());
    if items.is_empty() {
        return;
    }
    let again = again.unwrap_or_else(|refusal| panic!("{:?}", refusal.errors));
    assert_eq!(items, again, "ingredients come back otherwise");
}
