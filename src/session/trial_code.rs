//! A short code for a trial, to be written on a cup.

use crate::model::{Document, Spec, TrialId};

/// Most letters of a drink's name in a code.
const MOST_LETTERS: usize = 3;

/// Initials of the drink and the number of the trial, such as "TOD-3"; a second drink with the same
/// initials is "TOD2-3". `None` when there is no such trial, be it in the bin.
///
/// No two trials of a document share a code, and throwing trials away changes none.
pub fn trial_code(document: &Document, id: TrialId) -> Option<String> {
    let mut specs = document.specs.iter();
    let holds = |spec: &&Spec| spec.trials_and_bin().any(|trial| trial.id == id);
    let spec = specs.find(holds)?;
    let letters = initials(&spec.name);
    let before = document
        .specs
        .iter()
        .take_while(|other| other.id != spec.id);
    let alike = before.filter(|other| initials(&other.name) == letters);
    let rank = match alike.count() {
        0 => String::new(),
        count => (count + 1).to_string(),
    };
    let earlier = spec.trials_and_bin().filter(|trial| trial.id < id);
    Some(format!("{letters}{rank}-{}", earlier.count() + 1))
}

/// The first letters of a name; "D" for one without any.
fn initials(name: &str) -> String {
    let first = |word: &str| word.chars().find(|letter| letter.is_alphabetic());
    let words = name.split_whitespace().filter_map(first);
    let letters: String = words
        .take(MOST_LETTERS)
        .flat_map(char::to_uppercase)
        .filter(|letter| letter.is_alphabetic())
        .collect();
    if letters.is_empty() {
        "D".to_owned()
    } else {
        letters
    }
}
