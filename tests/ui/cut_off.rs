//! What is read is never cut: amounts in words, numbers at the end of an axis, rows of the card.

use crate::workbench::{CTRL, Workbench, demo};
use eframe::egui::accesskit::Role;
use eframe::egui::{Key, Rect, Shape};
use std::sync::Arc;

/// Text, its place and what of the window it is held to, of everything written in the last frame.
fn written(bench: &Workbench) -> Vec<(String, Rect, Rect)> {
    let shapes = bench.harness.output().shapes.iter();
    let texts = shapes.filter_map(|clipped| match &clipped.shape {
        Shape::Text(text) => Some((
            text.galley.text().to_owned(),
            text.visual_bounding_rect(),
            clipped.clip_rect,
        )),
        _ => None,
    });
    texts.collect()
}

fn is_number(text: &str) -> bool {
    let digits = |letter: char| letter.is_ascii_digit() || ".−".contains(letter);
    !text.is_empty() && text.chars().all(digits)
}

#[test]
fn an_amount_in_words_fits_its_field() {
    let mut bench = Workbench::demo();
    for amount in ["1 bar spoon", "3 bar spoons"] {
        bench.enter_amount("lemon juice", amount);
        assert_eq!(bench.shown_amount("lemon juice"), amount);
        let field = bench.place(Role::TextInput, "Amount of lemon juice");
        let mut found = written(&bench).into_iter();
        let (_, text, clip) = found
            .find(|(text, ..)| text == amount)
            .expect("it is written");
        assert!(
            field.contains_rect(text) && clip.expand(0.5).contains_rect(text),
            "{amount}: {text} in {field}, held to {clip}"
        );
    }
}

#[test]
fn no_number_of_an_axis_is_cut_at_the_edge() {
    let mut bench = Workbench::demo();
    let mut seen = 0;
    for page in [Key::Num1, Key::Num3] {
        bench.chord(CTRL, page);
        if page == Key::Num3 {
            bench.button("Over the trials");
        }
        // A scrolled page cuts what is not looked at, at its lower edge.
        for (text, place, clip) in written(&bench) {
            if is_number(&text) && clip.y_range().contains(place.center().y) {
                seen += 1;
                let held = clip.left() <= place.left() + 0.5 && place.right() <= clip.right() + 0.5;
                assert!(held, "{page:?}: {text} at {place} is held to {clip}");
            }
        }
    }
    assert!(seen > 40, "{seen}");
}

#[test]
fn trials_are_counted_in_whole_numbers() {
    let mut bench = Workbench::demo();
    bench.chord(CTRL, Key::Num3);
    bench.button("Over the trials");
    let chart = bench.place(Role::Image, "Strength");
    let below = written(&bench).into_iter().filter(|(text, place, _)| {
        let under = (chart.bottom() - 4.0..chart.bottom() + 20.0).contains(&place.top());
        is_number(text) && under && chart.x_range().contains(place.center().x)
    });
    let below: Vec<String> = below.map(|(text, ..)| text).collect();
    let trials = bench.session().spec().expect("a drink").trials.len();
    assert!(below.len() >= 2, "{below:?}");
    for text in &below {
        let number: usize = text
            .parse()
            .unwrap_or_else(|_| panic!("{text} of {below:?}"));
        assert!((1..=trials).contains(&number), "{number} of {trials}");
    }
}

#[test]
fn without_prices_no_cost_is_drawn() {
    let priced = |bench: &Workbench| bench.says("No prices");
    let mut bench = Workbench::demo();
    bench.chord(CTRL, Key::Num3);
    bench.button("Over the trials");
    assert!(!priced(&bench) && bench.has(Role::Image, "Cost"));
    let mut document = demo();
    for item in Arc::make_mut(&mut document.ingredients).values_mut() {
        Arc::make_mut(item).price = None;
    }
    for trial in document.specs.iter_mut().flat_map(|spec| &mut spec.trials) {
        let trial = Arc::make_mut(trial);
        for item in trial.frozen.values_mut() {
            Arc::make_mut(item).price = None;
        }
    }
    let mut bench = Workbench::on(document);
    bench.chord(CTRL, Key::Num3);
    bench.button("Over the trials");
    assert!(priced(&bench) && !bench.has(Role::Image, "Cost"));
}

/// Names that figures begin with on the card.
const FIGURES: [&str; 14] = [
    "● sweet ",
    "▲ sour ",
    "■ strength ",
    "◆ bitter ",
    "served ",
    "from ice ",
    "coldest ",
    "pH ",
    "alcohol ",
    "body ",
    "gum ",
    "fizz ",
    "cost ",
    "sweet/sour ",
];

#[test]
fn the_card_takes_three_rows_and_says_once_what_its_numbers_are() {
    let mut bench = Workbench::demo();
    let names: Vec<String> = bench
        .session()
        .document()
        .specs
        .iter()
        .map(|spec| spec.name.clone())
        .collect();
    for name in &names {
        if bench.shown("Drink") != *name {
            bench.pick("Drink", name);
        }
        let top = bench.place(Role::Image, "Strength").top();
        let mut rows: Vec<f32> = written(&bench)
            .into_iter()
            .filter(|(text, place, _)| {
                place.top() < top && FIGURES.iter().any(|figure| text.starts_with(figure))
            })
            .map(|(_, place, _)| place.center().y)
            .collect();
        rows.sort_by(f32::total_cmp);
        assert!(rows.len() >= 8, "{name}: {rows:?}");
        rows.dedup_by(|one, other| (*one - *other).abs() < 8.0);
        assert!(rows.len() <= 3, "{name}: {rows:?}");
        let legends = written(&bench);
        let legends = legends
            .iter()
            .filter(|(text, ..)| text.starts_with("± how sure"));
        assert_eq!(legends.count(), 1, "{name}");
    }
    bench.pick("Drink", "Salt Meadow");
    assert!(bench.says("± how sure · + − against Quince for honey"));
}
