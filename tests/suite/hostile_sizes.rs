//! Inputs that are huge, deep, dense or circular: each is refused with its reason or handled, and none
//! takes more than 300 MB.

use crate::hostile_child::{Kind, opened, told};
use crate::house_made::{combined, from_preparation, input, larder, put_preparation};
use equipour::model::Quantity;
use equipour::store::document_text;
use image::{ImageFormat, RgbImage};
use std::fs::File;
use std::io::Cursor;

const DRINK: &str = include_str!("../fuzz/seeds/document/drink.ron");
const HOUSE: &str = include_str!("../fuzz/seeds/document/house.ron");
const LOTS: &str = include_str!("../fuzz/seeds/document/lots.ron");
const RULES: &str = include_str!("../../sample_data/rule_sets/saltmarsh.ron");
const POUR: &str = "(source:Ingredient(\"lemon-juice\"),amount:Ml(1.0),unit:Ml,added:With,role:Sour,locked:false),";

/// A text with one piece replaced; the piece must be there.
fn with(text: &str, from: &str, to: &str) -> String {
    assert!(text.contains(from), "{from} is not in the text");
    text.replacen(from, to, 1)
}

fn assert_says(said: &str, parts: &[&str]) {
    assert!(parts.iter().all(|part| said.contains(part)), "{said}");
}

#[test]
fn a_file_of_100_mb_is_refused_by_its_size() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("huge");
    let file = File::create(&path).expect("a file");
    file.set_len(100 << 20).expect("room");
    for (kind, most) in [
        (Kind::Document, "above 32 MB"),
        (Kind::Table, "above 32 MB"),
        (Kind::Rules, "above 32 MB"),
        (Kind::Recipe, "above 4 MB"),
    ] {
        assert_says(&opened(kind, &path), &["is 100.0 MB", most]);
    }
}

#[test]
fn a_document_as_large_as_a_file_may_be_opens_within_the_limit() {
    let start = DRINK
        .find("          (\n            id: 8,")
        .expect("a trial");
    let end = DRINK[start..]
        .find("\n          ),\n        ],\n")
        .expect("its end")
        + start
        + 13;
    let trial = &DRINK[start..end];
    let room = (32 << 20) - DRINK.len();
    let many = 9_900;
    let words = "x".repeat(room / many - trial.len() - 8);
    let trial = with(trial, "reason: \"", &format!("reason: \"{words}"));
    let mut trials = String::with_capacity(room);
    for number in 0..many {
        trials += &trial.replacen("id: 8,", &format!("id: {},", 100 + number), 1);
    }
    let text = with(DRINK, &DRINK[start..end], &trials);
    let text = with(&text, "next_number: 20", "next_number: 900000");
    assert_eq!(
        told(Kind::Document, text),
        format!("{many} trials, 0 preparations")
    );
}

#[test]
fn a_million_pours_are_refused_before_they_take_room() {
    let pours = |count: usize| {
        let first = "            pours: [\n";
        with(DRINK, first, &format!("{first}{}", POUR.repeat(count)))
    };
    assert_says(&told(Kind::Document, pours(1_000_000)), &["above 32 MB"]);
    assert_says(
        &told(Kind::Document, pours(300_000)),
        &["values", "are refused"],
    );
    let said = told(Kind::Document, pours(140_000));
    assert_says(
        &said,
        &["specs[0].trials[0].pours: holds 140004 entries, at most 60"],
    );
}

#[test]
fn the_densest_lists_are_refused_by_name_or_number() {
    let stage = |count: usize| {
        let steps = format!(
            "stage: (steps: [{}]),\n        trials: [",
            "(),".repeat(count)
        );
        with(DRINK, "trials: [", &steps)
    };
    let said = told(Kind::Document, stage(700_000));
    assert_says(&said, &["specs[0].stage", "holds 700000 entries, at most"]);
    assert_says(
        &told(Kind::Document, stage(3_000_000)),
        &["values", "are refused"],
    );
    let made: Vec<String> = (0..35_000)
        .map(|own| format!("\"{own}\":(name:\"\",outputs:{{\"\":\"\"}},keeps_days:{{\"\":0.0}},garnishes:{{\"\":()}}),"))
        .collect();
    let made = made.concat();
    let made = with(HOUSE, "preparations: {", &format!("preparations: {{{made}"));
    assert_says(
        &told(Kind::Document, made),
        &["preparations: holds 35001 entries"],
    );
}

#[test]
fn brackets_nested_a_hundred_thousand_deep_are_refused() {
    for bracket in ["(", "[", "{"] {
        let deep = bracket.repeat(100_000);
        let text = with(DRINK, "title: ", &format!("title: {deep}"));
        assert_says(&told(Kind::Document, text), &["line 5, column"]);
        let text = format!("(format: 6, writer: \"\", rules: {deep}");
        assert_says(&told(Kind::Rules, text), &["line 1, column"]);
    }
    for deep in ["[".repeat(100_000), "{\"a\":".repeat(30_000)] {
        assert_says(
            &told(Kind::Recipe, deep),
            &["line 1, column", "nested too deeply"],
        );
    }
}

#[test]
fn circles_are_refused_or_told() {
    let own = "Ingredient(\"carrot\")";
    let to = "Preparation(preparation: \"carrot-juice-and-crisp\", output: \"carrot juice\")";
    assert_eq!(
        told(Kind::Document, with(HOUSE, own, to)),
        "0 trials, 1 preparations"
    );
    let said = told(
        Kind::Document,
        with(DRINK, "id: 8,", "id: 8,\n            parent: 8,"),
    );
    assert_says(&said, &["specs[0].trials[0].parent", "no earlier trial"]);
    let lot = with(LOTS, "of: \"lemon-juice\"", "of: \"lemon-juice-approved\"");
    let said = told(Kind::Document, lot);
    assert_says(&said, &["lots[\"lemon-juice-approved\"].of"]);
    let said = told(Kind::Document, with(DRINK, "id: 8,", "id: 7,"));
    assert_says(&said, &["specs[0].trials[0].id", "is used twice"]);
}

#[test]
fn a_thousand_preparations_that_each_go_into_two_others_are_worked_out() {
    const MANY: usize = 1_000;
    let mut document = larder();
    for own in 0..MANY {
        let mut inputs = vec![input("water", Quantity::Grams(100.0))];
        for other in [own + 1, own + 2] {
            if other < MANY {
                let (id, output) = (format!("p{other:04}"), format!("out {other}"));
                inputs.push(from_preparation(&id, &output, Quantity::Grams(50.0)));
            }
        }
        let made = combined(&format!("Number {own}"), inputs, &format!("out {own}"));
        put_preparation(&mut document, &format!("p{own:04}"), made);
    }
    let text = document_text(&document).expect("it can be written");
    assert_eq!(told(Kind::Document, text), "0 trials, 1000 preparations");
}

#[test]
fn rules_by_the_ten_thousand_are_refused_with_their_number() {
    let rule = "(key:\"a\",asks:Ingredients(most:6,counts:())),";
    let text = with(
        RULES,
        "rules: [\n",
        &format!("rules: [{}", rule.repeat(10_000)),
    );
    assert_says(&told(Kind::Rules, text), &["rules", "at most"]);
}

#[test]
fn pictures_that_claim_too_much_are_not_decoded() {
    let mut bytes = Vec::new();
    let small = RgbImage::new(8, 8);
    small
        .write_to(&mut Cursor::new(&mut bytes), ImageFormat::Png)
        .expect("a picture");
    bytes[16..20].copy_from_slice(&60_000_u32.to_be_bytes());
    bytes[20..24].copy_from_slice(&60_000_u32.to_be_bytes());
    let sum = crc(&bytes[12..29]).to_be_bytes();
    bytes[29..33].copy_from_slice(&sum);
    assert_says(&told(Kind::Photo, &bytes), &["no picture"]);
    let picture = |kind: ImageFormat, side: u32| {
        let mut bytes = Vec::new();
        let large = RgbImage::new(side, side);
        large
            .write_to(&mut Cursor::new(&mut bytes), kind)
            .expect("a picture");
        bytes
    };
    for kind in [ImageFormat::Png, ImageFormat::Jpeg] {
        assert_eq!(told(Kind::Photo, picture(kind, 7_000)), "256 by 256");
        assert_says(&told(Kind::Photo, picture(kind, 9_000)), &["no picture"]);
    }
    // A frame that says it comes in several passes.
    let mut passes = picture(ImageFormat::Jpeg, 7_000);
    let frame = passes
        .windows(4)
        .position(|bytes| bytes == [0xFF, 0xC0, 0, 17]);
    passes[frame.expect("a frame") + 1] = 0xC2;
    assert_says(&told(Kind::Photo, passes), &["no picture"]);
}

/// The check sum of a PNG chunk (ISO/IEC 15948, annex D).
fn crc(bytes: &[u8]) -> u32 {
    let step = |sum: u32, byte: &u8| {
        (0..8).fold(sum ^ u32::from(*byte), |sum, _| {
            (sum >> 1) ^ if sum & 1 == 1 { 0xEDB8_8320 } else { 0 }
        })
    };
    !bytes.iter().fold(u32::MAX, step)
}

#[test]
fn tables_of_one_long_line_or_one_long_cell_are_refused() {
    assert_says(
        &told(Kind::Table, "name,".repeat(1_000_000)),
        &["row 1", "more than 200 cells"],
    );
    let cell = format!("name,water g\n\"{}\",100\n", "x".repeat(30 << 20));
    assert_says(
        &told(Kind::Table, cell),
        &["row 2", "longer than 4000 characters"],
    );
    let open = format!("name\n\"{}", "x,".repeat(15 << 20));
    assert_says(&told(Kind::Table, open), &["row 2", "never closed"]);
    let row = format!("{}\n", "1,".repeat(199));
    let full = format!("name{}\n{}", ",".repeat(199), row.repeat(5_000));
    assert_says(&told(Kind::Table, full), &["row "]);
}

#[test]
fn recipes_with_a_million_of_anything_are_refused_or_cut_and_told() {
    let nodes = format!("{{\"@graph\":[{}{{}}]}}", "{},".repeat(1_000_000));
    assert_says(&told(Kind::Recipe, nodes), &["values", "are refused"]);
    let nodes = format!("{{\"@graph\":[{}{{}}]}}", "{},".repeat(30_000));
    assert_says(&told(Kind::Recipe, nodes), &["holds no recipe"]);
    let lines = "\"1 oz gin\",".repeat(100_000);
    let recipe = format!("{{\"@type\":\"Recipe\",\"recipeIngredient\":[{lines}\"2 oz rum\"]}}");
    assert_eq!(told(Kind::Recipe, recipe), "60 lines, 99941 steps");
    let begin = "{\"@type\":\"Recipe\",\"name\":\"x\",\"recipeInstructions\":";
    let nested = format!("{}1{}", begin.repeat(100), "}".repeat(100));
    assert_eq!(told(Kind::Recipe, nested), "0 lines, 1 steps");
    let scripts = format!(
        "<script type=\"application/ld+json\">[{}0]</script>",
        "[0],".repeat(50_000)
    );
    assert_says(
        &told(Kind::Recipe, scripts.repeat(10)),
        &["values", "are refused"],
    );
}
