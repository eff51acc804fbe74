//! Reading typed figures of fields that have a unit of their own.

use equipour::units::{Measures, parse_figure};
use proptest::prelude::*;

fn reads(text: &str, unit: &str) -> Result<f64, String> {
    parse_figure(text, unit, &Measures::default()).map_err(|error| error.to_string())
}

#[test]
fn a_figure_is_read_with_comma_point_fraction_and_calculation() {
    for (text, value) in [
        ("22,5", 22.5),
        ("22.5", 22.5),
        ("1/2", 0.5),
        ("1 3/4", 1.75),
        ("=30+15", 45.0),
        ("=2*(3+4) ml", 14.0),
        ("-18", -18.0),
        ("−18", -18.0),
        ("30 ml", 30.0),
        ("30ml", 30.0),
    ] {
        let read = reads(text, "ml");
        assert_eq!(read, Ok(value), "{text}");
    }
}

#[test]
fn units_of_one_kind_turn_into_the_unit_of_the_field() {
    // SI prefixes and the definitions of minute, hour, °F and the calorie-free rest of the SI brochure.
    for (text, unit, value) in [
        ("3 cl", " ml", 30.0),
        ("1.5 l", " ml", 1500.0),
        ("2 kg", " g", 2000.0),
        ("500 mg", " g", 0.5),
        ("90 s", " min", 1.5),
        ("2 h", " min", 120.0),
        ("3 days", " h", 72.0),
        ("212 °F", " °C", 100.0),
        ("-40 F", " °C", -40.0),
        ("273.15 K", " °C", 0.0),
        ("1.2 kW", " W", 1200.0),
        ("350 J/K", " kJ/K", 0.35),
        ("1045 g/l", " g/ml", 1.045),
        ("8 g/100 ml", " g/L", 80.0),
        ("100 mmol/L", " mol/L", 0.1),
        ("5 ‰", " %", 0.5),
        ("3 cl", " ml NaOH", 30.0),
        ("40 %", " % vol", 40.0),
    ] {
        let read = reads(text, unit).unwrap_or_else(|error| panic!("{text} {unit}: {error}"));
        assert!((read - value).abs() < 1.0e-9, "{text}: {read}");
    }
}

#[test]
fn an_ounce_is_the_ounce_of_the_document() {
    let measures = Measures {
        ounce_ml: 28.4,
        ..Measures::default()
    };
    let read = parse_figure("2 oz", " ml", &measures).expect("an ounce is a volume");
    assert!((read - 56.8).abs() < 1.0e-9, "{read}");
}

#[test]
fn what_is_no_figure_of_the_field_says_why() {
    for (text, unit, words) in [
        ("", " ml", "type"),
        ("plenty", " ml", "plenty"),
        ("5 min", " ml", "cannot be turned into ml"),
        ("5 g", " ml", "cannot be turned into ml"),
        ("5 ml", "", "plain number"),
        ("3 + 4", " ml", "="),
        ("=1/0", " ml", "zero"),
        ("1,250", " ml", "two ways"),
        ("1e999", " ml", ""),
        ("NaN", " ml", ""),
    ] {
        let refused = reads(text, unit).expect_err(text);
        assert!(refused.contains(words), "{text}: {refused}");
    }
}

proptest! {
    #[test]
    fn a_figure_in_its_own_unit_is_read_unchanged(value in -1.0e6..1.0e6_f64) {
        for unit in [" ml", " °C", " min", " g/ml", " px", ""] {
            prop_assert_eq!(reads(&format!("{value:.6}{unit}"), unit), format!("{value:.6}").parse().map_err(|_| String::new()));
        }
    }

    #[test]
    fn no_text_makes_the_reader_fail_otherwise_than_with_a_reason(text in "\\PC{0,80}", unit in "[a-z°%/ ]{0,8}") {
        match reads(&text, &unit) {
            Ok(value) => prop_assert!(value.is_finite()),
            Err(reason) => prop_assert!(!reason.is_empty()),
        }
    }
}
