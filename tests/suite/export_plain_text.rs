//! Sheets as plain text, as a menu line and as a message.

use super::export_kit::{HOSTILE, all_of};
use equipour::sheet::{Recipe, RecipeLine, message_text, plain_text};

fn line(amount: &str, name: &str, ml: &str, grams: &str) -> RecipeLine {
    RecipeLine {
        name: name.to_owned(),
        amount: amount.to_owned(),
        ml: ml.to_owned(),
        grams: grams.to_owned(),
        ..RecipeLine::default()
    }
}

fn sour() -> Recipe {
    Recipe {
        title: "Harbour Sour".to_owned(),
        lines: vec![
            line("45 ml", "gin (london dry)", "45", "42.7"),
            line("2 dashes", "aromatic bitters", "1.84", "1.7"),
            line(
                "1 piece",
                "an egg white that carries a name far too long for its column",
                "",
                "33",
            ),
        ],
        technique: "shaken".to_owned(),
        method: vec!["Shake everything without ice, then with ice. ".repeat(6)],
        glass: "coupe".to_owned(),
        garnish: "lemon peel".to_owned(),
        allergens: vec!["eggs".to_owned()],
        ..Recipe::default()
    }
}

#[test]
fn columns_stand_below_each_other() {
    let text = plain_text(&sour());
    let rows: Vec<&str> = text
        .lines()
        .skip_while(|line| *line != "Ingredients")
        .skip(1)
        .take_while(|line| !line.is_empty())
        .collect();
    let letters = |row: &str| row.chars().collect::<Vec<char>>();
    let name_at = rows[0].find("gin").expect("the gin");
    assert_eq!(Some(name_at), rows[1].find("aromatic"));
    assert_eq!(Some(name_at), rows[2].find("an egg"));
    // A name that is broken goes on below itself.
    assert!(rows.len() > 3, "{rows:#?}");
    assert!(
        letters(rows[3])[..name_at]
            .iter()
            .all(|letter| *letter == ' ')
    );
    // Numbers end below each other.
    let ends: Vec<usize> = rows[..3].iter().map(|row| row.chars().count()).collect();
    assert!(ends.windows(2).all(|pair| pair[0] == pair[1]), "{rows:#?}");
}

#[test]
fn no_line_is_longer_than_seventy_eight() {
    for line in plain_text(&sour()).lines() {
        assert!(line.chars().count() <= 78, "{line}");
        assert_eq!(line, line.trim_end());
    }
}

#[test]
fn every_word_of_the_method_is_still_there() {
    let text = plain_text(&sour());
    let words = |text: &str| {
        text.split_whitespace()
            .map(str::to_owned)
            .collect::<Vec<_>>()
    };
    let method = words(&sour().method[0]);
    let all = words(&text);
    assert!(
        all.windows(method.len()).any(|part| part == method),
        "{text}"
    );
}

#[test]
fn an_empty_sheet_has_a_title_only() {
    assert_eq!("Untitled\n========\n", plain_text(&Recipe::default()));
    assert_eq!("Untitled", message_text(&Recipe::default()));
}

#[test]
fn a_message_names_ingredients_and_allergens_shortly() {
    let said = message_text(&sour());
    let lines: Vec<&str> = said.lines().collect();
    assert_eq!("Harbour Sour", lines[0]);
    assert_eq!("45 ml gin (london dry)", lines[1]);
    assert!(lines.contains(&"Garnish: lemon peel"));
    assert!(lines.contains(&"Allergens: eggs"));
}

#[test]
fn no_control_character_reaches_the_clipboard() {
    for text in HOSTILE {
        let recipe = all_of(text);
        let all = plain_text(&recipe) + &message_text(&recipe);
        let wrong = all
            .chars()
            .find(|letter| letter.is_control() && *letter != '\n');
        assert_eq!(None, wrong, "{text:?}");
    }
}
