//! A stream becomes a row of figures, and the row holds the stream again.

use crate::house_flows;
use crate::house_made::{blank, input, make, preparation, put_preparation, step};
use crate::kitchen_flow_laws::{grown, seeds};
use equipour::kitchen::{contents, described};
use equipour::model::{
    Ingredient, Process, PureAcid, Quantity, Range, check, check_one_ingredient,
};
use equipour::physics::{Component, Composition};
use proptest::prelude::*;

/// One gram of each agrees to 1e-9 of the gram's component, or to rounding of the gram itself.
pub(crate) fn agrees(row: &Ingredient, whole: &Composition) -> Result<(), String> {
    let found = contents(row).map_err(|error| error.to_string())?;
    if !found.warnings.is_empty() {
        return Err(format!("{:?}", found.warnings));
    }
    let expected = whole.scaled(1.0 / whole.mass_g());
    let near = |one: f64, other: f64| (one - other).abs() <= 1e-9 * other.abs() + 1e-14;
    for component in Component::ALL {
        let (one, other) = (found.per_gram[component], expected[component]);
        if !near(one, other) {
            return Err(format!("{} {one} instead of {other}", component.name()));
        }
    }
    let density = (found.density_g_per_ml, whole.density_g_per_ml());
    if !near(density.0, density.1) {
        return Err(format!("density {density:?}"));
    }
    // The salts go through the pH, which is settled to 1e-11 mol/L of ionic strength.
    let (one, other) = (found.per_gram.cation_mmol, expected.cation_mmol);
    if (one - other).abs() > 1e-9 * other.abs() + 1e-11 {
        return Err(format!("cation {one} instead of {other}"));
    }
    let (one, other) = (found.per_gram.co2_g, expected.co2_g);
    if !near(one, other) {
        return Err(format!("carbon dioxide {one} instead of {other}"));
    }
    Ok(())
}

/// Any liquid that could come out of a kitchen, with salts of its acids in it.
fn any_whole() -> impl Strategy<Value = Composition> {
    let grams = prop::collection::vec(prop_oneof![Just(0.0), 0.0..60.0_f64], Component::COUNT);
    let rest = (20.0..900.0_f64, 0.0..0.9_f64, -5.0..5.0_f64, 0.0..6.0_f64);
    (grams, rest).prop_map(|(grams, (water, neutral, excess, co2))| {
        let mut whole = Composition::ZERO;
        for (component, grams) in Component::ALL.into_iter().zip(grams) {
            // An acid stronger than lemon is rare, and so is a salty drink.
            let cut = component.protons() > 0.0 || component == Component::Salt;
            whole[component] = if cut { 0.1 * grams } else { grams };
        }
        whole[Component::Water] = water;
        whole.cation_mmol = 0.5 * neutral * whole.acid_protons_mmol();
        whole.excess_ml = excess;
        whole.co2_g = co2;
        whole
    })
}

#[test]
fn the_rows_of_every_sort_of_preparation_hold_what_their_streams_hold() {
    let mut document = house_flows::document();
    for id in house_flows::ALL {
        let made = make(&mut document, id);
        assert!(!made.rows.is_empty(), "{id}");
        for (name, row) in &made.rows {
            let whole = made.flow.streams[name].whole();
            agrees(row, &whole).unwrap_or_else(|words| panic!("{id}, {name}: {words}"));
        }
    }
    check(&document).expect("a document may hold every row");
}

#[test]
fn a_foam_of_more_gas_than_liquid_keeps_its_strength_and_its_acids() {
    let mut document = house_flows::document();
    let inputs = ["gin", "lime-juice"].map(|row| input(row, Quantity::Grams(100.0)));
    let overrun = Range::exact(1.5);
    let steps = vec![
        step(Process::Combine, &["gin", "lime-juice"], &["sour"]),
        step(Process::Aerate { overrun }, &["sour"], &["foam"]),
    ];
    let recipe = preparation("Foam", inputs.to_vec(), steps, &["foam"]);
    put_preparation(&mut document, "foam", recipe);
    let made = make(&mut document, "foam");
    let whole = made.flow.streams["foam"].whole();
    assert!(whole.density_g_per_ml() < 0.5);
    agrees(&made.rows["foam"], &whole).expect("the round trip closes");
    check(&document).expect("a document may hold it");
}

#[test]
fn a_powder_that_is_one_acid_stays_one() {
    let mut powder = Composition::ZERO;
    powder[Component::Malic] = 250.0;
    let row = described(&blank("malic", ""), &powder).expect("it weighs something");
    assert_eq!(row.pure_acid, Some(PureAcid::Malic));
    agrees(&row, &powder).expect("the round trip closes");
}

#[test]
fn only_a_ph_that_the_acids_do_not_give_is_remarked_on() {
    let mut sour = Composition::water(95.0);
    sour[Component::Citric] = 5.0;
    let row = described(&blank("sour", ""), &sour).expect("it weighs something");
    let own = row.ph.expect("it is sour").typical;
    for (shift, expected) in [(-0.5, true), (-0.02, true), (0.0, false), (1.0e-6, false)] {
        let moved = Ingredient {
            ph: Some(Range::exact(own + shift)),
            ..row.clone()
        };
        let warned = !contents(&moved).expect("it closes").warnings.is_empty();
        assert_eq!(warned, expected, "{shift}");
    }
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn a_row_holds_what_it_was_written_from(whole in any_whole()) {
        let row = described(&blank("any", ""), &whole).expect("it weighs something");
        prop_assume!(whole.acid_g() == 0.0 || row.ph.is_some());
        if let Err(words) = agrees(&row, &whole) {
            prop_assert!(false, "{words}: {whole:?}");
        }
    }

    #[test]
    fn every_stream_of_any_flow_can_be_an_output(
        amounts in prop::array::uniform6(1.0..1000.0_f64),
        seeds in seeds(),
    ) {
        let found = grown(amounts, &seeds).try_flow().expect("every step was possible");
        for (name, stream) in &found.streams {
            let whole = stream.whole();
            if whole.mass_g() < 1e-6 {
                continue;
            }
            let row = described(&blank(name, ""), &whole).expect("it weighs something");
            let lost = whole.cation_mmol > 1e-9 * whole.mass_g() && row.ph.is_none();
            if !lost && row.density.is_some() {
                let outcome = agrees(&row, &whole);
                prop_assert!(outcome.is_ok(), "{}: {:?} {:?}", name, outcome, whole);
            }
            // A solution of more acid than dissolves is refused as it is when a person writes it.
            let [acid, water] = [whole.acid_g(), whole[Component::Water]].map(|g| g / whole.mass_g());
            let allowed = check_one_ingredient(&row);
            prop_assert!((acid > 0.25 && water >= 0.4) || allowed.is_ok(), "{}: {:?} {:?}", name, allowed, whole);
        }
    }
}
