//! Sheets as Markdown.

use super::export_kit::{HOSTILE, PRINTABLE, all_of};
use equipour::sheet::{Recipe, RecipeLine, markdown};
use proptest::prelude::*;

/// Cells of a row as a reader of pipe tables parts them: at every pipe without a backslash before it.
fn cells(row: &str) -> Vec<String> {
    let mut cells = vec![String::new()];
    let mut letters = row.trim().chars();
    while let Some(letter) = letters.next() {
        let cell = cells.last_mut().expect("one at least");
        match letter {
            '\\' => {
                // What follows is meant as it is.
                let next = letters.next().expect("a backslash stands before a mark");
                assert!(next.is_ascii_punctuation(), "\\{next} in {row}");
                cell.push(next);
            }
            '|' => cells.push(String::new()),
            other => {
                assert!(!"<>`*_[]&~!".contains(other), "{other} is bare in {row}");
                cell.push(other);
            }
        }
    }
    assert_eq!("", cells.first().expect("before the first pipe"));
    assert_eq!("", cells.last().expect("behind the last pipe"));
    cells[1..cells.len() - 1]
        .iter()
        .map(|cell| cell.trim().to_owned())
        .collect()
}

/// Tables of a text, row by row.
fn tables(text: &str) -> Vec<Vec<Vec<String>>> {
    let blocks = text.split("\n\n").filter(|block| block.starts_with("| "));
    blocks
        .map(|block| block.lines().map(cells).collect())
        .collect()
}

fn one_line(text: &str) -> String {
    let breaks = |letter: char| letter.is_control() || letter == '\u{2028}';
    text.replace(breaks, " ").trim().to_owned()
}

fn assert_tables_hold(text: &str) {
    let all = tables(&markdown(&all_of(text)));
    assert_eq!(2, all.len(), "ingredients and figures");
    for table in &all {
        assert_eq!(4, table.len(), "head, rule and two rows");
        let width = table[0].len();
        assert!(table.iter().all(|row| row.len() == width), "{table:?}");
    }
    let name = &all[0][2][1];
    assert_eq!(&one_line(text), name);
}

#[test]
fn tables_keep_their_columns_whatever_the_names() {
    for text in HOSTILE {
        assert_tables_hold(text);
    }
}

#[test]
fn no_line_of_a_person_opens_a_head_a_list_or_a_rule() {
    for text in HOSTILE {
        let shown = markdown(&all_of(text));
        for line in shown.lines() {
            let ours = ["# ", "## ", "### ", "- ", "1. ", "2. ", "| "];
            let body = ours
                .iter()
                .find_map(|mark| line.strip_prefix(mark))
                .unwrap_or(line);
            let opens = ["- ", "+ ", "# ", "=", "> ", "```", "1. ", "2. ", "    "];
            assert!(
                opens.iter().all(|mark| !body.starts_with(mark)),
                "{line:?} from {text:?}"
            );
            assert!(!line.contains('\u{1b}'), "{line:?}");
        }
    }
}

#[test]
fn an_empty_sheet_has_a_title_only() {
    assert_eq!("# Untitled\n", markdown(&Recipe::default()));
}

#[test]
fn columns_without_a_word_are_left_out() {
    let line = |amount: &str| RecipeLine {
        name: "gin".to_owned(),
        amount: amount.to_owned(),
        ml: "45".to_owned(),
        ..RecipeLine::default()
    };
    let recipe = Recipe {
        lines: vec![line("45 ml"), line("1½ oz")],
        ..Recipe::default()
    };
    let all = tables(&markdown(&recipe));
    assert_eq!(["Amount", "Ingredient", "Volume"].to_vec(), all[0][0]);
    assert_eq!(["1½ oz", "gin", "45 ml"].to_vec(), all[0][3]);
}

#[test]
fn sixty_lines_are_sixty_rows() {
    let mut recipe = all_of("word");
    recipe.lines = vec![recipe.lines[0].clone(); 60];
    let all = tables(&markdown(&recipe));
    assert_eq!(62, all[0].len());
}

proptest! {
    #[test]
    fn any_printable_name_stays_in_its_cell(text in PRINTABLE) {
        assert_tables_hold(&text);
    }
}
