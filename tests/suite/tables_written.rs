//! Ingredients written as a table read back as the same.

use crate::sample_drinks::{SHAKEN, builtin, document, lot, sour};
use equipour::model::{
    AcidBasis, Acids, Basis, Confidence, Density, Document, Ingredient, Origin, Place, Price,
    PureAcid, Range, Role, Sources, SugarSplit, holds_allergen,
};
use equipour::store::{
    ExportError, exported, guess, ingredients, read_sheet, save_table, write_table,
};
use proptest::prelude::*;
use std::fs;
use std::sync::Arc;

/// What a written table reads back as.
fn back<'a>(items: impl IntoIterator<Item = &'a Ingredient>) -> Vec<Ingredient> {
    let text = write_table(items).expect("it writes");
    let sheet = read_sheet(&text, None, None).expect("it is a table");
    assert!(
        guess(&sheet).iter().all(Option::is_some),
        "a header is not known"
    );
    ingredients(&sheet, &guess(&sheet), &Document::default()).expect("they are sound")
}

fn own(item: &Ingredient) -> Ingredient {
    Ingredient {
        origin: Origin::Own,
        ..item.clone()
    }
}

#[test]
fn the_whole_built_in_larder_reads_back_as_it_was() {
    let larder: Vec<Ingredient> = builtin().larder.values().map(|item| own(item)).collect();
    assert!(larder.len() > 200);
    assert_eq!(back(&larder), larder);
}

#[test]
fn changed_figures_read_back_as_they_were() {
    let larder: Vec<Ingredient> = builtin()
        .larder
        .values()
        .map(|item| {
            let mut item = own(item);
            // Numbers without a short decimal form.
            item.water_g = item.water_g.map(|water| water / 3.0);
            item.bitter_per_ml = Some(0.1 + 0.2);
            item.piece_g = Some(f64::from_bits(1.0_f64.to_bits() + 1));
            item.price = Some(Price {
                pack_price: 100.0 / 7.0,
                pack_size: 700.0,
                pack_is_mass: item.basis == Basis::Per100G,
            });
            item.place = Place::Freezer;
            item.retired = true;
            item
        })
        .collect();
    assert_eq!(back(&larder), larder);
}

#[test]
fn texts_that_begin_like_formulas_are_kept_from_spreadsheets_and_come_back() {
    for text in [
        "=1+1",
        "+1",
        "-1",
        "@now",
        "\tx",
        "\rx",
        "'=1",
        "''@x",
        "'tis fine",
        "plain = text",
    ] {
        let item = Ingredient {
            name: text.to_owned(),
            note: text.to_owned(),
            strength_pct_vol: Some(Range::exact(40.0)),
            ..Ingredient::default()
        };
        let written = write_table([&item]).expect("it writes");
        let sheet = read_sheet(&written, None, None).expect("it is a table");
        for cell in &sheet.rows[0].cells {
            assert!(
                !cell.starts_with(['=', '+', '-', '@', '\t', '\r']),
                "{cell:?}"
            );
        }
        assert_eq!(back([&item]), [item]);
    }
}

#[test]
fn rows_of_lots_are_written_only_when_asked_for() {
    let mut document = document(sour(), SHAKEN, None);
    let mut batch = document.ingredients[&"lime-juice".into()].as_ref().clone();
    batch.name = "lime juice, Monday".to_owned();
    Arc::make_mut(&mut document.ingredients).insert("lime-monday".into(), Arc::new(batch));
    let lot = lot("Monday", "lime-monday", "lime-juice");
    Arc::make_mut(&mut document.lots).insert("monday".into(), lot);
    let names = |lots| -> Vec<&str> {
        exported(&document, lots)
            .map(|item| item.name.as_str())
            .collect()
    };
    assert!(!names(false).contains(&"lime juice, Monday"));
    assert!(names(true).contains(&"lime juice, Monday"));
    assert_eq!(names(true).len(), names(false).len() + 1);
}

#[test]
fn a_file_there_is_replaced_only_when_asked_and_only_if_it_is_such_a_table() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("larder.csv");
    let first = document(sour(), SHAKEN, None);
    save_table(&first, false, &path, false).expect("nothing is there");
    let text = fs::read_to_string(&path).expect("it is there");
    let mut second = first.clone();
    Arc::make_mut(&mut second.ingredients).pop_first();
    let refused = save_table(&second, false, &path, false);
    assert!(matches!(refused, Err(ExportError::Exists)));
    assert_eq!(fs::read_to_string(&path).expect("it is there"), text);
    save_table(&second, false, &path, true).expect("asked for");
    let kept = fs::read_to_string(folder.path().join("larder.csv.bak"));
    assert_eq!(kept.expect("the old one is kept"), text);
    fs::write(&path, "name,ABV\nmine,40\n").expect("it can be written");
    let refused = save_table(&second, false, &path, true);
    assert!(matches!(refused, Err(ExportError::Foreign)));
    let theirs = fs::read_to_string(&path).expect("it is there");
    assert_eq!(theirs, "name,ABV\nmine,40\n");
    let refused = save_table(&second, false, &folder.path().join("no/x.csv"), false);
    assert!(matches!(refused, Err(ExportError::Save(_))));
}

#[test]
fn commas_between_allergens_or_flavour_words_become_what_the_editor_makes_of_them() {
    let item = Ingredient {
        name: "orgeat".to_owned(),
        allergens: "Tree nuts (almond, apricot), milk".to_owned(),
        notes: vec!["almond, bitter".to_owned(), "rose; water".to_owned()],
        strength_pct_vol: Some(Range::exact(1.0)),
        ..Ingredient::default()
    };
    let read = back([&item]);
    assert_eq!(read[0].allergens, "Tree nuts (almond, apricot); milk");
    assert_eq!(read[0].notes, ["almond", "bitter", "rose", "water"]);
    assert_eq!(back(&read), read, "once more changes nothing");
    assert!(holds_allergen(&read[0].allergens, "tree nuts"));
    let terms: Vec<&str> = read[0].allergen_terms().collect();
    assert_eq!(terms, item.allergen_terms().collect::<Vec<_>>());
}

/// A text without blanks around it.
fn any_text() -> impl Strategy<Value = String> {
    prop_oneof![Just(String::new()), any::<String>(), "[='@+a\",;\n-]{0,8}",]
        .prop_map(|text| text.trim().to_owned())
}

fn any_range(most: f64) -> impl Strategy<Value = Option<Range>> {
    prop::option::of((0.0..most, 0.0..most, 0.0..most).prop_map(|(a, b, c)| {
        let mut ends = [a, b, c];
        ends.sort_by(f64::total_cmp);
        Range {
            low: ends[0],
            typical: ends[1],
            high: ends[2],
        }
    }))
}

prop_compose! {
    /// A liquid of any figures small enough to belong together.
    fn any_ingredient()(
        name in any_text(),
        texts in prop::array::uniform9(any_text()),
        notes in prop::collection::vec("[a-z=+@'][a-z ]{0,6}[a-z]", 0..4),
        ranges in prop::array::uniform9(any_range(3.0)),
        ph in any_range(7.0),
        strength in any_range(20.0),
        figures in prop::array::uniform14(prop::option::of(0.0..2.0_f64)),
        density in prop::option::of((0.9..1.2_f64, any::<bool>())),
        price in prop::option::of((0.0..1.0e6_f64, 0.0..1.0e6_f64, any::<bool>())),
        words in (0..9_usize, 0..3_usize, 0..3_usize, 0..5_usize),
        flags in prop::array::uniform3(any::<bool>()),
    ) -> Ingredient {
        let [kind, allergens, note, s1, s2, s3, s4, s5, s6] = texts;
        let [citric, malic, tartaric, acetic, lactic, phosphoric, ascorbic, succinic, sugar_g] =
            ranges;
        let [sucrose_g, glucose_g, fructose_g, lactose_g, maltose_g, fat_g, protein_g, salt_g,
            gum_g, starch_g, glycerol_g, piece_g, co2_g_per_l, bitter_per_ml] = figures;
        let acids = [None, Some(PureAcid::Citric), Some(PureAcid::Malic),
            Some(PureAcid::Tartaric), Some(PureAcid::Ascorbic)];
        Ingredient {
            name: format!("x{name}"), kind, note,
            // Commas between allergens become semicolons.
            allergens: allergens.replace(',', " ").trim().to_owned(), notes, fat_g, protein_g, salt_g, gum_g,
            starch_g, glycerol_g, piece_g, co2_g_per_l, bitter_per_ml, sugar_g,
            role: Role::ALL[words.0],
            basis: if flags[0] { Basis::Per100G } else { Basis::Per100Ml },
            strength_pct_vol: strength,
            split: SugarSplit { sucrose_g, glucose_g, fructose_g, lactose_g, maltose_g },
            acids: Acids {
                citric, malic, tartaric, acetic, lactic, phosphoric, ascorbic, succinic },
            acid_basis: if flags[1] { AcidBasis::Total } else { AcidBasis::Titrated },
            ph: ph.map(|ph| Range { low: ph.low + 2.0, typical: ph.typical + 2.0, high: ph.high + 2.0 }),
            water_g: Some(60.0),
            pure_acid: acids[words.3],
            density: density.map(|(g_per_ml, measured)| Density { g_per_ml, measured }),
            price: price.map(|(pack_price, pack_size, pack_is_mass)| Price {
                pack_price, pack_size, pack_is_mass }),
            sources: Sources { strength: s1, sugar: s2, acid: s3, ph: s4, density: s5, other: s6 },
            place: Place::ALL[words.1],
            retired: flags[2],
            confidence: [Confidence::High, Confidence::Medium, Confidence::Low][words.2],
            origin: Origin::Own,
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig {
        cases: 256,
        failure_persistence: None,
        ..ProptestConfig::default()
    })]

    #[test]
    fn whatever_stands_in_an_ingredient_reads_back_as_it_was(item in any_ingredient()) {
        prop_assert_eq!(back([&item]), [item]);
    }
}
