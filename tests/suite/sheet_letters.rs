//! Letters of many languages: what the fonts have is set, what they lack is named.

use crate::sheet_kit::{about, letters_on};
use equipour::sheet::{Block, Drawn, Face, Layout, Paper, lay_out, pdf};

/// Names that the bundled fonts have all letters of.
const KNOWN: [&str; 30] = [
    "Crème de cassis",
    "Piña colada",
    "Jägermeister",
    "Żubrówka",
    "Šljivovica",
    "Ærøskøbing",
    "Þingvellir",
    "Ångström",
    "Kürtőskalács",
    "İstanbul",
    "Ģirts",
    "Țuică",
    "Ωκεανός",
    "Ούζο Πλωμαρίου",
    "Водка",
    "Ђорђе",
    "Київ",
    "Hà Nội",
    "cà phê sữa đá",
    "Phở",
    "cafe\u{301}",
    "n\u{303}andu\u{301}",
    "e\u{302}\u{323}",
    "₽ 1 200",
    "€12.50",
    "₫ 90 000",
    "1⅓ oz, ⅞ cl",
    "−18 °C ± 2",
    "≤ 5 µg",
    "“quoted” – dashed — …",
];

/// Names with letters that they lack, each with those.
const LACKING: [(&str, &[char]); 10] = [
    ("梅酒", &['梅', '酒']),
    ("カクテル", &['カ', 'ク', 'テ', 'ル']),
    ("막걸리", &['걸', '리', '막']),
    ("ערק", &['ע', 'ק', 'ר']),
    ("عرق", &['ر', 'ع', 'ق']),
    ("เหล้า", &['า', 'ล', 'ห', 'เ', '้']),
    ("रम", &['म', 'र']),
    ("Sour 🍋", &['🍋']),
    ("արաղ", &['ա', 'ղ', 'ր']),
    ("გრაპა", &['ა', 'გ', 'პ', 'რ']),
];

fn lacks(name: &str) -> Vec<char> {
    let block = Block::Paragraph(name.to_owned());
    let laid = lay_out(&[block], &Layout::on(Paper::A4), &about()).expect("it fits");
    pdf(&laid).expect("it is accessible");
    laid.lacks
}

#[test]
fn accents_greek_cyrillic_vietnamese_and_signs_are_all_set() {
    for name in KNOWN {
        assert_eq!(lacks(name), Vec::<char>::new(), "{name}");
    }
}

#[test]
fn letters_of_other_scripts_are_named_and_marked_in_their_order() {
    for (name, letters) in LACKING {
        let mut wanted = letters.to_vec();
        wanted.sort_unstable();
        // A mark alone may be told with its letter or by itself.
        assert_eq!(lacks(name), wanted, "{name}");
        let block = Block::Paragraph(name.to_owned());
        let laid = lay_out(&[block], &Layout::on(Paper::A4), &about()).expect("it fits");
        assert_eq!(letters_on(&laid), name.replace(' ', ""));
    }
}

#[test]
fn the_caller_can_say_which_letters_are_lacking() {
    let block = Block::Paragraph("梅酒 and wine".to_owned());
    let laid = lay_out(&[block], &Layout::on(Paper::A4), &about()).expect("it fits");
    let said = laid.lacks_said().expect("two are lacking");
    assert_eq!(said, "The font has no 梅 (U+6885), 酒 (U+9152)");
}

/// Glyphs of a text in running text.
fn glyphs(text: &str) -> Vec<(u16, f64)> {
    let block = Block::Paragraph(text.to_owned());
    let laid = lay_out(&[block], &Layout::on(Paper::A4), &about()).expect("it fits");
    let runs = laid.pages[0]
        .items
        .iter()
        .filter_map(|item| match &item.drawn {
            Drawn::Text(run) if run.face == Face::Text => Some(run.glyphs.clone()),
            _ => None,
        });
    let all = runs.flatten();
    all.map(|glyph| (glyph.id, glyph.advance)).collect()
}

#[test]
fn a_letter_with_a_combining_mark_is_set_as_the_letter_that_has_it() {
    assert_eq!(glyphs("cafe\u{301}"), glyphs("café"));
}

#[test]
fn letters_are_kerned_and_all_figures_have_one_width() {
    let width = |text: &str| glyphs(text).iter().map(|(_, advance)| advance).sum::<f64>();
    assert!(width("AV") < width("A") + width("V") - 0.01);
    let figures: Vec<f64> = (0..10).map(|figure| width(&figure.to_string())).collect();
    assert!(
        figures
            .iter()
            .all(|width| (width - figures[0]).abs() < 1.0e-9),
        "{figures:?}"
    );
}

#[test]
fn a_word_breaks_at_a_soft_hyphen_only_where_it_has_to_and_then_shows_it() {
    let text = |word: &str| {
        let block = Block::Paragraph(word.to_owned());
        let laid = lay_out(&[block], &Layout::on(Paper::Card), &about()).expect("it fits");
        letters_on(&laid)
    };
    assert_eq!(text("un\u{AD}broken"), "unbroken");
    let long = format!("{}\u{AD}{}", "a".repeat(30), "b".repeat(30));
    assert_eq!(
        text(&long),
        format!("{}-{}", "a".repeat(30), "b".repeat(30))
    );
}
