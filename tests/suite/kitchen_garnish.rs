//! Outputs that lie on or beside a drink: what card, label, cost and second uses say of them.

use crate::house_flows::document;
use crate::house_made::step;
use equipour::kitchen::{card, cost, label, made, second_uses};
use equipour::model::{Document, DryTo, Garnish, Preparation, Process, Range, Step};
use std::sync::Arc;

fn change(document: &mut Document, id: &str, change: impl FnOnce(&mut Preparation)) {
    let all = Arc::make_mut(&mut document.preparations);
    let held = all.get_mut(&id.into()).expect("it is there");
    change(Arc::make_mut(held));
}

/// An output cut into as many pieces, each with its place and oil.
fn cut(document: &mut Document, id: &str, output: &str, pieces: f64) {
    let garnish = Garnish {
        pieces,
        size_mm: "30 × 50".to_owned(),
        placement: "on the rim".to_owned(),
        oil_ml: Some(0.05),
    };
    change(document, id, |made| {
        made.garnishes.insert(output.to_owned(), garnish);
    });
}

#[test]
fn card_and_label_say_pieces_size_placement_and_oil_of_a_garnish() {
    let mut document = document();
    let plain = card(&document, &"leather".into()).expect("it works");
    assert!(
        !plain.contains("piece") && !plain.contains("placed"),
        "{plain}"
    );
    cut(&mut document, "leather", "leather", 24.0);
    let card = card(&document, &"leather".into()).expect("it works");
    let line = card.lines().find(|line| line.contains("leather: "));
    let line = line.expect("it comes out");
    let label = label(&document, &"leather".into(), "leather", "2026-05-04").expect("it works");
    let on_label = label.lines().find(|line| line.starts_with("Garnish: "));
    for said in [line, on_label.expect("it is a garnish")] {
        for words in [
            "24 pieces of 30 × 50 mm",
            "placed: on the rim",
            "0.05 ml of oil expressed over a drink",
        ] {
            assert!(said.contains(words), "{words} in {said}");
        }
    }
}

#[test]
fn a_garnish_without_words_says_no_more_than_its_pieces() {
    let mut document = document();
    change(&mut document, "leather", |made| {
        made.garnishes
            .insert("leather".to_owned(), Garnish::default());
    });
    let words = |document: &Document| {
        let text = label(document, &"leather".into(), "leather", "2026-05-04").expect("it works");
        let line = text.lines().find(|line| line.starts_with("Garnish"));
        line.map(str::to_owned)
    };
    assert_eq!(words(&document), None);
    change(&mut document, "leather", |made| {
        made.garnishes
            .entry("leather".to_owned())
            .or_default()
            .pieces = 1.0;
    });
    assert_eq!(words(&document).as_deref(), Some("Garnish: 1 piece"));
}

#[test]
fn all_pieces_of_the_main_output_cost_the_batch_and_those_of_a_by_product_nothing() {
    let mut document = document();
    let before = cost(&document, &"leather".into()).expect("it works");
    assert!(before.per_piece.is_empty());
    cut(&mut document, "leather", "leather", 24.0);
    let found = cost(&document, &"leather".into()).expect("it works");
    // 0.6 kg of raspberries at 12 and 0.1 kg of sugar at 2 a kilogram.
    assert!((found.per_piece["leather"] * 24.0 - 7.4).abs() < 1e-9);
    assert_eq!(found.whole(), before.whole());
    // By weight, where the row says what a piece weighs.
    let row = Arc::make_mut(&mut document.ingredients).get_mut(&"leather".into());
    Arc::make_mut(row.expect("it is there")).piece_g = Some(5.0);
    let weighed = cost(&document, &"leather".into()).expect("it works");
    let grams = made(&document, &"leather".into())
        .expect("it works")
        .flow
        .streams["leather"]
        .mass_g();
    assert!((weighed.per_piece["leather"] - 7.4 * 5.0 / grams).abs() < 1e-9);
    cut(&mut document, "shrub", "shrub pulp", 10.0);
    let shrub = cost(&document, &"shrub".into()).expect("it works");
    assert_eq!(shrub.per_piece["shrub pulp"], 0.0);
    assert!(!shrub.per_piece.contains_key("shrub"));
}

#[test]
fn what_is_dried_or_a_garnish_already_has_no_second_use() {
    let mut document = document();
    let speaks = |document: &Document, id: &str, stream: &str| {
        let uses = second_uses(document, &id.into()).expect("it works");
        uses.iter().any(|one| one.stream == stream)
    };
    assert!(speaks(&document, "shrub", "shrub pulp"));
    cut(&mut document, "shrub", "shrub pulp", 10.0);
    assert!(!speaks(&document, "shrub", "shrub pulp"));
    // The same pulp, dried and left over.
    change(&mut document, "shrub", |made| {
        made.garnishes.clear();
        let to = DryTo::Moisture(Range::exact(0.18));
        let dry = step(Process::Dehydrate { to }, &["shrub pulp"], &["crisp"]);
        made.steps.push(Step {
            celsius: Some(60.0),
            ..dry
        });
        made.outputs.remove("shrub pulp");
    });
    assert!(!speaks(&document, "shrub", "crisp"));
}
