//! What a document may say of bounds, jiggers and parts of a target, in memory and in files.

use crate::sample_drinks::{SHAKEN, document, point, sour};
use equipour::model::{Bound, Bounded, Document, TargetPart, check};
use equipour::store::{document_text, read_text};
use std::sync::Arc;

fn sample() -> Document {
    document(sour(), SHAKEN, Some(point(&sour(), SHAKEN)))
}

const fn bound(least: Option<f64>, most: Option<f64>) -> Bound {
    Bound {
        on: true,
        least,
        most,
    }
}

/// What is said of the sample with that bound.
fn said(figure: Bounded, bound: Bound) -> Result<(), String> {
    let mut document = sample();
    *document.specs[0].bounds.of_mut(figure) = bound;
    check(&document).map_err(|error| error.to_string())
}

fn said_of_jiggers(sizes: &[f64]) -> Result<(), String> {
    let document = Document {
        jiggers_ml: sizes.to_vec(),
        ..sample()
    };
    check(&document).map_err(|error| error.to_string())
}

fn said_of_parts(parts: Vec<TargetPart>) -> Result<(), String> {
    let mut document = sample();
    document.specs[0].target.as_mut().expect("a target").parts = parts;
    check(&document).map_err(|error| error.to_string())
}

fn part(name: &str, weight: f64) -> TargetPart {
    TargetPart {
        name: name.to_owned(),
        weight,
    }
}

/// A document in which everything that format 3 brought says something.
fn with_everything_new() -> Document {
    let mut document = sample();
    document.jiggers_ml = vec![7.5, 22.5, 30.0];
    let spec = &mut document.specs[0];
    spec.bounds.served_ml = bound(Some(90.0), Some(120.5));
    spec.bounds.strength_pct_vol = bound(None, Some(22.0));
    spec.bounds.alcohol_g = bound(Some(5.0), None);
    spec.bounds.cost = Bound {
        on: false,
        ..bound(None, Some(2.75))
    };
    spec.bounds.pours = bound(Some(2.0), Some(6.0));
    spec.bounds.glass = true;
    let target = spec.target.as_mut().expect("a target");
    target.parts = vec![part("daisy", 1.0), part("sour \"of mine\"", 2.5)];
    let pour = &mut Arc::make_mut(&mut spec.trials[0]).pours[1];
    pour.minimum = Some(10.0);
    pour.maximum = Some(25.0);
    pour.limits_off = true;
    document
}

/// What reading says of that document with one place of its text changed.
fn refused(from: &str, to: &str) -> (String, usize) {
    let text = document_text(&with_everything_new()).expect("it can be written");
    let at = text.find(from).unwrap_or_else(|| panic!("no {from} in it"));
    let line = text[..at].matches('\n').count() + 1;
    let changed = text.replacen(from, to, 1);
    let error = read_text(&changed).expect_err("it is refused");
    (error.to_string(), line)
}

#[test]
fn every_new_field_comes_back_as_it_was() {
    let document = with_everything_new();
    check(&document).expect("it may be said");
    let text = document_text(&document).expect("it can be written");
    let opened = read_text(&text).expect("it opens");
    assert_eq!(opened.document, document);
    assert!(opened.notices.is_empty() && opened.read_only.is_none());
    assert_eq!(document_text(&opened.document).expect("again"), text);
}

#[test]
fn an_unknown_field_inside_the_bounds_is_an_error_that_names_it() {
    let (said, line) = refused("glass: true,", "glas: true,");
    assert!(said.starts_with(&format!("line {line}, ")), "{said}");
    assert!(said.contains("`glas`"), "{said}");
    let (said, _) = refused("least: 90.0,", "lowest: 90.0,");
    assert!(said.contains("`lowest`"), "{said}");
}

#[test]
fn bad_values_of_a_file_are_refused_with_line_and_path() {
    for (from, to, says) in [
        (
            "most: 120.5",
            "most: inf",
            "specs[0].bounds.served_ml.most: is not a finite number",
        ),
        (
            "most: 22.0",
            "most: 101.0",
            "specs[0].bounds.strength_pct_vol.most: 101 % vol is above 100 % vol",
        ),
        (
            "most: 2.75",
            "most: -2.75",
            "specs[0].bounds.cost.most: -2.75 is negative",
        ),
        (
            "weight: 2.5",
            "weight: 0.0",
            "specs[0].target.parts[1].weight: must be above 0",
        ),
    ] {
        let (said, line) = refused(from, to);
        let end = format!(": {says}");
        assert!(said.ends_with(&end), "{said} instead of {says}");
        let named: usize = said["line ".len()..said.len() - end.len()]
            .parse()
            .expect("a line");
        // Indices lead to the entry, not into it.
        assert!(
            (named..named + 3).contains(&line),
            "{said}, changed in {line}"
        );
    }
}

#[test]
fn a_smallest_value_above_the_largest_is_refused_with_both() {
    assert_eq!(
        said(Bounded::ServedVolume, bound(Some(120.0), Some(100.0))),
        Err("specs[0].bounds.served_ml: at least 120 ml lies above at most 100 ml".to_owned())
    );
    assert_eq!(
        said(Bounded::Cost, bound(Some(3.5), Some(2.0))),
        Err("specs[0].bounds.cost: at least 3.5 lies above at most 2".to_owned())
    );
    for figure in Bounded::ALL {
        assert_eq!(said(figure, bound(Some(5.0), Some(5.0))), Ok(()));
        assert_eq!(said(figure, bound(None, None)), Ok(()));
    }
}

#[test]
fn a_limit_that_is_off_must_stand_as_well() {
    let off = Bound {
        on: false,
        ..bound(Some(f64::NAN), None)
    };
    assert_eq!(
        said(Bounded::Alcohol, off),
        Err("specs[0].bounds.alcohol_g.least: is not a finite number".to_owned())
    );
}

#[test]
fn strength_ends_at_a_hundred_and_pours_are_whole() {
    assert_eq!(said(Bounded::Strength, bound(None, Some(100.0))), Ok(()));
    assert_eq!(
        said(Bounded::Strength, bound(Some(100.5), None)),
        Err("specs[0].bounds.strength_pct_vol.least: 100.5 % vol is above 100 % vol".to_owned())
    );
    assert_eq!(
        said(Bounded::Pours, bound(None, Some(4.5))),
        Err("specs[0].bounds.pours.most: 4.5 is no whole number of pours".to_owned())
    );
    // Only pours are counted.
    assert_eq!(said(Bounded::Alcohol, bound(None, Some(14.5))), Ok(()));
}

#[test]
fn jiggers_rise_within_what_a_hand_holds() {
    let rising = |count: usize| -> Vec<f64> { (1..=count).map(|size| size as f64).collect() };
    for fine in [vec![0.5], vec![20.0, 40.0, 1000.0], rising(24)] {
        assert_eq!(said_of_jiggers(&fine), Ok(()), "{fine:?}");
    }
    for (sizes, says) in [
        (vec![], "jiggers_ml: must hold at least one size"),
        (rising(25), "jiggers_ml: holds 25 entries, at most 24"),
        (vec![0.0, 5.0], "jiggers_ml[0]: must be above 0"),
        (vec![5.0, -1.0], "jiggers_ml[1]: -1 is negative"),
        (vec![5.0, f64::NAN], "jiggers_ml[1]: is not a finite number"),
        (
            vec![5.0, 1000.5],
            "jiggers_ml[1]: 1000.5 ml is above 1000 ml",
        ),
        (
            vec![5.0, 20.0, 20.0],
            "jiggers_ml[2]: 20 ml must be above the size before it, 20 ml",
        ),
        (
            vec![5.0, 20.0, 10.0],
            "jiggers_ml[2]: 10 ml must be above the size before it, 20 ml",
        ),
    ] {
        assert_eq!(said_of_jiggers(&sizes), Err(says.to_owned()));
    }
}

#[test]
fn parts_of_a_target_are_few_and_weigh_something() {
    assert_eq!(said_of_parts(vec![part("a", 0.5); 20]), Ok(()));
    for (parts, says) in [
        (
            vec![part("a", 1.0); 21],
            "specs[0].target.parts: holds 21 entries, at most 20",
        ),
        (
            vec![part("a", 1.0), part("b", 0.0)],
            "specs[0].target.parts[1].weight: must be above 0",
        ),
        (
            vec![part("a", f64::INFINITY)],
            "specs[0].target.parts[0].weight: is not a finite number",
        ),
        (
            vec![part(&"x".repeat(4_001), 1.0)],
            "specs[0].target.parts[0].name: is longer than 4000 characters",
        ),
    ] {
        assert_eq!(said_of_parts(parts), Err(says.to_owned()));
    }
}
