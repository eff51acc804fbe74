//! The help window: a page for each view, beside it and not over it.

use crate::workbench::{CTRL, Workbench};
use eframe::egui::Key;
use eframe::egui::accesskit::Role;
use equipour::session::{HELP_PAGES, HelpBlock};

const CLOSE: &str = "Close the help";

#[test]
fn every_page_opens_its_own_help() {
    let pages = [
        (Key::Num1, "Every ingredient is turned into grams"),
        (Key::Num2, "mass closes exactly"),
        (Key::Num3, "Serving orders are balanced designs"),
        (Key::Num4, "The plan is placed backwards"),
        (Key::Num5, "Built-in rows are generic"),
    ];
    let mut bench = Workbench::demo();
    for (key, words) in pages {
        bench.chord(CTRL, key);
        assert!(!bench.says(words));
        bench.press(Key::F2);
        assert!(bench.says(words), "{words}");
        bench.press(Key::Escape);
        assert!(!bench.has(Role::Button, CLOSE), "Escape closes it");
    }
}

#[test]
fn the_small_button_in_the_bar_opens_it_too() {
    let mut bench = Workbench::demo();
    bench.button("About this view");
    assert!(bench.says("Every ingredient is turned into grams"));
    bench.button(CLOSE);
    assert!(!bench.has(Role::Button, CLOSE));
}

#[test]
fn its_list_leads_to_every_other_page() {
    let mut bench = Workbench::demo();
    bench.press(Key::F2);
    for page in HELP_PAGES {
        bench.button(&format!("Help: {}", page.title()));
        let words = page.blocks().find_map(|block| match block {
            HelpBlock::Point(words) | HelpBlock::Paragraph(words) => Some(words),
            _ => None,
        });
        assert!(bench.says(words.expect("a sentence")), "{}", page.key);
        let sources = page.sources().next().expect("a source");
        assert!(bench.says(&format!("Sources: {sources}")), "{}", page.key);
    }
}

#[test]
fn the_page_below_it_can_be_worked_on() {
    let mut bench = Workbench::demo();
    bench.press(Key::F2);
    bench.control(Role::Slider, "lemon juice").focus();
    bench.run();
    bench.press(Key::ArrowRight);
    assert_eq!(bench.steps(), 1);
    assert!(bench.has(Role::Button, CLOSE));
}
