//! What a desktop is told of the program: its entry, the kind of its documents, its manual.

use equipour::cli::USAGE;
use equipour::model::Document;
use equipour::store::{DEMO, built_in_rule_sets, rule_set_text, save_document};
use equipour::ui::DESKTOP_ID;
use resvg::usvg::roxmltree::{Document as Xml, Node};
use std::ops::RangeInclusive;
use std::path::PathBuf;

fn file(ending: &str) -> String {
    let path = PathBuf::from(env!("CARGO_MANIFEST_DIR"))
        .join("src/assets/desktop")
        .join(format!("{DESKTOP_ID}.{ending}"));
    std::fs::read_to_string(path).expect("it is there")
}

/// "8:64" or "0", first bytes at which the value may begin.
fn offsets(words: &str) -> RangeInclusive<usize> {
    let (first, last) = words.split_once(':').unwrap_or((words, words));
    first.parse().expect("a number")..=last.parse().expect("a number")
}

/// Whether a rule and one of those within it hold.
///
/// As the specification says: freedesktop.org, Shared MIME-info Database, section 2.
fn matches(rule: Node<'_, '_>, bytes: &[u8]) -> bool {
    let value = rule.attribute("value").expect("a value").as_bytes();
    let mut places = offsets(rule.attribute("offset").expect("an offset"));
    let here = places.any(|at| bytes.get(at..).is_some_and(|rest| rest.starts_with(value)));
    let within: Vec<Node<'_, '_>> = rules(rule).collect();
    here && (within.is_empty() || within.iter().any(|rule| matches(*rule, bytes)))
}

fn rules<'a, 'x: 'a>(node: Node<'a, 'x>) -> impl Iterator<Item = Node<'a, 'x>> {
    node.children().filter(|child| child.has_tag_name("match"))
}

fn is_document(bytes: &[u8]) -> bool {
    let text = file("mime.xml");
    let xml = Xml::parse(&text).expect("it is XML");
    let magic = xml.descendants().find(|node| node.has_tag_name("magic"));
    let mut top = rules(magic.expect("there are rules"));
    top.any(|rule| matches(rule, bytes))
}

#[test]
fn a_document_is_known_by_how_it_begins() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("empty.ron");
    save_document(&Document::default(), &path).expect("it is saved");
    assert!(is_document(&std::fs::read(&path).expect("it is read")));
    assert!(is_document(DEMO.as_bytes()));
    let later = DEMO.replacen("format: 6", "format: 123", 1);
    assert!(is_document(
        later.replacen("0.1.0", "12.34.56", 1).as_bytes()
    ));
}

#[test]
fn other_text_is_no_document() {
    for set in built_in_rule_sets() {
        let text = rule_set_text(set).expect("it can be written");
        assert!(text.contains("writer: \"equipour "), "the same head");
        assert!(!is_document(text.as_bytes()));
    }
    for other in [
        "",
        "(",
        "format: 6",
        "(format: 6, document: ())",
        "# a recipe",
    ] {
        assert!(!is_document(other.as_bytes()), "{other}");
    }
}

#[test]
fn entry_kind_and_description_speak_of_the_same_program() {
    let entry = file("desktop");
    for line in [
        "Exec=equipour %f".to_owned(),
        format!("Icon={DESKTOP_ID}"),
        format!("StartupWMClass={DESKTOP_ID}"),
        "MimeType=application/x-equipour;".to_owned(),
    ] {
        assert!(entry.lines().any(|there| there == line), "{line}");
    }
    assert!(file("mime.xml").contains("type=\"application/x-equipour\""));
    let told = file("metainfo.xml");
    let xml = Xml::parse(&told).expect("it is XML");
    let word = |tag: &str| {
        let node = xml.descendants().find(|node| node.has_tag_name(tag));
        node.and_then(|node| node.text())
            .unwrap_or_default()
            .to_owned()
    };
    assert_eq!(word("id"), DESKTOP_ID);
    assert_eq!(word("launchable"), format!("{DESKTOP_ID}.desktop"));
    assert_eq!(word("mediatype"), "application/x-equipour");
    let release = xml.descendants().find(|node| node.has_tag_name("release"));
    let version = release.and_then(|node| node.attribute("version"));
    assert_eq!(
        version,
        Some(env!("CARGO_PKG_VERSION")),
        "the newest release"
    );
}

#[test]
fn the_manual_has_every_verb_and_option_of_the_help() {
    let manual = include_str!("../../src/assets/desktop/equipour.1").replace("\\-", "-");
    let words = USAGE.split(|letter: char| letter.is_whitespace() || letter == ',');
    let options = words.filter(|word| word.starts_with('-'));
    let verbs = USAGE.lines().filter_map(|line| {
        let (verb, _) = line.strip_prefix("equipour ")?.split_once(" FILE")?;
        Some(verb)
    });
    let all: Vec<&str> = options.chain(verbs).collect();
    assert!(all.len() > 12, "{all:?}");
    for word in all {
        assert!(manual.contains(word), "{word} is not in the manual");
    }
}

#[test]
fn the_manual_and_the_description_caution_about_alcohol_allergens_and_the_food_code() {
    let manual = include_str!("../../src/assets/desktop/equipour.1").to_owned();
    for text in [manual, file("metainfo.xml")] {
        let words: Vec<&str> = text.split_whitespace().collect();
        let text = words.join(" ");
        for caution in [
            "follow the local food code",
            "Alcohol harms",
            "law on serving alcohol",
            "check every label",
        ] {
            assert!(text.contains(caution), "{caution}");
        }
    }
}
