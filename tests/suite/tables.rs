//! Tables of ingredients from spreadsheets: what is understood, and what is refused with its row.

use equipour::model::{Basis, Document, Figure, Ingredient, Place, Range, Role};
use equipour::store::{
    Column, Delimiter, End, PlainFigure, Refusal, Sheet, TableError, guess, ingredients,
    read_sheet, table_text,
};
use proptest::prelude::*;
use std::fs;

const STRENGTH: Column = Column::Range(Figure::Strength, End::Typical);
const SUGAR: Column = Column::Range(Figure::Sugar, End::Typical);

pub(crate) fn sheet(text: &str) -> Sheet {
    read_sheet(text, None, None).expect("it is a table")
}

/// Reads a table with the guessed columns into an empty document.
fn take(text: &str) -> Result<Vec<Ingredient>, Refusal> {
    let sheet = sheet(text);
    ingredients(&sheet, &guess(&sheet), &Document::default())
}

/// What is wrong with a table, row by row.
fn wrong(text: &str) -> Vec<String> {
    let refusal = take(text).expect_err("it must be refused");
    assert_eq!(refusal.count, refusal.errors.len());
    refusal.errors.iter().map(ToString::to_string).collect()
}

#[test]
fn semicolons_decimal_commas_and_a_byte_order_mark_are_understood() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("larder.csv");
    let text = "\u{feff}Name;ABV;Zucker;Sugar (g/100 ml);pH\r\n\
                Quince liqueur;24,5;;31,25;3,4\r\n\
                ;;;;\r\n\
                Pear brandy;40;;;\r\n";
    fs::write(&path, text).expect("it can be written");
    let read = sheet(&table_text(&path).expect("it reads"));
    assert_eq!(read.delimiter, Delimiter::Semicolon);
    assert!(read.decimal_comma);
    assert_eq!(read.columns.len(), 5);
    let rows: Vec<usize> = read.rows.iter().map(|row| row.number).collect();
    assert_eq!(rows, [2, 4], "blank rows are counted and left out");
    let items = ingredients(&read, &guess(&read), &Document::default()).expect("they are sound");
    assert_eq!(items[0].name, "Quince liqueur");
    assert_eq!(items[0].strength_pct_vol, Some(Range::exact(24.5)));
    assert_eq!(items[0].sugar_g, Some(Range::exact(31.25)));
    assert_eq!(items[0].ph, Some(Range::exact(3.4)));
    assert_eq!(items[1].sugar_g, None);
}

#[test]
fn delimiter_and_decimal_mark_can_be_said_instead_of_found() {
    let text = "name\tABV\nGin\t1.250\nRum\t40\n";
    let read = sheet(text);
    assert_eq!(
        (read.delimiter, read.decimal_comma),
        (Delimiter::Tab, false)
    );
    let said = read_sheet(text, Some(Delimiter::Comma), Some(true)).expect("it is a table");
    assert_eq!(
        (said.delimiter, said.decimal_comma),
        (Delimiter::Comma, true)
    );
    assert_eq!(said.columns, ["name\tABV"]);
    let said = read_sheet(text, None, Some(true)).expect("it is a table");
    let refusal = ingredients(&said, &guess(&said), &Document::default()).expect_err("a point");
    assert_eq!(
        refusal.errors[0].to_string(),
        "row 2, ABV: \"1.250\" is no number with a decimal comma, which this file is read with"
    );
}

#[test]
fn quotes_keep_delimiters_line_breaks_and_quotes_within_a_cell() {
    let items = take(
        "name,sugar,remark\n\
         \"Syrup, \"\"rich\"\"\",80,\"first line\nsecond; line\"\n\
         Plain 5\" syrup,50,\n",
    )
    .expect("they are sound");
    assert_eq!(items[0].name, "Syrup, \"rich\"");
    assert_eq!(items[0].note, "first line\nsecond; line");
    assert_eq!(items[1].name, "Plain 5\" syrup");
}

#[test]
fn a_quote_that_is_never_closed_is_named_by_its_row_instead_of_swallowing_the_rest() {
    let error = read_sheet("name,sugar,note\nA,10,\nB,10,\"oops\nC,10,\n", None, None);
    assert_eq!(
        error.expect_err("a row would be lost").to_string(),
        "row 3: a quote (\") is opened and never closed"
    );
}

#[test]
fn common_words_of_a_header_are_understood() {
    for (header, column) in [
        ("Ingredient", Some(Column::Name)),
        ("ABV", Some(STRENGTH)),
        ("Alc. % vol", Some(STRENGTH)),
        ("% vol", Some(STRENGTH)),
        ("max. ABV", Some(Column::Range(Figure::Strength, End::High))),
        (
            "abv_pct_low",
            Some(Column::Range(Figure::Strength, End::Low)),
        ),
        ("Sugars (g/100ml)", Some(SUGAR)),
        ("°Brix", Some(Column::Brix)),
        ("°Bx", Some(Column::Brix)),
        ("pH", Some(Column::Range(Figure::Ph, End::Typical))),
        (
            "Citric acid",
            Some(Column::Range(Figure::Citric, End::Typical)),
        ),
        ("Acid basis", Some(Column::AcidBasis)),
        (
            "src_abv",
            Some(Column::Source(equipour::model::FigureGroup::Strength)),
        ),
        ("co2_g_per_l", Some(Column::Plain(PlainFigure::Co2))),
        ("Price", Some(Column::Plain(PlainFigure::PackPrice))),
        ("Bottle size", Some(Column::Plain(PlainFigure::PackSize))),
        ("Type", Some(Column::Kind)),
        ("Shelf", None),
        ("", None),
    ] {
        assert_eq!(
            guess(&sheet(&format!("x;{header};y")))[1],
            column,
            "{header}"
        );
    }
}

#[test]
fn figures_in_other_units_are_not_guessed() {
    for header in [
        "Sugar g/L",
        "sugar (g per litre)",
        "Proof strength",
        "Acid mg/100 ml",
    ] {
        assert_eq!(guess(&sheet(&format!("x;{header};y")))[1], None, "{header}");
    }
}

#[test]
fn no_meaning_is_guessed_twice_and_our_own_header_comes_first() {
    let read = sheet("Product;ABV;alcohol;name;Name\n");
    let guessed = guess(&read);
    assert_eq!(
        guessed,
        [None, Some(STRENGTH), None, Some(Column::Name), None]
    );
}

#[test]
fn a_typical_value_alone_is_the_whole_range_and_a_blank_end_takes_it() {
    let items = take(
        "name,strength low (% vol),strength typical (% vol),strength high (% vol),pH low,pH high\n\
         A,,40,,3,4\nB,35,40,,,3.5\n",
    )
    .expect("they are sound");
    assert_eq!(items[0].strength_pct_vol, Some(Range::exact(40.0)));
    let ph = items[0].ph.expect("a pH");
    assert_eq!((ph.low, ph.typical, ph.high), (3.0, 3.5, 4.0));
    let strength = items[1].strength_pct_vol.expect("a strength");
    assert_eq!((strength.low, strength.high), (35.0, 40.0));
    assert_eq!(items[1].ph, Some(Range::exact(3.5)));
}

#[test]
fn words_and_degrees_brix_are_read_as_what_they_mean() {
    let items = take(
        "name;role;°Bx;place;retired;flavour words\nSyrup;Sweet;65;Fridge;yes;\"warm ; caramel;\";\n",
    );
    // The last blank cell stands right of the header and is no cell at all.
    let items = items.expect("they are sound");
    assert_eq!(items[0].role, Role::Sweet);
    assert_eq!(items[0].basis, Basis::Per100G);
    assert_eq!(items[0].sugar_g, Some(Range::exact(65.0)));
    assert_eq!(items[0].place, Place::Fridge);
    assert!(items[0].retired);
    assert_eq!(items[0].notes, ["warm", "caramel"]);
    let says = wrong("name;°Bx;ABV;basis\nLiqueur;30;20;\nSyrup;65;;per 100 ml\n");
    assert_eq!(
        says,
        [
            "row 2, °Bx: alcohol falsifies °Bx: give the grams of sugar",
            "row 3, °Bx: counts per 100 g, but the basis is per 100 ml",
        ]
    );
}

#[test]
fn every_bad_row_is_listed_with_column_and_reason() {
    let says = wrong(
        "Name,Role,ABV min,ABV,Sugar,Citric,Price,Pack size\n\
         ,base,,40,,,,\n\
         Gin,spirit,,forty,,,,\n\
         Rum,,45,40,,,,\n\
         Syrup,,,,-5,,,\n\
         Brick,,,,400,,,\n\
         Lime,,,,,99,,\n\
         Vodka,,,40,,,12,\n\
         Vodka lite,,38,,,,,\n\
         Ghost,,,,,,,\n\
         Wide,,,40,,,,,extra\n\
         Good,,,40,,,,\n",
    );
    assert_eq!(
        says,
        [
            "row 2, Name: is blank",
            "row 3, Role: \"spirit\" is none of base, modifier, sweet, sour, body, aroma, length, \
             seasoning, other",
            "row 3, ABV: \"forty\" is no number",
            "row 4, ABV: low 45 is above typical 40",
            "row 5, Sugar: -5 is negative",
            "row 6, Sugar: 400 is above 159, g per 100 ml, solid sugar",
            "row 7, Citric: 99 is above 80, about what dissolves in 100 ml at 20 °C",
            "row 8, Price: a price needs the size of its pack",
            "row 9, ABV: is missing: low and high alone say no working value",
            "row 10: no figure says what is in it; for water give 100 g of water",
            "row 11: \"extra\" stands right of the last column",
        ]
    );
}

#[test]
fn figures_that_cannot_belong_together_are_refused_with_their_row() {
    let says = wrong("name,basis,sugar,fat\nGood,per 100 g,50,1\nFull,per 100 g,80,40\n");
    assert_eq!(
        says,
        ["row 3: Full: its parts add up to 120.0 g in 100 g, without any water"]
    );
}

#[test]
fn a_table_without_names_or_with_one_meaning_twice_is_refused_as_a_whole() {
    let read = sheet("a,b\nGin,40\n");
    let says = |columns: &[Option<Column>]| {
        let refusal = ingredients(&read, columns, &Document::default()).expect_err("refused");
        refusal.errors[0].to_string()
    };
    assert_eq!(
        says(&[None, Some(STRENGTH)]),
        "row 1: no column is chosen for the name"
    );
    assert_eq!(
        says(&[Some(Column::Name), Some(Column::Name)]),
        "row 1, b: name is chosen for \"a\" already"
    );
}

#[test]
fn of_very_many_reasons_two_hundred_are_listed_and_all_are_counted() {
    let rows = "x,much\n".repeat(1_000);
    let refusal = take(&format!("name,ABV\n{rows}")).expect_err("refused");
    assert_eq!(refusal.errors.len(), 200);
    assert_eq!(refusal.count, 1_000 + 999);
    assert_eq!(refusal.good_rows, 0);
}

#[test]
fn two_hundred_thousand_rows_are_refused_without_reading_them_all() {
    let row = "Gin,40\n";
    // The quote in the last row would be another error: it is never reached.
    let text = format!("name,ABV\n{}\"", row.repeat(200_000));
    assert!(matches!(
        read_sheet(&text, None, None),
        Err(TableError::TooLong)
    ));
    let said = TableError::TooLong.to_string();
    assert!(said.starts_with("has more than 5000 rows"), "{said}");
    let just_enough = format!("name,ABV\n{}", row.repeat(5_000));
    assert_eq!(sheet(&just_enough).rows.len(), 5_000);
}

#[test]
fn what_is_no_table_of_text_says_so() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("larder.csv");
    let said = |bytes: &[u8]| {
        fs::write(&path, bytes).expect("it can be written");
        let read = table_text(&path).and_then(|text| read_sheet(&text, None, None));
        read.expect_err("it must be refused").to_string()
    };
    assert_eq!(
        said(b"name\nCr\xE8me\n"),
        "line 2: is not UTF-8 text; save it as UTF-8"
    );
    assert_eq!(
        said(b"\n \n"),
        "is empty; its first row must name the columns"
    );
    assert_eq!(said(b""), "is empty; its first row must name the columns");
    assert_eq!(
        said(",".repeat(500).as_bytes()),
        "row 1: has more than 200 cells"
    );
    let file = fs::File::create(&path).expect("it can be made");
    file.set_len(40 * 1_048_576).expect("it can be stretched");
    let said = table_text(&path).expect_err("too large").to_string();
    assert_eq!(said, "is 40.0 MB; files above 32 MB are refused");
}

proptest! {
    #![proptest_config(ProptestConfig {
        cases: 256,
        failure_persistence: None,
        ..ProptestConfig::default()
    })]

    #[test]
    fn no_text_whatever_brings_the_reader_down(
        text in prop_oneof![
            any::<String>(),
            "[a-c0-9,.;\\t\"\n\r'= %-]{0,200}",
            "(name|ABV|sugar|pH|°Bx|[,;\n]|40|3,5){0,60}",
        ],
        delimiter in prop::sample::select(vec![None, Some(Delimiter::Tab), Some(Delimiter::Comma)]),
        comma in any::<Option<bool>>(),
        turn in 0..60_usize,
    ) {
        if let Ok(sheet) = read_sheet(&text, delimiter, comma) {
            let _guessed = ingredients(&sheet, &guess(&sheet), &Document::default()).is_ok();
            // Any meaning at any column.
            let all = Column::all();
            let any = (0..sheet.columns.len()).map(|place| all.get((place + turn) % 70).copied());
            let any: Vec<Option<Column>> = any.collect();
            let refused = ingredients(&sheet, &any, &Document::default()).is_err();
            prop_assert!(refused || any.contains(&Some(Column::Name)));
        }
    }

    #[test]
    fn rows_are_cut_as_the_csv_crate_cuts_what_it_wrote(
        rows in prop::collection::vec(prop::collection::vec("[a\",;\r\n ]{0,6}", 3), 1..8),
    ) {
        let mut writer = csv::Writer::from_writer(Vec::new());
        writer.write_record(["x", "y", "z"]).expect("it writes");
        for row in &rows {
            writer.write_record(row).expect("it writes");
        }
        let text = String::from_utf8(writer.into_inner().expect("bytes")).expect("text");
        let read = read_sheet(&text, Some(Delimiter::Comma), None).expect("it is a table");
        let cells: Vec<&Vec<String>> = read.rows.iter().map(|row| &row.cells).collect();
        let blank = |row: &&Vec<String>| row.iter().any(|cell| !cell.trim().is_empty());
        let expected: Vec<&Vec<String>> = rows.iter().filter(blank).collect();
        prop_assert_eq!(cells, expected);
    }
}
