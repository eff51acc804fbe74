//! The built-in data: complete, unique, closed under its own references, and every figure with a source.

use std::collections::{BTreeMap, BTreeSet};

/// One row as column name → cell.
type Row = BTreeMap<String, String>;

const DIR: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/sample_data/");
const FILES: [&str; 7] = [
    "larder.csv",
    "classics.csv",
    "classic_pours.csv",
    "technique_ranges.csv",
    "families.csv",
    "sensory.csv",
    "standard_drinks.csv",
];
const ROLES: [&str; 9] = [
    "base",
    "modifier",
    "sweet",
    "sour",
    "body",
    "aroma",
    "length",
    "seasoning",
    "none",
];
const UNITS: [&str; 13] = [
    "ml",
    "bar spoon",
    "teaspoon",
    "dash",
    "drop",
    "drops",
    "piece",
    "cube",
    "leaf",
    "slice",
    "pinch",
    "splash",
    "shot",
];

fn read(file: &str) -> Vec<Row> {
    let mut reader = csv::ReaderBuilder::new()
        .comment(Some(b'#'))
        .from_path(format!("{DIR}{file}"))
        .unwrap_or_else(|error| panic!("{file}: {error}"));
    let headers = reader.headers().expect("a header row").clone();
    reader
        .records()
        .map(|record| {
            let record = record.unwrap_or_else(|error| panic!("{file}: {error}"));
            let cells = headers.iter().zip(record.iter());
            cells.map(|(k, v)| (k.to_owned(), v.to_owned())).collect()
        })
        .collect()
}

fn number(row: &Row, column: &str) -> Option<f64> {
    let cell = row
        .get(column)
        .unwrap_or_else(|| panic!("no column {column}"));
    if cell.is_empty() {
        return None;
    }
    let value: f64 = cell
        .parse()
        .unwrap_or_else(|_| panic!("{column}: `{cell}` is not a number in {row:?}"));
    assert!(value.is_finite() && value >= 0.0, "{column}: {cell}");
    Some(value)
}

fn ids(rows: &[Row], file: &str) -> BTreeSet<String> {
    let ids: BTreeSet<String> = rows.iter().map(|row| row["id"].clone()).collect();
    assert_eq!(ids.len(), rows.len(), "{file}: an id stands twice");
    for id in &ids {
        let kebab = id.split('-').all(|part| {
            !part.is_empty()
                && part
                    .bytes()
                    .all(|b| b.is_ascii_lowercase() || b.is_ascii_digit())
        });
        assert!(kebab, "{file}: `{id}` is not kebab-case");
    }
    ids
}

/// Keys such as `SR28` of the marks `a:SR28` in a cell.
fn source_keys(cell: &str) -> Vec<String> {
    let bytes = cell.as_bytes();
    let mut keys = Vec::new();
    for (at, _) in cell.match_indices(':') {
        let class = at > 0 && matches!(bytes[at - 1], b'a' | b'b' | b'c');
        let starts_word = at < 2 || !bytes[at - 2].is_ascii_alphanumeric();
        let key: String = cell[at + 1..]
            .chars()
            .take_while(|c| c.is_ascii_alphanumeric() || *c == '-')
            .collect();
        if class && starts_word && !key.is_empty() {
            keys.push(key);
        }
    }
    keys
}

fn assert_ordered(row: &Row, columns: &[String; 3]) {
    let values: Vec<f64> = columns.iter().filter_map(|c| number(row, c)).collect();
    assert!(
        values.windows(2).all(|pair| pair[0] <= pair[1]),
        "low, typical, high out of order in {columns:?}: {values:?} of {row:?}"
    );
}

#[test]
fn the_larder_and_the_classics_are_large_enough_and_their_ids_unique() {
    let larder = read("larder.csv");
    let classics = read("classics.csv");
    assert!(larder.len() >= 150, "{} ingredients", larder.len());
    assert!(classics.len() >= 46, "{} classics", classics.len());
    ids(&larder, "larder.csv");
    ids(&classics, "classics.csv");
    let families = read("families.csv");
    ids(&families, "families.csv");
    for row in &larder {
        assert!(ROLES.contains(&row["role"].as_str()), "role of {row:?}");
        assert!(["per_100g", "per_100ml"].contains(&row["basis"].as_str()));
        assert!(["high", "medium", "low"].contains(&row["confidence"].as_str()));
    }
}

#[test]
fn every_classic_pour_names_a_classic_and_an_ingredient() {
    let ingredients = ids(&read("larder.csv"), "larder.csv");
    let classics = ids(&read("classics.csv"), "classics.csv");
    let mut poured = BTreeSet::new();
    for row in read("classic_pours.csv") {
        assert!(classics.contains(&row["classic_id"]), "{row:?}");
        assert!(ingredients.contains(&row["ingredient_id"]), "{row:?}");
        assert!(UNITS.contains(&row["unit"].as_str()), "{row:?}");
        assert!(["with", "after", "rinse"].contains(&row["added"].as_str()));
        for column in ["amount", "ml", "g"] {
            number(&row, column);
        }
        poured.insert(row["classic_id"].clone());
    }
    assert_eq!(poured, classics, "a classic has no pours");
}

#[test]
fn every_family_can_be_poured_from_the_larder() {
    let ingredients = ids(&read("larder.csv"), "larder.csv");
    for row in read("families.csv") {
        let mut poured = BTreeSet::new();
        for pour in row["pours"].split(';') {
            let (id, amount) = pour.split_once('=').expect("id=ml");
            assert!(ingredients.contains(id), "{id} of {row:?}");
            assert!(amount.parse::<f64>().is_ok_and(|ml| ml > 0.0), "{row:?}");
            poured.insert(id);
        }
        let mut after = row["after"].split(';').filter(|id| !id.is_empty());
        assert!(after.all(|id| poured.contains(id)), "{row:?}");
    }
}

#[test]
fn every_source_key_is_explained() {
    let sources = std::fs::read_to_string(format!("{DIR}SOURCES.md")).expect("SOURCES.md");
    let mut seen = BTreeSet::new();
    for file in FILES {
        for row in read(file) {
            for (column, cell) in &row {
                let is_source = column == "source" || column.starts_with("src_");
                if !is_source || cell.is_empty() {
                    continue;
                }
                let keys = source_keys(cell);
                assert!(!keys.is_empty(), "{file} {column}: `{cell}` names no key");
                seen.extend(keys);
            }
        }
    }
    assert!(seen.len() > 30, "only {} keys found", seen.len());
    for key in seen {
        assert!(
            sources.contains(&format!("| `{key}` |")),
            "{key} is missing"
        );
    }
}

#[test]
fn low_typical_and_high_stand_in_order() {
    let acids = [
        "citric",
        "malic",
        "tartaric",
        "acetic",
        "lactic",
        "phosphoric",
    ];
    let mut stems: Vec<String> = vec!["abv_pct".into(), "sugar_g".into()];
    stems.extend(acids.map(|acid| format!("{acid}_g_per_100ml")));
    for row in read("larder.csv") {
        for stem in &stems {
            assert_ordered(
                &row,
                &["low", "typ", "high"].map(|end| format!("{stem}_{end}")),
            );
            let range = number(&row, &format!("{stem}_low")).is_some();
            let typical = number(&row, &format!("{stem}_typ")).is_some();
            assert!(
                typical || !range,
                "a range without a typical value: {row:?}"
            );
        }
        let ph = [number(&row, "ph_low"), number(&row, "ph_high")];
        assert!(ph[0] <= ph[1] && ph[0].is_some() == ph[1].is_some());
    }
    for file in ["technique_ranges.csv", "sensory.csv"] {
        for row in read(file) {
            assert_ordered(&row, &["low", "typical", "high"].map(String::from));
        }
    }
}

#[test]
fn every_figure_of_the_larder_has_a_source() {
    // Which columns each source column answers for, by the start of their names.
    let groups: [(&str, &[&str]); 11] = [
        ("src_abv", &["abv_"]),
        (
            "src_sugar",
            &[
                "sugar_g",
                "sucrose_g",
                "glucose_g",
                "fructose_g",
                "lactose_g",
                "maltose_g",
            ],
        ),
        (
            "src_acid",
            &[
                "citric_",
                "malic_",
                "tartaric_",
                "acetic_",
                "lactic_",
                "phosphoric_",
            ],
        ),
        ("src_ph", &["ph_"]),
        ("src_density", &["density_"]),
        ("src_other", &["fat_g", "protein_g", "water_g"]),
        ("src_bitter", &["bitter_per_ml"]),
        ("src_co2", &["co2_g_per_l"]),
        ("src_salt", &["salt_g"]),
        ("src_gum", &["gum_g"]),
        ("src_starch", &["starch_g"]),
    ];
    for row in read("larder.csv") {
        for (source, stems) in &groups {
            let filled = row.keys().any(|column| {
                stems.iter().any(|stem| column.starts_with(stem)) && number(&row, column).is_some()
            });
            assert!(!filled || !row[*source].is_empty(), "{source} of {row:?}");
        }
        let acid = row["src_acid"].is_empty() || row["kind"] == "acid powder";
        assert!(acid || !row["acid_basis"].is_empty(), "basis of {row:?}");
    }
}

#[test]
fn stated_parts_leave_room_for_water() {
    let parts = [
        "sugar_g_typ",
        "fat_g",
        "protein_g",
        "salt_g",
        "gum_g",
        "starch_g",
    ];
    for row in read("larder.csv") {
        let dry: f64 = parts.iter().filter_map(|c| number(&row, c)).sum();
        let ethanol = number(&row, "abv_pct_typ").unwrap_or(0.0) * 0.78924;
        let density = number(&row, "density_g_per_ml").unwrap_or(1.0);
        let total = match row["basis"].as_str() {
            "per_100g" => dry + ethanol / density,
            _ => (dry + ethanol) / density,
        };
        assert!(total <= 100.0, "{}: {total} g without water", row["id"]);
        assert!((0.78..1.75).contains(&density), "{}: {density}", row["id"]);
    }
}
