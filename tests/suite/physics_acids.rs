//! pH against published solutions, standards and buffers.

use equipour::physics::acids::{FreeAcid, ph, resolve_titrated, strong_cation_mmol};
use equipour::physics::{Component, Composition};
use proptest::prelude::*;

use crate::reference::{Row, Worst, rows};

/// Grams of dissolved substances filled up with water to a litre.
fn litre(mut solutes: Composition) -> Composition {
    let water_ml = 1000.0 - solutes.volume_ml();
    solutes[Component::Water] = water_ml * 0.998_201_23;
    solutes
}

/// The solution of a row.
fn solution(row: &Row) -> Composition {
    let mut solution = Composition::ZERO;
    for acid in Component::ACIDS {
        let mol_per_l = row.maybe(&format!("{}_mol_L", acid.name())).unwrap_or(0.0);
        solution[acid] = mol_per_l * acid.molar_mass_g_per_mol().expect("an acid's mass");
    }
    solution.cation_mmol = 1000.0 * row.maybe("strong_cation_mol_L").unwrap_or(0.0);
    litre(solution)
}

/// A litre of citric acid solution.
fn citric(grams: f64) -> Composition {
    let mut solution = Composition::ZERO;
    solution[Component::Citric] = grams;
    litre(solution)
}

#[test]
fn published_solutions_and_buffers_have_their_published_ph() {
    let (mut published, mut computed) = (Worst::default(), Worst::default());
    for row in rows("acid_ph_checks.csv") {
        let Some(davies) = row.maybe("pH_davies_computed") else {
            continue;
        };
        let id = row.text("id");
        let found = ph(&solution(&row)).expect("a pH");
        // Printed to three decimals by an independent computation.
        computed.check(id, found, davies, 0.000_6);
        if let Some(value) = row.maybe("pH_published") {
            published.check(id, found, value, row.number("tolerance_pH"));
        }
    }
    published.finish("published pH", 19);
    computed.finish("computed pH", 26);
}

#[test]
fn lime_juice_lies_above_its_acid_alone_by_no_more_than_salts_can_do() {
    let table = rows("acid_ph_checks.csv");
    let find = |id: &str| {
        let row = table.iter().find(|row| row.text("id") == id);
        row.expect("a row")
    };
    let juice = find("H037");
    let (low, high) = (juice.number("pH_low"), juice.number("pH_high"));
    // Fresh juice, acid lime juice, commercial lemon juice: published g/L of acid.
    for id in ["H043", "H045", "H046"] {
        let (least, most) = (
            find(id).number("acid_g_L_low"),
            find(id).number("acid_g_L_high"),
        );
        for grams in [least, 0.5 * (least + most), most] {
            let alone = citric(grams);
            assert!(ph(&alone).is_some_and(|ph| ph < low), "{grams} g/L");
            // pH 2.35 lies below the first pKa, so less than one proton in three is bound.
            let cation = strong_cation_mmol(&alone, high).expect("a cation");
            assert!(
                cation > 0.0 && cation < grams / 0.192_124,
                "{grams} g/L {cation}"
            );
        }
    }
}

#[test]
fn water_is_neutral_and_nothing_has_no_ph() {
    let neutral = ph(&Composition::water(1000.0)).expect("a pH");
    assert!((neutral - 6.998).abs() < 0.001, "{neutral}");
    assert_eq!(ph(&Composition::ZERO), None);
    let mut powder = Composition::ZERO;
    powder[Component::Citric] = 100.0;
    assert_eq!(ph(&powder), None);
    assert_eq!(strong_cation_mmol(&powder, 3.0), None);
}

#[test]
fn a_ph_below_that_of_the_acids_needs_no_cation() {
    let juice = citric(50.0);
    let cation = strong_cation_mmol(&juice, 1.5).expect("a cation");
    assert!(cation.abs() < 1e-12);
    let free = resolve_titrated(&juice, 1.5);
    assert!((free.factor - 1.0).abs() < 1e-12 && free.cation_mmol.abs() < 1e-12);
}

#[test]
fn what_cannot_be_free_acid_stays_as_stated() {
    let unbound = FreeAcid {
        factor: 1.0,
        cation_mmol: 0.0,
    };
    assert_eq!(resolve_titrated(&Composition::ZERO, 3.0), unbound);
    assert_eq!(resolve_titrated(&Composition::water(100.0), 3.0), unbound);
    assert_eq!(resolve_titrated(&citric(5.0), 8.5), unbound);
}

/// A litre with up to 60 g of citric, malic and lactic acid and some salt.
fn juice() -> impl Strategy<Value = Composition> {
    let acids = (0.5..60.0_f64, 0.0..30.0_f64, 0.0..10.0_f64);
    (acids, 0.0..10.0_f64).prop_map(|((citric, malic, lactic), salt)| {
        let mut juice = Composition::ZERO;
        juice[Component::Citric] = citric;
        juice[Component::Malic] = malic;
        juice[Component::Lactic] = lactic;
        juice[Component::Salt] = salt;
        litre(juice)
    })
}

proptest! {
    #[test]
    fn the_cation_solved_from_a_ph_gives_that_ph(juice in juice(), target in 3.0..8.0_f64) {
        let mut juice = juice;
        let cation = strong_cation_mmol(&juice, target);
        prop_assert!(cation.is_some_and(|cation| cation > 0.0));
        juice.cation_mmol = cation.unwrap_or(0.0);
        let back = ph(&juice);
        prop_assert!(back.is_some_and(|back| (back - target).abs() < 1e-6), "{:?}", back);
    }

    #[test]
    fn titrated_acid_keeps_its_titration_and_gains_its_ph(
        juice in juice(), target in 2.6..4.5_f64,
    ) {
        let free = resolve_titrated(&juice, target);
        prop_assert!(free.factor >= 1.0 && free.cation_mmol >= 0.0);
        let mut whole = juice;
        for acid in Component::ACIDS {
            whole[acid] *= free.factor;
        }
        whole.cation_mmol = free.cation_mmol;
        prop_assert!((whole.sour_g() - juice.sour_g()).abs() < 1e-9 * juice.sour_g());
        // The volume is held: the bound acid takes the place of water.
        whole[Component::Water] -= (whole.volume_ml() - juice.volume_ml()) * 0.998_201_23;
        let found = ph(&whole);
        if free.factor > 1.0 {
            prop_assert!(found.is_some_and(|found| (found - target).abs() < 1e-6));
        } else {
            prop_assert!(found.is_some_and(|found| found >= target - 1e-6));
        }
    }

    #[test]
    fn more_cation_never_lowers_the_ph(juice in juice(), cation in 0.0..500.0_f64) {
        let (mut less, mut more) = (juice, juice);
        less.cation_mmol = cation;
        more.cation_mmol = cation + 10.0;
        prop_assert!(ph(&more) > ph(&less));
    }

    #[test]
    fn a_ph_settles_for_any_liquid(
        acids in prop::collection::vec(0.0..200.0_f64, 8),
        salt in 0.0..200.0_f64,
        cation in 0.0..2000.0_f64,
    ) {
        let mut liquid = Composition::water(500.0);
        for (acid, grams) in Component::ACIDS.into_iter().zip(acids) {
            liquid[acid] = grams;
        }
        liquid[Component::Salt] = salt;
        liquid.cation_mmol = cation;
        let found = ph(&liquid);
        prop_assert!(found.is_some_and(|ph| (-2.0..14.0).contains(&ph)), "{:?}", found);
    }
}
