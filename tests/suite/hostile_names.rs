//! Names that mean something to a file system, a spreadsheet, a page, a calendar or a terminal, in
//! everything that leaves the program.

use crate::export_kit::HOSTILE;
use crate::sample_drinks::builtin;
use equipour::balance::Pantry;
use equipour::cli::for_terminal;
use equipour::model::{Document, Reader, TrialId};
use equipour::session::{
    CHART_PX, Session, SheetFile, answer_table, service_papers, sheet_view, side_by_side,
    tasting_markdown, trial_history,
};
use equipour::store::{DEMO, exported, read_text, write_plain_table, write_table};
use std::fs;
use std::path::Path;
use std::process::{Command, Output};
use std::sync::Arc;

/// More texts that mean something: to calendars, to tables, to terminals.
const MORE: [&str; 7] = [
    "x\r\nEND:VEVENT\r\nBEGIN:VEVENT\r\nSUMMARY:own",
    "\\|cell\\\\|",
    " \u{200b}=cmd|'/c calc'!A1",
    "\u{FF1D}1+1",
    "\t=1",
    "\u{9b}31m \u{7f} \u{2066}turned \u{85}next",
    "-2+3",
];

pub(crate) fn hostile() -> impl Iterator<Item = &'static str> {
    HOSTILE.into_iter().chain(MORE)
}

/// The demo in which every name, title and remark begins with one of these texts, in turn from one of
/// them on.
fn demo_of(texts: &[&str], first: usize) -> Document {
    let fields = [
        "name",
        "title",
        "label",
        "note",
        "verdict",
        "reason",
        "maker",
        "garnish",
        "comment",
        "placement",
        "story",
    ];
    let mut ron = String::new();
    for (place, line) in DEMO.lines().enumerate() {
        let bare = line.trim_start();
        match fields
            .iter()
            .find(|field| bare.starts_with(&format!("{field}: \"")))
        {
            Some(field) => {
                let escaped = texts[(first + place) % texts.len()].escape_default();
                let begin = format!("{field}: \"");
                ron += &line.replacen(&begin, &format!("{begin}{escaped} {place} "), 1);
            }
            None => ron += line,
        }
        ron.push('\n');
    }
    let opened = read_text(&ron).unwrap_or_else(|error| panic!("{error}"));
    opened.document
}

/// The hostile demo, so that every text stands in every kind of place in one of them or another.
fn sessions() -> impl Iterator<Item = Session> {
    let texts: Vec<&str> = hostile().collect();
    (0..3).map(move |first| {
        let mut session = Session::new(Arc::clone(builtin()), Document::default());
        session.take_untitled(demo_of(&texts, first * 7));
        session.refresh();
        session
    })
}

/// Every table that leaves as CSV.
fn tables(session: &Session) -> Vec<String> {
    let document = session.document();
    let mut tables = vec![write_table(exported(document, true)).expect("a table")];
    let mut pantry = Pantry::default();
    for spec in &document.specs {
        let history = trial_history(document, spec.id, &mut pantry).expect("a drink");
        tables.push(write_plain_table(&history.table()).expect("a table"));
        let ids: Vec<TrialId> = spec.trials.iter().map(|trial| trial.id).take(4).collect();
        let found = side_by_side(document, &ids, 0, &mut pantry);
        tables.push(write_plain_table(&found.table(0)).expect("a table"));
    }
    for tasting in document.tastings.values() {
        tables.push(write_plain_table(&answer_table(document, tasting)).expect("a table"));
    }
    for kind in [SheetFile::FiguresCsv, SheetFile::ShoppingCsv] {
        tables.push(written(session, kind));
    }
    tables
}

fn written(session: &Session, kind: SheetFile) -> String {
    let view = sheet_view(session, Reader::default()).expect("a sheet");
    let papers = service_papers(session).expect("papers");
    let files = kind.bytes(&view, &papers, CHART_PX).expect("it is written");
    String::from_utf8(files[0].1.clone()).expect("text")
}

#[test]
fn no_cell_of_any_table_is_a_formula_and_numbers_stay_numbers() {
    for session in sessions() {
        for table in tables(&session) {
            let mut reader = csv::ReaderBuilder::new();
            let mut reader = reader
                .flexible(true)
                .has_headers(false)
                .from_reader(table.as_bytes());
            for record in reader.records() {
                for cell in &record.expect("a row") {
                    let begin = cell.trim_start_matches(|letter: char| {
                        letter.is_whitespace() || letter == '\u{200b}'
                    });
                    let risky = begin.starts_with(['=', '+', '-', '@', '\u{FF1D}']);
                    let formula = risky && begin.parse::<f64>().is_err();
                    assert!(
                        !formula && !cell.starts_with(['\t', '\r', '\n']),
                        "{cell:?}"
                    );
                }
            }
        }
    }
}

/// Marks of Markdown that are not taken back by a backslash.
fn bare(text: &str, mark: char) -> usize {
    let mut escaped = false;
    let mut count = 0;
    for letter in text.chars() {
        count += usize::from(letter == mark && !escaped);
        escaped = letter == '\\' && !escaped;
    }
    count
}

#[test]
fn no_name_breaks_out_of_a_text_in_markdown() {
    for session in sessions() {
        let document = session.document();
        let mut texts = vec![written(&session, SheetFile::Markdown)];
        let mut pantry = Pantry::default();
        for spec in &document.specs {
            let history = trial_history(document, spec.id, &mut pantry).expect("a drink");
            texts.push(history.markdown());
            let ids: Vec<TrialId> = spec.trials.iter().map(|trial| trial.id).take(4).collect();
            texts.push(side_by_side(document, &ids, 0, &mut pantry).markdown(0));
        }
        for tasting in document.tastings.values() {
            let found = vec![format!(
                "{} is liked more",
                tasting.samples[0].as_tasted.name
            )];
            texts.push(tasting_markdown(document, tasting, &found));
        }
        for markdown in texts {
            for line in markdown.lines() {
                assert_eq!(bare(line, '<'), 0, "{line:?}");
                assert!(!line.starts_with("# no head"), "{markdown}");
                assert!(
                    !line.contains(|letter: char| letter.is_control()),
                    "{line:?}"
                );
            }
            assert_rows_alike(&markdown);
        }
    }
}

/// Rows of one table have as many cells as its head.
fn assert_rows_alike(markdown: &str) {
    let mut cells = None;
    for line in markdown.lines() {
        if !line.starts_with('|') {
            cells = None;
            continue;
        }
        let count = bare(line, '|');
        assert_eq!(*cells.get_or_insert(count), count, "{line:?}");
    }
}

#[test]
fn no_name_breaks_out_of_a_page_or_a_drawing() {
    for session in sessions() {
        let page = written(&session, SheetFile::JsonLd);
        assert!(!page.contains(['<', '>', '&']), "{page}");
        serde_json::from_str::<serde_json::Value>(&page).expect("it is sound");
        let drawing = written(&session, SheetFile::ChartSvg);
        assert!(
            !drawing.contains("<script") && !drawing.contains("<!--"),
            "{drawing}"
        );
        let rest = |letter: char| letter.is_control() && letter != '\n';
        for kind in [SheetFile::Text, SheetFile::ChartSvg] {
            assert!(!written(&session, kind).contains(rest));
        }
    }
}

fn program(words: &[&str], file: &Path) -> Output {
    let home = tempfile::tempdir().expect("a folder");
    Command::new(env!("CARGO_BIN_EXE_equipour"))
        .args(words)
        .arg(file)
        .env("EQUIPOUR_HOME", home.path())
        .env_remove("DISPLAY")
        .env_remove("WAYLAND_DISPLAY")
        .env_remove("WAYLAND_SOCKET")
        .output()
        .expect("the program starts")
}

fn assert_harmless(bytes: &[u8]) {
    let text = String::from_utf8(bytes.to_vec()).expect("it is text");
    let obeyed = |letter: char| {
        (letter.is_control() && letter != '\n' && letter != '\t')
            || matches!(letter, '\u{202A}'..='\u{202E}' | '\u{2066}'..='\u{2069}')
    };
    assert!(!text.contains(obeyed), "{text:?}");
}

#[test]
fn a_terminal_gets_no_escape_sequence_from_any_verb_or_error() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("hostile.ron");
    let demo = demo_of(&["\u{1b}[2J\u{9b}31m\u{7}\u{202e}\u{7f}\u{2066}"], 0);
    let text = equipour::store::document_text(&demo).expect("it can be written");
    fs::write(&path, text).expect("it can be written");
    for words in [
        ["figures", "--json"].as_slice(),
        &["figures"],
        &["sheet"],
        &["sheet", "--json"],
        &["prep"],
        &[],
    ] {
        let output = program(words, &path);
        assert!(output.status.success(), "{words:?}: {output:?}");
        assert!(output.stdout.len() > 200);
        assert_harmless(&output.stdout);
        assert_harmless(&output.stderr);
        if words.contains(&"--json") {
            let read: serde_json::Value = serde_json::from_slice(&output.stdout).expect("JSON");
            // What is written as an escape is read as the letter that stands in the document.
            assert!(read.to_string().contains('\u{9b}') || words[0] == "sheet");
        }
    }
    for words in [
        ["--spec", "\u{1b}[2J", "figures"].as_slice(),
        &["\u{1b}[2J"],
    ] {
        let output = program(words, &path);
        assert!(!output.status.success(), "{words:?}");
        assert_harmless(&output.stderr);
    }
}

#[test]
fn a_text_without_such_marks_reaches_the_terminal_as_it_is() {
    for text in ["", "Señor Ünïcødé 酒 🍸\n\t−5.4 °C", "a\\u001b"] {
        assert_eq!(for_terminal(text), text);
    }
    assert_eq!(for_terminal("a\u{1b}[31m\r"), "a\\u001b[31m\\u000d");
}
