//! Figures and ingredients of a sheet as tables for a spreadsheet.

use super::export_kit::{HOSTILE, all_of};
use equipour::sheet::{FigureLine, Recipe, TextTable, figures_table, ingredients_table};
use equipour::store::{PlainTable, write_plain_table};

fn written(table: TextTable) -> String {
    let table = PlainTable {
        heads: table.heads,
        rows: table.rows,
    };
    write_plain_table(&table).expect("it can be written")
}

fn figure(value: &str) -> Recipe {
    Recipe {
        figures: vec![FigureLine {
            name: "figure".to_owned(),
            value: value.to_owned(),
            note: String::new(),
        }],
        ..Recipe::default()
    }
}

#[test]
fn numbers_and_units_stand_apart() {
    for (said, value, unit) in [
        ("82.0 g/L", "82.0", "g/L"),
        ("\u{2212}5.4 °C", "-5.4", "°C"),
        ("14.6 % vol", "14.6", "% vol"),
        ("4.1", "4.1", ""),
        ("24 to 26 °C", "24 to 26 °C", ""),
        ("about 3", "about 3", ""),
        ("inf", "inf", ""),
        ("–", "–", ""),
    ] {
        let table = figures_table(&figure(said));
        assert_eq!(
            ["figure", value, unit, ""].to_vec(),
            table.rows[0],
            "{said}"
        );
    }
}

#[test]
fn a_number_below_zero_stays_a_number_and_a_formula_becomes_text() {
    let cold = written(figures_table(&figure("\u{2212}5.4 °C")));
    assert!(cold.contains("figure,-5.4,°C,"), "{cold}");
    for formula in ["=1+1", "-2+3", "+cmd|x", "@sum(a1)"] {
        let text = written(figures_table(&figure(formula)));
        assert!(text.contains(&format!("'{formula}")), "{text}");
    }
}

#[test]
fn every_row_has_a_cell_for_every_head() {
    for text in HOSTILE {
        for table in [
            figures_table(&all_of(text)),
            ingredients_table(&all_of(text)),
        ] {
            assert_eq!(2, table.rows.len());
            let width = table.heads.len();
            assert!(table.rows.iter().all(|row| row.len() == width));
            let text = written(table.clone());
            let mut reader = csv::Reader::from_reader(text.as_bytes());
            for record in reader.records() {
                let record = record.expect("a record");
                assert_eq!(width, record.len());
                let formula = |cell: &str| cell.starts_with(['=', '+', '@', '\t', '\n', '\r']);
                assert!(!record.iter().any(formula), "{record:?}");
            }
        }
    }
}
