//! The README's worked example says what the program says of the demo.

use crate::verbs::json;
use serde_json::Value;

const README: &str = include_str!("../../README.md");
const DEMO: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/sample_data/demo.ron");

/// Cells of the table whose head begins like this, row by row.
fn table(head: &str) -> Vec<Vec<String>> {
    let (_, rest) = README.split_once(head).expect("the table is there");
    rest.lines()
        .skip(2)
        .take_while(|line| line.starts_with('|'))
        .map(|line| {
            let cells = line.trim_matches('|').split('|');
            cells.map(|cell| cell.trim().to_owned()).collect()
        })
        .collect()
}

fn said(verb: &str, trial: &str) -> Value {
    json(&[
        verb,
        DEMO,
        "--spec",
        "Salt Meadow",
        "--trial",
        trial,
        "--json",
    ])
}

#[test]
fn the_table_of_trials_holds_the_figures_of_the_demo() {
    let rows = table("| trial | sweet, g/L |");
    assert!(rows.len() >= 5, "a chain of trials: {rows:?}");
    for row in rows {
        let figures = said("figures", &row[0]);
        let point = &figures["point"];
        let found = [
            &point["sweet_g_per_l"],
            &point["sour_g_per_l"],
            &point["strength_pct_vol"],
            &figures["distance_steps"],
        ];
        assert_eq!(
            row.len(),
            1 + found.len(),
            "a figure for each head: {row:?}"
        );
        for (written, found) in row[1..].iter().zip(found) {
            let found = format!("{:.1}", found.as_f64().expect("a number"));
            assert_eq!(*written, found, "{}", row[0]);
        }
    }
}

#[test]
fn the_smallest_change_of_the_example_is_what_the_program_proposes_and_proves() {
    let answer = said("rebalance", "Quince for honey");
    let proposals = answer["proposals"].as_array().expect("a list");
    let smallest = |proposal: &&Value| {
        let kinds = proposal["kinds"].as_array().expect("kinds");
        kinds.iter().any(|kind| kind == "Smallest change")
    };
    let proposal = proposals.iter().find(smallest).expect("it is proposed");
    let (_, line) = README.split_once("*Ask for a proposal.*").expect("a step");
    let line = line.lines().next().expect("a line");
    let changes = proposal["changes"].as_array().expect("changes");
    assert!(!changes.is_empty(), "something is to be poured differently");
    for change in changes {
        let (from, to) = (&change["from"], &change["to"]);
        let name = change["name"].as_str().expect("a name");
        let name = name.trim_end_matches(" juice");
        let number = |value: &Value| format!("{} ml", value.as_f64().expect("a number"));
        assert!(
            line.contains(&number(to)) && line.contains(&number(from)),
            "{change}"
        );
        assert!(line.contains(name), "{name}");
    }
    assert!(proposal["distance_steps"].as_f64().expect("a number") <= 1.0);
    assert_eq!(proposal["evidence"][0]["proof"], "the proof is complete");
}

#[test]
fn every_picture_and_page_that_the_readme_shows_is_there() {
    let root = std::path::Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut links = 0;
    for part in README.split("](").skip(1) {
        let (link, _) = part.split_once(')').expect("a link ends");
        if !link.contains("://") {
            assert!(root.join(link).is_file(), "{link} is not there");
            links += 1;
        }
    }
    assert!(links >= 8, "pictures of every view, sources, format");
}
