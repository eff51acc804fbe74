//! Doses of thickeners, recognised by name.

use crate::sample_drinks::larder;
use equipour::kitchen::{DoseOf, dose_range};
use equipour::model::Ingredient;

fn named(name: &str, kind: &str) -> Ingredient {
    Ingredient {
        name: name.to_owned(),
        kind: kind.to_owned(),
        ..Ingredient::default()
    }
}

/// Hydrocolloids of the larder without a published range; none at present.
const WITHOUT_RANGE: [&str; 0] = [];

#[test]
fn every_hydrocolloid_of_the_larder_has_a_dose_or_is_listed_as_having_none() {
    let mut found = 0;
    for (id, item) in larder() {
        if item.kind == "hydrocolloid" {
            found += 1;
            let listed = WITHOUT_RANGE.contains(&id.0.as_str());
            assert_eq!(dose_range(item).is_none(), listed, "{id}");
        }
    }
    assert!(found >= 7, "{found}");
}

#[test]
fn doses_are_those_of_the_published_sheet() {
    // A usage guide sheet for hydrocolloids, read in a copy; the last two are practice and memory.
    for (name, low, high) in [
        ("xanthan gum", 0.05, 0.5),
        ("Guar gum", 0.2, 1.0),
        ("locust bean gum", 0.1, 0.5),
        ("agar powder", 0.2, 2.0),
        ("iota carrageenan", 0.2, 1.5),
        ("sodium alginate", 0.5, 1.0),
        ("pectin (high methoxyl)", 0.5, 1.5),
        ("gum arabic", 2.0, 8.0),
        ("leaf gelatine", 0.6, 1.7),
    ] {
        let range = dose_range(&named(name, "hydrocolloid")).expect(name);
        assert_eq!((range.low_pct, range.high_pct), (low, high), "{name}");
        assert!(!range.source.is_empty());
        let of_syrup = range.of == DoseOf::Syrup;
        assert_eq!(of_syrup, name == "gum arabic", "{name}");
    }
    for (id, item) in larder() {
        if let Some(range) = dose_range(item) {
            assert!(
                0.0 < range.low_pct && range.low_pct <= range.high_pct,
                "{id}"
            );
        }
    }
}

#[test]
fn a_thickener_is_known_however_its_kind_is_written_and_without_one() {
    for kind in ["Hydrocolloid", " hydrocolloid ", "", "  "] {
        let range = dose_range(&named("Xanthan gum", kind));
        assert_eq!(
            range.map(|range| range.name),
            Some("xanthan gum"),
            "{kind:?}"
        );
    }
    // Without a kind a name must not be taken for more than it says.
    for name in [
        "gum arabic syrup",
        "sucrose",
        "pectin-free jam",
        "lemon juice",
    ] {
        assert_eq!(dose_range(&named(name, "")), None, "{name}");
    }
}

#[test]
fn a_name_alone_makes_no_thickener() {
    // Agaricus is no agar, and a syrup with gum arabic in it is a syrup.
    assert_eq!(dose_range(&named("agaricus powder", "hydrocolloid")), None);
    assert_eq!(dose_range(&named("gum arabic syrup", "syrup")), None);
}
