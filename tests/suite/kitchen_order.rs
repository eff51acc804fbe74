//! The order in which preparations are made.

use crate::house_made::{combined, from_preparation, input, larder, put_preparation};
use equipour::kitchen::{making_order, making_order_of, used_by, uses};
use equipour::model::{Document, PreparationId, Quantity, Source};
use proptest::prelude::*;
use std::collections::BTreeMap;

fn id(number: usize) -> String {
    format!("p{number:04}")
}

/// Preparations of water and of what they use.
fn document(edges: &BTreeMap<usize, Vec<usize>>) -> Document {
    let mut document = larder();
    for (own, used) in edges {
        let mut inputs = vec![input("water", Quantity::Grams(100.0))];
        for other in used {
            let output = format!("out {other}");
            inputs.push(from_preparation(&id(*other), &output, Quantity::Grams(1.0)));
        }
        let name = format!("Number {own}");
        let made = combined(&name, inputs, &format!("out {own}"));
        put_preparation(&mut document, &id(*own), made);
    }
    document
}

fn place(order: &[PreparationId], number: usize) -> usize {
    let wanted = PreparationId(id(number));
    order
        .iter()
        .position(|own| *own == wanted)
        .expect("every preparation is in the order")
}

#[test]
fn five_thousand_preparations_in_a_chain_come_in_order() {
    let edges = (0..5000).map(|own| (own, if own < 4999 { vec![own + 1] } else { vec![] }));
    let order = making_order(&document(&edges.collect())).expect("there is no circle");
    let expected: Vec<PreparationId> = (0..5000).rev().map(|own| PreparationId(id(own))).collect();
    assert_eq!(order, expected);
}

#[test]
fn a_circle_is_refused_with_its_members_in_the_order_of_use() {
    let edges = [
        (1, vec![4]),
        (2, vec![3]),
        (3, vec![1]),
        (4, vec![2]),
        (5, vec![1]),
    ];
    let cycle = making_order(&document(&edges.into())).expect_err("it goes round");
    let members: Vec<&str> = cycle.members.iter().map(|id| id.0.as_str()).collect();
    assert_eq!(members, ["p0001", "p0004", "p0002", "p0003"]);
    assert_eq!(
        cycle.to_string(),
        "\"Number 1\" uses \"Number 4\", which uses \"Number 2\", which uses \"Number 3\", which uses \"Number 1\""
    );
}

#[test]
fn a_preparation_that_uses_its_own_output_is_named() {
    let edges = [(7, vec![7])];
    let cycle = making_order(&document(&edges.into())).expect_err("it goes round");
    assert_eq!(cycle.to_string(), "\"Number 7\" uses itself");
}

#[test]
fn the_row_of_an_output_is_as_good_as_its_preparation() {
    let edges = [(1, vec![]), (2, vec![])];
    let mut document = document(&edges.into());
    let by_row = input("out 2", Quantity::Grams(10.0));
    assert!(matches!(by_row.source, Source::Ingredient(_)));
    put_preparation(
        &mut document,
        "p0001",
        combined("By row", vec![by_row], "out 1"),
    );
    let order = making_order(&document).expect("there is no circle");
    assert!(place(&order, 2) < place(&order, 1));
    let one = uses(&document, &"p0001".into());
    assert_eq!(one.into_iter().collect::<Vec<_>>(), ["p0002".into()]);
    let users = used_by(&document, &"p0002".into());
    assert_eq!(users.into_iter().collect::<Vec<_>>(), ["p0001".into()]);
    // Now the other way round, too.
    let back = combined("Back", vec![input("out 1", Quantity::Grams(1.0))], "out 2");
    put_preparation(&mut document, "p0002", back);
    let cycle = making_order(&document).expect_err("it goes round");
    assert_eq!(cycle.members.len(), 2);
}

#[test]
fn only_what_lies_below_a_preparation_comes_before_it() {
    let edges = [
        (1, vec![2]),
        (2, vec![3]),
        (3, vec![]),
        (4, vec![1]),
        (5, vec![]),
    ];
    let order = making_order_of(&document(&edges.into()), &"p0001".into()).expect("no circle");
    assert_eq!(order, ["p0003".into(), "p0002".into(), "p0001".into()]);
    let unknown = making_order_of(&larder(), &"nobody".into()).expect("no circle");
    assert!(unknown.is_empty());
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 64, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn every_preparation_comes_once_and_after_those_it_uses(
        links in prop::collection::vec((0..40_usize, 0..40_usize), 0..120),
    ) {
        let mut edges: BTreeMap<usize, Vec<usize>> = (0..40).map(|own| (own, vec![])).collect();
        for (one, other) in links {
            // Links that point to a larger number go round in no circle.
            let (own, used) = (one.min(other), one.max(other));
            if own < used && !edges[&own].contains(&used) {
                edges.get_mut(&own).expect("it is there").push(used);
            }
        }
        let order = making_order(&document(&edges)).expect("there is no circle");
        prop_assert_eq!(order.len(), 40);
        for (own, used) in &edges {
            for other in used {
                prop_assert!(place(&order, *other) < place(&order, *own));
            }
        }
    }

    #[test]
    fn a_circle_is_found_wherever_it_hangs(
        length in 1..30_usize, tail in 0..30_usize, first in 0..1000_usize,
    ) {
        let name = |place: usize| (first + 7 * place) % 1000;
        let mut edges: BTreeMap<usize, Vec<usize>> = BTreeMap::new();
        for place in 0..length {
            edges.insert(name(place), vec![name((place + 1) % length)]);
        }
        for place in length..length + tail {
            edges.insert(name(place), vec![name(place - 1)]);
        }
        let cycle = making_order(&document(&edges)).expect_err("it goes round");
        prop_assert_eq!(cycle.members.len(), length);
        let numbers: Vec<usize> = cycle
            .members
            .iter()
            .map(|id| id.0[1..].parse().expect("a number"))
            .collect();
        for (place, own) in numbers.iter().enumerate() {
            let next = numbers[(place + 1) % length];
            prop_assert_eq!(&edges[own], &vec![next]);
        }
    }
}
