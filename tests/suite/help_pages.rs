//! Pages of help: complete, of a readable length, with sources that exist; keys and words of commands.

use equipour::session::{
    COMMANDS, Findable, HELP_PAGES, HelpBlock, OTHER_KEYS, find_rank, help_page, key_groups,
    keys_text, shortcut_words,
};

const SOURCES: &str = include_str!("../../sample_data/SOURCES.md");

#[test]
fn every_page_of_the_window_and_every_general_subject_has_a_page() {
    let keys = [
        "balance",
        "house",
        "trials",
        "submission",
        "larder",
        "model",
        "sure",
        "files",
        "cautions",
    ];
    for key in keys {
        assert!(help_page(key).is_some(), "{key}");
    }
    assert_eq!(HELP_PAGES.len(), keys.len());
    assert!(help_page("nothing").is_none());
}

#[test]
fn a_page_is_neither_empty_nor_a_book() {
    for page in HELP_PAGES {
        let words: usize = page
            .blocks()
            .map(|block| match block {
                HelpBlock::Heading(text)
                | HelpBlock::Paragraph(text)
                | HelpBlock::Point(text)
                | HelpBlock::Sources(text) => text.split_whitespace().count(),
            })
            .sum();
        assert!((80..=480).contains(&words), "{} has {words}", page.key);
        assert!(!page.title().starts_with('#') && page.title().len() > 3);
        let headings = page.blocks();
        let headings = headings.filter(|block| matches!(block, HelpBlock::Heading(_)));
        assert!(headings.count() >= 3, "{}", page.key);
    }
}

#[test]
fn pages_of_the_window_say_what_they_leave_out() {
    for key in ["balance", "house", "trials", "submission", "larder"] {
        let page = help_page(key).expect("a page");
        for wanted in [
            "What it shows",
            "How it is worked out",
            "What it leaves out",
        ] {
            let there = page
                .blocks()
                .any(|block| block == HelpBlock::Heading(wanted));
            assert!(there, "{key} lacks {wanted}");
        }
    }
}

#[test]
fn every_source_of_a_page_is_explained() {
    for page in HELP_PAGES {
        let mut count = 0;
        for key in page.sources() {
            assert!(
                SOURCES.contains(&format!("| `{key}` |")),
                "{}: {key}",
                page.key
            );
            count += 1;
        }
        assert!(count > 0, "{} names no source", page.key);
    }
}

#[test]
fn cautions_lead_to_the_local_food_code() {
    for key in ["house", "submission", "cautions"] {
        let page = help_page(key).expect("a page");
        let said = page.blocks().any(|block| match block {
            HelpBlock::Paragraph(text) | HelpBlock::Point(text) => {
                text.to_lowercase().contains("follow the local food code")
            }
            _ => false,
        });
        assert!(said, "{key}");
    }
}

#[test]
fn the_sheet_of_keys_names_every_shortcut_and_every_other_key() {
    let text = keys_text();
    for info in COMMANDS.iter().filter(|info| info.shortcut.is_some()) {
        let keys = shortcut_words(info.shortcut);
        let row = text.lines().find(|line| {
            line.trim_start().starts_with(&format!("{keys} ")) && line.contains(info.explain)
        });
        assert!(row.is_some(), "{} is missing", info.name);
    }
    for key in OTHER_KEYS {
        assert!(text.contains(key.what), "{}", key.what);
    }
}

#[test]
fn the_sheet_of_keys_is_searched() {
    let found = key_groups("sheet");
    let rows: Vec<_> = found.iter().flat_map(|group| &group.rows).collect();
    assert!(rows.iter().any(|(keys, _)| keys == "Ctrl+E"));
    assert!(!rows.iter().any(|(keys, _)| keys == "Ctrl+Z"));
    assert!(key_groups("zzzz").is_empty());
    assert_eq!(key_groups("ballots").len(), 1);
}

#[test]
fn whole_words_come_before_beginnings_parts_and_slips() {
    let rank = |typed, name| {
        let thing = Findable {
            name,
            words: "",
            explain: "",
        };
        find_rank(typed, thing)
    };
    let order = [
        "label",
        "labels",
        "labelling",
        "relabel",
        "lable",
        "laxbxel",
    ];
    let ranks: Vec<_> = order.map(|name| rank("label", name)).into();
    assert!(ranks.iter().all(Option::is_some), "{ranks:?}");
    assert_eq!(ranks[0], ranks[1], "one and several are the same word");
    assert!(ranks[1..].is_sorted_by(|a, b| a < b), "{ranks:?}");
    assert_eq!(rank("label", "rules"), None);
    assert_eq!(rank("label rules", "labels"), None, "every word has to fit");
}

#[test]
fn search_words_are_small_letters_and_of_every_command() {
    for info in COMMANDS {
        assert!(!info.words.is_empty(), "{}", info.name);
        assert_eq!(info.words, info.words.to_lowercase(), "{}", info.name);
    }
}
