//! The larder as rows of a table, and what a row comes to.

use equipour::balance::Pantry;
use equipour::model::{Density, Document, Ingredient, Range};
use equipour::session::{
    LarderColumn, LarderPlace, LarderQuery, LarderRow, arranged, comes_to, larder_rows, uses_of,
};
use equipour::store::{Builtin, DEMO, read_text};

fn demo() -> (Document, Builtin) {
    let document = read_text(DEMO).expect("the demo reads").document;
    (document, Builtin::load().expect("the larder reads"))
}

fn rows() -> Vec<LarderRow> {
    let (document, builtin) = demo();
    larder_rows(&document, &builtin, &mut Pantry::default())
}

#[test]
fn every_row_counts_the_same_users_that_are_listed_for_it() {
    let (document, builtin) = demo();
    let rows = larder_rows(&document, &builtin, &mut Pantry::default());
    for row in &rows {
        assert_eq!(row.uses, uses_of(&document, &row.id).len(), "{}", row.id);
    }
    assert!(rows.iter().any(|row| row.uses > 1));
}

#[test]
fn a_built_in_row_gives_way_to_the_documents_copy() {
    let rows = rows();
    for row in &rows {
        let alike = rows.iter().filter(|other| other.id == row.id);
        assert_eq!(alike.count(), 1, "{}", row.id);
    }
    let lemon = rows.iter().find(|row| row.id.0 == "lemon-juice");
    assert_eq!(lemon.expect("lemon").place, LarderPlace::Document);
}

#[test]
fn rows_without_a_figure_come_last_either_way() {
    let rows = rows();
    for descending in [false, true] {
        for column in [LarderColumn::Ph, LarderColumn::Price, LarderColumn::Acid] {
            let query = LarderQuery {
                sort: column,
                descending,
                ..LarderQuery::default()
            };
            let found: Vec<Option<f64>> = arranged(&rows, &query)
                .into_iter()
                .map(|place| rows[place].figure(column))
                .collect();
            assert_eq!(found.len(), rows.len());
            let known: Vec<f64> = found.iter().copied().flatten().collect();
            assert!(found[known.len()..].iter().all(Option::is_none));
            let order = |a: &f64, b: &f64| if descending { a >= b } else { a <= b };
            assert!(known.is_sorted_by(order), "{column:?} {known:?}");
        }
    }
}

#[test]
fn a_spirit_comes_to_the_density_of_the_alcohol_tables() {
    // OIML R 22 (1975) at 20 °C: 40 % vol has 948.045 kg/m³; row V021 of reference/oiml_r22_checks.csv,
    // worked out from its coefficients.
    let spirit = Ingredient {
        name: "spirit".to_owned(),
        strength_pct_vol: Some(Range::exact(40.0)),
        ..Ingredient::default()
    };
    let found = comes_to(&spirit).expect("it is whole");
    assert!(
        (found.density_g_per_ml - 0.948_045).abs() < 1e-5,
        "{found:?}"
    );
    assert!((found.strength_pct_vol - 40.0).abs() < 1e-3);
    assert_eq!(found.by_composition_g_per_ml, None);
    let measured = Ingredient {
        density: Some(Density {
            g_per_ml: 0.98,
            measured: true,
        }),
        ..spirit
    };
    let found = comes_to(&measured).expect("it is whole");
    assert_eq!(
        found
            .by_composition_g_per_ml
            .map(|alone| (alone * 1e4).round()),
        Some(9480.0)
    );
    assert!((found.density_g_per_ml - 0.98).abs() < 1e-9);
}
