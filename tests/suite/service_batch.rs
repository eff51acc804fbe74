//! A trial made for many: lines, what waits until the day, what it takes through preparations.

use crate::house_made::{
    blank, from_preparation, input, make, preparation, put, put_preparation, step,
};
use crate::service_kit::{
    after, batched, drink, made_in_house, ml, near, pour, serving, with_drink,
};
use equipour::kitchen::worked;
use equipour::model::{
    Added, Amount, Document, Entry, Garnish, Ingredient, Pour, Process, Quantity, Range, Retained,
    ServicePlan, Spec, Trial,
};
use equipour::physics::Component;
use equipour::service::{
    Batch, OnTheDay, ServiceError, alcohol, batch, drink_cost, run_sheet, shopping,
};
use equipour::units::{Measures, Unit};
use proptest::prelude::*;
use std::sync::Arc;

/// A syrup of 100 g water and 100 g sugar that loses a tenth in the pan, and a cordial of 150 g of the
/// syrup with 50 g of raspberries, pressed: the pulp is a garnish of 4 pieces.
fn cordial() -> (Document, Spec, Trial) {
    let mut document = crate::house_made::larder();
    let mut pan = step(Process::Combine, &["water", "sugar"], &["syrup"]);
    pan.lost = 0.1;
    let inputs = vec![
        input("water", Quantity::Grams(100.0)),
        input("sugar", Quantity::Grams(100.0)),
    ];
    put_preparation(
        &mut document,
        "syrup",
        preparation("Syrup", inputs, vec![pan], &["syrup"]),
    );
    make(&mut document, "syrup");
    let inputs = vec![
        from_preparation("syrup", "syrup", Quantity::Grams(150.0)),
        input("raspberry", Quantity::Grams(50.0)),
    ];
    let press = Process::Press {
        retained: Retained::PerGram(Range::exact(0.5)),
    };
    let steps = vec![
        step(Process::Combine, &["syrup", "raspberry"], &["mash"]),
        step(press, &["mash"], &["cordial", "leather"]),
    ];
    let mut made = preparation("Cordial", inputs, steps, &["cordial", "leather"]);
    made.garnishes.insert(
        "leather".to_owned(),
        Garnish {
            pieces: 4.0,
            ..Garnish::default()
        },
    );
    put_preparation(&mut document, "cordial", made);
    make(&mut document, "cordial");
    let pours = vec![
        ml("gin", 40.0),
        made_in_house("cordial", "cordial", Amount::Grams(25.0)),
    ];
    let (spec, trial) = drink(&mut document, pours);
    (document, spec, trial)
}

#[test]
fn ten_drinks_with_a_tenth_to_spare_take_eleven_times_a_pour() {
    let found = with_drink(vec![ml("gin", 40.0), pour("sugar", Amount::Grams(6.0))]);
    let plan = ServicePlan {
        spare_pct: 10.0,
        ..serving(10)
    };
    let batch = batched(&found, &plan);
    assert!(near(batch.made, 11.0));
    assert!(near(batch.lines[0].ml.expect("it pours"), 440.0));
    assert!(near(batch.lines[1].grams.expect("it is weighed"), 66.0));
    // 45 % vol: 198 ml of ethanol in 440 ml, and that is this share of the mass.
    let share = equipour::physics::ethanol::mass_fraction_from_percent_vol(45.0);
    let grams = batch.lines[0].grams.expect("its density is known");
    assert!((grams - 198.0 * 0.789_24 / share).abs() < 1e-6, "{grams}");
}

#[test]
fn what_fizzes_turns_rinses_or_tops_waits_until_the_day() {
    let mut found = with_drink(vec![
        ml("gin", 40.0),
        ml("lime-juice", 20.0),
        ml("milk", 10.0),
        ml("tonic", 5.0),
        after(ml("water", 60.0)),
        Pour {
            added: Added::Rinse,
            ..ml("gin", 5.0)
        },
        ml("vinegar", 3.0),
    ]);
    let tonic = Ingredient {
        co2_g_per_l: Some(7.0),
        ..blank("tonic", "soda")
    };
    put(&mut found.0, "tonic", tonic);
    let mut plan = serving(4);
    plan.on_the_day.insert("vinegar".into());
    let batch = batched(&found, &plan);
    let when: Vec<Option<OnTheDay>> = batch.lines.iter().map(|line| line.on_the_day).collect();
    assert_eq!(
        when,
        [
            None,
            Some(OnTheDay::Fresh),
            Some(OnTheDay::Fresh),
            Some(OnTheDay::Fizzes),
            Some(OnTheDay::After),
            Some(OnTheDay::Rinse),
            Some(OnTheDay::Asked),
        ]
    );
    // A rinse is bought in full though a tenth of it stays.
    assert!(near(batch.lines[5].ml.expect("it pours"), 20.0));
}

#[test]
fn a_batch_is_smaller_than_its_parts_where_spirit_meets_water() {
    let found = with_drink(vec![ml("gin", 60.0), ml("water", 40.0)]);
    let mix = batched(&found, &serving(10)).mix.expect("it is mixed");
    assert!(near(mix.parts_ml, 1000.0));
    // 600 ml of 45 % vol: 270 ml of ethanol in what OIML R 22 gives for the sum of the masses.
    let ethanol_g = 270.0 * 0.789_24;
    let density = equipour::physics::ethanol::density_20(ethanol_g / mix.grams) / 1000.0;
    assert!((mix.ml - mix.grams / density).abs() < 1e-6);
    assert!(mix.ml < mix.parts_ml - 1.0, "{}", mix.ml);
    assert!((mix.strength_pct_vol - 27_000.0 / mix.ml).abs() < 1e-3);
}

#[test]
fn a_preparation_is_made_as_often_as_the_batch_and_others_take_of_it() {
    let found = cordial();
    let batch = batched(&found, &serving(20));
    let names: Vec<&str> = batch
        .needs
        .preparations
        .iter()
        .map(|own| own.name.as_str())
        .collect();
    assert_eq!(names, ["Syrup", "Cordial"]);
    let one = worked(&found.0, &found.0.preparations[&"cordial".into()]).expect("it works");
    let cordial_g = one.streams["cordial"].mass_g();
    let factor = 20.0 * 25.0 / cordial_g;
    assert!(near(batch.needs.preparations[1].factor, factor));
    // A batch of syrup gives 180 g.
    assert!(near(
        batch.needs.preparations[0].factor,
        factor * 150.0 / 180.0
    ));
    let sugar = &batch.needs.bought[&"sugar".into()];
    assert!(near(sugar.grams, 100.0 * factor * 150.0 / 180.0));
    assert_eq!(sugar.used_for, ["Syrup"]);
}

#[test]
fn a_garnish_that_asks_for_more_decides_and_the_surplus_is_told() {
    let mut found = cordial();
    found.1.entry = Arc::new(Entry {
        garnish: "A piece of the Leather on the rim".to_owned(),
        ..Entry::default()
    });
    let one = worked(&found.0, &found.0.preparations[&"cordial".into()]).expect("it works");
    let batch = batched(&found, &serving(20));
    let made = &batch.needs.preparations[1];
    // Four pieces of a batch: twenty drinks take five batches, more cordial than is poured.
    assert_eq!(made.decided_by, "leather");
    assert!(near(made.factor, 5.0), "{}", made.factor);
    let output = made
        .outputs
        .iter()
        .find(|own| own.output == "cordial")
        .expect("made");
    assert!(near(
        output.surplus_g(),
        5.0 * one.streams["cordial"].mass_g() - 500.0
    ));
    assert_eq!(batch.lines[2].on_the_day, Some(OnTheDay::Garnish));
}

#[test]
fn a_garnish_in_words_is_counted_by_the_piece() {
    let mut found = cordial();
    let words = "2 pieces, on the rim".to_owned();
    let leather = after(made_in_house("cordial", "leather", Amount::Words(words)));
    found.2.pours.push(leather);
    let batch = batched(&found, &serving(20));
    // Forty pieces of four from a batch.
    assert!(near(batch.needs.preparations[1].factor, 10.0));
    assert_eq!(batch.needs.preparations[1].decided_by, "leather");
    assert!(batch.uncounted.is_empty(), "{:?}", batch.uncounted);
}

#[test]
fn a_size_or_a_number_beyond_all_sense_is_no_count_of_pieces() {
    for (words, pieces) in [
        ("10 cm strip", 1.0),
        ("10cm strip", 1.0),
        ("30 × 50 mm, on the rim", 1.0),
        ("1.5 cm cube", 1.0),
        ("2 g of crumbs", 1.0),
        ("3 crisps", 3.0),
        ("2, one each side", 2.0),
        ("99999999999999999999999999999999999999999999 crisps", 100.0),
    ] {
        let mut found = cordial();
        let leather = Amount::Words(words.to_owned());
        found.2.pours[1] = after(made_in_house("cordial", "leather", leather));
        let batch = batched(&found, &serving(20));
        // Four pieces from a batch.
        let factor = batch.needs.preparations[1].factor;
        assert!(near(factor, 5.0 * pieces), "{words}: {factor}");
    }
}

#[test]
fn what_is_at_hand_of_a_house_made_ingredient_is_not_made_again() {
    let found = cordial();
    let mut plan = serving(20);
    plan.at_hand_g.insert("cordial".into(), 500.0);
    assert!(batched(&found, &plan).needs.preparations.is_empty());
    plan.at_hand_g.insert("cordial".into(), 250.0);
    let half = batched(&found, &plan);
    let whole = batched(&found, &serving(20));
    let of = |batch: &equipour::service::Batch| batch.needs.bought[&"raspberry".into()].grams;
    assert!(near(2.0 * of(&half), of(&whole)));
}

#[test]
fn packs_are_counted_up_and_what_is_left_is_told() {
    let found = cordial();
    let mut plan = serving(200);
    plan.at_hand_g.insert("sugar".into(), 100.0);
    let batch = batched(&found, &plan);
    let list = shopping(&found.0, &batch, &plan);
    let line = |row: &str| {
        let found = list.lines.iter().find(|line| line.row.0 == row);
        found.unwrap_or_else(|| panic!("no {row}"))
    };
    let sugar = line("sugar");
    assert!(near(sugar.to_buy_g, sugar.grams - 100.0));
    let packs = sugar.packs.expect("it has a price");
    // Packs of 1000 g at 2.
    let count = (sugar.to_buy_g / 1000.0).ceil();
    assert!(count > 1.0 && f64::from(packs.count) == count);
    assert!(near(packs.left_over, 1000.0 * count - sugar.to_buy_g));
    assert!(near(packs.cost, 2.0 * count));
    assert!(line("water").packs.is_none() && list.unpriced.is_empty());
    let sum: f64 = list
        .lines
        .iter()
        .filter_map(|line| line.packs)
        .map(|packs| packs.cost)
        .sum();
    assert!(near(sum, list.cost));
}

#[test]
fn what_has_no_price_has_no_packs_and_is_named() {
    let found = with_drink(vec![ml("gin", 40.0), ml("milk", 20.0)]);
    let plan = serving(10);
    let list = shopping(&found.0, &batched(&found, &plan), &plan);
    assert_eq!(list.unpriced, ["whole milk"]);
}

#[test]
fn no_drinks_are_no_batch() {
    let (document, spec, trial) = with_drink(vec![ml("gin", 40.0)]);
    let error = batch(&document, &spec, &trial, &serving(0)).expect_err("none");
    assert!(
        matches!(
            error,
            ServiceError::Field {
                field: "serves",
                ..
            }
        ),
        "{error}"
    );
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 32, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn a_batch_for_many_is_that_for_one_so_many_times(serves in 1_u32..500, spare in 0.0..60.0_f64) {
        let found = cordial();
        let plan = ServicePlan { spare_pct: spare, ..serving(serves) };
        let (one, many) = (batched(&found, &serving(1)), batched(&found, &plan));
        let times = f64::from(serves) * (1.0 + spare / 100.0);
        for (a, b) in one.lines.iter().zip(&many.lines) {
            prop_assert!(near(a.grams.expect("known") * times, b.grams.expect("known")));
        }
        for (a, b) in one.needs.preparations.iter().zip(&many.needs.preparations) {
            prop_assert!(near(a.factor * times, b.factor));
        }
        for (row, needed) in &one.needs.bought {
            prop_assert!(near(needed.grams * times, many.needs.bought[row].grams));
        }
        let mix = (one.mix.expect("mixed"), many.mix.expect("mixed"));
        prop_assert!(near(mix.0.ml * times, mix.1.ml) && near(mix.0.strength_pct_vol, mix.1.strength_pct_vol));
    }

    #[test]
    fn what_is_bought_is_what_is_poured_and_lost(serves in 1_u32..300) {
        let found = cordial();
        let batch = batched(&found, &serving(serves));
        let bought: f64 = batch.needs.bought.values().map(|row| row.grams).sum();
        let poured: f64 = batch.lines.iter().filter_map(|line| line.grams).sum();
        // The pan keeps a tenth of the syrup, the leather is not used.
        let lost = 20.0 * batch.needs.preparations[0].factor;
        let made = &batch.needs.preparations[1];
        let surplus: f64 = made.outputs.iter().map(equipour::service::NeededOutput::surplus_g).sum();
        prop_assert!((bought - poured - lost - surplus).abs() < 1e-6 * bought);
    }
}

#[test]
fn the_mix_holds_what_its_lines_bring() {
    let found = cordial();
    let batch = batched(&found, &serving(12));
    let mix = batch.mix.expect("it is mixed");
    let grams: f64 = batch.mixed().filter_map(|line| line.grams).sum();
    assert!(near(mix.grams, grams));
    let gin = equipour::kitchen::contents(&found.0.ingredients[&"gin".into()]).expect("known");
    let ethanol = gin.per_gram[Component::Ethanol] * batch.lines[0].grams.expect("known");
    assert!((mix.strength_pct_vol - 100.0 * ethanol / 0.789_24 / mix.ml).abs() < 1e-6);
}

#[test]
fn a_pour_of_nothing_is_in_no_batch_no_list_and_no_plan_of_the_stage() {
    let all = with_drink(vec![
        ml("gin", 40.0),
        ml("lime-juice", 20.0),
        ml("milk", 0.0),
    ]);
    let without = with_drink(vec![ml("gin", 40.0), ml("lime-juice", 20.0)]);
    let plan = serving(10);
    let of = |found: &(Document, Spec, Trial)| {
        let batch = batched(found, &plan);
        let names = |batch: &Batch| -> Vec<String> {
            batch.lines.iter().map(|line| line.name.clone()).collect()
        };
        let list = shopping(&found.0, &batch, &plan);
        let bought: Vec<String> = list.lines.iter().map(|line| line.name.clone()).collect();
        let run = run_sheet(&found.0, &found.1, &found.2, Some(3), None);
        let allergens = alcohol(&found.0, &found.1, &found.2, "").expect("it can be served");
        (
            names(&batch),
            bought,
            run.steps,
            allergens.allergens,
            drink_cost(&found.0, &batch, &found.1.entry),
        )
    };
    assert_eq!(of(&all), of(&without));
    // It stays in the trial, and comes back with the first drop.
    assert_eq!(all.2.pours.len(), 3);
    assert!(all.2.pours[2].is_left_out() && all.2.poured().count() == 2);
    let back = with_drink(vec![
        ml("gin", 40.0),
        ml("lime-juice", 20.0),
        ml("milk", 1.0),
    ]);
    assert_eq!(batched(&back, &plan).lines.len(), 3);
}

#[test]
fn more_drops_than_anybody_counts_are_told_in_ml_first() {
    let drops = |count: f64| {
        let measures = Measures::default();
        let pour = Pour {
            unit: Unit::Drop,
            ..ml("gin", count * measures.drop_ml)
        };
        let found = with_drink(vec![ml("lime-juice", 30.0), pour]);
        batched(&found, &serving(11)).lines[1].amount_text(&measures)
    };
    // 9.6 drops in each of 11 drinks: 105.6 drops of 0.05 ml.
    assert_eq!(drops(9.6), "5.3 ml (106 drops)");
    assert_eq!(drops(1.0), "11 drops");
}
