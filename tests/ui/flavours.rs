//! Flavour words of the pours, beside what brings what.

use crate::workbench::{Workbench, demo};
use eframe::egui::accesskit::Role;
use equipour::model::Document;
use std::sync::Arc;

/// The demo with these flavour words of two of its pours, and none of the others.
fn with_words(quince: &[&str], lemon: &[&str]) -> Document {
    let mut document = demo();
    for (id, item) in Arc::make_mut(&mut document.ingredients) {
        let words: &[&str] = match id.0.as_str() {
            "quince-syrup" => quince,
            "lemon-juice" => lemon,
            _ => &[],
        };
        Arc::make_mut(item).notes = words.iter().map(|word| (*word).to_owned()).collect();
    }
    for trial in document.specs.iter_mut().flat_map(|spec| &mut spec.trials) {
        Arc::make_mut(trial).frozen.clear();
    }
    document
}

#[test]
fn a_note_that_two_pours_share_stands_first() {
    let mut bench = Workbench::on(with_words(&["rose", "fresh"], &["zest", "Fresh "]));
    bench.button("Flavour notes");
    for pour in [
        "quince syrup: fresh",
        "lemon juice: fresh",
        "lemon juice: zest",
    ] {
        assert!(bench.has(Role::Image, pour), "{pour}");
    }
    assert!(!bench.has(Role::Image, "quince syrup: zest"));
    let top = |name: &str| bench.place(Role::Image, name).top();
    assert!(top("lemon juice: fresh") < top("quince syrup: rose"));
    assert!(top("quince syrup: rose") < top("lemon juice: zest"));
    bench.button("What brings what");
    assert!(!bench.has(Role::Image, "lemon juice: fresh"));
}

#[test]
fn without_flavour_words_it_says_where_to_write_them() {
    let mut bench = Workbench::on(with_words(&[], &[]));
    bench.button("Flavour notes");
    assert!(bench.says("No pour has flavour words yet"));
    bench.button("Go to the larder");
    assert!(bench.has(Role::TextInput, "Search the larder"));
}
