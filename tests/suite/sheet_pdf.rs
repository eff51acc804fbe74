//! PDFs as an outside reader sees them: tagged, with embedded fonts, in reading order.

use crate::sheet_kit::{about, blocks, laid, letters_of, poppler, texts};
use equipour::sheet::{About, Block, Column, Layout, Paper, lay_out, pdf};
use std::path::Path;
use tempfile::TempDir;

fn written(bytes: &[u8]) -> TempDir {
    let folder = tempfile::tempdir().expect("a folder");
    std::fs::write(folder.path().join("sheet.pdf"), bytes).expect("written");
    folder
}

fn line<'a>(text: &'a str, head: &str) -> &'a str {
    let found = text.lines().find_map(|line| line.strip_prefix(head));
    found
        .unwrap_or_else(|| panic!("no {head} in {text}"))
        .trim()
}

#[test]
fn a_pdf_is_tagged_has_its_title_and_the_size_of_its_paper() {
    for (paper, width, height) in [
        (Paper::A4, 595.276, 841.89),
        (Paper::Letter, 612.0, 792.0),
        (Paper::Card, 255.118, 453.543),
    ] {
        let few = vec![
            Block::Heading("One".to_owned()),
            Block::Paragraph("Two.".to_owned()),
        ];
        let laid = lay_out(&few, &Layout::on(paper), &about()).expect("it fits");
        let folder = written(&pdf(&laid).expect("it is accessible"));
        let Some(info) = poppler("pdfinfo", &["sheet.pdf"], folder.path()) else {
            return;
        };
        assert_eq!(line(&info, "Tagged:"), "yes");
        assert_eq!(line(&info, "Title:"), "Long orchard");
        assert_eq!(line(&info, "Author:"), "A. Maker");
        assert!(!info.contains("CreationDate"), "{info}");
        let size = line(&info, "Page size:");
        let figures: Vec<f64> = size
            .split(' ')
            .filter_map(|word| word.parse().ok())
            .collect();
        assert!(
            (figures[0] - width).abs() < 0.01 && (figures[1] - height).abs() < 0.01,
            "{size}"
        );
    }
}

#[test]
fn all_fonts_are_embedded_in_part_and_read_as_unicode() {
    let folder = written(&pdf(&laid()).expect("it is accessible"));
    let Some(fonts) = poppler("pdffonts", &["sheet.pdf"], folder.path()) else {
        return;
    };
    let rows: Vec<&str> = fonts.lines().skip(2).collect();
    assert!((4..=6).contains(&rows.len()), "{fonts}");
    for row in rows {
        let words: Vec<&str> = row.split_whitespace().collect();
        let said = &words[words.len() - 5..words.len() - 2];
        assert_eq!(said, ["yes", "yes", "yes"], "{fonts}");
    }
}

fn raw_text(folder: &Path) -> Option<String> {
    poppler("pdftotext", &["-raw", "sheet.pdf", "-"], folder)
}

#[test]
fn every_word_is_read_from_the_pdf_in_order() {
    let folder = written(&pdf(&laid()).expect("it is accessible"));
    let Some(text) = raw_text(folder.path()) else {
        return;
    };
    // The words of each block, in order; names in the chart and the foot stand between them.
    let mut place = 0;
    for block in blocks() {
        let words = match block {
            Block::Paragraph(text) | Block::Heading(text) => text,
            Block::Title { text, under } => format!("{text} {under}"),
            _ => continue,
        };
        for word in words.split_whitespace() {
            let found = text[place..].find(word);
            place += found.unwrap_or_else(|| panic!("{word} is not in {text}"));
        }
    }
    for name in ["this drink", "sour, g/L", "third edition", "−18 °C"] {
        assert!(text.contains(name), "{name} is not in {text}");
    }
}

#[test]
fn the_structure_holds_headings_lists_tables_and_the_figure_in_reading_order() {
    let folder = written(&pdf(&laid()).expect("it is accessible"));
    let arguments = ["-struct-text", "sheet.pdf"];
    let Some(tree) = poppler("pdfinfo", &arguments, folder.path()) else {
        return;
    };
    let tree = &tree[tree.find("Document").expect("a root")..];
    let mut place = 0;
    for step in [
        "H1",
        "Long orchard",
        "P (block)",
        "A stirred twist",
        "H2",
        "Recipe",
        "Table",
        "THead",
        "TR",
        "TH",
        "Ingredient",
        "TBody",
        "TD",
        "Apple brandy",
        "H2",
        "Method",
        "L (block)",
        "LI",
        "Lbl",
        "1",
        "LBody",
        "Chill",
        "Div",
        "H2",
        "In the glass",
        "Figure",
        "Lbl",
        "•",
        "The last words.",
    ] {
        let found = tree[place..].find(step);
        place += found.unwrap_or_else(|| panic!("{step} is not in its place in {tree}"));
    }
    // All letters stand in the structure, and in it only: no foot, no second heads.
    let text: String = tree
        .lines()
        .filter_map(|line| line.trim().strip_prefix('"')?.strip_suffix('"'))
        .collect();
    let mut text = text.replace("\\n", "");
    text.retain(|letter| !letter.is_whitespace());
    assert!(!text.contains("thirdedition"), "{tree}");
    let wanted = letters_of(&blocks());
    let (before, after) = wanted.split_at(wanted.find("•Follow").expect("a list"));
    let inside = text
        .strip_prefix(before)
        .and_then(|rest| rest.strip_suffix(after));
    let inside = inside.unwrap_or_else(|| panic!("{text}\n{wanted}"));
    assert!(
        inside.contains("sour,g/L"),
        "the chart's own words: {inside}"
    );
}

#[test]
fn a_letter_that_the_font_lacks_reads_as_itself() {
    let text = "A cup of 酒 and שלום, then \u{1F378}.".to_owned();
    let laid = lay_out(&[Block::Paragraph(text)], &Layout::on(Paper::A4), &about());
    let laid = laid.expect("it fits");
    let folder = written(&pdf(&laid).expect("it is accessible"));
    let Some(read) = raw_text(folder.path()) else {
        return;
    };
    for letter in ['酒', 'ש', 'ל', 'ו', 'ם', '\u{1F378}'] {
        assert!(read.contains(letter), "{letter} is not in {read}");
    }
}

#[test]
fn the_same_sheet_gives_the_same_bytes() {
    let first = pdf(&laid()).expect("it is accessible");
    assert_eq!(first, pdf(&laid()).expect("it is accessible"));
    let dated = About {
        date: Some((2026, 5, 14)),
        ..about()
    };
    let layout = Layout::on(Paper::A4);
    let dated = lay_out(&blocks(), &layout, &dated).expect("it fits");
    let dated = pdf(&dated).expect("it is accessible");
    assert_ne!(first, dated);
    let text = String::from_utf8_lossy(&dated);
    assert!(
        text.contains("2026-05-14"),
        "no date in what it says of itself"
    );
}

#[test]
fn controls_and_private_letters_do_not_stop_the_pdf() {
    let text = "a\u{0}b\u{1}c\u{FEFF}d\u{E000}e\u{FFFE}f\u{10FFFF}g\u{202E}h\u{AD}i".to_owned();
    let laid = lay_out(&[Block::Paragraph(text)], &Layout::on(Paper::A4), &about());
    let laid = laid.expect("it fits");
    assert_eq!(
        laid.lacks,
        ['\0', '\u{1}', '\u{E000}', '\u{FFFE}', '\u{10FFFF}']
    );
    pdf(&laid).expect("it is accessible");
}

#[test]
fn what_a_pdf_says_of_itself_is_plain_text_and_never_empty() {
    for (title, wanted) in [("", "Sheet"), (" a\u{0}b\nc <&> ", "a b c <&>")] {
        let about = About {
            title: title.to_owned(),
            author: Some("x\u{1}y".to_owned()),
            ..About::default()
        };
        let layout = Layout::on(Paper::A4);
        let laid = lay_out(&[Block::Heading("a\u{2}b".to_owned())], &layout, &about);
        let folder = written(&pdf(&laid.expect("it fits")).expect("it is accessible"));
        let Some(info) = poppler("pdfinfo", &["sheet.pdf"], folder.path()) else {
            return;
        };
        assert_eq!(line(&info, "Title:"), wanted);
        assert_eq!(line(&info, "Author:"), "x y");
    }
}

#[test]
fn a_table_without_heads_names_its_rows_and_keeps_empty_cells() {
    let block = Block::Table {
        columns: vec![Column::words("", 1.0), Column::figures("")],
        rows: vec![texts(&["Strength", "24 %"]), texts(&["Colour", "\u{200B}"])],
    };
    let laid = lay_out(&[block], &Layout::on(Paper::A4), &about()).expect("it fits");
    let folder = written(&pdf(&laid).expect("it is accessible"));
    let Some(tree) = poppler("pdfinfo", &["-struct", "sheet.pdf"], folder.path()) else {
        return;
    };
    let cells: Vec<&str> = tree
        .lines()
        .map(|line| line.trim().trim_end_matches(':'))
        .filter(|role| ["TR", "TH", "TD"].contains(role))
        .collect();
    assert!(tree.contains("/Scope /Row"), "{tree}");
    assert_eq!(cells, ["TR", "TH", "TD", "TR", "TH", "TD"], "{tree}");
}

#[test]
fn a_sheet_of_nothing_and_one_without_headings_are_pdfs_too() {
    for few in [
        Vec::new(),
        vec![Block::Rule],
        vec![Block::Paragraph("Words.".to_owned())],
    ] {
        let laid = lay_out(&few, &Layout::on(Paper::Card), &about()).expect("it fits");
        assert_eq!(laid.pages.len(), 1);
        pdf(&laid).expect("it is accessible");
    }
}
