//! Files that are damaged, foreign or too large: every refusal names line, field and reason, and the
//! file stays as it is.

use crate::sample_drinks::{SHAKEN, document, point, sour};
use equipour::model::Document;
use equipour::store::{Opened, document_text, read_document, save_document};
use std::fs;
use std::sync::Arc;

pub(crate) fn sample() -> Document {
    document(sour(), SHAKEN, Some(point(&sour(), SHAKEN)))
}

fn sample_text() -> String {
    document_text(&sample()).expect("it can be written")
}

/// The sample with the first `from` replaced, and the line where that stands, from 1.
pub(crate) fn changed(from: &str, to: &str) -> (String, usize) {
    let text = sample_text();
    let place = text
        .find(from)
        .unwrap_or_else(|| panic!("{from} is not in the text"));
    let line = text[..place].matches('\n').count() + 1;
    (text.replacen(from, to, 1), line)
}

/// What opening these bytes as a file comes to; the file must stay as it is.
pub(crate) fn open(bytes: &[u8]) -> Result<Opened, String> {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("sour.ron");
    fs::write(&path, bytes).expect("it can be written");
    let opened = read_document(&path).map_err(|error| error.to_string());
    assert_eq!(
        fs::read(&path).expect("it is there"),
        bytes,
        "opening changed the file"
    );
    let entries = fs::read_dir(folder.path()).expect("it can be listed");
    assert_eq!(entries.count(), 1, "opening left something behind");
    opened
}

pub(crate) fn refused(bytes: impl AsRef<[u8]>) -> String {
    open(bytes.as_ref()).expect_err("it must be refused")
}

#[test]
fn a_truncated_file_names_the_line_where_it_ends() {
    let text = sample_text();
    for lines in [1, 40, 150, 225] {
        let kept: String = text.split_inclusive('\n').take(lines).collect();
        let said = refused(kept.trim_end());
        assert!(
            said.starts_with(&format!("line {lines}, column ")),
            "{said}"
        );
        assert!(said.contains("nexpected end"), "{said}");
    }
    let said = refused("");
    let says = "line 1, column 1: this is no document of this program; one begins with (format: 6,";
    assert_eq!(said, says);
}

#[test]
fn damaged_syntax_names_line_and_column() {
    let (text, line) = changed("currency: \"EUR\"", "currency \"EUR\"");
    assert_eq!(
        refused(text),
        format!("line {line}, column 13: Expected colon")
    );
    let text = sample_text();
    let end = text.lines().count();
    let said = refused(text + "rubbish");
    assert_eq!(
        said,
        format!("line {end}, column 2: Non-whitespace trailing characters")
    );
    let (text, line) = changed("locked: false", "lokced: false");
    let said = refused(text);
    assert!(
        said.starts_with(&format!("line {line}, ")) && said.contains("`lokced`"),
        "{said}"
    );
    let (text, line) = changed("method: Shaken", "method: Stired");
    let said = refused(text);
    assert!(
        said.starts_with(&format!("line {line}, ")) && said.contains("`Stired`"),
        "{said}"
    );
    let (text, _) = changed("    title: \"Sample\",\n", "");
    assert!(refused(text).contains("missing field named `title`"));
}

#[test]
fn amounts_that_are_no_amounts_name_line_field_and_reason() {
    for (amount, reason) in [
        ("NaN", "is not a finite number"),
        ("inf", "is not a finite number"),
        ("-inf", "is not a finite number"),
        ("1e999", "is not a finite number"),
        ("-5.0", "-5 is negative"),
        ("2.0e6", "2000000 is above 1000000"),
    ] {
        let (text, line) = changed("amount: Ml(22.5)", &format!("amount: Ml({amount})"));
        let field = "specs[0].trials[0].pours[1].amount";
        assert_eq!(refused(text), format!("line {line}: {field}: {reason}"));
    }
    let (text, line) = changed("amount: Ml(22.5)", "amount: Ml(\"much\")");
    let said = refused(text);
    assert!(said.starts_with(&format!("line {line}, column ")), "{said}");
    let (text, _) = changed("amount: Ml(22.5)", "amount: Ml(0.0)");
    open(text.as_bytes()).expect("nothing of an ingredient is legal");
}

#[test]
fn figures_that_cannot_stand_name_line_field_and_reason() {
    for (from, to, says) in [
        (
            "weber: 0.15",
            "weber: -0.15",
            "senses.sour.weber: -0.15 is negative",
        ),
        (
            "weber: 0.2",
            "weber: 0.0",
            "senses.sweet.weber: must be 0.001 or more",
        ),
        (
            "g_per_ml: 1.023",
            "g_per_ml: 10.23",
            "ingredients[\"lime-juice\"].density.g_per_ml: 10.23 is outside 0.05 to 2.5 g/ml",
        ),
        (
            "ice_share: 0.0",
            "ice_share: 0.95",
            "specs[0].glass.ice_share: must lie in 0 to 0.9",
        ),
        ("id: 2", "id: 1", "specs[0].trials[0].id: 1 is used twice"),
        (
            "next_number: 3",
            "next_number: 2",
            "next_number: must be above 2, the largest number in use",
        ),
        (
            "next_number: 3",
            "next_number: 4294967295",
            "next_number: is above 1000000000",
        ),
        (
            "source: Ingredient(\"lime-juice\")",
            "source: Ingredient(\"lime\")",
            "specs[0].trials[0].pours[1].source: unknown ingredient \"lime\"",
        ),
        (
            "source: Ingredient(\"lime-juice\")",
            "source: Lot(\"monday\")",
            "specs[0].trials[0].pours[1].source: unknown lot \"monday\"",
        ),
    ] {
        let (text, line) = changed(from, to);
        assert_eq!(refused(text), format!("line {line}: {says}"));
    }
    let (text, _) = changed("dash_ml: 0.92", "dash_ml: 0.0");
    let said = refused(text);
    assert!(
        said.contains("measures: dash_ml is 0; it must be above 0"),
        "{said}"
    );
}

#[test]
fn counts_and_texts_beyond_the_limits_are_refused() {
    let text = sample_text();
    let title = "ä".repeat(4_001);
    let (long, line) = changed("Sample", &title);
    assert_eq!(
        refused(long),
        format!("line {line}: title: is longer than 4000 characters")
    );
    let (longest, _) = changed("Sample", &title.replacen('ä', "", 1));
    open(longest.as_bytes()).expect("4000 characters are few enough");
    let mut document = sample();
    let mut trial = equipour::model::Trial::clone(&document.specs[0].trials[0]);
    for (count, fits) in [(60, true), (61, false)] {
        trial.pours = vec![sour()[0].clone(); count];
        document.specs[0].trials = vec![Arc::new(trial.clone())];
        assert_eq!(document_text(&document).is_ok(), fits, "{count} pours");
    }
    // Written by hand: 61 copies of the last pour.
    let start = text
        .rfind("              (\n                source")
        .expect("a last pour");
    let end = text
        .rfind("            ],\n          ),\n        ],")
        .expect("the end of the pours");
    let many = format!(
        "{}{}{}",
        &text[..start],
        text[start..end].repeat(59),
        &text[end..]
    );
    let said = refused(many);
    let says = "specs[0].trials[0].pours: holds 61 entries, at most 60";
    assert!(said.ends_with(says), "{said}");
}

#[test]
fn a_file_of_format_0_is_refused() {
    let (text, line) = changed("format: 6", "format: 0");
    assert_eq!(
        refused(text),
        format!("line {line}: format: must be 1 or more")
    );
    let (text, line) = changed("format: 6", "format: -1");
    assert!(refused(text).starts_with(&format!("line {line}, column ")));
}

#[test]
fn other_encodings_are_refused_and_harmless_marks_are_not() {
    let (text, line) = changed("Sample", "S@mple");
    let latin_1: Vec<u8> = text
        .bytes()
        .map(|b| if b == b'@' { 0xE4 } else { b })
        .collect();
    assert_eq!(
        refused(latin_1),
        format!("line {line}: is not UTF-8 text; save it as UTF-8")
    );
    let wide = |mark: &[u8]| -> Vec<u8> {
        let units = sample_text()
            .encode_utf16()
            .flat_map(u16::to_le_bytes)
            .collect::<Vec<_>>();
        mark.iter().copied().chain(units).collect()
    };
    assert_eq!(
        refused(wide(&[0xFF, 0xFE])),
        "line 1: is not UTF-8 text; save it as UTF-8"
    );
    refused(wide(&[]));
    let marked = format!("\u{feff}{}", sample_text());
    assert_eq!(
        open(marked.as_bytes())
            .expect("a mark is harmless")
            .document,
        sample()
    );
    let windows = sample_text().replace('\n', "\r\n");
    assert_eq!(
        open(windows.as_bytes())
            .expect("so are its line ends")
            .document,
        sample()
    );
}

#[test]
fn ten_thousand_brackets_are_an_error_and_no_overflow() {
    let (open, close) = ("[".repeat(10_000), "]".repeat(10_000));
    refused("(".repeat(10_000));
    refused(&open);
    refused(format!("{}{}", "/*".repeat(10_000), sample_text()));
    for (from, to) in [
        ("format: 6", format!("mystery: {open}{close}, format: 2")),
        ("format: 6", format!("mystery: {open}{close}, format: 7")),
        ("title: \"Sample\"", format!("title: {open}{close}")),
        ("pours: [", format!("pours: {open}")),
    ] {
        let (text, line) = changed(from, &to);
        let said = refused(text);
        assert!(said.starts_with(&format!("line {line}, column ")), "{said}");
        assert!(said.ends_with("brackets are nested too deeply"), "{said}");
    }
}

#[test]
fn what_is_no_file_of_a_sensible_size_is_refused() {
    let folder = tempfile::tempdir().expect("a folder");
    let said = |path| {
        read_document(path)
            .expect_err("it must be refused")
            .to_string()
    };
    let place = format!("({})", folder.path().display());
    assert_eq!(said(folder.path()), format!("is not a file {place}"));
    let path = folder.path().join("missing.ron");
    let missing = said(&path);
    assert!(
        missing.starts_with("cannot read: No such file or directory"),
        "{missing}"
    );
    assert!(missing.contains("missing.ron"), "{missing}");
    let file = fs::File::create(&path).expect("it can be made");
    file.set_len(40 * 1_048_576).expect("it can be stretched");
    assert_eq!(said(&path), "is 40.0 MB; files above 32 MB are refused");
}

#[cfg(unix)]
#[test]
fn a_file_that_may_not_be_read_says_so() {
    use std::os::unix::fs::PermissionsExt as _;
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("secret.ron");
    fs::write(&path, sample_text()).expect("it can be written");
    fs::set_permissions(&path, fs::Permissions::from_mode(0o000)).expect("they can be set");
    if fs::read(&path).is_ok() {
        // The superuser may read everything.
        return;
    }
    let said = read_document(&path)
        .expect_err("it may not be read")
        .to_string();
    assert!(said.starts_with("cannot read: Permission denied"), "{said}");
    let said = save_document(&sample(), &path)
        .expect_err("it is left alone")
        .to_string();
    assert!(said.contains("Permission denied"), "{said}");
}
