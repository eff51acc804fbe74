//! What holds for every drink: mass, order, water, scale; and for the kernel over every number.

use crate::sample_drinks::{SHAKEN, any_pours, any_technique, drink, larder, ml};
use equipour::balance::{Drink, Ice, Load, Rule, Served, Spare, figures, serve};
use equipour::kitchen::contents;
use equipour::model::{Added, Amount, Point, Pour, Source};
use equipour::physics::{Dual, Interval, dilution};
use proptest::prelude::*;

/// Whether two figures agree to a share of the larger.
fn agree(one: f64, other: f64, share: f64) -> bool {
    (one - other).abs() <= share * one.abs().max(other.abs()).max(1e-3)
}

fn served(drink: &Drink) -> Served<f64> {
    drink.served().expect("a spirit is chilled")
}

/// All figures of a served drink with their names.
fn named<N: Copy>(served: &Served<N>) -> [(&'static str, N); 9] {
    [
        ("chilled_ml", served.chilled_ml),
        ("chilled_strength", served.chilled_strength),
        ("dilution", served.dilution),
        ("melt_g", served.melt_g),
        ("volume_ml", served.volume_ml),
        ("sweet_g_per_l", served.sweet_g_per_l),
        ("sour_g_per_l", served.sour_g_per_l),
        ("strength_pct_vol", served.strength_pct_vol),
        ("bitter_per_ml", served.bitter_per_ml),
    ]
}

/// Grams that stay in the drink, by the ingredient's own density; of a rinse a tenth stays
/// (common practice, no source).
fn grams_kept(pour: &Pour) -> f64 {
    let Source::Ingredient(id) = &pour.source else {
        panic!("only ingredients are poured");
    };
    let density = contents(&larder()[id]).expect("it closes").density_g_per_ml;
    let kept = if pour.added == Added::Rinse { 0.1 } else { 1.0 };
    kept * match pour.amount {
        Amount::Ml(ml) => ml * density,
        Amount::Grams(grams) => grams,
        _ => panic!("only ml and grams are poured"),
    }
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn what_is_poured_and_what_melts_is_what_is_served(
        pours in any_pours(), technique in any_technique(),
    ) {
        let found = figures(&drink(&pours, technique)).expect("a spirit is chilled");
        let expected = pours.iter().map(grams_kept).sum::<f64>() + found.melt_g;
        prop_assert!(agree(found.served_g, expected, 1e-12), "{} {expected}", found.served_g);
        prop_assert!(found.melt_g >= 0.0);
        prop_assert!(found.served_ml > 0.0 && found.chilled_ml > 0.0);
        prop_assert!(found.served_ml.is_finite());
    }

    #[test]
    fn the_order_of_the_pours_never_matters(
        (pours, shuffled) in any_pours().prop_flat_map(|pours| {
            (Just(pours.clone()), Just(pours).prop_shuffle())
        }),
        technique in any_technique(),
    ) {
        let one = served(&drink(&pours, technique));
        let other = served(&drink(&shuffled, technique));
        for ((name, one), (_, other)) in named(&one).into_iter().zip(named(&other)) {
            prop_assert!(agree(one, other, 1e-12), "{name}: {one} {other}");
        }
    }

    #[test]
    fn a_pour_of_water_never_raises_strength_sweet_or_sour(
        pours in any_pours(), technique in any_technique(),
        water_ml in 0.01..200.0_f64, added in prop::sample::select(vec![Added::With, Added::After]),
    ) {
        let before = Point::from(&served(&drink(&pours, technique)));
        let water = Pour { added, ..ml("water", water_ml) };
        let wetter: Vec<Pour> = pours.into_iter().chain([water]).collect();
        let after = Point::from(&served(&drink(&wetter, technique)));
        prop_assert!(after.strength_pct_vol < before.strength_pct_vol);
        prop_assert!(after.sweet_g_per_l <= before.sweet_g_per_l);
        prop_assert!(after.sour_g_per_l <= before.sour_g_per_l);
    }

    #[test]
    fn a_shaken_drink_of_another_size_has_the_same_point(
        pours in any_pours(), factor in 0.1..10.0_f64,
    ) {
        let scaled: Vec<Pour> = pours
            .iter()
            .map(|pour| {
                let amount = pour.amount.value().expect("ml or grams") * factor;
                Pour { amount: pour.amount.with_value(amount), ..pour.clone() }
            })
            .collect();
        let one = served(&drink(&pours, SHAKEN));
        let other = served(&drink(&scaled, SHAKEN));
        prop_assert!(agree(other.volume_ml, factor * one.volume_ml, 1e-12));
        prop_assert!(agree(one.sweet_g_per_l, other.sweet_g_per_l, 1e-12));
        prop_assert!(agree(one.sour_g_per_l, other.sour_g_per_l, 1e-12));
        prop_assert!(agree(one.strength_pct_vol, other.strength_pct_vol, 1e-12));
        prop_assert!(agree(one.bitter_per_ml, other.bitter_per_ml, 1e-12));
        prop_assert!(agree(one.dilution, other.dilution, 1e-12));
    }

    #[test]
    fn intervals_of_the_kernel_hold_its_plain_result(
        chilled in any_load(), after in any_load(), ice in any_ice(),
        width in prop::sample::select(vec![0.0, 1e-9, 0.01, 0.3]),
        place in 0.0..=1.0_f64,
    ) {
        let around = |value: f64| {
            let half = width * value.abs();
            Interval::new(value - place * half, value + (1.0 - place) * half)
        };
        let held = serve(&chilled.map(around), &after.map(around), &ice);
        let plain = serve(&chilled, &after, &ice);
        for ((name, held), (_, plain)) in named(&held).into_iter().zip(named(&plain)) {
            prop_assert!(held.contains(plain), "{name}: {plain} is not in {held:?}");
        }
    }

    #[test]
    fn slopes_of_the_kernel_are_those_of_its_differences(
        chilled in any_load(), after in any_load(), ice in any_ice(),
    ) {
        let lifted = |load: &Load<f64>, first: usize| -> Load<Dual<18>> {
            let mut fields = fields_of(load).into_iter().enumerate();
            load_of(|| {
                let (slot, value) = fields.next().expect("nine fields");
                Dual::variable(value, first + slot)
            })
        };
        // Where nothing is left to melt the slope jumps.
        prop_assume!(ice.spare.is_none() || serve(&chilled, &after, &ice).melt_g > 1.0);
        let found = serve(&lifted(&chilled, 0), &lifted(&after, 9), &ice);
        for slot in 0..18 {
            let moved = |by: f64| {
                let nudged = |load: &Load<f64>, first: usize| {
                    let mut fields = fields_of(load).into_iter().enumerate();
                    load_of(|| {
                        let (own, value) = fields.next().expect("nine fields");
                        if first + own == slot { value + by } else { value }
                    })
                };
                named(&serve(&nudged(&chilled, 0), &nudged(&after, 9), &ice))
            };
            // Five-point differences: the error is of fourth order in the step.
            let step = 0.02;
            let (near, far) = ((moved(step), moved(-step)), (moved(2.0 * step), moved(-2.0 * step)));
            for (place, (name, figure)) in named(&found).into_iter().enumerate() {
                let difference = (8.0 * (near.0[place].1 - near.1[place].1)
                    - (far.0[place].1 - far.1[place].1)) / (12.0 * step);
                let slope = figure.slope[slot];
                prop_assert!(
                    (slope - difference).abs() <= 1e-6 * (1.0 + slope.abs()),
                    "{name} by amount {slot}: {slope} {difference}"
                );
            }
        }
    }
}

/// A load of a plausible drink.
fn any_load() -> impl Strategy<Value = Load<f64>> {
    (
        (1.0..200.0_f64, 1.0..80.0_f64, 1.0..60.0_f64),
        (
            -2.0..20.0_f64,
            0.0..80.0_f64,
            -1.0..8.0_f64,
            0.0..9.0_f64,
            0.0..3.0_f64,
        ),
    )
        .prop_map(
            |((water_g, ethanol_g, sucrose_g), (rest_ml, sweet_g, sour_g, bitter, cold_kj))| Load {
                mass_g: water_g + ethanol_g + sucrose_g + 3.0,
                water_g,
                ethanol_g,
                sucrose_g,
                rest_ml,
                sweet_g,
                sour_g,
                bitter,
                cold_kj,
            },
        )
}

fn any_rule() -> impl Strategy<Value = Rule> {
    prop_oneof![
        Just(Rule::None),
        Just(Rule::Curve(dilution::STIRRED)),
        Just(Rule::Curve(dilution::SHAKEN)),
        (0.0..2.0_f64).prop_map(Rule::fraction),
        (0.0..300.0_f64).prop_map(Rule::WaterGrams),
        (0.0..2.0_f64).prop_map(Rule::MassFraction),
    ]
}

/// A rule, half the time with cold things that spare melt.
fn any_ice() -> impl Strategy<Value = Ice> {
    let spare =
        (0.8..1.0_f64, 2.5..3.3_f64, 0.0..5.0_f64).prop_map(|(kept, g_per_kj, vessel_g)| Spare {
            kept,
            g_per_kj,
            vessel_g,
        });
    (any_rule(), prop::option::of(spare)).prop_map(|(rule, spare)| Ice { rule, spare })
}

fn fields_of(load: &Load<f64>) -> [f64; 9] {
    [
        load.mass_g,
        load.water_g,
        load.ethanol_g,
        load.sucrose_g,
        load.rest_ml,
        load.sweet_g,
        load.sour_g,
        load.bitter,
        load.cold_kj,
    ]
}

/// A load of the next nine numbers, in the order of [`fields_of`].
fn load_of<N>(mut next: impl FnMut() -> N) -> Load<N> {
    Load {
        mass_g: next(),
        water_g: next(),
        ethanol_g: next(),
        sucrose_g: next(),
        rest_ml: next(),
        sweet_g: next(),
        sour_g: next(),
        bitter: next(),
        cold_kj: next(),
    }
}
