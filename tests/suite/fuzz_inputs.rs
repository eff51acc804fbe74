//! Damaged inputs of every kind: the seeds of the fuzz targets as they are, and thousands of ways in
//! which they may be broken, through the same checks.

#[path = "../fuzz/checks/mod.rs"]
mod checks;

use proptest::prelude::*;
use proptest::sample::Index;
use proptest::test_runner::{RngAlgorithm, TestRng, TestRunner};
use std::fs;
use std::path::Path;

/// Pieces that mean something to one reader or another.
const PIECES: [&str; 28] = [
    "((((((((((((((((((((((((((((((((",
    "[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[",
    "{\"a\":{\"a\":{\"a\":{\"a\":",
    "1e999",
    "-1e999",
    "NaN",
    "-inf",
    "99999999999999999999999999",
    "0x7fffffffffffffff",
    "-0.0",
    "\0",
    "\u{feff}",
    "\u{202e}",
    "\u{1b}[31m",
    "\\ud800",
    "\\u{110000}",
    "\"",
    "\"\"\"",
    "r#\"",
    "/*",
    "<script type=\"application/ld+json\">",
    "</script>",
    "&#x110000;",
    "=HYPERLINK(\"x\")",
    "../../etc/passwd",
    "\r",
    "1 3/4 fl oz",
    "½",
];

/// One way to break an input.
#[derive(Clone, Debug)]
enum Damage {
    /// A byte becomes another.
    Byte(Index, u8),
    /// The end is missing.
    Cut(Index),
    /// A stretch is missing.
    Lost(Index, usize),
    /// A stretch stands twice.
    Twice(Index, usize, Index),
    /// A stretch of another seed stands there.
    Spliced(Index, Index, Index, usize),
    /// A piece stands there.
    Piece(Index, Index),
}

fn any_damage() -> impl Strategy<Value = Damage> {
    let place = any::<Index>;
    prop_oneof![
        3 => (place(), any::<u8>()).prop_map(|(at, byte)| Damage::Byte(at, byte)),
        1 => place().prop_map(Damage::Cut),
        2 => (place(), 1..40_usize).prop_map(|(at, length)| Damage::Lost(at, length)),
        2 => (place(), 1..60_usize, place()).prop_map(|(at, length, to)| Damage::Twice(at, length, to)),
        2 => (place(), place(), place(), 1..60_usize)
            .prop_map(|(at, seed, from, length)| Damage::Spliced(at, seed, from, length)),
        4 => (place(), place()).prop_map(|(at, piece)| Damage::Piece(at, piece)),
    ]
}

fn stretch(bytes: &[u8], at: Index, length: usize) -> (usize, usize) {
    let start = at.index(bytes.len() + 1);
    (start, bytes.len().min(start + length))
}

fn put(bytes: &mut Vec<u8>, at: Index, piece: &[u8]) {
    let at = at.index(bytes.len() + 1);
    bytes.splice(at..at, piece.iter().copied());
}

fn damage(seeds: &[Vec<u8>], bytes: &mut Vec<u8>, how: &Damage) {
    match how {
        Damage::Byte(at, byte) if !bytes.is_empty() => {
            let at = at.index(bytes.len());
            bytes[at] = *byte;
        }
        Damage::Byte(at, byte) => put(bytes, *at, &[*byte]),
        Damage::Cut(at) => bytes.truncate(at.index(bytes.len() + 1)),
        Damage::Lost(at, length) => {
            let (start, end) = stretch(bytes, *at, *length);
            bytes.drain(start..end);
        }
        Damage::Twice(at, length, to) => {
            let (start, end) = stretch(bytes, *at, *length);
            let piece = bytes[start..end].to_vec();
            put(bytes, *to, &piece);
        }
        Damage::Spliced(at, seed, from, length) => {
            let other = seed.get(seeds);
            let (start, end) = stretch(other, *from, *length);
            put(bytes, *at, &other[start..end]);
        }
        Damage::Piece(at, piece) => put(bytes, *at, piece.get(&PIECES).as_bytes()),
    }
}

/// The seeds of a target, in the order of their names.
fn seeds(target: &str) -> Vec<Vec<u8>> {
    let folder = Path::new(concat!(env!("CARGO_MANIFEST_DIR"), "/tests/fuzz/seeds")).join(target);
    let entries = fs::read_dir(&folder).unwrap_or_else(|error| panic!("{target}: {error}"));
    let mut paths: Vec<_> = entries
        .map(|entry| entry.expect("an entry").path())
        .collect();
    paths.sort();
    assert!(paths.len() > 2, "{target} has hardly a seed");
    let read = paths.iter().map(|path| fs::read(path).expect("a seed"));
    read.collect()
}

/// Every seed as it is, then as many damaged ones.
fn endures(target: &str, cases: u32, check: fn(&[u8])) {
    let seeds = seeds(target);
    for seed in &seeds {
        check(seed);
    }
    let input = (any::<Index>(), prop::collection::vec(any_damage(), 1..6));
    let config = ProptestConfig {
        failure_persistence: None,
        ..ProptestConfig::with_cases(cases)
    };
    // The same inputs in every run; new ones are looked for by the fuzz targets.
    let chance = TestRng::deterministic_rng(RngAlgorithm::ChaCha);
    let outcome = TestRunner::new_with_rng(config, chance).run(&input, |(seed, all)| {
        let mut bytes = seed.get(&seeds).clone();
        for how in &all {
            damage(&seeds, &mut bytes, how);
        }
        check(&bytes);
        Ok(())
    });
    if let Err(error) = outcome {
        panic!("{target}: {error}");
    }
}

#[test]
fn damaged_documents_are_refused_with_their_place_or_read_the_same_again() {
    endures("document", 1_500, checks::documents::document);
}

#[test]
fn damaged_settings_are_refused_with_their_place() {
    endures("settings", 3_000, checks::documents::settings);
}

#[test]
fn damaged_rules_are_refused_with_their_place_or_read_the_same_again() {
    endures("rule_set", 2_000, checks::documents::rules);
}

#[test]
fn damaged_tables_are_refused_with_their_rows_or_read_the_same_again() {
    endures("table", 1_500, checks::tables::table);
}

#[test]
fn damaged_recipes_are_refused_with_their_place_or_understood_within_limits() {
    endures("recipe_json", 1_500, checks::recipes::recipe);
}

#[test]
fn damaged_pages_are_refused_with_their_place_or_understood_within_limits() {
    endures("recipe_page", 1_500, checks::recipes::recipe);
}

#[test]
fn any_typed_amount_is_refused_with_a_reason_or_shown_so_that_it_reads_again() {
    endures("amount", 5_000, checks::amounts::typed);
}

#[test]
fn any_line_of_ingredients_is_read_without_losing_letters() {
    endures("recipe_line", 1_500, checks::recipes::line);
}
