//! `sample_data/FORMAT.md` lists every field of the file from the comments in the source.

use crate::architecture::all;
use std::collections::{BTreeMap, BTreeSet, VecDeque};
use std::fmt::Write as _;

const PAGE: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/sample_data/FORMAT.md");

const HEAD: &str = "# The document, field by field

A document is one text file in RON (Rusty Object Notation, UTF-8): `(format: N, writer: \"…\", document: ( … ))`. This page is written from the comments in
`src/model` by `cargo test --test suite -- --ignored write_the_format` and a test holds it to them. A field marked *may be missing* then has its usual value; an
optional value is written plainly or left out; amounts are kept to a millionth; unknown fields are errors in a known format.
A newer format opens for reading only. What counts, texts and numbers may be is limited in `src/model/limits.rs` and its neighbours.
";

/// A field or a choice: its name, type and words, and whether a file may leave it out.
struct Line {
    name: String,
    kind: String,
    words: String,
    optional: bool,
    nested: bool,
}

/// A type of the file.
struct Type {
    words: String,
    is_choice: bool,
    may_miss: bool,
    lines: Vec<Line>,
}

/// The first paragraph of a comment, links as plain words.
fn first_paragraph(comment: &[String]) -> String {
    let words: Vec<&str> = comment
        .iter()
        .map(|line| line.trim())
        .take_while(|line| !line.is_empty())
        .collect();
    words.join(" ").replace("[`", "`").replace("`]", "`")
}

/// A field `name: Kind` or a choice `Name`, `Name(Kind)`, `Name { … }`.
fn line_of(code: &str, is_choice: bool) -> Option<(String, String)> {
    let code = code.strip_prefix("pub ").unwrap_or(code);
    let end = code.find(|c: char| !c.is_alphanumeric() && c != '_')?;
    let (name, rest) = code.split_at(end);
    if name.is_empty() {
        return None;
    }
    let kind = rest
        .trim_start_matches(':')
        .trim_end_matches(['{', ','])
        .trim();
    let fits = is_choice == name.starts_with(char::is_uppercase) || rest.starts_with(':');
    fits.then(|| (name.to_owned(), kind.to_owned()))
}

/// Reads the types that are written to files out of one source file.
fn read_types(text: &str, types: &mut BTreeMap<String, Type>) {
    let (mut comment, mut attributes) = (Vec::new(), String::new());
    let mut current: Option<(String, Type)> = None;
    let mut id = None;
    for line in text.lines() {
        let code = line.trim();
        if let Some(words) = code.strip_prefix("///") {
            comment.push(words.to_owned());
            continue;
        }
        // An attribute may run over several lines.
        let is_open = attributes.matches('[').count() > attributes.matches(']').count();
        if is_open || code.starts_with("#[") {
            attributes.push_str(code);
            continue;
        }
        if code.ends_with("_id! {") {
            id = Some(if code.starts_with("word") {
                "text"
            } else {
                "number"
            });
        } else if let Some(kind) = id.take() {
            let words = format!("{} A {kind}.", first_paragraph(&comment));
            let empty = Type {
                words,
                is_choice: false,
                may_miss: false,
                lines: Vec::new(),
            };
            types.insert(code.to_owned(), empty);
        } else if let Some(name) = written_type(code, &attributes) {
            let found = Type {
                words: first_paragraph(&comment),
                is_choice: code.starts_with("pub enum"),
                may_miss: attributes.contains(", default)") || attributes.contains("(default)"),
                lines: Vec::new(),
            };
            current = Some((name, found));
        } else if line == "}" {
            types.extend(current.take());
        } else if let Some((_, found)) = &mut current
            && !attributes.contains("serde(skip)")
            && let Some((name, kind)) = line_of(code, found.is_choice)
        {
            let optional = attributes.contains("default") || kind.starts_with("Option<");
            found.lines.push(Line {
                name,
                optional: (optional || found.may_miss) && !found.is_choice,
                kind,
                words: first_paragraph(&comment),
                nested: line.starts_with("        "),
            });
        }
        comment.clear();
        attributes.clear();
    }
}

/// The name of a type that begins here, if files hold it.
fn written_type(code: &str, attributes: &str) -> Option<String> {
    let name = ["pub struct ", "pub enum "]
        .iter()
        .find_map(|kind| code.strip_prefix(kind))?;
    let written = code.ends_with('{') && attributes.contains("Deserialize");
    written.then(|| name.trim_end_matches(['{', ' ']).to_owned())
}

/// Names of types that a type's lines mention.
fn mentioned(found: &Type) -> Vec<String> {
    let words = |kind: &str| {
        kind.split(|c: char| !c.is_alphanumeric())
            .filter(|word| word.starts_with(char::is_uppercase))
            .map(str::to_owned)
            .collect::<Vec<_>>()
    };
    found
        .lines
        .iter()
        .flat_map(|line| words(&line.kind))
        .collect()
}

/// A type in plain words: shared pointers are no matter of the file.
fn plain(kind: &str) -> String {
    let mut kind = kind.to_owned();
    while let Some(start) = kind.find("Arc<") {
        let mut depth = 0_i32;
        let end = kind[start..].char_indices().find_map(|(at, c)| {
            depth += i32::from(c == '<') - i32::from(c == '>');
            (c == '>' && depth == 0).then_some(start + at)
        });
        let Some(end) = end else { break };
        kind.remove(end);
        kind.replace_range(start..start + 4, "");
    }
    let kind = kind
        .replace("Option<", "optional ")
        .replace("BTreeMap<", "map of ");
    let kind = kind
        .replace("BTreeSet<", "set of ")
        .replace("Vec<", "list of ");
    let kind = kind.replace("String", "text").replace("PathBuf", "path");
    let kind = kind
        .replace("f64", "number")
        .replace("bool", "true or false")
        .replace('>', "");
    ["u32", "usize", "u16", "u8", "u64", "i32"]
        .iter()
        .fold(kind, |kind, whole| kind.replace(whole, "whole number"))
}

fn page() -> String {
    let mut types = BTreeMap::new();
    for folder in ["model", "units"] {
        for (_, text) in all(&format!("src/{folder}")) {
            read_types(&text, &mut types);
        }
    }
    let mut text = HEAD.to_owned();
    let mut waiting = VecDeque::from(["Document".to_owned()]);
    let mut seen = BTreeSet::new();
    while let Some(name) = waiting.pop_front() {
        let Some(found) = types.get(&name) else {
            continue;
        };
        if !seen.insert(name.clone()) {
            continue;
        }
        let kind = if found.is_choice { " (one of)" } else { "" };
        write!(text, "\n## {name}{kind}\n\n{}\n", found.words).expect("a text takes text");
        if !found.lines.is_empty() {
            text.push('\n');
        }
        for line in &found.lines {
            let kind = plain(&line.kind);
            let kind = if kind.is_empty() {
                kind
            } else {
                format!(" ({kind})")
            };
            let missing = if line.optional {
                ", *may be missing*"
            } else {
                ""
            };
            let words = &line.words;
            let indent = if line.nested { "  " } else { "" };
            writeln!(text, "{indent}- `{}`{kind}{missing}: {words}", line.name)
                .expect("a text takes text");
        }
        waiting.extend(mentioned(found));
    }
    text
}

#[test]
fn every_field_of_the_file_is_explained() {
    let page = page();
    let written = std::fs::read_to_string(PAGE).expect("the page is there");
    assert_eq!(written, page, "write it anew: `write_the_format`");
    // What is in a file stands on the page, whatever became of the reading of the source.
    let demo = include_str!("../../sample_data/demo.ron");
    let fields = demo.lines().filter_map(|line| line.trim().split_once(": "));
    for (field, _) in
        fields.filter(|(field, _)| field.bytes().all(|c| c.is_ascii_lowercase() || c == b'_'))
    {
        let head = ["format", "writer", "document"].contains(&field);
        assert!(
            head || page.contains(&format!("`{field}`")),
            "{field} is not explained"
        );
    }
    assert!(!page.contains(": \n"), "a field has no words");
    assert!(!page.contains("\n\n\n"), "a type has no words");
}

#[test]
#[ignore = "writes sample_data/FORMAT.md"]
fn write_the_format() {
    std::fs::write(PAGE, page()).expect("the page can be written");
}
