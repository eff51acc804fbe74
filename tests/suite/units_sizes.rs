//! Lists of typed volumes.

use equipour::units::{Measures, parse_sizes, show_sizes};
use proptest::prelude::*;

fn read(text: &str) -> Result<Vec<f64>, String> {
    parse_sizes(text, &Measures::default()).map_err(|error| error.to_string())
}

#[test]
fn sizes_are_read_in_ml_unless_a_unit_stands_behind_them() {
    for (text, sizes) in [
        ("5 10 15", vec![5.0, 10.0, 15.0]),
        ("  20 ", vec![20.0]),
        ("20 ml 4 cl", vec![20.0, 40.0]),
        ("3/4 oz 1 1/2 oz", vec![22.5, 45.0]),
        ("¾ oz 1½ oz 2oz", vec![22.5, 45.0, 60.0]),
        ("1 ½ oz", vec![45.0]),
        ("20 40 3/4 oz 1 1/2 oz", vec![20.0, 22.5, 40.0, 45.0]),
        ("5 ¾ oz; 2 1/4 oz", vec![5.0, 22.5, 67.5]),
        ("22,5 45", vec![22.5, 45.0]),
        ("5, 10, 22,5, 30", vec![5.0, 10.0, 22.5, 30.0]),
        ("5; 10;15;", vec![5.0, 10.0, 15.0]),
        ("5,10", vec![5.1]),
        ("1 bar spoon 1 oz", vec![5.0, 30.0]),
        ("20\n40\t60", vec![20.0, 40.0, 60.0]),
        ("5 10,", vec![5.0, 10.0]),
    ] {
        assert_eq!(read(text), Ok(sizes), "{text:?}");
    }
    let us = Measures {
        ounce_ml: 29.573_529_562_5,
        ..Measures::default()
    };
    assert_eq!(parse_sizes("2 oz", &us), Ok(vec![59.147_059]));
}

#[test]
fn sizes_come_out_rising_and_each_once() {
    assert_eq!(read("60 30 1 oz 30 15"), Ok(vec![15.0, 30.0, 60.0]));
}

#[test]
fn what_is_no_size_is_named_with_the_reason() {
    for (text, named, why) in [
        ("", "at least one size", "3/4 oz"),
        (" ; ", "at least one size", "3/4 oz"),
        ("5 ten 15", "“5 ten”", "unit"),
        ("5 x10 15", "“5 x10”", "number"),
        ("5 10 g", "“10 g”", "no volume"),
        ("20 -40", "“-40”", "below zero"),
        ("20 1,250", "“1,250”", "1250"),
    ] {
        let said = read(text).expect_err("it is no list of sizes");
        assert!(
            said.contains(named) && said.contains(why),
            "{text:?}: {said}"
        );
    }
}

proptest! {
    #[test]
    fn shown_sizes_are_read_back_as_the_same(
        mut sizes in prop::collection::vec((1_u32..100_000).prop_map(|ml| f64::from(ml) / 100.0), 1..24),
    ) {
        sizes.sort_by(f64::total_cmp);
        sizes.dedup();
        prop_assert_eq!(read(&show_sizes(&sizes)), Ok(sizes));
    }

    #[test]
    fn any_text_is_read_or_refused_and_never_gives_nothing(text in "[0-9 .,;/ozmlgx½-]{0,30}|\\PC{0,20}") {
        if let Ok(sizes) = read(&text) {
            prop_assert!(!sizes.is_empty());
            prop_assert!(sizes.windows(2).all(|pair| pair[0] < pair[1]), "{:?}", sizes);
            prop_assert!(sizes.iter().all(|size| size.is_finite() && *size >= 0.0));
        }
    }
}
