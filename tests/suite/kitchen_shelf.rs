//! Shelf-life classes on both sides of every limit.

use crate::reference::rows;
use crate::sample_drinks::larder;
use equipour::kitchen::{CAUTION, Shelf, ShelfClass, contents, shelf_class};
use equipour::model::IngredientId;
use equipour::physics::water_activity::water_activity;
use equipour::physics::{Component, Composition};

/// A sucrose solution of this water activity, found by halving its sugar.
fn syrup(activity: f64) -> Composition {
    let solution = |sugar_g: f64| {
        let mut solution = Composition::water(100.0);
        solution[Component::Sucrose] = sugar_g;
        solution
    };
    let (mut low, mut high) = (0.0, 400.0);
    for _ in 0..60 {
        let middle = 0.5 * (low + high);
        let found = water_activity(&solution(middle)).expect("it holds water");
        if found.activity > activity {
            low = middle;
        } else {
            high = middle;
        }
    }
    solution(high)
}

fn class(activity: f64, ph: f64) -> ShelfClass {
    shelf_class(&syrup(activity), Some(ph)).class
}

fn of_larder(id: &str) -> Shelf {
    let item = &larder()[&IngredientId::from(id)];
    let made = contents(item).expect("it closes");
    shelf_class(&made.per_gram, item.ph.map(|ph| ph.typical))
}

#[test]
fn the_limits_are_those_of_the_published_tables() {
    let limit = |id: &str| {
        let rows = rows("water_activity.csv");
        let row = rows.iter().find(|row| row.text("id") == id);
        row.unwrap_or_else(|| panic!("no row {id}"))
            .number("limit_value")
    };
    let hair = 1.0e-6;
    // 21 CFR 114.3 (b): water activity.
    let dry = limit("W109");
    assert_eq!(class(dry - hair, 7.0), ShelfClass::Dry);
    // Table B: below 0.88 without regard to pH; below pH 4.2 without regard to water.
    let unheated = limit("W114");
    assert_eq!(class(unheated - hair, 7.0), ShelfClass::Dry);
    assert_eq!(class(unheated + hair, 7.0), ShelfClass::IfHeated);
    let sour = limit("W117");
    assert_eq!(class(0.99, sour - hair), ShelfClass::Acid);
    assert_eq!(class(0.99, sour), ShelfClass::IfHeated);
    // Table B: the two rows of both together.
    assert_eq!(class(limit("W115") - hair, 5.0), ShelfClass::Acid);
    assert_eq!(class(limit("W115") - hair, 5.01), ShelfClass::IfHeated);
    assert_eq!(class(limit("W115") + hair, 5.0), ShelfClass::IfHeated);
    assert_eq!(class(limit("W116") - hair, 4.6), ShelfClass::Acid);
    assert_eq!(class(limit("W116") + hair, 4.6), ShelfClass::IfHeated);
    // Table A: what is heat-treated and packaged.
    assert_eq!(class(limit("W111") - hair, 7.0), ShelfClass::IfHeated);
    assert_eq!(class(limit("W111") + hair, 5.61), ShelfClass::Cold);
    assert_eq!(class(limit("W112") - hair, 5.6), ShelfClass::IfHeated);
    assert_eq!(class(limit("W112") + hair, 5.6), ShelfClass::Cold);
    assert_eq!(class(0.99, limit("W113")), ShelfClass::IfHeated);
    assert_eq!(class(0.99, limit("W113") + hair), ShelfClass::Cold);
}

#[test]
fn an_unknown_ph_counts_as_low_acid_and_says_so() {
    let unknown = shelf_class(&syrup(0.97), None);
    assert_eq!(unknown.class, ShelfClass::Cold);
    assert!(
        unknown
            .reasons
            .iter()
            .any(|words| words.contains("pH is not known"))
    );
    assert!(unknown.reasons.iter().any(|words| words.contains("5 °C")));
    let sour = shelf_class(&syrup(0.97), Some(2.5));
    assert_eq!(sour.class, ShelfClass::Acid);
    assert!(
        sour.reasons
            .iter()
            .all(|words| !words.contains("not known"))
    );
}

#[test]
fn more_acid_or_less_water_never_keeps_worse() {
    for step in 0..40 {
        let activity = 0.80 + 0.005 * f64::from(step);
        for ph in [3.0, 4.19, 4.2, 4.6, 4.61, 5.0, 5.1, 5.6, 5.7, 7.0] {
            let here = class(activity, ph);
            // Classes are ordered from the longest-keeping; Dry and Acid are both kept.
            let rank = |class| match class {
                ShelfClass::Strong | ShelfClass::Dry | ShelfClass::Acid => 0,
                ShelfClass::IfHeated => 1,
                ShelfClass::Cold => 2,
            };
            assert!(rank(class(activity, ph - 0.3)) <= rank(here));
            assert!(rank(class(activity - 0.01, ph)) <= rank(here));
        }
    }
}

#[test]
fn ingredients_everyone_knows_fall_where_the_kitchen_puts_them() {
    assert_eq!(of_larder("gin-london-dry").class, ShelfClass::Strong);
    assert_eq!(of_larder("lime-juice").class, ShelfClass::Acid);
    assert_eq!(of_larder("whole-milk").class, ShelfClass::Cold);
    assert_eq!(of_larder("egg-white").class, ShelfClass::Cold);
    assert_eq!(of_larder("sugar-syrup-1-1").class, ShelfClass::Cold);
    // Published: a one-to-one syrup turns cloudy in a month in the fridge, two-to-one keeps six.
    let rich = of_larder("sugar-syrup-2-1");
    assert!(rich.class < of_larder("sugar-syrup-1-1").class, "{rich:?}");
    assert_eq!(of_larder("honey").class, ShelfClass::Dry);
}

#[test]
fn strength_is_counted_without_protein_only_and_is_no_published_limit() {
    let gin = of_larder("gin-london-dry");
    assert!(
        gin.reasons.iter().any(|words| words.contains("no source")),
        "{gin:?}"
    );
    let mut flip = Composition::water(60.0);
    flip[Component::Ethanol] = 20.0;
    assert_eq!(shelf_class(&flip, None).class, ShelfClass::Strong);
    flip[Component::Protein] = 2.0;
    // Then water activity decides, which the spirit brings to about 0.91.
    let shelf = shelf_class(&flip, None);
    assert_eq!(shelf.class, ShelfClass::IfHeated);
    assert!(
        shelf
            .reasons
            .iter()
            .any(|words| words.contains("pasteurised egg"))
    );
    // Milk, egg and fresh juice carry the words whatever their class.
    for id in ["whole-milk", "egg-white", "lime-juice"] {
        let shelf = of_larder(id);
        assert!(
            shelf.reasons.iter().any(|words| words.contains("protein")),
            "{id}: {shelf:?}"
        );
    }
}

#[test]
fn every_class_has_a_reason_with_its_source_and_the_caution_defers_to_the_code() {
    for (id, item) in larder() {
        let made = contents(item).unwrap_or_else(|error| panic!("{id}: {error}"));
        let shelf = shelf_class(&made.per_gram, item.ph.map(|ph| ph.typical));
        let first = shelf
            .reasons
            .first()
            .unwrap_or_else(|| panic!("{id} has no reason"));
        let sourced = first.contains("CFR") || first.contains("Food Code");
        let dry = made.per_gram[Component::Water] <= 0.0;
        assert!(
            sourced || dry || first.contains("no source"),
            "{id}: {first}"
        );
    }
    assert!(CAUTION.contains("not a safety approval"));
    assert!(CAUTION.contains("local food code"));
    assert!(CAUTION.contains("competent person"));
    let names: std::collections::BTreeSet<_> = ShelfClass::ALL.map(ShelfClass::name).into();
    assert_eq!(
        names.len(),
        ShelfClass::ALL.len(),
        "two classes share a name"
    );
}

#[test]
fn what_holds_no_water_is_dry() {
    let mut sugar = Composition::ZERO;
    sugar[Component::Sucrose] = 100.0;
    let shelf = shelf_class(&sugar, None);
    assert_eq!(shelf.class, ShelfClass::Dry);
    assert_eq!(shelf.water_activity, None);
}
