//! How ingredients follow their figures, against contents worked out anew.

use crate::sample_drinks::larder;
use equipour::kitchen::{Change, Contents, SIGMAS_IN_RANGE, contents, spread};
use equipour::model::{Basis, Figure, Ingredient, IngredientId, Range};
use equipour::physics::{Component, Composition};
use rand_chacha::ChaCha8Rng;
use rand_chacha::rand_core::{Rng, SeedableRng};

/// Contents with every figure off by so many standard deviations, in straight pieces.
fn pieced(item: &Ingredient, typical: &Contents, steps: &[(Figure, f64)]) -> (Composition, f64) {
    let spread = spread(item, typical);
    let (mut gram, mut density) = (typical.per_gram, typical.density_g_per_ml);
    let mut add = |change: &Change, factor: f64| {
        gram += change.per_gram.scaled(factor);
        density += change.density_g_per_ml * factor;
    };
    for moved in spread.figures.iter() {
        let (_, step) = steps
            .iter()
            .find(|(figure, _)| *figure == moved.figure)
            .expect("every figure has a step");
        if *step < 0.0 {
            add(&moved.per_sigma_down, -step);
        } else {
            add(&moved.per_sigma_up, *step);
        }
    }
    (gram, density)
}

/// The ingredient with its typical figures moved; `None` where parts no longer fit.
fn exact(item: &Ingredient, steps: &[(Figure, f64)]) -> Option<(Composition, f64)> {
    let mut varied = item.clone();
    for (figure, step) in steps {
        if let Some(range) = figure.of(item) {
            let end = if *step < 0.0 { range.low } else { range.high };
            let typical = range.typical + step.abs() / SIGMAS_IN_RANGE * (end - range.typical);
            *figure.of_mut(&mut varied) = Some(Range { typical, ..range });
        }
    }
    let found = contents(&varied).ok()?;
    Some((found.per_gram, found.density_g_per_ml))
}

/// What a ml brings: sweet, sour, ethanol and mass, g.
fn per_ml((gram, density): (Composition, f64)) -> [f64; 4] {
    [
        gram.sweet_g() * density,
        gram.sour_g() * density,
        gram[Component::Ethanol] * density,
        density,
    ]
}

/// Seeded steps of every figure, evenly within two standard deviations.
fn any_steps(random: &mut ChaCha8Rng) -> Vec<(Figure, f64)> {
    let step = |word: u32| f64::from(word) / f64::from(1 << 30) - SIGMAS_IN_RANGE;
    Figure::ALL
        .map(|figure| (figure, step(random.next_u32())))
        .to_vec()
}

/// Root mean squares, over draws, of the true deviation and of the error of straight pieces.
fn deviation_and_error(item: &Ingredient, random: &mut ChaCha8Rng) -> ([f64; 4], [f64; 4]) {
    const DRAWS: usize = 100;
    let typical = contents(item).expect("it closes");
    let start = per_ml((typical.per_gram, typical.density_g_per_ml));
    let (mut deviation, mut error) = ([0.0; 4], [0.0; 4]);
    for _ in 0..DRAWS {
        let steps = any_steps(random);
        let truth = per_ml(exact(item, &steps).expect("the built-in ranges fit"));
        let pieced = per_ml(pieced(item, &typical, &steps));
        for place in 0..4 {
            deviation[place] += (truth[place] - start[place]).powi(2);
            error[place] += (truth[place] - pieced[place]).powi(2);
        }
    }
    let root = |squares: [f64; 4]| squares.map(|sum| 1000.0 * (sum / DRAWS as f64).sqrt());
    (root(deviation), root(error))
}

/// Random numbers of a row's own, so that other rows of the larder change nothing.
fn random_of(id: &IngredientId) -> ChaCha8Rng {
    let mut random = ChaCha8Rng::seed_from_u64(20_261_125);
    let mix = |sum: u64, byte: u8| sum.wrapping_mul(31).wrapping_add(byte.into());
    random.set_stream(id.0.bytes().fold(0, mix));
    random
}

#[test]
fn straight_pieces_leave_out_less_than_an_eighth_of_what_the_figures_do() {
    // A thousand draws a row put the worst, orange juice, at 0.103; a hundred scatter around that.
    // Or, per litre of the ingredient, less than this: sweet, sour, ethanol and mass, g.
    let small = [0.2_f64, 0.2, 0.2, 4.0];
    let mut moving = 0;
    for (id, item) in larder() {
        let (deviation, error) = deviation_and_error(item, &mut random_of(id));
        moving += usize::from(deviation != [0.0; 4]);
        for place in 0..4 {
            let most = small[place].max(0.125 * deviation[place]);
            let (name, error, deviation) = (&item.name, error[place], deviation[place]);
            assert!(error <= most, "{name} {place}: {error} of {deviation}");
        }
    }
    assert!(moving > 100, "most of the larder has ranges: {moving}");
}

#[test]
fn at_either_end_of_a_single_range_the_pieces_are_exact() {
    for item in larder().values() {
        let typical = contents(item).expect("it closes");
        for moved in spread(item, &typical).figures.iter() {
            for step in [-SIGMAS_IN_RANGE, SIGMAS_IN_RANGE] {
                let off = |figure| if figure == moved.figure { step } else { 0.0 };
                let steps = Figure::ALL.map(|figure| (figure, off(figure)));
                let truth = exact(item, &steps).expect("the built-in ranges fit");
                let (one, other) = (per_ml(truth), per_ml(pieced(item, &typical, &steps)));
                for (one, other) in one.into_iter().zip(other) {
                    assert!(
                        (one - other).abs() < 1e-12,
                        "{} {:?}",
                        item.name,
                        moved.figure
                    );
                }
            }
        }
    }
}

#[test]
fn where_the_parts_no_longer_fit_the_way_there_is_followed_as_far_as_it_goes() {
    let range = Range {
        low: 88.0,
        typical: 90.0,
        high: 110.0,
    };
    let item = Ingredient {
        name: "sugar".to_owned(),
        basis: Basis::Per100G,
        sugar_g: Some(range),
        ..Ingredient::default()
    };
    let typical = contents(&item).expect("it closes");
    let spread = spread(&item, &typical);
    let [sugar] = *spread.figures else {
        panic!("one figure moves");
    };
    // 10 g of sugar in 100 g are one standard deviation, whether they fit or not.
    let more = sugar.per_sigma_up.per_gram;
    assert!((more[Component::Sucrose] - 0.1).abs() < 1e-12);
    assert!((more[Component::Water] + 0.1).abs() < 1e-12);
    assert!((sugar.low_sigma, sugar.high_sigma) == (1.0, 10.0));
    assert!((sugar.low_share() - 1.0 / 11.0).abs() < 1e-15);
    assert!((sugar.sigmas_to_zero() - 90.0).abs() < 1e-12);
}

#[test]
fn exact_figures_do_not_move_and_a_powder_has_none() {
    let item = |range: Range| Ingredient {
        name: "spirit".to_owned(),
        strength_pct_vol: Some(range),
        ..Ingredient::default()
    };
    let count = |item: &Ingredient| {
        let typical = contents(item).expect("it closes");
        spread(item, &typical).figures.len()
    };
    assert_eq!(count(&item(Range::exact(40.0))), 0);
    let high = 41.0;
    let range = Range {
        high,
        ..Range::exact(40.0)
    };
    assert_eq!(count(&item(range)), 1);
    assert_eq!(count(&larder()[&"citric-acid".into()]), 0);
}
