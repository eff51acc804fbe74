//! Every chart says what it shows to somebody who does not see it, and gives way to words on demand.

use crate::workbench::{CTRL, Workbench};
use eframe::egui::Key;
use eframe::egui::accesskit::Role;
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use std::collections::BTreeSet;
use std::thread::sleep;
use std::time::Duration;

/// Every page, its tabs that draw something, and how the names of their charts begin.
const PLACES: [(Key, &str, &[&str]); 11] = [
    (
        Key::Num1,
        "What brings what",
        &[
            "sweet against sour",
            "Strength",
            "Temperature",
            "What each pour brings",
        ],
    ),
    (Key::Num1, "How sure", &["Sources of error"]),
    (Key::Num1, "Flavour notes", &["Shared flavours"]),
    (Key::Num1, "Trade-off", &["Distance against change"]),
    (Key::Num2, "Figures", &["Flow of "]),
    (Key::Num2, "Time", &["Flow of ", "Time line"]),
    (
        Key::Num3,
        "Side by side",
        &["sweet against sour", "Strength against dilution"],
    ),
    (
        Key::Num3,
        "Over the trials",
        &[
            "From the target",
            "Sweet",
            "Sour",
            "Strength",
            "Served",
            "Cost",
        ],
    ),
    (Key::Num4, "Glass", &["Page 1 of "]),
    (Key::Num4, "Batch", &["Page 1 of "]),
    (Key::Num4, "Prep plan", &["Prep plan", "Page 1 of "]),
];

fn go(bench: &mut Workbench, (key, tab, _): (Key, &str, &[&str])) {
    bench.chord(CTRL, key);
    bench.click(Role::Button, tab);
    while bench.session().is_trading_off() {
        sleep(Duration::from_millis(5));
        bench.harness.step();
    }
    bench.run();
}

/// Name and sentence of everything drawn.
fn drawn(bench: &Workbench) -> Vec<(String, String)> {
    let nodes = bench.harness.query_all_by_role(Role::Image);
    let said = nodes.map(|node| {
        let node = node.accesskit_node();
        let sentence = node.data().description().unwrap_or_default();
        (node.label().unwrap_or_default(), sentence.to_owned())
    });
    said.collect()
}

#[test]
fn every_chart_has_a_name_of_its_own_and_says_what_is_read_off_it() {
    let mut bench = Workbench::demo();
    for place in PLACES {
        go(&mut bench, place);
        let found = drawn(&bench);
        let names: BTreeSet<&str> = found.iter().map(|(name, _)| name.as_str()).collect();
        assert_eq!(names.len(), found.len(), "{place:?}: {names:?}");
        for (name, sentence) in &found {
            assert!(
                !name.is_empty() && !sentence.is_empty(),
                "{place:?}: {name}"
            );
        }
        for wanted in place.2 {
            let mut known = found.iter().filter(|(name, _)| name.starts_with(wanted));
            let Some((_, sentence)) = known.next() else {
                panic!("{place:?}: no chart {wanted} among {names:?}");
            };
            if !wanted.starts_with("Page") {
                let sentences = sentence.matches(". ").count() + 1;
                assert!(sentence.ends_with('.'), "{wanted}: {sentence}");
                assert!(sentences <= 2, "{wanted}: {sentence}");
                assert!(
                    sentence.contains(|letter: char| letter.is_ascii_digit())
                        || *wanted == "Shared flavours",
                    "{wanted} names no figure: {sentence}"
                );
            }
        }
    }
}

#[test]
fn as_tables_no_chart_is_left_and_its_sentence_stands_above_the_rows() {
    let mut bench = Workbench::demo();
    for place in PLACES {
        go(&mut bench, place);
        let before = drawn(&bench);
        bench.chord(CTRL, Key::D);
        go(&mut bench, place);
        let left = drawn(&bench);
        assert!(left.is_empty(), "{place:?}: {left:?}");
        for wanted in place.2 {
            let chart = before.iter().find(|(name, _)| name.starts_with(wanted));
            let (_, sentence) = chart.expect("it was drawn");
            assert!(bench.says(sentence), "{place:?}: {sentence}");
        }
        bench.chord(CTRL, Key::D);
    }
}

#[test]
fn what_brings_most_is_named_with_its_share() {
    let bench = Workbench::demo();
    let derived = bench.session().derived().expect("derived");
    let parts = &derived.contributions;
    let most = parts
        .iter()
        .max_by(|one, other| one.sour.total_cmp(&other.sour));
    let most = most.expect("there are pours");
    let said = bench.description(Role::Image, "What each pour brings");
    let words = format!("acid from {} ({:.0} %)", most.name, most.sour * 100.0);
    assert!(said.contains(&words), "{said}");
}
