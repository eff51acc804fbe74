//! Writing amounts and numbers.

use equipour::units::{
    Measures, US_FLUID_OUNCE_ML, Unit, celsius, counted_steps, exact, fraction, grams_per_litre,
    lower_first, money, number, parse_entry, percent, percent_vol, read_exact, show, show_volume,
    signed, signed_steps, steps, trimmed,
};
use proptest::prelude::*;

/// What two decimals and a fraction within 0.004 leave open, in the unit shown; with room for binary rounding.
const SHOWN_PRECISION: f64 = 0.005 + 1e-9;

fn shown(value: f64, unit: Unit) -> String {
    show(value, unit, &Measures::default())
}

#[test]
fn volumes_and_masses_have_at_most_two_decimals() {
    assert_eq!(shown(22.5, Unit::Ml), "22.5 ml");
    assert_eq!(shown(22.5, Unit::Cl), "2.25 cl");
    assert_eq!(shown(30.0, Unit::Ml), "30 ml");
    assert_eq!(shown(100.0, Unit::Ml), "100 ml");
    assert_eq!(shown(29.573_529_562_5, Unit::Ml), "29.57 ml");
    assert_eq!(shown(0.4, Unit::Gram), "0.4 g");
    assert_eq!(shown(0.0, Unit::Ml), "0 ml");
    assert_eq!(shown(12_345.678, Unit::Gram), "12345.68 g");
    assert_eq!(shown(-5.25, Unit::Ml), "\u{2212}5.25 ml");
}

#[test]
fn ounces_near_a_jigger_mark_are_written_with_it() {
    for (value_ml, text) in [
        (0.0, "0 oz"),
        (3.75, "⅛ oz"),
        (7.5, "¼ oz"),
        (10.0, "⅓ oz"),
        (11.25, "⅜ oz"),
        (15.0, "½ oz"),
        (18.75, "⅝ oz"),
        (20.0, "⅔ oz"),
        (22.5, "¾ oz"),
        (26.25, "⅞ oz"),
        (30.0, "1 oz"),
        (52.5, "1¾ oz"),
        (60.0, "2 oz"),
        (50.4, "1.68 oz"),
        (-15.0, "\u{2212}½ oz"),
        // 0.0039 oz beside the mark and 0.0041 oz beside it.
        (15.117, "½ oz"),
        (15.123, "0.5 oz"),
        (15.3, "0.51 oz"),
    ] {
        assert_eq!(shown(value_ml, Unit::Oz), text, "{value_ml} ml");
    }
    assert_eq!(shown(1.5 * US_FLUID_OUNCE_ML, Unit::FlOz), "1½ fl oz");
    assert_eq!(shown(45.0, Unit::FlOz), "1.52 fl oz");
}

#[test]
fn small_measures_are_counted_in_quarters_and_take_the_plural() {
    assert_eq!(shown(1.84, Unit::Dash), "2 dashes");
    assert_eq!(shown(0.92, Unit::Dash), "1 dash");
    assert_eq!(shown(0.46, Unit::Dash), "½ dash");
    assert_eq!(shown(1.38, Unit::Dash), "1½ dashes");
    assert_eq!(shown(2.5, Unit::BarSpoon), "½ bar spoon");
    assert_eq!(shown(10.0, Unit::BarSpoon), "2 bar spoons");
    assert_eq!(shown(0.25, Unit::Drop), "5 drops");
    assert_eq!(shown(0.0, Unit::Drop), "0 drops");
    assert_eq!(shown(0.04, Unit::Drop), "0.8 drop");
    assert_eq!(shown(0.75 * 4.928_921_593_75, Unit::Teaspoon), "¾ tsp");
    assert_eq!(shown(5.0 / 3.0, Unit::BarSpoon), "0.33 bar spoon");
    assert_eq!(shown(1.0, Unit::Piece), "1 piece");
    assert_eq!(shown(2.5, Unit::Piece), "2½ pieces");
}

#[test]
fn a_value_that_is_no_number_is_shown_as_a_dash_without_a_unit() {
    for unit in Unit::ALL {
        for value in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
            assert_eq!(shown(value, unit), "–", "{unit:?}");
        }
    }
}

#[test]
fn fractions_are_found_within_their_tolerance() {
    assert_eq!(fraction(1.75), Some((1, "¾")));
    assert_eq!(fraction(0.333), Some((0, "⅓")));
    assert_eq!(fraction(2.0), Some((2, "")));
    assert_eq!(fraction(1.997), Some((2, "")));
    assert_eq!(fraction(0.0), Some((0, "")));
    for none in [0.505, 1.68, -0.5, f64::NAN, f64::INFINITY, 1e12] {
        assert_eq!(fraction(none), None, "{none}");
    }
}

#[test]
fn half_an_ounce_is_15_ml_and_one_and_a_half_is_45() {
    // Common practice, no source.
    assert_eq!(shown(15.0, Unit::Oz), "½ oz");
    assert_eq!(shown(45.0, Unit::Oz), "1½ oz");
}

#[test]
fn the_us_fluid_ounce_is_exact() {
    // 231 cubic inches to the gallon, 128 fluid ounces to the gallon, the inch 25.4 mm: all exact by definition.
    let expected_ml = 231.0 * 2.54_f64.powi(3) / 128.0;
    assert!((US_FLUID_OUNCE_ML - expected_ml).abs() < 1e-12);
    assert!((Measures::default().teaspoon_ml * 6.0 - expected_ml).abs() < 1e-12);
    assert_eq!(Unit::FlOz.ml(&Measures::default()), Some(US_FLUID_OUNCE_ML));
}

#[test]
fn numbers_have_a_true_minus_and_no_negative_zero() {
    assert_eq!(number(1.25, 1), "1.2");
    assert_eq!(number(-5.44, 1), "\u{2212}5.4");
    assert_eq!(number(-0.04, 1), "0.0");
    assert_eq!(number(-0.0, 0), "0");
    assert_eq!(number(1234.5, 2), "1234.50");
    assert_eq!(number(f64::NAN, 2), "–");
    assert_eq!(number(f64::NEG_INFINITY, 2), "–");
    assert!(number(0.1, usize::MAX).starts_with("0.1"));
    assert_eq!(signed(1.2, 1), "+1.2");
    assert_eq!(signed(-0.3, 1), "\u{2212}0.3");
    assert_eq!(signed(-0.04, 1), "±0");
    assert_eq!(signed(0.0, 2), "±0");
    assert_eq!(signed(f64::NAN, 1), "–");
    assert_eq!(trimmed(22.50, 2), "22.5");
    assert_eq!(trimmed(100.0, 2), "100");
    assert_eq!(trimmed(100.0, 0), "100");
    assert_eq!(trimmed(-0.001, 2), "0");
}

#[test]
fn quantities_of_the_field_carry_their_unit() {
    assert_eq!(percent(0.146, 1), "14.6 %");
    assert_eq!(percent(0.5, 0), "50 %");
    assert_eq!(celsius(-5.4), "\u{2212}5.4 °C");
    assert_eq!(grams_per_litre(82.04), "82.0 g/L");
    assert_eq!(percent_vol(14.6), "14.6 % vol");
    assert_eq!(steps(1.23), "1.2 steps");
    assert_eq!(steps(1.04), "1.0 step");
    assert_eq!(steps(0.96), "1.0 step");
    assert_eq!(steps(10.0), "10.0 steps");
    assert_eq!(steps(0.0), "0.0 steps");
    assert_eq!(signed_steps(-1.0), "−1.0 step");
    assert_eq!(signed_steps(1.5), "+1.5 steps");
    assert_eq!(counted_steps(1.0, 2), "1.00 step");
    assert_eq!(counted_steps(0.03, 2), "0.03 steps");
    assert_eq!(money(1.35, "EUR"), "1.35 EUR");
    assert_eq!(money(1.35, ""), "1.35");
    for text in [
        percent(f64::NAN, 1),
        celsius(f64::NAN),
        money(f64::INFINITY, "EUR"),
    ] {
        assert_eq!(text, "–");
    }
}

#[test]
fn natural_steps_are_given_in_the_base_unit() {
    let measures = Measures::default();
    for (unit, step) in [
        (Unit::Ml, 2.5),
        (Unit::Cl, 2.5),
        (Unit::Oz, 7.5),
        (Unit::FlOz, 7.393_382_390_625),
        (Unit::BarSpoon, 2.5),
        (Unit::Teaspoon, 2.464_460_796_875),
        (Unit::Dash, 0.92),
        (Unit::Drop, 0.05),
        (Unit::Gram, 0.1),
        (Unit::Piece, 1.0),
    ] {
        assert!(
            (unit.default_step(&measures) - step).abs() < 1e-12,
            "{unit:?}"
        );
    }
}

#[test]
fn descriptions_say_how_large_a_measure_is_and_why() {
    let mut measures = Measures::default();
    assert_eq!(
        Unit::Oz.describe(&measures),
        "ounce of 30 ml (trade rounding)"
    );
    assert_eq!(
        Unit::Dash.describe(&measures),
        "dash of 0.92 ml (no agreed definition)"
    );
    measures.ounce_ml = US_FLUID_OUNCE_ML;
    assert_eq!(
        Unit::Oz.describe(&measures),
        "ounce of 29.574 ml (the exact US fluid ounce)"
    );
    measures.ounce_ml = 25.0;
    assert_eq!(
        Unit::Oz.describe(&measures),
        "ounce of 25 ml (set in this document)"
    );
    assert_eq!(Unit::Gram.describe(&measures), "gram");
}

#[test]
fn only_the_gram_and_the_piece_are_no_volumes() {
    let measures = Measures::default();
    let without: Vec<Unit> = Unit::ALL
        .into_iter()
        .filter(|unit| unit.ml(&measures).is_none())
        .collect();
    assert_eq!(without, [Unit::Gram, Unit::Piece]);
}

#[test]
fn every_name_shown_is_understood_when_typed() {
    for unit in Unit::ALL {
        assert_eq!(Unit::from_word(unit.label()), Some(unit));
        assert_eq!(Unit::from_word(unit.plural()), Some(unit));
        assert_eq!(Unit::from_word(unit.spoken()), Some(unit));
    }
}

#[test]
fn a_measure_of_impossible_size_is_named() {
    type Field = fn(&mut Measures) -> &mut f64;
    assert_eq!(Measures::default().validate(), Ok(()));
    let fields: [(&str, Field); 5] = [
        ("ounce_ml", |measures| &mut measures.ounce_ml),
        ("bar_spoon_ml", |measures| &mut measures.bar_spoon_ml),
        ("teaspoon_ml", |measures| &mut measures.teaspoon_ml),
        ("dash_ml", |measures| &mut measures.dash_ml),
        ("drop_ml", |measures| &mut measures.drop_ml),
    ];
    for (name, field) in fields {
        for size in [0.0, -1.0, 100.1, f64::NAN, f64::INFINITY] {
            let mut measures = Measures::default();
            *field(&mut measures) = size;
            let message = measures.validate().expect_err(name);
            assert!(message.starts_with(name), "{message}");
        }
        let mut measures = Measures::default();
        *field(&mut measures) = 100.0;
        assert_eq!(measures.validate(), Ok(()), "{name} of 100 ml");
    }
}

fn any_unit() -> impl Strategy<Value = Unit> {
    prop::sample::select(Unit::ALL.to_vec())
}

#[test]
fn numbers_of_a_table_have_one_mark_and_no_words() {
    assert_eq!(read_exact(" 22.5 ", false), Some(22.5));
    assert_eq!(read_exact("22,5", true), Some(22.5));
    for text in [
        "", "22,5", "1,250.5", "1 250", "40 %", "nan", "inf", "1e999", "0x10", "1.2.3",
    ] {
        assert_eq!(read_exact(text, false), None, "{text}");
    }
    assert_eq!(read_exact("22.5", true), None);
}

proptest! {
    #[test]
    fn an_exact_number_reads_back_as_the_same(bits in any::<u64>()) {
        let value = f64::from_bits(bits);
        prop_assume!(value.is_finite());
        let read = read_exact(&exact(value), false).expect("it is a number");
        prop_assert_eq!(read.to_bits(), value.to_bits());
    }

    #[test]
    fn what_is_shown_reads_back_within_the_shown_precision(
        amount in prop_oneof![0.0..4.0_f64, 0.0..3000.0_f64],
        unit in any_unit(),
        ounce_ml in 20.0..32.0_f64,
    ) {
        let measures = Measures { ounce_ml, ..Measures::default() };
        let stored = amount * unit.base_per_unit(&measures);
        let text = show(stored, unit, &measures);
        // The other default unit must not matter, because the unit is written.
        let read = parse_entry(&text, Unit::Ml, &measures);
        prop_assert!(read.is_ok(), "{} is refused: {:?}", text, read);
        if let Ok(entry) = read {
            prop_assert_eq!(entry.unit, unit);
            let difference = (entry.quantity.value() - stored).abs();
            prop_assert!(
                difference <= SHOWN_PRECISION * unit.base_per_unit(&measures),
                "{} became {} became {:?}", stored, text, entry
            );
        }
    }

    #[test]
    fn what_was_read_once_is_shown_and_read_the_same_ever_after(
        quarters in 0_u32..400, unit in any_unit()
    ) {
        let measures = Measures::default();
        let stored = f64::from(quarters) * 0.25 * unit.base_per_unit(&measures);
        let text = show(stored, unit, &measures);
        let again = parse_entry(&text, unit, &measures)
            .map(|entry| show(entry.quantity.value(), unit, &measures));
        prop_assert_eq!(again, Ok(text));
    }

    #[test]
    fn quarter_ounces_survive_exactly(quarters in 0_u32..400) {
        let measures = Measures::default();
        let stored = f64::from(quarters) * 7.5;
        let text = show(stored, Unit::Oz, &measures);
        let read = parse_entry(&text, Unit::Ml, &measures).map(|entry| entry.quantity.value());
        prop_assert_eq!(read, Ok(stored));
    }

    #[test]
    fn numbers_never_carry_a_hyphen_or_a_negative_zero(value in any::<f64>(), decimals in 0_usize..6) {
        let text = number(value, decimals);
        prop_assert!(!text.contains('-'));
        let has_figure = text.chars().any(|digit| ('1'..='9').contains(&digit));
        let is_negative = text.starts_with('\u{2212}');
        prop_assert!(has_figure || !is_negative);
    }
}

#[test]
fn a_volume_of_a_drink_is_told_in_one_unit_as_finely_as_in_ml() {
    let measures = Measures::default();
    assert_eq!(show_volume(128.4, 0, Unit::Ml, &measures), "128 ml");
    assert_eq!(show_volume(145.4, 0, Unit::Cl, &measures), "14.5 cl");
    assert_eq!(show_volume(85.0, 1, Unit::Cl, &measures), "8.50 cl");
    // 45 ml of ounces of 30 ml.
    assert_eq!(show_volume(45.0, 0, Unit::Oz, &measures), "1.50 oz");
    assert_eq!(show_volume(45.0, 0, Unit::Gram, &measures), "45 ml");
}

#[test]
fn words_in_the_middle_of_a_sentence_begin_small_unless_they_are_capitals() {
    assert_eq!(lower_first("Unlock lemon juice"), "unlock lemon juice");
    assert_eq!(lower_first("IPA reduction"), "IPA reduction");
    assert_eq!(lower_first("Éclair"), "éclair");
    assert_eq!(lower_first(""), "");
}
