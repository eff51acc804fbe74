//! Served temperatures at their edges: ice that is left, hot drinks, freezer-cold shakes.

use crate::sample_drinks::{SHAKEN, builtin, drink, ml, sour};
use equipour::balance::{Drink, Figures, Pantry, figures};
use equipour::model::{Added, Dilution, Method, Place, Pour, Technique};
use equipour::physics::freezing::liquidus;
use equipour::physics::ice::{cold_kj, ice_heat_kj_per_kg};
use equipour::physics::{Component, Composition};

fn of_classic(id: &str) -> Figures {
    let classic = builtin()
        .classics
        .iter()
        .find(|classic| classic.id.0 == id)
        .expect("such a classic");
    let pours = classic.pours.iter().map(|pour| {
        let equipour::model::Source::Ingredient(id) = &pour.source else {
            panic!("classics pour ingredients");
        };
        let item = &builtin().larder[id];
        (pour, item, item.name.as_str())
    });
    let drink =
        Drink::of_pours(pours, classic.technique, &mut Pantry::default()).expect("it resolves");
    figures(&drink).expect("it is served")
}

#[test]
fn a_blended_drink_without_measured_ice_says_what_is_left_too() {
    let found = of_classic("pina-colada");
    let blender = found.in_blender.expect("it is blended");
    // An independent model of the same drink leaves 39.8 of 116.6 g at −4.733 °C.
    assert!((blender.ice_g - 116.6).abs() < 0.1, "{}", blender.ice_g);
    assert!((blender.left_g - 39.8).abs() < 0.1, "{}", blender.left_g);
    assert!((blender.celsius + 4.733).abs() < 0.005);
    assert!(blender.melted_is_meant);
}

#[test]
fn nothing_is_said_of_the_temperature_of_a_hot_drink() {
    assert_eq!(of_classic("irish-coffee").served_celsius, None);
}

#[test]
fn soda_on_a_slush_melts_some_of_its_ice_and_stays_at_its_freezing_point() {
    let technique = Technique::new(Method::Blended, Dilution::IceGrams(150.0));
    let soda = Pour {
        added: Added::After,
        ..ml("soda-water", 40.0)
    };
    let with: Vec<Pour> = sour().into_iter().chain([soda]).collect();
    let resolved = drink(&with, technique);
    let found = figures(&resolved).expect("it is served");
    let blender = found.in_blender.expect("it is blended");
    assert!(blender.left_g > 20.0);
    let served = found.served_celsius.expect("a temperature");
    let mut liquid = Composition::water(blender.melted_g);
    for line in &resolved.lines {
        liquid += line.contents.per_gram.scaled(line.grams());
    }
    let freezes = |more: f64| {
        let mut wetter = liquid;
        wetter[Component::Water] += more;
        liquidus(&wetter).expect("it freezes").celsius
    };
    assert!(served > freezes(0.0) && served < freezes(blender.left_g));
    assert!(served > blender.celsius, "soda warms it");
}

#[test]
fn what_the_freezer_spares_is_its_cold_over_the_heat_that_ice_takes_up() {
    let frozen: Vec<Pour> = sour()
        .into_iter()
        .map(|pour| Pour {
            place: Some(Place::Freezer),
            ..pour
        })
        .collect();
    for pours in [frozen.clone(), frozen[..1].to_vec()] {
        let mut pours = pours;
        let known = pours.len();
        pours.extend(sour().into_iter().skip(known));
        let resolved = drink(&pours, SHAKEN);
        let found = figures(&resolved).expect("it is served");
        if found.melt_g <= 0.0 {
            continue;
        }
        let lacks: f64 = resolved
            .lines
            .iter()
            .map(|line| {
                let part = line.contents.per_gram.scaled(line.grams());
                cold_kj(&part, line.celsius, 20.0)
            })
            .sum();
        let served = found.served_celsius.expect("a temperature");
        let each = ice_heat_kj_per_kg(0.0, served) / 1000.0;
        assert!(
            (found.spared_g - lacks / each).abs() < 1.0e-5,
            "{} {}",
            found.spared_g,
            lacks / each
        );
    }
}

#[test]
fn a_shake_is_no_colder_than_the_heat_that_its_melt_takes_up() {
    for share in [0.02, 0.1, 0.25, 0.6, 0.8] {
        let technique = Technique {
            dilution: Dilution::Fraction(share),
            ..SHAKEN
        };
        let resolved = drink(&sour(), technique);
        let found = figures(&resolved).expect("it is served");
        let served = found.served_celsius.expect("it is shaken");
        let warm = resolved.warm();
        // By hand: what liquid and vessel give off against what the melt takes up, kJ.
        let gives = cold_kj(&warm.liquid, served, 20.0) + warm.vessel_kj_per_k * (20.0 - served);
        let takes = found.melt_g * ice_heat_kj_per_kg(0.0, served) / 1000.0;
        assert!(gives <= takes + 1.0e-6, "{share}: {gives} {takes} kJ");
        let coldest = found.coldest.expect("it freezes").celsius;
        assert!(served >= coldest - 1.0e-9, "{share}: {served} {coldest}");
        let reached = (served - coldest).abs() < 1.0e-9;
        assert!(
            reached || (gives - takes).abs() < 1.0e-6,
            "{share}: {gives} {takes} kJ"
        );
        assert_eq!(reached, share > 0.5, "{share}: {served} {coldest}");
    }
}
