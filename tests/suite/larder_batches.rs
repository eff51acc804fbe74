//! Rows that belong to lots, and lots of files that knew no batches yet.

use equipour::balance::Pantry;
use equipour::model::{Document, IngredientId, LotId, PreparationId, batch_rows};
use equipour::session::larder_rows;
use equipour::store::{Builtin, exported, read_text};
use std::sync::Arc;

/// A file of format 1 with a lot, which could not name what it is a batch of, and a preparation.
fn old_document() -> Document {
    let old = include_str!("reference/format_1.ron");
    let more = "preparations: {
      \"house-sour\": (
        name: \"house sour mix\",
        outputs: { \"mix\": \"lemon-juice\" },
      ),
    },
    lots: {
      \"monday\": (
        label: \"Monday\",
        ingredient: \"lemon-juice\",
        made_on: \"2025-05-04\",
      ),
    },
    specs: [";
    assert_eq!(old.matches("\n    specs: [").count(), 1);
    let text = old.replacen("specs: [", more, 1);
    assert!(text.contains("format: 1,"));
    let opened = read_text(&text).expect("it reads");
    assert!(opened.notices.is_empty(), "{:?}", opened.notices);
    opened.document
}

#[test]
fn the_row_of_an_old_lot_stands_in_the_table_and_is_exported() {
    let document = old_document();
    let lemon = IngredientId::from("lemon-juice");
    let lot = &document.lots[&LotId::from("monday")];
    assert_eq!((&lot.ingredient, &lot.of), (&lemon, &None));
    assert_eq!(lot.made_on, "2025-05-04");
    let made = &document.preparations[&PreparationId::from("house-sour")];
    assert_eq!(made.outputs["mix"], lemon);
    let builtin = Builtin::load().expect("the larder reads");
    let rows = larder_rows(&document, &builtin, &mut Pantry::default());
    let row = rows.iter().find(|row| row.id == lemon).expect("its row");
    // The lot, the preparation, and whoever pours it.
    assert!(row.uses >= 2, "{}", row.uses);
    let name = &document.ingredients[&lemon].name;
    assert!(exported(&document, false).any(|item| item.name == *name));
    assert_eq!(
        exported(&document, false).count(),
        exported(&document, true).count()
    );
}

#[test]
fn only_rows_of_lots_that_are_a_batch_of_something_else_stand_under_it() {
    let mut document = old_document();
    assert!(batch_rows(&document).is_empty());
    let lime = IngredientId::from("lime-juice");
    let lot = Arc::make_mut(&mut document.lots)
        .get_mut(&LotId::from("monday"))
        .expect("it");
    lot.of = Some(lime);
    let lemon = IngredientId::from("lemon-juice");
    assert_eq!(
        batch_rows(&document).into_iter().collect::<Vec<_>>(),
        [&lemon]
    );
}
