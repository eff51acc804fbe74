//! Licences: everything that is handed out may be, and its notices go with it.

use crate::notices_kit::{Crate, crates};
use equipour::cli::NOTICES;
use std::path::{Path, PathBuf};
use std::process::Command;

const HEAD: &str = "\
Equipour is handed out under the MIT licence, the first text below. Built into it are the crates and
fonts that follow, each under its own licence; a number in brackets is the text that goes with it.
Where a crate leaves a choice of licences all of its texts stand here. A crate without a text of its own
has the standard text with its authors. The source of every crate is at the place beside its name and
in the registry of crates under its name and version.
";

/// What no manifest names: text of the program's own bundled fonts, and of the standard library.
fn more() -> [(&'static str, Vec<String>); 2] {
    let fonts = include_str!("../../src/assets/fonts/LICENSE.txt");
    let standard = ["MIT", "Apache-2.0"].map(|name| {
        let id = spdx::license_id(name).expect("a known licence");
        id.text().replace(
            "<year> <copyright holders>",
            "The Rust Project Contributors",
        )
    });
    [
        (
            "Noto Sans, Noto Serif and Noto Sans Math (fonts) - OFL-1.1",
            vec![fonts.to_owned()],
        ),
        (
            "The Rust standard library - MIT OR Apache-2.0",
            standard.to_vec(),
        ),
    ]
}

/// Where the terms of Apache-2.0 end: below it stands a form, often filled in with a holder of rights.
const END_OF_TERMS: &str = "END OF TERMS AND CONDITIONS";

/// Texts, each once: those whose letters and digits agree are the same.
#[derive(Default)]
struct Texts(Vec<(String, String)>);

/// The terms, and what stands below them.
fn parted(text: &str) -> Vec<&str> {
    match text.find(END_OF_TERMS) {
        Some(place) => {
            let (terms, form) = text.split_at(place + END_OF_TERMS.len());
            vec![terms, form]
        }
        None => vec![text],
    }
}

impl Texts {
    fn number(&mut self, text: &str) -> usize {
        let letters = text.chars().filter(|letter| letter.is_alphanumeric());
        let key: String = letters.flat_map(char::to_lowercase).collect();
        let place = self.0.iter().position(|(known, _)| *known == key);
        let place = place.unwrap_or_else(|| {
            self.0.push((key, text.trim_matches('\n').to_owned()));
            self.0.len() - 1
        });
        place + 1
    }

    fn numbers(&mut self, texts: &[String]) -> String {
        let parts = texts.iter().flat_map(|text| parted(text));
        let parts = parts.filter(|part| part.contains(char::is_alphanumeric));
        let mut numbers: Vec<usize> = parts.map(|part| self.number(part)).collect();
        numbers.sort_unstable();
        numbers.dedup();
        let said: Vec<String> = numbers.iter().map(|number| format!("[{number}]")).collect();
        said.join(" ")
    }
}

fn line_of(item: &Crate) -> String {
    format!("{} {} - {}", item.name, item.version, item.licence)
}

fn written(crates: &[Crate]) -> String {
    let mut texts = Texts::default();
    let own = texts.numbers(&[include_str!("../../LICENSE").to_owned()]);
    let mut lines = vec![HEAD.to_owned(), format!("Equipour - MIT\n    {own}")];
    for (what, theirs) in more() {
        lines.push(format!("{what}\n    {}", texts.numbers(&theirs)));
    }
    for item in crates.iter().filter(|item| item.shipped) {
        lines.push(line_of(item));
        let said = [&item.authors, &item.source].into_iter();
        lines.extend(
            said.filter(|said| !said.is_empty())
                .map(|said| format!("    {said}")),
        );
        lines.push(format!("    {}", texts.numbers(&item.texts())));
    }
    let rule = "-".repeat(72);
    for (place, (_, text)) in texts.0.iter().enumerate() {
        lines.push(format!("\n{rule}\n[{}]\n\n{text}", place + 1));
    }
    lines.join("\n") + "\n"
}

#[test]
#[ignore = "writes src/assets/notices.txt anew; run it by name after a change of Cargo.lock"]
fn write_the_notices() {
    let path = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("src/assets/notices.txt");
    std::fs::write(path, written(&crates())).expect("it is written");
}

#[test]
fn the_notices_name_every_crate_that_is_handed_out_and_no_other() {
    let all = crates();
    let named: Vec<&str> = NOTICES
        .lines()
        .filter(|line| line.contains(" - "))
        .collect();
    for item in all.iter().filter(|item| item.shipped) {
        let line = line_of(item);
        assert!(
            named.contains(&line.as_str()),
            "\"{line}\" is missing: cargo test --test suite -- --ignored write_the_notices"
        );
    }
    // Also an old version, a changed text or a crate that is gone.
    assert!(
        NOTICES == written(&all),
        "the notices are old: cargo test --test suite -- --ignored write_the_notices"
    );
}

#[test]
fn every_licence_of_what_is_shipped_or_tested_with_is_allowed() {
    let all = crates();
    assert!(all.iter().filter(|item| item.shipped).count() > 100);
    for item in &all {
        let said = line_of(item);
        assert!(item.is_allowed(), "{said}: its licence is not on the list");
    }
}

#[test]
fn the_notices_hold_the_licences_of_all_bundled_fonts() {
    for words in [
        "SIL OPEN FONT LICENSE Version 1.1",
        "UBUNTU FONT LICENCE Version 1.0",
        "BITSTREAM VERA LICENSE",
        "Copyright (c) 2018 Source Foundry Authors",
        "Copyright 2015-2020, Google LLC.",
    ] {
        assert!(NOTICES.contains(words), "{words}");
    }
}

#[test]
fn the_program_prints_its_notices() {
    let output = Command::new(env!("CARGO_BIN_EXE_equipour"))
        .arg("--licences")
        .output()
        .expect("the program starts");
    assert!(output.status.success());
    assert!(output.stdout == NOTICES.as_bytes());
}

#[test]
fn no_place_on_a_disk_stands_in_the_notices() {
    let home = Path::new(env!("CARGO_MANIFEST_DIR"));
    let home = home.to_string_lossy();
    assert!(!NOTICES.contains(&*home));
    for word in ["/root/", ".cargo/registry", "/target/"] {
        assert!(!NOTICES.contains(word), "{word}");
    }
}
