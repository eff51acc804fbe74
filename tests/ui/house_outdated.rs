//! Old rows of house-made outputs and ranges of new ones, on the page.

use crate::workbench::{CTRL, Workbench, demo};
use eframe::egui::{Key, vec2};
use equipour::session::house_view;
use equipour::store::Settings;
use equipour::units::number;
use std::sync::Arc;

const SAID: &str = "1 house-made row was worked out by other figures than today's";

/// The demo with another sweetness written into one house-made row, and its house-made page.
fn opened() -> Workbench {
    let mut document = demo();
    let made = document.preparations.values().find(|made| {
        let row = made
            .main_output()
            .and_then(|(_, row)| document.ingredients.get(row));
        made.is_worked_out() && row.is_some_and(|row| row.sugar_g.is_some())
    });
    let row = made.and_then(|made| made.main_output().map(|(_, row)| row.clone()));
    let rows = Arc::make_mut(&mut document.ingredients);
    let held = rows.get_mut(&row.expect("the demo makes something sweet"));
    let held = Arc::make_mut(held.expect("its row"));
    if let Some(sugar) = &mut held.sugar_g {
        sugar.low *= 0.5;
        sugar.typical *= 0.5;
    }
    let mut bench = Workbench::sized(document, Settings::default(), vec2(1440.0, 900.0));
    bench.chord(CTRL, Key::Num2);
    bench
}

#[test]
fn the_house_made_page_says_which_rows_are_old_and_brings_them_up_to_date() {
    let mut bench = opened();
    assert!(bench.says(SAID));
    let steps = bench.steps();
    bench.button("Bring rows up to date");
    assert!(!bench.says(SAID));
    assert_eq!(bench.steps(), steps + 1);
    bench.chord(CTRL, Key::Z);
    assert!(bench.says(SAID));
}

#[test]
fn a_range_stands_below_its_figure() {
    let mut bench = Workbench::sized(demo(), Settings::default(), vec2(1440.0, 900.0));
    bench.chord(CTRL, Key::Num2);
    let document = bench.session().document();
    let found = document.preparations.iter().find_map(|(id, made)| {
        let view = house_view(document, id)?;
        let (low, high) = view.outputs.iter().find_map(|output| output.spans.brix)?;
        Some((made.name.clone(), number(low, 1), number(high, 1)))
    });
    let (name, low, high) = found.expect("something sweet is unsure");
    assert_ne!(low, high, "wide enough to be seen");
    bench.button(&name);
    assert!(bench.says(&format!("{low}–{high}")), "{low} to {high}");
}
