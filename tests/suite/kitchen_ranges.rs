//! Ranges of what a preparation makes, against draws of everything that may be off.

use crate::house_flows::document;
use crate::house_made::{combined, input, put, put_preparation};
use equipour::kitchen::{SIGMAS_IN_RANGE, Supplies, contents, described, flow, made};
use equipour::model::{
    Document, Figure, Ingredient, IngredientId, Input, Preparation, PreparationId, Quantity, Range,
};
use rand_chacha::ChaCha8Rng;
use rand_chacha::rand_core::{Rng, SeedableRng};
use rand_distr::{Distribution, StandardNormal};
use std::sync::Arc;

const DRAWS: usize = 4000;

fn shrub(document: &Document) -> &Preparation {
    &document.preparations[&PreparationId::from("shrub")]
}

fn row(document: &Document, id: &str) -> Ingredient {
    document.ingredients[&IngredientId::from(id)]
        .as_ref()
        .clone()
}

fn ranges(document: &Document, output: &str) -> [Option<Range>; Figure::ALL.len()] {
    let made = made(document, &"shrub".into()).expect("it works");
    Figure::ALL.map(|figure| figure.of(&made.rows[output]))
}

/// A draw of a figure: two halves of normal distributions that meet at the typical value, cut at zero.
fn drawn(range: Range, random: &mut ChaCha8Rng) -> f64 {
    let (low, high) = (range.typical - range.low, range.high - range.typical);
    if low + high <= 0.0 {
        return range.typical;
    }
    let unit = f64::from(random.next_u32()) / f64::from(u32::MAX);
    let normal: f64 = StandardNormal.sample(random);
    let step = normal.abs() / SIGMAS_IN_RANGE;
    if unit < low / (low + high) {
        (range.typical - step * low).max(0.0)
    } else {
        range.typical + step * high
    }
}

/// The figures of the shrub with every figure of its inputs and its step drawn once.
fn draw(document: &Document, random: &mut ChaCha8Rng) -> Vec<f64> {
    let mut there = document.clone();
    for input in &shrub(document).inputs {
        let id = document.row_of(&input.source).expect("it has a row");
        let mut item = row(document, &id.0);
        for figure in Figure::ALL {
            if let Some(range) = figure.of(&item) {
                *figure.of_mut(&mut item) = Some(Range::exact(drawn(range, random)));
            }
        }
        assert!(contents(&item).is_ok());
        put(&mut there, &id.0, item);
    }
    let mut preparation = shrub(document).clone();
    for figure in preparation.uncertain() {
        let range = figure.of(&preparation).expect("it has a range");
        preparation = preparation.with(figure, drawn(range, random));
    }
    let supplies = Supplies::of(&there, &preparation).expect("the rows are there");
    let flow = flow(&preparation, &supplies).expect("it works");
    let item = described(&Ingredient::default(), &flow.streams["shrub"].whole());
    let item = item.expect("it weighs something");
    Figure::ALL
        .map(|figure| figure.of(&item).map_or(0.0, |range| range.typical))
        .to_vec()
}

#[test]
fn draws_of_a_shrub_scatter_as_its_ranges_say() {
    let document = document();
    let ranges = ranges(&document, "shrub");
    let mut random = ChaCha8Rng::seed_from_u64(1763);
    let draws: Vec<Vec<f64>> = (0..DRAWS).map(|_| draw(&document, &mut random)).collect();
    let mut compared = 0;
    for (place, (figure, range)) in Figure::ALL.into_iter().zip(ranges).enumerate() {
        let Some(range) = range.filter(|range| range.high > range.low) else {
            continue;
        };
        let values: Vec<f64> = draws.iter().map(|draw| draw[place]).collect();
        let mean = values.iter().sum::<f64>() / DRAWS as f64;
        let squares = values.iter().map(|value| (value - mean).powi(2));
        let sigma = (squares.sum::<f64>() / DRAWS as f64).sqrt();
        let said = (range.high - range.low) / (2.0 * SIGMAS_IN_RANGE);
        // The scatter of 4000 draws is known to 1.1 %; halves that differ and curvature do the rest.
        assert!(
            (sigma / said - 1.0).abs() < 0.06,
            "{}: drawn {sigma}, said {said}",
            figure.name()
        );
        let inside = values
            .iter()
            .filter(|value| (range.low..=range.high).contains(*value));
        let share = inside.count() as f64 / DRAWS as f64;
        assert!((0.93..0.98).contains(&share), "{}: {share}", figure.name());
        compared += 1;
    }
    // Sugar, citric, malic and acetic acid, pH.
    assert_eq!(compared, 5);
}

#[test]
fn exact_inputs_and_steps_make_an_exact_row() {
    let mut document = document();
    for id in ["raspberry", "vinegar"] {
        let mut item = row(&document, id);
        for figure in Figure::ALL {
            let range = figure.of_mut(&mut item);
            *range = range.map(|range| Range::exact(range.typical));
        }
        put(&mut document, id, item);
    }
    let uncertain = shrub(&document).uncertain();
    let mut preparation = shrub(&document).clone();
    for figure in uncertain {
        if let Some(range) = figure.of_mut(&mut preparation) {
            *range = Range::exact(range.typical);
        }
    }
    let all = Arc::make_mut(&mut document.preparations);
    all.insert("shrub".into(), Arc::new(preparation));
    let stated: Vec<Range> = ranges(&document, "shrub").into_iter().flatten().collect();
    assert!(stated.len() > 2, "{stated:?}");
    for range in stated {
        assert!(range.high - range.low <= 1e-9 * range.typical, "{range:?}");
    }
}

#[test]
fn a_figure_that_is_less_sure_never_makes_a_row_surer() {
    let mut document = document();
    let before = ranges(&document, "shrub");
    let mut item = row(&document, "raspberry");
    let citric = Figure::Citric.of(&item).expect("it is stated");
    *Figure::Citric.of_mut(&mut item) = Some(Range {
        low: citric.typical - 2.0 * (citric.typical - citric.low),
        high: citric.typical + 2.0 * (citric.high - citric.typical),
        ..citric
    });
    put(&mut document, "raspberry", item);
    let after = ranges(&document, "shrub");
    for (before, after) in before.iter().zip(&after) {
        let width = |range: &Option<Range>| range.map_or(0.0, |range| range.high - range.low);
        assert!(width(after) >= width(before) * (1.0 - 1e-9));
    }
    let place = Figure::ALL
        .iter()
        .position(|figure| *figure == Figure::Citric);
    let place = place.expect("it is a figure");
    let width =
        |ranges: &[Option<Range>]| ranges[place].map_or(0.0, |range| range.high - range.low);
    assert!(width(&after) > 1.5 * width(&before));
}

#[test]
fn two_inputs_of_one_row_are_off_together() {
    // 100 g of vinegar twice are as unsure as 200 g once, not less by the square root of two.
    let mut document = document();
    let mut width = |parts: &[(&str, f64)]| {
        let inputs = parts.iter().map(|(name, grams)| Input {
            name: (*name).to_owned(),
            ..input("vinegar", Quantity::Grams(*grams))
        });
        let inputs = inputs.chain([input("water", Quantity::Grams(50.0))]);
        put_preparation(
            &mut document,
            "mix",
            combined("Mix", inputs.collect(), "mix"),
        );
        let mix = made(&document, &"mix".into()).expect("it works").rows["mix"].clone();
        let range = Figure::Acetic.of(&mix).expect("it is stated");
        (range.low, range.high)
    };
    let (one, two) = (
        width(&[("one", 200.0)]),
        width(&[("one", 100.0), ("other", 100.0)]),
    );
    assert!(one.1 - one.0 > 1.0, "{one:?}");
    assert!(
        (one.0 - two.0).abs() < 1e-9 && (one.1 - two.1).abs() < 1e-9,
        "{one:?} {two:?}"
    );
}
