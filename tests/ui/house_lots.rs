//! Batches of what is made in the house: measured from its page, and the yield that they show.

use crate::workbench::{CTRL, Workbench, demo};
use eframe::egui::accesskit::Role;
use eframe::egui::{Key, vec2};
use equipour::model::{
    Document, Lot, Measurement, Preparation, PreparationId, Process, Range, Reading, Retained,
};
use equipour::session::{Edit, HouseEdit, Session, is_taken, keep_lot, lot_outcome};
use equipour::store::{Builtin, Settings, starter_preparations};
use std::sync::Arc;

const SEEDS: &str = "seeds";
const NAME: &str = "seeds of the test";

/// The starter whose pulp is strained off, and three batches of its drink that all weighed the same.
fn measured(yields: [f64; 3]) -> Document {
    let builtin = Arc::new(Builtin::load().expect("the tables are sound"));
    let mut session = Session::new(Arc::clone(&builtin), demo());
    let strains = |made: &Preparation| {
        let does = made.steps.last().map(|step| &step.does);
        matches!(does, Some(Process::Strain { .. }))
    };
    let starter = starter_preparations()
        .iter()
        .find(|starter| strains(&starter.preparation))
        .expect("one is strained");
    let taken = |name: &str| is_taken(&session, name);
    let (mut made, rows) = starter.rows_and_preparation(&builtin, taken);
    NAME.clone_into(&mut made.name);
    let (_, row) = made.main_output().expect("an output");
    let row = row.clone();
    let edit = Edit::House(HouseEdit::Set {
        id: PreparationId::from(SEEDS),
        to: Box::new(made),
        rows,
        label: "Begin".to_owned(),
        gesture: None,
    });
    session.edit(&edit).expect("it can be written");
    for (place, share) in yields.into_iter().enumerate() {
        let reading = Reading::Yield {
            in_g: 1800.0,
            out_g: 1800.0 * share,
        };
        let lot = Lot {
            label: format!("batch {place}"),
            ingredient: row.clone(),
            of: Some(row.clone()),
            made_on: "2026-05-04".to_owned(),
            best_before: String::new(),
            measurements: vec![Measurement {
                reading,
                on: String::new(),
            }],
            weighed_in: None,
            approved: false,
            note: String::new(),
        };
        let found = lot_outcome(session.document(), None, &row, &lot).expect("it reads");
        let edit = keep_lot(&session, None, lot, found.ingredient, None);
        session.edit(&edit).expect("it can be kept");
    }
    Document::clone(session.document())
}

fn stays(bench: &Workbench) -> Range {
    let made = &bench.session().document().preparations[&PreparationId::from(SEEDS)];
    match &made.steps.last().expect("a step").does {
        Process::Strain {
            retained: Retained::PerGram(range) | Retained::Yield(range),
        } => *range,
        other => panic!("{other:?}"),
    }
}

fn page(document: Document) -> Workbench {
    let mut bench = Workbench::sized(document, Settings::default(), vec2(1440.0, 900.0));
    bench.chord(CTRL, Key::Num2);
    bench.button(NAME);
    bench.choose("Lots");
    bench
}

#[test]
fn three_batches_show_a_yield_that_one_click_takes_over_and_undo_takes_back() {
    let mut bench = page(measured([0.50, 0.51, 0.52]));
    let before = stays(&bench);
    assert!(bench.has(Role::Link, "batch 0 · made 2026-05-04"));
    let main = {
        let made = &bench.session().document().preparations[&PreparationId::from(SEEDS)];
        let (_, row) = made.main_output().expect("an output");
        bench.session().document().ingredients[row].name.clone()
    };
    bench.button(&format!("Use this yield for {main}"));
    let after = stays(&bench);
    assert_ne!(before, after);
    assert!(
        after.low < after.typical && after.typical < after.high,
        "{after:?}"
    );
    assert!(
        bench.says("yield predicted 51.0 %"),
        "it now gives their mean"
    );
    bench.chord(CTRL, Key::Z);
    assert_eq!(stays(&bench), before);
}

#[test]
fn a_batch_is_measured_from_the_page_with_the_dialog_of_lots() {
    let mut bench = page(measured([0.50, 0.51, 0.52]));
    let main = {
        let made = &bench.session().document().preparations[&PreparationId::from(SEEDS)];
        let (_, row) = made.main_output().expect("an output");
        bench.session().document().ingredients[row].name.clone()
    };
    let lots = bench.session().document().lots.len();
    bench.button(&format!("Measure a lot of {main}"));
    bench.button("Add a reading");
    bench.button("refractometer, °Bx");
    bench.enter_number("Refractometer, °Bx", "6");
    bench.button("Keep the lot");
    assert_eq!(bench.session().document().lots.len(), lots + 1);
    assert!(bench.messages().is_empty(), "{:?}", bench.messages());
    assert!(bench.has(Role::Button, &format!("Measure a lot of {main}")));
}
