//! Refractive index against published columns, and sugar with alcohol found back from it.

use equipour::physics::refraction::{
    WATER_INDEX, brix_from_index, index_from_brix, refractive_index, solve_sugar_and_alcohol,
    solve_sugar_and_alcohol_beside,
};
use equipour::physics::{Component, Composition};
use proptest::prelude::*;

use crate::reference::{Worst, rows};

/// One gram of ethanol, sucrose and water.
fn liqueur(sugar: f64, ethanol: f64) -> Composition {
    let mut gram = Composition::water(1.0 - sugar - ethanol);
    gram[Component::Sucrose] = sugar;
    gram[Component::Ethanol] = ethanol;
    gram
}

#[test]
fn sucrose_has_its_published_refractive_index() {
    let mut worst = Worst::default();
    for row in rows("sucrose_solutions_20C.csv") {
        if let Some(index) = row.maybe("nD20") {
            let brix = row.number("brix_mass_pct");
            let place = format!("{brix} °Bx");
            worst.check(&place, index_from_brix(brix), index, 0.000_1);
            worst.check(
                &place,
                refractive_index(&liqueur(0.01 * brix, 0.0)),
                index,
                0.000_1,
            );
        }
    }
    worst.finish("nD of sucrose", 80);
}

#[test]
fn the_brix_scale_is_that_of_icumsa() {
    // ICUMSA (1974) scale of refractometers, as carried in the open-source library `chemicals`.
    let mut worst = Worst::default();
    for (brix, index) in [
        (0.0, 1.332_99),
        (1.0, 1.334_42),
        (5.0, 1.340_26),
        (10.0, 1.347_82),
        (20.0, 1.363_84),
        (30.0, 1.381_15),
        (40.0, 1.399_86),
        (50.0, 1.420_09),
        (60.0, 1.441_93),
        (70.0, 1.465_46),
        (80.0, 1.490_71),
        (85.0, 1.503_98),
    ] {
        worst.check(
            &format!("{brix} °Bx"),
            index_from_brix(brix),
            index,
            0.000_1,
        );
    }
    worst.finish("ICUMSA scale", 12);
}

#[test]
fn brix_and_refractive_index_are_inverse_and_rise_together() {
    let mut before = f64::NEG_INFINITY;
    for tenth in 0..=850 {
        let brix = 0.1 * f64::from(tenth);
        let index = index_from_brix(brix);
        assert!(index > before);
        before = index;
        let back = brix_from_index(index).expect("on the scale");
        assert!((back - brix).abs() < 1e-9, "{brix}: {back}");
    }
    assert_eq!(brix_from_index(1.332), None);
    assert_eq!(brix_from_index(1.51), None);
}

#[test]
fn ethanol_has_the_refractive_index_of_the_handbook() {
    // CRC Handbook, concentrative properties of aqueous solutions, ethanol, nD at 20 °C: from
    // memory. The last row, pure ethanol, was read in a carried copy of the CRC's organic table.
    let mut worst = Worst::default();
    for (mass_pct, index) in [
        (5.0, 1.3360),
        (10.0, 1.3395),
        (20.0, 1.3469),
        (30.0, 1.3535),
        (40.0, 1.3583),
        (50.0, 1.3616),
        (60.0, 1.3638),
        (70.0, 1.3652),
        (80.0, 1.3658),
        (100.0, 1.3611),
    ] {
        let found = refractive_index(&liqueur(0.0, 0.01 * mass_pct));
        worst.check(&format!("{mass_pct} mass %"), found, index, 0.000_1);
    }
    worst.finish("nD of ethanol", 10);
}

#[test]
fn acid_reads_four_fifths_of_what_sugar_does() {
    // The acid correction of citrus juice is +0.012 + 0.193·A − 0.000 4·A² °Bx for A mass % of
    // citric acid (Stevens and Baier 1939, from memory): what is missing to count A in full.
    for acid in [1.0, 2.0, 4.0, 6.0] {
        let mut gram = liqueur(0.10, 0.0);
        gram[Component::Citric] = 0.01 * acid;
        gram[Component::Water] -= 0.01 * acid;
        let read = brix_from_index(refractive_index(&gram)).expect("a reading");
        let correction = 0.012 + 0.193 * acid - 0.000_4 * acid * acid;
        assert!(
            (read + correction - (10.0 + acid)).abs() < 0.25,
            "{acid} %: {read} + {correction}"
        );
    }
}

#[test]
fn water_and_nothing_have_their_index() {
    assert!((refractive_index(&Composition::water(3.0)) - WATER_INDEX).abs() < 2e-6);
    assert_eq!(refractive_index(&Composition::ZERO), 1.0);
}

#[test]
fn reading_errors_move_liqueurs_by_no_more_than_is_stated() {
    let (mut most_sugar, mut most_alcohol) = (0.0_f64, 0.0_f64);
    let mut count = 0;
    for sugar in 0..=9 {
        for ethanol in 2..=9 {
            let (sugar, ethanol) = (0.05 * f64::from(sugar), 0.05 * f64::from(ethanol));
            let gram = liqueur(sugar, ethanol);
            // Liqueurs of 15 to 55 % vol.
            if !(15.0..=55.0).contains(&gram.percent_vol()) {
                continue;
            }
            let (index, density) = (refractive_index(&gram), gram.density_g_per_ml());
            let (s, e) = solve_sugar_and_alcohol(index, density).expect("it is found");
            assert!((s - sugar).abs() < 1e-6 && (e - ethanol).abs() < 1e-6);
            for (by_index, by_density) in
                [(3e-4, 1e-3), (3e-4, -1e-3), (-3e-4, 1e-3), (-3e-4, -1e-3)]
            {
                let (s, e) = solve_sugar_and_alcohol(index + by_index, density + by_density)
                    .unwrap_or_else(|| panic!("{sugar} {ethanol} {by_index} {by_density}"));
                most_sugar = most_sugar.max((s - sugar).abs());
                most_alcohol = most_alcohol.max((e - ethanol).abs());
            }
            count += 1;
        }
    }
    assert!(count > 50, "{count}");
    // As documented, and not stated much too large.
    assert!(
        (0.003..=0.0035).contains(&most_sugar),
        "{most_sugar} {most_alcohol}"
    );
    assert!((0.005..=0.008).contains(&most_alcohol), "{most_alcohol}");
}

#[test]
fn what_no_liqueur_has_is_not_solved() {
    // Lighter than ethanol; more refraction than any syrup of that density.
    assert_eq!(solve_sugar_and_alcohol(1.36, 0.70), None);
    assert_eq!(solve_sugar_and_alcohol(1.50, 1.00), None);
}

#[test]
fn nothing_is_solved_where_a_gram_holds_a_gram_of_other_things() {
    let mut sugar = Composition::ZERO;
    sugar[Component::Sucrose] = 1.0;
    for citric in [0.999, 1.0, 1.2, 50.0, f64::INFINITY, f64::NAN] {
        let mut beside = Composition::ZERO;
        beside[Component::Citric] = citric;
        let found = solve_sugar_and_alcohol_beside(&beside, &sugar, 1.36, 1.05);
        assert_eq!(found, None, "{citric}");
    }
}

proptest! {
    #[test]
    fn sugar_and_alcohol_are_found_back(sugar in 0.0..0.45_f64, ethanol in 0.08..0.46_f64) {
        let gram = liqueur(sugar, ethanol);
        prop_assume!(gram[Component::Water] > 0.2 && gram.percent_vol() <= 55.0);
        let found = solve_sugar_and_alcohol(refractive_index(&gram), gram.density_g_per_ml());
        let (s, e) = found.expect("it is found");
        prop_assert!((s - sugar).abs() < 1e-6, "{s} {sugar}");
        prop_assert!((e - ethanol).abs() < 1e-6, "{e} {ethanol}");
    }
}
