//! The help window: a page for each view, beside it and not over it.

use crate::workbench::{CTRL, Workbench};
use eframe::egui::accesskit::Role;
use eframe::egui::{Key, Rect, Shape};
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

/// Bars of scrolling areas, thick as they are while they are pointed at, and every text.
fn bars_and_texts(shape: &Shape, bars: &mut Vec<Rect>, texts: &mut Vec<Rect>) {
    match shape {
        Shape::Vec(all) => all.iter().for_each(|one| bars_and_texts(one, bars, texts)),
        Shape::Text(text) => texts.push(text.visual_bounding_rect()),
        Shape::Rect(rect) if rect.rect.height() > 60.0 && rect.rect.width() < 12.0 => {
            bars.push(rect.rect);
        }
        _ => {}
    }
}

#[test]
fn the_bar_keeps_beside_the_words_while_it_is_pointed_at() {
    let mut bench = Workbench::demo();
    bench.press(Key::F2);
    let found = |bench: &Workbench| {
        let (mut bars, mut texts) = (Vec::new(), Vec::new());
        for shape in &bench.harness.output().shapes {
            bars_and_texts(&shape.shape, &mut bars, &mut texts);
        }
        (bars, texts)
    };
    let window = bench.place(Role::Button, CLOSE);
    let (bars, _) = found(&bench);
    let of_help = |bar: &&Rect| bar.left() > window.right() + 300.0 && bar.right() < 970.0;
    let bar = *bars.iter().find(of_help).expect("the help scrolls");
    bench.harness.hover_at(bar.center());
    bench.run();
    let (bars, texts) = found(&bench);
    let bars: Vec<&Rect> = bars.iter().filter(of_help).collect();
    assert!(bars.iter().any(|bar| bar.width() > 5.0), "{bars:?}");
    for bar in bars {
        let below = texts.iter().filter(|text| {
            let inside = text.left() > window.left() && text.left() < window.right() + 300.0;
            let at = text.top() > 100.0 && text.bottom() < 510.0;
            inside && at && text.intersects(bar.shrink(1.0))
        });
        let long: Vec<&Rect> = below.filter(|text| text.left() > window.right()).collect();
        assert!(long.is_empty(), "{bar} lies over {long:?}");
    }
}
