//! Sets of rules as files: read, refused with line and column, and written whole or not at all.

use crate::rules_kit::{rule, rules};
use equipour::model::{Counted, Practice, Required, Rule, RuleKind, RuleSet, VolumeOf};
use equipour::store::{
    ReadError, RuleSaveError, SaveError, built_in_rule_sets, read_rule_set, read_rule_text,
    rule_set_text, save_rule_set,
};
use equipour::units::Unit;
use std::fs;

fn some() -> RuleSet {
    RuleSet {
        note: "Taken from a leaflet.".to_owned(),
        ..rules([
            RuleKind::Ingredients {
                most: 6,
                counts: Counted {
                    drops: true,
                    ..Counted::default()
                },
            },
            RuleKind::Measures {
                units: vec![Unit::Cl, Unit::Dash],
                drops_for_bitters: true,
                notch_ml: Some(2.5),
            },
            RuleKind::Volume {
                of: VolumeOf::Poured,
                least: None,
                most: Some(350.0),
            },
            RuleKind::Stated {
                required: Required::ALL.to_vec(),
            },
            RuleKind::Banned {
                practice: Practice::Foam,
            },
        ])
    }
}

fn text() -> String {
    rule_set_text(&some()).expect("it can be written")
}

#[test]
fn what_is_written_reads_back_the_same() {
    assert_eq!(read_rule_text(&text()).expect("it reads"), some());
    for set in built_in_rule_sets() {
        let text = rule_set_text(set).expect("it can be written");
        assert_eq!(read_rule_text(&text).expect("it reads"), **set);
    }
}

#[test]
fn every_built_in_rule_says_that_such_rules_are_common() {
    for set in built_in_rule_sets() {
        for Rule { key, note, .. } in &set.rules {
            let said = "common in published rule documents";
            assert!(note.contains(said), "{} {key}", set.name);
        }
    }
}

/// Line and column of damage.
fn place(text: &str) -> (usize, usize) {
    match read_rule_text(text) {
        Err(ReadError::Syntax { line, column, .. }) => (line, column),
        other => panic!("{other:?}"),
    }
}

#[test]
fn damage_is_named_with_line_and_column() {
    let good = text();
    let line_of = |part: &str| {
        let found = good.lines().position(|line| line.contains(part));
        found.expect("it is there") + 1
    };
    let unknown = good.replace("most: 6", "mist: 6");
    let (line, column) = place(&unknown);
    assert_eq!(line, line_of("most: 6"));
    assert!(column > 1);
    let (line, _) = place(&good.replace("practice: Foam", "practice: Juggling"));
    assert_eq!(line, line_of("practice: Foam"));
    let cut = &good[..good.len() / 2];
    place(cut);
    place("");
    place(&format!("{}{}", "[".repeat(10_000), "]".repeat(10_000)));
}

#[test]
fn a_field_that_cannot_stand_and_a_later_format_are_refused() {
    let twice = RuleSet {
        rules: vec![
            rule("same", RuleKind::Serves { count: 1 }),
            rule("same", RuleKind::Serves { count: 2 }),
        ],
        ..some()
    };
    let refused = rule_set_text(&twice);
    assert!(
        matches!(refused, Err(RuleSaveError::Field(_))),
        "{refused:?}"
    );
    let negative = text().replace("350.0", "-350.0");
    let refused = read_rule_text(&negative);
    let Err(ReadError::Field { line, error }) = refused else {
        panic!("{refused:?}");
    };
    assert!(line > 1, "{error}");
    let later = text().replacen("format: ", "format: 9", 1);
    let refused = read_rule_text(&later);
    assert!(
        matches!(refused, Err(ReadError::Newer { .. })),
        "{refused:?}"
    );
}

#[test]
fn nothing_is_written_over_unless_asked_and_readable() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("cup.ron");
    save_rule_set(&some(), &path, false).expect("it is written");
    let again = save_rule_set(&some(), &path, false);
    assert!(matches!(again, Err(RuleSaveError::Exists)));
    let other = RuleSet {
        name: "Another".to_owned(),
        ..some()
    };
    save_rule_set(&other, &path, true).expect("it is replaced");
    assert_eq!(read_rule_set(&path).expect("it reads"), other);
    let backup = folder.path().join("cup.ron.bak");
    assert_eq!(read_rule_set(&backup).expect("it reads"), some());
    fs::write(&path, "something else").expect("it is written");
    let refused = save_rule_set(&some(), &path, true);
    let lost = matches!(refused, Err(RuleSaveError::Save(SaveError::WouldLose(_))));
    assert!(lost, "{refused:?}");
    assert_eq!(
        fs::read_to_string(&path).expect("it reads"),
        "something else"
    );
    let folder_itself = save_rule_set(&some(), folder.path(), true);
    assert!(folder_itself.is_err());
}

#[test]
fn a_file_that_is_too_large_or_no_text_is_refused() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("cup.ron");
    fs::write(&path, [0xff, 0xfe, 0x00]).expect("it is written");
    assert!(matches!(
        read_rule_set(&path),
        Err(ReadError::NotText { .. })
    ));
    let large = fs::File::create(&path).expect("it is made");
    large.set_len(64 * 1024 * 1024).expect("it grows");
    assert!(matches!(
        read_rule_set(&path),
        Err(ReadError::TooLarge { .. })
    ));
    let missing = folder.path().join("none.ron");
    assert!(matches!(
        read_rule_set(&missing),
        Err(ReadError::Unreadable { .. })
    ));
}
