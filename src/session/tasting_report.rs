//! A tasting as Markdown to send, and its raw answers as a table that programs read.

use super::tasting_answers::filled_ballots;
use super::tasting_kept::{sample_names, sample_now};
use super::tasting_paper::{cell, choice_asked, table_row, table_rule};
use super::text::pour_name;
use crate::model::{Choice, Criterion, Cup, Document, Taster, Tasting, TastingMethod};
use crate::store::PlainTable;
use crate::units::{exact, trimmed};

/// Heads of the answers that a method asks for in every cup.
pub fn answer_heads(method: &TastingMethod) -> Vec<String> {
    match method {
        TastingMethod::JustRight { attributes } => {
            let names = attributes.iter().map(|one| one.name().to_owned());
            names.chain(["liking".to_owned()]).collect()
        }
        TastingMethod::Preference | TastingMethod::Triangle | TastingMethod::DuoTrio => {
            vec!["chosen".to_owned()]
        }
        TastingMethod::Ranking => vec!["rank".to_owned()],
        TastingMethod::ScoreSheet { criteria, time } => {
            let names = criteria.iter().map(|line| line.name.clone());
            let seconds = time.map(|_| "seconds".to_owned());
            names.chain(seconds).collect()
        }
    }
}

/// The answers of one cup under those heads; empty where none was given.
pub fn answer_cells(tasting: &Tasting, taster: &Taster, place: usize, cup: &Cup) -> Vec<String> {
    let whole = |value: Option<u8>| value.map_or_else(String::new, |value| value.to_string());
    let figure = |value: Option<f64>| value.map_or_else(String::new, exact);
    match &tasting.method {
        TastingMethod::JustRight { attributes } => {
            let scales = attributes
                .iter()
                .map(|one| whole(cup.right.get(one).copied()));
            scales.chain([whole(cup.liking)]).collect()
        }
        TastingMethod::Preference | TastingMethod::Triangle | TastingMethod::DuoTrio => {
            let chosen = match taster.choice {
                None => String::new(),
                Some(Choice::Neither) => choice_asked(&tasting.method).1.to_owned(),
                Some(Choice::Cup(chosen)) if chosen == place => "yes".to_owned(),
                Some(Choice::Cup(_)) => "no".to_owned(),
            };
            vec![chosen]
        }
        TastingMethod::Ranking => vec![whole(cup.rank)],
        TastingMethod::ScoreSheet { criteria, time } => {
            let marks = (0..criteria.len()).map(|line| figure(cup.marks.get(&line).copied()));
            let seconds = time.map(|_| figure(cup.seconds));
            marks.chain(seconds).collect()
        }
    }
}

/// Raw answers: one row for each taster and cup.
pub fn answer_table(document: &Document, tasting: &Tasting) -> PlainTable {
    let names = sample_names(document, tasting);
    let mut heads: Vec<String> = ["taster", "place", "code", "trial"]
        .map(str::to_owned)
        .into();
    if tasting.method == TastingMethod::DuoTrio {
        heads.push("reference".to_owned());
    }
    heads.extend(answer_heads(&tasting.method));
    heads.push("comment".to_owned());
    let mut rows = Vec::new();
    let name = |sample: usize| names.get(sample).cloned().unwrap_or_default();
    for taster in &tasting.tasters {
        for (place, cup) in taster.cups.iter().enumerate() {
            let mut cells = vec![
                taster.name.clone(),
                (place + 1).to_string(),
                cup.code.to_string(),
                name(cup.sample),
            ];
            if tasting.method == TastingMethod::DuoTrio {
                cells.push(taster.reference.map_or_else(String::new, name));
            }
            cells.extend(answer_cells(tasting, taster, place, cup));
            cells.push(cup.comment.clone());
            rows.push(cells);
        }
    }
    PlainTable { heads, rows }
}

/// The tasting as Markdown: what was tasted as it was tasted, what was found, who answered what.
///
/// `found` are the conclusions in words, one a line; while the tasting is open nothing but how far it
/// has come is told, so that nobody learns a code from it.
pub fn tasting_markdown(document: &Document, tasting: &Tasting, found: &[String]) -> String {
    let day = if tasting.on.is_empty() {
        String::new()
    } else {
        format!("{}, ", tasting.on)
    };
    let mut lines = vec![
        format!("# {}", cell(&tasting.title)),
        String::new(),
        format!(
            "{day}{}, {} of {} ballots filled.",
            tasting.method.name(),
            filled_ballots(tasting),
            tasting.tasters.len()
        ),
    ];
    if !tasting.notes.is_empty() {
        let notes: Vec<String> = tasting.notes.lines().map(cell).collect();
        lines.extend([String::new(), notes.join("\n")]);
    }
    if tasting.closed {
        lines.extend(samples(document, tasting));
        if !found.is_empty() {
            lines.extend(heading("## What it says"));
            lines.extend(found.iter().map(|line| format!("- {}", cell(line))));
        }
        lines.extend(answers(document, tasting));
    } else {
        let words = "Still open: results follow once the codes are lifted.";
        lines.extend([String::new(), words.to_owned()]);
    }
    lines.push(String::new());
    lines.join("\n")
}

/// A heading with an empty line on either side.
fn heading(words: &str) -> [String; 3] {
    [String::new(), words.to_owned(), String::new()]
}

fn samples(document: &Document, tasting: &Tasting) -> Vec<String> {
    let mut lines = vec![String::new(), "## What was tasted".to_owned()];
    let names = sample_names(document, tasting);
    for (sample, name) in tasting.samples.iter().zip(&names) {
        lines.extend(heading(&format!("### {}", cell(name))));
        if let Some(words) = sample_now(document, sample).words() {
            lines.extend([format!("({words})"), String::new()]);
        }
        let trial = &sample.as_tasted;
        for (place, pour) in trial.poured() {
            let value = pour.amount.value().unwrap_or(0.0);
            let amount = pour.amount_text(value, &document.measures);
            let name = cell(pour_name(document, trial, place));
            lines.push(format!("- {amount} {name}"));
        }
    }
    lines
}

fn answers(document: &Document, tasting: &Tasting) -> Vec<String> {
    let names = sample_names(document, tasting);
    let mut heads = ["taster", "trial", "code"].map(str::to_owned).to_vec();
    heads.extend(answer_heads(&tasting.method));
    heads.push("comment".to_owned());
    let mut lines = heading("## Answers").to_vec();
    lines.extend([table_row(&heads), table_rule(heads.len())]);
    for taster in &tasting.tasters {
        for (place, cup) in taster.cups.iter().enumerate() {
            let trial = names.get(cup.sample).map_or("?", String::as_str);
            let mut cells = vec![taster.name.clone(), trial.to_owned(), cup.code.to_string()];
            cells.extend(answer_cells(tasting, taster, place, cup));
            cells.push(cup.comment.clone());
            lines.push(table_row(&cells));
        }
    }
    if let TastingMethod::ScoreSheet { criteria, .. } = &tasting.method {
        let line = |one: &Criterion| {
            let (most, weight) = (trimmed(one.most, 2), trimmed(one.weight, 2));
            format!("{} of {most}, weight {weight}", cell(&one.name))
        };
        let all: Vec<String> = criteria.iter().map(line).collect();
        lines.extend([String::new(), format!("Criteria: {}.", all.join("; "))]);
    }
    lines
}
