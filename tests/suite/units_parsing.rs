//! Reading typed amounts.

use equipour::units::{
    BASE_LIMIT, Entry, EntryError, Measures, Quantity, TEXT_LIMIT_CHARS, US_FLUID_OUNCE_ML, Unit,
    parse_entry,
};
use proptest::prelude::*;

use Quantity::{Grams, Ml, Pieces};

fn parse(text: &str) -> Result<Entry, EntryError> {
    parse_entry(text, Unit::Ml, &Measures::default())
}

fn refused(text: &str) -> EntryError {
    match parse(text) {
        Ok(entry) => panic!("{text:?} was read as {entry:?}"),
        Err(error) => error,
    }
}

fn assert_reads(cases: &[(&str, Quantity, Unit)]) {
    for (text, expected, unit) in cases {
        let entry = parse(text).unwrap_or_else(|error| panic!("{text:?}: {error}"));
        assert_eq!(entry.unit, *unit, "unit of {text:?}");
        assert_eq!(
            std::mem::discriminant(&entry.quantity),
            std::mem::discriminant(expected),
            "dimension of {text:?}"
        );
        let difference = (entry.quantity.value() - expected.value()).abs();
        assert!(
            difference <= 1e-12,
            "{text:?} is {:?}, not {expected:?}",
            entry.quantity
        );
    }
}

#[test]
fn plain_numbers_and_fractions_are_read() {
    assert_reads(&[
        ("0", Ml(0.0), Unit::Ml),
        ("-0", Ml(0.0), Unit::Ml),
        ("30", Ml(30.0), Unit::Ml),
        ("+30", Ml(30.0), Unit::Ml),
        ("  30  ", Ml(30.0), Unit::Ml),
        ("37.5", Ml(37.5), Unit::Ml),
        ("22,5", Ml(22.5), Unit::Ml),
        (".5", Ml(0.5), Unit::Ml),
        (",5", Ml(0.5), Unit::Ml),
        ("7.", Ml(7.0), Unit::Ml),
        ("1.250", Ml(1.25), Unit::Ml),
        ("0,125", Ml(0.125), Unit::Ml),
        ("1234,567", Ml(1234.567), Unit::Ml),
        ("1,25", Ml(1.25), Unit::Ml),
        ("3/4", Ml(0.75), Unit::Ml),
        ("3 / 4", Ml(0.75), Unit::Ml),
        ("3\u{2044}4", Ml(0.75), Unit::Ml),
        ("1 3/4", Ml(1.75), Unit::Ml),
        ("¾", Ml(0.75), Unit::Ml),
        ("1¾", Ml(1.75), Unit::Ml),
        ("1 ¾", Ml(1.75), Unit::Ml),
        ("⅓", Ml(1.0 / 3.0), Unit::Ml),
        ("2⅝", Ml(2.625), Unit::Ml),
        ("100000", Ml(100_000.0), Unit::Ml),
    ]);
}

#[test]
fn amounts_with_a_unit_are_read() {
    assert_reads(&[
        ("1 3/4 oz", Ml(52.5), Unit::Oz),
        ("1¾ oz", Ml(52.5), Unit::Oz),
        ("1¾oz", Ml(52.5), Unit::Oz),
        ("1 3/4oz.", Ml(52.5), Unit::Oz),
        ("⅓ oz", Ml(10.0), Unit::Oz),
        ("37.5 ml", Ml(37.5), Unit::Ml),
        ("37.5ml", Ml(37.5), Unit::Ml),
        ("37.5 mL", Ml(37.5), Unit::Ml),
        ("37,5 ML", Ml(37.5), Unit::Ml),
        ("37.5\u{a0}ml", Ml(37.5), Unit::Ml),
        ("37.5\u{2009}ml", Ml(37.5), Unit::Ml),
        ("1\u{202f}3/4\u{a0}oz", Ml(52.5), Unit::Oz),
        ("37.5\u{200b} ml", Ml(37.5), Unit::Ml),
        ("4.5 cL", Ml(45.0), Unit::Cl),
        ("2 Ounces", Ml(60.0), Unit::Oz),
        // 2 x 29.5735295625 ml; exact, 1/128 US gallon of 231 cubic inches.
        ("2 fl oz", Ml(59.147_059_125), Unit::FlOz),
        ("2 FL. OZ.", Ml(59.147_059_125), Unit::FlOz),
        ("2floz", Ml(59.147_059_125), Unit::FlOz),
        ("2 fl.oz.", Ml(59.147_059_125), Unit::FlOz),
        ("2 fluid ounces", Ml(59.147_059_125), Unit::FlOz),
        ("1 bsp", Ml(5.0), Unit::BarSpoon),
        ("½ bar spoon", Ml(2.5), Unit::BarSpoon),
        ("2  Bar  Spoons", Ml(10.0), Unit::BarSpoon),
        ("2 barspoons", Ml(10.0), Unit::BarSpoon),
        // 4.92892159375 ml; exact, a sixth of a US fluid ounce.
        ("1 tsp", Ml(4.928_921_593_75), Unit::Teaspoon),
        ("2 teaspoons", Ml(9.857_843_187_5), Unit::Teaspoon),
        ("1 dash", Ml(0.92), Unit::Dash),
        ("2 dashes", Ml(1.84), Unit::Dash),
        ("5 drops", Ml(0.25), Unit::Drop),
        ("0.4 g", Grams(0.4), Unit::Gram),
        ("0,4 gr.", Grams(0.4), Unit::Gram),
        ("12 grams", Grams(12.0), Unit::Gram),
        ("1 piece", Pieces(1.0), Unit::Piece),
        ("8 pcs", Pieces(8.0), Unit::Piece),
        ("½ pc", Pieces(0.5), Unit::Piece),
    ]);
}

#[test]
fn calculations_are_worked_out() {
    assert_reads(&[
        ("=30+15", Ml(45.0), Unit::Ml),
        ("=30+15 ml", Ml(45.0), Unit::Ml),
        ("= (20+10)*1.5/2 - 2,5 ml", Ml(20.0), Unit::Ml),
        ("=2+3*4", Ml(14.0), Unit::Ml),
        ("=20-5-5", Ml(10.0), Unit::Ml),
        ("=60/2/3", Ml(10.0), Unit::Ml),
        ("=30\u{2212}7.5", Ml(22.5), Unit::Ml),
        ("=-3+5", Ml(2.0), Unit::Ml),
        ("=10--5", Ml(15.0), Unit::Ml),
        ("=-(5-20)", Ml(15.0), Unit::Ml),
        ("=3×15÷2", Ml(22.5), Unit::Ml),
        ("=1 3/4 + ¼ oz", Ml(60.0), Unit::Oz),
        ("=1¾*2 oz", Ml(105.0), Unit::Oz),
        ("=3/4 fl oz", Ml(22.180_147_171_875), Unit::FlOz),
        ("=((((((((1))))))))", Ml(1.0), Unit::Ml),
        // Binary rounding leaves -2.8e-17 here, which nobody typed.
        ("=0.3-0.1-0.2", Ml(0.0), Unit::Ml),
        ("=0.4/3*6 g", Grams(0.8), Unit::Gram),
    ]);
}

#[test]
fn an_amount_without_a_unit_takes_the_default_one() {
    let measures = Measures::default();
    for (unit, expected) in [
        (Unit::Oz, Ml(45.0)),
        (Unit::FlOz, Ml(44.360_294_343_75)),
        (Unit::Gram, Grams(1.5)),
        (Unit::Piece, Pieces(1.5)),
    ] {
        let entry = parse_entry("1½", unit, &measures);
        assert_eq!(
            entry,
            Ok(Entry {
                quantity: expected,
                unit
            })
        );
    }
    let typed = parse_entry("15 ml", Unit::Oz, &measures);
    assert_eq!(
        typed,
        Ok(Entry {
            quantity: Ml(15.0),
            unit: Unit::Ml
        })
    );
}

#[test]
fn half_an_ounce_is_poured_as_15_ml_and_one_and_a_half_as_45() {
    // Common practice, no source.
    assert_reads(&[
        ("1/2 oz", Ml(15.0), Unit::Oz),
        ("3/4 oz", Ml(22.5), Unit::Oz),
        ("1 1/2 oz", Ml(45.0), Unit::Oz),
    ]);
}

#[test]
fn an_ounce_follows_the_document_and_a_fluid_ounce_does_not() {
    let measures = Measures {
        ounce_ml: 28.4,
        ..Measures::default()
    };
    let value = |text: &str| parse_entry(text, Unit::Ml, &measures).map(|it| it.quantity);
    assert_eq!(value("1 oz"), Ok(Ml(28.4)));
    assert_eq!(value("1 fl oz"), Ok(Ml(US_FLUID_OUNCE_ML)));
}

#[test]
fn what_cannot_be_an_amount_is_refused_with_its_reason() {
    use EntryError as E;
    let too_large = |value| E::TooLarge {
        value,
        limit: BASE_LIMIT,
    };
    let cases = [
        ("", E::Empty),
        (" \u{a0} ", E::Empty),
        ("=", E::Empty),
        ("1/0", E::DivisionByZero),
        ("1 3/0 oz", E::DivisionByZero),
        ("=1/(2-2)", E::DivisionByZero),
        ("=5/0.0", E::DivisionByZero),
        ("-3", E::Negative { value: -3.0 }),
        ("\u{2212}1 ½ oz", E::Negative { value: -1.5 }),
        ("=10-20", E::Negative { value: -10.0 }),
        ("1e99", too_large(1e99)),
        ("100001", too_large(100_001.0)),
        ("10001 cl", too_large(100_010.0)),
        ("1e999", E::NotFinite),
        ("nan", E::NotFinite),
        ("NaN ml", E::NotFinite),
        ("inf", E::NotFinite),
        ("-Infinity", E::NotFinite),
        ("∞", E::NotFinite),
        ("=(((((((((1)))))))))", E::TooDeep { limit: 8 }),
        ("=---------1", E::TooDeep { limit: 8 }),
    ];
    for (typed, expected) in cases {
        assert_eq!(refused(typed), expected, "{typed:?}");
    }
}

#[test]
fn what_cannot_be_read_is_quoted_with_its_reason() {
    use EntryError as E;
    type Reason = fn(String) -> E;
    let not_a_number: &[&str] = &[
        "abc",
        "ml",
        "1.2.3",
        "1,250.5",
        "1,250,000",
        ".",
        "()",
        "1'250",
        "1e3",
        "1E-3 ml",
        "5 x 2",
    ];
    let two_numbers: &[&str] = &["5 5", "1 3/4 3", "½ ½", "1.5 3/4", "1/2 3/4", "=(5 5)"];
    let calculations: &[&str] = &["30+15", "1.5/2", "(30)", "1-3/4 oz", "10\u{2013}20 ml"];
    let cases: [(&[&str], Reason); 5] = [
        (not_a_number, |text| E::NotANumber { text }),
        (two_numbers, |text| E::TwoNumbers { text }),
        (calculations, |text| E::Calculation { text }),
        (&["=30+", "=*3"], |text| E::Unfinished { text }),
        (&["=(30+15", "=30+15)"], |text| E::Parentheses { text }),
    ];
    for (texts, expected) in cases {
        for typed in texts {
            assert_eq!(refused(typed), expected((*typed).to_owned()), "{typed:?}");
        }
    }
}

#[test]
fn a_word_that_is_no_unit_or_stands_elsewhere_is_quoted() {
    for (typed, word) in [("5 flagons", "flagons"), ("5 %", "%"), ("1 e", "e")] {
        let text = word.to_owned();
        assert_eq!(
            refused(typed),
            EntryError::UnknownUnit { text },
            "{typed:?}"
        );
    }
    for (typed, word) in [
        ("ml 30", "ml"),
        ("=30 ml + 15 ml", "ml"),
        ("=30 g + 1 ml", "g"),
        ("=(30 ml)", "ml"),
        ("1 fl. oz 2", "fl. oz"),
    ] {
        let text = word.to_owned();
        assert_eq!(
            refused(typed),
            EntryError::MisplacedUnit { text },
            "{typed:?}"
        );
    }
}

#[test]
fn a_comma_before_three_digits_is_asked_about() {
    let expected = EntryError::Ambiguous {
        text: "1,250".to_owned(),
        as_thousand: 1250.0,
        as_decimal: 1.25,
    };
    for typed in ["1,250", "1,250 ml", "=1,250+3", " 1,250 oz"] {
        assert_eq!(refused(typed), expected, "{typed:?}");
    }
    assert_eq!(
        expected.to_string(),
        "“1,250” can be read in two ways; type 1250 or 1.25"
    );
}

#[test]
fn a_text_of_64_characters_is_read_and_one_of_65_is_not() {
    let longest = format!("{}5", "0".repeat(TEXT_LIMIT_CHARS - 1));
    assert_eq!(parse(&longest).map(|entry| entry.quantity), Ok(Ml(5.0)));
    assert_eq!(
        refused(&format!("0{longest}")),
        EntryError::TooLong {
            length: 65,
            limit: 64
        }
    );
}

#[test]
fn every_reason_is_a_lower_case_clause_that_quotes_what_was_typed() {
    for typed in [
        "", "abc", "1/0", "-3", "1e99", "nan", "5 5", "30+15", "=3+", "=(3", "ml 30",
    ] {
        let reason = refused(typed).to_string();
        let first = reason.chars().next().expect("a reason is never empty");
        assert!(first.is_lowercase() || first == '“', "{reason}");
        assert!(!reason.ends_with('.'), "{reason}");
        assert!(
            reason.contains(';'),
            "says what is wrong; what would be right: {reason}"
        );
    }
    assert!(refused("abc").to_string().contains("“abc”"));
    assert!(refused("5 flagons").to_string().contains("“flagons”"));
    assert!(refused("-3").to_string().contains("\u{2212}3"));
    assert!(refused("1e99").to_string().contains("1e99"));
    let tiny = refused("-0.00000002").to_string();
    assert!(tiny.contains("\u{2212}2e\u{2212}8"), "{tiny}");
}

#[test]
fn sizes_that_no_measure_has_give_a_reason() {
    for ounce_ml in [f64::NAN, f64::INFINITY] {
        let measures = Measures {
            ounce_ml,
            ..Measures::default()
        };
        assert_eq!(
            parse_entry("1 oz", Unit::Ml, &measures),
            Err(EntryError::NotFinite)
        );
    }
}

proptest! {
    #[test]
    fn no_text_makes_the_parser_panic(text in any::<String>()) {
        if let Ok(entry) = parse(&text) {
            prop_assert!((0.0..=BASE_LIMIT).contains(&entry.quantity.value()));
        }
    }

    #[test]
    fn text_made_of_the_parsers_own_characters_gives_an_amount_in_range_or_a_reason(
        text in "[=]?[0-9 .,+*/()¾½\u{2212}emlozfg-]{0,40}"
    ) {
        match parse(&text) {
            Ok(entry) => prop_assert!((0.0..=BASE_LIMIT).contains(&entry.quantity.value())),
            Err(error) => prop_assert!(!error.to_string().is_empty()),
        }
    }

    #[test]
    fn a_comma_means_the_same_as_a_point(whole in 0_u32..99_999, hundredths in 0_u32..100) {
        let point = parse(&format!("{whole}.{hundredths:02}"));
        let comma = parse(&format!("{whole},{hundredths:02}"));
        prop_assert!(point.is_ok());
        prop_assert_eq!(point, comma);
    }

    #[test]
    fn a_sum_is_the_sum_of_its_parts(a in 0_u32..5000, b in 0_u32..5000, c in 1_u32..50) {
        let expected = (f64::from(a) + f64::from(b)) * 3.0 / f64::from(c);
        let entry = parse(&format!("=({a} + {b}) * 3 / {c}"));
        prop_assert_eq!(entry.map(|entry| entry.quantity), Ok(Ml(expected)));
    }

    #[test]
    fn a_mixed_number_is_its_whole_and_its_fraction(
        whole in 0_u32..900, over in 0_u32..50, under in 1_u32..50
    ) {
        let expected = f64::from(whole) + f64::from(over) / f64::from(under);
        let entry = parse(&format!("{whole} {over}/{under} g"));
        prop_assert_eq!(entry.map(|entry| entry.quantity), Ok(Grams(expected)));
    }
}
