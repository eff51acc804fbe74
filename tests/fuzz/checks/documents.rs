//! Texts of RON: documents, settings, sets of rules.

use super::telling::{assert_told, text};
use equipour::balance::{Drink, Pantry, figures};
use equipour::kitchen::{made, making_order};
use equipour::model::Document;
use equipour::store::{
    Opened, ReadError, document_text, read_rule_text, read_settings_text, read_text, rule_set_text,
};

/// A document is refused with its place, or is written and read as the same, and whatever it says can
/// be worked out or is refused in words.
pub(crate) fn document(bytes: &[u8]) {
    let Some(text) = text(bytes) else { return };
    match read_text(text) {
        Ok(opened) => sound(&opened),
        Err(error) => refused(&error),
    }
}

fn sound(opened: &Opened) {
    let document = &opened.document;
    let written = document_text(document).expect("what was read can be written");
    let again = read_text(&written).expect("what was written can be read");
    let twice = document_text(&again.document).expect("it can be written again");
    assert_eq!(written, twice, "saving twice changes a document");
    works(document);
}

/// Nothing that passes the checks makes a computation break down.
fn works(document: &Document) {
    if let Err(cycle) = making_order(document) {
        assert_told(&cycle.to_string());
    }
    for id in document.preparations.keys() {
        if let Err(error) = made(document, id) {
            assert_told(&error.to_string());
        }
    }
    let mut pantry = Pantry::default();
    for trial in document.specs.iter().flat_map(|spec| &spec.trials).take(4) {
        let found = Drink::of_trial(document, trial, &mut pantry);
        if let Err(error) = found.and_then(|drink| figures(&drink)) {
            assert_told(&error.to_string());
        }
    }
}

/// A refusal names the place, or what the whole file is.
fn refused(error: &ReadError) {
    let said = error.to_string();
    assert_told(&said);
    let whole = matches!(error, ReadError::TooMany { .. } | ReadError::Newer { .. });
    assert!(whole || said.starts_with("line "), "{said}");
}

/// Settings are refused with their place or taken.
pub(crate) fn settings(bytes: &[u8]) {
    let Some(text) = text(bytes) else { return };
    if let Err(error) = read_settings_text(text) {
        refused(&error);
    }
}

/// A set of rules is refused with its place, or is written and read as the same.
pub(crate) fn rules(bytes: &[u8]) {
    let Some(text) = text(bytes) else { return };
    match read_rule_text(text) {
        Ok(set) => {
            let written = rule_set_text(&set).expect("what was read can be written");
            let again = read_rule_text(&written).expect("what was written can be read");
            assert_eq!(set, again, "a set of rules comes back otherwise");
        }
        Err(error) => refused(&error),
    }
}
