//! The contributors' table of what people expect names tests that there are.

use crate::architecture::all;
use std::collections::BTreeSet;

#[test]
fn every_expectation_names_tests_that_exist() {
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
    let names = code.iter().flat_map(|(_, text)| text.lines());
    let tests: BTreeSet<&str> = names
        .filter_map(|line| line.trim_start().strip_prefix("fn ")?.split('(').next())
        .collect();
    for row in rows {
        let named = row.split('|').nth(4).expect("a column of tests");
        let named: Vec<&str> = named.split('`').skip(1).step_by(2).collect();
        assert!(!named.is_empty(), "no test: {row}");
        for name in named {
            assert!(tests.contains(name), "there is no test {name}: {row}");
        }
    }
}
