//! The contributors' table of what people expect names tests that there are.

use crate::architecture::all;
use std::collections::BTreeSet;
use std::path::Path;

/// Names of the functions that are run as tests, also of those inside a macro.
fn tests_in(code: &str) -> Vec<&str> {
    let mut names = Vec::new();
    let mut is_test = false;
    for line in code.lines().map(str::trim_start) {
        if line.starts_with("#[") || line.starts_with("//") {
            is_test |= line.starts_with("#[test]");
            continue;
        }
        let name = line
            .strip_prefix("fn ")
            .and_then(|rest| rest.split('(').next());
        names.extend(name.filter(|_| is_test));
        is_test = false;
    }
    names
}

/// What stands in backticks.
fn quoted(cell: &str) -> Vec<&str> {
    cell.split('`').skip(1).step_by(2).collect()
}

#[test]
fn only_functions_marked_as_tests_count_as_tests() {
    let code = "fn kit() {}\n#[test]\nfn a() {}\nproptest! {\n    #[test]\n    // Why.\n    fn b(x in 0..1) {}\n}\nfn c() {}";
    assert_eq!(tests_in(code), ["a", "b"]);
}

#[test]
fn every_expectation_names_tests_and_files_that_exist() {
    let page = include_str!("../../DEVELOPERS.md");
    let (_, table) = page
        .split_once("## What people expect of a workbench")
        .expect("the table is there");
    let rows: Vec<&str> = table
        .lines()
        .skip_while(|line| !line.starts_with("| 1 |"))
        .take_while(|line| line.starts_with('|'))
        .collect();
    assert_eq!(rows.len(), 30);
    let code = all("tests");
    let tests: BTreeSet<&str> = code.iter().flat_map(|(_, text)| tests_in(text)).collect();
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut files = 0;
    for row in rows {
        let named = row.split('|').nth(4).expect("a column of tests");
        let named = quoted(named);
        assert!(!named.is_empty(), "no test: {row}");
        for name in named {
            assert!(tests.contains(name), "there is no test {name}: {row}");
        }
        let places = row.split('|').nth(3).expect("a column of places");
        for file in quoted(places).into_iter().filter(|name| name.contains('/')) {
            let is_there = root.join("src").join(file).exists() || root.join(file).exists();
            assert!(is_there, "there is no {file}: {row}");
            files += 1;
        }
    }
    assert!(files > 0, "the table names files");
}
